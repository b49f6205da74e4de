package species

import (
	"math"
	"math/rand/v2"
	"testing"

	"swardwright/internal/arith"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/site/weather"
)

// best are the figures of one grass of the real table.
func best(t testing.TB, tb *Table, id string) *Traits {
	t.Helper()
	s := tb.ByID(id)
	if s == nil {
		t.Fatalf("no %s", id)
	}
	tr := s.Best()
	return &tr
}

var fineFescues = []string{"strong-creeping-red-fescue", "slender-creeping-red-fescue", "chewings-fescue", "hard-fescue", "sheeps-fescue"}

// TestResponsesAgainstTrials holds the responses, with the table's figures, to
// what trials saw.
func TestResponsesAgainstTrials(t *testing.T) {
	tb := table(t)
	of := func(id string) *Traits { return best(t, tb, id) }
	iced := func(days float64) *weather.Year { return &weather.Year{IceDays: days / iceRunShare} } // tests count unbroken ice
	for _, c := range []struct {
		name      string
		got       float64
		low, high float64
	}{
		// Richardson et al. 2019, Crop Science 59: cover kept at 14.8 and 16.7, lost at 3.3 and 4.7 mol m⁻² d⁻¹.
		{"ryegrass at 14.8 mol", LightCover(of("perennial-ryegrass"), 14.8, 0), 0.75, 1},
		{"ryegrass at 4.7 mol", LightCover(of("perennial-ryegrass"), 4.7, 0), 0, 0.25},
		// Gardner & Wherley 2005, HortScience 40: acceptable at 9 % of full sun in Ohio, 3.5-4 mol.
		{"tall fescue at 9 % of sun", LightCover(of("tall-fescue"), 3.8, 0), 0.3, 0.6},
		// Tegg & Lane 2004: high quality at 35 % of sun (about 14 mol at Hobart in the growing season, from memory).
		{"supina at 35 % of sun", LightCover(of("supina-meadow-grass"), 14, 0), 0.9, 1},
		// Norwegian study of frost and ice: the hardiest ryegrass half killed at 20 days, others before.
		{"ryegrass, 20 days of ice", IceSurvival(of("perennial-ryegrass"), iced(20)), 0.2, 0.5},
		// Gudleifsson, Andrews & Björnsson 1986: tufted hair-grass half killed at 39 days.
		{"hair-grass, 39 days of ice", IceSurvival(of("tufted-hair-grass"), iced(39)), 0.45, 0.55},
		// Kvalbein & Aamlid: velvet bent 90 % alive, creeping bent half or more, after 119 days.
		{"velvet bent, 119 days of ice", IceSurvival(of("velvet-bent"), iced(119)), 0.8, 0.95},
		{"creeping bent, 119 days of ice", IceSurvival(of("creeping-bent"), iced(119)), 0.5, 0.95},
		// Thorvaldsson et al. 2015: about 30 % left of smooth meadow-grass and browntop, under 2 % of ryegrass
		// and tall fescue, after more than two months (65 days taken).
		{"smooth meadow-grass, two months of ice", IceSurvival(of("smooth-stalked-meadow-grass"), iced(65)), 0.2, 0.45},
		{"browntop, two months of ice", IceSurvival(of("browntop-bent"), iced(65)), 0.2, 0.45},
		{"ryegrass, two months of ice", IceSurvival(of("perennial-ryegrass"), iced(65)), 0, 0.04},
		{"tall fescue, two months of ice", IceSurvival(of("tall-fescue"), iced(65)), 0, 0.04},
		// Oregon State University, Tall Fescue Monograph: well suited below 5.99 dS/m, marginal to 13.15.
		{"tall fescue at 5.99 dS/m", SaltFit(of("tall-fescue"), 5.99), 0.95, 1},
		{"tall fescue at 13.15 dS/m", SaltFit(of("tall-fescue"), 13.15), 0.3, 0.6},
		// Arizona 1999: tall fescue 38-64 mm in sun, 64-89 in shade.
		{"tall fescue at 64 mm in sun", MowingFit(of("tall-fescue"), 64, 0), 1, 1},
		{"tall fescue at 89 mm in shade", MowingFit(of("tall-fescue"), 89, 1), 0.95, 1},
		{"tall fescue at 38 mm in shade", MowingFit(of("tall-fescue"), 38, 1), 0, 0.5},
		// Steinke & Stier 2003: supina good in 80 % shade above 20 mm.
		{"supina at 50 mm in 80 % shade", MowingFit(of("supina-meadow-grass"), 50, 0.8), 0.9, 1},
		// Kansas State University 2019: tall fescue acceptable after 35 days without water.
		{"tall fescue, 35 dry days", DroughtSurvival(of("tall-fescue"), &weather.Year{DroughtDays: 35}), 0.95, 1},
		// USDA characteristics: smooth meadow-grass tolerates pH 5.0 to 8.4, that is, no longer at its best there.
		{"smooth meadow-grass at pH 5", PHFit(of("smooth-stalked-meadow-grass"), 5), 0.4, 0.8},
		{"smooth meadow-grass at pH 8.4", PHFit(of("smooth-stalked-meadow-grass"), 8.4), 0.4, 0.8},
	} {
		if c.got < c.low || c.got > c.high {
			t.Errorf("%s: %.2f, want %.2f to %.2f", c.name, c.got, c.low, c.high)
		}
	}
	for _, id := range fineFescues {
		// Rutgers traffic trials: 14-30 % of the canopy of ten fine fescues lost under wear.
		if loss := WearLoss(of(id), Moderate, 0); loss < 0.14 || loss > 0.30 {
			t.Errorf("%s loses %.2f under wear, want 0.14 to 0.30", id, loss)
		}
	}
}

// TestThaw follows Espevig, Höglind & Aamlid 2014: after six days of thaw
// slender fescue has lost least of its hardiness, creeping bent most, Chewings
// and browntop between.
func TestThaw(t *testing.T) {
	tb := table(t)
	cold, thawed := &weather.Year{Hardening: 1}, &weather.Year{Hardening: 1, ThawDays: 6}
	last := 0.0
	for _, id := range []string{"slender-creeping-red-fescue", "chewings-fescue", "browntop-bent", "creeping-bent"} {
		tr := best(t, tb, id)
		lost := (lt50(tr, thawed) - lt50(tr, cold)) / (UnhardenedC - tr[LT50C])
		if lost <= last {
			t.Errorf("%s loses %.2f of its hardening, no more than the one before it (%.2f)", id, lost, last)
		}
		if math.Abs(lt50(tr, cold)-tr[LT50C]) > 1e-9 {
			t.Errorf("%s: hardened LT50 %.1f, want %.1f", id, lt50(tr, cold), tr[LT50C])
		}
		last = lost
	}
	if got := lt50(best(t, tb, "creeping-bent"), &weather.Year{}); got != UnhardenedC {
		t.Errorf("unhardened LT50 %.1f, want %.1f", got, UnhardenedC)
	}
}

// TestOrders holds the table to published orders, best first.
func TestOrders(t *testing.T) {
	tb := table(t)
	for _, c := range []struct {
		trait Trait
		up    bool // more is better
		order []string
	}{
		// Shearman & Beard 1975, wheel wear.
		{Wear, true, []string{"perennial-ryegrass", "tall-fescue", "strong-creeping-red-fescue", "chewings-fescue", "rough-stalked-meadow-grass"}},
		// Koch, snow moulds of lawns.
		{SnowMould, true, []string{"hard-fescue", "strong-creeping-red-fescue", "chewings-fescue", "perennial-ryegrass"}},
		// Abe 1980, seedlings at -12 °C: a quarter to half of tall fescue lived, a tenth to a third of ryegrass.
		{LT50C, false, []string{"tall-fescue", "perennial-ryegrass"}},
		// Gregos, Casler & Stier 2011.
		{SnowMould, true, []string{"chewings-fescue", "browntop-bent", "creeping-bent"}},
		// Beard & Martin 1970; Frank 2015.
		{Wet, true, []string{"creeping-bent", "smooth-stalked-meadow-grass", "strong-creeping-red-fescue"}},
		// Espevig, Höglind & Aamlid 2014: LT50 in late November.
		{LT50C, false, []string{"creeping-bent", "velvet-bent", "chewings-fescue", "slender-creeping-red-fescue", "annual-meadow-grass"}},
		// White & Smithberg 1977: Agrostis, Poa, Festuca, Lolium.
		{LT50C, false, []string{"creeping-bent", "smooth-stalked-meadow-grass", "strong-creeping-red-fescue", "perennial-ryegrass"}},
		// Petrella & Watkins 2020, leaf-filtered light.
		{HalfCoverDLI, false, []string{"chewings-fescue", "strong-creeping-red-fescue"}},
		// National drought trial, St. Paul 2018; Breuillin-Sessoms et al. 2021.
		{Drought, true, []string{"tall-fescue", "smooth-stalked-meadow-grass", "perennial-ryegrass"}},
		// University of Maine, heat classes; Wehner.
		{Heat, true, []string{"tall-fescue", "smooth-stalked-meadow-grass", "perennial-ryegrass"}},
		// Uddin & Juraimi 2013, salinity bands.
		{SaltDSM, true, []string{"reflexed-saltmarsh-grass", "tall-fescue", "chewings-fescue", "annual-meadow-grass"}},
		// Cornell University, establishment.
		{Vigour, true, []string{"perennial-ryegrass", "tall-fescue", "smooth-stalked-meadow-grass"}},
	} {
		for i := 1; i < len(c.order); i++ {
			a, b := best(t, tb, c.order[i-1])[c.trait], best(t, tb, c.order[i])[c.trait]
			if c.up && a <= b || !c.up && a >= b {
				t.Errorf("%s: %s %g should come before %s %g", c.trait, c.order[i-1], a, c.order[i], b)
			}
		}
	}
}

// TestSeedFigures holds seed counts and minima to published tables.
func TestSeedFigures(t *testing.T) {
	tb := table(t)
	for _, c := range []struct {
		id     string
		trait  Trait
		want   float64
		within float64 // share
	}{
		{"perennial-ryegrass", SeedsPerGram, 600, 0.10},                                   // Deutsche Rasengesellschaft 2025
		{"tall-fescue", SeedsPerGram, 500, 0.10},                                          // Deutsche Rasengesellschaft 2025
		{"strong-creeping-red-fescue", SeedsPerGram, 1000, 0.10},                          // Deutsche Rasengesellschaft 2025
		{"smooth-stalked-meadow-grass", SeedsPerGram, 4000, 0.15},                         // Deutsche Rasengesellschaft 2025
		{"perennial-ryegrass", Purity, 96, 0}, {"perennial-ryegrass", Germination, 80, 0}, // Directive 66/401/EEC Annex II
		{"smooth-stalked-meadow-grass", Purity, 85, 0}, {"smooth-stalked-meadow-grass", Germination, 75, 0}, // Directive 66/401/EEC Annex II
		{"tall-fescue", Purity, 95, 0}, {"tall-fescue", Germination, 80, 0}, // Directive 66/401/EEC Annex II
		{"browntop-bent", Purity, 90, 0}, {"browntop-bent", Germination, 75, 0}, // Directive 2009/74/EC
		{"perennial-ryegrass", GermBaseC, 0, 0}, {"timothy", GermBaseC, 0, 0}, // Lincoln University 2009
		{"perennial-ryegrass", RateGM2, 24.4, 0.30}, {"smooth-stalked-meadow-grass", RateGM2, 9.8, 0.30}, // Cornell University, middle of 19.5-29.3 and of 4.9-14.6
		{"perennial-ryegrass", NitrogenGM2, 17, 0.25}, {"strong-creeping-red-fescue", NitrogenGM2, 9.8, 0.25}, // Landschoot, Penn State
		{"browntop-bent", LT50C, -19, 0},                                              // Espevig et al. 2014
		{"perennial-ryegrass", LeafMM, 3, 0.34}, {"tall-fescue", MowBestMM, 50, 0.15}, // Flora of North America; Oregon State University
		{"slender-creeping-red-fescue", SaltDSM, 8, 0.26}, {"reflexed-saltmarsh-grass", SaltDSM, 10, 0.20}, // Harivandi et al. 1992
		{"bermudagrass", HalfCoverDLI, 13, 0.01}, {"zoysiagrass", LT50C, -11, 0.05}, {"italian-ryegrass", SeedsPerGram, 478, 0.15}, // half of 25.9 (Russell et al. 2020); Patton & Reicher 2007; USDA
	} {
		got := best(t, tb, c.id)[c.trait]
		if math.Abs(got-c.want) > c.within*math.Abs(c.want)+1e-9 {
			t.Errorf("%s %s: %g, want %g within %.0f %%", c.id, c.trait, got, c.want, 100*c.within)
		}
	}
}

// TestResponsesAreMonotone draws grasses and conditions and checks that more of a
// stress never leaves more, and more resistance never less.
func TestResponsesAreMonotone(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	u := func(least, most float64) float64 { return least + (most-least)*r.Float64() }
	for range 20000 {
		checkMonotone(t, u(-35, -3), u(0, 1), u(0, 1), u(5, 250), u(3, 20), u(-30, 5), u(0, 1), u(0, 60), u(0, 200), u(0, 200), u(0, 150), u(5, 40), u(0, 1))
	}
}

func FuzzResponses(f *testing.F) {
	f.Add(-14.0, 0.5, 0.25, 20.0, 9.0, -8.0, 0.9, 5.0, 60.0, 40.0, 30.0, 22.0, 0.1)
	f.Add(-32.0, 0.0, 1.0, 200.0, 4.0, -25.0, 0.0, 0.0, 0.0, 0.0, 0.0, 35.0, 1.0)
	f.Fuzz(func(t *testing.T, freezing, loss, resist, ice, half, crown, hard, thaw, mould, iceDays, dry, hot, wet float64) {
		for _, x := range []float64{freezing, loss, resist, ice, half, crown, hard, thaw, mould, iceDays, dry, hot, wet} {
			if math.IsNaN(x) || math.Abs(x) > 1e6 {
				t.Skip()
			}
		}
		checkMonotone(t, math.Min(freezing, UnhardenedC), arith.Unit(loss), arith.Unit(resist), math.Max(1, ice), math.Max(0.5, half),
			crown, arith.Unit(hard), math.Abs(thaw), math.Abs(mould), math.Abs(iceDays), math.Abs(dry), hot, arith.Unit(wet))
	})
}

func checkMonotone(t *testing.T, freezing, loss, resist, ice, half, crown, hard, thaw, mould, iceDays, dry, hot, wet float64) {
	t.Helper()
	tr := Traits{LT50C: freezing, ThawLoss: loss, SnowMould: resist, IceDays: ice, HalfCoverDLI: half, StillAir: resist, Wet: resist,
		Drought: resist, Heat: resist, WarmthC: 10, MowLowMM: half, MowBestMM: 2 * half, MowHighMM: 4 * half, Wear: resist,
		NitrogenGM2: half, PHLow: 5.5, PHHigh: 7, SaltDSM: resist * 5}
	y := weather.Year{CrownMinC: crown, Hardening: hard, ThawDays: thaw, MouldDays: mould, LongestSnow: mould / 2, IceDays: iceDays,
		DroughtDays: dry, HotMeanC: hot, GrowingDays: 200, WetDays: 200 * wet}
	tougher := tr
	tougher[LT50C] -= 2
	for _, k := range []Trait{SnowMould, StillAir, Wet, Drought, Heat, Wear} {
		tougher[k] = arith.Unit(tougher[k] + 0.1)
	}
	tougher[IceDays] += 10
	tougher[HalfCoverDLI] *= 0.9
	worse := weather.Year{CrownMinC: crown - 1, Hardening: hard * 0.9, ThawDays: thaw + 3, MouldDays: mould + 5, LongestSnow: mould/2 + 5,
		IceDays: iceDays + 5, DroughtDays: dry + 5, HotMeanC: hot + 1, GrowingDays: 200, WetDays: 200 * wet}
	for name, f := range map[string]func(*Traits, *weather.Year) float64{
		"winter": WinterSurvival, "mould": MouldSurvival, "ice": IceSurvival, "drought": DroughtSurvival, "heat": HeatSurvival,
	} {
		ordered(t, name, f(&tr, &worse), f(&tr, &y), f(&tougher, &y))
	}
	dli := half * (0.2 + 3*wet)
	ordered(t, "light", LightCover(&tr, dli*0.9, resist), LightCover(&tr, dli, resist), LightCover(&tougher, dli, resist))
	ordered(t, "leaf shade", LightCover(&tr, dli, arith.Unit(resist+0.1)), LightCover(&tr, dli, resist), 1)
	ordered(t, "light rating", lightRating(&tr, dli*0.9, resist), lightRating(&tr, dli, resist), lightRating(&tougher, dli, resist))
	ordered(t, "wet", WetSurvival(&tr, arith.Unit(wet+0.1)), WetSurvival(&tr, wet), WetSurvival(&tougher, wet))
	ordered(t, "air", AirFit(&tr, arith.Unit(wet+0.1)), AirFit(&tr, wet), AirFit(&tougher, wet))
	ordered(t, "wear", 1-WearLoss(&tr, Heavy, resist), 1-WearLoss(&tr, Moderate, resist), 1-WearLoss(&tougher, Light, resist))
	ordered(t, "regrowth", 1-WearLoss(&tr, Heavy, resist*0.9), 1-WearLoss(&tr, Heavy, resist), 1)
	ordered(t, "salt", SaltFit(&tr, 2*resist+dry/10+1), SaltFit(&tr, 2*resist+dry/10), 1)
	ordered(t, "pH", PHFit(&tr, 7+resist+0.2), PHFit(&tr, 7+resist), PHFit(&tr, 6.5))
	// Below its best cut, and in deeper shade, a lower cut never suits better; above its highest nothing does better than there.
	cut := tr[MowBestMM] * (0.1 + 0.9*wet)
	ordered(t, "low cut", MowingFit(&tr, cut*0.9, 0), MowingFit(&tr, cut, 0), MowingFit(&tr, tr[MowBestMM], 0))
	ordered(t, "shade", MowingFit(&tr, cut, 1), MowingFit(&tr, cut, 0.5), MowingFit(&tr, cut, 0))
	ordered(t, "high cut", MowingFit(&tr, tr[MowHighMM]*(1.1+wet), 0), MowingFit(&tr, tr[MowHighMM]*(1+wet), 0), MowingFit(&tr, tr[MowHighMM], 0))
}

// ordered checks that three figures are in [0, 1] and never fall.
func ordered(t *testing.T, name string, a, b, c float64) {
	t.Helper()
	const round = 1e-12
	for _, x := range []float64{a, b, c} {
		if !(x >= 0 && x <= 1+round) {
			t.Fatalf("%s: %g is outside 0 to 1", name, x)
		}
	}
	if a > b+round || b > c+round {
		t.Fatalf("%s: %g, %g, %g should never fall", name, a, b, c)
	}
}

func TestFelt(t *testing.T) {
	dry, wet := &ground.Soil{Wetness: 0}, &ground.Soil{Wetness: 1}
	tree := light.Light{OpenShare: 0.3, LeafShade: 1}
	wall := light.Light{OpenShare: 0.3}
	y := weather.Year{DroughtDays: 20, HotMeanC: 24}
	if got := YearInZone(y, wall, dry, false); got.DroughtDays != 20 || got.HotMeanC >= 24 {
		t.Errorf("under a wall: %+v", got)
	}
	if got := YearInZone(y, tree, dry, false); got.DroughtDays <= 20 {
		t.Error("tree roots take no water")
	}
	for name, got := range map[string]weather.Year{"wet ground": YearInZone(y, tree, wet, false), "watered": YearInZone(y, tree, dry, true)} {
		if got.DroughtDays != 20 {
			t.Errorf("%s: tree roots make drought: %g", name, got.DroughtDays)
		}
	}
}

func TestTriangular(t *testing.T) {
	// Triangular distribution on [0, 1] with mode 1/2: the quartiles are √(1/8) and 1 − √(1/8).
	for _, c := range []struct{ u, want float64 }{{0, 0}, {0.25, math.Sqrt(0.125)}, {0.5, 0.5}, {0.75, 1 - math.Sqrt(0.125)}} {
		if got := triangular(0, 0.5, 1, c.u); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("at %g: %g, want %g", c.u, got, c.want)
		}
	}
	if got := triangular(3, 3, 3, 0.7); got != 3 {
		t.Errorf("of no width: %g", got)
	}
	r := rand.New(rand.NewPCG(3, 4))
	sum := 0.0
	for range 100000 {
		sum += triangular(2, 3, 7, r.Float64())
	}
	if mean := sum / 100000; math.Abs(mean-4) > 0.02 { // mean of a triangular distribution: (a+b+c)/3
		t.Errorf("mean %g, want 4", mean)
	}
}

// TestEmergenceByWarmth holds the days to emergence in moist ground to published
// ones, over cold soils and warm ones.
func TestEmergenceByWarmth(t *testing.T) {
	tb := table(t)
	days := func(id string, soilC float64) float64 {
		v := best(t, tb, id)
		return v[EmergeDegDays] / (soilC - v[GermBaseC])
	}
	for _, c := range []struct {
		id        string
		soilC     float64
		low, high float64
	}{
		// Braun, Patton, Watkins et al. 2020: fine fescue mixture, watered field, 9.4 days
		// at 15 °C and 6.1 at 25 °C.
		{"strong-creeping-red-fescue", 15, 8.5, 10.4}, {"strong-creeping-red-fescue", 25, 5.4, 6.8},
		{"chewings-fescue", 15, 8.5, 10.4}, {"chewings-fescue", 25, 5.4, 6.8},
		{"hard-fescue", 15, 8.5, 10.4}, {"hard-fescue", 25, 5.4, 6.8},
		// University of Minnesota extension: 5 to 10, 7 to 14 and 14 to 30 days, taken to
		// be soils of 24 to 12 °C.
		{"perennial-ryegrass", 24, 5, 7}, {"perennial-ryegrass", 12, 8, 11},
		{"strong-creeping-red-fescue", 12, 10, 14},
		{"smooth-stalked-meadow-grass", 12, 20, 30}, {"smooth-stalked-meadow-grass", 20, 13, 16},
		// Choosing the best time for seeding mixtures (University of Wisconsin): ryegrass 5
		// to 7 days.
		{"perennial-ryegrass", 20, 5, 7},
		// Michigan State University Extension E3040: a week in ideal conditions.
		{"perennial-ryegrass", 18, 6, 8},
		// University of Saskatchewan: first seedlings in 10 to 14 days, in the soil of May.
		{"perennial-ryegrass", 10.5, 10, 14},
		// Practice: tall fescue 7 to 14 days (common practice, no published source).
		{"tall-fescue", 12, 10, 14.5}, {"tall-fescue", 20, 6.5, 9},
	} {
		if got := days(c.id, c.soilC); got < c.low || got > c.high {
			t.Errorf("%s at %g °C: up after %.1f days, published %g to %g", c.id, c.soilC, got, c.low, c.high)
		}
	}
	// Lincoln University 1996: days to half emergence over those of perennial ryegrass,
	// five autumn sowings, in soil of about 8.7 °C (25.0 days for 217.5 °C d of cocksfoot).
	for id, ratio := range map[string]float64{"italian-ryegrass": 0.88, "tall-fescue": 1.25, "timothy": 1.52} {
		if got := days(id, 8.7) / days("perennial-ryegrass", 8.7); got < 0.9*ratio || got > 1.1*ratio {
			t.Errorf("%s: %.2f times as long as ryegrass, published %.2f", id, got, ratio)
		}
	}
	// HortTechnology 31(1), 2021: sown on 8 April in soil warming evenly from 4.7 to
	// 23.5 °C in 52 days, bents and ryegrass were up at 10 °C, after about 15 days. The
	// sunlit surface is warmer than the probe, so that a day or five more are no
	// disagreement.
	for _, id := range []string{"perennial-ryegrass", "browntop-bent", "creeping-bent", "velvet-bent"} {
		v := best(t, tb, id)
		sum, day := 0.0, 0
		for ; sum < v[EmergeDegDays]; day++ {
			sum += 4.7 + 18.8/52*(float64(day)+0.5) - v[GermBaseC]
		}
		if day < 13 || day > 20 {
			t.Errorf("%s: up after %d days, published about 15", id, day)
		}
	}
	// Purdue University, germination and vigour of fine fescue kinds and other
	// cool-season grasses: order of speed.
	order := []string{"perennial-ryegrass", "strong-creeping-red-fescue", "slender-creeping-red-fescue", "hard-fescue",
		"chewings-fescue", "sheeps-fescue", "smooth-stalked-meadow-grass"}
	for i := 1; i < len(order); i++ {
		if a, b := days(order[i-1], 18), days(order[i], 18); a > b {
			t.Errorf("%s after %.1f days should come before %s after %.1f", order[i-1], a, order[i], b)
		}
	}
}
