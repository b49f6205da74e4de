// Package steady rounds, and takes powers, so that every machine does alike.
//
// A processor may add a product without rounding it first, and its functions may differ
// in the last digit. Such differences, of some 1e-15, decide nothing by themselves; but
// figures that are simple fractions (a share of two hundred years, an area of whole
// centimetres) lie exactly on the edge between two roundings, or are exactly as good as
// another, and then the last digit decides. So what is compared or rounded is first taken
// to a grid far finer than anything that is shown and far coarser than such differences.
package steady

import "math"

// grid is the step of a settled figure below one million, and of its size beyond.
const grid = 1e9

// Figure settles a figure: to a billionth, or for large ones to a billionth of their size
// by powers of ten.
func Figure(x float64) float64 {
	scale := grid
	for a := math.Abs(x); a >= 1e6 && scale > 1; a /= 10 {
		scale /= 10
	}
	if r := math.Round(x*scale) / scale; !math.IsInf(r, 0) && !math.IsNaN(r) {
		return r
	}
	return x
}

// Round rounds half away from zero to so many decimals, or with negative digits to whole
// tens, hundreds and so on.
func Round(x float64, digits int) float64 {
	scale := math.Pow10(digits)
	if digits < 0 {
		whole := math.Pow10(-digits)
		return math.Round(Figure(x/whole)) * whole
	}
	if r := math.Round(Figure(x*scale)) / scale; !math.IsInf(r, 0) && !math.IsNaN(r) {
		return r + 0 // no negative nought
	}
	return x
}

// Figures settles every one of some figures, in place.
func Figures(xs []float64) {
	for i, x := range xs {
		xs[i] = Figure(x)
	}
}
