package site_test

import (
	"context"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"swardwright/data"
	"swardwright/site"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/site/weather"
)

func of[T any](x T) *T { return &x }

// found are the conditions of a lawn at a station on the ground given.
func found(t testing.TB, station string, g ground.Survey, watered bool, years int) *site.Conditions {
	t.Helper()
	stations, err := weather.LoadStations(data.FS)
	if err != nil {
		t.Fatal(err)
	}
	at, ok := stations.Find(station)
	if !ok {
		t.Fatalf("no station %s", station)
	}
	s := site.Survey{
		Place: site.Place{Station: station, LatitudeDeg: at.LatitudeDeg}, Lawn: site.Lawn{AreaM2: 200},
		Light: light.Seen{SunHours: of(5.0)}, Ground: g,
	}
	c, err := s.Conditions(context.Background(), site.Tables{Stations: stations}, site.Options{Years: years, Seed: 1, Irrigated: watered})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func prepare(t testing.TB, c *site.Conditions, w site.Works) *site.Conditions {
	t.Helper()
	p, err := site.Prepare(c, w)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

var wetClay = ground.Survey{Texture: "clay", Drainage: "poorly", OrganicPercent: of(4.0), DepthCM: of(20.0), PH: of(6.3)}

// TestRootzone: a court of wet clay gets 25 cm of seven parts of sand to three of its own
// clay by volume, about 74 % of sand by weight, on gravel.
func TestRootzone(t *testing.T) {
	was := found(t, "Göteborg", wetClay, true, 60)
	is := prepare(t, was, site.Works{Rootzone: &site.Rootzone{DepthCM: 25, SandPercent: 74, ClayPercent: 17, OrganicPercent: 1.3, OnGravel: true}, DrainsMMD: 25})
	f, p := was.Ground(), is.Ground()
	// USDA Soil Survey Manual: in poorly drained ground the water is near the surface for
	// long in the growing season; in well drained ground wetness hinders no roots for long.
	if f.Drainage != "poorly" || f.WetShare < 0.4 || p.Drainage != "well" || p.WetShare > 0.1 {
		t.Errorf("found %+v, prepared %+v", f, p)
	}
	if p.InfiltrationMMH < 5*f.InfiltrationMMH || p.Texture != "sandy loam" || p.DepthCM != 25 || p.PH != f.PH {
		t.Errorf("found %+v, prepared %+v", f, p)
	}
	if is.Soil.WinterBearing != ground.Firm || is.Soil.Wetness > 0.1 {
		t.Errorf("prepared soil %+v", is.Soil)
	}
	var iceF, iceP, wetF, wetP float64
	for y := range was.Zones[0].Years {
		a, b := &was.Zones[0].Years[y], &is.Zones[0].Years[y]
		iceF, iceP, wetF, wetP = iceF+a.IceDays, iceP+b.IceDays, wetF+a.WetDays, wetP+b.WetDays
		if a.CrownMinC != b.CrownMinC || a.SnowDays != b.SnowDays || a.HotC != b.HotC {
			t.Fatalf("year %d: works on the ground changed the weather", y)
		}
	}
	if iceP >= iceF || iceF == 0 || wetP > wetF/4 {
		t.Errorf("ice %.0f of %.0f days, wet %.0f of %.0f", iceP, iceF, wetP, wetF)
	}

	// Of the water on frozen ground as much less stays to freeze as the ground's wetness falls, and a quarter at least.
	for drains, most := range map[float64]bool{25: true, 14: false} {
		drained := is
		if !most {
			drained = prepare(t, was, site.Works{DrainsMMD: drains})
		}
		left := drained.Soil.Wetness / was.Soil.Wetness
		if left < 0.25 != most || left > 0.9 {
			t.Errorf("pipes of %g mm a day leave %g of the wetness, which tells nothing", drains, left)
		}
		if got, want := drained.Zones[0].Days.Exposure.Sheds, 1-max(0.25, left); math.Abs(got-want) > 1e-9 {
			t.Errorf("pipes of %g mm a day shed %g of it, want %g", drains, got, want)
		}
	}

	// Without gravel or pipes it lies in the clay as in a basin.
	if basin := prepare(t, was, site.Works{Rootzone: &site.Rootzone{DepthCM: 25, SandPercent: 74, ClayPercent: 17, OrganicPercent: 1.3}}); basin.Ground().Drainage != "poorly" {
		t.Errorf("a rootzone without an outlet: %+v", basin.Ground())
	}
}

// TestRootzoneWater: the water of a made ground is that of its grain.
func TestRootzoneWater(t *testing.T) {
	for _, r := range []struct {
		sand, clay      float64
		wp, fc, sat, mm float64 // percent of volume, mm/h
		texture         string
	}{
		{80, 5, 5, 12, 46, 96.7, "loamy sand"},  // Saxton & Rawls 2006, table 3, at 2.5 % of organic matter
		{65, 10, 8, 18, 45, 50.3, "sandy loam"}, // the same
		{40, 20, 14, 28, 46, 15.5, "loam"},      // the same
	} {
		was := found(t, "Heathrow", wetClay, false, 2)
		s := prepare(t, was, site.Works{Rootzone: &site.Rootzone{DepthCM: 30, SandPercent: r.sand, ClayPercent: r.clay, OrganicPercent: 2.5, OnGravel: true}}).Soil
		if s.Texture != r.texture || math.Abs(100*s.WiltingPoint-r.wp) > 0.6 || math.Abs(100*s.FieldCapacity-r.fc) > 0.6 ||
			math.Abs(100*s.Saturation-r.sat) > 0.6 || math.Abs(s.InfiltrationMMH-r.mm) > 0.02*r.mm {
			t.Errorf("%s: %+v", r.texture, s)
		}
	}
}

// TestPrepareAsked: what each work changes, and that it changes nothing else.
func TestPrepareAsked(t *testing.T) {
	was := found(t, "Heathrow", ground.Survey{Texture: "clay loam", Drainage: "somewhat poorly", DepthCM: of(8.0), Compaction: "severe", OrganicPercent: of(2.0)}, false, 40)
	same := prepare(t, was, site.Works{})
	if !reflect.DeepEqual(was.Zones, same.Zones) || !reflect.DeepEqual(was.Soil, same.Soil) {
		t.Error("no works change the conditions")
	}
	if loose := prepare(t, was, site.Works{Compaction: "loose"}); loose.AsPublished() != was.AsPublished() {
		t.Error("loosened ground is no longer likened as it was found")
	}
	if drained := prepare(t, was, site.Works{DrainsMMD: 100}); drained.Soil.Wetness >= was.Soil.Wetness || drained.AsPublished().Soil.Wetness != drained.Soil.Wetness {
		t.Errorf("drained ground is published for as wetness %g, and is %g", drained.AsPublished().Soil.Wetness, drained.Soil.Wetness)
	}
	limed := prepare(t, was, site.Works{PH: 6.5})
	if limed.Soil.PH != 6.5 || was.Soil.PH == 6.5 || limed.Zones[0].Days != was.Zones[0].Days {
		t.Errorf("lime: pH %.1f of %.1f", limed.Soil.PH, was.Soil.PH)
	}
	loose := prepare(t, was, site.Works{Compaction: "normal"})
	if loose.Soil.InfiltrationMMH <= was.Soil.InfiltrationMMH || loose.Soil.Drainage != was.Soil.Drainage {
		t.Errorf("loosened: %+v of %+v", loose.Ground(), was.Ground())
	}
	piped := prepare(t, was, site.Works{DrainsMMD: 60})
	if piped.Ground().WetShare >= was.Ground().WetShare || piped.Ground().Drainage != "well" && piped.Ground().Drainage != "moderately well" {
		t.Errorf("piped: %+v of %+v", piped.Ground(), was.Ground())
	}
	if slow := prepare(t, was, site.Works{DrainsMMD: 1}); slow.Soil.DrainMMD != was.Soil.DrainMMD {
		t.Errorf("pipes slower than the ground change it to %g mm a day", slow.Soil.DrainMMD)
	}
	deep := prepare(t, was, site.Works{Imported: site.Imported{DepthCM: 15, SandPercent: 60, ClayPercent: 12, OrganicPercent: 5}})
	if g := deep.Ground(); g.DepthCM != 23 || g.Texture != "sandy loam" && g.Texture != "loam" || deep.Soil.OrganicPercent < 3.5 {
		t.Errorf("topsoil brought in: %+v, organic %g", g, deep.Soil.OrganicPercent)
	}
	if a, b := drought(deep), drought(was); a >= b {
		t.Errorf("drought of %.1f days on 23 cm of topsoil, %.1f on 8", a, b)
	}
	first := prepare(t, was, site.Works{WateredFirst: true}).Zones[0]
	for y := range first.First {
		if first.First[y].DroughtDays > was.Zones[0].Years[y].DroughtDays || first.First[y].WaterMM < 0 {
			t.Errorf("year %d: watered, and in drought for %.0f days", y, first.First[y].DroughtDays)
		}
	}
	if len(first.First) != len(first.Years) || first.Days != was.Zones[0].Days {
		t.Errorf("%d first years, the standing lawn changed: %v", len(first.First), first.Days != was.Zones[0].Days)
	}
	if prepare(t, found(t, "Heathrow", wetClay, true, 2), site.Works{WateredFirst: true}).Zones[0].First != nil {
		t.Error("a lawn that is watered in any year has first years of its own")
	}
}

func drought(c *site.Conditions) (days float64) {
	for y := range c.Zones[0].Years {
		days += c.Zones[0].Years[y].DroughtDays / float64(len(c.Zones[0].Years))
	}
	return days
}

// TestPrepareProperties over works drawn at random: figures stay in their bounds, more
// pipes never make ground wetter, and the ground as found is left alone.
func TestPrepareProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	textures, classes := ground.Textures(), ground.DrainageClasses()
	for range 60 {
		g := ground.Survey{Texture: textures[r.IntN(len(textures))], Drainage: classes[r.IntN(len(classes))], DepthCM: of(2 + 30*r.Float64()), OrganicPercent: of(8 * r.Float64())}
		was := found(t, "Takle", g, r.IntN(2) == 0, 4)
		before := was.Ground()
		w := site.Works{DrainsMMD: 80 * r.Float64(), PH: 4 + 4*r.Float64()}
		grain := func() (sand, clay float64) { sand = 100 * r.Float64(); return sand, (100 - sand) * r.Float64() }
		switch r.IntN(3) {
		case 0:
			w.Rootzone = &site.Rootzone{DepthCM: 5 + 40*r.Float64(), OrganicPercent: 5 * r.Float64(), OnGravel: r.IntN(2) == 0}
			w.Rootzone.SandPercent, w.Rootzone.ClayPercent = grain()
		case 1:
			w.Imported = site.Imported{DepthCM: 1 + 20*r.Float64(), OrganicPercent: 8 * r.Float64()}
			w.Imported.SandPercent, w.Imported.ClayPercent = grain()
		}
		is := prepare(t, was, w)
		p, s := is.Ground(), is.Soil
		if !(p.WetShare >= 0 && p.WetShare <= 1 && p.InfiltrationMMH > 0 && p.DepthCM > 0 && s.Wetness >= 0 && s.Wetness <= 1) ||
			!(s.WiltingPoint < s.FieldCapacity && s.FieldCapacity < s.Saturation && s.Saturation < 1) || math.Abs(s.SandPercent+s.SiltPercent+s.ClayPercent-100) > 1e-9 {
			t.Fatalf("works %+v on %+v make %+v", w, before, s)
		}
		more := w
		more.DrainsMMD *= 1.5
		if q := prepare(t, was, more).Ground(); q.WetShare > p.WetShare+1e-9 {
			t.Errorf("wet share %.3f with pipes for %.0f mm a day, %.3f for %.0f", p.WetShare, w.DrainsMMD, q.WetShare, more.DrainsMMD)
		}
		if was.Ground() != before {
			t.Fatal("the ground as found changed")
		}
	}
}

func TestWorksFaults(t *testing.T) {
	was := found(t, "Takle", wetClay, false, 1)
	for _, w := range []site.Works{
		{Rootzone: &site.Rootzone{DepthCM: 25, SandPercent: 80, ClayPercent: 30}},
		{Rootzone: &site.Rootzone{SandPercent: 80, ClayPercent: 10}},
		{Imported: site.Imported{DepthCM: -3}},
		{Imported: site.Imported{DepthCM: 3, OrganicPercent: math.NaN()}},
		{Compaction: "trodden"},
		{PH: 14},
		{DrainsMMD: math.NaN()},
		{OrganicPercent: -1},
	} {
		if _, err := site.Prepare(was, w); err == nil {
			t.Errorf("%+v is taken", w)
		}
	}
}

// What is published is for the climate of the normals, followed for so many years that a chance of a half is known to five points.
func TestPublishedYears(t *testing.T) {
	stations, err := weather.LoadStations(data.FS)
	if err != nil {
		t.Fatal(err)
	}
	at, _ := stations.Find("Heathrow")
	s := site.Survey{Trend: true, Place: site.Place{Station: "Heathrow", LatitudeDeg: at.LatitudeDeg}, Lawn: site.Lawn{AreaM2: 60}, Ground: ground.Survey{Texture: "loam"}}
	c, err := s.Conditions(context.Background(), site.Tables{Stations: stations}, site.Options{Years: 130, Seed: 1, Year: 2027})
	if err != nil {
		t.Fatal(err)
	}
	if e := math.Sqrt(0.25 / float64(len(c.AsPublished().Zones[0].Years))); math.Abs(e-0.05) > 0.004 || c.AsPublished().Normals != at.Normals {
		t.Errorf("what is published for is known to %g", e)
	}
}
