package weather

import (
	"math"
	"testing"

	"swardwright/internal/calendar"
)

// onLoam is a zone with a share of the open ground's light on the loam of Saxton
// and Rawls 2006, table 3 (wilting point 14, field capacity 28, saturation 46 %).
func onLoam(globalMJ [12]float64, share float64) Exposure {
	e := Exposure{FieldCapacity: 0.28, WiltingPoint: 0.14, Saturation: 0.46, RootDepthM: 0.25, DrainMMD: 50}
	for m := range e.DLI {
		e.OpenShare[m] = share
		e.DLI[m] = share * globalMJ[m] * 2.06
	}
	return e
}

func yearsAt(t testing.TB, s Stations, name string, years int) (*Series, [12]float64) {
	t.Helper()
	n := station(t, s, name).Normals
	mj, _ := s.Radiation(n)
	return Generate(n, mj, years, 3), mj
}

// TestSnowDays holds the snow of the half of the stations that the constants were
// not fitted to against the days with snow lying of the normals 1991-2020.
func TestSnowDays(t *testing.T) {
	const years = 40
	s := table(t)
	var off, bias, n, count float64
	for _, st := range s.All() {
		if st.SnowDays == nil {
			continue
		}
		if count++; int(count)%2 == 1 {
			continue // fitted
		}
		mj, _ := s.Radiation(st.Normals)
		series := Generate(st.Normals, mj, years, 3)
		got, want := 0.0, 0.0
		for _, cm := range series.SnowCM {
			if float64(cm) > max(0.5, st.SnowDepthCM) {
				got += 1.0 / years
			}
		}
		for _, d := range st.SnowDays {
			want += d
		}
		off += math.Abs(got - want)
		bias += got - want
		n++
	}
	t.Logf("%.0f stations held back: %.1f days a year off on average, bias %+.1f", n, off/n, bias/n)
	if off/n > 10 || math.Abs(bias/n) > 4 {
		t.Errorf("snow days %.1f off, bias %+.1f", off/n, bias/n)
	}
}

// TestFrostWithoutCounts asks how well the general rule does where a station's
// own counts of frost days (normals 1991-2020) are withheld.
func TestFrostWithoutCounts(t *testing.T) {
	var off, bias, n float64
	for _, st := range table(t).All() {
		if st.FrostDays == nil {
			continue
		}
		blind := st.Normals
		blind.FrostDays = nil
		days := frostDays(dailyCurve(st.MinC), blind.minSpread(), blind.winterness())
		year := 0.0
		for m := range days {
			year += days[m] - st.FrostDays[m]
		}
		off += math.Abs(year)
		bias += year
		n++
	}
	t.Logf("%.0f stations: %.1f frost days a year off on average, bias %+.1f", n, off/n, bias/n)
	if off/n > 6 || math.Abs(bias/n) > 4 {
		t.Errorf("frost days %.1f off, bias %+.1f", off/n, bias/n)
	}
}

// TestSoilTemperature compares with the monthly soil temperatures of the normals
// 1991-2020 of Ireland (depth not stated; read once in the morning, which is
// cooler than the day's mean but in early summer).
func TestSoilTemperature(t *testing.T) {
	s := table(t)
	for _, c := range []struct {
		name string
		want [12]float64
	}{
		{"Belmullet", [12]float64{5.4, 5.5, 6.6, 9.1, 12.4, 15.1, 16.3, 15.9, 13.8, 10.7, 8, 6}},
		{"Cork Airport", [12]float64{4.9, 4.9, 5.9, 8.2, 11.5, 14.4, 15.7, 15.2, 13.1, 10, 7.2, 5.6}},
		{"Dublin Airport", [12]float64{4.2, 4.3, 5.4, 7.9, 11.4, 14.6, 15.9, 15.2, 12.9, 9.7, 6.7, 4.8}},
		{"Malin Head", [12]float64{5, 4.9, 5.9, 8.2, 11.4, 14, 15.2, 14.8, 12.8, 10.1, 7.5, 5.7}},
		{"Shannon Airport", [12]float64{5.1, 5.2, 6.4, 9, 12.3, 15.2, 16.6, 16.1, 14, 10.8, 7.9, 5.8}},
		{"Valentia Observatory", [12]float64{6.4, 6.4, 7.3, 9.4, 12.5, 15.2, 16.5, 16.1, 14.2, 11.4, 8.8, 7.1}},
	} {
		const years = 60
		series, mj := yearsAt(t, s, c.name, years)
		d := series.Exposed(onLoam(mj, 1))
		var got [12]float64
		for i, v := range d.SoilC {
			got[calendar.MonthOf(i%365)] += float64(v) / years / float64(calendar.MonthDays[calendar.MonthOf(i%365)])
		}
		var sum float64
		for m := range got {
			near(t, c.name, got[m], c.want[m], 1.6)
			sum += (got[m] - c.want[m]) / 12
		}
		near(t, c.name+", year", sum, 0, 0.8)
	}
}

func TestMeet(t *testing.T) {
	s := table(t)
	const years = 40
	for _, name := range []string{"Minneapolis", "Takle", "Winslow", "Punta Arenas"} {
		series, mj := yearsAt(t, s, name, years)
		open, shade := series.Exposed(onLoam(mj, 1)), series.Exposed(onLoam(mj, 0.25))
		watered := onLoam(mj, 1)
		watered.Irrigated = true
		kept := series.Exposed(watered)
		slow := onLoam(mj, 1)
		slow.DrainMMD = 1
		wet := series.Exposed(slow)
		sum := func(v []float32) (total float64) {
			for _, x := range v {
				total += float64(x)
			}
			return total / years
		}
		if !(sum(shade.ET0MM) < sum(open.ET0MM)) || !(sum(shade.SoilC) < sum(open.SoilC)) {
			t.Errorf("%s: shade must evaporate less and be colder", name)
		}
		watered.OpenShare, watered.DLI = onLoam(mj, 0.25).OpenShare, onLoam(mj, 0.25).DLI
		if dim := series.Exposed(watered); !(sum(dim.Growth) < sum(kept.Growth)) {
			t.Errorf("%s: watered grass must grow less in shade", name)
		}
		if !(sum(kept.Moisture) >= sum(open.Moisture)) || sum(kept.WaterMM) <= 0 && name == "Winslow" || sum(open.WaterMM) != 0 {
			t.Errorf("%s: irrigation", name)
		}
		if !(sum(wet.Wet) >= sum(open.Wet)) {
			t.Errorf("%s: slow drains must leave the ground wetter", name)
		}
		for i := range open.SoilC {
			for _, share := range []float32{open.Moisture[i], open.Surface[i], open.Wet[i], open.Growth[i], open.Warm[i]} {
				if !(share >= 0 && share <= 1) {
					t.Fatalf("%s, day %d: a share of %v", name, i, share)
				}
			}
			if open.CrownC[i] < series.MinC[i] || open.ET0MM[i] < 0 || open.IceMM[i] < 0 {
				t.Fatalf("%s, day %d: impossible ground", name, i)
			}
		}
	}
}

// The water of the rootzone goes nowhere unseen: what comes in is what leaves by
// evaporation, drains, surface and change of store.
func TestWaterBalance(t *testing.T) {
	w := newWater(Exposure{FieldCapacity: 0.28, WiltingPoint: 0.14, Saturation: 0.46, RootDepthM: 0.3, DrainMMD: 8})
	near(t, "available water, FAO-56 eq. 82", w.available, 42, 1e-9)
	store := w.store
	for d := range 60 {
		in := 0.0
		if d%7 == 0 {
			in = 12
		}
		before := w.store
		w.day(in, 3)
		above := max(0, min(w.ponding, before+in)-w.available)
		out := min(above, w.drain) + max(0, before+in-w.ponding)
		stressed := turfCoefficient * 3 * w.stress
		near(t, "balance", w.store, before+in-out-stressed, 1e-9)
		if w.store < 0 || w.store > w.ponding {
			t.Fatalf("day %d: store %g", d, w.store)
		}
	}
	if w.store >= store {
		t.Error("two months of 12 mm a week against 3 mm a day must draw the store down")
	}
}

func TestSeasonsAndSummary(t *testing.T) {
	s := table(t)
	const years = 60
	for _, c := range []struct {
		name              string
		growing, frostOff [2]float64 // days a year: mean above 5 °C; free of frost
		lastFrost         [2]int     // day of the year, median
		source            string
	}{
		// Median dates of the last 32 °F in spring and length of the freeze-free
		// season 1991-2020, NOAA (from memory, to a week).
		{"Minneapolis", [2]float64{210, 235}, [2]float64{155, 190}, [2]int{105, 125}, "NOAA"},
		{"Fairbanks", [2]float64{140, 165}, [2]float64{95, 135}, [2]int{125, 145}, "NOAA"},
		{"Baltimore", [2]float64{265, 310}, [2]float64{185, 225}, [2]int{90, 115}, "NOAA"},
		// Growing season of the Nordic 5 °C rule (from memory of SMHI's maps).
		{"Umeå", [2]float64{150, 180}, [2]float64{85, 135}, [2]int{135, 160}, "SMHI"},
		{"Punta Arenas", [2]float64{180, 290}, [2]float64{80, 220}, [2]int{270, 340}, "southern hemisphere"},
	} {
		series, mj := yearsAt(t, s, c.name, years)
		days := series.Exposed(onLoam(mj, 1))
		all := days.Seasons()
		if len(all) != years {
			t.Fatalf("%s: %d seasons of %d years", c.name, len(all), years)
		}
		var growing float64
		for _, y := range all {
			growing += y.GrowingDays / years
			if y.Hardening < 0 || y.Hardening > 1 || y.LongestSnow > y.SnowDays || y.GrowthSum <= 0 || math.IsInf(y.CrownMinC, 0) {
				t.Fatalf("%s: impossible year %+v", c.name, y)
			}
		}
		sum := series.Summary()
		within := func(what string, v, lo, hi float64) {
			if v < lo || v > hi {
				t.Errorf("%s: %s %.0f, want %.0f to %.0f (%s)", c.name, what, v, lo, hi, c.source)
			}
		}
		within("growing days", growing, c.growing[0], c.growing[1])
		within("days free of frost", sum.FrostFreeDays, c.frostOff[0], c.frostOff[1])
		within("last frost", float64(sum.LastFrost50), float64(c.lastFrost[0]), float64(c.lastFrost[1]))
		near(t, c.name+", growing days of the summary", sum.GrowingDays, growing, 0.5)
	}
}

// The wettest hour once in two years, of rainfall atlases from memory (the
// constants were fitted to these and two more).
func TestDesignRain(t *testing.T) {
	s := table(t)
	for name, mm := range map[string]float64{"Lerwick": 10, "Heathrow": 14, "Hamburg": 19, "Minneapolis": 36, "Little Rock": 44} {
		series, _ := yearsAt(t, s, name, 60)
		near(t, name, series.Summary().DesignRainMMH, mm, mm/3)
	}
}

func TestPercentile(t *testing.T) {
	v := []float64{1, 2, 3, 4, 5}
	near(t, "median", Percentile(v, 0.5), 3, 0)
	near(t, "tenth", Percentile(v, 0.1), 1.4, 1e-12)
	near(t, "top", Percentile(v, 1), 5, 0)
	near(t, "none", Percentile(nil, 0.5), 0, 0)
}

func BenchmarkMeet200Years(b *testing.B) {
	series, mj := yearsAt(b, table(b), "Lerwick", 200)
	e := onLoam(mj, 0.5)
	b.ReportAllocs()
	for b.Loop() {
		series.Exposed(e)
	}
}
