// Package content is what a plan says to its readers: a sowing.Plan set out in parts,
// for the client, the crew and the doubter, each of sections of headings, paragraphs,
// tables, figures and lists, once for the writers of paper, of pages and of text. It
// chooses and words; it computes nothing of the trade.
package content

import (
	"fmt"
	"slices"
	"strings"

	"swardwright/report/draw"
)

// Document is a plan set out for its readers.
type Document struct {
	Title, Reference, Date string // no date where the brief has none
	By                     string
	Language               string  // BCP 47, of its words
	Warning                string  // to stand on every page; empty: none
	Draft                  string  // the same, of words that no one of the trade has read yet
	More                   string  // how to have the rest of it
	Answer                 []Block // the answer and what to do next, for one screen
	Parts                  []Part
}

// PartName is a part of a document, by whom it is for.
type PartName string

// The parts, in their order.
const (
	Client   PartName = "client"   // who decides
	Crew     PartName = "crew"     // who does the work
	Evidence PartName = "evidence" // who doubts it
)

// Compared is the one part of lawns that are set beside each other.
const Compared PartName = "compared"

// PartNames are all parts.
var PartNames = []PartName{Client, Crew, Evidence}

// Part is what one reader takes away.
type Part struct {
	Name     PartName
	Title    string
	Sections []Section
}

// ParseParts reads a list of parts, "client,crew".
func ParseParts(s string) ([]PartName, error) {
	var out []PartName
	for _, name := range strings.Split(s, ",") {
		part := PartName(strings.TrimSpace(name))
		if !slices.Contains(PartNames, part) {
			return nil, fmt.Errorf("%q is no part of a plan; the parts are client, crew and evidence", part)
		}
		if !slices.Contains(out, part) {
			out = append(out, part)
		}
	}
	return out, nil
}

// Section is a piece of a part. One that is a page begins on a new one, and what
// stands on it was chosen to fill it.
type Section struct {
	ID, Title string
	Page      bool
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
	Tick    bool // each row has a box to tick
}

// Figure is a drawing with its caption, and where words alone reach the reader the
// table of what it shows.
type Figure struct {
	Name    string                                    // alone of its name in the document
	Plan    bool                                      // a plan of the lawn: it goes by the height there is
	Draw    func(width, height float64) *draw.Drawing // nil where there is nothing to draw; height is the most for a plan of the lawn
	Caption string
	Data    *Table // nil: the drawing's own description says it all
}

// Gallery is drawings of one kind side by side, each with its caption.
type Gallery struct{ Figures []Figure }

// Beside is two runs of blocks side by side where there is room, the first taking
// Share of the width.
type Beside struct {
	Left, Right []Block
	Share       float64
}

// Choice is what the reader decides by ticking boxes.
type Choice struct {
	Title   string
	Options []string
}

// Contents is the list of the sections of its part.
type Contents struct{ Title string }

// Signatures are lines to write on for each role.
type Signatures struct{ Roles, Lines []string }

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
func (Gallery) isBlock()    {}
func (Beside) isBlock()     {}
func (Choice) isBlock()     {}
func (Contents) isBlock()   {}
func (Signatures) isBlock() {}
