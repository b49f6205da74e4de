package main

import (
	"bytes"
	"context"
	"strings"
	"testing"
	"unicode/utf8"
)

// TestHelpFits: every line of help fits a terminal of 80 columns, and every command
// says what it does and shows how.
func TestHelpFits(t *testing.T) {
	for _, c := range append(newRoot().Commands(), newRoot()) {
		var out, errs bytes.Buffer
		args := []string{"help"}
		if c.HasParent() {
			args = append(args, c.Name())
		}
		if got := run(context.Background(), args, nil, &out, &errs); got != exitDone {
			t.Errorf("%v ends with %d: %s", args, got, errs.String())
		}
		for line := range strings.Lines(out.String()) {
			if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > defaultWidth {
				t.Errorf("%v: a line of %d columns: %s", args, n, line)
			}
		}
		if c.Short == "" || c.HasParent() && c.Example == "" && c.Name() != "help" {
			t.Errorf("%s says not what it does, or not how", c.Name())
		}
	}
}
