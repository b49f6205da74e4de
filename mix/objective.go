package mix

import (
	"math"

	"swardwright/mix/sward"
	"swardwright/species"
)

// weights say what a mixture is judged by: the score is the weighted mean of
// figures that each run from 0 to 1. What a lawn is for decides how much each
// counts. They are our judgement of what practice asks of a lawn, set once and
// checked against published mixtures, and stand nowhere else.
type weights struct {
	cover     float64 // of sown grass, third season on
	badYear   float64 // the same in the worst tenth of the years
	early     float64 // after eight weeks of growth: against weeds and wash
	evenness  float64 // of look: leaves of one width
	fineness  float64 // of look: narrow leaves
	diversity float64 // against a pest or disease that takes one grass, which the model doesn't follow
	cost      float64 // of seed
}

var gradeWeights = map[species.Grade]weights{
	species.Ornamental:  {cover: 0.32, badYear: 0.20, early: 0.08, evenness: 0.08, fineness: 0.22, diversity: 0.08, cost: 0.02},
	species.Utility:     {cover: 0.40, badYear: 0.22, early: 0.16, evenness: 0.04, fineness: 0.04, diversity: 0.12, cost: 0.02},
	species.HardWearing: {cover: 0.40, badYear: 0.25, early: 0.20, evenness: 0.02, fineness: 0.00, diversity: 0.11, cost: 0.02},
	species.Extensive:   {cover: 0.42, badYear: 0.28, early: 0.06, evenness: 0.02, fineness: 0.04, diversity: 0.14, cost: 0.04},
}

const (
	// leafSpread is the standard deviation of ln(leaf width) at which a sward looks
	// uneven: two grasses, half and half, of which one has leaves three times as wide.
	leafSpread = 0.55
	// dearSeed is a seed cost that uses up its weight: 35 g/m² at the mean price.
	dearSeed = 35.0
)

// look is how even and how fine a sward of these shares looks, each 0 to 1: even
// when its leaves are of one width, fine when none is wider than the grade bears.
func look(shares, leafMM []float64, widest float64) (evenness, fineness float64) {
	var total, mean, square, fine float64
	for g, p := range shares {
		if p == 0 || leafMM[g] <= 0 {
			continue
		}
		l := math.Log(leafMM[g])
		total += p
		mean += p * l
		square += p * l * l
		over := max(0, leafMM[g]/widest-1)
		fine += p / (1 + over*over)
	}
	if total == 0 {
		return 0, 0
	}
	mean /= total
	variance := max(0, square/total-mean*mean)
	return math.Exp(-variance / (leafSpread * leafSpread)), fine / total
}

// diversity is Simpson's index of the wanted grasses: the chance that two of their
// shoots picked at random are of different grasses. A pest that takes one grass
// takes its share of the sward, so the expected gap falls as the index rises.
func diversity(shares, worth []float64) float64 {
	var total, square float64
	for g, p := range shares {
		if worth[g] == 1 {
			total += p
			square += p * p
		}
	}
	if total == 0 {
		return 0
	}
	return 1 - square/(total*total)
}

// score is the objective of the search.
func (w weights) score(o *sward.Outcome, evenness, fineness, diverse, seedCost float64) float64 {
	return w.cover*o.Expected + w.badYear*o.BadYear + w.early*o.Early +
		w.evenness*evenness + w.fineness*fineness + w.diversity*diverse +
		w.cost*(1-min(1, seedCost/dearSeed))
}
