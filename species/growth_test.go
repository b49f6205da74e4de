package species

import (
	"testing"

	"swardwright/internal/approx"
	"swardwright/site/weather"
)

// Growth to the first mowing by hand: 300 degree-days for the quickest grass, 480 for one of half its vigour; a first cut is
// at 1.5 times the height kept, from 50 to 100 mm, where the growth was set at 75.
func TestFirstCutWorked(t *testing.T) {
	for kept, want := range map[float64]float64{0: 75, 20: 50, 40: 60, 50: 75, 60: 90, 80: 100} {
		approx.Near(t, "height of a first cut", FirstCutMM(kept), want, 1e-9)
	}
	approx.Near(t, "of the quickest grass", MowDegDays(1), 300, 1e-9)
	approx.Near(t, "of one of half its vigour", MowDegDays(0.5), 480, 1e-9)
	approx.Near(t, "to 60 mm", FirstCutDegDays(0.5, 40), 384, 1e-9)
	for _, x := range []struct {
		meanC float64
		warm  bool
		want  float64
	}{{14, false, 11}, {2, false, 0}, {26, false, 19}, {14, true, 4}, {9, true, 0}, {35, true, 22}} {
		approx.Near(t, "warmth of a day", Warmth(x.meanC, x.warm), x.want, 1e-9)
	}
}

// Grass in the shade grows the taller: by half at 35 % of the open's light and less, by a quarter half-way there (Tegg & Lane 2004: linear
// with shade up to 65 %; by how much is our judgement); and by what light there would be in the open.
func TestStretchWorked(t *testing.T) {
	approx.Near(t, "in the open", Stretched(35, 1), 1, 1e-9)
	approx.Near(t, "in half of the open's light", Stretched(8, 0.5), weather.LightFactor(16)*(1+0.5*0.5/0.65), 1e-9)
	approx.Near(t, "half-way", Stretched(8, 0.675), weather.LightFactor(8/0.675)*1.25, 1e-9)
	approx.Near(t, "in 35 %", Stretched(35*0.35, 0.35), 1.5, 1e-9)
	approx.Near(t, "in less", Stretched(3.5, 0.1), weather.LightFactor(10)*1.5, 1e-9)
}

// Frost by hand: none of the leaf dies at -5 °C, half at -10, all at -15. Grass is mown in fortnights with a quarter of the
// warmth of the warmest: of 10 a day the first that has 35 of its 140 begins ten days before the warm ones.
func TestWinterLeafWorked(t *testing.T) {
	for crownC, want := range map[float64]float64{2: 0, -5: 0, -10: 0.5, -15: 1, -30: 1} {
		approx.Near(t, "killed", LeafKilled(crownC), want, 1e-9)
	}
	sums := make([]float32, 201)
	for k := range 200 {
		sums[k+1] = sums[k]
		if k >= 100 {
			sums[k+1] += 10
		}
	}
	mown := Mown(sums, 200)
	for day, want := range map[int]int32{0: 90, 89: 90, 90: 90, 120: 120, 199: 199} {
		if mown[day] != want {
			t.Errorf("mown from day %d on day %d, want %d", day, mown[day], want)
		}
	}
	// Where it never grows no day is put off.
	if never := Mown(make([]float32, 30), 29); never[7] != 7 {
		t.Errorf("mown from day 7 on day %d where nothing grows", never[7])
	}
}
