package light

import "math"

// arc is a piece of a skyline: a straight edge seen from a point. With (e, n)
// the unit vector of a bearing, the tangent of its elevation is a·e + b·n, since
// a straight edge and the eye lie in one plane. The bearing runs from p0 to p1,
// p0 < p1, as [bearing] counts it.
type arc struct {
	p0, p1 float64
	a, b   float64
	face   int32
}

// silhouette is the upper outline of all that stands about a point: arcs in
// order of bearing that don't overlap. Between arcs lies the level horizon.
type silhouette []arc

// bearing orders directions clockwise from north, 0 to 4, a quadrant to a unit.
// It runs with the true bearing but needs no trigonometry.
func bearing(e, n float64) float64 {
	r := math.Abs(e) + math.Abs(n)
	switch {
	case e >= 0 && n >= 0:
		return e / r
	case e >= 0:
		return 1 - n/r
	case n < 0:
		return 2 - e/r
	}
	return 3 + n/r
}

// direction is a vector (not of unit length) in the direction of a bearing.
func direction(p float64) (e, n float64) {
	switch {
	case p < 1:
		return p, 1 - p
	case p < 2:
		return 2 - p, 1 - p
	case p < 3:
		return 2 - p, p - 3
	}
	return p - 4, p - 3
}

// noFace marks arcs that are no lit wall: ground, far skyline, screens.
const noFace = -1

// least is the narrowest arc kept, in units of [bearing]: a ten-thousandth of a
// second of arc.
const least = 1e-9

// sketch holds the working memory of a silhouette, kept from point to point.
type sketch struct {
	arcs, spare silhouette
	runs        []int // where each run of arcs in order ends
}

// see draws the silhouette of edges as seen from a point. It holds until the
// sketch is used again.
//
// The arcs of one convex footprint already stand in order, so the arcs come in
// few ordered runs, and merging the runs two by two takes time that grows with
// the number of edges, times the logarithm of the number of runs.
func (k *sketch) see(edges []edge, eye vec) silhouette {
	k.arcs, k.runs = k.arcs[:0], k.runs[:0]
	for i := range edges {
		ed := &edges[i]
		p, q := ed.from.sub(eye), ed.to.sub(eye)
		turn := q.e*p.n - p.e*q.n // positive where from→to runs clockwise about the eye
		if turn < 0 && ed.both {
			p, q, turn = q, p, -turn
		}
		if p.u <= 0 && q.u <= 0 {
			continue // below the eye
		}
		if !apart(p, q) {
			continue // the far side, end-on, or the eye at a corner
		}
		k.line(p, q, turn, int32(ed.face))
	}
	return k.merged()
}

// apart says whether q lies clockwise of p by an angle that can be told from none,
// and neither lies at the eye.
func apart(p, q vec) bool {
	lp, lq := math.Abs(p.e)+math.Abs(p.n), math.Abs(q.e)+math.Abs(q.n)
	return q.e*p.n-p.e*q.n > least*lp*lq && min(lp, lq) > least
}

// line adds the straight line from p clockwise to q, as seen from the origin.
func (k *sketch) line(p, q vec, turn float64, face int32) {
	a := arc{
		a:    (q.u*p.n - p.u*q.n) / turn,
		b:    (q.e*p.u - p.e*q.u) / turn,
		face: face,
	}
	// A line that dips below the eye's level counts only above it, if what is left
	// is wide enough to have two ends.
	if p.u < 0 || q.u < 0 {
		if p.u < 0 {
			p = p.add(q.sub(p).times(-p.u / (q.u - p.u)))
		} else {
			q = q.add(p.sub(q).times(-q.u / (p.u - q.u)))
		}
		if !apart(p, q) {
			return
		}
	}
	a.p0, a.p1 = bearing(p.e, p.n), bearing(q.e, q.n)
	if a.p0 > a.p1 { // across north
		west := a
		west.p1 = 4
		k.add(west)
		a.p0 = 0
	}
	k.add(a)
}

func (k *sketch) merged() silhouette {
	for len(k.runs) > 1 {
		k.halve()
	}
	return k.arcs
}

func (k *sketch) add(a arc) {
	if a.p1-a.p0 <= least {
		return
	}
	if n := len(k.arcs); n > 0 && a.p0 >= k.arcs[n-1].p1 {
		k.runs[len(k.runs)-1]++
	} else {
		k.runs = append(k.runs, n+1)
	}
	k.arcs = append(k.arcs, a)
}

// halve merges the runs in pairs.
func (k *sketch) halve() {
	k.spare = k.spare[:0]
	start, n := 0, 0
	for i := 0; i < len(k.runs); i += 2 {
		if i+1 == len(k.runs) {
			k.spare = append(k.spare, k.arcs[start:k.runs[i]]...)
		} else {
			k.spare = higher(k.spare, k.arcs[start:k.runs[i]], k.arcs[k.runs[i]:k.runs[i+1]])
			start = k.runs[i+1]
		}
		k.runs[n] = len(k.spare)
		n++
	}
	k.runs = k.runs[:n]
	k.arcs, k.spare = k.spare, k.arcs
}

// higher appends to dst the upper of two silhouettes. Pieces of one arc are joined
// again, but not to more than a quadrant: arcs must stay narrower than a half circle.
// One sweep over both, where most of the tracing's time goes: it stays in one piece.
//
//gocyclo:ignore
func higher(dst, f, g silhouette) silhouette {
	first := len(dst)
	put := func(a arc, p0, p1 float64) {
		if p1-p0 <= least {
			return
		}
		if n := len(dst); n > first {
			if l := &dst[n-1]; l.a == a.a && l.b == a.b && l.face == a.face && p0-l.p1 <= least && p1-l.p0 <= 1 {
				l.p1 = p1
				return
			}
		}
		a.p0, a.p1 = p0, p1
		dst = append(dst, a)
	}
	at := 0.0 // all bearings before it are done
	for len(f) > 0 && len(g) > 0 {
		if g[0].p0 < f[0].p0 {
			f, g = g, f
		}
		p0 := max(at, f[0].p0)
		if q := max(at, g[0].p0); p0 < q { // f alone
			at = min(f[0].p1, q)
			put(f[0], p0, at)
		} else { // both
			at = min(f[0].p1, g[0].p1)
			upper(f[0], g[0], p0, at, put)
		}
		if f[0].p1 <= at {
			f = f[1:]
		}
		if len(g) > 0 && g[0].p1 <= at {
			g = g[1:]
		}
	}
	for _, a := range f {
		put(a, max(at, a.p0), a.p1)
	}
	for _, a := range g {
		put(a, max(at, a.p0), a.p1)
	}
	return dst
}

// upper puts the higher of two arcs over bearings that both cover, split where
// they cross.
func upper(f, g arc, p0, p1 float64, put func(arc, float64, float64)) {
	da, db := f.a-g.a, f.b-g.b
	e0, n0 := direction(p0)
	e1, n1 := direction(p1)
	d0, d1 := da*e0+db*n0, da*e1+db*n1
	switch {
	case d0 >= 0 && d1 >= 0:
		put(f, p0, p1)
	case d0 <= 0 && d1 <= 0:
		put(g, p0, p1)
	default:
		// They are level with each other where da·e + db·n = 0.
		e, n := db, -da
		if e*(e0+e1)+n*(n0+n1) < 0 {
			e, n = -e, -n
		}
		c := max(p0, min(p1, bearing(e, n)))
		if d0 < 0 {
			f, g = g, f
		}
		put(f, p0, c)
		put(g, c, p1)
	}
}

// height is how high the silhouette stands over a step (east, north) along the
// ground: the step's length times the tangent of the elevation.
func (s silhouette) height(e, n float64) float64 {
	if len(s) == 0 {
		return 0
	}
	p := bearing(e, n)
	i, j := 0, len(s) // the first arc that ends at p or beyond
	for i < j {
		if m := (i + j) / 2; s[m].p1 < p {
			i = m + 1
		} else {
			j = m
		}
	}
	if i == len(s) || s[i].p0 > p {
		return 0
	}
	return s[i].a*e + s[i].b*n
}

// openSky is the share of a uniform sky's light on a plane with the given unit
// normal that comes in above the silhouette: the form factor of the sky polygon,
// by Lambert's sum over its sides, side angle × cosine of the side's pole to the
// normal / 2π. The silhouette must not run below the plane.
func (s silhouette) openSky(normal vec) float64 {
	sum, at, height := 0.0, 0.0, 0.0
	for _, a := range s {
		if a.p0 > at {
			sum += level(at, a.p0, normal) + upright(at, height, 0, normal)
			height = 0
		}
		v0, v1 := a.point(a.p0), a.point(a.p1)
		sum += upright(a.p0, height, v0.u, normal) + side(v0, v1, normal)
		at, height = a.p1, v1.u
	}
	sum += upright(at, height, 0, normal)
	if len(s) == 0 || at < 4 {
		sum += level(at, 4, normal)
	}
	return max(0, sum/(2*math.Pi))
}

// point is where the arc stands at a bearing: a unit step along the ground and
// the tangent of the elevation up.
func (a arc) point(p float64) vec {
	e, n := direction(p)
	r := math.Sqrt(e*e + n*n)
	e, n = e/r, n/r
	return vec{e, n, a.a*e + a.b*n}
}

// side is one term of Lambert's sum: along the great circle from v0 clockwise to v1.
func side(v0, v1, normal vec) float64 {
	w := v1.cross(v0)
	l := w.length()
	if l == 0 {
		return 0
	}
	return math.Atan2(l, v0.dot(v1)) / l * w.dot(normal)
}

// upright is the term of a side that stands upright at a bearing, between two
// tangents of elevation.
func upright(p, from, to float64, normal vec) float64 {
	if from == to || normal.e == 0 && normal.n == 0 {
		return 0
	}
	v := arc{}.point(p)
	return side(vec{v.e, v.n, from}, vec{v.e, v.n, to}, normal)
}

// level is the term of a side along the horizon.
func level(p0, p1 float64, normal vec) float64 {
	return (azimuth(p1) - azimuth(p0)) * normal.u
}

// azimuth is the true bearing in radians, 0 to 2π, of a bearing of 0 to 4.
func azimuth(p float64) float64 {
	e, n := direction(p)
	az := math.Atan2(e, n)
	if p > 2 {
		az += 2 * math.Pi
	}
	return az
}

// onPlane is the silhouette of a plane through the eye: what lies behind a
// slope. For an upright plane the outline stands all but upright.
func onPlane(normal vec) silhouette {
	if normal.e == 0 && normal.n == 0 {
		return nil
	}
	u := max(normal.u, 1e-7)
	a, b := -normal.e/u, -normal.n/u
	// It rises over the half circle about the uphill bearing.
	lo, hi := bearing(normal.n, -normal.e), bearing(-normal.n, normal.e)
	var s silhouette
	add := func(p0, p1 float64) {
		// An arc must stay narrower than a half circle.
		for _, cut := range []float64{1, 2, 3} {
			if p0 < cut && cut < p1 {
				s = append(s, arc{p0, cut, a, b, noFace})
				p0 = cut
			}
		}
		if p1-p0 > least {
			s = append(s, arc{p0, p1, a, b, noFace})
		}
	}
	if lo < hi {
		add(lo, hi)
	} else {
		add(0, hi)
		add(lo, 4)
	}
	return s
}
