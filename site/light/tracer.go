package light

import (
	"cmp"
	"math"
	"slices"
)

// tracer follows the sun of some days over the points of one scene. Several
// workers share one; what they write to is their own [bench].
type tracer struct {
	solids
	far        silhouette // the far skyline
	days       []day
	tau        [][]float64 // light let through on days[i] by layers[j]
	sinP, cosP float64     // of the latitude
	ground     surface     // of the lawn's own plane
}

// surface is a plane on which light falls, before anything stands about it.
type surface struct {
	normal vec
	base   silhouette // the plane itself and the far skyline
	lit    [][]span   // a day of tracer.days: sun over the horizon and on the plane
	sky    float64    // share of a uniform sky's light
}

// bench is one worker's memory.
type bench struct {
	sketch sketch
	near   silhouette // of the opaque obstacles
	whole  silhouette // with the ground and the far skyline
	bounds []bound
	at     []moment
	lit    []span
	clear  []span
	hidden []span
	seen   []seen // one a layer
	cuts   []cut
	active []int
	steps  []step
}

// seen is a layer as seen from a point.
type seen struct {
	sight  sight
	sketch sketch
	bounds []bound
}

// cut is where the sun goes behind a layer or comes out again.
type cut struct {
	at    moment
	layer int
	in    bool
}

// sunlight is one clear day's sun at a point.
type sunlight struct {
	hours    float64 // weighted by what screens and crowns let through
	beam     float64 // on the plane, Wh/m²
	treeless float64 // the same with the trees away
}

func newTracer(s Scene, days []day) *tracer {
	t := &tracer{solids: build(s), far: skyline(s.Horizon), days: days}
	t.sinP, t.cosP = math.Sincos(s.LatitudeDeg * rad)
	t.ground = t.newSurface(t.normal, t.far)
	return t
}

func (t *tracer) newSurface(normal vec, far silhouette) surface {
	g := surface{normal: normal}
	g.base = higher(nil, onPlane(normal), far)
	g.sky = g.base.openSky(normal)
	g.lit = make([][]span, len(t.days))
	var bounds []bound
	for i := range t.days {
		d := &t.days[i]
		if d.half == 0 {
			continue
		}
		bounds = g.base.bounds(bounds, d.sinP, d.cosP)
		g.lit[i], _ = d.above(nil, []span{{momentAt(-d.half), momentAt(d.half)}}, g.base, bounds, nil)
	}
	return g
}

// bowDeg is how far an arc of the far skyline may bow above the straight line that it
// stands for, far below what a skyline can be measured to.
const bowDeg = 0.01

// skyline turns the far horizon into arcs. Its corners are joined by lines
// straight in bearing and elevation, cut into arcs short enough to bow by no more
// than bowDeg.
func skyline(points []HorizonPoint) silhouette {
	corners := slices.Clone(points)
	slices.SortStableFunc(corners, func(a, b HorizonPoint) int { return cmp.Compare(a.BearingDeg, b.BearingDeg) })
	at := func(bearingDeg, elevationDeg float64) vec {
		sin, cos := math.Sincos(bearingDeg * rad)
		return vec{sin, cos, math.Tan(elevationDeg * rad)}
	}
	var k sketch
	for i, p := range corners {
		q := corners[(i+1)%len(corners)]
		if i+1 == len(corners) {
			q.BearingDeg += 360
		}
		// A great circle bows above the line by about an eighth of the square of
		// its width times the tangent of its height.
		high := math.Tan(max(p.ElevationDeg, q.ElevationDeg, 0.1) * rad)
		width := min(math.Sqrt(8*bowDeg*rad/high), math.Pi/4) / rad
		n := math.Ceil((q.BearingDeg - p.BearingDeg) / width)
		run, rise := q.BearingDeg-p.BearingDeg, q.ElevationDeg-p.ElevationDeg
		for j := range int(n) {
			f, g := float64(j)/n, float64(j+1)/n
			v, w := at(p.BearingDeg+run*f, p.ElevationDeg+rise*f), at(p.BearingDeg+run*g, p.ElevationDeg+rise*g)
			if v.u > 0 || w.u > 0 {
				k.line(v, w, w.e*v.n-v.e*w.n, noFace)
			}
		}
	}
	return k.merged()
}

// look sets the bench up for a point.
func (t *tracer) look(b *bench, eye vec) {
	b.near = b.sketch.see(t.edges, eye)
	for len(b.seen) < len(t.layers) {
		b.seen = append(b.seen, seen{})
	}
	for j := range t.layers {
		l, s := &t.layers[j], &b.seen[j]
		if l.Kind == Tree {
			s.sight = l.crown.from(eye)
			continue
		}
		s.sketch.see(l.edges, eye)
		s.bounds = s.sketch.arcs.bounds(s.bounds, t.sinP, t.cosP)
	}
}

// sun fills out, one a day of t.days, for the point the bench looks from and a
// plane there.
func (t *tracer) sun(b *bench, g *surface, out []sunlight) {
	b.bounds = b.near.bounds(b.bounds, t.sinP, t.cosP)
	for i := range t.days {
		d := &t.days[i]
		out[i] = sunlight{}
		b.lit, b.at = d.above(b.lit[:0], g.lit[i], b.near, b.bounds, b.at)
		if len(b.lit) == 0 {
			continue
		}
		if t.veils(b, d); len(b.cuts) == 0 {
			for _, s := range b.lit {
				out[i].hours += s.hours()
				out[i].beam += d.beamIn(s).dot(g.normal)
			}
			out[i].treeless = out[i].beam
			continue
		}
		out[i] = t.filtered(b, d, t.tau[i], g.normal)
	}
}

// veils finds where on its path of a day the lit sun goes behind a layer, and comes out.
func (t *tracer) veils(b *bench, d *day) {
	b.cuts = b.cuts[:0]
	for j := range t.layers {
		b.hidden = b.hidden[:0]
		if s := &b.seen[j]; t.layers[j].Kind == Tree {
			b.hidden = s.sight.spans(b.hidden, d, b.lit)
		} else if len(s.sketch.arcs) > 0 {
			b.clear, b.at = d.above(b.clear[:0], b.lit, s.sketch.arcs, s.bounds, b.at)
			b.hidden = without(b.hidden, b.lit, b.clear)
		}
		for _, h := range b.hidden {
			b.cuts = append(b.cuts, cut{h.from, j, true}, cut{h.to, j, false})
		}
	}
}

// filtered adds up the sun of a day stretch by stretch between those places, by what the
// layers in front of each let through.
func (t *tracer) filtered(b *bench, d *day, tau []float64, normal vec) (out sunlight) {
	slices.SortFunc(b.cuts, func(x, y cut) int {
		return cmp.Or(cmp.Compare(x.at.w, y.at.w), cmp.Compare(x.layer, y.layer))
	})
	b.active = b.active[:0]
	k := 0
	for _, s := range b.lit {
		for from := s.from; from.w < s.to.w; {
			for ; k < len(b.cuts) && b.cuts[k].at.w <= from.w; k++ {
				b.pass(b.cuts[k].layer, b.cuts[k].in)
			}
			to := s.to
			if k < len(b.cuts) && b.cuts[k].at.w < to.w {
				to = b.cuts[k].at
			}
			through, treeless := 1.0, 1.0
			for _, j := range b.active {
				through *= tau[j]
				if t.layers[j].Kind != Tree {
					treeless *= tau[j]
				}
			}
			piece := span{from, to}
			beam := d.beamIn(piece).dot(normal)
			out.hours += through * piece.hours()
			out.beam += through * beam
			out.treeless += treeless * beam
			from = to
		}
	}
	return out
}

// pass notes that the eye's line goes behind a layer, or comes out.
func (b *bench) pass(layer int, in bool) {
	if in {
		b.active = append(b.active, layer)
	} else if i := slices.Index(b.active, layer); i >= 0 {
		b.active = slices.Delete(b.active, i, i+1)
	}
}

// without appends to dst what is left of some stretches, in order, when the
// clear ones that lie in them are taken out.
func without(dst, within, clear []span) []span {
	i := 0
	for _, w := range within {
		from := w.from
		for ; i < len(clear) && clear[i].to.w <= w.to.w; i++ {
			if clear[i].from.w > from.w {
				dst = append(dst, span{from, clear[i].from})
			}
			from = clear[i].to
		}
		if from.w < w.to.w {
			dst = append(dst, span{from, w.to})
		}
	}
	return dst
}
