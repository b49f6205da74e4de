package mix

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"swardwright/internal/sheet"
	"swardwright/mix/internal/place"
	"swardwright/mix/practice"
	"swardwright/mix/sward"
	"swardwright/site/ground"
	"swardwright/site/light"
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

// settledOn is an answer of four grasses of which every mixture is allowed, on few lawns.
func settledOn(t *testing.T, s shares) *answer {
	t.Helper()
	j := only(t, place.Spot{Station: "Hannover", SunHours: 5, Years: 12}, species.Use{Grade: species.Utility}, rye, meadow, chew, strong)
	a := &answer{job: j, problem: j.problem(), ensemble: sward.NewEnsemble(j.site, j.pool, j.use, 60, lawnSeed)}
	for i := range a.problem.candidates {
		a.problem.candidates[i].cap = units
	}
	a.trial = a.problem.trial(coarseHistories)
	best := a.trial.try(s)
	a.best, a.outlook = &best, a.outlookOf(&best)
	return a
}

// A bag ready mixed, by hand: as good from 0.97 of the best mixture's score; else it is topped up with what mends it most, of 50, 100, 200, 400 or
// 800 g of a grass to the kilogram.
func TestBagWorked(t *testing.T) {
	a := settledOn(t, shares{10, 6, 4})
	p := a.problem
	bag := Premix{Name: "bag", Parts: []Part{{p.candidates[0].species, 27.45}, {p.candidates[1].species, 72.55}}}
	own, ok := a.bag(bag, nil, 0)
	if !ok {
		t.Fatal("a bag of known grasses is unknown")
	}
	for share, good := range map[float64]bool{0.975: true, 0.965: false} {
		a.best.score = own.score / share
		if got := a.premix(bag); (got.Verdict.Name == "mix.bag-as-good") != good {
			t.Errorf("%g of the best: %s", share, got.Verdict.Name)
		}
	}
	a.best.score = own.score / 0.9
	got := a.premix(bag)
	most, mend, grams := own.score, "", 0.0
	for _, k := range p.candidates {
		for _, g := range []float64{50, 100, 200, 400, 800} {
			if r, _ := p.trial(fineHistories).bag(a, bag, k.species, g); r.score > most {
				most, mend, grams = r.score, k.species.ID, g
			}
		}
	}
	if mend == "" || len(got.TopUp) != 1 || got.TopUp[0].Species.ID != mend || got.TopUp[0].GramsPerKG != grams {
		t.Errorf("topped up with %+v, by brute force %g g of %s", got.TopUp, grams, mend)
	}
	if c := got.Mixture.Components; len(c) != 2 || c[0].Species != p.candidates[1].species || c[0].Percent != 73 || c[1].Percent != 27 {
		t.Errorf("in the bag: %+v", c)
	}
	sum := 0.0
	for i, c := range got.Mixture.Components {
		near(t, "seeds of "+c.Species.ID, c.SeedPercent, 100*own.density.Viable[1-i]/own.density.SeedsPerM2, 1e-9)
		sum += c.SeedPercent
	}
	near(t, "seeds together", sum, 100, 1e-9)
	if got := a.premix(Premix{Parts: []Part{{&species.Species{ID: "unheard-of"}, 100}}}); got.Verdict.Name != "mix.bag-unknown" {
		t.Errorf("a bag of nothing known: %s", got.Verdict.Name)
	}
}

// What is called as good, by hand: a mixture that another grass leads from 0.010 under the one found, another of at least three units otherwise
// from 0.005 under it, three at most and each unlike the others. Rivals are looked at lawn by lawn from 0.040 under it.
func TestNearTiesWorked(t *testing.T) {
	one := shares{10, 6, 4}
	a := settledOn(t, one)
	p, best := a.problem, *a.best
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
		lot + "purity_percent = 10\n":                       "",
		lot + "purity_percent = 9.9\n":                      "purity_percent",
		lot + "purity_percent = 100\n":                      "",
		lot + "purity_percent = 100.1\n":                    "purity_percent",
		lot + "germination_percent = 10\n":                  "",
		lot + "germination_percent = 9.9\n":                 "germination_percent",
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

// What a grass is there for, by hand, of a utility lawn, where cover counts 0.33, bad years 0.22, early cover 0.08, fineness 0.05, evenness 0.03 and
// diversity 0.04: its two greatest losses, the second if it is over a third of the first, and none under a thousandth of the score.
func TestReasonWorked(t *testing.T) {
	a := &answer{problem: &problem{weights: gradeWeights[species.Utility], practice: &practice.Prior{}}, best: &tried{fineness: 0.5, evenness: 0.5, diverse: 0.5}}
	grass := &species.Species{ID: "a"}
	for _, r := range []struct {
		cover, bad, early       float64
		fineness, even, diverse float64 // of the mixture without it
		want                    []string
	}{
		{0.06, 0.10, 0.30, 0.5, 0.5, 0.5, []string{"mix.up-first", "mix.stands-bad-years"}}, // 0.0198, 0.0220, 0.0240
		{0.08, 0.10, 0.00, 0.5, 0.5, 0.5, []string{"mix.carries", "mix.stands-bad-years"}},  // 0.0264, 0.0220
		{0.08, 0.04, 0.00, 0.5, 0.5, 0.5, []string{"mix.carries"}},                          // 0.0264 and exactly a third of it, 0.0088
		{0.08, 0.041, 0.00, 0.5, 0.5, 0.5, []string{"mix.carries", "mix.stands-bad-years"}}, // a little more
		{0.004, 0.10, 0.00, 0.5, 0.5, 0.5, []string{"mix.stands-bad-years"}},                // 0.4 % is none
		{0, 0, 0, 0.48, 0.46, 0.474, []string{"mix.even-look", "mix.spreads-risk"}},         // 0.0010, 0.0012, 0.00104: in their order
		{0, 0, 0, 0.3, 0.5, 0.5, []string{"mix.fine-leaf"}},                                 // 0.010
		{0, 0, 0, 0.481, 0.47, 0.476, []string{"mix.safer-than-one"}},                       // 0.00095, 0.0009, 0.00096
		{-0.5, -0.5, -0.5, 0.9, 0.9, 0.9, []string{"mix.safer-than-one"}},                   // gains
	} {
		c := &Component{Species: grass, WithoutCover: r.cover, WithoutBadCover: r.bad, WithoutEarly: r.early}
		said := a.reason(c, &tried{fineness: r.fineness, evenness: r.even, diverse: r.diverse})
		text := fmt.Sprint(said)
		at := -1
		for _, name := range r.want {
			next := strings.Index(text, name)
			if next <= at {
				t.Errorf("%+v: %s", r, text)
			}
			at = next
		}
		if n := strings.Count(text, "mix.") - strings.Count(text, "mix.one"); n != len(r.want) {
			t.Errorf("%+v: %d reasons, %s", r, n, text)
		}
	}
}

// Which zones are kept, by brute force: by the grass that does best there by itself, on how many of the lawns it keeps the least cover; from a chance of
// 0.2 grass is sown, and where it is under 0.8 weeds are to blame if pulling them would win back more than half of the rest.
func TestZonesKeptCounted(t *testing.T) {
	weedy, kept := 0, 0
	for _, r := range []struct {
		spot place.Spot
		use  species.Use
	}{
		{place.Spot{Station: "Hannover", SunHours: 0.8, Years: 12}, species.Use{Grade: species.HardWearing, Traffic: species.Heavy}},
		{place.Spot{Station: "Nottingham, Watnall", SunHours: 3.5, Years: 12}, species.Use{Grade: species.HardWearing, Traffic: species.Heavy}},
		{place.Spot{Station: "Philadelphia, Pennsylvania", Years: 12}, species.Use{Grade: species.Extensive, NitrogenGM2: new(0.0)}},
		{place.Spot{Station: "Philadelphia, Pennsylvania", Years: 12}, species.Use{Grade: species.Utility, NitrogenGM2: new(0.0)}},
	} {
		j := only(t, r.spot, r.use, rye, meadow, chew)
		fresh := func() *answer {
			return &answer{job: j, problem: j.problem(), ensemble: sward.NewEnsemble(j.site, j.pool, j.use, 60, lawnSeed)}
		}
		a, b := fresh(), fresh()
		a.keepZones()
		tr := b.problem.trial(10)
		var best sward.Sowing
		most := 0.0
		for i := range b.problem.candidates {
			var all shares
			all[i] = 20
			if one := tr.try(all); one.outcome.Zone[0] > most {
				most, best = one.outcome.Zone[0], one.sowing
			}
		}
		least := species.StandardOf(r.use.Grade).Least
		count := func(weeded bool) (chance float64) {
			b.ensemble.Weeded = weeded
			covers := b.ensemble.Follow(&best).Zone[0]
			for _, x := range covers {
				if x >= least {
					chance += 1 / float64(len(covers))
				}
			}
			return chance
		}
		b.ensemble.Sow([]int{0})
		chance := count(false)
		z := a.zones[0]
		near(t, r.spot.Station+": chance", z.chance, chance, 1e-9)
		if z.kept != (chance >= 0.2-1e-9) {
			t.Errorf("%s: a chance of %g, kept %t", r.spot.Station, chance, z.kept)
		}
		blamed := chance < 0.8-1e-9 && count(true)-chance > (1-chance)/2
		if z.weeds != blamed {
			t.Errorf("%s: a chance of %g, weeded %g: weeds to blame %t", r.spot.Station, chance, count(true), z.weeds)
		}
		if z.weeds {
			weedy++
		}
		if z.kept {
			kept++
		}
	}
	if weedy == 0 || kept == 0 || kept == 4 {
		t.Errorf("%d zones weedy, %d kept of four: the test shows too little", weedy, kept)
	}
}

// What else there is about a dark place (our own limits): ground of a wetness of a half, else leaves that take a quarter of the open's light.
func TestShadesWorked(t *testing.T) {
	for _, r := range []struct {
		wet, leaf, open float64
		want            shade
	}{{0.5, 0, 1, dampShade}, {0.49, 0.5, 0.5, dryShade}, {0.49, 0.48, 0.5, plainShade}, {0.5, 1, 0, dampShade}, {0.1, 1, 0.76, plainShade}, {0.1, 1, 0.75, dryShade}} {
		if got := shadeOf(light.Light{LeafShade: r.leaf, OpenShare: r.open}, &ground.Soil{Wetness: r.wet}); got != r.want {
			t.Errorf("%+v: %d", r, got)
		}
	}
}

// The seed of two mixtures over the lawn, by hand: on three quarters of it 20 g/m² and 20,000 seeds, 60 parts of one grass and 40 of another; on a quarter 40 g/m²
// and 30,000 seeds, 20 of the first and 80 of a third. Of 25 g/m² in the mean the first is 60·15/25 + 20·10/25 = 44, of 22,500 seeds half of 15,000 and a tenth
// of 7,500.
func TestSeedOfTwoMixtures(t *testing.T) {
	a, b, c := &species.Species{ID: "a"}, &species.Species{ID: "b"}, &species.Species{ID: "c"}
	s := &Split{Patches: [2]Patch{
		{Zones: []int{0, 2}, Share: 0.75, Mixture: Mixture{RateGM2: 20, SeedsPerM2: 20000, Score: 0.8, CoverExpected: 0.9, Components: []Component{{Species: a, Percent: 60, SeedPercent: 50}, {Species: b, Percent: 40, SeedPercent: 50}}}, Chance: 0.6, Common: Likely{0.88, 0.5}},
		{Zones: []int{1}, Share: 0.25, Mixture: Mixture{RateGM2: 40, SeedsPerM2: 30000, Score: 0.4, CoverExpected: 0.7, Components: []Component{{Species: c, Percent: 80, SeedPercent: 90}, {Species: a, Percent: 20, SeedPercent: 10}}}, Chance: 0.4, Common: Likely{0.66, 0.45}},
	}}
	m := s.mixture(&outlook{cover: 0.85})
	near(t, "rate", m.RateGM2, 25, 1e-9)
	near(t, "seeds", m.SeedsPerM2, 22500, 1e-9)
	near(t, "score", m.Score, 0.7, 1e-9)
	for i, want := range []struct {
		of      *species.Species
		percent int
		seeds   float64
	}{{a, 44, 100 * (0.5*15000 + 0.1*7500) / 22500}, {c, 32, 100 * 0.9 * 7500 / 22500}, {b, 24, 100 * 0.5 * 15000 / 22500}} {
		if got := m.Components[i]; got.Species != want.of || got.Percent != want.percent {
			t.Errorf("%d: %d %% of %s, want %d of %s", i, got.Percent, got.Species.ID, want.percent, want.of.ID)
		}
		near(t, "seeds of "+want.of.ID, m.Components[i].SeedPercent, want.seeds, 1e-9)
	}
	// The second gains four points of cover and loses five of chance, the first two of cover; a zone lies in one of them or in none.
	if g := s.Gains(); g != &s.Patches[1] || math.Abs(g.Gain().Cover-0.04) > 1e-12 || math.Abs(g.Gain().Chance+0.05) > 1e-12 {
		t.Errorf("%+v gains %+v", s.Gains().Zones, s.Gains().Gain())
	}
	if s.In(2) != &s.Patches[0] || s.In(1) != &s.Patches[1] || s.In(3) != nil {
		t.Error("which mixture a zone has")
	}
	// Half a kilogram is a lot of its own, less is not worth another bag (common practice, no published source).
	near(t, "least lot, g", leastLotG, 500, 50)
}
