package face

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

// TestCoverage sets one pangram or alphabet a language that the plans are written for.
func TestCoverage(t *testing.T) {
	for lang, s := range map[string]string{
		"Nordic":    "åäöÅÄÖæøÆØðþÐÞýáéíóúÝ",
		"Baltic":    "āčēģīķļņšūžĀČĒĢĪĶĻŅŠŪŽąčęėįšųūž",
		"Polish":    "ąćęłńóśźżĄĆĘŁŃÓŚŹŻ",
		"Czech":     "áčďéěíňóřšťúůýžÁČĎÉĚÍŇÓŘŠŤÚŮÝŽ",
		"Turkish":   "çğıİöşüÇĞÖŞÜ",
		"Hungarian": "őűŐŰ", "Romanian": "ășțâîĂȘȚ",
		"Greek":    "αβγδεζηθικλμνξοπρστυφχψωςάέήίόύώϊϋΐΰΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩΆΈΉΊΌΎΏ",
		"Cyrillic": "абвгдеёжзийклмнопрстуфхцчшщъыьэюяіїєґАБВГДЕЁЖЗИЙКЛМНОПРСТУФХЦЧШЩЪЫЬЭЮЯІЇЄҐ",
		"signs":    "„“”‘’–—…€£½²³°×≤≥±µ·−√→",
	} {
		if got, missing := Clean(s); len(missing) > 0 || got != s {
			t.Errorf("%s: missing %q", lang, missing)
		}
	}
}

func TestClean(t *testing.T) {
	for _, c := range []struct{ in, want, missing string }{
		{"Back lawn", "Back lawn", ""},
		{"a\xff", "a?", ""},
		{"tab\there", "tab here", ""},
		{"e\u0301", "é", ""},                         // composed
		{"1\u202f234", "1\u00a0234", ""},             // narrow no-break space
		{"so\u00adft\u200bly", "softly", ""},         // soft hyphen, zero width
		{"ế", "e", "ế"},                              // Vietnamese: kept readable
		{"lawn 🌱", "lawn ?", "🌱"},                    // beyond U+FFFF
		{"庭🌱庭", "???", "庭🌱"},                         // each once
		{"\x00\u202eabc", "abc", ""},                 // NUL, right-to-left override
		{"no\u2011break", "no-break", ""},            //
		{"tick ✓", "tick √", ""},                     //
		{strings.Repeat("\ufe0f", 3) + "x", "x", ""}, // variation selectors
	} {
		got, missing := Clean(c.in)
		if got != c.want || string(missing) != c.missing {
			t.Errorf("%q: got %q missing %q", c.in, got, string(missing))
		}
	}
}

// TestWidth checks against the advance widths of the font's own hmtx table: every
// figure of the Go family is as wide as every other, which tables rely on.
func TestWidth(t *testing.T) {
	for _, w := range []Weight{Regular, Bold} {
		for _, d := range "123456789" {
			if Width(string(d), w, 10) != Width("0", w, 10) {
				t.Errorf("figure %c is not as wide as 0", d)
			}
		}
	}
	if got := Width("mm", Regular, 20); got != 2*Width("m", Regular, 20) {
		t.Errorf("widths do not add: %g", got)
	}
}

func TestWrap(t *testing.T) {
	const pt = 10
	for _, s := range []string{
		"", "one", "A lawn under birches, north of the house", "28.5\u00a0g/m² of seed with 12\u00a0mm of dressing",
		"Donaudampfschifffahrtsgesellschaftskapitänsmützenabzeichenverordnung", "strong-creeping-red-fescue/chewings-fescue",
	} {
		for width := 8.0; width < 60; width += 3.7 {
			lines := Wrap(s, Regular, pt, width)
			for _, l := range lines {
				if Width(l, Regular, pt) > width {
					t.Errorf("%q at %.1f: line %q is too long", s, width, l)
				}
			}
			squeeze := strings.NewReplacer(" ", "")
			if squeeze.Replace(strings.Join(lines, "")) != squeeze.Replace(s) {
				t.Errorf("%q at %.1f: text lost: %q", s, width, lines)
			}
			if width > 25 {
				for _, l := range lines {
					if strings.HasSuffix(l, "28.5") || strings.HasSuffix(l, "12") {
						t.Errorf("a number was parted from its unit: %q", lines)
					}
				}
			}
		}
	}
}

// TestWrapWholeUnits: a unit is not broken at its slash, words are.
func TestWrapWholeUnits(t *testing.T) {
	for width := 6.0; width < 60; width++ {
		for _, l := range Wrap("Sow at 14.3\u00a0g/m², 3\u00a0kg/ha or 2\u00a0lb/1000\u00a0sq\u00a0ft of meadow/lawn", Regular, 10, width) {
			if strings.HasSuffix(l, "/") && !strings.HasSuffix(l, "meadow/") && Width("14.3\u00a0g/m²,", Regular, 10) < width && Width("2\u00a0lb/1000\u00a0sq\u00a0ft", Regular, 10) < width {
				t.Errorf("%q at %g mm", l, width)
			}
		}
	}
	if lines := Wrap("3\u00a0maj–14\u00a0augusti 12–21", Regular, 10, 20); !slices.Equal(lines, []string{"3\u00a0maj–", "14\u00a0augusti", "12–21"}) {
		t.Errorf("a run of days: %q", lines)
	}
	if lines := Wrap("meadow/lawn", Regular, 10, 14); len(lines) != 2 {
		t.Errorf("%q", lines)
	}
}

func FuzzClean(f *testing.F) {
	f.Add("lawn 🌱 \xff ș", 20.0)
	f.Fuzz(func(t *testing.T, s string, width float64) {
		clean, _ := Clean(s)
		if !utf8.ValidString(clean) {
			t.Fatalf("%q is not UTF-8", clean)
		}
		for _, r := range clean {
			if !has(r) {
				t.Fatalf("%q was let through", r)
			}
		}
		if again, _ := Clean(clean); again != clean {
			t.Fatalf("cleaning twice changed %q to %q", clean, again)
		}
		if width > 1 && width < 500 && len(s) < 2000 {
			for _, l := range Wrap(clean, Bold, 9, width) {
				if Width(l, Bold, 9) > width && utf8.RuneCountInString(l) > 1 {
					t.Fatalf("line %q is wider than %g", l, width)
				}
			}
			Shorten(clean, Regular, 9, width)
		}
	})
}
