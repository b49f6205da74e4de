package say

import (
	"math"
	"strings"

	"golang.org/x/text/number"

	"swardwright/internal/steady"
)

// Number writes x with exactly the given decimals, of which negative ones are
// whole tens, hundreds and so on. What is not a number is an en dash.
func (s *Sayer) Number(x float64, decimals int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "–"
	}
	if math.Abs(x) < 1e15*math.Pow10(-decimals) {
		x = steady.Round(x, decimals)
	}
	return s.printer.Sprint(number.Decimal(x, number.Scale(max(decimals, 0))))
}

// Figures writes x to the given count of significant figures, without trailing
// noughts after the decimal sign.
func (s *Sayer) Figures(x float64, figures int) string { return s.Number(x, significant(figures)(x)) }

// Range joins two figures already written, for labels: "12–21". Equal ends are
// written once.
func (s *Sayer) Range(low, high string) string {
	if low == high {
		return low
	}
	return low + "–" + high
}

// Percent writes a share of 0 to 1 as whole percent.
func (s *Sayer) Percent(share float64) string {
	if math.IsNaN(share) || math.IsInf(share, 0) {
		return "–"
	}
	return s.printer.Sprint(number.Percent(steady.Round(share, 2), number.Scale(0)))
}

// percentSign is what stands after a number of percent, with the space that the
// language sets before it.
func (s *Sayer) percentSign() string { return strings.TrimPrefix(s.Percent(0.5), "50") }
