package main

import (
	"io"
	"os"
	"strconv"

	"golang.org/x/term"

	"swardwright/report/say"
	"swardwright/report/text"
	"swardwright/sowing"
)

// defaultWidth is that of text which goes to no terminal.
const defaultWidth = 80

// lookOf finds how wide a writer is and whether it takes bold. COLUMNS and
// NO_COLOR are heeded (no-color.org).
func lookOf(w io.Writer) text.Look {
	look := text.Look{Width: defaultWidth}
	if f, ok := w.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		look.Bold = os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
		if width, _, err := term.GetSize(int(f.Fd())); err == nil && width > 0 {
			look.Width = width
		}
	}
	if n, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && n > 0 {
		look.Width = n
	}
	return look
}

// sayerOf words what is shown of a brief before it is planned.
func sayerOf(b sowing.Brief) (*say.Sayer, error) {
	t, err := sowing.BuiltIn()
	if err != nil {
		return nil, err
	}
	return say.New(b.Language, b.Units, b.Currency, t.Species.ByID)
}
