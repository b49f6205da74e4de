// Package draw makes the drawings of a plan: the lawn and what stands around it, its
// light, sections of walls and of the ground, the year, the work of sowing, the sward
// and the price. There is one drawing model, in millimetres on paper, x to the right and
// y down; the SVG writer is here, the PDF writer draws the same items.
//
// A drawing is a function from values, the reader's forms and a width to a Drawing; it
// is laid out for any width from a telephone's to a page's. Colour never carries a
// meaning alone: every area that means something has a letter, a pattern or a word
// besides.
package draw

import (
	"slices"

	"swardwright/report/face"
)

// Color is "#rrggbb"; empty is none.
type Color string

// Point is a place on the drawing, in millimetres from its top left corner.
type Point struct{ X, Y float64 }

// Drawing is one finished picture.
type Drawing struct {
	Name  string // of its file, without extension
	Title string
	Desc  string // what it shows, in words, for those who do not see it
	W, H  float64
	Items []Item
}

// Item is a Line, an Area, a Text or a Group.
type Item interface{ isItem() }

// Stroke is how a line looks. No width is no line.
type Stroke struct {
	Color Color
	MM    float64
	Dash  []float64 // lengths on and off, mm
}

// Line is an open run of points.
type Line struct {
	Points []Point
	Stroke
}

// Runs are the lines from items[0] on that are drawn with one stroke, for writers that
// draw them as one path; none where that is no line.
func Runs(items []Item) (out []Line) {
	for _, it := range items {
		l, ok := it.(Line)
		if !ok || len(out) > 0 && (l.Color != out[0].Color || l.MM != out[0].MM || !slices.Equal(l.Dash, out[0].Dash)) {
			break
		}
		out = append(out, l)
	}
	return out
}

// Area is a closed polygon, filled, outlined or both.
type Area struct {
	Points  []Point
	More    [][]Point // further polygons of the same area, filled even-odd: holes and islands
	Fill    Color
	Outline Stroke
}

// Anchor says which point of a text stands at its place.
type Anchor int

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// Text is one line of text; At is on its baseline.
type Text struct {
	At      Point
	S       string
	PT      float64
	Weight  face.Weight
	Color   Color
	Anchor  Anchor
	TurnDeg float64 // counter-clockwise about At
	Link    string  // the name of the place in the document that it leads to
	Of      []Point // what it names, where that is on the drawing: a point, a line of two or an outline
}

// Group moves its items by DX, DY and cuts them to Clip (in the group's own
// coordinates) where that is given.
type Group struct {
	DX, DY float64
	Clip   []Point
	Items  []Item
}

func (Line) isItem()  {}
func (Area) isItem()  {}
func (Text) isItem()  {}
func (Group) isItem() {}

// Box is an upright rectangle.
type Box struct{ X, Y, W, H float64 }

// Corners are the box as a polygon.
func (b Box) Corners() []Point {
	return []Point{{b.X, b.Y}, {b.X + b.W, b.Y}, {b.X + b.W, b.Y + b.H}, {b.X, b.Y + b.H}}
}

// inset is the box made smaller by d on every side.
func (b Box) inset(d float64) Box { return Box{b.X + d, b.Y + d, b.W - 2*d, b.H - 2*d} }

func (d *Drawing) add(items ...Item) { d.Items = append(d.Items, items...) }

// rect fills a box.
func rect(b Box, fill Color) Area { return Area{Points: b.Corners(), Fill: fill} }

// frame outlines a box.
func frame(b Box, c Color, mm float64) Area {
	return Area{Points: b.Corners(), Outline: Stroke{Color: c, MM: mm}}
}

// line is a straight line.
func line(x1, y1, x2, y2 float64, c Color, mm float64, dash ...float64) Line {
	return Line{Points: []Point{{x1, y1}, {x2, y2}}, Stroke: Stroke{Color: c, MM: mm, Dash: dash}}
}

// text is one line of regular text in ink.
func text(x, y float64, s string, pt float64, a Anchor) Text {
	return Text{At: Point{x, y}, S: s, PT: pt, Color: Ink, Anchor: a}
}

// bold is one line of bold text in ink.
func bold(x, y float64, s string, pt float64, a Anchor) Text {
	t := text(x, y, s, pt, a)
	t.Weight = face.Bold
	return t
}

// quiet is a line of regular text in the second ink.
func quiet(x, y float64, s string, pt float64, a Anchor) Text {
	t := text(x, y, s, pt, a)
	t.Color = Quiet
	return t
}

// middle is how far below a centre line the baseline of figures and capitals lies.
func middle(pt float64) float64 { return face.CapHeight / 2 * pt * face.MMPerPoint }

// leading is the distance between two lines of small text.
func leading(pt float64) float64 { return 1.3 * pt * face.MMPerPoint }
