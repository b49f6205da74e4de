package light

import (
	"math"
	"reflect"
	"slices"
	"swardwright/internal/told"
	"testing"
)

// orchard is a lawn with every kind of obstacle about it. Invented.
func orchard() Scene {
	return Scene{
		LatitudeDeg: 52.05, PlanNorthDeg: 340, SlopeDeg: 3, AspectDeg: 220,
		Horizon: []HorizonPoint{{0, 5}, {90, 9}, {150, 6}, {180, 3}, {270, 1}},
		Lawn:    [][]Point{{{0, 0}, {26, 0}, {28, 9}, {24, 17}, {0, 15}}},
		Obstacles: []Obstacle{
			{Name: "garden wall", Kind: Solid, Footprint: box(-1, -1, 28, -0.6), HeightM: 2.1},
			{Name: "hedge", Kind: Screen, Transmittance: 0.1, Footprint: box(-2, 0, -1, 15), HeightM: 2.6},
			{Name: "old apple tree", Kind: Tree, At: Point{5, 4}, HeightM: 6, ClearStemM: 1.4, CrownM: 6, Leaf: Deciduous},
			{Name: "apple tree by the gate", Kind: Tree, At: Point{12, 4.5}, HeightM: 5.5, ClearStemM: 1.5, CrownM: 5.5, Leaf: Deciduous},
			{Kind: Gable, Footprint: box(8, 17.5, 14, 20), HeightM: 4, EavesM: 2.2},
		},
	}
}

// northHouse has a lawn to the south and the north of a house, and a birch.
func northHouse() Scene {
	return Scene{
		LatitudeDeg: 60,
		Lawn:        [][]Point{box(-8, 6, 8, 14), box(-8, -14, 8, -6)},
		Obstacles: []Obstacle{
			{Name: "house", Kind: Gable, Footprint: box(-7, -5.5, 7, 5.5), HeightM: 8, EavesM: 5},
			{Name: "the birch", Kind: Tree, At: Point{5, -10}, HeightM: 11, ClearStemM: 2.5, CrownM: 6, Leaf: Deciduous},
		},
	}
}

func trace(t testing.TB, s Scene) Field {
	t.Helper()
	f, err := traceCells(t.Context(), s, averageSky(s.LatitudeDeg), 0.25)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func towards(of string) told.Sentence {
	return told.Say("place.side", told.Term{Kind: "compass", Word: of})
}

func the(name string) told.Sentence { return told.Say("place.the-named", told.Verbatim(name)) }

func TestZones(t *testing.T) {
	for _, c := range []struct {
		what  string
		s     Scene
		names []told.Sentence // lightest first
	}{
		{"open ground", scenes(57)["a"], []told.Sentence{wholeLawn}},
		{"open slope", scenes(57)["g"], []told.Sentence{wholeLawn}},
		{"wall to the south", scenes(57)["b"], []told.Sentence{told.Say("place.open", towards("north")), told.Say("place.near", the("wall"))}},
		{"court", scenes(57)["d"], []told.Sentence{told.Say("place.lighter", towards("north")), told.Say("place.against", the("south wall"))}},
		{"orchard", orchard(), []told.Sentence{told.Say("place.open", towards("north-east")), told.Say("place.among-trees"), told.Say("place.against", the("garden wall"))}},
		{"house and birch", northHouse(), nil},
	} {
		f := trace(t, c.s)
		var names []told.Sentence
		var share, area, cells float64
		for i, z := range f.Zones {
			names = append(names, z.Name)
			share += z.Share
			area += z.AreaM2
			if want := string(rune('A' + i)); z.Letter != want {
				t.Errorf("%s: zone %d has letter %s", c.what, i, z.Letter)
			}
			if i > 0 && z.Light.DLISeason >= f.Zones[i-1].Light.DLISeason {
				t.Errorf("%s: zone %s is lighter than the one before", c.what, z.Letter)
			}
			if z.AreaM2 < leastM2 {
				t.Errorf("%s: zone %s has %v m²", c.what, z.Letter, z.AreaM2)
			}
		}
		lawn := 0.0
		for _, part := range c.s.Lawn {
			a, _ := planArea(part)
			lawn += math.Abs(a)
		}
		for _, cell := range f.Cells {
			cells += cell.AreaM2
		}
		if math.Abs(share-1) > 1e-9 || math.Abs(area-lawn) > 1e-6*lawn || math.Abs(cells-lawn) > 1e-6*lawn {
			t.Errorf("%s: shares add to %v, zones to %v m², cells to %v m², the lawn has %v m²", c.what, share, area, cells, lawn)
		}
		if len(f.Zones) > maxZones {
			t.Errorf("%s: %d zones", c.what, len(f.Zones))
		}
		if c.names != nil && !reflect.DeepEqual(names, c.names) {
			t.Errorf("%s: zones %v, want %v", c.what, names, c.names)
		}
		if c.names == nil {
			t.Logf("%s: %v", c.what, names)
		}
	}
}

// A lawn measured a few centimetres otherwise has the same zones.
func TestZonesHold(t *testing.T) {
	all := map[string]Scene{"wall": scenes(57)["b"], "court": scenes(57)["d"]}
	if !testing.Short() {
		all["house"] = northHouse()
	}
	for name, s := range all {
		want := trace(t, s)
		for _, shift := range []Point{{0.04, 0}, {0, -0.04}, {-0.03, 0.03}} {
			moved := s
			moved.Lawn = nil
			for _, part := range s.Lawn {
				var out []Point
				for i, p := range part {
					if i%2 == 0 { // some corners and not others
						p = Point{p.X + shift.X, p.Y + shift.Y}
					}
					out = append(out, p)
				}
				moved.Lawn = append(moved.Lawn, out)
			}
			got := trace(t, moved)
			if len(got.Zones) != len(want.Zones) {
				t.Errorf("%s: %d zones instead of %d", name, len(got.Zones), len(want.Zones))
				continue
			}
			for i, z := range got.Zones {
				if w := want.Zones[i]; !reflect.DeepEqual(z.Name, w.Name) || math.Abs(z.Share-w.Share) > 0.04 || math.Abs(z.Light.DLISeason-w.Light.DLISeason) > 0.5 {
					t.Errorf("%s, moved by %v: %v %.3f of the lawn, %.2f mol, instead of %v %.3f, %.2f",
						name, shift, z.Name, z.Share, z.Light.DLISeason, w.Name, w.Share, w.Light.DLISeason)
				}
			}
		}
	}
}

func TestClassesAreApart(t *testing.T) {
	// Light that falls evenly from 30 to 3 mol is cut where grasses tell it apart.
	var cells []Cell
	for i := range 1000 {
		cells = append(cells, Cell{AreaM2: 0.1, Light: Light{DLISeason: 30 - 27*float64(i)/999}})
	}
	class := classes(cells, 100)
	var sum, n [maxZones]float64
	for i, c := range class {
		sum[c] += cells[i].Light.DLISeason
		n[c]++
		if i > 0 && c < class[i-1] {
			t.Fatalf("cell %d, darker, is in a lighter class", i)
		}
	}
	for c := 1; c < maxZones; c++ {
		if n[c] == 0 {
			t.Fatalf("only %d classes of light from 30 to 3 mol", c)
		}
		if a, b := sum[c-1]/n[c-1], sum[c]/n[c]; a < b*stepRatio || a < b+stepMol {
			t.Errorf("classes of %.1f and %.1f mol are too near", a, b)
		}
	}
	// Hardly any difference is none.
	for i := range cells {
		cells[i].Light.DLISeason = 20 + float64(i%5)/2
	}
	if c := slices.Max(classes(cells, 100)); c != 0 {
		t.Errorf("%d classes of light from 20 to 22 mol", c+1)
	}
}

func TestLeafShade(t *testing.T) {
	under := func(o Obstacle) Light {
		s := Scene{LatitudeDeg: 57, Lawn: [][]Point{box(-1, -1, 1, 1)}, Obstacles: []Obstacle{o}, Probes: []Probe{{At: Point{}}}}
		return trace(t, s).Probes[0].Light
	}
	tree := under(Obstacle{Kind: Tree, At: Point{0, -3}, HeightM: 9, ClearStemM: 1, CrownM: 7})
	if tree.LeafShade < 0.999 || tree.OpenShare > 0.7 {
		t.Errorf("under a tree: %+v", tree)
	}
	wall := under(longWall(1.5, 3))
	if wall.LeafShade != 0 || wall.OpenShare > 0.9 {
		t.Errorf("behind a wall: %+v", wall)
	}
	lattice := under(Obstacle{Kind: Screen, Transmittance: 0.4, HeightM: 3, Footprint: box(-20, -1.2, 20, -1.1)})
	if lattice.LeafShade > 1e-9 || lattice.OpenShare > 0.95 {
		t.Errorf("behind a screen: %+v", lattice)
	}
	pine := under(Obstacle{Kind: Tree, At: Point{0, -3}, HeightM: 9, ClearStemM: 1, CrownM: 7, Leaf: Evergreen})
	// Broad leaves: dense in June, bare in January.
	if !(tree.SunHours[5] < pine.SunHours[5] && tree.SunHours[2] > pine.SunHours[2]) {
		t.Errorf("hours under a broadleaf %v, under a pine %v", tree.SunHours, pine.SunHours)
	}
}

// Leaves fall on the ground within 5 m of a deciduous crown: of a strip a metre wide and 40 m long with a crown of 8 m over
// its end, on the 9 m nearest the stem; none of an evergreen, a wall, or a tree further off.
func TestLeavesFall(t *testing.T) {
	for _, c := range []struct {
		o    Obstacle
		want float64 // of the lawn
	}{
		{Obstacle{Kind: Tree, At: Point{0, 0.5}, HeightM: 10, ClearStemM: 2, CrownM: 8, Leaf: Deciduous}, 9.0 / 40},
		{Obstacle{Kind: Tree, At: Point{20, 0.5}, HeightM: 10, ClearStemM: 2, CrownM: 8, Leaf: Deciduous}, 18.0 / 40},
		{Obstacle{Kind: Tree, At: Point{-9.1, 0.5}, HeightM: 10, ClearStemM: 2, CrownM: 8, Leaf: Deciduous}, 0},
		{Obstacle{Kind: Tree, At: Point{0, 0.5}, HeightM: 10, ClearStemM: 2, CrownM: 8, Leaf: Evergreen}, 0},
		{Obstacle{Kind: Solid, HeightM: 3, Footprint: box(-2, -2, -1, 2)}, 0},
	} {
		got := 0.0
		for _, z := range trace(t, Scene{LatitudeDeg: 57, Lawn: [][]Point{box(0, 0, 40, 1)}, Obstacles: []Obstacle{c.o}}).Zones {
			got += z.Share * z.LeafFall
		}
		if math.Abs(got-c.want) > 0.01 {
			t.Errorf("%+v: leaves on %.3f of the lawn, want %.3f", c.o, got, c.want)
		}
	}
}

func TestLeafDates(t *testing.T) {
	north, south := Sky{LeafOnDay: 135, LeafOffDay: 290}, Sky{LeafOnDay: 280, LeafOffDay: 120}
	l := layer{Obstacle: Obstacle{Kind: Tree}}
	for _, c := range []struct {
		sky  Sky
		day  float64
		want float64
	}{
		{north, 1, leafOff}, {north, 134, leafOff}, {north, 135, leafOn}, {north, 289, leafOn}, {north, 290, leafOff},
		{south, 1, leafOn}, {south, 119, leafOn}, {south, 120, leafOff}, {south, 279, leafOff}, {south, 280, leafOn},
	} {
		if got := l.transmittance(c.day, c.sky); got != c.want {
			t.Errorf("leaves from day %v to %v: day %v lets %v through", c.sky.LeafOnDay, c.sky.LeafOffDay, c.day, got)
		}
	}
	// May, whose 15th day is day 135: fourteen days bare and seventeen in leaf.
	if got, want := l.monthTransmittance(4, north), (14*leafOff+17*leafOn)/31; math.Abs(got-want) > 1e-12 {
		t.Errorf("May lets %v through, want %v", got, want)
	}
}

// TestThinned: a crown of which a share of the leaves is taken out lets through what
// Beer's law says of the rest: light through leaves falls with the exponential of their area
// (Monsi & Saeki 1953), so 0.19 of a full crown becomes 0.19^0.8 = 0.265 with a fifth less.
func TestThinned(t *testing.T) {
	sky := Sky{LeafOnDay: 135, LeafOffDay: 290}
	for _, c := range []struct{ thinned, want float64 }{{0, 0.19}, {0.2, 0.265}, {0.3, 0.313}, {1, 1}} {
		l := layer{Obstacle: Obstacle{Kind: Tree, Thinned: c.thinned}}
		if got := l.transmittance(200, sky); math.Abs(got-c.want) > 0.0005 {
			t.Errorf("thinned by %v a crown lets %.3f through, want %v", c.thinned, got, c.want)
		}
	}
}

func TestWallsThrowLightBack(t *testing.T) {
	// Walls painted black, brick and white: more light in a court, in proportion, and
	// most where a wall that faces the sun stands near.
	sky := averageSky(57)
	at := func(p Point, albedo float64) float64 {
		s := scenes(57)["d"]
		for i := range s.Obstacles {
			s.Obstacles[i].Albedo = &albedo
		}
		y := newYear(s, sky)
		var l Light
		y.worker().fill(y.onGround(p), &l)
		return l.DLISeason
	}
	share := func(p Point) float64 {
		black, brick, white := at(p, 0), at(p, 0.3), at(p, 0.6)
		if math.Abs((white-black)-2*(brick-black)) > 1e-9 {
			t.Errorf("at %v: %.3f, %.3f, %.3f mol at albedos of 0, 0.3 and 0.6", p, black, brick, white)
		}
		return (brick - black) / brick
	}
	north, middle, south := share(Point{6, 11.8}), share(Point{6, 6}), share(Point{6, 0.2})
	if !(0.02 < middle && middle < north && north < 0.25 && south < 0.4) {
		t.Errorf("thrown back: %.3f by the north wall, %.3f in the middle, %.3f by the south wall", north, middle, south)
	}
}

func TestCalled(t *testing.T) {
	for _, c := range []struct {
		o    Obstacle
		want told.Sentence
	}{
		{Obstacle{Name: " old birch ", Kind: Tree}, told.Say("place.named", told.Verbatim("old birch"))},
		{Obstacle{Kind: Gable}, told.Say("place.numbered", told.Term{Kind: "thing", Word: "gable"}, told.Ordinal(3))},
	} {
		if got := c.o.Called(3); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%+v is called %v, not %v", c.o, got, c.want)
		}
	}
}
