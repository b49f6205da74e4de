package main

import (
	"context"
	"testing"

	"swardwright/mix/practice"
	"swardwright/sowing"
)

// asGood is the likeness of a lawn as written to the same as worked out now from which it
// needn't be written again.
const asGood = 0.95

// TestSitesAreUpToDate works out again what a lawn of every recommendation is.
func TestSitesAreUpToDate(t *testing.T) {
	if testing.Short() {
		t.Skip("works out some two hundred lawns")
	}
	tables, err := sowing.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	for i := range tables.Practice.Rows {
		r := &tables.Practice.Rows[i]
		now, err := lawnOf(context.Background(), tables, r)
		if err != nil {
			t.Errorf("%s: %v", r.ID, err)
			continue
		}
		if l := practice.LikenessOf(&now, &r.Lawn); l.Whole() < asGood {
			t.Errorf("%s: data/practice.toml is not what the brief gives (%.2f like it): go run ./internal/gen/practice", r.ID, l.Whole())
		}
	}
}

func TestWithSite(t *testing.T) {
	text := "[[row]]\nid = \"a\"\nsite = { old = 1 }\n\n[[row]]\nid = \"b\"\n"
	got, err := withSite(text, "a", practice.Lawn{Purpose: practice.Sport, HotC: 19.8765, Watered: true})
	want := "[[row]]\nid = \"a\"\nsite = { purpose = \"sport\", watered = true, hot_30_c = 19.9 }\n\n[[row]]\nid = \"b\"\n"
	if err != nil || got != want {
		t.Errorf("%v\n%s\nwanted\n%s", err, got, want)
	}
	if _, err := withSite(text, "c", practice.Lawn{}); err == nil {
		t.Error("a row that isn't there")
	}
}
