package main

import (
	"bufio"
	"bytes"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/creack/pty"

	"swardwright/report/text"
)

// TestProgressOnATerminal: the bar is drawn on a terminal, in one line of the
// narrowest that is served, and is gone in the end.
func TestProgressOnATerminal(t *testing.T) {
	terminal, tty, err := pty.Open()
	if err != nil {
		t.Skip("no terminal to be had here:", err)
	}
	defer terminal.Close()
	const lawns = 1000
	p := newProgress(tty, lawns)
	go func() {
		for range lawns {
			p.step("briefs/a-lawn-with-a-rather-long-name.toml")
		}
		p.done()
		tty.WriteString("end\n")
		tty.Close()
	}()
	all, err := bufio.NewReader(terminal).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	bars := strings.Split(all, clearLine)
	if len(bars) != lawns+2 {
		t.Fatalf("%d bars for %d lawns", len(bars)-2, lawns)
	}
	for i, bar := range bars[1 : lawns+1] {
		if n := utf8.RuneCountInString(bar); n >= text.MinWidth {
			t.Errorf("bar %d is %d columns wide: %q", i+1, n, bar)
		}
	}
	if first, last := bars[1], bars[lawns]; !strings.Contains(first, "] 1 of 1000 a-lawn") || !strings.HasPrefix(last, "["+strings.Repeat("=", barWidth)+"] 1000 of 1000 ") {
		t.Errorf("first bar %q, last %q", first, last)
	}
	if end := bars[lawns+1]; strings.TrimSpace(end) != "end" {
		t.Errorf("after the last bar %q", end)
	}
}

// TestNoProgressElsewhere: nothing is drawn into a file or a pipe.
func TestNoProgressElsewhere(t *testing.T) {
	file, err := os.CreateTemp(t.TempDir(), "")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	var pipe bytes.Buffer
	for _, p := range []*progress{newProgress(file, 1), newProgress(&pipe, 1)} {
		p.step("a.toml")
		p.done()
	}
	if info, err := file.Stat(); err != nil || info.Size() > 0 || pipe.Len() > 0 {
		t.Errorf("a bar where no terminal is: %v bytes, %q", info.Size(), pipe.String())
	}
}
