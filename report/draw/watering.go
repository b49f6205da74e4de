package draw

import (
	"swardwright/internal/told"
	"swardwright/report/face"
	"swardwright/report/say"
)

// WaterWeek is the watering of one week, litres a square metre.
type WaterWeek struct {
	Name          string // "week 1"
	MeanMM, DryMM float64
}

// WateringStrip is the watering week by week: a bar for the mean year, and beyond it
// for the dry year in ten; nil without weeks.
func WateringStrip(weeks []WaterWeek, f *say.Sayer, w float64) *Drawing {
	most := 0.0
	for _, k := range weeks {
		most = max(most, k.MeanMM, k.DryMM)
	}
	if most <= 0 {
		return nil
	}
	d := &Drawing{Name: "watering", Title: f.Say(told.Say("draw.watering")), W: w}
	const rowH = 4.6
	nameW := 0.0
	for _, k := range weeks {
		nameW = max(nameW, face.Width(k.Name, face.Regular, small))
	}
	nameW = min(nameW, w/3) + 2
	figures := face.Width(f.Figure(told.DepthMM(99))+" – "+f.Figure(told.DepthMM(99)), face.Regular, small)/2 + 3
	x := func(mm float64) float64 { return nameW + (w-nameW-figures)*mm/most }
	mean, dry := look{tint(Blue, 0.5), Plain}, look{White, Rising}
	y := 0.0
	for _, e := range []struct {
		l    look
		text string
	}{{mean, f.Say(told.Say("draw.mean-year"))}, {dry, f.Say(told.Say("draw.dry-year", told.Count(10)))}} {
		b := Box{y, 0.2, 6, 3}
		d.add(Filled(b.Corners(), e.l.fill, e.l.pattern)...)
		d.add(frame(b, Ink, 0.15), text(y+7.2, 1.7+middle(small), e.text, small, Start))
		y += 12 + face.Width(e.text, face.Regular, small)
	}
	y = 5.5
	var words []told.Sentence
	for _, k := range weeks {
		d.add(text(0, y+rowH/2+middle(small), face.Shorten(k.Name, face.Regular, small, nameW-1), small, Start))
		low, high := min(k.MeanMM, k.DryMM), max(k.MeanMM, k.DryMM)
		whole := Box{x(0), y + 0.7, max(x(high)-x(0), 0.2), rowH - 1.4}
		d.add(Filled(whole.Corners(), dry.fill, dry.pattern)...)
		d.add(frame(whole, Ink, 0.15))
		if b := (Box{x(0), y + 0.7, x(low) - x(0), rowH - 1.4}); low > 0 {
			d.add(rect(b, mean.fill), frame(b, Ink, 0.15))
			t := bold(0, 0, depth(f, k.MeanMM), small, Start)
			if face.Width(t.S, t.Weight, small)+1.6 < b.W {
				t.At, t.Of = Point{b.X + 0.8, y + rowH/2 + middle(small)}, b.Corners()
				d.add(t)
			}
		}
		t := text(x(high)+1, y+rowH/2+middle(small), depth(f, k.DryMM), small, Start)
		t.Of = whole.Corners()
		d.add(t)
		words = append(words, told.Say("draw.week-desc", told.Source(k.Name), told.WaterMM(k.MeanMM), told.WaterMM(k.DryMM)))
		y += rowH
	}
	d.H = y + 0.5
	d.Desc = f.Say(told.Say("draw.watering-desc", told.Joined(told.Clauses, words...)))
	return d
}

// depth is a depth of water to what a rain gauge shows: whole millimetres, or
// hundredths of an inch.
func depth(f *say.Sayer, mm float64) string {
	if f.US() {
		return f.Number(mm/25.4, 2) + "\u00a0in"
	}
	return f.Number(mm, 0) + "\u00a0mm"
}
