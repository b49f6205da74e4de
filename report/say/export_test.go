package say

import (
	"path"
	"strings"
	"testing"

	"github.com/samber/lo"
	"golang.org/x/text/feature/plural"
)

// The marks that stand round the name of an English entry before its text, and the
// hyphen of names there, at which no line is broken.
const markOpen, markClose, hyphen = "⟦", "⟧", "\u2011"

// MarkEnglish has every English text say which entry it is of, for one test.
func MarkEnglish(t *testing.T) {
	t.Helper()
	files, err := files.ReadDir(english)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		name := strings.TrimSuffix(f.Name(), ".toml")
		if name == "words" || name == "dates" { // which have forms of their own
			continue
		}
		plainly := rooms.of(english, name)
		marked := room{}
		for key, e := range plainly {
			forms := map[plural.Form]text{}
			for form, words := range e.forms {
				forms[form] = append(text{{literal: markOpen + strings.ReplaceAll(name+"."+key, "-", hyphen) + markClose, figure: -1}}, words...)
			}
			marked[key] = entry{e.by, forms}
		}
		put := func(r room) {
			rooms.mu.Lock()
			defer rooms.mu.Unlock()
			rooms.read[path.Join(english, f.Name())] = r
		}
		put(marked)
		t.Cleanup(func() { put(plainly) })
	}
}

// Marked are the names that a text has in marks.
func Marked(s string) []string {
	var out []string
	for _, after := range strings.Split(s, markOpen)[1:] {
		name, _, _ := strings.Cut(after, markClose)
		out = append(out, strings.ReplaceAll(name, hyphen, "-"))
	}
	return out
}

// Has says whether a language has an entry.
func Has(language, name string) bool {
	_, ok := voice{language: language}.entry(name)
	return ok
}

// Languages are those of the catalogue besides English.
func Languages() []string { return lo.Without(languages(), english) }
