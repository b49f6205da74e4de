package draw

import (
	"fmt"
	"math"

	"swardwright/internal/steady"
	"swardwright/internal/told"
	"swardwright/report/face"
	"swardwright/report/say"
	"swardwright/site/light"
)

// quantity is something that a map shows.
type quantity struct {
	title string
	of    func(light.Cell) float64
}

// bands divide a quantity into steps of a round size.
type bands struct {
	first, step float64
	count       int
}

func bandsOf(cells []light.Cell, of func(light.Cell) float64) bands {
	low, high := math.Inf(1), 0.0
	for _, c := range cells {
		low, high = min(low, of(c)), max(high, of(c))
	}
	step := niceStep(max(high-low, 0.5), 6)
	first := max(0, math.Floor(steady.Figure(low/step))) * step
	return bands{first, step, max(int(math.Ceil(steady.Figure((high-first)/step))), 1)}
}

func (b bands) of(v float64) int {
	return min(max(int(steady.Figure((v-b.first)/b.step)), 0), b.count-1)
}

func (b bands) tone(band int) Color { return Viridis((float64(band) + 0.5) / float64(b.count)) }

func (b bands) edge(f *say.Sayer, i int) string {
	return f.Number(b.first+float64(i)*b.step, stepDecimals(b.step))
}

// lightMaps are the hours of direct sun, and the light, over the lawn in the growing
// season, beside each other on one scale; nil without cells.
func lightMaps(s Site, f *say.Sayer, w float64) *Drawing {
	if len(s.Field.Cells) == 0 {
		return nil
	}
	const apart = 6.0
	columns := 2
	if w < 120 {
		columns = 1
	}
	each := (w - apart*float64(columns-1)) / float64(columns)
	p := newPlot(s, f, each, 84, keyMargin, tight)
	if p == nil {
		return nil
	}
	d := &Drawing{Name: "light-maps", Title: f.Say(told.Say("draw.maps")), W: w}
	g := newGrid(s.Field)
	low := 0.0
	for k, q := range []quantity{
		{f.Say(told.Say("draw.sun-hours")), func(c light.Cell) float64 { return c.Light.SunHoursSeason }},
		{f.Say(told.Say("draw.dli")), func(c light.Cell) float64 { return c.Light.DLISeason }},
	} {
		panel := p.panel(s, f, g, q, each)
		d.add(Group{DX: float64(k%columns) * (each + apart), DY: float64(k/columns) * low, Items: panel.Items})
		low = panel.H + 3
		d.H = float64(k/columns+1) * low
	}
	d.H = p.marks(d, s, f, 0, d.H-0.5, w) // north stands clear of the scale of tones
	b := bandsOf(s.Field.Cells, func(c light.Cell) float64 { return c.Light.SunHoursSeason })
	d.Desc = f.Say(told.Say("draw.maps-desc", told.SunHours(b.first), told.SunHours(b.first+float64(b.count)*b.step)))
	return d
}

// panel is one map with its title and the scale of its tones.
func (p *plot) panel(s Site, f *say.Sayer, g *grid, q quantity, w float64) *Drawing {
	const top, keyH = 9.0, 3.0
	d := &Drawing{W: w}
	title, _ := block(0, 0, w, q.title, small, face.Bold, Ink)
	d.add(title...)
	b := bandsOf(s.Field.Cells, q.of)
	inner := &Drawing{W: w}
	p.bands(inner, s, f, g, q, b)
	d.add(Group{DY: top, Items: inner.Items})
	y := top + p.all.H + 2
	half := face.Width(b.edge(f, b.count), face.Regular, small) / 2
	left := max(3, half)
	step := min((w-left-half)/float64(b.count), 14)
	for i := range b.count {
		box := Box{left + float64(i)*step, y, step, keyH}
		d.add(rect(box, b.tone(i)), frame(box, Ink, 0.1))
	}
	for i := range b.count + 1 {
		d.add(quiet(left+float64(i)*step, y+keyH+3.4, b.edge(f, i), small, Middle))
	}
	d.H = y + keyH + 4.5
	return d
}

// bands draws one quantity over the lawn, with its figures in the bands where they have
// room and beside the lawn where they do not, so that no one has to match colours.
func (p *plot) bands(d *Drawing, s Site, f *say.Sayer, g *grid, q quantity, b bands) {
	of := func(c light.Cell) int { return b.of(q.of(c)) }
	place := p.tones(d, g, b, of)
	p.probes(d, place, s.Field.Probes)
	for band := range b.count {
		at, side := g.widest(band, of)
		if side == 0 {
			continue
		}
		t := Text{S: f.Range(b.edge(f, band), b.edge(f, band+1)), PT: small, Weight: face.Bold, Color: inkOn(b.tone(band))}
		// On it where there is twice the room that it needs.
		w, h := 1.25*face.Width(t.S, t.Weight, t.PT)+1.5, 6.6
		corners := func(q light.Point) []Point { return bare.corners(centred(t, p.at(q))) }
		clear := func(q light.Point) bool { return place.free(corners(q)) && place.crossed(corners(q)) == 0 }
		if spot, ok := g.roomFor(at, w/p.perM, h/p.perM, band, of, clear); ok {
			m := p.at(spot)
			d.set(place, centred(t, m), bare, Box{m.X - w/2, m.Y - h/2, w, h}.Corners())
			continue
		}
		t.Color = Ink
		d.beside(place, t, boxed, p.lawn, p.at(at))
	}
	for i, pr := range s.Field.Probes {
		c := p.at(pr.At)
		if !p.view.contains(c) {
			continue
		}
		t := Text{S: pr.Name, PT: small, Color: Ink}
		if w := face.Width(t.S, t.Weight, t.PT); w > 30 || !d.tag(place, t, boxed, []Point{c}, Point{c.X + w/2 + 2, c.Y}, 12) {
			t.S = probeKey(i)
			d.tag(place, t, boxed, []Point{c}, Point{c.X + 3, c.Y}, 20)
		}
	}
}

// tones draws the bands in their tones with what stands around, and keeps words off that.
func (p *plot) tones(d *Drawing, g *grid, b bands, of func(light.Cell) int) *placer {
	levels := g.levels(of)
	under := Group{Clip: p.view.Corners()}
	for _, part := range p.lawn {
		cut := Group{Clip: part, Items: []Item{Area{Points: part, Fill: b.tone(0)}}}
		for band := 1; band < b.count; band++ {
			var loops [][]Point
			for _, l := range g.contour(levels, band) {
				loops = append(loops, p.outline(l))
			}
			if len(loops) > 0 {
				cut.Items = append(cut.Items, Area{Points: loops[0], More: loops[1:], Fill: b.tone(band)})
			}
		}
		under.Items = append(under.Items, cut, Area{Points: part, Outline: Stroke{Color: Ink, MM: 0.4}})
	}
	place := &placer{view: p.all}
	for _, o := range p.around {
		if !o.far {
			under.Items = append(under.Items, p.obstacle(o)...)
			place.keepOff(clipped(p.shape(o), p.view))
		}
	}
	for _, part := range p.lawn {
		place.keepOff(part)
	}
	d.add(under)
	for _, o := range p.around {
		p.tear(d, o)
	}
	return place
}

// probes marks the probes with a cross.
func (p *plot) probes(d *Drawing, place *placer, probes []light.ProbeLight) {
	for _, pr := range probes {
		if c := p.at(pr.At); p.view.contains(c) {
			const arm = 1.1
			d.add(line(c.X-arm, c.Y, c.X+arm, c.Y, White, 0.9), line(c.X, c.Y-arm, c.X, c.Y+arm, White, 0.9),
				line(c.X-arm, c.Y, c.X+arm, c.Y, Ink, 0.35), line(c.X, c.Y-arm, c.X, c.Y+arm, Ink, 0.35))
			place.take(Box{c.X - arm, c.Y - arm, 2 * arm, 2 * arm})
		}
	}
}

func probeKey(i int) string {
	if i < 26 {
		return string(rune('a' + i))
	}
	return fmt.Sprint(i + 1)
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
