package species

import (
	"strings"
	"testing"
	"testing/fstest"

	"swardwright/data"
)

// table is the embedded table, which must always load.
func table(t testing.TB) *Table {
	t.Helper()
	tb, err := Load(data.FS)
	if err != nil {
		t.Fatal(err)
	}
	return tb
}

func TestTableHoldsTheGrasses(t *testing.T) {
	tb := table(t)
	if n := len(tb.All()); n != 26 {
		t.Errorf("%d grasses, want 26", n)
	}
	for _, s := range tb.All() {
		if tb.ByID(s.ID) != s {
			t.Errorf("ByID(%q) does not find it", s.ID)
		}
		for _, name := range s.allNames() {
			if got, ok := tb.Find(strings.ToUpper(name)); !ok || got != s {
				t.Errorf("Find(%q) = %v", strings.ToUpper(name), got)
			}
		}
	}
	if tb.ByID("couch") != nil {
		t.Error("ByID finds what is not there")
	}
}

func TestSuggest(t *testing.T) {
	tb := table(t)
	for _, c := range []struct{ in, want string }{
		{"perenial ryegrass", "perennial ryegrass"},
		{"Poa pratenis", "Poa pratensis"},
		{"chewng fescue", "Chewings fescue"},
	} {
		if _, ok := tb.Find(c.in); ok {
			t.Errorf("%q is a name already", c.in)
		}
		got := tb.Suggest(c.in)
		if len(got) == 0 || !strings.EqualFold(strings.ReplaceAll(got[0], "-", " "), c.want) {
			t.Errorf("Suggest(%q) = %v, want %s first", c.in, got, c.want)
		}
	}
	if got := tb.Suggest("marram of the dunes"); got != nil {
		t.Errorf("Suggest of nothing near = %v", got)
	}
}

// TestLoadFaults spoils the real table in one place at a time.
func TestLoadFaults(t *testing.T) {
	raw, err := data.FS.ReadFile(TableFile)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ name, old, new, want string }{
		{"unknown key", "group = \"ryegrass\"", "group = \"ryegrass\"\ncolour = \"green\"", "unknown key"},
		{"unknown trait", "freezing_c ", "freezing_f ", "traits.freezing_f: unknown trait"},
		{"missing trait", "freezing_c ", "#", "traits.freezing_c: missing"},
		{"out of order", "low = -17, best = -14", "low = -14, best = -17", "out of order"},
		{"not a number", "low = -17, best = -14", "low = nan, best = -14", "out of order"},
		{"out of range", "low = -17, best = -14", "low = -170, best = -14", "needs to lie between"},
		{"no basis", "basis = \"read\"", "basis = \"rumour\"", "basis \"rumour\" is not known"},
		{"no source", "source = \"ryegrass-cold\"", "source = \"hearsay\"", "\"hearsay\" is not in [sources]"},
		{"idle source", "\n[sources]\n", "\n[sources]\nidle = \"Nobody 1900\"\n", "sources.idle: nothing cites it"},
		{"two owners of a name", "en-GB = [\"Italian ryegrass\"]", "en-GB = [\"Ryegrass\"]", "also a name of perennial-ryegrass"},
		{"group", "group = \"ryegrass\"", "group = \"rye\"", "needs to be one of"},
		{"cap", "max_share = 10", "max_share = 110", "between 0 and 100"},
		{"no best", "low = -17, best = -14,", "low = -17,", "needs low, best and high"},
		{"no botanical name", "botanical = \"Lolium perenne\"", "", "botanical: missing"},
		{"not TOML", "\n[sources]\n", "\n[sources\n", "species.toml"},
	} {
		t.Run(c.name, func(t *testing.T) {
			bad := strings.Replace(string(raw), c.old, c.new, 1)
			if bad == string(raw) {
				t.Fatal("the table no longer holds the text to spoil")
			}
			_, err := Load(fstest.MapFS{TableFile: {Data: []byte(bad)}})
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error is %v, want it to say %q", err, c.want)
			}
		})
	}
}

// FuzzLoad: whatever the file holds, Load refuses it or returns a whole table.
func FuzzLoad(f *testing.F) {
	f.Add("")
	f.Add("[sources]\na = \"A 1900\"\n[[species]]\nid = \"x\"\n[species.traits]\nfreezing_c = { low = 1, best = 2, high = 3, basis = \"read\", source = \"a\" }\n")
	f.Add("[[species]]\nid = 3\n")
	f.Add("[species]\n")
	f.Fuzz(func(t *testing.T, text string) {
		tb, err := Load(fstest.MapFS{TableFile: {Data: []byte(text)}})
		if err != nil {
			return
		}
		for _, s := range tb.All() {
			for tr, v := range s.Values {
				if !(v.Low <= v.Best && v.Best <= v.High) || v.Source == "" {
					t.Errorf("%s %s: %+v", s.ID, Trait(tr), v)
				}
			}
		}
	})
}

// FuzzFind: no name, however odd, breaks the search, and a name suggested is found.
func FuzzFind(f *testing.F) {
	f.Add("Poa pratensis")
	f.Add("  CHEWINGS—fescue ")
	f.Add("\x00\xff")
	tb := table(f)
	f.Fuzz(func(t *testing.T, name string) {
		tb.Find(name)
		for _, s := range tb.Suggest(name) {
			if _, ok := tb.Find(s); !ok {
				t.Errorf("suggested %q is not found", s)
			}
		}
	})
}
