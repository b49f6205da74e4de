package draw

import (
	"fmt"
	"math"

	"swardwright/internal/steady"
	"swardwright/internal/told"
	"swardwright/report/face"
	"swardwright/report/say"
	"swardwright/site/light"
)

const (
	legendMin  = 52.0  // width of a legend beside a plan, mm, at least …
	legendGap  = 5.0   // … and how far it stands from it
	legendMaxH = 215.0 // how far down a drawing goes, so that it fits a page, mm
	small      = 8.0   // type of labels and legends, pt
	letterPT   = 14.0  // of the letters of zones
	dimMargin  = 10.0  // around a lawn that is dimensioned, mm
	keyMargin  = 3.0   // around one that is not
)

// sitePlan is the lawn to scale with its zones and what becomes of each, the lengths of
// its sides, every wall and tree around it (far ones beyond a broken line), north and
// a scale bar; nil without an outline.
func sitePlan(s Site, f *say.Sayer, w, h float64) *Drawing {
	p := newPlot(s, f, w, h, dimMargin, survey)
	if p == nil {
		return nil
	}
	d := &Drawing{Name: "plan", Title: f.Say(told.Say("draw.plan")), W: w}
	place := p.ground(d, s, letterPT)
	p.dimensions(d, f, place)
	numbered := p.names(d, f, place, true)
	entries := zoneEntries(s, f)
	for _, o := range p.around {
		if numbered[o.number] {
			entries = append(entries, entry{key: fmt.Sprint(o.number), round: true, text: obstacleText(o, f)})
		}
	}
	p.key(d, s, f, entries)
	d.Desc = planWords(s, f, p)
	return d
}

// keyPlan is the same small and without words beside it: for the head of a page.
func keyPlan(s Site, f *say.Sayer, w, h float64) *Drawing {
	p := newPlot(s, f, w, h, keyMargin, sketch)
	if p == nil {
		return nil
	}
	d := &Drawing{Name: "key-plan", Title: f.Say(told.Say("draw.key-plan")), W: p.all.W, H: p.all.H}
	place := p.ground(d, s, 10)
	p.names(d, f, place, false)
	d.Desc = planWords(s, f, p)
	return d
}

// settingOut is the plan for those who mark the lawn out: its corners numbered, the
// lengths of its sides and two checks across, and which way it falls.
func settingOut(s Site, f *say.Sayer, w, h float64) *Drawing {
	p := newPlot(s, f, w, h, dimMargin+3, survey)
	if p == nil {
		return nil
	}
	d := &Drawing{Name: "setting-out", Title: f.Say(told.Say("draw.setting-out")), W: w}
	place := p.ground(d, s, 0)
	p.corners(d, place)
	across := p.checks(d, s, place)
	p.fall(d, s, f, place)
	for _, c := range across {
		d.along(place, c, f)
	}
	p.dimensions(d, f, place)
	p.names(d, f, place, false)
	p.key(d, s, f, nil)
	d.Desc = f.Say(told.Say("draw.setting-out-desc"))
	return d
}

func planWords(s Site, f *say.Sayer, p *plot) string {
	var zones []told.Sentence
	for _, z := range s.Zones {
		zones = append(zones, told.Say("draw.zone-desc", told.Zone(z.Letter), told.Verbatim(z.Name), told.AreaM2(z.AreaM2), told.Source(z.Word)))
	}
	var walls []told.Source
	for _, o := range p.around {
		walls = append(walls, told.Source(obstacleText(o, f)))
	}
	if len(walls) == 0 {
		return f.Say(told.Say("draw.plan-desc", told.Joined(told.Clauses, zones...)))
	}
	return f.Say(told.Say("draw.plan-walls-desc", told.Joined(told.Clauses, zones...), told.Joined(told.Clauses, walls...)))
}

// ground draws the lawn with its zones, their letters of size pt (0: no zones), and what
// stands around it, and gives back the room that is left for labels.
func (p *plot) ground(d *Drawing, s Site, pt float64) *placer {
	g := newGrid(s.Field)
	of := func(c light.Cell) int { return c.Zone }
	under := Group{Clip: p.view.Corners()}
	if pt > 0 {
		under.Items = append(under.Items, p.zones(s, g, of)...)
	} else {
		for _, part := range p.lawn {
			under.Items = append(under.Items, Area{Points: part, Fill: zoneLook(0, true).fill})
		}
	}
	for _, part := range p.lawn {
		under.Items = append(under.Items, Area{Points: part, Outline: Stroke{Color: Ink, MM: 0.5}})
	}
	place := &placer{view: p.all}
	for _, part := range p.lawn {
		place.keepOff(part)
	}
	for _, o := range p.around {
		if !o.far {
			under.Items = append(under.Items, p.obstacle(o)...)
			place.keepOff(clipped(p.shape(o), p.view))
		}
	}
	d.add(under)
	for _, o := range p.around {
		p.tear(d, o)
	}
	if pt > 0 {
		p.letters(d, s, g, of, place, pt)
	}
	return place
}

// zones fills the lawn: each zone over the lighter ones, in its tone and pattern.
func (p *plot) zones(s Site, g *grid, of func(light.Cell) int) []Item {
	if len(s.Zones) == 0 {
		return nil
	}
	levels := g.levels(of)
	loops := make([][][]Point, len(s.Zones)+1) // of the zones from k on
	for k := 1; k < len(s.Zones); k++ {
		for _, l := range g.contour(levels, k) {
			loops[k] = append(loops[k], p.outline(l))
		}
	}
	var out []Item
	for _, part := range p.lawn {
		cut := Group{Clip: part}
		loops[0] = [][]Point{part}
		for k, z := range s.Zones {
			if len(loops[k]) == 0 {
				continue
			}
			l := zoneLook(k, z.Grass)
			cut.Items = append(cut.Items, Area{Points: loops[k][0], More: loops[k][1:], Fill: l.fill})
			cut.Items = append(cut.Items, hatched(append(loops[k][:len(loops[k]):len(loops[k])], loops[k+1]...), l.pattern)...)
		}
		for _, ls := range loops[1:] {
			for _, l := range ls {
				cut.Items = append(cut.Items, Area{Points: l, Outline: Stroke{Color: Ink, MM: 0.2, Dash: []float64{1, 0.7}}})
			}
		}
		out = append(out, cut)
	}
	return out
}

// letters sets each zone's letter, with a word of what becomes of it where there is
// room, else beside the lawn with a leader.
func (p *plot) letters(d *Drawing, s Site, g *grid, of func(light.Cell) int, place *placer, pt float64) {
	for k, z := range s.Zones {
		spot, side := g.widest(k, of)
		if len(g.spots) == 0 {
			if k > 0 {
				continue
			}
			spot, side = p.inLawn(g), (p.max.X-p.min.X)/3
		}
		if side == 0 {
			continue
		}
		c := p.at(spot)
		letter := Text{S: z.Letter, PT: pt, Weight: face.Bold, Color: Ink}
		word := Text{S: z.Word, PT: small, Color: Ink}
		w := max(face.Width(letter.S, letter.Weight, pt), face.Width(word.S, word.Weight, small)) + 1.4
		tall := pt * face.CapHeight * face.MMPerPoint
		h := tall + 6
		room := func(w, h float64) func(light.Point) bool {
			return func(q light.Point) bool {
				m := p.at(q)
				return place.free(Box{m.X - w/2, m.Y - h/2, w, h}.Corners())
			}
		}
		if at, ok := g.roomFor(spot, (w+1)/p.perM, (h+1)/p.perM, k, of, room(w, h)); z.Word != "" && ok {
			c = p.at(at)
			box := Box{c.X - w/2, c.Y - h/2, w, h}
			l, wd := centred(letter, Point{c.X, box.Y + 0.8 + tall/2}), centred(word, Point{c.X, box.Y + tall + 3.4})
			l.Of, wd.Of = box.Corners(), box.Corners()
			place.take(box)
			d.add(Area{Points: rounded(box, 1.5), Fill: zoneLook(k, z.Grass).fill}, l, wd)
			continue
		}
		// On its zone where that has room around the letter, else beside the lawn.
		own := plate{fill: zoneLook(k, z.Grass).fill}
		w, h = 1.5*(face.Width(letter.S, letter.Weight, pt)+1), 1.5*(tall+1)
		if at, ok := g.roomFor(spot, w/p.perM, h/p.perM, k, of, room(w, h)); ok {
			c = p.at(at)
			d.set(place, centred(letter, c), own, Box{c.X - w/2, c.Y - h/2, w, h}.Corners())
			continue
		}
		d.beside(place, letter, bare, p.lawn, c)
	}
}

// inLawn is a place well inside the lawn.
func (p *plot) inLawn(g *grid) light.Point {
	if at, side := g.widest(0, func(light.Cell) int { return 0 }); side > 0 {
		return at
	}
	return p.back(mean(p.lawn[0]))
}

// shape is the outline of an obstacle on the drawing.
func (p *plot) shape(o standing) []Point {
	if o.Kind == light.Tree {
		return circle(p.at(o.At), max(o.CrownM/2*p.perM, 0.8))
	}
	return p.outline(o.Footprint)
}

const wallFill Color = "#d2d2ce"

// fill is the ground of a thing on plans and sections.
func (o standing) fill() Color {
	switch o.Kind {
	case light.Tree:
		return tint(Green, 0.2)
	case light.Screen:
		return White
	}
	return wallFill
}

// obstacle draws one obstacle by its kind: roofs grey, a ridge on a gable, screens
// hatched, crowns round with their stem, dashed where the leaves fall.
func (p *plot) obstacle(o standing) []Item {
	edge := Stroke{Color: Ink, MM: 0.25}
	pts := p.shape(o)
	switch o.Kind {
	case light.Tree:
		crown := Area{Points: pts, Outline: edge}
		if o.Leaf != light.Evergreen {
			crown.Outline.Dash = []float64{1.2, 0.6}
		}
		return []Item{crown, Area{Points: circle(p.at(o.At), min(0.6, bounds(pts).W/4)), Fill: Ink}}
	case light.Screen:
		return append(filled(pts, White, Rising), Area{Points: pts, Outline: Stroke{Color: Ink, MM: 0.4}})
	}
	items := []Item{Area{Points: pts, Fill: wallFill, Outline: edge}}
	if o.Kind == light.Gable && len(pts) == 4 {
		a, b := mean(pts[0:2]), mean(pts[2:4])
		c, e := mean(pts[1:3]), mean([]Point{pts[3], pts[0]})
		if distance(a, b) < distance(c, e) {
			a, b = c, e
		}
		items = append(items, Line{Points: []Point{a, b}, Stroke: edge})
	}
	return items
}

// tear gives a building that goes on beyond the view a broken edge, and draws what is
// far beyond a broken line in the strip around it.
func (p *plot) tear(d *Drawing, o standing) {
	edge := Stroke{Color: Ink, MM: 0.25}
	if o.far {
		strip, inner := p.strip(o)
		d.add(Line{Points: torn(inner[0], inner[1]), Stroke: Stroke{Color: Quiet, MM: 0.18}})
		if o.Kind == light.Tree {
			crown := Area{Points: circle(strip.centre(), min(strip.W, strip.H)/2), Outline: edge}
			if o.Leaf != light.Evergreen {
				crown.Outline.Dash = []float64{1.2, 0.6}
			}
			d.add(crown)
			return
		}
		d.add(Area{Points: strip.Corners(), Fill: wallFill, Outline: edge})
		return
	}
	if o.Kind == light.Tree {
		return
	}
	pts := p.shape(o)
	v := p.view
	for _, side := range [][2]Point{
		{{v.X, v.Y}, {v.X + v.W, v.Y}}, {{v.X + v.W, v.Y}, {v.X + v.W, v.Y + v.H}},
		{{v.X + v.W, v.Y + v.H}, {v.X, v.Y + v.H}}, {{v.X, v.Y + v.H}, {v.X, v.Y}},
	} {
		// Turned so that the side lies level, outside above it.
		a, b := side[0], side[1]
		l := distance(a, b)
		ux, uy := (b.X-a.X)/l, (b.Y-a.Y)/l
		turned := make([]Point, len(pts))
		for i, q := range pts {
			turned[i] = Point{(q.X-a.X)*ux + (q.Y-a.Y)*uy, -(q.X-a.X)*uy + (q.Y-a.Y)*ux}
		}
		for cut := crossings(1e-7, turned); len(cut) >= 2; cut = cut[2:] {
			from, to := max(cut[0], 0), min(cut[1], l)
			if to-from < 0.5 {
				continue
			}
			at := func(u, v float64) Point { return Point{a.X + u*ux - v*uy, a.Y + u*uy + v*ux} }
			teeth := torn(at(from, 0), at(to, 0))
			bite := append(append([]Point{}, teeth...), at(to, -0.9), at(from, -0.9))
			d.add(Area{Points: bite, Fill: White}, Line{Points: teeth, Stroke: edge})
		}
	}
}

// strip is where an obstacle that is far is drawn, and the broken line between it and
// the view.
func (p *plot) strip(o standing) (Box, [2]Point) {
	const apart, deep, least = 2.2, 4.6, 7.0
	a, b := p.at(light.Point{X: o.min.X, Y: o.max.Y}), p.at(light.Point{X: o.max.X, Y: o.min.Y})
	along := func(low, high, from, size float64) (float64, float64) {
		low, high = min(max(low, from), from+size-least), min(max(high, from+least), from+size)
		return low, max(high-low, least)
	}
	v := p.view
	switch o.at {
	case above, below:
		x, w := along(a.X, b.X, v.X, v.W)
		y, line := v.Y-apart-deep, v.Y-apart/2
		if o.at == below {
			y, line = v.Y+v.H+apart, v.Y+v.H+apart/2
		}
		return Box{x, y, w, deep}, [2]Point{{x, line}, {x + w, line}}
	default:
		y, h := along(a.Y, b.Y, v.Y, v.H)
		x, line := v.X-apart-deep, v.X-apart/2
		if o.at == right {
			x, line = v.X+v.W+apart, v.X+v.W+apart/2
		}
		return Box{x, y, deep, h}, [2]Point{{line, y}, {line, y + h}}
	}
}

// names writes what stands around the lawn on the plan: its name where it fits into
// it, else a number where there is a legend, and tells which have numbers.
func (p *plot) names(d *Drawing, f *say.Sayer, place *placer, numbers bool) map[int]bool {
	numbered := map[int]bool{}
	for _, o := range p.around {
		shape := clipped(p.shape(o), p.view)
		if o.far {
			strip, _ := p.strip(o)
			shape = strip.Corners()
		}
		if len(shape) == 0 { // hidden by what is nearer, or under the edge
			shape = []Point{p.clamp(mean(p.shape(o)))}
		}
		if o.Kind != light.Tree && d.within(place, shape, p.short(o, f), o.fill()) || !numbers {
			continue
		}
		numbered[o.number] = true
		t := Text{S: fmt.Sprint(o.number), PT: 7, Weight: face.Bold, Color: Ink}
		thing, at := shape, mean(shape)
		if o.Kind == light.Tree && !o.far {
			thing, at = []Point{p.clamp(p.at(o.At))}, p.clamp(p.at(o.At)) // its stem
		}
		d.tag(place, t, ringed, thing, at, 60)
	}
	return numbered
}

// short is what is written on a thing itself: name and height.
func (p *plot) short(o standing, f *say.Sayer) string {
	name := f.Say(o.Called(o.number))
	switch {
	case o.TopM == nil && o.HeightM > 0:
		return f.Say(told.Say("draw.name-height", told.Verbatim(name), told.Source(height(f, o.HeightM))))
	case o.TopM != nil:
		return f.Say(told.Say("draw.name-top", told.Verbatim(name), told.Source(height(f, *o.TopM))))
	}
	return name
}

// within writes a line inside an outline of a colour, level or along its longest side,
// if it fits.
func (d *Drawing) within(place *placer, shape []Point, s string, fill Color) bool {
	if len(shape) < 3 {
		return false
	}
	var turn, longest float64
	sides(shape, func(a, b Point) {
		if l := distance(a, b); l > longest {
			longest, turn = l, reading(a, b)
		}
	})
	w, h := face.Width(s, face.Regular, small), (face.CapHeight+face.Descent)*small*face.MMPerPoint
	room := bounds(shape)
	for _, deg := range []float64{0, turn} {
		if deg == 0 && (w > room.W || h > room.H) || w > longest {
			continue
		}
		for _, at := range around(room.centre(), 0.4*longest) {
			t := centred(Text{S: s, PT: small, Color: Ink, TurnDeg: deg}, at)
			if q := bare.corners(t); inside(shape, q[0]) && inside(shape, q[2]) && place.free(q) && !meet(q, shape) {
				d.set(place, t, plate{fill: fill}, shape)
				return true
			}
		}
		if turn == 0 {
			break
		}
	}
	return false
}

// reading is the turn that lets text along a line be read from below or from the right.
func reading(a, b Point) float64 {
	deg := math.Atan2(a.Y-b.Y, b.X-a.X) * 180 / math.Pi
	if deg > 90+1e-6 {
		deg -= 180
	}
	if deg <= -90+1e-6 {
		deg += 180
	}
	return deg
}

// clamp moves a place outside the view to its nearest edge.
func (p *plot) clamp(q Point) Point {
	v := p.view.inset(1)
	return Point{min(max(q.X, v.X), v.X+v.W), min(max(q.Y, v.Y), v.Y+v.H)}
}

// dimensions writes the length of each side of the lawn beside it.
func (p *plot) dimensions(d *Drawing, f *say.Sayer, place *placer) {
	for _, part := range p.lawn {
		clockwise := areaOf(part) > 0
		for i, a := range part {
			b := part[(i+1)%len(part)]
			l := distance(a, b)
			if l < 0.3 {
				continue
			}
			out := Point{(b.Y - a.Y) / l, (a.X - b.X) / l} // away from the lawn
			if !clockwise {
				out = Point{-out.X, -out.Y}
			}
			d.dimension(place, a, b, out, Metre(f, l/p.perM))
		}
	}
}

// dimension writes a length along a side: outside it with a dimension line where there
// is room, else inside, else away from it with a leader.
func (d *Drawing) dimension(place *placer, a, b, out Point, s string) {
	l := distance(a, b)
	t := Text{S: s, PT: small, Color: Ink, TurnDeg: reading(a, b)}
	side := []Point{a, b}
	u := Point{(b.X - a.X) / l, (b.Y - a.Y) / l}
	if face.Width(s, face.Regular, small)+1.2 <= l {
		best, lowest, away := Text{}, math.Inf(1), 0.0
		for _, off := range []float64{3.4, -2.6, 5.2, -4.6} {
			for _, shift := range []float64{0, -0.15, 0.15, -0.3, 0.3} {
				c := Point{(a.X+b.X)/2 + out.X*off + u.X*shift*l, (a.Y+b.Y)/2 + out.Y*off + u.Y*shift*l}
				try := centred(t, c)
				q := bare.corners(try)
				cost := steady.Figure(math.Abs(off)/2 + 3*math.Abs(shift) + perLine*place.crossed(q))
				if off < 0 {
					cost += 2
				}
				if cost < lowest && place.free(q) {
					best, lowest, away = try, cost, off
				}
			}
		}
		if !math.IsInf(lowest, 1) {
			if away > 0 {
				off := away - 1.9
				p, q := Point{a.X + out.X*off, a.Y + out.Y*off}, Point{b.X + out.X*off, b.Y + out.Y*off}
				d.add(line(p.X, p.Y, q.X, q.Y, Quiet, 0.15))
				for _, e := range []Point{p, q} {
					d.add(line(e.X-0.6*(u.X-out.X), e.Y-0.6*(u.Y-out.Y), e.X+0.6*(u.X-out.X), e.Y+0.6*(u.Y-out.Y), Quiet, 0.2))
				}
			}
			place.taken = append(place.taken, bare.corners(best))
			best.Of = side
			d.add(best)
			return
		}
	}
	t.TurnDeg = 0
	d.tag(place, t, boxed, side, Point{(a.X+b.X)/2 + 5*out.X, (a.Y+b.Y)/2 + 5*out.Y}, 25)
}

// Metre is a length to the centimetre, or in feet and inches.
func Metre(f *say.Sayer, m float64) string {
	if !f.US() {
		return f.Number(m, 2)
	}
	inches := int(steady.Round(m/0.0254, 0))
	return fmt.Sprintf("%s′ %d″", f.Number(float64(inches/12), 0), inches%12)
}

// Corner is a corner of the lawn, as it is numbered on the plan for setting out.
type Corner struct {
	Number int
	At     light.Point // m
	SideM  float64     // to the next of its part
	BelowM float64     // under the highest corner, by the lawn's slope
}

// Corners are the corners of the lawn through all its parts.
func (s Site) Corners() []Corner {
	fall := math.Tan(s.SlopeDeg * math.Pi / 180)
	sin, cos := math.Sincos((s.AspectDeg - s.NorthDeg) * math.Pi / 180)
	var out []Corner
	highest := math.Inf(-1)
	for _, part := range s.Lawn {
		for i, q := range part {
			next := part[(i+1)%len(part)]
			height := -fall * (q.X*sin + q.Y*cos)
			highest = max(highest, height)
			out = append(out, Corner{len(out) + 1, q, math.Hypot(next.X-q.X, next.Y-q.Y), -height})
		}
	}
	for i := range out {
		out[i].BelowM += highest
	}
	return out
}

// corners numbers the corners of the lawn through all its parts.
func (p *plot) corners(d *Drawing, place *placer) {
	n := 0
	for _, part := range p.lawn {
		for i, c := range part {
			n++
			a, b := part[(i+len(part)-1)%len(part)], part[(i+1)%len(part)]
			la, lb := max(distance(a, c), 1e-9), max(distance(b, c), 1e-9)
			// Away from both sides.
			away := Point{(c.X-a.X)/la + (c.X-b.X)/lb, (c.Y-a.Y)/la + (c.Y-b.Y)/lb}
			if inside(part, Point{c.X + 0.01*away.X, c.Y + 0.01*away.Y}) {
				away = Point{-away.X, -away.Y}
			}
			l := max(math.Hypot(away.X, away.Y), 1e-9)
			t := Text{S: fmt.Sprint(n), PT: 7, Weight: face.Bold, Color: Ink}
			d.add(Area{Points: circle(c, 0.7), Fill: Ink})
			d.tag(place, t, bare, []Point{c}, Point{c.X + 3*away.X/l, c.Y + 3*away.Y/l}, 20)
		}
	}
}

// check is a length across the lawn, to compare with the tape.
type check struct {
	a, b Point
	m    float64
}

// checks draws two lengths across each part, before what is written on them.
func (p *plot) checks(d *Drawing, s Site, place *placer) (out []check) {
	for i, part := range p.lawn {
		for _, pair := range diagonals(part) {
			a, b := part[pair[0]], part[pair[1]]
			from, to := s.Lawn[i][pair[0]], s.Lawn[i][pair[1]]
			d.add(line(a.X, a.Y, b.X, b.Y, Quiet, 0.2, 2, 1))
			place.lines = append(place.lines, [2]Point{a, b})
			out = append(out, check{a, b, math.Hypot(to.X-from.X, to.Y-from.Y)})
		}
	}
	return out
}

// along writes a length along its line, where nothing crosses it.
func (d *Drawing) along(place *placer, c check, f *say.Sayer) {
	t := Text{S: Metre(f, c.m), PT: small, Color: Ink, TurnDeg: reading(c.a, c.b)}
	u := Point{(c.b.X - c.a.X) / distance(c.a, c.b), (c.b.Y - c.a.Y) / distance(c.a, c.b)}
	for _, at := range []float64{0.3, 0.7, 0.4, 0.6, 0.2, 0.8} {
		for _, off := range []float64{2, -2} {
			try := centred(t, Point{c.a.X + at*(c.b.X-c.a.X) - off*u.Y, c.a.Y + at*(c.b.Y-c.a.Y) + off*u.X})
			if q := bare.corners(try); place.free(q) && place.crossed(q) == 0 {
				d.set(place, try, bare, []Point{c.a, c.b})
				return
			}
		}
	}
}

// diagonals are the two longest lines between corners that run inside an outline.
func diagonals(part []Point) [][2]int {
	var out [][2]int
	for len(out) < 2 {
		best, longest := [2]int{}, 0.0
		for i := range part {
			for j := i + 2; j < len(part); j++ {
				if i == 0 && j == len(part)-1 {
					continue
				}
				a, b := part[i], part[j]
				if l := distance(a, b); l <= longest || meet([]Point{a, b}, part) || !inside(part, Point{(a.X + b.X) / 2, (a.Y + b.Y) / 2}) {
					continue
				}
				if len(out) == 1 && (out[0] == [2]int{i, j} || !cross(a, b, part[out[0][0]], part[out[0][1]])) {
					continue
				}
				best, longest = [2]int{i, j}, distance(a, b)
			}
		}
		if longest == 0 {
			break
		}
		out = append(out, best)
	}
	return out
}

// fall draws the arrow down the slope.
func (p *plot) fall(d *Drawing, s Site, f *say.Sayer, place *placer) {
	if !(s.SlopeDeg > 0) {
		return
	}
	sin, cos := math.Sincos((s.AspectDeg - s.NorthDeg) * math.Pi / 180)
	c := p.at(p.inLawn(newGrid(s.Field)))
	const long = 7.0
	tip := Point{c.X + long*sin, c.Y - long*cos}
	tail := Point{c.X - long*sin, c.Y + long*cos}
	head := func(along, across float64) Point {
		return Point{tip.X - along*sin + across*cos, tip.Y + along*cos + across*sin}
	}
	d.add(line(tail.X, tail.Y, tip.X, tip.Y, Ink, 0.4), Area{Points: []Point{tip, head(2.6, 1.1), head(2.6, -1.1)}, Fill: Ink})
	place.lines = append(place.lines, [2]Point{tail, tip})
	d.tag(place, Text{S: f.Say(told.Say("draw.falls", told.OneIn(math.Tan(s.SlopeDeg*math.Pi/180)))), PT: small, Color: Ink}, boxed, []Point{tail, tip}, Point{c.X + 5*cos, c.Y + 5*sin}, 25)
}

// height is how high a thing is, as one would say it.
func height(f *say.Sayer, m float64) string {
	unit := "m"
	if f.US() {
		m, unit = m/0.3048, "ft"
	}
	if m >= 9.95 && f.US() {
		m = steady.Round(m, 0)
	}
	return f.Figures(steady.Round(m, 1), 3) + "\u00a0" + unit
}

// obstacleText is an obstacle in a legend.
func obstacleText(o standing, f *say.Sayer) string {
	parts := []told.Figure{o.Called(o.number)}
	switch {
	case o.TopM != nil:
		parts = append(parts, told.Say("draw.top-at", told.Source(height(f, *o.TopM))))
	case o.HeightM > 0:
		parts = append(parts, told.Say("draw.high", told.Source(height(f, o.HeightM))))
	}
	if o.Kind == light.Tree && o.Leaf != "" {
		parts = append(parts, told.Term{Kind: "leaf", Word: string(o.Leaf)})
	}
	if o.far {
		parts = append(parts, told.Say("draw.away", told.Source(height(f, o.offM))))
	}
	return f.Figure(told.Joined(told.Commas, parts...))
}

func zoneEntries(s Site, f *say.Sayer) []entry {
	var out []entry
	for i, z := range s.Zones {
		text := told.Say("draw.zone-entry", told.Verbatim(z.Name), told.AreaM2(z.AreaM2), told.Share(z.Share), told.Source(z.Note))
		l := zoneLook(i, z.Grass)
		out = append(out, entry{key: z.Letter, look: &l, text: f.Say(text)})
	}
	return out
}

// marks draws the scale bar and north in a strip from x, y on, room wide, and tells
// where it ends.
func (p *plot) marks(d *Drawing, s Site, f *say.Sayer, x, y, room float64) float64 {
	unit, name := 1.0, "m"
	if f.US() {
		unit, name = 0.3048, "ft"
	}
	// Two parts of 1, 2 or 5 times a power of ten, as long as there is room for.
	most := min((room-26)/2, 30) / p.perM / unit
	length := math.Pow(10, math.Floor(math.Log10(most)))
	for _, times := range []float64{5, 2} {
		if length*times <= most {
			length *= times
			break
		}
	}
	w := length * unit * p.perM
	y += 4.5
	bar := x + 1
	d.add(rect(Box{bar, y, w, 1.2}, Ink), frame(Box{bar, y, 2 * w, 1.2}, Ink, 0.2),
		text(bar, y-1.2, "0", small, Middle), text(bar+2*w, y-1.2, f.Figures(2*length, 3)+" "+name, small, Middle))
	if label := f.Figures(length, 3); 0.7*face.Width(label, face.Regular, small)+6 < w && math.Abs(bar+w-(x+room-8)) > 7 { // clear of the north
		d.add(text(bar+w, y-1.2, label, small, Middle))
	}
	scale := told.Say("draw.scale", told.Source(p.scale))
	if p.scale == "" {
		scale = told.Say("draw.no-scale")
	}
	d.add(quiet(x, y+5, f.Say(scale), small, Start))

	// North: the plan's y axis points to bearing NorthDeg.
	sin, cos := math.Sincos(s.NorthDeg * math.Pi / 180)
	c := Point{x + room - 8, y + 0.5}
	north := func(along, across float64) Point {
		return Point{c.X - sin*along + cos*across, c.Y - cos*along - sin*across}
	}
	n := north(5, 0)
	d.add(Area{Points: []Point{north(3.2, 0), north(-4, 1.7), north(-2.6, 0), north(-4, -1.7)}, Fill: Ink},
		bold(n.X, n.Y+middle(7), f.Say(told.Say("draw.north")), 7, Middle))
	return y + 7.5
}

// key sets scale, north and the legend beside the plan where there is room, else below.
func (p *plot) key(d *Drawing, s Site, f *say.Sayer, entries []entry) {
	x, y := 0.0, p.all.H+2.5
	if p.beside(d) {
		x, y = p.all.W+legendGap, 2.5
	}
	p.legend(d, f, p.marks(d, s, f, x, y, d.W-x)+1.5, entries)
}

// beside says whether a legend has room beside the plan.
func (p *plot) beside(d *Drawing) bool { return d.W-p.all.W-legendGap >= legendMin-1e-6 }

// entry is one line of a legend.
type entry struct {
	key   string
	look  *look
	round bool
	text  string
}

// legend sets the entries from y down: beside the plan where there is room, going on
// below it in columns where they are many. It fixes the drawing's height.
func (p *plot) legend(d *Drawing, f *say.Sayer, y float64, entries []entry) {
	const keyW, gap, apart = 6.5, 1.0, 4.0
	end := max(y, p.all.H)
	if p.beside(d) {
		x := p.all.W + legendGap
		for len(entries) > 0 {
			items, h := entries[0].set(d.W - x - keyW)
			if y+h > max(p.all.H, 80) {
				break
			}
			d.add(Group{DX: x, DY: y, Items: items})
			y += h + gap
			end = max(end, y)
			entries = entries[1:]
		}
		y = end + 2
	}
	columns := max(min(int((d.W+apart)/(48+apart)), 3), 1)
	width := (d.W-apart*float64(columns-1))/float64(columns) - keyW
	for len(entries) > 0 {
		if y > legendMaxH {
			d.add(quiet(0, end+4, f.Say(told.Say("draw.more", told.Count(len(entries)))), small, Start))
			end += 5
			break
		}
		row := 0.0
		for k := range min(columns, len(entries)) {
			items, h := entries[k].set(width)
			d.add(Group{DX: float64(k) * (width + keyW + apart), DY: y, Items: items})
			row = max(row, h)
		}
		entries = entries[min(columns, len(entries)):]
		y += row + gap
		end = y
	}
	d.H = end + 0.5
}

// set lays an entry out, its text width millimetres wide, with its height.
func (e entry) set(width float64) ([]Item, float64) {
	const keyW, keyMid = 6.5, 1.6
	var items []Item
	switch {
	case e.look != nil:
		b := Box{0, -0.2, 4.6, 3.8}
		items = patch(b, *e.look)
		if e.key != "" {
			items = append(items, rect(Box{1.1, 0.1, 2.4, 3.1}, White), bold(2.3, keyMid+middle(small), e.key, small, Middle))
		}
	case e.round:
		items = append(items, Area{Points: circle(Point{2.2, keyMid}, 2), Outline: Stroke{Color: Ink, MM: 0.2}}, bold(2.2, keyMid+middle(7), e.key, 7, Middle))
	case e.key != "":
		items = append(items, bold(2.2, keyMid+middle(small), e.key, small, Middle))
	}
	lines, h := block(keyW, 0.2, width, e.text, small, face.Regular, Ink)
	return append(items, lines...), max(h, 4.2)
}
