package form

import (
	"math"

	"swardwright/sowing/money"
)

// signs are the currency signs understood without their country; any other
// currency goes by its ISO 4217 code.
var signs = map[string]string{"EUR": "€", "GBP": "£"}

// homeSigns are signs that several countries share: used only for readers at
// home, told by the language or, for the dollar, by the region.
var homeSigns = map[string]map[string]string{
	"sv": {"SEK": "kr"}, "nb": {"NOK": "kr"}, "nn": {"NOK": "kr"}, "da": {"DKK": "kr."}, "is": {"ISK": "kr."},
	"cs": {"CZK": "Kč"}, "pl": {"PLN": "zł"}, "hu": {"HUF": "Ft"}, "tr": {"TRY": "₺"}, "uk": {"UAH": "₴"},
	"US": {"USD": "$"}, "CA": {"CAD": "$"}, "AU": {"AUD": "$"}, "NZ": {"NZD": "$"},
}

// signFirst are the languages of the table in locale.go that write the sign
// before the sum, with the space between them (CLDR 40, currencyFormats).
var signFirst = map[string]string{"en": "", "nl": nb, "nb": nb, "tr": ""}

// Money writes a sum with its currency: "£412.60", "412,60 €".
func (f Form) Money(a money.Amount) string {
	return f.signed(a.Currency, a.Minor < 0, func(sign int64) string {
		return f.Sum(money.Amount{Minor: sign * a.Minor, Currency: a.Currency})
	})
}

// MoneyRound writes a sum to whole units of its currency, for charts and for
// figures that are no better than that.
func (f Form) MoneyRound(a money.Amount) string {
	whole := math.Round(float64(a.Minor) / math.Pow10(money.Digits(a.Currency)))
	return f.signed(a.Currency, whole < 0, func(sign int64) string {
		return f.Number(float64(sign)*whole, 0)
	})
}

// MoneyPerArea writes what a sum comes to for each square metre or square foot.
func (f Form) MoneyPerArea(a money.Amount, areaM2 float64) string {
	if areaM2 <= 0 {
		return "–"
	}
	unit := "m²"
	if f.us {
		areaM2, unit = areaM2/m2PerSquareFoot, "sq"+nb+"ft"
	}
	each := money.Amount{Minor: int64(math.Round(float64(a.Minor) / areaM2)), Currency: a.Currency}
	return f.Money(each) + "/" + unit
}

// Sum writes a sum without its currency, for columns headed by it.
func (f Form) Sum(a money.Amount) string {
	d := money.Digits(a.Currency)
	return f.Number(float64(a.Minor)/math.Pow10(d), d)
}

// Rate writes a price per unit without its currency, in the reader's unit: with
// the decimals of the currency, and up to two more where the price is small and
// has them.
func (f Form) Rate(r money.Rate, unit string) string {
	x, _ := r.Float64()
	if u, ok := customary[unit]; ok && f.us {
		x /= u.factor
	}
	d := money.Digits(r.Currency)
	most := d + 2
	for size := 1.0; most > d && math.Abs(x) >= size; size *= 10 {
		most--
	}
	for ; d < most; d++ {
		scale := math.Pow10(d)
		if math.Abs(math.Round(x*scale)/scale-x) < 5e-3/scale {
			break
		}
	}
	return f.Number(x, d)
}

// Currency is the sign or code that heads a column of sums.
func (f Form) Currency(code string) string { return f.sign(code) }

// signed sets the currency's sign on the side the language has it.
func (f Form) signed(code string, negative bool, number func(sign int64) string) string {
	sign := f.sign(code)
	gap, first := signFirst[f.base]
	switch {
	case sign == "":
		return number(1)
	case !first:
		return number(1) + nb + sign
	case sign == code: // a code stands apart from its number
		gap = nb
	}
	if negative {
		return "−" + sign + gap + number(-1)
	}
	return sign + gap + number(1)
}

func (f Form) sign(code string) string {
	if s, ok := homeSigns[f.base][code]; ok {
		return s
	}
	region := f.region
	if region == "" && f.us {
		region = "US"
	}
	if s, ok := homeSigns[region][code]; ok {
		return s
	}
	if s, ok := signs[code]; ok {
		return s
	}
	return code
}
