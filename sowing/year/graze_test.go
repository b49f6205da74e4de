package year

import (
	"slices"
	"strings"
	"testing"

	"swardwright/sowing/job"
	"swardwright/species"
)

// Animals do the mowing of a paddock: no edges, thatch, spikes or dressing, and no mowing but of what they
// leave; they come on at 150 to 200 mm and off at 80 (Utah State University Extension, Pastures).
func TestGrazed(t *testing.T) {
	w := want(place(t, "Heathrow", 1, false), species.HardWearing)
	w.Use.Livestock = true
	cal := Plan(w)
	if cal.Cutting != ByAnimals || cal.CutMM != 80 || cal.CutsPerYear != toppings {
		t.Errorf("cut as %d at %g mm, %g times", cal.Cutting, cal.CutMM, cal.CutsPerYear)
	}
	for _, x := range cal.Tasks {
		if slices.Contains([]job.Sort{job.Edging, job.Spiking, job.Dressing}, x.Sort) || strings.HasPrefix(x.ID, "rake-out") || strings.HasPrefix(x.ID, "mow") || strings.HasPrefix(x.ID, "last-cut") {
			t.Errorf("%s on a paddock", x.ID)
		}
	}
	w.Use.MowingMM = 40 // a lawn whose clippings are fed
	if cal = Plan(w); cal.Cutting != ByThirds || cal.CutsPerYear < 10 {
		t.Errorf("cut as %d, %g times", cal.Cutting, cal.CutsPerYear)
	}
}
