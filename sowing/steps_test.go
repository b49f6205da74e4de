package sowing

import (
	"fmt"
	"math"
	"testing"
	"time"

	"swardwright/mix"
	"swardwright/mix/practice"
	"swardwright/mix/record"
	"swardwright/site"
	"swardwright/site/ground"
	"swardwright/site/weather"
	"swardwright/sowing/bed"
	"swardwright/sowing/dates"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
	"swardwright/species"
)

// What a change costs, by hand: 60 litres a square metre of a mean year on 50 m² of grass are 3 m³, at 2.00 are 6.00; 5 g/m² of nitrogen in
// a feed of 12 % are 41.7 g, on 50 m² 2.08 kg at 3.00, 6.25; more light and a path are priced by no list.
func TestLiftCostWorked(t *testing.T) {
	list, err := builtIn(t).Prices.In("EUR", map[string]string{"water_per_m3": "2.00", "starter_feed_per_kg": "3.00"})
	if err != nil {
		t.Fatal(err)
	}
	zone := func(share, first, second float64) site.Zone {
		z := site.Zone{Years: []weather.Year{{WaterMM: first}, {WaterMM: second}}}
		z.Share, z.Light.OpenShare = share, 1
		return z
	}
	after := &Plan{Site: &site.Conditions{Zones: []site.Zone{zone(0.5, 20, 60), zone(0.5, 70, 90)}}, Grass: []job.Zone{{AreaM2: 20}, {AreaM2: 30}}}
	b := Brief{Use: species.Use{Grade: species.Utility, MowingMM: 75, Traffic: species.Moderate}}
	dry := &site.Conditions{Zones: []site.Zone{zone(1, 0, 0)}}
	for i := range dry.Zones[0].Years {
		dry.Zones[0].Years[i].DroughtDays = 30
	}
	p := &Plan{Brief: b, Found: dry}
	costs := map[string]int64{}
	for _, c := range changes(b, dry) {
		cost, err := liftCost(t.Context(), list, p, c, after)
		if err != nil {
			t.Fatal(err)
		}
		costs[c.what.Name] = -1
		if cost != nil {
			costs[c.what.Name] = cost.Minor
		}
	}
	for what, want := range map[string]int64{"lift.water": 600, "lift.feed": 625, "lift.path": -1} {
		if got, tried := costs[what]; !tried || got != want {
			t.Errorf("%s costs %d, want %d (of %v)", what, got, want, costs)
		}
	}
	if _, err := costOf(list, "nobody_knows", 3); err == nil {
		t.Error("what no list has is priced")
	}
}

// The day a plan is made from: its own, else the last of its record, else the first day of the first year that the job names, else of 2027.
func TestPlanDateWorked(t *testing.T) {
	day := func(y int, m time.Month, d int) *time.Time { return new(time.Date(y, m, d, 0, 0, 0, 0, time.UTC)) }
	dated := Brief{Date: *day(2029, 3, 4)}
	dated.Job.NeededBy = day(2031, 9, 1)
	seen := Brief{Record: record.Record{Seen: []record.Seen{{Date: *day(2028, 5, 6)}, {Date: *day(2028, 7, 8)}}}}
	seen.Job.NotBefore = day(2035, 9, 1)
	named := Brief{}
	named.Job.NotAfter, named.Job.NeededBy = day(2033, 9, 1), day(2032, 9, 1)
	for _, r := range []struct {
		b    Brief
		want time.Time
	}{{dated, *day(2029, 3, 4)}, {seen, *day(2028, 7, 8)}, {named, *day(2032, 1, 1)}, {Brief{}, *day(2027, 1, 1)}} {
		if got := r.b.planDate(); !got.Equal(r.want) {
			t.Errorf("%v, want %v", got, r.want)
		}
	}
}

// What stands first, by hand: the zone of most of the lawn, the five grasses for lawns that lead its matrix, the day of the year from 1 on which
// a season is best begun.
func TestFirstLookWorked(t *testing.T) {
	c := &site.Conditions{}
	for _, share := range []float64{0.3, 0.5, 0.2} {
		z := site.Zone{}
		z.Share = share
		c.Zones = append(c.Zones, z)
	}
	near(t, "the largest zone", float64(largestZone(c)), 1, 0)
	m := species.Matrix{}
	for i, id := range []string{"a", "b", "c", "d", "e", "f", "hay"} {
		m.Rows = append(m.Rows, species.Row{Species: &species.Species{ID: id, Fodder: id == "hay"}, Zone: 1, Overall: 0.9 - 0.1*float64(i)}, species.Row{Species: &species.Species{ID: "z" + id}, Zone: 0, Overall: 1})
	}
	m.Rows[0].Species.Fodder = true // a
	got := leaders(m, 1)
	for id, leads := range map[string]bool{"a": false, "b": true, "c": true, "d": true, "e": true, "f": true, "hay": false, "za": false} {
		if (got[id] == 1) != leads {
			t.Errorf("%s among the leaders: %t (%v)", id, !leads, got)
		}
	}
	steep, flat := Brief{}, Brief{}
	steep.Site.Lawn.SlopeDeg, flat.Site.Lawn.SlopeDeg = 40, 5
	meadow := steep
	meadow.Use.Grade = species.Extensive
	if !tooSteep(steep) || tooSteep(flat) || tooSteep(meadow) {
		t.Error("what is too steep to be mown")
	}
	// Where one day alone is allowed that is the day: the 10th of September is the 253rd of the year.
	b, err := ReadBrief("", []byte("title = \"A lawn\"\n[place]\nlatitude = 53.8\nlongitude = -1.55\n[lawn]\narea_m2 = 84\n[use]\ngrade = \"utility\"\n"), nil)
	if err != nil {
		t.Fatal(err)
	}
	tables := builtIn(t)
	there, err := b.Conditions(t.Context(), tables)
	if err != nil {
		t.Fatal(err)
	}
	// Chances are counted over so many years that one of a half is known to three or four points.
	near(t, "depth of drilled seed: the middle of 5 to 15 mm (common practice, no published source)", drilledMM, 10, 1)
	near(t, "standard error of a half in the matrix", math.Sqrt(0.25/matrixDraws), 0.0355, 0.002)
	near(t, "standard error of a half", math.Sqrt(0.25/float64(len(there.Zones[0].Years))), 0.0355, 0.002)
	when, err := survey(t.Context(), kitOf(tables), b, there, there)
	if err != nil {
		t.Fatal(err)
	}
	season := when.Sow(map[string]float64{"perennial-ryegrass": 1})
	near(t, "the day", float64(sowDay(season, dates.Limits{From: *on(3, 1), NotBefore: on(9, 10), NotAfter: on(9, 10)})), 253, 0)
	if free, none := sowDay(season, dates.Limits{From: *on(3, 1)}), sowDay(season, dates.Limits{From: *on(3, 1), NotAfter: on(2, 1)}); free != none {
		t.Errorf("day %d, and where no day is allowed %d", free, none)
	}
	refused := refuseSlope(mix.Choice{Mixture: &mix.Mixture{}, Holds: true, Chance: 0.9, Attainable: species.Utility, Zones: []mix.ZoneVerdict{{Zone: 0, Verdict: mix.Holds, Chance: 0.9, Sown: true, LimitedBy: "light"}}})
	if v := refused.Zones[0]; refused.Mixture != nil || refused.Holds || refused.Chance != 0 || refused.Attainable != "" || v.Sown || v.Chance != 0 || v.Verdict != mix.None || v.LimitedBy != "slope" {
		t.Errorf("too steep: %+v", refused)
	}
}

// A sward's work, by hand: what a brief asks of the mixture's room, and what comes into which zone.
func TestTaskWorked(t *testing.T) {
	cover := 60.0
	b := Brief{Use: species.Use{Grade: species.Utility}}
	b.Job.Kind, b.Job.CoverPercent = job.Overseed, &cover
	if got := mixTask(b, nil); !got.Overseed || got.CoverPercent != 60 || got.Meadow || got.Known != nil {
		t.Errorf("%+v", got)
	}
	c := &site.Conditions{Zones: make([]site.Zone, 3)}
	for i := range c.Zones {
		c.Zones[i].Letter, c.Zones[i].AreaM2 = string(rune('A'+i)), float64(10*(i+1))
	}
	zones := []mix.ZoneVerdict{{Zone: 2, Sown: true}, {Zone: 0}, {Zone: 1, Sown: true}}
	if got := grassZones(c, mix.Choice{Zones: zones}); got != nil {
		t.Errorf("grass without a mixture on %v", got)
	}
	got := grassZones(c, mix.Choice{Zones: zones, Mixture: &mix.Mixture{}})
	if len(got) != 2 || got[0] != (job.Zone{Index: 2, Letter: "C", AreaM2: 30}) || got[1] != (job.Zone{Index: 1, Letter: "B", AreaM2: 20}) {
		t.Errorf("grass on %v", got)
	}
	// What nothing was seen of is rated and chosen as the tables have it, and its cover is not known.
	if asked := b.asSeen(c, nil); asked.Job.CoverPercent != &cover {
		t.Errorf("a cover of %v", asked.Job.CoverPercent)
	}
	tables := Tables{Species: &species.Table{}, Practice: &practice.Table{}}
	if rated(tables, nil) != tables.Species || known(nil) != nil {
		t.Error("nothing seen, and something learned")
	}
}

// Machines that get to the lawn: on a deck those of 0.8 m at most (common practice, no published source), else by the narrowest way in.
func TestMachinesOnADeck(t *testing.T) {
	narrowest := func(over string, access *float64) (hours float64) {
		b := Brief{Currency: "EUR"}
		b.Site.Ground.Over, b.Job.AccessM = over, access
		list, err := pricesOf(builtIn(t), b)
		if err != nil {
			t.Fatal(err)
		}
		hours, err = list.Hours("dig_m2_per_hour", 2000)
		if err != nil {
			t.Fatal(err)
		}
		return hours
	}
	wide, narrow := new(3.0), new(0.5)
	if deck, at := narrowest(ground.Deck, nil), narrowest("", new(0.8)); deck != at {
		t.Errorf("a deck: %g hours, by a way of 0.8 m %g", deck, at)
	}
	if narrowest(ground.Deck, wide) != narrowest(ground.Deck, nil) || narrowest(ground.Deck, narrow) != narrowest("", narrow) {
		t.Error("a deck bears what its way in lets through, or only a narrower way counts")
	}
}

// A plan stands beside others without the days of its grounds, and with all else.
func TestUndated(t *testing.T) {
	days := func() *site.Conditions {
		return &site.Conditions{AreaM2: 7, Zones: []site.Zone{{Days: &weather.Days{}}}}
	}
	p := Plan{Found: days(), Site: days(), Ways: []Way{{Kind: job.BySeed, Ground: days()}}}
	p.Ground, p.Kind = p.Site, job.BySeed
	p.Bill.Total = money.Amount{Minor: 300, Currency: "EUR"}
	p.Bed = bed.Bed{PuddleMM: 3}
	base := p
	base.Bill.Total.Minor = 100
	got := against(&base, "beside", p)
	for what, c := range map[string]*site.Conditions{"found": got.Plan.Found, "as it will be": got.Plan.Site, "of the way": got.Plan.Ground, "of a way": got.Plan.Ways[0].Ground} {
		if c.Zones[0].Days != nil || c.AreaM2 != 7 {
			t.Errorf("ground %s: %+v", what, c)
		}
	}
	if p.Found.Zones[0].Days == nil || p.Ways[0].Ground.Zones[0].Days == nil {
		t.Error("the plan itself lost its days")
	}
	if got.Name != "beside" || *got.Gain.CostMinor != 200 || got.Plan.Bed.PuddleMM != 3 {
		t.Errorf("%+v", got)
	}
}

// The next station is looked at within 300 km (our choice): Kiruna's airport lies 261 km from Bodø, Kinloss 309 from Lerwick.
func TestNextStationLimit(t *testing.T) {
	tables := builtIn(t)
	for station, looked := range map[string]bool{"Bodø": true, "Lerwick": false} {
		at, ok := tables.Stations.Find(station)
		if !ok {
			t.Fatalf("no station %s", station)
		}
		b, err := ReadBrief("", []byte(fmt.Sprintf("title = \"A lawn\"\n[place]\nlatitude = %g\nlongitude = %g\n[lawn]\narea_m2 = 84\n[use]\ngrade = \"utility\"\n", at.LatitudeDeg, at.LongitudeDeg)), nil)
		if err != nil {
			t.Fatal(err)
		}
		p := Plan{Brief: b, Found: &site.Conditions{Station: at}, Choice: mix.Choice{Mixture: &mix.Mixture{}}}
		if err := LookElsewhere(t.Context(), tables, &p); err != nil {
			t.Fatal(err)
		}
		if (p.Elsewhere != nil) != looked || looked && (p.Elsewhere.DistanceKM < 255 || p.Elsewhere.DistanceKM > 267) {
			t.Errorf("%s: looked at %+v", station, p.Elsewhere)
		}
	}
}

// Into a whole sward goes half of the seed of bare ground (Illinois 2 pounds against 4, Kansas State 3 to 4 against 6 to 8).
func TestSeedOfAWay(t *testing.T) {
	tall := builtIn(t).Species.ByID("tall-fescue")
	m := maker{lawn: lawn{choice: mix.Choice{Mixture: &mix.Mixture{Components: []mix.Component{{Species: tall, Percent: 100}}}}}}
	m.kept.Use.Grade, m.kept.Job.CoverPercent = species.Utility, new(100.0)
	zones := []job.Zone{{Index: 0, Letter: "A", AreaM2: 30}, {Index: 1, Letter: "B", AreaM2: 20}}
	bare, into := m.sown(Way{Kind: job.BySeed, Sown: zones}, false), m.sown(Way{Kind: job.ByOverseeding, Sown: zones}, false)
	near(t, "into a sward over on bare ground", into.Rate.GM2/bare.Rate.GM2, 0.5, 0.003)
	near(t, "grams", bare.Rate.TotalG, 50*bare.Rate.GM2, 1e-9)
	if len(bare.Sowings) != 1 || len(bare.Sowings[0].Zones) != 2 {
		t.Errorf("%+v", bare.Sowings)
	}
}
