package say

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"github.com/samber/lo"
	"github.com/shopspring/decimal"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/sowing"
	"swardwright/sowing/money"
)

// measure is a number, or a range of two, with its unit, in a sentence.
var measure = regexp.MustCompile(`(\d+(?:\.\d+)?)(?:( to |, then | or )(\d+(?:\.\d+)?))?([ \x{00a0}])(mm an hour|mm a day|mm|cm|km|m²|m³|m2|m3|m|g/m²|kg/m²|kg|g|t/ha|viable seeds/m²|seeds/m²|litres a square metre|litres|sq ft|°C)(\b|$|[ ,.;:)])`)

// proseUnits are the units of sentences in US terms, beside those of a bill.
var proseUnits = map[string]perUnit{
	"mm an hour":            {"in an hour", 1 / mmPerInch},
	"mm a day":              {"in a day", 1 / mmPerInch},
	"cm":                    {"in", 10 / mmPerInch},
	"g/m²":                  {"lb/1000" + nb + "sq" + nb + "ft", perThousandFt},
	"kg/m²":                 {"lb/1000" + nb + "sq" + nb + "ft", 1000 * perThousandFt},
	"t/ha":                  {"lb/1000" + nb + "sq" + nb + "ft", 100 * perThousandFt},
	"litres a square metre": {"in", 1 / mmPerInch},
	"litres":                {"gal", 1 / litresPerGal},
	"sq ft":                 {"sq" + nb + "ft", 1}, // a sentence about money has them already
	"viable seeds/m²":       {"viable seeds/sq" + nb + "ft", m2PerSqFt},
	"seeds/m²":              {"seeds/sq" + nb + "ft", m2PerSqFt},
}

// percentSign is a percent sign as the sentences of the plan write it.
var percentSign = regexp.MustCompile(`(\d)[ \x{00a0}]%`)

// Prose rewrites the figures that stand with a unit in a sentence of the plan:
// the plan writes SI with a point, the reader may want US units or a comma, and the
// percent sign as the tables have it.
func (f *Sayer) Prose(s string) string {
	s = percentSign.ReplaceAllString(s, "${1}"+strings.TrimPrefix(f.Percent(0.5), "50"))
	return measure.ReplaceAllStringFunc(s, func(match string) string {
		m := measure.FindStringSubmatch(match)
		low, between, high, gap, unit, rest := m[1], m[2], m[3], m[4], m[5], m[6]
		convert := func(number string) string { return f.asWritten(number) }
		if f.us {
			u, known := proseUnits[unit]
			if !known {
				u = customary[unit]
			}
			factor, offset := u.factor, 0.0
			if unit == "°C" {
				u.name, factor, offset = "°F", 9.0/5, 32
			}
			convert = func(number string) string { return f.sized(number, factor, offset, strings.HasPrefix(u.name, "in")) }
			unit = u.name
		} else if gap = nb; unit == "m2" || unit == "m3" {
			unit = tidy[unit]
		}
		out := convert(low)
		if high != "" {
			out += between + convert(high)
		}
		return out + gap + unit + rest
	})
}

// isoDate is a date as the sentences about money write it.
var isoDate = regexp.MustCompile(`\b\d{4}-\d{2}-\d{2}\b`)

// Prices rewrites the sums of one currency and the dates that stand in a sentence
// about money. A sum has the decimals of its currency, or its code after it.
func (f *Sayer) Prices(s, code string) string {
	digits := money.Digits(code)
	pattern := `\b\d+ ` + code + `\b`
	if digits > 0 {
		pattern = fmt.Sprintf(`\b\d+\.\d{%d}\b(?: %s\b)?`, digits, code)
	}
	sum := regexp.MustCompile(pattern)
	s = isoDate.ReplaceAllStringFunc(s, func(date string) string {
		if t, err := time.Parse(time.DateOnly, date); err == nil {
			return f.Date(t)
		}
		return date
	})
	return sum.ReplaceAllStringFunc(s, func(match string) string {
		number, _, _ := strings.Cut(match, " ")
		if d, err := decimal.NewFromString(number); err == nil {
			if a, err := money.Round(d, code); err == nil {
				return f.Money(a)
			}
		}
		return match
	})
}

// asWritten keeps the decimals of a number and gives it the reader's signs.
func (f *Sayer) asWritten(number string) string {
	x, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return number
	}
	decimals := 0
	if i := strings.IndexByte(number, '.'); i >= 0 {
		decimals = len(number) - i - 1
	}
	return f.Number(x, decimals)
}

// sized is a converted number as it would be said: tenths below 10, inches in ones
// from 3 on, small things to one figure.
func (f *Sayer) sized(number string, factor, offset float64, inches bool) string {
	x, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return number
	}
	x = x*factor + offset
	switch {
	case x >= 10 || inches && x >= 3:
		return f.Number(x, 0)
	case x >= 0.1:
		return strings.TrimSuffix(f.Number(x, 1), f.Number(0, 1)[1:])
	default:
		return f.Figures(x, 1)
	}
}

// renamed is the advice on cultivars under the names that the reader's tables use.
func (f *Sayer) renamed(c mix.Choice) []string {
	if c.Mixture == nil {
		return c.Cultivars
	}
	var names []string
	for _, x := range c.Mixture.Components {
		names = append(names, x.Species.Common("en-GB")+":", f.Figure(told.Grass(x.Species.ID))+":")
	}
	r := strings.NewReplacer(names...)
	out := make([]string, len(c.Cultivars))
	for i, s := range c.Cultivars {
		out[i] = r.Replace(s)
	}
	return out
}

// Worded is the plan with the figures in its sentences as the reader writes them.
// Figures that stand in fields of their own are left to the pages.
func (f *Sayer) Worded(p sowing.Plan) sowing.Plan {
	list := func(in []string) []string {
		if in == nil {
			return nil
		}
		out := make([]string, len(in))
		for i, s := range in {
			out[i] = f.Prose(s)
		}
		return out
	}
	p.Headline, p.Rate.Because = f.Prose(p.Headline), f.Prose(p.Rate.Because)
	p.Sources = list(p.Sources)
	p.Cautions = lo.Map(p.Cautions, func(s told.Sentence, _ int) told.Sentence {
		if len(s.Figures) == 1 { // one that still stands in letters
			if v, ok := s.Figures[0].(told.Verbatim); ok {
				return told.Say("job.as-written", told.Verbatim(f.Prose(string(v))))
			}
		}
		return s
	})
	p.Choice.Cultivars = f.renamed(p.Choice)
	if p.Choice.Mixture != nil {
		m := *p.Choice.Mixture
		m.Components = lo.Map(m.Components, func(c mix.Component, _ int) mix.Component {
			c.Because = f.Prose(c.Because)
			return c
		})
		p.Choice.Mixture = &m
	}
	p.Choice.LeftOut = lo.Map(p.Choice.LeftOut, func(l mix.LeftOut, _ int) mix.LeftOut {
		l.Because = f.Prose(l.Because)
		return l
	})

	if p.Cost.Currency != "" {
		p.Why = f.Prices(p.Why, p.Cost.Currency)
	}
	return p
}
