package sowing

import (
	"context"
	"reflect"
	"slices"
	"testing"
	"time"

	"github.com/samber/lo"

	"swardwright/internal/told"
	"swardwright/sowing/dates"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
	"swardwright/species"
)

// on is a day of 2027.
func on(m time.Month, d int) *time.Time {
	return new(time.Date(2027, m, d, 0, 0, 0, 0, time.UTC))
}

// TestAdvise: in time first, then the standard, then a fair chance, then the price.
func TestAdvise(t *testing.T) {
	way := func(kind job.Way, usable *time.Time, keeps, success float64, price int64) Way {
		w := Way{Kind: kind, UsableFrom: usable, InTime: true, Dates: dates.Dates{Success: success}, Standard: Standard{Chance: keeps, Holds: keeps >= 0.5}}
		w.Bill.Total = money.Amount{Minor: price, Currency: "EUR"}
		return w
	}
	late := func(w Way) Way { w.InTime = false; return w }
	seed, turf := job.BySeed, job.ByTurf
	for _, c := range []struct {
		name string
		ways []Way
		want job.Way

		likelier bool // to keep the standard, is why
	}{
		{"the cheaper of two that are as good", []Way{way(seed, on(8, 1), 0.8, 0.9, 900), way(turf, on(6, 1), 0.9, 0.95, 2000)}, seed, false},
		{"the one that is in time, though dearer and less likely to keep", []Way{late(way(seed, on(8, 1), 0.8, 0.9, 900)), way(turf, on(6, 1), 0.3, 0.95, 2000)}, turf, false},
		{"the one that keeps the standard, though dearer", []Way{way(seed, on(8, 1), 0.2, 0.9, 900), way(turf, on(6, 1), 0.7, 0.95, 2000)}, turf, true},
		{"a hair's breadth of chance decides nothing", []Way{way(seed, on(8, 1), 0.48, 0.9, 900), way(turf, on(6, 1), 0.55, 0.95, 2000)}, seed, false},
		{"where neither keeps it, the one that clearly comes nearer", []Way{way(seed, on(8, 1), 0.1, 0.9, 900), way(turf, on(6, 1), 0.4, 0.95, 2000)}, turf, true},
		{"the one likelier to take than not", []Way{way(seed, on(8, 1), 0.8, 0.3, 900), way(turf, on(6, 1), 0.8, 0.95, 2000)}, turf, false},
		{"both late: the sooner", []Way{late(way(seed, on(8, 1), 0.8, 0.9, 900)), late(way(turf, on(6, 1), 0.8, 0.95, 2000))}, turf, false},
		{"both late, one never: the other", []Way{late(way(seed, on(8, 1), 0.8, 0.9, 900)), late(way(turf, nil, 0.8, 0.95, 100))}, seed, false},
	} {
		b := Brief{}
		if !c.ways[0].InTime {
			b.Job.NeededBy = on(5, 1)
		}
		best, why := advise(b, c.ways, money.Comparison{Currency: "EUR"}, nil)
		if got := c.ways[best].Kind; got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
		if len(why) == 0 || why[0].Name != "job.way-costs" {
			t.Errorf("%s: no reason, %v", c.name, why)
		}
		// The reason is told where the standard decided, and only there.
		if told, decided := slices.ContainsFunc(why, func(s told.Sentence) bool { return s.Name == "job.likelier-kept" }), c.likelier; told != decided {
			t.Errorf("%s: told to be likelier %v, want %v", c.name, told, decided)
		}
		slices.Reverse(c.ways)
		if again, _ := advise(b, c.ways, money.Comparison{}, nil); c.ways[again].Kind != c.want {
			t.Errorf("%s: the order of the ways decides", c.name)
		}
	}
	if best, why := advise(Brief{}, nil, money.Comparison{}, nil); best != -1 || why != nil {
		t.Errorf("of no ways: %d, %v", best, why)
	}
}

// TestReasons: what another way costs more or less, and how much sooner or later it
// bears use; and where all are late what each has come to by the day.
func TestReasons(t *testing.T) {
	first, cut := on(5, 10), on(6, 20)
	seed := Way{Kind: job.BySeed, Sown: []job.Zone{{AreaM2: 9}}, StartOn: *first, UsableFrom: on(8, 9),
		Dates: dates.Dates{Success: 0.9, FirstMow: cut, Components: []dates.Part{{EmergenceDays: &dates.Span{P50: 12}}}}}
	seed.Bill.Total = money.Amount{Minor: 90000, Currency: "EUR"}
	turf := Way{Kind: job.ByTurf, StartOn: *first, UsableFrom: on(6, 30), Dates: dates.Dates{Success: 0.9, FirstMow: on(6, 1)}}
	turf.Bill.Total = money.Amount{Minor: 250000, Currency: "EUR"}

	said := because(Brief{}, []Way{seed, turf}, []int{0, 1}, money.Comparison{Currency: "EUR"})
	sooner := said[1]
	if sooner.Name != "job.and-sooner" || sooner.Figures[1] != told.Figure(told.Days(40)) {
		t.Errorf("turf bears use 40 days sooner: %v", sooner)
	}
	if more := sooner.Figures[0].(told.Sentence); more.Name != "job.costs-more" || more.Figures[1] != told.Figure(told.Money{Minor: 160000, Currency: "EUR"}) {
		t.Errorf("and costs 1600 more: %v", more)
	}

	for _, c := range []struct {
		day  *time.Time
		seed Stage
		turf Stage
	}{
		{on(5, 9), NotBegun, NotBegun}, {on(5, 10), Sown, Laid}, {on(5, 21), Sown, Laid}, {on(5, 22), Up, Laid}, {on(6, 1), Up, Cut}, {on(6, 20), Cut, Cut},
	} {
		if s, l := seed.stageOn(*c.day), turf.stageOn(*c.day); s != c.seed || l != c.turf {
			t.Errorf("on %s: %s and %s, want %s and %s", c.day.Format(time.DateOnly), s, l, c.seed, c.turf)
		}
	}
	names := lo.Map(lateReasons(seed, turf), func(s told.Sentence, _ int) string { return s.Name })
	if !slices.Contains(names, "job.none-in-time") || lo.Count(names, "job.by-then") != 2 {
		t.Errorf("both late, and it says %v", names)
	}
}

// lateReasons are what is said where both ways are late.
func lateReasons(ways ...Way) []told.Sentence {
	b := Brief{}
	b.Job.NeededBy = on(6, 5)
	return because(b, ways, []int{0, 1}, money.Comparison{Currency: "EUR"})
}

// TestGroundOfWhatIsPlanned: an ornamental lawn that can't be held is an everyday one from
// the ground up: what is dug, brought in and limed is that of an everyday lawn.
func TestGroundOfWhatIsPlanned(t *testing.T) {
	if testing.Short() {
		t.Skip("plans take a while")
	}
	ornamental, err := ReadBrief("", []byte(shadedYard), noFile)
	if err != nil {
		t.Fatal(err)
	}
	everyday := ornamental
	everyday.Use.Grade = species.Utility
	var plans [2]Plan
	for i, b := range []Brief{ornamental, everyday} {
		if plans[i], err = plan(context.Background(), builtIn(t), b); err != nil {
			t.Fatal(err)
		}
	}
	a, b := &plans[0], &plans[1]
	if a.Choice.Asked != species.Ornamental || a.Choice.Attainable != species.Utility {
		t.Fatalf("asked %s, planned %s: the yard is to be too dark and too trodden", a.Choice.Asked, a.Choice.Attainable)
	}
	if !reflect.DeepEqual(a.Bed.Materials, b.Bed.Materials) || a.Bed.LimeGM2 != b.Bed.LimeGM2 {
		t.Errorf("materials %v and lime %v, of an everyday lawn %v and %v", a.Bed.Materials, a.Bed.LimeGM2, b.Bed.Materials, b.Bed.LimeGM2)
	}
	if !reflect.DeepEqual(a.Site.Ground(), b.Site.Ground()) {
		t.Errorf("ground %+v, of an everyday lawn %+v", a.Site.Ground(), b.Site.Ground())
	}
}
