package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/spf13/pflag"
)

// TestManNamesEverything looks for every command and flag in the manual page.
func TestManNamesEverything(t *testing.T) {
	root := newRoot()
	var page bytes.Buffer
	if err := writeMan(&page, root); err != nil {
		t.Fatal(err)
	}
	for _, c := range root.Commands() {
		if c.Hidden || c.Name() == "help" {
			continue
		}
		if !strings.Contains(page.String(), ".SS "+roff(c.UseLine())) {
			t.Errorf("no section for %s", c.Name())
		}
		c.LocalFlags().VisitAll(func(f *pflag.Flag) {
			if !strings.Contains(page.String(), `.B \-\-`+roff(f.Name)) {
				t.Errorf("%s: no word of --%s", c.Name(), f.Name)
			}
		})
	}
}

// The head of the page has its date where one is known, and an empty place where none is.
func TestManHead(t *testing.T) {
	for epoch, want := range map[string]string{"1767225600": `.TH SWARDWRIGHT 1 "2026\-01\-01" "swardwright`, "": `.TH SWARDWRIGHT 1 "`} {
		t.Setenv("SOURCE_DATE_EPOCH", epoch)
		var page bytes.Buffer
		if err := writeMan(&page, newRoot()); err != nil {
			t.Fatal(err)
		}
		head, _, _ := strings.Cut(page.String(), "\n")
		if !strings.HasPrefix(head, want) || strings.Contains(head, ".PP") || strings.Count(head, `"`) != 4 {
			t.Errorf("SOURCE_DATE_EPOCH=%q: %s", epoch, head)
		}
	}
}
