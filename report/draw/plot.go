package draw

import (
	"math"

	"swardwright/report/say"
	"swardwright/site/light"
)

// Site is a lawn with what stands around it, in metres of the plan and degrees.
type Site struct {
	Lawn        [][]light.Point // outlines of its parts
	Obstacles   []light.Obstacle
	Field       light.Field // no cells where the light was stated
	Zones       []Zone      // in the order of Field.Zones
	LatitudeDeg float64
	NorthDeg    float64 // bearing of the y axis
	SlopeDeg    float64
	AspectDeg   float64 // bearing that the ground falls towards
}

// Zone is a part of the lawn and what becomes of it.
type Zone struct {
	Letter, Name  string
	AreaM2, Share float64
	Grass         bool   // grass is to grow there
	Word          string // what becomes of it in a word or two, on the plan
	Note          string // and in a line, in the legend
}

// side is one of the four sides of a plot.
type side int

const (
	above side = iota
	right
	below
	left
)

// standing is an obstacle with its place by the lawn.
type standing struct {
	light.Obstacle
	number int
	min    light.Point // corners of the box around it
	max    light.Point
	offM   float64 // from the lawn's edge to the nearest of it; 0 where it stands over the lawn
	far    bool    // beyond the view, drawn in the strip around it
	at     side    // where it lies when it is far
}

// plot turns metres of the plan into millimetres of the drawing.
type plot struct {
	view     Box     // on the drawing, without the strip for what is far
	all      Box     // with it
	left     float64 // m, of the view's top left corner
	top      float64
	perM     float64     // mm on paper for each metre
	scale    string      // "1 : 200"
	min, max light.Point // of the lawn, m
	lawn     [][]Point   // outlines on the drawing
	around   []standing
	tight    bool
}

func (p *plot) at(q light.Point) Point {
	return Point{p.view.X + (q.X-p.left)*p.perM, p.view.Y + (p.top-q.Y)*p.perM}
}

// back is the place on the ground of a point of the drawing.
func (p *plot) back(q Point) light.Point {
	return light.Point{X: p.left + (q.X-p.view.X)/p.perM, Y: p.top - (q.Y-p.view.Y)/p.perM}
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
	metricScales = []float64{1, 2, 5, 10, 20, 25, 50, 75, 100, 125, 200, 250, 300, 400, 500, 1000, 1250, 2500, 5000, 10000}
	feetPerInch  = []float64{0.5, 1, 2, 4, 5, 8, 10, 20, 30, 40, 50, 60, 100, 200, 400, 800}
)

// The room around the lawn on a plot, mm.
const (
	slice     = 4.0  // of a thing that stands by it, at least
	deepSlice = 14.0 // and at most, where the scale leaves it
	farStrip  = 7.0  // beyond the view, for what is too far to be drawn to scale
	teeth     = 0.9  // beyond it, for the broken edge of what goes on
)

// fit is what a plot is fitted for.
type fit int

const (
	survey fit = iota // at a usual scale, with what stands around the lawn
	tight             // at a usual scale, only what comes into the margin is shown
	sketch            // as large as may be
)

// newPlot fits the lawn and what stands near it into w × h at the greatest scale there
// is for it; margin is the room kept around the lawn, mm. What stands further off than
// the scale has room for is put in a strip around the view. It is nil without an outline.
func newPlot(s Site, f *say.Sayer, w, h, margin float64, how fit) *plot {
	p := &plot{tight: how == tight, min: light.Point{X: math.Inf(1), Y: math.Inf(1)}, max: light.Point{X: math.Inf(-1), Y: math.Inf(-1)}}
	for _, part := range s.Lawn {
		p.min, p.max = widened(p.min, p.max, part)
	}
	size := max(p.max.X-p.min.X, p.max.Y-p.min.Y)
	if !(size > 0) || math.IsInf(size, 0) {
		return nil
	}
	for i, o := range s.Obstacles {
		p.around = append(p.around, stand(o, i+1, s.Lawn))
	}
	rules, perM, name := metricScales, func(r float64) float64 { return 1000 / r }, func(r float64) string { return "1 : " + f.Number(r, 0) }
	if f.US() {
		rules, perM = feetPerInch, func(r float64) float64 { return 25.4 / (r * 0.3048) }
		name = func(r float64) string { return "1 in = " + f.Figures(r, 3) + " ft" }
	}
	fits := false
	for _, r := range rules {
		p.perM, p.scale = perM(r), name(r)
		if fits = p.room(w, h, margin); fits {
			break
		}
	}
	for !fits { // beyond every rule
		p.perM, p.scale = p.perM/2, ""
		fits = p.room(w, h, margin)
	}
	for larger := 1.03 * p.perM; how == sketch && p.room(w, h, margin); larger *= 1.03 {
		p.perM = larger
		if !p.room(w, h, margin) {
			p.perM /= 1.03
			break
		}
	}
	// What a legend beside it needs is not given to the surroundings.
	if !p.room(w-legendMin-legendGap, h, margin) {
		p.room(w, h, margin)
	}
	for _, part := range s.Lawn {
		p.lawn = append(p.lawn, p.outline(part))
	}
	return p
}

func widened(low, high light.Point, ps []light.Point) (light.Point, light.Point) {
	for _, q := range ps {
		low = light.Point{X: min(low.X, q.X), Y: min(low.Y, q.Y)}
		high = light.Point{X: max(high.X, q.X), Y: max(high.Y, q.Y)}
	}
	return low, high
}

// stand finds where an obstacle stands by the lawn.
func stand(o light.Obstacle, number int, lawn [][]light.Point) standing {
	s := standing{Obstacle: o, number: number}
	shape := o.Footprint
	if o.Kind == light.Tree {
		r := o.CrownM / 2
		shape = []light.Point{{X: o.At.X - r, Y: o.At.Y - r}, {X: o.At.X + r, Y: o.At.Y + r}}
	}
	s.min, s.max = widened(light.Point{X: math.Inf(1), Y: math.Inf(1)}, light.Point{X: math.Inf(-1), Y: math.Inf(-1)}, shape)
	s.offM = math.Inf(1)
	own := metres(o.Footprint)
	if o.Kind == light.Tree {
		own = []Point{{o.At.X, o.At.Y}}
	}
	for _, part := range lawn {
		outline := metres(part)
		if meet(own, outline) || inside(outline, own[0]) || len(own) > 2 && inside(own, outline[0]) {
			s.offM = 0
			return s
		}
		off, _, _ := gap(own, outline)
		s.offM = min(s.offM, off)
	}
	return s
}

// metres are points of the plan for the geometry of the drawing.
func metres(ps []light.Point) []Point {
	out := make([]Point, len(ps))
	for i, q := range ps {
		out[i] = Point{q.X, q.Y}
	}
	return out
}

// beyond is how far an obstacle lies beyond each side of the lawn, m: negative where it
// does not, and how far it reaches. A tree is seen by its stem.
func (p *plot) beyond(s standing) (gap, reach [4]float64) {
	if s.Kind == light.Tree {
		gap = [4]float64{s.At.Y - p.max.Y, s.At.X - p.max.X, p.min.Y - s.At.Y, p.min.X - s.At.X}
		for k := range gap {
			reach[k] = gap[k] + s.CrownM/2
		}
		return gap, reach
	}
	return [4]float64{s.min.Y - p.max.Y, s.min.X - p.max.X, p.min.Y - s.max.Y, p.min.X - s.max.X},
		[4]float64{s.max.Y - p.max.Y, s.max.X - p.max.X, p.min.Y - s.min.Y, p.min.X - s.min.X}
}

// room lays out the view at the scale in hand and says whether it fits: each side has
// the margin, a slice of what stands near it, and a strip where something is far.
func (p *plot) room(w, h, margin float64) bool {
	lawnW, lawnH := (p.max.X-p.min.X)*p.perM, (p.max.Y-p.min.Y)*p.perM
	most := min(max(0.35*max(lawnW, lawnH), 12), 45)
	need := [4]float64{margin, margin, margin, margin}
	want := need
	strip := [4]float64{teeth, teeth, teeth, teeth}
	for i := range p.around {
		s := &p.around[i]
		gap, reach := p.beyond(*s)
		s.far, s.at = false, above
		if p.tight {
			continue
		}
		for k := range gap {
			if gap[k] > gap[s.at] {
				s.at = side(k)
			}
		}
		if gap[s.at] < 0 {
			continue
		}
		if s.far = gap[s.at]*p.perM+slice > most; s.far {
			strip[s.at] = farStrip
			continue
		}
		for k := range gap {
			if gap[k] > -0.5*slice/p.perM {
				need[k] = max(need[k], gap[k]*p.perM+slice)
				want[k] = max(want[k], min(reach[k], gap[k]+deepSlice/p.perM)*p.perM+1)
			}
		}
	}
	widen := func(a, b side, lawn, limit float64) bool {
		spare := limit - lawn - need[a] - need[b] - strip[a] - strip[b]
		if spare < 0 {
			return false
		}
		if wish := max(want[a]-need[a], 0) + max(want[b]-need[b], 0); wish > 0 {
			share := min(spare/wish, 1)
			for _, k := range []side{a, b} {
				need[k] += share * max(want[k]-need[k], 0)
			}
		}
		return true
	}
	if !widen(left, right, lawnW, w) || !widen(above, below, lawnH, h) {
		return false
	}
	p.left, p.top = p.min.X-need[left]/p.perM, p.max.Y+need[above]/p.perM
	p.view = Box{strip[left], strip[above], need[left] + lawnW + need[right], need[above] + lawnH + need[below]}
	p.all = Box{0, 0, strip[left] + p.view.W + strip[right], strip[above] + p.view.H + strip[below]}
	return true
}
