package money

import (
	"fmt"
	"math"

	"github.com/shopspring/decimal"
	"golang.org/x/text/currency"
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

// minorDigits are the decimal places of the currencies that haven't two, by ISO
// 4217:2015, list one. (The tables of golang.org/x/text give the places in
// everyday use, which differ for about a dozen currencies.)
var minorDigits = map[string]int{
	"BIF": 0, "CLP": 0, "DJF": 0, "GNF": 0, "ISK": 0, "JPY": 0, "KMF": 0, "KRW": 0, "PYG": 0, "RWF": 0,
	"UGX": 0, "UYI": 0, "VND": 0, "VUV": 0, "XAF": 0, "XOF": 0, "XPF": 0,
	"BHD": 3, "IQD": 3, "JOD": 3, "KWD": 3, "LYD": 3, "OMR": 3, "TND": 3,
	"CLF": 4, "UYW": 4,
}

// noMinor are codes of ISO 4217 that name no money one can be billed in: metals,
// bond units, drawing rights, tests.
var noMinor = map[string]bool{
	"XAG": true, "XAU": true, "XPD": true, "XPT": true, "XBA": true, "XBB": true, "XBC": true, "XBD": true,
	"XDR": true, "XSU": true, "XUA": true, "XTS": true, "XXX": true,
}

// CheckCurrency tells whether a code is one that can be billed in.
func CheckCurrency(code string) error {
	unit, err := currency.ParseISO(code)
	if err != nil || unit.String() != code || noMinor[code] {
		return fmt.Errorf("currency: %q is no ISO 4217 currency; give three capital letters such as EUR, GBP or USD", code)
	}
	return nil
}

// Digits is the number of decimal places of a currency's minor unit.
func Digits(code string) int {
	if d, ok := minorDigits[code]; ok {
		return d
	}
	return 2
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

// Decimal is the exact sum in major units.
func (a Amount) Decimal() decimal.Decimal {
	return decimal.New(a.Minor, -int32(Digits(a.Currency)))
}

// String is the plain number with all the places of the currency: "412.60".
func (a Amount) String() string { return a.Decimal().StringFixed(int32(Digits(a.Currency))) }

// Float is for drawing and for sampling, never for sums.
func (a Amount) Float() float64 { return a.Decimal().InexactFloat64() }

// String is the plain number with at least the places of the currency.
func (r Rate) String() string {
	return r.Decimal.StringFixed(max(int32(Digits(r.Currency)), -r.Decimal.Exponent()))
}

// Format keeps fmt from printing the bare decimal inside.
func (r Rate) Format(f fmt.State, verb rune) { fmt.Fprintf(f, fmt.FormatString(f, verb), r.String()) }

// Sum adds amounts of one currency.
func Sum(code string, amounts ...Amount) (Amount, error) {
	total := decimal.Zero
	for _, a := range amounts {
		if a.Currency != code {
			return Amount{}, fmt.Errorf("money: %s %s can't be added to %s", a, a.Currency, code)
		}
		total = total.Add(a.Decimal())
	}
	return Round(total, code)
}
