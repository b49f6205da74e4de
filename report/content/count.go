package content

import (
	"github.com/samber/lo"

	"swardwright/internal/told"
	"swardwright/mix/record"
	"swardwright/report/draw"
	"swardwright/report/say"
	"swardwright/sowing"
)

// Count is the part that a field sheet is.
const Count PartName = "count"

// CountSheet is one page to count points on a lawn with: how they are laid, how many tell
// how much, the lawn with its zones and a form to fill in.
func CountSheet(p *sowing.Plan, f *say.Sayer) Document {
	w := writer{p: p, f: f}
	d := w.document()
	d.Warning = ""
	if p.Brief.Title == "" {
		d.Title = f.Say(told.Say("record.sheet"))
	}
	b := builder{say: f, section: "count"}
	steps := func(b *builder) {
		b.steps([]told.Figure{
			told.Say("record.sheet-string", told.LengthM(0.5), told.Count(5), told.Count(100)),
			told.Say("record.sheet-board", told.Count(5), told.Count(20)),
			told.Say("record.sheet-hit"), told.Say("record.sheet-whole"), told.Say("record.sheet-when"),
		})
	}
	if p.Site != nil && len(p.Site.Survey.Lawn.Parts) > 0 {
		b.beside(0.6, steps, func(b *builder) {
			b.figure("plan", func(width, _ float64) *draw.Drawing { return draw.Key(p, f, min(width, keyW), keyH) }, nil, nil)
		})
	} else {
		steps(&b)
	}
	b.table(told.Say("record.sheet-certainty"), tellingPoints())
	b.note(told.Say("record.sheet-again", told.Count(19), told.Count(20), told.Count(100)))
	b.heading(told.Say("record.sheet-form"))
	b.add(w.form())
	b.note(told.Say("record.sheet-brief"))
	d.Parts = []Part{{Name: Count, Title: f.Say(told.Say("record.sheet")), Sections: []Section{{ID: "count", Title: f.Say(told.Say("record.sheet-how")), Page: true, Blocks: b.blocks}}}}
	return d
}

// tellingPoints is the range that points leave of a cover of a half and of nine tenths, by layout.
func tellingPoints() table {
	t := table{caption: told.Say("record.sheet-certainty"), columns: []head{left(told.Say("record.sheet-laid")), left(told.Say("heads.found")),
		right(told.Say("record.sheet-points", told.Count(30))), right(told.Say("record.sheet-points", told.Count(100))), right(told.Say("record.sheet-points", told.Count(300)))}}
	for _, l := range []struct {
		layout record.Layout
		says   told.Sentence
	}{{record.OnString, told.Say("record.on-string")}, {record.Throws, told.Say("record.in-throws")}, {record.OnFrame, told.Say("record.in-frame")}} {
		for _, share := range []float64{0.5, 0.9} {
			row := []told.Figure{l.says, told.Share(share)}
			for _, n := range []int{30, 100, 300} {
				low, high := record.Certainty(l.layout, n, share)
				row = append(row, told.Between(told.Share(low), told.Share(high)))
			}
			t.row(row...)
		}
	}
	return t
}

// form has a line to fill in for each zone, and some to spare.
func (w *writer) form() Table {
	heads := []told.Sentence{told.Say("heads.zone"), told.Say("heads.seen-on"), told.Say("record.sheet-n"), told.Say("heads.grass"), told.Say("record.sheet-moss"), told.Say("record.sheet-weeds"), told.Say("record.sheet-bare"), told.Say("record.sheet-grasses")}
	out := Table{Caption: w.f.Say(told.Say("record.sheet-form")), Columns: lo.Map(heads, func(h told.Sentence, _ int) Column { return Column{Title: w.f.Say(h)} })}
	line := func(zone string) {
		row := Row{Cells: make([]string, len(heads))}
		row.Cells[0], row.Cells[1], row.Cells[len(heads)-1] = zone, "                    ", "                                                  "
		out.Rows = append(out.Rows, row)
	}
	if w.p.Site != nil {
		for _, z := range w.p.Site.Zones {
			line(z.Letter)
		}
	}
	const lines = 9
	for len(out.Rows) < lines {
		line("")
	}
	return out
}
