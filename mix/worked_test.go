package mix

import (
	"math"
	"testing"

	"swardwright/internal/approx"
	"swardwright/internal/arith"
	"swardwright/mix/internal/place"
	"swardwright/mix/sward"
	"swardwright/site"
	"swardwright/site/weather"
	"swardwright/species"
)

var near = approx.Near

// What a mixture is judged by adds up to one for every grade, since the score is a weighted mean; a perfect
// sward has all of it, none has none.
func TestWeightsAddUp(t *testing.T) {
	for g, w := range gradeWeights {
		near(t, string(g), w.cover+w.young+w.badYear+w.early+w.evenness+w.fineness+w.thrift+w.diversity+w.cost, 1, 1e-9)
		near(t, string(g)+", perfect", w.score(&sward.Outcome{Expected: 1, Summer: 1, Young: 1, BadYear: 1, Early: 0.6}, 1, 1, 1, 0.4, 0), 1, 1e-9)
		near(t, string(g)+", none", w.score(&sward.Outcome{}, 0, 0, 0, 0, 60), 0, 1e-9)
		near(t, string(g)+", cover: two parts of spring and autumn, one of summer", w.score(&sward.Outcome{Expected: 0.6, Summer: 0.3}, 0, 0, 0, 0, 60), w.cover*0.5, 1e-9)
		near(t, string(g)+", half of what is early enough", w.score(&sward.Outcome{Early: 0.3}, 0, 0, 0, 0, 60), w.early/2, 1e-9)
		near(t, string(g)+", half of what is diverse enough", w.score(&sward.Outcome{}, 0, 0, 0, 0.2, 60), w.diversity/2, 1e-9)
		near(t, string(g)+", seed at half of what is dear", w.score(&sward.Outcome{}, 0, 0, 0, 0, 30), w.cost/2, 1e-9)
		// Cover in all its forms is most of what is asked of any lawn; looks count most of a fine one.
		if w.cover+w.badYear+w.young < 0.5 || w.fineness > gradeWeights[species.Ornamental].fineness {
			t.Errorf("%s: %+v", g, w)
		}
	}
}

// Looks by hand: two grasses, half and half, of leaves e² times as wide have a variance of 1 in their logarithm; half a sward of
// pale grass loses 0.8.
func TestLookWorked(t *testing.T) {
	for _, r := range []struct {
		shares, leaf, pale, fit []float64
		even, fine              float64
	}{
		{[]float64{1, 0}, []float64{2, 9}, []float64{0, 0}, []float64{0.7, 0}, 1, 0.7},
		{[]float64{0.4, 0.4}, []float64{1, math.Exp(2)}, []float64{0, 0}, []float64{1, 0.5}, math.Exp(-1), 0.75},
		{[]float64{0.5, 0.5}, []float64{2, 2}, []float64{1, 0}, []float64{1, 1}, 0.2, 1},
		{[]float64{0.75, 0.25}, []float64{2, 2}, []float64{0, 1}, []float64{1, 1}, 1 - 0.8*4*0.25*0.75, 1},
		{[]float64{0, 0}, []float64{2, 2}, []float64{0, 1}, []float64{1, 1}, 0, 0},
	} {
		even, fine := look(r.shares, r.leaf, r.pale, r.fit)
		near(t, "evenness", even, r.even, 1e-9)
		near(t, "fineness", fine, r.fine, 1e-9)
	}
	// Thrift: of 60 % sown that makes 40 % of the sward, and 40 that make 60, 80 are borne out.
	near(t, "thrift", thrift([]Part{{nil, 60}, {nil, 40}}, []int{2, 5}, []float64{0, 0, 0.4, 0, 0, 0.6}), 0.8, 1e-9)
	// Rao's entropy: halves of two groups differ with a chance of a half, of one group by 0.4 of that.
	near(t, "two groups", diversity([]float64{0.5, 0.5}, []float64{1, 1}, []string{"a", "b"}), 0.5, 1e-9)
	near(t, "one group", diversity([]float64{0.5, 0.5}, []float64{1, 1}, []string{"a", "a"}), 0.2, 1e-9)
	near(t, "one grass", diversity([]float64{0.9, 0.1}, []float64{1, 0.5}, []string{"a", "b"}), 0, 1e-9)
	near(t, "none", diversity([]float64{0}, []float64{1}, []string{"a"}), 0, 0)
}

// The score of a mixture is that of its sward less 0.004 for every grass beyond the first, 0.3 of what it lacks of
// evenness and half of what counts against it.
func TestScoreWorked(t *testing.T) {
	j := only(t, place.Spot{Station: "Hannover"}, species.Use{Grade: species.Ornamental}, slender, bent, rye)
	p := j.problem()
	p.even = 1 // more than any mixture has, so that what it lacks counts
	tr := p.trial(coarseHistories)
	for _, s := range []shares{{20}, {10, 10}, {5, 5, 10}} {
		r := tr.try(s)
		if s[0] < 20 && r.evenness > 0.99 {
			t.Errorf("%v: %g even, so that the test shows nothing", s, r.evenness)
		}
		parts, _, pool := p.parts(s)
		price := 0.0
		for i, u := range s {
			if u > 0 {
				price += float64(u) / 20 * p.candidates[i].price
			}
		}
		want := p.weights.score(&r.outcome, r.evenness, r.fineness, thrift(parts, pool, r.outcome.Life), r.diverse, r.density.RateGM2*price)
		want -= 0.004*float64(len(parts)-1) + 0.3*max(0, p.even-r.evenness) + 0.5*r.against
		near(t, "score", r.score, want, 1e-8)
	}
}

// Seed by hand: viable seeds by grade, within the published 10,800 to 31,000 a square metre (Grounds Maintenance
// magazine; Ohio State University Extension Bulletin 546); weights from half way to the least to a
// fifth of the way to the greatest.
func TestDensityWorked(t *testing.T) {
	for g, want := range map[species.Grade]float64{species.Ornamental: 30000, species.HardWearing: 25000, species.Utility: 25000, species.Extensive: 12000} {
		near(t, string(g), SeedTarget(g), want, 0)
	}
	a, b := grass("a", 1000, 90, 75, 10, 30), grass("b", 3000, 80, 75, 4, 8)
	low, high := WeightRates([]Part{{a, 75}, {b, 25}})
	near(t, "least", low, 0.75*15+0.25*5, 1e-9)
	near(t, "most", high, 0.75*22+0.25*6.4, 1e-9)
	d := Sow([]Part{{a, 75}, {b, 25}}, []float64{0.675, 0.6}, species.Extensive, 0)
	near(t, "12,000 seeds of 956.25 a gram", d.RateGM2, 12000/956.25, 1e-9)
	near(t, "of the first", d.Viable[0], d.RateGM2*0.75*675, 1e-6)
	near(t, "together", d.SeedsPerM2, 12000, 1e-6)
	// Illinois 2 against 4, Kansas State 3-4 against 6-8 pounds: half into a full sward, all on bare ground.
	for cover, share := range map[float64]float64{0: 1, 50: 0.75, 100: 0.5} {
		near(t, "into a sward", OverseedShare(cover), share, 1e-9)
	}
}

// The first season by hand: growth on days 100 to 299 after the coldest. Sown on day 110, 190 days are left, less 25 until
// it has established; from when less than 0.4 of the year's growth is to come a winter comes first.
func TestFirstSeasonWorked(t *testing.T) {
	days := &weather.Days{Series: &weather.Series{Years: 1}, Growth: make([]float32, 365)}
	for m := range days.Normals.MeanC {
		days.Normals.MeanC[m] = 10 - 10*math.Cos(2*math.Pi*float64(m)/12)
	}
	cold := days.Normals.ColdestDay()
	for k := 100; k < 300; k++ {
		days.Growth[(cold+k)%365] = 1
	}
	c := &site.Conditions{Zones: []site.Zone{{Days: days}}}
	for k, want := range map[int]struct {
		left   float64
		winter bool
	}{110: {165.0 / 200, false}, 220: {55.0 / 200, false}, 221: {1, true}, 50: {175.0 / 200, false}} {
		left, winter := sward.FirstSeason(c, (cold+k)%365)
		near(t, "left", left, want.left, 1e-6)
		if winter != want.winter {
			t.Errorf("day %d: a winter first %t", k, winter)
		}
	}
	left, winter := sward.FirstSeason(c, 0)
	near(t, "no day known: sown at the start", left, 0.75, 0)
	if winter {
		t.Error("a winter comes before a spring sowing")
	}
}

// Chances counted by hand.
func TestChancesWorked(t *testing.T) {
	chance, cover := keeping([]float64{0.5, 0.4, 0.7, 0.9}, 0.5)
	near(t, "three of four reach a half", chance, 0.75, 1e-9)
	near(t, "the middle one", cover, 0.6, 1e-9)
	// The standard error of a half, counted over so many lawns: two to three points, and five where it is rough.
	near(t, "how well a chance is known", math.Sqrt(0.25/lawns), 0.025, 0.002)
	near(t, "how well roughly", math.Sqrt(0.25/fewLawns), 0.05, 0.004)
	std := species.StandardOf(species.Ornamental)
	if got := measures(std, 1, 1, 1, 1); len(got) != 4 || got[3].Asks != 0.6 {
		t.Errorf("%+v", got)
	}
	utility := species.StandardOf(species.Utility)
	o := &outlook{cover: 0.7, badCover: 0.6, even: 0.9, alone: map[Measure]float64{Cover: 0.4, BadCover: 0.6, Even: 1}, missed: map[Measure]float64{Cover: 0.66}}
	if got := o.shortBy(utility); len(got) != 1 || got[0].What != Cover || got[0].Is != 0.7 {
		t.Errorf("%+v", got)
	}
	o.cover = 0.76
	if got := o.shortBy(utility); len(got) != 1 || got[0].What != Cover || got[0].Is != 0.66 {
		t.Errorf("each measure by itself is kept: %+v", got)
	}
	for c, want := range map[float64]bool{0.5: true, 0.49: false} {
		if got := (&outlook{chance: c}).holds(); got != want {
			t.Errorf("a chance of %g holds: %t", c, got)
		}
	}
	for c, want := range map[float64]Verdict{0.8: Holds, 0.79: Doubtful, 0.2: Doubtful} {
		if got := verdictOf(c); got != want {
			t.Errorf("a chance of %g is %s", c, got)
		}
	}
	if verdictOf(0.19) == Doubtful {
		t.Error("a chance of 0.19 is doubtful")
	}
}

// Fine grasses die by hand where snow lies 75 days on end, half of the way from 60 to 90, and midwinter has 0.35 of the open's
// light, half of the way from 0.45 to 0.25: on a quarter of that zone.
func TestFineGrassesDieWorked(t *testing.T) {
	c := &site.Conditions{Zones: []site.Zone{{Years: []weather.Year{{LongestSnow: 60}, {LongestSnow: 90}}}}}
	c.Zones[0].Share = 0.8
	for m := range 12 {
		c.Field.OpenDLI[m] = 10
	}
	c.Zones[0].Light.DLI[10], c.Zones[0].Light.DLI[11], c.Zones[0].Light.DLI[0] = 3.9, 2.6, 4 // 0.35 together
	near(t, "in the north", job{site: c}.fineGrassesDie(), 0.8*0.25, 1e-9)
	c.Survey.Place.LatitudeDeg = -45
	near(t, "in the south its summer is dark", job{site: c}.fineGrassesDie(), 0.8*0.5*1, 1e-9)
	c.Zones[0].Light.DLI = [12]float64{10, 10, 10, 10, 3.9, 2.6, 4, 10, 10, 10, 10, 10}
	near(t, "and in its own", job{site: c}.fineGrassesDie(), 0.8*0.25, 1e-9)
	near(t, "ramp", arith.Ramp(70, 60, 90), 1.0/3, 1e-9)
}

// Bags and prices by hand: 250 g added to a kilogram make a fifth of the whole.
func TestBagsAndPricesWorked(t *testing.T) {
	a, b := grass("a", 1000, 90, 75, 10, 30), grass("b", 3000, 80, 75, 4, 8)
	ans := &answer{job: job{pool: []*species.Species{a, b}}}
	parts, pool := ans.contents(Premix{Parts: []Part{{a, 75}, {b, 25}}}, b, 250)
	if len(parts) != 2 || len(pool) != 2 {
		t.Fatalf("%+v", parts)
	}
	near(t, "of the bag", parts[0].Percent, 60, 1e-9)
	near(t, "with what is added", parts[1].Percent, 40, 1e-9)
	// Lots at 12 and 18 where 2 and 4 times ryegrass is usual: 30 asked for 6, so 2.4 and 3.6; one without a price as usual.
	a.Values[species.SeedPrice].Best, b.Values[species.SeedPrice].Best = 2, 4
	list := []candidate{{species: a, lot: &Lot{PricePerKG: "12"}}, {species: b, lot: &Lot{PricePerKG: "18"}}, {species: b}}
	relativePrices(list)
	for i, want := range []float64{2.4, 3.6, 4} {
		near(t, "price over ryegrass", list[i].price, want, 1e-9)
	}
	near(t, "units of other grasses", float64(unlike(shares{10, 10}, shares{7, 8, 5})), 5, 0)
	if !(shares{10, 10}).leads(1) || (shares{11, 9}).leads(1) || (shares{20}).leads(1) {
		t.Error("leads")
	}
}

// A mixture that scores 0.70 and covers 0.60, 0.80 and 1.00 of three lawns of utility grass counts for 0.33 + 0.11 + 0.22
// of what each is over or under their mean of 0.80.
func TestOnEachLawnWorked(t *testing.T) {
	a := &answer{problem: &problem{weights: gradeWeights[species.Utility]}}
	for i, want := range []float64{0.70 - 0.66*0.2, 0.70, 0.70 + 0.66*0.2} {
		if got := a.onEachLawn(0.70, []float64{0.6, 0.8, 1})[i]; math.Abs(got-want) > 1e-12 {
			t.Errorf("lawn %d: %v, want %v", i, got, want)
		}
	}
}
