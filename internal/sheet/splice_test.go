package sheet

import (
	"bytes"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var spliceOrder = []string{"place", "climate", "lawn", "obstacle", "probe", "light", "ground", "use", "job", "seed_lot", "premix", "prices"}

func TestSplice(t *testing.T) {
	for _, c := range []struct {
		name, text string
		edits      []Edit
		want       string
	}{
		{"value in place, note kept", "[lawn]\nslope_deg = 2 # by level\nx = 1\n",
			[]Edit{{[]any{"lawn", "slope_deg"}, 3.5}}, "[lawn]\nslope_deg = 3.5 # by level\nx = 1\n"},
		{"only the corner that moved", "[lawn]\noutline = [\n  [0, 0], # the tap\n  [12, 0],\n  [12, 7], # the gate\n]\n",
			[]Edit{{[]any{"lawn", "outline"}, []any{[]any{0, 0}, []any{12.25, 0}, []any{12, 7}}}},
			"[lawn]\noutline = [\n  [0, 0], # the tap\n  [12.25, 0],\n  [12, 7], # the gate\n]\n"},
		{"a corner more", "a = [[0, 0], [4, 0], [4, 3]]\n",
			[]Edit{{[]any{"a"}, []any{[]any{0, 0}, []any{4, 0}, []any{5, 1}, []any{4, 3}}}}, "a = [[0, 0], [4, 0], [5, 1], [4, 3]]\n"},
		{"a corner more before all", "a = [[0, 0], [4, 0]]\n",
			[]Edit{{[]any{"a"}, []any{[]any{9, 9}, []any{0, 0}, []any{4, 0}}}}, "a = [[9, 9], [0, 0], [4, 0]]\n"},
		{"a corner fewer", "a = [\n  [0, 0], # first\n  [4, 0],\n  [4, 3] # last\n]\n",
			[]Edit{{[]any{"a"}, []any{[]any{0, 0}, []any{4, 3}}}}, "a = [\n  [0, 0],\n  [4, 3] # last\n]\n"},
		{"the first corner gone", "a = [[0, 0], [4, 0], [4, 3]]\n",
			[]Edit{{[]any{"a"}, []any{[]any{4, 0}, []any{4, 3}}}}, "a = [[4, 0], [4, 3]]\n"},
		{"new key after the last of its table", "[lawn]\narea_m2 = 84\n# outline = …\n\n[use]\ngrade = \"utility\"\n",
			[]Edit{{[]any{"lawn", "slope_deg"}, 2}}, "[lawn]\narea_m2 = 84\nslope_deg = 2\n# outline = …\n\n[use]\ngrade = \"utility\"\n"},
		{"new key under a bare head", "[lawn] # to do\n\n[use]\n",
			[]Edit{{[]any{"lawn", "area_m2"}, 9}}, "[lawn] # to do\narea_m2 = 9\n\n[use]\n"},
		{"new key at the top", "# a lawn\n\n[lawn]\narea_m2 = 9\n",
			[]Edit{{[]any{"title"}, `the "old" lawn`}}, "# a lawn\n\ntitle = \"the \\\"old\\\" lawn\"\n\n[lawn]\narea_m2 = 9\n"},
		{"first key of all", "", []Edit{{[]any{"title"}, "x"}}, "title = \"x\"\n"},
		{"new table where it belongs", "title = \"x\"\n\n[lawn]\narea_m2 = 9\n# measured in rain\n\n# how it is kept\n[use]\ngrade = \"utility\"\n",
			[]Edit{{[]any{"ground", "ph"}, 5.8}},
			"title = \"x\"\n\n[lawn]\narea_m2 = 9\n# measured in rain\n\n[ground]\nph = 5.8\n\n# how it is kept\n[use]\ngrade = \"utility\"\n"},
		{"new table at the end", "title = \"x\"\n", []Edit{{[]any{"use", "grade"}, "utility"}}, "title = \"x\"\n\n[use]\ngrade = \"utility\"\n"},
		{"first of several", "[lawn]\narea_m2 = 9\n[use]\ngrade = \"utility\"\n",
			[]Edit{{[]any{"obstacle", 1}, map[string]any{}}, {[]any{"obstacle", 1, "name"}, "oak"}, {[]any{"obstacle", 1, "at"}, []any{1.5, 2}}},
			"[lawn]\narea_m2 = 9\n\n[[obstacle]]\nname = \"oak\"\nat = [1.5, 2]\n[use]\ngrade = \"utility\"\n"},
		{"one more after the last", "[[obstacle]]\nname = \"a\" # ash\n\n[[obstacle]]\nname = \"b\"\n\n[use]\n",
			[]Edit{{[]any{"obstacle", 3}, map[string]any{}}, {[]any{"obstacle", 3, "name"}, "c"}},
			"[[obstacle]]\nname = \"a\" # ash\n\n[[obstacle]]\nname = \"b\"\n\n[[obstacle]]\nname = \"c\"\n\n[use]\n"},
		{"one of several gone", "[[obstacle]]\nname = \"a\"\n\n# the oak\n[[obstacle]]\nname = \"b\" # by the gate\n\n[[obstacle]]\nname = \"c\"\n",
			[]Edit{{[]any{"obstacle", 2}, nil}}, "[[obstacle]]\nname = \"a\"\n\n# the oak\n[[obstacle]]\nname = \"c\"\n"},
		{"a key gone", "[use]\ngrade = \"utility\"\nmowing_mm = 40 # high\n", []Edit{{[]any{"use", "mowing_mm"}, nil}}, "[use]\ngrade = \"utility\"\n"},
		{"the last key gone takes its head", "title = \"x\"\n\n[climate]\ntrend = true\n\n[use]\ngrade = \"utility\"\n",
			[]Edit{{[]any{"climate", "trend"}, nil}}, "title = \"x\"\n\n[use]\ngrade = \"utility\"\n"},
		{"but not with a note under it", "[climate]\n# from the school\ntrend = true\n",
			[]Edit{{[]any{"climate", "trend"}, nil}}, "[climate]\n# from the school\n"},
		{"dotted keys go on dotted", "lawn.area_m2 = 9\nuse.grade = \"utility\"\n",
			[]Edit{{[]any{"lawn", "slope_deg"}, 2}}, "lawn.area_m2 = 9\nlawn.slope_deg = 2\nuse.grade = \"utility\"\n"},
		{"a key in braces", "[[premix]]\nparts = { a = 40, b = 60 }\n",
			[]Edit{{[]any{"premix", 1, "parts", "a"}, 30}, {[]any{"premix", 1, "parts", "hard fescue"}, 10}},
			"[[premix]]\nparts = { a = 30, b = 60, \"hard fescue\" = 10 }\n"},
		{"a key in braces gone", "[[premix]]\nparts = { a = 40, b = 60 }\n",
			[]Edit{{[]any{"premix", 1, "parts", "b"}, nil}}, "[[premix]]\nparts = { a = 40 }\n"},
		{"a table of a table", "[[premix]]\nname = \"bag\"\n[job]\nkind = \"new\"\n",
			[]Edit{{[]any{"premix", 1, "parts", "a"}, 100}, {[]any{"job", "rootzone", "depth_cm"}, 25}},
			"[[premix]]\nname = \"bag\"\nparts = { a = 100 }\n[job]\nkind = \"new\"\nrootzone = { depth_cm = 25 }\n"},
		{"a table of a table under a head of its own", "[[premix]]\n[premix.parts]\na = 100\n",
			[]Edit{{[]any{"premix", 1, "parts", "b"}, 1}}, "[[premix]]\n[premix.parts]\na = 100\nb = 1\n"},
		{"a day", "[job]\nkind = \"new\"\n", []Edit{{[]any{"job", "needed_by"}, Day("2027-07-01")}}, "[job]\nkind = \"new\"\nneeded_by = 2027-07-01\n"},
		{"what is no day stays to be faulted", "[job]\n", []Edit{{[]any{"job", "needed_by"}, Day("soon")}}, "[job]\nneeded_by = \"soon\"\n"},
		{"carriage returns", "a = 1\r\n[t]\r\nb = 2\r\n", []Edit{{[]any{"t", "c"}, true}}, "a = 1\r\n[t]\r\nb = 2\r\nc = true\r\n"},
		{"no line end", "[t]\nb = 2", []Edit{{[]any{"t", "c"}, 3}}, "[t]\nb = 2\nc = 3"},
		{"byte order mark", "\ufeffa = 1\n", []Edit{{[]any{"a"}, 2}}, "\ufeffa = 2\n"},
		{"text over several lines", "a = \"\"\"\nx\n\"\"\" # note\n", []Edit{{[]any{"a"}, "y"}}, "a = \"y\" # note\n"},
		{"brackets in text and notes", "a = [ \"]\", # ]\n \"b\" ]\n", []Edit{{[]any{"a"}, []any{"]", "c"}}}, "a = [ \"]\", # ]\n \"c\" ]\n"},
		{"what is not there is not taken out", "a = 1\n", []Edit{{[]any{"t", "b"}, nil}}, "a = 1\n"},
	} {
		got, err := Splice([]byte(c.text), c.edits, spliceOrder)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
		} else if string(got) != c.want {
			t.Errorf("%s:\ngot:\n%s\nwant:\n%s", c.name, got, c.want)
		}
	}
}

func TestSpliceRefuses(t *testing.T) {
	for _, c := range []struct {
		name, text string
		edit       Edit
	}{
		{"a text that cannot be read", "a = ", Edit{[]any{"b"}, 1}},
		{"an element beyond the end", "[[o]]\nn = 1\n", Edit{[]any{"o", 3}, map[string]any{}}},
		{"a key of what is no table", "a = 1\n", Edit{[]any{"a", "b"}, 1}},
		{"no path", "a = 1\n", Edit{nil, 1}},
		{"half an element", "[[o]]\nn = 1\n", Edit{[]any{"o", 1.5, "n"}, 1}},
		{"none-th element", "[[o]]\nn = 1\n", Edit{[]any{"o", 0, "n"}, 1}},
		{"a number first", "a = 1\n", Edit{[]any{1}, 1}},
		{"a truth in a path", "a = 1\n", Edit{[]any{true}, 1}},
	} {
		if got, err := Splice([]byte(c.text), []Edit{c.edit}, spliceOrder); err == nil {
			t.Errorf("%s is taken: %s", c.name, got)
		}
	}
}

// TestSpliceDemos sets every value of the demo briefs to another and back, which must
// give the same bytes, and takes every key out, which must keep all notes that stand on
// lines of their own.
func TestSpliceDemos(t *testing.T) {
	files, _ := filepath.Glob("../../data/demo/*.toml")
	if len(files) == 0 {
		t.Fatal("no demos")
	}
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		whole, err := tree(text)
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		leaves(whole, nil, func(path []any, v any) {
			n++
			var other any
			switch x := v.(type) {
			case float64:
				other = x + 1
			case string:
				other = x + "!"
			case bool:
				other = !x
			case Day:
				other = Day("2031-12-24")
			default:
				t.Fatalf("%v: %T", path, v)
			}
			changed, err := Splice(text, []Edit{{path, other}}, spliceOrder)
			if err != nil || bytes.Equal(changed, text) {
				t.Errorf("%s %v: %v", f, path, err)
				return
			}
			back, err := Splice(changed, []Edit{{path, v}}, spliceOrder)
			// A number may come back in fewer digits, 118.50 as 118.5.
			if err != nil || !bytes.Equal(shortNumbers(back), shortNumbers(text)) {
				t.Errorf("%s %v does not come back: %v", f, path, err)
			}
			without, err := Splice(text, []Edit{{path, nil}}, spliceOrder)
			if err != nil {
				t.Errorf("%s without %v: %v", f, path, err)
			} else if !slices.Equal(notes(without), notes(text)) {
				t.Errorf("%s without %v loses notes", f, path)
			}
		})
		if n < 50 {
			t.Errorf("%s: only %d values", f, n)
		}
	}
}

var trailingZeros = regexp.MustCompile(`(\.\d*?)0+\b|\.0+\b`)

func shortNumbers(text []byte) []byte {
	return bytes.ReplaceAll(trailingZeros.ReplaceAll(text, []byte("$1")), []byte(".\n"), []byte("\n"))
}

func notes(text []byte) []string {
	var out []string
	for _, l := range strings.Split(string(text), "\n") {
		if strings.HasPrefix(strings.TrimSpace(l), "#") {
			out = append(out, l)
		}
	}
	return out
}

// leaves calls f for every single value of a tree.
func leaves(v any, path []any, f func([]any, any)) {
	switch x := v.(type) {
	case map[string]any:
		for _, k := range slices.Sorted(maps.Keys(x)) {
			leaves(x[k], append(slices.Clone(path), k), f)
		}
	case []any:
		for i, e := range x {
			leaves(e, append(slices.Clone(path), i+1), f)
		}
	default:
		f(path, v)
	}
}

// FuzzSplice gives any text any number at any of its keys. What is taken says what was
// meant, by the check in Splice itself; here every other value must be as it was and
// nothing panics.
func FuzzSplice(f *testing.F) {
	for _, s := range []string{
		"a = 1", "[t]\nx = 'y' # n\n[u]\n", "[[t]]\na.b = 1\n[[t]]\nx.y = \"\"\"z\"\"\"", "a = [1, # n\n2]", "a = {b = 1, c = [{d = 2}]}\n",
		"a.b.c = 1\n[d]\ne = 2\n", "'q k' = 1\n\"x.y\" = 2\n", "[a]\n[a.b]\nc = 1\n[[a.d]]\ne = 1\n[[a.d]]\n", "\ufeffa=1\r\nb=2\r\n", "# n\n\n# m\n",
	} {
		f.Add([]byte(s), 0, "k", 7.5)
	}
	f.Fuzz(func(t *testing.T, text []byte, which int, key string, value float64) {
		body, fault := readable(text)
		if fault != nil {
			return
		}
		before, err := tree(body)
		if err != nil {
			return
		}
		paths := [][]any{{key}, {"t", key}, {"t", 1, key}}
		leaves(before, nil, func(p []any, _ any) { paths = append(paths, p) })
		path := paths[((which%len(paths))+len(paths))%len(paths)]
		for _, v := range []any{value, nil, []any{value, value}} {
			after, err := Splice(text, []Edit{{path, v}}, spliceOrder)
			if err != nil {
				continue
			}
			again, err := tree(bytes.TrimPrefix(after, []byte("\ufeff")))
			if err != nil {
				t.Fatalf("%q at %v: %q: %v", text, path, after, err)
			}
			if got := At(again, path); v == value && !reflect.DeepEqual(got, value) {
				t.Fatalf("%q at %v: %q has %v", text, path, after, got)
			}
		}
	})
}

func BenchmarkSplice(b *testing.B) {
	text, err := os.ReadFile("../../data/demo/court.toml")
	if err != nil {
		b.Fatal(err)
	}
	edit := []Edit{{[]any{"lawn", "outline"}, []any{[]any{0, 0}, []any{14, 0}, []any{14, 7}, []any{11, 7.1}, []any{11, 10}, []any{0, 10}}}}
	for b.Loop() {
		if _, err := Splice(text, edit, spliceOrder); err != nil {
			b.Fatal(err)
		}
	}
}

// TestChanges turns each demo into every other by the changes between them.
func TestChanges(t *testing.T) {
	files, _ := filepath.Glob("../../data/demo/*.toml")
	for _, from := range files {
		for _, to := range files {
			a, err := os.ReadFile(from)
			if err != nil {
				t.Fatal(err)
			}
			b, err := os.ReadFile(to)
			if err != nil {
				t.Fatal(err)
			}
			ta, tb := Open("", a).Tree(), Open("", b).Tree()
			made, err := Splice(a, Changes(ta, tb), spliceOrder)
			if err != nil {
				t.Errorf("%s to %s: %v", from, to, err)
			} else if !Same(Open("", made).Tree(), tb) {
				t.Errorf("%s to %s says something else", from, to)
			}
			if from == to && len(Changes(ta, tb)) > 0 {
				t.Errorf("%s differs from itself", from)
			}
		}
	}
}
