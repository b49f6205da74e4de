package desk

import (
	"errors"
	"fmt"
	"math"
	"time"

	"swardwright/internal/tape"
	"swardwright/site/sun"
)

// Measured is a point as it was measured from two known ones, [x, y] in metres.
type Measured struct {
	By    string     `json:"by"` // "tapes" or "offset"
	A     [2]float64 `json:"a"`
	B     [2]float64 `json:"b"`
	FromA float64    `json:"from_a"` // by tapes: to the point
	FromB float64    `json:"from_b"`
	Along float64    `json:"along"` // by offset: from a towards b
	Off   float64    `json:"off"`
	Right bool       `json:"right"` // of the line from a to b
}

// Northward is a line on the plan of known bearing: a wall with a compass bearing, or the
// shadow of an upright at a clock time.
type Northward struct {
	By        string     `json:"by"`   // "bearing" or "shadow"
	From      [2]float64 `json:"from"` // of a shadow: the foot of the upright
	To        [2]float64 `json:"to"`   // and the tip
	Bearing   float64    `json:"bearing"`
	Variation float64    `json:"variation"` // of the compass, east positive
	Time      string     `json:"time"`      // RFC 3339
	Latitude  float64    `json:"latitude"`
	Longitude float64    `json:"longitude"`
}

// Found is what was made of it: a place, an angle or why there is none.
type Found struct {
	At      *[2]float64 `json:"at,omitempty"`
	North   *float64    `json:"north,omitempty"`
	Said    string      `json:"said,omitempty"`
	Warned  string      `json:"warned,omitempty"`
	Refused string      `json:"refused,omitempty"`
}

// mostM bounds a tape; a longer one is a slip.
const mostM = 1000

func (m Measured) find() *Found {
	for _, v := range []float64{m.FromA, m.FromB, m.Off} {
		if !(v >= 0 && v <= mostM) {
			return &Found{Refused: fmt.Sprintf("a distance needs to be from 0 to %d m", mostM)}
		}
	}
	if !(math.Abs(m.Along) <= mostM) {
		return &Found{Refused: fmt.Sprintf("a distance along the line needs to be within %d m", mostM)}
	}
	side := tape.Left
	if m.Right {
		side = tape.Right
	}
	a, b := tape.Point{X: m.A[0], Y: m.A[1]}, tape.Point{X: m.B[0], Y: m.B[1]}
	switch m.By {
	case "tapes":
		p, angle, err := tape.ByTapes(a, b, m.FromA, m.FromB, side)
		if err != nil {
			return &Found{Refused: missed(err)}
		}
		f := &Found{At: placed(p), Said: fmt.Sprintf("The tapes cross at %.0f°.", angle)}
		if tape.Flat(angle) {
			f.Warned = "The tapes run nearly in one line there: "
			if s := tape.Spread(angle); s < 100 {
				f.Warned += fmt.Sprintf("a tape wrong by 1 cm moves the point by %.0f cm. ", s)
			} else {
				f.Warned += "a tape a little wrong moves the point far. "
			}
			f.Warned += "Measure from two points that lie more across."
		}
		return f
	case "offset":
		p, err := tape.ByOffset(a, b, m.Along, m.Off, side)
		if err != nil {
			return &Found{Refused: missed(err)}
		}
		f := &Found{At: placed(p)}
		if base := math.Hypot(b.X-a.X, b.Y-a.Y); m.Along < 0 || m.Along > base {
			f.Said = fmt.Sprintf("This lies beyond the line, which is %.2f m long.", base)
		}
		return f
	}
	return &Found{Refused: fmt.Sprintf("%q is no way of measuring", m.By)}
}

// missed words why a point can't be fixed.
func missed(err error) string {
	var apart tape.Apart
	switch {
	case errors.As(err, &apart) && apart.Inside:
		return fmt.Sprintf("The tapes don't meet: one is too long for the other by %s. Measure again, or look whether the two points are the ones you measured from.", cm(apart.GapM))
	case errors.As(err, &apart):
		return fmt.Sprintf("The tapes don't meet: %s are missing between them. Measure again, or look whether the two points are the ones you measured from.", cm(apart.GapM))
	}
	return "Both points are in the same place; choose two that lie apart."
}

// cm never rounds a gap away.
func cm(m float64) string { return fmt.Sprintf("%.0f cm", math.Ceil(100*m-1e-6)) }

// placed is a point to the centimetre.
func placed(p tape.Point) *[2]float64 { return &[2]float64{round(p.X, 2) + 0, round(p.Y, 2) + 0} }

// Elevations of the sun between which a shadow tells north well: lower it is long and
// faint at the tip, higher it is short and turns quickly. Common practice, no published source.
const lowSunDeg, highSunDeg = 8, 60

func (n Northward) find() *Found {
	from, to := tape.Point{X: n.From[0], Y: n.From[1]}, tape.Point{X: n.To[0], Y: n.To[1]}
	var bearing float64
	f := &Found{}
	switch n.By {
	case "bearing":
		if !(n.Bearing >= 0 && n.Bearing <= 360) {
			return &Found{Refused: "a bearing runs from 0° to 360°, clockwise from north"}
		}
		if !(math.Abs(n.Variation) <= 180) {
			return &Found{Refused: "the variation of the compass needs to be within 180°, east positive"}
		}
		bearing = n.Bearing + n.Variation
	case "shadow":
		at, err := time.Parse(time.RFC3339, n.Time)
		if err != nil || at.Year() < 1950 || at.Year() > 2100 {
			return &Found{Refused: "give the day and the clock time at which the shadow was marked"}
		}
		if !(math.Abs(n.Latitude) <= 90 && math.Abs(n.Longitude) <= 180) {
			return &Found{Refused: "give the place first, with its longitude: the sun's direction depends on it"}
		}
		s := sun.At(at, n.Latitude, n.Longitude)
		if s.ElevationDeg < 0.5 {
			return &Found{Refused: "the sun was not up there at that time; look at the day, the time and the hours from UTC"}
		}
		bearing = s.AzimuthDeg + 180
		f.Said = fmt.Sprintf("The sun stood %.0f° high at a bearing of %.1f°; an upright of 1 m had a shadow of %.2f m.",
			s.ApparentDeg, s.AzimuthDeg, 1/math.Tan(s.ApparentDeg*math.Pi/180))
		switch {
		case s.ElevationDeg < lowSunDeg:
			f.Warned = "So low a sun throws a long shadow with a faint tip; on sloping ground it points askew."
		case s.ElevationDeg > highSunDeg:
			f.Warned = "So high a sun throws a short shadow that turns quickly; mark it in the morning or the afternoon."
		}
	default:
		return &Found{Refused: fmt.Sprintf("%q is no way to find north", n.By)}
	}
	north, err := tape.NorthDeg(from, to, bearing)
	if err != nil {
		return &Found{Refused: missed(err)}
	}
	north = math.Mod(round(north, 1), 360)
	f.North = &north
	return f
}
