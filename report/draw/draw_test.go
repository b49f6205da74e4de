package draw

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"swardwright/report/form"
	"swardwright/report/sample"
	"swardwright/site/light"
)

func forms(t testing.TB, c sample.Case) form.Form {
	t.Helper()
	f, err := form.New(c.Plan.Brief.Language, c.Plan.Brief.Units, c.Plan.Brief.Currency)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// TestTextsKeepApart looks at every text of every drawing: none leaves it, none
// stands on another.
func TestTextsKeepApart(t *testing.T) {
	for _, c := range sample.Cases() {
		for _, w := range []float64{Width, 172} {
			for _, d := range All(c.Plan, forms(t, c), w) {
				texts := Texts(d.Items)
				for i, p := range texts {
					for _, q := range p.Corners {
						if q.X < -0.3 || q.Y < -0.3 || q.X > d.W+0.3 || q.Y > d.H+0.3 {
							t.Errorf("%s, %s: %q leaves the drawing at %.1f, %.1f of %.1f × %.1f", c.Name, d.Name, p.S, q.X, q.Y, d.W, d.H)
							break
						}
					}
					for _, other := range texts[:i] {
						if p.Overlap(other, 0.15) {
							t.Errorf("%s, %s: %q stands on %q", c.Name, d.Name, p.S, other.S)
						}
					}
				}
			}
		}
	}
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
		"full":     "plan light-map light matrix-1 matrix-2 mixture sward dates ground cost",
		"stated":   "light matrix-1 mixture sward dates ground cost", // no outline, no cells
		"no grass": "plan light-map light matrix-1 matrix-2 ground",
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
		if Contrast(inkOn(zoneTint(i)), zoneTint(i)) < 4.5 {
			t.Errorf("letter of zone %d: %.2f", i, Contrast(inkOn(zoneTint(i)), zoneTint(i)))
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
		for _, l := range hatches(square, deg, gap) {
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
