package text

import (
	"fmt"
	"io"
	"strings"

	"swardwright/report/content"
	"swardwright/report/draw"
	"swardwright/report/say"
	"swardwright/sowing"
)

// Plan writes a whole plan, the answer first.
func Plan(w io.Writer, plan sowing.Plan, look Look) error {
	s, err := say.For(plan)
	if err != nil {
		return err
	}
	p := newPage(look)
	p.document(content.New(&plan, s, draw.Width))
	return p.to(w)
}

// Comparison writes lawns planned beside each other.
func Comparison(w io.Writer, all []sowing.Compared, look Look) error {
	s, err := say.For(all[0].Plan)
	if err != nil {
		return err
	}
	p := newPage(look)
	p.document(content.Comparison(all, s, draw.Width))
	return p.to(w)
}

// document writes a document, the first of its sections under the title.
func (p *page) document(d content.Document) {
	p.strongPara(strings.ToUpper(d.Title))
	for i, s := range d.Sections {
		if i > 0 {
			p.heading(s.Title)
		}
		var above content.Block
		for _, b := range s.Blocks {
			if f, ok := b.(content.Figure); ok && f.Data == nil {
				continue // what stands round a drawing tells it
			}
			if above != nil && apart(above, b) {
				p.line("")
			}
			p.block(b)
			above = b
		}
	}
	if d.Warning != "" {
		p.line("")
		p.para(d.Warning)
	}
}

// apart says whether a block stands apart from the one above it: a heading and a
// note are of what they stand by, and running text goes on.
func apart(above, b content.Block) bool {
	switch above.(type) {
	case content.Heading:
		return false
	case content.Text, content.List:
		switch b.(type) {
		case content.Text, content.List, content.Note:
			return false
		}
	}
	_, note := b.(content.Note)
	return !note
}

// block writes one block. A drawing is told by its table, or by what stands round it.
func (p *page) block(b content.Block) {
	switch b := b.(type) {
	case content.Lead:
		p.strongPara(b.S)
	case content.Heading:
		p.line(p.strong(b.S))
	case content.Text:
		p.para(b.S)
	case content.Note:
		p.para(b.S)
	case content.Notice:
		p.line(p.strong(b.Title))
		p.items(b.Items)
	case content.List:
		for i, s := range b.Items {
			if b.Numbered {
				p.point(fmt.Sprintf("%d. ", i+1), s)
			} else {
				p.item(s)
			}
		}
	case content.Facts:
		var rows [][]string
		for _, f := range b.Items {
			value := f.Value
			if f.Note != "" {
				value += "; " + f.Note
			}
			rows = append(rows, []string{f.Label, value})
		}
		p.facts(rows)
	case content.Details:
		var rows [][]string
		for _, d := range b.Items {
			rows = append(rows, d[:])
		}
		p.facts(rows)
	case content.Table:
		p.contentTable(b)
	case content.Figure:
		p.para(b.Caption)
		p.contentTable(*b.Data)
	case content.Signatures:
		for _, r := range b.Roles {
			p.line(r + " " + strings.Repeat("_", max(8, min(40, p.Width-length(r)-1))))
		}
	}
}

// contentTable lays out a table of the document.
func (p *page) contentTable(t content.Table) {
	columns := make([]column, len(t.Columns))
	for i, c := range t.Columns {
		columns[i] = column{title: c.Title, right: c.Align == content.Right}
	}
	rows := make([][]string, len(t.Rows))
	for i, r := range t.Rows {
		rows[i] = r.Cells
	}
	p.table(columns, rows)
}
