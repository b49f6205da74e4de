package light

import (
	"math"
)

// cellSizes are the sides a cell may have, metres; the first with which the lawn
// has no more cells than are wanted is taken.
var cellSizes = []float64{0.25, 0.5, 1, 2, 4, 8, 16, 32, 64, 128}

// MostCells keeps a whole garden within a second or two.
const MostCells = 4000

func cellSide(areaM2 float64, most int) float64 {
	for _, side := range cellSizes {
		if areaM2/(side*side) <= float64(most) {
			return side
		}
	}
	return math.Sqrt(areaM2 / float64(most))
}

// cells cuts the lawn into squares along the plan's axes, counted from the left
// and lower limits of the lawn, each clipped to the outline; what lies under an
// obstacle is no lawn, and its area is returned.
func cells(s Scene, side float64) (out []Cell, underM2 float64) {
	s.eachCell(side, func(c Cell, under bool) bool {
		if under {
			underM2 += c.AreaM2
		} else {
			out = append(out, c)
		}
		return true
	})
	return out, underM2
}

// allUnder says whether no cell of the lawn lies clear of obstacles.
func (s Scene) allUnder() bool {
	clear := false
	s.eachCell(cellSide(s.areaM2(), MostCells), func(_ Cell, under bool) bool {
		clear = !under
		return under
	})
	return !clear
}

// eachCell gives each cell, and whether it lies under an obstacle, until it is told to
// stop.
func (s Scene) eachCell(side float64, more func(c Cell, under bool) bool) {
	o := s.origin()
	x0, y0 := o.X, o.Y
	var half, row, cut, cell []Point
	for _, part := range s.Lawn {
		loY, hiY := extent(part, func(p Point) float64 { return p.Y })
		for j := math.Floor((loY - y0) / side); y0+j*side < hiY; j++ {
			bottom := y0 + j*side
			half = clip(half[:0], part, func(p Point) float64 { return p.Y - bottom })
			row = clip(row[:0], half, func(p Point) float64 { return bottom + side - p.Y })
			if len(row) == 0 {
				continue
			}
			loX, hiX := extent(row, func(p Point) float64 { return p.X })
			for i := math.Floor((loX - x0) / side); x0+i*side < hiX; i++ {
				left := x0 + i*side
				cut = clip(cut[:0], row, func(p Point) float64 { return p.X - left })
				cell = clip(cell[:0], cut, func(p Point) float64 { return left + side - p.X })
				area, centre := planArea(cell)
				if area = math.Abs(area); area < 1e-9*side*side {
					continue
				}
				if !more(Cell{At: centre, AreaM2: area}, s.under(centre)) {
					return
				}
			}
		}
	}
}

// origin is the left and lower limit of the lawn.
func (s Scene) origin() Point {
	o := Point{math.Inf(1), math.Inf(1)}
	for _, part := range s.Lawn {
		for _, p := range part {
			o.X, o.Y = min(o.X, p.X), min(o.Y, p.Y)
		}
	}
	return o
}

func extent(ps []Point, of func(Point) float64) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range ps {
		lo, hi = min(lo, of(p)), max(hi, of(p))
	}
	return lo, hi
}

// clip keeps the part of a polygon on which in is not negative: Sutherland &
// Hodgman, CACM 17:32 (1974). A polygon that bends inwards may come back with
// pieces joined along the cut, which leaves its area and centre right.
func clip(dst, poly []Point, in func(Point) float64) []Point {
	for i, q := range poly {
		p := poly[(i+len(poly)-1)%len(poly)]
		dp, dq := in(p), in(q)
		if (dp < 0) != (dq < 0) {
			f := dp / (dp - dq)
			dst = append(dst, Point{p.X + f*(q.X-p.X), p.Y + f*(q.Y-p.Y)})
		}
		if dq >= 0 {
			dst = append(dst, q)
		}
	}
	return dst
}

// planArea is the signed area of a polygon on the plan, anticlockwise positive, and
// its centre of area.
func planArea(poly []Point) (float64, Point) {
	if len(poly) == 0 {
		return 0, Point{}
	}
	var area, x, y float64
	o := poly[0] // sums about a corner keep their digits far from the origin
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		a, b = Point{a.X - o.X, a.Y - o.Y}, Point{b.X - o.X, b.Y - o.Y}
		c := a.X*b.Y - b.X*a.Y
		area += c / 2
		x += (a.X + b.X) * c / 6
		y += (a.Y + b.Y) * c / 6
	}
	if area == 0 {
		return 0, o
	}
	return area, Point{o.X + x/area, o.Y + y/area}
}

// under says whether a point lies under a solid, gable or screen.
func (s Scene) under(p Point) bool {
	for i := range s.Obstacles {
		if o := &s.Obstacles[i]; o.Kind != Tree && Inside(o.Footprint, p) {
			return true
		}
	}
	return false
}

// Inside says whether a point lies in a polygon, by the crossings of a line from
// it to the right.
func Inside(poly []Point, p Point) bool {
	in := false
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

// distance is how far a point lies from an obstacle's footprint or crown, on the
// plan; 0 inside.
func (o *Obstacle) distance(p Point) float64 {
	if o.Kind == Tree {
		return max(0, math.Hypot(p.X-o.At.X, p.Y-o.At.Y)-o.CrownM/2)
	}
	if Inside(o.Footprint, p) {
		return 0
	}
	return o.faceDistance(p)
}

// faceDistance is how far a point lies from the nearest side of a footprint.
func (o *Obstacle) faceDistance(p Point) float64 {
	q := o.nearestOnFace(p)
	return math.Hypot(p.X-q.X, p.Y-q.Y)
}

func (o *Obstacle) nearestOnFace(p Point) (best Point) {
	least := math.Inf(1)
	for i, a := range o.Footprint {
		b := o.Footprint[(i+1)%len(o.Footprint)]
		dx, dy := b.X-a.X, b.Y-a.Y
		t := 0.0
		if l := dx*dx + dy*dy; l > 0 {
			t = max(0, min(1, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l))
		}
		q := Point{a.X + t*dx, a.Y + t*dy}
		if d := math.Hypot(p.X-q.X, p.Y-q.Y); d < least {
			least, best = d, q
		}
	}
	return best
}

// onFaceM is how near to a side of a footprint a point counts as on it.
const onFaceM = 1e-3

// clearOfFaces moves a point that stands on the very face of a solid, from where
// the face can't be seen, just before it.
func (s Scene) clearOfFaces(p Point) Point {
	for i := range s.Obstacles {
		o := &s.Obstacles[i]
		if o.Kind == Tree || o.faceDistance(p) > onFaceM {
			continue
		}
		q := o.nearestOnFace(p)
		clear := 0.0
		for k := range 16 { // the direction that leads out best
			sin, cos := math.Sincos(float64(k) * math.Pi / 8)
			out := Point{q.X + 2*onFaceM*cos, q.Y + 2*onFaceM*sin}
			if d := o.faceDistance(out); d > clear && !Inside(o.Footprint, out) {
				p, clear = out, d
			}
		}
	}
	return p
}
