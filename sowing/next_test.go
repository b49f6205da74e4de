package sowing

import (
	"testing"
	"time"

	"swardwright/mix"
	"swardwright/sowing/dates"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
	"swardwright/sowing/rate"
)

// Three zones of 30, 20 and 10 m² by hand: the parts of the zones that the bill is for add up to it, the one
// that it leaves out is reckoned at as much a square metre.
func TestNextYearByHand(t *testing.T) {
	zones := []job.Zone{{Index: 0, Letter: "A", AreaM2: 30}, {Index: 1, Letter: "B", AreaM2: 20}, {Index: 2, Letter: "C", AreaM2: 10}}
	left := []mix.Left{{Zone: 0, Alone: 0.5, Sown: 0.6}, {Zone: 1, Alone: 0.9, Sown: 0.9}, {Zone: 2, Alone: 0.2, Sown: 0.3}}
	window := dates.Window{Opens: time.Date(2027, 9, 1, 0, 0, 0, 0, time.UTC), Closes: time.Date(2027, 9, 20, 0, 0, 0, 0, time.UTC)}
	over := Way{Kind: job.ByOverseeding, Sown: []job.Zone{zones[0], zones[2]}, Kept: zones[1:2], Rate: rate.Rate{GM2: 12}}
	over.Bill.Total = money.Amount{Minor: 10001, Currency: "EUR"}
	over.Dates = dates.Dates{Chosen: 0, Windows: []dates.Window{window}}
	next := nextYear(left, zones, []Way{{Kind: job.ByTurf}, over})
	if len(next) != 3 {
		t.Fatalf("%d zones", len(next))
	}
	for i, want := range []struct {
		minor int64
		seedG float64
		worth bool
	}{{7501, 360, true}, {5001, 240, false}, {2500, 120, true}} { // 100.01 · 30/40, · 20/40 and the rest
		n := next[i]
		if n.Total != (money.Amount{Minor: want.minor, Currency: "EUR"}) || n.SeedG != want.seedG || n.Worth() != want.worth || n.Window == nil || n.Window.Opens != window.Opens {
			t.Errorf("zone %d: %+v", i, n)
		}
	}
	over.Dates.Chosen = -1
	if n := nextYear(left, zones, []Way{over}); n[0].Window != nil {
		t.Errorf("no day is good: %+v", n[0])
	}
	if n := nextYear(left, zones, []Way{{Kind: job.BySeed}}); n != nil {
		t.Errorf("nothing is overseeded: %+v", n)
	}
}
