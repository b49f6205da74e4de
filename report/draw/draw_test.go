package draw

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"sync"
	"testing"

	"swardwright/internal/told"
	"swardwright/report/sample"
	"swardwright/report/say"
	"swardwright/site/light"
)

func forms(t testing.TB, c sample.Case) *say.Sayer {
	t.Helper()
	f, err := say.For(*c.Plan)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// widths are those that drawings are made for: a telephone's, the page's, a wider one.
var widths = []float64{90, Width, 172}

// tried is a drawing with the name of its sample and its width.
type tried struct {
	name string
	*Drawing
}

// all are the drawings of every sample at every width.
var all = sync.OnceValue(func() (out []tried) {
	for _, c := range append(sample.Cases(), edges()...) {
		f, err := say.For(*c.Plan)
		if err != nil {
			panic(err)
		}
		for _, w := range widths {
			ds := All(c.Plan, f, w)
			if k := Key(c.Plan, f, 70, 52); k != nil {
				ds = append(ds, k)
			}
			for _, d := range ds {
				out = append(out, tried{fmt.Sprintf("%s, %s, %.0f mm", c.Name, d.Name, w), d})
			}
		}
	}
	return out
})

// TestTextsKeepApart looks at every text of every drawing: none leaves it, none
// stands on another.
func TestTextsKeepApart(t *testing.T) {
	for _, d := range all() {
		texts := Texts(d.Items)
		for i, p := range texts {
			for _, q := range p.Corners {
				if q.X < -0.3 || q.Y < -0.3 || q.X > d.W+0.3 || q.Y > d.H+0.3 {
					t.Errorf("%s: %q leaves the drawing at %.1f, %.1f of %.1f × %.1f", d.name, p.S, q.X, q.Y, d.W, d.H)
					break
				}
			}
			for _, other := range texts[:i] {
				if p.Overlap(other, 0.15) {
					t.Errorf("%s: %q stands on %q", d.name, p.S, other.S)
				}
			}
		}
	}
}

// ink calls visit with every line and polygon that is not cut off by a clip, groups
// undone; what a clip cuts it cuts to the drawing's own parts.
func ink(items []Item, dx, dy float64, visit func([]Point)) {
	moved := func(ps []Point) []Point {
		out := make([]Point, len(ps))
		for i, q := range ps {
			out[i] = Point{q.X + dx, q.Y + dy}
		}
		return out
	}
	for _, it := range items {
		switch v := it.(type) {
		case Line:
			visit(moved(v.Points))
		case Area:
			visit(moved(v.Points))
		case Group:
			if len(v.Clip) == 0 {
				ink(v.Items, dx+v.DX, dy+v.DY, visit)
			} else {
				ink([]Item{Line{Points: v.Clip}}, dx+v.DX, dy+v.DY, visit)
			}
		}
	}
}

// TestNothingOutside: no line and no area leaves its drawing, and all are finite.
func TestNothingOutside(t *testing.T) {
	for _, d := range all() {
		ink(d.Items, 0, 0, func(ps []Point) {
			for _, q := range ps {
				if !(q.X >= -0.7 && q.Y >= -0.7 && q.X <= d.W+0.7 && q.Y <= d.H+0.7) {
					t.Fatalf("%s: ink at %.1f, %.1f of %.1f × %.1f", d.name, q.X, q.Y, d.W, d.H)
				}
			}
		})
		tallest := 250.0 // a page
		if d.W < 120 {
			tallest = 420 // a screen scrolls
		}
		if !(d.W > 0 && d.H > 0 && d.H <= tallest) {
			t.Errorf("%s: %.0f × %.0f mm", d.name, d.W, d.H)
		}
	}
}

// TestLabels: every label that names a thing stands by it or has a line that leads to
// it, and does not cover it. What it covers is counted over points, not as the placer
// counts it.
func TestLabels(t *testing.T) {
	const byIt, line = 4.2, 0.6 // mm
	labels := 0
	for _, d := range all() {
		var lines [][]Point
		ink(d.Items, 0, 0, func(ps []Point) {
			if len(ps) == 2 {
				lines = append(lines, ps)
			}
		})
		for _, p := range Texts(d.Items) {
			if len(p.Of) == 0 {
				continue
			}
			labels++
			box := p.Corners[:]
			far, _, _ := gap(box, p.Of)
			within := len(p.Of) > 2 && inside(p.Of, mean(box))
			led := false
			for _, l := range lines {
				for i := range 2 {
					from, _, _ := gap(box, l[i:i+1])
					to, _, _ := gap(p.Of, l[1-i:2-i])
					led = led || from < 2 && to < line || within && from < 2
				}
			}
			if !within && far > byIt && !led {
				t.Errorf("%s: %q is %.1f mm from what it names", d.name, p.S, far)
			}
			covered, all := 0, 0
			b := bounds(p.Of)
			const n = 40
			for i := range n {
				for k := range n {
					q := Point{b.X + b.W*(float64(i)+0.5)/n, b.Y + b.H*(float64(k)+0.5)/n}
					if len(p.Of) > 2 && !inside(p.Of, q) {
						continue
					}
					all++
					if inside(box, q) {
						covered++
					}
				}
			}
			if len(p.Of) > 2 && covered*100 > all*55 {
				t.Errorf("%s: %q covers %d of %d parts of what it names", d.name, p.S, covered, all)
			}
			if len(p.Of) == 1 && inside(box, p.Of[0]) {
				t.Errorf("%s: %q stands on its point", d.name, p.S)
			}
		}
	}
	if labels < 1000 {
		t.Errorf("only %d labels seen", labels)
	}
}

// edges are invented lawns at the edge of what a drawing must bear.
func edges() []sample.Case {
	star := sample.Full()
	var outline []light.Point
	for i := range 16 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 16)
		r := 4 + 3*float64(i%2)
		outline = append(outline, light.Point{X: 7 + r*cos, Y: 7 + r*sin})
	}
	star.Brief.Site.Lawn.Parts = [][]light.Point{outline}
	star.Brief.Site.Obstacles = star.Brief.Site.Obstacles[:2]
	star.Site.Survey = star.Brief.Site
	star.Site.Field = fieldOver(outline, 0.25, func(q light.Point) int { return 0 })
	one := *star
	star.Site.Field.Zones = star.Site.Field.Zones[:1]

	ring := sample.Full()
	for i := range 40 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 40)
		o := light.Obstacle{Name: fmt.Sprintf("tree %d", i+1), Kind: light.Tree, At: light.Point{X: 7 + 10*cos, Y: 6 + 9*sin}, HeightM: 8, ClearStemM: 2, CrownM: 3, Leaf: light.Deciduous}
		if i%4 == 0 {
			o = light.Obstacle{Name: fmt.Sprintf("house %d", i+1), Kind: light.Solid, HeightM: 6, Footprint: []light.Point{
				{X: 7 + 20*cos - 1, Y: 6 + 19*sin - 1}, {X: 7 + 20*cos + 1, Y: 6 + 19*sin - 1}, {X: 7 + 20*cos + 1, Y: 6 + 19*sin + 1}, {X: 7 + 20*cos - 1, Y: 6 + 19*sin + 1}}}
		}
		ring.Brief.Site.Obstacles = append(ring.Brief.Site.Obstacles, o)
	}
	ring.Site.Survey = ring.Brief.Site

	strips := sample.Full() // four thin zones
	for len(strips.Site.Field.Zones) < 4 {
		z := strips.Site.Field.Zones[1]
		z.Letter, z.Name = string(rune('A'+len(strips.Site.Field.Zones))), told.Say("place.against", told.Verbatim("the wall of the house"))
		strips.Site.Field.Zones = append(strips.Site.Field.Zones, z)
	}
	for i := range strips.Site.Field.Cells {
		c := &strips.Site.Field.Cells[i]
		c.Zone = min(int(c.At.Y), 3)
	}
	return []sample.Case{{Name: "star", Plan: &one}, {Name: "ring", Plan: ring}, {Name: "strips", Plan: strips}}
}

// fieldOver is an invented field of light over an outline.
func fieldOver(outline []light.Point, cell float64, zone func(light.Point) int) light.Field {
	f := sample.Full().Site.Field
	f.Cells, f.CellM, f.Probes = nil, cell, nil
	low, high := widened(outline[0], outline[0], outline)
	for y := low.Y + cell/2; y < high.Y; y += cell {
		for x := low.X + cell/2; x < high.X; x += cell {
			if at := (light.Point{X: x, Y: y}); inside(metres(outline), Point{x, y}) {
				f.Cells = append(f.Cells, light.Cell{At: at, AreaM2: cell * cell, Zone: zone(at), Light: light.Light{DLISeason: 10 + x, SunHoursSeason: y / 2}})
			}
		}
	}
	return f
}

// TestSVG checks that every drawing is well-formed XML with a title and a
// description, holds finite numbers, and is the same twice.
func TestSVG(t *testing.T) {
	for _, c := range sample.Cases() {
		files, err := Files(c.Plan)
		if err != nil {
			t.Fatal(c.Name, err)
		}
		again, _ := Files(c.Plan)
		for i, f := range files {
			if !bytes.Equal(f.SVG, again[i].SVG) {
				t.Errorf("%s, %s: two writings differ", c.Name, f.Name)
			}
			if s := string(f.SVG); strings.Contains(s, "NaN") || strings.Contains(s, "Inf") {
				t.Errorf("%s, %s: not finite", c.Name, f.Name)
			}
			seen := map[string]bool{}
			for dec := xml.NewDecoder(bytes.NewReader(f.SVG)); ; {
				tok, err := dec.Token()
				if errors.Is(err, io.EOF) {
					break
				}
				if err != nil {
					t.Fatalf("%s, %s: %v", c.Name, f.Name, err)
				}
				if e, ok := tok.(xml.StartElement); ok {
					seen[e.Name.Local] = true
				}
			}
			if !seen["title"] || !seen["desc"] || !seen["text"] {
				t.Errorf("%s, %s: has no title, description or text", c.Name, f.Name)
			}
		}
	}
}

// TestDrawingsThere says which drawings a plan must have.
func TestDrawingsThere(t *testing.T) {
	want := map[string]string{
		"full":     "plan setting-out sun-section light-maps light matrix-1 matrix-2 mixture sward year ground passes watering cut prices",
		"stated":   "light matrix-1 mixture sward year ground watering cut prices", // no outline, no cells
		"no grass": "plan setting-out sun-section light-maps light matrix-1 matrix-2 ground",
		"empty":    "",
	}
	for _, c := range sample.Cases() {
		if names, ok := want[c.Name]; ok {
			var got []string
			for _, d := range All(c.Plan, forms(t, c), Width) {
				got = append(got, d.Name)
			}
			if strings.Join(got, " ") != names {
				t.Errorf("%s: got %q, want %q", c.Name, strings.Join(got, " "), names)
			}
		}
	}
}

// TestViridis compares with rows 0, 127, 128 and 255 of matplotlib's table
// (lib/matplotlib/_cm_listed.py, CC0), in 255ths.
func TestViridis(t *testing.T) {
	for _, c := range []struct {
		at      float64
		r, g, b float64
	}{
		{0, 0.267004 * 255, 0.004874 * 255, 0.329415 * 255},
		{127.0 / 255, 0.127568 * 255, 0.566949 * 255, 0.550556 * 255},
		{128.0 / 255, 0.126453 * 255, 0.570633 * 255, 0.549841 * 255},
		{1, 0.993248 * 255, 0.906157 * 255, 0.143936 * 255},
	} {
		r, g, b := Viridis(c.at).RGB()
		if math.Abs(float64(r)-c.r) > 2.5 || math.Abs(float64(g)-c.g) > 2.5 || math.Abs(float64(b)-c.b) > 2.5 {
			t.Errorf("viridis(%.3f) = %d %d %d, want %.0f %.0f %.0f", c.at, r, g, b, c.r, c.g, c.b)
		}
	}
	// Grey print: the scale only ever gets lighter.
	for i := range 100 {
		if luminance(Viridis(float64(i)/100)) >= luminance(Viridis(float64(i+1)/100)) {
			t.Errorf("viridis does not get lighter at %d/100", i)
		}
	}
}

// TestContrast checks WCAG 2.2: black on white is 21 : 1 (definition of contrast
// ratio); text needs 4.5 : 1 (1.4.3), graphical objects 3 : 1 (1.4.11).
func TestContrast(t *testing.T) {
	if got := Contrast("#000000", White); math.Abs(got-21) > 1e-9 {
		t.Errorf("black on white: %g", got)
	}
	// #767676 on white is the well-known lightest grey that passes, at 4.54 : 1.
	if got := Contrast("#767676", White); math.Abs(got-4.54) > 0.005 {
		t.Errorf("#767676 on white: %g", got)
	}
	for _, c := range []Color{Ink, Quiet} {
		for _, ground := range []Color{White, Faint} {
			if Contrast(c, ground) < 4.5 {
				t.Errorf("text %s on %s: %.2f", c, ground, Contrast(c, ground))
			}
		}
	}
	for class, tone := range classTone {
		if Contrast(inkOn(tone), tone) < 4.5 {
			t.Errorf("%s on its tone: %.2f", class, Contrast(inkOn(tone), tone))
		}
	}
	for i := range 4 {
		if Contrast(inkOn(zoneLook(i, true).fill), zoneLook(i, true).fill) < 4.5 {
			t.Errorf("letter of zone %d: %.2f", i, Contrast(inkOn(zoneLook(i, true).fill), zoneLook(i, true).fill))
		}
	}
}

// TestHatches: lines a gap apart over a square of side a are as long in all as its
// area over the gap (Cavalieri), whatever their direction.
func TestHatches(t *testing.T) {
	const side, gap = 200.0, 0.5
	square := Box{3, 7, side, side}.Corners()
	for _, deg := range []float64{0, 30, 45, 90, -45} {
		sum := 0.0
		for _, l := range hatches([][]Point{square}, deg, gap) {
			sum += math.Hypot(l[1].X-l[0].X, l[1].Y-l[0].Y)
		}
		if want := side * side / gap; math.Abs(sum-want) > 0.01*want {
			t.Errorf("at %g°: %.0f mm, want %.0f", deg, sum, want)
		}
	}
}

// TestFarParts: two parts of a lawn a thousand kilometres apart take no longer than
// their cells ask for.
func TestFarParts(t *testing.T) {
	c := sample.Case{Name: "far", Plan: sample.Full()}
	lawn := &c.Plan.Brief.Site.Lawn
	far := []light.Point{{X: 1e6, Y: 1e6}, {X: 1e6 + 5, Y: 1e6}, {X: 1e6 + 5, Y: 1e6 + 5}}
	lawn.Parts = append(lawn.Parts, far)
	c.Plan.Site.Survey = c.Plan.Brief.Site
	c.Plan.Site.Field.Cells = append(c.Plan.Site.Field.Cells, light.Cell{At: light.Point{X: 1e6 + 4, Y: 1e6 + 1}, AreaM2: 0.25})
	for _, d := range All(c.Plan, forms(t, c), Width) {
		if d.W > 1000 || d.H > 1000 {
			t.Errorf("%s is %.0f × %.0f mm", d.Name, d.W, d.H)
		}
	}
}

func TestOverlap(t *testing.T) {
	at := func(x, y, turn float64) Placed {
		t := bold(x, y, "overlap", 10, Start)
		t.TurnDeg = turn
		return place(t)
	}
	for _, c := range []struct {
		p, q Placed
		want bool
	}{
		{at(0, 0, 0), at(0, 0, 0), true}, {at(0, 0, 0), at(0, 10, 0), false}, {at(0, 0, 0), at(3, 1, 90), true},
		{at(0, 0, 90), at(8, 0, 90), false}, {at(0, 0, 45), at(9, 0, 45), false},
	} {
		if got := c.p.Overlap(c.q, 0.1); got != c.want {
			t.Errorf("%v and %v: %v", c.p.Corners, c.q.Corners, got)
		}
	}
}

func BenchmarkAll(b *testing.B) {
	c := sample.Cases()[0]
	f := forms(b, c)
	for b.Loop() {
		All(c.Plan, f, Width)
	}
}
