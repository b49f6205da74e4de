package arith

import (
	"math"
	"testing"
)

func TestUnit(t *testing.T) {
	for _, c := range []struct{ x, want float64 }{{-1, 0}, {0, 0}, {0.3, 0.3}, {1, 1}, {7, 1}, {math.Inf(-1), 0}, {math.Inf(1), 1}} {
		if got := Unit(c.x); got != c.want {
			t.Errorf("Unit(%v) = %v, want %v", c.x, got, c.want)
		}
	}
}
