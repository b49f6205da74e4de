package site

import (
	"math"

	"swardwright/site/light"
)

const (
	edgingStepM = 0.1 // length of edge tested at a time
	wallReachM  = 0.3 // an edge this near a wall needs no edging of its own
	plainAspect = 1.5 // length over width taken for a lawn known by its area only
)

// edging is the length of lawn edge to be cut or edged: as stated, or the
// perimeter where it meets no wall.
func (s Survey) edging() float64 {
	if s.Lawn.EdgingM != nil {
		return *s.Lawn.EdgingM
	}
	if len(s.Lawn.Parts) == 0 {
		width := math.Sqrt(s.Lawn.AreaM2 / plainAspect)
		return 2 * width * (1 + plainAspect)
	}
	total := 0.0
	for _, part := range s.Lawn.Parts {
		for i, a := range part {
			b := part[(i+1)%len(part)]
			length := math.Hypot(b.X-a.X, b.Y-a.Y)
			steps := int(math.Ceil(length / edgingStepM))
			for k := range steps {
				t := (float64(k) + 0.5) / float64(steps)
				p := light.Point{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)}
				if !s.againstWall(p) {
					total += length / float64(steps)
				}
			}
		}
	}
	return total
}

func (s Survey) againstWall(p light.Point) bool {
	for _, o := range s.Obstacles {
		for i, a := range o.Footprint {
			if segmentDistance(p, a, o.Footprint[(i+1)%len(o.Footprint)]) <= wallReachM {
				return true
			}
		}
	}
	return false
}

// segmentDistance is the distance of p from the segment ab.
func segmentDistance(p, a, b light.Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if l2 := dx*dx + dy*dy; l2 > 0 {
		t = min(1, max(0, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l2))
	}
	return math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy)
}
