// Package content is what a printed plan says: a sowing.Plan set out as sections of
// headings, paragraphs, tables, figures and lists, once, for the writers of paper
// and of pages. It chooses and words; it computes nothing of the trade.
package content

import "swardwright/report/draw"

// Document is a plan set out for a reader.
type Document struct {
	Title, Reference, Date string
	By                     string
	Language               string // BCP 47, of numbers and dates; words are English
	Warning                string // to stand on every page; empty: none
	Sections               []Section
}

// Section is one part of the document; the first is the answer and stands alone.
type Section struct {
	ID, Title string
	Blocks    []Block
}

// Block is one of the types below.
type Block interface{ isBlock() }

// Lead is the answer, to be read first.
type Lead struct{ S string }

// Heading opens a part of a section.
type Heading struct{ S string }

// Text is a paragraph.
type Text struct{ S string }

// Note is a paragraph in small type.
type Note struct{ S string }

// Notice is what must not be overlooked.
type Notice struct {
	Title string
	Items []string
}

// List is a run of short items.
type List struct {
	Items    []string
	Numbered bool
}

// Fact is one figure with what it is.
type Fact struct{ Label, Value, Note string }

// Facts are the figures that the reader looks for, side by side.
type Facts struct{ Items []Fact }

// Details are pairs of label and value in small type: who, where, which.
type Details struct{ Items [][2]string }

// Align is how a column stands.
type Align int

// The alignments.
const (
	Left Align = iota
	Right
)

// Column is one column of a table.
type Column struct {
	Title string
	Align Align
}

// RowKind is what a row of a table is.
type RowKind int

// The kinds of row.
const (
	Plain RowKind = iota
	GroupHead
	Sum   // of rows above, on the way to a total
	Total // what counts
)

// Row is one row of a table. A GroupHead has one cell across all columns.
type Row struct {
	Kind  RowKind
	Cells []string
}

// Table is a table with its caption, which names it for those who do not see it.
type Table struct {
	Caption string
	Columns []Column
	Rows    []Row
}

// Figure is a drawing with its caption.
type Figure struct {
	Drawing *draw.Drawing
	Caption string
}

// Signatures are lines to sign on.
type Signatures struct{ Roles []string }

func (Lead) isBlock()       {}
func (Heading) isBlock()    {}
func (Text) isBlock()       {}
func (Note) isBlock()       {}
func (Notice) isBlock()     {}
func (List) isBlock()       {}
func (Facts) isBlock()      {}
func (Details) isBlock()    {}
func (Table) isBlock()      {}
func (Figure) isBlock()     {}
func (Signatures) isBlock() {}

// builder gathers the blocks of one section, leaving out what is empty.
type builder struct{ blocks []Block }

func (b *builder) heading(s string) { b.blocks = append(b.blocks, Heading{s}) }

func (b *builder) text(s string) {
	if s != "" {
		b.blocks = append(b.blocks, Text{sentence(s)})
	}
}

func (b *builder) note(s string) {
	if s != "" {
		b.blocks = append(b.blocks, Note{sentence(s)})
	}
}

func (b *builder) list(items []string) {
	if items = sentences(items); len(items) > 0 {
		b.blocks = append(b.blocks, List{Items: items})
	}
}

func (b *builder) steps(items []string) {
	if items = sentences(items); len(items) > 0 {
		b.blocks = append(b.blocks, List{Items: items, Numbered: true})
	}
}

func (b *builder) notice(title string, items ...string) {
	if items = sentences(items); len(items) > 0 {
		b.blocks = append(b.blocks, Notice{title, items})
	}
}

func (b *builder) facts(items []Fact) {
	if len(items) > 0 {
		b.blocks = append(b.blocks, Facts{items})
	}
}

func (b *builder) figure(d *draw.Drawing, caption string) {
	if d != nil {
		b.blocks = append(b.blocks, Figure{d, caption})
	}
}

// table adds a table, with a heading of its own where one is given; a table without
// rows leaves no trace. It says whether it was added.
func (b *builder) table(heading string, t Table) bool {
	if len(t.Rows) == 0 {
		return false
	}
	if heading != "" {
		b.heading(heading)
	}
	b.blocks = append(b.blocks, t.trimmed())
	return true
}

// trimmed drops the columns that no row has anything in, and keeps figures by
// their units.
func (t Table) trimmed() Table {
	keep := make([]bool, len(t.Columns))
	for _, r := range t.Rows {
		if r.Kind == GroupHead {
			continue
		}
		for i, c := range r.Cells {
			keep[i] = keep[i] || c != "" && c != "–"
		}
	}
	out := Table{Caption: t.Caption}
	for i, c := range t.Columns {
		if keep[i] {
			out.Columns = append(out.Columns, c)
		}
	}
	for _, r := range t.Rows {
		kept := Row{Kind: r.Kind}
		if r.Kind == GroupHead {
			kept.Cells = r.Cells
		} else {
			for i, c := range r.Cells {
				if keep[i] {
					kept.Cells = append(kept.Cells, glue(c))
				}
			}
		}
		out.Rows = append(out.Rows, kept)
	}
	return out
}
