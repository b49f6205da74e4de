// Package sheet reads typed, checked values from a TOML text written by hand.
//
// A Sheet is one table of the text. Each reader names a key and what is
// allowed; it remembers that the key exists, records a Fault when the value is
// of the wrong kind or out of range, and says whether a good value was there.
// Reading goes on after a fault, so that all faults of a text come out
// together, those for keys that no reader asked for included.
//
//	root := sheet.Open("court.toml", text)
//	place := root.Table("place")
//	lat, ok := place.Number("latitude", -90, 90)
//	…
//	if err := root.Faults(); err != nil { … }
package sheet

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

// Limits on a text. They are far above any honest brief and keep a hostile one
// from costing time or memory.
const (
	MaxBytes  = 1 << 20 // of a whole text
	maxNest   = 12      // arrays, tables and dotted keys inside each other
	maxKey    = 100     // bytes of one part of a key
	maxText   = 500     // characters of one text value
	maxFaults = 200     // reported of one text
)

// book is one whole text with everything noted while reading it.
type book struct {
	name string
	outline
	damaged map[string]bool // keys whose line could not be read at all
	faults  Faults
	sheets  []*Sheet
	assumed []string
}

// Sheet is one table of a text. A table that is not in the text reads as an
// empty one.
type Sheet struct {
	book   *book
	path   string
	table  map[string]any
	known  []string
	spoilt bool // stands where a table should and is none; told already
}

// Open decodes the text of a file of the given name. What cannot be read at all is already among the faults
// of the sheet returned, which then holds what is left.
func Open(name string, text []byte) *Sheet {
	b := &book{name: name, damaged: map[string]bool{}}
	s := &Sheet{book: b}
	b.sheets = append(b.sheets, s)

	text, fault := plain(text)
	if fault == nil {
		b.outline, fault = scan(text)
	}
	if fault != nil {
		b.faults = append(b.faults, *fault)
		b.damaged[""] = true
		return s
	}
	s.table = b.decode(text)
	return s
}

// decode reads the text as TOML. A line that breaks the syntax is noted, left
// out and the rest read again, as long as leaving it out cannot change the
// meaning of the lines after it.
func (b *book) decode(text []byte) map[string]any {
	const tries = 20
	for range tries {
		var table map[string]any
		_, err := toml.Decode(string(text), &table)
		if err == nil {
			return table
		}
		fault, line := b.syntaxFault(text, err)
		b.faults = append(b.faults, fault)
		key, ok := b.keyOnLine[line]
		if !ok {
			break
		}
		b.damaged[key] = true
		text = withoutLine(text, line)
	}
	// Nothing more can be said of a text that cannot be read.
	b.damaged[""] = true
	return nil
}

// Faults gives every fault found so far, by line and then by key, unknown keys
// included; nil when there is none. It is called once, after all reading.
func (s *Sheet) Faults() error {
	b := s.book
	if !b.damaged[""] {
		b.unknownKeys()
	}
	if len(b.faults) == 0 {
		return nil
	}
	sort.SliceStable(b.faults, func(i, j int) bool {
		x, y := b.faults[i], b.faults[j]
		if x.Line != y.Line {
			return x.Line < y.Line
		}
		return x.Path < y.Path
	})
	b.faults = slices.Compact(b.faults)
	for i := range b.faults {
		b.faults[i].File = b.name
	}
	if n := len(b.faults); n > maxFaults {
		b.faults = append(b.faults[:maxFaults], Fault{
			File: b.name, Line: b.faults[maxFaults].Line,
			Text: fmt.Sprintf("%d more faults from here on", n-maxFaults)})
	}
	return b.faults
}

// Known gives the path of every key that was asked for, sorted.
func (s *Sheet) Known() []string {
	var paths []string
	for _, t := range s.book.sheets {
		for _, k := range t.known {
			paths = append(paths, t.pathOf(k))
		}
	}
	sort.Strings(paths)
	return paths
}

// Assumed gives what Assume noted, in order.
func (s *Sheet) Assumed() []string { return s.book.assumed }

// Assume notes what was taken for something the text leaves out.
func (s *Sheet) Assume(format string, args ...any) {
	s.book.assumed = append(s.book.assumed, fmt.Sprintf(format, args...))
}

// Faultf notes a fault of a key of this table, or with an empty key of the
// table itself.
func (s *Sheet) Faultf(key, format string, args ...any) {
	path := s.pathOf(key)
	if s.spoilt || s.book.damaged[""] || s.book.damaged[path] {
		return // told already
	}
	s.book.faults = append(s.book.faults, Fault{
		Path: path, Line: s.book.lineOf(path), Text: fmt.Sprintf(format, args...)})
}

// Sound says that no fault has been found so far.
func (s *Sheet) Sound() bool { return len(s.book.faults) == 0 }

// Path is where the table stands in the text; tables of an array are counted
// from one.
func (s *Sheet) Path() string { return s.path }

// Given says whether the text has the key, even one whose value cannot be read.
func (s *Sheet) Given(key string) bool {
	_, ok := s.value(key)
	return ok || s.spoilt || s.book.damaged[s.pathOf(key)] || s.book.damaged[""]
}

// Need notes a fault when the key is not in the text.
func (s *Sheet) Need(key, what string) {
	if !s.Given(key) {
		s.Faultf(key, "is missing; give %s", what)
	}
}

// AtMostOne notes a fault when the text has more than one of the keys.
func (s *Sheet) AtMostOne(keys ...string) {
	given := slices.DeleteFunc(slices.Clone(keys), func(k string) bool { return !s.Given(k) })
	if len(given) > 1 {
		s.Faultf(given[1], "stands beside %s; give only one of %s", strings.Join(given[:1], ""), list(keys, "and"))
	}
}

// Table opens the table under a key, the same sheet each time.
func (s *Sheet) Table(key string) *Sheet {
	for _, open := range s.book.sheets {
		if open.path == s.pathOf(key) {
			return open
		}
	}
	sub := &Sheet{book: s.book, path: s.pathOf(key)}
	s.book.sheets = append(s.book.sheets, sub)
	v, ok := s.value(key)
	if !ok {
		sub.spoilt = s.spoilt || s.book.damaged[sub.path]
		return sub
	}
	sub.spoilt = true
	switch t := v.(type) {
	case map[string]any:
		sub.table, sub.spoilt = t, false
	case []map[string]any:
		s.Faultf(key, "is one table, not several: write [%s] with single brackets, once", sub.path)
	default:
		s.Faultf(key, "needs keys of its own, like %s = { … } or %s, is %s", key, tableName(sub.path), show(v))
	}
	return sub
}

// Tables opens each table of an array of tables.
func (s *Sheet) Tables(key string) []*Sheet {
	v, ok := s.value(key)
	if !ok {
		return nil
	}
	path := s.pathOf(key)
	var tables []map[string]any
	switch t := v.(type) {
	case []map[string]any:
		tables = t
	case map[string]any:
		s.Faultf(key, "can be several: write [[%s]] with double brackets", path)
		return nil
	case []any:
		for _, e := range t {
			if m, ok := e.(map[string]any); ok {
				tables = append(tables, m)
			}
		}
		if len(tables) != len(t) {
			s.Faultf(key, "needs tables, [[%s]] on a line of its own for each", path)
			return nil
		}
	default:
		s.Faultf(key, "needs tables, [[%s]] on a line of its own for each, is %s", path, show(v))
		return nil
	}
	subs := make([]*Sheet, len(tables))
	for i, t := range tables {
		subs[i] = &Sheet{book: s.book, path: fmt.Sprintf("%s[%d]", path, i+1), table: t}
	}
	s.book.sheets = append(s.book.sheets, subs...)
	return subs
}

// Keys gives every key of the table, sorted, and counts each as known.
func (s *Sheet) Keys() []string {
	keys := make([]string, 0, len(s.table))
	for k := range s.table {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	for _, k := range keys {
		s.value(k)
	}
	return keys
}

// Number reads a number from lo to hi, both included.
func (s *Sheet) Number(key string, lo, hi float64) (float64, bool) {
	v, ok := s.value(key)
	if !ok {
		return 0, false
	}
	return s.number(key, v, lo, hi)
}

// NumberOr is Number with what is taken, and noted as assumed, when it is absent.
func (s *Sheet) NumberOr(key string, lo, hi, otherwise float64, noted string) float64 {
	if f, ok := s.Number(key, lo, hi); ok {
		return f
	}
	if !s.Given(key) {
		s.Assume("%s", noted)
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
	v, ok := s.value(key)
	if !ok {
		return Pair{}, false
	}
	return s.pair(key, v, [2]float64{lo, lo}, [2]float64{hi, hi})
}

// Pairs reads [[a, b], …] of at least least pairs, called what in the plural;
// lo and hi bound a and b.
func (s *Sheet) Pairs(key, what string, least int, lo, hi [2]float64) ([]Pair, bool) {
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
	case strings.ContainsFunc(t, func(r rune) bool { return unicode.IsControl(r) }):
		s.Faultf(key, "needs one line of text without control characters, is %s", show(v))
	default:
		return t, true
	}
	return "", false
}

// Choice reads one of the allowed words.
func Choice[T ~string](s *Sheet, key string, allowed ...T) (T, bool) {
	words := make([]string, len(allowed))
	for i, a := range allowed {
		words[i] = strconv.Quote(string(a))
	}
	v, ok := s.value(key)
	if !ok {
		return "", false
	}
	t, isText := v.(string)
	if !isText {
		s.Faultf(key, "needs %s, is %s", oneOf(words), show(v))
		return "", false
	}
	plain := make([]string, len(allowed))
	for i, a := range allowed {
		if t == string(a) {
			return a, true
		}
		plain[i] = string(a)
	}
	hint := ""
	if n := Nearest(t, plain); n != "" && len(plain) > 4 {
		hint = fmt.Sprintf("; did you mean %q?", n)
	}
	s.Faultf(key, "needs %s, is %s%s", oneOf(words), show(v), hint)
	return "", false
}

// Flag reads true or false.
func (s *Sheet) Flag(key string) (value, given bool) {
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

// value gives what the text has under a key, and counts the key as known.
func (s *Sheet) value(key string) (any, bool) {
	if !slices.Contains(s.known, key) {
		s.known = append(s.known, key)
	}
	v, ok := s.table[key]
	return v, ok
}

func (s *Sheet) pathOf(key string) string { return join(s.path, key) }

func join(path, key string) string {
	switch {
	case key == "":
		return path
	case path == "":
		return key
	}
	return path + "." + key
}

func element(key string, i int) string { return fmt.Sprintf("%s[%d]", key, i+1) }
