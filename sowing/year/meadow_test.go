package year

import (
	"testing"
	"time"

	"swardwright/species"
)

// Sussex Wildlife Trust, meadow advice: a summer-flowering meadow in the south of England
// is cut between late July and March.
func TestMeadowIsCutAfterFlowering(t *testing.T) {
	cuts := 0
	w := want(place(t, "Heathrow", 1, false), species.Extensive)
	w.Use.Mower, w.Use.Feeding = "scythe", "none"
	for _, x := range Plan(w).Tasks {
		if x.Title.Name != "year.meadow-first" {
			continue
		}
		cuts++
		if m := x.Date.Month(); m < time.July || m == time.July && x.Date.Day() < 20 {
			t.Errorf("first cut on %s", x.Date.Format("2 January"))
		}
	}
	if cuts == 0 {
		t.Error("never cut")
	}
}

// Sussex Wildlife Trust and another text beside it: a young meadow is cut after 6 to 8
// weeks, then every two months, at 50 to 100 mm; a verge is left to its own first cut.
func TestYoungMeadow(t *testing.T) {
	for _, meadow := range []bool{true, false} {
		w := want(place(t, "Heathrow", 1, false), species.Extensive)
		w.FirstMow = day("2027-09-10")
		w.Use.Feeding = "none"
		if meadow {
			w.Use.Mower = "scythe"
		}
		n := 0
		for _, x := range Plan(w).Tasks {
			if meadow && x.First && x.ID == "mow-meadow" {
				t.Error("hay in the season in which weeds are cut")
			}
			if x.Title.Name == "year.meadow-weeds" {
				n++
				if weeks := x.Date.Sub(w.StartOn).Hours() / 24 / 7; n == 1 && (weeks < 6 || weeks > 8) || weedsCutMM < 50 || weedsCutMM > 100 {
					t.Errorf("first cut after %g weeks at %g mm", weeks, weedsCutMM)
				}
			}
		}
		if (n > 0) != meadow {
			t.Errorf("meadow %t: cut %d times for its weeds", meadow, n)
		}
	}
}
