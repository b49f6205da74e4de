// Package content is what a printed plan says: a sowing.Plan set out as sections of
// headings, paragraphs, tables, figures and lists, once, for the writers of paper
// and of pages. It chooses and words; it computes nothing of the trade.
package content

import "swardwright/report/draw"

// Document is a plan set out for a reader.
type Document struct {
	Title, Reference, Date string
	By                     string
	Language               string // BCP 47, of its words
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

// Figure is a drawing with its caption, and where words alone reach the reader the
// table of what it shows.
type Figure struct {
	Drawing *draw.Drawing
	Caption string
	Data    *Table // nil: the drawing's own description says it all
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
