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
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"sort"
	"strconv"
	"strings"
	"swardwright/internal/told"

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
	maxTables = 200     // of one array
)

// book is one whole text with everything noted while reading it.
type book struct {
	name string
	outline
	damaged map[string]bool // keys whose line could not be read at all
	faults  Faults
	sheets  []*Sheet
	assumed []told.Sentence
	asks    []Ask
}

// Sheet is one table of a text. A table that is not in the text reads as an
// empty one.
type Sheet struct {
	book    *book
	path    string
	table   map[string]any
	known   []string // keys asked for, in order
	isKnown map[string]bool
	spoilt  bool // stands where a table should and is none; told already
}

// Open decodes the text of a file of the given name. What cannot be read at all is already among the faults
// of the sheet returned, which then holds what is left.
func Open(name string, text []byte) *Sheet {
	b := &book{name: name, damaged: map[string]bool{}}
	s := &Sheet{book: b}
	b.sheets = append(b.sheets, s)

	text, fault := readable(text)
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

// decode reads the text as TOML. A line that begins a key and breaks the syntax is
// noted, left out and the rest read and walked again: a bracket left open on it no
// longer holds the lines after it.
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
		rest, tooMuch := scan(text)
		if tooMuch != nil {
			b.faults = append(b.faults, *tooMuch)
			break
		}
		b.overlay(rest)
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
	slices.SortStableFunc(b.faults, func(x, y Fault) int {
		return cmp.Or(cmp.Compare(x.Line, y.Line), cmp.Compare(x.Path, y.Path))
	})
	b.faults = slices.CompactFunc(b.faults, func(x, y Fault) bool {
		return x.Line == y.Line && x.Path == y.Path && x.Text == y.Text
	})
	if n := len(b.faults); n > maxFaults {
		b.faults = append(b.faults[:maxFaults], Fault{
			Line: b.faults[maxFaults].Line, Text: fmt.Sprintf("%d more faults from here on", n-maxFaults)})
	}
	for i := range b.faults {
		f := &b.faults[i]
		f.File = b.name
		if f.hint != nil {
			f.Text += f.hint()
			f.hint = nil
		}
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
func (s *Sheet) Assumed() []told.Sentence { return s.book.assumed }

// Assume notes what was taken for something the text leaves out.
func (s *Sheet) Assume(what told.Sentence) { s.book.assumed = append(s.book.assumed, what) }

// Faultf notes a fault of a key of this table, or with an empty key of the
// table itself.
func (s *Sheet) Faultf(key, format string, args ...any) { s.Hintf(key, nil, format, args...) }

// Hintf is Faultf with a hint to what was meant, put behind. It takes time to find,
// and is asked for only where the fault is shown.
func (s *Sheet) Hintf(key string, hint func() string, format string, args ...any) {
	s.fault(s.pathOf(key), hint, format, args...)
}

// FaultAt is Faultf for the path of a key anywhere in the text.
func (s *Sheet) FaultAt(path, format string, args ...any) { s.fault(path, nil, format, args...) }

func (s *Sheet) fault(path string, hint func() string, format string, args ...any) {
	if s.spoilt || s.book.damaged[""] || s.book.damaged[path] {
		return // told already
	}
	s.book.faults = append(s.book.faults, Fault{
		Path: path, Line: s.book.lineOf(path), Text: fmt.Sprintf(format, args...), hint: hint})
}

// Sound says that no fault has been found so far.
func (s *Sheet) Sound() bool { return len(s.book.faults) == 0 }

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
	s.ask(key, Ask{Kind: OneTable})
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

// Tables opens each table of an array of tables, of a number that makes sense.
func (s *Sheet) Tables(key string) []*Sheet {
	s.ask(key, Ask{Kind: SomeTables})
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
	if len(tables) > maxTables {
		s.Faultf(key, "can stand %d times at most, stands %d times", maxTables, len(tables))
		tables = tables[:maxTables]
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
	s.ask("", Ask{Kind: AnyKeys})
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

// value gives what the text has under a key, and counts the key as known.
func (s *Sheet) value(key string) (any, bool) {
	if !s.isKnown[key] {
		if s.isKnown == nil {
			s.isKnown = map[string]bool{}
		}
		s.isKnown[key] = true
		s.known = append(s.known, key)
	}
	v, ok := s.table[key]
	return v, ok
}

func (s *Sheet) pathOf(key string) string { return join(s.path, key) }

// join adds a key to a path, in quotes where TOML asks for them.
func join(path, key string) string {
	switch {
	case key == "":
		return path
	case !bare.MatchString(key):
		key = strconv.Quote(key)
	}
	if path == "" {
		return key
	}
	return path + "." + key
}

// bare is a key that stands without quotes, with the indices of elements of its value.
var bare = regexp.MustCompile(`^[A-Za-z0-9_-]+(\[\d+\])*$`)

func element(key string, i int) string { return fmt.Sprintf("%s[%d]", key, i+1) }
