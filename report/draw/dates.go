package draw

import (
	"fmt"
	"math"
	"strings"
	"time"

	"swardwright/report/face"
	"swardwright/report/form"
	"swardwright/sowing"
	"swardwright/sowing/year"
)

// bar is a run of days with what is written beside it.
type bar struct {
	from, to time.Time
	tick     time.Time // the likeliest day within it; zero: none
	look     look
	strong   bool
	text     string
}

// lane is one row of the year band.
type lane struct {
	name string
	bars []bar
}

const day = 24 * time.Hour

// Dates is the year band: windows, emergence, first cut, use, and the work of the
// first year, over the growth of the months.
func Dates(s *sowing.Plan, f form.Form, w float64) *Drawing {
	lanes := dateLanes(s, f)
	if len(lanes) == 0 {
		return nil
	}
	var first, last time.Time
	for _, l := range lanes {
		for _, b := range l.bars {
			if first.IsZero() || b.from.Before(first) {
				first = b.from
			}
			if b.to.After(last) {
				last = b.to
			}
		}
	}
	// Whole months, at least twelve and at most eighteen.
	start := time.Date(first.Year(), first.Month(), 1, 0, 0, 0, 0, time.UTC)
	if start.Month() > time.January && !last.After(time.Date(first.Year(), 12, 31, 0, 0, 0, 0, time.UTC)) {
		start = time.Date(first.Year(), 1, 1, 0, 0, 0, 0, time.UTC)
	}
	count := 12
	for count < 18 && start.AddDate(0, count, 0).Before(last) {
		count++
	}
	end := start.AddDate(0, count, 0)

	const labelW, rowH, top = 27.0, 6.4, 6.5
	d := &Drawing{Name: "dates", Title: "The first year", W: w}
	x := func(t time.Time) float64 {
		share := float64(t.Sub(start)) / float64(end.Sub(start))
		return labelW + (w-labelW)*min(max(share, 0), 1)
	}
	growthTop := top + float64(len(lanes))*rowH + 2
	const growthH = 11.0
	slot := (w - labelW) / float64(count)
	for m := range count {
		t := start.AddDate(0, m, 0)
		name := f.Month(t.Month())
		if m == 0 || t.Month() == time.January {
			if long := name + " " + fmt.Sprint(t.Year()); face.Width(long, face.Regular, small) < slot-0.6 {
				name = long
			}
		}
		pt := small
		for pt > 5 && face.Width(name, face.Regular, pt) > slot-0.4 {
			pt -= 0.25
		}
		if m%2 == 0 {
			d.add(rect(Box{x(t), 0, x(t.AddDate(0, 1, 0)) - x(t), growthTop + growthH}, Faint))
		}
		d.add(quiet((x(t)+x(t.AddDate(0, 1, 0)))/2, 4, name, pt, Middle))
		if g := s.Year.Months[t.Month()-1].Growth; g > 0 {
			h := growthH * min(g, 1)
			b := Box{x(t) + 0.6, growthTop + growthH - h, x(t.AddDate(0, 1, 0)) - x(t) - 1.2, h}
			d.add(rect(b, tint(Green, 0.45)))
		}
	}
	d.add(line(labelW, growthTop+growthH, w, growthTop+growthH, Ink, 0.25), quiet(0, growthTop+growthH-1, "growth", small, Start))
	for i, l := range lanes {
		y := top + float64(i)*rowH
		d.add(text(0, y+rowH/2+middle(small), face.Shorten(l.name, face.Regular, small, labelW-2), small, Start))
		d.add(line(labelW, y+rowH, w, y+rowH, Rule, 0.1))
		place := placer{view: Box{labelW, y - 0.2, w - labelW, rowH + 0.4}}
		for _, b := range l.bars {
			if b.to.Before(start) || b.from.After(end) {
				continue
			}
			x0, x1 := x(b.from), x(b.to.Add(day))
			place.taken = append(place.taken, Box{x0 - 0.3, y + 1.2, max(x1-x0, 1.2) + 0.6, rowH - 2.4})
		}
		for _, b := range l.bars {
			if b.to.Before(start) || b.from.After(end) {
				continue
			}
			d.bar(b, x(b.from), max(x(b.to.Add(day)), x(b.from)+1), x(b.tick), y, rowH, &place)
		}
	}
	d.H = growthTop + growthH + 0.5
	var words []string
	for _, l := range lanes {
		for _, b := range l.bars {
			words = append(words, l.name+" "+f.Dates(b.from, b.to))
		}
	}
	d.Desc = "Band of the year: " + strings.Join(words, "; ") + "."
	return d
}

// bar draws one run of days with its words beside it where there is room.
func (d *Drawing) bar(b bar, x0, x1, tick, y, rowH float64, place *placer) {
	box := Box{x0, y + 1.3, x1 - x0, rowH - 2.6}
	d.add(Filled(box.Corners(), b.look.fill, b.look.pattern)...)
	edge := 0.15
	if b.strong {
		edge = 0.5
	}
	d.add(frame(box, Ink, edge))
	if !b.tick.IsZero() {
		d.add(Area{Points: []Point{{tick - 1.5, y + 0.3}, {tick + 1.5, y + 0.3}, {tick, y + 2.8}}, Fill: Ink, Outline: Stroke{White, 0.2, nil}}, line(tick, y+1.3, tick, y+rowH-1.3, Ink, 0.4))
	}
	if b.text == "" {
		return
	}
	weight := face.Regular
	if b.strong {
		weight = face.Bold
	}
	width := face.Width(b.text, weight, small)
	for _, at := range []float64{x1 + 1.2, x0 - width - 1.2} {
		t := Text{At: Point{at, y + rowH/2 + middle(small)}, S: b.text, PT: small, Weight: weight, Color: Ink}
		if tb := textBox(t); place.free(tb) {
			place.taken = append(place.taken, tb)
			d.add(t)
			return
		}
	}
}

// dateLanes are the rows of the band, those without bars left out.
func dateLanes(s *sowing.Plan, f form.Form) []lane {
	var lanes []lane
	add := func(name string, bars ...bar) {
		if len(bars) > 0 {
			lanes = append(lanes, lane{name, bars})
		}
	}
	plain, soft := look{tint(Blue, 0.55), Plain}, look{tint(SkyBlue, 0.4), Rising}
	dates := s.Dates
	sowing := !dates.SowOn.IsZero()
	var windows []bar
	for i, w := range dates.Windows {
		if w.Opens.IsZero() || w.Closes.IsZero() {
			continue
		}
		b := bar{from: w.Opens, to: w.Closes, look: soft, text: f.Range(f.DayMonth(w.Opens), f.DayMonth(w.Closes))}
		if i == dates.Chosen {
			b.look, b.strong, b.tick = plain, true, dates.SowOn
		}
		windows = append(windows, b)
	}
	add("sowing window", windows...)
	if sowing && dates.Chosen < 0 {
		add("sow", bar{from: dates.SowOn, to: dates.SowOn, look: plain, strong: true, text: f.DayMonth(dates.SowOn)})
	}
	if sowing && dates.Chosen >= 0 && dates.Chosen < len(dates.Windows) {
		w := dates.Windows[dates.Chosen]
		span := func(p10, p50, p90 float64) bar {
			on := func(days float64) time.Time { return dates.SowOn.Add(time.Duration(math.Round(days)) * day) }
			return bar{from: on(p10), to: on(p90), tick: on(p50), look: look{tint(Green, 0.5), Plain}, text: f.Range(f.DayMonth(on(p10)), f.DayMonth(on(p90)))}
		}
		if w.EmergenceDays != nil {
			add("up", span(w.EmergenceDays.P10, w.EmergenceDays.P50, w.EmergenceDays.P90))
		}
		if w.FirstMowDays != nil {
			add("first cut", span(w.FirstMowDays.P10, w.FirstMowDays.P50, w.FirstMowDays.P90))
		}
	}
	if sowing && dates.Chosen < 0 && dates.FirstMow != nil {
		add("first cut", bar{from: *dates.FirstMow, to: *dates.FirstMow, look: look{tint(Green, 0.5), Plain}, text: f.DayMonth(*dates.FirstMow)})
	}
	if dates.UsableFrom != nil {
		add("bears use from", bar{from: *dates.UsableFrom, to: *dates.UsableFrom, look: look{Ink, Plain}, strong: true, text: f.DayMonth(*dates.UsableFrom)})
	}
	if dates.TurfOn != nil && dates.TurfUsableFrom != nil {
		add("turf: lay, then use", bar{from: *dates.TurfOn, to: *dates.TurfUsableFrom, look: look{tint(Orange, 0.5), Dotted}, text: f.Range(f.DayMonth(*dates.TurfOn), f.DayMonth(*dates.TurfUsableFrom))})
	}
	for _, kind := range []struct {
		kind year.Kind
		look look
	}{{year.Prepare, look{White, Plain}}, {year.Watering, look{tint(SkyBlue, 0.5), Level}}, {year.Feeding, look{tint(Yellow, 0.8), Plain}},
		{year.Spike, look{tint(Purple, 0.5), Plain}}, {year.Rake, look{White, Upright}}, {year.Dress, look{tint(Orange, 0.5), Plain}}, {year.Overseed, look{tint(Green, 0.3), Dotted}}} {
		var bars []bar
		for _, t := range s.Year.Tasks {
			if t.Kind != kind.kind || !(t.First || !sowing) || t.Date.IsZero() {
				continue
			}
			to := t.Until
			if to.IsZero() {
				to = t.Date
			}
			bars = append(bars, bar{from: t.Date, to: to, look: kind.look, text: f.DayMonth(t.Date)})
		}
		add(string(kind.kind), bars...)
	}
	return lanes
}
