package mix

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"swardwright/data"
	"swardwright/mix/sward"
	"swardwright/site"
	"swardwright/site/light"
	"swardwright/site/weather"
	"swardwright/species"
)

// underTrees is a lawn at a station with a house and two trees on one side of it, invented.
func underTrees(t testing.TB, station string, scale float64) *site.Conditions {
	t.Helper()
	stations, err := weather.LoadStations(data.FS)
	if err != nil {
		t.Fatal(err)
	}
	st, ok := stations.Find(station)
	if !ok {
		t.Fatalf("no station %q", station)
	}
	at := func(x, y float64) light.Point { return light.Point{X: scale * x, Y: scale * y} }
	box := func(x0, y0, x1, y1 float64) []light.Point {
		return []light.Point{at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1)}
	}
	tree := func(x, y float64) light.Obstacle {
		return light.Obstacle{Kind: light.Tree, At: at(x, y), HeightM: scale * 12, ClearStemM: scale * 2.5, CrownM: scale * 9, Leaf: light.Deciduous}
	}
	survey := site.Survey{
		Place:     site.Place{Station: station, LatitudeDeg: st.LatitudeDeg, LongitudeDeg: &st.LongitudeDeg},
		Lawn:      site.Lawn{AreaM2: scale * scale * 320, Parts: [][]light.Point{box(0, 0, 20, 16)}},
		Obstacles: []light.Obstacle{{Kind: light.Solid, Footprint: box(0, -9, 20, -1), HeightM: scale * 6}, tree(4, 4), tree(13, 3)},
	}
	c, err := survey.Conditions(context.Background(), site.Tables{Stations: stations}, site.Options{Years: 60, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// splitOf is the choice for such a lawn, an everyday one.
func splitOf(t testing.TB, station string, scale float64, task Task) (Choice, *site.Conditions) {
	t.Helper()
	c, table := underTrees(t, station, scale), tableOf(t)
	use := species.Use{Grade: species.Utility}
	m, err := species.Rate(context.Background(), table, c, use, 0, 1)
	if err != nil {
		t.Fatal(err)
	}
	task.SowDay = 240
	choice, err := Choose(context.Background(), c, m, table, publishedOf(t, table), use, Stock{}, task)
	if err != nil {
		t.Fatal(err)
	}
	return choice, c
}

// The shaded zones of one lawn are given more fine fescue and less smooth meadow-grass than
// the sunny ones, as those publish who name a mixture for each: University of Illinois,
// Suggested lawn mixes for northern Illinois (full sun: smooth meadow-grass; deep shade, dry:
// fine fescue); University of Minnesota, Establishing a new lawn (sun: smooth meadow-grass;
// part shade: 60 % fine fescues); Washington State University, Plant lawn seed now (the more
// shade, the more fine fescue).
func TestSplitAsPublished(t *testing.T) {
	split := 0
	for _, station := range []string{"Sapporo", "Minneapolis", "Portland, Oregon", "Rockford, Illinois", "Estevan"} {
		choice, c := splitOf(t, station, 1, Task{})
		s := choice.Split
		if s == nil {
			continue
		}
		split++
		sun, shade := &s.Patches[0].Mixture, &s.Patches[1].Mixture
		if percent(shade, "fine fescue") <= percent(sun, "fine fescue") || percent(shade, meadow) >= percent(sun, meadow) {
			t.Errorf("%s: in sun %v, in shade %v", station, sun.Weights(), shade.Weights())
		}
		checkSplit(t, station, choice, c)
	}
	if split == 0 {
		t.Error("no lawn is split")
	}
}

// checkSplit holds a split to what it is made of.
func checkSplit(t *testing.T, name string, choice Choice, c *site.Conditions) {
	t.Helper()
	s := choice.Split
	var zones []int
	share, area := 0.0, 0.0
	cover := 0.0
	for i := range s.Patches {
		p := &s.Patches[i]
		zones = append(zones, p.Zones...)
		share += p.Share
		sum := 0
		for _, x := range p.Mixture.Components {
			sum += x.Percent
			if x.Percent%5 != 0 || x.Because.Silent() {
				t.Errorf("%s: %d %% of %s: %v", name, x.Percent, x.Species.ID, x.Because)
			}
		}
		if sum != 100 {
			t.Errorf("%s: shares of patch %d add up to %d", name, i, sum)
		}
		cover += p.Share * p.Mixture.CoverExpected
		for _, z := range p.Zones {
			if s.In(z) != p {
				t.Errorf("%s: zone %d lies in two patches", name, z)
			}
		}
	}
	var sown []int
	for _, v := range choice.Zones {
		if v.Sown {
			sown = append(sown, v.Zone)
			area += c.Zones[v.Zone].Share
		}
	}
	slices.Sort(zones)
	if !slices.Equal(zones, sown) || math.Abs(share-1) > 1e-9 || area == 0 {
		t.Errorf("%s: patches of %v and %v of the ground, sown %v", name, zones, share, sown)
	}
	dark := func(p *Patch) (most, least float64) {
		least = math.Inf(1)
		for _, z := range p.Zones {
			most, least = max(most, c.Zones[z].Light.DLISeason), min(least, c.Zones[z].Light.DLISeason)
		}
		return most, least
	}
	_, sun := dark(&s.Patches[0])
	if shade, _ := dark(&s.Patches[1]); shade > sun {
		t.Errorf("%s: the second mixture is for lighter ground, %v and %v", name, shade, sun)
	}
	// The middle lawn of the whole is near the means of those of its parts.
	if math.Abs(s.Mixture.CoverExpected-cover) > 0.02 || s.Gains().Gain().Cover < worthTelling || s.Chance < choice.Chance {
		t.Errorf("%s: cover %v, of its parts %v; chance %v against %v", name, s.Mixture.CoverExpected, cover, s.Chance, choice.Chance)
	}
	sum := 0
	for _, x := range s.Mixture.Components {
		sum += x.Percent
		if x.Percent < 1 {
			t.Errorf("%s: %d %% of %s", name, x.Percent, x.Species.ID)
		}
	}
	apart := choice.Apart()
	if sum != 100 || !s.Mixture.Apart || !apart.Mixture.Apart || choice.Mixture.Apart || apart.Chance != s.Chance || len(apart.Zones) != len(choice.Zones) {
		t.Errorf("%s: shares of all seed add up to %d, %+v", name, sum, apart.Mixture)
	}
}

// A part too small for a lot is not given one, nor a sward that stands or a rough answer.
func TestSplitNever(t *testing.T) {
	if c, _ := splitOf(t, "Sapporo", 1, Task{}); c.Split == nil {
		t.Fatal("the lawn that others are held against is not split")
	}
	for name, c := range map[string]struct {
		scale float64
		task  Task
	}{
		"small":      {0.45, Task{}}, // 65 m², of which the shaded third takes less than half a kilogram
		"overseeded": {1, Task{Overseed: true, CoverPercent: 70}},
		"rough":      {1, Task{Quick: true}},
	} {
		if got, _ := splitOf(t, "Sapporo", c.scale, c.task); got.Split != nil {
			t.Errorf("%s: split", name)
		}
	}
}

// A lawn whose parts are sown alike is the lawn sown at one go, whatever is counted.
func TestTogetherAlike(t *testing.T) {
	c, table := underTrees(t, "Sapporo", 1), tableOf(t)
	pool := table.All()
	e := sward.NewEnsemble(c, pool, species.Use{Grade: species.Utility}, 50, 1)
	sowing := sward.Sowing{Season: 0.5}
	for g, s := range pool {
		if s.ID == rye || s.ID == meadow {
			sowing.Grass, sowing.Plants = append(sowing.Grass, g), append(sowing.Plants, 3000)
		}
	}
	whole := e.Follow(&sowing)
	var fates []sward.Fates
	var shares []float64
	for _, zones := range [][]int{{0, 1}, {2, 3}} {
		zones = slices.DeleteFunc(zones, func(z int) bool { return z >= len(c.Zones) })
		area := 0.0
		for _, z := range zones {
			area += c.Zones[z].Share
		}
		e.Sow(zones)
		fates, shares = append(fates, e.Follow(&sowing)), append(shares, area)
	}
	got := sward.Together(fates, shares)
	near := func(what string, a, b []float64) {
		for i := range a {
			if math.Abs(a[i]-b[i]) > 1e-9 {
				t.Errorf("%s %d: %v together, %v at one go", what, i, a[i], b[i])
				return
			}
		}
	}
	if !slices.Equal(got.Grass, whole.Grass) {
		t.Fatalf("grasses %v, %v", got.Grass, whole.Grass)
	}
	near("cover", got.Cover, whole.Cover)
	near("season", got.Season, whole.Season)
	near("early", got.Early, whole.Early)
	near("weeds", got.Weeds[:], whole.Weeds[:])
	near("moss", got.Moss[:], whole.Moss[:])
	for z := range whole.Zone {
		near("zone", got.Zone[z], whole.Zone[z])
	}
	for y := range whole.Parts {
		near("parts", got.Parts[y], whole.Parts[y])
	}
}

// Two sowings of one grass each hold both, each by its share of the ground.
func TestTogetherApart(t *testing.T) {
	zones := func(a, b []float64) [][]float64 { return [][]float64{a, b} }
	a := sward.Fates{Cover: []float64{0.8, 0.6}, Season: []float64{0.7, 0.5}, Early: []float64{0.4, 0.2}, Zone: zones([]float64{0.8, 0.6}, []float64{0, 0}), Grass: []int{1, 4}}
	b := sward.Fates{Cover: []float64{0.4, 0.2}, Season: []float64{0.3, 0.1}, Early: []float64{0, 1}, Zone: zones([]float64{0, 0}, []float64{0.4, 0.2}), Grass: []int{2, 4}}
	for y := range a.Parts {
		a.Parts[y], b.Parts[y] = []float64{0.5, 0.3, 0.2, 0.4}, []float64{0.1, 0.3, 0.2, 0}
		a.Weeds[y], b.Weeds[y], a.Moss[y], b.Moss[y] = 0.1, 0.3, 0, 0.4
	}
	got := sward.Together([]sward.Fates{a, b}, []float64{0.75, 0.25})
	for what, c := range map[string][2][]float64{
		"cover":  {got.Cover, {0.7, 0.5}},
		"season": {got.Season, {0.6, 0.4}},
		"early":  {got.Early, {0.3, 0.4}},
		"zone A": {got.Zone[0], {0.8, 0.6}},
		"zone B": {got.Zone[1], {0.4, 0.2}},
		"parts":  {got.Parts[2], {0.375, 0.025, 0.3, 0.15, 0.05, 0.3}}, // by lawn: grasses 1, 2 and 4
		"weeds":  {got.Weeds[:1], {0.15}},
		"moss":   {got.Moss[:1], {0.1}},
	} {
		if len(c[0]) != len(c[1]) {
			t.Fatalf("%s: %v, want %v", what, c[0], c[1])
		}
		for i := range c[0] {
			if math.Abs(c[0][i]-c[1][i]) > 1e-12 {
				t.Errorf("%s: %v, want %v", what, c[0], c[1])
			}
		}
	}
}

// Shares are rounded to whole percent that still add up to a hundred, none to nothing.
func TestWholePercents(t *testing.T) {
	for _, c := range []struct {
		exact []float64
		want  []int
	}{
		{[]float64{100}, []int{100}},
		{[]float64{50.4, 49.6}, []int{50, 50}},
		{[]float64{33.4, 33.3, 33.3}, []int{34, 33, 33}},
		{[]float64{98.8, 0.4, 0.4, 0.4}, []int{97, 1, 1, 1}},
		{[]float64{60.5, 39.3, 0.2}, []int{60, 39, 1}},
	} {
		if got := wholePercents(c.exact); !slices.Equal(got, c.want) {
			t.Errorf("%v: %v, want %v", c.exact, got, c.want)
		}
	}
	r := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		exact, sum := make([]float64, 1+r.IntN(10)), 0.0
		for i := range exact {
			exact[i] = r.ExpFloat64()
			sum += exact[i]
		}
		for i := range exact {
			exact[i] *= 100 / sum
		}
		total := 0
		for i, n := range wholePercents(exact) {
			total += n
			if n < 1 || math.Abs(float64(n)-exact[i]) > 5 {
				t.Errorf("%v of %v", n, exact)
			}
		}
		if total != 100 {
			t.Errorf("%v make %d", exact, total)
		}
	}
}

// One grass takes its part of a mixture, and the others keep theirs to each other.
func TestWith(t *testing.T) {
	s := shares{8, 12}
	for _, c := range []struct {
		at, given int
		want      shares
	}{
		{2, 5, shares{6, 9, 5}},
		{2, 20, shares{0, 0, 20}},
		{0, 10, shares{14, 6}},
		{1, 5, shares{6, 14}},
	} {
		if got := s.with(c.at, c.given); got != c.want {
			t.Errorf("%d units to %d: %v, want %v", c.given, c.at, got, c.want)
		}
	}
}
