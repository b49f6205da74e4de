package light

import (
	"context"
	"math"
	"math/rand/v2"
	"reflect"
	"runtime"
	"slices"
	"testing"

	"swardwright/internal/calendar"
	"swardwright/site/sun"
)

// averageSky is a sky of a constant share of the radiation above the air, with a
// season from April to October, leaves from mid May to mid October.
func averageSky(latitudeDeg float64) Sky {
	s := Sky{LeafOnDay: 135, LeafOffDay: 290}
	for m := range 12 {
		for _, d := range monthDays(m) {
			s.GlobalMJ[m] += 0.42 * sun.RaMJ(latitudeDeg, int(d)) / daysAMonth
		}
		if 3 <= m && m <= 9 {
			s.SeasonWeight[m] = 1
		}
	}
	return s
}

// hoursAt is the sun at the probes on some days of the year, one row a probe.
func hoursAt(t *testing.T, s Scene) [][]float64 {
	t.Helper()
	got, err := SunHoursOn(t.Context(), s, averageSky(s.LatitudeDeg), []int{15, 80, 130, 172, 260, 330})
	if err != nil {
		t.Fatal(err)
	}
	out := make([][]float64, len(got))
	for i, p := range got {
		for _, d := range p.Days {
			out[i] = append(out[i], d.SunHours)
		}
	}
	return out
}

const same = 1e-6 // hours: the crossings are found exactly, the rest is rounding

func TestTallerNeverSunnier(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for i := range 40 {
		s := anyScene(r)
		before := hoursAt(t, s)
		k := r.IntN(len(s.Obstacles))

		taller := s
		taller.Obstacles = slices.Clone(s.Obstacles)
		o := &taller.Obstacles[k]
		if o.TopM != nil {
			top := *o.TopM + 2
			o.TopM = &top
		} else {
			o.HeightM += 2
		}
		if o.Kind != Tree { // a taller tree lifts its crown
			for p, row := range hoursAt(t, taller) {
				for d, h := range row {
					if h > before[p][d]+same {
						t.Errorf("scene %d: obstacle %d 2 m taller gives %v h instead of %v", i, k+1, h, before[p][d])
					}
				}
			}
		}

		without := s
		without.Obstacles = slices.Delete(slices.Clone(s.Obstacles), k, k+1)
		for p, row := range hoursAt(t, without) {
			for d, h := range row {
				if h < before[p][d]-same {
					t.Errorf("scene %d: obstacle %d taken away gives %v h instead of %v", i, k+1, h, before[p][d])
				}
			}
		}
	}
}

// moved is a scene with every plan point changed.
func moved(s Scene, f func(Point) Point) Scene {
	all := func(ps []Point) []Point {
		out := make([]Point, len(ps))
		for i, p := range ps {
			out[i] = f(p)
		}
		return out
	}
	lawn := s.Lawn
	s.Lawn = nil
	for _, part := range lawn {
		s.Lawn = append(s.Lawn, all(part))
	}
	s.Obstacles = slices.Clone(s.Obstacles)
	for i := range s.Obstacles {
		s.Obstacles[i].Footprint = all(s.Obstacles[i].Footprint)
		s.Obstacles[i].At = f(s.Obstacles[i].At)
	}
	s.Probes = slices.Clone(s.Probes)
	for i := range s.Probes {
		s.Probes[i].At = f(s.Probes[i].At)
	}
	return s
}

func TestTurnedAndMirrored(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for i := range 30 {
		s := anyScene(r)
		want := hoursAt(t, s)
		compare := func(what string, s Scene) {
			for p, row := range hoursAt(t, s) {
				for d, h := range row {
					if math.Abs(h-want[p][d]) > same {
						t.Errorf("scene %d %s: %v h instead of %v", i, what, h, want[p][d])
					}
				}
			}
		}
		// The page turned clockwise, and its north with it.
		turn := 360 * r.Float64()
		sin, cos := math.Sincos(turn * rad)
		turned := moved(s, func(p Point) Point { return Point{p.X*cos + p.Y*sin, p.Y*cos - p.X*sin} })
		turned.PlanNorthDeg -= turn
		for turned.PlanNorthDeg < -360 {
			turned.PlanNorthDeg += 360
		}
		compare("turned", turned)

		// East for west.
		mirror := moved(s, func(p Point) Point { return Point{-p.X, p.Y} })
		mirror.PlanNorthDeg = -s.PlanNorthDeg
		mirror.AspectDeg = -s.AspectDeg
		mirror.Horizon = nil
		for _, h := range slices.Backward(s.Horizon) {
			mirror.Horizon = append(mirror.Horizon, HorizonPoint{360 - h.BearingDeg, h.ElevationDeg})
		}
		compare("mirrored", mirror)

		// A solid cut in two.
		for k, o := range s.Obstacles {
			if o.Kind != Solid || len(o.Footprint) != 4 || s.SlopeDeg > 0 && o.TopM == nil {
				continue // on a slope the halves stand on ground of their own
			}
			f := o.Footprint
			mid := func(a, b Point) Point { return Point{a.X + 0.3*(b.X-a.X), a.Y + 0.3*(b.Y-a.Y)} }
			one, two := o, o
			one.Footprint = []Point{f[0], mid(f[0], f[1]), mid(f[3], f[2]), f[3]}
			two.Footprint = []Point{mid(f[0], f[1]), f[1], f[2], mid(f[3], f[2])}
			cut := s
			cut.Obstacles = append(slices.Delete(slices.Clone(s.Obstacles), k, k+1), one, two)
			compare("with a solid cut in two", cut)
		}
	}
}

func TestGableBetweenPrisms(t *testing.T) {
	// A gable hides no less than a flat roof at its eaves and no more than one at
	// its ridge.
	for _, lat := range []float64{47, 57, 64} {
		s := Scene{LatitudeDeg: lat, Lawn: [][]Point{box(0, 0, 10, 8)}, Probes: []Probe{{At: Point{2, 1}}, {At: Point{5, 5}}, {At: Point{9, 7}}}}
		with := func(o Obstacle) [][]float64 {
			o.Footprint = box(1, -6, 8, -1)
			s.Obstacles = []Obstacle{o}
			return hoursAt(t, s)
		}
		low := with(Obstacle{Kind: Solid, HeightM: 3})
		high := with(Obstacle{Kind: Solid, HeightM: 6})
		gable := with(Obstacle{Kind: Gable, HeightM: 6, EavesM: 3})
		for p := range gable {
			for d := range gable[p] {
				if gable[p][d] > low[p][d]+same || gable[p][d] < high[p][d]-same {
					t.Errorf("%v° N: gable %v h, flat %v to %v", lat, gable[p][d], high[p][d], low[p][d])
				}
			}
		}
	}
}

func TestProbeOnAWall(t *testing.T) {
	// A probe on the very face of a wall sees what one a centimetre before it sees,
	// and not through the wall.
	s := Scene{LatitudeDeg: 57, Lawn: [][]Point{box(0, 0, 10, 8)}, Obstacles: []Obstacle{longWall(0, 3)},
		Probes: []Probe{{Name: "on", At: Point{4, 0}}, {Name: "before", At: Point{4, 0.01}}}}
	h := hoursAt(t, s)
	for d := range h[0] {
		if math.Abs(h[0][d]-h[1][d]) > 0.05 {
			t.Errorf("on the face %v h, before it %v h", h[0][d], h[1][d])
		}
	}
}

func TestPolesAndTropics(t *testing.T) {
	for _, c := range []struct {
		lat       float64
		day       int
		skyline   float64
		want, tol float64
	}{
		{90, 172, 0, 24, 1e-9},
		{90, 172, 23, 24, 1e-9}, // the sun circles at 23.4°
		{90, 172, 24, 0, 1e-9},
		{90, 355, 0, 0, 1e-9},
		{-90, 355, 0, 24, 1e-9},
		{-90, 172, 0, 0, 1e-9},
		{0, 80, 45, 6, 0.01}, // up at 15° an hour
		{23.43, 172, 89, 2.0 / 15 / math.Cos(23.43*rad), 0.01},
	} {
		s := Scene{LatitudeDeg: c.lat, Lawn: [][]Point{box(0, 0, 1, 1)}, Probes: []Probe{{At: Point{0.5, 0.5}}}}
		if c.skyline > 0 {
			s.Horizon = []HorizonPoint{{0, c.skyline}}
		}
		got, err := SunHoursOn(t.Context(), s, Sky{}, []int{c.day})
		if err != nil {
			t.Fatal(err)
		}
		if h := got[0].Days[0].SunHours; math.Abs(h-c.want) > c.tol {
			t.Errorf("latitude %v, day %d, skyline %v°: %v h, want %v", c.lat, c.day, c.skyline, h, c.want)
		}
	}
}

func TestTraceIsTheSameOnAllCores(t *testing.T) {
	s := scenes(57)["d"]
	sky := averageSky(57)
	side := 0.11 // over ten thousand cells
	if testing.Short() {
		side = 0.118
	}
	all, err := traceCells(t.Context(), s, sky, side)
	if err != nil {
		t.Fatal(err)
	}
	if len(all.Cells) <= 10000 {
		t.Fatalf("only %d cells", len(all.Cells))
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	one, err := traceCells(t.Context(), s, sky, side)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(all, one) {
		t.Error("one core and all give different fields")
	}
}

func TestTraceStops(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	stop()
	if _, err := Trace(ctx, scenes(57)["d"], averageSky(57), MostCells); err == nil {
		t.Error("a trace with its context ended gives no error")
	}
}

// Three days a month stand for all of them: daysAMonth says how well.
func TestThreeDaysAMonth(t *testing.T) {
	var worst, sum float64
	n := 0
	for _, lat := range []float64{47, 57, 64} {
		for name, s := range scenes(lat) {
			s.Probes = []Probe{{At: Point{3, 1}}, {At: Point{6, 3}}, {At: Point{11, 7}}}
			var days []int
			for d := 1; d <= 365; d++ {
				days = append(days, d)
			}
			every, err := SunHoursOn(t.Context(), s, Sky{}, days)
			if err != nil {
				t.Fatal(err)
			}
			f, err := Trace(t.Context(), s, averageSky(lat), MostCells)
			if err != nil {
				t.Fatal(err)
			}
			for p := range s.Probes {
				var mean [12]float64
				for _, d := range every[p].Days {
					m := monthOf(float64(d.Day))
					mean[m] += d.SunHours / float64(calendar.MonthDays[m])
				}
				for m := range 12 {
					off := math.Abs(mean[m] - f.Probes[p].Light.SunHours[m])
					worst = max(worst, off)
					sum += off
					n++
					if off > 0.5 {
						t.Errorf("%s at %v° N, probe %d, month %d: %.2f h, every day %.2f", name, lat, p+1, m+1, f.Probes[p].Light.SunHours[m], mean[m])
					}
				}
			}
		}
	}
	if sum/float64(n) > 0.02 {
		t.Errorf("mean difference %.3f h", sum/float64(n))
	}
	t.Logf("worst %.2f h, mean %.3f h", worst, sum/float64(n))
}
