// Package arith is the little arithmetic that several rooms share.
package arith

// Unit is x brought into the range from 0 to 1.
func Unit(x float64) float64 {
	switch {
	case x <= 0:
		return 0
	case x >= 1:
		return 1
	}
	return x
}

// Least is the lesser of two figures, for the loops over days: the built-in min also heeds NaN
// and the sign of 0, and where each day waits for the one before that takes half of the time.
func Least(a, b float64) float64 {
	if b < a {
		return b
	}
	return a
}

// Most is the greater of two figures in the same way.
func Most(a, b float64) float64 {
	if b > a {
		return b
	}
	return a
}

// Ramp runs from 0 at from to 1 at full, whichever is the greater.
func Ramp(x, from, full float64) float64 { return Unit((x - from) / (full - from)) }
