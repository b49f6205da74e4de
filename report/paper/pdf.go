package paper

import (
	"fmt"
	"io"
	"math"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"swardwright/report/draw"
	"swardwright/report/face"
)

// book is a finished document: sheets of one size, places to lead to, and what the
// file says of itself.
type book struct {
	w, h   float64 // mm
	sheets []*sheet
	parts  []string          // the title of the part that each sheet is of
	places map[string]placed // by name, for links
	marks  []mark            // the outline

	title, author, subject string
	language               string // BCP 47
	date                   time.Time

	plain bool // not compressed, so that a test can read it
}

type sheet struct{ items []draw.Item }

// placed is where a named place came to stand: sheets count from 0.
type placed struct {
	sheet int
	y     float64
}

// mark is one entry of the outline.
type mark struct {
	title string
	level int
	placed
}

// family is the name that the one type family has in the file.
const family = "go"

// write draws a book as PDF. It is the only door to the PDF library: text has
// passed the gate, numbers are finite, and what the library throws comes back as
// an error that names the sheet.
func (b *book) write(w io.Writer) (err error) {
	at := 0
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("pdf: page %d cannot be drawn: %v", at+1, r)
		}
	}()
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: b.w, Ht: b.h}})
	pdf.SetCatalogSort(true)
	pdf.SetCompression(!b.plain)
	pdf.SetCreationDate(b.date)
	pdf.SetModificationDate(b.date)
	pdf.SetMargins(0, 0, 0)
	pdf.SetCellMargin(0)
	pdf.SetAutoPageBreak(false, 0)
	pdf.AddUTF8FontFromBytes(family, "", face.TTF(face.Regular))
	pdf.AddUTF8FontFromBytes(family, "B", face.TTF(face.Bold))
	pdf.SetLang(b.language)
	pdf.SetTitle(b.title, true)
	pdf.SetAuthor(b.author, true)
	pdf.SetSubject(b.subject, true)
	pdf.SetCreator("Swardwright", true)
	pdf.SetProducer("Swardwright", true)
	pdf.SetDisplayMode("fullpage", "continuous")
	pdf.SetLineCapStyle("butt")
	pdf.SetLineJoinStyle("miter")

	links := map[string]int{}
	next := 0
	for i, s := range b.sheets {
		at = i
		pdf.AddPage()
		p := painter{pdf: pdf, links: links}
		p.forget()
		p.font(face.Regular, 10)
		for ; next < len(b.marks) && b.marks[next].sheet == i; next++ {
			// The outline is written with the font in hand, and so must have one.
			pdf.Bookmark(b.marks[next].title, b.marks[next].level, b.marks[next].y)
		}
		p.items(s.items, 0, 0)
		if p.fault != nil {
			return fmt.Errorf("pdf: page %d: %w", i+1, p.fault)
		}
	}
	for name, link := range links {
		place := b.places[name]
		pdf.SetLink(link, place.y, place.sheet+1)
	}
	if err := pdf.Output(w); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	return nil
}

// painter draws items on the current page and remembers the state of the pen, so
// that it is only told what changes.
type painter struct {
	pdf    *fpdf.Fpdf
	links  map[string]int
	weight face.Weight
	pt     float64
	ink    map[byte]draw.Color // 't' text, 'f' fill, 'd' draw
	width  float64
	dashed bool
	fault  error
}

func (p *painter) font(w face.Weight, pt float64) {
	if p.pt == pt && p.weight == w {
		return
	}
	style := ""
	if w == face.Bold {
		style = "B"
	}
	p.pdf.SetFont(family, style, pt)
	p.weight, p.pt = w, pt
}

// color sets one of the three colours.
func (p *painter) color(kind byte, c draw.Color) {
	if p.ink[kind] == c {
		return
	}
	if p.ink == nil {
		p.ink = map[byte]draw.Color{}
	}
	p.ink[kind] = c
	r, g, b := c.RGB()
	switch kind {
	case 't':
		p.pdf.SetTextColor(r, g, b)
	case 'f':
		p.pdf.SetFillColor(r, g, b)
	default:
		p.pdf.SetDrawColor(r, g, b)
	}
}

// forget drops the memory of the pen at the end of a clip or a turn, where the file
// goes back to the state before it. The library does not notice that: it leaves out
// the colour of a text which it takes to be the fill's. So the fill is set at once,
// and the two agree again.
func (p *painter) forget() {
	p.ink, p.width, p.pt = nil, 0, 0
	p.dashed = true
	p.color('f', draw.White)
}

func (p *painter) stroke(s draw.Stroke) {
	p.color('d', s.Color)
	if p.width != s.MM {
		p.pdf.SetLineWidth(s.MM)
		p.width = s.MM
	}
	if len(s.Dash) > 0 || p.dashed {
		p.pdf.SetDashPattern(s.Dash, 0)
		p.dashed = len(s.Dash) > 0
	}
}

func (p *painter) items(items []draw.Item, dx, dy float64) {
	for len(items) > 0 {
		it := items[0]
		if runs := draw.Runs(items); len(runs) > 0 {
			p.lines(runs, dx, dy)
			items = items[len(runs):]
			continue
		}
		items = items[1:]
		switch v := it.(type) {
		case draw.Area:
			p.area(v, dx, dy)
		case draw.Text:
			p.text(v, dx, dy)
		case draw.Group:
			p.group(v, dx, dy)
		}
	}
}

func (p *painter) group(g draw.Group, dx, dy float64) {
	dx, dy = dx+g.DX, dy+g.DY
	if len(g.Clip) == 0 {
		p.items(g.Items, dx, dy)
		return
	}
	pts, ok := p.points(g.Clip, dx, dy)
	if !ok {
		return
	}
	p.pdf.ClipPolygon(pts, false)
	p.forget()
	p.items(g.Items, dx, dy)
	p.pdf.ClipEnd()
	p.forget()
}

// lines draws lines of one stroke as one path.
func (p *painter) lines(lines []draw.Line, dx, dy float64) {
	if lines[0].MM <= 0 || lines[0].Color == "" {
		return
	}
	p.stroke(lines[0].Stroke)
	for _, l := range lines {
		pts, ok := p.points(l.Points, dx, dy)
		if !ok || len(pts) < 2 {
			continue
		}
		p.pdf.MoveTo(pts[0].X, pts[0].Y)
		for _, q := range pts[1:] {
			p.pdf.LineTo(q.X, q.Y)
		}
	}
	p.pdf.DrawPath("D")
}

func (p *painter) area(a draw.Area, dx, dy float64) {
	style := ""
	if a.Fill != "" {
		p.color('f', a.Fill)
		style = "F"
	}
	if a.Outline.MM > 0 && a.Outline.Color != "" {
		p.stroke(a.Outline)
		style += "D"
	}
	if style == "" || len(a.Points) < 3 {
		return
	}
	if len(a.More) > 0 && a.Fill != "" {
		style += "*" // even-odd
	}
	for _, outline := range append([][]draw.Point{a.Points}, a.More...) {
		pts, ok := p.points(outline, dx, dy)
		if !ok {
			return
		}
		p.pdf.MoveTo(pts[0].X, pts[0].Y)
		for _, q := range pts[1:] {
			p.pdf.LineTo(q.X, q.Y)
		}
		p.pdf.ClosePath()
	}
	p.pdf.DrawPath(style)
}

func (p *painter) text(t draw.Text, dx, dy float64) {
	s, _ := face.Clean(t.S)
	x, y := t.At.X+dx, t.At.Y+dy
	if s == "" || !p.finite(x, y, t.PT, t.TurnDeg) {
		return
	}
	width := face.Width(s, t.Weight, t.PT)
	left := x
	switch t.Anchor {
	case draw.Middle:
		left -= width / 2
	case draw.End:
		left -= width
	}
	p.font(t.Weight, t.PT)
	p.color('t', t.Color)
	if t.TurnDeg != 0 {
		p.pdf.TransformBegin()
		p.pdf.TransformRotate(t.TurnDeg, x, y)
		p.pdf.Text(left, y, s)
		p.pdf.TransformEnd()
		p.forget()
	} else {
		p.pdf.Text(left, y, s)
	}
	if t.Link != "" {
		if _, ok := p.links[t.Link]; !ok {
			p.links[t.Link] = p.pdf.AddLink()
		}
		em := t.PT * face.MMPerPoint
		p.pdf.Link(left, y-face.Ascent*em, width, (face.Ascent+face.Descent)*em, p.links[t.Link])
	}
}

func (p *painter) points(ps []draw.Point, dx, dy float64) ([]fpdf.PointType, bool) {
	out := make([]fpdf.PointType, len(ps))
	for i, q := range ps {
		out[i] = fpdf.PointType{X: q.X + dx, Y: q.Y + dy}
		if !p.finite(out[i].X, out[i].Y) {
			return nil, false
		}
	}
	return out, true
}

// finite refuses what the library would write into the file as "NaN".
func (p *painter) finite(xs ...float64) bool {
	for _, x := range xs {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			if p.fault == nil {
				p.fault = fmt.Errorf("a drawing has a coordinate that is not a number")
			}
			return false
		}
	}
	return true
}
