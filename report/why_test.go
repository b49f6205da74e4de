package report

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"strings"
	"testing"

	"swardwright/data"
	"swardwright/sowing"
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
		plan, err := sowing.NewPlan(context.Background(), brief)
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
