package sowing

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/mix/sward"
	"swardwright/site"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/site/weather"
	"swardwright/sowing/bed"
	"swardwright/sowing/dates"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
	"swardwright/sowing/order"
	"swardwright/species"
)

// Ways against each other at the limits of each rule: our choice, no published source.
func TestBetterAtItsLimits(t *testing.T) {
	way := func(keeps, success float64, price int64) *Way {
		w := &Way{InTime: true, UsableFrom: on(8, 1), Standard: Standard{Chance: keeps, Holds: keeps >= 0.5}, Dates: dates.Dates{Success: success}}
		w.Bill.Total.Minor = price
		return w
	}
	late := func(w *Way, usable *time.Time) *Way { w.InTime, w.UsableFrom = false, usable; return w }
	for name, r := range map[string]struct {
		a, b *Way
		want int // -1: a
	}{
		"cheaper":                          {way(0.9, 0.9, 1), way(0.9, 0.9, 2), -1},
		"dearer":                           {way(0.9, 0.9, 3), way(0.9, 0.9, 2), 1},
		"alike":                            {way(0.9, 0.9, 2), way(0.9, 0.9, 2), 0},
		"in time, though dear and unsure":  {way(0.1, 0.1, 9), late(way(0.9, 0.9, 1), on(8, 1)), -1},
		"0.14 under the likeliest":         {way(0.36, 0.9, 1), way(0.49, 0.9, 2), -1},
		"0.16 under it":                    {way(0.34, 0.9, 1), way(0.50, 0.9, 2), 1},
		"keeps it itself, far as that is":  {way(0.51, 0.9, 1), way(0.99, 0.9, 2), -1},
		"a first attempt of a half":        {way(0.9, 0.5, 1), way(0.9, 0.99, 2), -1},
		"of less":                          {way(0.9, 0.49, 1), way(0.9, 0.99, 2), 1},
		"both late, the sooner":            {late(way(0.9, 0.9, 2), on(8, 1)), late(way(0.9, 0.9, 1), on(8, 2)), -1},
		"both late, one never":             {late(way(0.9, 0.9, 2), on(8, 1)), late(way(0.9, 0.9, 1), nil), -1},
		"both late and never, the cheaper": {late(way(0.9, 0.9, 2), nil), late(way(0.9, 0.9, 1), nil), 1},
	} {
		most := max(r.a.Standard.Chance, r.b.Standard.Chance)
		if got := better(r.a, r.b, most); got != r.want {
			t.Errorf("%s: %d", name, got)
		}
		if got := better(r.b, r.a, most); got != -r.want {
			t.Errorf("%s, the other way: %d", name, got)
		}
	}
	// A first attempt is told of below 0.8; another way is dearer or cheaper, sooner, later, no sooner, late or never.
	for success, said := range map[float64]bool{0.79: true, 0.8: false} {
		got := because(Brief{}, []Way{*way(0.9, success, 1)}, []int{0}, money.Comparison{})
		if slices.ContainsFunc(got, func(s told.Sentence) bool { return s.Name == "job.first-attempt" }) != said {
			t.Errorf("%g: %v", success, got)
		}
	}
	best := way(0.9, 0.9, 1000)
	needed := Brief{}
	needed.Job.NeededBy = on(9, 1)
	for name, r := range map[string]struct {
		b     Brief
		other *Way
		usage *time.Time
		price int64
		want  string
	}{
		"later":       {Brief{}, nil, on(8, 11), 1500, "{job.and-later [{job.costs-more [{doing } {500 EUR}]} 10]}"},
		"sooner":      {Brief{}, nil, on(7, 22), 900, "{job.and-sooner [{job.costs-less [{doing } {100 EUR}]} 10]}"},
		"no sooner":   {Brief{}, nil, on(8, 1), 1000, "{job.and-no-more [{job.costs-more [{doing } {0 EUR}]}]}"},
		"never":       {Brief{}, nil, nil, 1000, "{job.and-never [{job.costs-more [{doing } {0 EUR}]}]}"},
		"in time too": {needed, nil, on(8, 2), 1000, "{job.and-later [{job.costs-more [{doing } {0 EUR}]} 1]}"},
		"late":        {needed, late(way(0.9, 0.9, 1000), on(8, 2)), on(8, 2), 1000, "{job.and-late [{job.costs-more [{doing } {0 EUR}]}]}"},
	} {
		other := r.other
		if other == nil {
			other = way(0.9, 0.9, r.price)
		}
		other.UsableFrom = r.usage
		if got := fmt.Sprint(beside(r.b, best, other, "EUR")); got != r.want {
			t.Errorf("%s: %s, want %s", name, got, r.want)
		}
	}
}

// What is bought, by hand: of 900 g that are 76.8 % alive a lot of 0.5 kg that is 90.16 % alive stands for 586.98 g, and one of 0.8 kg
// for more than all; a kilogram at 4.00 is 10.00 in a bag of 2.5.
func TestBoughtWorked(t *testing.T) {
	list := prices(t)
	for stock, lots := range map[float64]int{0.5: 3, 0.76: 3, 0.77: 2, 0: 2} { // 900 · 0.768 / 0.9016 = 766.6 g
		b, r := stocked()
		b.Stock.Lots[0].StockKG = stock
		w, err := wantOrder(list, b, r)
		if err != nil || len(w.Lots) != lots {
			t.Errorf("%g kg in stock: %d lots, %v", stock, len(w.Lots), err)
		}
		if w.Needs[0] != (order.Need{SpeciesID: "perennial-ryegrass", Grams: 900, PLS: 0.768}) || len(w.Needs) != 2 {
			t.Errorf("needs %+v", w.Needs)
		}
		if x := w.Premixes[0].Parts[1]; x.Percent != 70 || w.Premixes[0].Sizes[0].PriceMinor != 1200 {
			t.Errorf("%+v", w.Premixes[0])
		}
	}
	sizes, err := bags(list, "4.00", []float64{1, 2.5})
	if err != nil || len(sizes) != 2 || sizes[0] != (order.Size{KG: 1, PriceMinor: 400}) || sizes[1] != (order.Size{KG: 2.5, PriceMinor: 1000}) {
		t.Errorf("%+v, %v", sizes, err)
	}
	if sizes, _ := bags(list, "", []float64{1}); sizes != nil {
		t.Errorf("bags without a price: %v", sizes)
	}
	if sizes, _ := bags(list, "4.00", nil); len(sizes) != len(list.BagSizes()) {
		t.Errorf("without sizes of its own: %v", sizes)
	}
	b, r := stocked()
	got := billBags(order.Order{Bags: []order.Bag{{Lot: "lot 7", SpeciesID: "perennial-ryegrass", KG: 1, Count: 2, PriceMinor: 400}, {Lot: "price list", SpeciesID: "strong-creeping-red-fescue", KG: 5, Count: 1, PriceMinor: 3000, Invented: true}, {Lot: "shade bag", KG: 2, Count: 1, PriceMinor: 1200}}}, Way{Rate: r}, "GBP")
	for i, want := range []string{"{money.seed-lot [perennial-ryegrass lot 7]}", "{money.seed-of [strong-creeping-red-fescue]}", "{money.seed-of [shade bag]}"} {
		if fmt.Sprint(got[i].Item) != want {
			t.Errorf("%v, want %s", got[i].Item, want)
		}
	}
	if got[1].Key != money.SeedKey("strong-creeping-red-fescue") || got[0].Key != "" || got[0].Count != 2 || got[0].Price.Minor != 400 || got[0].Price.Currency != "GBP" {
		t.Errorf("%+v", got)
	}
	// Turf is cut with waste to an outline of more than six corners.
	for corners, curved := range map[int]bool{6: false, 7: true} {
		b.Site.Lawn.Parts = [][]light.Point{make([]light.Point, corners)}
		if got := billInput(list, b, Way{}).Curved; got != curved {
			t.Errorf("%d corners: curved %t", corners, got)
		}
	}
}

// Orders joined: what is needed of a grass by what is alive in it, 100 g of 0.9 as 112.5 g of 0.8 beside 60 g of 0.8.
func TestCombineWorked(t *testing.T) {
	lot := func(name string, kg float64) order.Lot {
		return order.Lot{Name: name, SpeciesID: "a", StockKG: kg, Sizes: []order.Size{{KG: 1, PriceMinor: 5}}}
	}
	got := Combine([]order.Input{
		{Needs: []order.Need{{SpeciesID: "b", Grams: 10, PLS: 0.5}, {SpeciesID: "a", Grams: 60, PLS: 0.8}}, Lots: []order.Lot{lot("x", 1), lot("y", 1)}},
		{Needs: []order.Need{{SpeciesID: "a", Grams: 100, PLS: 0.9}, {SpeciesID: "b", Grams: 7}}, Lots: []order.Lot{lot("x", 1), lot("x", 2)}},
	})
	if len(got.Needs) != 2 || got.Needs[0].SpeciesID != "a" || len(got.Lots) != 3 {
		t.Fatalf("%+v", got)
	}
	near(t, "of the one", got.Needs[0].Grams, 172.5, 1e-9)
	near(t, "of the other, whose quality isn't told", got.Needs[1].Grams, 17, 1e-9)
	x := lot("x", 1)
	for name, change := range map[string]func(l *order.Lot){"name": func(l *order.Lot) { l.Name = "z" }, "grass": func(l *order.Lot) { l.SpeciesID = "b" }, "stock": func(l *order.Lot) { l.StockKG = 9 }, "price": func(l *order.Lot) { l.Sizes = []order.Size{{KG: 1, PriceMinor: 6}} }} {
		y := lot("x", 1)
		change(&y)
		if sameLot(x, y) || !sameLot(x, x) {
			t.Errorf("lots of another %s are one", name)
		}
	}
}

// What a change brings, by hand: cover lawn by lawn, the middle of five and 8 in 10 of them; the whole lawn's by what is under grass.
func TestGainsWorked(t *testing.T) {
	plan := func(area float64, covers ...float64) Plan {
		p := Plan{Choice: mix.Choice{Mixture: &mix.Mixture{Covers: covers, CoverExpected: 0.5}}, Grass: []job.Zone{{AreaM2: area}}}
		p.Kind = job.BySeed
		return p
	}
	a, b := plan(80, 0.5, 0.5, 0.5, 0.5, 0.5), plan(100, 0.9, 0.5, 0.7, 0.6, 0.8)
	got := coverGain(&a, &b)
	near(t, "middle", got.Middle, 0.2, 1e-9)
	near(t, "low", got.Low, 0.04, 1e-9)
	near(t, "high", got.High, 0.36, 1e-9)
	got = coveredGain(&a, &b, 100)
	near(t, "of the whole lawn", got.Middle, 0.7-0.4, 1e-9)
	none := Plan{}
	near(t, "from none", coveredGain(&none, &b, 100).Middle, 0.7, 1e-9)
	near(t, "to none", coveredGain(&a, &none, 100).Middle, -0.4, 1e-9)
	if coveredGain(&none, &none, 100) != (Spread{}) || coverGain(&none, &b) != (Spread{}) {
		t.Error("a gain of nothing")
	}
	other := plan(100, 0.9)
	other.Choice.Mixture.CoverExpected = 0.6
	near(t, "of other lawns", coverGain(&a, &other).Low, 0.1, 1e-9)

	a.Standard.Chance, b.Standard.Chance = 0.4, 0.7
	a.Bill.Total, b.Bill.Total = money.Amount{Minor: 1000, Currency: "EUR"}, money.Amount{Minor: 1300, Currency: "EUR"}
	a.UsableFrom, b.UsableFrom = on(8, 11), on(8, 1)
	a.Tasks = []job.Task{{Goes: 10, Hours: 0.5}, {Goes: 2, Hours: 3, First: true}, {Goes: 4, Hours: 1, Sort: job.Watching}}
	b.Tasks = []job.Task{{Goes: 4, Hours: 2}}
	near(t, "hours of care", a.CareHours(), 5, 1e-9)
	g := gain(&a, &b)
	near(t, "chance", g.Chance, 0.3, 1e-9)
	near(t, "care", g.CareHours, 3, 1e-9)
	if *g.CostMinor != 300 || *g.DaysSooner != 10 {
		t.Errorf("%d more, %d days sooner", *g.CostMinor, *g.DaysSooner)
	}
	b.Bill.Total.Currency, b.UsableFrom = "SEK", nil
	if g := gain(&a, &b); g.CostMinor != nil || g.DaysSooner != nil {
		t.Errorf("%+v", g)
	}
	// What costs nothing stands first.
	for _, r := range []struct {
		l    Lift
		tier int
	}{{Lift{}, 0}, {Lift{AskPrice: true}, 1}, {Lift{Cost: &money.Amount{}}, 1}} {
		if r.l.tier() != r.tier {
			t.Errorf("%+v: tier %d", r.l, r.l.tier())
		}
	}
	// Of two zones by area, in the mean of their years.
	c := &site.Conditions{}
	for i, share := range []float64{0.75, 0.25} {
		z := site.Zone{Years: []weather.Year{{DroughtDays: 10 * float64(1+i), WaterMM: 100}, {DroughtDays: 30, WaterMM: 20}}}
		z.Share = share
		c.Zones = append(c.Zones, z)
	}
	near(t, "days of drought", droughtDays(c), 0.75*20+0.25*25, 1e-9)
	near(t, "water that is given, mean of the years", givenLitresM2(c), 60, 1e-9)
}

// Ways by hand: what is sown where overseeding does something, where turf suits, when a sowing is late, on which day a lawn begins.
func TestWaysWorked(t *testing.T) {
	grass := []job.Zone{{Index: 0, Letter: "A"}, {Index: 1, Letter: "B"}}
	left := []mix.Left{{Zone: 0, Alone: 0.9, Sown: 0.92}, {Zone: 1, Alone: 0.5, Sown: 0.7}}
	if sown, kept := worthSowing(grass, left); len(sown) != 1 || sown[0].Letter != "B" || len(kept) != 1 {
		t.Errorf("sown %v, kept %v", sown, kept)
	}
	if sown, kept := worthSowing(grass, left[:1]); len(sown) != 1 || len(kept) != 1 {
		t.Errorf("sown %v, kept %v", sown, kept)
	}
	left[1].Sown = 0.5
	if sown, kept := worthSowing(grass, left); len(sown) != 2 || kept != nil {
		t.Errorf("where it does nothing: sown %v, kept %v", sown, kept)
	}
	turf := &species.Species{ID: "a", Facts: map[species.Fact]string{species.SoldAsTurf: "a source"}}
	for class, suits := range map[species.Class]bool{species.S1: true, species.S2: true, species.S3: false, species.N1: false} {
		m := species.Matrix{Rows: []species.Row{{Species: turf, Zone: 1, Class: class}, {Species: &species.Species{ID: "b"}, Zone: 0, Class: species.S1}}}
		if turfSuits(m, 1) != suits || turfSuits(m, 0) {
			t.Errorf("%s: turf suits %t", class, turfSuits(m, 1))
		}
	}
	window := dates.Window{Kind: dates.Autumn, Closes: *on(9, 20)}
	for day, want := range map[int]bool{6: false, 7: true} {
		if got := late(dates.Dates{On: on(9, day), Windows: []dates.Window{window}}); got != want {
			t.Errorf("%d September, closing on the 20th: late %t", day, got)
		}
	}
	spring := window
	spring.Kind = dates.Spring
	if late(dates.Dates{On: on(9, 19), Windows: []dates.Window{spring}}) || !late(dates.Dates{On: on(9, 19), Chosen: -1, Windows: []dates.Window{spring}}) || late(dates.Dates{On: on(9, 19), Chosen: -1}) {
		t.Error("late in spring, past every window, or with none")
	}
	w := Way{StartOn: *on(5, 4), Kind: job.BySeed}
	w.Bed.Tasks = []job.Task{{ID: "rake", Date: *on(5, 9)}, {ID: "sow", Sort: job.Sowing, Date: *on(5, 4), Until: *on(5, 6)}}
	if got := w.begun(); !got.Equal(*on(5, 6)) || startID(w) != "sow" {
		t.Errorf("begun on %v by %s", got, startID(w))
	}
	w.Tasks = []job.Task{{Sort: job.Watering, First: true, Goes: 1, Litres: 9.6, Date: *on(5, 7), Until: *on(6, 1)}, {Sort: job.Watering, Goes: 2, Litres: 5, Date: *on(7, 1)}, {Sort: job.Watering, Goes: 0, Litres: 5, Date: *on(5, 8)}, {Sort: job.Mowing, Goes: 1, Litres: 5, Date: *on(5, 8)}}
	if got := waterOf(w); !got.Until.Equal(*on(6, 1)) || got.Goes != 1 || got.Litres != 10 {
		t.Errorf("never in use: %+v", got)
	}
	w.UsableFrom = on(7, 1)
	if got := waterOf(w); !got.Until.Equal(*on(7, 1)) || got.Goes != 3 || got.Litres != 15 { // 14.6, whole litres
		t.Errorf("in use from July: %+v", got)
	}
	if got := later(on(5, 30), 3); !got.Equal(*on(6, 2)) || later(nil, 3) != nil {
		t.Errorf("three days on: %v", got)
	}
	// The lesser of what is sown and what is laid.
	c := mix.Choice{Mixture: &mix.Mixture{Score: 1}, Chance: 0.6, Turf: &mix.Turf{Mixture: mix.Mixture{Score: 2}, Chance: 0.4}}
	for _, r := range []struct {
		sown, laid bool
		turf       float64
		chance     float64
		mixture    float64
	}{{true, false, 0.4, 0.6, 1}, {false, true, 0.4, 0.4, 2}, {true, true, 0.4, 0.4, 1}, {true, true, 0.7, 0.6, 1}} {
		c.Turf.Chance = r.turf
		w := Way{}
		if r.sown {
			w.Sown = grass[:1]
		}
		if r.laid {
			w.Laid = grass[1:]
		}
		m, s := grownOn(c, w)
		if s.Chance != r.chance || m.Score != r.mixture {
			t.Errorf("%+v: chance %g, mixture %g", r, s.Chance, m.Score)
		}
	}
	// What starts the lawn and what follows from it are done again where it fails.
	tasks := []job.Task{{ID: "dig"}, {ID: "sow", Sort: job.Sowing, Needs: []job.Need{{ID: "dig"}}}, {ID: "order"}, {ID: "roll", Needs: []job.Need{{ID: "sow"}}}, {ID: "net", Needs: []job.Need{{ID: "roll"}, {ID: "dig"}}}}
	before, after := started(tasks)
	names := func(tasks []job.Task) (s string) {
		for _, t := range tasks {
			s += t.ID + " "
		}
		return strings.TrimSpace(s)
	}
	if names(before) != "dig order" || names(after) != "sow roll net" {
		t.Errorf("before %s, after %s", names(before), names(after))
	}
	if before, after := started(tasks[:1]); len(before) != 1 || after != nil {
		t.Error("nothing starts a lawn")
	}
	// What is meant: turf but for a meadow, both where a zone suits turf and another not.
	for _, r := range []struct {
		kind     job.Kind
		renovate bool
		use      species.Use
		zones    []job.Zone
		want     string
	}{
		{job.New, false, species.Use{Grade: species.Utility}, grass, "seed turf seed and turf"},
		{job.New, false, species.Use{Grade: species.Utility}, grass[1:], "seed turf"},
		{job.New, false, species.Use{Grade: species.Extensive, Mower: "scythe", Feeding: "none"}, grass, "seed"},
		{job.Overseed, false, species.Use{Grade: species.Utility}, grass, "overseed turf"},
		{job.Overseed, true, species.Use{Grade: species.Utility}, grass, "seed turf"},
	} {
		m := maker{lawn: lawn{choice: mix.Choice{Turf: &mix.Turf{}, Renovate: r.renovate}}, matrix: species.Matrix{Rows: []species.Row{{Species: turf, Zone: 1, Class: species.S1}}}}
		m.kept.Job.Kind, m.kept.Use = r.kind, r.use
		var got []string
		for _, w := range m.meant(r.zones) {
			got = append(got, string(w.Kind))
			if w.Kind == job.BySeedAndTurf && (len(w.Sown) != 1 || w.Sown[0].Letter != "A" || w.Laid[0].Letter != "B") {
				t.Errorf("sown %v, laid %v", w.Sown, w.Laid)
			}
			if r.renovate && w.Kind == job.BySeed && w.Job != job.Renovate {
				t.Errorf("too little left, and %s", w.Job)
			}
		}
		if strings.Join(got, " ") != r.want {
			t.Errorf("%+v: %v", r, got)
		}
	}
}

// The page [job] at its bounds, and what contradicts itself in it.
func TestJobBounds(t *testing.T) {
	const head = "title = \"x\"\ncurrency = \"EUR\"\n[place]\nlatitude = 55.7\nlongitude = 13.2\n[lawn]\narea_m2 = 60\n[use]\ngrade = \"utility\"\n[job]\n"
	for text, fault := range map[string]string{
		"access_m = 0.3\n":                          "",
		"access_m = 20\n":                           "",
		"access_m = 0.29\n":                         "access_m",
		"access_m = 20.1\n":                         "access_m",
		"success = 0.5\n":                           "",
		"success = 0.99\n":                          "",
		"success = 0.49\n":                          "success",
		"success = 0.991\n":                         "success",
		"cover_percent = 100\n":                     "",
		"cover_percent = 100.1\n":                   "cover_percent",
		"kind = \"new\"\ncover_percent = 40\n":      "leave it out",
		"kind = \"overseed\"\nfound = \"paving\"\n": "no sward in it",
		"rootzone = { depth_cm = 2, sand_percent = 70, soil_percent = 30 }\n":     "",
		"rootzone = { depth_cm = 100, sand_percent = 70.5, soil_percent = 30 }\n": "",
		"rootzone = { depth_cm = 1.9, sand_percent = 70, soil_percent = 30 }\n":   "depth_cm",
		"rootzone = { depth_cm = 101, sand_percent = 70, soil_percent = 30 }\n":   "depth_cm",
		"rootzone = { depth_cm = 30, sand_percent = 70, soil_percent = 30.6 }\n":  "add to 100",
		"rootzone = { depth_cm = 30, sand_percent = 70, soil_percent = 29.4 }\n":  "add to 100",
		"rootzone = { depth_cm = 30, sand_percent = 101, soil_percent = 0 }\n":    "sand_percent",
		"not_before = 2027-05-01\nnot_after = 2027-05-02\n":                       "",
		"not_before = 2027-05-01\nnot_after = 2027-05-01\n":                       "not_after",
		"not_before = 2027-05-01\nneeded_by = 2027-05-01\n":                       "needed_by",
		"method = \"plough\"\n": "method",
	} {
		_, err := ReadBrief("", []byte(head+text), nil)
		if got := fmt.Sprint(err); (err == nil) != (fault == "") || !strings.Contains(got, fault) {
			t.Errorf("%s: %v, want %q", text, err, fault)
		}
	}
	b, err := ReadBrief("", []byte(head), nil)
	if err != nil || b.Job.Success != 0.8 || b.Job.Kind != job.New || b.Job.Found != job.Bare || b.Job.Method != job.Broadcast {
		t.Errorf("%+v, %v", b.Job, err)
	}
	dated := strings.Replace(head, "title = \"x\"\n", "title = \"x\"\ndate = 2027-04-01\n", 1)
	for text, sound := range map[string]bool{"needed_by = 2027-04-02\n": true, "needed_by = 2027-04-01\n": false, "not_after = 2027-03-31\n": false, "not_after = 2027-04-02\n": true} {
		if _, err := ReadBrief("", []byte(dated+text), nil); (err == nil) != sound {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// Doubts and hazards by what is planned, in their order.
func TestDoubtsWorked(t *testing.T) {
	z := site.Zone{}
	z.Light.OpenShare = 0.9
	c := &site.Conditions{Zones: []site.Zone{z}}
	for _, r := range []struct {
		v    mix.ZoneVerdict
		want string
	}{
		{mix.ZoneVerdict{Verdict: mix.None}, "job.no-grass-in"}, {mix.ZoneVerdict{Sown: true, Verdict: mix.Doubtful, LimitedBy: "wear"}, "job.doubtful-by"},
		{mix.ZoneVerdict{Sown: true, Verdict: mix.Doubtful, LimitedBy: "light"}, "job.doubtful-in"}, {mix.ZoneVerdict{Sown: true, Verdict: mix.Holds}, ""},
	} {
		got := doubts(Plan{Site: c, Choice: mix.Choice{Zones: []mix.ZoneVerdict{r.v}}})
		if r.want == "" && len(got) > 0 || r.want != "" && (len(got) != 1 || got[0].Name != r.want) {
			t.Errorf("%+v: %v", r.v, got)
		}
	}
	// What else grows there is told of a dark zone by the kind of its shade, refused or doubtful.
	damp := []told.Sentence{told.Say("mix.cover-damp-instead"), told.Say("mix.paths-instead")}
	for _, v := range []mix.ZoneVerdict{{Verdict: mix.None, LimitedBy: "light", Instead: damp}, {Sown: true, Verdict: mix.Doubtful, LimitedBy: "light", Instead: damp}} {
		got := doubts(Plan{Site: c, Choice: mix.Choice{Zones: []mix.ZoneVerdict{v}}})[0]
		if !slices.ContainsFunc(got.Figures, func(f told.Figure) bool { return reflect.DeepEqual(f, told.Joined(told.Clauses, damp...)) }) {
			t.Errorf("%s: %v", v.Verdict, got)
		}
	}
	for asked, want := range map[species.Grade]int{species.Ornamental: 1, species.Utility: 0} {
		if got := doubts(Plan{Site: c, Choice: mix.Choice{Asked: asked, Attainable: species.Utility}}); len(got) != want {
			t.Errorf("%s asked for: %v", asked, got)
		}
	}
	annual := &species.Species{ID: "a", Invader: true}
	for percent, want := range map[float64]int{9.9: 0, 10: 1} {
		m := &mix.Mixture{Sward: []sward.Season{{Year: 5, Shares: map[string]float64{"a": percent}}}}
		p := Plan{Site: c, Choice: mix.Choice{Mixture: m}, Matrix: species.Matrix{Rows: []species.Row{{Species: annual}}}}
		if got := doubts(p); len(got) != want {
			t.Errorf("%g %% of what nobody sowed: %v", percent, got)
		}
	}
	has := func(p Plan, name string) bool {
		return slices.ContainsFunc(hazards(p), func(s told.Sentence) bool { return s.Name == name })
	}
	p := Plan{Site: &site.Conditions{}, Found: &site.Conditions{}}
	if !has(p, "job.whatever-instead") || has(p, "job.services") {
		t.Error("hazards of no lawn")
	}
	p.Choice.Mixture = &mix.Mixture{Components: []mix.Component{{Species: &species.Species{ID: "b", Endophyte: true}}}}
	if !has(p, "job.services") || has(p, "job.dust") || has(p, "job.compost") || !has(p, "job.endophyte") || has(p, "job.practitioner") {
		t.Errorf("%v", hazards(p))
	}
	p.Brief.Use.Livestock = true
	p.Bed = bed.Bed{Materials: []bed.Material{{PriceKey: "lime_per_kg"}, {PriceKey: "compost_per_m3"}}, PuddleMM: 1}
	if !has(p, "job.dust") || !has(p, "job.compost") || !has(p, "job.endophyte-free") || has(p, "job.endophyte") || !has(p, "job.practitioner") {
		t.Errorf("%v", hazards(p))
	}
}

// Small figures by hand: an old sward's cover as a share, hours to the hundredth, up to six trees tried one by one; what a ground costs over another is
// what that costs less.
func TestGroundAndHoursWorked(t *testing.T) {
	cover := 40.0
	b := Brief{Use: species.Use{Grade: species.Utility}}
	b.Job.CoverPercent, b.Job.Found = &cover, job.Moss
	in := groundInput(b, &site.Conditions{}, job.New)
	if in.Cover != 0.4 || !in.Old || !in.Moss {
		t.Errorf("%+v", in)
	}
	if in := groundInput(b, &site.Conditions{}, job.Renovate); in.Old {
		t.Error("a renovated sward is stripped")
	}
	list := prices(t)
	hours, err := list.Hours("rake_m2_per_hour", 37)
	if err != nil {
		t.Fatal(err)
	}
	got := withHours(list, []job.Task{{OutputKey: "rake_m2_per_hour", Quantity: 37}, {Hours: 3}, {OutputKey: "nobody_knows", Quantity: 37}})
	near(t, "to the hundredth", got[0].Hours, float64(int(100*hours+0.5))/100, 1e-12)
	near(t, "as it was", got[1].Hours, 3, 0)
	near(t, "no output, no hours", got[2].Hours, 0, 0)
	for trees, each := range map[int]bool{6: true, 7: false} {
		var one Brief
		for i := range trees {
			one.Site.Obstacles = append(one.Site.Obstacles, light.Obstacle{Kind: light.Tree, At: light.Point{X: float64(20 * i)}, HeightM: 9, CrownM: 4, ClearStemM: 2})
		}
		thinned := slices.ContainsFunc(lightChanges(one), func(c change) bool { return c.what.Name == "lift.thin" })
		if thinned != each {
			t.Errorf("of %d trees each by itself: %t", trees, thinned)
		}
	}
	soil, err := ground.Survey{Texture: "clay", DepthCM: new(20.0)}.Soil()
	if err != nil {
		t.Fatal(err)
	}
	found := &site.Conditions{Soil: soil, AreaM2: 60}
	found.Weather.DesignRainMMH = 18
	made := b
	made.Job.CoverPercent, b.Job.CoverPercent = nil, nil
	b.Job.Found, made.Job.Found = job.Bare, job.Bare
	b.Job.Kind, made.Job.Kind = job.New, job.New
	made.Job.Rootzone = &job.Rootzone{DepthCM: 25, SandPercent: 70, SoilPercent: 30}
	c := mix.Choice{Mixture: &mix.Mixture{Components: []mix.Component{{Species: grass("a", "A", 90, 80), Percent: 100}}}}
	more, err := groundCost(t.Context(), list, b, made, found, c)
	if err != nil {
		t.Fatal(err)
	}
	less, err := groundCost(t.Context(), list, made, b, found, c)
	if err != nil || more.Minor <= 0 || more.Minor != -less.Minor || more.Currency != "GBP" {
		t.Errorf("a made ground costs %v more, %v (%v)", more, less, err)
	}
}
