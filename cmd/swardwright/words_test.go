package main

import (
	"bytes"
	"context"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// unsaid is a sentence, or a figure of one, that was printed instead of being put into words.
var unsaid = regexp.MustCompile(`\{[a-z-]+[. ]|%!|told\.`)

// TestAllIsPutIntoWords: what a command prints is words, for every command.
func TestAllIsPutIntoWords(t *testing.T) {
	brief, err := filepath.Abs("../../data/demo/family-us.toml")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	for _, args := range [][]string{
		{"check", brief}, {"plan", brief}, {"plan", brief, "--parts", "client,crew,evidence"}, {"plan", brief, "--why", "numbers"}, {"light", brief},
		{"matrix", brief}, {"matrix", brief, "--why", "perennial-ryegrass"}, {"species"}, {"species", "perennial-ryegrass"}, {"prices"}, {"prices", brief}, {"stations", "--near", "57,-3"}, {"compare", brief, brief},
	} {
		var out, errs bytes.Buffer
		run(context.Background(), args, strings.NewReader(""), &out, &errs)
		for line := range strings.Lines(out.String() + errs.String()) {
			if unsaid.MatchString(line) {
				t.Errorf("%s: %s", strings.Join(args, " "), line)
				break
			}
		}
		if out.Len() == 0 && args[0] != "check" && args[0] != "compare" {
			t.Errorf("%s prints nothing: %s", strings.Join(args, " "), errs.String())
		}
	}
}

// A list of parts is completed by those that aren't in it yet.
func TestCompleteParts(t *testing.T) {
	for begun, want := range map[string][]string{
		"": {"client", "crew", "evidence"}, "c": {"client", "crew"}, "client,": {"client,crew", "client,evidence"}, "client,e": {"client,evidence"}, "x": nil, "client,crew,evidence,": nil,
	} {
		if got, _ := completeParts(nil, nil, begun); !slices.Equal(got, want) {
			t.Errorf("%q is completed by %v, want %v", begun, got, want)
		}
	}
}
