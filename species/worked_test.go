package species

import (
	"math"
	"math/rand/v2"
	"testing"

	"swardwright/site"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/site/weather"
)

// Each response worked by hand from its definition for an invented grass. The figures are those that
// the constants beside each function were fitted to; a change of a tenth in any of them shows here.
func TestResponsesWorked(t *testing.T) {
	g := &Traits{LT50C: -20, ThawLoss: 0.5, SnowMould: 0.5, IceDays: 40, HalfCoverDLI: 6, StillAir: 0.4, Wet: 0.5, Drought: 0.5, Heat: 0.5, WarmthC: 14,
		MowLowMM: 20, MowBestMM: 30, MowHighMM: 60, Wear: 0.5, NitrogenGM2: 10, PHLow: 5.5, PHHigh: 7, SaltDSM: 4, LeafMM: 2, ShootDensity: 0.8, EmergeDegDays: 180, Vigour: 0.5}
	salt := &Traits{SaltDSM: 10, SaltWantedDSM: 4}
	dull := &Traits{SnowMould: 0, Drought: 0, Heat: 0, Wear: 0, MowLowMM: 20, MowBestMM: 30, MowHighMM: 60}
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"twice the light of half cover, 1/(1+1/8)", LightCover(g, 12, 0), 0.888889},
		{"the same under leaves, which ask a quarter more", LightCover(g, 12, 1), 0.803768},
		{"no light", LightCover(g, 0, 0), 0},
		{"light that leaves took", LeafTaken(light.Light{LeafShade: 0.5, OpenShare: 0.6}), 0.2},
		{"LT50 unhardened, -5 °C (Tompkins, Bubar & Ross 1996)", lt50(g, &weather.Year{}), -5},
		{"LT50 half hardened: three quarters of 15 K", lt50(g, &weather.Year{Hardening: 0.5}), -16.25},
		{"LT50 after ten days of thaw: 1 - 0.5(1 - 1/e) of 15 K", lt50(g, &weather.Year{Hardening: 1, ThawDays: 10}), -15.259096},
		{"survival 2 °C below LT50 (a fifth, as published curves have it)", WinterSurvival(g, &weather.Year{Hardening: 1, CrownMinC: -22}), 0.208609},
		{"survival at LT50", WinterSurvival(g, &weather.Year{Hardening: 1, CrownMinC: -20}), 0.5},
		{"70 days of snow on the least resistant: half", MouldSurvival(dull, &weather.Year{LongestSnow: 70}), 0.5},
		{"175 wet days count as 70", MouldSurvival(dull, &weather.Year{MouldDays: 175}), 0.5},
		{"half resistant: half at √(70·600), 205 days; at 102 days 8/9", MouldSurvival(g, &weather.Year{LongestSnow: 102.4695}), 0.888889},
		{"40 days of ice of which seven tenths run on", IceSurvival(g, &weather.Year{IceDays: 40}), 0.744602},
		{"half tolerant: half after 107.5 days of drought; 1/(1+1/16) after half of them", DroughtSurvival(g, &weather.Year{DroughtDays: 53.75}), 0.941176},
		{"the least tolerant: half after 40", DroughtSurvival(dull, &weather.Year{DroughtDays: 40}), 0.5},
		{"half tolerant: half at 28.4 °C; 1.2 K more", HeatSurvival(g, &weather.Year{HotMeanC: 29.6}), 0.268941},
		{"the least tolerant: half at 24 °C", HeatSurvival(dull, &weather.Year{HotMeanC: 24}), 0.5},
		{"1.2 K warmer than half warm enough", WarmthFit(g, &weather.Year{HotMeanC: 15.2}), 0.731059},
		{"wet for a quarter of the season: half of what it can take", WetSurvival(g, 0.25), 0.75},
		{"wet for half of it: four fifths", WetSurvival(g, 0.5), 0.6},
		{"air still by half: 0.5·0.6/0.5", AirFit(g, 0.5), 0.735294},
		{"cut at 25 mm, half-way down to the lowest", MowingFit(g, 25, 0), 0.8},
		{"cut at the lowest", MowingFit(g, 20, 0), 0.5},
		{"cut at 30 in full shade, where best is 45 and lowest 30", MowingFit(g, 30, 1), 0.5},
		{"shade begins where a lawn misses 35 % of the light", MowingFit(g, 30, 0.35), 1},
		{"half-way into the shade best is 37.5 and lowest 25", MowingFit(g, 31.25, 0.675), 0.8},
		{"cut at 90 mm, half as high again as the highest", MowingFit(g, 90, 0), 0.5},
		{"light wear without growth", WearLoss(g, Light, 0), 0.075},
		{"moderate wear with full growth, which makes good half", WearLoss(g, Moderate, 1), 0.1125},
		{"heavy wear", WearLoss(g, Heavy, 0), 0.55},
		{"heavy wear on a grass with no tolerance takes all", WearLoss(dull, Heavy, 0), 1},
		{"one unit below the range of pH (USDA: tolerated)", PHFit(g, 4.5), 0.5},
		{"half a unit above", PHFit(g, 7.5), 0.8},
		{"5 dS/m over the threshold, 6.4 % each (Maas & Grattan 1999)", SaltFit(g, 9), 0.68},
		{"a grass of salt ground with half of its salt", SaltFit(salt, 2), 0.5},
		{"and with three quarters", SaltFit(salt, 3), 0.8},
		{"a look that is wider by half and 0.175 less dense", LookFit(g, Standard{LeafMM: 4.0 / 3, ShootDensity: 0.975}), 0.64},
		{"light of 2.3 times half cover: moderate", lightRating(g, 13.8, 0), 0.5},
		{"light of 3 times half cover: no limit", lightRating(g, 18, 0), 1},
		{"the same under leaves", lightRating(g, 18, 1), 0.586406},
		{"a loss of a tenth a year is made good", lossRating(0.9), 1},
		{"a loss of 0.3 is marginal", lossRating(0.7), 0.5},
		{"a loss of 0.2", lossRating(0.8), 0.8},
		{"180 °C d at 9 K and 21 days over the vigour", establishDays(g), 62},
		{"all the nitrogen needed", NitrogenFit(g, 4, 6, 1, 0), 1},
		{"half of it", NitrogenFit(g, 2, 3, 1, 0), 0.5},
		{"of a grade that asks for nine tenths, two thirds", NitrogenFit(g, 4, 2, 0.9, 0), 0.692308},
		{"in full shade 55 %: 2.2 fed and 0 freed of 5.5", NitrogenFit(g, 4, 0, 1, 1), 0.409836},
		{"in half the shade 77.5 %, the soil's in full", NitrogenFit(g, 2, 2, 1, 0.675), 0.459817},
		{"5.8 times the need: half", NitrogenFit(g, 58, 0, 1, 0), 0.5},
		{"Landschoot, Penn State: 2.8 times the need does no harm yet (19.5 g/m² of 7)", NitrogenFit(g, 28, 0, 1, 0), 1},
		{"nitrogen of a soil with 4 %", SoilNitrogenGM2(&ground.Soil{OrganicPercent: 4}), 8},
		{"and of one with 20 %, what a sward can catch", SoilNitrogenGM2(&ground.Soil{OrganicPercent: 20}), 10},
	} {
		if math.Abs(c.got-c.want) > 2e-6 {
			t.Errorf("%s: %.6f, want %.6f", c.name, c.got, c.want)
		}
	}
}

// What trees and watering do to a year, by hand: roots take 55 days of drought where leaves have all the
// light, on drained ground; full shade is 1.5 K cooler, watering 1 K.
func TestYearInZoneWorked(t *testing.T) {
	y := weather.Year{DroughtDays: 20, HotMeanC: 25}
	tree := light.Light{OpenShare: 0.4, LeafShade: 0.5}
	dry := YearInZone(y, tree, &ground.Soil{Wetness: 0.2}, false)
	if math.Abs(dry.DroughtDays-(20+55*0.3*0.8)) > 1e-9 || math.Abs(dry.HotMeanC-(25-1.5*0.6)) > 1e-9 {
		t.Errorf("%+v", dry)
	}
	watered := YearInZone(y, tree, &ground.Soil{Wetness: 0.2}, true)
	if watered.DroughtDays != 20 || math.Abs(watered.HotMeanC-(25-1.5*0.6-1)) > 1e-9 {
		t.Errorf("%+v", watered)
	}
}

// Air by hand: months of 5 °C and more count; rain on 45 % of their days is three quarters of always damp,
// 45 % of the sky closed off half of no wind.
func TestStillnessWorked(t *testing.T) {
	c := &site.Conditions{}
	for m := range c.Normals.MeanC {
		c.Normals.MeanC[m], c.Normals.WetDays[m] = 4.9, 30
		if m >= 4 && m < 10 {
			c.Normals.MeanC[m], c.Normals.WetDays[m] = 5, 0.45*365/12
		}
	}
	z := &site.Zone{}
	z.Light.SkyView = 0.55
	if got := wetDayShare(c); math.Abs(got-0.45) > 1e-9 {
		t.Errorf("wet days: %g", got)
	}
	if got := Stillness(c, z); math.Abs(got-0.375) > 1e-9 {
		t.Errorf("stillness: %g", got)
	}
}

// Heights of cut by hand; the steps are those of Arizona 1999 (shade), Golf Course Management 2010 (warm summers) and
// the University of Saskatchewan (dry ones), as beside the constants.
func TestCutMMWorked(t *testing.T) {
	at := func(open, hot, thirst float64) *site.Zone {
		z := &site.Zone{Years: []weather.Year{{HotC: hot - 1, WaterDeficitMM: thirst}, {HotC: hot + 1, WaterDeficitMM: thirst}}}
		z.Light.OpenShare = open
		return z
	}
	for _, c := range []struct {
		grade             Grade
		open, hot, thirst float64
		want              float64
	}{
		{Utility, 1, 24, 100, 40},
		{Utility, 1, 26.5, 0, 50},              // half-way to the summers in which fine fescues are cut 20 mm higher
		{Utility, 1, 29, 0, 60},                // the whole way
		{Utility, 1, 20, 137.5, 58},            // half-way to the dry prairie: 17.5
		{Utility, 1, 20, 175, 75},              // University of Saskatchewan: 75 mm
		{Utility, 1, 29, 175, 75},              // whichever asks for more
		{Utility, 0.65, 20, 0, 40},             // 35 % of the light missing: still in sun
		{Utility, 0.4875, 20, 0, 53},           // a quarter of the way into the shade: half of 25 mm
		{Utility, 0.325, 20, 0, 65},            // half-way: all of it (Purdue 2017)
		{HardWearing, 1, 20, 300, 40},          // cut short for its wear, dry or not
		{Ornamental, 0, 29, 300, 20 + 10 + 13}, // half the steps of a lawn cut twice as high: 10 and 12.5
		{Extensive, 0, 35, 300, 80},
	} {
		if got := (Use{Grade: c.grade}).CutMM(nil, at(c.open, c.hot, c.thirst)); got != c.want {
			t.Errorf("%+v: %g mm", c, got)
		}
	}
}

// Nitrogen by class of feeding, common practice, no published source: half of an ordinary lawn's 10 g/m²
// is low, an intensively kept one has 18 (Cornell University: 14.6 to 19.5 for high upkeep; from memory).
func TestFeedingClasses(t *testing.T) {
	for class, want := range map[string]float64{"none": 0, "low": 5, "moderate": 10, "high": 18, "": 10} {
		if got := (Use{Feeding: class}).NitrogenOrClass(); got != want {
			t.Errorf("%q: %g", class, got)
		}
	}
}

// The standards in order: what is asked of cover, leaf, closeness, evenness and feed falls from the most
// demanding to the least. Figures are common practice, no published source; cuts are Austrian consumer
// advice (ornamental 20-30, utility 30-80, hard-wearing 30-50 mm).
func TestStandards(t *testing.T) {
	for _, c := range []struct {
		grade                                                Grade
		cover, bad, least, leaf, closeness, even, cut, share float64
		traffic                                              Traffic
	}{
		{Ornamental, 0.83, 0.70, 0.50, 1.2, 0.9, 0.60, 20, 1, Light}, // fine-leaved grasses alone: ryegrass has leaves of 3 mm (Flora of North America)
		{HardWearing, 0.82, 0.62, 0.50, 4.5, 0.6, 0.35, 40, 1, Heavy},
		{Utility, 0.75, 0.55, 0.50, 3.2, 0.75, 0.40, 40, 0.9, Moderate}, // ryegrass is as coarse as it may be
		{Extensive, 0.55, 0.35, 0.35, 8, 0.3, 0, 80, 0.7, Light},
	} {
		s := StandardOf(c.grade)
		if s.Cover != c.cover || s.BadCover != c.bad || s.Least != c.least || s.LeafMM != c.leaf || s.ShootDensity != c.closeness || s.Even != c.even || s.CutMM != c.cut || s.Feed != c.share || s.Traffic != c.traffic {
			t.Errorf("%+v, want %+v", s, c)
		}
	}
}

// A class is sure from four draws in five, likely from one in two; resistance in five words.
func TestWords(t *testing.T) {
	for chance, want := range map[float64]string{0.8: "sure", 0.79: "likely", 0.5: "likely", 0.49: "could go either way"} {
		if got := sureness(chance); got != want {
			t.Errorf("%g: %s", chance, got)
		}
	}
	for x, want := range map[float64]string{0: "very badly", 0.21: "badly", 0.5: "fairly", 0.79: "well", 0.81: "very well", 1: "very well"} {
		if got := graded(x).Word; got != want {
			t.Errorf("%g: %s", x, got)
		}
	}
}

// The years that stand for all are the middles of equal parts of their order: of 0 to 99 in four parts
// 12, 37, 62 and 87.
func TestQuantileYears(t *testing.T) {
	years := make([]weather.Year, 100)
	for i := range years {
		years[i].HotMeanC = float64((i * 37) % 100)
	}
	for i, y := range quantiles(years, 4, func(y *weather.Year) float64 { return y.HotMeanC }) {
		if want := []float64{12, 37, 62, 87}[i]; y.HotMeanC != want {
			t.Errorf("part %d: %g, want %g", i, y.HotMeanC, want)
		}
	}
	if got := quantiles(years[:3], 4, func(y *weather.Year) float64 { return y.HotMeanC }); len(got) != 3 {
		t.Errorf("%d of three years", len(got))
	}
}

// A setting's means are those of its years, by hand.
func TestSettingMeans(t *testing.T) {
	z := site.Zone{Years: []weather.Year{
		{GrowingDays: 180, HotC: 22, HotMeanC: 17, DroughtDays: 10, WetDays: 20, Hardening: 0.8, CrownMinC: -6, ThawDays: 3, SnowDays: 40, LongestSnow: 20, MouldDays: 50, IceDays: 2},
		{GrowingDays: 220, HotC: 26, HotMeanC: 19, DroughtDays: 30, WetDays: 60, Hardening: 1, CrownMinC: -10, ThawDays: 5, SnowDays: 80, LongestSnow: 60, MouldDays: 70, IceDays: 6},
	}}
	z.Light = light.Light{OpenShare: 1, DLISeason: 20}
	c := &site.Conditions{Zones: []site.Zone{z}}
	s, err := newSetting(c, 0, Use{Grade: Utility})
	if err != nil {
		t.Fatal(err)
	}
	m := s.mean
	for name, pair := range map[string][2]float64{
		"growing days": {m.GrowingDays, 200}, "hot": {m.HotC, 24}, "hot mean": {m.HotMeanC, 18}, "drought": {m.DroughtDays, 20}, "wet": {m.WetDays, 40},
		"hardening": {m.Hardening, 0.9}, "crown": {m.CrownMinC, -8}, "thaw": {m.ThawDays, 4}, "snow": {m.SnowDays, 60}, "longest snow": {m.LongestSnow, 40},
		"mould": {m.MouldDays, 60}, "ice": {m.IceDays, 4},
	} {
		if math.Abs(pair[0]-pair[1]) > 1e-9 {
			t.Errorf("%s: %g, want %g", name, pair[0], pair[1])
		}
	}
	// The scores stand on them: 60 % of 200 days is time for a grass that needs 180, half as long again.
	g := &Traits{HalfCoverDLI: 6, Wear: 0.5, EmergeDegDays: 1242, Vigour: 0.5} // 138 and 42 days
	if got := criterionSeason.Score(g, s); math.Abs(got-0.8) > 1e-9 {
		t.Errorf("season: %g", got)
	}
	// A season of 200 days makes good all that it can of a year's wear: 0.45 · 0.5 · (1 - 0.5 · cover at 20 mol).
	if got, want := criterionWear.Score(g, s), lossRating(1-0.225*(1-0.5/(1+0.027))); math.Abs(got-want) > 1e-9 {
		t.Errorf("wear: %g, want %g", got, want)
	}
	// A site darker by a tenth, its crowns colder by a degree, wetter by a fifth.
	s.off = deviation{light: -0.1}
	if math.Abs(s.dli()-18) > 1e-9 || math.Abs(s.shade()-0.1) > 1e-9 {
		t.Errorf("%g mol, %g of shade", s.dli(), s.shade())
	}
}

// What a table may hold of a trait, at its bounds: shares from 0 to 1, percentages to 100, and no trait beyond what any grass has.
func TestTraitBounds(t *testing.T) {
	for tr := range TraitCount {
		in := traitInfo[tr]
		switch {
		case in.unit == "0 to 1" || in.unit == "share" && tr != FieldEmergence:
			if in.least != 0 || in.most != 1 {
				t.Errorf("%s: %g to %g", tr, in.least, in.most)
			}
		case in.unit == "%":
			if in.least != 1 || in.most != 100 {
				t.Errorf("%s: %g to %g", tr, in.least, in.most)
			}
		}
		value := func(x float64) error {
			_, err := tableValue{Low: &x, Best: &x, High: &x, Basis: Read, Source: "s"}.value(tr, "a source")
			return err
		}
		for x, sound := range map[float64]bool{in.least: true, in.most: true, in.least - 1e-6: false, in.most + 1e-6: false} {
			if err := value(x); (err == nil) != sound {
				t.Errorf("%s of %g: %v", tr, x, err)
			}
		}
	}
	// No day of a year more than 365, no LT50 above freezing, no pH beyond 3 to 10.
	for tr, want := range map[Trait][2]float64{IceDays: {1, 365}, LT50C: {-60, 0}, PHLow: {3, 10}, PHHigh: {3, 10}} {
		if traitInfo[tr].least != want[0] || traitInfo[tr].most != want[1] {
			t.Errorf("%s: %g to %g", tr, traitInfo[tr].least, traitInfo[tr].most)
		}
	}
}

// What a site's models may be wrong by, at the most: 1.5 K at the crown, 0.2 of a tested pH and 0.7 of one taken for granted, three
// tenths of the wet time; many draws come near to that and none beyond.
func TestDeviationsReach(t *testing.T) {
	for known, ph := range map[bool]float64{true: 0.2, false: 0.7} {
		r := rand.New(rand.NewPCG(1, 2))
		var most deviation
		for range 20000 {
			d := deviate(r, known, 0.2)
			most.crownC, most.ph, most.wet = max(most.crownC, math.Abs(d.crownC)), max(most.ph, math.Abs(d.ph)), max(most.wet, math.Abs(d.wet))
		}
		for what, pair := range map[string][2]float64{"crown": {most.crownC, 1.5}, "pH": {most.ph, ph}, "wet": {most.wet, 0.3}} {
			if share := pair[0] / pair[1]; share > 1 || share < 0.95 {
				t.Errorf("%s: drawn up to %g, want up to %g", what, pair[0], pair[1])
			}
		}
	}
}
