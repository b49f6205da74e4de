package say

import (
	"testing"
)

// The factors are those of NIST Handbook 44, appendix C: 25.4 mm an inch, 0.3048 m
// a foot, 453.59237 g a pound, 231 cubic inches a gallon.
func TestProse(t *testing.T) {
	for _, c := range []struct{ lang, units, in, want string }{
		{"en-GB", "", "Loosen 200 mm deep, 0.9 m apart; 28.5 g/m².", "Loosen 200 mm deep, 0.9 m apart; 28.5 g/m²."},
		{"de", "", "0.9 m apart, 1784 litres, 28.5 g/m²", "0,9 m apart, 1.784 litres, 28,5 g/m²"},
		{"en-US", "us", "Loosen 200 mm deep", "Loosen 8 in deep"},
		{"en-US", "us", "12 to 25 mm below paving", "0.5 to 1 in below paving"},
		{"en-US", "us", "in goes of 25 mm, 0.9 m apart", "in goes of 1 in, 3 ft apart"},
		{"en-US", "us", "from 54 sq ft to 53820 sq ft", "from 54 sq ft to 53,820 sq ft"},
		{"en-US", "us", "22 mm within an hour", "0.9 in within an hour"},
		{"en-US", "us", "4.9 g/m² of nitrogen", "1 lb/1000 sq ft of nitrogen"},
		{"en-US", "us", "2.1 kg of a 12-0-8 feed, 303 litres (469 kg)", "4.6 lb of a 12-0-8 feed, 80 gal (1,034 lb)"},
		{"en-US", "us", "84 m² at 18 °C, 2.4 m³", "904 sq ft at 64 °F, 3.1 cu yd"},
		{"en-US", "us", "takes in 12 mm an hour; 25.4 litres a square metre", "takes in 0.5 in an hour; 1 in"},
		{"en-US", "us", "1 in 3, 2 %, pH 5.8, 10-10-10, 5 meters, 3 months, 14 mol m⁻² d⁻¹, 3 gardens, ECe 1.4 dS/m", "1 in 3, 2%, pH 5.8, 10-10-10, 5 meters, 3 months, 14 mol m⁻² d⁻¹, 3 gardens, ECe 1.4 dS/m"},
		{"sv", "", "50 % of it", "50 % of it"},
	} {
		if got := plain(must(t, c.lang, c.units, "").Prose(c.in)); got != c.want {
			t.Errorf("%s %s: %q\n gives %q\n  want %q", c.lang, c.units, c.in, got, c.want)
		}
	}
}
