package say

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"time"

	"golang.org/x/text/feature/plural"

	"swardwright/internal/steady"
	"swardwright/internal/told"
	"swardwright/sowing/money"
)

// nb joins the parts of one figure.
const nb = "\u00a0"

// scale is how a figure of one dimension is written: the number in the unit shown,
// its decimals, and what the number is put into.
type scale struct {
	factor, offset float64 // from the unit of the type to the one shown
	decimals       func(x float64) int
	frame          func(number string) string
	fractions      bool // rather than decimals: of an inch
}

// shown is a value in the unit shown.
func (s scale) shown(x float64) float64 { return x*s.factor + s.offset }

// number writes a value alone.
func (v voice) number(s scale, x float64) string {
	x = s.shown(x)
	if s.fractions && math.Abs(x) >= 1./8 {
		return v.inches(x)
	}
	return v.Number(x, s.decimals(x))
}

// unit is the scale of a plain unit after the number.
func unit(name string, factor float64, decimals func(x float64) int) scale {
	return scale{factor: factor, decimals: decimals, frame: func(n string) string { return n + nb + name }}
}

// upTo is a precision: so many decimals, noughts cut.
func upTo(n int) func(float64) int {
	return func(x float64) int {
		d := n
		for d > 0 && math.Abs(round(x, d-1)-round(x, d)) < 1e-12 {
			d--
		}
		return d
	}
}

// significant is a precision: so many figures, noughts cut, larger numbers in ones.
func significant(n int) func(float64) int {
	return func(x float64) int {
		if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
			return 0
		}
		return upTo(max(0, n-1-int(math.Floor(steady.Figure(math.Log10(math.Abs(x)))))))(x)
	}
}

// twoTo is a precision: two figures, but no more than n decimals, and one figure of
// what would be lost by that.
func twoTo(n int) func(float64) int {
	return func(x float64) int {
		if math.Abs(x) < math.Pow10(-n) {
			return significant(1)(x)
		}
		return min(significant(2)(x), upTo(n)(x))
	}
}

// tenths is a precision: tenths, and two figures of what is less than one.
func tenths(x float64) int {
	if math.Abs(x) >= 1 {
		return upTo(1)(x)
	}
	return significant(2)(x)
}

// exactly is a precision: so many decimals, noughts kept.
func exactly(n int) func(float64) int { return func(float64) int { return n } }

func round(x float64, decimals int) float64 {
	return steady.Round(x, decimals)
}

// US customary units in SI: NIST Handbook 44, appendix C.
const (
	metresPerFoot  = 0.3048
	mmPerInch      = 25.4
	gramsPerPound  = 453.59237
	gramsPerOunce  = gramsPerPound / 16
	poundsPerTon   = 2000 // the short ton
	litresPerGal   = 3.785411784
	metresPerMile  = 5280 * metresPerFoot
	m2PerSqFt      = metresPerFoot * metresPerFoot
	m3PerCuFt      = m2PerSqFt * metresPerFoot
	cuFtPerCuYd    = 27
	fahrenheitEach = 1.8
	perThousandFt  = 1000 * m2PerSqFt / gramsPerPound // lb/1000 sq ft of 1 g/m²
)

// The units that are written in letters of their own.
const (
	sqFt       = "sq" + nb + "ft"
	cuFt       = "cu" + nb + "ft"
	cuYd       = "cu" + nb + "yd"
	thousandFt = "/1000" + nb + "sq" + nb + "ft"
)

// measure finds the scale and the value of a figure that is a number with a unit.
// The scale is chosen for size, the larger end where the figure is one of a range.
// A table of the kinds of figure, a line each, of which the type switch is the key.
//
//gocyclo:ignore
func (v voice) measure(f told.Figure, size float64) (scale, bool) {
	us := v.us
	pick := func(metric, customary scale) (scale, bool) {
		if us {
			return customary, true
		}
		return metric, true
	}
	three, two := significant(3), significant(2)
	switch f.(type) {
	case told.TemperatureC:
		return pick(unit("°C", 1, upTo(1)), scale{factor: fahrenheitEach, offset: 32, decimals: exactly(0), frame: func(n string) string { return n + nb + "°F" }})
	case told.TemperatureDiffK:
		return pick(unit("°C", 1, upTo(1)), unit("°F", fahrenheitEach, upTo(1)))
	case told.DistanceKM:
		return pick(unit("km", 1, two), unit("mi", 1000/metresPerMile, two))
	case told.LengthM:
		return pick(unit("m", 1, three), unit("ft", 1/metresPerFoot, feet))
	case told.DepthMM:
		return v.depth(size), true
	case told.FineMM:
		return pick(unit("mm", 1, two), unit("in", 1/mmPerInch, two))
	case told.WaterMM:
		return pick(unit("mm", 1, twoTo(1)), unit("in", 1/mmPerInch, twoTo(2)))
	case told.AreaM2:
		return pick(unit("m²", 1, three), unit(sqFt, 1/m2PerSqFt, three))
	case told.MassG:
		return v.mass(size, 1), true
	case told.MassKG:
		return v.mass(1000*size, 1000), true
	case told.MassT:
		return pick(unit("t", 1, three), unit("tons", 1e6/gramsPerPound/poundsPerTon, three))
	case told.VolumeL:
		return pick(unit("L", 1, three), unit("gal", 1/litresPerGal, three))
	case told.VolumeM3:
		customary := unit(cuFt, 1/m3PerCuFt, three)
		if size >= cuFtPerCuYd*m3PerCuFt {
			customary = unit(cuYd, 1/m3PerCuFt/cuFtPerCuYd, three)
		}
		return pick(unit("m³", 1, three), customary)
	case told.LoadL:
		return pick(unit("L", 1, three), unit(cuFt, 1/m3PerCuFt/1000, two))
	case told.GramsPerM2:
		return pick(unit("g/m²", 1, tenths), unit("lb"+thousandFt, perThousandFt, significant(2)))
	case told.KGPerM2:
		return pick(unit("kg/m²", 1, three), unit("lb"+thousandFt, 1000*perThousandFt, significant(2)))
	case told.TonnesPerHa:
		return pick(unit("t/ha", 1, two), unit("lb"+thousandFt, 100*perThousandFt, significant(2)))
	case told.GramsPerKG:
		return pick(unit("g", 1, three), unit("lb", 1e-3, two))
	case told.SeedsPerG:
		return pick(unit("/g", 1, hundreds), unit("/lb", gramsPerPound, hundreds))
	case told.LitresPerM2:
		return pick(unit("L/m²", 1, two), unit(cuFt+thousandFt, m2PerSqFt/m3PerCuFt, two))
	case told.MMPerHour:
		return pick(unit("mm/h", 1, two), unit("in/h", 1/mmPerInch, two))
	case told.MMPerDay:
		return pick(unit("mm/d", 1, two), unit("in/d", 1/mmPerInch, two))
	case told.SeedsPerM2:
		return v.overGround("figures.seeds"), true
	case told.PerM2:
		return v.overGround("figures.each"), true
	case told.HoursPerM2:
		return pick(unit("h/m²", 1, two), unit("h"+thousandFt, 1000*m2PerSqFt, two))
	case told.M2PerHour:
		return pick(unit("m²/h", 1, two), unit(sqFt+"/h", 1/m2PerSqFt, two))
	case told.Share:
		return v.percent(0), true
	case told.FineShare:
		return v.percent(1), true
	case told.DLI:
		return unit("mol"+nb+"m⁻²"+nb+"d⁻¹", 1, upTo(1)), true
	case told.SunHours:
		return unit("h", 1, upTo(1)), true
	case told.CrewHours:
		return unit("h", 1, twoTo(2)), true
	case told.SalinityDSM:
		return unit("dS/m", 1, upTo(1)), true
	case told.WindMS:
		return pick(unit("m/s", 1, upTo(1)), unit("mph", 3600/metresPerMile, upTo(0)))
	case told.Degrees, told.Bearing:
		return scale{factor: 1, decimals: exactly(0), frame: func(n string) string { return n + "°" }}, true
	case told.Coordinate:
		return scale{factor: 1, decimals: exactly(2), frame: func(n string) string { return n + "°" }}, true
	case told.PH:
		return scale{factor: 1, decimals: exactly(1), frame: same}, true
	case told.Score:
		return scale{factor: 1, decimals: exactly(2), frame: same}, true
	}
	return scale{}, false
}

func same(n string) string { return n }

// depth is by size: a cut in millimetres, a wall of soil in metres; in the US in
// fractions of an inch, feet from four feet.
func (v voice) depth(mm float64) scale {
	if !v.us {
		if math.Abs(mm) >= 1000 {
			return unit("m", 1e-3, upTo(2))
		}
		return unit("mm", 1, significant(2))
	}
	if math.Abs(mm/mmPerInch) >= 48 {
		return unit("ft", 1e-3/metresPerFoot, feet)
	}
	s := unit("in", 1/mmPerInch, twoTo(2))
	s.fractions = true
	return s
}

// feet is a precision: tenths below ten, whole ones above.
func feet(x float64) int {
	if math.Abs(x) < 9.95 {
		return upTo(1)(x)
	}
	return 0
}

// inches are as a rule is marked: sixteenths below a half, eighths below one, quarters
// below four, halves below ten.
func (v voice) inches(x float64) string {
	sign, size := "", math.Abs(x)
	if x < 0 {
		sign = "−"
	}
	in := 1
	for _, mark := range []struct {
		below float64
		in    int
	}{{0.5, 16}, {1, 8}, {4, 4}, {10, 2}} {
		if size < mark.below {
			in = mark.in
			break
		}
	}
	n := int(steady.Round(size*float64(in), 0))
	whole, n := n/in, n%in
	for n > 0 && n%2 == 0 {
		n, in = n/2, in/2
	}
	switch {
	case n == 0:
		return sign + v.Number(float64(whole), 0)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d", sign, n, in)
	}
	return fmt.Sprintf("%s%d%s%d/%d", sign, whole, nb, n, in)
}

// mass is by size in grams of a figure whose unit is so many grams.
func (v voice) mass(grams, each float64) scale {
	three := significant(3)
	switch grams = math.Abs(grams); {
	case !v.us && grams < 1000:
		return unit("g", each, three)
	case !v.us:
		return unit("kg", each/1000, three)
	case grams < gramsPerPound:
		return unit("oz", each/gramsPerOunce, significant(2))
	default:
		return unit("lb", each/gramsPerPound, three)
	}
}

// overGround are seeds and holes, framed by an entry of the catalogue that has the
// number and the unit of area.
func (v voice) overGround(name string) scale {
	area, factor := "m²", 1.0
	if v.us {
		area, factor = sqFt, m2PerSqFt
	}
	return scale{factor: factor, decimals: hundreds, frame: func(n string) string {
		return v.must(name, told.Verbatim(n), told.Verbatim(area))
	}}
}

// hundreds is a precision: three figures of large numbers, ones of small.
func hundreds(x float64) int {
	if x < 1000 {
		return 0
	}
	return 2 - int(math.Floor(steady.Figure(math.Log10(x))))
}

// percent takes the sign and its place from the language.
func (v voice) percent(decimals int) scale {
	sign := v.percentSign()
	return scale{factor: 100, decimals: upTo(decimals), frame: func(n string) string { return n + sign }}
}

// span is a count of days or the like, with its noun in the number that n asks for.
func (v voice) span(noun string, n told.Figure) scale {
	return scale{factor: 1, decimals: exactly(0), frame: func(number string) string {
		e, ok := v.entry("count." + noun)
		if !ok {
			return v.must("count."+noun, n) // in English
		}
		t, ok := e.forms[v.plural(n)]
		if !ok {
			t = e.forms[plural.Other]
		}
		return v.put(t, func(int) string { return number })
	}}
}

// nounOf is the noun of the figures that are counts with a noun of their own.
func (v voice) nounOf(f told.Figure) (string, bool) {
	switch x := f.(type) {
	case told.Days:
		return "days", true
	case told.Weeks:
		return "weeks", true
	case told.Months:
		return "months", true
	case told.Years:
		return "years", true
	case told.Counted:
		return x.Of, true
	}
	return "", false
}

// numberOf is the value of a figure that is one number.
func numberOf(f told.Figure) (float64, bool) {
	if c, ok := f.(told.Counted); ok {
		return float64(c.N), true
	}
	switch r := reflect.ValueOf(f); {
	case r.CanFloat():
		return r.Float(), true
	case r.CanInt():
		return float64(r.Int()), true
	}
	return 0, false
}

// scaleOf is the scale of a figure, nil for one that is worded otherwise.
func (v voice) scaleOf(f told.Figure) *scale {
	if noun, ok := v.nounOf(f); ok {
		s := v.span(noun, f)
		return &s
	}
	size, ok := numberOf(f)
	if !ok {
		return nil
	}
	if s, ok := v.measure(f, size); ok {
		return &s
	}
	return nil
}

// figure words one figure: a table of the kinds that are no number with a unit.
//
//gocyclo:ignore
func (v voice) figure(f told.Figure) string {
	if s := v.scaleOf(f); s != nil {
		x, _ := numberOf(f)
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return "–"
		}
		return s.frame(v.number(*s, x))
	}
	switch x := f.(type) {
	case told.Sentence:
		return v.say(x)
	case told.List:
		return v.list(x)
	case told.Range:
		return v.between(x)
	case told.Count:
		return v.Number(float64(x), 0)
	case told.Number:
		return v.Number(x.X, x.Decimals)
	case told.Year:
		return strconv.Itoa(int(x))
	case told.Ordinal:
		return strconv.Itoa(int(x))
	case told.OneIn:
		return v.must("figures.one-in", told.Count(1), told.Number{X: 1 / float64(x)})
	case told.Points:
		return v.figure(told.Counted{N: int(steady.Round(100*float64(x), 0)), Of: "points"})
	case told.Odds:
		return v.odds(float64(x))
	case told.Chance:
		return v.chance(float64(x))
	case told.Hours:
		return v.hours(float64(x))
	case told.Money:
		return v.Sayer.Money(money.Amount(x))
	case told.MoneyRound:
		return v.Sayer.MoneyRound(money.Amount(x))
	case told.MoneyPerArea:
		return v.Sayer.moneyPerArea(money.Amount(x.Money), x.AreaM2)
	case told.Date:
		return v.dates.write(v.dates.Long, time.Time(x))
	case told.DayMonth:
		return v.dates.longDay(time.Time(x))
	case told.ShortDay:
		return v.dates.write(v.dates.Day, time.Time(x))
	case told.DayOfYear:
		if x < 0 {
			return "–"
		}
		return v.dates.longDay(dayOf(int(x)))
	case told.Month:
		return v.dates.Months[x-1]
	case told.Period:
		return v.period(x.From, x.To)
	case told.Optional:
		if x.Day.IsZero() {
			return v.say(x.Else)
		}
		return v.dates.write(v.dates.Long, x.Day)
	case told.Grass:
		return v.grass(string(x))
	case told.Zone:
		return string(x)
	case told.Verbatim:
		return string(x)
	case told.Source:
		return string(x)
	case told.Term:
		name := termName(x)
		if _, ok := v.english().entry(name); !ok {
			return x.Word
		}
		return v.must(name)
	}
	return ""
}

// termName is the entry of a term.
func termName(t told.Term) string { return "terms." + t.Kind + "." + t.Word }

// grass is the common name as the species table has it, and the botanical one where
// that has none of the language.
func (v voice) grass(id string) string {
	sp := v.grasses(id)
	switch {
	case sp == nil:
		return id
	case v.language == english:
		return sp.Common(v.tag.String())
	case len(sp.Names[v.language]) == 0:
		return sp.Botanical
	}
	return sp.Names[v.language][0]
}

// list joins its items as the language does.
func (v voice) list(l told.List) string {
	var items []string
	of := v.figure
	if l.Join == told.Sentences {
		of = v.Figure
	}
	for _, f := range l.Items {
		if s := of(f); s != "" {
			items = append(items, s)
		}
	}
	last := len(items) - 1
	switch l.Join {
	case told.Commas:
		return strings.Join(items, ", ")
	case told.Clauses:
		return strings.Join(items, "; ")
	case told.Then:
		return strings.Join(items, v.must("figures.then"))
	case told.Sentences:
		return strings.Join(items, " ")
	}
	if last < 1 {
		return strings.Join(items, "")
	}
	return v.must("figures."+string(l.Join), told.Verbatim(strings.Join(items[:last], ", ")), told.Verbatim(items[last]))
}

// period is a run of days, naming the year once where both lie in it.
func (v voice) period(from, to time.Time) string {
	c := v.dates
	switch {
	case to.IsZero() || from.Equal(to):
		return c.write(c.Medium, from)
	case from.IsZero():
		return c.write(c.Medium, to)
	case from.Year() == to.Year() && strings.HasSuffix(c.Medium, "%Y"):
		return v.to(c.write(c.Day, from), c.write(c.Medium, to))
	}
	return v.to(c.write(c.Medium, from), c.write(c.Medium, to))
}

// to words a range of two that are worded.
func (v voice) to(low, high string) string {
	if low == high {
		return low
	}
	return v.must("figures.range", told.Verbatim(low), told.Verbatim(high))
}

// between words a range, with its unit once where it has one.
func (v voice) between(r told.Range) string {
	s := v.scaleOf(r.High)
	low, ok := numberOf(r.Low)
	if s == nil || !ok {
		return v.to(v.figure(r.Low), v.figure(r.High))
	}
	high, _ := numberOf(r.High)
	return s.frame(v.to(v.number(*s, low), v.number(*s, high)))
}

// odds are a chance in percent, claiming no certainty.
func (v voice) odds(share float64) string {
	const least = 0.01
	switch {
	case share < least/2:
		return v.must("figures.under", told.Share(least))
	case share >= 1-least/2:
		return v.must("figures.over", told.Share(1-least))
	}
	return v.figure(told.Share(share))
}

// chance is a share of years as whole years in ten, claiming no certainty.
func (v voice) chance(share float64) string {
	switch n := steady.Round(10*share, 0); {
	case n <= 0:
		return v.must("figures.chance-none", told.Count(1), told.Count(10))
	case n >= 10:
		return v.must("figures.chance-all")
	default:
		return v.must("figures.chance", told.Count(n), told.Count(10))
	}
}

// hours is a span by the clock, days from two of them on.
func (v voice) hours(h float64) string {
	switch {
	case h < 1:
		return v.must("figures.under-an-hour")
	case h < 48:
		return v.figure(told.Counted{N: int(steady.Round(h, 0)), Of: "hours"})
	default:
		return v.figure(told.Days(steady.Round(h/24, 0)))
	}
}

// Column words the cells of one column of a table. Where all of them are measures
// of one type they get one unit and as many decimals each: those of the largest,
// and more where the smallest would lose its second figure. A nil cell is empty.
func (s *Sayer) Column(cells []told.Figure) []string {
	v := s.voices[0]
	out := make([]string, len(cells))
	shared, decimals := v.shared(cells)
	for i, f := range cells {
		switch {
		case f == nil:
		case shared == nil:
			out[i] = s.voiceOf(f).figure(f)
		default:
			x, _ := numberOf(f)
			if shared.fractions {
				out[i] = shared.frame(v.number(*shared, x))
			} else {
				out[i] = shared.frame(v.Number(shared.shown(x), decimals))
			}
		}
	}
	return out
}

// shared is the scale of cells that are measures of one type, with the decimals of
// them all; nil where they aren't.
func (v voice) shared(cells []told.Figure) (*scale, int) {
	var largest told.Figure
	var most float64
	least := math.Inf(1)
	for _, f := range cells {
		if f == nil {
			continue
		}
		x, ok := numberOf(f)
		if !ok || math.IsNaN(x) || largest != nil && reflect.TypeOf(f) != reflect.TypeOf(largest) {
			return nil, 0
		}
		if largest == nil || math.Abs(x) > most {
			largest, most = f, math.Abs(x)
		}
		if x != 0 {
			least = min(least, math.Abs(x))
		}
	}
	if largest == nil {
		return nil, 0
	}
	s, decimals := v.scaled(largest, most, most, least)
	if s != nil && decimals > mostDecimals {
		// A unit for the small ones, as far as it leaves the large ones legible.
		if small, d := v.scaled(largest, least, most, least); small.shown(most) < legible {
			s, decimals = small, d
		}
	}
	return s, decimals
}

// A column has no more decimals than this, unless its largest figure would then have
// more digits than can be taken in.
const mostDecimals, legible = 2, 1e4

// scaled is the scale of a figure of some size, and the decimals that the largest and
// the smallest of a column need in it.
func (v voice) scaled(f told.Figure, size, most, least float64) (*scale, int) {
	s, ok := v.measure(f, size)
	if !ok {
		return nil, 0
	}
	decimals := s.decimals(s.shown(most))
	if least < most && s.offset == 0 {
		decimals = max(decimals, min(s.decimals(s.shown(least)), significant(2)(s.shown(least))))
	}
	return &s, decimals
}
