// Package plain is the door that text of unknown origin passes before it is
// printed: what a brief, a file name or an argument holds. A terminal obeys some
// characters and hides others, so none of those go through as they are.
package plain

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Line gives a text on one line, with everything that would not show as itself
// written out as in Go: control characters, those that turn the direction of
// writing, those without width, and bytes that are no UTF-8.
func Line(s string) string {
	if _, found := Strange(s); !found {
		return s
	}
	var b strings.Builder
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == utf8.RuneError && n == 1:
			b.WriteString(`\x` + strconv.FormatUint(uint64(s[i]), 16))
		case shows(r):
			b.WriteRune(r)
		default:
			b.WriteString(strings.Trim(strconv.QuoteRuneToASCII(r), "'"))
		}
		i += n
	}
	return b.String()
}

// Strange finds the first character that would not show as itself.
func Strange(s string) (rune, bool) {
	for i, r := range s {
		if !shows(r) || r == utf8.RuneError && !strings.HasPrefix(s[i:], "\ufffd") {
			return r, true
		}
	}
	return 0, false
}

// shows says whether a character is one that a reader sees: a letter, mark, digit,
// sign or space of the line.
func shows(r rune) bool {
	return unicode.IsPrint(r) && !unicode.Is(blanks, r) || unicode.Is(unicode.Zs, r)
}

// blanks are letters and marks of Unicode that are drawn as nothing.
var blanks = &unicode.RangeTable{
	R16: []unicode.Range16{
		{Lo: 0x034f, Hi: 0x034f, Stride: 1}, // grapheme joiner
		{Lo: 0x115f, Hi: 0x1160, Stride: 1}, // Hangul fillers
		{Lo: 0x17b4, Hi: 0x17b5, Stride: 1}, // Khmer inherent vowels
		{Lo: 0x180b, Hi: 0x180f, Stride: 1}, // Mongolian selectors
		{Lo: 0x2800, Hi: 0x2800, Stride: 1}, // blank Braille pattern
		{Lo: 0x3164, Hi: 0x3164, Stride: 1}, // Hangul filler
		{Lo: 0xfe00, Hi: 0xfe0f, Stride: 1}, // variation selectors
		{Lo: 0xffa0, Hi: 0xffa0, Stride: 1}, // Hangul filler
	},
	R32: []unicode.Range32{{Lo: 0xe0100, Hi: 0xe01ef, Stride: 1}}, // variation selectors
}

// most is how many characters of a value fit in a message.
const most = 40

// Cut shortens a long value to what fits in a message.
func Cut(s string) string {
	if utf8.RuneCountInString(s) <= most {
		return s
	}
	return string([]rune(s)[:most-1]) + "…"
}

// Quote gives a value as it is shown in a message: cut and in quotes.
func Quote(s string) string { return strconv.Quote(Cut(s)) }
