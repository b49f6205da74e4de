package money

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"
)

func TestDigits(t *testing.T) {
	// ISO 4217, list one; from memory.
	for code, want := range map[string]int{
		"EUR": 2, "GBP": 2, "USD": 2, "NOK": 2, "SEK": 2, "DKK": 2, "CHF": 2, "CAD": 2, "AUD": 2, "NZD": 2,
		"PLN": 2, "CZK": 2, "HUF": 2, "RSD": 2, "UAH": 2, "TRY": 2, "INR": 2, "MXN": 2, "BRL": 2, "ZAR": 2,
		"ISK": 0, "JPY": 0, "KRW": 0, "CLP": 0, "VND": 0, "XAF": 0, "PYG": 0,
		"KWD": 3, "BHD": 3, "TND": 3, "JOD": 3, "OMR": 3, "CLF": 4,
	} {
		if err := CheckCurrency(code); err != nil {
			t.Errorf("%s: %v", code, err)
		}
		if got := Digits(code); got != want {
			t.Errorf("%s has %d decimal places, want %d", code, got, want)
		}
	}
}

// Metals, drawing rights, tests and money that is no longer current can't be billed in.
// The lev was replaced by the euro on 1 January 2026, the kuna on 1 January 2023.
func TestNoMoney(t *testing.T) {
	for _, code := range []string{"XAU", "XDR", "XTS", "XXX", "BGN", "HRK", "eur", "", "EURO"} {
		if CheckCurrency(code) == nil {
			t.Errorf("%q is taken", code)
		}
	}
}

func TestRound(t *testing.T) {
	for _, c := range []struct{ sum, code, want string }{
		{"2.345", "EUR", "2.35"}, {"-2.345", "EUR", "-2.35"}, {"2.3449", "EUR", "2.34"},
		{"0.5", "ISK", "1"}, {"1234.5", "JPY", "1235"}, {"0.0005", "KWD", "0.001"}, {"412.6", "GBP", "412.60"},
	} {
		a, err := Round(decimal.RequireFromString(c.sum), c.code)
		if err != nil || a.String() != c.want {
			t.Errorf("%s %s is %s, want %s (%v)", c.sum, c.code, a, c.want, err)
		}
	}
	if _, err := Round(decimal.New(1, 18), "EUR"); err == nil {
		t.Error("a sum beyond int64 is taken")
	}
	big := Amount{math.MaxInt64, "EUR"}
	if _, err := sum("EUR", big, big); err == nil {
		t.Error("a sum overflows in silence")
	}
	if _, err := sum("EUR", Amount{1, "USD"}); err == nil {
		t.Error("dollars are added to euros")
	}
}

func FuzzRound(f *testing.F) {
	f.Add(int64(2345), int32(-3), "EUR")
	f.Add(int64(-5), int32(-1), "JPY")
	f.Add(int64(math.MaxInt64), int32(0), "KWD")
	f.Fuzz(func(t *testing.T, value int64, exp int32, code string) {
		if CheckCurrency(code) != nil || exp < -20 || exp > 20 {
			return
		}
		d := decimal.New(value, exp)
		a, err := Round(d, code)
		if err != nil {
			return
		}
		half := decimal.New(5, -int32(Digits(code))-1)
		if a.decimal().Sub(d).Abs().GreaterThan(half) {
			t.Errorf("%s %s is rounded to %s", d, code, a)
		}
		if back := decimal.RequireFromString(a.String()); !back.Equal(a.decimal()) {
			t.Errorf("%s doesn't read back", a)
		}
	})
}
