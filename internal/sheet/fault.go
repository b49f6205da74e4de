package sheet

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"

	"swardwright/internal/plain"
)

// Wording of faults: they say what is needed, then what is there, then what to
// do if that is not plain; lower case, no full stop.

// Fault is one thing wrong in a text.
type Fault struct {
	File string
	Path string // of the key, parts joined by dots, elements counted from one; empty: the text itself
	Line int    // counted from one; 0: nowhere in particular
	Text string

	hint func() string // what to do, worked out only for faults that are shown
}

// Error words a fault on one line: file: key (line): what is wrong.
func (f Fault) Error() string {
	t := f.Text
	switch {
	case f.Path != "" && f.Line > 0:
		t = fmt.Sprintf("%s (line %d): %s", f.Path, f.Line, t)
	case f.Path != "":
		t = f.Path + ": " + t
	case f.Line > 0:
		t = fmt.Sprintf("line %d: %s", f.Line, t)
	}
	if f.File != "" {
		t = f.File + ": " + t
	}
	return plain.Line(t)
}

// Faults are all the faults of one text.
type Faults []Fault

func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// unknownKeys notes every key that no reader asked for.
func (b *book) unknownKeys() {
	for _, s := range b.sheets {
		if s.spoilt {
			continue
		}
		for key := range s.table { // Faults sorts
			if !s.isKnown[key] {
				s.Hintf(key, func() string { return b.meant(s, key) }, "is not a key of %s", tableName(s.path))
			}
		}
	}
}

// meant guesses which key was meant by an unknown one: in its own table first,
// then the same word in another table.
func (b *book) meant(s *Sheet, key string) string {
	for _, k := range s.known {
		if strings.EqualFold(k, key) {
			return fmt.Sprintf("; keys are lower case: %s", k)
		}
	}
	for _, other := range b.sheets {
		if other != s && other.isKnown[key] {
			if other.path == "" {
				return "; it belongs at the top, before the first [table]"
			}
			return fmt.Sprintf("; it belongs in %s", tableName(other.path))
		}
	}
	if n := Nearest(key, s.known); n != "" {
		return fmt.Sprintf("; did you mean %s?", n)
	}
	return ""
}

var index = regexp.MustCompile(`\[\d+\]`)

// tableName is how the head of the table at a path is written.
func tableName(path string) string {
	switch {
	case path == "":
		return "a brief"
	case strings.HasSuffix(path, "]"):
		return "[[" + index.ReplaceAllString(path, "") + "]]"
	}
	return "[" + index.ReplaceAllString(path, "") + "]"
}

// between words a range of numbers.
func between(lo, hi float64) string {
	return fmt.Sprintf("from %s to %s", number(lo), number(hi))
}

// number writes a number as TOML does.
func number(f float64) string {
	switch {
	case math.IsNaN(f):
		return "nan"
	case math.IsInf(f, 1):
		return "inf"
	case math.IsInf(f, -1):
		return "-inf"
	case math.Abs(f) >= 1e15:
		return strconv.FormatFloat(f, 'g', -1, 64)
	}
	return strconv.FormatFloat(f, 'f', -1, 64)
}

// show gives a value as it was written, cut to a length that fits in a message.
func show(v any) string {
	var t string
	switch x := v.(type) {
	case string:
		t = plain.Quote(x)
	case float64:
		t = number(x)
	case time.Time:
		switch x.Location().String() {
		case "date-local":
			t = x.Format(time.DateOnly)
		case "time-local":
			t = x.Format(time.TimeOnly)
		default:
			t = x.Format(time.DateTime)
		}
	case []any:
		t = fmt.Sprintf("a list of %d", len(x))
	case []map[string]any:
		t = fmt.Sprintf("%d tables", len(x))
	case map[string]any:
		t = "a table"
	default:
		t = fmt.Sprint(v)
	}
	return t
}

func list(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " " + last + " " + words[len(words)-1]
}

var numeric = regexp.MustCompile(`^\s*[-+]?\d+([.,]\d+)?\s*$`)

func looksNumeric(t string) bool { return numeric.MatchString(t) }

func allIntegers(a []any) bool {
	for _, e := range a {
		if _, ok := e.(int64); !ok {
			return false
		}
	}
	return true
}

func isList(v any) bool {
	_, ok := v.([]any)
	return ok
}

func oneOf(quoted []string) string {
	if len(quoted) == 1 {
		return quoted[0]
	}
	return "one of " + list(quoted, "or")
}

// Nearest gives the candidate most like a word, or nothing when none is near:
// at most a third of its letters wrong, or one word the beginning of the other.
func Nearest(word string, candidates []string) string {
	w := strings.ToLower(word)
	best, bestAt := "", math.Inf(1)
	for _, c := range candidates {
		lc := strings.ToLower(c)
		d := float64(Distance(w, lc))
		if len(w) >= 3 && len(lc) >= 3 && (strings.HasPrefix(lc, w) || strings.HasPrefix(w, lc)) {
			d = min(d, 0.5)
		}
		if d <= max(1, float64(max(len(w), len(lc))/3)) && d < bestAt {
			best, bestAt = c, d
		}
	}
	return best
}

// Distance counts the letters to insert, drop, change or swap with their
// neighbour (Damerau 1964, restricted form) to turn one word into the other.
func Distance(a, b string) int {
	const long = 60 // letters; keys and names are shorter
	x, y := []rune(a), []rune(b)
	if len(x) > long || len(y) > long {
		return math.MaxInt
	}
	var rows [3][]int
	for i := range rows {
		rows[i] = make([]int, len(y)+1)
	}
	for j := range rows[1] {
		rows[1][j] = j
	}
	for i := 1; i <= len(x); i++ {
		before, prev, row := rows[(i+2)%3], rows[i%3], rows[(i+1)%3]
		row[0] = i
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			row[j] = min(prev[j]+1, row[j-1]+1, prev[j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
	}
	return rows[(len(x)+1)%3][len(y)]
}
