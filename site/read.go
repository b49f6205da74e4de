package site

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"github.com/samber/lo"

	"swardwright/internal/plain"
	"swardwright/internal/sheet"
	"swardwright/internal/told"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/site/weather"
)

// Opener opens a file that a brief names, relative to the brief.
type Opener func(name string) (io.ReadCloser, error)

// What a brief may say of a lawn's size. The bounds only catch slips and wrong
// units; those on what stands around it are light's.
const (
	maxAreaM2 = 100_000.0
	minAreaM2 = 0.5
	maxParts  = 40
)

// mostStationKM is how far a station can be and its weather still be meant.
const mostStationKM = 3000

// ReadSurvey reads a brief's pages on the place: [place] [climate] [lawn]
// [[obstacle]] [[probe]] [light] [ground]. A station it names is one of those given.
func ReadSurvey(root *sheet.Sheet, stations weather.Stations, open Opener) Survey {
	var s Survey
	s.Place = readPlace(root.Table("place"), stations, ownClimate(root.Table("climate")))
	s.Climate = readClimate(root.Table("climate"), s.Place, open)
	s.Trend = readTrend(root.Table("climate"))
	s.Lawn = readLawn(root.Table("lawn"))
	for i, o := range root.Tables("obstacle") {
		s.Obstacles = append(s.Obstacles, readObstacle(o, i))
	}
	for i, p := range root.Tables("probe") {
		s.Probes = append(s.Probes, readProbe(p, i))
	}
	s.Light = readSeen(root.Table("light"))
	s.Ground = readGround(root.Table("ground"))

	if len(s.Lawn.Parts) > 0 && root.Sound() {
		for _, f := range s.Scene(weather.Normals{}).Faults() {
			root.FaultAt(f.Path, "%s", f.Problem)
		}
	}
	if len(s.Lawn.Parts) == 0 && !root.Table("lawn").Given("outline") && root.Table("lawn").Given("area_m2") {
		const without = "needs the lawn's outline to be placed against, not its area_m2 alone"
		if len(s.Obstacles) > 0 {
			root.Faultf("obstacle", without)
		}
		if len(s.Probes) > 0 {
			root.Faultf("probe", without)
		}
	}
	return s
}

func readPlace(s *sheet.Sheet, stations weather.Stations, ownClimate bool) Place {
	var p Place
	s.Need("latitude", "the latitude in degrees, north positive, like 57.1")
	p.LatitudeDeg, _ = s.Number("latitude", -90, 90)
	p.LongitudeDeg = s.Optional("longitude", -180, 180)
	p.AltitudeM = s.Optional("altitude_m", -430, 6000)
	if name, ok := s.Text("station"); ok {
		p.Station = name
		if st, found := stations.Find(name); !found {
			s.Hintf("station", func() string {
				if near := stations.Suggest(name); len(near) > 0 {
					return fmt.Sprintf("; did you mean %s?", strings.Join(near, " or "))
				}
				return "; leave it out for the nearest, or see: swardwright stations --near LAT,LON"
			}, "%s is no station of the table", plain.Quote(name))
		} else if km := p.kmTo(st.LatitudeDeg, st.LongitudeDeg); km > mostStationKM && s.Given("latitude") {
			s.Faultf("station", "%s lies %.0f km away; are the place and the station right?", plain.Quote(name), km)
		}
	}
	if !s.Given("longitude") && !s.Given("station") && !ownClimate {
		s.Faultf("", "needs a longitude, a station or a [climate] of its own, to know the weather")
	}
	return p
}

func readLawn(s *sheet.Sheet) Lawn {
	var l Lawn
	l.Parts, l.AreaM2 = readExtent(s)

	l.PlanNorthDeg, _ = s.Number("plan_north_deg", -360, 360)
	if len(l.Parts) > 0 && !s.Given("plan_north_deg") {
		s.Assume(told.Say("site.top-is-north"))
	}
	l.SlopeDeg = s.NumberOr("slope_deg", 0, light.MaxSlopeDeg, 0, told.Say("site.level"))
	l.AspectDeg, _ = s.Number("aspect_deg", -360, 360)
	l.AspectUnknown = l.SlopeDeg > 0 && !s.Given("aspect_deg")
	if ps, ok := s.Pairs("horizon", "points of bearing and elevation", 1, [2]float64{0, light.MinHorizonDeg}, [2]float64{360, light.MaxHorizonDeg}); ok {
		for _, p := range ps {
			l.Horizon = append(l.Horizon, light.HorizonPoint{BearingDeg: p[0], ElevationDeg: p[1]})
		}
	} else if !s.Given("horizon") {
		s.Assume(told.Say("site.flat-skyline"))
	}
	l.EdgingM = s.Optional("edging_m", 0, 10_000)
	return l
}

// readExtent reads how large a lawn is, and its outlines where they are drawn.
func readExtent(s *sheet.Sheet) (outlines [][]light.Point, wholeM2 float64) {
	s.AtMostOne("area_m2", "outline", "part")
	if !s.Given("area_m2") && !s.Given("outline") && !s.Given("part") {
		s.Faultf("", "needs its size: area_m2, or the corners of its outline in metres")
	}
	wholeM2, _ = s.Number("area_m2", minAreaM2, maxAreaM2)
	if o, ok := outline(s, "outline"); ok {
		outlines = append(outlines, o)
	}
	parts := s.Tables("part")
	if len(parts) > maxParts {
		s.Faultf("part", "can stand %d times at most, stands %d times", maxParts, len(parts))
		parts = parts[:maxParts]
	}
	for _, p := range parts {
		p.Need("outline", "the corners of this part in metres")
		if o, ok := outline(p, "outline"); ok {
			outlines = append(outlines, o)
		}
	}
	if len(outlines) == 0 {
		return nil, wholeM2
	}
	wholeM2 = lo.SumBy(outlines, areaM2)
	if wholeM2 < minAreaM2 || wholeM2 > maxAreaM2 {
		key := "outline"
		if len(parts) > 0 {
			key = "part"
		}
		s.Faultf(key, "encloses %.4g m²; from %g to %g m² can be planned", wholeM2, minAreaM2, maxAreaM2)
	}
	return outlines, wholeM2
}

func outline(s *sheet.Sheet, key string) ([]light.Point, bool) {
	ps, ok := s.Pairs(key, "corners", 3, [2]float64{-light.MaxExtentM, -light.MaxExtentM}, [2]float64{light.MaxExtentM, light.MaxExtentM})
	if !ok {
		return nil, false
	}
	out := make([]light.Point, len(ps))
	for i, p := range ps {
		out[i] = light.Point{X: p[0], Y: p[1]}
	}
	return out, true
}

// areaM2 is the area inside an outline, by the surveyor's (shoelace) formula.
func areaM2(o []light.Point) float64 {
	sum := 0.0
	for i, p := range o {
		q := o[(i+1)%len(o)]
		sum += p.X*q.Y - q.X*p.Y
	}
	return math.Abs(sum) / 2
}

// forKinds says which keys belong to which kinds of obstacle alone.
var forKinds = []struct {
	key   string
	kinds []light.Kind
	means string
}{
	{"footprint", []light.Kind{light.Solid, light.Gable, light.Screen}, "a solid, a gable or a screen"},
	{"eaves_m", []light.Kind{light.Gable}, "a gable"},
	{"albedo", []light.Kind{light.Solid, light.Gable}, "a solid or a gable"},
	{"at", []light.Kind{light.Tree}, "a tree"},
	{"clear_stem_m", []light.Kind{light.Tree}, "a tree"},
	{"crown_m", []light.Kind{light.Tree}, "a tree"},
	{"leaf", []light.Kind{light.Tree}, "a tree"},
	{"genus", []light.Kind{light.Tree}, "a tree"},
	{"stem_cm", []light.Kind{light.Tree}, "a tree"},
	{"transmittance", []light.Kind{light.Screen, light.Tree}, "a screen or a tree"},
}

func readObstacle(s *sheet.Sheet, i int) light.Obstacle {
	var o light.Obstacle
	o.Name, _ = s.Text("name")
	s.Need("kind", `one of "solid", "gable", "tree" or "screen"`)
	o.Kind, _ = sheet.Choice(s, "kind", light.Solid, light.Gable, light.Tree, light.Screen)

	s.AtMostOne("height_m", "top_m")
	if !s.Given("top_m") {
		s.Need("height_m", "the height above the ground at its foot in metres, or top_m above the plan's datum")
	}
	o.HeightM, _ = s.Number("height_m", 0.05, light.MaxHeightM)
	o.TopM = s.Optional("top_m", -light.MaxHeightM, light.MaxHeightM)

	for _, f := range forKinds {
		if o.Kind != "" && s.Given(f.key) && !slices.Contains(f.kinds, o.Kind) {
			s.Faultf(f.key, "belongs to %s, and this is a %s", f.means, o.Kind)
		}
	}
	// All keys are read whatever the kind, so that each is checked and known.
	o.Footprint, _ = outline(s, "footprint")
	o.EavesM, _ = s.Number("eaves_m", 0.05, light.MaxHeightM)
	o.Albedo = s.Optional("albedo", 0, light.MaxAlbedo)
	at, _ := s.Pair("at", -light.MaxExtentM, light.MaxExtentM)
	o.At = light.Point{X: at[0], Y: at[1]}
	o.ClearStemM, _ = s.Number("clear_stem_m", 0, light.MaxHeightM)
	o.CrownM, _ = s.Number("crown_m", light.MinCrownM, light.MaxCrownM)
	o.Leaf, _ = sheet.Choice(s, "leaf", light.Deciduous, light.Evergreen)
	o.StemCM, _ = s.Number("stem_cm", 0.5, 500)
	if g, ok := readGenus(s); ok {
		o.Genus, o.Leaf = g.Name, g.Leaf
	}
	if o.Kind == light.Tree {
		o.MonthTransmittance = s.Months("transmittance", 0, 1)
	} else {
		o.Transmittance, _ = s.Number("transmittance", 0, 1)
	}
	needOfKind(s, &o, i+1)
	return o
}

// needOfKind asks for the keys that a kind of obstacle needs, and takes a tree of which
// nothing more is known to drop its leaves.
func needOfKind(s *sheet.Sheet, o *light.Obstacle, number int) {
	switch o.Kind {
	case light.Solid, light.Gable, light.Screen:
		s.Need("footprint", "its corners on the plan in metres, in order")
	case light.Tree:
		s.Need("at", "where the stem stands, [x, y] in metres")
		s.Need("crown_m", "the width of the crown in metres")
		s.AtMostOne("leaf", "genus", "transmittance")
		if !s.Given("leaf") && !s.Given("genus") && !s.Given("transmittance") {
			o.Leaf = light.Deciduous
			s.Assume(told.Say("site.drops-leaves", o.Called(number)))
		}
	}
	if o.Kind == light.Gable {
		s.Need("eaves_m", "the height of the eaves in metres")
		if len(o.Footprint) > 0 && len(o.Footprint) != 4 {
			s.Faultf("footprint", "of a gable needs 4 corners, has %d", len(o.Footprint))
		}
	}
	if o.Kind == light.Screen {
		s.Need("transmittance", "the share of the light it lets through, from 0 to 1")
	}
	if o.HeightM > 0 {
		if o.EavesM >= o.HeightM {
			s.Faultf("eaves_m", "needs to be lower than height_m, %g, is %g", o.HeightM, o.EavesM)
		}
		if o.ClearStemM >= o.HeightM {
			s.Faultf("clear_stem_m", "needs to be less than height_m, %g, is %g", o.HeightM, o.ClearStemM)
		}
	}
}

// readGenus reads the kind of a tree, by its botanical or English name.
func readGenus(s *sheet.Sheet) (light.Genus, bool) {
	name, ok := s.Text("genus")
	if !ok {
		return light.Genus{}, false
	}
	g, ok := light.FindGenus(name)
	if !ok {
		var names []string
		for _, g := range light.Genera() {
			names = append(names, g.Name)
		}
		s.Hintf("genus", func() string {
			if near := sheet.Nearest(name, names); near != "" {
				return "; did you mean " + near + "?"
			}
			return "; give leaf or transmittance instead, or one of " + strings.Join(names, ", ")
		}, "%s is no tree whose crown is known", plain.Quote(name))
	}
	return g, ok
}

func readProbe(s *sheet.Sheet, i int) light.Probe {
	name, ok := s.Text("name")
	if !ok {
		name = fmt.Sprintf("probe %d", i+1)
	}
	s.Need("at", "where it is, [x, y] in metres")
	at, _ := s.Pair("at", -light.MaxExtentM, light.MaxExtentM)
	return light.Probe{Name: name, At: light.Point{X: at[0], Y: at[1]}}
}

// readSeen reads light as seen or measured.
func readSeen(s *sheet.Sheet) light.Seen {
	var l light.Seen
	s.AtMostOne("sun_hours", "dli_mol_m2_d", "shade_percent")
	if s.IsList("sun_hours") {
		l.SunHoursMonth = s.Months("sun_hours", 0, 24)
	} else {
		l.SunHours = s.Optional("sun_hours", 0, 24)
	}
	l.DLI = s.Optional("dli_mol_m2_d", 0, 70)
	l.ShadePercent = s.Optional("shade_percent", 0, 100)
	return l
}

func readGround(s *sheet.Sheet) ground.Survey {
	var g ground.Survey
	s.AtMostOne("texture", "sand_percent")
	s.AtMostOne("drainage", "percolation_mm_h")
	g.Texture, _ = sheet.Choice(s, "texture", ground.Textures()...)
	g.SandPercent = s.Optional("sand_percent", 0, 100)
	g.ClayPercent = s.Optional("clay_percent", 0, 100)
	switch {
	case s.Given("sand_percent") && !s.Given("texture"):
		s.Need("clay_percent", "it beside sand_percent; silt is the rest")
	case s.Given("clay_percent") && !s.Given("texture"):
		s.Need("sand_percent", "it beside clay_percent; silt is the rest")
	}
	if g.SandPercent != nil && g.ClayPercent != nil && *g.SandPercent+*g.ClayPercent > 100 {
		s.Faultf("clay_percent", "makes %g with sand_percent, more than 100", *g.SandPercent+*g.ClayPercent)
	}
	g.OrganicPercent = s.Optional("organic_percent", 0, 100)
	g.PH = s.Optional("ph", 2.5, 11)
	g.Drainage, _ = sheet.Choice(s, "drainage", ground.DrainageClasses()...)
	g.PercolationMMH = s.Optional("percolation_mm_h", 0, 10_000)
	g.ECeDSM = s.Optional("ec_ds_m", 0, 100)
	g.DepthCM = s.Optional("depth_cm", 0, 300)
	g.Compaction, _ = sheet.Choice(s, "compaction", ground.Compactions()...)
	g.Phosphorus, _ = sheet.Choice(s, "phosphorus", "low", "medium", "high")
	g.Potassium, _ = sheet.Choice(s, "potassium", "low", "medium", "high")
	g.StonesPercent = s.Optional("stones_percent", 0, ground.MostStonesPercent)
	if g.Over, _ = sheet.Choice(s, "over", ground.Deck); g.Over == ground.Deck {
		s.Need("depth_cm", "what lies on the deck, from its drainage layer up")
	}
	return g
}
