package draw

import (
	"time"

	"swardwright/internal/steady"
	"swardwright/internal/told"
	"swardwright/report/face"
	"swardwright/report/say"
	"swardwright/site/light"
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

// lightCurves are the daily light and the sun hours of each zone, month by month.
func lightCurves(field light.Field, f *say.Sayer, w float64) *Drawing {
	if len(field.Zones) == 0 {
		return nil
	}
	d := &Drawing{Name: "light", Title: f.Say(told.Say("draw.by-month")), W: w}
	var dli, sun []curve
	for i, z := range field.Zones {
		l := curveLooks[i%len(curveLooks)]
		dli = append(dli, curve{z.Letter, z.Light.DLI, l.color, l.dash})
		sun = append(sun, curve{z.Letter, z.Light.SunHours, l.color, l.dash})
	}
	open := curve{f.Say(told.Say("draw.open")), field.OpenDLI, Quiet, []float64{0.3, 0.9}}
	const chartH = 52.0
	columns, y := 2, 0.0
	if w < 120 {
		columns = 1
	}
	each := (w - 8*float64(columns-1)) / float64(columns)
	for k, c := range []struct {
		title  string
		curves []curve
	}{{f.Say(told.Say("draw.sun-hours")), sun}, {f.Say(told.Say("draw.dli")), append(dli, open)}} {
		chart(d, f, Box{float64(k%columns) * (each + 8), float64(k/columns) * (chartH + 3), each, chartH}, c.title, c.curves)
		y = float64(k/columns)*(chartH+3) + chartH + 4
	}
	const legendRow = 4.6
	perRow := max(int(w/54), 1)
	for i, c := range append(dli, open) {
		name := f.Say(told.Say("draw.open-means", told.Source(open.letter)))
		if i < len(dli) {
			name = c.letter + "  " + f.Say(field.Zones[i].Name)
		}
		room := w / float64(perRow)
		x, at := float64(i%perRow)*room, y+float64(i/perRow)*legendRow
		d.add(Line{Points: []Point{{x, at}, {x + 8, at}}, Stroke: Stroke{c.color, 0.6, c.dash}},
			text(x+9.5, at+middle(small), face.Shorten(name, face.Regular, small, room-12), small, Start))
		d.H = at + 2.5
	}
	best := field.Zones[0]
	d.Desc = f.Say(told.Say("draw.by-month-desc", told.Count(len(field.Zones)), best.Name, told.DLI(best.Light.DLISeason)))
	return d
}

// monthSize is the size in which all names of months go into a slot, from small down; where
// the least is too large for one, only letters do.
func monthSize(f *say.Sayer, slot float64) (pt float64, letters bool) {
	pt = small
	for m := time.January; m <= time.December; m++ {
		for pt > 6 && face.Width(f.Month(m), face.Regular, pt) > slot {
			pt -= 0.25
		}
		letters = letters || face.Width(f.Month(m), face.Regular, pt) > slot
	}
	return pt, letters
}

// chart draws curves over the months in a box, its title above.
func chart(d *Drawing, f *say.Sayer, b Box, title string, curves []curve) {
	d.add(bold(b.X, b.Y+3, face.Shorten(title, face.Bold, small, b.W), small, Start))
	top := 0.0
	for _, c := range curves {
		for _, v := range c.values {
			top = max(top, v)
		}
	}
	step := niceStep(max(top, 1), 5)
	plotBox := Box{b.X + 8, b.Y + 7, b.W - 9, b.H - 13}
	high := step
	for high < 1.1*top { // headroom for the letters
		high += step
	}
	// Settled, so that every build sees the same peak and the same crossings.
	y := func(v float64) float64 { return steady.Round(plotBox.Y+plotBox.H*(1-v/high), 3) }
	x := func(month float64) float64 { return steady.Round(plotBox.X+plotBox.W*(month+0.5)/12, 3) }
	for v := 0.0; v <= high+step/2; v += step {
		d.add(line(plotBox.X, y(v), plotBox.X+plotBox.W, y(v), Rule, 0.15), quiet(plotBox.X-1.5, y(v)+middle(small), f.Number(v, stepDecimals(step)), small, End))
	}
	pt, letters := monthSize(f, plotBox.W/12-0.3)
	for m := range 12 {
		name := f.Month(time.Month(m + 1))
		if letters {
			name, pt = string([]rune(name)[:1]), small
		}
		d.add(quiet(x(float64(m)), plotBox.Y+plotBox.H+4, name, pt, Middle))
	}
	place := &placer{view: Box{plotBox.X, b.Y + 4, plotBox.W + 1, plotBox.H + 3}}
	for _, c := range curves {
		for m := range 11 {
			place.lines = append(place.lines, [2]Point{{x(float64(m)), y(c.values[m])}, {x(float64(m + 1)), y(c.values[m+1])}})
		}
	}
	for _, c := range curves {
		pts := make([]Point, 12)
		peak := 0
		for m, v := range c.values {
			pts[m] = Point{x(float64(m)), y(v)}
			if pts[m].Y < pts[peak].Y {
				peak = m
			}
		}
		d.add(Line{Points: pts, Stroke: Stroke{c.color, 0.6, c.dash}})
		d.letterOf(place, Text{S: c.letter, PT: small, Weight: face.Bold, Color: Ink}, pts, peak)
	}
}

// letterOf sets a curve's letter by it, over or under it and near its peak, clear of
// the other curves where it can be.
func (d *Drawing) letterOf(place *placer, t Text, pts []Point, peak int) {
	for away := range len(pts) {
		for _, m := range []int{peak - away, peak + away} {
			for _, off := range []float64{-2.3, 2.4} {
				if m < 0 || m >= len(pts) {
					continue
				}
				t.Of = pts[m : m+1]
				try := centred(t, Point{pts[m].X, pts[m].Y + off})
				if q := bare.corners(try); away < 4 && place.free(q) && place.crossed(q) == 0 {
					d.set(place, try, bare, t.Of)
					return
				}
			}
		}
	}
	d.tag(place, t, boxed, pts[peak:peak+1], Point{pts[peak].X, pts[peak].Y - 2.4}, 30)
}
