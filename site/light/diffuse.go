package light

import (
	"cmp"
	"math"
	"slices"

	"swardwright/internal/steady"
)

// The sky is taken as uniform (isotropic). Real northern skies are often
// overcast and then about three times as bright overhead as at the horizon, so
// between walls a uniform sky errs to the dark side, and it is the sky that the
// published view factors (Oke) and Lambert's sum are made for.

// layerRays is how many bearings the light lost behind screens and crowns is
// summed over.
const layerRays = 120

// step is where a ray, going up along one bearing, enters or leaves a layer.
type step struct {
	tangent float64
	layer   int
	in      bool
}

// skyView is the share of a uniform sky's light that reaches a plane at the point
// the bench looks from, over that on an open level plane: for each set of
// transmittances in out; with the trees away; and with all layers away.
func (t *tracer) skyView(b *bench, g *surface, taus [][]float64, out []float64) (treeless, bare float64) {
	b.whole = higher(b.whole[:0], b.near, g.base)
	bare = b.whole.openSky(g.normal)
	for c := range out {
		out[c] = bare
	}
	treeless = bare
	if len(t.layers) == 0 {
		return treeless, bare
	}
	const width = 2 * math.Pi / layerRays
	for r := range layerRays {
		e, n := math.Sincos((float64(r) + 0.5) * width)
		floor := max(0, b.whole.height(e, n))
		b.steps = b.steps[:0]
		for j := range t.layers {
			var lo, hi float64
			if s := &b.seen[j]; t.layers[j].Kind == Tree {
				lo, hi = s.sight.along(e, n)
			} else {
				hi = s.sketch.arcs.height(e, n)
			}
			if lo = max(lo, floor); lo < hi {
				b.steps = append(b.steps, step{lo, j, true}, step{hi, j, false})
			}
		}
		slices.SortFunc(b.steps, func(x, y step) int {
			return cmp.Or(cmp.Compare(x.tangent, y.tangent), cmp.Compare(x.layer, y.layer))
		})
		b.active = b.active[:0]
		tilt := g.normal.e*e + g.normal.n*n
		from := 0.0
		for _, s := range b.steps {
			if len(b.active) > 0 && s.tangent > from {
				light := (slice(s.tangent, g.normal.u, tilt) - slice(from, g.normal.u, tilt)) * width / math.Pi
				for c, tau := range taus {
					out[c] -= light * (1 - t.through(b.active, tau, false))
				}
				treeless -= light * (1 - t.through(b.active, taus[0], true))
			}
			from = s.tangent
			b.pass(s.layer, s.in)
		}
	}
	for c := range out {
		out[c] = max(0, out[c])
	}
	return max(0, treeless), bare
}

// through is what a set of layers lets through, one behind the other.
func (t *tracer) through(layers []int, tau []float64, treeless bool) float64 {
	p := 1.0
	for _, j := range layers {
		if !treeless || t.layers[j].Kind != Tree {
			p *= tau[j]
		}
	}
	return p
}

// slice is the integral of the cosine to a plane's normal over a slice of sky one
// radian of bearing wide, from the horizon up to a tangent of elevation. The
// normal has a part up and a part along the bearing.
func slice(tangent, up, along float64) float64 {
	if math.IsInf(tangent, 1) {
		return up/2 + along*math.Pi/4
	}
	q := 1 + tangent*tangent
	return up*tangent*tangent/q/2 + along/2*(math.Atan(tangent)+tangent/q)
}

// along is the tangents of elevation between which a ray along a unit bearing
// meets the crown; hi is not above lo where it misses.
func (g *sight) along(e, n float64) (lo, hi float64) {
	if g.reach <= 0 {
		return 0, math.Inf(1)
	}
	// With x the stretched tangent: (level + x·up)² ≥ reach·(1 + x²).
	level, up := e*g.to.e+n*g.to.n, g.to.u
	disc := level*level + up*up - g.reach
	if disc <= 0 {
		return 0, 0
	}
	a, b, c := up*up-g.reach, level*up, math.Sqrt(g.reach*disc)
	if steady.Figure(a) == 0 { // the crown's edge stands overhead: it hides all above one tangent towards it
		if b <= 0 {
			return 0, 0
		}
		return max(0, g.reach-level*level) / (2 * b) / g.squash, math.Inf(1)
	}
	x, y := (-b+c)/a, (-b-c)/a
	x, y = min(x, y), max(x, y)
	switch {
	case a < 0 && level+(x+y)/2*up > 0:
		lo, hi = x, y
	case a > 0 && up > 0: // the crown is overhead
		lo, hi = y, math.Inf(1)
	}
	return max(0, lo) / g.squash, max(0, hi) / g.squash
}

// walls adds up the share of a plane's view that each wall fills, in face.
// The whole is exact, by the light the sky loses; its parts are in the ratio
// they would have on level ground.
func (b *bench) walls(g *surface, open float64, put func(face int, share float64)) {
	lost := g.sky - open
	if lost <= 0 {
		return
	}
	sum := 0.0
	for _, a := range b.whole {
		if a.face >= 0 {
			sum += a.fills()
		}
	}
	if sum <= 0 {
		return
	}
	for _, a := range b.whole {
		if a.face >= 0 {
			put(int(a.face), a.fills()/sum*lost)
		}
	}
}

// fills is 2π times the share of a level plane's view below the arc.
func (a arc) fills() float64 {
	up := vec{u: 1}
	return max(0, level(a.p0, a.p1, up)-side(a.point(a.p0), a.point(a.p1), up))
}
