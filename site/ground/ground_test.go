package ground

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"swardwright/internal/approx"
	"swardwright/internal/told"
	"testing"
)

func ptr(x float64) *float64 { return &x }

var near = approx.Near

// Saxton & Rawls 2006 (Soil Sci. Soc. Am. J. 70:1569), table 3, organic matter
// 2.5 %: contents in percent by volume, Ks in mm/h, density in g/cm³. Sand, clay
// and Ks of the rows are repeated in the parameter table at
// dynplot.com/netstorm/docs/GreenAmptParameters.html; densities from memory.
func TestWaterOfTable3(t *testing.T) {
	for _, r := range []struct {
		name                    string
		sand, clay, wp, fc, sat float64
		ksat, density           float64
	}{
		{"sand", 88, 5, 5, 10, 46, 108.1, 1.43},
		{"loamy sand", 80, 5, 5, 12, 46, 96.7, 1.43},
		{"sandy loam", 65, 10, 8, 18, 45, 50.3, 1.46},
		{"loam", 40, 20, 14, 28, 46, 15.5, 1.43},
		{"silt loam", 20, 15, 11, 31, 48, 16.1, 1.38},
		{"silt", 10, 5, 6, 30, 48, 22.0, 1.38},
		{"sandy clay loam", 60, 25, 17, 27, 43, 11.3, 1.50},
		{"clay loam", 30, 35, 22, 36, 48, 4.3, 1.39},
		{"silty clay loam", 10, 35, 22, 38, 51, 5.7, 1.30},
		{"silty clay", 10, 45, 27, 41, 52, 3.7, 1.26},
		{"sandy clay", 50, 40, 25, 36, 44, 1.4, 1.47},
		{"clay", 25, 50, 30, 42, 50, 1.1, 1.33},
	} {
		w := WaterOf(r.sand, r.clay, 2.5)
		near(t, r.name+" wilting point", 100*w.WiltingPoint, r.wp, 0.51)
		near(t, r.name+" field capacity", 100*w.FieldCapacity, r.fc, 0.51)
		near(t, r.name+" saturation", 100*w.Saturation, r.sat, 0.51)
		near(t, r.name+" Ks", w.KsatMMH, r.ksat, 0.051)
		near(t, r.name+" density", w.DensityKGM3/1000, r.density, 0.0051)
		if sand, clay, err := textureSample(r.name); err != nil || sand != r.sand || clay != r.clay {
			t.Errorf("TextureSample(%q) = %g, %g, %v", r.name, sand, clay, err)
		}
	}
}

// The corners and both sides of every edge of the USDA triangle, from the class
// definitions of the Soil Survey Manual (USDA Handbook 18, 2017, ch. 3).
func TestTextureClass(t *testing.T) {
	for _, r := range []struct {
		sand, clay float64
		want       string
	}{
		{100, 0, "sand"}, {0, 0, "silt"}, {0, 100, "clay"}, // the corners
		{90, 2, "sand"}, {90, 4, "sand"}, {85.1, 0, "sand"}, {85, 0, "loamy sand"}, {90, 10, "loamy sand"}, // silt + 1.5 clay = 15
		{70.1, 0, "loamy sand"}, {70, 0, "sandy loam"}, {85.1, 14.9, "loamy sand"}, {85, 15, "sandy loam"}, // silt + 2 clay = 30
		{80.1, 19.9, "sandy loam"}, {80, 20, "sandy clay loam"}, // clay 20 without silt
		{50, 0, "silt loam"}, {50.1, 0, "sandy loam"}, {43.1, 6.9, "silt loam"}, {43.2, 6.9, "sandy loam"}, // silt 50 under clay 7
		{52, 7, "loam"}, {52.1, 7, "sandy loam"}, {52, 6.9, "sandy loam"}, {52, 19.9, "loam"}, {52.1, 19.9, "sandy loam"}, // sand 52, clay 7
		{45, 27, "clay loam"}, {45.1, 27, "sandy clay loam"}, {45, 26.9, "loam"}, // clay 27
		{52, 20, "loam"}, {52.1, 20, "sandy clay loam"}, {48, 24.1, "sandy clay loam"}, {48, 24, "loam"}, // silt 28
		{23, 27, "clay loam"}, {24, 26, "silt loam"}, {24.1, 26, "loam"}, // silt 50
		{20, 0, "silt"}, {20.1, 0, "silt loam"}, {8, 12, "silt loam"}, {8.1, 11.9, "silt"}, {8.2, 11.9, "silt loam"}, // silt 80, clay 12
		{0, 26.9, "silt loam"}, {0, 27, "silty clay loam"}, {20, 27, "silty clay loam"}, {20.1, 27, "clay loam"}, // sand 20
		{20, 39.9, "silty clay loam"}, {20, 40, "silty clay"}, {20.1, 40, "clay"}, {20.1, 39.9, "clay loam"}, // clay 40
		{0, 60, "silty clay"}, {0, 60.1, "clay"}, // silt 40
		{45, 39.9, "clay loam"}, {45, 40, "clay"}, {45.1, 40, "sandy clay"}, {45.1, 35, "sandy clay"}, {45.1, 34.9, "sandy clay loam"}, // sand 45, clay 35
		{65, 35, "sandy clay"}, {65.1, 34.9, "sandy clay loam"}, {45, 55, "clay"}, {45.1, 54.9, "sandy clay"},
	} {
		got, err := TextureClass(r.sand, r.clay)
		if err != nil || got != r.want {
			t.Errorf("TextureClass(sand %g, clay %g) = %q, %v; want %q", r.sand, r.clay, got, err, r.want)
		}
	}
	for _, name := range Textures() {
		sand, clay, _ := textureSample(name)
		if got, _ := TextureClass(sand, clay); got != name {
			t.Errorf("the sample of %s is classed %s", name, got)
		}
	}
	for _, bad := range [][2]float64{{-1, 5}, {5, -1}, {60, 41}, {math.NaN(), 5}, {5, math.NaN()}, {math.Inf(1), 0}} {
		if got, err := TextureClass(bad[0], bad[1]); err == nil {
			t.Errorf("TextureClass(%g, %g) = %q without an error", bad[0], bad[1], got)
		}
	}
}

// Every point of the triangle has water in the order of soils and conducts.
func FuzzWaterOf(f *testing.F) {
	f.Add(88.0, 5.0, 2.5)
	f.Add(0.0, 100.0, 90.0)
	f.Add(100.0, 0.0, 0.0)
	f.Add(60.0, 40.0, 0.0)
	f.Fuzz(func(t *testing.T, sand, clay, organic float64) {
		if checkGrain(sand, clay) != nil || !within(organic, 0, 100) {
			t.Skip()
		}
		w := WaterOf(sand, clay, organic)
		for _, factor := range []float64{1, 0.9, 1.1, 1.2, 1.3} {
			p := w.Pressed(factor)
			if !(p.WiltingPoint > 0 && p.FieldCapacity > p.WiltingPoint && p.Saturation > p.FieldCapacity && p.Saturation < 1) {
				t.Errorf("sand %g clay %g organic %g, factor %g: %+v", sand, clay, organic, factor, p)
			}
			if !(p.KsatMMH > 0 && p.KsatMMH < 2000) {
				t.Errorf("sand %g clay %g organic %g, factor %g: conductivity %g", sand, clay, organic, factor, p.KsatMMH)
			}
		}
	})
}

// Saxton & Rawls 2006: denser soil holds less at saturation and passes less.
func TestPressedSlows(t *testing.T) {
	for _, name := range Textures() {
		sand, clay, _ := textureSample(name)
		w := WaterOf(sand, clay, 2.5)
		last := w.Pressed(0.9)
		for _, factor := range []float64{1, 1.1, 1.2, 1.3} {
			p := w.Pressed(factor)
			if p.KsatMMH > last.KsatMMH || p.Saturation >= last.Saturation {
				t.Errorf("%s pressed to %g passes more than before: %+v after %+v", name, factor, p, last)
			}
			last = p
		}
	}
}

// Infiltration of a field in fair order lies in the range that the FAO manual
// (Irrigation Water Management, Training Manual 5, Brouwer et al. 1988, annex 2)
// gives its soil; for sand it says more than 30 mm/h.
func TestInfiltrationFAO(t *testing.T) {
	for _, r := range []struct {
		texture   string
		low, high float64
	}{
		{"sand", 30, 1000}, {"sandy loam", 20, 30}, {"loam", 10, 20}, {"clay loam", 2.5, 10}, {"clay", 1, 5},
	} {
		s, err := Survey{Texture: r.texture, Compaction: "normal"}.Soil()
		if err != nil || s.InfiltrationMMH < r.low || s.InfiltrationMMH > r.high {
			t.Errorf("%s takes in %.1f mm/h, want %g to %g (%v)", r.texture, s.InfiltrationMMH, r.low, r.high, err)
		}
	}
}

// Percolation value 18 s/mm is the worked example of a hole that falls 150 mm in
// 2700 s by Approved Document H2's method. The Document's H3 gives f = 10⁻³/(2Vp)
// m/s when the sides alone take water; with the base wetted as well it is
// 10⁻³/(3Vp), by the geometry of the hole.
func TestInfiltrationFromPercolation(t *testing.T) {
	const vp = 2700.0 / 150
	near(t, "infiltration at Vp 18, m/s", infiltrationFromPercolation(3600/vp)/3.6e6, 1e-3/(3*vp), 1e-12)
}

func TestSoilDefaultsAreStated(t *testing.T) {
	s, err := Survey{}.Soil()
	if err != nil {
		t.Fatal(err)
	}
	if s.Texture != "loam" || s.PHKnown || s.DepthKnown || s.Drainage != "well" {
		t.Errorf("an empty survey gives %+v", s)
	}
	for _, word := range []string{"texture", "organic", "ph", "salt", "depth", "compaction", "drainage"} {
		if !slices.ContainsFunc(s.Assumptions, func(s told.Sentence) bool { return s.Name == "site."+word+"-taken" }) {
			t.Errorf("no assumption speaks of %s: %v", word, s.Assumptions)
		}
	}
	full, err := Survey{Texture: "clay loam", SandPercent: ptr(30), ClayPercent: ptr(35), OrganicPercent: ptr(4), PH: ptr(5.8),
		Drainage: "somewhat poorly drained", ECeDSM: ptr(0.4), DepthCM: ptr(15), Compaction: "normal", Phosphorus: "medium", Potassium: "Low"}.Soil()
	if err != nil || len(full.Assumptions) != 0 {
		t.Errorf("a full survey leaves assumptions %v, %v", full.Assumptions, err)
	}
	if full.Drainage != "somewhat poorly" || full.Potassium != "low" || full.SiltPercent != 35 {
		t.Errorf("a full survey gives %+v", full)
	}
}

func TestSoilFaultsAllReported(t *testing.T) {
	_, err := Survey{Texture: "mud", OrganicPercent: ptr(-1), PH: ptr(math.NaN()), Drainage: "wet", ECeDSM: ptr(math.Inf(1)), DepthCM: ptr(-2),
		PercolationMMH: ptr(-3), Compaction: "firm", Phosphorus: "some"}.Soil()
	if err == nil {
		t.Fatal("no error")
	}
	for _, key := range []string{"texture", "organic_percent", "ph", "drainage", "ec_ds_m", "depth_cm", "percolation_mm_h", "compaction", "phosphorus"} {
		if !strings.Contains(err.Error(), "ground."+key+":") {
			t.Errorf("%q is not reported in: %v", key, err)
		}
	}
}

// Wetter classes drain more slowly and are wetter; a measured hole overrides the
// texture, and a class with a slow water table overrides a fast hole.
func TestDrainage(t *testing.T) {
	last := Soil{DrainMMD: math.Inf(1), Wetness: -1}
	for _, name := range DrainageClasses() {
		s, err := Survey{Drainage: name}.Soil()
		if err != nil || s.Drainage != name || s.DrainMMD >= last.DrainMMD || s.Wetness < last.Wetness {
			t.Errorf("%s: %+v, %v", name, s, err)
		}
		last = s
	}
	fast, _ := Survey{Texture: "clay", PercolationMMH: ptr(300)}.Soil()
	if fast.Wetness > 0.1 {
		t.Errorf("a clay whose hole empties fast is reckoned wet: %g", fast.Wetness)
	}
	both, _ := Survey{PercolationMMH: ptr(300), Drainage: "poorly"}.Soil()
	if both.Drainage != "poorly" {
		t.Errorf("a poorly drained ground with a fast hole is %s", both.Drainage)
	}
}

func TestLoads(t *testing.T) {
	// Earthwork table: 300 m³ of clay at 40 % swell become 420 m³.
	near(t, "dug clay", DugClay.Settled(300).LooseM3, 420, 1e-9)
	// A British landscape price book (Spon's form, chapter b15276-34): 100 mm over
	// 100 m² of topsoil at 28.00 per m³, 20 % for settlement, printed as 335.
	near(t, "topsoil priced", Topsoil.Settled(0.1*100).LooseM3*28, 335, 2)

	small, large := Sand.Settled(0.5), Sand.Settled(20)
	if small.LorryLoads != 0 || small.BulkBags != 1 || large.BulkBags != 0 || large.LorryLoads != 3 {
		t.Errorf("0.5 m³: %+v; 20 m³: %+v", small, large)
	}
	if small.BarrowLoads < int(small.LooseM3/barrowM3) || float64(small.BarrowLoads)*barrowKG < small.KG {
		t.Errorf("the barrow loads don't carry the heap: %+v", small)
	}
}

// n = 1/(s₁ s₂) holes of π d²/4: half-inch tines at two inches open 5.07 %.
func TestHolesOf(t *testing.T) {
	h := HolesOf(50, 12.7, 75)
	near(t, "holes", h.PerM2, 400, 1e-9)
	near(t, "area", 100*h.AreaShare, 5.07, 0.005)
	near(t, "volume", h.LitresM2, 3.80, 0.005)
}

func ExampleTextureClass() {
	name, _ := TextureClass(30, 35)
	fmt.Println(name)
	// Output: clay loam
}

func BenchmarkSoil(b *testing.B) {
	s := Survey{Texture: "clay loam"}
	for b.Loop() {
		if _, err := s.Soil(); err != nil {
			b.Fatal(err)
		}
	}
}
