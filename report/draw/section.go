package draw

import (
	"cmp"
	"slices"
	"strings"

	"swardwright/internal/told"
	"swardwright/report/face"
	"swardwright/report/say"
	"swardwright/sowing/bed"
)

// Ground is the ground in section.
type Ground struct {
	Found, Wanted []bed.Layer // from the top
	PavingLeastMM float64     // finished level under the paving beside it, from …
	PavingMostMM  float64     // … to; 0: no paving drawn
	BelowDampMM   float64     // and under the damp-proof course of a wall; 0: no wall drawn
}

// layerLooks tell the kinds of layer apart.
var layerLooks = map[bed.LayerKind]look{
	bed.Topsoil:   {"#cbb79c", Falling},
	bed.Subsoil:   {tint(Vermillion, 0.3), Rising},
	bed.Loosened:  {tint(Vermillion, 0.3), Rising},
	bed.Rootzone:  {tint(Orange, 0.35), Dotted},
	bed.Gravel:    {"#d9d9d6", Crossed},
	bed.Formation: {"#d8cbb8", Level},
	bed.Dressing:  {tint(Yellow, 0.45), Dotted},
	bed.Deck:      {"#d9d9d6", Level},
}

// pavingMM is how far the paving is drawn over the finished level.
func (g Ground) pavingMM() float64 {
	return (g.PavingLeastMM + g.PavingMostMM) / 2
}

// What a section shows of things that have no depth of their own, mm of ground.
const (
	openEnd = 60  // of a layer that goes on downwards
	slabMM  = 50  // a paving slab
	wallMM  = 40  // of wall over the damp-proof course
	leastMM = 100 // that a section is deep
)

// groundSection is the ground as found beside the ground as wanted, to one scale of
// depth, the wanted one with its finished level against paving and damp-proof course;
// nil where nothing is to be made.
func groundSection(g Ground, f *say.Sayer, w, h float64) *Drawing {
	if len(g.Wanted) == 0 {
		return nil
	}
	deep := max(depthOf(g.Wanted), depthOf(g.Found), leastMM)
	over := 0.0
	if g.BelowDampMM > 0 {
		over = g.BelowDampMM + wallMM
	}
	d := &Drawing{Name: "ground", Title: f.Say(told.Say("draw.section")), W: w}
	const head = 6.0
	depthH := min(max(0.55*h, 44), 64)
	perMM := depthH / (deep + max(over, 20))
	top := head + max(over, 20)*perMM
	widths, apart := [2]float64{w, w}, 0.0
	if w >= 120 && len(g.Found) > 0 {
		apart = 4
		widths = [2]float64{0.42 * (w - apart), 0.58 * (w - apart)} // what is wanted has more to say
	}
	at, low := 0.0, 0.0
	for i, part := range []struct {
		title  string
		layers []bed.Layer
		Ground
	}{{f.Say(told.Say("draw.as-found")), g.Found, Ground{}}, {f.Say(told.Say("draw.as-wanted")), g.Wanted, g}} {
		if len(part.layers) == 0 {
			continue
		}
		each := widths[i]
		c := column{Drawing: &Drawing{W: each}, f: f, perMM: perMM, top: top}
		if i == 0 && apart == 0 {
			c.top = head + 20*perMM
		}
		c.title(part.title)
		c.axis(deep)
		c.build(part.layers, part.Ground, i == 1)
		d.add(Group{DX: at, DY: low, Items: c.Items})
		d.H = max(d.H, low+c.H)
		if apart > 0 {
			at += each + apart
		} else {
			low += c.H + 4
		}
	}
	var words []told.Source
	for _, l := range g.Wanted {
		words = append(words, told.Source(strings.TrimSpace(thick(f, l)+" "+f.Figure(l.Kind.Told()))))
	}
	d.Desc = f.Say(told.Say("draw.section-desc", told.Joined(told.Commas, words...)))
	return d
}

func depthOf(layers []bed.Layer) (mm float64) {
	for _, l := range layers {
		if l.DepthMM > 0 {
			mm += l.DepthMM
		} else {
			mm += openEnd
		}
	}
	return mm
}

func thick(f *say.Sayer, l bed.Layer) string {
	if l.DepthMM <= 0 {
		return ""
	}
	return f.Figure(told.DepthMM(l.DepthMM))
}

// column is one section with its words beside it.
type column struct {
	*Drawing
	f          *say.Sayer
	perMM, top float64
	foot       float64 // of the scale of depth
}

const (
	axisW = 15.0
	soilW = 26.0
)

func (c *column) title(s string) { c.add(bold(0, 3, s, small, Start)) }

func (c *column) axis(deep float64) {
	unit := 1.0
	if c.f.US() {
		unit = 25.4
	}
	step := niceStep(deep/unit, 6) * unit
	for at := 0.0; at <= deep+1; at += step {
		y := c.top + at*c.perMM
		c.add(line(axisW-1.5, y, axisW, y, Ink, 0.2), quiet(axisW-2, y+middle(small), c.f.Figure(told.DepthMM(at)), small, End))
	}
	c.foot = c.top + deep*c.perMM + 1
	c.add(line(axisW, c.top, axisW, c.foot-1, Ink, 0.2))
}

// sideNote is what stands beside the column, with a leader to the thing it names.
type sideNote struct {
	bold, plain []string
	to          Point
}

// build draws the layers with what stands beside them, and their words.
func (c *column) build(layers []bed.Layer, g Ground, sown bool) {
	wallW, slabW := 0.0, 0.0
	if g.BelowDampMM > 0 {
		wallW = 7
	}
	if g.PavingMostMM > 0 {
		slabW = 10
	}
	x := axisW + 2 + wallW
	words := x + soilW + slabW + 4
	note := func(title, said string, to Point) sideNote {
		wrap := func(s string, w face.Weight) []string {
			if s == "" {
				return nil
			}
			return face.Wrap(s, w, small, c.W-words)
		}
		return sideNote{wrap(title, face.Bold), wrap(said, face.Regular), to}
	}
	var notes []sideNote
	if wallW > 0 {
		to := c.wall(Box{x - wallW, c.top - (g.BelowDampMM+wallMM)*c.perMM, wallW, (g.BelowDampMM + wallMM + depthOf(layers)) * c.perMM}, g)
		notes = append(notes, note(c.f.Say(told.Say("draw.damp-proof")), c.f.Say(told.Say("draw.below-damp", told.DepthMM(g.BelowDampMM))), to))
	}
	if slabW > 0 {
		slab := Box{x + soilW, c.top - g.pavingMM()*c.perMM, slabW, slabMM * c.perMM}
		c.add(filled(slab.Corners(), "#e9e9e6", Upright)...)
		c.add(frame(slab, Ink, 0.3))
		said := told.Say("draw.below-paving", told.Between(told.DepthMM(g.PavingLeastMM), told.DepthMM(g.PavingMostMM)))
		notes = append(notes, note(c.f.Say(told.Say("draw.paving")), c.f.Say(said), Point{slab.X + slab.W, slab.Y + slab.H/3}))
	}
	if sown {
		for k := range 13 {
			gx := x + (float64(k)+0.5)*soilW/13
			c.add(line(gx, c.top, gx-0.7, c.top-2.4, Green, 0.35), line(gx, c.top, gx+0.5, c.top-3, Green, 0.35))
		}
	}
	y := c.top
	for _, l := range layers {
		b := Box{x, y, soilW, depthOf([]bed.Layer{l}) * c.perMM}
		c.layer(l, b)
		title := say.Capital(c.f.Figure(l.Kind.Told()))
		if t := thick(c.f, l); t != "" {
			title += ", " + t
		}
		to := Point{x + soilW, y + min(b.H/2, 3)}
		if slabW > 0 && to.Y < c.top+(slabMM-g.pavingMM())*c.perMM {
			to.X += slabW // the leader runs from beyond the slab
		}
		notes = append(notes, note(title, c.f.Say(l.Note), to))
		y += b.H
	}
	c.notes(notes, words, c.top+depthOf(layers)*c.perMM)
}

// wall draws a wall with its damp-proof course, and gives the point that a note leads to.
func (c *column) wall(b Box, g Ground) Point {
	c.add(filled(b.Corners(), wallFill, Level)...)
	c.add(frame(b, Ink, 0.25))
	x, y := b.X+b.W, c.top-g.BelowDampMM*c.perMM
	c.add(line(b.X-0.8, y, x+1.6, y, Ink, 0.9))
	m := x + 4.0
	c.add(line(m, y, m, c.top-0.2, Quiet, 0.15), line(m-0.7, y, m+0.7, y, Quiet, 0.2), line(m-0.7, c.top-0.2, m+0.7, c.top-0.2, Quiet, 0.2))
	return Point{x + 1.6, y}
}

// layer draws one layer, open below where it goes on downwards.
func (c *column) layer(l bed.Layer, b Box) {
	lk := layerLooks[l.Kind]
	c.add(filled(b.Corners(), lk.fill, lk.pattern)...)
	if l.DepthMM > 0 {
		c.add(frame(b, Ink, 0.25))
		return
	}
	c.add(line(b.X, b.Y, b.X, b.Y+b.H, Ink, 0.25), line(b.X+b.W, b.Y, b.X+b.W, b.Y+b.H, Ink, 0.25), Line{Points: torn(Point{b.X, b.Y + b.H}, Point{b.X + b.W, b.Y + b.H}), Stroke: Stroke{Color: Ink, MM: 0.25}})
}

// notes sets the notes out at x, each as near its thing as the others let it.
func (c *column) notes(notes []sideNote, x, bottom float64) {
	slices.SortStableFunc(notes, func(a, b sideNote) int { return cmp.Compare(a.to.Y, b.to.Y) })
	const step = 3.7
	high := func(n sideNote) float64 { return float64(len(n.bold)+len(n.plain)) * step }
	tops := spread(len(notes), func(i int) (float64, float64) {
		h := high(notes[i]) + 1.2
		return notes[i].to.Y + h/2 - 2, h
	}, 4, max(bottom, c.top+40))
	c.H = max(bottom, c.foot) + 1
	for i, n := range notes {
		mid := tops[i] + 1.8
		c.add(Line{Points: []Point{n.to, {x - 2, mid}, {x - 0.6, mid}}, Stroke: Stroke{Color: Quiet, MM: 0.15}})
		for k, s := range append(n.bold, n.plain...) {
			t := text(x, mid+middle(small)+float64(k)*step, s, small, Start)
			if k < len(n.bold) {
				t.Weight = face.Bold
			}
			c.add(t)
		}
		c.H = max(c.H, tops[i]+high(n)+1)
	}
}
