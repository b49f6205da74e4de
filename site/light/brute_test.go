package light

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"swardwright/site/sun"
)

// brute answers by plain ray casting in the plan's own axes what the package
// answers by silhouettes: it shares nothing with it but the types.
type brute struct {
	Scene
	lat  float64
	fall float64
	ax   Point // plan direction the ground falls towards
}

func newBrute(s Scene) brute {
	a := (s.AspectDeg - s.PlanNorthDeg) * math.Pi / 180
	return brute{s, s.LatitudeDeg * math.Pi / 180, math.Tan(s.SlopeDeg * math.Pi / 180), Point{math.Sin(a), math.Cos(a)}}
}

func (b brute) ground(p Point) float64 { return -b.fall * (p.X*b.ax.X + p.Y*b.ax.Y) }

func (b brute) middle(ps []Point) Point {
	var a, x, y float64
	for i, p := range ps {
		q := ps[(i+1)%len(ps)]
		c := p.X*q.Y - q.X*p.Y
		a, x, y = a+c/2, x+(p.X+q.X)*c/6, y+(p.Y+q.Y)*c/6
	}
	return Point{x / a, y / a}
}

// through is the share of light that comes through all obstacles along a ray: d is
// level and of unit length, rise is the tangent of its elevation.
func (b brute) through(p Point, d Point, rise float64) float64 {
	z := b.ground(p)
	share := 1.0
	for _, o := range b.Obstacles {
		var foot float64
		if o.Kind == Tree {
			foot = b.ground(o.At)
		} else {
			foot = b.ground(b.middle(o.Footprint))
		}
		top := foot + o.HeightM
		if o.TopM != nil {
			top = *o.TopM
		}
		if o.Kind == Tree {
			// The nearest the ray comes to the centre, with heights stretched.
			bottom := foot + o.ClearStemM
			half, r := (top-bottom)/2, o.CrownM/2
			k := r / half
			cx, cy, cz := o.At.X-p.X, o.At.Y-p.Y, ((top+bottom)/2-z)*k
			dx, dy, dz := d.X, d.Y, rise*k
			l := math.Sqrt(dx*dx + dy*dy + dz*dz)
			t := max(0, (cx*dx+cy*dy+cz*dz)/l)
			dist := math.Hypot(math.Hypot(cx-t*dx/l, cy-t*dy/l), cz-t*dz/l)
			if dist < r {
				share *= o.MonthTransmittance[0]
			}
			continue
		}
		// Where the ray enters and leaves the footprint.
		var ts []float64
		for i, u := range o.Footprint {
			v := o.Footprint[(i+1)%len(o.Footprint)]
			ex, ey := v.X-u.X, v.Y-u.Y
			det := d.X*ey - d.Y*ex
			if det == 0 {
				continue
			}
			t := ((u.X-p.X)*ey - (u.Y-p.Y)*ex) / det
			w := ((u.X-p.X)*d.Y - (u.Y-p.Y)*d.X) / det
			if t > 0 && w >= 0 && w < 1 {
				ts = append(ts, t)
			}
		}
		if len(ts) == 0 {
			continue
		}
		roof := func(t float64) float64 {
			if o.Kind != Gable {
				return top
			}
			q := Point{p.X + t*d.X, p.Y + t*d.Y}
			f := o.Footprint
			long, wide := Point{f[1].X - f[0].X, f[1].Y - f[0].Y}, Point{f[2].X - f[1].X, f[2].Y - f[1].Y}
			if math.Hypot(long.X, long.Y) < math.Hypot(wide.X, wide.Y) {
				long, wide = wide, long
			}
			m := b.middle(f)
			width := math.Hypot(wide.X, wide.Y)
			off := math.Abs((q.X-m.X)*wide.X+(q.Y-m.Y)*wide.Y) / width
			eaves := foot + o.EavesM
			return top - (top-eaves)*off/(width/2)
		}
		first, last := ts[0], ts[0]
		for _, t := range ts {
			first, last = min(first, t), max(last, t)
		}
		hit := false
		if o.Kind == Gable {
			for i := range 401 { // the roof bends once: look along the ray
				t := first + (last-first)*float64(i)/400
				hit = hit || z+rise*t < roof(t)
			}
		} else {
			hit = z+rise*first < top
		}
		if hit {
			if o.Kind != Screen {
				return 0
			}
			share *= o.Transmittance
		}
	}
	return share
}

// skyline is the far horizon's elevation, degrees, at a bearing.
func (b brute) skyline(bearing float64) float64 {
	h := b.Horizon
	if len(h) == 0 {
		return 0
	}
	for i := range h {
		p, q := h[i], h[(i+1)%len(h)]
		if i+1 == len(h) {
			q.BearingDeg += 360
		}
		for _, x := range []float64{bearing, bearing + 360} {
			if x >= p.BearingDeg && x < q.BearingDeg {
				return p.ElevationDeg + (q.ElevationDeg-p.ElevationDeg)*(x-p.BearingDeg)/(q.BearingDeg-p.BearingDeg)
			}
		}
	}
	return h[len(h)-1].ElevationDeg
}

// open says whether a direction is over horizon, skyline and the ground's plane,
// and gives its cosine to the ground's normal.
func (b brute) open(elevation, bearing float64) (bool, float64) {
	s := b.SlopeDeg * math.Pi / 180
	cos := math.Sin(elevation)*math.Cos(s) + math.Cos(elevation)*math.Sin(s)*math.Cos(bearing-b.AspectDeg*math.Pi/180)
	return elevation > 0 && cos > 0 && elevation*180/math.Pi > b.skyline(math.Mod(bearing*180/math.Pi+360, 360)), cos
}

func (b brute) toward(bearing float64) Point {
	a := bearing - b.PlanNorthDeg*math.Pi/180
	return Point{math.Sin(a), math.Cos(a)}
}

func (b brute) hours(p Point, declinationDeg float64, steps int) float64 {
	decl := declinationDeg * math.Pi / 180
	sum := 0.0
	for i := range steps {
		w := -math.Pi + 2*math.Pi*(float64(i)+0.5)/float64(steps)
		el := math.Asin(math.Sin(b.lat)*math.Sin(decl) + math.Cos(b.lat)*math.Cos(decl)*math.Cos(w))
		az := math.Atan2(-math.Sin(w), math.Tan(decl)*math.Cos(b.lat)-math.Sin(b.lat)*math.Cos(w))
		if ok, _ := b.open(el, az); ok {
			sum += b.through(p, b.toward(az), math.Tan(el))
		}
	}
	return sum * 24 / float64(steps)
}

func (b brute) skyView(p Point, bearings, rings int) float64 {
	sum := 0.0
	for i := range bearings {
		az := 2 * math.Pi * (float64(i) + 0.5) / float64(bearings)
		for j := range rings {
			el := math.Pi / 2 * (float64(j) + 0.5) / float64(rings)
			if ok, cos := b.open(el, az); ok {
				sum += cos * math.Cos(el) * b.through(p, b.toward(az), math.Tan(el))
			}
		}
	}
	return sum * 2 * math.Pi / float64(bearings) * math.Pi / 2 / float64(rings) / math.Pi
}

// anyScene draws a scene with obstacles of all kinds about a lawn.
func anyScene(r *rand.Rand) Scene {
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	s := Scene{
		LatitudeDeg:  between(-70, 75),
		PlanNorthDeg: between(-180, 360),
		Lawn:         [][]Point{box(-4, -4, 4, 4)},
	}
	if r.IntN(2) == 0 {
		s.SlopeDeg, s.AspectDeg = between(0, 20), between(0, 360)
	}
	if r.IntN(2) == 0 {
		for az := between(0, 90); az < 360; az += between(20, 120) {
			s.Horizon = append(s.Horizon, HorizonPoint{az, between(-2, 12)})
		}
	}
	for range 1 + r.IntN(5) {
		turn, dist := between(0, 2*math.Pi), between(8, 14)
		sin, cos := math.Sincos(turn)
		place := func(ps ...Point) []Point {
			out := make([]Point, len(ps))
			for i, p := range ps {
				out[i] = Point{p.X*cos - (p.Y+dist)*sin, p.X*sin + (p.Y+dist)*cos}
			}
			if r.IntN(2) == 0 { // the other way round
				for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
					out[i], out[j] = out[j], out[i]
				}
			}
			return out
		}
		l, w := between(0.5, 9), between(0.2, 3.5)
		rect := place(Point{-l, -w}, Point{l, -w}, Point{l, w}, Point{-l, w})
		o := Obstacle{Footprint: rect, HeightM: between(1.5, 12)}
		if r.IntN(3) == 0 {
			top := o.HeightM + 3
			o.TopM, o.HeightM = &top, 0
		}
		switch r.IntN(5) {
		case 0:
			o.Kind = Solid
		case 1: // an L
			o.Kind = Solid
			o.Footprint = place(Point{-l, -w}, Point{l, -w}, Point{l, 0}, Point{0, 0}, Point{0, w}, Point{-l, w})
		case 2:
			o.Kind, o.EavesM = Gable, 0.9
		case 3:
			o.Kind, o.Transmittance = Screen, between(0.1, 0.9)
		case 4:
			tau := [12]float64{}
			for m := range tau {
				tau[m] = 0.3
			}
			o = Obstacle{Kind: Tree, At: place(Point{0, between(-9, 0)})[0], HeightM: between(3, 15), CrownM: between(1, 8), MonthTransmittance: &tau}
			o.ClearStemM = o.HeightM * between(0, 0.6)
		}
		s.Obstacles = append(s.Obstacles, o)
	}
	for i := range 3 {
		s.Probes = append(s.Probes, Probe{Name: fmt.Sprint(i), At: Point{between(-4, 4), between(-4, 4)}})
	}
	return s
}

func TestAgainstRays(t *testing.T) {
	n, steps := 50, 2880
	if testing.Short() {
		n = 15
	}
	r := rand.New(rand.NewPCG(1, 2))
	for i := range n {
		s := anyScene(r)
		if f := s.Faults(); len(f) > 0 {
			t.Fatalf("scene %d: %v", i, f)
		}
		b := newBrute(s)
		days := []int{1 + r.IntN(365), 1 + r.IntN(365)}
		got, err := SunHoursOn(t.Context(), s, Sky{}, days)
		if err != nil {
			t.Fatal(err)
		}
		for k, p := range got {
			for _, d := range p.Days {
				want := b.hours(p.At, sun.DeclinationDeg(float64(d.Day)), steps)
				// Half a step of the rays a passage, and there are a few.
				if math.Abs(d.SunHours-want) > 4*24/float64(steps) {
					t.Errorf("scene %d probe %d day %d: %.4f h, by rays %.4f\n%+v", i, k, d.Day, d.SunHours, want, s)
				}
			}
		}
	}
}

// Tall narrow crowns are easily stepped over.
func TestPoplarsAgainstRays(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	tau := [12]float64{}
	const steps = 8640
	for i := range 40 {
		sin, cos := math.Sincos(2 * math.Pi * r.Float64())
		far := 3 + 15*r.Float64()
		s := Scene{
			LatitudeDeg: 20 + 50*r.Float64(),
			Lawn:        [][]Point{box(-1, -1, 1, 1)},
			Obstacles:   []Obstacle{{Kind: Tree, At: Point{far * sin, far * cos}, HeightM: 25, ClearStemM: 1, CrownM: 0.5 + r.Float64(), MonthTransmittance: &tau}},
			Probes:      []Probe{{At: Point{}}},
		}
		day := 1 + r.IntN(365)
		got, err := SunHoursOn(t.Context(), s, Sky{}, []int{day})
		if err != nil {
			t.Fatal(err)
		}
		want := newBrute(s).hours(Point{}, sun.DeclinationDeg(float64(day)), steps)
		if h := got[0].Days[0].SunHours; math.Abs(h-want) > 4*24.0/steps {
			t.Errorf("scene %d, day %d: %.4f h, by rays %.4f\n%+v", i, day, h, want, s)
		}
	}
}

func TestSkyViewAgainstRays(t *testing.T) {
	n := 24
	if testing.Short() {
		n = 8
	}
	r := rand.New(rand.NewPCG(3, 4))
	for i := range n {
		s := anyScene(r)
		b := newBrute(s)
		tr := newTracer(s, nil)
		tau := make([]float64, len(tr.layers))
		for j := range tau {
			tau[j] = tr.layers[j].transmittance(1, Sky{})
		}
		var w bench
		got := make([]float64, 1)
		p := s.Probes[0].At
		tr.look(&w, tr.onGround(p))
		_, bare := tr.skyView(&w, &tr.ground, [][]float64{tau}, got)
		want := b.skyView(p, 180, 90)
		tol := 0.004 // of the ray grid
		if len(tau) > 0 {
			tol = 0.008 // and of the bearings that layers are summed over
		}
		if math.Abs(got[0]-want) > tol || bare < got[0]-1e-9 {
			t.Errorf("scene %d: sky view %.4f, by rays %.4f (without layers %.4f)\n%+v", i, got[0], want, bare, s)
		}
	}
}
