package paper

import (
	"slices"
	"strconv"

	"swardwright/report/content"
	"swardwright/report/draw"
	"swardwright/report/face"
)

// The sizes of type, pt, and the distance between lines as a multiple of them.
const (
	bodyPT    = 9.5
	tablePT   = 8.5
	smallPT   = 8.0
	headPT    = 10.5
	sectionPT = 16.0
	leadPT    = 12.5
	titlePT   = 22.0
	spacing   = 1.4
)

// strip is a piece of a page that is never cut.
type strip struct {
	before float64 // space above it, left out at the top of a page
	height float64
	keep   bool // not to be parted from the next strip
	items  []draw.Item
	head   *strip // to be repeated above it where it begins a page
	mark   string // its entry in the outline
	level  int
	id     string // its name, for links
}

// composer fills sheets with strips from the top down.
type composer struct {
	format
	sheets []*sheet
	y      float64 // where the next strip goes
	marks  []mark
	places map[string]placed
	lost   []rune // letters that the gate took out before setting

	toc *placed // where the contents go, once the pages are known
}

func (c *composer) newSheet() {
	c.sheets = append(c.sheets, &sheet{})
	c.y = c.top
}

func (c *composer) page() *sheet { return c.sheets[len(c.sheets)-1] }

// floor is the lowest that a strip may reach.
func (c *composer) floor() float64 { return c.h - c.bottom }

// set puts items on the current sheet with their origin at the column's left and y.
func (c *composer) set(y float64, items []draw.Item) {
	p := c.page()
	p.items = append(p.items, draw.Group{DX: c.left, DY: y, Items: items})
}

// flow places strips in order, going to a new sheet where the next strip, with all
// that must stay by it, has no room.
func (c *composer) flow(strips []strip) {
	for i := 0; i < len(strips); {
		end := i
		need := strips[i].height
		for strips[end].keep && end+1 < len(strips) {
			more := strips[end+1].before + strips[end+1].height
			if need+more > c.floor()-c.top {
				break // cannot all be kept on any sheet
			}
			end++
			need += more
		}
		if c.y > c.top && c.y+strips[i].before+need > c.floor()+1e-6 {
			c.newSheet()
			if h := strips[i].head; h != nil {
				c.place(*h)
			}
		}
		for ; i <= end; i++ {
			c.place(strips[i])
		}
	}
}

func (c *composer) place(s strip) {
	if c.y > c.top {
		c.y += s.before
	}
	if s.mark != "" {
		c.marks = append(c.marks, mark{clean(s.mark), s.level, placed{len(c.sheets) - 1, c.y}})
	}
	if s.id != "" {
		c.places[s.id] = placed{len(c.sheets) - 1, c.y}
	}
	c.set(c.y, s.items)
	c.y += s.height
}

// step is the distance between lines of a size, mm.
func step(pt float64) float64 { return spacing * pt * face.MMPerPoint }

// base is how far below the top of its line a text's baseline lies.
func base(pt float64) float64 { return (spacing-1)/2*pt*face.MMPerPoint + 0.8*pt*face.MMPerPoint }

// wrap cleans s and breaks it into lines.
func (c *composer) wrap(s string, w face.Weight, pt, width float64) []string {
	s, lost := face.Clean(s)
	c.lost = append(c.lost, lost...)
	return face.Wrap(s, w, pt, width)
}

// lines sets text from x, y down and tells how high it is.
func (c *composer) lines(x, y, width float64, s string, pt float64, w face.Weight, ink draw.Color) ([]draw.Item, float64) {
	var items []draw.Item
	for i, l := range c.wrap(s, w, pt, width) {
		items = append(items, draw.Text{At: draw.Point{X: x, Y: y + float64(i)*step(pt) + base(pt)}, S: l, PT: pt, Weight: w, Color: ink})
	}
	return items, float64(len(items)) * step(pt)
}

// paragraph sets text as one strip a line, with no line left alone at the foot or
// the head of a page.
func (c *composer) paragraph(before, x, width float64, s string, pt float64, w face.Weight, ink draw.Color) []strip {
	var out []strip
	lines := c.wrap(s, w, pt, width)
	for i, l := range lines {
		st := strip{height: step(pt), keep: i == 0 && len(lines) > 1 || i == len(lines)-2,
			items: []draw.Item{draw.Text{At: draw.Point{X: x, Y: base(pt)}, S: l, PT: pt, Weight: w, Color: ink}}}
		if i == 0 {
			st.before = before
		}
		out = append(out, st)
	}
	return out
}

func rule(x1, x2, y float64, c draw.Color, mm float64) draw.Item {
	return draw.Line{Points: []draw.Point{{X: x1, Y: y}, {X: x2, Y: y}}, Stroke: draw.Stroke{Color: c, MM: mm}}
}

func filled(b draw.Box, c draw.Color) draw.Item { return draw.Area{Points: b.Corners(), Fill: c} }

// masthead sets the title on the first sheet, smaller where it is long.
func (c *composer) masthead(doc content.Document) {
	c.marks = append(c.marks, mark{clean(doc.Title), 0, placed{0, 0}})
	pt := titlePT
	lines := c.wrap(doc.Title, face.Bold, pt, column)
	for pt > 13 && len(lines) > 2 {
		pt--
		lines = c.wrap(doc.Title, face.Bold, pt, column)
	}
	items := []draw.Item{filled(draw.Box{X: 0, Y: -6, W: 18, H: 1.6}, draw.Green)}
	y := 0.0
	for _, l := range lines {
		items = append(items, draw.Text{At: draw.Point{X: 0, Y: y + base(pt) - 1}, S: l, PT: pt, Weight: face.Bold, Color: draw.Ink})
		y += 1.2 * pt * face.MMPerPoint
	}
	c.set(c.y, items)
	c.y += y + 2
}

// section is the head of a numbered section.
func section(number int, s content.Section) strip {
	return strip{
		before: 11, height: 3 + step(sectionPT), keep: true, mark: s.Title, id: s.ID,
		items: []draw.Item{
			rule(0, column, 0, draw.Ink, 0.5),
			draw.Text{At: draw.Point{X: 0, Y: 1.5 + base(sectionPT)}, S: strconv.Itoa(number), PT: sectionPT, Color: draw.Quiet},
			draw.Text{At: draw.Point{X: 11, Y: 1.5 + base(sectionPT)}, S: clean(s.Title), PT: sectionPT, Weight: face.Bold, Color: draw.Ink},
		},
	}
}

// opened is a section's strips, its head kept with the drawing that opens it where
// one does and a sheet can hold both.
func (c *composer) opened(head strip, blocks []content.Block) []strip {
	out := []strip{head}
	for i, b := range blocks {
		out = c.block(out, b)
		if _, ok := b.(content.Figure); ok && i <= 2 && height(out) <= c.floor()-c.top {
			for k := range len(out) - 1 {
				out[k].keep = true
			}
		}
	}
	return out
}

// height is what strips take when set from the top of a sheet.
func height(strips []strip) (h float64) {
	for i, s := range strips {
		h += s.height
		if i > 0 {
			h += s.before
		}
	}
	return h
}

// answer lays page one. Where long names leave too little room for everything, what
// also stands in a later section gives way: advice first, then the drawing.
func (c *composer) answer(blocks []content.Block) {
	for _, spare := range []func(content.Block) bool{
		func(content.Block) bool { return false },
		func(b content.Block) bool { _, text := b.(content.Text); return text },
		func(b content.Block) bool {
			_, text := b.(content.Text)
			_, figure := b.(content.Figure)
			return text || figure
		},
	} {
		strips := c.blocks(slices.DeleteFunc(slices.Clone(blocks), spare))
		if len(strips) == 0 || c.y+strips[0].before+height(strips) <= c.floor() {
			c.flow(strips)
			return
		}
	}
	c.flow(c.blocks(blocks))
}

// contents keeps room on the first sheet for the list of sections, if there is any.
func (c *composer) contents(doc content.Document) {
	rows := (len(doc.Sections) - 1 + 2) / 3
	height := 4 + float64(rows)*step(smallPT)
	if len(c.sheets) == 1 && rows > 0 && c.y+5+height <= c.floor() {
		c.toc = &placed{0, c.floor() - height}
	}
}

// fillContents lists the sections with their pages, in three columns.
func (c *composer) fillContents(doc content.Document) {
	if c.toc == nil {
		return
	}
	rows := (len(doc.Sections) - 1 + 2) / 3
	const gap = 8.0
	width := (column - 2*gap) / 3
	items := []draw.Item{rule(0, column, 0, draw.Rule, 0.2)}
	for i, s := range doc.Sections[1:] {
		x, y := float64(i/rows)*(width+gap), 3+float64(i%rows)*step(smallPT)+base(smallPT)
		page := strconv.Itoa(c.places[s.ID].sheet + 1)
		title := face.Shorten(strconv.Itoa(i+1)+"  "+clean(s.Title), face.Regular, smallPT, width-8)
		items = append(items,
			draw.Text{At: draw.Point{X: x, Y: y}, S: title, PT: smallPT, Color: draw.Ink, Link: s.ID},
			draw.Text{At: draw.Point{X: x + width, Y: y}, S: page, PT: smallPT, Color: draw.Ink, Anchor: draw.End, Link: s.ID})
	}
	p := c.sheets[0]
	p.items = append(p.items, draw.Group{DX: c.left, DY: c.toc.y, Items: items})
}

// running sets what stands on every sheet: whose plan it is, the warning, and the
// page of how many.
func (c *composer) running(doc content.Document) {
	for i, s := range c.sheets {
		var items []draw.Item
		if i > 0 {
			ref := face.Shorten(clean(doc.Reference), face.Regular, smallPT, column*0.35)
			title := face.Shorten(clean(doc.Title), face.Regular, smallPT, column-face.Width(ref, face.Regular, smallPT)-8)
			items = append(items,
				draw.Text{At: draw.Point{X: 0, Y: 15}, S: title, PT: smallPT, Color: draw.Quiet},
				draw.Text{At: draw.Point{X: column, Y: 15}, S: ref, PT: smallPT, Color: draw.Quiet, Anchor: draw.End})
		}
		foot := c.h - 14
		page := "Page " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(c.sheets))
		items = append(items, draw.Text{At: draw.Point{X: column, Y: foot}, S: page, PT: smallPT, Color: draw.Quiet, Anchor: draw.End})
		room := column - face.Width(page, face.Regular, smallPT) - 8
		switch {
		case doc.Warning != "":
			items = append(items, draw.Text{At: draw.Point{X: 0, Y: foot}, S: face.Shorten(clean(doc.Warning), face.Bold, smallPT, room), PT: smallPT, Weight: face.Bold, Color: draw.Ink})
		case doc.By != "":
			items = append(items, draw.Text{At: draw.Point{X: 0, Y: foot}, S: face.Shorten(clean(doc.By), face.Regular, smallPT, room), PT: smallPT, Color: draw.Quiet})
		}
		s.items = append(s.items, draw.Group{DX: c.left, Items: items})
	}
}
