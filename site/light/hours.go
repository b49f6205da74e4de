package light

import (
	"context"
	"fmt"
	"math"
)

// Hours is the direct sun over a lawn at some times of one clear day.
type Hours struct {
	CellM float64
	Cells []Cell // without their light
	At    []HourSun
}

// HourSun is one of the times.
type HourSun struct {
	Hour                     float64   // local apparent solar time; 12 is true noon
	BearingDeg, ElevationDeg float64   // of the sun's centre, without refraction
	Share                    []float64 // of the direct sun that reaches each cell's centre, 0 to 1
}

// SunByHour is the direct sun over the lawn at each of some hours of a day of the year,
// counted from 1, in at most about most cells: all of it, none, or behind a screen or a
// crown the share let through. Hours with the sun below the geometric horizon are left out.
func SunByHour(ctx context.Context, scene Scene, sky Sky, dayOfYear int, hours []float64, most int) (Hours, error) {
	if err := refuse(scene.Faults()); err != nil {
		return Hours{}, err
	}
	if dayOfYear < 1 || dayOfYear > 366 {
		return Hours{}, fmt.Errorf("day %d: days of the year run from 1 to 365", dayOfYear)
	}
	out := Hours{CellM: cellSide(scene.areaM2(), most)}
	out.Cells, _ = cells(scene, out.CellM)
	t := newTracer(scene, []day{newDay(scene.LatitudeDeg, scene.AltitudeM, float64(dayOfYear))})
	tau := make([]float64, len(t.layers))
	for j := range t.layers {
		tau[j] = t.layers[j].transmittance(float64(dayOfYear), sky)
	}
	var towards []vec
	for _, h := range hours {
		sin, cos := math.Sincos((h - 12) / 12 * math.Pi)
		v := t.days[0].towards(sin, cos)
		if v.u <= 0 {
			continue
		}
		towards = append(towards, v)
		out.At = append(out.At, HourSun{
			Hour: h, ElevationDeg: math.Asin(min(1, v.u)) / rad,
			BearingDeg: math.Mod(math.Atan2(v.e, v.n)/rad+360, 360),
			Share:      make([]float64, len(out.Cells)),
		})
	}
	var b bench
	for i := range out.Cells {
		if err := ctx.Err(); err != nil {
			return Hours{}, err
		}
		t.look(&b, t.onGround(out.Cells[i].At))
		for k, v := range towards {
			out.At[k].Share[i] = t.reaches(&b, v, tau)
		}
	}
	return out, nil
}

// reaches is the share of a direct ray from direction v that reaches the point the bench
// looks from, on the ground.
func (t *tracer) reaches(b *bench, v vec, tau []float64) float64 {
	if v.u <= t.ground.base.height(v.e, v.n) || v.u <= b.near.height(v.e, v.n) {
		return 0
	}
	share := 1.0
	for j := range t.layers {
		s := &b.seen[j]
		if t.layers[j].Kind == Tree {
			if s.sight.hides(v) > 0 {
				share *= tau[j]
			}
		} else if v.u <= s.sketch.arcs.height(v.e, v.n) {
			share *= tau[j]
		}
	}
	return share
}
