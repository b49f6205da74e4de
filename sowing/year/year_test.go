package year

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	"swardwright/data"
	"swardwright/internal/approx"
	"swardwright/internal/calendar"
	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/mix/sward"
	"swardwright/site"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/site/weather"
	"swardwright/sowing/job"
	"swardwright/species"
)

var near = approx.Near

var stations = sync.OnceValues(func() (weather.Stations, error) { return weather.LoadStations(data.FS) })

const testYears = 40

// place is an invented lawn of 84 m² on loam near a station of the table, with the
// given share of the open's light.
func place(t testing.TB, name string, open float64, irrigated bool) *site.Conditions {
	t.Helper()
	all, err := stations()
	if err != nil {
		t.Fatal(err)
	}
	station, ok := all.Find(name)
	if !ok {
		t.Fatalf("no station %q; near: %v", name, all.Suggest(name))
	}
	mj, _ := all.Radiation(station.Normals)
	series := weather.Generate(station.Normals, mj, testYears, 1)
	soil, err := ground.Survey{}.Soil()
	if err != nil {
		t.Fatal(err)
	}
	e := weather.Exposure{FieldCapacity: soil.FieldCapacity, WiltingPoint: soil.WiltingPoint, Saturation: soil.Saturation,
		RootDepthM: 0.2, DrainMMD: soil.DrainMMD, Irrigated: irrigated}
	for m := range e.DLI {
		e.OpenShare[m], e.DLI[m] = open, 2.06*mj[m]*open
	}
	days := series.Exposed(e)
	z := site.Zone{Zone: light.Zone{Letter: "A", Share: 1, AreaM2: 84}, Days: days, Years: days.Seasons()}
	z.Light.OpenShare = open
	return &site.Conditions{Soil: soil, AreaM2: 84, Zones: []site.Zone{z}, Weather: series.Summary(), Normals: station.Normals}
}

func day(s string) time.Time {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		panic(err)
	}
	return t
}

func on(s string) *time.Time {
	d := day(s)
	return &d
}

// want is a lawn sown in spring.
func want(c *site.Conditions, g species.Grade) Input {
	return Input{Site: c, Use: species.Use{Grade: g}, StartOn: day("2027-05-05"), FirstMow: day("2027-06-14"), UsableFrom: on("2027-07-24")}
}

func tasks(c Calendar, k job.Sort, first bool) (list []job.Task) {
	for _, t := range c.Tasks {
		if t.Sort == k && t.First == first {
			list = append(list, t)
		}
	}
	return list
}

// Purdue University, Lawns and shade (2017): at 3 inches or higher, at most 2 lb N a
// 1000 square feet (9.8 g/m²) a year. Illinois 1998: 4.9 to 9.8 in shade.
// Arizona, Turf Tips VI(8) 1999: the feed is cut by 40 to 50 %.
func TestShadeCare(t *testing.T) {
	shade, sun := Plan(want(place(t, "Fort Wayne", 0.4, false), species.Utility)), Plan(want(place(t, "Fort Wayne", 1, false), species.Utility))
	if shade.CutMM < 75 || shade.NitrogenGM2 < 4.9 || shade.NitrogenGM2 > 9.8 {
		t.Errorf("in shade cut at %g mm, %g g N", shade.CutMM, shade.NitrogenGM2)
	}
	if cut := 1 - shadeCut(0.4); cut < 0.4-1e-9 || cut > 0.5 {
		t.Errorf("feed cut by %g in shade", cut)
	}
	if shade.CutMM <= sun.CutMM {
		t.Errorf("cut at %g mm in shade and %g in sun", shade.CutMM, sun.CutMM)
	}
	greedy := want(place(t, "Fort Wayne", 0.4, false), species.Utility)
	greedy.Use.NitrogenGM2 = new(float64)
	*greedy.Use.NitrogenGM2 = 30
	if n := Plan(greedy).NitrogenGM2; n > 9.8 {
		t.Errorf("asked for 30 g of nitrogen shade gets %g", n)
	}
}

// care4GREEN, Austria: ornamental lawn at 20 to 30 mm up to 60 cuts a year, utility
// at 30 to 80 mm up to 20, hard-wearing up to 30; meadow up to 3.
func TestCutsAYear(t *testing.T) {
	c := place(t, "Wien", 1, false)
	for _, r := range []struct {
		grade         species.Grade
		least, most   float64
		lowMM, highMM float64
	}{
		{species.Ornamental, 20, 60, 20, 30}, {species.Utility, 8, 20, 30, 80}, {species.HardWearing, 8, 30, 30, 80}, {species.Extensive, 1, 3, 50, 120},
	} {
		cal := Plan(want(c, r.grade))
		if cal.CutsPerYear < r.least || cal.CutsPerYear > r.most || cal.CutMM < r.lowMM || cal.CutMM > r.highMM {
			t.Errorf("%s: %g cuts at %g mm", r.grade, cal.CutsPerYear, cal.CutMM)
		}
	}
}

// Irish farms measured 75 kg/ha of grass a day in May and about 60 from July to the middle of September 2023, 30 in a usual October
// (PastureBase Ireland): May over August 1.25, October over August 0.5. Elsewhere no month is quicker than one of spring.
func TestSpringFlush(t *testing.T) {
	cal := Plan(want(place(t, "Shannon Airport", 1, false), species.Utility))
	of := func(m time.Month) float64 { return cal.Months[m-1].Growth }
	near(t, "May over August", of(time.May)/of(time.August), 1.25, 0.2)
	near(t, "October over August", of(time.October)/of(time.August), 0.5, 0.2)
	for _, name := range []string{"Wien", "Cold Lake", "Fort Wayne", "Suwalki"} {
		cal := Plan(want(place(t, name, 1, false), species.Utility))
		quickest := time.January
		for m := time.January; m <= time.December; m++ {
			if cal.Months[m-1].Growth > cal.Months[quickest-1].Growth {
				quickest = m
			}
		}
		if quickest != time.May && quickest != time.June {
			t.Errorf("%s: quickest in %s", name, quickest)
		}
	}
}

// University of Saskatchewan and City of Calgary: 75 mm and more on the dry
// prairie; City of Yorkton: cut at 75 mm when 110 mm high. British practice (13 to
// 25 mm, up to 40; from memory) and Austria's 30 mm bound a cool moist place.
func TestCutHeights(t *testing.T) {
	for _, r := range []struct {
		station   string
		low, high float64
	}{{"Cold Lake", 75, 90}, {"Edmonton", 75, 90}, {"Lerwick", 25, 40}} {
		if mm := Plan(want(place(t, r.station, 1, false), species.Utility)).CutMM; mm < r.low || mm > r.high {
			t.Errorf("%s: cut at %g mm, want %g to %g", r.station, mm, r.low, r.high)
		}
	}
}

// A lawn that can't be held to a higher grade is still mown as its owner asked.
func TestExtensiveMownLow(t *testing.T) {
	w := want(place(t, "Aviemore", 0.4, false), species.Extensive)
	if cal := Plan(w); cal.CutsPerYear > 3 || cal.NitrogenGM2 != 0 {
		t.Errorf("a meadow cut %g times, fed %g g", cal.CutsPerYear, cal.NitrogenGM2)
	}
	w.Use.MowingMM, w.Use.MowsPerWeek = 20, 2
	if cal := Plan(w); cal.CutsPerYear < 20 {
		t.Errorf("asked for two cuts a week it gets %g a year", cal.CutsPerYear)
	}
}

// Cornell: kept at 1.5 inches a lawn is mown after 0.75 inch of growth. So the
// interval of every month is half the height over the growth of a day.
func TestThirdRule(t *testing.T) {
	w := want(place(t, "Aviemore", 1, false), species.Utility)
	w.Use.MowingMM = 38.1
	cal := Plan(w)
	mown := 0
	for _, m := range cal.Months {
		if m.MowEveryDays > 1 {
			mown++
			near(t, "growth between cuts, mm", m.MowEveryDays*m.Growth*growthMMD(10), m.CutMM/2, 1e-9)
		}
	}
	if mown < 4 {
		t.Errorf("mown in %d months", mown)
	}
}

// Common practice, no published source: a cylinder mower set between 10 and 20 mm
// is used almost daily through the season; a lawn of some tens of square metres
// takes about five minutes, edges included; the clippings are boxed.
func TestDailyCylinder(t *testing.T) {
	w := want(place(t, "Aviemore", 1, false), species.Ornamental)
	w.Use.MowingMM, w.Use.Mower, w.Use.MowsPerWeek = 15, "cylinder", 6
	cal := Plan(w)
	if cal.CutsPerYear < 100 {
		t.Errorf("%g cuts", cal.CutsPerYear)
	}
	near(t, "minutes for 40 m²", mowerFor(w.Use, 40, 1).hours(40)*60, 5, 1)
	m := tasks(cal, job.Mowing, false)[0]
	if said := fmt.Sprint(m.Detail); !strings.Contains(said, "year.box-clippings") || !strings.Contains(said, "year.cross-stripes") {
		t.Error(said)
	}
	rotary := w
	rotary.Use.Mower = "rotary"
	if notes := fmt.Sprint(Plan(rotary).Notes); !strings.Contains(notes, "year.mower-scalps") {
		t.Errorf("a rotary at 15 mm without a word: %q", notes)
	}
	seldom := w
	seldom.Use.MowsPerWeek = 1
	if notes := fmt.Sprint(Plan(seldom).Notes); !strings.Contains(notes, "year.mown-too-seldom") {
		t.Errorf("mown once a week at 15 mm without a word: %q", notes)
	}
}

// Common practice, no published source: feeds come about monthly, May to August,
// and the last (August or September) is for roots.
func TestFeedsInTheNorth(t *testing.T) {
	w := want(place(t, "Oslo, Gardermoen", 1, false), species.Ornamental)
	cal := Plan(w)
	if len(cal.Feeds) < 3 {
		t.Fatalf("%d feeds", len(cal.Feeds))
	}
	for i, f := range cal.Feeds {
		last := i == len(cal.Feeds)-1
		if f.Date.Month() < time.May || f.Date.Month() > time.September || last != (f.Kind == "hardening") || last && f.Date.Month() < time.August {
			t.Errorf("feed %d: %+v", i, f)
		}
		if i > 0 {
			if gap := f.Date.Sub(cal.Feeds[i-1].Date).Hours() / 24; gap < 25 || gap > 56 {
				t.Errorf("%g days between feeds", gap)
			}
		}
		if f.NGM2 > 4.9 { // UC IPM: at most 1 lb of nitrogen a 1000 square feet in one go
			t.Errorf("%g g in one go", f.NGM2)
		}
	}
}

// Kansas State Research and Extension: cool-season lawns in September, November and, for
// more, May, at most 7.3 g of nitrogen a go. University of Arkansas Extension 2014: three
// quarters of it in autumn, none before mid-April. Where summers are cool none is so late.
func TestFeedsWhereSummersAreHot(t *testing.T) {
	for _, r := range []struct {
		station string
		hot     bool
	}{{"Tulsa, Oklahoma", true}, {"Little Rock", true}, {"Evansville", true}, {"Minneapolis", false}, {"Wien", false}, {"Heathrow", false}} {
		w := want(place(t, r.station, 1, true), species.Utility)
		w.Use.NitrogenGM2 = new(12.0)
		autumn, sum, november := 0.0, 0.0, false
		for _, f := range Plan(w).Feeds {
			sum += f.NGM2
			if f.Date.Month() >= time.September || r.hot && f.Date.Month() == time.August && f.Date.Day() > 25 {
				autumn += f.NGM2
			}
			november = november || f.Date.Month() == time.November || f.Date.Month() == time.December
			if r.hot && (f.Date.Before(day("2028-04-15")) || f.Date.After(day("2028-06-05")) && f.Date.Before(day("2028-08-20"))) {
				t.Errorf("%s: fed on %s", r.station, f.Date.Format("2 January"))
			}
		}
		if r.hot != november || r.hot && (autumn < 0.7*sum || autumn > 0.8*sum) {
			t.Errorf("%s: %g of %g in autumn, a November feed %t", r.station, autumn, sum, november)
		}
	}
}

// New Jersey: no feed from 15 November to 1 March (state law of 2011, as a town tells it);
// Maryland: from 16 November to the end of February. Nothing is fed then, and no less is.
func TestNoFeedByLaw(t *testing.T) {
	for _, ban := range []*species.Ban{{From: 318, Until: 59}, {From: 319, Until: 58}, {From: 250, Until: 120}, {From: 5, Until: 200}, {From: 150, Until: 130}} {
		w := want(place(t, "Tulsa, Oklahoma", 1, true), species.Utility)
		w.Use.NitrogenGM2 = new(12.0)
		free := Plan(w)
		w.Use.NoFeed = ban
		sum, was := 0.0, 0.0
		for _, f := range free.Feeds {
			was += f.NGM2
		}
		for _, x := range Plan(w).Tasks {
			if x.Sort == job.Feeding && ban.Holds(calendar.DayOf(x.Date)) {
				t.Errorf("fed on %s", x.Date.Format("2 January"))
			}
		}
		for _, f := range Plan(w).Feeds {
			sum += f.NGM2
			if f.NGM2 > mostFeedGM2 {
				t.Errorf("%g g in one go", f.NGM2)
			}
		}
		near(t, "told of and fed, g/m²", Plan(w).NitrogenGM2, sum, 1e-6)
		if sum > was+1e-9 || calendar.Since(ban.From, ban.Until) < 300 && sum < 0.4*was || ban.From > 300 && math.Abs(sum-was) > 1e-9 {
			t.Errorf("%+v: %g g/m² fed, without it %g", *ban, sum, was)
		}
	}
}

// Four to six weeks after sowing a new lawn is fed again (New Brunswick, Agdex 273.21), after a ban if before
// it that would be too early.
func TestYoungFeedByLaw(t *testing.T) {
	c := place(t, "Tulsa, Oklahoma", 1, true)
	fed := 0
	for days := 0; days < 365; days += 5 {
		w := want(c, species.Utility)
		w.StartOn = w.StartOn.AddDate(0, 0, days)
		w.FirstMow, w.UsableFrom = w.StartOn.AddDate(0, 0, 40), nil
		w.Use.NoFeed = &species.Ban{From: 190, Until: 230}
		for _, x := range Plan(w).Tasks {
			if x.ID != "feed-young" {
				continue
			}
			fed++
			if after := x.Date.Sub(w.StartOn).Hours() / 24; after < 28 || w.Use.NoFeed.Holds(calendar.DayOf(x.Date)) || after > 42 && !w.Use.NoFeed.Holds(calendar.DayOf(x.Date)-1) {
				t.Errorf("sown on %s, fed %g days after", w.StartOn.Format("2 January"), after)
			}
		}
	}
	if fed < 30 {
		t.Errorf("%d of 73 lawns are fed young", fed)
	}
}

// The feeds add up to the year's nitrogen, none is too strong, and they stand in order.
func FuzzFeeds(f *testing.F) {
	f.Add(10.0, uint16(80), uint16(300))
	f.Add(30.0, uint16(150), uint16(200))
	f.Add(1.0, uint16(10), uint16(360))
	f.Add(33.3, uint16(178), uint16(293))
	f.Fuzz(func(t *testing.T, n float64, opens, closes uint16) {
		if !(n >= 0 && n <= 60) || opens >= 365 || closes >= 365 || closes < opens {
			t.Skip()
		}
		s := &season{years: 1, growth: make([]float32, 365)}
		for d := range s.mean {
			s.mean[d] = 0.5
		}
		p := &plan{season: s, opens: dated{day: int(opens)}, closes: dated{day: int(closes)}}
		sum, last := 0.0, -1
		for _, feed := range p.feeds(n) {
			if feed.day < last || feed.day < 0 || feed.day > 364 || feed.n < 0 || feed.n > mostFeedGM2+0.3 {
				t.Errorf("n %g, season %d to %d: %+v", n, opens, closes, feed)
			}
			last = feed.day
			sum += feed.n
		}
		if n >= leastFeedGM2 && math.Abs(sum-n) > 0.6 {
			t.Errorf("n %g, season %d to %d: feeds add up to %g", n, opens, closes, sum)
		}
	})
}

// New Brunswick, Agdex 273.21: 2.5 g N/m² four to six weeks after seeding.
// Parkland County: first cut when the grass stands 100 mm. City of Regina, Seed
// your lawn: four waterings a week of 6 mm, later two of 12, in four to six weeks.
// City of Calgary: no dethatching of a young lawn.
func TestFirstYear(t *testing.T) {
	w := want(place(t, "Cold Lake", 1, false), species.Utility)
	w.Use.MowingMM = 75
	w.Watering = []Water{{1, 24, 30}, {2, 24, 30}, {3, 24, 30}, {4, 24, 30}, {5, 24, 30}, {6, 0, 0}}
	cal := Plan(w)
	young := tasks(cal, job.Feeding, true)[0]
	if weeks := young.Date.Sub(w.StartOn).Hours() / 24 / 7; weeks < 4 || weeks > 6 || young.Detail[0].Figures[0] != told.GramsPerM2(2.5) {
		t.Errorf("young grass fed after %g weeks: %v", weeks, young.Detail)
	}
	if cut := tasks(cal, job.Mowing, true)[0]; cut.Title.Name != "year.first-cut" || cut.Detail[0].Figures[0] != told.DepthMM(100) {
		t.Errorf("first cut: %+v", cut)
	}
	water := tasks(cal, job.Watering, true)
	if len(water) != 2 || water[0].Goes != 3*4 || water[1].Goes != 2*2 || !water[1].Until.Equal(w.StartOn.AddDate(0, 0, 5*7-1)) {
		t.Errorf("watering: %+v", water)
	}
	for _, k := range []job.Sort{job.Raking, job.Spiking, job.Dressing, job.Reseeding} {
		if list := tasks(cal, k, true); len(list) > 0 {
			t.Errorf("in the first year: %v", list[0].Title)
		}
	}
}

// City of Regina, Topdressing: at most 5 mm in one go, once or twice a year, reseeding with it in
// autumn (20 August to 30 September there).
func TestDressing(t *testing.T) {
	for _, g := range []species.Grade{species.Ornamental, species.Utility, species.HardWearing} {
		w := want(place(t, "Cold Lake", 1, false), g)
		w.Mixture = &mix.Mixture{RateGM2: 25, Sward: []sward.Season{{Cover: 0.7}}}
		cal := Plan(w)
		dresses, seeded := tasks(cal, job.Dressing, false), tasks(cal, job.Reseeding, false)
		if n := len(dresses) + len(seeded); n < 1 || n > 2 || len(seeded) != 1 {
			t.Fatalf("%s: dressed %d times, overseeded %d", g, n, len(seeded))
		}
		if at := seeded[0].Date; at.Month() < time.August || at.Month() > time.September {
			t.Errorf("%s: overseeded on %s", g, at.Format(time.DateOnly))
		}
		if standardOf(w.Use).dressMM > 5 {
			t.Errorf("%s: dressed by %g mm", g, standardOf(w.Use).dressMM)
		}
	}
	w := want(place(t, "Cold Lake", 1, false), species.Utility)
	thin := want(place(t, "Cold Lake", 1, false), species.Extensive)
	thin.Mixture = &mix.Mixture{RateGM2: 25, Sward: []sward.Season{{Cover: 0.5}}}
	if list := tasks(Plan(thin), job.Reseeding, false); len(list) != 1 || list[0].Title.Name != "year.overseed-thin" {
		t.Errorf("a meadow half bare: %+v", list)
	}
	w.Mixture = &mix.Mixture{RateGM2: 25, Sward: []sward.Season{{Cover: 0.97}}}
	if n := len(tasks(Plan(w), job.Reseeding, false)); n != 0 {
		t.Errorf("a full sward overseeded %d times", n)
	}
}

// The Polish road specification OST D-09.01.01 (from memory): last cut in the
// first half of October, a month before lasting frost; ten days either way. City of Yorkton: water
// tapers from early September.
func TestAutumn(t *testing.T) {
	list := tasks(Plan(want(place(t, "Suwalki", 1, false), species.Utility)), job.Mowing, false)
	last := list[len(list)-1]
	if last.Title.Name != "year.last-cut" || last.Date.YearDay() < 264 || last.Date.YearDay() > 298 {
		t.Errorf("%v on %s", last.Title, last.Date.Format(time.DateOnly))
	}
	w := want(place(t, "Cold Lake", 1, true), species.Utility)
	w.Use.Irrigation = true
	tapers := false
	for _, v := range tasks(Plan(w), job.Watering, false) {
		if v.Title.Name == "year.taper-off" {
			tapers = true
			if d := v.Date.YearDay(); d < 227 || d > 258 { // 15 August to 15 September
				t.Errorf("water tapers from %s", v.Date.Format(time.DateOnly))
			}
		}
	}
	if !tapers {
		t.Error("the watering never tapers off")
	}
}

// In the southern hemisphere the season runs from spring in September to autumn in
// April or May, over the turn of the year.
func TestSouth(t *testing.T) {
	w := want(place(t, "Invercargill", 1, false), species.Utility)
	w.StartOn, w.FirstMow, w.UsableFrom = day("2027-09-25"), day("2027-11-04"), on("2027-12-14")
	cal := Plan(w)
	last := cal.Feeds[len(cal.Feeds)-1]
	if m := last.Date.Month(); last.Kind != "hardening" || m < time.March || m > time.May || last.Date.Year() != 2029 {
		t.Errorf("last feed: %+v", last)
	}
	if cal.Months[time.January-1].MowEveryDays == 0 || cal.Months[time.July-1].MowEveryDays != 0 {
		t.Errorf("%+v", cal.Months)
	}
}

// Leaves are cleared where broad-leaved trees stand, the lawn of several zones is
// cut by zone, and a mixture's limits are told.
func TestTreesZonesMixture(t *testing.T) {
	c := place(t, "Aviemore", 1, false)
	if list := tasks(Plan(want(c, species.Utility)), job.Leaves, false); len(list) != 0 {
		t.Errorf("leaves without trees: %+v", list)
	}
	c.Zones[0].LeafFall = 0.2
	shade := c.Zones[0]
	shade.Letter, shade.Share, shade.Light.OpenShare = "B", 0.4, 0.3
	c.Zones[0].Share = 0.6
	c.Zones = append(c.Zones, shade)
	w := want(c, species.Utility)
	oat := &species.Species{ID: "high", Botanical: "Festuca alta"}
	oat.Values[species.MowLowMM].Best, oat.Values[species.NitrogenGM2].High = 60, 6
	w.Mixture = &mix.Mixture{Components: []mix.Component{{Species: oat, Percent: 100}}}
	cal := Plan(w)
	if list := tasks(cal, job.Leaves, false); len(list) != 1 || list[0].Date.Month() < time.September {
		t.Errorf("leaves: %+v", list)
	}
	if d := tasks(cal, job.Mowing, false)[0].Detail; !strings.Contains(fmt.Sprint(d), "{year.zone-at [B ") {
		t.Errorf("mown without regard to zones: %v", d)
	}
	notes := fmt.Sprint(cal.Notes)
	if !strings.Contains(notes, "{year.cut-too-low [high 60]}") || !strings.Contains(notes, "{year.nitrogen-by-mixture [6]}") || cal.NitrogenGM2 > 6 {
		t.Errorf("%g g of nitrogen; %q", cal.NitrogenGM2, notes)
	}
}

// An overseeded lawn is mown again when its old sward has grown up from where it was cut
// down to, sown in spring within weeks and sown in winter in spring, and never later than
// the young grass would be.
func TestResumeMowing(t *testing.T) {
	w := want(place(t, "Aviemore", 1, false), species.Utility)
	w.Old = true
	if cut := tasks(Plan(w), job.Mowing, true)[0]; cut.Title.Name != "year.resume-mowing" || cut.Date.Before(w.StartOn.AddDate(0, 0, resumeDays)) || !cut.Date.Before(w.FirstMow) {
		t.Errorf("%+v", cut)
	}
	w.StartOn, w.FirstMow = day("2027-11-25"), day("2028-05-20")
	if cut := tasks(Plan(w), job.Mowing, true)[0]; cut.Date.Before(day("2028-04-15")) || cut.Date.After(w.FirstMow) {
		t.Errorf("after a dormant sowing: %+v", cut)
	}
}

// Nursery Sod Growers Association of Ontario: 20 mm in the first hour.
func TestTurfCare(t *testing.T) {
	w := want(place(t, "Wien", 1, false), species.Utility)
	w.Turf, w.FirstMow = true, w.StartOn.AddDate(0, 0, 7)
	cal := Plan(w)
	if water := tasks(cal, job.Watering, true); len(water) != 1 || water[0].Litres != 20*84 || fmt.Sprint(water[0].Detail) != "[{year.soak-turf-how [20]}]" {
		t.Errorf("%+v", water)
	}
}

// Hours grow with the lawn, but a machine takes over before they are absurd.
func TestOutputHours(t *testing.T) {
	for _, o := range []output{feedOutput, spikeOutput, rakeOutput, dressOutput, seedOutput, leafOutput} {
		if o.hours(30) <= 0 || o.hours(199) < o.hours(30) || o.hours(30000) < o.hours(2000) || o.hours(30000) > 30 {
			t.Errorf("%v: %g %g %g %g h", o, o.hours(30), o.hours(199), o.hours(2000), o.hours(30000))
		}
	}
	if h := mowerFor(species.Use{Mower: "robot"}, 84, 1).hours(84); h != robotHours {
		t.Errorf("a robot takes %g h of a person", h)
	}
	if m := mowerFor(species.Use{}, 30000, 1); m.hours(30000) > 20 {
		t.Errorf("3 ha take %g h with the %s mower", m.hours(30000), m.name)
	}
}

// Whatever the place, grade and date of sowing, the calendar is in order, its
// chances are shares, and everything of the first year comes before the full
// season's end; two runs are the same.
func TestCalendarHolds(t *testing.T) {
	for _, name := range []string{"Lerwick", "Oslo, Gardermoen", "Wien", "Invercargill"} {
		c := place(t, name, 0.6, false)
		for _, g := range []species.Grade{species.Ornamental, species.Utility, species.HardWearing, species.Extensive} {
			for _, sow := range []string{"2027-01-15", "2027-05-05", "2028-02-29", "2027-09-05", "2027-11-20"} {
				w := want(c, g)
				w.StartOn = day(sow)
				usable := w.StartOn.AddDate(0, 0, 90)
				w.FirstMow, w.UsableFrom = w.StartOn.AddDate(0, 0, 45), &usable
				cal := Plan(w)
				what := fmt.Sprintf("%s, %s, sown %s", name, g, sow)
				if again := Plan(w); !reflect.DeepEqual(cal, again) {
					t.Errorf("%s: two runs differ", what)
				}
				full := 0
				for i, task := range cal.Tasks {
					if i > 0 && task.Date.Before(cal.Tasks[i-1].Date) {
						t.Errorf("%s: %v out of order", what, task.Title)
					}
					if task.Goes < 1 || task.Chance < 0 || task.Chance > 1+1e-9 || task.Hours < 0 || math.IsNaN(task.Hours) ||
						!task.Until.IsZero() && task.Until.Before(task.Date) || task.Title.Silent() {
						t.Errorf("%s: %+v", what, task)
					}
					if !task.First {
						full++
						if task.Date.Before(w.FirstMow) || task.Date.After(w.FirstMow.AddDate(2, 0, 1)) {
							t.Errorf("%s: %v of a full season on %s", what, task.Title, task.Date.Format(time.DateOnly))
						}
					}
				}
				if full < 3 {
					t.Errorf("%s: %d tasks in a full season", what, full)
				}
				sum := 0.0
				for _, f := range cal.Feeds {
					sum += f.NGM2
				}
				near(t, what+": feeds", sum, cal.NitrogenGM2, 0.6)
			}
		}
	}
}

// The chance of a date is counted over the years.
func TestEventChance(t *testing.T) {
	s := &season{years: 5}
	days := make([]float32, 5*365)
	for y, d := range []int{100, 104, 107, 120, 85} {
		days[y*365+d] = 1
	}
	e, ok := s.event(func(year []float32) int {
		for d, v := range year {
			if v > 0 {
				return d
			}
		}
		return -1
	}, days)
	if !ok || e.day != 104 {
		t.Fatalf("%+v, %v", e, ok)
	}
	near(t, "chance within ten days of day 104 among 100 104 107 120 85", e.chance, 3.0/5, 1e-12)
}

func TestNoGrowth(t *testing.T) {
	c := place(t, "Wien", 1, false)
	c.Zones = nil
	if cal := Plan(want(c, species.Utility)); len(cal.Notes) == 0 || len(cal.Tasks) != 0 {
		t.Errorf("%+v", cal)
	}
	if cal := Plan(Input{Site: place(t, "Wien", 1, false)}); len(cal.Tasks) != 0 {
		t.Errorf("care without a sowing: %+v", cal.Tasks)
	}
}

func BenchmarkPlan(b *testing.B) {
	w := want(place(b, "Aviemore", 1, false), species.Utility)
	for b.Loop() {
		Plan(w)
	}
}
