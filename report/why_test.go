package report

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"strings"
	"testing"

	"swardwright"
	"swardwright/data"
	"swardwright/internal/constants"
	"swardwright/sowing"
	"swardwright/species"
)

// TestWhyCoversEveryFigure walks the JSON of every demo plan: each figure has a
// value, a method and a word on how sure it is.
func TestWhyCoversEveryFigure(t *testing.T) {
	names, err := fs.Glob(data.FS, "demo/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		text, err := fs.ReadFile(data.FS, name)
		if err != nil {
			t.Fatal(err)
		}
		brief, err := sowing.ReadBrief(name, text, nil)
		if err != nil {
			t.Fatal(err)
		}
		plan, err := sowing.NewPlan(context.Background(), tables(t), brief)
		if err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		if err := JSON(&out, plan); err != nil {
			t.Fatal(err)
		}
		var root any
		if err := json.Unmarshal(out.Bytes(), &root); err != nil {
			t.Fatal(err)
		}
		walk(root, "", func(path string) {
			if r := reasonFor(index.ReplaceAllString(path, "")); r.method == "" || r.sure == "" {
				t.Errorf("%s: no reason for %s", name, path)
			}
		})
		for _, path := range []string{"mixture.rate_g_m2", "matrix[0].ratings.cold", "cost.ways[0].lines[1].amount", "windows[0].success", "premixes[0].score"} {
			out.Reset()
			if err := Why(&out, plan, path); err != nil {
				t.Errorf("%s: %v", name, err)
			}
			if !strings.HasPrefix(out.String(), path+" = ") || !strings.Contains(out.String(), "\nhere ") {
				t.Errorf("%s: %s", path, out.String())
			}
		}
		for path, want := range map[string]string{
			"mixture.rate_gm2":  "did you mean mixture.rate_g_m2?",
			"windows[99].opens": "take one of it by its number from 0",
			"windows.opens":     "take one of it by its number from 0",
			"title.x":           "is a single figure",
		} {
			if err := Why(&out, plan, path); err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%s: error %v, want %q in it", path, err, want)
			}
		}
	}
}

// TestWhyBelowTheFigures reaches every number of the models and every trait.
func TestWhyBelowTheFigures(t *testing.T) {
	numbers, err := constants.Read(swardwright.Core)
	if err != nil {
		t.Fatal(err)
	}
	grasses, err := species.Load(data.FS)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	said := func(err error) string {
		t.Helper()
		if err != nil {
			t.Error(err)
		}
		defer out.Reset()
		return out.String()
	}
	all := said(whyNumbers(&out, numbers, nil))
	for _, g := range numbers.Groups {
		if !strings.Contains(all, "numbers."+g.Room+" ") {
			t.Errorf("numbers does not list %s", g.Room)
		}
		room := said(whyNumbers(&out, numbers, []string{g.Room}))
		for _, c := range g.Constants {
			got := said(whyNumbers(&out, numbers, []string{g.Room, c.Name}))
			if !strings.Contains(got, " = "+c.Value+"\n") || !strings.Contains(got, "\nw") || !strings.Contains(room, "  "+c.Name+" = ") {
				t.Errorf("%s.%s: %s", g.Room, c.Name, got)
			}
		}
	}
	for _, r := range reasons {
		for _, room := range r.rooms {
			said(whyNumbers(&out, numbers, []string{room}))
		}
	}
	for _, s := range grasses.All() {
		for trait := range species.Trait(species.TraitCount) {
			got := said(whyTraits(&out, grasses, []string{s.ID, trait.String()}))
			for _, head := range []string{"what ", "from ", "sure "} {
				if !strings.Contains(got, "\n"+head) {
					t.Errorf("%s of %s lacks %s: %s", trait, s.ID, head, got)
				}
			}
		}
	}
	for path, want := range map[string]string{
		"numbers.spcies":                    "did you mean species?",
		"numbers.species.lightSteepnes":     "did you mean lightSteepness?",
		"traits.timoty":                     "did you mean timothy?",
		"traits.perennial-ryegrass.frezing": "did you mean freezing_c?",
		"numbrs":                            "did you mean numbers?",
	} {
		if err := Why(&out, sowing.Plan{}, path); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: error %v, want %q in it", path, err, want)
		}
	}
}

func walk(at any, path string, leaf func(string)) {
	switch x := at.(type) {
	case map[string]any:
		for k, v := range x {
			walk(v, strings.TrimPrefix(path+"."+k, "."), leaf)
		}
	case []any:
		for i, v := range x {
			walk(v, fmt.Sprintf("%s[%d]", path, i), leaf)
		}
	default:
		leaf(path)
	}
}

// tables are those of the program.
func tables(t testing.TB) sowing.Tables {
	t.Helper()
	built, err := sowing.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	return built
}
