package paper

import (
	"slices"
	"strconv"

	"swardwright/report/content"
	"swardwright/report/draw"
	"swardwright/report/face"
)

// blocks turns blocks of content into strips.
func (c *composer) blocks(p content.Part, blocks []content.Block) []strip {
	var out []strip
	for _, b := range blocks {
		out = c.block(p, out, b)
	}
	return out
}

// block adds the strips of one block to those above it: a switch over the kinds of block,
// a line each.
//
//gocyclo:ignore
func (c *composer) block(p content.Part, above []strip, b content.Block) []strip {
	switch v := b.(type) {
	case content.Lead:
		return append(above, c.paragraph(5, 0, c.col, v.S, c.sizes.lead, face.Regular, draw.Ink)...)
	case content.Heading:
		return append(above, c.heading(v.S)...)
	case content.Text:
		return append(above, c.paragraph(3, 0, c.col*0.88, v.S, c.body, face.Regular, draw.Ink)...)
	case content.Note:
		if len(above) > 0 { // it is about what stands above it
			above[len(above)-1].keep = true
		}
		return append(above, c.paragraph(1.8, 0, c.col*0.88, v.S, c.small, face.Regular, draw.Quiet)...)
	case content.Notice:
		return append(above, c.notice(v)...)
	case content.List:
		return append(above, c.list(v)...)
	case content.Facts:
		return append(above, c.facts(v)...)
	case content.Details:
		return append(above, c.details(v)...)
	case content.Table:
		return append(above, c.table(v)...)
	case content.Figure:
		return append(above, c.figure(v)...)
	case content.Gallery:
		return append(above, c.gallery(v)...)
	case content.Beside:
		return append(above, c.beside(p, v))
	case content.Choice:
		return append(above, c.choice(v)...)
	case content.Contents:
		return append(above, c.contents(p))
	case content.Signatures:
		if len(above) > 0 {
			above[len(above)-1].keep = true
		}
		return append(above, c.signatures(v))
	}
	return above
}

func (c *composer) heading(s string) []strip {
	strips := c.paragraph(6, 0, c.col, s, c.sizes.head, face.Bold, draw.Ink)
	for i := range strips {
		strips[i].keep = true
	}
	strips[0].mark, strips[0].level = s, 1
	return strips
}

// notice is text on a tinted ground beside a thick bar.
func (c *composer) notice(n content.Notice) []strip {
	const pad, bar = 5.0, 1.4
	type piece struct {
		s      string
		weight face.Weight
	}
	pieces := []piece{{n.Title, face.Bold}}
	for _, s := range n.Items {
		pieces = append(pieces, piece{s, face.Regular})
	}
	var out []strip
	ground := func(h float64) []draw.Item { // laps over its neighbours, so that no seam shows
		const lap = 0.2
		return []draw.Item{filled(draw.Box{X: 0, Y: -lap, W: c.col, H: h + 2*lap}, draw.Faint), filled(draw.Box{X: 0, Y: -lap, W: bar, H: h + 2*lap}, draw.Green)}
	}
	space := func(before, h float64) {
		out = append(out, strip{before: before, height: h, keep: true, items: ground(h)})
	}
	space(5, 3)
	for i, p := range pieces {
		if i > 1 {
			space(0, 1.2)
		}
		for _, l := range c.wrap(p.s, p.weight, c.body, c.col-2*pad) {
			items := append(ground(step(c.body)), draw.Text{At: draw.Point{X: pad, Y: base(c.body)}, S: l, PT: c.body, Weight: p.weight, Color: draw.Ink})
			out = append(out, strip{height: step(c.body), keep: true, items: items})
		}
	}
	space(0, 3)
	out[len(out)-1].keep = false
	return out
}

func (c *composer) list(l content.List) []strip {
	const indent = 5.5
	var out []strip
	for i, s := range l.Items {
		before := 1.0
		if i == 0 {
			before = 3
		}
		strips := c.paragraph(before, indent, c.col-indent, s, c.body, face.Regular, draw.Ink)
		bullet := draw.Text{At: draw.Point{X: 0.8, Y: base(c.body)}, S: "–", PT: c.body, Color: draw.Quiet}
		if l.Numbered {
			bullet.S, bullet.Weight, bullet.Color = strconv.Itoa(i+1), face.Bold, draw.Ink
		}
		strips[0].items = append(strips[0].items, bullet)
		if i == 0 && len(l.Items) > 1 || i == len(l.Items)-2 { // no point alone on a page
			strips[len(strips)-1].keep = true
		}
		out = append(out, strips...)
	}
	return out
}

// facts sets figures side by side, four in a row or all five, each under a rule.
func (c *composer) facts(f content.Facts) []strip {
	const gap = 6.0
	perRow := 4
	if len(f.Items) == 5 {
		perRow = 5
	}
	var out []strip
	for start := 0; start < len(f.Items); start += perRow {
		row := f.Items[start:min(start+perRow, len(f.Items))]
		width := (c.col - gap*float64(perRow-1)) / float64(perRow)
		st := strip{before: 5}
		const least, words = 13.0, 10.5 // of figures; of what has no room even so
		pt := 15.0                      // one size for all
		for _, fact := range row {
			for pt > least && face.Width(clean(fact.Value), face.Bold, pt) > width {
				pt -= 0.5
			}
			for pt > c.small && face.Widest(clean(fact.Value), face.Bold, pt) > width { // no word is broken
				pt -= 0.5
			}
		}
		for i, fact := range row {
			x := float64(i) * (width + gap)
			st.items = append(st.items, rule(x, x+width, 0, draw.Ink, 0.35))
			label, h := c.lines(x, 1.2, width, fact.Label, c.small, face.Regular, draw.Quiet)
			y := 1.2 + h
			own := pt
			if face.Width(clean(fact.Value), face.Bold, pt) > width {
				own = words
			}
			value, h := c.lines(x, y, width, fact.Value, own, face.Bold, draw.Ink)
			y += h
			note, h := c.lines(x, y, width, fact.Note, c.small, face.Regular, draw.Ink)
			st.items = append(append(append(st.items, label...), value...), note...)
			st.height = max(st.height, y+h)
		}
		out = append(out, st)
	}
	return out
}

// details sets pairs in two columns, row by row, or in one where there is little room.
func (c *composer) details(d content.Details) []strip {
	const labelW, gap, narrow = 19.0, 8.0, 120.0
	perRow := 2
	if c.col < narrow {
		perRow = 1
	}
	width := (c.col - gap*float64(perRow-1)) / float64(perRow)
	var out []strip
	for i := 0; i < len(d.Items); i += perRow {
		st := strip{before: 0.6}
		for k, pair := range d.Items[i:min(i+perRow, len(d.Items))] {
			x := float64(k) * (width + gap)
			label, _ := c.lines(x, 0.35, labelW, pair[0], c.small, face.Regular, draw.Quiet)
			value, h := c.lines(x+labelW, 0, width-labelW, pair[1], c.sizes.table, face.Regular, draw.Ink)
			st.items = append(append(st.items, label...), value...)
			st.height = max(st.height, h)
		}
		out = append(out, st)
	}
	return out
}

func (c *composer) figure(f content.Figure) []strip {
	key := drawing{f.Name, c.col, c.plan}
	d, made := c.drawn[key]
	if !made {
		d = f.Draw(c.col, c.plan)
		c.drawn[key] = d
	}
	if d == nil {
		return nil
	}
	if f.Plan {
		c.taken = d.H
	}
	out := []strip{{before: 4.5, height: d.H, keep: f.Caption != "", items: d.Items}}
	if f.Caption != "" {
		caption := c.paragraph(1.6, 0, c.col, f.Caption, c.small, face.Regular, draw.Quiet)
		for i := range caption {
			caption[i].keep = i < len(caption)-1
		}
		out = append(out, caption...)
	}
	return out
}

// gallery sets drawings next to each other, up to four in a row.
func (c *composer) gallery(g content.Gallery) []strip {
	const gap = 7.0
	whole, perRow := c.col, min(len(g.Figures), 4)
	defer func() { c.col = whole }()
	c.col = (whole - gap*float64(perRow-1)) / float64(perRow)
	var out []strip
	for row := range slices.Chunk(g.Figures, perRow) {
		var st strip
		for i, f := range row {
			y := 0.0
			for _, s := range c.figure(f) {
				if y > 0 {
					y += s.before
				}
				st.items = append(st.items, draw.Group{DX: float64(i) * (c.col + gap), DY: y, Items: s.items})
				y += s.height
			}
			st.height = max(st.height, y)
		}
		st.before = 5
		out = append(out, st)
	}
	return out
}

// beside sets two runs of blocks next to each other, as one piece.
func (c *composer) beside(p content.Part, v content.Beside) strip {
	const gap = 7.0
	whole := c.col
	left := (whole - gap) * v.Share
	var st strip
	column := func(x, width float64, blocks []content.Block) {
		c.col = width
		y := 0.0
		for i, s := range c.blocks(p, blocks) {
			if i > 0 {
				y += s.before
			}
			st.items = append(st.items, draw.Group{DX: x, DY: y, Items: s.items})
			y += s.height
		}
		st.height = max(st.height, y)
		c.col = whole
	}
	if len(v.Right) == 0 {
		left = whole
	}
	column(0, left, v.Left)
	column(left+gap, whole-left-gap, v.Right)
	st.before = 3
	return st
}

// choice is a list of boxes to tick.
func (c *composer) choice(v content.Choice) []strip {
	out := c.heading(v.Title)
	for i, o := range v.Options {
		strips := c.paragraph(1.2, 6.5, c.col-6.5, o, c.body, face.Regular, draw.Ink)
		strips[0].items = append(strips[0].items, box(0.4, (step(c.body)-boxMM)/2))
		for k := range strips {
			strips[k].keep = k < len(strips)-1 || i < len(v.Options)-1
		}
		out = append(out, strips...)
	}
	return out
}

// boxMM is the side of a box to tick.
const boxMM = 3.2

func box(x, y float64) draw.Item {
	return draw.Area{Points: draw.Box{X: x, Y: y, W: boxMM, H: boxMM}.Corners(), Fill: draw.White, Outline: draw.Stroke{Color: draw.Ink, MM: 0.3}}
}

// signatures are lines to write on: name, date and signature for each role.
func (c *composer) signatures(s content.Signatures) strip {
	const gap, height = 12.0, 30.0
	n := float64(len(s.Roles))
	width := (c.col - gap*(n-1)) / n
	st := strip{before: 5, height: height}
	for i, role := range s.Roles {
		x := float64(i) * (width + gap)
		st.items = append(st.items, draw.Text{At: draw.Point{X: x, Y: base(c.body)}, S: clean(role), PT: c.body, Weight: face.Bold, Color: draw.Ink})
		for k, label := range s.Lines {
			y := 11.5 + float64(k)*8.6
			st.items = append(st.items, rule(x+18, x+width, y, draw.Ink, 0.25), draw.Text{At: draw.Point{X: x, Y: y}, S: label, PT: c.small, Color: draw.Quiet})
		}
	}
	return st
}
