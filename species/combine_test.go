package species

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestSquareRoot(t *testing.T) {
	for _, c := range []struct {
		ratings []float64
		want    float64
	}{
		// Khiddir 1986: I = Rmin √(A/100 · B/100 · …) over the ratings besides the worst, worked by hand.
		{[]float64{0.95, 0.85, 0.60, 1, 0.90}, 0.60 * math.Sqrt(0.95*0.85*1*0.90)},
		{[]float64{1, 1, 1}, 1},
		{[]float64{0.5}, 0.5},
		{[]float64{0.5, 0.5}, 0.5 * math.Sqrt(0.5)},
		{[]float64{0, 1}, 0},
		{nil, 1},
	} {
		if got := SquareRoot(c.ratings); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%v: %g, want %g", c.ratings, got, c.want)
		}
	}
}

// TestSquareRootLies between Storie's product and Liebig's minimum: Rabia &
// Terribile 2013 report that it gives more than Storie's.
func TestSquareRootLies(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 2000 {
		ratings := make([]float64, 1+r.IntN(9))
		product, worst := 1.0, 1.0
		for i := range ratings {
			ratings[i] = r.Float64()
			product *= ratings[i]
			worst = math.Min(worst, ratings[i])
		}
		got := SquareRoot(ratings)
		if got < product-1e-12 || got > worst+1e-12 {
			t.Fatalf("%v: %g, want between %g and %g", ratings, got, product, worst)
		}
		r.Shuffle(len(ratings), func(i, j int) { ratings[i], ratings[j] = ratings[j], ratings[i] })
		if again := SquareRoot(ratings); math.Abs(again-got) > 1e-12 {
			t.Fatalf("%v: the order changes %g to %g", ratings, got, again)
		}
	}
}

// Class limits: Sys, Van Ranst & Debaveye 1991.
func TestClassOf(t *testing.T) {
	for _, c := range []struct {
		index float64
		want  Class
	}{{1, S1}, {0.75, S1}, {0.749, S2}, {0.5, S2}, {0.499, S3}, {0.25, S3}, {0.249, N1}, {0.125, N1}, {0.124, N2}, {0, N2}} {
		if got := ClassOf(c.index); got != c.want {
			t.Errorf("%g: %s, want %s", c.index, got, c.want)
		}
	}
}

// TestOverallCountsAQualityOnce checks that two criteria of one quality weigh no
// more than the worse of them.
func TestOverallCountsAQualityOnce(t *testing.T) {
	scores := make([]float64, len(Criteria))
	for i := range scores {
		scores[i] = 1
	}
	var winter []int
	for i, c := range Criteria {
		if c.Quality == QualityWinter {
			winter = append(winter, i)
		}
	}
	if len(winter) < 2 {
		t.Fatal("winter has no two criteria")
	}
	scores[winter[0]] = 0.6
	one := overall(scores)
	scores[winter[1]] = 0.6
	if both := overall(scores); both != one || math.Abs(one-0.6) > 1e-12 {
		t.Errorf("one limit %g, two of the same quality %g, want 0.6", one, both)
	}
}
