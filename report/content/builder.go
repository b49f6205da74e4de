package content

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"swardwright/internal/told"
	"swardwright/report/draw"
	"swardwright/report/say"
)

// builder gathers the blocks of one section as the sayer words them, leaving out
// what is empty.
type builder struct {
	say     *say.Sayer
	section string
	blocks  []Block
}

func (b *builder) add(block Block) { b.blocks = append(b.blocks, block) }

// words are a figure or a sentence as they stand in a cell or after a label.
func (b *builder) words(f told.Figure) string {
	if f == nil {
		return ""
	}
	return b.say.Figure(f)
}

// sentence is the same as a sentence of its own.
func (b *builder) sentence(f told.Figure) string { return sentence(b.words(f)) }

func (b *builder) sentences(items []told.Figure) []string {
	var out []string
	for _, f := range items {
		if s := b.sentence(f); s != "" {
			out = append(out, s)
		}
	}
	return out
}

func (b *builder) heading(f told.Figure) { b.add(Heading{b.words(f)}) }

func (b *builder) text(f told.Figure) {
	if s := b.sentence(f); s != "" {
		b.add(Text{s})
	}
}

func (b *builder) note(f told.Figure) {
	if s := b.sentence(f); s != "" {
		b.add(Note{s})
	}
}

func (b *builder) list(items []told.Figure) {
	if s := b.sentences(items); len(s) > 0 {
		b.add(List{Items: s})
	}
}

func (b *builder) steps(items []told.Figure) {
	if s := b.sentences(items); len(s) > 0 {
		b.add(List{Items: s, Numbered: true})
	}
}

func (b *builder) notice(title told.Figure, items ...told.Figure) {
	if s := b.sentences(items); len(s) > 0 {
		b.add(Notice{b.words(title), s})
	}
}

// fact is a figure with what it is and what is to be said of it.
type fact struct{ label, value, note told.Figure }

func (b *builder) facts(items []fact) {
	var out []Fact
	for _, f := range items {
		out = append(out, Fact{b.words(f.label), say.Capital(b.words(f.value)), b.words(f.note)})
	}
	if len(out) > 0 {
		b.add(Facts{out})
	}
}

// plan is the name of a figure that is a plan of the lawn.
const plan = "plan"

// figure adds a drawing, with the table of what it shows for those whom no drawing
// reaches.
func (b *builder) figure(name string, draw func(w, h float64) *draw.Drawing, caption told.Figure, data *table) {
	f := Figure{Name: b.section + "-" + name, Plan: name == plan, Draw: draw, Caption: b.words(caption)}
	if data != nil && len(data.rows) > 0 {
		t := b.set(*data)
		f.Data = &t
	}
	b.add(f)
}

// beside adds two runs of blocks side by side.
func (b *builder) beside(share float64, left, right func(*builder)) {
	l, r := builder{say: b.say, section: b.section}, builder{say: b.say, section: b.section}
	left(&l)
	right(&r)
	b.add(Beside{l.blocks, r.blocks, share})
}

// table is a table before it is worded. A cell is a figure, a sentence or nothing.
type table struct {
	caption told.Figure
	columns []head
	rows    []cells
	tick    bool
}

// head is the head of a column.
type head struct {
	title told.Figure
	align Align
	asis  bool // units, and letters that are keys to a drawing, keep their case
}

// cells are one row.
type cells struct {
	kind  RowKind
	cells []told.Figure
}

func left(title told.Figure) head  { return head{title: title} }
func right(title told.Figure) head { return head{title: title, align: Right} }
func keys() head                   { return head{asis: true} }
func unit(title told.Figure) head  { return head{title: title, asis: true} }

func (t *table) row(c ...told.Figure)   { t.rows = append(t.rows, cells{Plain, c}) }
func (t *table) sum(c ...told.Figure)   { t.rows = append(t.rows, cells{Sum, c}) }
func (t *table) total(c ...told.Figure) { t.rows = append(t.rows, cells{Total, c}) }
func (t *table) group(c told.Figure)    { t.rows = append(t.rows, cells{GroupHead, []told.Figure{c}}) }

// table adds a table, with a heading of its own where one is given; a table without
// rows leaves no trace. It says whether it was added.
func (b *builder) table(heading told.Figure, t table) bool {
	if len(t.rows) == 0 {
		return false
	}
	if heading != nil {
		b.heading(heading)
	}
	b.add(b.set(t))
	return true
}

// set words a table column by column, so that figures of one kind have one unit and
// as many decimals, and drops the columns that no row has anything in.
func (b *builder) set(t table) Table {
	out := Table{Caption: b.words(t.caption), Tick: t.tick}
	for _, r := range t.rows {
		kept := Row{Kind: r.kind}
		if r.kind == GroupHead {
			kept.Cells = []string{say.Capital(b.words(r.cells[0]))}
		}
		out.Rows = append(out.Rows, kept)
	}
	for i, c := range t.columns {
		column := make([]told.Figure, len(t.rows))
		for n, r := range t.rows {
			if r.kind != GroupHead {
				column[n] = r.cells[i]
			}
		}
		worded := b.say.Column(column)
		if !hasWords(worded) {
			continue
		}
		out.Columns = append(out.Columns, Column{b.words(c.title), c.align})
		for n, r := range t.rows {
			if r.kind != GroupHead {
				if c.align == Left && !c.asis {
					worded[n] = say.Capital(worded[n])
				}
				out.Rows[n].Cells = append(out.Rows[n].Cells, worded[n])
			}
		}
	}
	return out
}

func hasWords(cells []string) bool {
	for _, c := range cells {
		if c != "" && c != "–" {
			return true
		}
	}
	return false
}

// sentence gives a text its capital and its full stop. A key path, a unit or a
// figure at its head keeps its form.
func sentence(s string) string {
	s = strings.TrimSpace(s)
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return ""
	}
	first, _, _ := strings.Cut(s, " ")
	if unicode.IsLower(r) && !strings.ContainsAny(strings.TrimRight(first, ".,:;"), "._/0123456789") {
		s = say.Capital(s)
	}
	if last, _ := utf8.DecodeLastRuneInString(s); !strings.ContainsRune(".!?:…", last) {
		s += "."
	}
	return s
}
