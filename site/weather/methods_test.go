package weather

import (
	"math"
	"testing"

	"swardwright/internal/approx"
	"swardwright/internal/calendar"
)

var near = approx.Near

// FAO-56 is Allen, Pereira, Raes and Smith, Crop evapotranspiration, FAO
// Irrigation and Drainage Paper 56 (1998); examples by their number.
func TestFAO56(t *testing.T) {
	near(t, "pressure at 1800 m, ex. 2", pressureKPa(1800), 81.8, 0.05)
	near(t, "psychrometric constant, ex. 2", newEvaporation(Normals{AltitudeM: 1800}).gamma, 0.054, 0.0005)
	near(t, "saturation at 24.5 °C, ex. 3", saturationKPa(24.5), 3.075, 0.0005)
	near(t, "saturation at 15 °C, ex. 3", saturationKPa(15), 1.705, 0.0005)
	near(t, "actual vapour from the minimum 14.8 °C, ex. 20", saturationKPa(14.8), 1.68, 0.005)
	// Ex. 11: Rio de Janeiro, May.
	near(t, "net longwave, ex. 11", netLongwave(25.1, 19.1, 2.1, 14.5, 18.8), 3.5, 0.05)
	// Ex. 17: Bangkok, April; ex. 18: Uccle, 6 July.
	near(t, "ET0, ex. 17", penmanMonteith(14.33-0.14, 30.2, 2.0, 4.42, 2.85, 0.246, 0.0674), 5.72, 0.02)
	near(t, "ET0, ex. 18", penmanMonteith(13.28, 16.9, 2.078, 1.997, 1.409, 0.122, 0.0666), 3.9, 0.05)
	near(t, "slope of the vapour curve at 30.2 °C, ex. 17", vapourSlope(30.2), 0.246, 0.001)

	// Ex. 10: Rio, 22.9° S, May, 220 hours of sunshine in the month.
	rio := Normals{LatitudeDeg: -22.9}
	var sunny [12]float64
	sunny[4] = 220
	rio.SunHours = &sunny
	mj, how := Stations{}.Radiation(rio)
	near(t, "radiation from sunshine, ex. 10", mj[4], 14.5, 0.15) // the example takes mid-month for the mean
	if how.Name != "site.radiation-from-sunshine" {
		t.Errorf("radiation of Rio: %v", how)
	}
	// Ex. 15: Lyon, 45.72° N, July, 26.6 and 14.8 °C, inland.
	lyon := Normals{LatitudeDeg: 45.72}
	for m := range 12 {
		lyon.MaxC[m], lyon.MinC[m] = 26.6, 14.8
	}
	mj, _ = Stations{}.Radiation(lyon)
	near(t, "radiation from temperature, ex. 15", mj[6], 22.3, 0.4) // mean over July for mid-July
}

// Lyon in July without humidity or wind, by way of the whole daily chain. FAO-56
// ex. 20 prints 4.56 for it (from memory), and 5.0 by Hargreaves.
func TestET0WithoutHumidity(t *testing.T) {
	lyon := Normals{LatitudeDeg: 45.72, AltitudeM: 200}
	e := newEvaporation(lyon)
	got := e.thirst(197, 20.7, 14.8, 26.6, 22.3).at(1)
	near(t, "ET0 at Lyon, mid-July", got, 4.56, 0.1)
	if shade := e.thirst(197, 20.7, 14.8, 26.6, 22.3).at(0.3); shade >= got || shade <= 0 {
		t.Errorf("ET0 in shade %.2f, in the open %.2f", shade, got)
	}
}

// Madison, Wisconsin, in P. J. Bartlein and S. L. Shafer, Geosci. Model Dev.
// 12:3889 (2019), data of figure 15: the monthly means must come back.
func TestCurveKeepsMonths(t *testing.T) {
	madison := [12]float64{-6.770, -4.330, 1.520, 8.350, 14.740, 20.290, 23.220, 22.170, 16.940, 10.350, 3.080, -4.290}
	var back [12]float64
	var year float64
	curve := dailyCurve(madison)
	for d, v := range curve {
		back[calendar.MonthOf(d)] += v / float64(calendar.MonthDays[calendar.MonthOf(d)])
		year += v / 365
	}
	for m := range back {
		near(t, "month", back[m], madison[m], 0.001)
	}
	near(t, "year", year, 8.843013, 0.001)
	for d := range curve {
		if step := math.Abs(curve[d] - curve[(d+1)%365]); step > 0.5 {
			t.Errorf("day %d: step of %.2f K", d, step)
		}
	}

	// The same data drawn by straight lines between mid-months lose what the
	// source prints for that method. Its days lie half a day later than ours;
	// January is left out, as its code wraps the year with a slip.
	lines := [12]float64{0, -3.855, 1.725, 8.404, 14.731, 20.037, 22.732, 21.585, 16.676, 10.150, 2.948, -3.743}
	var flat [12]float64
	straight := linear(madison)
	for d := range straight {
		flat[calendar.MonthOf(d)] += (straight[d] + straight[(d+1)%365]) / 2 / float64(calendar.MonthDays[calendar.MonthOf(d)])
	}
	for m := 1; m < 12; m++ {
		near(t, "straight lines", flat[m], lines[m], 0.02)
	}
}

func TestGrowthPotential(t *testing.T) {
	// The curves cross at about 24.8 °C (M. Woods, "Last summer at 36
	// locations", 2014, on the equations of Gelernter and Stowell 2005).
	lo, hi := 20.0, 31.0
	for range 50 {
		if mid := (lo + hi) / 2; GrowthPotential(mid) > WarmGrowthPotential(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	near(t, "crossing", lo, 24.8, 0.1)
	// From the equation itself, exp(-0.5 ((t - 20)/5.5)²).
	for c, want := range map[float64]float64{5: 0.0243, 10: 0.1915, 15: 0.6615, 20: 1, 25: 0.6615} {
		near(t, "growth potential", GrowthPotential(c), want, 0.0001)
	}
	if WarmGrowthPotential(36) != 1 {
		t.Error("warm-season growth falls above its optimum")
	}
}

func TestCrown(t *testing.T) {
	// CERES-Wheat's rule as published: bare ground 2 + 0.805 Tmin, 15 cm and
	// more of snow 2 + 0.4 Tmin (Ritchie and Otter 1985, from memory).
	near(t, "bare", crownMinC(-20, 0), -14.1, 0.01)
	near(t, "15 cm", crownMinC(-20, 15), -6, 0.01)
	near(t, "more", crownMinC(-20, 60), -6, 0.01)
	near(t, "no frost", crownMinC(3, 0), 3, 0)
}

func TestAtAltitude(t *testing.T) {
	s := table(t)
	n := station(t, s, "Bern").Normals
	up := n.AtAltitude(n.AltitudeM + 1000)
	near(t, "fall over 1000 m", n.MeanC[6]-up.MeanC[6], 6.5, 1e-9)
	if err := up.check(); err != nil {
		t.Error(err)
	}
	if up.SnowDays != nil || up.FrostDays == nil || up.FrostDays[0] <= n.FrostDays[0] {
		t.Error("snow days must go and frost days rise with height")
	}
	if n.MeanC != station(t, s, "Bern").MeanC {
		t.Error("the station's own normals were changed")
	}
	// La Chaux-de-Fonds, 1017 m, from Bern, 553 m, 60 km away: yearly means of
	// the station table, 1991-2020.
	high := station(t, s, "La Chaux-De-Fonds").Normals
	low := n.AtAltitude(high.AltitudeM)
	var diff float64
	for m := range 12 {
		diff += (low.MeanC[m] - high.MeanC[m]) / 12
	}
	near(t, "Bern carried to La Chaux-de-Fonds", diff, 0, 1)
}
