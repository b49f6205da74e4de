package sward

import (
	"math"
	"slices"
	"testing"
)

// plain is a field of one zone in which nothing happens: n grasses alike, full
// light, no losses.
func plain(n, years int) *Field {
	z := Zone{
		Share:    1,
		Capacity: fill(n, 0.95), Claim: fill(n, claim0), Spread: fill(n, 0.5), Volunteer: fill(n, 0.0), Green: fill(n, 1.0),
		Gain: fill(n*years, float32(1)), Summer: fill(n*years, float32(1)), Winter: fill(n*years, float32(1)), Growth: fill(years, float32(80)),
	}
	f := &Field{Invader: make([]bool, n), Years: years, Zones: []Zone{z}}
	for g := range n {
		f.IDs = append(f.IDs, string(rune('a'+g)))
	}
	return f
}

func fill[T any](n int, v T) []T {
	s := make([]T, n)
	for i := range s {
		s[i] = v
	}
	return s
}

func run(f *Field, s Sowing) Outcome {
	r := Follower{Field: f, Starts: Starts(f.Years, f.Years), Detail: true}
	return r.Follow(&s)
}

func TestFirstCut(t *testing.T) {
	// Brede & Duich 1984, Agronomy Journal 76:711-714: 95 : 5 smooth meadow-grass
	// and ryegrass by live seed became so much meadow-grass, % of shoots at two
	// months, for a first cut at a height in week 2 (9 days after first emergence)
	// or in week 3. The lead is that of the first treatment; the other two follow.
	lead := math.Log(95.0/5) - math.Log(49.0/51)
	for _, c := range []struct{ cutMM, day, meadow float64 }{
		{38, 16, 49},
		{13, 16, 66},
		{13, 9, 84},
	} {
		odds := math.Log(95.0/5) - lead*early(c.cutMM, c.day)
		if got := 100 / (1 + math.Exp(-odds)); math.Abs(got-c.meadow) > 1 {
			t.Errorf("cut at %v mm on day %v: %.1f %% meadow-grass, published %v", c.cutMM, c.day, got, c.meadow)
		}
	}
	for cut := 5.0; cut < 60; cut++ {
		if firstCut(cut) > firstCut(cut+1)+1e-12 {
			t.Errorf("a higher first cut at %v mm takes more from quick grasses", cut+1)
		}
	}
}

func TestEstablishment(t *testing.T) {
	f := plain(2, 1)
	last := 0.0
	for _, plants := range []float64{100, 1000, 5000, 20000, 100000} {
		o := run(f, Sowing{Grass: []int{0}, Plants: []float64{plants}, Season: 1})
		if o.Early <= last || o.Early > f.Zones[0].Capacity[0] {
			t.Errorf("%v plants cover %.3f, fewer covered %.3f", plants, o.Early, last)
		}
		last = o.Early
	}
	// A mixture of grasses alike is one grass: the total doesn't know of shares.
	alone := run(f, Sowing{Grass: []int{0}, Plants: []float64{6000}, Season: 1})
	both := run(f, Sowing{Grass: []int{0, 1}, Plants: []float64{1500, 4500}, Season: 1})
	if math.Abs(alone.Early-both.Early) > 1e-12 || math.Abs(both.Shares[0]-0.25) > 1e-9 {
		t.Errorf("two grasses alike: cover %v against %v, shares %v", both.Early, alone.Early, both.Shares)
	}
}

func TestShiftIsAdditive(t *testing.T) {
	// The shift in log-odds within a site and year is nearly the same for every
	// sown ratio: standard deviation 0.2-0.7 (Kirwan et al. 2014, Ecology 95:2680,
	// data, four sown ratios at each of 33 sites).
	f := plain(2, 40)
	z := &f.Zones[0]
	for y := range f.Years {
		hard := 0.5 + 0.5*math.Abs(math.Sin(float64(y)))
		z.Gain[2*y] = float32(math.Exp(-0.3))
		z.Winter[2*y] = float32(hard)
	}
	z.Spread[0], z.Spread[1] = 0.4, 0.9
	z.Capacity[0] = 0.85
	for season := range Seasons {
		var shifts []float64
		for _, sown := range []float64{0.125, 0.5, 0.5, 0.875} {
			o := run(f, Sowing{Grass: []int{0, 1}, Plants: []float64{8000 * sown, 8000 * (1 - sown)}, Season: 1})
			s := o.Seasons[season].Shares
			shifts = append(shifts, math.Log(s["a"]/s["b"])-math.Log(sown/(1-sown)))
		}
		var mean, square float64
		for _, x := range shifts {
			mean += x / 4
		}
		for _, x := range shifts {
			square += (x - mean) * (x - mean) / 3
		}
		if sd := math.Sqrt(square); sd > 0.7 {
			t.Errorf("season %d: shifts %.2f differ by %.2f between sown ratios", season+1, shifts, sd)
		}
	}
}

func TestProperties(t *testing.T) {
	f := plain(3, 30)
	z := &f.Zones[0]
	for i := range z.Summer {
		z.Summer[i] = float32(0.6 + 0.4*math.Abs(math.Sin(float64(i))))
		z.Winter[i] = float32(0.5 + 0.5*math.Abs(math.Cos(1.7*float64(i))))
	}
	z.Volunteer[2] = 0.1
	f.Invader[2] = true
	s := Sowing{Grass: []int{0, 1}, Plants: []float64{2000, 6000}, Season: 0.7}
	base := run(f, s)
	if base.BadYear > base.Expected || base.Summer > base.Expected+1e-9 || base.Volunteer <= 0 {
		t.Errorf("bad year %.3f, summer %.3f, expected %.3f, volunteers %.3f", base.BadYear, base.Summer, base.Expected, base.Volunteer)
	}
	for _, season := range base.Seasons {
		var sum float64
		for _, x := range season.Shares {
			sum += x
		}
		if math.Abs(sum-100) > 1e-9 || season.BadCover > season.Cover || season.Cover > 1 {
			t.Errorf("season %d: shares sum to %v, cover %v, bad %v", season.Year, sum, season.Cover, season.BadCover)
		}
	}
	again := run(f, s)
	if !slices.Equal(base.Shares, again.Shares) || base.Expected != again.Expected {
		t.Error("two runs differ")
	}

	worse := func(name string, alter func(*Zone)) {
		g := plain(3, 30)
		w := &g.Zones[0]
		copy(w.Summer, z.Summer)
		copy(w.Winter, z.Winter)
		copy(w.Volunteer, z.Volunteer)
		g.Invader[2] = true
		alter(w)
		if o := run(g, s); o.Expected > base.Expected+1e-9 {
			t.Errorf("%s gives more cover: %.4f above %.4f", name, o.Expected, base.Expected)
		}
	}
	worse("less light", func(w *Zone) { w.Capacity = fill(3, 0.6) })
	worse("harder winters", func(w *Zone) {
		for i := range w.Winter {
			w.Winter[i] *= 0.7
		}
	})
	worse("a shorter season", func(w *Zone) { w.Growth = fill(30, float32(20)) })

	// A zone split in two alike changes nothing.
	split := *f
	half := *z
	half.Share = 0.5
	split.Zones = []Zone{half, half}
	if o := run(&split, s); math.Abs(o.Expected-base.Expected) > 1e-12 || math.Abs(o.BadYear-base.BadYear) > 1e-12 {
		t.Errorf("split in two: %v and %v, whole %v and %v", o.Expected, o.BadYear, base.Expected, base.BadYear)
	}
	// Overseeding a full sward changes it little; the same seed on bare ground rules.
	stood := *f
	stood.Zones = []Zone{*z}
	stood.Zones[0].Standing = []float64{0, 0.95, 0}
	full := run(&stood, Sowing{Grass: []int{0}, Plants: []float64{8000}, Season: 1})
	bare := run(f, Sowing{Grass: []int{0}, Plants: []float64{8000}, Season: 1})
	if full.Shares[0] > 0.2 || bare.Shares[0] < 0.6 {
		t.Errorf("overseeded share %.2f in a full sward, %.2f on bare ground", full.Shares[0], bare.Shares[0])
	}
}

func FuzzFollow(f *testing.F) {
	f.Add(5000.0, 3000.0, 0.8, 0.5, float32(0.9), float32(0.7), float32(50), 0.1, 0.5)
	f.Add(0.0, 0.0, 0.0, 0.0, float32(0), float32(0), float32(0), 0.0, 0.0)
	f.Add(1e6, 1.0, 1.0, 1.0, float32(1), float32(1), float32(365), 1.0, 1.0)
	f.Fuzz(func(t *testing.T, a, b, capacity, spread float64, summer, winter, growth float32, volunteer, left float64) {
		unit := func(x float64) float64 {
			if !(x >= 0) {
				return 0
			}
			return min(1, x)
		}
		field := plain(3, 2)
		z := &field.Zones[0]
		z.Capacity[0], z.Spread[1], z.Volunteer[2] = unit(capacity), unit(spread), unit(volunteer)
		for i := range z.Summer {
			z.Summer[i], z.Winter[i] = float32(unit(float64(summer))), float32(unit(float64(winter)))
		}
		z.Growth[0] = float32(365 * unit(float64(growth)/365))
		o := run(field, Sowing{Grass: []int{0, 1}, Plants: []float64{1e6 * unit(a/1e6), 1e6 * unit(b/1e6)}, Season: unit(left)})
		for _, x := range []float64{o.Early, o.Expected, o.BadYear, o.Summer, o.Young, o.Volunteer, o.Seasons[4].Cover} {
			if !(x >= 0 && x <= 1+1e-9) {
				t.Fatalf("cover %v out of range: %+v", x, o)
			}
		}
	})
}

func BenchmarkFollow(b *testing.B) {
	f := plain(25, 200)
	r := Follower{Field: f, Starts: Starts(200, 40)}
	s := Sowing{Grass: []int{0, 3, 7}, Plants: []float64{3000, 3000, 3000}, Season: 0.75}
	b.ReportAllocs()
	for b.Loop() {
		r.Follow(&s)
	}
}
