package draw

import (
	"fmt"
	"strings"

	"swardwright/report/face"
	"swardwright/report/form"
	"swardwright/sowing"
	"swardwright/species"
)

// mostRows is how many grasses a drawn matrix shows besides those of the mixture.
const mostRows = 10

// classTone is how a class looks: light is good, dark is bad, and its letter is in it.
var classTone = map[species.Class]Color{
	species.S1: tint(Viridis(0.98), 0.45), species.S2: tint(Viridis(0.78), 0.55), species.S3: tint(Viridis(0.55), 0.65), species.N1: tint(Viridis(0.27), 0.85), species.N2: Viridis(0.04),
}

var classes = []struct {
	class species.Class
	means string
}{{species.S1, "highly suitable"}, {species.S2, "moderately"}, {species.S3, "marginally"}, {species.N1, "not now"}, {species.N2, "not at all"}}

// Matrix is the suitability of the leading grasses in one zone by every criterion,
// and of those of the mixture that are not among them.
func Matrix(s *sowing.Plan, f form.Form, zone int, w float64) *Drawing {
	rows := MatrixRows(s, zone)
	if len(rows) == 0 || len(s.Matrix.Criteria) == 0 {
		return nil
	}
	sown := map[*species.Species]bool{}
	if m := s.Choice.Mixture; m != nil {
		for _, c := range m.Components {
			sown[c.Species] = true
		}
	}
	zoneName := ""
	if s.Site != nil && zone < len(s.Site.Zones) {
		zoneName = s.Site.Zones[zone].Letter + ", " + s.Site.Zones[zone].Name
	}
	d := &Drawing{Name: fmt.Sprintf("matrix-%d", zone+1), Title: "Suitability of the grasses: zone " + zoneName, W: w}
	const rowH, overallW = 5.3, 11.0
	nameW := min(48, w*0.3)
	cellW := min((w-nameW-overallW-2)/float64(len(s.Matrix.Criteria)), 12)
	headH := 0.0
	for _, c := range s.Matrix.Criteria {
		for _, l := range headLines(c.Title) {
			headH = max(headH, min(face.Width(l, face.Regular, small), 40))
		}
	}
	headH += 3
	left := func(k int) float64 { return nameW + overallW + 2 + float64(k)*cellW }
	d.add(Text{At: Point{nameW + overallW/2 + middle(small), headH - 2}, S: "Overall", PT: small, Weight: face.Bold, Color: Ink, TurnDeg: 90})
	for k, c := range s.Matrix.Criteria {
		lines := headLines(c.Title)
		for n, l := range lines {
			x := left(k) + cellW/2 + middle(small) + (float64(n)-float64(len(lines)-1)/2)*1.15*small*face.MMPerPoint
			d.add(Text{At: Point{x, headH - 2}, S: face.Shorten(l, face.Regular, small, headH-2), PT: small, Color: Ink, TurnDeg: 90})
		}
	}
	for i, r := range rows {
		y := headH + float64(i)*rowH
		name, weight := form.Capital(f.GrassName(r.Species)), face.Regular
		if sown[r.Species] {
			weight = face.Bold
			d.add(Area{Points: []Point{{0, y + 1.6}, {1.9, y + rowH/2}, {0, y + rowH - 1.6}}, Fill: Ink})
		}
		d.add(Text{At: Point{3, y + rowH/2 + middle(small)}, S: face.Shorten(name, weight, small, nameW-4), PT: small, Weight: weight, Color: Ink})
		d.classCell(Box{nameW, y, overallW, rowH}, r.Class, true, false)
		for k, rating := range r.Ratings {
			if k < len(s.Matrix.Criteria) {
				d.classCell(Box{left(k), y, cellW, rowH}, species.ClassOf(rating.Value), false, rating.Criterion == r.LimitedBy)
			}
		}
	}
	bottom := headH + float64(len(rows))*rowH + 2.5
	x := 0.0
	for _, c := range classes {
		d.classCell(Box{x, bottom, 8, 4.6}, c.class, false, false)
		d.add(text(x+9.2, bottom+2.3+middle(small), c.means, small, Start))
		x += 9.2 + face.Width(c.means, face.Regular, small) + 3
	}
	if x+38 > w {
		x, bottom = 0, bottom+6
	}
	d.classCell(Box{x, bottom, 8, 4.6}, "", false, true)
	d.add(text(x+9.2, bottom+2.3+middle(small), "what limits it", small, Start))
	x += 9.2 + face.Width("what limits it", face.Regular, small) + 3
	d.add(Area{Points: []Point{{x, bottom + 1}, {x + 1.9, bottom + 2.3}, {x, bottom + 3.6}}, Fill: Ink}, text(x+3.2, bottom+2.3+middle(small), "sown", small, Start))
	d.H = bottom + 5.2

	var words []string
	for _, r := range rows {
		words = append(words, fmt.Sprintf("%s %s, limited by %s", f.GrassName(r.Species), r.Class, species.Limit(r.LimitedBy)))
	}
	d.Desc = "Classes of suitability, best first: " + strings.Join(words, "; ") + "."
	return d
}

// headLines is the title of a criterion on one line or, where it is long, on two.
func headLines(title string) []string {
	if lines := face.Wrap(title, face.Regular, small, 22); len(lines) <= 2 {
		return lines
	}
	return []string{title}
}

// MatrixRows are the rows of a zone that its matrix draws, best first: the leading
// grasses, and those of the mixture.
func MatrixRows(s *sowing.Plan, zone int) []species.Row {
	sown := map[*species.Species]bool{}
	if m := s.Choice.Mixture; m != nil {
		for _, c := range m.Components {
			sown[c.Species] = true
		}
	}
	var rows []species.Row
	for _, r := range s.Matrix.Rows {
		if r.Zone == zone && (len(rows) < mostRows || sown[r.Species]) {
			rows = append(rows, r)
		}
	}
	return rows
}

// classCell is one cell: tone, class, and a thick frame with a corner where it limits.
func (d *Drawing) classCell(b Box, class species.Class, strong, limits bool) {
	in := b.Inset(0.25)
	ground := classTone[class]
	if ground == "" {
		ground = White
	}
	d.add(rect(in, ground))
	if class != "" {
		t := text(b.X+b.W/2, b.Y+b.H/2+middle(7), string(class), 7, Middle)
		t.Color = inkOn(ground)
		if strong || limits {
			t.Weight = face.Bold
		}
		d.add(t)
	}
	if limits {
		line := Ink
		edge := in.Inset(0.35)
		d.add(frame(edge, White, 1.1), frame(edge, line, 0.6), Area{Points: []Point{{in.X, in.Y}, {in.X + 2, in.Y}, {in.X, in.Y + 2}}, Fill: line, Outline: Stroke{White, 0.15, nil}})
	}
}
