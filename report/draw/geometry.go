package draw

import (
	"math"

	"swardwright/internal/steady"
)

// The geometry of outlines on the drawing. An outline closes by itself.

// inside says whether q lies in an outline (even-odd).
func inside(outline []Point, q Point) bool {
	in := false
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+(q.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

// areaOf is what an outline encloses, mm²; positive where it runs clockwise on the
// page, whose y goes down.
func areaOf(outline []Point) (sum float64) {
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		sum += (a.X*b.Y - b.X*a.Y) / 2
	}
	return sum
}

// distance is settled, so that of equal ones every machine takes the same.
func distance(a, b Point) float64 { return steady.Figure(math.Hypot(a.X-b.X, a.Y-b.Y)) }

// nearestOn is the point of the line from a to b that is nearest to q.
func nearestOn(a, b, q Point) Point {
	dx, dy := b.X-a.X, b.Y-a.Y
	l := dx*dx + dy*dy
	if l == 0 {
		return a
	}
	s := min(max(((q.X-a.X)*dx+(q.Y-a.Y)*dy)/l, 0), 1)
	return Point{a.X + s*dx, a.Y + s*dy}
}

// cross says whether the lines a–b and c–d cross.
func cross(a, b, c, d Point) bool {
	side := func(p, q, r Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

// sides calls visit for each side of a thing: none of a point, one of a line, all of
// an outline.
func sides(thing []Point, visit func(a, b Point)) {
	switch len(thing) {
	case 0:
	case 1:
		visit(thing[0], thing[0])
	case 2:
		visit(thing[0], thing[1])
	default:
		for i, a := range thing {
			visit(a, thing[(i+1)%len(thing)])
		}
	}
}

// gap is the shortest way between the edges of two things that do not cross, with
// its ends.
func gap(p, q []Point) (mm float64, from, to Point) {
	mm = math.Inf(1)
	try := func(a, b Point) {
		if l := distance(a, b); l < mm {
			mm, from, to = l, a, b
		}
	}
	sides(q, func(a, b Point) {
		for _, c := range p {
			try(c, nearestOn(a, b, c))
		}
	})
	sides(p, func(a, b Point) {
		for _, c := range q {
			try(nearestOn(a, b, c), c)
		}
	})
	return mm, from, to
}

// meet says whether the edges of two things cross.
func meet(p, q []Point) bool {
	found := false
	sides(p, func(a, b Point) {
		sides(q, func(c, d Point) { found = found || cross(a, b, c, d) })
	})
	return found
}

// mostCovered is the greatest share of an area that its own label may cover.
const mostCovered = 0.5

// hides says whether a label at q covers what it names: it lies on the point or the
// line, straddles the edge of the area, or takes up too much of it.
func hides(q, thing []Point) bool {
	switch {
	case len(thing) == 0:
		return false
	case len(thing) == 1:
		return inside(q, thing[0])
	case meet(q, thing):
		return true
	case len(thing) == 2:
		return inside(q, thing[0])
	case inside(q, thing[0]): // the whole of a small thing
		return true
	}
	return inside(thing, q[0]) && math.Abs(areaOf(q)) > mostCovered*math.Abs(areaOf(thing))
}

// clipped is the part of an outline inside a box (Sutherland and Hodgman 1974).
func clipped(outline []Point, b Box) []Point {
	for _, edge := range []struct {
		in  func(Point) bool
		cut func(a, b Point) Point
	}{
		{func(p Point) bool { return p.X >= b.X }, func(p, q Point) Point { return atX(p, q, b.X) }},
		{func(p Point) bool { return p.X <= b.X+b.W }, func(p, q Point) Point { return atX(p, q, b.X+b.W) }},
		{func(p Point) bool { return p.Y >= b.Y }, func(p, q Point) Point { return atY(p, q, b.Y) }},
		{func(p Point) bool { return p.Y <= b.Y+b.H }, func(p, q Point) Point { return atY(p, q, b.Y+b.H) }},
	} {
		var out []Point
		for i, q := range outline {
			p := outline[(i+len(outline)-1)%len(outline)]
			if edge.in(p) != edge.in(q) {
				out = append(out, edge.cut(p, q))
			}
			if edge.in(q) {
				out = append(out, q)
			}
		}
		outline = out
	}
	return outline
}

func atX(a, b Point, x float64) Point { return Point{x, a.Y + (x-a.X)/(b.X-a.X)*(b.Y-a.Y)} }
func atY(a, b Point, y float64) Point { return Point{a.X + (y-a.Y)/(b.Y-a.Y)*(b.X-a.X), y} }

// bounds is the upright box around points.
func bounds(ps []Point) Box {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range ps {
		x0, y0, x1, y1 = min(x0, p.X), min(y0, p.Y), max(x1, p.X), max(y1, p.Y)
	}
	return Box{x0, y0, x1 - x0, y1 - y0}
}

func (b Box) contains(p Point) bool {
	return p.X >= b.X && p.X <= b.X+b.W && p.Y >= b.Y && p.Y <= b.Y+b.H
}

func (b Box) centre() Point { return Point{b.X + b.W/2, b.Y + b.H/2} }

func mean(ps []Point) (c Point) {
	for _, q := range ps {
		c.X += q.X / float64(len(ps))
		c.Y += q.Y / float64(len(ps))
	}
	return c
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

// rounded is a box with round corners of radius r, as far as it has room for them.
func rounded(b Box, r float64) []Point {
	r = max(min(r, b.W/2, b.H/2), 0)
	const steps = 5
	var out []Point
	for i, c := range []Point{{b.X + b.W - r, b.Y + b.H - r}, {b.X + r, b.Y + b.H - r}, {b.X + r, b.Y + r}, {b.X + b.W - r, b.Y + r}} {
		for k := range steps {
			sin, cos := math.Sincos(math.Pi / 2 * (float64(i) + float64(k)/(steps-1)))
			out = append(out, Point{c.X + r*cos, c.Y + r*sin})
		}
	}
	return out
}

// torn is the broken edge of a thing that goes on: a zigzag along the line a–b.
func torn(a, b Point) []Point {
	const tooth, high = 2.2, 0.8
	l := distance(a, b)
	n := max(2*int(l/tooth/2), 2)
	ux, uy := (b.X-a.X)/max(l, 1e-9), (b.Y-a.Y)/max(l, 1e-9)
	out := []Point{a}
	for i := 1; i < n; i++ {
		s, off := l*float64(i)/float64(n), high
		if i%2 == 0 {
			off = -high
		}
		out = append(out, Point{a.X + s*ux - off*uy, a.Y + s*uy + off*ux})
	}
	return append(out, b)
}
