package paper

import (
	"strconv"

	"swardwright/report/content"
	"swardwright/report/draw"
	"swardwright/report/face"
)

// blocks turns blocks of content into strips.
func (c *composer) blocks(blocks []content.Block) []strip {
	var out []strip
	for _, b := range blocks {
		out = c.block(out, b)
	}
	return out
}

// block adds the strips of one block to those above it.
func (c *composer) block(above []strip, b content.Block) []strip {
	switch v := b.(type) {
	case content.Lead:
		return append(above, c.paragraph(5, 0, column, v.S, leadPT, face.Regular, draw.Ink)...)
	case content.Heading:
		return append(above, c.heading(v.S)...)
	case content.Text:
		return append(above, c.paragraph(3, 0, column*0.88, v.S, bodyPT, face.Regular, draw.Ink)...)
	case content.Note:
		if len(above) > 0 { // it is about what stands above it
			above[len(above)-1].keep = true
		}
		return append(above, c.paragraph(1.8, 0, column*0.88, v.S, smallPT, face.Regular, draw.Quiet)...)
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
	case content.Signatures:
		// What is signed stands on the page where it is signed.
		for i := range above {
			above[i].keep = true
		}
		return append(above, c.signatures(v))
	}
	return above
}

func (c *composer) heading(s string) []strip {
	strips := c.paragraph(6, 0, column, s, headPT, face.Bold, draw.Ink)
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
		return []draw.Item{filled(draw.Box{X: 0, Y: -lap, W: column, H: h + 2*lap}, draw.Faint), filled(draw.Box{X: 0, Y: -lap, W: bar, H: h + 2*lap}, draw.Green)}
	}
	space := func(before, h float64) {
		out = append(out, strip{before: before, height: h, keep: true, items: ground(h)})
	}
	space(5, 3)
	for i, p := range pieces {
		if i > 1 {
			space(0, 1.2)
		}
		for _, l := range c.wrap(p.s, p.weight, bodyPT, column-2*pad) {
			items := append(ground(step(bodyPT)), draw.Text{At: draw.Point{X: pad, Y: base(bodyPT)}, S: l, PT: bodyPT, Weight: p.weight, Color: draw.Ink})
			out = append(out, strip{height: step(bodyPT), keep: true, items: items})
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
		before := 1.4
		if i == 0 {
			before = 3
		}
		strips := c.paragraph(before, indent, column*0.9-indent, s, bodyPT, face.Regular, draw.Ink)
		bullet := draw.Text{At: draw.Point{X: 0.8, Y: base(bodyPT)}, S: "–", PT: bodyPT, Color: draw.Quiet}
		if l.Numbered {
			bullet.S, bullet.Weight, bullet.Color = strconv.Itoa(i+1), face.Bold, draw.Ink
		}
		strips[0].items = append(strips[0].items, bullet)
		out = append(out, strips...)
	}
	return out
}

// facts sets figures side by side, at most four in a row, each under a rule.
func (c *composer) facts(f content.Facts) []strip {
	const perRow, gap = 4, 6.0
	var out []strip
	for start := 0; start < len(f.Items); start += perRow {
		row := f.Items[start:min(start+perRow, len(f.Items))]
		width := (column - gap*float64(perRow-1)) / perRow
		st := strip{before: 5}
		for i, fact := range row {
			x := float64(i) * (width + gap)
			st.items = append(st.items, rule(x, x+width, 0, draw.Ink, 0.35))
			label, h := c.lines(x, 1.2, width, fact.Label, smallPT, face.Regular, draw.Quiet)
			y := 1.2 + h
			pt := 15.0
			for pt > 10 && face.Width(clean(fact.Value), face.Bold, pt) > width {
				pt -= 0.5
			}
			value, h := c.lines(x, y, width, fact.Value, pt, face.Bold, draw.Ink)
			y += h
			note, h := c.lines(x, y, width, fact.Note, smallPT, face.Regular, draw.Ink)
			st.items = append(append(append(st.items, label...), value...), note...)
			st.height = max(st.height, y+h)
		}
		out = append(out, st)
	}
	return out
}

// details sets pairs in two columns, row by row.
func (c *composer) details(d content.Details) []strip {
	const labelW, gap = 19.0, 8.0
	width := (column - gap) / 2
	var out []strip
	for i := 0; i < len(d.Items); i += 2 {
		st := strip{before: 0.8}
		for k, pair := range d.Items[i:min(i+2, len(d.Items))] {
			x := float64(k) * (width + gap)
			label, _ := c.lines(x, 0.35, labelW, pair[0], smallPT, face.Regular, draw.Quiet)
			value, h := c.lines(x+labelW, 0, width-labelW, pair[1], 9, face.Regular, draw.Ink)
			st.items = append(append(st.items, label...), value...)
			st.height = max(st.height, h)
		}
		out = append(out, st)
	}
	return out
}

func (c *composer) figure(f content.Figure) []strip {
	d := f.Drawing
	out := []strip{{before: 5, height: d.H, keep: f.Caption != "", items: d.Items}}
	if f.Caption != "" {
		caption := c.paragraph(2, 0, column, f.Caption, smallPT, face.Regular, draw.Quiet)
		for i := range caption {
			caption[i].keep = i < len(caption)-1
		}
		out = append(out, caption...)
	}
	return out
}

// signatures are lines to write on: name, date and signature for each role.
func (c *composer) signatures(s content.Signatures) strip {
	const gap, height = 12.0, 40.0
	n := float64(len(s.Roles))
	width := (column - gap*(n-1)) / n
	st := strip{before: 8, height: height}
	for i, role := range s.Roles {
		x := float64(i) * (width + gap)
		st.items = append(st.items, draw.Text{At: draw.Point{X: x, Y: base(bodyPT)}, S: clean(role), PT: bodyPT, Weight: face.Bold, Color: draw.Ink})
		for k, label := range []string{"Name", "Date", "Signature"} {
			y := 15 + float64(k)*11
			st.items = append(st.items, rule(x+18, x+width, y, draw.Ink, 0.25), draw.Text{At: draw.Point{X: x, Y: y}, S: label, PT: smallPT, Color: draw.Quiet})
		}
	}
	return st
}
