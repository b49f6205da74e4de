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
