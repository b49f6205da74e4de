package briefs_test

import (
	"strings"
	"testing"

	"swardwright/internal/briefs"
	"swardwright/internal/sheet"
	"swardwright/sowing"
)

// TestSound reads what is made: every brief is sound, one seed gives one brief, and
// together they have every key that a brief can have.
func TestSound(t *testing.T) {
	tables, err := sowing.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	n := uint64(2000)
	if testing.Short() {
		n = 500
	}
	given := map[string]bool{}
	for seed := range n {
		b := briefs.Random(seed)
		if _, err := sowing.ReadBrief("", []byte(b.Text), b.Open); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		if again := briefs.Random(seed); again != b {
			t.Errorf("seed %d gives two briefs", seed)
		}
		paths(sheet.Open("", []byte(b.Text)).Tree(), "", given)
	}
	for _, key := range sowing.Keys(tables) {
		top, _, _ := strings.Cut(key.Path, ".")
		if !given[key.Path] && !others[top] {
			t.Errorf("no brief of %d has %s", n, key.Path)
		}
	}
}

// others are the tables that are not made by chance: any price by its own key, and what
// hangs on the lawn's other keys.
var others = map[string]bool{"prices": true, "variant": true}

// paths notes the path of every key of a text.
func paths(v any, path string, into map[string]bool) {
	into[path] = true
	switch x := v.(type) {
	case map[string]any:
		for k, e := range x {
			paths(e, strings.TrimPrefix(path+"."+k, "."), into)
		}
	case []any:
		for _, e := range x {
			paths(e, path, into)
		}
	}
}
