package main

import (
	"slices"
	"testing"
)

// A source and all that may become of it.
func TestChanges(t *testing.T) {
	const head = "package p\n"
	tests := map[string]struct {
		source string
		want   []string // kind: what it was → what it becomes
	}{
		"a constant":                     {"const dryShare = 0.5", []string{"a fifth less: 0.5 → 0.4", "a fifth more: 0.5 → 0.6"}},
		"whole numbers stay whole":       {"const days = 28", []string{"a fifth less: 28 → 22", "a fifth more: 28 → 34"}},
		"small whole numbers count":      {"const none, two = 0, 2", nil},
		"a sum":                          {"var x = a + b", []string{"sign: + → -", "dropped: a + b → a"}},
		"a product":                      {"var x = a * b", []string{"sign: * → /", "dropped: a * b → a"}},
		"texts are joined, not added":    {`var x = a + ", " + b`, nil},
		"an order":                       {"var x = a >= b", []string{"compared: >= → <"}},
		"nothing there is no comparison": {"var x = a != nil", nil},
		"least and most":                 {"var x = min(a, b)", []string{"compared: min → max"}},
		"a place in a list is no figure": {"var x = a[7]", nil},
		"nor is what words a fault":      {`var x = fmt.Sprintf("%5.1f", 12.0)`, nil},
		"turns of a loop are left":       {"func f() {\n\tfor i := 0; i < 12; i++ {\n\t\tx -= 9\n\t}\n}", []string{"a fifth less: 9 → 7", "a fifth more: 9 → 11"}},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			found, err := changes(head + tt.source)
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, m := range found {
				got = append(got, m.kind+": "+m.was+" → "+m.gets)
			}
			if !slices.Equal(got, tt.want) {
				t.Errorf("%s\ngot  %q\nwant %q", tt.source, got, tt.want)
			}
		})
	}
}

// Every beginning of a sample has a like share of each room and kind, and one seed draws one sample.
func TestDrawn(t *testing.T) {
	var all []mutant
	for _, in := range []string{"m/site", "m/site/sun", "m/mix"} {
		for line := range 40 {
			all = append(all, mutant{in: in, line: line, kind: "sign"}, mutant{in: in, line: line, kind: "dropped"})
		}
	}
	sample := drawn(slices.Clone(all), 60, 1)
	if !slices.Equal(sample, drawn(slices.Clone(all), 60, 1)) {
		t.Error("one seed, two samples")
	}
	seen := map[string]int{}
	for _, m := range sample[:40] {
		seen[m.room()+" "+m.kind]++
	}
	for _, g := range []string{"site sign", "site dropped", "mix sign", "mix dropped"} {
		if seen[g] != 10 {
			t.Errorf("%s: %d of the first 40, want 10", g, seen[g])
		}
	}
}
