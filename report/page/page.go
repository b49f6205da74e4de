// Package page writes a plan as one self-contained page of HTML: the same content as
// the printed plan, for screens, screen readers and browsers' own printing. The parts
// stand one after another, the evidence folded. Tables are tables, headings are
// headings, every drawing carries its description in words and is drawn once for wide
// screens and once for narrow ones, so that nothing has to be scrolled sideways; and
// nothing is fetched from anywhere.
package page

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"reflect"

	"swardwright/internal/told"
	"swardwright/report/content"
	"swardwright/report/draw"
	"swardwright/report/say"
	"swardwright/sowing"
)

//go:embed page.html.tmpl
var source string

// narrow is the width of the drawings for small screens, mm: their words are then as
// large as those of the page beside them.
const narrow = 90

// planHeight is how high the plans of the lawn are, mm: on paper a page holds one with
// all that stands by it, at the scale that it says.
const planHeight = 76

var page = template.Must(template.New("page").Funcs(template.FuncMap{
	"kind": func(b any) string { return reflect.TypeOf(b).Name() },
	"drawings": func(f content.Figure) []drawing {
		var out []drawing
		for _, at := range []struct {
			class string
			width float64
		}{{"wide", draw.Width}, {"narrow", narrow}} {
			if d := f.Draw(at.width, planHeight); d != nil {
				// Made by us, with all text escaped.
				out = append(out, drawing{at.class, template.HTML(d.Inline(f.Name + "-" + at.class))})
			}
		}
		return out
	},
	"right": func(t content.Table, i int) bool { return t.Columns[i].Align == content.Right },
	"group": func(r content.Row) bool { return r.Kind == content.GroupHead },
	"plain": func(r content.Row) bool { return r.Kind == content.Plain },
	"class": func(r content.Row) string {
		return map[content.RowKind]string{content.Sum: "sum", content.Total: "total"}[r.Kind]
	},
	"folded": func(p content.Part) bool { return p.Name == content.Evidence },
	"in":     func(p content.Part, b content.Block) inPart { return inPart{p, b} },
	"all":    func(p content.Part, blocks []content.Block) blocksOf { return blocksOf{p, blocks} },
	"span": func(t content.Table) int {
		if t.Tick {
			return len(t.Columns) + 1
		}
		return len(t.Columns)
	},
}).Parse(source))

// drawing is one drawing of a figure as it stands on the page.
type drawing struct {
	Class string
	SVG   template.HTML
}

// inPart is a block, and blocksOf several, with the part they stand in.
type (
	inPart struct {
		Part  content.Part
		Block content.Block
	}
	blocksOf struct {
		Part   content.Part
		Blocks []content.Block
	}
)

// Write writes parts of a plan as HTML, all of them unless told.
func Write(w io.Writer, plan *sowing.Plan, parts ...content.PartName) error {
	f, err := say.For(*plan)
	if err != nil {
		return fmt.Errorf("html: %w", err)
	}
	if len(parts) == 0 {
		parts = content.PartNames
	}
	return render(w, content.New(plan, f, parts...), f)
}

// Compared writes lawns that are planned beside each other.
func Compared(w io.Writer, all []sowing.Compared) error {
	f, err := say.For(all[0].Plan)
	if err != nil {
		return fmt.Errorf("html: %w", err)
	}
	return render(w, content.Comparison(all, f), f)
}

func render(w io.Writer, doc content.Document, f *say.Sayer) error {
	size := "A4"
	if f.US() {
		size = "letter"
	}
	var b bytes.Buffer
	if err := page.Execute(&b, struct {
		content.Document
		Size         string
		Skip, Unfold string
	}{doc, size, f.Say(told.Say("parts.skip")), f.Say(told.Say("parts.unfold"))}); err != nil {
		return fmt.Errorf("html: %w", err)
	}
	if _, err := w.Write(b.Bytes()); err != nil {
		return fmt.Errorf("html: %w", err)
	}
	return nil
}
