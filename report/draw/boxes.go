package draw

import (
	"math"
	"slices"

	"swardwright/report/face"
)

// Placed is a text with the corners of the room it takes on the page.
type Placed struct {
	Text
	Corners [4]Point
}

// Texts are all texts among items with their places, groups undone. What a clip
// hides is counted: text is never meant to be cut.
func Texts(items []Item) []Placed {
	var out []Placed
	walk(items, 0, 0, func(t Text) { out = append(out, place(t)) })
	return out
}

func walk(items []Item, dx, dy float64, visit func(Text)) {
	for _, it := range items {
		switch v := it.(type) {
		case Text:
			v.At.X, v.At.Y = v.At.X+dx, v.At.Y+dy
			v.Of = slices.Clone(v.Of)
			for i := range v.Of {
				v.Of[i].X, v.Of[i].Y = v.Of[i].X+dx, v.Of[i].Y+dy
			}
			visit(v)
		case Group:
			walk(v.Items, dx+v.DX, dy+v.DY, visit)
		}
	}
}

// place finds the corners of a text as set: from the top of its capitals to the
// foot of its long letters.
func place(t Text) Placed {
	em := t.PT * face.MMPerPoint
	w := face.Width(t.S, t.Weight, t.PT)
	left := map[Anchor]float64{Start: 0, Middle: -w / 2, End: -w}[t.Anchor]
	sin, cos := math.Sincos(t.TurnDeg * math.Pi / 180)
	p := Placed{Text: t}
	for i, c := range [4]Point{{left, -face.CapHeight * em}, {left + w, -face.CapHeight * em}, {left + w, face.Descent * em}, {left, face.Descent * em}} {
		p.Corners[i] = Point{t.At.X + c.X*cos + c.Y*sin, t.At.Y - c.X*sin + c.Y*cos}
	}
	return p
}

// Overlap says whether two placed texts cover common ground, by more than slack
// millimetres.
func (p Placed) Overlap(q Placed, slack float64) bool {
	return overlap(p.Corners[:], q.Corners[:], slack)
}

// overlap says whether two convex figures cover common ground (separating axes).
func overlap(p, q []Point, slack float64) bool {
	for _, figure := range [2][]Point{p, q} {
		for i, a := range figure {
			b := figure[(i+1)%len(figure)]
			ax, ay := b.X-a.X, b.Y-a.Y
			length := math.Hypot(ax, ay)
			if length == 0 {
				continue
			}
			span := func(ps []Point) (low, high float64) {
				low, high = math.Inf(1), math.Inf(-1)
				for _, v := range ps {
					at := (v.Y*ax - v.X*ay) / length
					low, high = min(low, at), max(high, at)
				}
				return low, high
			}
			l1, h1 := span(p)
			l2, h2 := span(q)
			if h1-slack <= l2 || h2-slack <= l1 {
				return false
			}
		}
	}
	return true
}
