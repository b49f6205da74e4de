package draw

import (
	"cmp"
	"math"
	"slices"

	"swardwright/internal/told"
	"swardwright/report/face"
	"swardwright/report/say"
	"swardwright/site/light"
	"swardwright/site/sun"
)

// The days whose noon sun a section shows: day of the year.
const (
	juneSolstice, decemberSolstice = 172, 355
	equinox                        = 80
)

// profile is what a plane upright through the lawn cuts of one thing: tops and bottoms
// over t, metres along the line towards the noon sun.
type profile struct {
	standing
	t      []float64
	top    []float64 // above the datum, m
	bottom []float64
}

// cut is the plane: a point on it, the direction of the noon sun on the plan, and what
// it cuts.
type cut struct {
	lawn   [][2]float64 // runs of the lawn, in t
	things []profile
	ground func(t float64) float64
}

// sunSection is an upright section through the lawn towards the noon sun, to scale,
// with the sun of midsummer and of the equinox at noon and how far each leaves the
// lawn in shade. It goes where the shade at the equinox is deepest. It is nil where
// nothing on that line shades the lawn, and in the tropics, where the noon sun of
// midsummer stands on the other side.
func sunSection(s Site, f *say.Sayer, w float64) *Drawing {
	summer, spring := noonSun(s.LatitudeDeg)
	if len(s.Lawn) == 0 || summer > 90 || spring < 3 {
		return nil
	}
	c, ok := s.deepest(spring)
	if !ok {
		return nil
	}
	return c.draw(f, w, summer, spring)
}

// noonSun are the elevations of the noon sun at midsummer and at the equinox, degrees;
// over 90 it stands beyond the zenith.
func noonSun(latitudeDeg float64) (summer, spring float64) {
	day, hemisphere := float64(juneSolstice), 1.0
	if latitudeDeg < 0 {
		day, hemisphere = decemberSolstice, -1
	}
	at := func(day float64) float64 { return 90 - math.Abs(latitudeDeg) + hemisphere*sun.DeclinationDeg(day) }
	return at(day), at(equinox)
}

// deepest is the section, of eleven across the lawn, in which most of the lawn lies in
// the shade of the equinox noon.
func (s Site) deepest(elevation float64) (cut, bool) {
	sunward := 180.0 - s.NorthDeg
	if s.LatitudeDeg < 0 {
		sunward += 180
	}
	sin, cos := math.Sincos(sunward * math.Pi / 180)
	low, high := math.Inf(1), math.Inf(-1)
	for _, part := range s.Lawn {
		for _, q := range part {
			v := q.X*cos - q.Y*sin
			low, high = min(low, v), max(high, v)
		}
	}
	best, most := cut{}, 0.0
	for i := range 11 {
		v := low + (high-low)*(float64(i)+0.5)/11
		c := s.cutAt(sin, cos, v)
		shade := 0.0
		for _, run := range c.shade(elevation) {
			shade += run[1] - run[0]
		}
		// Of equal ones the nearest to the middle.
		if shade -= 1e-6 * math.Abs(v-(low+high)/2); shade > most+1e-9 {
			best, most = c, shade
		}
	}
	return best, most > 0.2
}

// cutAt cuts lawn and obstacles along the line v, which runs in direction sin, cos.
func (s Site) cutAt(sin, cos, v float64) cut {
	// On the plane t runs along the line, u across it.
	turned := func(ps []light.Point) []Point {
		out := make([]Point, len(ps))
		for i, q := range ps {
			out[i] = Point{q.X*sin + q.Y*cos, q.X*cos - q.Y*sin - v}
		}
		return out
	}
	fall := math.Tan(s.SlopeDeg * math.Pi / 180)
	down, across := math.Sincos((s.AspectDeg - s.NorthDeg) * math.Pi / 180)
	ground := func(q light.Point) float64 { return -fall * (q.X*down + q.Y*across) }
	c := cut{ground: func(t float64) float64 {
		return ground(light.Point{X: t*sin + v*cos, Y: t*cos - v*sin})
	}}
	for _, part := range s.Lawn {
		for at := crossings(1e-7, turned(part)); len(at) >= 2; at = at[2:] {
			c.lawn = append(c.lawn, [2]float64{at[0], at[1]})
		}
	}
	slices.SortFunc(c.lawn, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	for i, o := range s.Obstacles {
		p := profile{standing: standing{Obstacle: o, number: i + 1}}
		if o.Kind == light.Tree {
			at := turned([]light.Point{o.At})[0]
			p.crown(at, ground(o.At))
		} else {
			p.building(turned(o.Footprint), o, ground)
		}
		if len(p.t) > 0 {
			c.things = append(c.things, p)
		}
	}
	return c
}

// crown is an ellipsoid on a clear stem.
func (p *profile) crown(at Point, foot float64) {
	o := p.Obstacle
	r, high := o.CrownM/2, o.HeightM
	if o.TopM != nil {
		high = *o.TopM - foot
	}
	if math.Abs(at.Y) >= r || high <= o.ClearStemM {
		return
	}
	flat := math.Sqrt(1 - at.Y*at.Y/(r*r))
	middle, half := foot+(high+o.ClearStemM)/2, (high-o.ClearStemM)/2*flat
	const steps = 24
	for i := range steps + 1 {
		x := math.Cos(math.Pi * (1 - float64(i)/steps))
		p.t = append(p.t, at.X+x*r*flat)
		p.top = append(p.top, middle+half*math.Sqrt(max(1-x*x, 0)))
		p.bottom = append(p.bottom, middle-half*math.Sqrt(max(1-x*x, 0)))
	}
}

// building is a prism; a gable rises to its ridge.
func (p *profile) building(shape []Point, o light.Obstacle, ground func(light.Point) float64) {
	var mid light.Point
	for _, q := range o.Footprint {
		mid.X += q.X / float64(len(o.Footprint))
		mid.Y += q.Y / float64(len(o.Footprint))
	}
	foot := ground(mid)
	top := foot + o.HeightM
	if o.TopM != nil {
		top = *o.TopM
	}
	at := crossings(1e-7, shape)
	if len(at) < 2 {
		return
	}
	from, to := at[0], at[len(at)-1]
	p.t = []float64{from, to}
	if o.Kind == light.Gable && len(shape) == 4 && o.EavesM > 0 && o.EavesM < o.HeightM {
		a, b := mean(shape[0:2]), mean(shape[2:4])
		c, e := mean(shape[1:3]), mean([]Point{shape[3], shape[0]})
		if distance(a, b) < distance(c, e) {
			a, b = c, e
		}
		n := Point{(b.Y - a.Y) / distance(a, b), (a.X - b.X) / distance(a, b)}
		half := math.Abs((shape[0].X-a.X)*n.X + (shape[0].Y-a.Y)*n.Y)
		eaves := foot + o.EavesM
		roof := func(t float64) float64 {
			off := math.Abs((t-a.X)*n.X + (0-a.Y)*n.Y)
			return top - (top-eaves)*min(off/max(half, 1e-9), 1)
		}
		if math.Abs(n.X) > 1e-9 { // where the plane crosses the ridge
			if ridge := a.X + a.Y*n.Y/n.X; ridge > from && ridge < to {
				p.t = []float64{from, ridge, to}
			}
		}
		for _, t := range p.t {
			p.top = append(p.top, roof(t))
		}
	} else {
		p.top = []float64{top, top}
	}
	for range p.t {
		p.bottom = append(p.bottom, math.Inf(-1))
	}
}

// shaded says whether the noon sun at an elevation is hidden from the ground at t. A
// ray that enters a thing with straight edges passes under its top at a corner.
func (c cut) shaded(t, elevation float64) bool {
	rise, z := math.Tan(elevation*math.Pi/180), c.ground(t)
	for _, p := range c.things {
		for i, at := range p.t {
			if ray := z + (at-t)*rise; at > t && ray < p.top[i] && ray > p.bottom[i] {
				return true
			}
		}
	}
	return false
}

// shade are the runs of the lawn in shade, to five centimetres.
func (c cut) shade(elevation float64) [][2]float64 {
	var out [][2]float64
	for _, run := range c.lawn {
		n := max(min(int((run[1]-run[0])/0.05), 400), 1)
		step := (run[1] - run[0]) / float64(n)
		dark := false
		for i := range n {
			t := run[0] + (float64(i)+0.5)*step
			is := c.shaded(t, elevation)
			if is && !dark {
				out = append(out, [2]float64{t - step/2, t + step/2})
			} else if is {
				out[len(out)-1][1] = t + step/2
			}
			dark = is
		}
	}
	return out
}

// near are the things that a drawing of the section shows: what shades the lawn at the
// equinox, and what stands close to it; with the run that it spans.
func (c cut) near(elevation float64) (things []profile, from, to float64) {
	first, last := c.lawn[0][0], c.lawn[len(c.lawn)-1][1]
	close := 0.35 * (last - first)
	from, to = first-0.05*close, last+0.05*close
	for _, p := range c.things {
		begin, end := p.t[0], p.t[len(p.t)-1]
		one := cut{c.lawn, []profile{p}, c.ground}
		if len(one.shade(elevation)) == 0 && (begin > last+close || end < first-close) {
			continue
		}
		things = append(things, p)
		from, to = min(from, max(begin-0.1, first-close)), max(to, min(end+0.1, max(begin, last)+max(close/2, 1.5)))
	}
	return things, from, to
}

// outline is a thing on the drawing.
func (p profile) outline(x, y, ground func(float64) float64) []Point {
	var out []Point
	for i, t := range p.t {
		out = append(out, Point{x(t), y(p.top[i])})
	}
	for i := len(p.t) - 1; i >= 0; i-- {
		z := p.bottom[i]
		if math.IsInf(z, 0) {
			z = ground(p.t[i])
		}
		out = append(out, Point{x(p.t[i]), y(z)})
	}
	return out
}

// draw lays the section out, the sun on the right.
func (c cut) draw(f *say.Sayer, w, summer, spring float64) *Drawing {
	const margin, maxH, head = 2.0, 68.0, 7.0 // head: above the highest, for names
	d := &Drawing{Name: "sun-section", Title: f.Say(told.Say("draw.noon")), W: w}
	things, from, to := c.near(spring)
	level, deep, high := c.heights(things, from, to)
	perM := min((w-2*margin)/(to-from), (maxH-head)/(high-level))
	x := func(t float64) float64 { return margin + (t-from)*perM }
	y := func(z float64) float64 { return head + (high-z)*perM }
	view := Box{x(from), 0, (to - from) * perM, y(deep) + 3}

	const parts = 20
	soil := make([]Point, parts+1)
	for i := range soil {
		t := from + (to-from)*float64(i)/parts
		soil[i] = Point{x(t), y(c.ground(t))}
	}
	d.add(Area{Points: append(slices.Clone(soil), Point{view.X + view.W, view.H}, Point{view.X, view.H}), Fill: "#e7ddd0"})
	place := &placer{view: Box{0, 0, w, view.H}}
	clip := Group{Clip: view.Corners()}
	shapes := make([][]Point, len(things))
	for i, p := range things {
		outline, items := c.standing(p, x, y, view)
		clip.Items = append(clip.Items, items...)
		shapes[i] = clipped(outline, view)
		place.keepOff(shapes[i])
	}
	d.add(clip, Line{Points: soil, Stroke: Stroke{Color: Ink, MM: 0.3}})
	for _, run := range c.lawn {
		d.add(Line{Points: []Point{{x(run[0]), y(c.ground(run[0]))}, {x(run[1]), y(c.ground(run[1]))}}, Stroke: Stroke{Color: Green, MM: 1}})
	}
	// The words stand beside the section where there is room, else under it.
	foot, words := view.H+2, wording{x: 0, y: view.H + 8.5, w: w}
	if room := w - view.X - view.W - 5; room > 44 {
		words = wording{x: view.X + view.W + 5, y: head, w: room}
	}
	var said []told.Source
	for _, noon := range []struct {
		name      told.Sentence
		elevation float64
		stroke    Stroke
	}{
		{told.Say("draw.midsummer", told.Degrees(summer)), summer, Stroke{Color: Vermillion, MM: 0.4}},
		{told.Say("draw.equinox", told.Degrees(spring)), spring, Stroke{Color: Blue, MM: 0.4, Dash: []float64{2, 0.8}}},
	} {
		s := c.noon(d, place, noon.name, noon.elevation, noon.stroke, f, x, y, view, foot)
		foot += 3
		lines, h := block(8, 0, words.w-8, s, small, face.Regular, Ink)
		d.add(Group{DX: words.x, DY: words.y, Items: append(lines, Line{Points: []Point{{0, 1.8}, {6, 1.8}}, Stroke: noon.stroke})})
		place.take(Box{words.x, words.y, words.w, h})
		words.y += h + 1.5
		said = append(said, told.Source(s))
	}
	for i, p := range things {
		d.nameThing(place, p, shapes[i], f)
	}
	d.H = max(foot+0.5, words.y)
	d.Desc = f.Say(told.Say("draw.noon-desc", told.Joined(told.Clauses, said...)))
	return d
}

// heights are the highest and the lowest ground of the section, and what rises above all.
func (c cut) heights(things []profile, from, to float64) (level, deep, high float64) {
	level, deep = c.ground(from), c.ground(from)
	for _, t := range []float64{c.lawn[0][0], c.lawn[len(c.lawn)-1][1], to} {
		level, deep = max(level, c.ground(t)), min(deep, c.ground(t))
	}
	high = level + 1.0
	for _, p := range things {
		high = max(high, slices.Max(p.top))
	}
	return level, deep, high
}

// standing is the outline of a thing that stands in the section, and how it is drawn.
func (c cut) standing(p profile, x, y func(float64) float64, view Box) (outline []Point, items []Item) {
	outline = p.outline(x, y, c.ground)
	edge := Stroke{Color: Ink, MM: 0.3}
	switch p.Kind {
	case light.Tree:
		if p.Leaf != light.Evergreen {
			edge.Dash = []float64{1.2, 0.6}
		}
		mid := (p.t[0] + p.t[len(p.t)-1]) / 2
		items = append(items, line(x(mid), y(c.ground(mid)), x(mid), y(p.bottom[len(p.t)/2]), Ink, 0.5), Area{Points: outline, Fill: p.fill(), Outline: edge})
	case light.Screen:
		items = append(filled(outline, White, Rising), Area{Points: outline, Outline: edge})
	default:
		items = append(items, Area{Points: outline, Fill: wallFill, Outline: edge})
	}
	b := bounds(outline)
	for _, end := range []float64{view.X, view.X + view.W} {
		if b.X < end-0.1 && b.X+b.W > end+0.1 { // it goes on
			items = append(items, Line{Points: torn(Point{end, b.Y}, Point{end, b.Y + b.H}), Stroke: edge})
		}
	}
	return outline, items
}

// nameThing names a thing within its shape where there is room, else beside it.
func (d *Drawing) nameThing(place *placer, p profile, shape []Point, f *say.Sayer) {
	s := f.Say(p.Called(p.number))
	if p.TopM == nil {
		s = f.Say(told.Say("draw.name-height", told.Verbatim(s), told.Source(height(f, p.HeightM))))
	}
	if len(shape) < 3 || d.within(place, shape, s, p.fill()) {
		return
	}
	t := Text{S: face.Shorten(s, face.Regular, small, d.W/3), PT: small, Color: Ink}
	b, half := bounds(shape), face.Width(t.S, face.Regular, small)/2+1
	d.tag(place, t, boxed, shape, Point{min(max(b.X+b.W/2, half), d.W-half), max(b.Y-2.4, 2)}, 40)
}

// wording is where the next words go.
type wording struct{ x, y, w float64 }

// noon draws the rays that just pass and under the ground, at foot, the shade that they
// leave, and gives back a line about it.
func (c cut) noon(d *Drawing, place *placer, name told.Sentence, elevation float64, stroke Stroke, f *say.Sayer, x, y func(float64) float64, view Box, foot float64) string {
	rise := math.Tan(elevation * math.Pi / 180)
	total, all := 0.0, 0.0
	for _, run := range c.lawn {
		all += run[1] - run[0]
	}
	perM := x(1) - x(0)
	first, last := c.lawn[0][0], c.lawn[len(c.lawn)-1][1]
	for _, run := range c.shade(elevation) {
		total += run[1] - run[0]
		b := Box{x(run[0]), foot, max(x(run[1])-x(run[0]), 0.3), 2.4}
		d.add(Area{Points: b.Corners(), Fill: tint(stroke.Color, 0.35), Outline: Stroke{Color: stroke.Color, MM: 0.2, Dash: stroke.Dash}})
	}
	// The rays that just pass: at the ends of shade, also of what reaches past the lawn.
	begin := first - (x(first)-view.X)/perM
	wide := cut{[][2]float64{{begin, last}}, c.things, c.ground}
	for _, run := range wide.shade(elevation) {
		for _, t := range run {
			if t < begin+0.1 || t > last-0.1 {
				continue // the drawing or the lawn ends there, not the shade
			}
			at := Point{x(t), y(c.ground(t))}
			up := min((view.X+view.W-at.X)/perM*rise, (at.Y-1)/perM)
			ray := []Point{at, {at.X + up/rise*perM, at.Y - up*perM}}
			d.add(Line{Points: ray, Stroke: stroke})
			if t > first {
				d.add(line(at.X, at.Y, at.X, foot, stroke.Color, 0.15))
			}
			place.keepOff(ray)
		}
	}
	if total < 0.05 {
		return f.Say(told.Say("draw.no-shade", name))
	}
	of := func(m float64) told.Source {
		if f.US() {
			return told.Source(Metre(f, m))
		}
		return told.Source(Metre(f, m) + "\u00a0m")
	}
	return f.Say(told.Say("draw.shade", name, of(total), of(all)))
}
