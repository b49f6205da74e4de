package draw

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"swardwright/internal/told"
	"swardwright/report/face"
	"swardwright/report/say"
)

// Span is a run of days, or one day, with a word about it.
type Span struct {
	From, To time.Time // To zero: one day
	Mark     time.Time // the likeliest day within it; zero: none
	Text     string
	Strong   bool
}

// Lane is one kind of work through the year.
type Lane struct {
	Name  string
	Kind  LaneKind
	Spans []Span
}

// LaneKind says how a lane looks.
type LaneKind int

// The kinds of lane.
const (
	Establishing LaneKind = iota
	Mowing
	Water
	Feed
	Watch
	Other
)

var laneLooks = map[LaneKind]look{
	Establishing: {tint(Orange, 0.55), Dotted}, Mowing: {tint(Green, 0.55), Plain}, Water: {tint(SkyBlue, 0.55), Level},
	Feed: {tint(Yellow, 0.8), Plain}, Watch: {White, Rising}, Other: {tint(Purple, 0.5), Upright},
}

// day is the length of one day.
const day = 24 * time.Hour

// The most months that a year band shows: a season's establishing and the year after.
const mostMonths = 24

// yearBars is the year as bars: one lane for each kind of work, over the months, with
// the growth of each month (0 to 1) at the foot; nil without lanes.
func yearBars(lanes []Lane, growth [12]float64, f *say.Sayer, w float64) *Drawing {
	t, ok := timelineOf(lanes, w)
	if !ok {
		return nil
	}
	const rowH, top, growthH = 5.6, 9.2, 8.0
	nameH := 0.0
	if t.left == 0 { // the name stands above its lane
		nameH = 4.4
	}
	d := &Drawing{Name: "year", Title: f.Say(told.Say("draw.year")), W: w}
	total := top
	laid, rows := make([][]barRow, len(lanes)), make([]int, len(lanes))
	for i, l := range lanes {
		laid[i], rows[i] = t.bars(l.Spans)
		total += nameH + float64(rows[i])*rowH
	}
	d.months(t.start, t.months, f, t.left, w, total+growthH+1.5)
	y := top
	for i, l := range lanes {
		at := Point{0, y + rowH/2 + middle(small)}
		if nameH > 0 {
			at.Y = y + nameH - 1
		}
		d.add(Text{At: at, S: face.Shorten(l.Name, face.Bold, small, max(t.left, w/2)-1.5), PT: small, Weight: face.Bold, Color: Ink})
		y += nameH
		for _, b := range laid[i] {
			d.span(b.Span, laneLooks[l.Kind], t.x, y+float64(b.row)*rowH, rowH, b.text)
		}
		y += float64(rows[i]) * rowH
		d.add(line(0, y, w, y, Rule, 0.15))
	}
	y++
	for m := range t.months {
		from, to := t.x(t.start.AddDate(0, m, 0)), t.x(t.start.AddDate(0, m+1, 0))
		if g := growth[t.start.AddDate(0, m, 0).Month()-1]; g > 0 {
			h := growthH * min(g, 1)
			d.add(rect(Box{from + 0.6, y + growthH - h, to - from - 1.2, h}, tint(Green, 0.45)))
		}
	}
	d.add(line(t.left, y+growthH, w, y+growthH, Ink, 0.25))
	if t.left > 0 {
		d.add(quiet(0, y+growthH-1, f.Say(told.Say("draw.growth")), small, Start))
	}
	d.H = y + growthH + 0.5
	d.Desc = lanesDesc(lanes, f)
	return d
}

// lanesDesc tells what the bars show.
func lanesDesc(lanes []Lane, f *say.Sayer) string {
	var words []told.Source
	for _, l := range lanes {
		for _, s := range l.Spans {
			words = append(words, told.Source(strings.TrimSpace(l.Name+" "+f.Figure(told.Period{From: s.From, To: s.end()})+" "+s.Text)))
		}
	}
	return f.Say(told.Say("draw.year-desc", told.Joined(told.Clauses, words...)))
}

// timeline is the run of months that the bars lie over, from left to right.
type timeline struct {
	start, end  time.Time
	months      int
	left, right float64
}

// timelineOf begins with the month of the first span; it is not ok without spans.
func timelineOf(lanes []Lane, w float64) (t timeline, ok bool) {
	var first, last time.Time
	for _, l := range lanes {
		for _, s := range l.Spans {
			if first.IsZero() || s.From.Before(first) {
				first = s.From
			}
			if e := s.end(); e.After(last) {
				last = e
			}
		}
	}
	t = timeline{start: time.Date(first.Year(), first.Month(), 1, 0, 0, 0, 0, time.UTC), months: 12, left: 25, right: w}
	if w < 120 { // no room for the names beside the lanes
		t.left = 0
	}
	for t.months < mostMonths && t.start.AddDate(0, t.months, 0).Before(last) {
		t.months++
	}
	t.end = t.start.AddDate(0, t.months, 0)
	return t, !first.IsZero()
}

func (t timeline) x(at time.Time) float64 {
	share := float64(at.Sub(t.start)) / float64(t.end.Sub(t.start))
	return t.left + (t.right-t.left)*min(max(share, 0), 1)
}

// barRow is a span in its row.
type barRow struct {
	Span
	row  int
	text float64 // where its words begin; negative: none
}

// bars lays the spans of a lane in as many rows as keep their words apart.
func (t timeline) bars(spans []Span) (laid []barRow, rows int) {
	var ends []float64 // where each row is free from
	spans = slices.Clone(spans)
	slices.SortStableFunc(spans, func(a, b Span) int { return a.From.Compare(b.From) })
	for _, s := range spans {
		if s.From.After(t.end) || s.end().Before(t.start) {
			continue
		}
		b, from, to := t.bar(s)
		for b.row < len(ends) && ends[b.row] > from {
			b.row++
		}
		if b.row == len(ends) {
			ends = append(ends, 0)
		}
		ends[b.row] = to
		laid = append(laid, b)
	}
	return laid, max(len(ends), 1)
}

// bar places the words of a span, to the right of it or else to the left, and tells from
// where to where the two reach.
func (t timeline) bar(s Span) (b barRow, from, to float64) {
	x0, x1 := t.x(s.From), max(t.x(s.end().Add(day)), t.x(s.From)+1.2)
	b, from, to = barRow{Span: s, text: -1}, x0, x1+1
	if s.Text == "" {
		return b, from, to
	}
	width := face.Width(s.Text, weightOf(s.Strong), small)
	switch {
	case x1+1+width <= t.right:
		b.text = x1 + 1
		to = b.text + width + 2
	case x0-1-width >= t.left:
		b.text = x0 - 1 - width
		from = b.text
	}
	return b, from, to
}

func (s Span) end() time.Time {
	if s.To.IsZero() {
		return s.From
	}
	return s.To
}

func weightOf(strong bool) face.Weight {
	if strong {
		return face.Bold
	}
	return face.Regular
}

// months draws the ruled ground of the months and their names.
func (d *Drawing) months(start time.Time, count int, f *say.Sayer, left, right, foot float64) {
	slot := (right - left) / float64(count)
	pt, letters := monthSize(f, slot-0.5)
	for m := range count {
		t := start.AddDate(0, m, 0)
		x := left + float64(m)*slot
		if m%2 == 0 {
			d.add(rect(Box{x, 0, slot, foot}, Faint))
		}
		name := f.Month(t.Month())
		if letters {
			name, pt = string([]rune(name)[:1]), 7
		}
		if m > 0 && t.Month() == time.January {
			d.add(line(x, 0, x, foot, Quiet, 0.2))
		}
		if m == 0 && t.Month() < time.November || m > 0 && t.Month() == time.January {
			year := fmt.Sprint(t.Year())
			d.add(bold(min(x+0.8, right-face.Width(year, face.Bold, small)), 3.4, year, small, Start))
		}
		d.add(quiet(x+slot/2, 7.2, name, pt, Middle))
	}
}

// span draws one run of days, or a day as a lozenge, with its words.
func (d *Drawing) span(s Span, l look, x func(time.Time) float64, y, rowH, words float64) {
	edge := 0.15
	if s.Strong {
		edge = 0.45
	}
	mid := y + rowH/2
	x0, x1 := min(x(s.From), d.W-1.2), x(s.end().Add(day))
	thing := Box{x0, y + 1.1, max(x1-x0, 1.2), rowH - 2.2}.Corners()
	if s.end().Sub(s.From) < 2*day {
		c := min((x0+x1)/2, d.W-1.6) // whole on the last day as well
		thing = []Point{{c, mid - 1.5}, {c + 1.5, mid}, {c, mid + 1.5}, {c - 1.5, mid}}
	}
	d.add(filled(thing, l.fill, l.pattern)...)
	d.add(Area{Points: thing, Outline: Stroke{Color: Ink, MM: edge}})
	if !s.Mark.IsZero() {
		m := min(x(s.Mark), d.W-1.4)
		d.add(Area{Points: []Point{{m - 1.3, y + 0.2}, {m + 1.3, y + 0.2}, {m, y + 2.4}}, Fill: Ink, Outline: Stroke{White, 0.2, nil}}, line(m, y+1.1, m, y+rowH-1.1, Ink, 0.4))
	}
	if s.Text != "" && words >= 0 {
		d.add(Text{At: Point{words, mid + middle(small)}, S: s.Text, PT: small, Weight: weightOf(s.Strong), Color: Ink, Of: thing})
	}
}
