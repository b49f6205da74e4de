package draw

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"swardwright/internal/steady"
)

// The inks of text and rules, with their WCAG 2.2 contrast on white.
const (
	Ink   Color = "#1a1a1a" // 17 : 1
	Quiet Color = "#555555" // 7 : 1
	Rule  Color = "#b8b8b8" // lines only
	Faint Color = "#f1f1ee" // grounds only
	White Color = "#ffffff"
)

// The categorical colours of Okabe and Ito (2008), "Color Universal Design".
const (
	Orange     Color = "#e69f00"
	SkyBlue    Color = "#56b4e9"
	Green      Color = "#009e73"
	Yellow     Color = "#f0e442"
	Blue       Color = "#0072b2"
	Vermillion Color = "#d55e00"
	Purple     Color = "#cc79a7"
)

// viridis at every eighth: the nine colours of viridis(9) of the R package
// viridisLite, from memory; tested against rows of matplotlib's table (CC0).
var viridis = [9][3]float64{
	{68, 1, 84}, {71, 45, 123}, {59, 82, 139}, {44, 114, 142}, {33, 144, 140},
	{39, 173, 129}, {93, 200, 99}, {170, 220, 50}, {253, 231, 37},
}

// Viridis is the colour of a quantity: 0 the least, 1 the most.
func Viridis(x float64) Color {
	if math.IsNaN(x) {
		x = 0
	}
	x = min(max(x, 0), 1) * float64(len(viridis)-1)
	i := min(int(x), len(viridis)-2)
	var c [3]int
	for k := range c {
		c[k] = int(math.Round(viridis[i][k] + (x-float64(i))*(viridis[i+1][k]-viridis[i][k])))
	}
	return rgb(c)
}

// RGB are the three parts of a colour, 0 to 255.
func (c Color) RGB() (r, g, b int) {
	if len(c) != 7 {
		return 0, 0, 0
	}
	x, err := strconv.ParseUint(string(c[1:]), 16, 32)
	if err != nil {
		return 0, 0, 0
	}
	return int(x >> 16), int(x >> 8 & 0xff), int(x & 0xff)
}

func rgb(c [3]int) Color { return Color(fmt.Sprintf("#%02x%02x%02x", c[0], c[1], c[2])) }

// tint is c thinned with white: 1 is c, 0 is white.
func tint(c Color, strength float64) Color {
	r, g, b := c.RGB()
	thin := func(v int) int { return int(math.Round(255 - (255-float64(v))*strength)) }
	return rgb([3]int{thin(r), thin(g), thin(b)})
}

// luminance is the relative luminance of WCAG 2.2.
func luminance(c Color) float64 {
	r, g, b := c.RGB()
	linear := func(v int) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(r) + 0.7152*linear(g) + 0.0722*linear(b)
}

// Contrast is the contrast ratio of WCAG 2.2, 1 to 21.
func Contrast(a, b Color) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

// inkOn is the ink that reads best on a ground.
func inkOn(ground Color) Color {
	if Contrast(White, ground) > Contrast(Ink, ground) {
		return White
	}
	return Ink
}

// Pattern tells areas apart without colour.
type Pattern int

// The patterns.
const (
	Plain Pattern = iota
	Rising
	Falling
	Level
	Upright
	Crossed
	Dotted
)

// look is how the n-th of several things is told from the others.
type look struct {
	fill    Color
	pattern Pattern
}

// looks are the looks in the order they are given out.
var looks = []look{
	{tint(Green, 0.75), Plain}, {tint(SkyBlue, 0.55), Rising}, {tint(Orange, 0.65), Dotted},
	{tint(Yellow, 0.6), Falling}, {tint(Purple, 0.65), Level}, {tint(Blue, 0.45), Crossed}, {tint(Vermillion, 0.5), Upright},
}

// patternInk is the colour of the lines of a pattern.
const patternInk Color = "#4d4d4d"

// zoneLook is how a zone of the lawn looks: tones darken with shade, patterns tell
// neighbours apart in grey; ground without grass is brown.
func zoneLook(zone int, grass bool) look {
	k := min(max(zone, 0), 3)
	base := Green
	if !grass {
		base = Vermillion
	}
	return look{tint(base, 0.14+0.14*float64(k)), []Pattern{Plain, Rising, Dotted, Crossed}[k]}
}

// patch is a box with its look, framed.
func patch(b Box, l look) []Item {
	return append(filled(b.Corners(), l.fill, l.pattern), frame(b, Ink, 0.15))
}

// filled is a polygon with its ground and pattern.
func filled(p []Point, fill Color, pattern Pattern) []Item {
	return append([]Item{Area{Points: p, Fill: fill}}, hatched([][]Point{p}, pattern)...)
}

// hatched is the pattern of an area of one or more outlines (even-odd).
func hatched(outlines [][]Point, pattern Pattern) []Item {
	var items []Item
	const gap, mm = 1.5, 0.14
	hatch := func(deg, gap float64, dash ...float64) {
		for _, l := range hatches(outlines, deg, gap) {
			items = append(items, Line{Points: l, Stroke: Stroke{Color: patternInk, MM: mm, Dash: dash}})
		}
	}
	switch pattern {
	case Rising:
		hatch(45, gap)
	case Falling:
		hatch(-45, gap)
	case Level:
		hatch(0, gap)
	case Upright:
		hatch(90, gap)
	case Crossed:
		hatch(45, 1.4*gap)
		hatch(-45, 1.4*gap)
	case Dotted:
		for _, l := range hatches(outlines, 0, 0.8*gap) {
			items = append(items, Line{Points: l, Stroke: Stroke{Color: patternInk, MM: 0.32, Dash: []float64{0.32, 1.1}}})
		}
	}
	return items
}

// hatches are the parts of parallel lines, gap apart and rising at deg, that lie
// inside an area of one or more outlines (even-odd). The lines stand on a fixed grid
// of the drawing, so that neighbours match.
func hatches(outlines [][]Point, deg, gap float64) [][]Point {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	// Turned by -deg the lines lie level: u along them, v across (y is down).
	turned := make([][]Point, len(outlines))
	low, high := math.Inf(1), math.Inf(-1)
	for k, p := range outlines {
		turned[k] = make([]Point, len(p))
		for i, q := range p {
			turned[k][i] = Point{q.X*cos - q.Y*sin, q.X*sin + q.Y*cos}
			low, high = min(low, turned[k][i].Y), max(high, turned[k][i].Y)
		}
	}
	if !(high-low < 2000) { // not finite, or no drawing of ours
		return nil
	}
	var out [][]Point
	for k := math.Ceil(steady.Figure(low / gap)); k*gap < high; k++ {
		v := k*gap + 1e-7 // never exactly through a corner
		for cut := crossings(v, turned...); len(cut) >= 2; cut = cut[2:] {
			if cut[1]-cut[0] > 0.05 {
				back := func(u float64) Point { return Point{u*cos + v*sin, -u*sin + v*cos} }
				out = append(out, []Point{back(cut[0]), back(cut[1])})
			}
		}
	}
	return out
}

// crossings are where the level line at v crosses outlines, from left to right.
func crossings(v float64, outlines ...[]Point) []float64 {
	var at []float64
	for _, p := range outlines {
		for i, a := range p {
			b := p[(i+1)%len(p)]
			if (a.Y > v) != (b.Y > v) {
				at = append(at, a.X+(v-a.Y)/(b.Y-a.Y)*(b.X-a.X))
			}
		}
	}
	slices.Sort(at)
	return at
}
