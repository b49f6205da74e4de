package text

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"swardwright/report/content"
	"swardwright/report/say"
	"swardwright/sowing"
)

// Plan writes the answer of a plan on one screen or, where parts are asked for, those
// parts whole.
func Plan(w io.Writer, plan sowing.Plan, look Look, parts ...content.PartName) error {
	s, err := say.For(plan)
	if err != nil {
		return err
	}
	p := newPage(look)
	if d := content.New(&plan, s, parts...); len(parts) == 0 {
		p.screen(d)
	} else {
		p.document(d)
	}
	return p.to(w)
}

// Comparison writes lawns planned beside each other.
func Comparison(w io.Writer, all []sowing.Compared, look Look) error {
	s, err := say.For(all[0].Plan)
	if err != nil {
		return err
	}
	p := newPage(look)
	d := content.Comparison(all, s)
	for _, part := range d.Parts {
		for i := range part.Sections {
			part.Sections[i].Blocks = slices.DeleteFunc(part.Sections[i].Blocks, ofThePage)
		}
	}
	p.document(d)
	return p.to(w)
}

// ofThePage says whether a block is for the client's page alone: whose lawn it is, and
// what they decide.
func ofThePage(b content.Block) bool {
	switch b.(type) {
	case content.Details, content.Choice:
		return true
	}
	return false
}

// screenLines is how many lines a terminal shows, its prompt left out.
const screenLines = 23

// screen writes the answer so that it fits on one screen: where it is too long the
// blank lines go first, then what is least missed.
func (p *page) screen(d content.Document) {
	whole := p.b.String()
	for _, spare := range []struct {
		tight bool
		texts int // paragraphs after the lead
		items int // of the list of what to do next
	}{{false, 1, 9}, {true, 1, 9}, {true, 1, 2}, {true, 0, 2}, {true, 0, 1}} {
		p.b.Reset()
		p.b.WriteString(whole)
		p.strongPara(strings.ToUpper(d.Title))
		texts := spare.texts
		for _, b := range d.Answer {
			switch v := b.(type) {
			case content.Text:
				if texts--; texts < 0 {
					continue
				}
			case content.List:
				v.Items = v.Items[:min(spare.items, len(v.Items))]
				b = v
			case content.Facts, content.Table:
				if !spare.tight {
					p.line("")
				}
			}
			p.block(b)
		}
		if !spare.tight {
			p.line("")
		}
		p.para(d.More)
		p.warnings(d)
		if strings.Count(p.b.String(), "\n") <= screenLines {
			return
		}
	}
}

// document writes the parts of a document.
func (p *page) document(d content.Document) {
	p.strongPara(strings.ToUpper(d.Title))
	for _, part := range d.Parts {
		if len(d.Parts) > 1 {
			p.heading("= " + part.Title)
		}
		for _, s := range part.Sections {
			p.section(s)
		}
	}
	if d.Warning != "" || d.Draft != "" {
		p.line("")
		p.warnings(d)
	}
}

// warnings are what stands on every page.
func (p *page) warnings(d content.Document) {
	for _, w := range []string{d.Warning, d.Draft} {
		if w != "" {
			p.para(w)
		}
	}
}

// section writes a section; one of drawings and lists of pages alone has nothing to
// say here.
func (p *page) section(s content.Section) {
	before := p.b.Len()
	head := p.b.String()
	p.heading(s.Title)
	start := p.b.Len()
	p.blocks(s.Blocks)
	if p.b.Len() == start {
		p.b.Reset()
		p.b.WriteString(head[:before])
	}
}

func (p *page) blocks(blocks []content.Block) {
	var above content.Block
	for _, b := range blocks {
		switch f := b.(type) {
		case content.Contents, content.Gallery:
			continue
		case content.Figure:
			if f.Data == nil {
				continue // what stands round a drawing tells it
			}
		case content.Beside:
			p.blocks(f.Left)
			p.blocks(f.Right)
			above = b
			continue
		}
		if above != nil && apart(above, b) {
			p.line("")
		}
		p.block(b)
		above = b
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

// block writes one block. A drawing is told by its table, or by what stands round it. A
// switch over the kinds of block, a few lines each.
//
//gocyclo:ignore
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
		if b.Caption != "" {
			p.para(b.Caption)
		}
		p.contentTable(*b.Data)
	case content.Choice:
		p.line(p.strong(b.Title))
		for _, o := range b.Options {
			p.point("[ ] ", o)
		}
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
		if t.Tick && r.Kind == content.Plain {
			rows[i] = append([]string{"[ ]"}, r.Cells...)
		}
	}
	if t.Tick {
		columns = append([]column{{}}, columns...)
	}
	p.table(columns, rows)
}
