package sowing

import (
	"fmt"
	"testing"
	"time"

	"swardwright/internal/approx"
	"swardwright/internal/calendar"
	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/site"
	"swardwright/site/light"
	"swardwright/site/weather"
	"swardwright/sowing/bed"
	"swardwright/sowing/job"
	"swardwright/species"
)

var near = approx.Near

// Hands by hand: two from 60 m², three from 600, one for 2,000 m² beyond; common practice, no published source. Each gets 5¼ hours
// of work done (BS 7370 part 1: 5 to 5.5 of a day of 8).
func TestHandsWorked(t *testing.T) {
	for m2, want := range map[float64]int{59: 1, 60: 2, 599: 2, 600: 3, 7999: 3, 8000: 4, 20000: 10} {
		if got := People(m2); got != want {
			t.Errorf("%g m²: %d people, want %d", m2, got, want)
		}
	}
	c := &site.Conditions{Zones: []site.Zone{{}}}
	near(t, "a crew's hours a day", newYard(Brief{}, c, 100).crew.HoursADay, 10.5, 1e-9)
}

// Open ground by hand: thawed from 0.5 °C, not wet for half of a week, in half of the years; where it is dry on fewer than 60 days
// of the year it is worked wet.
func TestOpenDaysWorked(t *testing.T) {
	const years = 4
	open := func(set func(d *weather.Days, year, day, at int)) [calendar.Year]bool {
		n := years * calendar.Year
		d := &weather.Days{Series: &weather.Series{Years: years, SnowCM: make([]float32, n)}, SoilC: make([]float32, n), Wet: make([]float32, n)}
		for y := range years {
			for k := range calendar.Year {
				at := y*calendar.Year + k
				d.SoilC[at] = 8
				set(d, y, k, at)
			}
		}
		return openDays(&site.Conditions{Zones: []site.Zone{{Days: d}}})
	}
	count := func(o [calendar.Year]bool) (n int) {
		for _, x := range o {
			if x {
				n++
			}
		}
		return n
	}
	if got := count(open(func(d *weather.Days, y, k, at int) {
		if k < 100 && y < 2 {
			d.SoilC[at] = 0.4
		}
	})); got != 365 {
		t.Errorf("frozen in two years of four: open on %d days", got)
	}
	if got := count(open(func(d *weather.Days, y, k, at int) {
		if k < 100 && y < 3 {
			d.SoilC[at] = 0.4
		}
	})); got != 265 {
		t.Errorf("frozen in three years of four: open on %d days", got)
	}
	if got := count(open(func(d *weather.Days, _, k, at int) {
		if k < 100 {
			d.SnowCM[at] = 1
		}
	})); got != 265 {
		t.Errorf("under snow: open on %d days", got)
	}
	wet := func(share float32, from int) func(d *weather.Days, _, k, at int) {
		return func(d *weather.Days, _, k, at int) {
			if k >= from {
				d.Wet[at] = share
			}
		}
	}
	// Clay and clay loam, of 27 % clay or more, stick until they are drier than 0.9 of the water that grass finds in them; where they are on too few
	// days they are worked as other ground is.
	for _, r := range []struct {
		clay, moisture float64
		dryDays, want  int
	}{{26.9, 0.95, 100, 365}, {27, 0.95, 100, 100}, {27, 0.89, 100, 365}, {40, 0.91, 60, 60}, {40, 0.91, 59, 365}} {
		n := years * calendar.Year
		d := &weather.Days{Series: &weather.Series{Years: years, SnowCM: make([]float32, n)}, SoilC: make([]float32, n), Wet: make([]float32, n), Moisture: make([]float32, n)}
		for at := range n {
			d.SoilC[at], d.Moisture[at] = 8, float32(r.moisture)
			if at%calendar.Year < r.dryDays {
				d.Moisture[at] = 0.5
			}
		}
		c := &site.Conditions{Zones: []site.Zone{{Days: d}}}
		c.Soil.ClayPercent = r.clay
		if got := count(openDays(c)); got != r.want {
			t.Errorf("%+v: open on %d days", r, got)
		}
	}
	// A week's mean: the first day with 0.49 of a week wet at 0.51 a day is the seventh dry one after, and so on.
	if a, b := count(open(wet(0.49, 100))), count(open(wet(0.51, 100))); a != 365 || b >= 120 || b < 100 {
		t.Errorf("wet by 0.49: open on %d days; by 0.51: on %d", a, b)
	}
	// With 0.9 a day a week is half wet from its fourth such day on: days 3 to 62 are dry where the wet runs from day 60 over the
	// year's end, which are 60.
	for from, want := range map[int]int{60: 60, 59: 365} {
		if got := count(open(wet(0.9, from))); got != want {
			t.Errorf("wet from day %d: open on %d days, want %d", from, got, want)
		}
	}
}

// What is tried to have more light, by hand: a crown is taken up 1.5 m where a metre is left of it, and a fifth thinned out.
func TestLightChangesWorked(t *testing.T) {
	tree := func(height, stem float64) light.Obstacle {
		return light.Obstacle{Kind: light.Tree, Name: "ash", HeightM: height, ClearStemM: stem}
	}
	names := func(all ...light.Obstacle) (out []string) {
		for _, c := range lightChanges(Brief{Site: site.Survey{Obstacles: all}}) {
			out = append(out, fmt.Sprint(c.what))
		}
		return out
	}
	for _, r := range []struct {
		all  []light.Obstacle
		want string
	}{
		{[]light.Obstacle{tree(5, 2.4)}, "[{lift.crown [{place.named [ash]} 3.9]} {lift.thin [{place.named [ash]} 0.2]}]"},
		{[]light.Obstacle{tree(5, 2.5)}, "[{lift.thin [{place.named [ash]} 0.2]}]"},
		{[]light.Obstacle{{Kind: light.Screen, Name: "fence", Transmittance: 0.79}}, "[{lift.screen [{place.named [fence]}]}]"},
		{[]light.Obstacle{{Kind: light.Screen, Name: "fence", Transmittance: 0.8}}, "[]"},
		{[]light.Obstacle{tree(5, 2.5), tree(5, 2.5)}, "[{lift.thin [{place.named [ash]} 0.2]} {lift.thin [{place.named [ash]} 0.2]} {lift.all-crowns [1.5 0.2]}]"},
		{[]light.Obstacle{tree(9, 2), tree(9, 2), tree(9, 2), tree(9, 2), tree(9, 2), tree(9, 2), tree(9, 2)}, "[{lift.all-crowns [1.5 0.2]}]"},
	} {
		if got := fmt.Sprint(names(r.all...)); got != r.want {
			t.Errorf("%s, want %s", got, r.want)
		}
	}
}

// A made ground is tried where it is wet from 0.3 up: 25 cm of seven parts of sand and three of the soil, on gravel.
func TestRootzoneIsTried(t *testing.T) {
	for wet, tried := range map[float64]bool{0.3: false, 0.31: true} {
		c := &site.Conditions{Zones: []site.Zone{{}}}
		c.Soil.Wetness = wet
		found := false
		for _, x := range changes(Brief{Job: Job{Kind: job.New}, Use: species.Use{Grade: species.Extensive}}, c) {
			if x.made {
				found = true
				if r := x.brief.Job.Rootzone; r.DepthCM != 25 || r.SandPercent != 70 || r.SoilPercent != 30 || fmt.Sprint(x.what) != "{lift.rootzone [250]}" {
					t.Errorf("%v: %+v", x.what, *r)
				}
			}
		}
		if found != tried {
			t.Errorf("at a wetness of %g: tried %t", wet, found)
		}
	}
}

// What is tried to keep a lawn otherwise, by hand: a cut 15 mm higher, to the five and not beyond 75; 5 g/m² more nitrogen up to 20;
// water from more than 15 days of drought a year.
func TestUseChangesWorked(t *testing.T) {
	found := func(drought float64) *site.Conditions {
		z := site.Zone{Years: []weather.Year{{DroughtDays: drought}, {DroughtDays: drought}}}
		z.Share, z.Light.OpenShare = 1, 1
		return &site.Conditions{Zones: []site.Zone{z}}
	}
	for _, r := range []struct {
		use     species.Use
		drought float64
		want    string
	}{
		{species.Use{Grade: species.Utility, MowingMM: 38, Traffic: species.Light}, 15, "[{lift.higher [55]} {lift.feed [15]}]"},
		{species.Use{Grade: species.Utility, MowingMM: 70, Traffic: species.Light}, 15.1, "[{lift.higher [75]} {lift.water []} {lift.feed [15]}]"},
		{species.Use{Grade: species.Utility, MowingMM: 75, Traffic: species.Light, Irrigation: true}, 40, "[{lift.feed [15]}]"},
		{species.Use{Grade: species.Utility, MowingMM: 75, Traffic: species.Moderate, NitrogenGM2: new(15.0)}, 0, "[{lift.feed [20]} {lift.path []}]"},
		{species.Use{Grade: species.Utility, MowingMM: 75, Traffic: species.Light, NitrogenGM2: new(15.1)}, 0, "[]"},
		{species.Use{Grade: species.Extensive}, 40, "[]"},
	} {
		var got []string
		for _, c := range useChanges(Brief{Use: r.use}, found(r.drought)) {
			got = append(got, fmt.Sprint(c.what))
			if c.key == "starter_feed_per_kg" {
				near(t, "kg a square metre: 5 g of nitrogen in a feed of 12 %", c.each, 0.005/0.12, 1e-9)
			}
			// What is tried is what is said.
			switch u := c.brief.Use; c.what.Name {
			case "lift.higher":
				near(t, "cut", u.MowingMM, float64(c.what.Figures[0].(told.DepthMM)), 0)
			case "lift.feed":
				near(t, "fed", *u.NitrogenGM2, float64(c.what.Figures[0].(told.GramsPerM2)), 0)
			case "lift.water":
				near(t, "watered", map[bool]float64{true: 1}[u.Irrigation && c.key == "water_per_m3"], 1, 0)
			case "lift.path":
				near(t, "walked on less", map[bool]float64{true: 1}[u.Traffic == species.Light && c.ask], 1, 0)
			}
		}
		if fmt.Sprint(got) != r.want {
			t.Errorf("%+v: %v, want %s", r.use, got, r.want)
		}
	}
	near(t, "drought of a mean year", droughtDays(found(12)), 12, 1e-9)
}

// What a change is worth, by hand: cover gained, half of the chance and the share of the lawn that grass comes to; told from three
// points of cover, ten of chance or a twentieth of the lawn, and never where it costs as much.
func TestLiftWorked(t *testing.T) {
	plan := func(cover, chance, m2 float64) Plan {
		return Plan{Choice: mix.Choice{Chance: chance, Mixture: &mix.Mixture{Covers: []float64{cover, cover}}}, Grass: []job.Zone{{AreaM2: m2}}}
	}
	for _, r := range []struct {
		before, after Plan
		worth         float64
	}{
		{plan(0.6, 0.5, 100), plan(0.631, 0.5, 100), 0.031}, {plan(0.6, 0.5, 100), plan(0.629, 0.5, 100), 0}, {plan(0.6, 0.5, 100), plan(0.6, 0.61, 100), 0.055},
		{plan(0.6, 0.5, 100), plan(0.6, 0.59, 100), 0}, {plan(0.6, 0.5, 100), plan(0.64, 0.39, 100), 0}, {plan(0.5, 0.5, 90), plan(0.5, 0.5, 95.1), 0.5*0.051 + 0.051},
		{plan(0.6, 0.5, 90), plan(0.6, 0.5, 94.4), 0}, {plan(0.6, 0.5, 100), plan(0.66, 0.5, 94), 0.6*0.94 + 0.06*0.94 - 0.6},
	} {
		l := liftOf(change{}, r.before, r.after, 100)
		want := r.worth
		if r.after.Grass[0].AreaM2 == 94 && r.before.Grass[0].AreaM2 == 100 {
			want = 0 // six hundredths of the lawn are lost
		}
		near(t, "worth", l.worth, want, 1e-9)
	}
}

// What follows from a task's days, by hand: of ten goes over ten days those before the lawn bears use on the sixth.
func TestGoesUntilUseWorked(t *testing.T) {
	day := func(d int) time.Time { return time.Date(2027, 5, d, 0, 0, 0, 0, time.UTC) }
	use := day(6)
	w := Way{UsableFrom: &use}
	near(t, "half", float64(w.goesUntilUse(job.Task{Date: day(1), Until: day(10), Goes: 10})), 5, 0)
	near(t, "all", float64(w.goesUntilUse(job.Task{Date: day(1), Until: day(6), Goes: 10})), 10, 0)
	w.UsableFrom = nil
	near(t, "never in use", float64(w.goesUntilUse(job.Task{Date: day(1), Until: day(10), Goes: 10})), 10, 0)
	w.Sown, w.Laid = []job.Zone{{Letter: "A", AreaM2: 30}, {Letter: "B", AreaM2: 20}}, []job.Zone{{Letter: "C", AreaM2: 50}}
	near(t, "area of some zones", w.areaOf([]string{"B", "C"}), 70, 1e-9)
}

// Cautions at their limits: a slope of 6 degrees (about 1 in 10), a station 100 km off, shade of a half (University of Alaska
// Fairbanks Extension HGA-00045).
func TestCautionLimits(t *testing.T) {
	for deg, want := range map[float64]bool{5.9: false, 6: true} {
		c := &site.Conditions{}
		c.Survey.Lawn.SlopeDeg = deg
		if got := needsPractitioner(Plan{Site: c}); got != want {
			t.Errorf("%g degrees: a practitioner %t", deg, got)
		}
	}
	if !needsPractitioner(Plan{Site: &site.Conditions{}, Way: Way{Bed: bed.Bed{DrainSpacingM: 5}}}) {
		t.Error("drains without a practitioner")
	}
	has := func(p Plan, name string) bool {
		for _, s := range doubts(p) {
			if s.Name == name {
				return true
			}
		}
		return false
	}
	for km, want := range map[float64]bool{100: false, 101: true} {
		if got := has(Plan{Site: &site.Conditions{DistanceKM: km}}, "job.far-station"); got != want {
			t.Errorf("a station %g km off: told %t", km, got)
		}
	}
	for open, want := range map[float64]bool{0.5: false, 0.49: true} {
		z := site.Zone{}
		z.Light.OpenShare = open
		p := Plan{Site: &site.Conditions{Zones: []site.Zone{z}}, Choice: mix.Choice{Zones: []mix.ZoneVerdict{{Sown: true, Verdict: mix.Holds}}}}
		if got := has(p, "job.shaded"); got != want {
			t.Errorf("%g of the open's light: told %t", open, got)
		}
	}
}

// The answer in a few words: what is advised of each way, and why of none.
func TestHeadlineOfWays(t *testing.T) {
	for kind, want := range map[job.Way]Advice{"": AdviseNoGrass, job.ByTurf: AdviseTurf, job.ByOverseeding: AdviseOverseed, job.BySeed: AdviseSow, job.BySeedAndTurf: AdviseSow} {
		p := Plan{}
		p.Kind = kind
		if got := adviceOf(p); got != want {
			t.Errorf("by %q: %s, want %s", kind, got, want)
		}
	}
	mixture := &mix.Mixture{Components: []mix.Component{{Species: &species.Species{ID: "invented"}, Percent: 100}}}
	zones := func(v mix.Verdict) []mix.ZoneVerdict { return []mix.ZoneVerdict{{Verdict: v}} }
	for _, r := range []struct {
		choice mix.Choice
		kind   job.Way
		want   string
	}{
		{mix.Choice{Zones: zones(mix.Doubtful)}, "", "job.likely-lost"}, {mix.Choice{Zones: zones(mix.Holds)}, "", "job.no-grass"}, {mix.Choice{Mixture: mixture}, "", "job.no-day"},
		{mix.Choice{Mixture: mixture}, job.BySeed, "job.sow"},
		{mix.Choice{Zones: []mix.ZoneVerdict{{Verdict: mix.Doubtful, LimitedBy: mix.Weeds}, {Verdict: mix.None}}}, "", "job.lost-to-weeds"},
		{mix.Choice{Zones: []mix.ZoneVerdict{{Verdict: mix.Doubtful, LimitedBy: mix.Weeds}, {Verdict: mix.Doubtful, LimitedBy: species.Looks}}}, "", "job.likely-lost"},
	} {
		p := Plan{Choice: r.choice, Site: &site.Conditions{}}
		p.Kind, p.Advice = r.kind, AdviseSow
		if got := headline(p); got[0].Name != r.want {
			t.Errorf("%+v by %q: %s, want %s", r.choice, r.kind, got[0].Name, r.want)
		}
	}
	for area, told := range map[float64]bool{50.9: false, 51.1: true} { // a square metre is rounding
		p := Plan{Choice: mix.Choice{Mixture: mixture}, Site: &site.Conditions{AreaM2: area}}
		p.Kind, p.Advice, p.Sown = job.BySeed, AdviseSow, []job.Zone{{AreaM2: 50}}
		if got := fmt.Sprint(headline(p)); (len(headline(p)) > 1) != told {
			t.Errorf("50 of %g m²: %s", area, got)
		}
	}
}
