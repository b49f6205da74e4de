package light

import (
	"context"
	"math"
	"testing"
)

// alps is a skyline as it may be in a valley, invented.
var alps = []HorizonPoint{{0, 20}, {45, 18}, {90, 14}, {135, 10}, {180, 12}, {225, 16}, {270, 18}, {315, 22}}

func lying(t *testing.T, s Scene, seen Seen) Field {
	t.Helper()
	f, err := Lying(context.Background(), s, seen, averageSky(s.LatitudeDeg), 180)
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Zones) != 1 || len(f.Cells) != 0 || f.Zones[0].AreaM2 != 180 || f.Zones[0].Share != 1 {
		t.Fatalf("a lawn of known area alone is one zone: %+v", f.Zones)
	}
	return f
}

// TestLyingIsTraced: skyline, slope and aspect count alike for a lawn known by its area and
// for one known by its outline.
func TestLyingIsTraced(t *testing.T) {
	for _, s := range []Scene{
		{LatitudeDeg: 47.2, AltitudeM: 1400, SlopeDeg: 8, AspectDeg: 200, Horizon: alps},
		{LatitudeDeg: 47.2, SlopeDeg: 15, AspectDeg: 10},
		{LatitudeDeg: -54.8, Horizon: alps},
		{LatitudeDeg: 64, SlopeDeg: 12, AspectUnknown: true, Horizon: alps},
	} {
		by := lying(t, s, Seen{})
		s.Lawn = [][]Point{box(0, 0, 15, 12)}
		drawn, err := Trace(context.Background(), s, averageSky(s.LatitudeDeg), MostCells)
		if err != nil {
			t.Fatal(err)
		}
		a, b := by.Zones[0].Light, drawn.Zones[0].Light
		if math.Abs(a.SunHoursSeason-b.SunHoursSeason) > 0.02 || math.Abs(a.DLISeason/b.DLISeason-1) > 0.002 || by.LogSD != drawn.LogSD {
			t.Errorf("by area %.2f h and %.2f mol, by outline %.2f h and %.2f mol", a.SunHoursSeason, a.DLISeason, b.SunHoursSeason, b.DLISeason)
		}
		if open := Stated(Seen{}, s.LatitudeDeg, averageSky(s.LatitudeDeg), 1).Zones[0].Light; len(s.Horizon) > 0 && a.SunHoursSeason > open.SunHoursSeason-1 {
			t.Errorf("%.1f h behind the skyline, %.1f h in the open", a.SunHoursSeason, open.SunHoursSeason)
		}
	}
}

// TestUnknownAspect: over all bearings a slope gets the sun of level ground by the cosine of
// its tilt, where it doesn't shade itself, and of an even sky (1 + cos) / 2: Liu & Jordan
// 1963, Solar Energy 7:53.
func TestUnknownAspect(t *testing.T) {
	for _, lat := range []float64{41, 57, -45} {
		last := 0.0
		for _, tilt := range []float64{3, 8, 18} {
			factor, logSD := Scene{LatitudeDeg: lat, SlopeDeg: tilt}.unknownAspect(averageSky(lat))
			season := averageSky(lat).weights()
			mean := 0.0
			for m, k := range factor {
				mean += season[m] * k
			}
			cos := math.Cos(tilt * math.Pi / 180)
			if mean < cos-0.004 || mean > (1+cos)/2+0.012 {
				t.Errorf("%v°, tilt %v°: %.4f of the level's light, expected %.4f to %.4f", lat, tilt, mean, cos, (1+cos)/2)
			}
			if logSD <= last || logSD > 0.25 {
				t.Errorf("%v°, tilt %v°: known to %.3f, a flatter slope to %.3f", lat, tilt, logSD, last)
			}
			last = logSD
		}
	}
}

// TestLyingAndSeen: what was seen counts, as well known as seeing goes.
func TestLyingAndSeen(t *testing.T) {
	hours := 5.0
	f := lying(t, Scene{LatitudeDeg: 47.2, Horizon: alps}, Seen{SunHours: &hours})
	if math.Abs(f.Zones[0].Light.SunHoursSeason-hours) > 0.01 || f.LogSD != hoursLogSD {
		t.Errorf("%.2f h, known to %.3f", f.Zones[0].Light.SunHoursSeason, f.LogSD)
	}
}
