package light

import (
	"encoding/binary"
	"math"
	"strings"
	"testing"
)

func TestFaults(t *testing.T) {
	lawn := [][]Point{box(0, 0, 10, 8)}
	wall := Obstacle{Name: "shed", Kind: Solid, Footprint: box(-3, 0, -1, 4), HeightM: 2}
	with := func(change func(*Obstacle)) Scene {
		o := wall
		change(&o)
		return Scene{Lawn: lawn, Obstacles: []Obstacle{{Kind: Tree, At: Point{20, 0}, HeightM: 5, CrownM: 3}, o}}
	}
	circle := make([]Point, 100000)
	for i := range circle {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(len(circle)))
		circle[i] = Point{10 * cos, 10 * sin}
	}
	below := -1.0
	for _, c := range []struct {
		what       string
		s          Scene
		path, says string // empty: no fault
	}{
		{"in order", with(func(*Obstacle) {}), "", ""},
		{"no lawn", Scene{}, "lawn.outline", "missing"},
		{"two corners", Scene{Lawn: [][]Point{{{0, 0}, {1, 1}}}}, "lawn.outline", "at least 3 corners, has 2"},
		{"a line", Scene{Lawn: [][]Point{{{0, 0}, {1, 1}, {2, 2}}}}, "lawn.outline", "no area"},
		{"a bow-tie", Scene{Lawn: [][]Point{{{0, 0}, {4, 4}, {4, 0}, {0, 4}}}}, "lawn.outline", "crosses itself: side 1–2 meets side 3–4"},
		{"a lopsided bow-tie", Scene{Lawn: [][]Point{{{0, 0}, {4, 4}, {4, 0}, {0, 2}}}}, "lawn.outline", "crosses itself"},
		{"a spike", Scene{Lawn: [][]Point{{{0, 0}, {4, 0}, {8, 0}, {4, 0}, {4, 4}}}}, "lawn.outline", "crosses itself"},
		{"a repeated corner", Scene{Lawn: [][]Point{{{0, 0}, {4, 0}, {4, 0}, {4, 4}, {0, 0}}}}, "", ""},
		{"clockwise", Scene{Lawn: [][]Point{{{0, 0}, {0, 4}, {4, 0}}}}, "", ""},
		{"a hundred thousand corners", Scene{Lawn: [][]Point{circle}}, "lawn.outline", "100000 corners, more than 2000"},
		{"corners at infinity", Scene{Lawn: [][]Point{{{0, 0}, {math.Inf(1), 0}, {0, 4}}}}, "lawn.outline", "corner 2"},
		{"corners that are no number", Scene{Lawn: [][]Point{{{0, 0}, {4, math.NaN()}, {0, 4}}}}, "lawn.outline", "corner 2"},
		{"parts one over the other", Scene{Lawn: [][]Point{box(0, 0, 4, 4), box(2, 2, 6, 6)}}, "lawn.part[2].outline", "overlaps part 1"},
		{"a part inside another", Scene{Lawn: [][]Point{box(0, 0, 9, 9), box(2, 2, 6, 6)}}, "lawn.part[2].outline", "overlaps part 1"},
		{"a part given twice", Scene{Lawn: [][]Point{box(0, 0, 9, 9), box(0, 0, 9, 9)}}, "lawn.part[2].outline", "overlaps part 1"},
		{"parts side by side", Scene{Lawn: [][]Point{box(0, 0, 4, 4), box(4, 0, 8, 4)}}, "", ""},
		{"a pole", Scene{LatitudeDeg: 90, Lawn: lawn}, "", ""},
		{"beyond a pole", Scene{LatitudeDeg: 91, Lawn: lawn}, "place.latitude", "91"},
		{"a cliff", Scene{SlopeDeg: 89, Lawn: lawn}, "lawn.slope_deg", "89"},
		{"skyline overhead", Scene{Lawn: lawn, Horizon: []HorizonPoint{{0, 3}, {90, 90}}}, "lawn.horizon[2]", "elevation 90"},
		{"no height", with(func(o *Obstacle) { o.HeightM = 0 }), "obstacle[2].height_m", `"shed": a height of 0 m`},
		{"below ground", with(func(o *Obstacle) { o.TopM = &below }), "obstacle[2].top_m", "-1.00 m above the ground at its foot"},
		{"height that is no number", with(func(o *Obstacle) { o.HeightM = math.NaN() }), "obstacle[2].height_m", "NaN"},
		{"unknown kind", with(func(o *Obstacle) { o.Kind = "dome" }), "obstacle[2].kind", `"dome"`},
		{"a footprint of a hundred thousand corners", with(func(o *Obstacle) { o.Footprint = circle }), "obstacle", "100000 corners together"},
		{"crossed footprint", with(func(o *Obstacle) { o.Footprint = []Point{{0, 0}, {4, 4}, {4, 0}, {0, 4}} }), "obstacle[2].footprint", `"shed": crosses itself`},
		{"gable of five corners", with(func(o *Obstacle) {
			o.Kind, o.EavesM = Gable, 1
			o.Footprint = append(box(-3, 0, -1, 4), Point{-3.5, 2})
		}), "obstacle[2].footprint", "rectangle"},
		{"gable without eaves", with(func(o *Obstacle) { o.Kind = Gable }), "obstacle[2].eaves_m", "eaves at 0 m"},
		{"eaves over the ridge", with(func(o *Obstacle) { o.Kind, o.EavesM = Gable, 3 }), "obstacle[2].eaves_m", "below the ridge"},
		{"screen brighter than the sky", with(func(o *Obstacle) { o.Kind, o.Transmittance = Screen, 1.5 }), "obstacle[2].transmittance", "1.5"},
		{"stem longer than the tree", with(func(o *Obstacle) { o.Kind, o.CrownM, o.ClearStemM = Tree, 3, 2 }), "obstacle[2].clear_stem_m", "clear stem of 2 m"},
		{"probe in a solid", Scene{Lawn: lawn, Obstacles: []Obstacle{wall}, Probes: []Probe{{"bench", Point{-2, 2}}}}, "probe[1].at", `"bench": stands inside obstacle 1 "shed"`},
	} {
		got := c.s.Faults()
		switch {
		case c.path == "" && len(got) > 0:
			t.Errorf("%s: %v", c.what, got)
		case c.path != "" && (len(got) != 1 || got[0].Path != c.path || !strings.Contains(got[0].Problem, c.says)):
			t.Errorf("%s: %v, want %s: … %s", c.what, got, c.path, c.says)
		}
	}
}

func TestLawnUnderObstacles(t *testing.T) {
	s := Scene{LatitudeDeg: 57, Lawn: [][]Point{box(0, 0, 4, 4)}, Obstacles: []Obstacle{{Kind: Solid, HeightM: 3, Footprint: box(-1, -1, 5, 5)}}}
	if _, err := Trace(t.Context(), s, averageSky(57), MostCells); err == nil || !strings.Contains(err.Error(), "under obstacles") {
		t.Errorf("a lawn inside a solid: %v", err)
	}
	s.Obstacles[0].Footprint = box(1, 1, 2, 3)
	f := trace(t, s)
	area := 0.0
	for _, z := range f.Zones {
		area += z.AreaM2
	}
	if math.Abs(area-14) > 1e-9 || len(f.Notes) != 2 {
		t.Errorf("a lawn of 16 m² about a solid of 2 m²: %v m², notes %q", area, f.Notes)
	}
}

// A scene of any numbers either has faults or has an answer.
func FuzzScene(f *testing.F) {
	seed := func(vs ...float64) {
		var b []byte
		for _, v := range vs {
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(v))
		}
		f.Add(b)
	}
	seed(57, 0, 3, 90, 4, 0, 0, 10, 0, 10, 8, 0, 8, 0, -3, 0, -1, 0, -1, 4, -3, 4, 2.5, 1, 5, 5)
	seed(-90, 12, 0, 0, 9, 0, 0, 5, 5, 5, 0, 0, 5, 2, 1, 1, 2, 1, 2, 2, 1, 2, 4, 0.3, 1, 1)
	seed(0, 359, 45, 180, 80, 0, 0, 1e-9, 0, 1, 1, 0, 1, 3, 0, 0, 1, 0, 1, 1, 0, 1, 500, 0, 0, 0)
	f.Fuzz(func(t *testing.T, data []byte) {
		i := 0
		next := func() float64 {
			if len(data) < 8*(i+1) {
				return float64(i % 5)
			}
			v := math.Float64frombits(binary.LittleEndian.Uint64(data[8*i:]))
			i++
			return v
		}
		point := func() Point { return Point{next(), next()} }
		s := Scene{LatitudeDeg: next(), PlanNorthDeg: next(), SlopeDeg: next(), AspectDeg: next()}
		s.Horizon = []HorizonPoint{{90, next()}}
		s.Lawn = [][]Point{{point(), point(), point(), point()}}
		kinds := []Kind{Solid, Gable, Tree, Screen}
		o := Obstacle{Kind: kinds[int(math.Abs(math.Mod(next(), 4)))%4]}
		o.Footprint = []Point{point(), point(), point(), point()}
		o.HeightM, o.Transmittance = next(), next()
		o.At, o.CrownM, o.EavesM = o.Footprint[0], o.HeightM, o.HeightM/2
		s.Obstacles = []Obstacle{o}
		s.Probes = []Probe{{At: point()}}
		if len(s.Faults()) > 0 {
			return
		}
		got, err := SunHoursOn(t.Context(), s, Sky{}, []int{1, 172})
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range got[0].Days {
			if !(d.SunHours >= 0 && d.SunHours <= 24+1e-9) {
				t.Fatalf("%v h: %+v", d.SunHours, s)
			}
		}
		y := newYear(s, averageSky(s.LatitudeDeg))
		var l Light
		y.worker().fill(y.onGround(s.clearOfFaces(s.Probes[0].At)), &l)
		if !(l.DLISeason >= 0 && l.DLISeason < 100 && l.SkyView >= 0 && l.SkyView <= 1+1e-9 && l.LeafShade >= 0 && l.LeafShade <= 1) {
			t.Fatalf("%+v: %+v", l, s)
		}
	})
}
