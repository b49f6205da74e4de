// Package approx holds a figure to one that is known from elsewhere: for tests.
package approx

import (
	"math"
	"testing"
)

// Near asks that a figure lie within so much of the one wanted; no number never does.
func Near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.6g, want %.6g ± %g", what, got, want, tolerance)
	}
}
