package sheet

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"time"

	"github.com/BurntSushi/toml"
)

// Edit gives a value to one key of a text, or with no value takes it out.
type Edit struct {
	// Path is the key, part by part; elements of arrays by number from 1. The number
	// after the last is a new element.
	Path []any
	// Value is nil, a bool, a string, a number (float64, int or json.Number), a Day, a
	// list of values ([]any) or a table (map[string]any).
	Value any
}

// Day is a date as it is written, year-month-day.
type Day string

// Splice changes a text as some edits say and leaves the rest of it, notes and order
// included, as it is. A note inside a value that goes, goes with it. Tables that are not there yet are put where order, a list of the
// tables' names, has them. What cannot be done is an error, and nothing is changed.
func Splice(text []byte, edits []Edit, order []string) ([]byte, error) {
	const mark = "\ufeff"
	bom := bytes.HasPrefix(text, []byte(mark))
	out, fault := readable(text)
	if fault != nil {
		return nil, *fault
	}
	want, err := tree(out)
	if err != nil {
		return nil, fmt.Errorf("the text cannot be read as it stands; mend it first")
	}
	for _, e := range edits {
		path, err := steps(e.Path)
		if err != nil {
			return nil, err
		}
		s := splicer{text: out, places: newPlaces(), order: order}
		if _, fault := walk(out, s.places); fault != nil {
			return nil, *fault
		}
		value := canonical(e.Value)
		if value == nil {
			out, err = s.remove(path)
		} else {
			out, err = s.set(path, value, At(want, path))
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", PathText(path), err)
		}
		put(want, path, value)
	}
	// The text is only taken when it says what was meant: it can be written in more ways
	// than are provided for here.
	got, err := tree(out)
	if err != nil || !Same(got, want) {
		return nil, fmt.Errorf("the text is written in a way that this cannot be put into; change it in the text itself")
	}
	if bom {
		out = append([]byte(mark), out...)
	}
	return out, nil
}

// Tree is what a text says, in maps, lists, texts, numbers and truth values; dates are
// Day. It holds what could be read where the text has faults of its grammar.
func (s *Sheet) Tree() map[string]any {
	if s.table == nil {
		return map[string]any{}
	}
	return canonical(s.table).(map[string]any)
}

// Readable says whether the text as a whole follows the grammar.
func (s *Sheet) Readable() bool { return len(s.book.damaged) == 0 }

func tree(text []byte) (map[string]any, error) {
	var t map[string]any
	if _, err := toml.Decode(string(text), &t); err != nil {
		return nil, err
	}
	if t == nil {
		t = map[string]any{}
	}
	return canonical(t).(map[string]any), nil
}

// canonical brings values of the decoder and of edits to one form.
func canonical(v any) any {
	switch x := v.(type) {
	case int:
		return float64(x)
	case int64:
		return float64(x)
	case json.Number:
		f, err := x.Float64()
		if err != nil {
			return string(x)
		}
		return f
	case time.Time:
		if x.Location().String() == "date-local" {
			return Day(x.Format(time.DateOnly))
		}
		return x.Format(time.RFC3339Nano)
	case Day:
		if _, err := time.Parse(time.DateOnly, string(x)); err != nil {
			return string(x) // for the reader of the text to fault
		}
	case []any:
		out := make([]any, len(x))
		for i, e := range x {
			out[i] = canonical(e)
		}
		return out
	case []map[string]any:
		out := make([]any, len(x))
		for i, e := range x {
			out[i] = canonical(e)
		}
		return out
	case map[string]any:
		out := make(map[string]any, len(x))
		for k, e := range x {
			out[k] = canonical(e)
		}
		return out
	}
	return v
}

// steps checks a path: keys as text, numbers from 1 as int.
func steps(path []any) ([]any, error) {
	out := make([]any, len(path))
	for i, p := range path {
		switch x := canonical(p).(type) {
		case string:
			out[i] = x
		case float64:
			out[i] = int(x)
			if x != float64(int(x)) || x < 1 || i == 0 {
				return nil, fmt.Errorf("%v is no number of an element", x)
			}
		default:
			return nil, fmt.Errorf("%v is no part of a path", p)
		}
	}
	if len(path) == 0 {
		return nil, fmt.Errorf("no key is named")
	}
	return out, nil
}

// PathText is a path as faults write it.
func PathText(path []any) string {
	s := ""
	for _, p := range path {
		switch x := p.(type) {
		case string:
			s = join(s, x)
		case int:
			s = element(s, x-1)
		}
	}
	return s
}

// At is the value that stands at a path of a tree; nil where none does.
func At(v any, path []any) any {
	for _, p := range path {
		switch x := p.(type) {
		case string:
			t, _ := v.(map[string]any)
			v = t[x]
		case int:
			l, _ := v.([]any)
			if x > len(l) {
				return nil
			}
			v = l[x-1]
		}
	}
	return v
}

// put gives a tree the value that an edit gives the text, and returns it.
func put(v any, path []any, value any) any {
	if len(path) == 0 {
		return value
	}
	switch x := path[0].(type) {
	case string:
		t, ok := v.(map[string]any)
		if !ok {
			if value == nil {
				return v
			}
			t = map[string]any{}
		}
		if inner := put(t[x], path[1:], value); inner == nil {
			delete(t, x)
		} else {
			t[x] = inner
		}
		return t
	case int:
		l, _ := v.([]any)
		switch {
		case x <= len(l):
			if inner := put(l[x-1], path[1:], value); inner == nil {
				l = slices.Delete(l, x-1, x)
			} else {
				l[x-1] = inner
			}
		case x == len(l)+1 && value != nil:
			l = append(l, put(nil, path[1:], value))
		}
		if len(l) == 0 {
			return nil
		}
		return l
	}
	return v
}

// Same says whether two trees, or values in them, say the same.
func Same(a, b any) bool { return reflect.DeepEqual(trimmed(a), trimmed(b)) }

// Changes are the edits that make one tree into another, key by key; a list of anything
// but tables is one value.
func Changes(from, to map[string]any) []Edit { return changes(nil, from, to) }

func changes(path []any, from, to any) []Edit {
	below := func(p any) []any { return append(slices.Clone(path), p) }
	var out []Edit
	if x, ok := to.(map[string]any); ok {
		was, _ := from.(map[string]any)
		for _, k := range slices.Sorted(maps.Keys(x)) {
			out = append(out, changes(below(k), was[k], x[k])...)
		}
		for _, k := range slices.Sorted(maps.Keys(was)) {
			if _, still := x[k]; !still {
				out = append(out, Edit{Path: below(k)})
			}
		}
		return out
	}
	x, isList := to.([]any)
	was, wasList := from.([]any)
	if isList && (wasList || from == nil) && ofTables(x) && ofTables(was) && len(x) > 0 {
		for i, e := range x {
			if i < len(was) {
				out = append(out, changes(below(i+1), was[i], e)...)
				continue
			}
			out = append(out, Edit{below(i + 1), map[string]any{}})
			out = append(out, changes(below(i+1), nil, e)...)
		}
		for i := len(was); i > len(x); i-- {
			out = append(out, Edit{Path: below(i)})
		}
		return out
	}
	if !Same(from, to) {
		out = append(out, Edit{path, to})
	}
	return out
}

func ofTables(list []any) bool {
	return !slices.ContainsFunc(list, func(e any) bool { _, is := e.(map[string]any); return !is })
}

// trimmed is a tree without the empty tables and lists in it that the way of writing
// decides: a head without keys says nothing.
func trimmed(v any) any {
	switch x := v.(type) {
	case map[string]any:
		out := map[string]any{}
		for k, e := range x {
			t := trimmed(e)
			if m, is := t.(map[string]any); is && len(m) == 0 {
				continue
			}
			if l, is := t.([]any); is && len(l) == 0 {
				continue
			}
			out[k] = t
		}
		return out
	case []any:
		out := make([]any, len(x))
		for i, e := range x {
			out[i] = trimmed(e)
		}
		return out
	}
	return v
}

// splicer makes one change in one text.
type splicer struct {
	text   []byte
	places *places
	order  []string
}

// set gives the key at a path a value; was is what it has now.
func (s *splicer) set(path []any, value, was any) ([]byte, error) {
	if p, ok := s.places.of[PathText(path)]; ok && p.end > p.value {
		return s.replace(path, p, value, was), nil
	}
	if table, is := value.(map[string]any); is && len(table) == 0 {
		list, last := path[:len(path)-1], path[len(path)-1]
		_, inline := s.places.of[PathText(list)]
		if _, isNumber := last.(int); isNumber && ofKeys(list) && (!inline || s.find(element(PathText(list), 0)) > 0) {
			return s.newSection(list, true), nil
		}
	}
	return s.add(path, value)
}

// replace writes a new value over an old one. Of a list only the elements that differ
// are touched, so that notes between the others stay.
func (s *splicer) replace(path []any, p place, value, was any) []byte {
	to, isList := value.([]any)
	from, wasList := was.([]any)
	if !isList || !wasList || len(to) == 0 || len(from) == 0 {
		return s.write(p.value, p.end, literal(value))
	}
	head, tail := alike(from, to)
	of := func(i int) place { return s.places.of[element(PathText(path), i)] }
	fresh := literals(to[head : len(to)-tail])
	gone := len(from) - tail - head
	switch {
	case gone == 0 && len(fresh) == 0:
		return s.text
	case gone == len(fresh):
		out := s.text
		for i := head + gone - 1; i >= head; i-- { // from the back, so that places stay true
			if e := of(i); !reflect.DeepEqual(from[i], to[i]) {
				out = slices.Concat(out[:e.value], []byte(fresh[i-head]), out[e.end:])
			}
		}
		return out
	case gone == 0 && head > 0:
		return s.write(of(head-1).end, of(head-1).end, ", "+strings.Join(fresh, ", "))
	case gone == 0:
		return s.write(of(0).value, of(0).value, strings.Join(fresh, ", ")+", ")
	case len(fresh) > 0:
		return s.write(of(head).value, of(head+gone-1).end, strings.Join(fresh, ", "))
	case head > 0:
		return s.write(of(head-1).end, of(head+gone-1).end, "")
	}
	return s.write(of(0).value, of(gone).value, "")
}

// alike counts the elements at the head of two lists, and then at their tail, that are the
// same in both.
func alike(from, to []any) (head, tail int) {
	for head < min(len(from), len(to)) && reflect.DeepEqual(from[head], to[head]) {
		head++
	}
	for tail < min(len(from), len(to))-head && reflect.DeepEqual(from[len(from)-1-tail], to[len(to)-1-tail]) {
		tail++
	}
	return head, tail
}

// add writes a key that is not there yet.
func (s *splicer) add(path []any, value any) ([]byte, error) {
	parent, last := path[:len(path)-1], path[len(path)-1]
	name, isKey := last.(string)
	if !isKey {
		return nil, fmt.Errorf("there is no list to add to")
	}
	if len(parent) == 0 {
		return s.addAtTop(name, value), nil
	}
	line := keyText(name) + " = " + literal(value)
	under := PathText(parent)
	if i := s.find(under); i > 0 {
		return s.addLine(s.places.sections[i].end, line), nil
	}
	if p, ok := s.places.of[under]; ok && p.end > p.value && s.text[p.value] == '{' {
		return s.addInline(p, line), nil
	}
	// A table that is only there by dotted keys goes on in that way.
	if p, ok := s.lastUnder(under); ok {
		whole := string(s.text[p.key:p.value])
		if dot := strings.LastIndex(whole[:strings.Index(whole, "=")], "."); dot > 0 {
			return s.addLine(s.lineEnd(p.end), whole[:dot+1]+line), nil
		}
	}
	if len(parent) == 1 {
		grown := splicer{text: s.newSection(parent, false), places: newPlaces(), order: s.order}
		walk(grown.text, grown.places)
		if i := grown.find(under); i > 0 {
			return grown.addLine(grown.places.sections[i].end, line), nil
		}
	}
	return s.add(parent, map[string]any{name: value})
}

// find is the section of a path; 0 where none is.
func (s *splicer) find(path string) int {
	for i, x := range s.places.sections {
		if i > 0 && x.path == path {
			return i
		}
	}
	return 0
}

// lastUnder is the last key that stands on a line of its own below a path.
func (s *splicer) lastUnder(path string) (last place, ok bool) {
	for k, p := range s.places.of {
		if strings.HasPrefix(k, path+".") && !p.inline && p.end > p.value && p.key >= last.key {
			last, ok = p, true
		}
	}
	return last, ok
}

func (s *splicer) addAtTop(name string, value any) []byte {
	line := keyText(name) + " = " + literal(value)
	top := s.places.sections[0]
	if top.end > 0 {
		return s.addLine(top.end, line)
	}
	// Below the notes that head the text.
	from := 0
	if notes := openingNotes.Find(s.text); notes != nil {
		from = len(notes)
	}
	eol := s.eol()
	rest := bytes.TrimLeft(s.text[from:], "\r\n")
	if len(rest) > 0 {
		line += eol
	}
	if from > 0 {
		line = eol + line
	}
	return slices.Concat(s.text[:from], []byte(line+eol), rest)
}

var openingNotes = regexp.MustCompile(`^(?:#[^\n]*\n)+`)

// addLine writes a line after the one that ends at a place.
func (s *splicer) addLine(end int, line string) []byte {
	if end > 0 && end <= len(s.text) && s.text[end-1] == '\r' {
		end--
	}
	return s.write(end, end, s.eol()+line)
}

// addInline writes a pair into { … }.
func (s *splicer) addInline(p place, pair string) []byte {
	end := bytes.LastIndexByte(s.text[p.value:p.end], '}') + p.value
	inside := bytes.TrimRight(s.text[p.value+1:end], " \t\r\n")
	switch {
	case len(inside) == 0:
		return s.write(p.value, p.end, "{ "+pair+" }")
	case inside[len(inside)-1] == ',':
		pair = " " + pair
	default:
		pair = ", " + pair
	}
	at := p.value + 1 + len(inside)
	return s.write(at, at, pair)
}

func ofKeys(path []any) bool {
	return !slices.ContainsFunc(path, func(p any) bool { _, is := p.(string); return !is })
}

// newSection writes the head of a table, or of one more of several: after the last of them,
// or else where the order of tables puts it.
func (s *splicer) newSection(path []any, several bool) []byte {
	var keys []string
	for _, p := range path {
		keys = append(keys, keyText(p.(string)))
	}
	head := "[" + strings.Join(keys, ".") + "]"
	if several {
		head = "[" + head + "]"
	}
	eol := s.eol()
	end := s.withNotes(s.before(PathText(path)))
	lead := ""
	if end > 0 {
		lead = eol + eol
	}
	trail := ""
	if end == 0 && len(s.text) > 0 {
		trail = eol
	}
	if end == len(s.text) {
		// At the end of the text, which may or may not close its last line.
		kept := bytes.TrimRight(s.text, "\r\n \t")
		if len(kept) == 0 {
			lead = ""
		}
		return slices.Concat(kept, []byte(lead+head+eol))
	}
	return s.write(end, end, lead+head+trail)
}

// before is the section that a new one of a name stands after.
func (s *splicer) before(name string) int {
	rank := slices.Index(s.order, topOf(name))
	after, own := 0, 0
	for i, x := range s.places.sections {
		if r := slices.Index(s.order, topOf(x.path)); i > 0 && (rank < 0 || r >= 0 && r <= rank) {
			after = i
		}
		if of(x.path, name) {
			own = i
		}
	}
	if own > 0 {
		return own
	}
	return after
}

// of says whether a path is one of a name, or lies below it.
func of(path, name string) bool {
	rest, ok := strings.CutPrefix(path, name)
	return ok && (rest == "" || rest[0] == '.' || rest[0] == '[')
}

// withNotes is where a section ends with the notes that stand close under it.
func (s *splicer) withNotes(i int) int {
	end := s.places.sections[i].end
	if i == 0 && end == 0 { // nothing at the top but notes
		return len(bytes.TrimRight(openingNotes.Find(s.text), "\r\n"))
	}
	for end < len(s.text) {
		next := bytes.IndexByte(s.text[end+1:], '\n')
		if next < 0 {
			next = len(s.text) - end - 1
		}
		line := bytes.TrimLeft(s.text[end+1:end+1+next], " \t")
		if !bytes.HasPrefix(line, []byte("#")) {
			break
		}
		end += 1 + next
	}
	if end > 0 && s.text[end-1] == '\r' {
		end--
	}
	return end
}

// topOf is the first key of a path.
func topOf(path string) string {
	if i := strings.IndexAny(path, ".["); i >= 0 {
		return path[:i]
	}
	return path
}

// remove takes out a key, an element of a list or a table.
func (s *splicer) remove(path []any) ([]byte, error) {
	name := PathText(path)
	if out, ok := s.removeSections(name); ok {
		return out, nil
	}
	p, ok := s.places.of[name]
	if !ok {
		return s.removeDotted(name), nil
	}
	if _, isNumber := path[len(path)-1].(int); isNumber || p.inline {
		return s.cutOut(p), nil
	}
	if p.end == p.key { // only the first part of dotted keys
		return s.removeDotted(name), nil
	}
	return s.cutLine(p), nil
}

// removeSections takes out the tables of a name, and says whether there are any.
func (s *splicer) removeSections(name string) (out []byte, some bool) {
	out = s.text
	for i, x := range slices.Backward(s.places.sections) {
		if i == 0 || !of(x.path, name) {
			continue
		}
		some = true
		from, end := x.start, s.lineEnd(x.end)
		if end < len(out) {
			end++ // its line end
		}
		// One blank line goes along, so that none pile up.
		if rest := bytes.TrimLeft(out[end:], " \t\r"); len(rest) > 0 && rest[0] == '\n' && (from == 0 || out[from-1] == '\n') {
			end = len(out) - len(rest) + 1
		}
		out = slices.Concat(out[:from], out[end:])
	}
	return out, some
}

// removeDotted takes out all lines of dotted keys below a path.
func (s *splicer) removeDotted(path string) []byte {
	var lines []place
	for k, p := range s.places.of {
		if strings.HasPrefix(k, path+".") && !p.inline && p.end > p.value {
			lines = append(lines, p)
		}
	}
	slices.SortFunc(lines, func(a, b place) int { return b.key - a.key })
	for _, p := range lines {
		s.text = s.cutLine(p)
	}
	return s.text
}

// cutLine takes out the lines of a key and its value. A head that is left without keys
// and notes goes along, since an empty table may mean something.
func (s *splicer) cutLine(p place) []byte {
	from := bytes.LastIndexByte(s.text[:p.key], '\n') + 1
	end := s.lineEnd(p.end)
	if end < len(s.text) {
		end++
	}
	for i, x := range s.places.sections {
		if i == 0 || !(x.start <= p.key && p.key < x.end) || strings.HasSuffix(x.path, "]") {
			continue
		}
		next := len(s.text)
		if i+1 < len(s.places.sections) {
			next = s.places.sections[i+1].start
		}
		left := slices.Concat(s.text[min(x.head, from):from], s.text[end:max(end, s.ownEnd(x.end, next))])
		if len(bytes.TrimSpace(left)) == 0 && !bytes.Contains(s.text[x.start:x.head], []byte("#")) {
			from = x.start
			for end < len(s.text) && (s.text[end] == '\n' || s.text[end] == '\r') {
				end++
			}
		}
	}
	return s.write(from, end, "")
}

// ownEnd is where the lines of a section end that stand before the first blank line.
func (s *splicer) ownEnd(end, next int) int {
	if at := blankLine.FindIndex(s.text[min(end, next):next]); at != nil {
		return end + at[0]
	}
	return next
}

var blankLine = regexp.MustCompile(`\n[ \t\r]*\n`)

// cutOut takes an element or pair out of brackets, with one of its commas.
func (s *splicer) cutOut(p place) []byte {
	after := p.end + len(s.text[p.end:]) - len(bytes.TrimLeft(s.text[p.end:], " \t\r\n"))
	if after < len(s.text) && s.text[after] == ',' {
		end := after + 1
		for end < len(s.text) && (s.text[end] == ' ' || s.text[end] == '\t') {
			end++
		}
		return s.write(p.key, end, "")
	}
	before := len(bytes.TrimRight(s.text[:p.key], " \t\r\n"))
	if before > 0 && s.text[before-1] == ',' {
		return s.write(before-1, p.end, "")
	}
	return s.write(p.key, p.end, "")
}

func (s *splicer) write(from, end int, with string) []byte {
	return slices.Concat(s.text[:from], []byte(with), s.text[end:])
}

// lineEnd is the end of the line that a place lies on.
func (s *splicer) lineEnd(at int) int {
	if i := bytes.IndexByte(s.text[at:], '\n'); i >= 0 {
		return at + i
	}
	return len(s.text)
}

func (s *splicer) eol() string {
	if bytes.Contains(s.text, []byte("\r\n")) {
		return "\r\n"
	}
	return "\n"
}

var bareKey = regexp.MustCompile(`^[A-Za-z0-9_-]+$`)

func keyText(key string) string {
	if bareKey.MatchString(key) {
		return key
	}
	return quote(key)
}

// literal writes a value as TOML.
func literal(v any) string {
	switch x := v.(type) {
	case string:
		return quote(x)
	case Day:
		return string(x)
	case float64:
		return number(x)
	case []any:
		return "[" + strings.Join(literals(x), ", ") + "]"
	case map[string]any:
		pairs := make([]string, 0, len(x))
		for _, k := range slices.Sorted(maps.Keys(x)) {
			pairs = append(pairs, keyText(k)+" = "+literal(x[k]))
		}
		if len(pairs) == 0 {
			return "{}"
		}
		return "{ " + strings.Join(pairs, ", ") + " }"
	}
	return fmt.Sprint(v) // true or false
}

func literals(values []any) []string {
	out := make([]string, len(values))
	for i, v := range values {
		out[i] = literal(v)
	}
	return out
}

// quote writes a basic string of TOML.
func quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String() + `"`
}
