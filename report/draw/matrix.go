package draw

import (
	"fmt"
	"strings"

	"swardwright/internal/told"
	"swardwright/report/face"
	"swardwright/report/say"
	"swardwright/species"
)

// classTone is how a class looks: light is good, dark is bad, and its letter is in it.
var classTone = map[species.Class]Color{
	species.S1: tint(Viridis(0.98), 0.45), species.S2: tint(Viridis(0.78), 0.55), species.S3: tint(Viridis(0.55), 0.65), species.N1: tint(Viridis(0.27), 0.85), species.N2: Viridis(0.04),
}

var classes = []struct {
	class species.Class
	means told.Sentence
}{{species.S1, told.Say("draw.s1")}, {species.S2, told.Say("draw.s2")}, {species.S3, told.Say("draw.s3")}, {species.N1, told.Say("draw.n1")}, {species.N2, told.Say("draw.n2")}}

// Suitability is the suitability of grasses in one zone by every criterion.
type Suitability struct {
	Zone     int
	Name     string // of the zone
	Criteria []species.Criterion
	Rows     []species.Row   // best first
	Sown     map[string]bool // ids of the grasses that are sown
}

// matrixOf draws the suitability of grasses in one zone; where the page is too narrow
// for all criteria they go on in a second block.
func matrixOf(s Suitability, f *say.Sayer, w float64) *Drawing {
	if len(s.Rows) == 0 || len(s.Criteria) == 0 {
		return nil
	}
	d := &Drawing{Name: fmt.Sprintf("matrix-%d", s.Zone+1), Title: f.Say(told.Say("draw.matrix", told.Source(s.Name))), W: w}
	const overallW, least = 11.0, 7.2
	nameW := min(48, w*0.36)
	perBlock := max(min(int((w-nameW-overallW-2)/least), len(s.Criteria)), 1)
	blocks := (len(s.Criteria) + perBlock - 1) / perBlock
	perBlock = (len(s.Criteria) + blocks - 1) / blocks
	bottom := 0.0
	for from := 0; from < len(s.Criteria); from += perBlock {
		bottom = d.matrixBlock(s, f, from, min(from+perBlock, len(s.Criteria)), bottom, nameW, overallW) + 2.5
	}
	x := 0.0
	advance := func(width float64) {
		if x+width > w && x > 0 {
			x, bottom = 0, bottom+6
		}
	}
	for _, c := range classes {
		means := f.Say(c.means)
		width := 9.2 + face.Width(means, face.Regular, small) + 3
		advance(width)
		d.classCell(Box{x, bottom, 8, 4.6}, c.class, false, false)
		d.add(text(x+9.2, bottom+2.3+middle(small), means, small, Start))
		x += width
	}
	limits, sown := f.Say(told.Say("draw.limits")), f.Say(told.Say("draw.sown"))
	width := 9.2 + face.Width(limits, face.Regular, small) + 3
	advance(width)
	d.classCell(Box{x, bottom, 8, 4.6}, "", false, true)
	d.add(text(x+9.2, bottom+2.3+middle(small), limits, small, Start))
	x += width
	advance(4 + face.Width(sown, face.Regular, small))
	d.add(Area{Points: []Point{{x, bottom + 1}, {x + 1.9, bottom + 2.3}, {x, bottom + 3.6}}, Fill: Ink}, text(x+3.2, bottom+2.3+middle(small), sown, small, Start))
	d.H = bottom + 5.2

	var words []told.Sentence
	for _, r := range s.Rows {
		words = append(words, told.Say("draw.row-desc", told.Grass(r.Species.ID), told.Source(r.Class), told.Term{Kind: "criterion", Word: r.LimitedBy}))
	}
	d.Desc = f.Say(told.Say("draw.matrix-desc", told.Joined(told.Clauses, words...)))
	return d
}

// matrixBlock draws the criteria from–to of every row, from the top down, and tells
// where it ends.
func (d *Drawing) matrixBlock(s Suitability, f *say.Sayer, from, to int, top, nameW, overallW float64) float64 {
	rowH := 5.3
	for _, r := range s.Rows {
		if len(s.nameLines(r, f, nameW)) > 1 {
			rowH = 8
		}
	}
	criteria := s.Criteria[from:to]
	cellW := min((d.W-nameW-overallW-2)/float64(len(criteria)), 12)
	headH := 0.0
	for _, c := range criteria {
		for _, l := range headLines(criterionName(c, f)) {
			headH = max(headH, min(face.Width(l, face.Regular, small), 40))
		}
	}
	headH += 3
	left := func(k int) float64 { return nameW + overallW + 2 + float64(k)*cellW }
	d.add(Text{At: Point{nameW + overallW/2 + middle(small), top + headH - 2}, S: f.Say(told.Say("draw.overall")), PT: small, Weight: face.Bold, Color: Ink, TurnDeg: 90})
	for k, c := range criteria {
		lines := headLines(criterionName(c, f))
		for n, l := range lines {
			x := left(k) + cellW/2 + middle(small) + (float64(n)-float64(len(lines)-1)/2)*1.15*small*face.MMPerPoint
			d.add(Text{At: Point{x, top + headH - 2}, S: face.Shorten(l, face.Regular, small, headH-2), PT: small, Color: Ink, TurnDeg: 90})
		}
	}
	for i, r := range s.Rows {
		y := top + headH + float64(i)*rowH
		if s.Sown[r.Species.ID] {
			d.add(Area{Points: []Point{{0, y + 1.6}, {1.9, y + rowH/2}, {0, y + rowH - 1.6}}, Fill: Ink})
		}
		lines := s.nameLines(r, f, nameW)
		for n, l := range lines {
			at := y + rowH/2 + middle(small) + (float64(n)-float64(len(lines)-1)/2)*3.3
			d.add(Text{At: Point{3, at}, S: face.Shorten(l, s.weight(r), small, nameW-4), PT: small, Weight: s.weight(r), Color: Ink})
		}
		d.classCell(Box{nameW, y, overallW, rowH}, r.Class, true, false)
		for k, rating := range r.Ratings[min(from, len(r.Ratings)):min(to, len(r.Ratings))] {
			d.classCell(Box{left(k), y, cellW, rowH}, species.ClassOf(rating.Value), false, rating.Criterion == r.LimitedBy)
		}
	}
	return top + headH + float64(len(s.Rows))*rowH
}

// criterionName is the name of a criterion at the head of its column.
func criterionName(c species.Criterion, f *say.Sayer) string {
	return say.Capital(f.Figure(told.Term{Kind: "criterion", Word: c.ID}))
}

// headLines is the title of a criterion on one line or, where it is long, on two.
func headLines(title string) []string {
	if lines := face.Wrap(title, face.Regular, small, 22); len(lines) <= 2 {
		return lines
	}
	return []string{title}
}

func (s Suitability) weight(r species.Row) face.Weight { return weightOf(s.Sown[r.Species.ID]) }

// nameLines is the name of a row's grass on at most two lines.
func (s Suitability) nameLines(r species.Row, f *say.Sayer, w float64) []string {
	lines := face.Wrap(say.Capital(f.Figure(told.Grass(r.Species.ID))), s.weight(r), small, w-4)
	if len(lines) > 2 {
		lines = []string{lines[0], strings.Join(lines[1:], " ")}
	}
	return lines
}

// classCell is one cell: tone, class, and a thick frame with a corner where it limits.
func (d *Drawing) classCell(b Box, class species.Class, strong, limits bool) {
	in := b.inset(0.25)
	ground := classTone[class]
	if ground == "" {
		ground = White
	}
	d.add(rect(in, ground))
	if class != "" {
		t := text(b.X+b.W/2, b.Y+b.H/2+middle(7), string(class), 7, Middle)
		t.Color = inkOn(ground)
		if strong || limits {
			t.Weight = face.Bold
		}
		d.add(t)
	}
	if limits {
		line := Ink
		edge := in.inset(0.35)
		d.add(frame(edge, White, 1.1), frame(edge, line, 0.6), Area{Points: []Point{{in.X, in.Y}, {in.X + 2, in.Y}, {in.X, in.Y + 2}}, Fill: line, Outline: Stroke{White, 0.15, nil}})
	}
}
