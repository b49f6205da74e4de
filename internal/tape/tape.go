// Package tape fixes points of a plan by what was measured on the ground: two tapes from
// two known points, or a distance along a known line and one off it at a right angle; and
// it turns a plan to north by a line of known bearing.
//
// Coordinates are metres, x to the right and y up the page. Bearings are degrees clockwise
// from true north; directions on the plan are degrees clockwise from its y axis. Left and
// right are those of someone who stands at the first point and looks to the second.
package tape

import (
	"errors"
	"fmt"
	"math"
)

// Point is a place on the plan.
type Point struct{ X, Y float64 }

// Side is where a point lies of a line.
type Side int

// The sides.
const (
	Left  Side = 1
	Right Side = -1
)

// errSamePoint means that two points that should make a line are one.
var errSamePoint = errors.New("both points are in the same place")

// Apart means that two tapes do not meet: they are too short by GapM together, or, with
// Inside, one is too long for the other to reach it.
type Apart struct {
	GapM   float64
	Inside bool
}

func (a Apart) Error() string { return fmt.Sprintf("the tapes miss each other by %.3f m", a.GapM) }

// FlatDeg and its supplement bound the angles at which two tapes fix a point well: chain
// surveying asks for well-conditioned triangles, with no angle below 30°. Common practice,
// no published source.
const FlatDeg = 30

// ByTapes is the point at two distances from two known ones, on one side of the line
// between them, and the angle at which the tapes cross there. Where that is near 0° or
// 180° a small error of a tape moves the point far: see Spread.
func ByTapes(a, b Point, fromA, fromB float64, side Side) (p Point, angleDeg float64, err error) {
	base := math.Hypot(b.X-a.X, b.Y-a.Y)
	switch {
	case base == 0:
		return Point{}, 0, errSamePoint
	case fromA+fromB < base:
		return Point{}, 0, Apart{GapM: base - fromA - fromB}
	case math.Abs(fromA-fromB) > base:
		return Point{}, 0, Apart{GapM: math.Abs(fromA-fromB) - base, Inside: true}
	}
	// By differences of lengths, not of squares, which lose the digits that a flat angle needs.
	along := base/2 + (fromA-fromB)*(fromA+fromB)/(2*base)
	off := math.Sqrt(max(0, (fromA-along)*(fromA+along)))
	if p, err = ByOffset(a, b, along, off, side); err != nil {
		return Point{}, 0, err
	}
	// The law of cosines at the point.
	cos := (fromA*fromA + fromB*fromB - base*base) / (2 * fromA * fromB)
	return p, math.Acos(max(-1, min(1, cos))) * 180 / math.Pi, nil
}

// Flat says whether tapes that cross at an angle fix a point badly.
func Flat(angleDeg float64) bool { return angleDeg < FlatDeg || angleDeg > 180-FlatDeg }

// Spread is how far a point moves for each centimetre that one of two tapes is wrong, in
// centimetres, where they cross at an angle.
func Spread(angleDeg float64) float64 { return 1 / math.Sin(angleDeg*math.Pi/180) }

// ByOffset is the point at a distance along the line from a to b, which may run out
// beyond either, and a distance off it at a right angle.
func ByOffset(a, b Point, along, off float64, side Side) (Point, error) {
	base := math.Hypot(b.X-a.X, b.Y-a.Y)
	if base == 0 {
		return Point{}, errSamePoint
	}
	u := Point{(b.X - a.X) / base, (b.Y - a.Y) / base}
	off *= float64(side)
	return Point{a.X + along*u.X - off*u.Y, a.Y + along*u.Y + off*u.X}, nil
}

// directionDeg is the direction on the plan from one point to another, 0 to 360.
func directionDeg(from, to Point) (float64, error) {
	if from == to {
		return 0, errSamePoint
	}
	return whole(math.Atan2(to.X-from.X, to.Y-from.Y) * 180 / math.Pi), nil
}

// NorthDeg is the bearing of the plan's y axis, 0 to 360, when the line from one point to
// another has a known bearing.
func NorthDeg(from, to Point, bearingDeg float64) (float64, error) {
	d, err := directionDeg(from, to)
	return whole(bearingDeg - d), err
}

// whole brings an angle into 0 to 360.
func whole(deg float64) float64 {
	deg = math.Mod(deg, 360)
	if deg < 0 {
		deg += 360
	}
	return deg
}
