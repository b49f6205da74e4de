package weather

import (
	"math"
	"testing"
)

// TestWarmingAgainstOtherRecord holds the rates to another record: the zonal yearly
// means of land and sea together of NASA GISTEMP v4 (mean of 2009-2020 less mean of
// 1981-1992, a decade). Land has warmed faster than land and sea together, by a half
// or so (IPCC, AR6 WG I, chapter 2, from memory); near the pole the sea is ice.
func TestWarmingAgainstOtherRecord(t *testing.T) {
	for _, c := range []struct {
		latitude, gistemp, least, most float64
	}{
		{54, 0.27, 1, 2},     // 44-64° N
		{72, 0.71, 0.8, 1.2}, // 64-90° N
		{-34, 0.14, 1, 1.6},  // 24-44° S
	} {
		got := inland(c.latitude).Warming(2020).PerDecadeK
		if got < c.least*c.gistemp || got > c.most*c.gistemp {
			t.Errorf("%v°: %.2f K a decade, GISTEMP %.2f over land and sea", c.latitude, got, c.gistemp)
		}
	}
}

// inland is a place far from the sea.
func inland(latitude float64) Normals {
	n := Normals{LatitudeDeg: latitude}
	n.MeanC[6] = landRangeK
	return n
}

func TestWarming(t *testing.T) {
	coast := inland(50)
	coast.MeanC[6] = 9
	if sea, land := coast.Warming(2030).YearK, inland(50).Warming(2030).YearK; sea >= 0.7*land {
		t.Errorf("a coast warms by %.2f K, inland %.2f", sea, land)
	}
	if w := inland(50).Warming(normalsYear); w.YearK != 0 || w.GiveK != 0 {
		t.Errorf("the normals' own year is %+.2f K warmer", w.YearK)
	}
	near(t, "no further than the record is good for", inland(50).Warming(2300).YearK, inland(50).Warming(trendToYear).YearK, 0)
	last := inland(-70).Warming(2030)
	for lat := -70.0; lat <= 85; lat += 0.5 {
		w := inland(lat).Warming(2030)
		if math.Abs(w.YearK-last.YearK) > 0.05 {
			t.Errorf("%g°: %.2f K, half a degree south %.2f", lat, w.YearK, last.YearK)
		}
		near(t, "mean of the months", w.YearK, mean12(w.ByMonthK), 1e-9)
		last = w
	}
	n := station(t, table(t), "Umeå").Normals
	w := n.Warming(2030)
	out := n.Warmed(w)
	for m := range 12 {
		near(t, "minimum", out.MinC[m]-n.MinC[m], w.ByMonthK[m], 1e-9)
		near(t, "maximum", out.MaxC[m]-n.MaxC[m], w.ByMonthK[m], 1e-9)
		if out.RainMM[m] != n.RainMM[m] {
			t.Error("rain moved")
		}
	}
	if err := out.check(); err != nil {
		t.Error(err)
	}
	if w.ByMonthK[0] <= w.ByMonthK[6] {
		t.Error("northern winters must warm more than summers")
	}
}

func mean12(v [12]float64) (mean float64) {
	for _, x := range v {
		mean += x / 12
	}
	return mean
}
