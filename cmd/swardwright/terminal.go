package main

import (
	"io"
	"io/fs"
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
	if terminal(w) {
		look.Bold = os.Getenv("NO_COLOR") == "" && obeys()
		if width, _, err := term.GetSize(int(under(w).(*os.File).Fd())); err == nil && width > 0 {
			look.Width = width
		}
	}
	if n, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && n > 0 {
		look.Width = n
	}
	return look
}

// terminal says whether a stream is one.
func terminal(stream any) bool {
	if w, ok := stream.(io.Writer); ok {
		stream = under(w)
	}
	f, ok := stream.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// waiting says whether something was sent to a stream: it is a pipe or a file.
func waiting(stream io.Reader) bool {
	f, ok := stream.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && (info.Mode()&fs.ModeNamedPipe != 0 || info.Mode().IsRegular() && info.Size() > 0)
}

// obeys says whether a terminal knows escape sequences.
func obeys() bool { return os.Getenv("TERM") != "dumb" }

// sayerOf words what is shown of a brief before it is planned.
func sayerOf(b sowing.Brief) (*say.Sayer, error) {
	t, err := sowing.BuiltIn()
	if err != nil {
		return nil, err
	}
	return say.New(b.Language, b.Units, b.Currency, t.Species.ByID)
}
