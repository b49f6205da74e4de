package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"time"

	"github.com/BurntSushi/toml"

	"swardwright/internal/plain"
)

// syntaxFault puts a decoder's error into plain words, and gives the line to
// leave out for reading on.
func (b *book) syntaxFault(text []byte, err error) (Fault, int) {
	var pe toml.ParseError
	if !errors.As(err, &pe) {
		return Fault{Text: "cannot be read; is it a brief?"}, 0
	}
	line := pe.Position.Line
	if strings.Contains(pe.Message, `got '\n'`) {
		line-- // what is missing is missing at the end of the line before
	}
	lines := bytes.Split(text, []byte("\n"))
	if line < 1 || line > len(lines) {
		return Fault{Text: "ends in the middle of a value; is a bracket or quote missing?"}, 0
	}
	path := b.keyOnLine[line]
	if twice.MatchString(pe.Message) {
		// The decoder marks the first place when the second is elsewhere.
		return Fault{Path: path, Line: line, Text: b.twice(path, pe)}, line
	}
	var words string
	if begun := b.lineOf(pe.LastKey); path == "" && begun > 0 && begun < line {
		// The fault shows on a line that begins no key: inside a value begun above.
		words = fmt.Sprintf("cannot be read as part of %s, which begins on line %d; is a bracket, comma or quote missing?", pe.LastKey, begun)
	} else {
		words = explain(string(lines[line-1]), pe)
	}
	if words == "" {
		words = fmt.Sprintf("cannot be read from column %d on", pe.Position.Col)
	}
	if !bytes.ContainsAny(lines[line-1], "=:") {
		path = "" // no key at all
	}
	return Fault{Path: path, Line: line, Text: words}, line
}

var twice = regexp.MustCompile(`already been|already created|has already|was already`)

func (b *book) twice(path string, pe toml.ParseError) string {
	first := b.line[path]
	if path == "" {
		first = b.lineOf(pe.LastKey)
		if first == 0 || first == pe.Position.Line {
			return "this table or key is already there; keep one of them"
		}
		return fmt.Sprintf("%s is already there, on line %d; keep one of them", pe.LastKey, first)
	}
	if first == pe.Position.Line {
		return "is given twice; keep one of them"
	}
	return fmt.Sprintf("is given twice, first on line %d; keep one of them", first)
}

var (
	datelike     = regexp.MustCompile(`^\s*\d{4}-\d{1,2}-\d{1,2}\s*$`)
	isoDate      = regexp.MustCompile(`^(\d{4})-(\d{1,2})-(\d{1,2})$`)
	otherDate    = regexp.MustCompile(`^\d{1,2}[./-]\d{1,2}[./-]\d{2,4}$|^\d{4}[./]\d{1,2}[./]\d{1,2}$`)
	decimalComma = regexp.MustCompile(`^([-+]?\d+),(\d+)$`)
	withUnit     = regexp.MustCompile(`^[-+]?\d+([.,]\d+)?\s*[\pL%°²/£$€]+`)
	currency     = regexp.MustCompile(`^[£$€]\s*\d`)
	yesNo        = regexp.MustCompile(`(?i)^(yes|no|on|off|true|false)$`)
	bareWord     = regexp.MustCompile(`^\pL[^"'\[\]{}]*$`)
	curly        = regexp.MustCompile(`[“”„‘’«»]`)
	colonKey     = regexp.MustCompile(`^\s*[A-Za-z_][A-Za-z0-9_-]*\s*:`)
	spacedKey    = regexp.MustCompile(`^\s*[A-Za-z_][A-Za-z0-9_-]*(\s+[A-Za-z0-9_-]+)+\s*=`)
	secondKey    = regexp.MustCompile(`^[^"'\[{]*\s[A-Za-z_][A-Za-z0-9_-]*\s*=`)
	openHead     = regexp.MustCompile(`^\s*\[\[?[^\]]*\]?\s*(#.*)?$`)
)

// explain says in a gardener's words what a line breaks; empty when it is
// nothing common. One list of slips, the first that fits counts: where each stands
// among the others is what there is to see, so it is one piece.
//
//gocyclo:ignore
func explain(line string, pe toml.ParseError) string {
	line = strings.TrimSuffix(line, "\r")
	key, value, isPair := strings.Cut(line, "=")
	key = strings.TrimSpace(key)
	if !strings.ContainsAny(value, `"'`) {
		value, _, _ = strings.Cut(value, "#")
	}
	value = strings.TrimSpace(value)
	switch {
	case curly.MatchString(line) && !strings.Contains(value, `"`):
		return `text stands in straight quotes, "…", not in curly ones`
	case strings.Contains(pe.Message, "escape") || strings.Contains(pe.Message, `hexadecimal digits after '\`):
		return `a backslash has a meaning of its own inside "…"; write / in paths, or put the text in '…'`
	case strings.Contains(pe.Message, "control character"):
		return "holds a control character; type the line anew"
	case colonKey.MatchString(line):
		return "needs = between key and value, not a colon"
	case !isPair && openHead.MatchString(line) && strings.HasPrefix(strings.TrimSpace(line), "["):
		return "the head of a table needs its closing bracket: [lawn], or [[obstacle]] for one of several"
	case !isPair:
		return "is neither key = value nor the head of a table; a note begins with #"
	case secondKey.MatchString(value):
		return "each key stands on a line of its own"
	case spacedKey.MatchString(line):
		return "a key is one word: write " + plain.Cut(strings.Join(strings.Fields(key), "_"))
	case value == "":
		return "needs a value after the =; or leave the line out"
	}
	if m := decimalComma.FindStringSubmatch(value); m != nil {
		if len(m[2]) == 3 {
			return fmt.Sprintf("a number has no comma: write %s, or with a decimal point %s", plain.Cut(m[1]+m[2]), plain.Cut(m[1]+"."+m[2]))
		}
		return fmt.Sprintf("decimals are written with a point: %s, not %s", plain.Cut(m[1]+"."+m[2]), plain.Cut(value))
	}
	if m := isoDate.FindStringSubmatch(value); m != nil {
		if _, err := time.Parse("2006-1-2", value); err != nil {
			return fmt.Sprintf("there is no day %s in the calendar", value)
		}
		return fmt.Sprintf("dates are written with two digits for month and day: %s-%02s-%02s", m[1], m[2], m[3])
	}
	switch {
	case strings.HasPrefix(value, "("):
		return "a value stands without round brackets; lists stand in square ones, [1, 2]"
	case otherDate.MatchString(value):
		return "dates are written year-month-day, like 2027-03-15"
	case currency.MatchString(value):
		return "an amount stands alone, without a currency sign; the currency is a key of its own"
	case withUnit.MatchString(value):
		return "a number stands alone; its unit is in the name of the key"
	case yesNo.MatchString(value):
		return "needs true or false, in small letters and without quotes"
	case bareWord.MatchString(value):
		return fmt.Sprintf("text stands in quotes: %s = %s", plain.Cut(key), plain.Quote(value))
	case strings.HasPrefix(value, "."), strings.HasSuffix(value, "."):
		return "a number has digits on both sides of the point: 0.5, 2.0"
	case strings.Contains(pe.Message, "leading zero"):
		return "a number begins with no zero of no meaning: 5, not 05"
	case strings.Count(value, `"`)%2 == 1 || strings.Contains(pe.Message, "newline"):
		return "the quote is opened and not closed"
	case strings.Contains(pe.Message, "out of range"):
		return "the number is too large"
	case strings.Count(value, "[") != strings.Count(value, "]"):
		return "brackets do not match: one is missing or one too many"
	case strings.Contains(pe.Message, "comma"):
		return "values in brackets are separated by commas"
	}
	return ""
}
