package mix

import (
	"fmt"
	"io/fs"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"swardwright/data"
	"swardwright/mix/internal/place"
	"swardwright/species"
)

var (
	ownNames = regexp.MustCompile(`(?s)\nid = .*?\n(group = .*\n)\[species\.names\].*?\n(\[species\.(?:facts|traits)\])`)
	synonyms = regexp.MustCompile(`\nsynonyms = .*`)
)

// withGrass is the built-in table with one entry more: an invented grass that is like
// another but for its name and for pairs of old and new text.
func withGrass(t *testing.T, id, like string, changes ...string) *species.Table {
	t.Helper()
	raw, err := fs.ReadFile(data.FS, species.TableFile)
	if err != nil {
		t.Fatal(err)
	}
	_, entry, found := strings.Cut(string(raw), "[[species]]\nid = \""+like+"\"")
	entry, _, _ = strings.Cut(entry, "\n[[species]]")
	entry = synonyms.ReplaceAllString("\nid = \""+like+"\""+entry, "")
	entry = ownNames.ReplaceAllString(entry, fmt.Sprintf("\nid = %[1]q\nbotanical = \"Gramen %[1]s\"\n${1}[species.names]\nen-GB = [%[1]q]\nen-US = [%[1]q]\n$2", id))
	for i := 0; i < len(changes); i += 2 {
		found = found && strings.Contains(entry, changes[i])
		entry = strings.Replace(entry, changes[i], changes[i+1], 1)
	}
	if !found {
		t.Fatal("the table no longer holds the text to change")
	}
	table, err := species.Load(fstest.MapFS{species.TableFile: {Data: append(raw, "\n[[species]]"+entry...)}})
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// TestNewGrass: a grass is one entry of the table, and by it alone is chosen, is counted to
// its kind by published practice, and is seen for its paleness.
func TestNewGrass(t *testing.T) {
	const (
		like  = "strong-creeping-red-fescue"
		lasts = `persistence     = { low = 0.05, best = 0.45,`
		pale  = `pale            = { low = 0, best = 0, high = 0,`
		kinds = `kinds = ["fine fescue", "red fescue"]`
	)
	spot, use := place.Spot{Station: "Burlington, Vermont"}, species.Use{Grade: species.Utility}
	of := func(changes ...string) Choice {
		return chosen(t, withGrass(t, "test-fescue", like, append([]string{lasts, `persistence     = { low = 0.05, best = 0.8,`}, changes...)...), spot, use, Stock{}, Task{})
	}
	green := of()
	if n := percent(green.Mixture, "test-fescue"); n < 20 {
		t.Errorf("%d %% of a grass that lasts longer than its kin", n)
	}
	if m := of(pale, `pale            = { low = 1, best = 1, high = 1,`).Mixture; percent(m, "test-fescue") > 0 && m.Evenness >= green.Mixture.Evenness {
		t.Errorf("evenness %.2f where its leaf is pale, %.2f where it is green", m.Evenness, green.Mixture.Evenness)
	}
	if n := percent(of(kinds, `kinds = ["grass rarely sown"]`).Mixture, "test-fescue"); n > 5 {
		t.Errorf("%d %% of a grass that publications hardly sow", n)
	}
}
