package text

import (
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"github.com/samber/lo"

	"swardwright/report/say"
	"swardwright/site/light"
)

// Light writes the light of a lawn: by zone, by probe, by month, and its map.
func Light(w io.Writer, title string, field light.Field, planNorthDeg float64, f *say.Sayer, look Look) error {
	p := newPage(look)
	p.strongPara(strings.ToUpper(title))
	p.line("")
	lightTables(p, f, field)
	p.heading("Direct sun on a clear day, hours")
	monthTable(p, f, field, func(l light.Light) [12]float64 { return l.SunHours }, nil)
	p.heading("Daily light under average cloud, mol/m²")
	monthTable(p, f, field, func(l light.Light) [12]float64 { return l.DLI }, &field.OpenDLI)
	if len(field.Cells) > 0 {
		p.heading("The lawn")
		p.lawn(field, planNorthDeg, f)
	}
	if len(field.Notes) > 0 {
		p.heading("Notes")
		p.items(f.All(field.Notes))
	}
	return p.to(w)
}

// Days writes the direct sun at probes on chosen days of the year.
func Days(w io.Writer, title string, probes []light.ProbeDays, f *say.Sayer, look Look) error {
	p := newPage(look)
	p.strongPara(strings.ToUpper(title))
	p.line("")
	columns := []column{{title: "day", right: true}, {title: "date", right: true}}
	for i := range probes {
		columns = append(columns, column{title: fmt.Sprintf("(%d)", i+1), right: true})
	}
	var rows [][]string
	if len(probes) > 0 {
		for n, d := range probes[0].Days {
			row := []string{fmt.Sprint(d.Day), f.DayOfYear(d.Day - 1)}
			for _, q := range probes {
				row = append(row, f.Number(q.Days[n].SunHours, 2))
			}
			rows = append(rows, row)
		}
	}
	p.table(columns, rows)
	p.line("")
	for i, q := range probes {
		p.item(fmt.Sprintf("(%d) %s", i+1, q.Name))
	}
	p.para("Hours of direct sun under a clear sky.")
	return p.to(w)
}

// lightTables writes the zones and probes by their season.
func lightTables(p *page, f *say.Sayer, field light.Field) {
	var rows [][]string
	row := func(name string, share string, l light.Light) {
		rows = append(rows, []string{name, share, f.Number(l.SunHoursSeason, 1), f.Number(l.DLISeason, 1), f.Percent(l.OpenShare), f.Percent(l.SkyView)})
	}
	for _, z := range field.Zones {
		row(z.Letter+"  "+f.Say(z.Name), f.Percent(z.Share), z.Light)
	}
	title := "zone"
	if len(field.Probes) > 0 {
		title = "zone, · probe"
	}
	for _, q := range field.Probes {
		row("·  "+q.Name, "", q.Light)
	}
	p.table([]column{{title: title}, {title: "of lawn", right: true}, {title: "sun h", right: true},
		{title: "mol/m² d", right: true}, {title: "of open", right: true}, {title: "sky", right: true, optional: true}}, rows)
	p.para("Sun: direct, clear day. mol/m² d: growth light under average cloud. Both are means of the growing season.")
}

// monthTable writes one figure by month, in two half-years so that it fits.
func monthTable(p *page, f *say.Sayer, field light.Field, of func(light.Light) [12]float64, open *[12]float64) {
	type line struct {
		name   string
		values [12]float64
	}
	var lines []line
	for _, z := range field.Zones {
		lines = append(lines, line{"zone " + z.Letter, of(z.Light)})
	}
	for _, q := range field.Probes {
		lines = append(lines, line{q.Name, of(q.Light)})
	}
	if open != nil {
		lines = append(lines, line{"open lawn", *open})
	}
	for half := range 2 {
		columns := []column{{}}
		for m := range 6 {
			columns = append(columns, column{title: f.Month(time.Month(half*6 + m + 1)), right: true})
		}
		var rows [][]string
		for _, l := range lines {
			cells := []string{l.name}
			for m := range 6 {
				cells = append(cells, f.Number(l.values[half*6+m], 1))
			}
			rows = append(rows, cells)
		}
		p.table(columns, rows)
		if half == 0 {
			p.line("")
		}
	}
}

// The map is at most so many lines high, so that it fits on one screen.
const mapLines = 30

// lawn draws the lawn from above, a letter for the zone of each place and a
// number for each probe. A character is twice as high as wide.
func (p *page) lawn(field light.Field, planNorthDeg float64, f *say.Sayer) {
	if field.CellM <= 0 {
		return
	}
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, c := range field.Cells {
		x0, x1 = min(x0, c.At.X-field.CellM/2), max(x1, c.At.X+field.CellM/2)
		y0, y1 = min(y0, c.At.Y-field.CellM/2), max(y1, c.At.Y+field.CellM/2)
	}
	type place struct{ i, j int }
	at := func(x, y float64) place {
		return place{int(math.Floor((x - x0) / field.CellM)), int(math.Floor((y - y0) / field.CellM))}
	}
	zones := map[place]int{}
	for _, c := range field.Cells {
		zones[at(c.At.X, c.At.Y)] = c.Zone
	}
	wide := max((x1-x0)/float64(p.Width-2), (y1-y0)/(2*mapLines)) // metres a character
	columns, lines := int(math.Ceil((x1-x0)/wide)), int(math.Ceil((y1-y0)/(2*wide)))
	letter := func(r, c int) byte {
		if z, ok := zones[at(x0+(float64(c)+0.5)*wide, y1-(float64(r)+0.5)*2*wide)]; ok && z < len(field.Zones) {
			return field.Zones[z].Letter[0]
		}
		return ' '
	}
	grid := make([][]byte, lines)
	for r := range grid {
		grid[r] = lo.Times(columns, func(c int) byte { return letter(r, c) })
	}
	var marks []string
	for i, q := range field.Probes {
		r, c := int((y1-q.At.Y)/(2*wide)), int((q.At.X-x0)/wide)
		if i < 9 && r >= 0 && r < lines && c >= 0 && c < columns {
			grid[r][c] = byte('1' + i)
			marks = append(marks, fmt.Sprintf("%d %s", i+1, q.Name))
		}
	}
	for _, l := range grid {
		p.line(" " + string(l))
	}
	p.line("")
	for _, z := range field.Zones {
		marks = append(marks, z.Letter+" "+f.Say(z.Name))
	}
	p.para(strings.Join(marks, "; ") + ".")
	p.para(fmt.Sprintf("Up the page is %s; one character is %.2g m wide.", compass(planNorthDeg), wide))
}

// compass names a bearing to the nearest of sixteen points.
func compass(deg float64) string {
	points := []string{"north", "north-north-east", "north-east", "east-north-east", "east", "east-south-east", "south-east", "south-south-east",
		"south", "south-south-west", "south-west", "west-south-west", "west", "west-north-west", "north-west", "north-north-west"}
	i := int(math.Round(deg/22.5)) % 16
	return points[(i+16)%16]
}
