package sowing_test

import (
	"context"
	"io/fs"
	"slices"
	"testing"

	"swardwright/data"
	"swardwright/sowing"
)

// The next station of the courtyard is another one and near; with a climate of the brief's own there is none to look at.
func TestLookElsewhere(t *testing.T) {
	text, err := fs.ReadFile(data.FS, "demo/court.toml")
	if err != nil {
		t.Fatal(err)
	}
	own := "\n[climate]\nmean_c = [-2, -1, 1, 5, 11, 14, 16, 15, 11, 7, 3, 0]\nmin_c = [-5, -4, -2, 1, 6, 9, 11, 11, 8, 4, 0, -3]\nmax_c = [1, 2, 5, 10, 16, 20, 21, 20, 16, 10, 5, 2]\nwet_days = [12, 9, 9, 8, 9, 10, 11, 12, 11, 12, 12, 12]\nrain_mm = [70, 50, 50, 45, 55, 70, 80, 85, 80, 85, 80, 75]\n"
	for _, c := range []struct {
		name, more string
		there      bool
	}{{"the court", "", true}, {"a climate of its own", own, false}} {
		brief, err := sowing.ReadBrief(c.name, append(slices.Clone(text), c.more...), nil)
		if err != nil {
			t.Fatal(err)
		}
		p, err := sowing.NewPlan(context.Background(), tables(t), brief)
		if err != nil {
			t.Fatal(err)
		}
		if err := sowing.LookElsewhere(context.Background(), tables(t), &p); err != nil {
			t.Fatal(err)
		}
		e := p.Elsewhere
		if (e != nil) != c.there {
			t.Fatalf("%s: %+v", c.name, e)
		}
		if e != nil && (e.Station.WMO == p.Found.Station.WMO || e.DistanceKM <= 0 || e.DistanceKM > 300 || e.Leads == nil) {
			t.Errorf("%s: %s, %g km off, %v leads", c.name, e.Station.Name, e.DistanceKM, e.Leads)
		}
		if on := p.Choice.Mixture.LeadsOn; on <= 0 || on > 1 {
			t.Errorf("%s: it leads on %g of the lawns", c.name, on)
		}
	}
}
