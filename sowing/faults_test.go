package sowing

import (
	"flag"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"swardwright/internal/sheet"
)

var update = flag.Bool("update", false, "write what the reader now says into testdata/faults.txt")

const faultsFile = "testdata/faults.txt"

// faultCase is one bad brief of the corpus.
type faultCase struct {
	name, text, want string
}

var head = regexp.MustCompile(`(?m)^\s*\[+\s*([a-z_]+)`)

// brief completes the case: what it says comes first, so that its lines keep
// their numbers plus one, and the tables a brief needs and it lacks come after.
// A case named "whole: …" is left as it is.
func (c faultCase) brief() string {
	if strings.HasPrefix(c.name, "whole: ") {
		return c.text
	}
	tables := map[string]bool{}
	for _, m := range head.FindAllStringSubmatch(c.text, -1) {
		tables[m[1]] = true
	}
	b := "title = \"A lawn\"\n"
	if strings.HasPrefix(c.text, "title") {
		b = "\n"
	}
	b += c.text + "\n"
	for _, t := range []struct{ name, text string }{
		{"place", "[place]\nlatitude = 57.1\nlongitude = -3.8\n"},
		{"lawn", "[lawn]\narea_m2 = 84\n"},
		{"use", "[use]\ngrade = \"utility\"\n"},
	} {
		if !tables[t.name] && !strings.HasPrefix(c.text, t.name+" ") {
			b += t.text
		}
	}
	return b
}

func readCases(t testing.TB) []faultCase {
	text, err := os.ReadFile(faultsFile)
	if err != nil {
		t.Fatal(err)
	}
	var cases []faultCase
	for _, block := range strings.Split("\n"+string(text), "\n=== ")[1:] {
		name, rest, _ := strings.Cut(block, "\n")
		brief, want, ok := strings.Cut("\n"+rest, "\n---")
		if !ok {
			t.Fatalf("%s: no --- line", name)
		}
		cases = append(cases, faultCase{name, strings.TrimPrefix(brief, "\n"), strings.TrimSpace(want)})
	}
	return cases
}

// TestFaults reads every bad brief of the corpus and compares what is said of it.
func TestFaults(t *testing.T) {
	cases := readCases(t)
	if len(cases) < 150 {
		t.Errorf("the corpus has shrunk to %d cases", len(cases))
	}
	var updated strings.Builder
	for _, c := range cases {
		_, err := ReadBrief("", []byte(c.brief()), noFile)
		got := ""
		if err != nil {
			if _, ok := err.(sheet.Faults); !ok {
				t.Errorf("%s: the error is no sheet.Faults: %v", c.name, err)
			}
			got = err.Error()
		}
		if got == "" {
			t.Errorf("%s: no fault found", c.name)
		}
		if got != c.want && !*update {
			t.Errorf("%s:\n%s\ngot:  %s\nwant: %s", c.name, c.brief(), got, c.want)
		}
		updated.WriteString("=== " + c.name + "\n" + c.text + "\n---\n" + got + "\n")
	}
	if *update {
		if err := os.WriteFile(faultsFile, []byte(updated.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// TestEveryKeyHasFaults holds the corpus to every key a brief can have.
func TestEveryKeyHasFaults(t *testing.T) {
	var said strings.Builder
	for _, c := range readCases(t) {
		said.WriteString(c.want + "\n")
	}
	index := regexp.MustCompile(`\[\d+\]`)
	told := index.ReplaceAllString(said.String(), "")

	root := sheet.Open("", []byte(everyTable))
	tables, err := BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	readBrief(root, tables, noFile)
	keys := root.Known()
	if len(keys) < 80 {
		t.Fatalf("only %d keys are known: %v", len(keys), keys)
	}
	for _, key := range keys {
		key = index.ReplaceAllString(key, "")
		if !regexp.MustCompile(`(?m)^` + regexp.QuoteMeta(key) + `[ :]`).MatchString(told) {
			t.Errorf("no bad brief has a fault of %s", key)
		}
	}
	if !slices.IsSorted(keys) {
		t.Error("keys out of order")
	}
}

// everyTable opens every table there is.
const everyTable = `
[[lawn.part]]
[[obstacle]]
kind = "tree"
[[probe]]
[[seed_lot]]
[[premix]]
[[sown]]
[[seen]]
points = 100
grass = 50
[seen.of_grass]
[job.rootzone]
`
