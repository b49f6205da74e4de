package sowing

import (
	"context"
	"math"
	"testing"
	"time"

	"swardwright/mix"
	"swardwright/site"
	"swardwright/site/light"
	"swardwright/sowing/bed"
	"swardwright/sowing/dates"
	"swardwright/sowing/money"
	"swardwright/sowing/order"
	"swardwright/sowing/rate"
	"swardwright/species"
)

// pricedPlan is a plan of two grasses in two zones, as far as its price needs it.
func pricedPlan() Plan {
	grass := func(id, botanical string, purity, germination float64) *species.Species {
		s := &species.Species{ID: id, Botanical: botanical}
		s.Values[species.Purity].Best, s.Values[species.Germination].Best = purity, germination
		return s
	}
	rye := grass("perennial-ryegrass", "Lolium perenne", 96, 80)
	rye.Facts = map[species.Fact]string{species.SoldAsTurf: "common practice, no published source"}
	red := grass("strong-creeping-red-fescue", "Festuca rubra subsp. rubra", 90, 75)
	day := func(m time.Month, d int) time.Time { return time.Date(2027, m, d, 0, 0, 0, 0, time.UTC) }
	p := Plan{Site: &site.Conditions{AreaM2: 100, EdgingM: 40, Zones: []site.Zone{
		{Zone: light.Zone{Name: "open", AreaM2: 60}}, {Zone: light.Zone{Name: "shade", AreaM2: 30}}, {Zone: light.Zone{Name: "dark", AreaM2: 10}},
	}}}
	p.Choice.Mixture = &mix.Mixture{Components: []mix.Component{{Species: rye}, {Species: red}}}
	p.Choice.Zones = []mix.ZoneVerdict{{Zone: 0, Holds: true}, {Zone: 1, Holds: true}, {Zone: 2}}
	p.Matrix.Rows = []species.Row{{Species: rye, Zone: 0, Class: species.S1}, {Species: rye, Zone: 1, Class: species.S3}, {Species: red, Zone: 1, Class: species.S1}}
	p.Rate = rate.Rate{GM2: 30, TotalG: 2700, Components: []rate.Component{
		{SpeciesID: rye.ID, GM2: 10, TotalG: 900, PLS: 0.768}, {SpeciesID: red.ID, GM2: 20, TotalG: 1800, PLS: 0.675}}}
	p.Bed.Materials = []bed.Material{{Item: "topsoil", Quantity: 12, Unit: "m3", PriceKey: "topsoil_per_m3", For: "to make up the depth"}, {Item: "spoil"}}
	p.Bed.Steps = []bed.Step{{Title: "Wait"}, {Title: "Rake", OutputKey: "rake_m2_per_hour", Quantity: 100, Unit: "m2", DaysBefore: 2}, {Title: "Sow", OutputKey: "sow_m2_per_hour", Quantity: 100, Unit: "m2"}}
	p.Dates = dates.Dates{SowOn: day(4, 28), FirstMow: new(day(6, 8)), UsableFrom: new(day(7, 20)), TurfOn: new(day(4, 20)), TurfUsableFrom: new(day(5, 18)), TurfSuccess: 0.97,
		Windows: []dates.Window{{BestSuccess: 0.9}}, Watering: []dates.Week{{Number: 1, MeanMM: 10, DryMM: 18}, {Number: 2, MeanMM: 8, DryMM: 16}, {Number: 3}, {Number: 4, MeanMM: 6, DryMM: 14}}}
	p.Brief.Stock = mix.Stock{
		Lots:     []mix.Lot{{Species: rye, Name: "lot 7", PurityPercent: 98, GerminationPercent: 92, PricePerKG: "4.00", BagKG: []float64{1}}},
		Premixes: []mix.Premix{{Name: "shade bag", PricePerKG: "6.00", BagKG: []float64{2}, Parts: []mix.Part{{Species: rye, Percent: 30}, {Species: red, Percent: 70}}}, {Name: "unpriced"}},
	}
	return p
}

func prices(t *testing.T) money.Prices {
	t.Helper()
	built, err := BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	list, err := built.Prices.In("GBP", map[string]string{"turf_per_m2": "4.20"})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func TestWantOrder(t *testing.T) {
	p := pricedPlan()
	w, err := p.wantOrder(prices(t), 90)
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
	p.Brief.Stock.Lots[0].StockKG = 0.1
	if w, _ = p.wantOrder(prices(t), 90); len(w.Lots) != 3 {
		t.Errorf("a lot that is too small leaves the rest to the list: %+v", w.Lots)
	}
	p.Brief.Stock.Lots[0].PricePerKG = "nonsense"
	if _, err := p.wantMoney(prices(t), 1); err == nil {
		t.Error("a price that isn't a number is taken")
	}
}

func TestWantMoney(t *testing.T) {
	p := pricedPlan()
	j, err := p.wantMoney(prices(t), 1)
	if err != nil {
		t.Fatal(err)
	}
	if !j.Zones[0].TurfSuits || j.Zones[1].TurfSuits || j.Zones[2].Holds || !j.Zones[1].Holds {
		t.Errorf("zones %+v", j.Zones)
	}
	if len(j.Ground) != 3 || j.Ground[0].Amount != 10.8 || j.Ground[1].For != "" || j.Ground[2].For != money.Seed {
		t.Errorf("ground %+v", j.Ground)
	}
	if s := j.Sowing; s.WaterMM != 24 || s.DryMM != 48 || s.Waterings != 12 || s.Success != 0.9 {
		t.Errorf("sowing %+v", s)
	}
	if s := j.Laying; s.WaterMM != 38 || s.DryMM != 104 || s.Success != 0.97 {
		t.Errorf("laying %+v", s)
	}
	c, err := money.Compare(context.Background(), j)
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Bills) != 3 || c.Bills[0].AreaM2 != 90 || !c.ExamplePrices {
		t.Errorf("%d bills of %v m²", len(c.Bills), c.Bills[0].AreaM2)
	}
	p.Brief.Job.Kind = Overseed
	if j, _ := p.wantMoney(prices(t), 1); j.Laying != nil {
		t.Error("an overseeded lawn is turfed")
	}
	p.Choice.Mixture = nil
	j, _ = p.wantMoney(prices(t), 1)
	if c, err := money.Compare(context.Background(), j); err != nil || len(c.Bills) != 0 {
		t.Errorf("%d bills where no grass holds (%v)", len(c.Bills), err)
	}
}
