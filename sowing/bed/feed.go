package bed

import (
	"fmt"
	"math"

	"swardwright/mix"
	"swardwright/species"
)

// LimeFactor is the lime that lifts the pH of a soil by 1, t/ha of ground
// limestone, worked into 200 mm; grass: left on an established sward, which is
// reckoned to 150 mm. Defra/AHDB RB209, from memory.
func LimeFactor(clayPercent, organicPercent float64, grass bool) float64 {
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

// LimeGM2 is the lime that lifts a soil from one pH to another by a factor in t/ha
// a unit, as material of the given calcium carbonate equivalent in percent.
func LimeGM2(from, to, factor, ccePercent float64) float64 {
	return math.Max(to-from, 0) * factor * 100 * 100 / ccePercent // 1 t/ha is 100 g/m²
}

const (
	// limeBelow: common practice, no published source: lime is not worth
	// considering until the pH falls well below 6.
	limeBelow = 5.5
	// limeMost is the most in one go on grass, g/m²: 100 lb a 1000 square feet,
	// Penn State Extension, lime recommendations for turf.
	limeMost      = 488
	groundLimeCCE = 95 // ground limestone as sold; from memory
)

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

// lime gives the answer on lime and its amount.
func lime(w Want) (answer string, gM2 float64) {
	soil := w.Site.Soil
	low, high := wantedPH(w.Parts)
	switch {
	case low == 0:
		return "No lime: nothing is sown.", 0
	case !soil.PHKnown:
		return fmt.Sprintf("No lime: the soil has not been tested. This mixture is content from pH %.1f to %.1f; have pH measured in water (a laboratory, or a meter checked with buffers) before any lime is bought. Moss alone is no sign that lime is lacking.", low, high), 0
	case soil.PH > high:
		return fmt.Sprintf("No lime: pH %.1f is above what this mixture prefers (%.1f to %.1f); lime would make it worse.", soil.PH, low, high), 0
	case soil.PH >= low:
		return fmt.Sprintf("No lime: pH %.1f is within what this mixture prefers (%.1f to %.1f).", soil.PH, low, high), 0
	case soil.PH >= limeBelow:
		return fmt.Sprintf("No lime: pH %.1f is a little under the %.1f that this mixture prefers, but lime is not worth considering until it falls well below 6 (here: under %.1f). Test again in three years.", soil.PH, low, limeBelow), 0
	}
	grass := w.Kind != New
	factor := LimeFactor(soil.ClayPercent, soil.OrganicPercent, grass)
	gM2 = math.Round(LimeGM2(soil.PH, low, factor, groundLimeCCE)/10) * 10
	answer = fmt.Sprintf("Lime: pH %.1f is well below the %.1f that this mixture prefers. %.0f g/m² of ground limestone (%d %% calcium carbonate equivalent; %g t/ha a pH unit for this texture, RB209) ",
		soil.PH, low, gM2, groundLimeCCE, factor)
	switch {
	case !grass:
		answer += "mixed into the top 150 mm before sowing."
	case gM2 > limeMost:
		answer += fmt.Sprintf("in %d equal parts four to six months apart: never more than %d g/m² at once on grass.", int(math.Ceil(gM2/limeMost)), limeMost)
	default:
		answer += "in one go, in autumn or winter on dry grass, never with the feed."
	}
	return answer + " Let a laboratory confirm it by the buffer method before spreading.", gM2
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

// starter is the feed at sowing.
func starter(w Want) (n, p2o5, k2o float64) {
	if w.Use.Feeding == "none" || w.Use.Grade == species.Extensive && w.Use.Feeding == "" || w.Kind == Overseed {
		return 0, 0, 0
	}
	n = 4
	if w.Use.Grade == species.Ornamental || w.Kind == Renovate {
		n = 2.5
	}
	if w.Kind == Renovate {
		return n, 0, 0
	}
	return n, starterByTest(w.Site.Soil.Phosphorus), starterByTest(w.Site.Soil.Potassium)
}

// grade is a fertiliser by its declared percentages.
type grade struct{ n, p2o5, k2o float64 }

// grades that any merchant has in some form.
var grades = []grade{{5, 10, 10}, {6, 9, 6}, {10, 10, 10}, {12, 5, 5}, {12, 0, 12}, {5, 10, 0}, {5, 0, 10}, {20, 0, 0}}

func (g grade) String() string { return fmt.Sprintf("%g-%g-%g", g.n, g.p2o5, g.k2o) }

// ProductGM2 is the fertiliser that carries an amount of a nutrient.
func ProductGM2(nutrientGM2, percent float64) float64 { return nutrientGM2 * 100 / percent }

// gradeFor picks the grade that, given for its nitrogen, comes nearest in the
// rest, and how much of it to give.
func gradeFor(n, p2o5, k2o float64) (grade, float64) {
	var best grade
	var bestG, least float64
	for i, g := range grades {
		grams := ProductGM2(n, g.n)
		miss := math.Abs(grams*g.p2o5/100-p2o5) + math.Abs(grams*g.k2o/100-k2o)
		if i == 0 || miss < least {
			best, bestG, least = g, grams, miss
		}
	}
	return best, bestG
}

// saltLimit is the least salt at which a grass of the mixture starts to suffer.
func saltLimit(parts []mix.Part) (dSM float64, who *species.Species) {
	for _, p := range parts {
		if v := p.Species.Values[species.SaltDSM].Best; who == nil || v < dSM {
			dSM, who = v, p.Species
		}
	}
	return dSM, who
}
