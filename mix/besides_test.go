package mix

import (
	"context"
	"swardwright/mix/practice"
	"testing"

	"swardwright/mix/internal/place"
	"swardwright/species"
)

// TestBesides: what is called as good is another mixture, keeps to the caps, and
// scores as much but for what can't be told apart; what the model would sow alone is
// better in its own eyes.
func TestBesides(t *testing.T) {
	ties, alone := 0, 0
	for _, c := range []struct {
		spot  place.Spot
		grade species.Grade
	}{
		{place.Spot{Station: "Burlington, Vermont"}, species.Utility},
		{place.Spot{Station: "Nottingham, Watnall", SunHours: 4}, species.Utility},
		{place.Spot{Station: "Hannover", SunHours: 3.5}, species.Utility},
		{place.Spot{Station: "Hannover"}, species.Ornamental},
		{place.Spot{Station: "St Louis, Missouri"}, species.HardWearing},
		{place.Spot{Station: "Luleå Airport"}, species.Extensive},
	} {
		c.spot.Years = 60
		conditions, err := c.spot.Conditions()
		if err != nil {
			t.Fatal(err)
		}
		j := job{published: publishedOf(t, tableOf(t)), site: conditions, pool: tableOf(t).All(), use: species.Use{Grade: c.grade}}
		a, err := j.plan(context.Background())
		if err != nil || a.best == nil {
			t.Fatalf("%s: %v", c.spot.Station, err)
		}
		units := func(b Blend) (s shares) {
			for _, p := range b.Parts {
				for i, k := range a.problem.candidates {
					if k.species == p.Species {
						s[i] = uint8(p.Percent / stepPercent)
					}
				}
			}
			return s
		}
		near := a.nearTies(a.rivals(a.found))
		for _, b := range near {
			ties++
			back := a.blend(units(b))
			if won := a.blend(a.found.shares); won.Ahead != 0 || b.Ahead != back.Ahead || b.Ahead < 0 || b.Ahead > 1 ||
				b.CoverExpected > a.outlook.cover+0.01 && b.Ahead < 0.4 || b.CoverExpected < a.outlook.cover-0.01 && b.Ahead > 0.6 {
				t.Errorf("%s: %v covers %.2f against %.2f and comes out ahead on %.2f of the lawns", c.spot.Station, b.Parts, b.CoverExpected, a.outlook.cover, b.Ahead)
			}
			s, slack := units(b), asGood
			led := false
			for i := range a.problem.candidates {
				led = led || s.leads(i) && !a.found.shares.leads(i)
			}
			switch {
			case led:
				slack = mayLead
			case unlike(s, a.found.shares) < other:
				t.Errorf("%s: %v is no other mixture than %v", c.spot.Station, s, a.found.shares)
			}
			if !a.problem.allowed(s) || a.found.fine.score(s) < a.found.fine.score(a.found.shares)-slack {
				t.Errorf("%s: %v is not as good as %v, or not allowed", c.spot.Station, s, a.found.shares)
			}
		}
		if b := a.alone(); b != nil {
			alone++
			free := *a.problem
			free.practice = &practice.Prior{}
			trial := free.trial(coarseHistories)
			if s := units(*b); trial.score(s) <= trial.score(a.found.shares) || unlike(s, a.found.shares) < other {
				t.Errorf("%s: alone the model prefers %v to %v", c.spot.Station, s, a.found.shares)
			}
		}
	}
	if ties == 0 || alone == 0 {
		t.Errorf("%d near-ties and %d other choices in all: the test shows nothing", ties, alone)
	}
}
