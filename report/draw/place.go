package draw

import (
	"math"

	"swardwright/internal/steady"
	"swardwright/report/face"
)

// placer finds room for labels: none stands on another and none leaves the view. Of
// the places left it takes the one nearest to what is named that crosses fewest lines.
type placer struct {
	view  Box
	taken [][]Point  // corners of what stands already
	lines [][2]Point // what a label had better not stand on
	solid [][]Point  // outlines that no label may touch
}

// free says whether a figure of four corners lies in view and clear of what stands
// already.
func (p *placer) free(q []Point) bool {
	for _, c := range q {
		if !p.view.contains(c) {
			return false
		}
	}
	for _, t := range p.taken {
		if overlap(q, t, 0) {
			return false
		}
	}
	for _, s := range p.solid {
		if meet(q, s) || inside(s, q[0]) || inside(q, s[0]) {
			return false
		}
	}
	return true
}

func (p *placer) take(b Box) { p.taken = append(p.taken, b.Corners()) }

// keepOff makes the sides of an outline, or a line, something not to stand on.
func (p *placer) keepOff(thing []Point) {
	sides(thing, func(a, b Point) { p.lines = append(p.lines, [2]Point{a, b}) })
}

// crossed counts the lines that a label at q would stand on.
func (p *placer) crossed(q []Point) (n float64) {
	b := bounds(q)
	for _, l := range p.lines {
		if min(l[0].X, l[1].X) > b.X+b.W || max(l[0].X, l[1].X) < b.X || min(l[0].Y, l[1].Y) > b.Y+b.H || max(l[0].Y, l[1].Y) < b.Y {
			continue
		}
		if inside(q, l[0]) || meet(q, l[:]) {
			n++
		}
	}
	return n
}

// plate is the ground of a label: none, a colour, or a ring.
type plate struct {
	fill Color
	ring bool
}

var (
	bare   = plate{}
	boxed  = plate{fill: White}
	ringed = plate{fill: White, ring: true}
)

// ringR is the radius of the ring around a number, mm.
const ringR = 2.1

// corners are the four corners of the room that a label takes, its plate included.
func (k plate) corners(t Text) []Point {
	placed := place(t)
	if k.ring {
		c := mean(placed.Corners[:])
		c.Y = t.At.Y - middle(t.PT)
		return Box{c.X - ringR - 0.15, c.Y - ringR - 0.15, 2*ringR + 0.3, 2*ringR + 0.3}.Corners()
	}
	const pad = 0.5
	sin, cos := math.Sincos(t.TurnDeg * math.Pi / 180)
	out := make([]Point, 4)
	for i, s := range [4]Point{{-pad, -pad}, {pad, -pad}, {pad, pad}, {-pad, pad}} {
		c := placed.Corners[i]
		out[i] = Point{c.X + s.X*cos + s.Y*sin, c.Y - s.X*sin + s.Y*cos}
	}
	return out
}

// centred is a text moved so that its capitals stand around c.
func centred(t Text, c Point) Text {
	sin, cos := math.Sincos(t.TurnDeg * math.Pi / 180)
	m := middle(t.PT)
	t.Anchor, t.At = Middle, Point{c.X + m*sin, c.Y + m*cos}
	return t
}

// around are places at growing distance from c.
func around(c Point, reach float64) []Point {
	const step = 1.1
	out := []Point{c}
	for r := step; r <= reach; r += step {
		n := min(int(6*r/step), 24)
		for k := range n {
			sin, cos := math.Sincos(2*math.Pi*float64(k)/float64(n) + r)
			out = append(out, Point{c.X + r*cos, c.Y + r*sin})
		}
	}
	return out
}

// What a place for a label costs besides its distance, mm.
const (
	perLine = 4.0 // that it stands on
	perTag  = 9.0 // that its leader runs through
	tied    = 2.0 // how far a label may be from its thing without a leader
)

// tag sets a label near at for the thing it names, with a leader where it had to go
// away from it, and says whether there was room.
func (d *Drawing) tag(p *placer, t Text, k plate, thing []Point, at Point, reach float64) bool {
	best, lowest := Text{}, math.Inf(1)
	for _, c := range around(at, reach) {
		away := distance(c, at)
		if away >= lowest {
			break
		}
		try := centred(t, c)
		q := k.corners(try)
		if !p.free(q) || hides(q, thing) {
			continue
		}
		cost := away + perLine*p.crossed(q)
		if far, from, to := gap(q, thing); len(thing) > 0 && far > tied && !inside(thing, q[0]) {
			for _, other := range p.taken {
				if meet(other, []Point{from, to}) {
					cost += perTag
				}
			}
		}
		if cost = steady.Figure(cost); cost < lowest {
			best, lowest = try, cost
		}
	}
	if math.IsInf(lowest, 1) {
		return false
	}
	d.set(p, best, k, thing)
	return true
}

// beside sets a label outside the lawn, with a leader to a point in it: what it names is
// too small to hold it, and on a neighbour it would mislead.
func (d *Drawing) beside(p *placer, t Text, k plate, lawn [][]Point, at Point) bool {
	p.solid = lawn
	defer func() { p.solid = nil }()
	return d.tag(p, t, k, []Point{at}, at, 80)
}

// set draws a label where it stands, with its plate and, where it is far from its
// thing, its leader.
func (d *Drawing) set(p *placer, t Text, k plate, thing []Point) {
	q := k.corners(t)
	p.taken = append(p.taken, q)
	t.Of = thing
	if far, from, to := gap(q, thing); len(thing) > 0 && (far > tied || p.solid != nil) && !(len(thing) > 2 && inside(thing, q[0])) {
		if c := (Point{t.At.X, t.At.Y - middle(t.PT)}); k.ring {
			_, _, to = gap([]Point{c}, thing)
			l := distance(c, to)
			from = Point{c.X + (to.X-c.X)*ringR/l, c.Y + (to.Y-c.Y)*ringR/l}
		}
		d.add(Line{Points: []Point{from, to}, Stroke: Stroke{Color: Quiet, MM: 0.18}})
		p.lines = append(p.lines, [2]Point{from, to})
	}
	switch {
	case k.ring:
		d.add(Area{Points: circle(Point{t.At.X, t.At.Y - middle(t.PT)}, ringR), Fill: k.fill, Outline: Stroke{Color: Ink, MM: 0.2}})
	case k.fill != "":
		d.add(Area{Points: q, Fill: k.fill})
	}
	d.add(t)
}

// niceStep is the step of 1, 2, 2.5 or 5 times a power of ten that divides span
// into at most n parts.
func niceStep(span float64, n int) float64 {
	if !(span > 0) || math.IsInf(span, 0) {
		return 1
	}
	base := math.Pow(10, math.Floor(math.Log10(span/float64(n))))
	for _, m := range []float64{1, 2, 2.5, 5, 10} {
		if span/(m*base) <= float64(n)+1e-9 {
			return m * base
		}
	}
	return 10 * base
}

// block is text broken into lines of at most w millimetres, drawn from the top y,
// with the height it takes.
func block(x, y, w float64, s string, pt float64, weight face.Weight, c Color) ([]Item, float64) {
	var items []Item
	step := leading(pt)
	for i, l := range face.Wrap(s, weight, pt, w) {
		items = append(items, Text{At: Point{x, y + float64(i)*step + 0.8*pt*face.MMPerPoint}, S: l, PT: pt, Weight: weight, Color: c})
	}
	return items, float64(len(items)) * step
}
