package light

import (
	"math"

	"swardwright/site/sun"
)

// day is the sun's path over one day at one latitude, with one declination: a
// circle about the pole, on which the hour angle ω runs from -π at midnight
// through 0 at true noon. The sun stands towards
//
//	s(ω) = sinδ·pole + cosδ·(cosω·meridian - sinω·east)
//
// so that where it crosses any plane through the eye is found in closed form.
type day struct {
	sinD, cosD, tanD float64
	sinP, cosP       float64 // of the latitude
	half             float64 // hour angle of sunset over the geometric horizon
	month            int
	beam             [beamSteps + 1]vec // of a clear sky, summed from sunrise; Wh/m²
}

// beamSteps is how many steps the beam of a day is summed in.
const beamSteps = 128

// moment is a time of day as the sun's hour angle, in radians, with its sine and
// cosine, which are wanted wherever the moment is.
type moment struct{ w, sin, cos float64 }

func momentAt(w float64) moment {
	sin, cos := math.Sincos(w)
	return moment{w, sin, cos}
}

// between is the moment half-way to a later one.
func (a moment) between(b moment) (sin, cos float64) {
	sin, cos = a.sin+b.sin, a.cos+b.cos
	r := math.Sqrt(sin*sin + cos*cos)
	if r < 1e-3 { // half a day apart: the sum has no direction
		return math.Sincos((a.w + b.w) / 2)
	}
	if b.w-a.w > math.Pi {
		r = -r
	}
	return sin / r, cos / r
}

// span is a stretch of the day.
type span struct{ from, to moment }

func (s span) hours() float64 { return (s.to.w - s.from.w) * 12 / math.Pi }

func newDay(latitudeDeg, altitudeM, dayOfYear float64) day {
	return pathOf(latitudeDeg, altitudeM, sun.DeclinationDeg(dayOfYear), sun.DistanceAU(dayOfYear), monthOf(dayOfYear))
}

func pathOf(latitudeDeg, altitudeM, decl, distanceAU float64, month int) day {
	d := day{half: sun.HalfDayRad(latitudeDeg, decl, sun.GeometricDeg), month: month}
	d.sinD, d.cosD = math.Sincos(decl * rad)
	d.tanD = d.sinD / d.cosD
	d.sinP, d.cosP = math.Sincos(latitudeDeg * rad)

	// The beam as a vector needs no plane: its sum between two moments, times
	// the normal of any plane lit throughout, is what falls on the plane.
	// Gauss-Legendre with two points a step.
	h := 2 * d.half / beamSteps
	for i := range beamSteps {
		mid := -d.half + (float64(i)+0.5)*h
		sum := d.beam[i]
		for _, x := range [2]float64{-h / 2 / math.Sqrt(3), h / 2 / math.Sqrt(3)} {
			sinW, cosW := math.Sincos(mid + x)
			v := d.towards(sinW, cosW)
			sum = sum.add(v.times(clearBeam(v.u, altitudeM, distanceAU) * h / 2 * 12 / math.Pi))
		}
		d.beam[i+1] = sum
	}
	return d
}

// beamIn is the clear sky's beam over a stretch of the day, Wh/m² square to each axis.
func (d *day) beamIn(s span) vec { return d.beamUpTo(s.to.w).sub(d.beamUpTo(s.from.w)) }

func (d *day) beamUpTo(w float64) vec {
	x := (w + d.half) / (2 * d.half) * beamSteps
	i := max(0, min(beamSteps-1, int(x)))
	a, b := d.beam[i], d.beam[i+1]
	return a.add(b.sub(a).times(x - float64(i)))
}

// towards is the direction of the sun, given the sine and cosine of the hour
// angle; of unit length.
func (d *day) towards(sinW, cosW float64) vec {
	return vec{
		-d.cosD * sinW,
		d.sinD*d.cosP - d.cosD*cosW*d.sinP,
		d.sinD*d.sinP + d.cosD*cosW*d.cosP,
	}
}

// bound is one side of a silhouette with what is the same for every day: the
// sun crosses its plane m·s = 0 where cos(ω-ψ) = -tanδ·k.
type bound struct {
	k, cosPsi, sinPsi float64
	low, high         float64 // sines of the declinations between which the side lies
	// The side itself: directions (east, north) of its ends for an arc, or its
	// one direction and the tangents it stands between for an upright side.
	e0, n0, e1, n1 float64
	lo, hi         float64
	upright        bool
}

// steepest is more than the sine of the sun's greatest declination.
const steepest = 0.41

// bounds lists the sides of a silhouette that the sun can cross at a latitude. It
// reuses dst.
func (s silhouette) bounds(dst []bound, sinP, cosP float64) []bound {
	dst = dst[:0]
	add := func(b bound, m, v0, v1 vec) {
		x := m.u*cosP - m.n*sinP // along the meridian
		r := math.Sqrt(x*x + m.e*m.e)
		if r < 1e-12 {
			return // crossed by no path or by all of it
		}
		up := m.n*cosP + m.u*sinP // along the pole
		b.k, b.cosPsi, b.sinPsi = up/r, x/r, -m.e/r

		// Declination runs evenly along a great circle but where it turns, at the
		// circle's nearest to the pole and opposite.
		d0 := (v0.n*cosP + v0.u*sinP) / v0.length()
		d1 := (v1.n*cosP + v1.u*sinP) / v1.length()
		b.low, b.high = min(d0, d1), max(d0, d1)
		l := m.dot(m)
		turn := vec{-up * m.e / l, cosP - up*m.n/l, sinP - up*m.u/l}
		if b.faces(turn) {
			b.high = 1
		}
		if b.faces(turn.times(-1)) {
			b.low = -1
		}
		if b.low < steepest && b.high > -steepest {
			dst = append(dst, b)
		}
	}
	stand := func(p, t0, t1 float64) {
		if t0 == t1 {
			return
		}
		v := arc{}.point(p)
		b := bound{e0: v.e, n0: v.n, upright: true, lo: min(t0, t1), hi: max(t0, t1)}
		add(b, vec{v.n, -v.e, 0}, vec{v.e, v.n, t0}, vec{v.e, v.n, t1})
	}
	at, height := 0.0, 0.0
	for _, a := range s {
		v0, v1 := a.point(a.p0), a.point(a.p1)
		if a.p0 > at {
			stand(at, height, 0)
			height = 0
		}
		stand(a.p0, height, v0.u)
		add(bound{e0: v0.e, n0: v0.n, e1: v1.e, n1: v1.n}, vec{-a.a, -a.b, 1}, v0, v1)
		at, height = a.p1, v1.u
	}
	stand(at, height, 0)
	return dst
}

// faces says whether a direction lies over the side's stretch of the horizon.
func (b *bound) faces(v vec) bool {
	if b.upright {
		return b.e0*v.e+b.n0*v.n > 0
	}
	return v.e*b.n0-v.n*b.e0 >= -slack && b.e1*v.n-b.n1*v.e >= -slack
}

// slack widens every side a little (radians, or tangent), so that a path through
// a corner is caught by at least one of the two sides that meet there. A false
// catch does no harm: what lies between catches is looked at, not counted.
const slack = 1e-9

// catches appends the moments at which the path crosses a side.
func (d *day) catches(dst []moment, b *bound) []moment {
	c := -d.tanD * b.k
	if c <= -1 || c >= 1 || d.sinD < b.low-slack || d.sinD > b.high+slack {
		return dst
	}
	s := math.Sqrt(1 - c*c)
	for range 2 {
		sin, cos := b.sinPsi*c+b.cosPsi*s, b.cosPsi*c-b.sinPsi*s
		v := d.towards(sin, cos)
		s = -s
		if v.u < -slack || !b.faces(v) {
			continue
		}
		if b.upright {
			out := b.e0*v.e + b.n0*v.n
			if v.u < (b.lo-slack)*out || v.u > (b.hi+slack)*out {
				continue
			}
		}
		dst = append(dst, moment{math.Atan2(sin, cos), sin, cos})
	}
	return dst
}

// above appends to dst the stretches, within those given in order, in which the
// sun stands above a silhouette whose sides are bounds. The moments at are
// working memory.
func (d *day) above(dst, within []span, s silhouette, bounds []bound, at []moment) ([]span, []moment) {
	if len(within) == 0 {
		return dst, at
	}
	if len(s) == 0 {
		return append(dst, within...), at
	}
	at = at[:0]
	for i := range bounds {
		at = d.catches(at, &bounds[i])
	}
	inOrder(at)
	i := 0
	for _, w := range within {
		for i < len(at) && at[i].w <= w.from.w {
			i++
		}
		open := false
		for from := w.from; from.w < w.to.w; {
			to := w.to
			if i < len(at) && at[i].w < to.w {
				to = at[i]
				i++
			}
			if to.w == from.w {
				continue
			}
			v := d.towards(from.between(to))
			lit := v.u > s.height(v.e, v.n)
			switch {
			case lit && open:
				dst[len(dst)-1].to = to
			case lit:
				dst = append(dst, span{from, to})
			}
			open, from = lit, to
		}
	}
	return dst, at
}

// inOrder sorts the few moments of a day, by insertion.
func inOrder(at []moment) {
	for i := 1; i < len(at); i++ {
		for j := i; j > 0 && at[j].w < at[j-1].w; j-- {
			at[j], at[j-1] = at[j-1], at[j]
		}
	}
}
