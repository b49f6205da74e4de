// Package page writes a plan as one self-contained page of HTML: the same content as
// the printed plan, for screens, screen readers and browsers' own printing. Tables
// are tables, headings are headings, every drawing carries its description in words,
// and nothing is fetched from anywhere.
package page

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"reflect"

	"swardwright/report/content"
	"swardwright/report/draw"
	"swardwright/report/say"
	"swardwright/sowing"
)

//go:embed page.html.tmpl
var source string

var page = template.Must(template.New("page").Funcs(template.FuncMap{
	"kind": func(b content.Block) string { return reflect.TypeOf(b).Name() },
	"drawing": func(d *draw.Drawing, section string) template.HTML {
		// Made by us, with all text escaped. Some drawings stand in two sections.
		return template.HTML(d.Inline(section + "-" + d.Name))
	},
	"right": func(t content.Table, i int) bool { return t.Columns[i].Align == content.Right },
	"group": func(r content.Row) bool { return r.Kind == content.GroupHead },
	"class": func(r content.Row) string {
		return map[content.RowKind]string{content.Sum: "sum", content.Total: "total"}[r.Kind]
	},
}).Parse(source))

// Write writes a plan as HTML.
func Write(w io.Writer, plan *sowing.Plan) error {
	f, err := say.For(*plan)
	if err != nil {
		return fmt.Errorf("html: %w", err)
	}
	var b bytes.Buffer
	if err := page.Execute(&b, content.New(plan, f, draw.Width)); err != nil {
		return fmt.Errorf("html: %w", err)
	}
	if _, err := w.Write(b.Bytes()); err != nil {
		return fmt.Errorf("html: %w", err)
	}
	return nil
}
