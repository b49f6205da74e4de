// Package paper prints a plan as PDF, on A4 or US Letter.
//
// It lays out content.Document on sheets of drawing items itself (lines broken and
// tables set with the measures of package face), so that the page total is known
// before a byte is written and every text's place can be tested. The file is then
// written in one go by write, the only user of the PDF library. The same plan gives
// the same bytes with one release of Go. The file has an outline and links, but no
// tags: it is not PDF/UA and not PDF/A, which the library cannot write.
package paper

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"swardwright/internal/told"
	"swardwright/report/content"
	"swardwright/report/draw"
	"swardwright/report/face"
	"swardwright/report/say"
	"swardwright/sowing"
)

// Options are the choices of whoever prints.
type Options struct {
	Paper string             // "a4" or "letter"; empty: letter for US units, else a4
	Parts []content.PartName // none: client and crew
}

// format is a size of paper with its margins, mm. All have the same column of text.
type format struct{ w, h, left, top, bottom float64 }

const column = draw.Width

var formats = map[string]format{
	"a4":     {210, 297, 24, 25, 25},
	"letter": {215.9, 279.4, 26, 24, 24},
}

// Write prints a plan.
func Write(w io.Writer, plan *sowing.Plan, opt Options) error {
	b, err := layOut(plan, opt)
	if err != nil {
		return err
	}
	return b.write(w)
}

// Compared prints lawns that are planned beside each other.
func Compared(w io.Writer, all []sowing.Compared, opt Options) error {
	f, err := say.For(all[0].Plan)
	if err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	b, err := set(content.Comparison(all, f), f, opt.Paper, all[0].Plan.Date)
	if err != nil {
		return err
	}
	return b.write(w)
}

// Count prints a sheet to count points with.
func Count(w io.Writer, plan *sowing.Plan, opt Options) error {
	f, err := say.For(*plan)
	if err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	b, err := set(content.CountSheet(plan, f), f, opt.Paper, plan.Date)
	if err != nil {
		return err
	}
	return b.write(w)
}

// layOut sets a plan on sheets.
func layOut(plan *sowing.Plan, opt Options) (*book, error) {
	f, err := say.For(*plan)
	if err != nil {
		return nil, fmt.Errorf("pdf: %w", err)
	}
	parts := opt.Parts
	if len(parts) == 0 {
		parts = []content.PartName{content.Client, content.Crew}
	}
	return set(content.New(plan, f, parts...), f, opt.Paper, plan.Date)
}

// set sets a document of a date on sheets of a paper.
func set(doc content.Document, f *say.Sayer, paper string, date time.Time) (*book, error) {
	name := paper
	if name == "" {
		name = "a4"
		if f.US() {
			name = "letter"
		}
	}
	size, ok := formats[name]
	if !ok {
		return nil, fmt.Errorf("pdf: paper %q is neither a4 nor letter", paper)
	}
	c := &composer{format: size, say: f, col: column, places: map[string]placed{}, drawn: map[drawing]*draw.Drawing{}}
	var running []string // the part of each sheet
	for i, p := range doc.Parts {
		c.part(doc, p, i == 0)
		if i == len(doc.Parts)-1 {
			c.confess(p)
		}
		for len(running) < len(c.sheets) {
			running = append(running, p.Title)
		}
	}
	c.fillContents(doc)
	c.running(doc, running)
	if date.IsZero() {
		date = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC) // a file must have a date, and the clock is not read
	}
	return &book{
		w: size.w, h: size.h, sheets: c.sheets, parts: running, places: c.places, marks: c.marks,
		title: clean(doc.Title), author: clean(doc.By), subject: clean(f.Say(told.Say("plan.untitled")) + " " + doc.Reference), language: doc.Language, date: date.UTC(),
	}, nil
}

// confess says which letters the typeface lacks.
func (c *composer) confess(p content.Part) {
	if missing := c.missing(); len(missing) > 0 {
		c.flow(p.Name, c.blocks(p, []content.Block{content.Note{S: c.say.Say(told.Say("parts.letters", told.Source(codes(missing))))}}))
	}
}

// clean is text fit to be set.
func clean(s string) string {
	s, _ = face.Clean(s)
	return s
}

// codes names letters that cannot be printed.
func codes(rs []rune) string {
	names := make([]string, len(rs))
	for i, r := range rs {
		names[i] = fmt.Sprintf("U+%04X", r)
	}
	return strings.Join(names, ", ")
}

// missing are the letters on all sheets that the typeface lacks, in order.
func (c *composer) missing() []rune {
	all := slices.Clone(c.lost)
	for _, s := range c.sheets {
		for _, t := range draw.Texts(s.items) {
			_, lost := face.Clean(t.S)
			all = append(all, lost...)
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}
