package mix

import (
	"context"
	"math"
	"slices"
	"testing"

	"swardwright/mix/internal/place"
	"swardwright/species"
)

// only is a job in which the named grasses alone may be sown.
func only(t testing.TB, spot place.Spot, use species.Use, ids ...string) job {
	t.Helper()
	if spot.Years == 0 {
		spot.Years = fineHistories // so that the search's last refinement sees every year
	}
	c, err := spot.Conditions()
	if err != nil {
		t.Fatal(err)
	}
	table := tableOf(t)
	j := job{published: publishedOf(t, table), site: c, pool: table.All(), use: use}
	for _, id := range ids {
		j.stock.Lots = append(j.stock.Lots, Lot{Species: table.ByID(id)})
	}
	return j
}

func TestSearchFindsTheBest(t *testing.T) {
	for _, c := range []struct {
		name  string
		spot  place.Spot
		use   species.Use
		sown  []string
		parts int
	}{
		{"continental sun", place.Spot{Station: "Burlington, Vermont"}, species.Use{Grade: species.Utility}, []string{rye, meadow, strong}, 3},
		{"maritime", place.Spot{Station: "Nottingham, Watnall"}, species.Use{Grade: species.Utility}, []string{rye, meadow, strong, bent}, 4},
		{"shade", place.Spot{Station: "Des Moines, Iowa", SunHours: 4}, species.Use{Grade: species.Utility, Traffic: species.Light}, []string{chew, strong, hard, meadow}, 4},
		{"ornamental", place.Spot{Station: "Hannover"}, species.Use{Grade: species.Ornamental}, []string{slender, chew, bent}, 3},
	} {
		j := only(t, c.spot, c.use, c.sown...)
		p := j.problem()
		s, ok, err := p.search(context.Background())
		if err != nil || !ok {
			t.Fatalf("%s: %v %v", c.name, ok, err)
		}
		every := p.trial(fineHistories)
		best := ranked{score: math.Inf(-1)}
		n := 0
		p.grid(1, func(s shares) {
			n++
			if r := (ranked{s, every.score(s)}); better(r, best) < 0 {
				best = r
			}
		})
		got := every.score(s.shares)
		t.Logf("%s: %d mixtures, found %v %.5f, best %v %.5f", c.name, n, s.shares[:len(p.candidates)], got, best.shares[:len(p.candidates)], best.score)
		if got < best.score-1e-9 {
			t.Errorf("%s: found %v at %.5f, the best of all is %v at %.5f", c.name, s.shares[:len(p.candidates)], got, best.shares[:len(p.candidates)], best.score)
		}
	}
}

func TestSharesAreStepsOfFive(t *testing.T) {
	table := tableOf(t)
	for _, spot := range []place.Spot{
		{Station: "Minneapolis/St Paul, Minnesota", Years: 40},
		{Station: "Tromsø", SunHours: 3, Years: 40},
		{Station: "Auckland", Years: 40},
		{Station: "Mannheim", Years: 40},
		{Station: "Punta Arenas", Shade: 40, Years: 40},
	} {
		c, err := spot.Conditions()
		if err != nil {
			t.Fatal(err)
		}
		for _, g := range []species.Grade{species.Ornamental, species.Utility, species.HardWearing, species.Extensive} {
			choice, err := Choose(context.Background(), c, species.Matrix{}, table, publishedOf(t, table), species.Use{Grade: g}, Stock{}, Task{SowDay: 120})
			if err != nil {
				t.Fatal(err)
			}
			if choice.Mixture == nil {
				continue
			}
			sum, seeds := 0, 0.0
			for _, k := range choice.Mixture.Components {
				sum += k.Percent
				seeds += k.SeedPercent
				if k.Percent%stepPercent != 0 || k.Percent <= 0 || k.Because.Silent() {
					t.Errorf("%s %s: %s %d %% %q", spot.Station, g, k.Species.ID, k.Percent, k.Because)
				}
				if cap := k.Species.MaxShare; cap > 0 && k.Percent > cap {
					t.Errorf("%s %s: %s %d %% is above its cap of %d", spot.Station, g, k.Species.ID, k.Percent, cap)
				}
			}
			if sum != 100 || math.Abs(seeds-100) > 1e-6 || len(choice.Mixture.Components) > maxParts {
				t.Errorf("%s %s: %d parts sum to %d %%, seeds to %v %%", spot.Station, g, len(choice.Mixture.Components), sum, seeds)
			}
		}
	}
}

// TestLeadersAreTried: however many grasses there are, those that lead the matrix are
// among the candidates.
func TestLeadersAreTried(t *testing.T) {
	table := tableOf(t)
	for _, spot := range []place.Spot{
		{Station: "Hartford, Connecticut"}, {Station: "Luleå Airport"}, {Station: "Nottingham, Watnall", SunHours: 4}, {Station: "St Louis, Missouri"},
	} {
		spot.Years = 40
		c, err := spot.Conditions()
		if err != nil {
			t.Fatal(err)
		}
		j := job{published: publishedOf(t, table), site: c, pool: table.All(), use: species.Use{Grade: species.Utility}}
		if j.matrix, err = species.Rate(context.Background(), table, c, j.use, 0, 1); err != nil {
			t.Fatal(err)
		}
		for _, quick := range []bool{false, true} {
			j.task.Quick = quick
			p := j.problem()
			for _, s := range j.leaders(surelyTried) {
				tried := slices.ContainsFunc(p.candidates, func(k candidate) bool { return k.species == s })
				worse := slices.ContainsFunc(p.candidates, func(k candidate) bool {
					return p.dominates(&k, &candidate{species: s, pool: slices.Index(j.pool, s), pls: PureLiveSeed(s, nil), cap: units, price: 1})
				})
				if !tried && !worse {
					t.Errorf("%s: %s leads the matrix and is not tried (quick: %v)", spot.Station, s.ID, quick)
				}
			}
		}
	}
}

func TestDominatedSpeciesChangesNothing(t *testing.T) {
	j := only(t, place.Spot{Station: "Burlington, Vermont"}, species.Use{Grade: species.Utility}, rye, meadow, strong)
	before, err := j.plan(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	// A red fescue worse in everything.
	worse := *j.stock.Lots[2].Species
	worse.ID = "strong-creeping-red-fescue-worse"
	for _, tr := range []species.Trait{species.SnowMould, species.StillAir, species.Wet, species.Drought, species.Heat, species.Wear, species.Vigour, species.Spread, species.Persistence, species.FieldEmergence} {
		worse.Values[tr].Best *= 0.8
	}
	worse.Values[species.HalfCoverDLI].Best *= 1.3
	worse.Values[species.LT50C].Best += 3
	j.pool = append(slices.Clone(j.pool), &worse)
	slices.SortFunc(j.pool, func(a, b *species.Species) int {
		if a.ID < b.ID {
			return -1
		}
		return 1
	})
	j.stock.Lots = append(j.stock.Lots, Lot{Species: &worse})
	after, err := j.plan(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(before.best.parts(before.problem), after.best.parts(after.problem)) {
		t.Errorf("with a dominated grass in the table %v, without it %v", after.best.parts(after.problem), before.best.parts(before.problem))
	}
}

func TestOrderOfLotsChangesNothing(t *testing.T) {
	spot := place.Spot{Station: "Nottingham, Watnall"}
	use := species.Use{Grade: species.Utility}
	a, err := only(t, spot, use, rye, meadow, strong, bent).plan(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	b, err := only(t, spot, use, bent, strong, rye, meadow).plan(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if a.best.shares != b.best.shares || a.best.score != b.best.score {
		t.Errorf("%v at %v, in another order %v at %v", a.best.shares, a.best.score, b.best.shares, b.best.score)
	}
}

func TestScaled(t *testing.T) {
	for _, s := range []shares{{3, 3, 3}, {1, 0, 6}, {19}, {2, 5, 7, 1, 1}} {
		rest := 0
		for _, u := range s {
			rest += int(u)
		}
		sum := 0
		for i, u := range scaled(s, rest) {
			sum += int(u)
			if (u > 0) != (s[i] > 0) {
				t.Errorf("%v: part %d becomes %d", s, i, u)
			}
		}
		if sum != units {
			t.Errorf("%v brought to a whole has %d units", s, sum)
		}
	}
}
