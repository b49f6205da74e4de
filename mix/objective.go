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
	young     float64 // the same in the first two seasons
	badYear   float64 // the same in the worst tenth of the years
	early     float64 // after eight weeks of growth: against weeds and wash
	evenness  float64 // of look: leaves of one width
	fineness  float64 // of look: leaves as narrow and a sward as close as the grade asks
	constancy float64 // the sward of the first season is that of the later ones
	diversity float64 // against a pest or disease that takes one grass, which the model doesn't follow
	cost      float64 // of seed
}

var gradeWeights = map[species.Grade]weights{
	species.Ornamental:  {cover: 0.26, young: 0.06, badYear: 0.16, early: 0.09, evenness: 0.08, fineness: 0.20, constancy: 0.06, diversity: 0.07, cost: 0.02},
	species.Utility:     {cover: 0.28, young: 0.11, badYear: 0.18, early: 0.13, evenness: 0.04, fineness: 0.04, constancy: 0.10, diversity: 0.10, cost: 0.02},
	species.HardWearing: {cover: 0.29, young: 0.13, badYear: 0.20, early: 0.14, evenness: 0.02, fineness: 0.00, constancy: 0.10, diversity: 0.10, cost: 0.02},
	species.Extensive:   {cover: 0.34, young: 0.08, badYear: 0.24, early: 0.05, evenness: 0.02, fineness: 0.04, constancy: 0.09, diversity: 0.12, cost: 0.02},
}

// eachMore is what every grass beyond the first must bring to the score: each is
// one more lot to buy and one more thing to go wrong. Two or three grasses are
// enough on an even site (Alaska Plant Materials Center; University of Vermont).
const eachMore = 0.004

const (
	// leafSpread is the standard deviation of ln(leaf width) at which a sward looks
	// uneven: two grasses, half and half, of which one has leaves three times as wide.
	leafSpread = 0.55
	// dearSeed is a seed cost that uses up its weight: 35 g/m² at the mean price.
	dearSeed = 35.0
)

// look is how even a sward of these shares looks, by the spread of its leaf
// widths, and how well its grasses each have the look of the grade, 0 to 1.
func look(shares, leafMM, fit []float64) (evenness, fineness float64) {
	var total, mean, square, fine float64
	for g, p := range shares {
		if p == 0 || leafMM[g] <= 0 {
			continue
		}
		l := math.Log(leafMM[g])
		total += p
		mean += p * l
		square += p * l * l
		fine += p * fit[g]
	}
	if total == 0 {
		return 0, 0
	}
	mean /= total
	variance := max(0, square/total-mean*mean)
	return math.Exp(-variance / (leafSpread * leafSpread)), fine / total
}

// diversity is Rao's quadratic entropy of the wanted grasses: the mean difference
// between two of their shoots picked at random, 0 for one grass, akin for two of
// one group, which share their pests, and 1 for two of different groups. A pest that
// takes one kind takes its share of the sward, so the expected gap falls as the
// index rises.
func diversity(shares, worth []float64, group []string) float64 {
	var total, alike float64
	for g, p := range shares {
		if worth[g] < 1 || p == 0 {
			continue
		}
		total += p
		for h, q := range shares {
			switch {
			case worth[h] < 1:
			case g == h:
				alike += p * q
			case group[g] == group[h]:
				alike += (1 - akin) * p * q
			}
		}
	}
	if total == 0 {
		return 0
	}
	return 1 - alike/(total*total)
}

// akin is the difference between two grasses of one group (our judgement).
const akin = 0.4

// score is the objective of the search.
func (w weights) score(o *sward.Outcome, evenness, fineness, diverse, seedCost float64) float64 {
	return w.cover*o.Expected + w.young*o.Young + w.badYear*o.BadYear + w.early*o.Early +
		w.evenness*evenness + w.fineness*fineness + w.constancy*o.Constancy + w.diversity*diverse +
		w.cost*(1-min(1, seedCost/dearSeed))
}
