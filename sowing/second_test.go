package sowing

import (
	"math"
	"testing"
	"time"

	"swardwright/mix"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
)

// A second mixture is taken where its zones gain three points, where a point costs no more
// than in the lawn by one mixture, and where it is in time; and the other way is never chosen.
func TestSecondRule(t *testing.T) {
	zones := []job.Zone{{Index: 0, Letter: "A", AreaM2: 60}, {Index: 1, Letter: "B", AreaM2: 40}}
	usable := time.Date(2027, time.July, 1, 0, 0, 0, 0, time.UTC)
	// By one mixture 80 points of cover for 800.00: 10.00 a point.
	for name, c := range map[string]struct {
		gain, lawn float64 // of cover, in zone B and of the lawn
		more       int64   // minor units
		late       bool
		taken      bool
		because    string
	}{
		"pays":                   {0.05, 0.02, 1900, false, true, "job.second-taken"},
		"costs as the lawn does": {0.05, 0.02, 2000, false, true, "job.second-taken"},
		"dearer":                 {0.05, 0.02, 2001, false, false, "job.second-dear"},
		"costs less":             {0.05, 0.02, -300, false, true, "job.second-taken"},
		"little":                 {0.02, 0.02, 100, false, false, "job.second-little"},
		"three points as told":   {0.0251, 0.02, 100, false, true, "job.second-taken"},
		"two points as told":     {0.0249, 0.02, 100, false, false, "job.second-little"},
		"late":                   {0.05, 0.02, 100, true, false, "job.second-late"},
		"no better on the whole": {0.05, 0, 100, false, false, "job.second-dear"},
	} {
		choice := mix.Choice{Mixture: &mix.Mixture{CoverExpected: 0.8}, Split: &mix.Split{Mixture: mix.Mixture{CoverExpected: 0.8 + c.lawn}}}
		choice.Split.Patches = [2]mix.Patch{
			{Zones: []int{0}, Share: 0.6, Mixture: mix.Mixture{CoverExpected: 0.85}, Common: mix.Likely{Cover: 0.85}},
			{Zones: []int{1}, Share: 0.4, Mixture: mix.Mixture{CoverExpected: 0.7 + c.gain}, Common: mix.Likely{Cover: 0.7}},
		}
		way := func(k job.Way, minor int64, inTime bool) Way {
			w := Way{Kind: k, Sown: zones, InTime: inTime, UsableFrom: &usable, Standard: Standard{Holds: true, Chance: 0.9}, Bill: money.Bill{Total: money.Amount{Minor: minor, Currency: "EUR"}}}
			w.Dates.Success = 0.9
			return w
		}
		ways := []Way{way(job.BySeed, 80000, true), way(job.BySeedApart, 80000+c.more, !c.late), way(job.ByTurf, 300000, true)}
		s := secondOf(choice, ways)
		if s == nil || s.Taken != c.taken || s.Because.Name != c.because {
			t.Errorf("%s: %+v, want taken %v: %s", name, s, c.taken, c.because)
			continue
		}
		if math.Abs(s.Cover-c.gain) > 1e-9 || math.Abs(s.Lawn-c.lawn) > 1e-9 || s.More.Minor != c.more || len(s.Zones) != 1 || s.Zones[0].Letter != "B" {
			t.Errorf("%s: %+v", name, *s)
		}
		best, why := advise(Brief{}, ways, money.Comparison{Currency: "EUR"}, s)
		if want := map[bool]job.Way{true: job.BySeedApart, false: job.BySeed}[c.taken]; ways[best].Kind != want || why[len(why)-1].Name != c.because {
			t.Errorf("%s: %s is chosen, %v", name, ways[best].Kind, why)
		}
		if n := len(why); n != 3 { // what it costs, turf beside it, and the second mixture
			t.Errorf("%s: %d reasons, %v", name, n, why)
		}
	}
	if s := secondOf(mix.Choice{}, []Way{{Kind: job.BySeed}}); s != nil {
		t.Errorf("of one way: %+v", s)
	}
	// Where turf is chosen nothing is said of mixtures.
	dear := []Way{{Kind: job.BySeed, Standard: Standard{Chance: 0.2}}, {Kind: job.ByTurf, InTime: true, Standard: Standard{Chance: 0.9, Holds: true}}}
	if best, why := advise(Brief{}, dear, money.Comparison{Currency: "EUR"}, &Second{Because: (&Second{}).because(false, false)}); dear[best].Kind != job.ByTurf || why[len(why)-1].Name == "job.second-little" {
		t.Errorf("by turf: %v", why)
	}
}
