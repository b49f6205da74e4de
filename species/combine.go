package species

import "math"

// SquareRoot combines ratings from 0 to 1 into a land index in which the worst
// dominates: the worst times the square root of the product of the others
// (Khiddir 1986, parametric method of land evaluation, with the worst rating
// outside the root as the author writes it). It is 1 of none.
//
// Of the published forms it is the one that fits a sward. A plain minimum
// (Liebig) sees no difference between one limit and five; the plain product
// (Storie 1978) puts a grass with eight ratings of 0.85 into class S3, where no
// grower would; with the worst inside the root a grass fails by its own limit
// twice over.
func SquareRoot(ratings []float64) float64 {
	if len(ratings) == 0 {
		return 1
	}
	worst, at := ratings[0], 0
	for i, r := range ratings {
		if r < worst {
			worst, at = r, i
		}
	}
	product := 1.0
	for i, r := range ratings {
		if i != at {
			product *= r
		}
	}
	return worst * math.Sqrt(product)
}

// The least index of each class (Sys, Van Ranst & Debaveye 1991: 75, 50, 25 of
// 100; the split of N at half the least S3).
const leastS1, leastS2, leastS3, leastN1 = 0.75, 0.50, 0.25, 0.125

// ClassOf names an index.
func ClassOf(index float64) Class {
	switch {
	case index >= leastS1:
		return S1
	case index >= leastS2:
		return S2
	case index >= leastS3:
		return S3
	case index >= leastN1:
		return N1
	}
	return N2
}

// qualities are the land qualities, each with the places of its criteria in
// Criteria.
var qualities = func() (groups [][]int) {
	at := map[Quality]int{}
	for i, c := range Criteria {
		g, ok := at[c.Quality]
		if !ok {
			g = len(groups)
			at[c.Quality] = g
			groups = append(groups, nil)
		}
		groups[g] = append(groups[g], i)
	}
	return groups
}()

// overall is the land index of scores, one a criterion. Criteria of one quality
// are correlated, so that quality is rated by the worst of them; the qualities
// combine by [SquareRoot].
func overall(scores []float64) float64 {
	var worst [16]float64
	for g, criteria := range qualities {
		worst[g] = 1
		for _, c := range criteria {
			worst[g] = math.Min(worst[g], scores[c])
		}
	}
	return SquareRoot(worst[:len(qualities)])
}

// limiting is the place of the worst score, the first of equals.
func limiting(scores []float64) int {
	at := 0
	for i, s := range scores {
		if s < scores[at] {
			at = i
		}
	}
	return at
}
