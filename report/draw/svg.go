package draw

import (
	"bytes"
	"encoding/xml"
	"math"
	"strconv"
	"strings"
	"unicode"

	"swardwright/report/face"
)

// FileHead begins every drawing that stands alone, so that it can be told from the
// drawings of others.
const FileHead = `<?xml version="1.0" encoding="UTF-8"?>` + "\n<!-- drawn by Swardwright -->\n"

// svg writes the drawing as one self-contained SVG 1.1 document with its title and
// description for readers of the screen.
func (d *Drawing) svg() []byte {
	var b bytes.Buffer
	b.WriteString(FileHead)
	d.write(&b, d.Name)
	return b.Bytes()
}

// Inline is the svg element alone, for a page of HTML; id makes its names unique there.
func (d *Drawing) Inline(id string) string {
	var b bytes.Buffer
	d.write(&b, id)
	return b.String()
}

func (d *Drawing) write(b *bytes.Buffer, id string) {
	w, h := num(d.W), num(d.H)
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" width="` + w + `mm" height="` + h + `mm" viewBox="0 0 ` + w + ` ` + h +
		`" role="img" aria-labelledby="` + escape(id) + `-t ` + escape(id) + `-d" font-family="Go, 'Noto Sans', 'Segoe UI', Helvetica, Arial, sans-serif">` + "\n")
	b.WriteString(`<title id="` + escape(id) + `-t">` + escape(d.Title) + "</title>\n")
	b.WriteString(`<desc id="` + escape(id) + `-d">` + escape(d.Desc) + "</desc>\n")
	s := svg{b: b, id: id}
	s.items(d.Items)
	b.WriteString("</svg>\n")
}

type svg struct {
	b     *bytes.Buffer
	id    string
	clips int
}

func (s *svg) items(items []Item) {
	for len(items) > 0 {
		it := items[0]
		if runs := Runs(items); len(runs) > 1 {
			s.runs(runs)
			items = items[len(runs):]
			continue
		}
		items = items[1:]
		switch v := it.(type) {
		case Line:
			s.b.WriteString(`<polyline points="` + points(v.Points) + `" fill="none"` + stroke(v.Stroke) + "/>\n")
		case Area:
			fill := "none"
			if v.Fill != "" {
				fill = string(v.Fill)
			}
			if len(v.More) == 0 {
				s.b.WriteString(`<polygon points="` + points(v.Points) + `" fill="` + fill + `"` + stroke(v.Outline) + "/>\n")
				break
			}
			s.b.WriteString(`<path d="M` + points(v.Points))
			for _, more := range v.More {
				s.b.WriteString("ZM" + points(more))
			}
			s.b.WriteString(`Z" fill-rule="evenodd" fill="` + fill + `"` + stroke(v.Outline) + "/>\n")
		case Text:
			s.text(v)
		case Group:
			s.group(v)
		}
	}
}

// runs writes lines of one stroke as one path.
func (s *svg) runs(lines []Line) {
	s.b.WriteString(`<path d="`)
	for _, l := range lines {
		s.b.WriteString("M" + points(l.Points))
	}
	s.b.WriteString(`" fill="none"` + stroke(lines[0].Stroke) + "/>\n")
}

func (s *svg) group(g Group) {
	s.b.WriteString(`<g`)
	if g.DX != 0 || g.DY != 0 {
		s.b.WriteString(` transform="translate(` + num(g.DX) + ` ` + num(g.DY) + `)"`)
	}
	if len(g.Clip) > 0 {
		s.clips++
		name := escape(s.id) + "-c" + strconv.Itoa(s.clips)
		s.b.WriteString(` clip-path="url(#` + name + `)"><clipPath id="` + name + `"><polygon points="` + points(g.Clip) + `"/></clipPath>` + "\n")
	} else {
		s.b.WriteString(">\n")
	}
	s.items(g.Items)
	s.b.WriteString("</g>\n")
}

// text writes one line. Its length is stated, so that another typeface, where ours
// is not installed, is fitted to the same room.
func (s *svg) text(t Text) {
	if t.S == "" {
		return
	}
	s.b.WriteString(`<text x="` + num(t.At.X) + `" y="` + num(t.At.Y) + `" font-size="` + num(t.PT*face.MMPerPoint) + `" fill="` + string(t.Color) + `"`)
	if t.Weight == face.Bold {
		s.b.WriteString(` font-weight="700"`)
	}
	switch t.Anchor {
	case Middle:
		s.b.WriteString(` text-anchor="middle"`)
	case End:
		s.b.WriteString(` text-anchor="end"`)
	}
	if t.TurnDeg != 0 {
		s.b.WriteString(` transform="rotate(` + num(-t.TurnDeg) + ` ` + num(t.At.X) + ` ` + num(t.At.Y) + `)"`)
	}
	if clean, missing := face.Clean(t.S); len(missing) == 0 && len(clean) > 2 {
		s.b.WriteString(` textLength="` + num(face.Width(clean, t.Weight, t.PT)) + `" lengthAdjust="spacingAndGlyphs"`)
	}
	s.b.WriteString(">" + escape(t.S) + "</text>\n")
}

func points(ps []Point) string {
	var b strings.Builder
	for i, p := range ps {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(num(p.X))
		b.WriteByte(',')
		b.WriteString(num(p.Y))
	}
	return b.String()
}

func stroke(s Stroke) string {
	if s.MM <= 0 || s.Color == "" {
		return ""
	}
	out := ` stroke="` + string(s.Color) + `" stroke-width="` + num(s.MM) + `"`
	if len(s.Dash) > 0 {
		parts := make([]string, len(s.Dash))
		for i, d := range s.Dash {
			parts[i] = num(d)
		}
		out += ` stroke-dasharray="` + strings.Join(parts, " ") + `"`
	}
	return out
}

// num writes hundredths of a millimetre, which no printer shows.
func num(x float64) string {
	x = math.Round(x*100) / 100
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return "0"
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// escape makes any text fit for XML 1.0: characters it forbids are left out.
func escape(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\t' && r != '\n' {
			return -1
		}
		return r
	}, s)
	var b strings.Builder
	if err := xml.EscapeText(&b, []byte(s)); err != nil {
		return ""
	}
	return b.String()
}
