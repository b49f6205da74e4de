package mix

import (
	"math"

	"swardwright/internal/steady"
	"swardwright/mix/sward"
	"swardwright/species"
)

// weights say what a mixture is judged by: the score is the weighted mean of
// figures that each run from 0 to 1. What a lawn is for decides how much each
// counts. They are our judgement of what practice asks of a lawn, set once and
// checked against published mixtures, and stand nowhere else.
type weights struct {
	cover     float64 // of sown grass, third season on: autumn, spring and summer's low
	young     float64 // the same in the first two seasons
	badYear   float64 // the same in the worst tenth of the years
	early     float64 // after eight weeks of growth: against weeds and wash
	evenness  float64 // of look: leaves of one width
	fineness  float64 // of look: leaves as narrow and a sward as close as the grade asks
	thrift    float64 // the seed sown is the sward that grows, and not a filler that dies out
	diversity float64 // against a pest or disease that takes one grass, which the model doesn't follow
	cost      float64 // of seed
}

var gradeWeights = map[species.Grade]weights{
	species.Ornamental:  {cover: 0.29, young: 0.07, badYear: 0.19, early: 0.06, evenness: 0.10, fineness: 0.20, thrift: 0.04, diversity: 0.03, cost: 0.02},
	species.Utility:     {cover: 0.33, young: 0.11, badYear: 0.22, early: 0.08, evenness: 0.03, fineness: 0.05, thrift: 0.12, diversity: 0.04, cost: 0.02},
	species.HardWearing: {cover: 0.35, young: 0.12, badYear: 0.23, early: 0.09, evenness: 0.02, fineness: 0.01, thrift: 0.12, diversity: 0.04, cost: 0.02},
	species.Extensive:   {cover: 0.38, young: 0.10, badYear: 0.24, early: 0.04, evenness: 0.02, fineness: 0.04, thrift: 0.11, diversity: 0.04, cost: 0.03},
}

// eachMore is what every grass beyond the first must bring to the score: each is
// one more lot to buy and one more thing to go wrong. Two or three grasses are
// enough on an even site (Alaska Plant Materials Center; University of Vermont).
const eachMore = 0.004

// uneven is what a lack of evenness under the grade's least costs, a unit of it.
const uneven = 0.3

const (
	// leafSpread is the standard deviation of ln(leaf width) at which a sward looks
	// uneven: two grasses, half and half, of which one has leaves seven times as wide.
	leafSpread = 1.0
	// paleContrast is what half a sward of pale grass takes from its evenness.
	paleContrast = 0.8
	// enoughEarly is the cover after eight weeks that keeps weeds and wash away: more
	// is no better (common practice, no published source).
	enoughEarly = 0.6
	// dearSeed is a seed cost that uses up its weight: 60 g/m² at the price of ryegrass.
	dearSeed = 60.0
)

// look is how even a sward of these shares looks, by the spread of its leaf
// widths and by its pale patches, and how well its grasses each have the look of
// the grade, 0 to 1.
func look(shares, leafMM, pale, fit []float64) (evenness, fineness float64) {
	var total, mean, square, fine, light float64
	for g, p := range shares {
		if p == 0 || leafMM[g] <= 0 {
			continue
		}
		l := math.Log(leafMM[g])
		total += p
		mean += p * l
		square += p * l * l
		fine += p * fit[g]
		light += p * pale[g]
	}
	if total == 0 {
		return 0, 0
	}
	mean /= total
	light /= total
	variance := max(0, square/total-mean*mean)
	patchy := paleContrast * 4 * light * (1 - light)
	return steady.Exp(-variance/(leafSpread*leafSpread)) * (1 - patchy), fine / total
}

// thrift is the part of the seed, by weight, that its grass's share of the sward
// bears out.
func thrift(parts []Part, pool []int, life []float64) float64 {
	var total, kept float64
	for i, p := range parts {
		total += p.Percent
		kept += min(p.Percent, 100*life[pool[i]])
	}
	return kept / max(1, total)
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

// enoughDiverse is the index from which more is no better: a quarter of the sward of
// another group (our judgement).
const enoughDiverse = 0.4

// akin is the difference between two grasses of one group (our judgement).
const akin = 0.4

// score is the objective of the search.
func (w weights) score(o *sward.Outcome, evenness, fineness, thrift, diverse, seedCost float64) float64 {
	return w.cover*(2*o.Expected+o.Summer)/3 + w.young*o.Young + w.badYear*o.BadYear + w.early*min(1, o.Early/enoughEarly) +
		w.evenness*evenness + w.fineness*fineness + w.thrift*thrift + w.diversity*min(1, diverse/enoughDiverse) +
		w.cost*(1-min(1, seedCost/dearSeed))
}
