package light

import (
	"math"

	"swardwright/internal/calendar"
)

// Share of the sky seen through a full-grown crown, the mean of ten broadleaved
// kinds in leaf and bare, and of Scots pine over the year: Wilkinson 1992, in
// Tregenza & Sharples, Daylighting Algorithms, algorithm 1.44. Measured for the
// sky; taken for the sun as well. Of trees whose genus is not told.
const (
	leafOn    = 0.19
	leafOff   = 0.51
	evergreen = 0.28
)

// transmittance is the share of light let through on a day of the year. Light that is
// lost falls with the leaves on its way, by Beer's law, so a crown of which a share is
// taken out lets through the power of what is left.
func (l *layer) transmittance(dayOfYear float64, sky Sky) float64 {
	if l.Kind == Screen {
		return l.Transmittance
	}
	whole := l.grown(dayOfYear, sky)
	if l.Thinned == 0 {
		return whole
	}
	return math.Pow(whole, 1-l.Thinned)
}

// grown is what a crown lets through as it has grown.
func (l *layer) grown(dayOfYear float64, sky Sky) float64 {
	if l.MonthTransmittance != nil {
		return l.MonthTransmittance[monthOf(dayOfYear)]
	}
	on, off := sky.LeafOnDay, sky.LeafOffDay
	inLeaf := on <= dayOfYear && dayOfYear < off
	if on >= off { // the leafy season runs over New Year, or the year round
		inLeaf = on <= dayOfYear || dayOfYear < off
	}
	known := l.crownOf()
	if inLeaf {
		return known.On
	}
	return known.Off
}

// monthTransmittance is its mean over a month.
func (l *layer) monthTransmittance(m int, sky Sky) float64 {
	sum := 0.0
	for d := range calendar.MonthDays[m] {
		sum += l.transmittance(float64(monthStart(m)+d), sky)
	}
	return sum / float64(calendar.MonthDays[m])
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
	mid, wide := moment{cos: 1}, math.Pi
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
			mid, wide = moment{math.Atan2(s, c), s / swing, c / swing}, math.Acos((g.rim-still)/swing)
		}
	}
	start, end := momentAt(mid.w-wide), momentAt(mid.w+wide)
	for _, w := range within {
		for turn := -2; turn <= 2; turn += 2 {
			from, to := start, end
			from.w += float64(turn) * math.Pi
			to.w += float64(turn) * math.Pi
			if from.w < w.from.w {
				from = w.from
			}
			if to.w > w.to.w {
				to = w.to
			}
			if from.w < to.w {
				dst = g.scan(dst, d, from, to)
			}
		}
	}
	return dst
}

// scan looks at a stretch in steps, and closer where the path comes nearest to
// the crown; where it goes in or out is bracketed so, and then refined.
func (g *sight) scan(dst []span, d *day, from, to moment) []span {
	const steps = 8
	var at [steps + 1]moment
	var y [steps + 1]float64
	sin, cos := math.Sincos((to.w - from.w) / steps)
	at[0], at[steps] = from, to
	for i := range at {
		if 0 < i && i < steps {
			p := at[i-1]
			at[i] = moment{p.w + (to.w-from.w)/steps, p.sin*cos + p.cos*sin, p.cos*cos - p.sin*sin}
		}
		y[i] = g.hides(d.towards(at[i].sin, at[i].cos))
	}
	in := y[0] > 0
	if in {
		dst = append(dst, span{from, to})
	}
	pass := func(m moment) {
		if in {
			dst[len(dst)-1].to = m
		} else {
			dst = append(dst, span{m, to})
		}
		in = !in
	}
	for i := 0; i < steps; i++ {
		if (y[i] > 0) != (y[i+1] > 0) {
			pass(g.edge(d, at[i], at[i+1], y[i], y[i+1]))
			continue
		}
		// Where the path misses the crown and comes nearest to it, it may graze
		// it between two looks: past look i, or past i+1 before the next.
		if y[i] > 0 || y[i+1] < y[i] && i > 0 || i+2 <= steps && y[i+2] > y[i+1] {
			continue
		}
		end := min(i+2, steps)
		if y[i+1] < y[i] {
			end = i + 1
		}
		if top, yt := g.nearest(d, at[i], at[end]); yt > 0 {
			pass(g.edge(d, at[i], top, y[i], yt))
			pass(g.edge(d, top, at[end], yt, y[end]))
		}
	}
	return dst
}

// part is the moment a share f of the way along the chord from a to b, less than
// half a day apart.
func (a moment) part(b moment, f float64) moment {
	sin, cos := a.sin+f*(b.sin-a.sin), a.cos+f*(b.cos-a.cos)
	r := math.Sqrt(sin*sin + cos*cos)
	return moment{sin: sin / r, cos: cos / r}
}

// timed gives a moment between a and b its hour angle, which part leaves out.
func (a moment) timed(b moment) moment {
	w := math.Atan2(b.sin*a.cos-b.cos*a.sin, b.cos*a.cos+b.sin*a.sin)
	b.w = a.w + w
	return b
}

// edge refines a bracketed passage into or out of the crown's outline, by the
// Illinois rule, to 10⁻⁸ of the bracket or better.
func (g *sight) edge(d *day, a, b moment, ya, yb float64) moment {
	lo, hi := 0.0, 1.0
	for range 60 {
		f := hi - yb*(hi-lo)/(yb-ya)
		m := a.part(b, f)
		y := g.hides(d.towards(m.sin, m.cos))
		if math.Abs(y) < 1e-10*math.Sqrt(g.reach) || math.Abs(f-hi) < 1e-8 {
			return a.timed(m)
		}
		if (y > 0) != (yb > 0) {
			lo, ya = hi, yb
		} else {
			ya /= 2
		}
		hi, yb = f, y
	}
	return a.timed(a.part(b, hi))
}

// nearest looks between two moments for one that the crown hides, by golden
// section towards where the path comes nearest to it.
func (g *sight) nearest(d *day, a, b moment) (moment, float64) {
	const golden = 0.6180339887498949
	at := func(f float64) (moment, float64) {
		m := a.part(b, f)
		return m, g.hides(d.towards(m.sin, m.cos))
	}
	lo, hi := 0.0, 1.0
	p, q := hi-golden, golden
	mp, yp := at(p)
	mq, yq := at(q)
	for range 20 {
		switch {
		case yp > 0:
			return a.timed(mp), yp
		case yq > 0:
			return a.timed(mq), yq
		case yp > yq:
			hi, q, mq, yq = q, p, mp, yp
			p = hi - golden*(hi-lo)
			mp, yp = at(p)
		default:
			lo, p, mp, yp = p, q, mq, yq
			q = lo + golden*(hi-lo)
			mq, yq = at(q)
		}
	}
	return moment{}, 0
}
