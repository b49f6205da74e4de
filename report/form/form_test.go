package form

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"swardwright/sowing/money"
	"swardwright/species"
)

func must(t testing.TB, lang, units, curr string) Form {
	t.Helper()
	f, err := New(lang, units, curr)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// plain undoes the no-break spaces, so that the tables below can be read.
func plain(s string) string {
	return strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(s)
}

// TestLanguages checks against the Unicode CLDR 40 chart of each language: decimal and
// grouping signs, long date, percent and currency patterns.
func TestLanguages(t *testing.T) {
	day := time.Date(2027, 4, 28, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct{ lang, number, date, short, percent, euro string }{
		{"en-GB", "1,234,567.9", "28 April 2027", "28 Apr 2027", "93%", "€12,345.60"},
		{"en-US", "1,234,567.9", "April 28, 2027", "Apr 28, 2027", "93%", "€12,345.60"},
		{"de", "1.234.567,9", "28. April 2027", "28. Apr. 2027", "93 %", "12.345,60 €"},
		{"fr", "1 234 567,9", "28 avril 2027", "28 avr. 2027", "93 %", "12 345,60 €"},
		{"sv", "1 234 567,9", "28 april 2027", "28 apr. 2027", "93 %", "12 345,60 €"},
		{"nb", "1 234 567,9", "28. april 2027", "28. apr. 2027", "93 %", "€ 12 345,60"},
		{"no", "1 234 567,9", "28. april 2027", "28. apr. 2027", "93 %", "€ 12 345,60"},
		{"da", "1.234.567,9", "28. april 2027", "28. apr. 2027", "93 %", "12.345,60 €"},
		{"fi", "1 234 567,9", "28. huhtikuuta 2027", "28. huhtik. 2027", "93 %", "12 345,60 €"},
		{"is", "1.234.567,9", "28. apríl 2027", "28. apr. 2027", "93%", "12.345,60 €"},
		{"pl", "1 234 567,9", "28 kwietnia 2027", "28 kwi 2027", "93%", "12 345,60 €"},
		{"cs", "1 234 567,9", "28. dubna 2027", "28. 4. 2027", "93 %", "12 345,60 €"},
		{"et", "1 234 567,9", "28. aprill 2027", "28. apr 2027", "93%", "12 345,60 €"},
		{"lv", "1 234 567,9", "2027. gada 28. aprīlis", "2027. g. 28. apr.", "93%", "12 345,60 €"},
		{"nl", "1.234.567,9", "28 april 2027", "28 apr. 2027", "93%", "€ 12.345,60"},
		{"es", "1.234.567,9", "28 de abril de 2027", "28 abr 2027", "93 %", "12.345,60 €"},
		{"it", "1.234.567,9", "28 aprile 2027", "28 apr 2027", "93%", "12.345,60 €"},
		{"ja", "1,234,567.9", "2027-04-28", "2027-04-28", "93%", "12,345.60 €"}, // no month names: ISO 8601
		{"ar", "1,234,567.9", "2027-04-28", "2027-04-28", "", ""},               // figures stay 0 to 9
	} {
		f := must(t, c.lang, "", "EUR")
		check := func(what, got, want string) {
			if want != "" && plain(got) != want {
				t.Errorf("%s %s: got %q, want %q", c.lang, what, plain(got), want)
			}
		}
		check("number", f.Number(1234567.89, 1), c.number)
		check("date", f.Date(day), c.date)
		check("short date", f.DateShort(day), c.short)
		check("percent", f.Percent(0.932), c.percent)
		check("money", f.Money(money.Amount{Minor: 1234560, Currency: "EUR"}), c.euro)
	}
}

func TestMoney(t *testing.T) {
	for _, c := range []struct {
		lang, units string
		minor       int64
		curr, want  string
	}{
		{"en-GB", "", 41260, "GBP", "£412.60"},
		{"en-GB", "", -41260, "GBP", "−£412.60"},
		{"en-GB", "", 41260, "USD", "USD 412.60"},
		{"en-US", "us", 41260, "USD", "$412.60"},
		{"en-CA", "", 41260, "CAD", "$412.60"},
		{"sv", "", 41260, "SEK", "412,60 kr"},
		{"sv", "", 41260, "NOK", "412,60 NOK"}, // not the reader's own crown
		{"is", "", 41260, "ISK", "41.260 kr."}, // ISO 4217: no minor unit
		{"en-GB", "", 41260, "JPY", "JPY 41,260"},
		{"en-GB", "", 41260, "KWD", "KWD 41.260"}, // ISO 4217: three digits
		{"pl", "", 41260, "PLN", "412,60 zł"},
	} {
		f := must(t, c.lang, c.units, c.curr)
		if got := plain(f.Money(money.Amount{Minor: c.minor, Currency: c.curr})); got != c.want {
			t.Errorf("%s %d %s: got %q, want %q", c.lang, c.minor, c.curr, got, c.want)
		}
	}
	f := must(t, "en", "", "GBP")
	if got := f.MoneyRound(money.Amount{Minor: 41250, Currency: "GBP"}); got != "£413" {
		t.Errorf("rounded: %q", got)
	}
	for _, c := range []struct{ rate, units, unit, want string }{
		{"28", "metric", "h", "28.00"},
		{"0.0345", "metric", "m²", "0.0345"},
		{"4.20", "metric", "m²", "4.20"},
		{"4.20", "us", "m²", "0.3902"}, // 4.20 × 0.3048²
	} {
		f := must(t, "en", c.units, "GBP")
		if got := f.Rate(money.Rate{Decimal: decimal.RequireFromString(c.rate), Currency: "GBP"}, c.unit); got != c.want {
			t.Errorf("rate %s a %s in %s: got %q, want %q", c.rate, c.unit, c.units, got, c.want)
		}
	}
}

// TestUnits checks conversions against NIST Handbook 44 (2024), appendix C, and the
// weight rates against the factor 1 lb/1000 sq ft = 4.88 g/m² in common use.
func TestUnits(t *testing.T) {
	m, u := must(t, "en", "metric", ""), must(t, "en-US", "us", "")
	for _, c := range []struct{ name, got, want string }{
		{"length", m.Length(12.4), "12.4 m"},
		{"length us", u.Length(30.48), "100 ft"},
		{"distance us", u.Distance(16.09344), "10 mi"}, // 1 mile = 1.609344 km, App. C
		{"area", m.Area(84), "84 m²"},
		{"area us", u.Area(92.90304), "1,000 sq ft"}, // 1 sq ft = 0.09290304 m², App. C
		{"acre", u.Area(4046.8564224), "43,560 sq ft"},
		{"mass g", m.Mass(850), "850 g"},
		{"mass kg", m.Mass(2600), "2.6 kg"},
		{"mass lb", u.Mass(4535.9237), "10 lb"},
		{"mass oz", u.Mass(141.747615625), "5 oz"},
		{"ton", u.Tonnes(0.90718474), "1 tons"},
		{"rate", m.RateGM2(28.5), "28.5 g/m²"},
		{"rate us", u.RateGM2(4.8824), "1 lb/1000 sq ft"},
		{"temp", m.Temp(-3.25), "-3.3 °C"},
		{"temp us", u.Temp(100), "212 °F"},
		{"depth", m.Depth(25), "25 mm"},
		{"depth us", u.Depth(25.4), "1.0 in"},
		{"cut us", u.Depth(15), "0.59 in"},
		{"volume", m.Volume(2.4), "2.4 m³"},
		{"volume us", u.Volume(0.764554857984), "1 cu yd"},
		{"litres us", u.Litres(37.85411784), "10 gal"},
		{"seeds", m.PerArea(25013), "25,000 per m²"},
		{"days", m.Count(1, "day", "days"), "1 day"},
		{"days", m.Count(1200, "day", "days"), "1,200 days"},
		{"no noughts at the end", m.Figures(5.0045, 3), "5"},
		{"figures", m.Figures(0.012345, 3), "0.0123"},
		{"figures of the whole", m.Figures(12345, 3), "12,345"},
		{"nothing", m.Number(math.NaN(), 2), "–"},
		{"no negative nought", m.Number(-0.004, 2), "0.00"},
		{"chance", m.Chance(0.88), "9 years in 10"},
		{"certainty", m.Chance(1), "nearly every year"},
		{"leap-free day of year", m.DayOfYear(117), "28 Apr"},
		{"run of days", m.Dates(time.Date(2027, 4, 28, 0, 0, 0, 0, time.UTC), time.Date(2027, 5, 30, 0, 0, 0, 0, time.UTC)), "28 Apr – 30 May 2027"},
	} {
		if plain(c.got) != c.want {
			t.Errorf("%s: got %q, want %q", c.name, plain(c.got), c.want)
		}
	}
}

func TestPrices(t *testing.T) {
	for _, c := range []struct{ lang, code, in, want string }{
		{"en-GB", "GBP", "sow: 4250.97 GBP, 31.26 a m² against 5252.71 to lay turf; neither bears use by 2027-08-20", "sow: £4,250.97, £31.26 a m² against £5,252.71 to lay turf; neither bears use by 20 August 2027"},
		{"sv", "SEK", "27279.93 SEK", "27 279,93 kr"},
		{"en-GB", "JPY", "about 41260 JPY, in 3 days", "about JPY 41,260, in 3 days"},
		{"en-GB", "GBP", "from 5 to 5000 m² and 2.5 mm", "from 5 to 5000 m² and 2.5 mm"},
	} {
		if got := plain(must(t, c.lang, "", c.code).Prices(c.in, c.code)); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

func TestNewRefuses(t *testing.T) {
	for _, c := range [][3]string{{"not a tag", "", ""}, {"en", "imperial", ""}, {"en", "", "ZZZZ"}} {
		if _, err := New(c[0], c[1], c[2]); err == nil {
			t.Errorf("New(%q) gave no error", c)
		}
	}
}

func TestEveryLanguageHasTwelveMonths(t *testing.T) {
	for tag := range languages {
		f := must(t, tag, "", "")
		for i, names := range f.months {
			if len(names) != 12 {
				t.Errorf("%s: list %d has %d months", tag, i, len(names))
			}
		}
	}
}

func TestGrassName(t *testing.T) {
	s := &species.Species{Botanical: "Poa fictiva", Names: map[string][]string{"en-GB": {"pretend meadow-grass"}, "en-US": {"pretend bluegrass"}}}
	for lang, want := range map[string]string{"en-US": "pretend bluegrass", "en-GB": "pretend meadow-grass", "sv": "pretend meadow-grass"} {
		if got := must(t, lang, "", "").GrassName(s); got != want {
			t.Errorf("%s: %q", lang, got)
		}
	}
	if got := must(t, "en", "", "").GrassName(&species.Species{Botanical: "Poa fictiva"}); got != "Poa fictiva" {
		t.Error(got)
	}
}

func FuzzNumber(f *testing.F) {
	f.Add(1234.5, 2)
	f.Add(-0.004, 2)
	f.Fuzz(func(t *testing.T, x float64, decimals int) {
		decimals = min(max(decimals, 0), 6)
		form := must(t, "sv", "us", "SEK")
		for _, s := range []string{form.Number(x, decimals), form.Figures(x, 3), form.Percent(x), form.Area(x), form.Mass(x), form.Chance(x)} {
			if s == "" || strings.Contains(s, "NaN") || strings.Contains(s, "Inf") || strings.Contains(s, "∞") {
				t.Fatalf("%g: %q", x, s)
			}
		}
	})
}

func BenchmarkNumber(b *testing.B) {
	f := must(b, "de", "", "EUR")
	for b.Loop() {
		f.Number(1234.5, 2)
	}
}
