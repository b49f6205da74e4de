package species

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"swardwright/data"
	"swardwright/site"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/site/weather"
)

var stations = func() weather.Stations {
	s, err := weather.LoadStations(data.FS)
	if err != nil {
		panic(err)
	}
	return s
}()

// at are the conditions at a station, with light as stated.
func at(t testing.TB, station string, seen light.Seen, soil ground.Survey, watered bool) *site.Conditions {
	t.Helper()
	st, ok := stations.Find(station)
	if !ok {
		t.Fatalf("no station %q", station)
	}
	s := site.Survey{Place: site.Place{Station: station, LatitudeDeg: st.LatitudeDeg}, Lawn: site.Lawn{AreaM2: 100}, Light: seen, Ground: soil}
	c, err := s.Conditions(context.Background(), site.Tables{Stations: stations}, site.Options{Years: 60, Seed: 7, Irrigated: watered})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func rate(t testing.TB, tb *Table, c *site.Conditions, use Use, draws int) Matrix {
	t.Helper()
	m, err := Rate(context.Background(), tb, c, use, draws, 1)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func hours(h float64) light.Seen  { return light.Seen{SunHours: &h} }
func shaded(p float64) light.Seen { return light.Seen{ShadePercent: &p} }
func number(x float64) *float64   { return &x }
func index(m Matrix, id string) float64 {
	r, _ := m.Row(id, 0)
	return r.Overall
}

// TestRecommendations sets the matrix against what public advice says of like
// places. A grass marked better must rate above one marked worse.
func TestRecommendations(t *testing.T) {
	tb := table(t)
	home := Use{Grade: Utility, Feeding: "moderate"}
	for _, c := range []struct {
		name          string
		site          *site.Conditions
		use           Use
		better, worse string // ids, or groups
		least         Class  // of the better
	}{
		{"Penn State 2001: over 3 h of sun, fine fescue before meadow-grass", at(t, "Harrisburg, Pennsylvania", hours(3.3), ground.Survey{}, false),
			Use{Grade: Utility, Traffic: Light, Feeding: "moderate"}, "fine fescue", "smooth-stalked-meadow-grass", S1},
		{"University of Illinois: dry deep shade, fine fescue", at(t, "Rockford, Illinois", hours(2), ground.Survey{Texture: "sand"}, false),
			Use{Grade: Utility, Traffic: Light, Feeding: "moderate"}, "fine fescue", "perennial-ryegrass", S3},
		{"Wisconsin A3700: moist dense shade, supina", at(t, "Madison, Wisconsin", hours(3), ground.Survey{Drainage: "somewhat poorly"}, false),
			home, "supina-meadow-grass", "smooth-stalked-meadow-grass", S2},
		{"Wisconsin A3700: moist dense shade, rough meadow-grass", at(t, "Madison, Wisconsin", hours(3), ground.Survey{Drainage: "somewhat poorly"}, false),
			home, "rough-stalked-meadow-grass", "smooth-stalked-meadow-grass", S3},
		{"University of Arkansas: moderate shade, tall fescue", at(t, "Springfield, Missouri", hours(4), ground.Survey{}, false), home, "tall-fescue", "perennial-ryegrass", S1},
		{"University of Maryland: parks, tall fescue", at(t, "Baltimore, Maryland", light.Seen{}, ground.Survey{}, false),
			Use{Grade: HardWearing, Feeding: "moderate"}, "tall-fescue", "perennial-ryegrass", S1},
		{"University of Minnesota: sun and traffic, smooth meadow-grass before ryegrass", at(t, "Minneapolis/St Paul, Minnesota", light.Seen{}, ground.Survey{}, false),
			Use{Grade: HardWearing, Traffic: Moderate, Feeding: "high"}, "smooth-stalked-meadow-grass", "perennial-ryegrass", S1},
		{"Utah State University: irrigated, traffic, smooth meadow-grass", at(t, "Salt Lake City, Utah", light.Seen{}, ground.Survey{}, true),
			Use{Grade: HardWearing, Feeding: "high", Irrigation: true, MowingMM: 50}, "smooth-stalked-meadow-grass", "perennial-ryegrass", S1},
		{"Alaska: sport, smooth meadow-grass", at(t, "Anchorage, Alaska", light.Seen{}, ground.Survey{}, false),
			Use{Grade: HardWearing, Feeding: "high"}, "smooth-stalked-meadow-grass", "perennial-ryegrass", S2},
		{"North Dakota State University: saline ground", at(t, "Fargo, North Dakota", light.Seen{}, ground.Survey{PH: number(8), ECeDSM: number(9)}, false),
			home, "reflexed-saltmarsh-grass", "smooth-stalked-meadow-grass", S1},
		{"Deutsche Rasengesellschaft: play lawn, ryegrass", at(t, "Hannover", light.Seen{}, ground.Survey{}, false), Use{Grade: HardWearing, Feeding: "moderate"}, "perennial-ryegrass", "chewings-fescue", S1},
		{"British practice: fine lawn, Chewings fescue", at(t, "Wattisham", light.Seen{}, ground.Survey{}, false), Use{Grade: Ornamental, MowingMM: 12, Feeding: "moderate"}, "chewings-fescue", "perennial-ryegrass", S1},
		{"British practice: fine lawn, browntop", at(t, "Wattisham", light.Seen{}, ground.Survey{}, false), Use{Grade: Ornamental, MowingMM: 12, Feeding: "moderate"}, "browntop-bent", "smooth-stalked-meadow-grass", S1},
		{"Danish advice: poor ground, red fescue", at(t, "Falsterbo", light.Seen{}, ground.Survey{Texture: "sandy loam", OrganicPercent: number(1.5)}, false),
			Use{Grade: Extensive, Feeding: "none"}, "strong-creeping-red-fescue", "perennial-ryegrass", S1},
		{"Oregon State University: wet maritime shade, rough meadow-grass", at(t, "Eugene, Oregon", hours(4), ground.Survey{Drainage: "poorly"}, true), home, "rough-stalked-meadow-grass", "fine fescue", S3},
		{"Alaska Plant Materials Center: wet ground, hair-grass", at(t, "Fairbanks, Alaska", light.Seen{}, ground.Survey{Drainage: "poorly"}, false), Use{Grade: Extensive, Feeding: "low"}, "tufted-hair-grass", "smooth-stalked-meadow-grass", S2},
		{"Oklahoma practice: full sun, bermudagrass", at(t, "Tulsa, Oklahoma", light.Seen{}, ground.Survey{}, false), home, "bermudagrass", "smooth-stalked-meadow-grass", S2},
		{"Colorado State University: unwatered plains, buffalograss", at(t, "Denver, Colorado", light.Seen{}, ground.Survey{}, false), Use{Grade: Utility, Traffic: Light, Feeding: "low"}, "buffalograss", "smooth-stalked-meadow-grass", S2},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := rate(t, tb, c.site, c.use, 0)
			best := func(who string) (id string, index float64) {
				for _, r := range m.Rows { // best first
					if r.Species.ID == who || r.Species.Group == who {
						return r.Species.ID, r.Overall
					}
				}
				t.Fatalf("no %s", who)
				return
			}
			bid, b := best(c.better)
			wid, w := best(c.worse)
			if b <= w {
				t.Errorf("%s %.2f should rate above %s %.2f", bid, b, wid, w)
			}
			if least := map[Class]float64{S1: leastS1, S2: leastS2, S3: leastS3}[c.least]; b < least {
				t.Errorf("%s rates %.2f, want %s", bid, b, c.least)
			}
		})
	}
}

// TestWinterKill: Aamlid et al. 2012, ryegrass on Norwegian football pitches was
// killed in 2 of 3 winters at 63.5° N on the coast, 1 of 3 at 60.7° N inland, and
// one plot of two in one of three at 58° N; smooth meadow-grass lived everywhere.
func TestWinterKill(t *testing.T) {
	tb := table(t)
	for _, c := range []struct {
		station  string
		ryegrass float64 // share alive, mean of winters
		within   float64
	}{
		{"Trondheim (Vaernes)", 1.0 / 3, 0.25},
		{"Oslo (Gardermoen)", 2.0 / 3, 0.30},
		{"Kristiansand (Kjevik)", 5.0 / 6, 0.25},
	} {
		years := at(t, c.station, light.Seen{}, ground.Survey{}, false).Zones[0].Years
		alive := func(id string) float64 {
			tr := best(t, tb, id)
			return meanOver(years, func(y *weather.Year) float64 {
				return WinterSurvival(tr, y) * MouldSurvival(tr, y) * IceSurvival(tr, y)
			})
		}
		if got := alive("perennial-ryegrass"); got < c.ryegrass-c.within || got > c.ryegrass+c.within {
			t.Errorf("%s: ryegrass %.2f alive, want %.2f within %.2f", c.station, got, c.ryegrass, c.within)
		}
		if got := alive("smooth-stalked-meadow-grass"); got < 0.85 {
			t.Errorf("%s: smooth meadow-grass %.2f alive, want 0.85", c.station, got)
		}
	}
}

// TestLightFloor holds the light ratings to the hours of direct sun that public
// advice asks for at about 40° N.
func TestLightFloor(t *testing.T) {
	tb := table(t)
	for _, c := range []struct {
		hours       float64
		who         string
		least, most float64
	}{
		{0, "fine fescue", 0, leastS3},                   // University of Illinois: no grass in full shade
		{2, "fine fescue", leastN1, leastS1},             // Penn State 2001: more than 3 h wanted
		{3.2, "fine fescue", leastS2, 1},                 // Penn State 2001: from 3 h
		{4.2, "fine fescue", leastS1, 1},                 // University of Connecticut: from 4 h
		{3, "smooth-stalked-meadow-grass", 0, leastS3},   // Wisconsin A3700: not in shade
		{6.2, "smooth-stalked-meadow-grass", leastS2, 1}, // University of Maryland: from 6 h
		{6.2, "perennial-ryegrass", leastS2, 1},          // University of Maryland: from 6 h
		{8.2, "smooth-stalked-meadow-grass", 0.9, 1},     // Oregon EC 1521: 8 h to thrive
		{8.2, "perennial-ryegrass", 0.9, 1},              // Oregon EC 1521: 8 h to thrive
	} {
		m := rate(t, tb, at(t, "Harrisburg, Pennsylvania", hours(c.hours), ground.Survey{}, false), Use{Grade: Utility, Feeding: "moderate"}, 0)
		best := 0.0
		for _, r := range m.Rows {
			if r.Species.ID == c.who || r.Species.Group == c.who {
				x, _ := r.Rating("light")
				best = max(best, x.Value)
			}
		}
		if best < c.least || best > c.most {
			t.Errorf("%s at %g h: light %.2f, want %.2f to %.2f", c.who, c.hours, best, c.least, c.most)
		}
	}
}

// TestWarmGrassesNeedWarmth: the warm-season grasses are refused in the cold and
// in the cool, and live where they are the common lawn grasses.
func TestWarmGrassesNeedWarmth(t *testing.T) {
	tb := table(t)
	use := Use{Grade: Utility, Feeding: "moderate"}
	for _, station := range []string{"Heathrow", "Tromso", "Anchorage, Alaska", "Falsterbo", "Dublin Airport"} {
		m := rate(t, tb, at(t, station, light.Seen{}, ground.Survey{}, false), use, 0)
		for _, r := range m.Rows {
			if r.Species.Warm && (r.Class == S1 || r.Class == S2 || r.Class == S3) {
				t.Errorf("%s: %s is %s (%.2f)", station, r.Species.ID, r.Class, r.Overall)
			}
		}
	}
	m := rate(t, tb, at(t, "Little Rock, Arkansas", light.Seen{}, ground.Survey{}, false), use, 0)
	for _, id := range []string{"bermudagrass", "zoysiagrass"} {
		if v := index(m, id); v < leastS2 {
			t.Errorf("Little Rock: %s %.2f", id, v)
		}
	}
}

// TestMatrixShape checks what every matrix must be.
func TestMatrixShape(t *testing.T) {
	tb := table(t)
	m := rate(t, tb, at(t, "Hannover", shaded(50), ground.Survey{}, false), Use{Grade: Utility, Feeding: "moderate"}, 100)
	if len(m.Rows) != len(tb.All()) {
		t.Fatalf("%d rows", len(m.Rows))
	}
	leads := 0.0
	for i, r := range m.Rows {
		if i > 0 && r.Overall > m.Rows[i-1].Overall {
			t.Errorf("%s stands below a worse one", r.Species.ID)
		}
		if r.Class != ClassOf(r.Overall) {
			t.Errorf("%s: class %s of %.2f", r.Species.ID, r.Class, r.Overall)
		}
		sum := 0.0
		for _, p := range r.ClassChance {
			sum += p
		}
		if sum < 0.999 || sum > 1.001 {
			t.Errorf("%s: chances sum to %g", r.Species.ID, sum)
		}
		if want := sureness(r.ClassChance[r.Class]); r.Sureness != want {
			t.Errorf("%s: %q with a chance of %.2f", r.Species.ID, r.Sureness, r.ClassChance[r.Class])
		}
		leads += r.LeaderChance
		if r.Species.Invader && r.LeaderChance > 0 {
			t.Error("the invader leads")
		}
		worst := 1.0
		for k, x := range r.Ratings {
			if x.Criterion != m.Criteria[k].ID || x.Figure.Silent() || x.Limits.Silent() || x.Source == "" || x.Basis == "" {
				t.Errorf("%s %s: %+v", r.Species.ID, m.Criteria[k].ID, x)
			}
			if !(x.Value >= 0 && x.Value <= 1) {
				t.Errorf("%s %s: %g", r.Species.ID, x.Criterion, x.Value)
			}
			worst = min(worst, x.Value)
		}
		if x, ok := r.Rating(r.LimitedBy); !ok || x.Value != worst {
			t.Errorf("%s is limited by %s, not by its worst rating", r.Species.ID, r.LimitedBy)
		}
	}
	if leads < Leaders-0.001 || leads > Leaders+0.001 {
		t.Errorf("the leaders' chances sum to %g, want %d", leads, Leaders)
	}
}

// TestOrderOfTableDoesNotMatter shuffles the species of the table.
func TestOrderOfTableDoesNotMatter(t *testing.T) {
	raw, err := data.FS.ReadFile(TableFile)
	if err != nil {
		t.Fatal(err)
	}
	parts := bytes.Split(raw, []byte("\n[[species]]"))
	rand.New(rand.NewPCG(8, 9)).Shuffle(len(parts)-1, func(i, j int) { parts[i+1], parts[j+1] = parts[j+1], parts[i+1] })
	shuffled, err := Load(fstest.MapFS{TableFile: {Data: append(bytes.Join(parts, []byte("\n[[species]]")), '\n')}})
	if err != nil {
		t.Fatal(err)
	}
	c := at(t, "Oslo - Blindern", shaded(60), ground.Survey{}, false)
	use := Use{Grade: Ornamental, Feeding: "low"}
	a, b := rate(t, table(t), c, use, 50), rate(t, shuffled, c, use, 50)
	if x, y := dump(a), dump(b); x != y {
		t.Errorf("the order of the table changes the matrix:\n%s\n%s", x, y)
	}
}

func dump(m Matrix) string {
	var b strings.Builder
	for _, r := range m.Rows {
		fmt.Fprintln(&b, r.Species.ID, r.Overall, r.ClassChance, r.LeaderChance, r.Ratings)
	}
	return b.String()
}

// TestMoreLightAndLowerCut: more light never lowers the light rating, and no cut
// rates above the grass's best.
func TestMoreLightAndLowerCut(t *testing.T) {
	tb := table(t)
	c := at(t, "Nottingham, Watnall", light.Seen{}, ground.Survey{}, false)
	z := &c.Zones[0]
	for _, sp := range tb.All() {
		tr := sp.Best()
		last := -1.0
		for dli := 0.0; dli < 60; dli += 0.5 {
			z.Light.DLISeason = dli
			s, err := NewSetting(c, 0, Use{Grade: Utility})
			if err != nil {
				t.Fatal(err)
			}
			v := criterionLight.Score(&tr, s)
			if v < last {
				t.Fatalf("%s: light rating falls from %g to %g at %g mol", sp.ID, last, v, dli)
			}
			last = v
		}
		top := MowingFit(&tr, tr[MowBestMM], 0)
		for cut := tr[MowHighMM] * 1.5; cut > 1; cut-- {
			if v := MowingFit(&tr, cut, 0); v > top {
				t.Fatalf("%s: cut at %g mm rates %g, above the best cut's %g", sp.ID, cut, v, top)
			}
		}
	}
}

func TestRateFaults(t *testing.T) {
	tb := table(t)
	c := at(t, "Hannover", light.Seen{}, ground.Survey{}, false)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Rate(ctx, tb, c, Use{Grade: Utility}, 10, 1); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
	empty := *c
	empty.Zones = []site.Zone{{Zone: c.Zones[0].Zone}}
	if _, err := Rate(context.Background(), tb, &empty, Use{Grade: Utility}, 10, 1); err == nil || !strings.Contains(err.Error(), "no years") {
		t.Errorf("without years: %v", err)
	}
}

// TestThinned: the few quantile years of the draws stand for all of them.
func TestThinned(t *testing.T) {
	tb := table(t)
	for _, station := range []string{"Trondheim (Vaernes)", "Rockford, Illinois", "Salt Lake City, Utah", "Paris (Montsouris)"} {
		s, err := NewSetting(at(t, station, light.Seen{}, ground.Survey{}, false), 0, Use{Grade: Utility, Feeding: "moderate"})
		if err != nil {
			t.Fatal(err)
		}
		thin := s.thin(quantileYrs)
		for _, sp := range tb.All() {
			tr := sp.Best()
			for _, c := range Criteria {
				if a, b := c.Score(&tr, s), c.Score(&tr, thin); a-b > 0.12 || b-a > 0.12 {
					t.Errorf("%s %s %s: %.2f by all years, %.2f by %d of them", station, sp.ID, c.ID, a, b, quantileYrs)
				}
			}
		}
	}
}

func TestCutMM(t *testing.T) {
	sun := func(openShare, hotC float64) *site.Zone {
		return &site.Zone{Zone: light.Zone{Light: light.Light{OpenShare: openShare}}, Years: []weather.Year{{HotC: hotC}}}
	}
	for _, c := range []struct {
		use  Use
		z    *site.Zone
		want float64
	}{
		{Use{Grade: Utility}, sun(1, 20), 40},               // Austrian consumer advice: utility 30-80 mm
		{Use{Grade: Ornamental}, sun(1, 20), 20},            // Austrian consumer advice: ornamental 20-30 mm
		{Use{Grade: Utility}, sun(0, 20), 65},               // Arizona 1999: about 25 mm more in shade
		{Use{Grade: Utility}, sun(1, 31), 60},               // Golf Course Management 2010: 51-76 mm in warm summers
		{Use{Grade: Utility, MowingMM: 33}, sun(0, 31), 33}, // as the brief says
		{Use{Grade: Extensive}, sun(0.5, 20), 80},           // common practice, no published source
	} {
		if got := c.use.CutMM(nil, c.z); got != c.want {
			t.Errorf("%+v: %g mm, want %g", c.use, got, c.want)
		}
	}
}

func BenchmarkRate(b *testing.B) {
	tb := table(b)
	for _, n := range []struct{ zones, years, draws int }{{1, 60, 0}, {4, 60, 200}, {4, 200, 200}, {4, 200, 400}} {
		c := *at(b, "Rockford, Illinois", shaded(40), ground.Survey{}, false)
		one := c.Zones[0]
		years := one.Years
		for len(one.Years) < n.years {
			one.Years = append(one.Years, years...)
		}
		one.Years = one.Years[:n.years]
		c.Zones = slices.Repeat([]site.Zone{one}, n.zones)
		b.Run(fmt.Sprintf("zones=%d/years=%d/draws=%d", n.zones, n.years, n.draws), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				rate(b, tb, &c, Use{Grade: Utility, Feeding: "moderate"}, n.draws)
			}
		})
	}
}
