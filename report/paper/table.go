package paper

import (
	"strings"

	"github.com/samber/lo"

	"swardwright/internal/told"
	"swardwright/report/content"
	"swardwright/report/draw"
	"swardwright/report/face"
)

const (
	cellGap  = 4.5  // between columns, mm, at least
	airyGap  = 11.0 // and at most, where there is room
	cellPad  = 1.05 // above and below the text of a row
	maxFixed = 40.0 // widest a column of figures is set on one line
	// shortHead is the width up to which a head keeps one line, mm.
	shortHead = 21.0
	// chunk is how many lines of a row stay together; a longer row may go on overleaf.
	chunk = 24
	// whole is the height up to which a table is not cut at all, mm.
	whole = 50.0
)

// grid is where the columns of a table stand.
type grid struct {
	left, width []float64
	across      float64 // the whole table
}

// table sets a table: head repeated on each page, rows whole, group heads by their
// rows, totals by theirs; a short table is not cut.
func (c *composer) table(t content.Table) []strip {
	if len(t.Columns) == 0 {
		return nil
	}
	g := c.grid(t)
	head := c.tableHead(t, g)
	repeated := append(c.paragraph(0, 0, c.col, c.say.Say(told.Say("parts.continued", told.Source(t.Caption))), c.small, face.Regular, draw.Quiet), head)
	out := []strip{head}
	out[0].before = 2
	height := head.height
	var last content.RowKind
	for i, r := range t.Rows {
		strips := c.tableRow(t, r, g, r.Kind >= content.Sum && last < content.Sum)
		for k := range strips {
			strips[k].head = repeated
			height += strips[k].height
		}
		// The row before a total, a group's head, the first of a table without boxes and
		// the last but one stay with the next.
		if next := i + 1; next < len(t.Rows) {
			tail := &strips[len(strips)-1]
			tail.keep = r.Kind == content.GroupHead || t.Rows[next].Kind >= content.Sum || i == 0 && !t.Tick || next == len(t.Rows)-1
		}
		out = append(out, strips...)
		last = r.Kind
	}
	if height <= whole {
		for i := range len(out) - 1 {
			out[i].keep = true
		}
	}
	return out
}

// grid gives figures the room they need on one line and heads two lines, then
// shares what is left among the columns of words. A table of little stays narrow.
func (c *composer) grid(t content.Table) grid {
	n := len(t.Columns)
	least, most, texts := c.needs(t)
	room := c.col - c.tickW(t) - cellGap*float64(n-1)
	sumLeast, sumMost := lo.Sum(least), lo.Sum(most)
	g := grid{left: make([]float64, n), width: make([]float64, n)}
	gap := cellGap
	switch {
	case sumMost <= room:
		copy(g.width, most)
	case sumLeast >= room:
		for i := range n {
			g.width[i] = least[i] * room / sumLeast
		}
	default:
		share(g.width, least, most, texts, room-sumLeast)
	}
	if sumMost < room && n > 1 {
		gap = min(airyGap, cellGap+(room-sumMost)/float64(n-1))
	}
	across := gap * float64(n-1)
	for _, w := range g.width {
		across += w
	}
	if across > 0.85*(c.col-c.tickW(t)) && across < c.col-c.tickW(t) && n > 1 { // nearly as wide as the page: let it be so
		gap += (c.col - c.tickW(t) - across) / float64(n-1)
	}
	g.left[0] = c.tickW(t)
	for i := 1; i < n; i++ {
		g.left[i] = g.left[i-1] + g.width[i-1] + gap
	}
	g.across = g.left[n-1] + g.width[n-1]
	return g
}

// needs is the least and the most that each column asks for, and the length of every cell
// on one line.
func (c *composer) needs(t content.Table) (least, most []float64, texts [][]float64) {
	n := len(t.Columns)
	least, most = make([]float64, n), make([]float64, n)
	words := func(i int, s string, w face.Weight, pt float64) {
		for _, word := range strings.Split(s, " ") {
			least[i] = max(least[i], min(face.Width(word, w, pt), maxFixed))
		}
	}
	for i, col := range t.Columns {
		title := clean(col.Title)
		words(i, title, face.Bold, c.small)
		most[i] = face.Width(title, face.Bold, c.small)
		if most[i] > shortHead {
			most[i] = inTwo(title, face.Bold, c.small)
		}
	}
	for _, r := range t.Rows {
		if r.Kind == content.GroupHead {
			continue
		}
		weight := face.Regular
		if r.Kind == content.Total {
			weight = face.Bold
		}
		lengths := make([]float64, n)
		for i, s := range r.Cells {
			s = clean(s)
			words(i, s, weight, c.sizes.table)
			lengths[i] = face.Width(s, weight, c.sizes.table)
			most[i] = max(most[i], lengths[i])
		}
		texts = append(texts, lengths)
	}
	for i := range n {
		most[i] = max(most[i], least[i])
		if t.Columns[i].Align == content.Right {
			least[i] = max(least[i], min(most[i], maxFixed))
		}
	}
	return least, most, texts
}

// tickW is the room for the boxes of a table's rows.
func (c *composer) tickW(t content.Table) float64 {
	if t.Tick {
		return boxMM + 3
	}
	return 0
}

// share gives out room in small steps, each to the column whose rows it shortens
// most: the row is as high as its longest cell, and a column that does not set the
// height counts a little.
func share(width, least, most []float64, texts [][]float64, room float64) {
	const portion, beside, ragged = 2.0, 0.1, 4.0 // ragged: what a line loses to the word that does not fit
	copy(width, least)
	height := func() (sum float64) {
		for _, row := range texts {
			tallest, all := 1.0, 0.0
			for i, length := range row {
				lines := 1.0
				if length > width[i] {
					lines = max(1.5, length/max(width[i]-ragged, width[i]/2))
				}
				tallest = max(tallest, lines)
				all += lines
			}
			sum += tallest + beside*all
		}
		return sum
	}
	for ; room > 0; room -= portion {
		step := min(portion, room)
		best, lowest := -1, 0.0
		for i := range width {
			if width[i] >= most[i] {
				continue
			}
			width[i] += step
			if h := height(); best < 0 || h < lowest {
				best, lowest = i, h
			}
			width[i] -= step
		}
		if best < 0 {
			return
		}
		width[best] += step
	}
}

// inTwo is the least width in which s goes on two lines.
func inTwo(s string, w face.Weight, pt float64) float64 {
	best := face.Width(s, w, pt)
	for i, r := range s {
		if r == ' ' {
			best = min(best, max(face.Width(s[:i], w, pt), face.Width(s[i+1:], w, pt)))
		}
	}
	return best
}

func (c *composer) tableHead(t content.Table, g grid) strip {
	cells := make([][]string, len(t.Columns))
	most := 1
	for i, col := range t.Columns {
		cells[i] = c.wrap(col.Title, face.Bold, c.small, g.width[i]+0.01)
		most = max(most, len(cells[i]))
	}
	st := strip{height: float64(most)*step(c.small) + 2*cellPad, keep: true}
	for i, lines := range cells {
		for k, l := range lines {
			y := cellPad + float64(most-len(lines)+k)*step(c.small) + base(c.small)
			st.items = append(st.items, cell(l, t.Columns[i].Align, g.left[i], g.width[i], y, c.small, face.Bold))
		}
	}
	st.items = append(st.items, rule(0, g.across, st.height, draw.Ink, 0.35))
	return st
}

func cell(s string, a content.Align, left, width, y, pt float64, w face.Weight) draw.Item {
	t := draw.Text{At: draw.Point{X: left, Y: y}, S: s, PT: pt, Weight: w, Color: draw.Ink}
	if a == content.Right {
		t.At.X, t.Anchor = left+width, draw.End
	}
	return t
}

// tableRow sets one row, in more strips than one only where it is very long.
func (c *composer) tableRow(t content.Table, r content.Row, g grid, open bool) []strip {
	if r.Kind == content.GroupHead {
		weight := face.Bold
		ink := draw.Ink
		if strings.HasPrefix(r.Cells[0], "*") {
			weight, ink = face.Regular, draw.Quiet
		}
		text, h := c.lines(0, cellPad+0.8, c.col, r.Cells[0], c.small, weight, ink)
		return []strip{{height: h + 2*cellPad + 0.8, items: text}}
	}
	weight := face.Regular
	if r.Kind == content.Total {
		weight = face.Bold
	}
	cells := make([][]string, len(r.Cells))
	most := 1
	for i, s := range r.Cells {
		cells[i] = c.wrap(s, weight, c.sizes.table, g.width[i]+0.01)
		most = max(most, len(cells[i]))
	}
	var out []strip
	for from := 0; from < most; from += chunk {
		to := min(from+chunk, most)
		st := strip{}
		y := 0.0
		if from == 0 {
			y = cellPad
			if t.Tick && r.Kind == content.Plain {
				st.items = append(st.items, box(0.4, y+(step(c.sizes.table)-boxMM)/2))
			}
			if r.Kind >= content.Sum && open {
				st.items = append(st.items, rule(0, g.across, 0, draw.Ink, 0.35))
			}
		}
		for i, lines := range cells {
			for k := from; k < min(to, len(lines)); k++ {
				st.items = append(st.items, cell(lines[k], t.Columns[i].Align, g.left[i], g.width[i], y+float64(k-from)*step(c.sizes.table)+base(c.sizes.table), c.sizes.table, weight))
			}
		}
		st.height = y + float64(to-from)*step(c.sizes.table)
		if to == most {
			st.height += cellPad
			st.items = append(st.items, rule(0, g.across, st.height, draw.Rule, 0.15))
		}
		out = append(out, st)
	}
	return out
}
