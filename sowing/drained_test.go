package sowing

import (
	"testing"
)

// TestDrainedIsNoLongerWet: where a plan drains wet ground it sows for ground that is
// drained, so that the grasses of wet ground neither lead the seed nor the sward.
func TestDrainedIsNoLongerWet(t *testing.T) {
	if testing.Short() {
		t.Skip("plans take a while")
	}
	for _, place := range []string{
		"latitude = 44.1\nstation = \"Eugene, Oregon\"\n", "latitude = 51.9\nstation = \"Valentia Observatory\"\n", "latitude = -42.7\nstation = \"Hokitika\"\n",
	} {
		p := planned(t, "title = \"A lawn\"\n[place]\n"+place+"[lawn]\narea_m2 = 84\n[ground]\ndrainage = \"poorly\"\n[use]\ngrade = \"utility\"\n")
		if p.Choice.Mixture == nil {
			t.Fatalf("%q: no mixture", place)
		}
		for _, s := range p.Choice.Mixture.Sward {
			if rough := s.Shares["rough-stalked-meadow-grass"]; rough > 40 {
				t.Errorf("%q: rough meadow-grass makes %.0f %% of the sward in year %d", place, rough, s.Year)
			}
		}
	}
}
