package light

import (
	"context"
	"math"

	"swardwright/internal/told"
)

// Lying is the light of a lawn of which its area is known, how it lies, by its slope and
// the skyline, and perhaps what was seen on it. Without anything seen nothing else is
// taken to stand about it.
func Lying(ctx context.Context, scene Scene, seen Seen, sky Sky, areaM2 float64) (Field, error) {
	scene.Lawn = [][]Point{{{-0.5, -0.5}, {0.5, -0.5}, {0.5, 0.5}, {-0.5, 0.5}}} // as any part of it
	scene.Obstacles, scene.Probes = nil, nil
	f, err := traceCells(ctx, scene, sky, 1)
	if err != nil {
		return Field{}, err
	}
	f.CellM, f.Cells = 0, nil
	f.Zones = []Zone{{Letter: "A", Name: wholeLawn, Share: 1, AreaM2: areaM2, Light: f.Zones[0].Light}}
	if seen == (Seen{}) {
		f.Notes = append(f.Notes, told.Say("site.nothing-said-of-shade"))
	}
	return f.Corrected(seen, scene.LatitudeDeg, sky), nil
}

// aspects are how many bearings a slope may fall towards that is known to fall but
// not where to.
const aspects = 8

// unknownAspect is what a slope is over all bearings that it may fall towards: the
// open lawn's light over that of level ground, by month, and how much it differs by
// bearing, as the standard deviation of the season's logarithm.
func (s Scene) unknownAspect(sky Sky) (factor [12]float64, logSD float64) {
	open := Scene{LatitudeDeg: s.LatitudeDeg, LongitudeDeg: s.LongitudeDeg, AltitudeM: s.AltitudeM}
	level := newYear(open, sky)
	open.SlopeDeg = s.SlopeDeg
	var ln, square float64
	for k := range aspects {
		open.AspectDeg = float64(k) * 360 / aspects
		y := newYear(open, sky)
		for m := range factor {
			factor[m] += ratio(y.openDLI[m], level.openDLI[m]) / aspects
		}
		x := math.Log(max(ratio(y.openMean, level.openMean), 1e-3))
		ln += x / aspects
		square += x * x / aspects
	}
	return factor, math.Sqrt(max(0, square-ln*ln))
}

// turned is the light of a field that was traced on the level, where its slope falls
// towards an unknown bearing.
func (f *Field) turned(s Scene, sky Sky, y *year) {
	factor, logSD := s.unknownAspect(sky)
	y.openMean = 0
	for m, k := range factor {
		f.OpenDLI[m] *= k
		y.openMean += y.weights[m] * f.OpenDLI[m]
	}
	turn := func(l *Light) {
		for m, k := range factor {
			l.DLI[m] *= k
		}
		l.season(y.weights, y.openMean)
	}
	for i := range f.Cells {
		turn(&f.Cells[i].Light)
	}
	for i := range f.Probes {
		turn(&f.Probes[i].Light)
	}
	f.LogSD = math.Hypot(f.LogSD, logSD)
	f.Notes = append(f.Notes, told.Say("site.aspect-unknown", told.OneIn(math.Tan(s.SlopeDeg*math.Pi/180)), told.Share(math.Expm1(logSD))))
}

// onTheLevel is the scene as it is traced: a slope that falls towards an unknown
// bearing as none.
func (s Scene) onTheLevel() Scene {
	if s.AspectUnknown {
		s.SlopeDeg = 0
	}
	return s
}
