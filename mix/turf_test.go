package mix

import (
	"testing"

	"swardwright/mix/internal/place"
	"swardwright/species"
)

// TestTurf: turf as it is sold is as good as seed in the sun, and where shade-bearing
// grasses are sown it isn't: those have to be asked for (University of Wisconsin-Extension
// A3700; smooth meadow-grass and ryegrass for 6 hours of sun and more, fine fescues from
// 3 to 4: Iowa State University).
func TestTurf(t *testing.T) {
	table := tableOf(t)
	for _, c := range []struct {
		name     string
		sunHours float64
		use      species.Use
		holds    bool
	}{
		{"in the sun", 9, species.Use{Grade: species.Utility, Traffic: species.Light}, true},
		{"in shade", 3.5, species.Use{Grade: species.Utility, Traffic: species.Light}, false},
		{"a fine lawn", 9, species.Use{Grade: species.Ornamental, Traffic: species.Light}, false},
	} {
		got := chosen(t, table, place.Spot{Station: "Göteborg", SunHours: c.sunHours}, c.use, Stock{}, Task{SowDay: 120})
		turf := got.Turf
		if turf == nil {
			t.Fatalf("%s: no turf", c.name)
		}
		if turf.Holds != c.holds || turf.Holds != (turf.Chance >= 0.5) || turf.Holds == (len(turf.ShortBy) > 0) {
			t.Errorf("%s: turf holds %v, chance %.2f, short by %v", c.name, turf.Holds, turf.Chance, turf.ShortBy)
		}
		if !c.holds && turf.Chance > got.Chance-0.1 {
			t.Errorf("%s: chance %.2f by turf, %.2f sown", c.name, turf.Chance, got.Chance)
		}
		for _, x := range turf.Mixture.Components {
			if !x.Species.Is(species.SoldAsTurf) {
				t.Errorf("%s: turf of %s is not sold", c.name, x.Species.ID)
			}
		}
	}
}

// TestTurfForAnimals: none with an endophyte that harms them.
func TestTurfForAnimals(t *testing.T) {
	got := chosen(t, tableOf(t), place.Spot{Station: "Göteborg", SunHours: 9}, species.Use{Grade: species.Utility, Traffic: species.Light, Livestock: true}, Stock{}, Task{SowDay: 120})
	for _, x := range got.Turf.Mixture.Components {
		if x.Species.Endophyte {
			t.Errorf("turf of %s for animals", x.Species.ID)
		}
	}
}

// TestLikelyLostIsLeft: where grass is likelier lost than not nothing is sown, though the
// zone is only doubtful, and the choice says why.
func TestLikelyLostIsLeft(t *testing.T) {
	table := tableOf(t)
	doubtful := 0
	for h := 0.6; h < 4; h += 0.2 {
		got := chosen(t, table, place.Spot{Station: "Des Moines, Iowa", SunHours: h}, species.Use{Grade: species.Utility, Traffic: species.Light}, Stock{}, Task{SowDay: 240})
		z := got.Zones[0]
		if sown := z.Chance >= 0.5; sown != (got.Mixture != nil) || sown != z.Sown || sown != (got.Turf != nil) {
			t.Errorf("%.1f h: chance %.2f, sown %v, mixture %v", h, z.Chance, z.Sown, got.Mixture != nil)
		}
		if got.Mixture == nil && got.Because.Silent() {
			t.Errorf("%.1f h: nothing is sown, and no word of why", h)
		}
		if got.Mixture == nil && z.Verdict == Doubtful {
			doubtful++
		}
	}
	if doubtful == 0 {
		t.Error("no place was doubtful and left")
	}
}
