// Package arith is the little arithmetic that several rooms share.
package arith

// Unit is x brought into the range from 0 to 1.
func Unit(x float64) float64 { return min(1, max(0, x)) }

// Ramp runs from 0 at from to 1 at full, whichever is the greater.
func Ramp(x, from, full float64) float64 { return Unit((x - from) / (full - from)) }
