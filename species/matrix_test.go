package species

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
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

// TestSaltGrass: saltmarsh-grass is a weak competitor on ground without salt (Colorado
// State University Extension, PlantTalk 1536) and sown along salted roads (Alberta).
func TestSaltGrass(t *testing.T) {
	tb := table(t)
	salt := 8.0
	for _, station := range []string{"Lerwick", "Edmonton", "Hokitika", "Denver, Colorado"} {
		for _, use := range []Use{{Grade: Utility, Feeding: "moderate"}, {Grade: Extensive, Feeding: "none"}} {
			if got := index(rate(t, tb, at(t, station, light.Seen{}, ground.Survey{}, false), use, 0), "reflexed-saltmarsh-grass"); got >= leastS3 {
				t.Errorf("%s, %s: saltmarsh-grass rates %.2f without salt", station, use.Grade, got)
			}
		}
	}
	on := rate(t, tb, at(t, "Edmonton", light.Seen{}, ground.Survey{ECeDSM: &salt}, false), Use{Grade: Extensive, Feeding: "none"}, 0)
	if got := index(on, "reflexed-saltmarsh-grass"); got < leastS2 {
		t.Errorf("on salt ground saltmarsh-grass rates %.2f", got)
	}
}

// winters are the synthetic winters at a station, in the open on ordinary ground.
func winters(t testing.TB, station string) []weather.Year {
	t.Helper()
	st, ok := stations.Find(station)
	if !ok {
		t.Fatalf("no station %q", station)
	}
	s := site.Survey{Place: site.Place{Station: station, LatitudeDeg: st.LatitudeDeg}, Lawn: site.Lawn{AreaM2: 100}}
	c, err := s.Conditions(context.Background(), site.Tables{Stations: stations}, site.Options{Years: 200, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	return c.Zones[0].Years
}

// alive is the share of a grass that outlasts a winter, mean of winters.
func alive(tr *Traits, years []weather.Year) float64 {
	return meanOver(years, func(y *weather.Year) float64 { return outlasts(tr, y) })
}

func outlasts(tr *Traits, y *weather.Year) float64 {
	return WinterSurvival(tr, y) * MouldSurvival(tr, y) * IceSurvival(tr, y)
}

// TestWinterKill holds winters to those in which grasses were counted.
func TestWinterKill(t *testing.T) {
	tb := table(t)
	for _, c := range []struct {
		station, id string
		alive       float64 // share, mean of winters
		within      float64
		source      string
	}{
		// Aamlid et al. 2012, football pitches: ryegrass was killed in 2 of 3 winters at 63.5° N on
		// the coast, 1 of 3 at 60.7° N inland, and one plot of two in one of three at 58° N;
		// smooth meadow-grass lived everywhere. Three winters tell the chance to 0.27.
		{"Trondheim (Vaernes)", "perennial-ryegrass", 1.0 / 3, 0.27, "Aamlid et al. 2012"},
		{"Oslo (Gardermoen)", "perennial-ryegrass", 2.0 / 3, 0.27, "Aamlid et al. 2012"},
		{"Kristiansand (Kjevik)", "perennial-ryegrass", 5.0 / 6, 0.27, "Aamlid et al. 2012"},
		{"Trondheim (Vaernes)", "smooth-stalked-meadow-grass", 1, 0.15, "Aamlid et al. 2012"},
		{"Oslo (Gardermoen)", "smooth-stalked-meadow-grass", 1, 0.15, "Aamlid et al. 2012"},
		{"Kristiansand (Kjevik)", "smooth-stalked-meadow-grass", 1, 0.15, "Aamlid et al. 2012"},
		// Mikkeli, five winters: damage of 43 % in ryegrass and of 2 % in tall fescue. The
		// station is 110 km off; forage kinds of tall fescue are the hardier ones.
		{"Jyväskylä", "perennial-ryegrass", 0.57, 0.15, "Nykänen-Kurki, Niemeläinen et al. 2002"},
		{"Jyväskylä", "tall-fescue", 0.98, 0.32, "Nykänen-Kurki, Niemeläinen et al. 2002"},
		// Third-year stands still pure, their winters' lowest air about that of the mean winter.
		{"Tromsø", "smooth-stalked-meadow-grass", 0.887, 0.2, "Kirwan et al. 2014, data, Holt"},
		{"Luleå Airport", "smooth-stalked-meadow-grass", 0.90, 0.15, "Kirwan et al. 2014, data, Piteå"},
		{"Luleå Airport", "timothy", 0.956, 0.2, "Kirwan et al. 2014, data, Piteå"},
		{"Reykjavík", "timothy", 0.77, 0.2, "Kirwan et al. 2014, data, Reykjavík"},
	} {
		got := alive(best(t, tb, c.id), winters(t, c.station))
		t.Logf("%-22s %-28s %.2f alive, found %.2f (%s)", c.station, c.id, got, c.alive, c.source)
		if math.Abs(got-c.alive) > c.within {
			t.Errorf("%s: %s %.2f alive, want %.2f within %.2f (%s)", c.station, c.id, got, c.alive, c.within, c.source)
		}
	}
	// Cornell recommends tall fescue about Albany, so winters that halve it are few; in Iceland
	// ryegrass mostly dies within two or three (Þorvaldsson et al. 2015).
	halved := func(station, id string) float64 {
		tr := best(t, tb, id)
		return meanOver(winters(t, station), func(y *weather.Year) float64 {
			if outlasts(tr, y) < 0.5 {
				return 1
			}
			return 0
		})
	}
	if got := halved("Albany, New York", "tall-fescue"); got > 0.1 {
		t.Errorf("tall fescue half lost in %.0f %% of Albany's winters", 100*got)
	}
	if got := halved("Reykjavík", "perennial-ryegrass"); got < 0.25 {
		t.Errorf("ryegrass half lost in %.0f %% of Reykjavík's winters", 100*got)
	}
}

// TestThreeWinters: after three winters at eight sites at 60-70° N 67 % of smooth
// meadow-grass, 63 % of timothy and 28 % of ryegrass were left (Þorvaldsson et al. 2015).
// The sites of Greenland have no station near and are left out, so that the grasses are
// held against each other; a summer is taken to close half of the gaps (inferred).
func TestThreeWinters(t *testing.T) {
	tb := table(t)
	left := func(id string) (mean float64) {
		tr := best(t, tb, id)
		sites := []string{"Reykjavík", "Akureyri", "Tromsø", "Umeå", "Takle", "Trondheim (Vaernes)"}
		for _, station := range sites {
			years := winters(t, station)
			for y := range years {
				cover := 1.0
				for k := range 3 {
					if k > 0 {
						cover += (1 - cover) / 2
					}
					cover *= outlasts(tr, &years[(y+k)%len(years)])
				}
				mean += cover / float64(len(years)*len(sites))
			}
		}
		return mean
	}
	meadow, timothy, ryegrass := left("smooth-stalked-meadow-grass"), left("timothy"), left("perennial-ryegrass")
	t.Logf("smooth meadow-grass %.2f, timothy %.2f, ryegrass %.2f; found 0.67, 0.63, 0.28", meadow, timothy, ryegrass)
	if math.Abs(ryegrass/meadow-0.28/0.67) > 0.15 || math.Abs(timothy/meadow-0.63/0.67) > 0.1 {
		t.Errorf("of meadow-grass %.2f is left, of timothy %.2f, of ryegrass %.2f", meadow, timothy, ryegrass)
	}
}

// TestHardeningOfSeedlings: LT50 of young plants after pre-acclimation at three
// temperatures under the light of early, middle and late autumn at 69.7° N, mean of
// northern and southern populations (Dalmannsdottir et al. 2016, table 2). The light on open
// ground is taken as 5.5, 2.0 and 0.4 MJ a day (inferred from the sun's path); the trait is
// that of the hardiest treatment.
func TestHardeningOfSeedlings(t *testing.T) {
	light := []float64{5.5, 2.0, 0.4}
	for _, c := range []struct {
		grass   string
		hardyC  float64
		thaw    float64
		byTempC map[float64][]float64 // pre-acclimation: LT50 in early, middle and late light
	}{
		{"perennial ryegrass", -16, 0.5, map[float64][]float64{6: {-14.9, -15.95, -12.6}, 12: {-13.05, -11.0, -7.0}}},
		{"timothy", -17, 0.45, map[float64][]float64{6: {-16.4, -16.15, -11.15}, 12: {-11.1, -11.4, -7.7}}},
	} {
		tr := Traits{LT50C: c.hardyC, ThawLoss: c.thaw}
		var off, n float64
		for temp, published := range c.byTempC {
			for i, want := range published {
				got := lt50(&tr, &weather.Year{Hardening: weather.HardeningDay(temp, light[i])})
				t.Logf("%s, %v °C, light %d: %.1f °C, found %.1f", c.grass, temp, i, got, want)
				if math.Abs(got-want) > 3 {
					t.Errorf("%s, %v °C, light %d: LT50 %.1f °C, found %.1f", c.grass, temp, i, got, want)
				}
				off += math.Abs(got - want)
				n++
			}
		}
		if off/n > 1.6 {
			t.Errorf("%s: LT50 %.1f °C off on average", c.grass, off/n)
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
			s, err := newSetting(c, 0, Use{Grade: Utility})
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
		s, err := newSetting(at(t, station, light.Seen{}, ground.Survey{}, false), 0, Use{Grade: Utility, Feeding: "moderate"})
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
