package sheet

import (
	"bytes"
	"fmt"
	"maps"
	"strconv"
	"strings"
	"unicode/utf8"
)

// outline says where things stand in a text. The TOML library gives no places
// for keys it has read, so the text is walked once more for them.
type outline struct {
	line      map[string]int // first line of each key and array element, by path
	keyOnLine map[int]string // path of the key that begins on a line
}

// lineOf gives the line of a path, or of what it is part of; 0 when none is
// in the text.
func (o outline) lineOf(path string) int {
	for path != "" {
		if n, ok := o.line[path]; ok {
			return n
		}
		path = path[:max(strings.LastIndexAny(path, ".["), 0)]
	}
	return 0
}

// overlay takes the places of a text of which a line was left out over those of the
// whole text, which are kept for what stood on that line.
func (o outline) overlay(rest outline) {
	maps.Copy(o.line, rest.line)
	maps.Copy(o.keyOnLine, rest.keyOnLine)
}

// readable takes off a byte order mark and refuses what is not a text of modest
// size in UTF-8.
func readable(text []byte) ([]byte, *Fault) {
	if len(text) > MaxBytes {
		return nil, &Fault{Text: fmt.Sprintf("is longer than %d kB; a brief is a few kB of text", MaxBytes/1024)}
	}
	if bytes.HasPrefix(text, []byte{0xff, 0xfe}) || bytes.HasPrefix(text, []byte{0xfe, 0xff}) {
		return nil, &Fault{Text: "is UTF-16 text; save it as UTF-8"}
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	if i := bytes.IndexByte(text, 0); i >= 0 {
		return nil, &Fault{Line: lineAt(text, i), Text: "holds a NUL byte; is this a text file? save it as UTF-8"}
	}
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRune(text[i:])
		if r == utf8.RuneError && n == 1 {
			return nil, &Fault{Line: lineAt(text, i),
				Text: fmt.Sprintf("is not UTF-8 (byte %#x); save it as UTF-8", text[i])}
		}
		i += n
	}
	return text, nil
}

func lineAt(text []byte, i int) int { return 1 + bytes.Count(text[:i], []byte("\n")) }

// withoutLine gives the text with one line, counted from one, made empty.
func withoutLine(text []byte, line int) []byte {
	lines := bytes.Split(text, []byte("\n"))
	lines[line-1] = nil
	return bytes.Join(lines, []byte("\n"))
}

// walker goes through a TOML text by its grammar, lenient where the text
// breaks it: it is only asked where things are.
type walker struct {
	outline
	text   []byte
	at     int
	row    int             // line of text[at]
	tables map[string]int  // tables so far of each array of tables
	meant  map[string]bool // tables known from a part of them so far, not from a head of their own
	fault  *Fault
	places *places // noted as well where a text is to be changed
}

// scan walks a text. It refuses nesting and keys beyond all sense, which would
// cost the decoder stack and memory.
func scan(text []byte) (outline, *Fault) {
	return walk(text, nil)
}

// walk is scan that notes places too.
func walk(text []byte, places *places) (outline, *Fault) {
	w := walker{
		outline: outline{line: map[string]int{}, keyOnLine: map[int]string{}},
		text:    text, row: 1, tables: map[string]int{}, meant: map[string]bool{}, places: places,
	}
	head := ""
	for w.fault == nil {
		w.blank(true)
		if w.at >= len(w.text) {
			break
		}
		from := w.at
		if w.peek() == '[' {
			head = w.head()
			w.restOfLine()
			places.head(head, from, w.at)
		} else {
			w.pair(head, 0)
			w.restOfLine()
			places.line(w.at)
		}
	}
	return w.outline, w.fault
}

func (w *walker) peek() byte {
	if w.at < len(w.text) {
		return w.text[w.at]
	}
	return 0
}

func (w *walker) take(c byte) bool {
	if w.at < len(w.text) && w.text[w.at] == c {
		w.next()
		return true
	}
	return false
}

func (w *walker) next() {
	if w.text[w.at] == '\n' {
		w.row++
	}
	w.at++
}

// blank skips spaces and comments, and line ends if asked to.
func (w *walker) blank(lines bool) {
	for w.at < len(w.text) {
		switch c := w.text[w.at]; {
		case c == ' ' || c == '\t' || c == '\r' || lines && c == '\n':
			w.next()
		case c == '#':
			for w.at < len(w.text) && w.text[w.at] != '\n' {
				w.at++
			}
		default:
			return
		}
	}
}

func (w *walker) restOfLine() {
	for w.at < len(w.text) && w.text[w.at] != '\n' {
		w.at++
	}
}

func (w *walker) note(path string) {
	if _, ok := w.line[path]; !ok {
		w.line[path] = w.row
	}
}

// head reads [a.b] or [[a.b]] and gives the path its keys stand under.
func (w *walker) head() string {
	row := w.row
	w.take('[')
	several := w.take('[')
	path, parts := "", w.key()
	for i, p := range parts {
		path = join(path, p)
		if several && i == len(parts)-1 {
			w.note(path)
			w.tables[path]++
		}
		if n := w.tables[path]; n > 0 {
			path = fmt.Sprintf("%s[%d]", path, n)
		}
		if _, ok := w.line[path]; !ok && i < len(parts)-1 {
			w.note(path)
			w.meant[path] = true
		}
	}
	if w.meant[path] {
		delete(w.meant, path)
		delete(w.line, path)
	}
	if w.row == row {
		w.note(path)
	}
	return path
}

// key reads a key and gives its parts.
func (w *walker) key() []string {
	var parts []string
	for {
		w.blank(false)
		start := w.at
		var part string
		if c := w.peek(); c == '"' || c == '\'' {
			w.quoted()
			written := string(w.text[start:w.at])
			part = strings.Trim(written, `"'`)
			if meant, err := strconv.Unquote(written); err == nil && c == '"' {
				part = meant
			}
		} else {
			for w.at < len(w.text) && !bytes.ContainsRune([]byte(" \t\r\n.=:[]{},#\"'"), rune(w.text[w.at])) {
				w.at++
			}
			part = string(w.text[start:w.at])
		}
		parts = append(parts, part)
		if len(part) > maxKey {
			w.fault = &Fault{Line: w.row, Text: fmt.Sprintf("a key is longer than %d characters", maxKey)}
		} else if len(parts) > maxNest {
			w.tooDeep()
		}
		w.blank(false)
		if w.fault != nil || !w.take('.') {
			return parts
		}
	}
}

func (w *walker) tooDeep() {
	w.fault = &Fault{Line: w.row, Text: fmt.Sprintf("more than %d brackets or tables inside each other", maxNest)}
}

// pair reads key = value; depth counts the values around it.
func (w *walker) pair(under string, depth int) {
	row, from := w.row, w.at
	path := under
	for _, p := range w.key() {
		path = join(path, p)
		w.note(path)
	}
	if depth == 0 && path != under {
		w.keyOnLine[row] = path
	}
	w.places.key(path, from, depth > 0)
	w.blank(false)
	if w.fault == nil && w.take('=') {
		w.blank(false)
		w.value(path, depth+1)
	}
}

func (w *walker) value(path string, depth int) {
	if depth > maxNest {
		w.tooDeep()
		return
	}
	from := w.at
	defer func() { w.places.value(path, from, from+len(bytes.TrimRight(w.text[from:w.at], " \t\r"))) }()
	switch w.peek() {
	case '"', '\'':
		w.quoted()
	case '[':
		w.take('[')
		for i := 0; w.more(']'); i++ {
			at, start := element(path, i), w.at
			w.note(at)
			w.value(at, depth+1)
			w.moveFrom(start)
		}
	case '{':
		w.take('{')
		for w.more('}') {
			start := w.at
			w.pair(path, depth)
			w.moveFrom(start)
		}
	default:
		for w.at < len(w.text) && !bytes.ContainsRune([]byte(",]}#\n"), rune(w.text[w.at])) {
			w.at++
		}
	}
}

// moveFrom steps over a byte that no rule has taken, so that a walk always ends.
func (w *walker) moveFrom(start int) {
	if w.at == start {
		w.next()
	}
}

// more moves to the next element of an array or inline table, if there is one
// before its end.
func (w *walker) more(end byte) bool {
	for {
		w.blank(true)
		if w.fault != nil || w.at >= len(w.text) || w.take(end) {
			return false
		}
		switch w.peek() {
		case ',':
			w.next()
		case ']', '}': // the wrong end; the decoder says so
			w.next()
			return false
		case '=':
			w.next()
		default:
			return true
		}
	}
}

// quoted skips a string of any of the four kinds, whose ends and escapes one switch tells
// apart.
//
//gocyclo:ignore
func (w *walker) quoted() {
	q := w.text[w.at]
	long := bytes.HasPrefix(w.text[w.at:], []byte{q, q, q})
	for range 3 {
		w.take(q)
		if !long {
			break
		}
	}
	for w.at < len(w.text) {
		switch c := w.text[w.at]; {
		case c == '\\' && q == '"':
			w.next()
			if w.at < len(w.text) && (long || w.text[w.at] != '\n') {
				w.next()
			}
		case c == '\n' && !long:
			return
		case c == q && !long:
			w.next()
			return
		case c == q && bytes.HasPrefix(w.text[w.at:], []byte{q, q, q}):
			for w.take(q) { // up to two quotes may belong to the text itself
			}
			return
		default:
			w.next()
		}
	}
}
