package site

import (
	"fmt"
	"io"
	"math"
	"strings"
	"sync"
	"testing"

	"swardwright/data"
	"swardwright/internal/sheet"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/site/weather"
)

var loaded = sync.OnceValues(func() (weather.Stations, error) { return weather.LoadStations(data.FS) })

func stationsOf(t *testing.T) weather.Stations {
	t.Helper()
	stations, err := loaded()
	if err != nil {
		t.Fatal(err)
	}
	return stations
}

// page is a brief's pages on the place: a drawn lawn at 56 N 13 E unless they say otherwise.
type page struct{ place, climate, lawn, more string }

func (p page) text() string {
	or := func(s, other string) string {
		if s == "" {
			return other
		}
		return s
	}
	return "[place]\n" + or(p.place, "latitude = 56\nlongitude = 13") + "\n[climate]\n" + p.climate + "\n[lawn]\n" + or(p.lawn, "outline = [[0, 0], [10, 0], [10, 8], [0, 8]]") + "\n" + p.more
}

func (p page) read(t *testing.T, open Opener) (Survey, string) {
	root := sheet.Open("brief.toml", []byte(p.text()))
	s := ReadSurvey(root, stationsOf(t), open)
	if err := root.Faults(); err != nil {
		return s, err.Error()
	}
	return s, ""
}

// What a brief may say of a place, at its bounds: sound there and a fault of its own key a step beyond. They catch slips and wrong units.
func TestSurveyBounds(t *testing.T) {
	lawn := func(s string) page { return page{lawn: "outline = [[0, 0], [10, 0], [10, 8], [0, 8]]\n" + s} }
	obstacle := func(kind string) func(string) page {
		base := map[string]string{
			"solid":  "kind = \"solid\"\nfootprint = [[-5, 0], [-3, 0], [-3, 4], [-5, 4]]\n",
			"gable":  "kind = \"gable\"\nheight_m = 290\nfootprint = [[-5, 0], [-3, 0], [-3, 4], [-5, 4]]\n",
			"screen": "kind = \"screen\"\nheight_m = 2\nfootprint = [[-5, 0], [-3, 0], [-3, 4], [-5, 4]]\n",
			"tree":   "kind = \"tree\"\nheight_m = 40\nat = [-40, 0]\n",
		}[kind]
		return func(s string) page { return page{more: "[[obstacle]]\n" + base + s} }
	}
	tree := func(s string) page { return obstacle("tree")("crown_m = 6\n" + s) }
	seen := func(s string) page { return page{more: "[light]\n" + s} }
	soil := func(s string) page { return page{more: "[ground]\n" + s} }
	for key, r := range map[string]struct {
		lo, hi float64
		page   func(string) page
	}{
		"latitude":         {-90, 90, func(s string) page { return page{place: "longitude = 13\n" + s} }},
		"longitude":        {-180, 180, func(s string) page { return page{place: "latitude = 56\n" + s} }},
		"altitude_m":       {-430, 6000, func(s string) page { return page{place: "latitude = 56\nlongitude = 13\n" + s} }},
		"area_m2":          {0.5, 100000, func(s string) page { return page{lawn: s} }},
		"plan_north_deg":   {-360, 360, lawn},
		"slope_deg":        {0, 60, lawn},
		"aspect_deg":       {-360, 360, lawn},
		"edging_m":         {0, 10000, lawn},
		"height_m":         {0.05, 300, obstacle("solid")},
		"top_m":            {0.001, 300, obstacle("solid")}, // over the ground at its foot
		"eaves_m":          {0.05, 289, obstacle("gable")},
		"albedo":           {0, 0.95, func(s string) page { return obstacle("solid")("height_m = 2\n" + s) }},
		"transmittance":    {0, 1, obstacle("screen")},
		"crown_m":          {0.1, 60, obstacle("tree")},
		"clear_stem_m":     {0, 39, tree},
		"stem_cm":          {0.5, 500, tree},
		"sun_hours":        {0, 24, seen},
		"dli_mol_m2_d":     {0, 70, seen},
		"shade_percent":    {0, 100, seen},
		"organic_percent":  {0, 100, soil},
		"ph":               {2.5, 11, soil},
		"percolation_mm_h": {0, 10000, soil},
		"ec_ds_m":          {0, 100, soil},
		"depth_cm":         {0, 300, soil},
		"stones_percent":   {0, ground.MostStonesPercent, soil},
	} {
		off := 0.01
		if key == "eaves_m" || key == "clear_stem_m" {
			off = 1.1 // the height is beyond
		}
		for x, sound := range map[float64]bool{r.lo: true, r.hi: true, r.lo - 0.01: false, r.hi + off: false} {
			_, fault := r.page(fmt.Sprintf("%s = %g\n", key, x)).read(t, nil)
			if (fault == "") != sound || !sound && !strings.Contains(fault, key) {
				t.Errorf("%s = %g: %q", key, x, fault)
			}
		}
	}
	twelve := func(x float64) string { return fmt.Sprint("[", strings.Repeat(fmt.Sprintf("%g, ", x), 11), x, "]") }
	climate := func(least, mean, most, rain, wet, sun float64) page {
		return page{climate: fmt.Sprintf("min_c = %s\nmean_c = %s\nmax_c = %s\nrain_mm = %s\nwet_days = %s\nsun_h = %s\n", twelve(least), twelve(mean), twelve(most), twelve(rain), twelve(wet), twelve(sun))}
	}
	for _, r := range []struct {
		p     page
		fault string
	}{
		{climate(5, 10, 15, 60, 12, 100), ""},
		{climate(-70, -60, 50, 60, 12, 100), ""}, {climate(-71, -60, 50, 60, 12, 100), "min_c"}, {climate(-70, -61, 50, 60, 12, 100), "mean_c"},
		{climate(45, 50, 60, 60, 12, 100), ""}, {climate(46, 50, 60, 60, 12, 100), "min_c"}, {climate(45, 51, 60, 60, 12, 100), "mean_c"}, {climate(45, 50, 61, 60, 12, 100), "max_c"},
		{climate(5, 10, 15, 2000, 12, 100), ""}, {climate(5, 10, 15, 2001, 12, 100), "rain_mm"}, {climate(5, 10, 15, 0, 0, 744), ""}, {climate(5, 10, 15, 0, 0, 745), "sun_h"},
		{climate(5, 10, 15, 60, 29, 100), ""}, {climate(5, 10, 15, 60, 29.5, 100), "wet_days[2]"}, {climate(5, 10, 15, 60, 30.5, 100), "wet_days[4]"}, {climate(5, 10, 15, 60, 32, 100), "wet_days"},
		{climate(5, 10, 15, 1, 0, 100), "wet_days[1]"}, {climate(5, 10, 15, 0.9, 0, 100), ""}, {climate(16, 15.5, 15, 60, 12, 100), "min_c[1]"}, {climate(5, 4, 15, 60, 12, 100), "mean_c[1]"}, {climate(5, 16, 15, 60, 12, 100), "mean_c[1]"},
		{page{climate: "min_c = " + twelve(5)}, "max_c"},
		{page{climate: "epw = \"a.epw\"\nmin_c = " + twelve(5)}, "stands beside monthly values"},
		{page{climate: "epw = \"a.epw\"\n"}, "cannot be opened from here"},
		{page{climate: "epw = \"a.epw\"\ntrend = true\n"}, "trend"},
	} {
		if _, got := r.p.read(t, nil); (got == "") != (r.fault == "") || !strings.Contains(got, r.fault) {
			t.Errorf("%s: %q, want %q", r.p.climate, got, r.fault)
		}
	}
	s, _ := page{place: "latitude = 56\nlongitude = 13\naltitude_m = 70", climate: "min_c = " + twelve(5) + "\nmax_c = " + twelve(17) + "\nrain_mm = " + twelve(60) + "\nwet_days = " + twelve(12)}.read(t, nil)
	if n := s.Climate; n == nil || n.MeanC[3] != 11 || n.LatitudeDeg != 56 || n.LongitudeDeg != 13 || n.AltitudeM != 70 || n.SunHours != nil || !s.Trend {
		t.Errorf("midway between the extremes: %+v", n)
	}
	broken := func(string) (io.ReadCloser, error) { return io.NopCloser(strings.NewReader("LOCATION,x\n")), nil }
	if _, got := (page{climate: "epw = \"a.epw\"\n"}).read(t, broken); !strings.Contains(got, "a.epw: ") {
		t.Errorf("a broken file: %q", got)
	}
}

// What contradicts itself, or what a kind of obstacle lacks or has too much of.
func TestSurveyContradictions(t *testing.T) {
	const box = "footprint = [[-5, 0], [-3, 0], [-3, 4], [-5, 4]]\n"
	parts := func(n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, "[[lawn.part]]\noutline = [[%d, 0], [%d.9, 0], [%d.9, 1]]\n", 2*i, 2*i, 2*i)
		}
		return b.String()
	}
	for _, r := range []struct {
		p     page
		fault string
	}{
		{page{place: "latitude = 56"}, "needs a longitude"},
		{page{place: "latitude = 56\nstation = \"Kobnhavn\""}, "no station of the table"},
		{page{place: "latitude = 58\nlongitude = 12\nstation = \"Göteborg\""}, ""},
		{page{place: "latitude = 30\nlongitude = 12\nstation = \"Göteborg\""}, "km away"}, // 27.7 degrees, 3,080 km
		{page{place: "latitude = 31.5\nlongitude = 12\nstation = \"Göteborg\""}, ""},      // 26.2 degrees, 2,910 km
		{page{lawn: "area_m2 = 60\noutline = [[0, 0], [10, 0], [10, 8]]"}, "outline"},     // one of the two
		{page{lawn: "slope_deg = 3"}, "needs its size"},                                   //
		{page{lawn: "outline = [[0, 0], [1, 0], [1, 0.9]]"}, "encloses 0.45"},             // half a square metre at least
		{page{lawn: "outline = [[0, 0], [1, 0], [1, 1.1]]"}, ""},                          //
		{page{lawn: "outline = [[0, 0], [500, 0], [500, 401]]"}, "encloses 1.002e+05"},    // 100,000 at most
		{page{lawn: "outline = [[0, 0], [500, 0], [500, 400]]"}, ""},                      //
		{page{lawn: "slope_deg = 0\n" + parts(40)}, ""},                                   //
		{page{lawn: "slope_deg = 0\n" + parts(41)}, "40 times at most"},                   //
		{page{lawn: "area_m2 = 60", more: "[[obstacle]]\nkind = \"solid\"\nheight_m = 2\n" + box}, "needs the lawn's outline"},
		{page{lawn: "area_m2 = 60", more: "[[probe]]\nat = [1, 1]\n"}, "needs the lawn's outline"},
		{page{more: "[[obstacle]]\nkind = \"solid\"\n" + box}, "height_m"},
		{page{more: "[[obstacle]]\nkind = \"solid\"\nheight_m = 2\ncrown_m = 3\n" + box}, "belongs to a tree"},
		{page{more: "[[obstacle]]\nkind = \"screen\"\nheight_m = 2\nalbedo = 0.3\ntransmittance = 0.5\n" + box}, "belongs to a solid or a gable"},
		{page{more: "[[obstacle]]\nkind = \"screen\"\nheight_m = 2\n" + box}, "transmittance"},
		{page{more: "[[obstacle]]\nkind = \"gable\"\nheight_m = 5\n" + box}, "eaves_m"},
		{page{more: "[[obstacle]]\nkind = \"gable\"\nheight_m = 5\neaves_m = 5\n" + box}, "lower than height_m"},
		{page{more: "[[obstacle]]\nkind = \"gable\"\nheight_m = 5\neaves_m = 4.9\n" + box}, ""},
		{page{more: "[[obstacle]]\nkind = \"gable\"\nheight_m = 5\neaves_m = 3\nfootprint = [[-5, 0], [-3, 0], [-3, 4]]\n"}, "needs 4 corners, has 3"},
		{page{more: "[[obstacle]]\nkind = \"tree\"\nheight_m = 9\nat = [-9, 0]\n"}, "crown_m"},
		{page{more: "[[obstacle]]\nkind = \"tree\"\nheight_m = 9\nat = [-9, 0]\ncrown_m = 3\nclear_stem_m = 9\n"}, "less than height_m"},
		{page{more: "[[obstacle]]\nkind = \"tree\"\nheight_m = 9\nat = [-9, 0]\ncrown_m = 3\ngenus = \"Quercsu\"\n"}, "did you mean Quercus"},
		{page{more: "[[obstacle]]\nkind = \"tree\"\nheight_m = 9\nat = [-9, 0]\ncrown_m = 3\ngenus = \"Quercus\"\nleaf = \"evergreen\"\n"}, "leaf"},
		{page{more: "[light]\nsun_hours = 3\nshade_percent = 40\n"}, "shade_percent"},
		{page{more: "[ground]\ntexture = \"loam\"\nsand_percent = 40\n"}, "sand_percent"},
		{page{more: "[ground]\nsand_percent = 40\n"}, "clay_percent"},
		{page{more: "[ground]\nclay_percent = 40\n"}, "sand_percent"},
		{page{more: "[ground]\nsand_percent = 60\nclay_percent = 40\n"}, ""},
		{page{more: "[ground]\nsand_percent = 60\nclay_percent = 41\n"}, "makes 101"},
		{page{more: "[ground]\nover = \"deck\"\n"}, "depth_cm"},
		{page{more: "[ground]\nover = \"deck\"\ndepth_cm = 20\n"}, ""},
	} {
		if _, got := r.p.read(t, nil); (got == "") != (r.fault == "") || !strings.Contains(got, r.fault) {
			t.Errorf("%+v: %q, want %q", r.p, got, r.fault)
		}
	}
	s, fault := page{lawn: "outline = [[0, 0], [10, 0], [10, 8], [0, 8]]\nslope_deg = 4\nhorizon = [[0, 3], [180, 5]]", more: "[[obstacle]]\nname = \"oak\"\nkind = \"tree\"\nheight_m = 9\nat = [-9, 2]\ncrown_m = 3\ngenus = \"oak\"\nstem_cm = 30\n[[probe]]\nat = [5, 5]\n[ground]\ntexture = \"loam\"\nph = 6.2\n[light]\nsun_hours = " + fmt.Sprint("[", strings.Repeat("5, ", 11), "6]")}.read(t, nil)
	o := s.Obstacles[0]
	if fault != "" || s.Lawn.AreaM2 != 80 || !s.Lawn.AspectUnknown || s.Lawn.Horizon[1] != (light.HorizonPoint{BearingDeg: 180, ElevationDeg: 5}) || o.Genus != "Quercus" || o.Leaf != light.Deciduous || o.At != (light.Point{X: -9, Y: 2}) || o.StemCM != 30 ||
		s.Probes[0].Name != "probe 1" || s.Probes[0].At != (light.Point{X: 5, Y: 5}) || s.Ground.Texture != "loam" || *s.Ground.PH != 6.2 || s.Light.SunHours != nil || s.Light.SunHoursMonth[11] != 6 {
		t.Errorf("%+v, %s", s, fault)
	}
	near(t, "a shoelace: 3, 4 and 5 m", areaM2([]light.Point{{X: 1, Y: 1}, {X: 4, Y: 1}, {X: 1, Y: 5}}), 6, 1e-12)
	near(t, "and the other way round", areaM2([]light.Point{{X: 1, Y: 1}, {X: 1, Y: 5}, {X: 4, Y: 1}}), 6, 1e-12)
	scene := s.Scene(weather.Normals{LongitudeDeg: 13, AltitudeM: 40})
	if scene.LatitudeDeg != 56 || scene.LongitudeDeg != 13 || scene.AltitudeM != 40 || scene.SlopeDeg != 4 || !scene.AspectUnknown || len(scene.Obstacles) != 1 || len(scene.Probes) != 1 {
		t.Errorf("%+v", scene)
	}
}

// Where the weather is taken from, by hand: the nearest station, carried to the height of the lawn from 50 m on; a station named lies
// as far off as it is; normals of the brief's own from 25 km on are another place's.
func TestClimateTaken(t *testing.T) {
	stations := stationsOf(t)
	st, ok := stations.Find("Göteborg")
	if !ok {
		t.Fatal("no station")
	}
	told := func(c *Conditions, name string) bool {
		for _, s := range c.Assumptions {
			if s.Name == name {
				return true
			}
		}
		return false
	}
	at := func(up float64) *Conditions {
		lon, height := st.LongitudeDeg, st.AltitudeM+up
		c := &Conditions{Survey: Survey{Place: Place{LatitudeDeg: st.LatitudeDeg, LongitudeDeg: &lon, AltitudeM: &height, Station: st.Name}}}
		if err := c.climate(stations); err != nil {
			t.Fatal(err)
		}
		return c
	}
	for up, want := range map[float64]string{49: "", 51: "site.carried-up", -51: "site.carried-down"} {
		c := at(up)
		if want != "" && !told(c, want) || want == "" && len(c.Assumptions) > 0 {
			t.Errorf("%g m up: %v", up, c.Assumptions)
		}
		near(t, "6.5 K a kilometre", c.Normals.MeanC[0], st.MeanC[0]-0.0065*up, 1e-9)
	}
	c := &Conditions{Survey: Survey{Place: Place{LatitudeDeg: st.LatitudeDeg + 1, Station: st.Name}}}
	if err := c.climate(stations); err != nil {
		t.Fatal(err)
	}
	near(t, "a degree north of it, km", c.DistanceKM, 111.2, 0.2)
	if err := (&Conditions{Survey: Survey{Place: Place{Station: "Nowhere"}}}).climate(stations); err == nil {
		t.Error("a station that isn't there")
	}
	if err := (&Conditions{}).climate(stations); err == nil {
		t.Error("no place at all")
	}
	lon := st.LongitudeDeg
	c = &Conditions{Survey: Survey{Place: Place{LatitudeDeg: st.LatitudeDeg + 0.05, LongitudeDeg: &lon}}}
	if err := c.climate(stations); err != nil || c.Station.WMO != st.WMO || !told(c, "site.nearest") {
		t.Errorf("%v, %v", c.Station.Name, err)
	}
	near(t, "5.6 km off", c.DistanceKM, 5.56, 0.02)
	own := st.Normals
	for north, away := range map[float64]bool{0.22: false, 0.23: true} { // 24.5 and 25.6 km
		height := 70.0
		c := &Conditions{Survey: Survey{Place: Place{LatitudeDeg: own.LatitudeDeg + north, LongitudeDeg: &lon, AltitudeM: &height}, Climate: &own}}
		if err := c.climate(stations); err != nil || told(c, "site.own-climate-away") != away || c.Normals.LatitudeDeg != own.LatitudeDeg+north || c.Normals.AltitudeM != 70 {
			t.Errorf("%g degrees off: %v, %v", north, c.Assumptions, err)
		}
	}
	dry := own
	dry.RainMM, dry.WetDays = [12]float64{}, [12]float64{}
	c = &Conditions{Survey: Survey{Place: Place{LatitudeDeg: own.LatitudeDeg, LongitudeDeg: &lon}, Climate: &dry}}
	if err := c.climate(stations); err != nil || !told(c, "site.rain-taken") || !c.Normals.HasRain() {
		t.Errorf("rain of the nearest: %v, %v", c.Assumptions, err)
	}
	// Five seasons from 2026 on have their middle in 2028.
	c = &Conditions{Survey: Survey{Trend: true}, Normals: st.Normals}
	c.trend(2026)
	near(t, "warming to 2028", c.Normals.MeanC[6]-st.MeanC[6], st.Warming(2028).ByMonthK[6], 1e-12)
	if c.trend(0); !told(c, "site.trend") {
		t.Error("the trend isn't told")
	}
	c = &Conditions{Normals: st.Normals}
	if c.trend(2026); c.Normals.MeanC != st.MeanC || !told(c, "site.no-trend") {
		t.Error("moved although the brief says no")
	}
	// Radiation of a station a degree off is the lawn's; of one further off no more than a clear sky's at the lawn.
	for off, kept := range map[float64]bool{0.9: true, 1.1: false} {
		c := &Conditions{Survey: Survey{Place: Place{LatitudeDeg: 88.9 + off}}, Normals: st.Normals}
		c.Normals.LatitudeDeg = 88.9
		mj, _ := c.radiation(stations)
		plain, _ := stations.Radiation(c.Normals)
		clear := weather.AtMostClear(plain, 88.9+off, c.Normals.AltitudeM)
		want := clear
		if kept {
			want = plain
		}
		if mj != want {
			t.Errorf("%g degrees off: %v, want %v", off, mj, want)
		}
	}
	near(t, "without a longitude, at least", Place{LatitudeDeg: 50}.kmTo(51, 170), 111.2, 0.2)
}

// Roots on a deck go as deep as there is ground, two centimetres at least, and no deeper than elsewhere.
func TestRootsOnDeck(t *testing.T) {
	for depth, want := range map[float64]float64{20: 0.20, 40: 0.30, 1: 0.02} {
		near(t, fmt.Sprintf("%g cm", depth), onSoil(weather.Exposure{}, ground.Soil{DepthCM: depth, OnDeck: true}).RootDepthM, want, 1e-12)
	}
	near(t, "mean of twelve", mean([12]float64{0: 6, 11: 18}), 2, 1e-12)
	// A mean year of two, each day 1 and 3; leaves in a year that begins in July.
	s := &weather.Series{Years: 2, MeanC: make([]float32, 730)}
	for i := range s.MeanC {
		s.MeanC[i] = float32(1 + 2*(i/365))
	}
	for _, x := range meanYear(s) {
		near(t, "mean of two years", x, 2, 1e-6)
	}
	var year [365]float64
	for k := range year {
		d := (200 + k) % 365
		switch {
		case k >= 100 && k < 280:
			year[d] = 13
		case k >= 280:
			year[d] = 7.9
		}
	}
	on, off := leafDates(year, 200)
	near(t, "out in the south", on, float64((200+114)%365+1), 0)
	near(t, "fallen in the south", off, float64((200+280)%365+1), 0)
	// A part of the lawn that is wetter or darker than two hundredths of growth is no part of the season.
	for mean, in := range map[float32]bool{4.5: false, 5: true} { // e^-4.33² /2 … growth potential 0.0190 and 0.0243
		s := &weather.Series{Years: 1, MeanC: make([]float32, 365)}
		for d := range s.MeanC {
			s.MeanC[d] = 20
			if d < 120 {
				s.MeanC[d] = mean
			}
		}
		p := math.Exp(-0.5 * math.Pow((float64(mean)-20)/5.5, 2))
		got := sky(s, [12]float64{}).SeasonWeight[1]
		if in != (p >= 0.02) {
			t.Fatalf("%g °C has a potential of %g", mean, p)
		}
		want := 0.0
		if in {
			want = p
		}
		near(t, fmt.Sprintf("February of %g °C", mean), got, want, 1e-5)
	}
}
