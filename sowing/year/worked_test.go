package year

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

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

// A lawn in an invented even climate, of which every date can be worked by hand: ten like years, in
// each growth of a half from day 100 after the coldest to day 299, and none besides. The month's running
// mean is a quarter of its peak, where a season opens and closes, with eight of 31 days: on days 92 and 307.
const (
	evenYears                = 10
	evenFrom, evenTo         = 100, 300
	evenOpens                = 92
	evenCloses               = 307
	evenGrowth       float32 = 0.5
)

// even is that lawn, of 84 m²; set changes a day of every year, counted from the coldest.
func even(t *testing.T, set ...func(d *weather.Days, year, k, at int)) *site.Conditions {
	t.Helper()
	soil, err := ground.Survey{}.Soil()
	if err != nil {
		t.Fatal(err)
	}
	n := evenYears * calendar.Year
	fill := func() []float32 { return make([]float32, n) }
	series := &weather.Series{Years: evenYears, MeanC: fill(), MinC: fill(), MaxC: fill(), RainMM: fill(), SnowCM: fill()}
	for m := range series.Normals.MeanC {
		series.Normals.MeanC[m] = 10 - 10*math.Cos(2*math.Pi*float64(m)/12)
	}
	d := &weather.Days{Series: series, SoilC: fill(), CrownC: fill(), ET0MM: fill(), Moisture: fill(), Wet: fill(), IceMM: fill(), WaterMM: fill(), Growth: fill(), Warm: fill()}
	cold := series.Normals.ColdestDay()
	for y := range evenYears {
		for k := range calendar.Year {
			at := (y*calendar.Year + cold + k) % n
			d.MeanC[at], d.Moisture[at] = 20, 1 // at 20 °C grass of cool seasons grows at its best (Gelernter & Stowell 2005)
			if k >= evenFrom && k < evenTo {
				d.Growth[at] = evenGrowth
			}
			for _, f := range set {
				f(d, y, k, at)
			}
		}
	}
	z := site.Zone{Zone: light.Zone{Letter: "A", Share: 1, AreaM2: 84}, Days: d, Years: make([]weather.Year, evenYears)}
	z.Light.OpenShare, z.Light.SkyView = 1, 1
	c := &site.Conditions{Soil: soil, AreaM2: 84, Zones: []site.Zone{z}, Normals: series.Normals}
	c.Soil.Wetness = 0.1
	c.Weather.WarmestMonthC = 20
	return c
}

// evenInput is that lawn sown in spring and cut at 40 mm, with the day on which its first full season begins.
func evenInput(c *site.Conditions, g species.Grade) (Input, time.Time) {
	cold := c.Normals.ColdestDay()
	sown := calendar.Date(2027, cold+100)
	usable := sown.AddDate(0, 0, 80)
	return Input{Site: c, Use: species.Use{Grade: g, MowingMM: 40, Mower: "rotary"}, StartOn: sown, FirstMow: sown.AddDate(0, 0, 42), UsableFrom: &usable}, calendar.Date(2028, cold)
}

// nth is a task of the full season, or of the first year, by its id without the number that keeps apart those
// of one id, and by how manieth of them it is.
func nth(cal Calendar, id string, n int, first bool) (job.Task, bool) {
	for _, x := range cal.Tasks {
		if x.First == first && strings.TrimRight(strings.TrimRight(x.ID, "0123456789"), "-") == id {
			if n--; n == 0 {
				return x, true
			}
		}
	}
	return job.Task{}, false
}

// dayOf is the day of the full season on which a task falls, "-2" the second of its id; -1: there is none.
func dayOf(cal Calendar, origin time.Time, id string) int {
	name, second := strings.CutSuffix(id, "-2")
	n := 1
	if second {
		n = 2
	}
	x, ok := nth(cal, name, n, false)
	if !ok {
		return -1
	}
	return calendar.Since(calendar.DayOf(origin), calendar.DayOf(x.Date))
}

func taskOf(t *testing.T, cal Calendar, id string, first bool) job.Task {
	t.Helper()
	x, ok := nth(cal, id, 1, first)
	if !ok {
		t.Fatalf("no %s", id)
	}
	return x
}

// When the work of a season falls, by hand: common practice, no published source, for how long after
// growth sets in and before it ends.
func TestSeasonWorked(t *testing.T) {
	for _, r := range []struct {
		grade species.Grade
		days  map[string]int
		dress float64
	}{
		{species.Utility, map[string]int{"rake-spring": 92, "rake-out-thatch": 251, "spike-lawn": 253, "top-dress": 255, "last-cut": 307, "look-for-annual-meadow-grass": 120, "spike-lawn-2": -1, "look-for-moss": -1, "look-for-mould": -1, "look-for-drought": -1}, 3},
		{species.Ornamental, map[string]int{"spike-lawn": 116, "top-dress": 118, "spike-lawn-2": 253, "top-dress-2": 255, "rake-out-thatch": 251}, 3},
		{species.HardWearing, map[string]int{"spike-lawn": 116, "spike-lawn-2": 253, "top-dress": 255, "look-for-annual-meadow-grass": -1}, 4},
		{species.Extensive, map[string]int{"rake-spring": 92, "rake-out-thatch": -1, "spike-lawn": -1, "top-dress": -1, "last-cut": -1, "mow-meadow": 199, "mow-meadow-2": 279}, 0},
	} {
		c := even(t)
		w, origin := evenInput(c, r.grade)
		if r.grade == species.Extensive {
			w.Use.MowingMM, w.Use.Mower = 80, ""
		}
		cal := Plan(w)
		for id, want := range r.days {
			if got := dayOf(cal, origin, id); got != want {
				t.Errorf("%s: %s on day %d, want %d", r.grade, id, got, want)
			}
		}
		if r.dress > 0 {
			x := taskOf(t, cal, "top-dress", false)
			// 70 % of sand and 30 % of compost by settled volume; 3 mm on 84 m² are 252 l.
			if got := x.Detail[0].Figures[0]; got != told.DepthMM(r.dress) {
				t.Errorf("%s: dressed by %v", r.grade, got)
			}
			near(t, string(r.grade)+", a dressing's hours", x.Hours, 0.1+84/30.0, 1e-9)
			n := 1.0
			if r.grade == species.Ornamental {
				n = 2
			}
			near(t, string(r.grade)+", loose dressing of a year, m³", cal.DressingM3, n*r.dress/1000*84*(0.7*1.1+0.3*1.3), 1e-9)
			near(t, string(r.grade)+", its chance", x.Chance, 1, 0)
		}
	}
	w, origin := evenInput(even(t), species.Utility)
	w.Use.Traffic = species.Heavy // spiked twice wherever it is trodden hard
	if got := dayOf(Plan(w), origin, "spike-lawn-2"); got != 253 {
		t.Errorf("trodden, the second spiking on day %d", got)
	}
	w.Use.Dogs = true
	if got := dayOf(Plan(w), origin, "mend-dog-spots"); got != 120 {
		t.Errorf("dog spots on day %d", got)
	}
	dogs := taskOf(t, Plan(w), "mend-dog-spots", false)
	near(t, "mending 2 % of 84 m², hours", dogs.Hours, 0.1+0.02*84/150, 1e-9)
	if said := fmt.Sprint(dogs.Detail); !strings.Contains(said, "{year.dog-spots-how [{150 250} 20]}") || !strings.Contains(said, "{year.dog-tracks [0.6]}") {
		t.Errorf("%s", said)
	}
}

// A season too short for two dressings has its work in the middle: growth on 56 days opens on day 92 and closes on
// 163, where there would be 19 days between them. With 80 days of growth, to day 187, there is time for both.
func TestShortSeasonWorked(t *testing.T) {
	for until, days := range map[int]map[string]int{
		156: {"spike-lawn": 125, "top-dress": 127, "rake-out-thatch": 123, "spike-lawn-2": -1, "top-dress-2": -1},
		180: {"spike-lawn": 116, "top-dress": 118, "rake-out-thatch": 131, "spike-lawn-2": 133, "top-dress-2": 135},
	} {
		c := even(t, func(d *weather.Days, _, k, at int) {
			if k >= until {
				d.Growth[at] = 0
			}
		})
		w, origin := evenInput(c, species.Ornamental)
		cal := Plan(w)
		for id, want := range days {
			if got := dayOf(cal, origin, id); got != want {
				t.Errorf("growth until day %d: %s on day %d, want %d", until, id, got, want)
			}
		}
	}
}

// Feeds by hand. Moderate feeding is 10 g/m², of which clippings left give a fifth back: 8. A fifth of it
// hardens, 45 days before growth ends; the leaf feeds come from three weeks after it sets in, of about 2 g,
// over the 104 days that end 45 before the last: on days 113, 165 and 217, each by the root of its growth.
func TestFeedsWorked(t *testing.T) {
	w, origin := evenInput(even(t), species.Utility)
	cal := Plan(w)
	near(t, "nitrogen", cal.NitrogenGM2, 8, 1e-9)
	want := []struct {
		day int
		n   float64
	}{{113, 2.1}, {165, 2.1}, {217, 2.2}, {262, 1.6}}
	if len(cal.Feeds) != len(want) {
		t.Fatalf("%+v", cal.Feeds)
	}
	for i, f := range cal.Feeds {
		if day := calendar.Since(calendar.DayOf(origin), calendar.DayOf(f.Date)); day != want[i].day || math.Abs(f.NGM2-want[i].n) > 1e-9 {
			t.Errorf("feed %d: %g g on day %d, want %+v", i, f.NGM2, day, want[i])
		}
	}
	// 2.1 g of nitrogen as 12-0-8 are 17.5 g of it, 1,470 on the lawn; the last as 6-0-12.
	feed, last := taskOf(t, cal, "feed", false), cal.Tasks[slices.IndexFunc(cal.Tasks, func(x job.Task) bool { return x.Title.Name == "year.feed-last" && !x.First })]
	if got := fmt.Sprint(feed.Materials, last.Materials); !strings.Contains(got, "{year.feed-bag [1470 {bed.feed-grade [12 0 8]}]}") || !strings.Contains(got, "{bed.feed-grade [6 0 12]}") {
		t.Error(got)
	}
	near(t, "hours", feed.Hours, 0.1+84/300.0, 1e-9)
	// New Brunswick, Agdex 273.21: 2.5 g five weeks after sowing.
	young := taskOf(t, cal, "feed-young", true)
	if d := young.Date.Sub(w.StartOn).Hours() / 24; d != 35 || young.Detail[0].Figures[0] != told.GramsPerM2(2.5) {
		t.Errorf("young grass: %g days, %v", d, young.Detail[0])
	}

	for _, r := range []struct{ open, factor float64 }{{0.7, 1}, {0.55, 0.8}, {0.4, 0.6}, {0.2, 0.6}} { // University of Arizona 1999: cut by 40 to 50 %
		near(t, fmt.Sprintf("feed at %g of the light", r.open), shadeCut(r.open), r.factor, 1e-9)
	}
}

// Nitrogen by what is asked, by warmth, by mixture and by shade, worked by hand.
func TestNitrogenWorked(t *testing.T) {
	grass := &species.Species{ID: "invented"}
	grass.Values[species.NitrogenGM2].High = 12
	poor := &species.Species{ID: "poor"}
	poor.Values[species.NitrogenGM2].High = 4
	warm := &species.Species{ID: "warm", Warm: true}
	warm.Values[species.NitrogenGM2].High = 90
	for _, r := range []struct {
		asked, open float64
		boxed       bool
		parts       []mix.Component
		want        float64
	}{
		{10, 1, true, nil, 10},
		{10, 1, false, nil, 8},
		{60, 1, true, nil, 36}, // twelve months at 3 g (Woods, after Gelernter & Stowell 2005)
		{60, 1, true, []mix.Component{{Species: grass, Percent: 75}, {Species: poor, Percent: 25}}, 10},
		{60, 1, true, []mix.Component{{Species: warm, Percent: 100}}, math.Round(10*12*4*math.Exp(-0.5*11*11/49.0)) / 10}, // at 20 °C, 11 K under its best
		{10, 0.55, true, nil, 8},
		{30, 0.4, true, nil, 9.8}, // Purdue 2017: at most 2 lb a 1000 square feet
		{10, 0.4, false, nil, 4.8},
	} {
		c := even(t)
		c.Zones[0].Light.OpenShare = r.open
		w, _ := evenInput(c, species.Utility)
		w.Use.NitrogenGM2 = &r.asked
		if r.boxed {
			w.Use.Mower = "cylinder"
		} else if r.open < 0.5 {
			w.Use.Mower = "robot" // a rotary boxes where so little grass would be smothered
		}
		if r.parts != nil {
			w.Mixture = &mix.Mixture{Components: r.parts}
			if r.parts[0].Species.Warm {
				for i := range c.Zones[0].Days.Warm {
					c.Zones[0].Days.Warm[i] = c.Zones[0].Days.Growth[i]
				}
			}
		}
		near(t, fmt.Sprintf("nitrogen of %+v", r), Plan(w).NitrogenGM2, r.want, 1e-9)
	}
}

// Feeds shared out by hand: what is too little is given in one go, what is much in more goes, and no go is
// over 4.9 g (UC IPM: 1 lb a 1000 square feet).
func TestFeedsSharedOut(t *testing.T) {
	s := &season{years: 1, growth: make([]float32, 365)}
	for d := range s.mean {
		s.mean[d] = 0.5
	}
	for _, r := range []struct {
		n             float64
		opens, closes int
		want          string
	}{
		{0.9, 92, 307, "[]"},
		{1, 92, 307, "[127:1]"}, // a fortnight after the first would be
		{2.9, 92, 307, "[127:2.9]"},
		{3, 92, 307, "[113:2 262:1]"}, // no less than 1 g to harden
		{12, 92, 307, "[113:2.4 147:2.4 182:2.4 217:2.4 262:2.4]"},
		{20, 92, 307, "[113:4.4 147:4.4 182:4.3 217:4.4 262:2.5]"},                 // no more than 2.5 g to harden, and four slots
		{30, 92, 307, "[113:4.6 133:4.6 154:4.6 175:4.5 196:4.6 217:4.6 262:2.5]"}, // six, since five would be of 5.5 g
		{8, 150, 260, "[171:4 186:4]"},                                             // a season in which the last would come within 45 days of the first has none to harden
		{8, 150, 262, "[171:3.2 186:3.2 217:1.6]"},
		{20, 150, 262, "[171:4.4 181:4.4 191:4.3 202:4.4 217:2.5]"}, // four, by 31 days that end a fortnight before the last
	} {
		p := &plan{season: s, opens: dated{day: r.opens}, closes: dated{day: r.closes}}
		var got []string
		for _, f := range p.feeds(r.n) {
			got = append(got, fmt.Sprintf("%d:%g", f.day, f.n))
		}
		if fmt.Sprint(got) != r.want {
			t.Errorf("%g g, season %d to %d: %v, want %s", r.n, r.opens, r.closes, got, r.want)
		}
	}
}

// Mowing by hand: fed 10 g/m² grass grows 4.5 mm a day at its best. Of the half that it does here for 200 days a fifth is over on day 139;
// about it the flush of spring brings 0.8 exp(-((d-139)/35)²) more, which over those days comes to 46.9, so that all is
// taken by 200/246.9: in July, days 166 to 196, 0.4907, and at 40 mm a cut every 20/(4.5 x 0.4907) = 9.06 days; in June 0.6825, of
// which a fortnight is half of 86 mm. In the slow months it is cut at 50 mm.
func TestMowingWorked(t *testing.T) {
	near(t, "growth unfed", growthMMD(0), 3, 1e-9)
	near(t, "growth fed 10 g", growthMMD(10), 4.5, 1e-9)
	near(t, "growth fed 20 g and more", growthMMD(30), 6, 1e-9)
	w, _ := evenInput(even(t), species.Utility)
	cal := Plan(w)
	july := cal.Months[6]
	near(t, "growth in July", july.Growth, 0.4907, 0.001) // the month's running mean blunts the ends of the season
	near(t, "days between cuts", july.MowEveryDays, 9.06, 0.02)
	near(t, "cuts in July", july.Mows, 31/9.06, 1) // whole ones, as the tasks have them
	near(t, "cut in July, mm", july.CutMM, 40, 0)
	sum := 0.0
	for m, month := range cal.Months {
		slow := month.Growth < 0.25
		if want := map[bool]float64{true: 50, false: 40}[slow]; month.CutMM != want {
			t.Errorf("month %d grows %g and is cut at %g mm", m+1, month.Growth, month.CutMM)
		}
		if every := 0.5 * month.CutMM / (4.5 * month.Growth); month.Mows > 0 && math.Abs(month.MowEveryDays-every) > 1e-6 || every <= 20 && month.Mows == 0 {
			t.Errorf("month %d grows %g and is cut every %g days, by hand %g", m+1, month.Growth, month.MowEveryDays, every)
		}
		sum += month.Mows
	}
	near(t, "cuts a year", cal.CutsPerYear, math.Round(sum), 0)
	near(t, "hours a year", cal.MowHoursYear, cal.CutsPerYear*(0.05+84/550.0), 1e-9)

	w.Use.MowsPerWeek = 1 // asked weekly: in the months that need it within a fortnight
	near(t, "weekly as asked", Plan(w).Months[6].MowEveryDays, 7, 1e-9)
	w.Use.MowsPerWeek = 0.5 // every 14 days is too seldom: 14 × 3.07 mm in June are half of 86 mm, told as 90
	if notes := fmt.Sprint(Plan(w).Notes); !strings.Contains(notes, "{year.mown-too-seldom [14 90]}") {
		t.Error(notes)
	}
	w.Use.MowsPerWeek, w.Use.Mower = 0, "robot"
	near(t, "a robot in full growth", Plan(w).Months[6].MowEveryDays, 1, 0)
	for deg, ask := range map[float64]bool{11.2: false, 11.4: true} { // from 1 in 5 the maker is asked
		w.Site.Survey.Lawn.SlopeDeg = deg
		if said := strings.Contains(fmt.Sprint(Plan(w).Notes), "year.ask-robot-slope"); said != ask {
			t.Errorf("a robot on %g degrees: told %t", deg, said)
		}
	}
	for mower, low := range map[string]float64{"rotary": 20, "robot": 20, "scythe": 40} {
		for mm, scalps := range map[float64]bool{low: false, low - 1: true} {
			w.Use.Mower, w.Use.MowingMM = mower, mm
			if said := strings.Contains(fmt.Sprint(Plan(w).Notes), "year.mower-scalps"); said != scalps {
				t.Errorf("a %s at %g mm: told %t", mower, mm, said)
			}
		}
	}
	for mm, meadow := range map[float64]bool{49: false, 50: true} { // care4GREEN, Austria: meadows are cut at 50 mm and more
		x, _ := evenInput(even(t), species.Extensive)
		x.Use.MowingMM = mm
		if got := Plan(x).CutsPerYear == 2; got != meadow {
			t.Errorf("extensive at %g mm: a meadow %t", mm, got)
		}
	}
}

// Hours by hand: common practice, no published source, for outputs, speeds and times to set up.
func TestHoursWorked(t *testing.T) {
	for _, r := range []struct {
		name       string
		o          output
		hand       float64 // m² an hour by hand, by machine, ridden
		walk, ride float64
	}{
		{"feeding", feedOutput, 300, 1500, 8000}, {"spiking", spikeOutput, 40, 400, 3000}, {"raking", rakeOutput, 60, 150, 3000},
		{"dressing", dressOutput, 30, 60, 1500}, {"sowing", seedOutput, 150, 600, 5000}, {"leaves", leafOutput, 200, 800, 4000},
	} {
		near(t, r.name+" by hand", r.o.hours(199), 0.1+199/r.hand, 1e-9)
		near(t, r.name+" by a machine walked behind", r.o.hours(200), 0.25+200/r.walk, 1e-9)
		near(t, r.name+" by the largest walked", r.o.hours(1499), 0.25+1499/r.walk, 1e-9)
		near(t, r.name+" ridden", r.o.hours(1500), 0.25+1500/r.ride, 1e-9)
	}
	for _, r := range []struct {
		u     species.Use
		m2    float64
		hours float64
	}{
		{species.Use{Mower: "rotary"}, 110, 0.05 + 0.2},
		{species.Use{Mower: "cylinder"}, 60, 1.0/60 + 0.1},
		{species.Use{Mower: "scythe"}, 60, 0.1 + 0.5},
		{species.Use{Mower: "rotary"}, 2500, 0.25 + 1}, // ridden from 1,500 m²
		{species.Use{Mower: "rotary"}, 1500, 0.05 + 1500/550.0},
		{species.Use{Mower: "rotary", MowerWidthCM: 50}, 135, 0.05 + 0.2},        // 0.5 m, a tenth lapped, 3 km/h, half of the time: 675 m²/h
		{species.Use{Mower: "cylinder", MowerWidthCM: 50}, 180, 1.0/60 + 0.2},    // 4 km/h: 900 m²/h
		{species.Use{Mower: "rotary", MowerWidthCM: 100}, 2700, 0.25 + 1},        // ridden at 6 km/h: 2,700 m²/h
		{species.Use{Mower: "scythe", MowerWidthCM: 50}, 60, 0.6},                // a scythe is as wide as its mower
		{species.Use{Grade: species.Ornamental}, 60, 1.0/60 + 0.1},               // a cylinder
		{species.Use{Grade: species.Extensive}, 60, 0.6},                         // a scythe
		{species.Use{Grade: species.Extensive, MowsPerWeek: 1}, 110, 0.05 + 0.2}, // a rotary
	} {
		near(t, fmt.Sprintf("%+v", r), mowerFor(r.u, r.m2, 1).hours(r.m2), r.hours, 1e-9)
	}
	// Clippings are boxed by cylinder and scythe, and where little light leaves little grass.
	for open, boxed := range map[float64]bool{0.49: true, 0.5: false} {
		if got := mowerFor(species.Use{Mower: "rotary"}, 84, open).boxed; got != boxed {
			t.Errorf("at %g of the light: boxed %t", open, got)
		}
	}
}

// How the height comes down after the first cut, by hand: at 75 mm cut first when 100 high (Parkland County);
// at 25 mm from 60 to 40, and by fifths of what stands.
func TestFirstCutWorked(t *testing.T) {
	for _, r := range []struct {
		cut  float64
		want string
	}{
		{75, "{year.first-cut-how [100 {year.then [75]}]}"},
		{60, "{year.first-cut-how [90 "},
		{25, "{year.first-cut-how [60 "},
	} {
		w, _ := evenInput(even(t), species.Utility)
		w.Use.MowingMM = r.cut
		got := fmt.Sprint(taskOf(t, Plan(w), "first-cut", true).Detail[0])
		if !strings.HasPrefix(got, strings.SplitN(r.want, "{year.then", 2)[0]) {
			t.Errorf("cut at %g mm: %s, want %s", r.cut, got, r.want)
		}
	}
	p := &plan{cal: Calendar{CutMM: 25}}
	if got := fmt.Sprint(p.steps()); !strings.Contains(got, "40") || !strings.Contains(got, "32") || !strings.Contains(got, "25") || strings.Contains(got, "20.48") {
		t.Errorf("from 40 mm by fifths to 25: %s", got)
	}
}

// Sown 31 days before growth ends and first cut after that it is told that it waits; sown 29 days before, or cut before, not.
func TestFirstCutAfterTheWinter(t *testing.T) {
	for _, r := range []struct {
		sownBefore, cutAfter int // days from where growth ends
		turf, waits          bool
	}{{31, 150, false, true}, {29, 150, false, false}, {60, -10, false, false}, {31, 150, true, false}} {
		w, origin := evenInput(even(t), species.Extensive)
		s, ok := seasonOf(w.Site, 0)
		if !ok {
			t.Fatal("no season")
		}
		closes := s.date(origin, evenCloses)
		p := &plan{in: w, season: s}
		p.closes.day = evenCloses
		p.in.Turf, p.in.StartOn, p.in.FirstMow = r.turf, closes.AddDate(0, 0, -r.sownBefore), closes.AddDate(0, 0, r.cutAfter)
		if got := p.winterBetween(); got != r.waits {
			t.Errorf("%+v: waits %t", r, got)
		}
	}
}

// What is told of moss, mould, snow and drought, at the limits; own figures.
func TestToldFromWorked(t *testing.T) {
	days := func(c *site.Conditions, id string) int {
		w, origin := evenInput(c, species.Utility)
		return dayOf(Plan(w), origin, id)
	}
	for open, want := range map[float64]int{0.5: -1, 0.49: evenOpens + 14} {
		c := even(t)
		c.Zones[0].Light.OpenShare = open
		if got := days(c, "look-for-moss"); got != want {
			t.Errorf("moss at %g of the light on day %d, want %d", open, got, want)
		}
	}
	for wet, want := range map[float64]int{0.49: -1, 0.5: evenOpens + 14} {
		c := even(t)
		c.Soil.Wetness = wet
		if got := days(c, "look-for-moss"); got != want {
			t.Errorf("moss at a wetness of %g on day %d, want %d", wet, got, want)
		}
	}
	for mould, want := range map[float64]int{49: -1, 50: evenOpens - 21} {
		c := even(t)
		for i := range c.Zones[0].Years {
			c.Zones[0].Years[i].MouldDays = mould
		}
		if got := days(c, "look-for-mould"); got != want {
			t.Errorf("mould of %g days on day %d, want %d", mould, got, want)
		}
	}
	// Snow that lies to day 80 in a place with 20 days of it a year; a shower more than 30 days into the season is none.
	for snowDays, want := range map[float64]int{19: -1, 20: 81} {
		c := even(t, func(d *weather.Days, _, k, at int) {
			if k <= 80 || k == evenOpens+31 {
				d.SnowCM[at] = 5
			}
		})
		for i := range c.Zones[0].Years {
			c.Zones[0].Years[i].SnowDays = snowDays
		}
		if got := days(c, "look-for-mould"); got != want {
			t.Errorf("snow of %g days: gone on day %d, want %d", snowDays, got, want)
		}
	}
	// Drought: the rootzone without four fifths of its water for ten days, in one year of five.
	for _, r := range []struct {
		left       float32
		long, some int
		told       bool
	}{{0.19, 10, 2, true}, {0.21, 30, 10, false}, {0.19, 9, 10, false}, {0.19, 30, 1, false}} {
		c := even(t, func(d *weather.Days, y, k, at int) {
			if y < r.some && k >= 150 && k < 150+r.long {
				d.Moisture[at] = r.left
			}
		})
		want := -1
		if r.told {
			want = 150
		}
		if got := days(c, "look-for-drought"); got != want {
			t.Errorf("%+v: drought on day %d", r, got)
		}
		if r.told {
			w, _ := evenInput(c, species.Utility)
			near(t, "its chance", taskOf(t, Plan(w), "look-for-drought", false).Chance, float64(r.some)/evenYears, 1e-9)
		}
	}
	// Leaves come down within 25 days either side of the end of growth, raked weekly.
	c := even(t)
	c.Zones[0].LeafFall = 0.2
	w, origin := evenInput(c, species.Utility)
	x := taskOf(t, Plan(w), "clear-leaves", false)
	if from, goes := calendar.Since(calendar.DayOf(origin), calendar.DayOf(x.Date)), x.Goes; from != 282 || goes != 7 || x.Until.Sub(x.Date).Hours() != 50*24 {
		t.Errorf("leaves from day %d, %d times until %s", from, goes, x.Until)
	}
	near(t, "area under leaves", x.AreaM2, 0.2*c.AreaM2, 1e-9)
	// Needles of a wood to the south take light, but nobody rakes a lawn of them by the week.
	c = even(t)
	c.Zones[0].Light.LeafShade = 0.5
	if days(c, "clear-leaves") >= 0 {
		t.Error("leaves are cleared where none fall")
	}

}

// Watering of a standing lawn by hand: 2 mm on each of days 150 to 249, in goes of 25 mm by month, tapering off
// five weeks before growth ends; a month with less than 5 mm has none.
func TestWateringWorked(t *testing.T) {
	c := even(t, func(d *weather.Days, _, k, at int) {
		if k >= 150 && k < 250 {
			d.WaterMM[at] = 2
		}
	})
	w, origin := evenInput(c, species.Utility)
	w.Use.Irrigation = true
	cal := Plan(w)
	litres, goes := 0.0, 0
	for _, x := range cal.Tasks {
		if strings.HasPrefix(x.ID, "water-lawn") {
			litres += x.Litres
			goes += x.Goes
			if mm := x.Litres / 84; mm < 5 || x.Goes != max(int(math.Round(mm/25)), 1) || x.Hours != 0.25 {
				t.Errorf("%g mm in %d goes of %g h", mm, x.Goes, x.Hours)
			}
		}
	}
	near(t, "mm a year", litres/84, 200, 5)
	if got := dayOf(cal, origin, "taper-off"); got >= 0 && got != evenCloses-35 {
		t.Errorf("tapers off on day %d", got)
	}
	// Seed: 18 mm in the first three weeks in goes of 6, then of 12 (City of Regina); what is under a millimetre in the
	// dry year isn't worth a go.
	w.Watering = []Water{{1, 18, 20}, {2, 12, 20}, {3, 6, 20}, {4, 24, 30}, {5, 13, 30}, {6, 0.5, 0.9}, {7, 50, 60}}
	cal = Plan(w)
	var got []string
	for _, x := range cal.Tasks {
		if strings.HasPrefix(x.ID, "water-young") {
			got = append(got, fmt.Sprintf("%g:%d:%g", x.Litres/84, x.Goes, x.DryLitres/84))
		}
	}
	if fmt.Sprint(got) != "[36:6:60 37:4:60 50:2:60]" {
		t.Errorf("%v", got)
	}
	// Turf: 20 mm in the first hour (Nursery Sod Growers Association of Ontario), then 6 mm a go for a fortnight, then 12.
	w.Turf = true
	cal, got = Plan(w), nil
	for _, x := range cal.Tasks {
		if strings.HasPrefix(x.ID, "water-") && x.First {
			got = append(got, fmt.Sprintf("%g:%d", x.Litres/84, x.Goes))
		}
	}
	if fmt.Sprint(got) != "[20:1 30:5 93:8]" {
		t.Errorf("%v", got)
	}
}

// Overseeding by hand: a sward of 70 % cover is sown at half the rate of new ground for the part that is bare, no less
// than a gram; one that has what its grade asks is left.
func TestOverseedWorked(t *testing.T) {
	for cover, want := range map[float64]float64{0.7: 3.75, 0.75: 0, 0.74: 3.25, 0.3: 8.75} {
		w, _ := evenInput(even(t), species.Utility)
		w.Mixture = &mix.Mixture{RateGM2: 25, Sward: []sward.Season{{Cover: 0.1}, {Cover: cover}}}
		p := &plan{in: w}
		near(t, fmt.Sprintf("cover %g", cover), p.overseedGM2(), want, 1e-9)
	}
	w, _ := evenInput(even(t), species.Utility)
	w.Mixture = &mix.Mixture{RateGM2: 5, Sward: []sward.Season{{Cover: 0.7}}}
	near(t, "no less than a gram", (&plan{in: w}).overseedGM2(), 1, 0)
}

// Lime of a standing sward by hand: a week after growth ends, or nine weeks after a sowing that is fed, and no
// later than four weeks before the first feed.
func TestLimeWorked(t *testing.T) {
	w, origin := evenInput(even(t), species.Utility)
	w.Old, w.Lime = true, []float64{300}
	at := taskOf(t, Plan(w), "lime-lawn", true)
	if got, want := at.Date, origin.AddDate(-1, 0, 0); calendar.Since(calendar.DayOf(want), calendar.DayOf(got)) != 314 || got.Sub(w.StartOn) > 365*24*time.Hour {
		t.Errorf("limed on %s", got)
	}
	near(t, "hours", at.Hours, 0.1+84/300.0, 1e-9)
	w.StartOn = calendar.Date(2027, w.Site.Normals.ColdestDay()+290)
	w.FirstMow = w.StartOn.AddDate(0, 0, 60)
	if got := taskOf(t, Plan(w), "lime-lawn", true).Date.Sub(w.StartOn).Hours() / 24; got != 63 {
		t.Errorf("limed %g days after a late sowing", got)
	}
}

// Cool-season growth by the warmth of the place (Woods 2014): where the warmest month is 18 °C grass grows best at 18, so
// that at 18 °C it grows by exp(0.5 (2/5.5)²) = 1.068 more than by the curve of 20 °C.
func TestCoolShiftWorked(t *testing.T) {
	near(t, "at 18 of 18", coolShift(18, 18), math.Exp(0.5*math.Pow(2/5.5, 2)), 1e-12)
	near(t, "at 20 of 18", coolShift(20, 18), math.Exp(-0.5*math.Pow(2/5.5, 2)), 1e-12)
	near(t, "at 25 of 20", coolShift(25, 20), 1, 1e-12)
	for warmest, factor := range map[float64]float64{12: math.Exp(-0.5 * math.Pow(2/5.5, 2)), 18: math.Exp(-0.5 * math.Pow(2/5.5, 2)), 19: math.Exp(-0.5 * math.Pow(1/5.5, 2)), 27: 1} {
		c := even(t)
		c.Weather.WarmestMonthC = warmest
		s, _ := seasonOf(c, 0)
		near(t, fmt.Sprintf("peak where the warmest month has %g °C", warmest), s.peak, 0.5*factor, 1e-5)
	}
	// Ground wet for half of a week smears under spikes.
	for wet, share := range map[float32]float64{0.49: 1, 0.51: 0} {
		s, _ := seasonOf(even(t, func(d *weather.Days, _, _, at int) { d.Wet[at] = wet }), 0)
		near(t, fmt.Sprintf("workable at %g", wet), s.workable(200), share, 0)
	}
	// A running mean of a week has a seventh of each day.
	near(t, "running mean", float64(runningMean([]float32{0, 0, 0, 0, 7, 0, 0, 0, 0, 0}, 7)[1]), 1, 1e-6)
	near(t, "beyond its reach", float64(runningMean([]float32{0, 0, 0, 0, 7, 0, 0, 0, 0, 0}, 7)[0]), 0, 1e-6)
}
