package bed

import (
	"math"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/sowing/job"
	"swardwright/species"
)

// limeFactor is the lime that lifts the pH of a soil by 1, t/ha of ground
// limestone, worked into 200 mm; grass: left on an established sward, which is
// reckoned to 150 mm. Defra/AHDB RB209, from memory.
func limeFactor(clayPercent, organicPercent float64, grass bool) float64 {
	f := 7.0
	switch {
	case organicPercent > 10:
		f = 8
	case clayPercent < 10:
		f = 6
	case clayPercent >= 27:
		f = 8
	}
	if grass {
		f -= 2
	}
	return f
}

// limeGM2 is the lime that lifts a soil from one pH to another by a factor in t/ha
// a unit, as material of the given calcium carbonate equivalent in percent.
func limeGM2(from, to, factor, ccePercent float64) float64 {
	return math.Max(to-from, 0) * factor * 100 * 100 / ccePercent // 1 t/ha is 100 g/m²
}

const (
	// limeMost is the most in one go on grass, g/m²: 100 lb a 1000 square feet,
	// Penn State Extension, lime recommendations for turf.
	limeMost      = 488
	groundLimeCCE = 95 // ground limestone as sold; from memory
)

// LimeGoes shares the lime of a standing sward out over equal goes.
func LimeGoes(gM2 float64) []float64 {
	goes := make([]float64, int(math.Ceil(gM2/limeMost)))
	for i := range goes {
		goes[i] = gM2 / float64(len(goes))
	}
	return goes
}

// limeRule is when a lawn is limed and up to what: common practice, no published
// source, as to when (not worth considering until the pH falls well below 6); RB209
// as to the target of grass on mineral soil, half a unit less for the fine grasses.
type limeRule struct{ below, target float64 }

// limeFor is the rule of a grade. It goes by the grade and not by the mixture, since
// the ground is limed before it is known which grasses will like it best.
func limeFor(g species.Grade) limeRule {
	switch g {
	case species.Ornamental:
		return limeRule{5.0, 5.5}
	case species.Extensive:
		return limeRule{4.5, 5.0}
	default:
		return limeRule{5.5, 6.0}
	}
}

// wantedPH is the range that the chosen mixture prefers, by share.
func wantedPH(parts []mix.Part) (low, high float64) {
	var sum float64
	for _, p := range parts {
		low += p.Percent * p.Species.Values[species.PHLow].Best
		high += p.Percent * p.Species.Values[species.PHHigh].Best
		sum += p.Percent
	}
	if sum == 0 {
		return 0, 0
	}
	// To the tenth that is printed, so that no figure lies beyond a bound it equals.
	return math.Round(10*low/sum) / 10, math.Round(10*high/sum) / 10
}

// limeGM2 is the lime that a ground needs for a use, g/m²; 0 without a soil test.
func (w Input) limeGM2() (gM2, factor float64) {
	soil, rule := w.Site.Soil, limeFor(w.Use.Grade)
	if !soil.PHKnown || soil.PH >= rule.below {
		return 0, 0
	}
	factor = limeFactor(soil.ClayPercent, soil.OrganicPercent, w.Kind != job.New)
	return math.Round(limeGM2(soil.PH, rule.target, factor, groundLimeCCE)/10) * 10, factor
}

// lime gives the answer on lime and its amount.
func lime(w Input) (answer []told.Sentence, gM2 float64) {
	soil, rule := w.Site.Soil, limeFor(w.Use.Grade)
	gM2, factor := w.limeGM2()
	switch {
	case len(w.Parts) == 0:
		return says(told.Say("bed.no-lime-unsown")), 0
	case !soil.PHKnown:
		return says(told.Say("bed.no-lime-untested", told.PH(rule.below))), 0
	case gM2 == 0:
		return says(told.Say("bed.no-lime", told.PH(soil.PH), told.PH(rule.below), told.Years(3))), 0
	}
	how := told.Say("bed.lime-at-once")
	switch {
	case w.Kind == job.New:
		how = told.Say("bed.lime-mixed", told.DepthMM(topMM))
	case gM2 > limeMost:
		how = told.Say("bed.lime-in-parts", told.Count(len(LimeGoes(gM2))), told.Months(job.LimeApartMonths), told.GramsPerM2(limeMost))
	}
	return says(told.Say("bed.lime-answer", told.PH(soil.PH), told.PH(rule.below), told.GramsPerM2(gM2), told.Share(groundLimeCCE/100.0), told.TonnesPerHa(factor), told.Source("RB209"), told.PH(rule.target), how),
		told.Say("bed.lime-confirm")), gM2
}

// Starter feed, g/m². Low or untested: New Brunswick Department of Agriculture,
// Agdex 273.21: 10 each of P₂O₅ and K₂O with 2.5 to 5 of N. High: nothing, after
// Landschoot & Wolf 2011 (no phosphorus above the establishment threshold). A
// medium test takes half, our inference.
func starterByTest(class string) float64 {
	switch class {
	case "high":
		return 0
	case "medium":
		return 5
	default:
		return 10
	}
}

// renovateShare of a new lawn's phosphate and potash is what the little nitrogen that an
// old sward is given brings along: our inference.
const renovateShare = 0.5

// starter is the feed at sowing.
func starter(w Input) (n, p2o5, k2o float64) {
	if w.Unfed {
		return 0, 0, 0
	}
	return w.starter()
}

// starter is what would be fed were it lawful.
func (w Input) starter() (n, p2o5, k2o float64) {
	phosphorus, potassium := w.Site.Soil.Phosphorus, w.Site.Soil.Potassium
	short := phosphorus == "low" || potassium == "low"
	if w.unfed() {
		if phosphorus == "low" && w.Kind == job.New && !w.Use.Meadow() {
			p2o5 = starterByTest(phosphorus)
		}
		return 0, p2o5, 0
	}
	if w.Kind == job.Overseed && !short {
		return 0, 0, 0 // seed in a standing sward is fed for what a test finds lacking alone: nitrogen drives the old grass
	}
	n = 4
	if w.Use.Grade == species.Ornamental || w.Kind != job.New {
		n = leastStarterN
	}
	if w.Kind != job.New { // an old sward has what it needs unless a test says otherwise
		if phosphorus == "low" {
			p2o5 = starterByTest(phosphorus) * renovateShare
		}
		if potassium == "low" {
			k2o = starterByTest(potassium) * renovateShare
		}
		return n, p2o5, k2o
	}
	return n, starterByTest(phosphorus), starterByTest(potassium)
}

// unfed tells whether the lawn is to be kept without feed. Where a test finds little phosphorus in a bed that is
// newly made it is worked in all the same, since seedlings need it near and it doesn't come down to roots later; flowers of a
// meadow want it scarce: common practice, no published source.
func (w Input) unfed() bool {
	u := w.Use
	return u.Feeding == "none" || u.Grade == species.Extensive && u.Feeding == "" || u.NitrogenGM2 != nil && *u.NitrogenGM2 == 0
}

// grade is a fertiliser by its declared percentages.
type grade struct{ n, p2o5, k2o float64 }

// grades that any merchant has in some form.
var grades = []grade{{5, 10, 10}, {10, 10, 10}, {5, 10, 5}, {5, 5, 10}, {5, 10, 0}, {5, 0, 10}, {20, 0, 0}}

// superphosphate is what a ground is given that is to have phosphate alone.
var superphosphate = grade{0, 20, 0}

// feedAtSowing is the grade that a bed is given and how much of it.
func (b Bed) feedAtSowing() (grade, float64) {
	if b.StarterN == 0 {
		return superphosphate, productGM2(b.StarterP2O5, superphosphate.p2o5)
	}
	return gradeFor(b.StarterN, b.StarterP2O5, b.StarterK2O)
}

// Nitrogen at sowing, g/m²: New Brunswick Department of Agriculture, Agdex 273.21.
const leastStarterN, mostStarterN = 2.5, 5.0

// told is the grade as bags have it: nitrogen, phosphate and potash in percent.
func (g grade) told() told.Sentence {
	return told.Say("bed.feed-grade", told.Count(g.n), told.Count(g.p2o5), told.Count(g.k2o))
}

// productGM2 is the fertiliser that carries an amount of a nutrient.
func productGM2(nutrientGM2, percent float64) float64 { return nutrientGM2 * 100 / percent }

// gradeFor picks the grade and how much of it to give: what is asked of phosphate and
// potash, and of nitrogen as near to what is asked as that leaves, within what young
// grass is given.
func gradeFor(n, p2o5, k2o float64) (grade, float64) {
	var best grade
	bestG, least := 0.0, math.Inf(1)
	for _, g := range grades {
		grams := productGM2(n, g.n)
		switch {
		case p2o5 > 0 && g.p2o5 > 0:
			grams = productGM2(p2o5, g.p2o5)
		case k2o > 0 && g.k2o > 0:
			grams = productGM2(k2o, g.k2o)
		}
		fed := grams * g.n / 100
		miss := math.Abs(grams*g.p2o5/100-p2o5) + math.Abs(grams*g.k2o/100-k2o) + mostStarterN*max(0, leastStarterN-fed, fed-mostStarterN) + nitrogenMiss*math.Abs(fed-n)
		if miss < least {
			best, bestG, least = g, grams, miss
		}
	}
	return best, bestG
}

// nitrogenMiss is how much nitrogen beside the mark counts, within its bounds, over
// phosphate and potash beside theirs.
const nitrogenMiss = 0.1

// saltLimit is the least salt at which a grass of the mixture starts to suffer.
func saltLimit(parts []mix.Part) (dSM float64, who *species.Species) {
	for _, p := range parts {
		if v := p.Species.Values[species.SaltDSM].Best; who == nil || v < dSM {
			dSM, who = v, p.Species
		}
	}
	return dSM, who
}
