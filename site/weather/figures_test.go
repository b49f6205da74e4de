package weather

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"swardwright/internal/calendar"
	"swardwright/site/sun"
)

// What an hour and a place of a weather file may be, at the bounds, and how hours become months, by hand. What is missing is
// written as 999 (EnergyPlus, data dictionary of weather files).
func TestEPWWorked(t *testing.T) {
	hour := func(field int, value string) []string {
		f := strings.Split("2001,1,1,1,0,?,10,7,80,101000,0,0,300,100,0,0,0,0,0,0,180,3,5,5,10,2000,9,9,10,0.1,0,88,0.2,0,1", ",")
		f[field] = value
		return f
	}
	for field, r := range map[int][2]float64{6: {-70, 70}, 7: {-100, 70}, 13: {0, 1500}, 21: {0, 999}, 33: {0, 9999}} {
		for x, sound := range map[float64]bool{r[0]: true, r[1]: true, r[0] - 0.1: false, r[1] + 0.1: false} {
			if err := new(epwSums).add(hour(field, fmt.Sprint(x))); (err == nil) != sound {
				t.Errorf("field %d of %g: %v", field, x, err)
			}
		}
	}
	for field, r := range map[int][2]float64{6: {-90, 90}, 7: {-180, 180}, 9: {-500, 6000}} {
		for x, sound := range map[float64]bool{r[0]: true, r[1]: true, r[0] - 0.1: false, r[1] + 0.1: false} {
			place := strings.Split("LOCATION,Invented Cove,-,NZL,invented,99999,-41.5,174.0,12.0,23.0", ",")
			place[field] = fmt.Sprint(x)
			if err := new(Normals).epwLocation(place); (err == nil) != sound {
				t.Errorf("place, field %d of %g: %v", field, x, err)
			}
		}
	}
	var s epwSums
	for h, at := range []struct{ c, dew, light, wind, rain string }{{"10", "7", "100", "3", "2"}, {"14", "20", "500", "98", "499"}, {"6", "6", "0", "99", "500"}} {
		f := hour(3, fmt.Sprint(h+1))
		f[6], f[7], f[13], f[21], f[33] = at.c, at.dew, at.light, at.wind, at.rain
		if err := s.add(f); err != nil {
			t.Fatal(err)
		}
	}
	s.closeDay()
	near(t, "sum of temperatures", s.mean[0], 30, 1e-9)
	near(t, "the day's lowest", s.minDay[0], 6, 0)
	near(t, "the day's highest", s.maxDay[0], 14, 0)
	near(t, "light", s.globalWh[0], 600, 0)
	near(t, "rain", s.rain[0], 501, 0)
	near(t, "wind", s.wind[0], 101, 0)
	near(t, "vapour, no more than air holds", s.dewKPa[0], saturationKPa(7)+saturationKPa(14)+saturationKPa(6), 1e-9)
	// A year of hours: vapour of a wave of 4 K about 16 °C in January, dew 3 K below.
	n, err := ReadEPW(strings.NewReader(epwFile(nil)))
	if err != nil {
		t.Fatal(err)
	}
	for m, mean := range map[int]float64{0: 16, 6: 4, 11: 10 + 6*math.Cos(22*math.Pi/12)} {
		hpa := 0.0
		for h := range 24 {
			hpa += 10 * 0.6108 * math.Exp(17.27*dew(mean, h)/(dew(mean, h)+237.3)) / 24 // FAO-56 equation 11
		}
		near(t, fmt.Sprintf("vapour of month %d, hPa", m+1), n.VapourHPa[m], hpa, 0.005)
		near(t, fmt.Sprintf("wet days of month %d", m+1), n.WetDays[m], math.Ceil(float64(calendar.MonthDays[m])/3), 0)
		near(t, fmt.Sprintf("wind of month %d", m+1), n.WindMS[m], 3, 1e-9)
	}
}

// dew is the dew point of an hour of the file's days.
func dew(mean float64, hour int) float64 {
	return mean + 4*math.Sin(2*math.Pi*float64(hour-8)/24) - 3
}

// A day's extremes by hand: what its two residuals have in common and what sets them apart, each by its spread; where they would
// cross, both give way by half.
func TestExtremesWorked(t *testing.T) {
	q := parameters{common: 0.8, apart: 0.3, sdMax: 4, sdMin: 5, minMean: 2}
	both := 0.8 * 1.5 / math.Sqrt(2*1.633)
	lo, hi := q.extremes(12, [3]float64{1, 0.5, 9})
	near(t, "highest", hi, 12+4*(both+0.15), 1e-9)
	near(t, "lowest", lo, 2+5*(both-0.15), 1e-9)
	lo, hi = q.extremes(2, [3]float64{-1, 1, 9})
	near(t, "crossing: highest", hi, 2-4*0.6+2.95, 1e-9) // -0.4 and 5 cross by 5.4, and half a degree is left between them
	near(t, "crossing: lowest", lo, 2+5*0.6-2.95, 1e-9)
	q.skew = 0.08
	lo, _ = q.extremes(12, [3]float64{-1, -1, 9})
	z := -2 / math.Sqrt(2*1.633)
	near(t, "skewed to the cold", lo, 2+5*0.8*(z-0.08*(z*z-1))/math.Sqrt(1+2*0.08*0.08), 1e-9)
}

// Where the mean range is small, holding it open widens it: E max(range, ½) of a normal range is taken off beforehand, so that the
// months keep their means.
func TestRangeIsKept(t *testing.T) {
	var n Normals
	global := [12]float64{}
	for m := range n.MeanC {
		n.MeanC[m], n.MinC[m], n.MaxC[m], global[m] = 8-6*math.Cos(2*math.Pi*float64(m)/12), 7-6*math.Cos(2*math.Pi*float64(m)/12), 9.4-6*math.Cos(2*math.Pi*float64(m)/12), 12
	}
	n.LatitudeDeg = 45
	p := dailyParameters(n, global)
	lo, hi := dailyCurve(n.MinC), dailyCurve(n.MaxC)
	for _, d := range []int{10, 100, 200, 300} {
		q, mu := p[d], hi[d]-lo[d]
		a, b := tie(mu, q.sdMin, q.sdMax)
		sd := math.Sqrt(math.Pow((q.sdMax-q.sdMin)*a, 2) + math.Pow((q.sdMax+q.sdMin)*b, 2))
		at := (0.5 - mu) / sd
		below := 0.5 * math.Erfc(-at/math.Sqrt2)
		held := 0.5*below + mu*(1-below) + sd*math.Exp(-at*at/2)/math.Sqrt(2*math.Pi)
		if held-mu < 0.005 {
			t.Fatalf("day %d: %g K of widening tell nothing", d, held-mu)
		}
		near(t, "lowest of the mean", q.minMean, lo[d]+(held-mu)/2, 1e-6)
		near(t, "highest of the mean", q.maxDry, hi[d]-(held-mu)/2, 1e-6) // without a wet day
		near(t, "the mean beside the middle", q.meanOffset, -0.2, 1e-6)
	}
}

// Draws of a gamma distribution have its mean, variance and third moment, its shape once, once and twice, and at a shape of a half
// the distribution function erf √x.
func TestGammaDraws(t *testing.T) {
	for _, shape := range []float64{0.2, 0.5, 0.8, 1} {
		r := rand.New(rand.NewPCG(1, 2))
		const n = 200000
		var sum, square, cube, under float64
		for range n {
			x := gamma(r, shape)
			sum += x / n
			square += x * x / n
			cube += x * x * x / n
			if x < 0.4 {
				under += 1.0 / n
			}
		}
		variance := square - sum*sum
		near(t, fmt.Sprintf("mean at %g", shape), sum, shape, 0.012)
		near(t, fmt.Sprintf("variance at %g", shape), variance, shape, 0.03)
		near(t, fmt.Sprintf("third moment at %g", shape), cube-3*sum*variance-sum*sum*sum, 2*shape, 0.2)
		switch shape {
		case 0.5:
			near(t, "under 0.4, erf √0.4", under, math.Erf(math.Sqrt(0.4)), 0.004)
		case 1:
			near(t, "under 0.4, 1 - e^-0.4", under, 1-math.Exp(-0.4), 0.004)
		}
	}
	if gamma(nil, 0) != 0 {
		t.Error("rain of no shape")
	}
}

// Radiation above the air and the length of the day at 40° N, by month: FAO-56, annex 2, table 2.6, of the middle of the month
// (from memory), and the sun's declination at the solstices; and no more of it than a clear sky lets through.
func TestMonthlySun(t *testing.T) {
	ra, hours := monthlySun(40)
	for m, want := range [12]float64{15.0, 20.4, 27.2, 34.7, 39.7, 41.9, 40.8, 36.7, 30.0, 22.5, 16.3, 13.6} {
		near(t, fmt.Sprintf("radiation, month %d", m+1), ra[m], want, 0.35)
	}
	longest := 24 / math.Pi * math.Acos(-math.Tan(40*math.Pi/180)*math.Tan(23.44*math.Pi/180)) // at the solstice
	near(t, "days of June", hours[5], longest, 0.08)
	near(t, "days of December", hours[11], 24-longest, 0.08)
	mean := 0.0
	for m, h := range hours {
		mean += h * float64(calendar.MonthDays[m]) / 365
	}
	near(t, "days of the year", mean, 12, 0.02)
	var mj [12]float64
	for m := range mj {
		mj[m] = 25
	}
	for m, x := range AtMostClear(mj, 40, 1500) {
		near(t, "no more than clear", x, min(25, 0.78*ra[m]), 1e-9)
	}
	// Sunshine over the day's length: 9.6 h a day are all of it in January, half of 4.8; no more than all.
	sunny := [12]float64{31 * 4.8, 28 * 10.7, 31 * 24}
	share := relativeSun(sunny, [12]float64{9.6, 10.7, 11.9})
	near(t, "half", share[0], 0.5, 1e-9)
	near(t, "all", share[1], 1, 1e-9)
	near(t, "no more", share[2], 1, 0)
	near(t, "in polar night", share[5], 0, 0)
	near(t, "Angot, one day", ra[0]*31, func() (sum float64) {
		for d := range 31 {
			sum += sun.RaMJ(40, d+1)
		}
		return sum
	}(), 1e-6)
	// Without sunshine for hundreds of kilometres radiation comes of the daily range: 0.16 √10 of what is above the air inland (FAO-56
	// equation 50).
	n := Normals{LatitudeDeg: 40, LongitudeDeg: -40} // in the Atlantic
	for m := range n.MeanC {
		n.MeanC[m], n.MinC[m], n.MaxC[m] = 10, 5, 15
	}
	got, how := (&Stations{}).Radiation(n)
	for m := range got {
		near(t, "by the range", got[m], 0.16*math.Sqrt(10)*ra[m], 1e-9)
	}
	if how.Name != "site.radiation-from-range" {
		t.Error(how)
	}
	for m := range n.MinC {
		n.MinC[m] = -15 // a range of 30 K would be more than a clear sky's
	}
	got, _ = (&Stations{}).Radiation(n)
	near(t, "no clearer than clear", got[5], 0.75*ra[5], 1e-9)
}

// Every year is read from its own coldest day on, and mould only in the five months about the coldest.
func TestYearsApart(t *testing.T) {
	const years = 3
	n := years * calendar.Year
	fill := func() []float32 { return make([]float32, n) }
	s := &Series{Years: years, MeanC: fill(), MinC: fill(), MaxC: fill(), RainMM: fill(), GlobalMJ: fill(), SnowMM: fill(), SnowCM: fill()}
	for m := range s.Normals.MeanC {
		s.Normals.MeanC[m] = 5 - 10*math.Cos(2*math.Pi*float64(m)/12)
	}
	d := &Days{Series: s, SoilC: fill(), CrownC: fill(), ET0MM: fill(), Moisture: fill(), Wet: fill(), IceMM: fill(), WaterMM: fill(), Growth: fill(), Warm: fill()}
	cold := s.Normals.ColdestDay()
	for y := range years {
		for k := range calendar.Year {
			i := (y*calendar.Year + cold + k) % n
			d.Growth[i], d.WaterMM[i], s.MeanC[i] = float32(y+1)/365, float32(y), 12
		}
	}
	for y := range years { // rain at 5 °C 149 and 150 days before the coldest day to come, and as long after it
		for _, k := range []int{215, 216, 365 + 149, 365 + 150} {
			i := (y*calendar.Year + cold + k) % n
			s.MeanC[i], s.RainMM[i] = 5, 1
		}
	}
	for y, got := range d.Seasons() {
		near(t, fmt.Sprintf("growth of year %d", y), got.GrowthSum, float64(y+1), 1e-4)
		near(t, fmt.Sprintf("water of year %d", y), got.WaterMM, float64(365*y), 1e-6)
		near(t, fmt.Sprintf("days of mould of year %d", y), got.MouldDays, 2, 0)
	}
}

// A year's summary by hand: 30 °C in one month of 31 days and 10 else; of normals that never fall to 5 °C the whole year grows.
func TestSummaryWorked(t *testing.T) {
	s := &Series{Years: 1}
	for m := range s.Normals.MeanC {
		s.Normals.MeanC[m], s.Normals.RainMM[m] = 10, 50
	}
	s.Normals.MeanC[6] = 30
	fill := func(x float32) []float32 {
		v := make([]float32, calendar.Year)
		for i := range v {
			v[i] = x
		}
		return v
	}
	s.MeanC, s.MinC, s.MaxC, s.RainMM, s.SnowCM = fill(10), fill(1), fill(15), fill(0), fill(0)
	s.RainMM[200], s.SnowCM[10], s.SnowCM[11], s.MinC[5], s.MeanC[5] = 30, 1, 0.9, -8, 4.9
	sum := s.Summary()
	near(t, "mean of the year", sum.MeanYearC, (30*31+10*334)/365.0, 1e-9)
	near(t, "rain", sum.RainYearMM, 600, 1e-9)
	near(t, "growing days", sum.GrowingDays, 364, 1e-9)
	near(t, "days with snow", sum.SnowDays, 1, 1e-9)
	near(t, "the lowest", sum.AirMinC, -8, 1e-9)
	near(t, "the wettest hour", sum.DesignRainMMH, 0.7*30, 1e-9)
	near(t, "warmest", sum.WarmestMonthC, 30, 0)
	for lowest, want := range map[float64][2]int{5.5: {0, 364}, 4: {1, 0}} {
		n := Normals{}
		for m := range n.MeanC {
			n.MeanC[m] = lowest
		}
		from, to := growingSeason(n)
		if want[0] == 1 {
			want = [2]int{-1, -1}
		}
		if from != want[0] || to != want[1] {
			t.Errorf("means of %g °C grow from %d to %d", lowest, from, to)
		}
	}
	n := Normals{}
	for m := range n.MeanC {
		n.MeanC[m] = 5 - 12*math.Cos(2*math.Pi*(float64(m)+0.5)/12) // over 5 °C from April to September
	}
	from, to := growingSeason(n)
	near(t, "from the end of March", float64(from), 90, 2)
	near(t, "to the end of September", float64(to), 272, 3)
	// A spread is never under 1.2 K: a place without seasons and with steady nights has 1.9.
	near(t, "no seasons", (Normals{}).minSpread()[3], 1.9, 1e-9)
	wide := Normals{}
	for m := range wide.MeanC {
		wide.MeanC[m] = 5 - 50*math.Cos(2*math.Pi*float64(m)/12)
	}
	near(t, "summer of an impossible climate: 11.9 - 5.9", wide.minSpread()[6], 6, 1e-9)
	// Inland in the middle of each band, K a decade in January, April, July and October: mean of 2013-2024 less mean of 1981-1992 over land
	// by NOAAGlobalTemp v6.0.0, over 3.2 decades; and two standard errors of the year's.
	for lat, want := range map[float64][5]float64{-36: {0.22, 0.14, 0.17, 0.19, 0.04}, 17: {0.30, 0.32, 0.29, 0.33, 0.05}, 46: {0.34, 0.38, 0.39, 0.37, 0.09}, 67: {0.81, 0.66, 0.33, 0.85, 0.13}} {
		inland := Normals{LatitudeDeg: lat}
		inland.MeanC[0] = -24
		w := inland.Warming(2015.5) // a decade on from the middle of the normals
		for season := range 4 {
			near(t, fmt.Sprintf("a decade's warming at %g°, season %d", lat, season), w.ByMonthK[3*season], want[season], 1e-9)
		}
		near(t, fmt.Sprintf("give at %g°", lat), w.GiveK, want[4], 1e-9)
	}
	for lat, want := range map[float64]float64{-60: 0.17, -36: 0.17, -9.5: (0.17 + 0.29) / 2, 67: 0.33, 80: 0.33} {
		near(t, fmt.Sprintf("July's warming at %g°", lat), bandAt(lat).perDecade[2], want, 1e-9)
	}
}
