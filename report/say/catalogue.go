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

// kept are files of the catalogue, each read once when it is first asked for, as what
// parse makes of it. They are part of the program: one that can't be read is a mistake in
// it, which English in its place would only hide.
type kept[T any] struct {
	parse func(raw []byte) (T, error)
	mu    sync.Mutex
	read  map[string]T // by path
}

// of is one file of a language; one that the language hasn't is as if it were empty.
func (k *kept[T]) of(language, name string) T {
	file := path.Join(language, name+".toml")
	k.mu.Lock()
	defer k.mu.Unlock()
	if v, ok := k.read[file]; ok {
		return v
	}
	raw, _ := files.ReadFile(file)
	v, err := k.parse(raw)
	if err != nil {
		panic(fmt.Sprintf("say: %s: %v", file, err))
	}
	if k.read == nil {
		k.read = map[string]T{}
	}
	k.read[file] = v
	return v
}

// room is the sentences of one file, by their names in it.
type room map[string]entry

// rooms are the files of sentences, and words those of words of the trade.
var (
	rooms = kept[room]{parse: parseRoom}
	words = kept[map[string]word]{parse: parseWords}
)

func parseRoom(raw []byte) (room, error) {
	var table map[string]any
	if err := toml.Unmarshal(raw, &table); err != nil {
		return nil, err
	}
	r := room{}
	return r, r.add("", table)
}

// add takes the entries of a table, those of the tables inside it by dotted name.
func (r room) add(prefix string, table map[string]any) error {
	for key, value := range table {
		name := prefix + key
		switch v := value.(type) {
		case string:
			t, err := parse(v)
			if err != nil {
				return fmt.Errorf("%s: %w", name, err)
			}
			r[name] = entry{forms: map[plural.Form]text{plural.Other: t}}
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
			r[name] = e
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

func parseWords(raw []byte) (map[string]word, error) {
	var table map[string]any
	if err := toml.Unmarshal(raw, &table); err != nil {
		return nil, err
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
			return nil, fmt.Errorf("%s: a text, a pair of British and American, or metric and us", key)
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
