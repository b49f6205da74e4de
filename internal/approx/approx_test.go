package approx

import (
	"math"
	"testing"
)

// recorder notes whether a test would have failed.
type recorder struct {
	testing.TB
	failed bool
}

func (r *recorder) Helper()               {}
func (r *recorder) Errorf(string, ...any) { r.failed = true }

func TestNear(t *testing.T) {
	for _, c := range []struct {
		got, want, tolerance float64
		near                 bool
	}{
		{1, 1, 0, true}, {1.5, 1, 0.5, true}, {0.5, 1, 0.5, true}, {1.6, 1, 0.5, false}, {0.4, 1, 0.5, false},
		{math.NaN(), 1, 0.5, false}, {1, math.NaN(), 0.5, false}, {math.Inf(1), 1, 0.5, false},
	} {
		r := recorder{}
		Near(&r, "it", c.got, c.want, c.tolerance)
		if r.failed == c.near {
			t.Errorf("%v within %v of %v: %v, want %v", c.got, c.tolerance, c.want, !r.failed, c.near)
		}
	}
}
