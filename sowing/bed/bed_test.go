package bed

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"swardwright/internal/approx"
	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/site"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/sowing/job"
	"swardwright/species"
)

var near = approx.Near

func ptr(x float64) *float64 { return &x }

// place is an invented lawn of 84 m² on the given ground.
func place(t *testing.T, s ground.Survey) *site.Conditions {
	t.Helper()
	soil, err := s.Soil()
	if err != nil {
		t.Fatal(err)
	}
	c := &site.Conditions{Soil: soil, AreaM2: 84}
	c.Weather.DesignRainMMH, c.Weather.ColdestMonthC = 18, 2
	c.Survey.Lawn.SlopeDeg = 1
	return c
}

// grass is a species that prefers the given pH.
func grass(id string, low, high float64) mix.Part {
	s := &species.Species{ID: id}
	s.Values[species.PHLow].Best, s.Values[species.PHHigh].Best, s.Values[species.SaltDSM].Best = low, high, 4
	return mix.Part{Species: s, Percent: 50}
}

var (
	fescue = grass("chewings-fescue", 5.5, 6.5)             // Beard 1973, from memory
	meadow = grass("smooth-stalked-meadow-grass", 6.0, 7.0) // University of Maine Extension
)

// Ritzema (ed.), Drainage Principles and Applications, ILRI Publication 16, 1994,
// example 8.1: K 0.14 m/d, pipes at 1.8 m, r 0.10 m, barrier at 6.8 m, h 1.0 m,
// q 1 mm/d: L about 65 m (from memory).
func TestDrainSpacing(t *testing.T) {
	d := drains{AboveMD: 0.14, BelowMD: 0.14, HeadM: 1, BarrierM: 5, RadiusM: 0.10, DischargeMD: 0.001}
	near(t, "spacing", d.spacing(), 65, 1)
	if s := (drains{AboveMD: 1e-9, BelowMD: 1e-9, HeadM: 0.3, BarrierM: 1, RadiusM: 0.04, DischargeMD: 0.025}).spacing(); s != 0 {
		t.Errorf("pipes in ground that passes nothing: %g m apart", s)
	}
}

// The two branches of the closed form of van der Molen & Wesseling meet at x = 1.
func TestEquivalentDepthBranchesMeet(t *testing.T) {
	l := 2 * math.Pi * 3 / 1.0
	near(t, "d just under and over x = 1", equivalentDepth(l*1.0001, 3, 0.1), equivalentDepth(l*0.9999, 3, 0.1), 0.001)
}

// Lime arithmetic of published examples.
func TestLimeGM2(t *testing.T) {
	for _, r := range []struct {
		source                string
		from, to, factor, cce float64
		want, tolerance       float64
	}{
		{"exam problem, heavy clay (freemathhelp.com 122782): 12 t/ha", 6.0, 7.5, 8, 100, 1200, 0.1},
		{"merchant's table after RB209 (dblbuyinggroup.co.uk), grass 6.5 from 6.0: 3.0 t/ha", 6.0, 6.5, 6, 100, 300, 5},
		{"the same from 5.5: 6.0 t/ha", 5.5, 6.5, 6, 100, 600, 5},
		{"the same, arable 6.7 from 6.0: 4.2 t/ha", 6.0, 6.7, 6, 100, 420, 5},
		{"the same, arable 6.7 from 5.5: 7.2 t/ha", 5.5, 6.7, 6, 100, 720, 5},
		{"Penn State commercial turf pages: 75 lb at 80 % CCE is 94 lb", 0, 75, 0.01, 80, 94, 0.5},
		{"no lime above the goal", 7, 6, 8, 100, 0, 0},
	} {
		near(t, r.source, limeGM2(r.from, r.to, r.factor, r.cce), r.want, r.tolerance)
	}
}

// Defra/AHDB RB209 (from memory): arable 6, 7 and 8 t/ha a pH unit on sands, silt
// loams and clays, 8 on organic soils; grass 4, 5 and 6.
func TestLimeFactor(t *testing.T) {
	for _, r := range []struct {
		clay, organic float64
		grass         bool
		want          float64
	}{{5, 2, false, 6}, {15, 2, false, 7}, {35, 2, false, 8}, {15, 15, false, 8}, {5, 2, true, 4}, {15, 2, true, 5}, {35, 2, true, 6}} {
		near(t, "factor", limeFactor(r.clay, r.organic, r.grass), r.want, 0)
	}
}

// Fertiliser arithmetic of published examples, in the units they are given in.
func TestProduct(t *testing.T) {
	for _, r := range []struct {
		source                         string
		nutrient, percent, want, wider float64
	}{
		{"University of Nebraska: 1 lb N of 28-3-6", 1, 28, 3.57, 0.005},
		{"University of Georgia: 10-10-10", 1, 10, 10, 0.005},
		{"University of Georgia: 12-4-8", 1, 12, 8.3, 0.05},
		{"University of Georgia: 5-10-15", 1, 5, 20, 0.005},
		{"University of Georgia: 16-4-8", 1, 16, 6.3, 0.05},
		{"Purdue method (quoted at trumarkathletics.com): 0.75 lb of 16-8-8", 0.75, 16, 4.69, 0.005},
		{"UC IPM: 20 lb of 5-10-5 carry 1 lb N", 1, 5, 20, 0},
		{"UC IPM: and 2 lb P2O5", 2, 10, 20, 0},
	} {
		near(t, r.source, productGM2(r.nutrient, r.percent), r.want, r.wider)
	}
}

// A grading whose ratios were worked by hand from the USGA rules: D15 gravel 3 mm,
// D90 8 mm; rootzone D15 0.25 mm, D85 0.7 mm. It passes the wording of 2004 (8, 5,
// 3) and fails 1993 on uniformity (2.5).
func TestUSGAEditions(t *testing.T) {
	j := jointOf(grading{{0.25, 15}, {0.7, 85}}, grading{{3, 15}, {8, 90}})
	near(t, "bridging", j.Bridging, 4.29, 0.005)
	near(t, "permeability", j.Permeability, 12, 1e-9)
	near(t, "uniformity", j.Evenness, 2.67, 0.005)
	fails := func(e edition) (names string) {
		for _, c := range e.checks(j) {
			if !c.OK {
				names += c.ID
			}
		}
		return names
	}
	if got := fails(usga2004); got != "" {
		t.Errorf("edition 2004 fails %q", got)
	}
	if got := fails(usga1993); got != "uniformity" {
		t.Errorf("edition 1993 fails %q, want uniformity", got)
	}
}

// The sand taken for rootzones keeps within the USGA particle sizes (Kopec,
// University of Arizona, June 1994): over 1 mm at most 10 %, 0.25-1 mm at least
// 60 %, 0.15-0.25 at most 20 %, 0.05-0.15 at most 5 %, finer at most 10 % with it.
func TestRootzoneSandKeepsUSGA(t *testing.T) {
	passing := func(mm float64) float64 {
		for _, s := range mediumSand {
			if s.SizeMM == mm {
				return s.PassingPercent
			}
		}
		t.Fatalf("no sieve of %g mm", mm)
		return 0
	}
	if passing(2) != 100 || 100-passing(1) > 10 || passing(1)-passing(0.25) < 60 || passing(0.25)-passing(0.15) > 20 ||
		passing(0.15)-passing(0.05) > 5 || passing(0.15) > 10 {
		t.Errorf("%v", mediumSand)
	}
}

// d is a reading of the curve: the sieve's own size at its own percentage.
func TestGradingD(t *testing.T) {
	for _, s := range fineGravel {
		near(t, "D at a sieve", fineGravel.d(s.PassingPercent), s.SizeMM, 1e-12)
	}
	near(t, "between, on the log", grading{{1, 0}, {4, 100}}.d(50), 2, 1e-12)
}

// Mixing backwards gives the share that was mixed forwards.
// A mix of two soils lies between both, however it is rounded.
func TestBlendLiesBetween(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 8))
	for range 2000 {
		percent := func() float64 { return math.Round(100 * rng.Float64()) }
		a, b := grain{percent(), 0, 100, 100 + 1900*rng.Float64()}, grain{percent(), 0, 100, 100 + 1900*rng.Float64()}
		m := blend(a, b, rng.Float64())
		if m.OrganicPercent != 100 || m.SandPercent < min(a.SandPercent, b.SandPercent) || m.SandPercent > max(a.SandPercent, b.SandPercent) {
			t.Fatalf("%+v with %+v: %+v", a, b, m)
		}
	}
}

// What a made rootzone takes of the soil that is there is not brought in as well, by however little.
func TestNoTraceIsOrdered(t *testing.T) {
	rng := rand.New(rand.NewPCG(12, 4))
	for range 400 {
		c := place(t, ground.Survey{})
		c.AreaM2 = 5 + math.Round(2000*rng.Float64())/100
		sand := float64(50 + rng.IntN(45))
		made := &job.Rootzone{DepthCM: math.Round(100+200*rng.Float64()) / 10, SandPercent: sand, SoilPercent: 100 - sand, Base: "gravel"}
		for _, m := range Plan(Input{Site: c, Kind: job.New, Rootzone: made, Parts: []mix.Part{meadow}}).Materials {
			if m.Quantity < 1e-6 {
				t.Fatalf("%+v on %g m²: %g %s of %v", *made, c.AreaM2, m.Quantity, m.Unit, m.Item)
			}
		}
	}
}

func TestShareForInvertsBlend(t *testing.T) {
	soil := grain{SandPercent: 30, ClayPercent: 35, OrganicPercent: 3, DensityKGM3: 1360}
	for _, share := range []float64{0, 0.1, 0.5, 0.7, 1} {
		got, err := shareFor(rootzoneSand, soil, blend(rootzoneSand, soil, share).SandPercent)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "share", got, share, 1e-12)
	}
	for _, want := range []float64{10, 99, math.NaN()} {
		if s, err := shareFor(rootzoneSand, soil, want); err == nil {
			t.Errorf("a mix with %g %% sand: share %g", want, s)
		}
	}
}

// Common practice, no published source: sand makes heavy ground better only where
// it is most of the mix; the mix advised is a sandy loam or lighter by the USDA triangle.
func TestSandAdvice(t *testing.T) {
	b := Plan(Input{Site: place(t, ground.Survey{Texture: "clay"}), Use: species.Use{Grade: species.Ornamental}, Parts: []mix.Part{fescue}})
	c := check(t, b, "texture")
	if c.OK || c.Advice.Name != "bed.mix-sand" {
		t.Errorf("%+v", c)
	}
	soil, _ := ground.Survey{Texture: "clay"}.Soil()
	share, err := shareFor(rootzoneSand, grainOf(soil), sandyPercent)
	if err != nil || share < 0.6 {
		t.Fatalf("%g of sand, %v", share, err)
	}
	w := place(t, ground.Survey{Texture: "clay"})
	near(t, "sand to buy, loose m³", float64(c.Advice.Figures[3].(told.VolumeM3)), share*0.2*w.AreaM2*(1+ground.Sand.Swell), 1e-9)
	g := blend(rootzoneSand, grainOf(soil), share)
	if class, _ := ground.TextureClass(g.SandPercent, g.ClayPercent); class != "sandy loam" && class != "loamy sand" {
		t.Errorf("the mix is a %s", class)
	}
	if light := Plan(Input{Site: place(t, ground.Survey{Texture: "sandy loam"}), Use: species.Use{Grade: species.Ornamental}, Parts: []mix.Part{fescue}}); !check(t, light, "texture").OK {
		t.Error("a sandy loam is called heavy")
	}
}

// Common practice, no published source: sand to soil 70:30, laid 300 mm deep over
// drained gravel, takes in a downpour that clay loam leaves on top.
func TestRootzoneTakesDownpour(t *testing.T) {
	c := place(t, ground.Survey{Texture: "clay loam", Drainage: "poorly"})
	c.Weather.DesignRainMMH = 40
	b := Plan(Input{Site: c, Kind: job.New, Rootzone: &job.Rootzone{DepthCM: 30, SandPercent: 70, SoilPercent: 30, Base: "gravel"}, Parts: []mix.Part{fescue, meadow}})
	if b.PuddleMM != 0 || b.FoundPuddleMM < 20 {
		t.Errorf("stands: found %g mm, made %g mm", b.FoundPuddleMM, b.PuddleMM)
	}
	if b.DrainSpacingM != gravelDrainM {
		t.Errorf("gravel over poor ground needs pipes: %g", b.DrainSpacingM)
	}
	near(t, "sand, settled", find(t, b, "bed.washed-sand").SettledM3, 0.30*0.70*84, 1e-9)
	near(t, "gravel, settled", find(t, b, "bed.washed-gravel").SettledM3, 0.10*84, 1e-9)
	// 15 cm of topsoil is there, 9 cm of it goes back.
	near(t, "spoil", find(t, b, "bed.spoil").SettledM3, (0.40-0.09)*84, 1e-9)
}

func find(t *testing.T, b Bed, item string) Material {
	t.Helper()
	for _, m := range b.Materials {
		if m.Item.Name == item {
			return m
		}
	}
	t.Fatalf("no %s among %+v", item, b.Materials)
	return Material{}
}

func check(t *testing.T, b Bed, name string) Check {
	t.Helper()
	for _, c := range b.Checks {
		if c.ID == name {
			return c
		}
	}
	t.Fatalf("no check of %s", name)
	return Check{}
}

// Published rules of ground (each named in the row).
func TestPublishedGround(t *testing.T) {
	shallow := Plan(Input{Site: place(t, ground.Survey{DepthCM: ptr(8)}), Parts: []mix.Part{meadow}, Use: species.Use{Grade: species.Utility}})
	top, loose := shallow.Layers[0], shallow.Layers[1] // 80 mm found, 70 brought, 120 loosened below
	if top.DepthMM < 150 {                             // Östersund municipality, Teknisk handbok: topsoil at least 15 cm
		t.Errorf("topsoil of %g mm", top.DepthMM)
	}
	if loosened := 80 + loose.DepthMM; loosened < 200 { // the same: what is there loosened at least 20 cm
		t.Errorf("loosened %g mm", loosened)
	}
	near(t, "topsoil bought", find(t, shallow, "bed.item-topsoil").SettledM3, 0.07*84, 1e-9)
	for _, r := range []struct {
		source  string
		degrees float64
		mown    bool
		says    string
	}{
		{"level: fall of 1 to 2 % (University of Alaska HGA-00046; Växjö: at least 1 %)", 0, true, "{bed.no-fall [{0.01 0.02}]}"},
		{"10 % and more: other methods (University of Alaska HGA-00046)", math.Atan(0.11) * 180 / math.Pi, true, "{bed.sloping [0.1]}"},
		{"25 %: consider terracing (City of Regina)", math.Atan(0.26) * 180 / math.Pi, true, "{bed.terrace [0.25]}"},
		{"1:3 is the limit (Östersund, Uppsala, BS 4428)", math.Atan(0.34) * 180 / math.Pi, false, "{bed.too-steep []}"},
	} {
		c := place(t, ground.Survey{})
		c.Survey.Lawn.SlopeDeg, c.Weather.ColdestMonthC = r.degrees, -5
		b := Plan(Input{Site: c, Parts: []mix.Part{meadow}})
		if said := fmt.Sprint(check(t, b, "slope").Advice, check(t, b, "fall").Advice); Mowable(r.degrees) != r.mown || !strings.Contains(said, r.says) {
			t.Errorf("%s: mown %v, says %q", r.source, Mowable(r.degrees), said)
		}
	}
	// Ground that takes in the design rain of 18 mm and doesn't freeze for long may lie level, an old lawn on it as it is; a house
	// still wants its fall. Where some of it stands, or winters are hard, a fall is asked for.
	for name, r := range map[string]struct {
		kind    job.Kind
		puddle  float64
		coldest float64
		ok      bool
		says    string
	}{
		"sand, new": {job.New, 0, 2, false, "bed.no-fall-soaks"}, "sand, old": {job.Overseed, 0, 2, true, ""}, "sand, hard winters": {job.New, 0, -5, false, "bed.no-fall"},
		"clay": {job.New, 4, 2, false, "bed.no-fall-mild"}, "clay, old": {job.Overseed, 4, 2, false, "bed.no-fall-standing-mild"},
	} {
		c := place(t, ground.Survey{})
		c.Weather.ColdestMonthC = r.coldest
		if got := (Input{Site: c, Kind: r.kind}).fallCheck(told.Sentence{}, 0, r.puddle); got.OK != r.ok || got.Advice.Name != r.says {
			t.Errorf("%s: %t, %v", name, got.OK, got.Advice)
		}
	}
	// City of Regina: 12 to 25 mm below paving; East Lothian Council: 25 mm above kerbs and
	// 150 mm below the damp-proof course.
	if text := fmt.Sprint(shallow.Notes); !strings.Contains(text, "{bed.finished-level [{12 25} 25 150]}") {
		t.Errorf("levels not in %s", text)
	}
	var steps []told.Sentence
	for _, s := range shallow.Tasks {
		steps = append(steps, s.Detail...)
	}
	for _, r := range []struct{ source, says string }{
		// City of Gothenburg: no stones over 20 mm; Parkland County: upper 50 mm fine;
		// Praktiskais Latvietis: feet sink no more than 5 mm.
		{"tilth", "{bed.tilth [20 50 5]}"},
		{"East Lothian Council: layers of at most 100 mm", "{bed.topsoil-how [70 100]}"},
	} {
		if !strings.Contains(fmt.Sprint(steps), r.says) {
			t.Errorf("%s: not in %v", r.source, steps)
		}
	}
}

// Uppsala municipality: grass at least 1.5 m wide, for the mower.
func TestWidth(t *testing.T) {
	turned := func(w, l, deg float64) []light.Point {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		var o []light.Point
		for _, p := range [][2]float64{{0, 0}, {l, 0}, {l, w}, {0, w}} {
			o = append(o, light.Point{X: p[0]*cos - p[1]*sin, Y: p[0]*sin + p[1]*cos})
		}
		return o
	}
	for _, r := range []struct {
		parts [][]light.Point
		width float64
	}{
		{[][]light.Point{turned(1.2, 9, 33)}, 1.2},
		{[][]light.Point{turned(7, 12, 0), turned(2, 3, 71)}, 2},
		{[][]light.Point{{{X: 0, Y: 0}, {X: 4, Y: 0}, {X: 0, Y: 3}}}, 2.4}, // the height on the hypotenuse
	} {
		c := place(t, ground.Survey{})
		c.Survey.Lawn.Parts = r.parts
		got, ok := narrowest(r.parts)
		if near(t, "width", got, r.width, 1e-9); !ok || check(t, Plan(Input{Site: c}), "width").OK != (r.width >= 1.5) {
			t.Errorf("%v is %g m wide", r.parts, got)
		}
	}
	if _, ok := narrowest(nil); ok {
		t.Error("a lawn without an outline has a width")
	}
}

// Lime only on evidence, to the mixture's own pH, and not until it falls well
// below 6 (common practice, no published source).
func TestLimeOnEvidence(t *testing.T) {
	for _, r := range []struct {
		ph    *float64
		grade species.Grade
		lime  bool
	}{
		{nil, species.Utility, false}, {ptr(6.2), species.Utility, false}, {ptr(5.7), species.Utility, false}, {ptr(5.2), species.Utility, true},
		{ptr(5.2), species.Ornamental, false}, {ptr(4.8), species.Ornamental, true}, // fescue and bent are content in acid soil
		{ptr(5.2), species.HardWearing, true}, {ptr(4.8), species.Extensive, false}, {ptr(8), species.Utility, false},
	} {
		c := place(t, ground.Survey{PH: r.ph})
		b := Plan(Input{Site: c, Use: species.Use{Grade: r.grade}, Parts: []mix.Part{meadow}})
		if (b.LimeGM2 > 0) != r.lime || r.lime != (b.Lime[0].Name == "bed.lime-answer") {
			t.Errorf("pH %v, %s: %g g/m², %v", r.ph, r.grade, b.LimeGM2, b.Lime)
		}
	}
	// New Brunswick Department of Agriculture, Agdex 273.21: 5 to 10 kg of ground
	// limestone per 10 m² where a truly acid soil is tested.
	acid := Plan(Input{Site: place(t, ground.Survey{PH: ptr(5.0)}), Use: species.Use{Grade: species.Utility}, Parts: []mix.Part{meadow}})
	if acid.LimeGM2 < 500 || acid.LimeGM2 > 1000 {
		t.Errorf("at pH 5 on bare ground %g g/m² of lime, published 500 to 1,000", acid.LimeGM2)
	}
	// Penn State: never more than 100 lb a 1000 square feet (488 g/m²) at once on turf.
	b := Plan(Input{Site: place(t, ground.Survey{Texture: "clay", PH: ptr(4.6)}), Kind: job.Renovate, Parts: []mix.Part{meadow}})
	if !strings.Contains(fmt.Sprint(b.Lime), "{bed.lime-in-parts [2 4 488]}") {
		t.Errorf("%g g/m² on grass: %v", b.LimeGM2, b.Lime)
	}
}

// New Brunswick Department of Agriculture, Agdex 273.21: before sowing about 10
// g/m² each of P₂O₅ and K₂O and little N (2.5 to 5). DIN 18917: 5 g N at sowing.
func TestStarter(t *testing.T) {
	b := Plan(Input{Site: place(t, ground.Survey{}), Parts: []mix.Part{meadow}, Use: species.Use{Grade: species.Utility}})
	if b.StarterP2O5 != 10 || b.StarterK2O != 10 || b.StarterN < 2.5 || b.StarterN > 5 {
		t.Errorf("starter of %g, %g, %g", b.StarterN, b.StarterP2O5, b.StarterK2O)
	}
	// No phosphorus where the soil has enough (Landschoot & Wolf 2011).
	rich := Plan(Input{Site: place(t, ground.Survey{Phosphorus: "high"}), Parts: []mix.Part{meadow}, Use: species.Use{Grade: species.Utility}})
	if rich.StarterP2O5 != 0 || strings.Contains(fmt.Sprint(rich.Starter), "bed.of-phosphate") {
		t.Errorf("phosphorus on a rich soil: %g, %v", rich.StarterP2O5, rich.Starter)
	}
	none := Plan(Input{Site: place(t, ground.Survey{}), Parts: []mix.Part{meadow}, Use: species.Use{Feeding: "none"}})
	if none.StarterN != 0 || !none.Starter.Silent() {
		t.Errorf("fed against the brief: %v", none.Starter)
	}
	// Where nothing is fed a test that finds little phosphorus has phosphate alone worked into a new bed: 10 g/m² (New Brunswick,
	// Agdex 273.21), of which superphosphate is a fifth. Neither unasked, nor on flowers, nor on an old sward, nor by law.
	for _, r := range []struct {
		test, mower string
		grade       species.Grade
		kind        job.Kind
		nitrogen    *float64
		forbidden   bool
		p2o5        float64
	}{
		{"low", "", species.Utility, job.New, nil, false, 10},
		{"low", "", species.Utility, job.New, ptr(0.0), false, 10},
		{"low", "", species.Extensive, job.New, nil, false, 10},
		{"low", "scythe", species.Extensive, job.New, nil, false, 0},
		{"", "", species.Utility, job.New, nil, false, 0},
		{"medium", "", species.Utility, job.New, nil, false, 0},
		{"low", "", species.Utility, job.Renovate, nil, false, 0},
		{"low", "", species.Utility, job.New, nil, true, 0},
	} {
		u := species.Use{Grade: r.grade, Mower: r.mower, Feeding: "none"}
		if r.nitrogen != nil {
			u.Feeding, u.NitrogenGM2 = "moderate", r.nitrogen
		}
		b := Plan(Input{Site: place(t, ground.Survey{Phosphorus: r.test, Potassium: "low"}), Kind: r.kind, Parts: []mix.Part{meadow}, Use: u, Unfed: r.forbidden, Sown: []job.Zone{{AreaM2: 84}}})
		if b.StarterN != 0 || b.StarterP2O5 != r.p2o5 || b.StarterK2O != 0 || b.Starter.Silent() != (r.p2o5 == 0) {
			t.Errorf("%+v: %g, %g, %g: %v", r, b.StarterN, b.StarterP2O5, b.StarterK2O, b.Starter)
		}
		kg := 0.0
		for _, m := range b.Materials {
			if m.PriceKey == "starter_feed_per_kg" {
				kg += m.KG
			}
		}
		near(t, "superphosphate, kg", kg, r.p2o5*5*84/1000, 1e-9)
		if worked := FedOn(b.Tasks, func(time.Time) bool { return true }); worked != (r.p2o5 > 0) {
			t.Errorf("%+v: worked in %t", r, worked)
		}
		if said := strings.Contains(fmt.Sprint(b.Notes), "bed.phosphate-forbidden"); said != r.forbidden {
			t.Errorf("%+v: %v", r, b.Notes)
		}
	}
	for unfed, want := range map[bool]bool{false: true, true: false} { // by law on the day
		w := Input{Site: place(t, ground.Survey{}), Parts: []mix.Part{meadow}, Use: species.Use{Grade: species.Utility}}
		w.Unfed = unfed
		b := Plan(w)
		fed := FedOn(b.Tasks, func(time.Time) bool { return true })
		if fed != want || (b.StarterN > 0) != want || strings.Contains(fmt.Sprint(b.Notes), "bed.starter-forbidden") == want {
			t.Errorf("feed forbidden %t: %g g/m², a task %t, notes %v", unfed, b.StarterN, fed, b.Notes)
		}
	}
}

// The renovation in order, with its waits: common practice, no published source.
func TestRenovationOrder(t *testing.T) {
	for _, r := range []struct {
		method string
		want   []string
	}{
		{"broadcast", []string{"bed.mow-down", "bed.scarify", "bed.spike", "bed.sow-into-old", "bed.dress", "bed.drag-in", "bed.brush-in"}},
		{"in dressing", []string{"bed.mow-down", "bed.scarify", "bed.spike", "bed.sow-in-dressing", "bed.drag-in", "bed.brush-in"}},
	} {
		b := Plan(Input{Site: place(t, ground.Survey{}), Kind: job.Renovate, Method: r.method, Parts: []mix.Part{fescue}})
		at := -1
		for _, want := range r.want {
			found := -1
			for i, s := range b.Tasks {
				if s.Title.Name == want {
					found = i
				}
			}
			if found <= at {
				t.Errorf("%s: %q comes at %d after %d", r.method, want, found, at)
			} else if at = found; at > 0 && (len(b.Tasks[at].Needs) != 1 || b.Tasks[at].Needs[0].ID != b.Tasks[at-1].ID) {
				t.Errorf("%s: %q waits for %v, not for the step it follows", r.method, want, b.Tasks[at].Needs)
			}
		}
		last := b.Tasks[len(b.Tasks)-1]
		if last.Needs[0].Days != 2 {
			t.Errorf("dressing settles two days before it is brushed in, not %d", last.Needs[0].Days)
		}
		// Hundreds of holes by hand fork, 15 cm deep: common practice.
		if h := spikes(); h.PerM2 < 50 || h.PerM2 > 500 || job.SpikeDepthMM != 150 {
			t.Errorf("%+v", h)
		}
		// City of Regina: at most 5 mm in one go.
		if b.DressingMM <= 0 || b.DressingMM > 5 {
			t.Errorf("dressing of %g mm", b.DressingMM)
		}
	}
}

// Quarter of an inch over 1000 square feet is 0.77 cubic yards (askvity.info).
func TestDressingVolume(t *testing.T) {
	c := place(t, ground.Survey{})
	c.AreaM2 = 1000 * 0.3048 * 0.3048
	b := Bed{DressingMM: 25.4 / 4}
	var m3 float64
	for _, m := range materials(Input{Site: c, Kind: job.New}, rootzone{}, &b, c.AreaM2, 0.6) {
		m3 += m.SettledM3
	}
	near(t, "cubic yards", m3/math.Pow(0.9144, 3), 0.77, 0.005)
}

// Rain at half an inch an hour on ground that takes in a quarter stands a quarter
// of an inch deep: max(0, i - f) × duration, the usual excess of rain.
func TestPuddle(t *testing.T) {
	mm, h := soak{IntakeMMH: 6.35, StoreMM: 100, DrainMMH: 5}.puddle(12.7)
	near(t, "stands", mm, 6.35, 1e-9)
	near(t, "for", h, 1, 1e-9)
	mm, h = soak{IntakeMMH: 50, StoreMM: 10, DrainMMH: 1}.puddle(31)
	near(t, "stands on full pores", mm, 20, 1e-9)
	near(t, "leaves through the bottom", h, 20, 1e-9)
	if mm, h := (soak{IntakeMMH: 50, StoreMM: 100, DrainMMH: 1}).puddle(31); mm != 0 || h != 0 {
		t.Errorf("stands %g mm for %g h though there is room", mm, h)
	}
}

// More rain never stands for less, and a wetter drainage class never sheds faster.
func FuzzPuddle(f *testing.F) {
	f.Add(6.0, 30.0, 1.0, 20.0, 5.0)
	f.Fuzz(func(t *testing.T, intake, store, drain, rain, more float64) {
		for _, x := range []float64{intake, store, drain, rain, more} {
			if !(x >= 0.001 && x < 1e4) {
				t.Skip()
			}
		}
		g := soak{intake, store, drain}
		mm, h := g.puddle(rain)
		mm2, h2 := g.puddle(rain + more)
		if !(mm >= 0 && h >= 0) || mm2 < mm-1e-9 || h2 < h-1e-9*math.Max(1, h) || mm > rain {
			t.Errorf("%+v: rain %g stands %g for %g h, %g stands %g for %g h", g, rain, mm, h, rain+more, mm2, h2)
		}
	})
}

// The depth asked for follows the grade; thin humus gets compost, 50 mm of it at
// most (City of Regina); ground pressed hard is broken up half a metre deep
// (Östersund municipality: at times 50 cm); pipes lie under the frost.
func TestDepths(t *testing.T) {
	for _, r := range []struct {
		grade species.Grade
		mm    float64
	}{{species.Ornamental, 200}, {species.HardWearing, 200}, {species.Utility, 150}, {species.Extensive, 100}} {
		b := Plan(Input{Site: place(t, ground.Survey{DepthCM: ptr(2)}), Use: species.Use{Grade: r.grade}, Parts: []mix.Part{meadow}})
		near(t, string(r.grade), b.Layers[0].DepthMM, r.mm, 1e-9)
	}
	poor := Plan(Input{Site: place(t, ground.Survey{OrganicPercent: ptr(0.2), Compaction: "severe"}), Parts: []mix.Part{meadow}})
	if m := find(t, poor, "bed.item-compost"); m.SettledM3/84 > 0.050+1e-9 || m.SettledM3/84 < 0.02 {
		t.Errorf("%g m of compost", m.SettledM3/84)
	}
	if below := poor.Layers[0].DepthMM + poor.Layers[1].DepthMM; below != 500 {
		t.Errorf("hard ground loosened to %g mm", below)
	}
	c := place(t, ground.Survey{Texture: "sandy loam", Drainage: "poorly"})
	mild := Plan(Input{Site: c, Parts: []mix.Part{meadow}})
	c.Weather.ColdestMonthC = -12
	frosty := Plan(Input{Site: c, Parts: []mix.Part{meadow}})
	if mild.DrainSpacingM < 3 || frosty.DrainSpacingM <= mild.DrainSpacingM {
		t.Errorf("pipes %g m apart, deeper under frost %g", mild.DrainSpacingM, frosty.DrainSpacingM)
	}
}

// What is said of compost is said where there is some: not of topsoil alone.
func TestCompostCaution(t *testing.T) {
	for _, r := range []struct {
		depthCM, organic float64
		compost          bool
	}{{5, 4, false}, {30, 0.2, true}} {
		b := Plan(Input{Site: place(t, ground.Survey{DepthCM: ptr(r.depthCM), OrganicPercent: ptr(r.organic)}), Parts: []mix.Part{meadow}})
		i := slices.IndexFunc(b.Tasks, func(x job.Task) bool { return x.ID == "topsoil" })
		if i < 0 {
			t.Fatalf("%g cm of soil with %g %% of humus: nothing is brought in", r.depthCM, r.organic)
		}
		if said := slices.ContainsFunc(b.Tasks[i].Caution, func(s told.Sentence) bool { return s.Name == "bed.caution-compost" }); said != r.compost {
			t.Errorf("%g cm of soil with %g %% of humus: cautioned of compost %v", r.depthCM, r.organic, said)
		}
	}
}

// Too little left of a sward is told, and overseeding brings neither soil nor feed.
func TestOverseed(t *testing.T) {
	for cover, ok := range map[float64]bool{0.3: false, 0.7: true} {
		b := Plan(Input{Site: place(t, ground.Survey{DepthCM: ptr(5)}), Kind: job.Overseed, Cover: cover, Parts: []mix.Part{fescue}})
		if check(t, b, "cover").OK != ok || b.StarterN != 0 {
			t.Errorf("cover %g: %+v", cover, b)
		}
		for _, m := range b.Materials {
			if m.For.Name != "bed.for-dressing" {
				t.Errorf("overseeding brings %v", m.Item)
			}
		}
	}
}

// Every material and step that has a price names it with a quantity.
func TestPricedQuantities(t *testing.T) {
	for _, kind := range []job.Kind{job.New, job.Overseed, job.Renovate} {
		for _, rz := range []*job.Rootzone{nil, {DepthCM: 25, SandPercent: 80, SoilPercent: 20, Base: "gravel"}} {
			b := Plan(Input{Site: place(t, ground.Survey{DepthCM: ptr(5), PH: ptr(4.8), OrganicPercent: ptr(1), Drainage: "somewhat poorly"}), Kind: kind, Rootzone: rz, Parts: []mix.Part{fescue, meadow}})
			for _, m := range b.Materials {
				if m.Quantity <= 0 || m.Unit == "" {
					t.Errorf("%s %v: %+v", kind, m.Item, m)
				}
			}
			for _, s := range b.Tasks {
				if (s.OutputKey != "") != (s.Quantity > 0) {
					t.Errorf("%s %v: %+v", kind, s.Title, s)
				}
			}
		}
	}
}

// Without grass nothing is prepared or bought; the ground is still judged.
func TestNoGrass(t *testing.T) {
	b := Plan(Input{Site: place(t, ground.Survey{PH: ptr(4)})})
	if len(b.Tasks)+len(b.Materials)+len(b.Layers) != 0 || !b.Starter.Silent() || b.LimeGM2 != 0 || len(b.Checks) < 5 {
		t.Errorf("%+v", b)
	}
}

// Turf wants the same ground and neither stale seedbed nor netting; it keeps 24
// hours rolled and takes 20 mm of water in the first hour (Nursery Sod Growers
// Association of Ontario).
func TestTurf(t *testing.T) {
	b := Plan(Input{Site: place(t, ground.Survey{}), Laid: []job.Zone{{Letter: "A", AreaM2: 84}}, Parts: []mix.Part{meadow}, SeedGM2: 20})
	for _, s := range b.Tasks {
		if slices.Contains([]string{"bed.stale", "bed.keep-off", "bed.sow"}, s.Title.Name) {
			t.Errorf("%v before turf", s.Title)
		}
	}
	last := b.Tasks[len(b.Tasks)-1]
	if last.OutputKey != "lay_turf_m2_per_hour" || fmt.Sprint(last.Detail) != "[{bed.lay-turf-how [24 20]}]" || b.Guide != nil {
		t.Errorf("%+v", last)
	}
}

// The spreading guide gives out all the seed, and both passes are equal.
func TestGuide(t *testing.T) {
	for _, c := range []struct {
		by    Spread
		areas []float64
		hand  bool
		names string
	}{
		{Spread{}, []float64{50, 34}, true, "[bed.guide-weigh bed.guide-practise bed.guide-walk]"},
		{Spread{"broadcast", true}, []float64{50, 34}, true, "[bed.guide-weigh bed.guide-practise bed.guide-walk-level]"},
		{Spread{}, []float64{250, 60}, false, "[bed.guide-fill bed.spreader-set bed.guide-walk]"},
		{Spread{job.Drill, false}, []float64{50, 34}, false, "[bed.guide-fill bed.drill-set bed.guide-walk]"},
		{Spread{job.InDressing, false}, []float64{50, 34}, false, "[bed.guide-mix bed.guide-walk]"},
	} {
		var zones []job.Zone
		for i, m2 := range c.areas {
			zones = append(zones, job.Zone{Letter: string(rune('A' + i)), AreaM2: m2})
		}
		g := GuideOf(c.by, Seed{zones, 28.5, 25000, nil})
		var grams float64
		for _, z := range g.Zones {
			grams += z.Grams
			near(t, "two passes", 2*z.PassG, z.Grams, 1e-9)
			if (z.HandfulN > 0) != c.hand || (z.SandKG > 0) != c.hand {
				t.Errorf("%+v: %+v", c.by, z)
			}
		}
		near(t, "seed", grams, 28.5*job.Area(zones), 1e-9)
		var names []string
		for _, s := range g.Instructions {
			names = append(names, s.Name)
		}
		if fmt.Sprint(names) != c.names {
			t.Errorf("%+v: %v", c.by, names)
		}
	}
}

func BenchmarkPlan(b *testing.B) {
	soil, _ := ground.Survey{Texture: "clay loam", Drainage: "somewhat poorly"}.Soil()
	w := Input{Site: &site.Conditions{Soil: soil, AreaM2: 84}, Rootzone: &job.Rootzone{DepthCM: 25, SandPercent: 80, SoilPercent: 20, Base: "gravel"}, Parts: []mix.Part{fescue, meadow}}
	for b.Loop() {
		Plan(w)
	}
}

// Two mixtures are each weighed out at their rate for their zones, and kept apart.
func TestGuideOfTwo(t *testing.T) {
	first := Seed{Zones: []job.Zone{{Letter: "A", AreaM2: 40}, {Letter: "B", AreaM2: 20}}, GM2: 15, PerM2: 24000, Parts: mixture()}
	second := Seed{Zones: []job.Zone{{Letter: "C", AreaM2: 30}}, GM2: 25, PerM2: 18000, Parts: []mix.Part{meadow}}
	for _, c := range []struct {
		method string
		area   float64
		names  string
		set    string
	}{
		{"", 30, "[bed.guide-apart bed.guide-blend-two bed.guide-weigh bed.guide-practise-two bed.guide-walk bed.guide-meet]", "{bed.guide-practise-two [1 15 360 25 270]}"},
		{"", 300, "[bed.guide-apart bed.guide-blend-two bed.guide-fill bed.spreader-set-two bed.guide-walk bed.guide-meet]", "{bed.spreader-set-two [15 25]}"},
		{job.Drill, 30, "[bed.guide-apart bed.guide-blend-two bed.guide-fill bed.drill-set-two bed.guide-walk bed.guide-meet]", "{bed.drill-set-two [15 25]}"},
		{job.InDressing, 30, "[bed.guide-apart bed.guide-blend-two bed.guide-mix bed.guide-walk bed.guide-meet]", ""},
	} {
		second.Zones[0].AreaM2 = c.area
		g := GuideOf(Spread{Method: c.method}, first, second)
		var names []string
		for _, s := range g.Instructions {
			names = append(names, s.Name)
		}
		if fmt.Sprint(names) != c.names {
			t.Errorf("%s: %v, want %s", c.method, names, c.names)
		}
		if c.set != "" && fmt.Sprint(g.Instructions[len(g.Instructions)-3]) != c.set {
			t.Errorf("%s: %v, want %s", c.method, g.Instructions[len(g.Instructions)-3], c.set)
		}
		for i, want := range []float64{600, 300, 25 * c.area} {
			if z := g.Zones[i]; z.Grams != want || z.PassG != want/2 || (z.SandKG > 0) != (c.method == "" && c.area < 300) {
				t.Errorf("%s: zone %s: %+v, want %v g", c.method, z.Zone, z, want)
			}
		}
	}
}
