package draw

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"swardwright/report/face"
	"swardwright/report/form"
	"swardwright/site/light"
	"swardwright/sowing"
)

const (
	mapMaxH    = 122.0 // of the plan, mm
	lightMaxH  = 84.0  // of the map of light, mm
	legendMin  = 52.0  // width kept for the legend, mm
	legendMaxH = 215.0 // how far down it goes on, so that the drawing fits a page, mm
	small      = 8.0   // type of labels and legends, pt
)

// plot turns metres of the plan into millimetres of the drawing.
type plot struct {
	view       Box     // on the drawing
	left, top  float64 // m, of the view's corner
	perM       float64 // mm on paper for each metre
	scale      string  // "1 : 200"
	minX, minY float64 // extent of the lawn, m
	maxX, maxY float64
	lawn       [][]Point // outlines on the drawing
}

func (p *plot) at(q light.Point) Point {
	return Point{p.view.X + (q.X-p.left)*p.perM, p.view.Y + (p.top-q.Y)*p.perM}
}

func (p *plot) outline(part []light.Point) []Point {
	out := make([]Point, len(part))
	for i, q := range part {
		out[i] = p.at(q)
	}
	return out
}

// Scales that a scale rule carries: metric ratios, and feet to the inch.
var (
	metricScales = []float64{1, 2, 5, 10, 20, 25, 50, 100, 200, 250, 500, 1000, 1250, 2500, 5000, 10000}
	feetPerInch  = []float64{0.5, 1, 2, 4, 5, 8, 10, 20, 30, 40, 50, 60, 100, 200, 400, 800}
)

// newPlot fits the lawn, and what stands around it, into w × h at the greatest usual
// scale, showing as much of the surroundings as that scale has room for: of the
// reaches given, as multiples of the lawn's size, the first that needs no smaller
// scale than the last. It is nil when the plan has no outline.
func newPlot(s *sowing.Plan, f form.Form, w, h float64, reaches ...float64) *plot {
	best := plotAround(s, f, w, h, reaches[len(reaches)-1])
	for _, around := range reaches {
		if p := plotAround(s, f, w, h, around); p != nil && p.perM >= best.perM {
			return p
		}
	}
	return best
}

func plotAround(s *sowing.Plan, f form.Form, w, h, around float64) *plot {
	lawn := s.Site.Survey.Lawn.Parts
	p := &plot{minX: math.Inf(1), minY: math.Inf(1), maxX: math.Inf(-1), maxY: math.Inf(-1)}
	for _, part := range lawn {
		for _, q := range part {
			p.minX, p.maxX = min(p.minX, q.X), max(p.maxX, q.X)
			p.minY, p.maxY = min(p.minY, q.Y), max(p.maxY, q.Y)
		}
	}
	size := max(p.maxX-p.minX, p.maxY-p.minY)
	if !(size > 0) || math.IsInf(size, 0) {
		return nil
	}
	margin, reach := 0.08*size, around*size
	x0, x1, y0, y1 := p.minX-margin, p.maxX+margin, p.minY-margin, p.maxY+margin
	for _, o := range s.Site.Survey.Obstacles {
		for _, q := range extent(o) {
			x0, x1 = min(x0, max(q.X-0.02*size, p.minX-reach)), max(x1, min(q.X+0.02*size, p.maxX+reach))
			y0, y1 = min(y0, max(q.Y-0.02*size, p.minY-reach)), max(y1, min(q.Y+0.02*size, p.maxY+reach))
		}
	}
	fits := func(perM float64) bool { return (x1-x0)*perM <= w && (y1-y0)*perM <= h }
	if f.US() {
		for _, feet := range feetPerInch {
			p.perM, p.scale = 25.4/(feet*0.3048), "1 in = "+f.Figures(feet, 3)+" ft"
			if fits(p.perM) {
				break
			}
		}
	} else {
		for _, ratio := range metricScales {
			p.perM, p.scale = 1000/ratio, "1 : "+f.Number(ratio, 0)
			if fits(p.perM) {
				break
			}
		}
	}
	if !fits(p.perM) { // beyond every rule
		p.perM, p.scale = min(w/(x1-x0), h/(y1-y0)), "not to a usual scale"
	}
	p.left, p.top = x0, y1
	p.view = Box{0, 0, (x1 - x0) * p.perM, (y1 - y0) * p.perM}
	for _, part := range lawn {
		p.lawn = append(p.lawn, p.outline(part))
	}
	return p
}

// extent are the corners of the box around an obstacle.
func extent(o light.Obstacle) []light.Point {
	if o.Kind == light.Tree {
		r := o.CrownM / 2
		return []light.Point{{X: o.At.X - r, Y: o.At.Y - r}, {X: o.At.X + r, Y: o.At.Y + r}}
	}
	return o.Footprint
}

// Lawn is the plan of the lawn with its zones, what stands around it, north, and a
// scale bar; nil without an outline.
func Lawn(s *sowing.Plan, f form.Form, w float64) *Drawing {
	if s.Site == nil {
		return nil
	}
	p := newPlot(s, f, w-legendMin-4, mapMaxH, 0.5, 0.4, 0.3, 0.2)
	if p == nil {
		return nil
	}
	d := &Drawing{Name: "plan", Title: "Plan of the lawn", W: w}
	zones, g := s.Site.Field.Zones, newGrid(s.Site.Field)
	var ground []Item
	for _, run := range g.runs(func(c light.Cell) int { return c.Zone }) {
		ground = append(ground, rect(p.box(run), zoneTint(run.value)))
	}
	under := Group{Clip: p.view.Corners()}
	for _, part := range p.lawn {
		under.Items = append(under.Items, Area{Points: part, Fill: zoneTint(0)}, Group{Clip: part, Items: ground})
	}
	for _, l := range p.seams(g) {
		under.Items = append(under.Items, Line{Points: l, Stroke: Stroke{Color: Ink, MM: 0.2, Dash: []float64{1, 0.7}}})
	}
	for _, part := range p.lawn {
		under.Items = append(under.Items, Area{Points: part, Outline: Stroke{Color: Ink, MM: 0.5}})
	}
	for _, o := range s.Site.Survey.Obstacles {
		under.Items = append(under.Items, p.obstacle(o)...)
	}
	d.add(under, frame(p.view, Rule, 0.2))

	place := placer{view: p.view.Inset(0.6)}
	for i, z := range zones {
		c, ok := p.zoneCentre(g, i)
		if !ok {
			continue
		}
		if at, ok := place.near(c, 6.5, 6.5, 25); ok {
			d.add(bold(at.X, at.Y+middle(14), z.Letter, 14, Middle))
		}
	}
	number := 0
	for _, o := range s.Site.Survey.Obstacles {
		number++
		c := p.clamp(centre(o))
		if at, ok := place.near(p.at(c), 4.6, 4.6, 18); ok {
			d.add(Area{Points: circle(at, 2.1), Fill: White, Outline: Stroke{Color: Ink, MM: 0.2}},
				bold(at.X, at.Y+middle(7), fmt.Sprint(number), 7, Middle))
		}
	}
	p.probes(d, s, &place)

	var entries []entry
	for i, z := range zones {
		text := z.Name
		if z.Share > 0 {
			text += ": " + f.Area(z.AreaM2) + ", " + f.Percent(z.Share)
		}
		entries = append(entries, entry{key: z.Letter, fill: zoneTint(i), text: text})
	}
	for i, o := range s.Site.Survey.Obstacles {
		entries = append(entries, entry{key: fmt.Sprint(i + 1), round: true, text: obstacleText(o, f)})
	}
	entries = append(entries, probeEntries(s)...)
	p.legend(d, p.marks(d, s, f), entries)
	d.Desc = fmt.Sprintf("Plan of the lawn at %s with %d zones of light and %d obstacles around it.", plainScale(p.scale), len(zones), len(s.Site.Survey.Obstacles))
	return d
}

func plainScale(s string) string { return strings.ReplaceAll(s, " : ", ":") }

// SunMap is the light over the lawn in the growing season; nil without cells.
func SunMap(s *sowing.Plan, f form.Form, w float64) *Drawing {
	if s.Site == nil || len(s.Site.Field.Cells) == 0 {
		return nil
	}
	p := newPlot(s, f, w-legendMin-4, lightMaxH, 0.12)
	if p == nil {
		return nil
	}
	field, g := s.Site.Field, newGrid(s.Site.Field)
	low, high := math.Inf(1), 0.0
	for _, c := range field.Cells {
		low, high = min(low, c.Light.DLISeason), max(high, c.Light.DLISeason)
	}
	step := niceStep(max(high-low, 0.5), 6)
	first := max(0, math.Floor(low/step))
	last := max(math.Ceil(high/step), first+1)
	bands := int(last - first)
	bandOf := func(c light.Cell) int {
		return min(max(int(c.Light.DLISeason/step-first), 0), bands-1)
	}
	tone := func(band int) Color { return Viridis((float64(band) + 0.5) / float64(bands)) }

	d := &Drawing{Name: "light-map", Title: "Light over the lawn in the growing season", W: w}
	var cells []Item
	for _, run := range g.runs(bandOf) {
		cells = append(cells, rect(p.box(run), tone(run.value)))
	}
	under := Group{Clip: p.view.Corners()}
	for _, part := range p.lawn {
		under.Items = append(under.Items, Group{Clip: part, Items: cells}, Area{Points: part, Outline: Stroke{Color: Ink, MM: 0.5}})
	}
	for _, o := range s.Site.Survey.Obstacles {
		under.Items = append(under.Items, p.obstacle(o)...)
	}
	d.add(under, frame(p.view, Rule, 0.2))
	place := placer{view: p.view.Inset(0.6)}
	// One figure in each band, where it is widest, so that no one has to match colours.
	for band := range bands {
		c, ok := p.widest(g, band, bandOf)
		if !ok {
			continue
		}
		label := f.Span(float64(band)*step+first*step, float64(band+1)*step+first*step, stepDecimals(step))
		box := face.Width(label, face.Bold, small)
		if at, ok := place.near(c, box+1.4, 4, 6); ok {
			t := bold(at.X, at.Y+middle(small), label, small, Middle)
			t.Color = White
			d.add(rect(Box{at.X - box/2 - 0.7, at.Y - 2, box + 1.4, 4}, Ink), t)
		}
	}
	p.probes(d, s, &place)
	entries := []entry{{text: "Photosynthetic light under average cloud, mol a m² and day, mean of the growing season:"}}
	for band := bands - 1; band >= 0; band-- {
		label := f.Span(float64(band)*step+first*step, float64(band+1)*step+first*step, stepDecimals(step))
		entries = append(entries, entry{fill: tone(band), key: " ", text: label})
	}
	entries = append(entries, probeEntries(s)...)
	p.legend(d, p.marks(d, s, f), entries)
	d.Desc = fmt.Sprintf("Map of the lawn coloured by daily light in the growing season, from %s to %s mol a square metre and day.", f.Number(low, 1), f.Number(high, 1))
	return d
}

// stepDecimals is how many decimals a scale in steps of step needs.
func stepDecimals(step float64) int {
	for n := range 4 {
		if x := step * math.Pow10(n); math.Abs(x-math.Round(x)) < 1e-6*x {
			return n
		}
	}
	return 4
}

// zoneTint darkens with shade.
func zoneTint(zone int) Color { return tint(Green, 0.16+0.2*float64(min(max(zone, 0), 3))) }

// run is a row of equal cells side by side, in metres.
type run struct {
	x0, x1, y0, y1 float64
	value          int
}

// grid finds the cells of a field by column and row. It knows only the cells there
// are: the parts of a lawn may lie far apart.
type grid struct {
	at    map[[2]int]int // index in spots
	spots []spot         // by row, then by column
	cell  float64
}

type spot struct {
	col, row int
	light.Cell
}

func newGrid(field light.Field) *grid {
	g := &grid{cell: field.CellM, at: make(map[[2]int]int, len(field.Cells))}
	if !(g.cell > 0) || len(field.Cells) == 0 {
		return g
	}
	left, foot := math.Inf(1), math.Inf(1)
	for _, c := range field.Cells {
		left, foot = min(left, c.At.X), min(foot, c.At.Y)
	}
	place := func(at, from float64) int { return int(math.Round((at - from) / g.cell)) }
	for _, c := range field.Cells {
		g.spots = append(g.spots, spot{place(c.At.X, left), place(c.At.Y, foot), c})
	}
	slices.SortStableFunc(g.spots, func(a, b spot) int {
		return cmp.Or(cmp.Compare(a.row, b.row), cmp.Compare(a.col, b.col))
	})
	for i, s := range g.spots {
		g.at[[2]int{s.col, s.row}] = i
	}
	return g
}

// index is where the cell of a column and row stands in spots, -1 where there is none.
func (g *grid) index(col, row int) int {
	if i, ok := g.at[[2]int{col, row}]; ok {
		return i
	}
	return -1
}

// runs joins cells of equal value in each row.
func (g *grid) runs(value func(light.Cell) int) []run {
	var out []run
	for i, s := range g.spots {
		v, half := value(s.Cell), g.cell/2
		if i > 0 && out[len(out)-1].value == v && g.spots[i-1].row == s.row && g.spots[i-1].col == s.col-1 {
			out[len(out)-1].x1 = s.At.X + half
			continue
		}
		out = append(out, run{s.At.X - half, s.At.X + half, s.At.Y - half, s.At.Y + half, v})
	}
	return out
}

// box is a run on the drawing, a hair larger so that no paper shows between runs.
func (p *plot) box(r run) Box {
	a := p.at(light.Point{X: r.x0, Y: r.y1})
	const hair = 0.12
	return Box{a.X - hair, a.Y - hair, (r.x1-r.x0)*p.perM + 2*hair, (r.y1-r.y0)*p.perM + 2*hair}
}

// seams are the borders between zones.
func (p *plot) seams(g *grid) [][]Point {
	var out [][]Point
	half := g.cell / 2
	for _, c := range g.spots {
		corner := p.at(light.Point{X: c.At.X + half, Y: c.At.Y + half})
		if i := g.index(c.col+1, c.row); i >= 0 && g.spots[i].Zone != c.Zone {
			out = append(out, []Point{p.at(light.Point{X: c.At.X + half, Y: c.At.Y - half}), corner})
		}
		if i := g.index(c.col, c.row+1); i >= 0 && g.spots[i].Zone != c.Zone {
			out = append(out, []Point{p.at(light.Point{X: c.At.X - half, Y: c.At.Y + half}), corner})
		}
	}
	return out
}

// zoneCentre is a place well inside a zone for its letter.
func (p *plot) zoneCentre(g *grid, zone int) (Point, bool) {
	if len(g.spots) == 0 {
		if zone > 0 || len(p.lawn) == 0 {
			return Point{}, false
		}
		return mean(p.lawn[0]), true
	}
	return p.widest(g, zone, func(c light.Cell) int { return c.Zone })
}

// widest is the middle of the largest square of cells with one value.
func (p *plot) widest(g *grid, value int, of func(light.Cell) int) (Point, bool) {
	side := make([]int, len(g.spots)) // of the largest square whose upper right cell this is
	sideAt := func(col, row int) int {
		if i := g.index(col, row); i >= 0 {
			return side[i]
		}
		return 0
	}
	best, at, off := 0, light.Point{}, 0.0
	middle := light.Point{X: (p.minX + p.maxX) / 2, Y: (p.minY + p.maxY) / 2}
	for i, c := range g.spots {
		if of(c.Cell) != value {
			continue
		}
		side[i] = 1 + min(sideAt(c.col-1, c.row), sideAt(c.col, c.row-1), sideAt(c.col-1, c.row-1))
		back := float64(side[i]-1) / 2 * g.cell
		q := light.Point{X: c.At.X - back, Y: c.At.Y - back}
		// Of equal squares the one nearest the middle of the lawn.
		if d := math.Hypot(q.X-middle.X, q.Y-middle.Y); side[i] > best || side[i] == best && d < off {
			best, at, off = side[i], q, d
		}
	}
	return p.at(at), best > 0
}

func mean(ps []Point) (c Point) {
	for _, q := range ps {
		c.X += q.X / float64(len(ps))
		c.Y += q.Y / float64(len(ps))
	}
	return c
}

// obstacle draws one obstacle by its kind: roofs grey, a ridge on a gable, screens
// hatched, crowns round with their stem, dashed where the leaves fall.
func (p *plot) obstacle(o light.Obstacle) []Item {
	edge := Stroke{Color: Ink, MM: 0.25}
	switch o.Kind {
	case light.Tree:
		c, r := p.at(o.At), max(o.CrownM/2*p.perM, 0.8)
		crown := Area{Points: circle(c, r), Outline: edge}
		if o.Leaf != light.Evergreen {
			crown.Outline.Dash = []float64{1.2, 0.6}
		}
		return []Item{crown, Area{Points: circle(c, min(0.6, r/2)), Fill: Ink}}
	case light.Screen:
		pts := p.outline(o.Footprint)
		items := Filled(pts, White, Rising)
		return append(items, Area{Points: pts, Outline: Stroke{Color: Ink, MM: 0.4}})
	default:
		pts := p.outline(o.Footprint)
		items := []Item{Area{Points: pts, Fill: "#cfcfcb", Outline: edge}}
		if o.Kind == light.Gable && len(pts) == 4 {
			a, b := mean(pts[0:2]), mean(pts[2:4])
			c, e := mean(pts[1:3]), mean([]Point{pts[3], pts[0]})
			if math.Hypot(a.X-b.X, a.Y-b.Y) > math.Hypot(c.X-e.X, c.Y-e.Y) {
				items = append(items, Line{Points: []Point{a, b}, Stroke: edge})
			} else {
				items = append(items, Line{Points: []Point{c, e}, Stroke: edge})
			}
		}
		return items
	}
}

func centre(o light.Obstacle) light.Point {
	if o.Kind == light.Tree {
		return o.At
	}
	var c light.Point
	for _, q := range o.Footprint {
		c.X += q.X / float64(len(o.Footprint))
		c.Y += q.Y / float64(len(o.Footprint))
	}
	return c
}

// clamp moves a place outside the view to its nearest edge.
func (p *plot) clamp(q light.Point) light.Point {
	in := 3 / p.perM
	w, h := p.view.W/p.perM, p.view.H/p.perM
	return light.Point{X: min(max(q.X, p.left+in), p.left+w-in), Y: min(max(q.Y, p.top-h+in), p.top-in)}
}

func obstacleText(o light.Obstacle, f form.Form) string {
	text := strings.TrimSpace(o.Name)
	if text == "" {
		text = string(o.Kind)
	}
	switch {
	case o.TopM != nil:
		text += ", top at " + f.Length(*o.TopM)
	case o.HeightM > 0:
		text += ", " + f.Length(o.HeightM) + " high"
	}
	if o.Kind == light.Tree && o.Leaf != "" {
		text += ", " + string(o.Leaf)
	}
	return text
}

// probes marks the named points with a cross and a small letter.
func (p *plot) probes(d *Drawing, s *sowing.Plan, place *placer) {
	for i, pr := range s.Site.Field.Probes {
		c := p.at(pr.At)
		if !p.view.contains(c) {
			continue
		}
		const arm = 1.1
		d.add(line(c.X-arm, c.Y, c.X+arm, c.Y, White, 0.9), line(c.X, c.Y-arm, c.X, c.Y+arm, White, 0.9),
			line(c.X-arm, c.Y, c.X+arm, c.Y, Ink, 0.35), line(c.X, c.Y-arm, c.X, c.Y+arm, Ink, 0.35))
		key := probeKey(i)
		if at, ok := place.near(Point{c.X + 3, c.Y}, 3.6, 3.8, 12); ok {
			d.add(rect(Box{at.X - 1.7, at.Y - 1.8, 3.4, 3.6}, White), bold(at.X, at.Y+middle(small), key, small, Middle))
		}
	}
}

func probeKey(i int) string {
	if i < 26 {
		return string(rune('a' + i))
	}
	return fmt.Sprint(i + 1)
}

func probeEntries(s *sowing.Plan) []entry {
	var out []entry
	for i, pr := range s.Site.Field.Probes {
		out = append(out, entry{key: probeKey(i), cross: true, text: pr.Name})
	}
	return out
}

func (b Box) contains(p Point) bool {
	return p.X >= b.X && p.X <= b.X+b.W && p.Y >= b.Y && p.Y <= b.Y+b.H
}

// marks draws the scale bar and north beside the map, and tells how far down they
// reach.
func (p *plot) marks(d *Drawing, s *sowing.Plan, f form.Form) float64 {
	x, right := p.view.W+5, d.W
	d.add(quiet(x, 2.4, "Scale "+p.scale+" on paper", small, Start))
	unit, name := 1.0, "m"
	if f.US() {
		unit, name = 0.3048, "ft"
	}
	// Two parts of 1, 2 or 5 times a power of ten, as long as there is room for.
	room := (right - x - 24) / 2 / p.perM / unit
	length := math.Pow(10, math.Floor(math.Log10(room)))
	for _, times := range []float64{5, 2} {
		if length*times <= room {
			length *= times
			break
		}
	}
	w := length * unit * p.perM
	const y = 10.5
	x += 0.8
	d.add(rect(Box{x, y, w, 1.2}, Ink), frame(Box{x, y, 2 * w, 1.2}, Ink, 0.2),
		text(x, y-1.2, "0", small, Middle), text(x+2*w, y-1.2, f.Figures(2*length, 3)+" "+name, small, Middle))
	if label := f.Figures(length, 3); 0.7*face.Width(label, face.Regular, small)+6 < w {
		d.add(text(x+w, y-1.2, label, small, Middle))
	}

	// North: the plan's y axis points to bearing PlanNorthDeg.
	sin, cos := math.Sincos(s.Site.Survey.Lawn.PlanNorthDeg * math.Pi / 180)
	c := Point{right - 7.5, 7.5}
	north := func(along, across float64) Point {
		return Point{c.X - sin*along + cos*across, c.Y - cos*along - sin*across}
	}
	n := north(5.4, 0)
	d.add(Area{Points: []Point{north(3.4, 0), north(-4.6, 1.8), north(-3.2, 0), north(-4.6, -1.8)}, Fill: Ink},
		bold(n.X, n.Y+middle(7), "N", 7, Middle))
	return 16.5
}

// entry is one line of a legend.
type entry struct {
	key          string
	fill         Color
	round, cross bool
	text         string
}

// legend sets the entries to the right of the map from y down, and goes on in three
// columns below it where there are many. It fixes the drawing's height.
func (p *plot) legend(d *Drawing, y float64, entries []entry) {
	const keyW, gap = 6.5, 1.0
	x := p.view.W + 5
	width := d.W - x
	bottom := max(p.view.H, 80)
	below := false
	rowTop, rowH, column := 0.0, 0.0, 0
	end := p.view.H
	rest := 0
	for n, e := range entries {
		if below && column == 0 && rowTop > legendMaxH {
			rest = len(entries) - n
			break
		}
		indent := keyW
		if e.key == "" {
			indent = 0
		}
		lines, h := block(0, 0, width-indent, e.text, small, face.Regular, Ink)
		if !below && y+h > bottom {
			below = true
			rowTop, column, width = max(p.view.H, y)+3, 0, (d.W-2*4)/3
			rowH = 0
		}
		if below {
			lines, h = block(0, 0, width-indent, e.text, small, face.Regular, Ink)
			x, y = float64(column)*(width+4), rowTop
			rowH = max(rowH, h)
			if column++; column == 3 {
				column, rowTop, rowH = 0, rowTop+rowH+gap, 0
			}
		}
		const keyMid = 1.5
		switch {
		case e.fill != "":
			d.add(Area{Points: Box{x, y - 0.2, 4.4, 3.6}.Corners(), Fill: e.fill, Outline: Stroke{Color: Ink, MM: 0.15}})
			if e.key != " " {
				t := bold(x+2.2, y+keyMid+middle(small), e.key, small, Middle)
				t.Color = inkOn(e.fill)
				d.add(t)
			}
		case e.round:
			d.add(Area{Points: circle(Point{x + 2.2, y + keyMid}, 2), Outline: Stroke{Color: Ink, MM: 0.2}}, bold(x+2.2, y+keyMid+middle(7), e.key, 7, Middle))
		case e.cross:
			d.add(line(x, y+keyMid, x+2, y+keyMid, Ink, 0.35), line(x+1, y+keyMid-1, x+1, y+keyMid+1, Ink, 0.35), bold(x+4, y+keyMid+middle(small), e.key, small, Middle))
		}
		d.add(Group{DX: x + indent, DY: y + 0.2, Items: lines})
		end = max(end, y+h)
		y += h + gap
	}
	if rest > 0 {
		d.add(quiet(0, end+4, fmt.Sprintf("and %d more", rest), small, Start))
		end += 5
	}
	d.H = end + 0.5
}
