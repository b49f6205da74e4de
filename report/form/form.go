// Package form writes numbers, dates, money and quantities the way the reader
// of a plan writes them: by language tag and by the units asked for. Inside the
// program everything is SI; here alone it becomes US customary.
//
// The parts of one figure are joined by no-break spaces (U+00A0), so that a
// number never parts from its unit at the end of a line. Words stay English.
package form

import (
	"fmt"
	"math"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"

	"swardwright/internal/calendar"
	"swardwright/sowing"
	"swardwright/sowing/money"
	"swardwright/species"
)

// nb joins the parts of one figure.
const nb = "\u00a0"

// Form is one reader's way of writing. It is safe for use by one goroutine.
type Form struct {
	tag      language.Tag
	base     string // of the tag: "en", "nb"
	region   string
	english  string // tag of the kind of English that grasses are named in
	us       bool
	currency string
	dates    words
	months   [3][]string // in a date, short in a date, short alone
	printer  *message.Printer
}

// New makes the form of a BCP 47 language tag, "metric" or "us" units and an
// ISO 4217 currency. Empty means "en", "metric" and no currency of its own.
// Dates of a language whose month names are not known here are ISO 8601.
func New(lang, units, curr string) (Form, error) {
	if lang == "" {
		lang = "en"
	}
	tag, err := language.Parse(lang)
	if err != nil {
		return Form{}, fmt.Errorf("language: %q is not a BCP 47 tag such as en-GB, de or sv", lang)
	}
	if units != "" && units != "metric" && units != "us" {
		return Form{}, fmt.Errorf("units: %q is neither metric nor us", units)
	}
	if curr != "" {
		if err := money.CheckCurrency(curr); err != nil {
			return Form{}, err
		}
	}
	// Norwegian without its form is Bokmål, which the tables know by name.
	if b, _ := tag.Base(); b.String() == "no" {
		tag, _ = language.Parse("nb" + strings.TrimPrefix(strings.ToLower(lang), "no"))
	}
	b, _ := tag.Base()
	base := b.String()
	region := ""
	if r, sure := tag.Region(); sure == language.Exact {
		region = r.String()
	}
	// Figures are set in the digits 0 to 9 whatever the language.
	if latin, err := tag.SetTypeForKey("nu", "latn"); err == nil {
		tag = latin
	}
	f := Form{tag: tag, base: base, region: region, us: units == "us", english: sowing.English(lang, units), currency: curr, printer: message.NewPrinter(tag)}
	return f.In(base), nil
}

// US says whether quantities are US customary.
func (f Form) US() bool { return f.us }

// American says whether English is written as in America.
func (f Form) American() bool { return f.english == "en-US" }

// Base is the language without script and region: "en", "nb".
func (f Form) Base() string { return f.base }

// In is the same form with the dates of another language, for text that is in it.
func (f Form) In(language string) Form {
	f.dates = languages[language]
	if language == "en" && (f.region == "US" || f.region == "" && f.us) {
		f.dates = american
	}
	f.months = [3][]string{strings.Fields(f.dates.months), strings.Fields(f.dates.short), strings.Fields(f.dates.alone)}
	return f
}

// Number writes x with exactly the given decimals, of which negative ones are
// whole tens, hundreds and so on. What is not a number is an
// en dash.
func (f Form) Number(x float64, decimals int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "–"
	}
	scale := math.Pow(10, float64(decimals))
	if math.Abs(x) < 1e15/scale {
		// Halves go away from zero, and nothing is ever a negative nought.
		x = math.Round(x*scale) / scale
		if x == 0 {
			x = 0
		}
	}
	decimals = max(decimals, 0)
	return f.printer.Sprint(number.Decimal(x, number.Scale(decimals)))
}

// Figures writes x to the given count of significant figures, without trailing
// noughts after the decimal sign.
func (f Form) Figures(x float64, figures int) string {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return f.Number(x, 0)
	}
	decimals := max(0, figures-1-int(math.Floor(math.Log10(math.Abs(x)))))
	round := func(n int) float64 { scale := math.Pow10(n); return math.Round(x*scale) / scale }
	for decimals > 0 && round(decimals-1) == round(decimals) {
		decimals--
	}
	return f.Number(x, decimals)
}

// Percent writes a share of 0 to 1 as whole percent.
func (f Form) Percent(share float64) string {
	if math.IsNaN(share) || math.IsInf(share, 0) {
		return "–"
	}
	return f.printer.Sprint(number.Percent(math.Round(share*100)/100, number.Scale(0)))
}

// PercentSign is what stands after a number of percent, with the space that the
// language sets before it.
func (f Form) PercentSign() string { return strings.TrimPrefix(f.Percent(0.5), "50") }

// Chance writes a share of years as whole years in ten: "9 years in 10".
// A share that rounds to none or all of them says so without claiming certainty.
func (f Form) Chance(share float64) string {
	switch n := math.Round(share * 10); {
	case n <= 0:
		return "less than 1 year in 10"
	case n == 1:
		return "1 year in 10"
	case n >= 10:
		return "nearly every year"
	default:
		return f.Number(n, 0) + " years in 10"
	}
}

// Range joins two figures already written: "12–21". Equal ends are written once.
func (f Form) Range(low, high string) string {
	if low == high {
		return low
	}
	return low + "–" + high
}

// Span writes a range of numbers: "12–21".
func (f Form) Span(low, high float64, decimals int) string {
	return f.Range(f.Number(low, decimals), f.Number(high, decimals))
}

// Count writes n with its noun in the right number: "1 day", "3 days".
func (f Form) Count(n int, one, many string) string {
	noun := many
	if n == 1 {
		noun = one
	}
	return f.Number(float64(n), 0) + nb + noun
}

// GrassName is the usual common name of a grass for the reader, in their own kind
// of English.
func (f Form) GrassName(s *species.Species) string {
	if s == nil {
		return "–"
	}
	return s.Common(f.english)
}

// Capital gives a name its capital, as at the head of a cell or a label. A word
// with a capital inside ("pH") keeps its form.
func Capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if next, _ := utf8.DecodeRuneInString(s[n:]); n == 0 || unicode.IsUpper(next) {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// Date writes a whole date: "28 April 2027". No date is an en dash.
func (f Form) Date(t time.Time) string { return f.date(t, f.dates.long, "2006-01-02") }

// DateOrNever writes a date that may never come.
func (f Form) DateOrNever(t *time.Time) string {
	if t == nil {
		return "in most years never"
	}
	return f.Date(*t)
}

// DateShort writes a date with its month short: "28 Apr 2027".
func (f Form) DateShort(t time.Time) string { return f.date(t, f.dates.medium, "2006-01-02") }

// DayMonth writes a date without its year: "28 Apr".
func (f Form) DayMonth(t time.Time) string { return f.date(t, f.dates.day, "01-02") }

// Dates writes a run of days, naming the year once where both lie in it:
// "28 Apr – 30 May 2027".
func (f Form) Dates(from, to time.Time) string {
	switch {
	case to.IsZero() || from.Equal(to):
		return f.DateShort(from)
	case from.IsZero():
		return f.DateShort(to)
	case from.Year() == to.Year() && strings.HasSuffix(f.dates.medium, "%Y"):
		return f.DayMonth(from) + nb + "– " + f.DateShort(to)
	default:
		return f.DateShort(from) + nb + "– " + f.DateShort(to)
	}
}

// DayOfYear writes a day of a year of 365 days, 0 being 1 January: "28 Apr".
// A negative day is an en dash.
func (f Form) DayOfYear(day int) string {
	if day < 0 {
		return "–"
	}
	return f.DayMonth(calendar.Date(2001, day))
}

// LongDay writes a date without its year and with its month in full: "28 April".
func (f Form) LongDay(t time.Time) string {
	return f.date(t, strings.Replace(f.dates.day, "%b", "%B", 1), "01-02")
}

// LongMonth is the name of a month as written inside a date.
func (f Form) LongMonth(m time.Month) string {
	if names := f.months[0]; len(names) == 12 {
		return names[m-1]
	}
	return f.Month(m)
}

// Month is the short name of a month standing alone, or its number.
func (f Form) Month(m time.Month) string {
	if names := f.months[2]; len(names) == 12 {
		return names[m-1]
	}
	return fmt.Sprintf("%02d", int(m))
}

func (f Form) date(t time.Time, pattern, iso string) string {
	if t.IsZero() {
		return "–"
	}
	if pattern == "" {
		return t.Format(iso)
	}
	m := t.Month() - 1
	return strings.NewReplacer(
		" ", nb,
		"%d", fmt.Sprint(t.Day()),
		"%m", fmt.Sprint(int(m)+1),
		"%B", f.months[0][m],
		"%b", f.months[1][m],
		"%Y", fmt.Sprint(t.Year()),
	).Replace(pattern)
}
