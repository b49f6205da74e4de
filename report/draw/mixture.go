package draw

import (
	"swardwright/internal/told"
	"swardwright/report/face"
	"swardwright/report/say"
)

// Share is one grass of a mixture, or of two.
type Share struct {
	Key  string
	Bars [2]float64    // its share in each bar
	Said told.Sentence // in words
}

// partKey is the letter of the n-th grass of the mixture.
func partKey(n int) string { return string(rune('a' + n%26)) }

// mixtureBars is a mixture as two bars, by weight and by number of seeds, or two mixtures
// as a bar each; slices too narrow for their letter have it under them.
func mixtureBars(names [2]told.Sentence, shares []Share, f *say.Sayer, w float64) *Drawing {
	if len(shares) == 0 {
		return nil
	}
	d := &Drawing{Name: "mixture", Title: f.Say(told.Say("draw.mixture")), W: w}
	const barH, foot = 7.5, 4.6
	labelW := min(20, w/4)
	y := 0.0
	for b, name := range names {
		d.add(text(0, y+barH/2+middle(small), f.Say(name), small, Start))
		all := 0.0
		for _, s := range shares {
			all += s.Bars[b]
		}
		if all <= 0 {
			continue
		}
		x, free, outside := labelW, labelW, false
		for i, s := range shares {
			if s.Bars[b] == 0 {
				continue
			}
			box := Box{x, y, (w - labelW) * s.Bars[b] / all, barH}
			x += box.W
			l := looks[i%len(looks)]
			d.add(filled(box.Corners(), l.fill, l.pattern)...)
			d.add(frame(box, Ink, 0.2))
			if long := s.Key + "  " + f.Percent(s.Bars[b]/100); d.label(box, long) || d.label(box, s.Key) {
				continue
			}
			// Under the bar, as near as the one before lets it.
			t := bold(0, y+barH+3.6, s.Key, small, Start)
			width := face.Width(t.S, t.Weight, small)
			t.At.X = min(max(box.X+box.W/2-width/2, free), w-width)
			free = t.At.X + width + 1
			t.Of = box.Corners()
			d.add(line(box.X+box.W/2, y+barH, t.At.X+width/2, y+barH+1.4, Quiet, 0.15), t)
			outside = true
		}
		y += barH + 2
		if outside {
			y += foot
		}
	}
	d.H = y
	var words []told.Sentence
	for _, s := range shares {
		words = append(words, s.Said)
	}
	d.Desc = f.Say(told.Say("draw.mixture-desc", told.Joined(told.Clauses, words...)))
	return d
}

// label sets a bold key on white in the middle of a box that has room for it.
func (d *Drawing) label(b Box, s string) bool {
	t := centred(Text{S: s, PT: small, Weight: face.Bold, Color: Ink, Of: b.Corners()}, b.centre())
	q := boxed.corners(t)
	if in := bounds(q); in.W > b.W-0.4 || in.H > b.H-0.4 {
		return false
	}
	d.add(Area{Points: q, Fill: White}, t)
	return true
}
