package money

import (
	"fmt"
	"math"
	"strings"

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

// currencies are the codes of ISO 4217, list one, in 2025, by the decimal places
// of their minor unit (from memory), but for those that name no money: metals,
// bond units, drawing rights, tests. The tables of golang.org/x/text won't do:
// they lack the newest, hold withdrawn ones, and give the places of everyday use,
// which differ for a dozen.
var currencies = map[int]string{
	0: "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF",
	2: "AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP BYN BZD " +
		"CAD CDF CHE CHF CHW CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD " +
		"HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN " +
		"NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL " +
		"THB TJS TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST XAD XCD XCG YER ZAR ZMW ZWG",
	3: "BHD IQD JOD KWD LYD OMR TND",
	4: "CLF UYW",
}

// digits are the decimal places by code.
var digits = func() map[string]int {
	out := map[string]int{}
	for places, codes := range currencies {
		for _, code := range strings.Fields(codes) {
			out[code] = places
		}
	}
	return out
}()

// CheckCurrency tells whether a code is one that can be billed in.
func CheckCurrency(code string) error {
	if _, ok := digits[code]; !ok {
		return fmt.Errorf("currency: %q is no ISO 4217 currency; give three capital letters such as EUR, GBP or USD", code)
	}
	return nil
}

// Digits is the number of decimal places of a currency's minor unit.
func Digits(code string) int {
	if d, ok := digits[code]; ok {
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
