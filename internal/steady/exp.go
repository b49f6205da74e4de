package steady

import (
	"math"
	"math/big"
)

// An octave in parts: e to the power of x is 2 to a whole number of parts, which a table knows, times e to the power
// of what is left, which a short series does. Products are rounded by conversion before they are added, so that no
// compiler fuses them.
const (
	partBits = 7
	parts    = 1 << partBits
	perUnit  = parts / math.Ln2
	// A whole number of parts times the first part of their width is exact, since that has few digits.
	widthHigh = 0x1.62e42fefap-1 / parts
	widthLow  = math.Ln2/parts - widthHigh
	// whole, added to a number, leaves no place for its fraction.
	whole = 0x1.8p52
	// expLimit is how far from 0 powers neither overflow nor lose digits.
	expLimit = 700
	// mantissaBits are those of a float64.
	mantissaBits = 52
)

// octave holds the bits of 2 to the power of each part, less what its number adds to the exponent.
var octave = func() (bits [parts]uint64) {
	step, at := big.NewFloat(2).SetPrec(100), big.NewFloat(1).SetPrec(100)
	for range partBits {
		step.Sqrt(step)
	}
	for i := range bits {
		x, _ := at.Float64()
		bits[i] = math.Float64bits(x) - uint64(i)<<(mantissaBits-partBits)
		at.Mul(at, step)
	}
	return bits
}()

// Exp is e to the power of x, the same on every machine and within two units of the last digit of math.Exp, which
// takes twice as long where many are asked for in a row.
func Exp(x float64) float64 {
	if !(x > -expLimit && x < expLimit) {
		return math.Exp(x)
	}
	n := float64(x*perUnit) + whole
	bits := math.Float64bits(n)
	n -= whole
	r := x - float64(n*widthHigh) - float64(n*widthLow)
	square := float64(r * r)
	rest := r + float64(square*(1.0/2+float64(r*(1.0/6)))) + float64(square*float64(square*(1.0/24+float64(r*(1.0/120)))))
	power := math.Float64frombits(octave[bits%parts] + bits<<(mantissaBits-partBits))
	return power + float64(power*rest)
}
