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

// wateringStrip is the watering week by week: a bar for the mean year, and beyond it
// for the dry year in ten; in two columns where there is room; nil without weeks.
func wateringStrip(weeks []WaterWeek, f *say.Sayer, w float64) *Drawing {
	strip := waterStrip{f: f}
	for _, k := range weeks {
		strip.most = max(strip.most, k.MeanMM, k.DryMM)
		strip.nameW = max(strip.nameW, face.Width(k.Name, face.Regular, small))
	}
	if strip.most <= 0 {
		return nil
	}
	d := &Drawing{Name: "watering", Title: f.Say(told.Say("draw.watering")), W: w}
	columns, apart := 1, 6.0
	if w >= 120 && len(weeks) > 4 {
		columns = 2
	}
	strip.w = (w - apart*float64(columns-1)) / float64(columns)
	strip.nameW = min(strip.nameW, strip.w/3) + 2
	strip.fit(weeks)
	x := 0.0
	for _, e := range []struct {
		l    look
		text string
	}{{meanYear, f.Say(told.Say("draw.mean-year"))}, {dryYear, f.Say(told.Say("draw.dry-year", told.Count(10)))}} {
		b := Box{x, 0.2, 6, 3}
		d.add(patch(b, e.l)...)
		d.add(text(x+7.2, 1.7+middle(small), e.text, small, Start))
		x += 12 + face.Width(e.text, face.Regular, small)
	}
	const top = 5.5
	rows := (len(weeks) + columns - 1) / columns
	var words []told.Sentence
	for i, k := range weeks {
		sub := &Drawing{W: strip.w}
		strip.row(sub, k, float64(i%rows)*weekH)
		d.add(Group{DX: float64(i/rows) * (strip.w + apart), DY: top, Items: sub.Items})
		words = append(words, told.Say("draw.week-desc", told.Source(k.Name), told.WaterMM(k.MeanMM), told.WaterMM(k.DryMM)))
	}
	d.H = top + float64(rows)*weekH + 0.5
	d.Desc = f.Say(told.Say("draw.watering-desc", told.Joined(told.Clauses, words...)))
	return d
}

// waterStrip is one column of weeks.
type waterStrip struct {
	f              *say.Sayer
	w, nameW, most float64
	scale          float64 // mm of paper to a mm of water
}

// fit makes the bars as long as leaves room for the figures beyond them.
func (s *waterStrip) fit(weeks []WaterWeek) {
	figure := func(mm float64, w face.Weight) float64 { return face.Width(depth(s.f, mm), w, small) }
	s.scale = (s.w - s.nameW - figure(s.most, face.Regular) - 2) / s.most
	for _, k := range append(weeks, weeks...) { // twice: shorter bars hold fewer figures
		if !s.holds(k, s.scale*k.MeanMM) {
			both := figure(k.MeanMM, face.Bold) + figure(k.DryMM, face.Regular) + 3.5
			s.scale = min(s.scale, (s.w-s.nameW-both)/max(k.MeanMM, k.DryMM, 1e-6))
		}
	}
}

const weekH = 4.6 // height of a week, mm

var meanYear, dryYear = look{tint(Blue, 0.5), Plain}, look{White, Rising}

// row draws one week.
func (s waterStrip) row(d *Drawing, k WaterWeek, y float64) {
	x := func(mm float64) float64 { return s.nameW + s.scale*mm }
	d.add(text(0, y+weekH/2+middle(small), face.Shorten(k.Name, face.Regular, small, s.nameW-1), small, Start))
	low, high := min(k.MeanMM, k.DryMM), max(k.MeanMM, k.DryMM)
	whole := Box{x(0), y + 0.7, max(x(high)-x(0), 0.2), weekH - 1.4}
	d.add(patch(whole, dryYear)...)
	if b := (Box{x(0), y + 0.7, x(low) - x(0), weekH - 1.4}); low > 0 {
		d.add(rect(b, meanYear.fill), frame(b, Ink, 0.15))
	}
	mean := bold(x(0)+0.8, y+weekH/2+middle(small), depth(s.f, k.MeanMM), small, Start)
	dry := text(x(high)+1, y+weekH/2+middle(small), depth(s.f, k.DryMM), small, Start)
	if !s.holds(k, x(k.MeanMM)-x(0)) { // both beyond the bar
		mean.At.X, dry.At.X = dry.At.X, dry.At.X+face.Width(mean.S, mean.Weight, small)+1.5
	}
	mean.Of, dry.Of = whole.Corners(), whole.Corners()
	d.add(mean, dry)
}

// holds says whether the figure of the mean year has room in its bar of width mm.
func (s waterStrip) holds(k WaterWeek, width float64) bool {
	return face.Width(depth(s.f, k.MeanMM), face.Bold, small)+1.6 < width
}

// depth is a depth of water to what a rain gauge shows: whole millimetres, or
// hundredths of an inch.
func depth(f *say.Sayer, mm float64) string {
	if f.US() {
		return f.Number(mm/25.4, 2) + "\u00a0in"
	}
	return f.Number(mm, 0) + "\u00a0mm"
}
