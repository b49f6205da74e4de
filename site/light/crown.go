package light

import (
	"math"
	"slices"
)

// Share of the sky seen through a full-grown crown, the mean of ten broadleaved
// kinds in leaf and bare, and of Scots pine over the year: Wilkinson 1992, in
// Tregenza & Sharples, Daylighting Algorithms, algorithm 1.44. Measured for the
// sky; taken for the sun as well. Dense conifers let less through.
const (
	leafOn    = 0.19
	leafOff   = 0.51
	evergreen = 0.28
)

// transmittance is the share of light let through on a day of the year.
func (l *layer) transmittance(dayOfYear float64, sky Sky) float64 {
	switch {
	case l.Kind == Screen:
		return l.Transmittance
	case l.MonthTransmittance != nil:
		return l.MonthTransmittance[monthOf(dayOfYear)]
	case l.Leaf == Evergreen:
		return evergreen
	}
	on, off := sky.LeafOnDay, sky.LeafOffDay
	inLeaf := on <= dayOfYear && dayOfYear < off
	if on >= off { // the leafy season runs over New Year, or the year round
		inLeaf = on <= dayOfYear || dayOfYear < off
	}
	if inLeaf {
		return leafOn
	}
	return leafOff
}

// monthTransmittance is its mean over a month.
func (l *layer) monthTransmittance(m int, sky Sky) float64 {
	sum := 0.0
	for d := range monthLength[m] {
		sum += l.transmittance(float64(monthStart(m)+d), sky)
	}
	return sum / float64(monthLength[m])
}

// crown is an upright ellipsoid of revolution. Heights stretched by squash make
// it a sphere, in which its outline from any point is a circle.
type crown struct {
	centre vec
	radius float64 // level, metres
	squash float64 // radius over half height
	bound  float64 // radius of a sphere about it
}

func newCrown(f frame, o Obstacle) crown {
	foot := f.onGround(o.At)
	top := f.top(o)
	bottom := foot.u + o.ClearStemM
	half := (top - bottom) / 2
	foot.u = (top + bottom) / 2
	return crown{centre: foot, radius: o.CrownM / 2, squash: o.CrownM / 2 / half, bound: max(half, o.CrownM/2)}
}

// sight is a crown as seen from a point.
type sight struct {
	to     vec // from the eye to the centre, stretched
	squash float64
	reach  float64 // |to|² - radius²: negative inside the crown
	// A cone about the crown: directions with dot(middle) below rim miss it. From
	// within the bounding sphere everything may meet it, and rim is -1.
	middle vec
	rim    float64
}

func (c *crown) from(eye vec) sight {
	to := c.centre.sub(eye)
	g := sight{squash: c.squash, rim: -1}
	if d := to.length(); d > c.bound {
		g.middle = to.times(1 / d)
		g.rim = math.Sqrt(d*d-c.bound*c.bound) / d
	}
	to.u *= c.squash
	g.to, g.reach = to, to.dot(to)-c.radius*c.radius
	return g
}

// hides is positive where the crown stands in direction v, negative where it
// does not, and passes through zero at its outline.
func (g *sight) hides(v vec) float64 {
	if g.reach <= 0 {
		return 1
	}
	v.u *= g.squash
	return v.dot(g.to) - math.Sqrt(g.reach*v.dot(v))
}

// spans appends the stretches of hour angle, within those given, in which the
// sun is behind the crown.
func (g *sight) spans(dst []span, d *day, within []span) []span {
	if len(within) == 0 {
		return dst
	}
	mid, wide := 0.0, math.Pi
	if g.rim > -1 {
		// middle·s(ω) = still + swing·cos(ω-mid) must reach the rim.
		still := d.sinD * (g.middle.n*d.cosP + g.middle.u*d.sinP)
		c := d.cosD * (g.middle.u*d.cosP - g.middle.n*d.sinP)
		s := -d.cosD * g.middle.e
		swing := math.Sqrt(c*c + s*s)
		switch {
		case still+swing <= g.rim:
			return dst
		case still-swing < g.rim:
			mid, wide = math.Atan2(s, c), math.Acos((g.rim-still)/swing)
		}
	}
	for _, w := range within {
		for _, turn := range []float64{-2 * math.Pi, 0, 2 * math.Pi} {
			from, to := max(w.from, mid-wide+turn), min(w.to, mid+wide+turn)
			if from < to {
				dst = g.scan(dst, d, from, to)
			}
		}
	}
	return dst
}

// scan looks at a stretch in steps, and closer where the path comes nearest to
// the crown; where it goes in or out is bracketed so, and then refined.
func (g *sight) scan(dst []span, d *day, from, to float64) []span {
	const steps = 16
	hidden := func(w float64) float64 {
		sinW, cosW := math.Sincos(w)
		return g.hides(d.towards(sinW, cosW))
	}
	var x, y [steps + 1]float64
	for i := range x {
		x[i] = from + (to-from)*float64(i)/steps
		y[i] = hidden(x[i])
	}
	var at []float64
	for i := range x {
		before, after := max(i-1, 0), min(i+1, steps)
		if (y[i] > 0) != (y[after] > 0) {
			at = append(at, root(hidden, x[i], x[after]))
		}
		if y[i] <= 0 && y[before] <= y[i] && y[after] <= y[i] {
			// The path comes nearest about here: it may graze the crown.
			if top, ok := peak(hidden, x[before], x[after]); ok {
				at = append(at, root(hidden, x[before], top), root(hidden, top, x[after]))
			}
		}
	}
	slices.Sort(at)
	in := y[0] > 0
	if in {
		dst = append(dst, span{from, to})
	}
	for _, w := range at {
		if in {
			dst[len(dst)-1].to = w
		} else {
			dst = append(dst, span{w, to})
		}
		in = !in
	}
	return dst
}

// peak looks between two points for a place where f is above zero, by golden
// section towards its greatest value.
func peak(f func(float64) float64, lo, hi float64) (float64, bool) {
	const g = 0.6180339887498949
	a, b := hi-g*(hi-lo), lo+g*(hi-lo)
	fa, fb := f(a), f(b)
	for range 24 {
		switch {
		case fa > 0:
			return a, true
		case fb > 0:
			return b, true
		case fa > fb:
			hi, b, fb = b, a, fa
			a = hi - g*(hi-lo)
			fa = f(a)
		default:
			lo, a, fa = a, b, fb
			b = lo + g*(hi-lo)
			fb = f(b)
		}
	}
	return 0, false
}

// root refines a bracketed change of sign by the Illinois rule to a ten-millionth
// of a radian, a hundredth of a second of time.
func root(f func(float64) float64, lo, hi float64) float64 {
	fl, fh := f(lo), f(hi)
	for range 60 {
		if math.Abs(hi-lo) < 1e-9 {
			break
		}
		x := hi - fh*(hi-lo)/(fh-fl)
		fx := f(x)
		if math.Abs(fx) < 1e-13 {
			return x
		}
		if (fx > 0) != (fh > 0) {
			lo, fl = hi, fh
		} else {
			fl /= 2
		}
		hi, fh = x, fx
	}
	return hi
}
