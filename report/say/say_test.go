package say

import (
	"math"
	"strings"
	"testing"
	"time"

	"swardwright/internal/told"
	"swardwright/sowing/money"
	"swardwright/species"

	"github.com/shopspring/decimal"
)

// grasses are invented but for their form.
func grasses(id string) *species.Species {
	if id != "pretend" {
		return nil
	}
	return &species.Species{ID: id, Botanical: "Poa fictiva", Names: map[string][]string{"en-GB": {"pretend meadow-grass"}, "en-US": {"pretend bluegrass"}, "sv": {"låtsasgröe"}}}
}

func must(t testing.TB, lang, units, currency string) *Sayer {
	t.Helper()
	s, err := New(lang, units, currency, grasses)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// plain undoes the no-break spaces, so that the tables below can be read.
func plain(s string) string {
	return strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(s)
}

// TestFigures checks conversions against NIST Handbook 44 (2024), appendix C: the foot of
// 0.3048 m, the pound of 453.59237 g, the gallon of 231 cubic inches; and the weight rate
// of 4.88 g/m² to 1 lb/1000 sq ft in common use.
func TestFigures(t *testing.T) {
	metric, us := must(t, "en-GB", "metric", "GBP"), must(t, "en-US", "us", "USD")
	day := func(y int, m time.Month, d int) time.Time { return time.Date(y, m, d, 0, 0, 0, 0, time.UTC) }
	for _, c := range []struct {
		figure      told.Figure
		metric, us_ string
	}{
		{told.TemperatureC(100), "100 °C", "212 °F"},
		{told.TemperatureC(-3.25), "-3.3 °C", "26 °F"},
		{told.TemperatureDiffK(-3.2), "-3.2 °C", "-5.8 °F"},
		{told.DistanceKM(16.09344), "16 km", "10 mi"},
		{told.LengthM(30.48), "30.5 m", "100 ft"},
		{told.DepthMM(1), "1 mm", "0.04 in"},
		{told.DepthMM(5), "5 mm", "3/16 in"},
		{told.DepthMM(20), "20 mm", "3/4 in"},
		{told.DepthMM(45), "45 mm", "1 3/4 in"},
		{told.DepthMM(180), "180 mm", "7 in"},
		{told.FineMM(2.5), "2.5 mm", "0.098 in"},
		{told.DepthMM(25.4), "25 mm", "1 in"},
		{told.DepthMM(38.1), "38 mm", "1 1/2 in"},
		{told.DepthMM(304.8), "305 mm", "12 in"},
		{told.DepthMM(1524), "1.52 m", "5 ft"},
		{told.WaterMM(12.7), "13 mm", "0.5 in"},
		{told.AreaM2(92.90304), "92.9 m²", "1,000 sq ft"},
		{told.MassG(141.747615625), "142 g", "5 oz"},
		{told.MassG(4535.9237), "4.54 kg", "10 lb"},
		{told.MassKG(22.6796185), "22.7 kg", "50 lb"},
		{told.MassT(0.90718474), "0.907 t", "1 tons"},
		{told.VolumeL(37.85411784), "37.9 L", "10 gal"},
		{told.VolumeM3(0.764554857984), "0.765 m³", "1 cu yd"},
		{told.GramsPerM2(4.8824), "4.9 g/m²", "1 lb/1000 sq ft"},
		{told.KGPerM2(0.2441214), "0.244 kg/m²", "50 lb/1000 sq ft"},
		{told.GramsPerKG(180), "180 g", "0.18 lb"},
		{told.MMPerHour(25.4), "25 mm/h", "1 in/h"},
		{told.SeedsPerM2(25013), "25,000 viable seeds/m²", "2,320 viable seeds/sq ft"},
		{told.PerM2(10), "10 per m²", "1 per sq ft"},
		{told.Share(0.932), "93%", "93%"},
		{told.FineShare(0.034), "3.4%", "3.4%"},
		{told.Points(0.011), "1 point", "1 point"},
		{told.Points(-0.18), "-18 points", "-18 points"},
		{told.Chance(0.88), "9 years in 10", "9 years in 10"},
		{told.Chance(0.1), "1 year in 10", "1 year in 10"},
		{told.Chance(1), "nearly every year", "nearly every year"},
		{told.Chance(0), "less than 1 year in 10", "less than 1 year in 10"},
		{told.Count(60000), "60,000", "60,000"},
		{told.Year(2027), "2027", "2027"},
		{told.OneIn(0.2), "1 in 5", "1 in 5"},
		{told.Number{X: 0.9, Decimals: 2}, "0.90", "0.90"},
		{told.DLI(11.86), "11.9 mol m⁻² d⁻¹", "11.9 mol m⁻² d⁻¹"},
		{told.SunHours(3.5), "3.5 h", "3.5 h"},
		{told.PH(5.9), "5.9", "5.9"},
		{told.SalinityDSM(2), "2 dS/m", "2 dS/m"},
		{told.Money{Minor: 41260, Currency: "GBP"}, "£412.60", "£412.60"},
		{told.MoneyRound{Minor: 123450, Currency: "USD"}, "US$1,235", "$1,235"},
		{told.MoneyPerArea{Money: told.Money{Minor: 9290304, Currency: "USD"}, AreaM2: 92.90304}, "US$1,000.00/m²", "$92.90/sq ft"},
		{told.Date(day(2027, 4, 28)), "28 April 2027", "April 28, 2027"},
		{told.DayMonth(day(2027, 4, 28)), "28 April", "April 28"},
		{told.DayOfYear(117), "28 April", "April 28"},
		{told.Month(time.April), "April", "April"},
		{told.Period{From: day(2027, 4, 28), To: day(2027, 5, 30)}, "28 Apr to 30 May 2027", "Apr 28 to May 30, 2027"},
		{told.Optional{Else: told.Say("figures.under-an-hour")}, "less than an hour", "less than an hour"},
		{told.Hours(0.4), "less than an hour", "less than an hour"},
		{told.Hours(7.2), "7 hours", "7 hours"},
		{told.Hours(72), "3 days", "3 days"},
		{told.Days(1), "1 day", "1 day"},
		{told.Grass("pretend"), "pretend meadow-grass", "pretend bluegrass"},
		{told.All(told.Zone("A"), told.Zone("B"), told.Zone("C")), "A, B and C", "A, B and C"},
		{told.Joined(told.Or, told.Zone("A"), told.Zone("B")), "A or B", "A or B"},
		{told.Between(told.DepthMM(12), told.DepthMM(25)), "12 to 25 mm", "1/2 to 1 in"},
		{told.Between(told.MassG(900), told.MassG(2000)), "0.9 to 2 kg", "1.98 to 4.41 lb"},
		{told.Between(told.Days(12), told.Days(21)), "12 to 21 days", "12 to 21 days"},
		{told.Between(told.Share(0.3), told.Share(0.3)), "30%", "30%"},
		{told.Between(told.TemperatureC(-5), told.TemperatureC(3)), "-5 to 3 °C", "23 to 37 °F"},
	} {
		if got := plain(metric.Figure(c.figure)); got != c.metric {
			t.Errorf("%T %v metric: got %q, want %q", c.figure, c.figure, got, c.metric)
		}
		if got := plain(us.Figure(c.figure)); got != c.us_ {
			t.Errorf("%T %v us: got %q, want %q", c.figure, c.figure, got, c.us_)
		}
	}
}

// TestLanguages checks against the Unicode CLDR charts of each language (40 and 48):
// decimal and grouping signs, percent and currency patterns. Dates are English where no
// catalogue has the words of the language.
func TestLanguages(t *testing.T) {
	day := time.Date(2027, 4, 28, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct{ lang, number, date, percent, euro string }{
		{"en-GB", "1,234,567.9", "28 April 2027", "93%", "€12,345.60"},
		{"en-US", "1,234,567.9", "April 28, 2027", "93%", "€12,345.60"},
		{"de", "1.234.567,9", "28 April 2027", "93 %", "12.345,60 €"},
		{"fr", "1 234 567,9", "28 April 2027", "93 %", "12 345,60 €"},
		{"nb", "1 234 567,9", "28 April 2027", "93 %", "12 345,60 €"},
		{"no", "1 234 567,9", "28 April 2027", "93 %", "12 345,60 €"},
		{"fi", "1 234 567,9", "28 April 2027", "93 %", "12 345,60 €"},
		{"is", "1.234.567,9", "28 April 2027", "93%", "12.345,60 €"},
		{"pl", "1 234 567,9", "28 April 2027", "93%", "12 345,60 €"},
		{"nl", "1.234.567,9", "28 April 2027", "93%", "€ 12.345,60"},
		{"ja", "1,234,567.9", "28 April 2027", "93%", "€12,345.60"},
		{"ar", "1,234,567.9", "28 April 2027", "", ""}, // figures stay 0 to 9
	} {
		s := must(t, c.lang, "", "EUR")
		check := func(what, got, want string) {
			if want != "" && plain(got) != want {
				t.Errorf("%s %s: got %q, want %q", c.lang, what, plain(got), want)
			}
		}
		check("number", s.Number(1234567.89, 1), c.number)
		check("date", s.Date(day), c.date)
		check("percent", s.Percent(0.932), c.percent)
		check("money", s.Money(money.Amount{Minor: 1234560, Currency: "EUR"}), c.euro)
	}
}

func TestMoney(t *testing.T) {
	for _, c := range []struct {
		lang, units string
		minor       int64
		curr, want  string
	}{
		{"en-GB", "", 41260, "GBP", "£412.60"},
		{"en-GB", "", -41260, "GBP", "-£412.60"},
		{"en-GB", "", 41260, "USD", "US$412.60"},
		{"en-US", "us", 41260, "USD", "$412.60"},
		{"en", "us", 41260, "USD", "$412.60"},
		{"en-CA", "", 41260, "CAD", "$412.60"},
		{"en-GB", "", 149300, "SEK", "SEK 1,493.00"},
		{"sv", "", 41260, "SEK", "412,60 kr"},
		{"sv", "", -41260, "SEK", "−412,60 kr"},
		{"sv", "", 41260, "NOK", "412,60 Nkr"}, // not the reader's own crown
		{"is", "", 41260, "ISK", "41.260 kr."}, // ISO 4217: no minor unit
		{"en-GB", "", 799910, "JPY", "JP¥799,910"},
		{"en-GB", "", 41260, "KWD", "KWD 41.260"}, // ISO 4217: three digits
		{"pl", "", 41260, "PLN", "412,60 zł"},
	} {
		s := must(t, c.lang, c.units, c.curr)
		if got := plain(s.Money(money.Amount{Minor: c.minor, Currency: c.curr})); got != c.want {
			t.Errorf("%s %d %s: got %q, want %q", c.lang, c.minor, c.curr, got, c.want)
		}
	}
	if got := must(t, "en", "", "GBP").MoneyRound(money.Amount{Minor: 41250, Currency: "GBP"}); got != "£413" {
		t.Errorf("rounded: %q", got)
	}
	for _, c := range []struct{ rate, units, unit, want string }{
		{"28", "metric", "h", "28.00"},
		{"0.0345", "metric", "m²", "0.0345"},
		{"4.20", "metric", "m²", "4.20"},
		{"4.20", "us", "m²", "0.3902"}, // 4.20 × 0.3048²
	} {
		s := must(t, "en", c.units, "GBP")
		if got := s.Rate(money.Rate{Decimal: decimal.RequireFromString(c.rate), Currency: "GBP"}, c.unit); got != c.want {
			t.Errorf("rate %s a %s in %s: got %q, want %q", c.rate, c.unit, c.units, got, c.want)
		}
	}
}

func TestNumbers(t *testing.T) {
	s := must(t, "en", "metric", "")
	for _, c := range []struct{ name, got, want string }{
		{"no noughts at the end", s.Figures(5.0045, 3), "5"},
		{"figures", s.Figures(0.012345, 3), "0.0123"},
		{"figures of the whole", s.Figures(12345, 3), "12,345"},
		{"hundreds", s.Number(12345, -2), "12,300"},
		{"nothing", s.Number(math.NaN(), 2), "–"},
		{"no negative nought", s.Number(-0.004, 2), "0.00"},
		{"a day of a year without 29 February", s.DayOfYear(117), "28 Apr"},
		{"no day", s.DayOfYear(-1), "–"},
		{"no date", s.Date(time.Time{}), "–"},
	} {
		if plain(c.got) != c.want {
			t.Errorf("%s: got %q, want %q", c.name, plain(c.got), c.want)
		}
	}
}

// TestColumn: figures of one kind have one unit and as many decimals in a column.
func TestColumn(t *testing.T) {
	s := must(t, "en-GB", "metric", "GBP")
	for _, c := range []struct {
		cells []told.Figure
		want  string
	}{
		{[]told.Figure{told.MassG(937), told.MassG(1874), nil}, "0.94 kg|1.87 kg|"},
		{[]told.Figure{told.MassG(12000), told.MassG(85)}, "12.000 kg|0.085 kg"},
		{[]told.Figure{told.MassG(1116), told.MassG(93)}, "1,116 g|93 g"},
		{[]told.Figure{told.WaterMM(9.9), told.WaterMM(20.6), told.WaterMM(5.6)}, "9.9 mm|20.6 mm|5.6 mm"},
		{[]told.Figure{told.AreaM2(61.6), told.AreaM2(131)}, "62 m²|131 m²"},
		{[]told.Figure{told.Share(0.5), told.Say("figures.under-an-hour")}, "50%|less than an hour"},
		{[]told.Figure{nil, nil}, "|"},
	} {
		if got := plain(strings.Join(s.Column(c.cells), "|")); got != c.want {
			t.Errorf("%v: got %q, want %q", c.cells, got, c.want)
		}
	}
}

func TestNewRefuses(t *testing.T) {
	for _, c := range [][3]string{{"not a tag", "", ""}, {"en", "imperial", ""}, {"en", "", "ZZZZ"}} {
		if _, err := New(c[0], c[1], c[2], nil); err == nil {
			t.Errorf("New(%q) gave no error", c)
		}
	}
}

func FuzzNumber(f *testing.F) {
	f.Add(1234.5, 2)
	f.Add(-0.004, 2)
	f.Fuzz(func(t *testing.T, x float64, decimals int) {
		s := must(t, "sv", "us", "SEK")
		for _, text := range []string{s.Number(x, min(max(decimals, 0), 6)), s.Figures(x, 3), s.Percent(x), s.Figure(told.AreaM2(x)), s.Figure(told.MassG(x)), s.Figure(told.Chance(x))} {
			if text == "" || strings.Contains(text, "NaN") || strings.Contains(text, "Inf") || strings.Contains(text, "∞") {
				t.Fatalf("%g: %q", x, text)
			}
		}
	})
}

// TestForeignNumbers: number forms are those of the language, words and dates English
// where it has no catalogue.
func TestForeignNumbers(t *testing.T) {
	s := must(t, "de-AT", "metric", "EUR")
	for _, c := range []struct {
		figure told.Figure
		want   string
	}{
		{told.GramsPerM2(14.3), "14,3 g/m²"},
		{told.PH(5.9), "5,9"},
		{told.Score(0.58), "0,58"},
		{told.Share(0.3), "30 %"},
		{told.Date(time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC)), "1 March 2027"},
		{told.Chance(0.9), "9 years in 10"},
	} {
		if got := plain(s.Figure(c.figure)); got != c.want {
			t.Errorf("%v: got %q, want %q", c.figure, got, c.want)
		}
	}
}

// TestSwedish: the words are those of the folder, whatever the country; number forms and
// sums are the country's. Forms of numbers, money and dates against the Unicode CLDR charts of
// sv and sv-FI (40).
func TestSwedish(t *testing.T) {
	day := time.Date(2027, 8, 9, 0, 0, 0, 0, time.UTC)
	for _, lang := range []string{"sv", "sv-SE", "sv-FI"} {
		s := must(t, lang, "metric", "SEK")
		if got := s.Language(); got != "sv" {
			t.Errorf("%s: the words are in %s", lang, got)
		}
		if s.Draft() == "" {
			t.Errorf("%s: a draft does not say so", lang)
		}
		for _, c := range []struct {
			figure told.Figure
			want   string
		}{
			{told.Number{X: 1234567.89, Decimals: 1}, "1 234 567,9"},
			{told.Share(0.93), "93 %"},
			{told.GramsPerM2(14.3), "14,3 g/m²"},
			{told.Date(day), "9 augusti 2027"},
			{told.ShortDay(day), "9 aug"},
			{told.Month(time.March), "mars"},
			{told.Days(1), "1 dag"},
			{told.Days(12), "12 dagar"},
			{told.Counted{N: 1, Of: "cuts"}, "1 klippning"},
			{told.Between(told.Weeks(1), told.Weeks(3)), "1–3 veckor"},
			{told.Chance(0.9), "9 år av 10"},
			{told.OneIn(0.2), "1:5"},
			{told.Grass("pretend"), "låtsasgröe"},
			{told.Say("place.numbered", told.Term{Kind: "thing", Word: "tree"}, told.Ordinal(3)), "träd 3"},
			{told.Joined(told.Or, told.Zone("A"), told.Zone("B")), "A eller B"},
			{told.Term{Kind: "compass", Word: "north-east"}, "nordost"},
		} {
			if got := plain(s.Figure(c.figure)); got != c.want {
				t.Errorf("%s %v: got %q, want %q", lang, c.figure, got, c.want)
			}
		}
	}
	if got := plain(must(t, "sv-SE", "", "SEK").Money(money.Amount{Minor: 2584260, Currency: "SEK"})); got != "25 842,60 kr" {
		t.Errorf("kronor: %q", got)
	}
	if got := plain(must(t, "sv-FI", "", "EUR").Money(money.Amount{Minor: 2584260, Currency: "EUR"})); got != "25 842,60 €" {
		t.Errorf("euro: %q", got)
	}
}

// TestOneLanguageASentence: a sentence that a language lacks is English with its clauses,
// dates and names, and so is one with a clause that it lacks; the sentences beside it are
// not. A grass without a name in the language goes by its botanical one.
func TestOneLanguageASentence(t *testing.T) {
	s, english := must(t, "sv", "", ""), must(t, "de", "", "")
	day := told.Date(time.Date(2027, 8, 9, 0, 0, 0, 0, time.UTC))
	own := told.Say("plan.first-cut-about", day)
	lacking := told.Say("year.at", day) // the crew's
	for _, c := range []struct {
		figure      told.Figure
		sv, without string
	}{
		{own, "första klippning omkring 9 augusti 2027", "first cut about 9 August 2027"},
		{lacking, "at 9 August 2027", "at 9 August 2027"},
		{told.Say("year.at", told.Grass("pretend")), "at pretend meadow-grass", "at pretend meadow-grass"},
		{told.Say("year.at", own), "at first cut about 9 August 2027", "at first cut about 9 August 2027"},
		{told.Say("plan.lawn-in-zones", lacking, day), "at 9 August 2027 in 9 August 2027", "at 9 August 2027 in 9 August 2027"},
		{told.Joined(told.Sentences, own, lacking), "första klippning omkring 9 augusti 2027 at 9 August 2027", "first cut about 9 August 2027 at 9 August 2027"},
		{told.All[told.Figure](told.Days(3), told.Months(1)), "3 dagar och 1 månad", "3 days and 1 month"},
	} {
		if got := plain(s.Figure(c.figure)); got != c.sv {
			t.Errorf("%v: got %q, want %q", c.figure, got, c.sv)
		}
		if got := plain(english.Figure(c.figure)); got != c.without {
			t.Errorf("%v without a folder: got %q, want %q", c.figure, got, c.without)
		}
	}
	if english.Draft() != "" || english.Language() != "en-GB" {
		t.Errorf("a language without a folder: %q, in %s", english.Draft(), english.Language())
	}
	nameless, err := New("sv", "", "", func(string) *species.Species { return &species.Species{Botanical: "Poa fictiva"} })
	if err != nil {
		t.Fatal(err)
	}
	if got := nameless.Figure(told.Grass("x")); got != "Poa fictiva" {
		t.Errorf("a grass without a name: %q", got)
	}
}

func TestSilent(t *testing.T) {
	if got := must(t, "en", "", "").Say(told.Sentence{}); got != "" {
		t.Errorf("the sentence that says nothing is %q", got)
	}
}

// TestParse holds the little language of the catalogue.
func TestParse(t *testing.T) {
	british, american := must(t, "en-GB", "", ""), must(t, "en-US", "us", "")
	for _, c := range []struct{ text, british, american string }{
		{"lay {turf}", "lay turf", "lay sod"},
		{"{^turf} of {1}, {^2}", "Turf of 20 mm, pretend meadow-grass", "Sod of 3/4 in, pretend bluegrass"},
		{"a {metre}", "a metre", "a foot"},
		{"{3}. On", "kr. On", "kr. On"},
	} {
		parsed, err := parse(strings.Replace(c.text, "{^2}", "{2}", 1))
		if err != nil {
			t.Fatal(err)
		}
		for s, want := range map[*Sayer]string{british: c.british, american: c.american} {
			v := s.voices[0]
			got := v.put(parsed, func(i int) string {
				return v.figure([]told.Figure{told.DepthMM(20), told.Grass("pretend"), told.Verbatim("kr.")}[i])
			})
			if plain(got) != want {
				t.Errorf("%q: got %q, want %q", c.text, plain(got), want)
			}
		}
	}
	for _, bad := range []string{"{1", "{0}", "{-1}"} {
		if _, err := parse(bad); err == nil {
			t.Errorf("%q was taken", bad)
		}
	}
}

func TestCapital(t *testing.T) {
	for in, want := range map[string]string{"": "", "turf": "Turf", "pH": "pH", "éire": "Éire"} {
		if got := Capital(in); got != want {
			t.Errorf("%q: %q", in, got)
		}
	}
}

func BenchmarkSay(b *testing.B) {
	s := must(b, "en-GB", "metric", "GBP")
	sentence := told.Say("figures.range", told.DepthMM(12), told.Date(time.Date(2027, 4, 28, 0, 0, 0, 0, time.UTC)))
	for b.Loop() {
		s.Say(sentence)
	}
}

// TestOdds: a chance is never told as certain, either way, however it is rounded.
func TestOdds(t *testing.T) {
	s, err := New("en", "", "EUR", nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		chance float64
		want   string
	}{{0, "under 1%"}, {0.0025, "under 1%"}, {0.005, "1%"}, {0.5, "50%"}, {0.994, "99%"}, {0.995, "over 99%"}, {0.9975, "over 99%"}, {1, "over 99%"}} {
		if got := s.Figure(told.Odds(c.chance)); got != c.want {
			t.Errorf("a chance of %v is told as %q, want %q", c.chance, got, c.want)
		}
	}
}
