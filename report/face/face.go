// Package face is the one type family of the printed reports, Go Regular and Go
// Bold, with what is needed to set text in it: widths, line breaks, and the gate
// that every text passes before it is drawn.
//
// Sizes are points, lengths millimetres. There is no kerning and no shaping, in
// the measure as on paper.
package face

import (
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/text/unicode/norm"
)

// Weight is one of the two weights.
type Weight int

// The weights.
const (
	Regular Weight = iota
	Bold
)

// MMPerPoint is the length of one point of 1/72 inch.
const MMPerPoint = 25.4 / 72

// The heights of the letters as shares of the type size: above the line of the
// tallest accented capital that a report sets, of capitals, and below the line.
const (
	Ascent    = 0.94
	CapHeight = 0.72
	Descent   = 0.21
)

// TTF is a copy of the font file: a writer that changes or keeps it shares
// nothing with another.
func TTF(w Weight) []byte {
	if w == Bold {
		return slices.Clone(gobold.TTF)
	}
	return slices.Clone(goregular.TTF)
}

// lastCovered bounds the table of advances: the fonts have nothing that a report
// sets beyond mathematical signs, arrows and box shapes.
const lastCovered = 0x2600

// advances are the widths of the letters in thousandths of the type size, as a
// PDF states them; -1 where the font has no glyph.
var advances = [2]func() *[lastCovered]int16{
	sync.OnceValue(func() *[lastCovered]int16 { return measure(goregular.TTF) }),
	sync.OnceValue(func() *[lastCovered]int16 { return measure(gobold.TTF) }),
}

func measure(ttf []byte) *[lastCovered]int16 {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic("the embedded font is damaged: " + err.Error())
	}
	var table [lastCovered]int16
	var buf sfnt.Buffer
	for r := range table {
		table[r] = -1
		if r < ' ' {
			continue
		}
		if g, err := f.GlyphIndex(&buf, rune(r)); err == nil && g != 0 {
			if a, err := f.GlyphAdvance(&buf, g, fixed.I(1000), font.HintingNone); err == nil {
				table[r] = int16(a.Round())
			}
		}
	}
	return &table
}

// has says whether both weights have a glyph for r.
func has(r rune) bool {
	return r >= 0 && r < lastCovered && advances[Regular]()[r] >= 0 && advances[Bold]()[r] >= 0
}

// Width is the length of s set at pt points, in millimetres.
func Width(s string, w Weight, pt float64) float64 {
	table, sum := advances[w](), 0
	for _, r := range s {
		a := int16(-1)
		if r < lastCovered {
			a = table[r]
		}
		if a < 0 {
			a = table['?']
		}
		sum += int(a)
	}
	return float64(sum) / 1000 * pt * MMPerPoint
}

// standIns are signs the fonts lack, with what is set instead at no loss.
var standIns = map[rune]string{
	'\t': " ", '\n': " ", '\r': " ", '\u2028': " ", '\u2029': " ",
	'\u202f': "\u00a0", '\u2007': "\u00a0", '\u2009': "\u00a0", '\u200a': "\u00a0", '\u2003': " ", '\u2002': " ",
	'\u2011': "-", '\u2010': "-", '⅓': "1/3", '⅔': "2/3", '✓': "√", '✔': "√",
}

// Clean makes any text fit to be set: valid UTF-8, composed (NFC), without control
// or invisible characters, and with only letters the fonts have. A letter they
// lack is set without its accents where that helps, else as a question mark, and
// is returned in missing, each once.
func Clean(s string) (clean string, missing []rune) {
	if settable(s) {
		return s, nil
	}
	var b strings.Builder
	for _, r := range norm.NFC.String(strings.ToValidUTF8(s, "?")) {
		switch stand, ok := standIns[r]; {
		case ok && !has(r):
			b.WriteString(stand)
		case unseen(r):
		case has(r):
			b.WriteRune(r)
		default:
			if !slices.Contains(missing, r) {
				missing = append(missing, r)
			}
			b.WriteRune(bare(r))
		}
	}
	return b.String(), missing
}

// settable says whether s can be set as it is, which nearly all text can.
func settable(s string) bool {
	plain := true
	for i := range len(s) {
		plain = plain && s[i] >= ' ' && s[i] <= '~'
	}
	if plain {
		return true
	}
	for _, r := range s {
		if r < ' ' || r == utf8.RuneError || !has(r) || unseen(r) {
			return false
		}
	}
	return norm.NFC.IsNormalString(s)
}

// unseen says whether r shows nothing of itself: controls, joiners, soft hyphens,
// directions, variants.
func unseen(r rune) bool {
	return unicode.In(r, unicode.Cc, unicode.Cf, unicode.Co, unicode.Variation_Selector)
}

// bare is the letter without its accents, or a question mark.
func bare(r rune) rune {
	if base, _ := utf8.DecodeRuneInString(norm.NFD.String(string(r))); base != r && has(base) {
		return base
	}
	return '?'
}

// Wrap breaks s into lines no longer than width millimetres: at spaces, after
// hyphens between letters, slashes between words and dashes after words, and inside a word only where it alone is
// too long. A no-break space holds. There is always at least one line.
func Wrap(s string, w Weight, pt, width float64) []string {
	var lines []string
	line := ""
	for _, word := range words(s) {
		joined := line + word
		if line == "" || Width(strings.TrimRight(joined, " "), w, pt) <= width {
			line = joined
		} else {
			lines = append(lines, strings.TrimRight(line, " "))
			line = word
		}
		for Width(strings.TrimRight(line, " "), w, pt) > width {
			cut := fitting(line, w, pt, width)
			if cut >= len(line) {
				break
			}
			lines = append(lines, line[:cut])
			line = line[cut:]
		}
	}
	return append(lines, strings.TrimRight(line, " "))
}

// Widest is the width of the widest run of letters at which Wrap breaks no line.
func Widest(s string, w Weight, pt float64) (widest float64) {
	for _, word := range words(s) {
		widest = max(widest, Width(strings.TrimRight(word, " "), w, pt))
	}
	return widest
}

// words splits s after each place where a line may end.
func words(s string) []string {
	var out []string
	start := 0
	runes := []rune(s)
	at := 0 // byte offset after runes[i]
	for i, r := range runes {
		at += utf8.RuneLen(r)
		if i+1 == len(runes) {
			break
		}
		next := runes[i+1]
		ends := r == ' ' && next != ' ' ||
			r == '-' && letters(runes, i-1, 1) && letters(runes, i+1, 1) ||
			r == '–' && letters(runes, i-1, 1) || // "3 maj–14 augusti", not "12–21"
			r == '/' && letters(runes, i-3, 3) && letters(runes, i+1, 3) // not within a unit: g/m²
		if ends {
			out = append(out, s[start:at])
			start = at
		}
	}
	return append(out, s[start:])
}

// letters says whether n runes from i on are letters.
func letters(runes []rune, i, n int) bool {
	return i >= 0 && i+n <= len(runes) && !slices.ContainsFunc(runes[i:i+n], func(r rune) bool { return !unicode.IsLetter(r) })
}

// fitting is how many bytes of s, whole letters and at least one, fit in width.
func fitting(s string, w Weight, pt, width float64) int {
	for i, r := range s {
		end := i + utf8.RuneLen(r)
		if i > 0 && Width(s[:end], w, pt) > width {
			return i
		}
	}
	return len(s)
}

// Shorten cuts s to width millimetres, ending in an ellipsis where it was cut.
func Shorten(s string, w Weight, pt, width float64) string {
	if Width(s, w, pt) <= width {
		return s
	}
	cut := fitting(s, w, pt, width-Width("…", w, pt))
	return strings.TrimRight(s[:cut], " ") + "…"
}
