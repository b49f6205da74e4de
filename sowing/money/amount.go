package money

import (
	"fmt"
	"math"

	"github.com/bojanz/currency"
	"github.com/shopspring/decimal"
)

// Amount is a sum of money: whole minor units of one currency, never a float.
type Amount struct {
	Minor    int64
	Currency string // ISO 4217
}

// Rate is a price per unit, exact.
type Rate struct {
	decimal.Decimal
	Currency string
}

// CheckCurrency tells whether a code is one that can be billed in.
func CheckCurrency(code string) error {
	if code == "" || !currency.IsValid(code) {
		return fmt.Errorf("currency: %q is no ISO 4217 currency; give three capital letters such as EUR, GBP or USD", code)
	}
	return nil
}

// usualDigits are the decimal places taken where a currency is not known.
const usualDigits = 2

// Digits is the number of decimal places of a currency's minor unit.
func Digits(code string) int {
	if d, ok := currency.GetDigits(code); ok {
		return int(d)
	}
	return usualDigits
}

// Round makes an amount of an exact sum: half a minor unit goes away from zero.
// Sums beyond int64 are an error.
func Round(d decimal.Decimal, code string) (Amount, error) {
	minor := d.Shift(int32(Digits(code))).Round(0)
	if minor.GreaterThan(decimal.NewFromInt(math.MaxInt64)) || minor.LessThan(decimal.NewFromInt(math.MinInt64)) {
		return Amount{}, fmt.Errorf("money: %s %s is too large to be billed", d, code)
	}
	return Amount{Minor: minor.IntPart(), Currency: code}, nil
}

// decimal is the exact sum in major units.
func (a Amount) decimal() decimal.Decimal {
	return decimal.New(a.Minor, -int32(Digits(a.Currency)))
}

// String is the plain number with all the places of the currency: "412.60".
// Part is a share of an amount.
func (a Amount) Part(share float64) Amount {
	return Amount{int64(math.Round(share * float64(a.Minor))), a.Currency}
}

// Less is what an amount leaves of another in the same currency.
func (a Amount) Less(b Amount) Amount { return Amount{a.Minor - b.Minor, a.Currency} }

func (a Amount) String() string { return a.decimal().StringFixed(int32(Digits(a.Currency))) }

// float is for drawing and for sampling, never for sums.
func (a Amount) float() float64 { return a.decimal().InexactFloat64() }

// String is the plain number with at least the places of the currency.
func (r Rate) String() string {
	return r.Decimal.StringFixed(max(int32(Digits(r.Currency)), -r.Decimal.Exponent()))
}

// Format keeps fmt from printing the bare decimal inside.
func (r Rate) Format(f fmt.State, verb rune) { fmt.Fprintf(f, fmt.FormatString(f, verb), r.String()) }

// sum adds amounts of one currency.
func sum(code string, amounts ...Amount) (Amount, error) {
	total := decimal.Zero
	for _, a := range amounts {
		if a.Currency != code {
			return Amount{}, fmt.Errorf("money: %s %s can't be added to %s", a, a.Currency, code)
		}
		total = total.Add(a.decimal())
	}
	return Round(total, code)
}
