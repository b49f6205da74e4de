package draw

import (
	"math"

	"swardwright/report/face"
)

// placer keeps labels from standing on one another.
type placer struct {
	view  Box // labels stay inside
	taken []Box
}

// free says whether b lies in view and clear of what stands already.
func (p *placer) free(b Box) bool {
	if b.X < p.view.X || b.Y < p.view.Y || b.X+b.W > p.view.X+p.view.W || b.Y+b.H > p.view.Y+p.view.H {
		return false
	}
	for _, t := range p.taken {
		if b.X < t.X+t.W && t.X < b.X+b.W && b.Y < t.Y+t.H && t.Y < b.Y+b.H {
			return false
		}
	}
	return true
}

// near finds room for a w × h label as close to its wished centre as can be, in
// steps of a spiral, and takes it. ok is false when there is none within reach.
func (p *placer) near(at Point, w, h, reach float64) (Point, bool) {
	for ring := 0.0; ring <= reach; ring += 1.2 {
		turns := 1 + int(ring*4)
		for k := range turns {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(turns))
			c := Point{at.X + ring*cos, at.Y + ring*sin}
			if b := (Box{c.X - w/2, c.Y - h/2, w, h}); p.free(b) {
				p.taken = append(p.taken, b)
				return c, true
			}
		}
	}
	return at, false
}

// textBox is the room that an unturned text takes.
func textBox(t Text) Box {
	w, em := face.Width(t.S, t.Weight, t.PT), t.PT*face.MMPerPoint
	x := t.At.X
	switch t.Anchor {
	case Middle:
		x -= w / 2
	case End:
		x -= w
	}
	return Box{x, t.At.Y - face.CapHeight*em, w, (face.CapHeight + face.Descent) * em}
}

// circle is a polygon that passes for a circle at the sizes of a page.
func circle(c Point, r float64) []Point {
	n := 12 + int(min(r, 20)*2)
	out := make([]Point, n)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		out[i] = Point{c.X + r*cos, c.Y + r*sin}
	}
	return out
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
