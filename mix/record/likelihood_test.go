package record

import (
	"math"
	"testing"
)

// TestWilson: the intervals of Newcombe 1998, Statistics in Medicine 17:857-872 (from memory).
func TestWilson(t *testing.T) {
	for _, c := range []struct {
		k, n      int
		low, high float64
	}{{81, 263, 0.2553, 0.3662}, {15, 148, 0.0624, 0.1605}, {0, 20, 0, 0.1611}, {1, 29, 0.0061, 0.1718}} {
		if got := wilson(c.k, c.n, 1); math.Abs(got[0]-c.low) > 1e-4 || math.Abs(got[1]-c.high) > 1e-4 {
			t.Errorf("%d of %d: %.4f, want %.4f to %.4f", c.k, c.n, got, c.low, c.high)
		}
	}
}

// TestBetaBinomial against the closed forms of the distribution, reckoned by hand for
// Beta(8, 2) and a hundred points.
func TestBetaBinomial(t *testing.T) {
	const n, a, b = 100, 8.0, 2.0
	design := (n + a + b) / (1 + a + b) // of which the concentration is a + b
	if got := binomial(71, n, 0.8, design); math.Abs(got+3.985131) > 1e-5 {
		t.Errorf("log evidence %.6f, want -3.985131", got)
	}
	var sum, mean, square float64
	for k := range n + 1 {
		p := math.Exp(binomial(k, n, 0.8, design))
		sum += p
		mean += p * float64(k)
		square += p * float64(k*k)
	}
	if math.Abs(sum-1) > 1e-9 || math.Abs(mean-80) > 1e-6 || math.Abs(square-mean*mean-160) > 1e-5 {
		t.Errorf("sum %.6f, mean %.4f, variance %.4f; want 1, 80, 160", sum, mean, square-mean*mean)
	}
	for k, want := range map[int]float64{71: 0.265414, 40: 0.005792, 30: 0.000853} {
		if got := unlikely(k, n, []float64{0.8}, design); math.Abs(got-want) > 1e-5 {
			t.Errorf("surprise of %d is %.6f, want %.6f", k, got, want)
		}
	}
}

// TestMultinomial: kinds that are pooled add up exactly, and the design effect is what the
// variance is more by than that of points laid apart.
func TestMultinomial(t *testing.T) {
	design := func(n, conc float64) float64 { return (n + conc) / (1 + conc) }
	if got := multinomial([]int{41, 24, 6, 29}, []float64{0.4, 0.3, 0.2, 0.1}, design(100, 10)); math.Abs(got+11.860058) > 1e-5 {
		t.Errorf("log evidence %.6f, want -11.860058", got)
	}
	if got := multinomial([]int{41, 30, 29}, []float64{0.4, 0.5, 0.1}, design(100, 10)); math.Abs(got+8.845256) > 1e-5 {
		t.Errorf("pooled: log evidence %.6f, want -8.845256", got)
	}
	for _, d := range []float64{1, 1.1, 2.2, 10.9} {
		var mean, square, sum float64
		for k := range 101 {
			p := math.Exp(binomial(k, 100, 0.3, d))
			sum += p
			mean += p * float64(k)
			square += p * float64(k*k)
		}
		if v := (square - mean*mean) / 21; math.Abs(v-d) > 1e-6*d || math.Abs(sum-1) > 1e-9 {
			t.Errorf("design effect %.1f: the variance is %.4f times that of points apart", d, v)
		}
	}
	if binomial(0, 0, 0.5, 2) != 0 {
		t.Error("a count of no points tells something")
	}
}

// TestDesign: one frame of a hundred points is worth about nine (simulated on patches 0.3 m
// wide, and as sampling by clusters has it: 1 + (m - 1) of the kinship), knots half a metre apart all but all of them.
func TestDesign(t *testing.T) {
	for _, c := range []struct {
		seen      Seen
		low, high float64 // points it is worth
	}{
		{Seen{Points: 100, Layout: OnString}, 85, 100}, {Seen{Points: 100, Layout: Steps}, 85, 100}, {Seen{Points: 100, Layout: OnFrame}, 8, 10},
		{Seen{Points: 100, Layout: Throws}, 40, 50}, {Seen{Points: 100, Layout: OnFrame, Each: 25}, 28, 32}, {Seen{Points: 100}, 50, 50},
		{Seen{Points: 1, Layout: OnFrame}, 1, 1}, {Seen{Points: 2, Layout: OnFrame}, 1, 2}, {Seen{Points: 10000, Layout: OnFrame}, 1, 11},
	} {
		if got := float64(c.seen.Points) / c.seen.design(); got < c.low-1e-9 || got > c.high+1e-9 {
			t.Errorf("%d points, %s, %d at once, are worth %.2f", c.seen.Points, c.seen.Layout, c.seen.Each, got)
		}
	}
}

func TestByEye(t *testing.T) {
	sum := 0.0
	for p := 0; p <= 100; p += 10 {
		sum += math.Exp(byEye(float64(p), 0.6, 0))
	}
	if math.Abs(sum-1) > 1e-9 {
		t.Errorf("chances of the tens add to %.6f", sum)
	}
	if byEye(70, 0.7, 0) < byEye(70, 0.4, 0) || byEye(70, 0.5, 1) < byEye(70, 0.5, -1) {
		t.Error("the likelier is not the nearer, or an observer's bias goes the wrong way")
	}
}

func TestGuarded(t *testing.T) {
	if got := guarded(-1e6, -3, flat); math.Abs(got-(-3+math.Log(flat))) > 1e-9 {
		t.Errorf("one wrong count costs %.3f", got)
	}
	if got := guarded(-1, -50, flat); math.Abs(got-(-1+math.Log(1-flat))) > 1e-9 {
		t.Errorf("a right one costs %.3f", got)
	}
}
