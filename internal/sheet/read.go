package sheet

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"swardwright/internal/plain"
	"swardwright/internal/told"
)

// Number reads a number from lo to hi, both included.
func (s *Sheet) Number(key string, lo, hi float64) (float64, bool) {
	s.askNumber(key, OneNumber, lo, hi)
	v, ok := s.value(key)
	if !ok {
		return 0, false
	}
	return s.number(key, v, lo, hi)
}

// NumberOr is Number with what is taken, and noted as assumed, when it is absent.
func (s *Sheet) NumberOr(key string, lo, hi, otherwise float64, noted told.Sentence) float64 {
	if f, ok := s.Number(key, lo, hi); ok {
		return f
	}
	if !s.Given(key) {
		s.Assume(noted)
	}
	return otherwise
}

// Optional is Number for a value whose absence means something; nil when absent.
func (s *Sheet) Optional(key string, lo, hi float64) *float64 {
	if f, ok := s.Number(key, lo, hi); ok {
		return &f
	}
	return nil
}

// number checks one value; at is the key, with an index for a value of an array.
func (s *Sheet) number(at string, v any, lo, hi float64) (float64, bool) {
	var f float64
	switch n := v.(type) {
	case int64:
		f = float64(n)
	case float64:
		f = n
	case string:
		if looksNumeric(n) {
			s.Faultf(at, "needs a number without quotes and with a decimal point, %s, is %s",
				strings.ReplaceAll(strings.TrimSpace(n), ",", "."), show(v))
		} else {
			s.Faultf(at, "needs a number %s, is %s", between(lo, hi), show(v))
		}
		return 0, false
	default:
		s.Faultf(at, "needs a number %s, is %s", between(lo, hi), show(v))
		return 0, false
	}
	if !(f >= lo && f <= hi) || math.IsInf(f, 0) { // the first catches NaN too
		s.Faultf(at, "needs a number %s, is %s", between(lo, hi), show(v))
		return 0, false
	}
	return f, true
}

// Numbers reads an array of at least one number.
func (s *Sheet) Numbers(key string, lo, hi float64) ([]float64, bool) {
	s.askNumber(key, SomeNumbers, lo, hi)
	v, ok := s.value(key)
	if !ok {
		return nil, false
	}
	a, ok := v.([]any)
	if !ok || len(a) == 0 {
		s.Faultf(key, "needs a list of numbers, like [1, 5, 20], is %s", show(v))
		return nil, false
	}
	out := make([]float64, len(a))
	for i, e := range a {
		f, good := s.number(element(key, i), e, lo, hi)
		out[i], ok = f, ok && good
	}
	return out, ok
}

// Months reads twelve numbers, January first; nil when there are none.
func (s *Sheet) Months(key string, lo, hi float64) *[12]float64 {
	s.askNumber(key, TwelveMonth, lo, hi)
	v, ok := s.value(key)
	if !ok {
		return nil
	}
	a, isArray := v.([]any)
	switch {
	case !isArray:
		s.Faultf(key, "needs 12 numbers, January first, in brackets, is %s", show(v))
		return nil
	case len(a) > 12 && allIntegers(a):
		s.Faultf(key, "needs 12 numbers, January first, has %d; decimals are written with a point: 60.5, not 60,5", len(a))
		return nil
	case len(a) != 12:
		s.Faultf(key, "needs 12 numbers, January first, has %d", len(a))
		return nil
	}
	var out [12]float64
	for i, e := range a {
		f, good := s.number(element(key, i), e, lo, hi)
		out[i], ok = f, ok && good
	}
	if !ok {
		return nil
	}
	return &out
}

// IsList says whether the value of a key stands in brackets.
func (s *Sheet) IsList(key string) bool {
	v, _ := s.value(key)
	_, ok := v.([]any)
	return ok
}

// Pair is two numbers written [a, b].
type Pair [2]float64

// Pair reads [a, b], both from lo to hi.
func (s *Sheet) Pair(key string, lo, hi float64) (Pair, bool) {
	s.askNumber(key, OnePair, lo, hi)
	v, ok := s.value(key)
	if !ok {
		return Pair{}, false
	}
	return s.pair(key, v, [2]float64{lo, lo}, [2]float64{hi, hi})
}

// Pairs reads [[a, b], …] of at least least pairs, called what in the plural;
// lo and hi bound a and b.
func (s *Sheet) Pairs(key, what string, least int, lo, hi [2]float64) ([]Pair, bool) {
	s.ask(key, Ask{Kind: SomePairs, Lo: lo, Hi: hi})
	v, ok := s.value(key)
	if !ok {
		return nil, false
	}
	a, isArray := v.([]any)
	if !isArray {
		s.Faultf(key, "needs %s in brackets, like [[0, 0], [12, 0], [12, 7]], is %s", what, show(v))
		return nil, false
	}
	if len(a) > 0 && !isList(a[0]) {
		s.Faultf(key, "needs %s each in brackets of their own, like [[0, 0], [12, 0], [12, 7]]", what)
		return nil, false
	}
	if len(a) < least {
		s.Faultf(key, "needs at least %d %s, has %d", least, what, len(a))
		return nil, false
	}
	out := make([]Pair, len(a))
	for i, e := range a {
		p, good := s.pair(element(key, i), e, lo, hi)
		out[i], ok = p, ok && good
	}
	return out, ok
}

func (s *Sheet) pair(at string, v any, lo, hi [2]float64) (Pair, bool) {
	a, ok := v.([]any)
	if !ok {
		s.Faultf(at, "needs two numbers in brackets, like [2.5, 1.0], is %s", show(v))
		return Pair{}, false
	}
	if len(a) != 2 {
		hint := ""
		if len(a) > 2 && allIntegers(a) {
			hint = "; decimals are written with a point: 2.5, not 2,5"
		}
		s.Faultf(at, "needs two numbers, has %d%s", len(a), hint)
		return Pair{}, false
	}
	x, ok1 := s.number(element(at, 0), a[0], lo[0], hi[0])
	y, ok2 := s.number(element(at, 1), a[1], lo[1], hi[1])
	return Pair{x, y}, ok1 && ok2
}

// Text reads one line of text.
func (s *Sheet) Text(key string) (string, bool) {
	s.ask(key, Ask{Kind: OneText})
	v, ok := s.value(key)
	if !ok {
		return "", false
	}
	t, isText := v.(string)
	if !isText {
		s.Faultf(key, "needs text in quotes, is %s", show(v))
		return "", false
	}
	t = strings.TrimSpace(t)
	switch {
	case t == "":
		s.Faultf(key, "is empty; give a text or leave the key out")
	case utf8.RuneCountInString(t) > maxText:
		s.Faultf(key, "needs at most %d characters, has %d", maxText, utf8.RuneCountInString(t))
	default:
		r, strange := plain.Strange(t)
		if !strange {
			return t, true
		}
		s.Faultf(key, "needs one line of text, holds a character that does not show, %U: %s", r, show(v))
	}
	return "", false
}

// Choice reads one of the allowed words.
func Choice[T ~string](s *Sheet, key string, allowed ...T) (T, bool) {
	known, words := make([]string, len(allowed)), make([]string, len(allowed))
	for i, a := range allowed {
		known[i], words[i] = string(a), strconv.Quote(string(a))
	}
	s.ask(key, Ask{Kind: OneWord, Words: known})
	v, ok := s.value(key)
	if !ok {
		return "", false
	}
	t, isText := v.(string)
	if !isText {
		s.Faultf(key, "needs %s, is %s", oneOf(words), show(v))
		return "", false
	}
	if i := slices.Index(known, t); i >= 0 {
		return allowed[i], true
	}
	s.Hintf(key, func() string {
		if n := Nearest(t, known); n != "" {
			return fmt.Sprintf("; did you mean %q?", n)
		}
		return ""
	}, "needs %s, is %s", oneOf(words), show(v))
	return "", false
}

// Flag reads true or false.
func (s *Sheet) Flag(key string) (value, given bool) {
	s.ask(key, Ask{Kind: YesOrNo})
	v, ok := s.value(key)
	if !ok {
		return false, false
	}
	b, isBool := v.(bool)
	if !isBool {
		s.Faultf(key, "needs true or false, is %s", show(v))
	}
	return b, isBool
}

// Dates outside these years are slips of the pen.
const firstYear, lastYear = 1900, 2199

// Date reads a day; nil when there is none.
func (s *Sheet) Date(key string) *time.Time {
	s.ask(key, Ask{Kind: OneDay})
	v, ok := s.value(key)
	if !ok {
		return nil
	}
	t, isTime := v.(time.Time)
	if !isTime || t.Location().String() != "date-local" {
		if text, isText := v.(string); isText && datelike.MatchString(text) {
			s.Faultf(key, "needs a date without quotes, year first, like 2027-03-15, is %s", show(v))
		} else {
			s.Faultf(key, "needs a date alone, like 2027-03-15, is %s", show(v))
		}
		return nil
	}
	if t.Year() < firstYear || t.Year() > lastYear {
		s.Faultf(key, "needs a year from %d to %d, is %s", firstYear, lastYear, show(v))
		return nil
	}
	day := time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC)
	return &day
}

// Any reads whatever stands under a key; nil without one. The caller checks it.
func (s *Sheet) Any(key string) any {
	v, _ := s.value(key)
	return v
}

// Decimal reads a number as decimal text, with exactly the digits given.
func (s *Sheet) Decimal(key string) (string, bool) {
	const most = 1e12 // beyond any money
	f, ok := s.Number(key, -most, most)
	if !ok {
		return "", false
	}
	return strconv.FormatFloat(f, 'f', -1, 64), true
}

// Price is Decimal from nothing to hi.
func (s *Sheet) Price(key string, hi float64) (string, bool) {
	if _, ok := s.Number(key, 0, hi); !ok {
		return "", false
	}
	return s.Decimal(key)
}
