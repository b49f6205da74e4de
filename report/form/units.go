package form

import (
	"math"

	"swardwright/mix"
)

// US customary units in SI. The foot and the pound are exact by the agreement
// of 1959, the gallon is 231 cubic inches (NIST Handbook 44, appendix C).
const (
	metresPerFoot     = 0.3048
	mmPerInch         = 25.4
	gramsPerPound     = 453.59237
	gramsPerOunce     = gramsPerPound / 16
	gramsPerShortTon  = 2000 * gramsPerPound
	litresPerGallon   = 3.785411784
	metresPerMile     = 5280 * metresPerFoot
	m2PerSquareFoot   = metresPerFoot * metresPerFoot
	m3PerCubicFoot    = metresPerFoot * m2PerSquareFoot
	m3PerCubicYard    = 27 * m3PerCubicFoot
	lbPer1000FtPerGM2 = 1000 * m2PerSquareFoot / gramsPerPound
)

// written joins a number of sensible length to its unit.
func (f Form) written(x float64, unit string) string { return f.Figures(x, 3) + nb + unit }

// whole is for figures that are large enough to be counted in ones.
func (f Form) whole(x float64, unit string) string {
	if math.Abs(x) >= 100 {
		return f.Number(x, 0) + nb + unit
	}
	return f.written(x, unit)
}

// Length writes metres: "12.4 m", "41 ft".
func (f Form) Length(m float64) string {
	if f.us {
		return f.whole(m/metresPerFoot, "ft")
	}
	return f.whole(m, "m")
}

// Distance writes kilometres: "12 km", "7.5 mi".
func (f Form) Distance(km float64) string {
	if f.us {
		return f.whole(km*1000/metresPerMile, "mi")
	}
	return f.whole(km, "km")
}

// Area writes square metres: "84 m²", "904 sq ft".
func (f Form) Area(m2 float64) string {
	if f.us {
		return f.whole(m2/m2PerSquareFoot, "sq"+nb+"ft")
	}
	return f.whole(m2, "m²")
}

// Mass writes grams in the unit that suits: "850 g", "2.6 kg", "5.7 lb".
func (f Form) Mass(g float64) string {
	if f.us {
		if math.Abs(g) < gramsPerPound {
			return f.written(g/gramsPerOunce, "oz")
		}
		return f.whole(g/gramsPerPound, "lb")
	}
	if math.Abs(g) < 1000 {
		return f.whole(g, "g")
	}
	return f.whole(g/1000, "kg")
}

// TopUp writes what is added to a bag: "180 g of hard fescue to each kilogram", in
// the US as pounds to each pound.
func (f Form) TopUp(t mix.TopUp) string {
	if f.us {
		return f.written(t.GramsPerKG/1000, "lb") + " of " + f.GrassName(t.Species) + " to each pound"
	}
	return f.Mass(t.GramsPerKG) + " of " + f.GrassName(t.Species) + " to each kilogram"
}

// Tonnes writes tonnes of 1,000 kg, in the US as short tons of 2,000 lb.
func (f Form) Tonnes(t float64) string {
	if f.us {
		return f.whole(t*1e6/gramsPerShortTon, "tons")
	}
	return f.whole(t, "t")
}

// RateGM2 writes a weight spread over ground: "28.5 g/m²", "5.8 lb/1000 sq ft".
func (f Form) RateGM2(gM2 float64) string {
	if f.us {
		return f.written(gM2*lbPer1000FtPerGM2, "lb/1000"+nb+"sq"+nb+"ft")
	}
	return f.written(gM2, "g/m²")
}

// PerArea writes a count for each square metre or square foot: "25,000 a m²".
func (f Form) PerArea(perM2 float64) string {
	if f.us {
		return f.whole(round2(perM2*m2PerSquareFoot), "per"+nb+"sq"+nb+"ft")
	}
	return f.whole(round2(perM2), "per"+nb+"m²")
}

// round2 keeps the two or three figures that a count of seeds is good for.
func round2(x float64) float64 {
	if x < 1000 {
		return x
	}
	step := math.Pow(10, math.Floor(math.Log10(x))-2)
	return math.Round(x/step) * step
}

// Temp writes degrees Celsius, or Fahrenheit.
func (f Form) Temp(c float64) string {
	if f.us {
		return f.Number(c*9/5+32, 0) + nb + "°F"
	}
	return f.Number(c, 1) + nb + "°C"
}

// Depth writes millimetres of soil, cut or water: "25 mm", "1 in".
func (f Form) Depth(mm float64) string {
	if !f.us {
		return f.whole(mm, "mm")
	}
	in := mm / mmPerInch
	switch {
	case math.Abs(in) < 1:
		return f.Figures(in, 2) + nb + "in"
	case math.Abs(in) < 10:
		return f.Number(in, 1) + nb + "in"
	default:
		return f.Number(in, 0) + nb + "in"
	}
}

// Volume writes cubic metres: "2.4 m³", "3.1 cu yd".
func (f Form) Volume(m3 float64) string {
	if !f.us {
		return f.whole(m3, "m³")
	}
	if math.Abs(m3) < m3PerCubicYard {
		return f.written(m3/m3PerCubicFoot, "cu"+nb+"ft")
	}
	return f.whole(m3/m3PerCubicYard, "cu"+nb+"yd")
}

// Litres writes a volume of water: "120 L", "32 gal".
func (f Form) Litres(l float64) string {
	if f.us {
		return f.whole(l/litresPerGallon, "gal")
	}
	return f.whole(l, "L")
}

// perUnit is how much of the US unit one SI unit is.
type perUnit struct {
	name   string
	factor float64
}

// customary are the units of a bill of quantities and what they become in the US.
var customary = map[string]perUnit{
	"m":  {"ft", 1 / metresPerFoot},
	"m²": {"sq" + nb + "ft", 1 / m2PerSquareFoot},
	"m2": {"sq" + nb + "ft", 1 / m2PerSquareFoot},
	"m³": {"cu" + nb + "yd", 1 / m3PerCubicYard},
	"m3": {"cu" + nb + "yd", 1 / m3PerCubicYard},
	"kg": {"lb", 1000 / gramsPerPound},
	"g":  {"oz", 1 / gramsPerOunce},
	"t":  {"tons", 1e6 / gramsPerShortTon},
	"L":  {"gal", 1 / litresPerGallon},
	"l":  {"gal", 1 / litresPerGallon},
	"km": {"mi", 1000 / metresPerMile},
	"mm": {"in", 1 / mmPerInch},
}

// tidy are units as typed and as they are written.
var tidy = map[string]string{"m2": "m²", "m3": "m³", "l": "L"}

// Quantity writes a quantity of a bill in the reader's unit, number and unit
// apart so that a table can align them.
func (f Form) Quantity(q float64, unit string) (string, string) {
	if u, ok := customary[unit]; ok && f.us {
		q, unit = q*u.factor, u.name
	} else if t, ok := tidy[unit]; ok {
		unit = t
	}
	if math.Abs(q) >= 100 {
		return f.Number(q, 0), unit
	}
	return f.Figures(q, 3), unit
}
