package mix

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"swardwright/internal/told"
	"swardwright/mix/internal/place"
	"swardwright/mix/sward"
	"swardwright/site"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/species"
)

// One grass is left out for another only where that is at least as good by every figure that the model reads and better by one:
// each figure in turn, better and worse.
func TestDominatesByEveryFigure(t *testing.T) {
	setUp := func() (*problem, *candidate, *candidate) {
		a, b := grass("a", 1000, 90, 80, 10, 20), grass("b", 1000, 90, 80, 10, 20)
		a.Values[species.FieldEmergence].Best, b.Values[species.FieldEmergence].Best = 0.5, 0.5
		two := func(x float64) []float64 { return []float64{x, x} }
		years := func(x float32) []float32 { return []float32{x, x, x, x} }
		z := sward.Zone{Share: 1, Capacity: two(0.8), Claim: two(3e-4), Spread: two(0.5), Gain: years(2), Summer: years(0.9), Winter: years(0.8)}
		p := &problem{field: &sward.Field{IDs: []string{"a", "b"}, Years: 2, Zones: []sward.Zone{z}}, leafMM: two(2)}
		return p, &candidate{species: a, pool: 0, pls: 0.72, cap: 10, price: 2}, &candidate{species: b, pool: 1, pls: 0.72, cap: 10, price: 2}
	}
	p, a, b := setUp()
	if p.dominates(a, b) || p.dominates(b, a) || p.dominates(a, a) {
		t.Error("one of two like grasses is better")
	}
	for name, change := range map[string]func(p *problem, a *candidate, by float64){
		"seeds in a gram":           func(_ *problem, a *candidate, by float64) { a.species.Values[species.SeedsPerGram].Best *= by },
		"pure live seed":            func(_ *problem, a *candidate, by float64) { a.pls *= by },
		"emergence":                 func(_ *problem, a *candidate, by float64) { a.species.Values[species.FieldEmergence].Best *= by },
		"leaf":                      func(p *problem, _ *candidate, by float64) { p.leafMM[0] /= by },
		"price":                     func(_ *problem, a *candidate, by float64) { a.price /= by },
		"capacity":                  func(p *problem, _ *candidate, by float64) { p.field.Zones[0].Capacity[0] *= by },
		"claim":                     func(p *problem, _ *candidate, by float64) { p.field.Zones[0].Claim[0] *= by },
		"spread":                    func(p *problem, _ *candidate, by float64) { p.field.Zones[0].Spread[0] *= by },
		"gain in the second year":   func(p *problem, _ *candidate, by float64) { p.field.Zones[0].Gain[2] *= float32(by) },
		"summer in the second year": func(p *problem, _ *candidate, by float64) { p.field.Zones[0].Summer[2] *= float32(by) },
		"winter in the first year":  func(p *problem, _ *candidate, by float64) { p.field.Zones[0].Winter[0] *= float32(by) },
	} {
		p, a, b := setUp()
		change(p, a, 1.1)
		if !p.dominates(a, b) || p.dominates(b, a) {
			t.Errorf("%s: better, and not preferred", name)
		}
		p.field.Zones[0].Claim[1] *= 1.2 // by another figure worse
		if p.dominates(a, b) && name != "claim" {
			t.Errorf("%s: preferred though its claim is less", name)
		}
		p, a, b = setUp()
		change(p, a, 0.9)
		if p.dominates(a, b) || !p.dominates(b, a) {
			t.Errorf("%s: worse, and preferred", name)
		}
	}
	p, a, b = setUp()
	a.price, a.cap = 1, 9
	if p.dominates(a, b) {
		t.Error("one that may be less of a mixture is preferred")
	}
	a.cap = 10
	if !p.dominates(a, b) {
		t.Error("a cheaper one is not preferred")
	}
	if a.species.Group = "other"; p.dominates(a, b) {
		t.Error("one of another group is preferred")
	}
}

// The mixtures of a grid counted: so many ways to share k steps out over n grasses, C(k+n-1, n-1), less those of more than five
// grasses and those over a cap.
func TestGridCounted(t *testing.T) {
	count := func(n, step int, caps ...int) (count int) {
		p := &problem{}
		for i := range n {
			c := units
			if i < len(caps) {
				c = caps[i]
			}
			p.candidates = append(p.candidates, candidate{cap: c})
		}
		seen := map[shares]bool{}
		p.grid(step, func(s shares) {
			sum := 0
			for i, u := range s {
				sum += int(u)
				if int(u)%step != 0 || i < n && int(u) > p.candidates[i].cap {
					t.Errorf("%v on a grid of %d", s, step)
				}
			}
			if sum != 20 || seen[s] {
				t.Errorf("%v: %d units, met before: %t", s, sum, seen[s])
			}
			seen[s] = true
			count++
		})
		return count
	}
	for _, r := range []struct{ got, want int }{
		{count(1, 5), 1}, {count(3, 5), 15}, {count(7, 5), 210}, // C(6,2), C(10,6)
		{count(3, 1), 231}, {count(6, 1), 53130 - 11628}, // C(22,2); C(25,5) less the C(19,5) of all six
		{count(2, 1, 10), 11}, {count(2, 5, 4), 1}, {count(2, 1, 3, 4), 0},
	} {
		near(t, "mixtures", float64(r.got), float64(r.want), 0)
	}
	p := &problem{candidates: []candidate{{cap: 3}, {cap: units}}}
	for s, ok := range map[shares]bool{{3, 17}: true, {4, 16}: false} {
		if p.allowed(s) != ok {
			t.Errorf("%v allowed: %t", s, !ok)
		}
		if p.uncapped = true; !p.allowed(s) {
			t.Errorf("%v without caps", s)
		}
		p.uncapped = false
	}
	if (&problem{candidates: make([]candidate, 6), uncapped: true}).allowed(shares{15, 1, 1, 1, 1, 1}) {
		t.Error("six grasses are allowed")
	}
	// Two that score alike stand by their shares, whichever was met first.
	a, b := ranked{shares{5, 15}, 0.5}, ranked{shares{10, 10}, 0.5}
	if better(a, b) <= 0 || better(b, a) >= 0 || better(a, a) != 0 || better(ranked{score: 0.6}, a) >= 0 {
		t.Error("the order of mixtures")
	}
}

// How thickly a mixture is sown, by hand: as told, of a meadow at most 10 g/m², into a sward by its cover; plants come up by the
// grass's emergence and what the seedbed lets through.
func TestSownAsTold(t *testing.T) {
	j := only(t, place.Spot{Station: "Hannover"}, species.Use{Grade: species.Extensive}, rye, meadow)
	for name, r := range map[string]struct {
		task Task
		rate float64 // over the count's
	}{
		"by the count":            {Task{}, 1},
		"told":                    {Task{RateGM2: 17}, 0},
		"a meadow":                {Task{Meadow: true}, 0},
		"over a full sward":       {Task{Overseed: true, CoverPercent: 100}, 0.5},
		"over half a sward":       {Task{Overseed: true, CoverPercent: 50}, 0.75},
		"over too little":         {Task{Overseed: true, CoverPercent: 49}, 1},
		"seedbed of three fifths": {Task{SeedbedShare: 0.6}, 1},
	} {
		j.task = r.task
		p := j.problem()
		got := p.trial(coarseHistories).try(shares{10, 10})
		parts, pls, _ := p.parts(shares{10, 10})
		full := Sow(parts, pls, species.Extensive, 0).RateGM2
		want := r.rate * full
		switch name {
		case "told":
			want = 17
		case "a meadow":
			if want = 10; full <= 10 {
				t.Fatalf("%g g/m² tell nothing of a meadow's most", full)
			}
		}
		near(t, name, got.density.RateGM2, want, 1e-9)
		bed := 1.0
		if r.task.SeedbedShare > 0 {
			bed = 0.6
		}
		for i, part := range parts {
			near(t, name+": plants", got.sowing.Plants[i], got.density.RateGM2/2*part.Species.Values[species.SeedsPerGram].Best*pls[i]*part.Species.Values[species.FieldEmergence].Best*bed, 1e-6)
		}
	}
	// Grasses that may be sown: caps in steps of five percent; none for animals that its fungus harms.
	table := tableOf(t)
	all := job{published: j.published, site: j.site, pool: j.pool, use: species.Use{Grade: species.Utility}}
	for _, quick := range []bool{false, true} {
		all.task = Task{Quick: quick}
		list := all.candidates(all.problem())
		if most := map[bool]int{false: 10, true: 6}[quick]; len(list) != most {
			t.Errorf("%d candidates, quick %t", len(list), quick)
		}
		for i, k := range list {
			if i > 0 && k.pool <= list[i-1].pool || k.species.Invader || k.species.Fodder {
				t.Errorf("%s may be sown", k.species.ID)
			}
			want := 20
			if k.species.MaxShare > 0 && k.species.MaxShare < 100 {
				want = k.species.MaxShare / 5
			}
			near(t, k.species.ID+": most units", float64(k.cap), float64(want), 0)
			near(t, k.species.ID+": price", k.price, k.species.Values[species.SeedPrice].Best, 1e-9)
			near(t, k.species.ID+": pure live seed", k.pls, PureLiveSeed(k.species, nil), 1e-12)
		}
	}
	all.use.Livestock = true
	for _, k := range all.candidates(all.problem()) {
		if k.species.Is(species.LeftUneaten) {
			t.Errorf("%s on a pasture", k.species.ID)
		}
	}
	all.stock.Lots = []Lot{{Species: table.ByID(timothy)}, {Species: table.ByID(meadow), PurityPercent: 50}}
	list := all.candidates(all.problem())
	if len(list) != 2 || !slices.ContainsFunc(list, func(k candidate) bool { return k.species.ID == timothy }) {
		t.Errorf("of two lots %d candidates", len(list))
	}
}

// small is an answer of three grasses and three zones, made up so that it can be read by hand.
func small() *answer {
	a := &answer{job: job{site: &site.Conditions{}, use: species.Use{Grade: species.Utility}}, problem: &problem{}}
	for i, id := range []string{"a", "b", "c"} {
		s := grass(id, 1000, 90, 80, 10, 20)
		a.pool = append(a.pool, s)
		a.problem.candidates = append(a.problem.candidates, candidate{species: s, pool: i, cap: units})
	}
	for i, share := range []float64{0.2, 0.5, 0.3} {
		z := site.Zone{Zone: light.Zone{Share: share}}
		z.Light.DLISeason = []float64{20, 12, 25}[i]
		a.site.Zones = append(a.site.Zones, z)
	}
	a.zones = []zone{{kept: true, alone: 0.8, chance: 0.9}, {kept: true, alone: 0.6, chance: 0.3, weeds: true}, {alone: 0.1, chance: 0.1}}
	a.best = &tried{shares: shares{12, 8}}
	a.outlook = &outlook{keeps: []float64{0.7, 0.4, 0}, zones: []float64{0.75, 0.55, 0}}
	rates := func(light, wet, look float64) []species.Rating {
		return []species.Rating{{Criterion: "light", Value: light}, {Criterion: "wet", Value: wet}, {Criterion: species.Looks, Value: look}}
	}
	row := func(i, zone int, overall, light, wet float64) species.Row {
		return species.Row{Species: a.pool[i], Zone: zone, Overall: overall, Ratings: rates(light, wet, 0)}
	}
	a.matrix.Rows = []species.Row{
		row(0, 0, 0.9, 0.9, 0.6), row(1, 0, 0.5, 0.2, 0.9), row(2, 0, 0.13, 0, 0), // by shares 0.6 and 0.4: light 0.62, wet 0.72
		row(0, 1, 0.4, 0.5, 0.3), row(1, 1, 0.8, 0.9, 0.8), row(2, 1, 0.7, 0, 0),
		row(2, 2, 0.6, 0.7, 0.2), row(0, 2, 0.3, 0, 0), row(1, 2, 0.1, 0.1, 0),
	}
	return a
}

// Zones judged by hand: by the better of the mixture and the grass that does best there; what is lacked most goes by the shares of
// the mixture, without one by the best of the matrix.
func TestVerdictsWorked(t *testing.T) {
	a := small()
	for i, want := range []ZoneVerdict{
		{Zone: 0, Verdict: Holds, Chance: 0.9, Cover: 0.75, Sown: true, LimitedBy: "light"},
		{Zone: 1, Verdict: Doubtful, Chance: 0.4, Cover: 0.55, Sown: true, LimitedBy: Weeds},
		{Zone: 2, Verdict: None, Chance: 0.1, Cover: 0.1, LimitedBy: "wet"}, // by shares: light 0.04, wet 0
	} {
		got := a.verdicts()[i]
		if (len(got.Instead) > 0) != (want.Verdict != Holds) {
			t.Errorf("zone %d: instead %v", i, got.Instead)
		}
		if got.Instead = nil; fmt.Sprint(got) != fmt.Sprint(want) {
			t.Errorf("%+v, want %+v", got, want)
		}
	}
	if got := a.lost(); !slices.Equal(got, []int{2}) {
		t.Errorf("lost %v", got)
	}
	near(t, "the largest that is kept", float64(a.largest()), 1, 0)
	near(t, "the lightest of all", float64(lightest(a.site)), 2, 0)
	if !a.staysLawn() {
		t.Error("nine lawns in ten keep a zone, and it is no lawn")
	}
	for _, r := range []struct {
		chance, keeps float64
		kept, stays   bool
	}{{0.5, 0, true, true}, {0.49, 0.5, true, true}, {0.49, 0.49, true, false}, {0.9, 0.9, false, false}} {
		b := small()
		b.zones = []zone{{kept: r.kept, chance: r.chance}}
		b.outlook.keeps = []float64{r.keeps}
		if b.staysLawn() != r.stays {
			t.Errorf("%+v: stays %t", r, !r.stays)
		}
	}
	a.best = nil
	if got := a.limitedBy(0); got != "wet" { // 0.6 of the first row
		t.Errorf("without a mixture limited by %s", got)
	}
	if v := a.verdicts()[0]; v.Sown {
		t.Error("sown without a mixture")
	}
	// A heavily used place gets paving, one of weeds feed, others what grows in shade.
	for _, r := range []struct {
		use   species.Use
		weeds bool
		in    shade
		want  string
	}{
		{species.Use{Grade: species.Utility}, false, plainShade, "mix.cover-instead"}, {species.Use{Grade: species.HardWearing, Traffic: species.Light}, false, plainShade, "mix.paving-instead"},
		{species.Use{Grade: species.Utility, Traffic: species.Heavy}, false, dampShade, "mix.paving-instead"}, {species.Use{Grade: species.HardWearing}, true, dryShade, "mix.feed-instead"},
		{species.Use{Grade: species.Utility}, false, dryShade, "mix.cover-dry-instead"}, {species.Use{Grade: species.Utility}, false, dampShade, "mix.cover-damp-instead"},
	} {
		a.use = r.use
		if got := a.instead(zone{weeds: r.weeds}, r.in); got[0].Name != r.want {
			t.Errorf("%+v: %v", r, got)
		}
	}
}

// Where the shade is a tree's its roots drink, where it is a wall's they don't, and on wet ground it is damp either way.
func TestShadeOf(t *testing.T) {
	for _, r := range []struct {
		leaves, open, wet float64
		want              shade
	}{{1, 0.5, 0, dryShade}, {0, 0.5, 0, plainShade}, {1, 0.5, 0.5, dampShade}, {0, 0.3, 0.8, dampShade}, {1, 0.8, 0, plainShade}} {
		if got := shadeOf(light.Light{LeafShade: r.leaves, OpenShare: r.open}, &ground.Soil{Wetness: r.wet}); got != r.want {
			t.Errorf("%+v: %d", r, got)
		}
	}
}

// Who leads by hand: a 0.2·0.9 + 0.5·0.4 + 0.3·0.3 = 0.47, b 0.53, c 0.556. Near enough to the best of some zone is 0.15 of it.
func TestLeadersWorked(t *testing.T) {
	a := small()
	ids := func(list []*species.Species) (s string) {
		for _, sp := range list {
			s += sp.ID
		}
		return s
	}
	if got := ids(a.leaders(2)); got != "cb" {
		t.Errorf("the first two are %s", got)
	}
	if got := ids(a.leaders(9)); got != "cba" {
		t.Errorf("all are %s", got)
	}
	a.pool[2].Fodder = true
	if got := ids(a.leaders(9)); got != "ba" {
		t.Errorf("without a hay grass %s", got)
	}
	a.matrix.Rows = a.matrix.Rows[:3] // the one zone: 0.9, 0.5 and 0.13, under 0.135
	if fits := a.fitting(); !fits["a"] || !fits["b"] || fits["c"] {
		t.Errorf("fitting: %v", fits)
	}
	a.matrix.Rows[2].Overall = 0.136
	if !a.fitting()["c"] {
		t.Error("0.136 of 0.9 doesn't fit")
	}
	if a.stock.Lots = []Lot{{Species: a.pool[1]}}; a.fitting() != nil {
		t.Error("lots are judged by the matrix")
	}
	if lot, ok := a.lot(a.pool[1]); lot == nil || !ok {
		t.Error("a lot on offer isn't found")
	}
	if lot, ok := a.lot(a.pool[0]); lot != nil || ok {
		t.Error("what isn't on offer is")
	}
	if bestOf(nil, nil, nil) != -1 {
		t.Error("the best of none")
	}
	scores := []float64{0.4, 0.6, 0.6}
	near(t, "the first of the best", float64(bestOf(a.problem.candidates, scores, func(candidate) bool { return true })), 1, 0)
	near(t, "of those that may", float64(bestOf(a.problem.candidates, scores, func(k candidate) bool { return k.pool != 1 })), 2, 0)
}

// A tenth of a grass that isn't there comes from the largest, a unit at a time.
func TestWithTwo(t *testing.T) {
	for _, r := range []struct {
		from shares
		at   int
		want shares
	}{{shares{12, 8}, 2, shares{10, 8, 2}}, {shares{10, 10}, 2, shares{9, 9, 2}}, {shares{7, 6, 0, 7}, 2, shares{6, 6, 2, 6}}, {shares{0, 20}, 0, shares{2, 18}}} {
		if got := r.from.withTwo(r.at); got != r.want {
			t.Errorf("%v with a tenth of %d: %v, want %v", r.from, r.at, got, r.want)
		}
	}
}

// What is asked of a merchant by the share of a grass: from 40 % on many kinds of it, from 15 some, else one; what is worth
// sowing into a sward by five points.
func TestSharesThatCount(t *testing.T) {
	for percent, want := range map[int]string{40: "mix.cultivars-many", 39: "mix.cultivars-few", 15: "mix.cultivars-few", 14: "mix.cultivars-one"} {
		if got := cultivars([]Component{{Species: &species.Species{ID: "a"}, Percent: percent}}); got[0].Name != want {
			t.Errorf("%d %%: %v", percent, got)
		}
	}
	for sown, worth := range map[float64]bool{0.46: true, 0.44: false} {
		if (Left{Alone: 0.4, Sown: sown}).Worth() != worth {
			t.Errorf("from 0.4 to %g worth it: %t", sown, !worth)
		}
	}
	a := small()
	tr := &tried{shares: shares{5, 0, 15}, density: Density{RateGM2: 20, SeedsPerM2: 20000, Viable: []float64{8000, 12000}}, score: 0.7}
	m := a.describe(tr, &outlook{cover: 0.8, badCover: 0.6})
	if len(m.Components) != 2 || m.Components[0].Species.ID != "c" || m.Components[0].Percent != 75 || m.Components[0].SeedPercent != 60 || m.Components[1].Percent != 25 || m.Components[1].SeedPercent != 40 {
		t.Errorf("%+v", m.Components)
	}
	near(t, "share of the one", m.Share(a.pool[2]), 0.75, 0)
	near(t, "share of none", m.Share(a.pool[1]), 0, 0)
	near(t, "in percent", float64(inPercent(0.0349)), 3, 0)
	near(t, "a rounded up", float64(inPercent(0.035)), 4, 0)
	std := species.StandardOf(species.Utility)
	o := &outlook{cover: 0.7, badCover: 0.5, even: 0.3, look: 1}
	var lacks []string
	for _, s := range o.shortBy(std) {
		lacks = append(lacks, string(s.What))
	}
	if !slices.Equal(lacks, []string{"cover", "bad-year cover", "evenness"}) {
		t.Errorf("lacks %v", lacks)
	}
	a.outlook = o
	if got := a.limit(); got != told.Figure(told.Term{Kind: "short-of", Word: Weeds}) { // of the largest zone
		t.Errorf("limited by %v", got)
	}
	a.outlook = &outlook{cover: 0.9, badCover: 0.9, even: 0.3}
	if got := a.limit(); got != told.Figure(told.Term{Kind: "short-of", Word: species.Looks}) {
		t.Errorf("limited by %v", got)
	}
	u := everyday(species.Use{Grade: species.Ornamental})
	if u.Grade != species.Utility || u.Traffic != species.Light { // walked on as it was to be
		t.Errorf("an everyday lawn in place of an ornamental one: %+v", u)
	}
}

// Chances by brute force: lawn by lawn whether all that the standard asks is kept, and each measure by itself.
func TestOutlookCounted(t *testing.T) {
	for _, grade := range []species.Grade{species.Utility, species.Ornamental} {
		j := only(t, place.Spot{Station: "Hannover", SunHours: 5, Years: 30}, species.Use{Grade: grade}, rye, meadow, chew)
		j.pool = slices.DeleteFunc(slices.Clone(j.pool), func(s *species.Species) bool {
			return !slices.Contains([]string{rye, meadow, chew, annual}, s.ID)
		})
		std := species.StandardOf(grade)
		a := &answer{job: j, problem: j.problem(), ensemble: sward.NewEnsemble(j.site, j.pool, j.use, 60, lawnSeed)}
		a.trial = a.problem.trial(coarseHistories)
		tr := a.trial.try(shares{8, 8, 4})
		// Snow of 75 days on end and 0.35 of the open's light at midwinter take the fine grasses of a quarter of an ornamental lawn.
		dies := 0.0
		if grade == species.Ornamental {
			dies = 0.25
			zone := &a.site.Zones[0]
			zone.Years = slices.Clone(zone.Years)
			for y := range zone.Years {
				zone.Years[y].LongestSnow = 75
			}
			for _, m := range []int{10, 11, 0} {
				zone.Light.DLI[m] = 0.35 * a.site.Field.OpenDLI[m]
			}
		}
		o := a.outlookOf(&tr)
		f := a.ensemble.Follow(&tr.sowing)
		pick := func(from []float64) (out []float64) {
			for _, g := range f.Grass {
				out = append(out, from[g])
			}
			return out
		}
		n, kept := float64(len(f.Cover)), 0.0
		alone, missed := map[Measure]float64{}, map[Measure][]float64{}
		var fines []float64
		for i := range f.Cover {
			even, fine := look(f.Life(i), pick(a.problem.leafMM), pick(a.problem.pale), pick(a.problem.looks))
			fine *= 1 - dies
			fines = append(fines, fine)
			worst := slices.Min(f.Season[i*sward.Lasting : (i+1)*sward.Lasting])
			all := true
			asks := map[Measure][2]float64{Cover: {f.Cover[i], std.Cover}, BadCover: {worst, std.BadCover}, Even: {even, std.Even}}
			if grade == species.Ornamental {
				asks[Look] = [2]float64{fine, 0.6}
			}
			for m, pair := range asks {
				if pair[0] >= pair[1] {
					alone[m] += 1 / n
				} else {
					missed[m], all = append(missed[m], pair[0]), false
				}
			}
			if all {
				kept += 1 / n
			}
		}
		near(t, "chance", o.chance, kept*(1-dies), 1e-9)
		near(t, "look of the middle lawn", o.look, among(fines, 0.5), 1e-12)
		for _, m := range []Measure{Cover, BadCover, Even, Look} {
			near(t, string(m)+" by itself", o.alone[m], alone[m], 1e-9)
			sum := 0.0
			for _, x := range missed[m] {
				sum += x / float64(len(missed[m]))
			}
			near(t, string(m)+" where it is missed", o.missed[m], sum, 1e-9)
		}
		near(t, "middle cover", o.cover, among(f.Cover, 0.5), 0)
		near(t, "bad cover", o.badCover, among(f.Season, 0.1), 0)
		near(t, "early", o.early, among(f.Early, 0.5), 0)
		reach := 0.0
		for _, x := range f.Zone[0] {
			if x >= std.Least {
				reach += 1 / n
			}
		}
		near(t, "the zone keeps the least", o.keeps[0], reach, 1e-9)
		near(t, "cover of the zone", o.zones[0], among(f.Zone[0], 0.5), 0)
		if math.Abs(o.chance-0.5) > 0.5 {
			t.Errorf("a chance of %g", o.chance)
		}
	}
}
