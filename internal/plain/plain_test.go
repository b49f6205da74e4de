package plain

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

func TestLine(t *testing.T) {
	for in, want := range map[string]string{
		"":                       "",
		"Back lawn, 3 × 4 m":     "Back lawn, 3 × 4 m",
		"Grüner Hof\u00a05":      "Grüner Hof\u00a05",
		"芝生\u3000西":              "芝生\u3000西",
		"a\x1b[31mb\x07":         `a\x1b[31mb\a`,
		"one\nplan.toml: ok\r":   `one\nplan.toml: ok\r`,
		"safe\u202egnp.exe":      `safe\u202egnp.exe`,
		"\u2066a\u2069\u200f":    `\u2066a\u2069\u200f`,
		"zero\u200bwidth\ufeff":  `zero\u200bwidth\ufeff`,
		"\u2028\u2029\u0085\x9b": `\u2028\u2029\u0085\x9b`,
		"\xff\xfe":               `\xff\xfe`,
		"\ufffd stays":           "\ufffd stays",
		"tag\U000e0041":          `tag\U000e0041`,
		"\u3164\ufe0f":           `\u3164\ufe0f`,
		"\u009b31m":              `\u009b31m`,
	} {
		if got := Line(in); got != want {
			t.Errorf("%q is shown as %q, want %q", in, got, want)
		}
	}
}

func TestQuote(t *testing.T) {
	long := strings.Repeat("ü", 500)
	if got := Quote(long); utf8.RuneCountInString(got) != most+2 || !strings.HasSuffix(got, `…"`) {
		t.Errorf("a long value is shown as %s", got)
	}
	if got := Quote("a \"b\"\x1b"); got != `"a \"b\"\x1b"` {
		t.Errorf("shown as %s", got)
	}
}

// FuzzLine: whatever goes in, one line of characters that show comes out, and text
// without strange ones as it was.
func FuzzLine(f *testing.F) {
	for _, s := range []string{"a", "\x1b]0;x\a", "\u202e", "\xc3", "\n\n", "e\u0301"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		out := Line(s)
		if !utf8.ValidString(out) {
			t.Fatalf("no UTF-8: %q", out)
		}
		for _, r := range out {
			if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == '\u2028' || r == '\u2029' {
				t.Fatalf("%q lets %U through", s, r)
			}
		}
		if _, strange := Strange(s); strange == (out == s) {
			t.Fatalf("%q comes out as %q", s, out)
		}
		if Line(out) != out {
			t.Fatalf("%q is changed again", out)
		}
	})
}
