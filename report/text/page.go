// Package text shows a plan, or a part of one, on a terminal.
package text

import (
	"io"
	"strings"
)

// Look is how a terminal takes text.
type Look struct {
	Width int  // columns; less than MinWidth counts as MinWidth
	Bold  bool // headings may be set in bold
}

// The widths between which text is laid out.
const (
	MinWidth = 60
	maxWidth = 100 // longer lines are hard to follow
)

// page gathers the lines of one text.
type page struct {
	Look
	b strings.Builder
}

func newPage(l Look) *page {
	l.Width = min(max(l.Width, MinWidth), maxWidth)
	return &page{Look: l}
}

// to writes the page. No-break spaces have done their work and become plain
// ones, which terminals and searches understand.
func (p *page) to(w io.Writer) error {
	_, err := io.WriteString(w, strings.ReplaceAll(p.b.String(), "\u00a0", " "))
	return err
}

func (p *page) line(t string) { p.b.WriteString(strings.TrimRight(t, " ") + "\n") }

func (p *page) strong(t string) string {
	if !p.Bold {
		return t
	}
	return "\x1b[1m" + t + "\x1b[0m"
}

func (p *page) heading(t string) {
	if p.b.Len() > 0 {
		p.line("")
	}
	p.line(p.strong(strings.ToUpper(t)))
}

// para writes a paragraph, wrapped.
func (p *page) para(t string) {
	for _, l := range wrap(t, p.Width) {
		p.line(l)
	}
}

func (p *page) strongPara(t string) {
	for _, l := range wrap(t, p.Width) {
		p.line(p.strong(l))
	}
}

// item writes a point of a list.
func (p *page) item(t string) { p.point("- ", t) }

// point writes a text behind its mark.
func (p *page) point(mark, t string) {
	for i, l := range wrap(t, p.Width-len(mark)) {
		if i > 0 {
			mark = strings.Repeat(" ", len(mark))
		}
		p.line(mark + l)
	}
}

func (p *page) items(ts []string) {
	for _, t := range ts {
		p.item(t)
	}
}

func (p *page) table(columns []column, rows [][]string) {
	if len(rows) == 0 {
		return
	}
	for _, l := range table(columns, rows, p.Width) {
		p.line(l)
	}
}

// facts writes names with what is to be said of them, the names in a column.
func (p *page) facts(rows [][]string) {
	p.table([]column{{}, {}}, rows)
}
