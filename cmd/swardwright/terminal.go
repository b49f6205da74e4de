package main

import (
	"io"
	"os"
	"strconv"

	"golang.org/x/term"

	"swardwright/report/form"
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

// formOf is how the reader of a brief's plan writes figures. The brief has been
// checked, so its words are sound.
func formOf(b sowing.Brief) form.Form {
	f, err := form.New(b.Language, b.Units, b.Currency)
	if err != nil {
		f, _ = form.New("", "", "")
	}
	return f
}
