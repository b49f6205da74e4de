package site

import (
	"math"
	"testing"

	"swardwright/internal/approx"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/site/weather"
)

var near = approx.Near

// Edging by hand: 10 × 6 m with a wall along one long side has 22 m, since an edge within 0.3 m of a wall needs none of its own;
// of an area alone a lawn half as long again as wide is taken.
func TestEdgingWorked(t *testing.T) {
	box := func(x, y, w, h float64) []light.Point {
		return []light.Point{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}
	}
	lawn := Survey{Lawn: Lawn{Parts: [][]light.Point{box(2, 3, 10, 6)}}}
	near(t, "in the open", lawn.edging(), 32, 1e-9)
	for gap, want := range map[float64]float64{0.29: 22, 0.31: 32} {
		lawn.Obstacles = []light.Obstacle{{Footprint: box(-10, 9+gap, 40, 5)}}
		near(t, "beside a wall", lawn.edging(), want, 0.61)
	}
	// The same lawn turned, 10 m of it along a wall that ends where it does: of the short sides what lies within 0.3 m of it needs none either, in
	// steps of 0.1 m by their middles.
	lawn = Survey{Lawn: Lawn{Parts: [][]light.Point{{{X: 0, Y: 0}, {X: 6, Y: 8}, {X: 1.2, Y: 11.6}, {X: -4.8, Y: 3.6}}}}}
	near(t, "turned", lawn.edging(), 32, 1e-9)
	for gap, want := range map[float64]float64{0.1: 21.6, 0.22: 21.8, 0.27: 22, 0.32: 32} {
		off := func(x, y, m float64) light.Point { return light.Point{X: x + 0.8*m, Y: y - 0.6*m} }
		lawn.Obstacles = []light.Obstacle{{Footprint: []light.Point{off(0, 0, gap), off(6, 8, gap), off(6, 8, gap+0.2), off(0, 0, gap+0.2)}}}
		near(t, "turned, beside a wall", lawn.edging(), want, 1e-9)
	}
	stated := 12.5
	near(t, "as stated", Survey{Lawn: Lawn{EdgingM: &stated}}.edging(), 12.5, 0)
	near(t, "by the area: 8 × 12 m", Survey{Lawn: Lawn{AreaM2: 96}}.edging(), 40, 1e-9)
	for _, r := range []struct {
		p    light.Point
		want float64
	}{{light.Point{X: 5, Y: 4}, 3}, {light.Point{X: -2, Y: 1}, 2}, {light.Point{X: 13, Y: 5}, 5}} {
		near(t, "distance of a segment", segmentDistance(r.p, light.Point{X: 0, Y: 1}, light.Point{X: 10, Y: 1}), r.want, 1e-9)
	}
	near(t, "of one that slants", segmentDistance(light.Point{X: 0, Y: 5}, light.Point{X: 0, Y: 0}, light.Point{X: 4, Y: 3}), 4, 1e-9)
}

// Leaves by hand, in a year whose coldest day is the first: 8 K over 5 °C a day from day 100 make 120 degree-days on day 114; they
// have fallen when the mean is below 8 °C, past the middle of the year.
func TestLeafDatesWorked(t *testing.T) {
	var year [365]float64
	for d := range year {
		switch {
		case d >= 100 && d < 280:
			year[d] = 13
		case d >= 280:
			year[d] = 7.9
		}
	}
	on, off := leafDates(year, 0)
	near(t, "out", on, 115, 0)
	near(t, "fallen", off, 281, 0)
	for d := range year {
		year[d] = 8
	}
	on, off = leafDates(year, 10)
	near(t, "out where they never fall: 3 K a day make 120 on the fortieth", on, 50, 0)
	late, fallen := leafDates(year, 300)
	near(t, "out where the year turns on day 301", late, 340, 0)
	near(t, "and fallen by the day before", fallen, 300, 0)
	if off != 10 {
		t.Errorf("where it is never colder than 8 °C they fall on day %g, want the year's end", off)
	}
	for d := range year {
		year[d] = 5
	}
	on, off = leafDates(year, 0)
	near(t, "never out", on, 1, 0)
	near(t, "never fallen", off, 1, 0)
}

// The sky's months weigh by their growth: one at 9 °C e^-2 of one at 20 °C and warmer; one that weighs under 0.02 is no part of
// the season. A month's mean is of days smoothed over a month, so months are set in threes.
func TestSkyWorked(t *testing.T) {
	s := &weather.Series{Years: 1, MeanC: make([]float32, 365)}
	for m := range s.Normals.MeanC {
		s.Normals.MeanC[m] = 10 - 10*math.Cos(2*math.Pi*float64(m)/12)
	}
	for d := range s.MeanC {
		switch {
		case d < 120:
			s.MeanC[d] = 4 // e^-4.23, 0.0145
		case d < 212:
			s.MeanC[d] = 9
		default:
			s.MeanC[d] = 26
		}
	}
	got := sky(s, [12]float64{5: 20})
	near(t, "February", got.SeasonWeight[1], 0, 0)
	near(t, "June", got.SeasonWeight[5], math.Exp(-2), 1e-6)
	near(t, "October", got.SeasonWeight[9], 1, 1e-9)
	near(t, "radiation", got.GlobalMJ[5], 20, 0)
	year := meanYear(s)
	near(t, "smoothed over 31 days", year[120], (15*4+16*9)/31.0, 1e-6)
}

// Roots by hand: 30 cm on ordinary ground (mown lawns), 5 cm below thin topsoil, 8 cm at least.
func TestRootsWorked(t *testing.T) {
	for depth, want := range map[float64]float64{40: 0.30, 25: 0.30, 15: 0.20, 2: 0.08} {
		near(t, "roots", onSoil(weather.Exposure{}, ground.Soil{DepthCM: depth}).RootDepthM, want, 1e-9)
	}
	z := light.Zone{Light: light.Light{DLI: [12]float64{6: 10, 7: 90}}}
	e := exposure(z, [12]float64{6: 40, 7: 45}, ground.Soil{DepthCM: 30, FieldCapacity: 0.3, WiltingPoint: 0.1, Saturation: 0.5, DrainMMD: 60}, true)
	near(t, "of the open's light", e.OpenShare[6], 0.25, 1e-9)
	near(t, "and no more than all", e.OpenShare[7], 1, 1e-9)
	near(t, "where the open has none", e.OpenShare[0], 1, 1e-9)
	if !e.Irrigated || e.FieldCapacity != 0.3 || e.WiltingPoint != 0.1 || e.Saturation != 0.5 || e.DrainMMD != 60 {
		t.Errorf("%+v", e)
	}
}

// The wet share of a site by hand: of each zone's years by area.
func TestWetShareWorked(t *testing.T) {
	zone := func(share float64, days ...float64) (z Zone) {
		z.Share = share
		for _, wet := range days {
			z.Years = append(z.Years, weather.Year{WetDays: wet, GrowingDays: 200})
		}
		return z
	}
	c := &Conditions{Zones: []Zone{zone(0.75, 20, 60), zone(0.25, 100, 140)}}
	near(t, "wet share", c.Ground().WetShare, 0.75*0.2+0.25*0.6, 1e-9)
	c.Zones, c.Soil.Wetness = nil, 0.5
	near(t, "without years, by its class", c.Ground().WetShare, 0.2, 1e-9)
}

// A mean year by hand: a quarter of the ground with 10 and 30 days, the rest with 4: 5 + 3.
func TestMeanYearWorked(t *testing.T) {
	years := func(days ...float64) (out []weather.Year) {
		for _, d := range days {
			out = append(out, weather.Year{SnowDays: d})
		}
		return out
	}
	c := Conditions{Zones: []Zone{{Zone: light.Zone{Share: 0.25}, Years: years(10, 30)}, {Zone: light.Zone{Share: 0.75}, Years: years(4)}}}
	near(t, "days of snow", c.MeanYear(func(y *weather.Year) float64 { return y.SnowDays }), 8, 1e-12)
}

// Some zones as a lawn of their own: a fifth and three tenths of one are two and three fifths of what they make; the lawn itself stays as it is.
func TestOnlyWorked(t *testing.T) {
	c := &Conditions{AreaM2: 7, Zones: make([]Zone, 3)}
	for i, share := range []float64{0.2, 0.5, 0.3} {
		c.Zones[i].Share, c.Zones[i].Years = share, []weather.Year{{DroughtDays: float64(10 * i)}, {DroughtDays: float64(10*i + 4)}}
	}
	near(t, "drought of the whole", c.MeanYear(func(y *weather.Year) float64 { return y.DroughtDays }), 0.2*2+0.5*12+0.3*22, 1e-9)
	some := c.Only(0, 2)
	if len(some.Zones) != 2 || some.AreaM2 != 7 || c.Zones[0].Share != 0.2 {
		t.Fatalf("%+v", some)
	}
	near(t, "the first", some.Zones[0].Share, 0.4, 1e-12)
	near(t, "the third", some.Zones[1].Share, 0.6, 1e-12)
	near(t, "their drought", some.MeanYear(func(y *weather.Year) float64 { return y.DroughtDays }), 0.4*2+0.6*22, 1e-9)
}
