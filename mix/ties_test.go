package mix

import (
	"math"
	"slices"
	"strings"
	"testing"

	"swardwright/internal/sheet"
	"swardwright/mix/internal/place"
	"swardwright/mix/sward"
	"swardwright/species"
)

// scored is a trial that knows the scores of some mixtures already.
func scored(p *problem, scores map[shares]float64) *trial {
	t := p.trial(coarseHistories)
	for s, x := range scores {
		t.scores[s] = x
	}
	return t
}

// Who else may lead, by hand, of three grasses and made-up scores: of the five best that a grass leads by few histories the best by more; all
// histories decide among those within 0.005 of the one found.
func TestRivalsWorked(t *testing.T) {
	p := &problem{field: &sward.Field{Years: 40}}
	for range 3 {
		p.candidates = append(p.candidates, candidate{cap: units})
	}
	p.candidates[2].cap = 12
	one := shares{10, 6, 4}
	// Led by the second: six, of which the fifth by few histories is best by more but for the sixth; one more is over a cap of the third.
	second := []shares{{6, 10, 4}, {6, 11, 3}, {6, 12, 2}, {6, 13, 1}, {6, 14}, {5, 15}}
	coarse, fine := map[shares]float64{one: 0.71}, map[shares]float64{one: 0.700}
	for i, s := range second {
		coarse[s], fine[s] = 0.70-0.01*float64(i), 0.60+0.01*float64(i)
	}
	third := shares{4, 4, 12}
	coarse[third], fine[third] = 0.5, 0.62
	coarse[shares{3, 4, 13}], fine[shares{3, 4, 13}] = 0.9, 0.9
	a := &answer{problem: p}
	f := &found{shares: one, coarse: scored(p, coarse), fine: scored(p, fine)}
	got := a.rivals(f)
	if len(got) != 2 || got[0] != (ranked{second[4], 0.64}) || got[1] != (ranked{third, 0.62}) {
		t.Errorf("rivals %v", got)
	}
	for _, r := range []struct {
		under float64 // by how much the rival is under the one found by few histories
		all   float64 // what it scores by all, where the one found scores 0.700
		wins  bool
	}{{0.0045, 0.701, true}, {0.0045, 0.699, false}, {0.0055, 0.9, false}} {
		fine[second[4]] = 0.700 - r.under
		f := &found{shares: one, coarse: scored(p, coarse), fine: scored(p, fine)}
		a.trial = scored(p, map[shares]float64{one: 0.700, second[4]: r.all, third: 0.99})
		if a.settle(f); (f.shares == second[4]) != r.wins {
			t.Errorf("%+v: settled on %v", r, f.shares)
		}
	}
	rough := &found{shares: one}
	if a.settle(rough); rough.shares != one {
		t.Error("a rough search is settled")
	}
}

// What is called as good, by hand: a mixture that another grass leads from 0.010 under the one found, another of at least three units otherwise
// from 0.005 under it, three at most and each unlike the others. Rivals are looked at lawn by lawn from 0.040 under it.
func TestNearTiesWorked(t *testing.T) {
	j := only(t, place.Spot{Station: "Hannover", SunHours: 5, Years: 12}, species.Use{Grade: species.Utility}, rye, meadow, chew, strong)
	a := &answer{job: j, problem: j.problem(), ensemble: sward.NewEnsemble(j.site, j.pool, j.use, 60, lawnSeed)}
	p := a.problem
	for i := range p.candidates {
		p.candidates[i].cap = units
	}
	one := shares{10, 6, 4}
	a.trial = p.trial(coarseHistories)
	best := a.trial.try(one)
	a.best, a.outlook = &best, a.outlookOf(&best)
	ties := func(rivals []ranked, other map[shares]float64) (out []shares) {
		scores := map[shares]float64{one: 0.70}
		for s, x := range other {
			scores[s] = x
		}
		a.found = &found{shares: one, coarse: scored(p, scores), fine: scored(p, scores)}
		for _, b := range a.nearTies(rivals) {
			var s shares
			for _, part := range b.Parts {
				for i, k := range p.candidates {
					if k.species == part.Species {
						s[i] = uint8(part.Percent / 5)
					}
				}
			}
			out = append(out, s)
		}
		return out
	}
	led, late := shares{4, 12, 4}, shares{4, 4, 12}
	for name, r := range map[string]struct {
		rivals []ranked
		other  map[shares]float64
		want   []shares
	}{
		"led by others":        {[]ranked{{led, 0.691}, {late, 0.689}}, nil, []shares{led}},
		"three units unlike":   {nil, map[shares]float64{{13, 4, 3}: 0.6955, {8, 6, 6}: 0.6999}, []shares{{13, 4, 3}}},
		"not as good":          {nil, map[shares]float64{{13, 4, 3}: 0.6945}, nil},
		"like one of them":     {nil, map[shares]float64{{13, 4, 3}: 0.698, {14, 3, 3}: 0.697, {10, 3, 7}: 0.696}, []shares{{13, 4, 3}, {10, 3, 7}}},
		"like one led by them": {[]ranked{{led, 0.691}}, map[shares]float64{{5, 11, 4}: 0.699}, []shares{led}},
		"three at most":        {[]ranked{{led, 0.6999}, {late, 0.6998}}, map[shares]float64{{13, 4, 3}: 0.698, {10, 3, 7}: 0.697}, []shares{led, late, {13, 4, 3}}},
	} {
		if got := ties(r.rivals, r.other); !slices.Equal(got, r.want) {
			t.Errorf("%s: %v, want %v", name, got, r.want)
		}
	}
	// Lawn by lawn: a rival counts where its score there is over that of the one found.
	alone := shares{0, 20}
	rival := p.trial(coarseHistories).try(alone)
	covers := a.ensemble.Follow(&rival.sowing).Cover
	ahead := func(under float64) (share float64) {
		own, its := a.onEachLawn(0.70, a.outlook.covers), a.onEachLawn(0.70-under, covers)
		for i := range own {
			if own[i] >= its[i] {
				share += 1 / float64(len(own))
			}
		}
		return share
	}
	for under, looked := range map[float64]bool{0.001: true, 0.039: true, 0.041: false} {
		want := 1.0
		if looked {
			want = ahead(under)
		}
		near(t, "leads on", a.leadsOn([]ranked{{alone, 0.70 - under}}), want, 1e-9)
	}
	if x := ahead(0.001); x > 0.98 || ahead(0.041) > 0.99 {
		t.Errorf("the rival is ahead nowhere: %g, %g", x, ahead(0.041))
	}
	// Beside another: a quarter of the whole, or as much as it may be; alone, unless it may not.
	tr := p.trial(coarseHistories)
	near(t, "a quarter beside", tr.beside(p.candidates[0], p.candidates[2]), tr.try(shares{15, 0, 5}).score, 1e-9)
	near(t, "a quarter beside, the other way", tr.beside(p.candidates[2], p.candidates[0]), tr.try(shares{5, 0, 15}).score, 1e-9)
	capped := p.candidates[1]
	capped.cap = 2
	near(t, "a tenth at most", tr.beside(p.candidates[0], capped), tr.try(shares{18, 2}).score, 1e-9)
	scores := tr.alone([]candidate{p.candidates[0], capped})
	near(t, "alone", scores[0], tr.try(shares{20}).score, 1e-9)
	if !math.IsInf(scores[1], -1) {
		t.Errorf("what may be a tenth alone scores %g", scores[1])
	}
	// A mixture that is given becomes what it does where it is found.
	given := a.given([]Part{{p.candidates[1].species, 30}, {p.candidates[0].species, 50}, {p.candidates[2].species, 20}})
	near(t, "given, its cover", given.outcome.Expected, best.outcome.Expected, 1e-12)
	near(t, "given, its rate", given.density.RateGM2, best.density.RateGM2, 1e-9)

	// A sward that a record knows, left alone: as many lawns in a hundred keep the standard's cover as are counted.
	a.zones = []zone{{kept: true}}
	if a.left() != nil {
		t.Error("a new lawn is left alone")
	}
	a.task.Overseed, a.task.Known = true, &sward.Known{}
	stand := make([]float64, len(a.pool))
	stand[p.candidates[0].pool] = 0.5
	a.ensemble.Standing = func(int, int) []float64 { return stand }
	left := a.left()
	count := func(s *sward.Sowing) (share float64) {
		all := a.ensemble.Follow(s).Zone[0]
		for _, x := range all {
			if x >= species.StandardOf(species.Utility).Cover {
				share += 1 / float64(len(all))
			}
		}
		return share
	}
	if len(left) != 1 || left[0].Zone != 0 {
		t.Fatalf("%+v", left)
	}
	near(t, "left alone", left[0].Alone, count(&sward.Sowing{Season: p.season, Winter: p.winter}), 1e-9)
	near(t, "sown into", left[0].Sown, count(&best.sowing), 1e-9)
	// A sward of which nothing is known but its cover is so much of that of old lawns.
	whole, half := standing(p.field, a.pool, 100), standing(p.field, a.pool, 50)
	old := sward.Sowing{Season: 1}
	for g, sp := range a.pool {
		if sp.Is(species.OfOldLawns) {
			old.Grass, old.Plants = append(old.Grass, g), append(old.Plants, sward.AlikePlants)
		}
	}
	five := sward.Follower{Field: p.field, Starts: sward.Starts(p.field.Years, 10)}
	becomes := slices.Clone(five.Follow(&old).Shares)
	for g := range whole {
		near(t, "all of it", whole[g], becomes[g], 1e-12)
		near(t, "half of it", half[g], whole[g]/2, 1e-12)
		if whole[g] > 0 && !a.pool[g].Is(species.OfOldLawns) && a.pool[g].Values[species.Volunteer].High == 0 {
			t.Errorf("%s stands in an old lawn", a.pool[g].ID)
		}
	}
}

// The pages [[seed_lot]] and [[premix]] at their bounds.
func TestStockBounds(t *testing.T) {
	table := tableOf(t)
	const lot, bag = "[[seed_lot]]\nspecies = \"perennial ryegrass\"\n", "[[premix]]\nparts = { \"perennial ryegrass\" = 60, \"browntop bent\" = 40 }\n"
	for text, fault := range map[string]string{
		lot:                                                 "",
		lot + "purity_percent = 1\n":                        "",
		lot + "purity_percent = 0.9\n":                      "purity_percent",
		lot + "purity_percent = 100\n":                      "",
		lot + "purity_percent = 100.1\n":                    "purity_percent",
		lot + "germination_percent = 1\n":                   "",
		lot + "germination_percent = 0.9\n":                 "germination_percent",
		lot + "germination_percent = 100\n":                 "",
		lot + "germination_percent = 100.1\n":               "germination_percent",
		lot + "price_per_kg = 1000000\n":                    "",
		lot + "price_per_kg = 1000001\n":                    "price_per_kg",
		lot + "bag_kg = [0.01, 2000]\n":                     "",
		lot + "bag_kg = [0.009]\n":                          "bag_kg",
		lot + "bag_kg = [2001]\n":                           "bag_kg",
		lot + "bag_kg = [0.0105]\n":                         "whole grams",
		lot + "bag_kg = [1.234]\n":                          "",
		lot + "kg = 0.01\n":                                 "",
		lot + "kg = 0.009\n":                                "kg",
		lot + "kg = 1000000\n":                              "",
		lot + "kg = 1000001\n":                              "kg",
		"[[seed_lot]]\nname = \"x\"\n":                      "species",
		"[[seed_lot]]\nspecies = \"annual meadow-grass\"\n": "never sown",
		bag:                           "",
		bag + "bag_kg = [0.0105]\n":   "whole grams",
		bag + "price_per_kg = 7.25\n": "",
		"[[premix]]\nparts = { \"perennial ryegrass\" = 60 }\n": "add to 100",
	} {
		root := sheet.Open("brief.toml", []byte(text))
		st := ReadStock(root, table)
		err := root.Faults()
		if (err == nil) != (fault == "") || err != nil && !strings.Contains(err.Error(), fault) {
			t.Errorf("%s: %v, want %q", text, err, fault)
		}
		if err == nil && len(st.Lots)+len(st.Premixes) != 1 {
			t.Errorf("%s: %+v", text, st)
		}
	}
	st := ReadStock(sheet.Open("brief.toml", []byte(lot+"name = \"A\"\n"+lot+"kg = 3\npurity_percent = 97\n"+bag)), table)
	if len(st.Lots) != 2 || st.Lots[0].Name != "A" || st.Lots[1].Name != "lot 2" || st.Lots[1].StockKG != 3 || st.Lots[1].PurityPercent != 97 || st.Premixes[0].Name != "mixture 1" || len(st.Premixes[0].Parts) != 2 {
		t.Errorf("%+v", st)
	}
}
