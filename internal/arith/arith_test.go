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

func TestRamp(t *testing.T) {
	for _, c := range []struct{ x, from, full, want float64 }{{70, 60, 90, 1.0 / 3}, {50, 60, 90, 0}, {95, 60, 90, 1}, {0.35, 0.45, 0.25, 0.5}, {0.5, 0.45, 0.25, 0}, {0.1, 0.45, 0.25, 1}} {
		if got := Ramp(c.x, c.from, c.full); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("Ramp(%v, %v, %v) = %v, want %v", c.x, c.from, c.full, got, c.want)
		}
	}
}
