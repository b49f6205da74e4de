package draw

import (
	"math"

	"swardwright/internal/told"
	"swardwright/report/face"
	"swardwright/report/say"
	"swardwright/site/light"
)

// Pass is the seed of one zone in each of the two passes.
type Pass struct {
	Zone  int // index in Site.Zones
	Grams float64
}

// sowingPasses is a sketch of the two passes over the lawn, the second at right angles
// to the first or both level along the slope, with the seed of each zone; nil without an
// outline or without seed.
func sowingPasses(s Site, passes []Pass, level bool, f *say.Sayer, w float64) *Drawing {
	if len(passes) == 0 {
		return nil
	}
	const apart, top = 6.0, 6.0
	each := (w - apart) / 2
	p := newPlot(Site{Lawn: s.Lawn}, f, each, 54, 6, tight)
	if p == nil {
		return nil
	}
	d := &Drawing{Name: "passes", Title: f.Say(told.Say("draw.passes")), W: w, H: top + p.all.H + 0.5}
	g := newGrid(s.Field)
	of := func(c light.Cell) int { return c.Zone }
	var total float64
	for _, q := range passes {
		total += q.Grams
	}
	var words []told.Sentence
	for _, q := range passes {
		words = append(words, told.Say("draw.zone-grams", told.Zone(s.Zones[q.Zone].Letter), told.MassG(q.Grams)))
	}
	grams, zones := told.MassG(total), told.Joined(told.Commas, words...)
	along, turn := longest(s.Lawn), 90.0
	names, desc := []told.Sentence{told.Say("draw.first-pass", grams), told.Say("draw.second-pass", grams)}, told.Say("draw.passes-desc", zones)
	if level {
		along, turn = s.NorthDeg-s.AspectDeg, 0
		names[1], desc = told.Say("draw.second-level-pass", grams), told.Say("draw.level-passes-desc", zones)
	}
	for k, name := range names {
		sub := &Drawing{W: each}
		sub.add(Text{At: Point{0, 3}, S: face.Shorten(f.Say(name), face.Bold, small, each), PT: small, Weight: face.Bold, Color: Ink})
		inner := &Drawing{W: each, H: p.all.H}
		p.pass(inner, s, g, of, along+turn*float64(k), passes, f)
		sub.add(Group{DY: top, Items: inner.Items})
		d.add(Group{DX: float64(k) * (each + apart), Items: sub.Items})
	}
	d.Desc = f.Say(desc)
	return d
}

// longest is the direction of the longest side of the lawn, degrees counter-clockwise
// from level.
func longest(lawn [][]light.Point) (deg float64) {
	most := 0.0
	for _, part := range lawn {
		sides(metres(part), func(a, b Point) {
			if l := distance(a, b); l > most+1e-9 {
				most, deg = l, math.Atan2(b.Y-a.Y, b.X-a.X)*180/math.Pi
			}
		})
	}
	return deg
}

// pass draws the walk over the lawn in one direction.
func (p *plot) pass(d *Drawing, s Site, g *grid, of func(light.Cell) int, deg float64, passes []Pass, f *say.Sayer) {
	sown := map[int]bool{}
	for _, q := range passes {
		sown[q.Zone] = true
	}
	place := &placer{view: p.all}
	levels := g.levels(of)
	for _, part := range p.lawn {
		ground := func(zone int) Color {
			if sown[zone] || len(s.Zones) == 0 {
				return tint(Green, 0.1)
			}
			return "#e4e4e0"
		}
		cut := Group{Clip: part, Items: []Item{Area{Points: part, Fill: ground(0)}}}
		for k := range s.Zones {
			if k == 0 {
				continue
			}
			for _, l := range g.contour(levels, k) {
				cut.Items = append(cut.Items, Area{Points: p.outline(l), Fill: ground(k), Outline: Stroke{Color: Ink, MM: 0.2, Dash: []float64{1, 0.7}}})
			}
		}
		for i, l := range p.walks(part, g, sown, deg) {
			a, b := l[0], l[1]
			if i%2 == 1 {
				a, b = b, a
			}
			u := Point{(b.X - a.X) / distance(a, b), (b.Y - a.Y) / distance(a, b)}
			tip := Point{b.X - 1.2*u.X, b.Y - 1.2*u.Y}
			cut.Items = append(cut.Items, line(a.X+u.X, a.Y+u.Y, tip.X, tip.Y, Blue, 0.25),
				Area{Points: []Point{tip, {tip.X - 2*u.X - 0.8*u.Y, tip.Y - 2*u.Y + 0.8*u.X}, {tip.X - 2*u.X + 0.8*u.Y, tip.Y - 2*u.Y - 0.8*u.X}}, Fill: Blue})
		}
		d.add(cut, Area{Points: part, Outline: Stroke{Color: Ink, MM: 0.45}})
	}
	for _, q := range passes {
		at, _ := g.widest(q.Zone, of)
		if len(g.spots) == 0 {
			at = p.inLawn(g)
		}
		t := Text{S: s.Zones[q.Zone].Letter + " " + f.Figure(told.MassG(q.Grams)), PT: small, Weight: face.Bold, Color: Ink}
		w, h := face.Width(t.S, t.Weight, t.PT)+3, 6.4
		clear := func(q light.Point) bool { return place.free(boxed.corners(centred(t, p.at(q)))) }
		spot, ok := g.roomFor(at, w/p.perM, h/p.perM, q.Zone, of, clear)
		if len(g.spots) == 0 {
			spot, ok = at, true
		}
		if ok {
			c := p.at(spot)
			d.set(place, centred(t, c), boxed, Box{c.X - w/2, c.Y - h/2, w, h}.Corners())
			continue
		}
		d.beside(place, t, boxed, p.lawn, p.at(at))
	}
}

// walks are the lines walked over a part of the lawn, broken off where nothing is sown.
func (p *plot) walks(part []Point, g *grid, sown map[int]bool, deg float64) [][2]Point {
	const swing, step, least = 5.5, 0.5, 3.0 // between two walks, along one, and the shortest, mm
	var out [][2]Point
	add := func(a, b Point) {
		if distance(a, b) >= least {
			out = append(out, [2]Point{a, b})
		}
	}
	for _, l := range hatches([][]Point{part}, deg, swing) {
		a, b := l[0], l[1]
		n := int(distance(a, b)/step) + 1
		at := func(i int) Point {
			return Point{a.X + (b.X-a.X)*float64(i)/float64(n), a.Y + (b.Y-a.Y)*float64(i)/float64(n)}
		}
		from := 0
		for i := range n + 1 {
			if zone := g.zone(p.back(at(i))); zone >= 0 && !sown[zone] {
				add(at(from), at(max(i-1, from)))
				from = i + 1
			}
		}
		add(at(min(from, n)), b)
	}
	return out
}
