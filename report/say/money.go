package say

import (
	"math"
	"strings"

	"github.com/bojanz/currency"

	"swardwright/internal/steady"
	"swardwright/sowing/money"
)

// Money writes a sum with its currency: "£412.60", "412,60 €".
func (s *Sayer) Money(a money.Amount) string {
	d := money.Digits(a.Currency)
	return s.money(a.Currency, float64(a.Minor)/math.Pow10(d), d)
}

// MoneyRound writes a sum to whole units of its currency, for charts and for
// figures that are no better than that.
func (s *Sayer) MoneyRound(a money.Amount) string {
	return s.money(a.Currency, float64(a.Minor)/math.Pow10(money.Digits(a.Currency)), 0)
}

// moneyPerArea writes what a sum comes to for each square metre or square foot.
func (s *Sayer) moneyPerArea(a money.Amount, areaM2 float64) string {
	if areaM2 <= 0 {
		return "–"
	}
	unit := "m²"
	if s.us {
		areaM2, unit = areaM2/m2PerSqFt, sqFt
	}
	each := money.Amount{Minor: int64(steady.Round(float64(a.Minor)/areaM2, 0)), Currency: a.Currency}
	return s.Money(each) + "/" + unit
}

// Sum writes a sum without its currency, for columns headed by it.
func (s *Sayer) Sum(a money.Amount) string {
	d := money.Digits(a.Currency)
	return s.Number(float64(a.Minor)/math.Pow10(d), d)
}

// Rate writes a price per unit without its currency, in the reader's unit: with
// the decimals of the currency, and up to two more where the price is small and
// has them.
func (s *Sayer) Rate(r money.Rate, unit string) string {
	x, _ := r.Float64()
	if u, ok := customary[unit]; ok && s.us {
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
	return s.Number(x, d)
}

// Currency is the sign or code that heads a column of sums.
func (s *Sayer) Currency(code string) string {
	sign, ok := currency.GetSymbol(code, s.locale)
	if !ok {
		return code
	}
	return sign
}

// money sets a currency's sign where the language has it: the pattern is what the
// library of forms makes of one unit.
func (s *Sayer) money(code string, x float64, decimals int) string {
	whole := math.Round(x*math.Pow10(decimals)) / math.Pow10(decimals)
	pattern := "1"
	if whole < 0 {
		pattern = "-1"
	}
	one, err := currency.NewAmount(pattern, code)
	if err != nil {
		return s.Number(x, decimals)
	}
	form := currency.NewFormatter(s.locale)
	form.MinDigits, form.MaxDigits = 0, 0
	return strings.Replace(form.Format(one), "1", s.Number(math.Abs(whole), decimals), 1)
}
