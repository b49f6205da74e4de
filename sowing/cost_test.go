package sowing

import (
	"math"
	"testing"
	"time"

	"swardwright/mix"
	"swardwright/sowing/bed"
	"swardwright/sowing/dates"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
	"swardwright/sowing/order"
	"swardwright/sowing/rate"
	"swardwright/species"
)

// grass is a species as far as its price needs it.
func grass(id, botanical string, purity, germination float64) *species.Species {
	s := &species.Species{ID: id, Botanical: botanical}
	s.Values[species.Purity].Best, s.Values[species.Germination].Best = purity, germination
	return s
}

// stocked is a brief with a lot of ryegrass and two bags ready mixed, and a rate of
// ryegrass and fescue on 90 m².
func stocked() (Brief, rate.Rate) {
	rye, red := grass("perennial-ryegrass", "Lolium perenne", 96, 80), grass("strong-creeping-red-fescue", "Festuca rubra subsp. rubra", 90, 75)
	b := Brief{Stock: mix.Stock{
		Lots:     []mix.Lot{{Species: rye, Name: "lot 7", PurityPercent: 98, GerminationPercent: 92, PricePerKG: "4.00", BagKG: []float64{1}}},
		Premixes: []mix.Premix{{Name: "shade bag", PricePerKG: "6.00", BagKG: []float64{2}, Parts: []mix.Part{{Species: rye, Percent: 30}, {Species: red, Percent: 70}}}, {Name: "unpriced"}},
	}}
	return b, rate.Rate{GM2: 30, TotalG: 2700, SownM2: 90, Components: []rate.Component{
		{SpeciesID: rye.ID, Botanical: rye.Botanical, GM2: 10, TotalG: 900, PLS: 0.768},
		{SpeciesID: red.ID, Botanical: red.Botanical, GM2: 20, TotalG: 1800, PLS: 0.675}}}
}

func prices(t *testing.T) money.Prices {
	t.Helper()
	list, err := builtIn(t).Prices.In("GBP", map[string]string{"turf_per_m2": "4.20"})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func TestWantOrder(t *testing.T) {
	b, r := stocked()
	w, err := wantOrder(prices(t), b, r)
	if err != nil {
		t.Fatal(err)
	}
	if len(w.Lots) != 2 || w.Lots[0].Name != "lot 7" || w.Lots[0].Invented || !w.Lots[1].Invented || len(w.Premixes) != 1 {
		t.Errorf("want the brief's ryegrass, the list's fescue and the one bag with a price: %+v", w)
	}
	if math.Abs(w.Lots[0].PLS-0.98*0.92) > 1e-9 || w.Lots[0].Sizes[0].PriceMinor != 400 {
		t.Errorf("%+v", w.Lots[0])
	}
	o := order.Cheapest(w)
	if o.TotalMinor <= 0 || len(o.Short) > 0 {
		t.Errorf("%+v", o)
	}
	b.Stock.Lots[0].StockKG = 0.1
	if w, _ = wantOrder(prices(t), b, r); len(w.Lots) != 3 {
		t.Errorf("a lot that is too small leaves the rest to the list: %+v", w.Lots)
	}
	b.Stock.Lots[0].PricePerKG = "nonsense"
	if _, err := wantOrder(prices(t), b, r); err == nil {
		t.Error("a price that isn't a number is taken")
	}
}

// The bill charges the water and the cuts that the tasks say, each part of a lawn of two
// kinds its own, and none that come after the lawn bears use.
func TestBillReadsTheTasks(t *testing.T) {
	b, r := stocked()
	day := func(m time.Month, d int) time.Time { return time.Date(2027, m, d, 0, 0, 0, 0, time.UTC) }
	usable := day(7, 20)
	seed, turf := job.Zone{Letter: "A", AreaM2: 60}, job.Zone{Index: 1, Letter: "B", AreaM2: 30}
	w := Way{Kind: job.BySeedAndTurf, Sown: []job.Zone{seed}, Laid: []job.Zone{turf}, Rate: r, StartOn: day(5, 4), UsableFrom: &usable, Dates: dates.Dates{Success: 0.9}, EdgingM: 40}
	w.Bed.Materials = []bed.Material{{Quantity: 12, Unit: "m3", PriceKey: "topsoil_per_m3"}, {}, {Quantity: 60, Unit: "m2", PriceKey: "bird_line_per_m2", WithSeed: true}}
	w.Bed.Tasks = []job.Task{
		{ID: "rake", OutputKey: "rake_m2_per_hour", Quantity: 90, Unit: "m2"}, {ID: "wait"},
		{ID: "sow", Sort: job.Sowing, OutputKey: "sow_m2_per_hour", Quantity: 60, Unit: "m2"},
		{ID: "lay-turf", Sort: job.Laying, OutputKey: "lay_turf_m2_per_hour", Quantity: 30, Unit: "m2"},
	}
	both := []string{"A", "B"}
	w.Tasks = []job.Task{
		{ID: "water-young", Sort: job.Watering, Zones: []string{"A"}, AreaM2: 60, Date: day(5, 4), Until: day(5, 24), Goes: 12, Litres: 3000, DryLitres: 4500, First: true},
		{ID: "water-turf", Sort: job.Watering, Zones: []string{"B"}, AreaM2: 30, Date: day(5, 4), Goes: 1, Litres: 600, DryLitres: 600, First: true},
		{ID: "water-lawn", Sort: job.Watering, Zones: both, AreaM2: 90, Date: day(7, 1), Until: day(7, 31), Goes: 3, Litres: 900, DryLitres: 1500},
		{ID: "water-lawn-2", Sort: job.Watering, Zones: both, AreaM2: 90, Date: day(8, 1), Goes: 3, Litres: 900},
		{ID: "first-cut", Sort: job.Mowing, Hours: 0.2, Zones: both, AreaM2: 90, Date: day(6, 8), Goes: 1, First: true},
		{ID: "mow", Sort: job.Mowing, Hours: 0.2, Zones: both, AreaM2: 90, Date: day(6, 20), Until: day(8, 18), Goes: 6, First: true},
		{ID: "mow-robot", Sort: job.Mowing, Zones: both, AreaM2: 90, Date: day(6, 20), Until: day(8, 18), Goes: 60, First: true}, // needs nobody
		{ID: "mow-2", Sort: job.Mowing, Hours: 0.2, Zones: both, AreaM2: 90, Date: day(8, 1), Goes: 4, First: true},
	}
	w.Year.Scythed = true
	in := billInput(prices(t), b, w)
	// 900 litres of July shared by area: 600 and 300. Half of the mowing of 60 days.
	if s := in.Sowing; s.Litres != 3600 || s.DryLitres != 5500 || s.Cuts != 4 || s.Success != 0.9 || !s.Scythed {
		t.Errorf("sown part: %+v", *s)
	}
	if s := in.Laying; s.Litres != 900 || s.Cuts != 4 {
		t.Errorf("laid part: %+v", *s)
	}
	again := map[string]job.Way{}
	for _, q := range in.Work {
		again[q.Key] = q.Again
	}
	if len(again) != 5 || again["rake_m2_per_hour"] != "" || again["topsoil_per_m3"] != "" || again["bird_line_per_m2"] != job.BySeed || again["sow_m2_per_hour"] != job.BySeed || again["lay_turf_m2_per_hour"] != job.ByTurf {
		t.Errorf("done again where it fails: %v", again)
	}
	if got := waterOf(w); got.Goes != 16 || got.Litres != 4500 || !got.Until.Equal(usable) {
		t.Errorf("water %+v", got)
	}
}
