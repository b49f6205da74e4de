package steady

import (
	"math"
	"testing"
)

// What lies on an edge is rounded alike, however its last digits came out.
func TestRound(t *testing.T) {
	for _, c := range []struct {
		x      float64
		digits int
		want   float64
	}{
		{83.75, 1, 83.8}, {1.005, 2, 1.01}, {0.7505, 3, 0.751}, {2.5, 0, 3}, {-2.5, 0, -3}, {1250, -2, 1300}, {0.1 + 0.2, 1, 0.3}, {-0.04, 1, 0}, {1e300, 2, 1e300},
	} {
		for _, last := range []float64{0, -3, 3} { // units in the last place
			x := c.x + last*math.Abs(c.x)*0x1p-52
			if got := Round(x, c.digits); math.Abs(got-c.want) > math.Abs(c.want)*1e-14 {
				t.Errorf("%v to %d digits is %v, want %v", x, c.digits, got, c.want)
			}
		}
	}
	if !math.IsNaN(Round(math.NaN(), 2)) || !math.IsInf(Round(math.Inf(1), 2), 1) {
		t.Error("what is no number is rounded to one")
	}
	if math.Signbit(Round(-0.01, 1)) {
		t.Error("a negative nought")
	}
}

func FuzzFigure(f *testing.F) {
	for _, x := range []float64{0, 1.0 / 3, 0.7505, 123456.789, 1e9 + 0.5, -4e15} {
		f.Add(x)
	}
	f.Fuzz(func(t *testing.T, x float64) {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return
		}
		got := Figure(x)
		if math.Abs(got-x) > 1e-9*max(1, math.Abs(x)) {
			t.Errorf("%v is settled at %v", x, got)
		}
		if again := Figure(got); again != got {
			t.Errorf("%v is settled at %v, and that at %v", x, got, again)
		}
	})
}
