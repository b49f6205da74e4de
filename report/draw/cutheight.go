package draw

import (
	"math"

	"swardwright/internal/told"
	"swardwright/report/say"
)

// Cut is a height of cut and the height at which the grass is cut again.
type Cut struct {
	Name        string // "spring", "shade"
	CutMM, AtMM float64
}

// cutHeights shows how high the grass is cut and let grow, to the greatest scale that
// keeps it under maxH millimetres; nil without cuts.
func cutHeights(cuts []Cut, f *say.Sayer, w, maxH float64) *Drawing {
	tallest := 0.0
	for _, c := range cuts {
		tallest = max(tallest, c.CutMM, c.AtMM)
	}
	if !(tallest > 0) {
		return nil
	}
	scale := 1.0
	for _, s := range []float64{1, 2, 5, 10, 20, 50} {
		if scale = s; tallest/s <= maxH {
			break
		}
	}
	perMM := 1 / scale
	name := f.Say(told.Say("draw.full-size"))
	if scale > 1 {
		name = f.Say(told.Say("draw.scale", told.Source("1 : "+f.Number(scale, 0))))
	}
	d := &Drawing{Name: "cut", Title: f.Say(told.Say("draw.cut")), W: w}
	const head, axis = 4.0, 15.0
	y := func(mm float64) float64 { return head + (tallest-mm)*perMM }
	ground := y(0)
	unit := 1.0
	if f.US() {
		unit = 25.4
	}
	step := niceStep(tallest/unit, max(int(tallest*perMM/4.5), 1)) * unit
	for v := 0.0; v <= tallest+step*0.01; v += step {
		d.add(line(axis-1.2, y(v), axis, y(v), Ink, 0.2), quiet(axis-1.8, y(v)+middle(small), f.Figure(told.DepthMM(v)), small, End))
	}
	d.add(line(axis, y(tallest), axis, ground, Ink, 0.2))
	slot := (w - axis) / float64(len(cuts))
	var words []told.Source
	for i, c := range cuts {
		x0, x1 := axis+float64(i)*slot+2, axis+float64(i+1)*slot-2
		d.blades(c, x0, x1, tallest, y)
		d.add(line(x0, y(c.CutMM), x1, y(c.CutMM), Vermillion, 0.5), line(x0, ground, x1, ground, Ink, 0.4))
		s := f.Say(told.Say("draw.cut-to", told.Source(c.Name), told.DepthMM(c.CutMM)))
		if c.AtMM > c.CutMM {
			s = f.Say(told.Say("draw.cut-when", told.Source(c.Name), told.DepthMM(c.CutMM), told.DepthMM(c.AtMM)))
		}
		lines, h := block(0, 0, slot-2, say.Capital(s), small, 0, Ink)
		d.add(Group{DX: x0, DY: ground + 1.4, Items: lines})
		d.H = max(d.H, ground+1.4+h)
		words = append(words, told.Source(s))
	}
	d.add(quiet(0, d.H+3.4, name, small, Start))
	d.H += 5
	d.Desc = f.Say(told.Say("draw.cut-desc", told.Joined(told.Clauses, words...)))
	return d
}

// blades draws the grass of a cut, and what it grows to, from x0 to x1.
func (d *Drawing) blades(c Cut, x0, x1, tallest float64, y func(mm float64) float64) {
	blade := func(x, from, to, lean float64, c Color, mm float64) {
		d.add(Line{Points: []Point{{x + lean*from/tallest, y(from)}, {x + lean*to/tallest, y(to)}}, Stroke: Stroke{Color: c, MM: mm}})
	}
	const apart = 1.6
	for k, x := 0, x0+1; x < x1-1; k, x = k+1, x+apart {
		lean := 1.4 * math.Sin(float64(k)*2.4)
		blade(x, 0, c.CutMM, lean, Green, 0.45)
		if c.AtMM > c.CutMM {
			blade(x, c.CutMM, c.AtMM, lean, tint(Green, 0.4), 0.25)
		}
	}
}
