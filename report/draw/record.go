package draw

import (
	"swardwright/internal/told"
	"swardwright/report/face"
	"swardwright/report/say"
	"swardwright/sowing"
)

// Finding is one thing found beside what was expected; all are shares, 0 to 1.
type Finding struct {
	Name                 string
	Expected, Range, Now [2]float64
	Found                float64
}

// Record is what was seen on the lawn as far as it is shares of ground or sward; nil where
// there is nothing.
func Record(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	if s.Learned == nil {
		return nil
	}
	var all []Finding
	for _, r := range s.Learned.Rows {
		if !r.IsShare() {
			continue
		}
		on := told.Date(r.Seen.Date)
		name := told.Say("record.row-name-all", on, r.InShort())
		if r.Zone != "" {
			name = told.Say("record.row-name", on, told.Zone(r.Zone), r.InShort())
		}
		all = append(all, Finding{f.Say(name), r.Expected, r.Range, r.Now, r.Found})
	}
	return findings(all[max(0, len(all)-MostFindings):], f, w)
}

// MostFindings are how many fit a page with what comes of them, the last ones; the table has all.
const MostFindings = 16

// findings draws one line each: the range that was expected, the narrower one that is
// expected now over it, and a mark with its whiskers for what was found.
func findings(all []Finding, f *say.Sayer, w float64) *Drawing {
	if len(all) == 0 {
		return nil
	}
	const rowH, barH, foot = 5.4, 3.4, 5.0
	nameW := min(0.42*w, 70)
	left, wide := nameW+3, w-nameW-3-4
	x := func(share float64) float64 { return left + wide*min(max(share, 0), 1) }
	d := &Drawing{Name: "record", Title: f.Say(told.Say("record.chart")), W: w}

	// The key above, each mark before its words, as many on a line as fit.
	const keyH, markW, gap = 4.0, 9.0, 6.0
	was, is := look{tint(SkyBlue, 0.45), Rising}, look{tint(Green, 0.8), Plain}
	at, y := 0.0, 1.0
	for _, k := range []struct {
		mark []Item
		says told.Sentence
	}{
		{patch(Box{0, 0, 7, 2.6}, was), told.Say("record.key-expected", told.Count(8), told.Count(10))},
		{patch(Box{0, 0.7, 7, 1.2}, is), told.Say("record.key-now")},
		{found(0, 7, 3.5, 1.3), told.Say("record.key-found")},
	} {
		words := f.Say(k.says)
		long := markW + face.Width(words, face.Regular, small)
		if at > 0 && at+long > w {
			at, y = 0, y+keyH
		}
		d.add(Group{DX: at, DY: y, Items: k.mark})
		d.add(text(at+markW, y+2.2, words, small, Start))
		at += long + gap
	}
	top := y + keyH + 0.5
	d.H = top + rowH*float64(len(all)) + foot
	for _, at := range []float64{0, 0.25, 0.5, 0.75, 1} {
		d.add(line(x(at), top, x(at), d.H-foot, Rule, 0.15))
		d.add(quiet(x(at), d.H-1, f.Figure(told.Share(at)), small, Middle))
	}
	var words []told.Sentence
	for i, r := range all {
		y := top + rowH*float64(i)
		mid := y + rowH/2
		d.add(text(0, mid+middle(small), face.Shorten(r.Name, face.Regular, small, nameW), small, Start))
		d.add(patch(Box{x(r.Expected[0]), mid - barH/2, max(x(r.Expected[1])-x(r.Expected[0]), 0.6), barH}, was)...)
		d.add(patch(Box{x(r.Now[0]), mid - 0.7, max(x(r.Now[1])-x(r.Now[0]), 0.6), 1.4}, is)...)
		d.add(found(x(r.Range[0]), x(r.Range[1]), x(r.Found), mid)...)
		words = append(words, told.Say("record.chart-row", told.Source(r.Name), told.Between(told.Share(r.Expected[0]), told.Share(r.Expected[1])), told.Share(r.Found)))
	}
	d.Desc = f.Say(told.Say("record.chart-desc", told.Joined(told.Clauses, words...)))
	return d
}

// found is the mark of a finding with its whiskers.
func found(low, high, at, y float64) []Item {
	const half = 1.1
	return []Item{
		line(low, y, high, y, Ink, 0.3), line(low, y-half, low, y+half, Ink, 0.3), line(high, y-half, high, y+half, Ink, 0.3),
		Area{Points: []Point{{at, y - 1.5}, {at + 1.5, y}, {at, y + 1.5}, {at - 1.5, y}}, Fill: Vermillion, Outline: Stroke{Color: Ink, MM: 0.2}},
	}
}
