package draw

import (
	"math"
	"strings"
	"testing"
	"time"

	"swardwright/internal/told"
	"swardwright/report/say"
	"swardwright/site/light"
	"swardwright/sowing/money"
	"swardwright/species"
)

func english(t *testing.T) *say.Sayer {
	t.Helper()
	f, err := say.New("en-GB", "metric", "GBP", func(string) *species.Species { return nil })
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// box is a footprint.
func footprint(x0, y0, x1, y1 float64) []light.Point {
	return []light.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

// TestWallShade: the shade of a wall at noon of the equinox against the gnomons of
// Vitruvius, De architectura 9.7.1 (from memory), whose ratios of shadow to gnomon he
// gives in small whole numbers, good to about 4 in 100; and in the south of the world.
func TestWallShade(t *testing.T) {
	const high = 3.0
	for _, c := range []struct {
		place    string
		latitude float64
		ratio    float64
		side     float64 // of the lawn that the wall stands on: -1 south, 1 north
	}{
		{"Rome", 41.9, 8.0 / 9, -1},
		{"Athens", 37.98, 3.0 / 4, -1},
		{"Rhodes", 36.43, 5.0 / 7, -1},
		{"Tarentum", 40.47, 9.0 / 11, -1},
		{"Alexandria", 31.2, 3.0 / 5, -1},
		{"as Rome, mirrored", -41.9, 8.0 / 9, 1},
	} {
		_, spring := noonSun(c.latitude)
		s := Site{
			Lawn: [][]light.Point{footprint(-5, -6, 5, 6)}, LatitudeDeg: c.latitude,
			Obstacles: []light.Obstacle{{Kind: light.Solid, HeightM: high, Footprint: footprint(-20, 6.1*c.side-0.1, 20, 6.1*c.side+0.1)}},
		}
		cut, ok := s.deepest(spring)
		if !ok {
			t.Fatal(c.place, "no shade")
		}
		sum := 0.0
		for _, run := range cut.shade(spring) {
			sum += run[1] - run[0]
		}
		if got := sum / high; math.Abs(got-c.ratio) > 0.045*c.ratio {
			t.Errorf("%s: shadow %.3f of the wall, published %.3f", c.place, got, c.ratio)
		}
	}
}

// TestSunSectionWhere: nothing to draw where nothing shades, in the tropics, and in the
// polar spring without sun.
func TestSunSectionWhere(t *testing.T) {
	wall := []light.Obstacle{{Kind: light.Solid, HeightM: 3, Footprint: footprint(-20, -1, 20, -0.5)}}
	lawn := [][]light.Point{footprint(0, 0, 8, 8)}
	for _, c := range []struct {
		name string
		site Site
		want bool
	}{
		{"a wall", Site{Lawn: lawn, Obstacles: wall, LatitudeDeg: 55}, true},
		{"turned plan", Site{Lawn: lawn, Obstacles: wall, LatitudeDeg: 55, NorthDeg: 30}, true},
		{"nothing", Site{Lawn: lawn, LatitudeDeg: 55}, false},
		{"a wall to the north", Site{Lawn: lawn, Obstacles: []light.Obstacle{{Kind: light.Solid, HeightM: 3, Footprint: footprint(0, 9, 8, 10)}}, LatitudeDeg: 55}, false},
		{"tropics", Site{Lawn: lawn, Obstacles: wall, LatitudeDeg: 15}, false},
		{"near the pole", Site{Lawn: lawn, Obstacles: wall, LatitudeDeg: 89}, false},
		{"no outline", Site{Obstacles: wall, LatitudeDeg: 55}, false},
	} {
		if got := sunSection(c.site, english(t), Width) != nil; got != c.want {
			t.Errorf("%s: drawn %v, want %v", c.name, got, c.want)
		}
	}
}

// TestToScale: a side on the drawing is as long as the scale beside it says.
func TestToScale(t *testing.T) {
	for _, c := range []struct {
		side  float64 // m
		scale string
		ratio float64
	}{{13, "1 : 100", 100}, {25, "1 : 200", 200}, {2.2, "1 : 20", 20}, {900, "1 : 10,000", 10000}} {
		s := Site{Lawn: [][]light.Point{footprint(0, 0, c.side, c.side*0.6)}, Zones: []Zone{{Letter: "A", Name: "all", Share: 1, Grass: true}}}
		s.Field = fieldOver(s.Lawn[0], c.side/20, func(light.Point) int { return 0 })
		d := sitePlan(s, english(t), Width, PlanHeight)
		widest := 0.0
		for _, it := range d.Items {
			if g, ok := it.(Group); ok && len(g.Clip) > 0 {
				for _, in := range g.Items {
					if a, ok := in.(Area); ok && a.Outline.MM == 0.5 {
						widest = bounds(a.Points).W
					}
				}
			}
		}
		if want := c.side * 1000 / c.ratio; math.Abs(widest-want) > 0.01 {
			t.Errorf("%g m: %.2f mm on the drawing, want %.2f", c.side, widest, want)
		}
		if !says(d, "Scale "+c.scale) {
			t.Errorf("%g m: the scale is not %s", c.side, c.scale)
		}
	}
}

func says(d *Drawing, s string) bool {
	for _, p := range Texts(d.Items) {
		if strings.Contains(strings.ReplaceAll(p.S, "\u00a0", " "), s) {
			return true
		}
	}
	return false
}

// TestEveryWall: each obstacle of a plan, near or far, is named or numbered on it; a
// far one says how far.
func TestEveryWall(t *testing.T) {
	s := Site{
		Lawn:  [][]light.Point{footprint(0, 0, 10, 8)},
		Zones: []Zone{{Letter: "A", Name: "all", Share: 1, Grass: true}},
		Obstacles: []light.Obstacle{
			{Name: "near house", Kind: light.Solid, HeightM: 6, Footprint: footprint(0, -9, 10, -2)},
			{Name: "far tower", Kind: light.Solid, HeightM: 40, Footprint: footprint(30, 0, 45, 15)},
			{Name: "far row", Kind: light.Solid, HeightM: 20, Footprint: footprint(-60, 70, 80, 80)},
			{Name: "poplar", Kind: light.Tree, HeightM: 25, CrownM: 4, At: light.Point{X: -30, Y: 5}},
			{Name: "thin wall", Kind: light.Solid, HeightM: 2, Footprint: footprint(-0.5, 0, -0.4, 8)},
		},
	}
	s.Field = fieldOver(s.Lawn[0], 0.25, func(light.Point) int { return 0 })
	for _, w := range widths {
		d := sitePlan(s, english(t), w, PlanHeight)
		for i, name := range []string{"near house", "far tower", "far row", "poplar", "thin wall"} {
			if !says(d, name) {
				t.Errorf("%.0f mm: obstacle %d, %s, is not on the plan", w, i+1, name)
			}
		}
		if !says(d, "30 m away") { // the poplar, from its stem
			t.Errorf("%.0f mm: how far the poplar stands is not said", w)
		}
	}
}

// TestContour: the outline of a block of squares encloses its area but for the corners
// that are evened out, a hole is left out, and nested levels do not cross.
func TestContour(t *testing.T) {
	const cell = 0.5
	f := fieldOver(footprint(0, 0, 10, 10), cell, func(q light.Point) int {
		switch r := math.Max(math.Abs(q.X-5), math.Abs(q.Y-5)); {
		case r < 1:
			return 0
		case r < 3:
			return 2
		case r < 4:
			return 1
		}
		return 0
	})
	g := newGrid(f)
	levels := g.levels(func(c light.Cell) int { return c.Zone })
	for _, c := range []struct {
		least int
		want  float64
	}{{1, 8*8 - 2*2}, {2, 6*6 - 2*2}} {
		sum := 0.0
		for _, l := range g.contour(levels, c.least) {
			sum += areaOf(metres(l)) // a hole runs the other way
		}
		if math.Abs(sum-c.want) > 8*cell*cell {
			t.Errorf("from level %d: %.2f m², want %.0f", c.least, sum, c.want)
		}
	}
	if loops := g.contour(levels, 3); len(loops) != 0 {
		t.Errorf("%d outlines of a level that is not there", len(loops))
	}
}

// TestRounded: three figures, never finer than a whole unit.
func TestRounded(t *testing.T) {
	for _, c := range []struct {
		curr     string
		in, want int64
	}{
		{"SEK", 2436849, 2440000}, {"GBP", 99949, 99900}, {"GBP", 99950, 100000}, {"GBP", 4260, 4300}, {"GBP", -4260, -4300},
		{"JPY", 123456, 123000}, {"JPY", 78, 78}, {"GBP", 0, 0},
	} {
		if got := Rounded(money.Amount{Minor: c.in, Currency: c.curr}).Minor; got != c.want {
			t.Errorf("%s %d: %d, want %d", c.curr, c.in, got, c.want)
		}
	}
}

// TestSwardAdds: on the drawing the borders between the grasses stand at the sums of
// their covers, and the rest is the bare ground.
func TestSwardAdds(t *testing.T) {
	s := Seasons{
		Bare: "bare", Counts: 0.75, Bad: 0.6,
		Stands: []Stand{{"a", "one", []float64{0.4, 0.35, 0.3}}, {"b", "two", []float64{0.3, 0.4, 0.5}}},
	}
	d := swardArea(s, english(t), Width, PlanHeight)
	var frame Box
	tops := map[float64]bool{}
	ink(d.Items, 0, 0, func(ps []Point) {
		if b := bounds(ps); len(ps) == 4 && b.H == 46 {
			frame = b
		}
	})
	ink(d.Items, 0, 0, func(ps []Point) {
		for _, q := range ps {
			if math.Abs(q.X-frame.X-frame.W) < 1e-6 {
				tops[math.Round(1000*(frame.Y+frame.H-q.Y)/frame.H)/1000] = true
			}
		}
	})
	for _, want := range []float64{0, 0.3, 0.8, 1, 0.6, 0.75} {
		if !tops[want] {
			t.Errorf("no border at %.2f at the end; there are %v", want, tops)
		}
	}
	for _, want := range []string{"bare 20%", "one 30%", "two 50%", "counts for the standard 75%", "in 1 bad year of 10"} {
		if !says(d, want) {
			t.Errorf("the drawing does not say %q", want)
		}
	}
}

// TestNothing: without anything to show there is no drawing.
func TestNothing(t *testing.T) {
	f := english(t)
	for name, d := range map[string]*Drawing{
		"plan": sitePlan(Site{}, f, Width, PlanHeight), "key": keyPlan(Site{}, f, 70, 50), "setting out": settingOut(Site{}, f, Width, PlanHeight),
		"light": lightMaps(Site{}, f, Width), "sun": sunSection(Site{LatitudeDeg: 55}, f, Width), "year": yearBars(nil, [12]float64{}, f, Width),
		"passes": sowingPasses(Site{}, nil, false, f, Width), "watering": wateringStrip(nil, f, Width), "sward": swardArea(Seasons{}, f, Width, PlanHeight),
		"cut": cutHeights(nil, f, Width, 30), "prices": priceBars(nil, f, Width), "ground": groundSection(Ground{}, f, Width, PlanHeight), "mixture": mixtureBars([2]told.Sentence{}, nil, f, Width),
	} {
		if d != nil {
			t.Errorf("%s is drawn", name)
		}
	}
}

// TestPassesStayOnWhatIsSown: no one walks with seed where none is sown, and on a slope
// that is kept level both passes run alike.
func TestPassesStayOnWhatIsSown(t *testing.T) {
	lawn := footprint(0, 0, 12, 9)
	s := Site{
		Lawn: [][]light.Point{lawn}, Zones: []Zone{{Letter: "A", Grass: true}, {Letter: "B"}}, AspectDeg: 180,
		Field: fieldOver(lawn, 0.25, func(q light.Point) int {
			if q.Y < 5 {
				return 1
			}
			return 0
		}),
	}
	for _, level := range []bool{false, true} {
		d := sowingPasses(s, []Pass{{0, 286}}, level, english(t), Width)
		upright, lines := 0, 0
		var walk func(items []Item)
		walk = func(items []Item) {
			for _, it := range items {
				switch v := it.(type) {
				case Group:
					walk(v.Items)
				case Line:
					if v.Color != Blue {
						continue
					}
					lines++
					if math.Abs(v.Points[0].X-v.Points[1].X) < 1e-6 {
						upright++
					}
					for _, q := range v.Points {
						if q.Y > 0.6*d.H { // the sown part is the upper 4 m of 9
							t.Errorf("level %t: a walk reaches %.1f of %.1f", level, q.Y, d.H)
						}
					}
				}
			}
		}
		walk(d.Items)
		if lines == 0 || (upright == 0) != level {
			t.Errorf("level %t: %d walks, %d of them up and down", level, lines, upright)
		}
	}
}

// TestEveryWeekHasItsFigures: a week of little water is labelled as well.
func TestEveryWeekHasItsFigures(t *testing.T) {
	d := wateringStrip([]WaterWeek{{"week 1", 31, 40}, {"week 2", 1, 38}, {"week 3", 2, 2}}, english(t), 80)
	for _, want := range []string{"31 mm", "40 mm", "1 mm", "38 mm", "2 mm"} {
		if !says(d, want) {
			t.Errorf("no %q", want)
		}
	}
	for _, p := range Texts(d.Items) {
		for _, q := range p.Corners {
			if q.X > d.W {
				t.Errorf("%q reaches %.1f of %.1f", p.S, q.X, d.W)
			}
		}
	}
}

// TestYearsOfTheLastMonth: a year that begins with the last month is named inside the
// drawing.
func TestYearsOfTheLastMonth(t *testing.T) {
	on := func(year int, m time.Month, d int) time.Time { return time.Date(year, m, d, 0, 0, 0, 0, time.UTC) }
	for _, w := range []float64{Width, 90} {
		d := yearBars([]Lane{{"mowing", Mowing, []Span{{From: on(2026, time.February, 3), To: on(2027, time.January, 20)}}}}, [12]float64{}, english(t), w)
		named := false
		for _, p := range Texts(d.Items) {
			named = named || p.S == "2027"
			for _, q := range p.Corners {
				if q.X > w+0.1 {
					t.Errorf("%q reaches %.1f of %.1f", p.S, q.X, w)
				}
			}
		}
		if !named {
			t.Error("the second year is not named")
		}
	}
}
