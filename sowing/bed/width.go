package bed

import (
	"math"

	"swardwright/site/light"
)

// leastWidthM is the narrowest grass a machine mows: Uppsala municipality.
const leastWidthM = 1.5

// narrowest is the least width, in metres, of the parts of a lawn: of each the
// narrowest strip that holds it, which lies along one of its sides' directions. It
// is not ok when no outline is known. Arms of an L-shaped part are not seen.
func narrowest(parts [][]light.Point) (m float64, ok bool) {
	m = math.Inf(1)
	for _, outline := range parts {
		if len(outline) < 3 {
			continue
		}
		ok = true
		for i, a := range outline {
			// The narrowest strip of a convex outline lies along a side; corners that
			// turn inwards only add directions, and the strip found can't be too narrow.
			b := outline[(i+1)%len(outline)]
			dx, dy := b.X-a.X, b.Y-a.Y
			length := math.Hypot(dx, dy)
			if length == 0 {
				continue
			}
			low, high := 0.0, 0.0
			for _, p := range outline {
				off := ((p.X-a.X)*dy - (p.Y-a.Y)*dx) / length
				low, high = math.Min(low, off), math.Max(high, off)
			}
			m = math.Min(m, high-low)
		}
	}
	return m, ok && !math.IsInf(m, 1)
}
