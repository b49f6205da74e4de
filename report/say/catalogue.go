package say

import (
	"embed"
	"fmt"
	"io/fs"
	"path"
	"strconv"
	"strings"
	"sync"

	"github.com/BurntSushi/toml"
	"golang.org/x/text/feature/plural"
)

// files are the catalogues, a folder a language and in it a file a room.
//
//go:embed */*.toml
var files embed.FS

// english is the folder that has every entry.
const english = "en"

// entry is one wording: a text, or a text for each plural form of a figure.
type entry struct {
	by    int // index of the figure that decides
	forms map[plural.Form]text
}

// text is a wording taken apart.
type text []piece

// piece is a run of letters, the place of a figure or the place of a word of
// words.toml.
type piece struct {
	literal string
	figure  int    // index, -1: none
	word    string // of words.toml
	capital bool
}

// word is an entry of words.toml: by the reader's English or by units.
type word struct{ british, american, metric, customary string }

// room is one file of one language, read when the first of its sentences is said.
type room struct {
	entries map[string]entry
	err     error
}

// rooms are the files read so far, by path.
var rooms struct {
	sync.Mutex
	read map[string]*room
}

// open reads one file of the catalogue once; nil where the language has none.
func open(language, name string) *room {
	file := path.Join(language, name+".toml")
	rooms.Lock()
	defer rooms.Unlock()
	if r, ok := rooms.read[file]; ok {
		return r
	}
	r := readRoom(file)
	if rooms.read == nil {
		rooms.read = map[string]*room{}
	}
	rooms.read[file] = r
	return r
}

func readRoom(file string) *room {
	raw, err := files.ReadFile(file)
	if err != nil {
		return nil
	}
	r := &room{entries: map[string]entry{}}
	var table map[string]any
	if r.err = toml.Unmarshal(raw, &table); r.err == nil {
		r.err = r.add("", table)
	}
	if r.err != nil {
		r.err = fmt.Errorf("%s: %w", file, r.err)
	}
	return r
}

// add takes the entries of a table, those of the tables inside it by dotted name.
func (r *room) add(prefix string, table map[string]any) error {
	for key, value := range table {
		name := prefix + key
		switch v := value.(type) {
		case string:
			t, err := parse(v)
			if err != nil {
				return fmt.Errorf("%s: %w", name, err)
			}
			r.entries[name] = entry{forms: map[plural.Form]text{plural.Other: t}}
		case map[string]any:
			if _, ok := v["other"]; !ok {
				if err := r.add(name+".", v); err != nil {
					return err
				}
				continue
			}
			e, err := parseForms(v)
			if err != nil {
				return fmt.Errorf("%s: %w", name, err)
			}
			r.entries[name] = e
		default:
			return fmt.Errorf("%s: neither a text nor a table of plural forms", name)
		}
	}
	return nil
}

// pluralForms are the forms by the names that CLDR gives them.
var pluralForms = map[string]plural.Form{"zero": plural.Zero, "one": plural.One, "two": plural.Two, "few": plural.Few, "many": plural.Many, "other": plural.Other}

func parseForms(table map[string]any) (entry, error) {
	e := entry{forms: map[plural.Form]text{}}
	for key, value := range table {
		if key == "by" {
			n, ok := value.(int64)
			if !ok || n < 1 {
				return entry{}, fmt.Errorf("by: the number of a figure, from 1")
			}
			e.by = int(n) - 1
			continue
		}
		form, known := pluralForms[key]
		s, ok := value.(string)
		if !known || !ok {
			return entry{}, fmt.Errorf("%s: not a plural form with its text", key)
		}
		t, err := parse(s)
		if err != nil {
			return entry{}, err
		}
		e.forms[form] = t
	}
	return e, nil
}

// parse takes a wording apart: {1} is the place of the first figure, {turf} of a
// word, and ^ after the brace gives either its capital.
func parse(s string) (text, error) {
	var t text
	for s != "" {
		before, rest, found := strings.Cut(s, "{")
		if before != "" {
			t = append(t, piece{literal: before, figure: -1})
		}
		if !found {
			break
		}
		inside, after, closed := strings.Cut(rest, "}")
		if !closed {
			return nil, fmt.Errorf("a brace is not closed in %q", s)
		}
		p := piece{figure: -1}
		inside, p.capital = strings.CutPrefix(inside, "^")
		if n, err := strconv.Atoi(inside); err != nil {
			p.word = inside
		} else if p.figure = n - 1; n < 1 {
			return nil, fmt.Errorf("figures are counted from 1 in %q", s)
		}
		t = append(t, p)
		s = after
	}
	return t, nil
}

// words are the entries of a language's words.toml.
var words struct {
	sync.Mutex
	read map[string]map[string]word
}

// wordsOf are the words of one language.
func wordsOf(language string) map[string]word {
	words.Lock()
	defer words.Unlock()
	if w, ok := words.read[language]; ok {
		return w
	}
	if words.read == nil {
		words.read = map[string]map[string]word{}
	}
	w, _ := readWords(language)
	words.read[language] = w
	return w
}

func readWords(language string) (map[string]word, error) {
	raw, err := files.ReadFile(path.Join(language, "words.toml"))
	if err != nil {
		return nil, err
	}
	var table map[string]any
	if err := toml.Unmarshal(raw, &table); err != nil {
		return nil, fmt.Errorf("%s/words.toml: %w", language, err)
	}
	out := map[string]word{}
	for key, value := range table {
		switch v := value.(type) {
		case string:
			out[key] = word{british: v, american: v}
		case []any:
			if len(v) == 2 {
				b, _ := v[0].(string)
				a, _ := v[1].(string)
				out[key] = word{british: b, american: a}
			}
		case map[string]any:
			m, _ := v["metric"].(string)
			u, _ := v["us"].(string)
			out[key] = word{metric: m, customary: u}
		}
		if out[key] == (word{}) {
			return nil, fmt.Errorf("%s/words.toml: %s: a text, a pair of British and American, or metric and us", language, key)
		}
	}
	return out, nil
}

// languages are the folders of the catalogue.
func languages() []string {
	entries, err := fs.ReadDir(files, ".")
	if err != nil {
		return nil
	}
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}
