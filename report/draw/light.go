package draw

import (
	"fmt"
	"time"

	"swardwright/report/face"
	"swardwright/report/form"
	"swardwright/sowing"
)

// curve is one line of a chart by month.
type curve struct {
	letter string
	values [12]float64
	color  Color
	dash   []float64
}

// curveLooks tell the curves apart in colour, dash and, with their letter, in word.
var curveLooks = []struct {
	color Color
	dash  []float64
}{{Blue, nil}, {Vermillion, []float64{2.2, 0.9}}, {Green, []float64{0.7, 0.7}}, {Purple, []float64{3, 0.7, 0.7, 0.7}}}

// Light is the daily light and the sun hours of each zone, month by month.
func Light(s *sowing.Plan, f form.Form, w float64) *Drawing {
	if s.Site == nil || len(s.Site.Field.Zones) == 0 {
		return nil
	}
	d := &Drawing{Name: "light", Title: "Light by month", W: w}
	var dli, sun []curve
	for i, z := range s.Site.Field.Zones {
		l := curveLooks[i%len(curveLooks)]
		dli = append(dli, curve{z.Letter, z.Light.DLI, l.color, l.dash})
		sun = append(sun, curve{z.Letter, z.Light.SunHours, l.color, l.dash})
	}
	open := curve{"open", s.Site.Field.OpenDLI, Quiet, []float64{0.3, 0.9}}
	half := (w - 8) / 2
	chart(d, f, Box{0, 0, half, 54}, "Photosynthetic light, mol a m² and day", append(dli, open))
	chart(d, f, Box{half + 8, 0, half, 54}, "Direct sun on a clear day, hours", sun)
	const perRow, legendRow = 3, 4.6
	for i, c := range append(dli, open) {
		name := "open: nothing around it"
		if i < len(dli) {
			name = c.letter + "  " + s.Site.Field.Zones[i].Name
		}
		room := w / perRow
		x, y := float64(i%perRow)*room, 59.5+float64(i/perRow)*legendRow
		d.add(Line{Points: []Point{{x, y}, {x + 8, y}}, Stroke: Stroke{c.color, 0.6, c.dash}},
			text(x+9.5, y+middle(small), face.Shorten(name, face.Regular, small, room-12), small, Start))
		d.H = y + 2.5
	}
	best := s.Site.Field.Zones[0]
	d.Desc = fmt.Sprintf("Two line charts by month: daily photosynthetic light and hours of direct sun for %d zones. The lightest zone, %s, receives %s mol a square metre and day over the growing season.",
		len(s.Site.Field.Zones), best.Name, f.Number(best.Light.DLISeason, 1))
	return d
}

// chart draws curves over the months in a box, its title above.
func chart(d *Drawing, f form.Form, b Box, title string, curves []curve) {
	d.add(bold(b.X, b.Y+3, title, small, Start))
	top := 0.0
	for _, c := range curves {
		for _, v := range c.values {
			top = max(top, v)
		}
	}
	step := niceStep(max(top, 1), 5)
	plotBox := Box{b.X + 8, b.Y + 7, b.W - 9, b.H - 13}
	high := step
	for high < 1.06*top { // headroom for the letters
		high += step
	}
	y := func(v float64) float64 { return plotBox.Y + plotBox.H*(1-v/high) }
	x := func(month float64) float64 { return plotBox.X + plotBox.W*(month+0.5)/12 }
	for v := 0.0; v <= high+step/2; v += step {
		d.add(line(plotBox.X, y(v), plotBox.X+plotBox.W, y(v), Rule, 0.15), quiet(plotBox.X-1.5, y(v)+middle(small), f.Number(v, stepDecimals(step)), small, End))
	}
	pt := small
	for m := time.January; m <= time.December; m++ {
		for pt > 5 && face.Width(f.Month(m), face.Regular, pt) > plotBox.W/12-0.3 {
			pt -= 0.25
		}
	}
	for m := range 12 {
		d.add(quiet(x(float64(m)), plotBox.Y+plotBox.H+4, f.Month(time.Month(m+1)), pt, Middle))
	}
	place := placer{view: Box{plotBox.X, b.Y + 4, plotBox.W + 2, plotBox.H + 3}}
	for _, c := range curves {
		pts := make([]Point, 12)
		peak := 0
		for m, v := range c.values {
			pts[m] = Point{x(float64(m)), y(v)}
			if v > c.values[peak] {
				peak = m
			}
		}
		d.add(Line{Points: pts, Stroke: Stroke{c.color, 0.6, c.dash}})
		// The letter stands on the curve at its peak, in a white disc.
		width := face.Width(c.letter, face.Bold, small) + 1.4
		if at, ok := place.near(Point{x(float64(peak)), y(c.values[peak])}, width, 3.8, 12); ok {
			t := bold(at.X, at.Y+middle(small), c.letter, small, Middle)
			d.add(rect(Box{at.X - width/2, at.Y - 1.8, width, 3.6}, White), t)
		}
	}
}
