package practice

import (
	"io/fs"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"swardwright/data"
	"swardwright/species"
)

func builtIn(t testing.TB) *Table {
	t.Helper()
	grasses, err := species.Load(data.FS)
	if err != nil {
		t.Fatal(err)
	}
	table, err := Load(data.FS, grasses)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// mixed is a mixture by ids as places and percent.
func mixed(t testing.TB, table *Table, parts map[string]float64) (grass []int, percent []float64) {
	t.Helper()
	for i, s := range table.grasses {
		if p, ok := parts[s.ID]; ok {
			grass, percent = append(grass, i), append(percent, p)
		}
	}
	if len(grass) != len(parts) {
		t.Fatalf("%v holds a grass that isn't in the table", parts)
	}
	return grass, percent
}

// TestTable: every row is whole, and its lawn was worked out.
func TestTable(t *testing.T) {
	table := builtIn(t)
	from := map[string]int{}
	for _, r := range table.Rows {
		from[r.Institution]++
		if l := r.Lawn; !slices.Contains([]Purpose{Show, Family, Sport, Neglect, Pasture}, l.Purpose) || l.RainMM <= 0 || l.DLI <= 0 || l.ECeDSM <= 0 {
			t.Errorf("%s: no site figures; go run ./internal/gen/practice", r.ID)
		}
	}
	if len(table.Rows) < 500 || len(from) < 170 {
		t.Errorf("%d recommendations of %d institutions: some were lost", len(table.Rows), len(from))
	}
}

func TestLoadRefuses(t *testing.T) {
	grasses, err := species.Load(data.FS)
	if err != nil {
		t.Fatal(err)
	}
	const whole = "[[row]]\nid = \"a\"\ninstitution = \"i\"\ntitle = \"t\"\nseen = \"read\"\nplace = \"p\"\nsays = \"s\"\nstation = \"x\"\nleads = [\"tall fescue\"]\n"
	for _, c := range []struct{ old, new, want string }{
		{"", "", ""},
		{"leads", "follows", "unknown key"},
		{"tall fescue", "moon fescue", "moon fescue"},
		{`"read"`, `"heard"`, "seen is"},
		{"leads = [\"tall fescue\"]", "", "recommends nothing"},
		{`station = "x"`, "", "needs institution"},
		{"leads = [\"tall fescue\"]", "sows = [{ of = [\"bent\"], low = 20, high = 10 }]", "no band"},
		{"leads = [\"tall fescue\"]", "sows = [{ of = [\"bent\"], low = 20, high = 101 }]", "no band"},
		{"leads = [\"tall fescue\"]", "sows = [{ of = [\"bent\"], low = -1, high = 10 }]", "no band"},
	} {
		text := strings.Replace(whole, c.old, c.new, 1)
		_, err := Load(fstest.MapFS{TableFile: {Data: []byte(text)}}, grasses)
		if (err == nil) != (c.want == "") || err != nil && !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, wanted %q", text, err, c.want)
		}
	}
	if _, err := Load(fstest.MapFS{TableFile: {Data: []byte(whole + "\n" + whole)}}, grasses); err == nil {
		t.Error("two rows of one id")
	}
	if _, err := Load(fstest.MapFS{}, grasses); err == nil || !strings.Contains(err.Error(), TableFile) {
		t.Errorf("no file: %v", err)
	}
	if _, err := fs.Stat(data.FS, TableFile); err != nil {
		t.Error(err)
	}
}

// TestLikeness: a lawn is wholly like itself, likeness goes both ways, no block silences
// another lawn, and further is less alike.
func TestLikeness(t *testing.T) {
	rows := builtIn(t).Rows
	least := winterFloor * summerFloor * waterFloor * lightFloor * groundFloor * saltFloor * feedFloor * workFloor * purposeFloor / 2 * farFloor
	for i := range rows {
		a := &rows[i].Lawn
		if x := LikenessOf(a, a); x.Whole() != 1 || x.mean() != 1 {
			t.Errorf("%s is %v like itself", rows[i].ID, x)
		}
		b := &rows[(i*7+1)%len(rows)].Lawn
		x, y := LikenessOf(a, b), LikenessOf(b, a)
		if math.Abs(x.Whole()-y.Whole()) > 1e-12 || x.Whole() < least || x.Whole() > 1 || x.mean() < x.Whole() {
			t.Errorf("%s and %s: %v one way, %v the other", rows[i].ID, rows[(i*7+1)%len(rows)].ID, x, y)
		}
		far := *a
		far.WinterMinC -= minScaleC
		further := far
		further.WinterMinC -= minScaleC
		if x, y := LikenessOf(a, &far).Winter, LikenessOf(a, &further).Winter; x >= 1 || y >= x {
			t.Errorf("%s: %v like a lawn of colder winters, %v like one of still colder ones", rows[i].ID, x, y)
		}
	}
}

// TestDistance: a quarter of a great circle is 10,007.5 km and a degree 111.195 km on the
// sphere of the IUGG's mean radius of the earth, 6371.0 km (Moritz 2000, Geodetic
// Reference System 1980).
func TestDistance(t *testing.T) {
	at := func(lat, lon float64) *Lawn { return &Lawn{LatitudeDeg: lat, LongitudeDeg: lon} }
	for _, c := range []struct {
		a, b *Lawn
		km   float64
	}{
		{at(0, 0), at(90, 40), 10007.5},
		{at(60, 10), at(61, 10), 111.195},
		{at(0, 179.5), at(0, -179.5), 111.195},
		{at(57, -3), at(57, -3), 0},
	} {
		if got := c.a.kmTo(c.b); math.Abs(got-c.km) > 0.1 {
			t.Errorf("%v to %v: %.1f km, %.1f by the radius", *c.a, *c.b, got, c.km)
		}
	}
}

// TestAmiss asks of mixtures what made-up recommendations ask for.
func TestAmiss(t *testing.T) {
	table := builtIn(t)
	half := []Band{{[]string{"fine fescue"}, 50, 50}, {[]string{"smooth meadow-grass"}, 50, 50}}
	for _, c := range []struct {
		row     Row
		parts   map[string]float64
		amiss   float64
		departs []Ask
	}{
		{Row{Sows: half}, map[string]float64{"chewings-fescue": 30, "hard-fescue": 20, "smooth-stalked-meadow-grass": 50}, 0, nil},
		{Row{Sows: half}, map[string]float64{"chewings-fescue": 42, "smooth-stalked-meadow-grass": 58}, 0.08, nil},
		{Row{Sows: half}, map[string]float64{"chewings-fescue": 35, "smooth-stalked-meadow-grass": 65}, 0.15, []Ask{Share, Share}},
		{Row{Sows: half}, map[string]float64{"tall-fescue": 100}, 0.5 + unnamed/2, []Ask{Share, Share}},
		{Row{Sows: half[:1]}, map[string]float64{"chewings-fescue": 50, "tall-fescue": 50}, 0, nil}, // the rest is free
		{Row{Any: [][]Band{half, {{[]string{"tall fescue"}, 100, 100}}}}, map[string]float64{"tall-fescue": 100}, 0, nil},
		{Row{Leads: []string{"tall fescue"}}, map[string]float64{"tall-fescue": 70, "smooth-stalked-meadow-grass": 30}, 0, nil},
		{Row{Leads: []string{"tall fescue"}}, map[string]float64{"tall-fescue": 50, "smooth-stalked-meadow-grass": 50}, 0.15, []Ask{Lead}},
		{Row{Leads: []string{"fine fescue"}}, map[string]float64{"chewings-fescue": 30, "hard-fescue": 30, "smooth-stalked-meadow-grass": 40}, 0.05, nil},
		{Row{Contains: [][]string{{"bent", "tall fescue"}}}, map[string]float64{"browntop-bent": 5, "chewings-fescue": 95}, 0, nil},
		{Row{Contains: [][]string{{"bent", "tall fescue"}}}, map[string]float64{"chewings-fescue": 100}, heldPercent / 200, []Ask{Part}},
		{Row{Never: []string{"perennial ryegrass"}}, map[string]float64{"perennial-ryegrass": 5, "chewings-fescue": 95}, 0.025, nil},
		{Row{Never: []string{"perennial ryegrass"}}, map[string]float64{"perennial-ryegrass": 20, "chewings-fescue": 80}, 0.1, []Ask{Absence}},
	} {
		if err := c.row.compile(table); err != nil {
			t.Fatal(err)
		}
		grass, percent := mixed(t, table, c.parts)
		var asks []Ask
		for _, d := range table.Departures(&c.row, grass, percent) {
			asks = append(asks, d.Ask)
		}
		if x := table.Amiss(&c.row, grass, percent); math.Abs(x-c.amiss) > 1e-9 || !slices.Equal(asks, c.departs) {
			t.Errorf("%+v of %v: %.3f amiss, departs by %v; wanted %.3f, %v", c.parts, c.row, x, asks, c.amiss, c.departs)
		}
	}
}

// TestAmissAgrees: what isn't amiss departs by nothing, for any mixture and row, and what
// is amiss stays between 0 and little more than 1.
func TestAmissAgrees(t *testing.T) {
	table := builtIn(t)
	r := rand.New(rand.NewPCG(1, 2))
	met := 0
	for range 300 {
		grass := r.Perm(len(table.grasses))[:1+r.IntN(4)]
		slices.Sort(grass)
		percent := make([]float64, len(grass))
		for left, i := 100.0, 0; i < len(grass); i++ {
			percent[i] = math.Round(left * r.Float64())
			if i == len(grass)-1 {
				percent[i] = left
			}
			left -= percent[i]
		}
		for i := range table.Rows {
			row := &table.Rows[i]
			amiss, departs := table.Amiss(row, grass, percent), table.Departures(row, grass, percent)
			if amiss < 0 || amiss > 2 || amiss == 0 && len(departs) > 0 {
				t.Fatalf("%s: %v %v is %.2f amiss and departs by %v", row.ID, grass, percent, amiss, departs)
			}
			if len(departs) == 0 {
				met++
			}
		}
	}
	if met == 0 {
		t.Error("no mixture meets any row: the test shows nothing")
	}
}

// TestOn: nothing is against no practice, one body's word counts once however often it is
// said, and a lawn like none is hardly heard of.
func TestOn(t *testing.T) {
	table := builtIn(t)
	grass, percent := mixed(t, table, map[string]float64{"tall-fescue": 60, "smooth-stalked-meadow-grass": 40})
	if x := new(Prior).Against(grass, percent); x != 0 {
		t.Errorf("%v against no practice", x)
	}
	lawn := table.Rows[0].Lawn
	first := *table
	first.Rows = table.Rows[:1]
	again := first
	again.Rows = []Row{table.Rows[0], table.Rows[0], table.Rows[0]}
	if x, y := first.On(lawn).Against(grass, percent), again.On(lawn).Against(grass, percent); math.Abs(x-y) > 1e-12 {
		t.Errorf("%v against one row, %v against the same thrice", x, y)
	}
	institution := table.Rows[0].Institution
	for _, r := range table.Without(institution).Rows {
		if r.Institution == institution {
			t.Errorf("%s is left", r.ID)
		}
	}
	tropics := Lawn{Purpose: Family, NitrogenGM2: 10, WinterMinC: 20, ColdMonthC: 26, HotC: 29, MeanC: 27, RainMM: 2500, DLI: 45, OpenShare: 1, SandPercent: 40, ECeDSM: 0.5}
	if here, there := table.On(lawn).Heard(), table.On(tropics).Heard(); here < 0.5 || there >= HardlyHeard {
		t.Errorf("heard %.2f of a lawn that is in the table, %.2f of one in the tropics", here, there)
	}
	near := table.On(lawn).Nearest(3)
	if len(near) != 3 || near[0].Institution == near[1].Institution || near[0].Likeness < near[1].Likeness || near[1].Likeness < near[2].Likeness || near[0].Alike.Silent() {
		t.Errorf("nearest: %+v", near)
	}
}

// BenchmarkAgainst weighs one mixture on a lawn that most rows speak of.
func BenchmarkAgainst(b *testing.B) {
	table := builtIn(b)
	p := table.On(table.Rows[0].Lawn)
	grass, percent := mixed(b, table, map[string]float64{"chewings-fescue": 40, "perennial-ryegrass": 20, "smooth-stalked-meadow-grass": 40})
	b.ReportAllocs()
	for b.Loop() {
		p.Against(grass, percent)
	}
}
