package paper

import (
	"maps"
	"slices"
	"strconv"

	"github.com/samber/lo"

	"swardwright/internal/told"
	"swardwright/report/content"
	"swardwright/report/draw"
	"swardwright/report/face"
	"swardwright/report/say"
)

// sizes are the sizes of type, pt.
type sizes struct{ body, table, small, head, section, lead, title float64 }

// plain are the sizes of a page that has room.
var plain = sizes{body: 9.5, table: 8.5, small: 8, head: 10.5, section: 16, lead: 12, title: 21}

// tight are the sizes for what must go on so many pages and is too much for them in
// plain ones, first to last.
var tight = []sizes{{9, 8.2, 7.8, 10, 15, 11.5, 20}, {8.6, 7.8, 7.5, 9.6, 14, 11, 18}, {8.2, 7.4, 7.2, 9, 13, 10.5, 17}, {8, 7.2, 7, 8.6, 12, 10, 16}}

// planHeights are how high a plan of the lawn may be on a page with other things, mm,
// first to last.
var planHeights = []float64{draw.PlanHeight, 112, 100, 88, 76, 64}

// spacing is the distance between lines as a multiple of the size of type.
const spacing = 1.38

// most is how many pages a part has at most; none for a part that has as many as it
// needs.
var most = map[content.PartName]int{content.Client: 4, content.Crew: 4, content.Count: 1}

// recordPages are those that a record adds to the client's.
const recordPages = 2

// pagesOf is how many pages a part has at most; none for one that has as many as it
// needs. A record takes more, and what is compared one to each table.
func pagesOf(p content.Part) int {
	if p.Name == content.Compared {
		return lo.SumBy(p.Sections, func(s content.Section) int {
			return lo.CountBy(s.Blocks, func(b content.Block) bool { _, table := b.(content.Table); return table })
		})
	}
	pages := most[p.Name]
	if p.Name == content.Client && slices.ContainsFunc(p.Sections, func(s content.Section) bool { return s.ID == "record" }) {
		pages += recordPages
	}
	return pages
}

// strip is a piece of a page that is never cut.
type strip struct {
	before float64 // space above it, left out at the top of a page
	height float64
	keep   bool // not to be parted from the next strip
	items  []draw.Item
	head   []strip // to be repeated above it where it begins a page
	mark   string  // its entry in the outline
	level  int
	id     string // its name, for links
	toc    bool   // the list of the part's sections goes here
}

// composer fills sheets with strips from the top down.
type composer struct {
	format
	sizes
	say    *say.Sayer
	col    float64 // width of the column in hand
	plan   float64 // most height of a plan of the lawn …
	taken  float64 // … and what the last one took
	drawn  map[drawing]*draw.Drawing
	sheets []*sheet
	y      float64 // where the next strip goes
	blank  float64 // height left empty where sections end, in the part in hand
	marks  []mark
	places map[string]placed
	tocs   []toc
	lost   []rune // letters that the gate took out before setting
}

// toc is where a list of sections goes, once their pages are known.
type toc struct {
	part content.PartName
	placed
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
func (c *composer) flow(part content.PartName, strips []strip) {
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
			for _, h := range strips[i].head {
				c.place(part, h)
			}
		}
		for ; i <= end; i++ {
			c.place(part, strips[i])
		}
	}
}

func (c *composer) place(part content.PartName, s strip) {
	if c.y > c.top {
		c.y += s.before
	}
	at := placed{len(c.sheets) - 1, c.y}
	if s.mark != "" {
		c.marks = append(c.marks, mark{clean(s.mark), s.level, at})
	}
	if s.id != "" {
		c.places[s.id] = at
	}
	if s.toc {
		c.tocs = append(c.tocs, toc{part, at})
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
	if s == "" {
		return nil, 0
	}
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

// part lays one part out on sheets of its own, in type as large as its pages allow; where
// none is small enough, in that which is best read.
func (c *composer) part(doc content.Document, p content.Part, first bool) {
	start, limit := c.copy(), pagesOf(p)
	lay := func(s sizes, breaks breaks) (*composer, int) {
		c := start.copy()
		c.sizes = s
		c.sections(doc, p, first, breaks)
		return c, len(c.sheets) - len(start.sheets)
	}
	// set lays it out in one size, on no more pages than it fills.
	set := func(s sizes) (*composer, int) {
		laid, pages := lay(s, eachPage)
		if limit > 0 && laid.blank >= c.floor()-c.top {
			if other, fewer := lay(s, afterFirst); fewer < pages {
				return other, fewer
			}
		}
		return laid, pages
	}
	fits := func(pages int) bool { return limit == 0 || pages <= limit }
	best, pages := set(plain)
	for _, s := range tight {
		if fits(pages) {
			break
		}
		if laid, n := set(s); fits(n) {
			best, pages = laid, n
		}
	}
	if !fits(pages) {
		if laid, n := lay(tight[len(tight)-1], runOn); fits(n) {
			best = laid
		}
	}
	*c = *best
}

// breaks is which sections of a part begin a page.
type breaks int

const (
	eachPage   breaks = iota // all that are meant to
	afterFirst               // the first and the second: the answer stands alone
	runOn                    // the first
)

// copy is a composer that can be tried with and thrown away.
func (c *composer) copy() *composer {
	t := *c
	t.sheets, t.marks, t.places = slices.Clone(c.sheets), slices.Clone(c.marks), maps.Clone(c.places)
	t.tocs, t.lost = slices.Clone(c.tocs), slices.Clone(c.lost)
	return &t
}

// drawing is what a drawing that was made once is found by.
type drawing struct {
	name          string
	width, height float64
}

// sections sets the sections of a part.
func (c *composer) sections(doc content.Document, p content.Part, first bool, breaks breaks) {
	c.newSheet()
	c.blank = 0
	c.masthead(doc, p, first)
	number := 0
	for i, s := range p.Sections {
		if i > 0 && s.Page && (breaks == eachPage || breaks == afterFirst && i == 1) && c.y > c.top {
			c.blank += c.floor() - c.y
			c.newSheet()
		}
		if i > 0 || !s.Page {
			number++
		}
		c.flow(p.Name, c.fitted(p, number, i == 0 && s.Page, s))
	}
	c.blank += c.floor() - c.y
}

// fitted are the strips of a section with the plan of the lawn as high as leaves room
// for the rest on its page. The first stands under the masthead without a head.
func (c *composer) fitted(p content.Part, number int, headless bool, s content.Section) []strip {
	set := func(h float64) []strip {
		c.plan, c.taken = h, 0
		if headless {
			c.places[s.ID] = placed{len(c.sheets) - 1, c.top}
			return c.blocks(p, s.Blocks)
		}
		return c.opened(p, c.section(number, s), s.Blocks)
	}
	strips := set(planHeights[0])
	if !s.Page || c.y+height(strips) <= c.floor() {
		return strips
	}
	// What has no room beside the lowest plan goes overleaf, and the plan is as high as
	// leaves the rest on its page.
	lowest := c.first(set(planHeights[len(planHeights)-1]))
	if lowest == 0 { // all of it goes overleaf
		defer func(y float64) { c.y = y }(c.y)
		c.y = c.top
		lowest = c.first(set(planHeights[len(planHeights)-1]))
	}
	for i, h := range planHeights {
		if i > 0 && c.taken > 0 && h >= c.taken && i < len(planHeights)-1 {
			continue // it would be the same again
		}
		if strips = set(h); c.first(strips) == lowest {
			break
		}
	}
	return strips
}

// first is how many strips have room on the sheet in hand.
func (c *composer) first(strips []strip) int {
	y := c.y
	for i, s := range strips {
		if y > c.top {
			y += s.before
		}
		need := s.height
		for k := i; strips[k].keep && k+1 < len(strips); k++ {
			need += strips[k+1].before + strips[k+1].height
		}
		if y+need > c.floor()+1e-6 {
			return i
		}
		y += s.height
	}
	return len(strips)
}

// masthead sets the title at the head of a part, the document's own on the first sheet,
// smaller where it is long.
func (c *composer) masthead(doc content.Document, p content.Part, first bool) {
	at := placed{len(c.sheets) - 1, 0}
	title := doc.Title
	if !first {
		title = p.Title
	}
	if first {
		c.marks = append(c.marks, mark{clean(doc.Title), 0, at})
	}
	c.marks = append(c.marks, mark{clean(p.Title), 1, at})
	pt := c.title
	lines := c.wrap(title, face.Bold, pt, c.col)
	for pt > 13 && len(lines) > 2 {
		pt--
		lines = c.wrap(title, face.Bold, pt, c.col)
	}
	items := []draw.Item{filled(draw.Box{X: 0, Y: -6, W: 18, H: 1.6}, draw.Green)}
	y := 0.0
	for _, l := range lines {
		items = append(items, draw.Text{At: draw.Point{X: 0, Y: y + base(pt) - 1}, S: l, PT: pt, Weight: face.Bold, Color: draw.Ink})
		y += 1.2 * pt * face.MMPerPoint
	}
	c.set(c.y, items)
	c.y += y + 1
}

// section is the head of a numbered section.
func (c *composer) section(number int, s content.Section) strip {
	pt := c.sizes.section
	return strip{
		before: 8, height: 2.4 + step(pt), keep: true, mark: s.Title, level: 2, id: s.ID,
		items: []draw.Item{
			rule(0, c.col, 0, draw.Ink, 0.5),
			draw.Text{At: draw.Point{X: 0, Y: 1.2 + base(pt)}, S: strconv.Itoa(number), PT: pt, Color: draw.Quiet},
			draw.Text{At: draw.Point{X: 10, Y: 1.2 + base(pt)}, S: face.Shorten(clean(s.Title), face.Bold, pt, c.col-10), PT: pt, Weight: face.Bold, Color: draw.Ink},
		},
	}
}

// opened is a section's strips, its head kept with the drawing that opens it where
// one does and a sheet can hold both.
func (c *composer) opened(p content.Part, head strip, blocks []content.Block) []strip {
	out := []strip{head}
	for i, b := range blocks {
		out = c.block(p, out, b)
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

// contents keeps room for the list of a part's sections.
func (c *composer) contents(p content.Part) strip {
	return strip{before: 4, height: float64(len(p.Sections)-1) * 1.25 * step(c.body), toc: true}
}

// fillContents lists the sections of parts with their pages, where room was kept.
func (c *composer) fillContents(doc content.Document) {
	for _, t := range c.tocs {
		for _, p := range doc.Parts {
			if p.Name != t.part {
				continue
			}
			var items []draw.Item
			number := 0
			for _, s := range p.Sections[1:] {
				at, ok := c.places[s.ID]
				if !ok {
					continue
				}
				number++
				y := float64(number-1)*1.25*step(plain.body) + base(plain.body)
				title := face.Shorten(strconv.Itoa(number)+"  "+clean(s.Title), face.Regular, plain.body, c.col-20)
				items = append(items,
					draw.Text{At: draw.Point{X: 0, Y: y}, S: title, PT: plain.body, Color: draw.Ink, Link: s.ID},
					draw.Text{At: draw.Point{X: c.col, Y: y}, S: strconv.Itoa(at.sheet + 1), PT: plain.body, Color: draw.Ink, Anchor: draw.End, Link: s.ID},
					rule(face.Width(title, face.Regular, plain.body)+2, c.col-8, y, draw.Rule, 0.15))
			}
			sheet := c.sheets[t.sheet]
			sheet.items = append(sheet.items, draw.Group{DX: c.left, DY: t.y, Items: items})
		}
	}
}

// running sets what stands on every sheet: whose plan it is and for whom, the warning,
// and the page of how many.
func (c *composer) running(doc content.Document, parts []string) {
	pt := plain.small
	text := func(x, y float64, s string, w face.Weight, ink draw.Color, a draw.Anchor) draw.Item {
		return draw.Text{At: draw.Point{X: x, Y: y}, S: s, PT: pt, Weight: w, Color: ink, Anchor: a}
	}
	for i, s := range c.sheets {
		part := face.Shorten(clean(parts[i]), face.Regular, pt, c.col*0.35)
		items := []draw.Item{text(c.col, 15, part, face.Regular, draw.Quiet, draw.End)}
		if i > 0 {
			title := doc.Title
			if doc.Reference != "" {
				title += " · " + doc.Reference
			}
			items = append(items, text(0, 15, face.Shorten(clean(title), face.Regular, pt, c.col-face.Width(part, face.Regular, pt)-8), face.Regular, draw.Quiet, draw.Start))
		}
		foot := c.h - 14
		page := clean(c.say.Say(told.Say("parts.page-of", told.Count(i+1), told.Count(len(c.sheets)))))
		items = append(items, text(c.col, foot, page, face.Regular, draw.Quiet, draw.End))
		room := c.col - face.Width(page, face.Regular, pt) - 8
		switch {
		case doc.Warning != "":
			items = append(items, text(0, foot, face.Shorten(clean(doc.Warning), face.Bold, pt, room), face.Bold, draw.Ink, draw.Start))
		case doc.By != "":
			items = append(items, text(0, foot, face.Shorten(clean(doc.By), face.Regular, pt, room), face.Regular, draw.Quiet, draw.Start))
		}
		if doc.Draft != "" {
			items = append(items, text(0, foot-step(pt), face.Shorten(clean(doc.Draft), face.Bold, pt, c.col), face.Bold, draw.Ink, draw.Start))
		}
		s.items = append(s.items, draw.Group{DX: c.left, Items: items})
	}
}
