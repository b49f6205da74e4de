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
	for _, x := range Plan(want(place(t, "Heathrow", 1, false), species.Extensive)).Tasks {
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
