package say

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
)

// use is one place of the source that names an entry of the catalogue.
type use struct {
	at      string
	name    string
	figures int // handed over; -1: not to be told from the source
}

// source is what the program says of its own sentences.
type source struct {
	uses  []use
	kinds []string // tables of terms.toml that a word is looked up in by value
	wrong []string
}

const root = "../.."

// readSource goes through every file of the program that is no test.
func readSource(t *testing.T) source {
	t.Helper()
	var s source
	fset := token.NewFileSet()
	err := filepath.WalkDir(root, func(file string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if file == filepath.Join(root, "report", "say") || file == filepath.Join(root, "report", "sample") {
			return filepath.SkipDir // looks entries up by the figure; says what is invented
		}
		if d.IsDir() && (strings.HasPrefix(d.Name(), ".") && d.Name() != ".." || d.Name() == "testdata") {
			return filepath.SkipDir
		}
		if !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") {
			return nil
		}
		parsed, err := parser.ParseFile(fset, file, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(parsed, func(n ast.Node) bool { s.look(fset, n); return true })
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// look notes a call of told.Say, a told.Term and a told.Counted.
func (s *source) look(fset *token.FileSet, n ast.Node) {
	at := func() string { return fset.Position(n.Pos()).String() }
	switch n := n.(type) {
	case *ast.CallExpr:
		switch name, ok := called(n.Fun); {
		case ok && name == "Say":
			text, literal := stringOf(n.Args[0])
			if !literal {
				s.wrong = append(s.wrong, at()+": the name of a sentence is not written out")
				return
			}
			u := use{at(), text, len(n.Args) - 1}
			if n.Ellipsis.IsValid() {
				u.figures = -1
			}
			s.uses = append(s.uses, u)
		case ok && (name == "Verbatim" || name == "Grass" || name == "Zone"):
			if _, literal := stringOf(n.Args[0]); literal {
				s.wrong = append(s.wrong, at()+": a text written out is no "+name)
			}
		}
	case *ast.CompositeLit:
		switch name, ok := called(n.Type); {
		case ok && name == "Term":
			kind, literal := stringOf(field(n, "Kind", 0))
			word, known := stringOf(field(n, "Word", 1))
			switch {
			case !literal:
				s.wrong = append(s.wrong, at()+": the kind of a term is not written out")
			case known:
				s.uses = append(s.uses, use{at(), "terms." + kind + "." + word, 0})
			default:
				s.kinds = append(s.kinds, kind)
			}
		case ok && name == "Counted":
			if noun, literal := stringOf(field(n, "Of", 1)); literal {
				s.uses = append(s.uses, use{at(), "count." + noun, 1})
			} else {
				s.wrong = append(s.wrong, at()+": the noun of a count is not written out")
			}
		}
	}
}

// called is the name behind told.
func called(e ast.Expr) (string, bool) {
	sel, ok := e.(*ast.SelectorExpr)
	if !ok {
		return "", false
	}
	x, ok := sel.X.(*ast.Ident)
	return sel.Sel.Name, ok && x.Name == "told"
}

func stringOf(e ast.Expr) (string, bool) {
	lit, ok := e.(*ast.BasicLit)
	if !ok || lit.Kind != token.STRING {
		return "", false
	}
	s, err := strconv.Unquote(lit.Value)
	return s, err == nil
}

func field(lit *ast.CompositeLit, name string, index int) ast.Expr {
	for i, e := range lit.Elts {
		if kv, ok := e.(*ast.KeyValueExpr); ok {
			if key, ok := kv.Key.(*ast.Ident); ok && key.Name == name {
				return kv.Value
			}
		} else if i == index {
			return e
		}
	}
	return nil
}

// ownEntries are the files whose entries this package looks up by itself.
var ownEntries = []string{"figures", "words"}

// ownCounts are the nouns of figures that have their own, and the units of prices.
var ownCounts = []string{"count.bags", "count.loads", "count.times", "count.days", "count.weeks", "count.months", "count.years", "count.hours", "count.points"}

// TestCatalogue holds the sentences that the program says against the English
// catalogue, both ways, with the figures that each is given.
func TestCatalogue(t *testing.T) {
	src := readSource(t)
	for _, w := range src.wrong {
		t.Error(w)
	}
	used := map[string]bool{}
	english := voice{language: english}
	for _, u := range src.uses {
		used[u.name] = true
		e, ok := english.entry(u.name)
		if !ok {
			t.Errorf("%s: %q is not in the catalogue", u.at, u.name)
			continue
		}
		if u.figures >= 0 {
			if want := places(e); want != u.figures {
				t.Errorf("%s: %q has %d places and is given %d figures", u.at, u.name, want, u.figures)
			}
		}
	}
	for _, name := range names(t, "en") {
		file, rest, _ := strings.Cut(name, ".")
		kind, _, _ := strings.Cut(rest, ".")
		switch {
		case used[name], slices.Contains(ownEntries, file), slices.Contains(ownCounts, name):
		case file == "terms" && slices.Contains(src.kinds, kind):
		default:
			t.Errorf("no one says %q", name)
		}
	}
}

// places is how many figures a wording has a place for.
func places(e entry) int {
	n := 0
	if len(e.forms) > 1 {
		n = e.by + 1
	}
	for _, t := range e.forms {
		for _, p := range t {
			n = max(n, p.figure+1)
		}
	}
	return n
}

// names are all entries of a language, by file and key.
func names(t *testing.T, language string) []string {
	t.Helper()
	entries, err := os.ReadDir(language)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, f := range entries {
		file := strings.TrimSuffix(f.Name(), ".toml")
		if file == "words" || file == "dates" || file == "draft" { // which have forms of their own
			continue
		}
		for key := range rooms.of(language, file) {
			out = append(out, file+"."+key)
		}
	}
	slices.Sort(out)
	return out
}

// TestFaultyFile: a file that can't be read is told, and nothing else is said in its place.
func TestFaultyFile(t *testing.T) {
	refused := func(name string, read func()) {
		t.Helper()
		defer func() {
			if said := fmt.Sprint(recover()); !strings.Contains(said, "dates.toml: ") {
				t.Errorf("%s: %s", name, said)
			}
		}()
		read()
	}
	// The dates, which have forms of their own, are no sentences and no words.
	refused("sentences", func() { (&kept[room]{parse: parseRoom}).of(english, "dates") })
	refused("words", func() { (&kept[map[string]word]{parse: parseWords}).of(english, "dates") })
	refused("no dates", func() { calendars.of("xx", "dates") })
}

// digit is a digit that is not part of a name such as D15 or P₂O₅.
var digit = regexp.MustCompile(`(^|[^A-Za-z0-9₀-₉])[0-9]|[%°]`)

// TestNoFigureInText: what is counted or measured is a figure, never letters of the
// catalogue.
func TestNoFigureInText(t *testing.T) {
	for _, language := range languages() {
		words := words.of(language, "words")
		for _, name := range names(t, language) {
			e, _ := voice{language: language}.entry(name)
			for _, wording := range e.forms {
				for _, p := range wording {
					if digit.MatchString(p.literal) {
						t.Errorf("%s: %s: a figure stands in %q", language, name, p.literal)
					}
					if _, ok := words[p.word]; p.word != "" && !ok {
						t.Errorf("%s: %s: %q is not in words.toml", language, name, p.word)
					}
				}
			}
		}
	}
}

// TestEnglishApart: a word that British and American English have apart is never
// written out, but for those that mean something else as well.
func TestEnglishApart(t *testing.T) {
	words := words.of(english, "words")
	both := []string{"turf", "lime", "meadow-grass", "fall"} // turf types, ground lime, names of grasses, a slope
	for _, name := range names(t, english) {
		e, _ := voice{language: english}.entry(name)
		for _, wording := range e.forms {
			for _, p := range wording {
				for key, w := range words {
					if w.british == w.american {
						continue
					}
					for _, apart := range []string{w.british, w.american} {
						if !slices.Contains(both, apart) && regexp.MustCompile(`(?i)(^|\W)`+regexp.QuoteMeta(apart)+`(\W|$)`).MatchString(p.literal) {
							t.Errorf("%s: %q stands in %q; write {%s}", name, apart, p.literal, key)
						}
					}
				}
			}
		}
	}
}

// TestOtherLanguages: another language says what English says, with the same figures and
// the plural forms of its own.
func TestOtherLanguages(t *testing.T) {
	for _, folder := range Languages() {
		tag := language.Make(folder)
		var forms []plural.Form
		for n := range 200 {
			forms = append(forms, plural.Cardinal.MatchPlural(tag, n, 0, 0, 0, 0))
		}
		for _, name := range names(t, folder) {
			e, _ := voice{language: folder}.entry(name)
			en, ok := voice{language: english}.entry(name)
			if !ok {
				t.Errorf("%s: English has no %q", folder, name)
				continue
			}
			if got, want := figuresOf(e), figuresOf(en); !slices.Equal(got, want) {
				t.Errorf("%s: %s has the figures %v, and in English %v", folder, name, got, want)
			}
			for form := range e.forms {
				if form != plural.Other && !slices.Contains(forms, form) {
					t.Errorf("%s: %s has a plural form that the language hasn't", folder, name)
				}
			}
			for _, form := range forms {
				if _, ok := e.forms[form]; !ok && len(e.forms) > 1 {
					t.Errorf("%s: %s lacks a plural form of the language", folder, name)
				}
			}
		}
	}
}

// figuresOf are the figures that every form of a wording has, counted from 1.
func figuresOf(e entry) []int {
	var out []int
	for _, t := range e.forms {
		for _, p := range t {
			if p.figure >= 0 && !slices.Contains(out, p.figure+1) {
				out = append(out, p.figure+1)
			}
		}
	}
	slices.Sort(out)
	return out
}
