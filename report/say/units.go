package say

import (
	"math"
	"strings"

	"swardwright/internal/told"
)

// perUnit is how much of the US unit one unit of a price list is.
type perUnit struct {
	name   string
	factor float64
}

// Water is the unit that water is sold by.
const Water = "m³ of water"

// customary are the units of a price list and what they become in the US.
var customary = map[string]perUnit{
	"m":   {"ft", 1 / metresPerFoot},
	"m²":  {sqFt, 1 / m2PerSqFt},
	"m2":  {sqFt, 1 / m2PerSqFt},
	"m³":  {cuYd, 1 / m3PerCuFt / cuFtPerCuYd},
	"m3":  {cuYd, 1 / m3PerCuFt / cuFtPerCuYd},
	"kg":  {"lb", 1000 / gramsPerPound},
	"g":   {"oz", 1 / gramsPerOunce},
	"t":   {"tons", 1e6 / gramsPerPound / poundsPerTon},
	"L":   {"gal", 1 / litresPerGal},
	"l":   {"gal", 1 / litresPerGal},
	"km":  {"mi", 1000 / metresPerMile},
	Water: {"1000" + nb + "gal", 1 / litresPerGal},
	"mm":  {"in", 1 / mmPerInch},
}

// tidy are units as typed and as they are written.
var tidy = map[string]string{"m2": "m²", "m3": "m³", "l": "L", Water: "m³"}

// Quantity writes a quantity of a bill in the reader's unit, number and unit
// apart so that a table can align them.
func (s *Sayer) Quantity(q float64, unit string) (string, string) {
	if u, ok := customary[unit]; ok && s.us {
		q, unit = q*u.factor, u.name
	} else if t, ok := tidy[unit]; ok {
		unit = t
	}
	number := s.Number(q, 0)
	if math.Abs(q) < 100 {
		number = s.Figures(q, 3)
	}
	return number, s.voices[0].unit(unit, q)
}

// unit is a unit of a price list in words where it is counted ("bags"), and its
// symbol where it is a measure.
func (v voice) unit(unit string, q float64) string {
	if _, ok := rooms.of(english, "count")[unit]; !ok {
		return unit
	}
	n := told.Number{X: q, Decimals: 1}
	if q == math.Trunc(q) {
		n.Decimals = 0
	}
	return strings.Trim(v.span(unit, n).frame(""), " "+nb)
}
