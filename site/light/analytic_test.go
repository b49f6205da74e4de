package light

import (
	"math"
	"testing"

	"swardwright/site/sun"
)

// longWall stands along the south, its face at y = -distance.
func longWall(distance, height float64) Obstacle {
	return Obstacle{Name: "wall", Kind: Solid, HeightM: height, Footprint: box(-1e3, -distance-0.5, 1e3, -distance)}
}

// skyViewAt is the sky view at the plan's origin.
func skyViewAt(s Scene) float64 {
	tr := newTracer(s, nil)
	var b bench
	tr.look(&b, tr.onGround(Point{}))
	_, view := tr.skyView(&b, &tr.ground, nil, nil)
	return view
}

// beamNormal is the clear sky's beam at an elevation, mean distance of the sun.
func beamNormal(elevationDeg float64) float64 { return clearBeam(math.Sin(elevationDeg*rad), 0, 1) }

func TestWallElevation(t *testing.T) {
	// A wall of height H at distance D hides the sky up to atan(H cos γ / D) at an
	// angle γ off its normal: plain geometry, as profile angles in Duffie & Beckman,
	// Solar Engineering of Thermal Processes, ch. 1.
	tr := newTracer(Scene{Obstacles: []Obstacle{longWall(3, 2)}}, nil)
	var b bench
	tr.look(&b, vec{})
	for _, c := range []struct{ bearingDeg, want float64 }{
		{180, 33.690}, {225, 25.239}, {135, 25.239},
		{180 + 80, math.Atan(2*math.Cos(80*rad)/3) / rad},
		{0, 0}, {90, 0}, {270, 0}, {300, 0},
	} {
		sin, cos := math.Sincos(c.bearingDeg * rad)
		if got := math.Atan(b.near.height(sin, cos)) / rad; math.Abs(got-c.want) > 0.001 {
			t.Errorf("bearing %v: %.4f°, want %.3f°", c.bearingDeg, got, c.want)
		}
	}
}

func TestNoonShadow(t *testing.T) {
	// At true noon the sun stands 90° - latitude + declination high in the south: a
	// wall to the south cuts noon off below height = distance × tan of that. Just
	// under it there is sun about noon, just over it none.
	const lat, distance = 57.0, 4.0
	for _, dayOfYear := range []int{15, 80, 172, 300} {
		noon := math.Tan((90 - lat + sun.DeclinationDeg(float64(dayOfYear))) * rad)
		for _, k := range []float64{0.999, 1.001} {
			s := Scene{LatitudeDeg: lat, Lawn: [][]Point{box(-1, -1, 1, 1)}, Probes: []Probe{{At: Point{}}},
				Obstacles: []Obstacle{longWall(distance, k*distance*noon)}}
			d := newDay(lat, 0, float64(dayOfYear))
			tr := newTracer(s, []day{d})
			var b bench
			tr.look(&b, vec{})
			bounds := b.near.bounds(nil, tr.sinP, tr.cosP)
			lit, _ := d.above(nil, tr.ground.lit[0], b.near, bounds, nil)
			atNoon := false
			for _, l := range lit {
				atNoon = atNoon || l.from.w <= 0 && 0 <= l.to.w
			}
			if atNoon != (k < 1) {
				t.Errorf("day %d, wall of %v × the noon height: sun at noon %v", dayOfYear, k, atNoon)
			}
		}
	}
}

func TestEquinoxProfile(t *testing.T) {
	// With the sun on the equator its angle in the plane of noon is 90° - latitude
	// all day long, so a long wall due south hides all of the day or none.
	for _, c := range []struct{ lat, wallDeg, want float64 }{
		{57, 32, 12}, {57, 34, 0}, {47, 42, 12}, {47, 44, 0}, {-35, 60, 12},
	} {
		s := Scene{LatitudeDeg: c.lat, Obstacles: []Obstacle{longWall(1, math.Tan(c.wallDeg*rad))}}
		tr := newTracer(s, []day{pathOf(c.lat, 0, 0, 1, 0)})
		var b bench
		var got [1]sunlight
		tr.look(&b, vec{})
		tr.sun(&b, &tr.ground, got[:])
		// The wall has ends, a kilometre off, past which the first and last sun comes.
		if math.Abs(got[0].hours-c.want) > 0.02 {
			t.Errorf("%v° N behind a wall of %v°: %.3f h, want %v", c.lat, c.wallDeg, got[0].hours, c.want)
		}
	}
}

func TestSkyView(t *testing.T) {
	ring := func(deg float64) []HorizonPoint { return []HorizonPoint{{0, deg}} }
	wall := func(y0, y1, h float64) Obstacle {
		return Obstacle{Kind: Solid, HeightM: h, Footprint: box(-1e4, y0, 1e4, y1)}
	}
	for _, c := range []struct {
		what      string
		s         Scene
		want, tol float64
	}{
		{"open", Scene{}, 1, 1e-12},
		{"even skyline of 30°: cos² (Oke, Boundary Layer Climates, 1987)", Scene{Horizon: ring(30)}, 0.75, 1e-4},
		{"slope of 30°: (1 + cos)/2 (Bendix 2004, eq. 3.15)", Scene{SlopeDeg: 30, AspectDeg: 77}, 0.9330127, 1e-7},
		{"valley of 30°: cos (Bendix 2004, eq. 3.15)", Scene{Obstacles: []Obstacle{wall(math.Sqrt(3), 3, 1), wall(-3, -math.Sqrt(3), 1)}}, 0.8660254, 1e-5},
		{"long wall as high as it is far: (1 + cos 45°)/2 (Oke 1987)", Scene{Obstacles: []Obstacle{wall(2, 3, 2)}}, (1 + math.Sqrt2/2) / 2, 1e-5},
		{"street canyon of height over width 0.5 (Oke 1987)", Scene{Obstacles: []Obstacle{wall(1, 2, 1), wall(-2, -1, 1)}}, 0.7071, 1e-4},
		{"street canyon of height over width 1 (Oke 1987)", Scene{Obstacles: []Obstacle{wall(1, 2, 2), wall(-2, -1, 2)}}, 0.4472, 1e-4},
		{"street canyon of height over width 2 (Oke 1987)", Scene{Obstacles: []Obstacle{wall(1, 2, 4), wall(-2, -1, 4)}}, 0.2425, 1e-4},
	} {
		if got := skyViewAt(c.s); math.Abs(got-c.want) > c.tol {
			t.Errorf("%s: %.6f, want %.6f", c.what, got, c.want)
		}
	}
}

func TestCrownView(t *testing.T) {
	// A sphere of radius r, its centre at distance d and elevation h, fills
	// (r/d)² sin h of a level plane's view while it stands clear of the horizon:
	// the form factor of a sphere (Howell, catalogue of configuration factors, B-39;
	// from memory).
	tau := [12]float64{}
	tree := Obstacle{Kind: Tree, At: Point{0, 6}, HeightM: 10, ClearStemM: 6, CrownM: 4, MonthTransmittance: &tau}
	tr := newTracer(Scene{Obstacles: []Obstacle{tree}}, nil)
	var b bench
	view := make([]float64, 1)
	tr.look(&b, vec{})
	treeless, bare := tr.skyView(&b, &tr.ground, [][]float64{{0}}, view)
	d := math.Hypot(6, 8)
	want := 1 - (2/d)*(2/d)*(8/d)
	if math.Abs(view[0]-want) > 1e-3 || treeless != 1 || bare != 1 {
		t.Errorf("sky view %.5f (%v without trees), want %.5f", view[0], treeless, want)
	}
}

func TestCrownPassage(t *testing.T) {
	// On the equator at an equinox the sun climbs straight from east to west through
	// the zenith: a sphere of angular radius ρ in the plane of its path hides it for
	// 2ρ of hour angle.
	tau := [12]float64{}
	tree := Obstacle{Kind: Tree, At: Point{-8, 0}, HeightM: 10, ClearStemM: 6, CrownM: 4, MonthTransmittance: &tau}
	tr := newTracer(Scene{Obstacles: []Obstacle{tree}}, []day{pathOf(0, 0, 0, 1, 0)})
	tr.tau = [][]float64{{0}}
	var b bench
	var got [1]sunlight
	tr.look(&b, vec{})
	tr.sun(&b, &tr.ground, got[:])
	want := 12 - 2*math.Asin(2/math.Hypot(8, 8))*12/math.Pi
	if math.Abs(got[0].hours-want) > 1e-6 {
		t.Errorf("%.7f h, want %.7f", got[0].hours, want)
	}
}

func TestDiffuseShare(t *testing.T) {
	// Madison in June: clearness 0.55, sunset hour angle 113.4°: diffuse 0.38 of the
	// whole. Duffie & Beckman, example 2.12.1; from memory.
	if got := diffuseShare(0.55, 113.4*rad); math.Abs(got-0.38) > 0.005 {
		t.Errorf("monthly diffuse share %.3f, want 0.38", got)
	}
	for k := 0.0; k <= 1; k += 0.01 {
		for _, w := range []float64{0.5, 2} {
			if s := diffuseShare(k, w); s < 0 || s > 1 || s > diffuseShare(max(0, k-0.01), w)+1e-12 {
				t.Errorf("clearness %.2f: diffuse share %v", k, s)
			}
		}
	}
}

func TestClearBeam(t *testing.T) {
	// On level ground the beam lies below the global radiation of a clear sky by
	// Haurwitz, J. Meteorol. 2:154 (1945), and makes up most of it. Values of his
	// formula as printed in pvlib tests/test_clearsky.py.
	for _, c := range []struct{ elevationDeg, haurwitz float64 }{
		{10, 135.74174809}, {30, 487.89413289}, {50, 778.76668934}, {90, 1035.09203253},
	} {
		beam := beamNormal(c.elevationDeg) * math.Sin(c.elevationDeg*rad)
		if share := beam / c.haurwitz; share < 0.6 || share >= 1 {
			t.Errorf("%v°: beam %.0f of %.0f W/m²", c.elevationDeg, beam, c.haurwitz)
		}
	}
	last := 0.0
	for el := -1.0; el <= 90; el += 0.5 {
		b := beamNormal(el)
		if b < last || el <= 0 && b != 0 {
			t.Fatalf("beam %v at %v°, %v below", b, el, last)
		}
		last = b
	}
}

func TestPhotonsOfAnOpenLawn(t *testing.T) {
	// 20 MJ m⁻² d⁻¹ with 0.45 of it photosynthetic and 4.57 µmol/J is 41.1 mol.
	sky := Sky{}
	for m := range sky.GlobalMJ {
		sky.GlobalMJ[m] = 20
	}
	f := Stated(Seen{}, 50, sky, 100)
	for m, got := range f.OpenDLI {
		if math.Abs(got-41.13) > 0.01 {
			t.Errorf("month %d: %.3f mol", m+1, got)
		}
	}
}
