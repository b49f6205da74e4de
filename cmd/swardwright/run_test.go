package main

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/creack/pty"
)

// TestStopped ends a plan as Ctrl-C does: nothing is written, status 1.
func TestStopped(t *testing.T) {
	dir := t.TempDir()
	text, err := demoText(demoName)
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range []string{"a.toml", "b.toml"} {
		if err := os.WriteFile(filepath.Join(dir, n), text, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	for _, args := range [][]string{
		{"plan", filepath.Join(dir, "a.toml"), "--json", filepath.Join(dir, "out.json")},
		{"plan", dir},
		{"light", filepath.Join(dir, "a.toml")},
		{"matrix", filepath.Join(dir, "a.toml")},
	} {
		var out, errs bytes.Buffer
		if got := run(ctx, args, strings.NewReader(""), &out, &errs); got != exitFailed {
			t.Errorf("%v ends with %d: %s", args, got, errs.String())
		}
		if out.Len() > 0 || !strings.Contains(errs.String(), "stopped; nothing more was written") {
			t.Errorf("%v says %q and %q", args, out.String(), errs.String())
		}
	}
	if _, err := os.Stat(filepath.Join(dir, "out.json")); err == nil {
		t.Error("a stopped plan left a file")
	}
}

// TestStoppedWhileItWaits ends commands that wait for a brief or an answer.
func TestStoppedWhileItWaits(t *testing.T) {
	dir := t.TempDir()
	silent, _ := io.Pipe() // says nothing and never ends
	for _, args := range [][]string{
		{"check", "-"},
		{"plan", "-"},
		{"plan", "-", filepath.Join(dir, "a.toml"), "--json", dir},
	} {
		stopsSoon(t, args, silent)
	}
	terminal, tty, err := pty.Open()
	if err != nil {
		t.Skip("no terminal to be had here:", err)
	}
	defer terminal.Close()
	defer tty.Close()
	stopsSoon(t, []string{"new", filepath.Join(dir, "new.toml")}, tty)
	if _, err := os.Stat(filepath.Join(dir, "new.toml")); err == nil {
		t.Error("a stopped command left a file")
	}
}

func stopsSoon(t *testing.T, args []string, in io.Reader) {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	time.AfterFunc(20*time.Millisecond, stop)
	var out, errs bytes.Buffer
	if got := run(ctx, args, in, &out, &errs); got != exitFailed || !strings.Contains(errs.String(), "stopped; nothing more was written") {
		t.Errorf("%v ends with %d and says %q", args, got, errs.String())
	}
}

// brokenPipe is a standard output that nobody reads.
type brokenPipe struct{}

func (brokenPipe) Write([]byte) (int, error) { return 0, errors.New("broken pipe") }

func TestClosedOutput(t *testing.T) {
	var errs bytes.Buffer
	if got := run(context.Background(), []string{"species"}, nil, brokenPipe{}, &errs); got != exitFailed {
		t.Errorf("ends with %d", got)
	}
	if !strings.Contains(errs.String(), "broken pipe") {
		t.Errorf("says %q", errs.String())
	}
}

// TestHugeBrief refuses 50 MB without reading it all.
func TestHugeBrief(t *testing.T) {
	name := filepath.Join(t.TempDir(), "huge.toml")
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Truncate(50 << 20); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	if got := run(context.Background(), []string{"check", name}, nil, &out, &errs); got != exitWrong {
		t.Errorf("ends with %d", got)
	}
	if !strings.Contains(errs.String(), "is longer than 1024 kB") {
		t.Errorf("says %q", errs.String())
	}
}

// TestQuoteTOML reads back what it writes.
func TestQuoteTOML(t *testing.T) {
	for in, want := range map[string]string{
		`plain`: `"plain"`, `a "b" \c`: `"a \"b\" \\c"`, "tab\t": `"tab\u0009"`, "grün": `"grün"`,
	} {
		if got := quoteTOML(in); got != want {
			t.Errorf("%q is %s, want %s", in, got, want)
		}
	}
}
