package money

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"swardwright/internal/approx"
	"swardwright/internal/told"
	"swardwright/sowing/job"
)

// firm are the figures that the bills below are worked by hand from.
func firm(t *testing.T, more map[string]string) Prices {
	list := map[string]string{
		"labour_per_hour": "30", "mow_m2_per_hour": "500", "weed_m2_per_hour": "100", "water_per_m3": "2", "care_cuts": "8", "edge_m_per_hour": "40",
		"resow_percent": "60", "relay_percent": "30", "load_m3": "6", "roll_m2": "1", "pallet_m2": "50", "pallets_per_load": "10", "turf_waste_percent": "5",
		"turf_waste_curved_percent": "10", "turf_per_m2": "8", "delivery_per_load": "60", "cultivator_per_day": "55", "access_percent": "0",
		"margin_percent": "15", "discount_percent": "4", "tax_percent": "20", "deposit_percent": "25", "bird_line_per_m2": "0.05",
	}
	for k, v := range more {
		list[k] = v
	}
	return load(t, list, "EUR")
}

// line finds a line of a bill by the name of its item.
func line(t *testing.T, b Bill, item string) Line {
	t.Helper()
	i := slices.IndexFunc(b.Lines, func(l Line) bool { return l.Item.Name == item })
	if i < 0 {
		t.Fatalf("no line %s in %+v", item, b.Lines)
	}
	return b.Lines[i]
}

var near = approx.Near

// A sown lawn of 100 m² by hand: 12 cuts, of which the bill has 8, of 100 m² at 500 m² an hour are 1.6 hours, 48.00; 6 m³
// of water are 12.00; weeding takes an hour; 40 m of edge an hour.
func TestSownBillWorked(t *testing.T) {
	for _, r := range []struct {
		cuts      int
		hours     float64
		cost      string
		dry       float64
		low, high float64
	}{{12, 1.6, "48.00", 11000, 0.2, 11.0 / 6}, {8, 1.6, "48.00", 9000, 0.5, 1.5}, {7, 1.4, "42.00", 6000, 1, 1}, {1, 0.2, "6.00", 5000, 1, 1}} {
		in := lawn(firm(t, nil), 100).seed
		in.Sowing.Cuts, in.Sowing.Litres, in.Sowing.DryLitres = r.cuts, 6000, r.dry
		b := billOf(t, in)
		cut, water := line(t, b, "money.cut-sown"), line(t, b, "money.water-sown")
		near(t, fmt.Sprint(r.cuts, " cuts, hours"), cut.Quantity, r.hours, 1e-9)
		if cut.Amount.String() != r.cost || water.Amount.String() != "12.00" {
			t.Errorf("%d cuts come to %s, water to %s", r.cuts, cut.Amount, water.Amount)
		}
		near(t, "a dry year over a mean one", water.High, r.high, 1e-9)
		near(t, "a wet one", water.Low, r.low, 1e-9) // as much less as a dry one is more, and no less than a fifth
		near(t, "weeding, hours", line(t, b, "money.weeding").Quantity, 1, 1e-9)
		near(t, "edging 40 m, hours", line(t, b, "money.edge").Quantity, 1, 1e-9)
	}
	// By scythe: two cuts of 100 m² at 120 m² an hour are 1.67 hours.
	long := lawn(firm(t, nil), 100).seed
	long.Sowing.Cuts, long.Sowing.Scythed = 2, true
	near(t, "by scythe, hours", line(t, billOf(t, long), "money.cut-sown").Quantity, 1.67, 1e-9)
	// Sown again: at a chance of 0.9 0.11 times more, each 60 % of the seed, its work and care and another raking.
	in := lawn(firm(t, nil), 100).seed
	b := billOf(t, in)
	again := line(t, b, "money.sow-again")
	sum := 0.0
	for _, l := range b.Lines {
		if l.Group == Aftercare || l.Group == Labour && l.Item.Name != "money.edge" || l.Item.Name == "money.bag-of" {
			sum += l.Amount.float()
		}
	}
	x, _ := in.Prices.output("rake_m2_per_hour", 100)
	sum += math.Round(100*100/x.Best.InexactFloat64()) / 100 * 30
	near(t, "attempts", again.Quantity, 0.11, 1e-9)
	near(t, "one of them", again.Rate.InexactFloat64(), 0.6*sum, 0.011)
	for success, attempts := range map[float64]float64{0.5: 0.9375, 0: 4, 0.8: 0.2496, 1: 0} { // 1/2 + 1/4 + 1/8 + 1/16: nobody tries for ever
		near(t, "attempts after the first", furtherAttempts(success), attempts, 1e-9)
	}
}

// Turf of 100 m² by hand: 105 rolls of a square metre with the waste, 110 on a curved plot, on 3 pallets; 10 pallets a load.
func TestTurfBillWorked(t *testing.T) {
	for _, r := range []struct {
		m2     float64
		curved bool
		rolls  float64
		loads  float64
	}{{100, false, 105, 1}, {100, true, 110, 1}, {476, false, 500, 1}, {477, false, 501, 2}, {1000, true, 1100, 3}} {
		in := lawn(firm(t, nil), r.m2).turf
		in.Curved = r.curved
		b := billOf(t, in)
		near(t, "rolls", line(t, b, "money.turf").Quantity, r.rolls, 1e-9)
		near(t, "loads", line(t, b, "money.deliver-turf").Quantity, r.loads, 1e-9)
		near(t, "cost", line(t, b, "money.turf").Amount.float(), 8*r.rolls, 1e-9)
	}
	// Rolls of 0.8 m²: 105 m² are 131.25 of them, 132 rolls of 105.6 m² on 3 pallets of 50 m²; 95 m² with the waste are 119 rolls, 95.2 m², on 2.
	for m2, want := range map[float64][3]float64{100: {105.6, 844.8, 3}, 90.4: {95.2, 761.6, 2}} {
		b := billOf(t, lawn(firm(t, map[string]string{"roll_m2": "0.8", "pallets_per_load": "1"}), m2).turf)
		near(t, "turf in rolls of 0.8 m²", line(t, b, "money.turf").Quantity, want[0], 1e-9)
		near(t, "its cost", line(t, b, "money.turf").Amount.float(), want[1], 1e-9)
		near(t, "pallets, each a load", line(t, b, "money.deliver-turf").Quantity, want[2], 1e-9)
	}
	b := billOf(t, lawn(firm(t, nil), 100).turf)
	near(t, "laid again at 0.95: 0.05 times", line(t, b, "money.lay-again").Quantity, 0.05, 1e-9)
	in := lawn(firm(t, nil), 100).both
	b = billOf(t, in)
	near(t, "the worse chance counts", b.Success, 0.9, 1e-9)
	near(t, "area", b.AreaM2, 100, 1e-9)
}

// Margin of 15 %, a discount of 4 % off that, tax of 20 % on the rest, a quarter down: by hand for 1,000.00.
func TestTotalWorked(t *testing.T) {
	b := Bill{AreaM2: 80, Lines: []Line{{Amount: Amount{60000, "EUR"}}, {Amount: Amount{40000, "EUR"}}}}
	if err := b.total(firm(t, nil)); err != nil {
		t.Fatal(err)
	}
	for what, pair := range map[string][2]string{
		"net": {b.Net.String(), "1000.00"}, "margin": {b.Margin.String(), "150.00"}, "discount": {b.Discount.String(), "46.00"}, "tax": {b.Tax.String(), "220.80"},
		"total": {b.Total.String(), "1324.80"}, "deposit": {b.Deposit.String(), "331.20"}, "a square metre": {b.PerM2.String(), "16.56"},
	} {
		if pair[0] != pair[1] {
			t.Errorf("%s: %s, want %s", what, pair[0], pair[1])
		}
	}
}

// Plant by the day of 5¼ productive hours (BS 7370 part 1: 5 to 5.5 of a day of 8).
func TestHireWorked(t *testing.T) {
	for hours, days := range map[float64]float64{5: 1, 5.25: 1, 5.26: 2, 10.5: 2, 10.51: 3} {
		b := &biller{prices: firm(t, nil), plant: []hired{{"cultivator_per_day", hours / 2}, {"cultivator_per_day", hours / 2}}}
		b.hire()
		if b.err != nil || len(b.lines) != 1 || b.lines[0].Quantity != days {
			t.Errorf("%g hours: %+v (%v), want %g days", hours, b.lines, b.err, days)
		}
	}
}

// Loads by hand: 13 m³ of topsoil are two of 6 and one over; with 5.1 m³ of sand the 6.1 m³ over make two more, with 5 one.
func TestHaulWorked(t *testing.T) {
	for sand, loads := range map[float64]float64{5: 3, 5.1: 4, 0: 3} {
		b := &biller{prices: firm(t, nil), bulk: []heap{{"topsoil_per_m3", told.Say("bed.item-topsoil"), 13}, {"sand_per_m3", told.Say("bed.washed-sand"), sand}}}
		b.haul()
		if b.lines[0].Quantity != loads {
			t.Errorf("13 m³ and %g: %g loads, want %g", sand, b.lines[0].Quantity, loads)
		}
	}
}

// A price at which the ways cost the same leaves no gap, and an area at which they do lies between two that differ.
func TestTurnsLeaveNoGap(t *testing.T) {
	j := lawn(firm(t, map[string]string{"weed_m2_per_hour": "5", "turf_per_m2": "3", "delivery_per_load": "250"}), 100)
	seed, turf := billOf(t, j.seed), billOf(t, j.turf)
	p := pair{j.seed, j.turf, j.offer}
	at, ok, err := p.linear("turf_per_m2")
	if err != nil || !ok {
		t.Fatalf("no turn by the price of turf: %v", err)
	}
	if gap, err := p.gap("turf_per_m2", at); err != nil || math.Abs(gap) > 0.05 {
		t.Errorf("turf at %g is still %g dearer (%v)", at, gap, err)
	}
	turn, ok, err := p.byArea(seed, turf)
	if err != nil {
		t.Fatal(err)
	}
	if ok {
		m2 := float64(turn.At.(told.AreaM2))
		gap := func(m2 float64) float64 {
			d, err := pair{p.seed.scaled(m2 / 100), p.turf.scaled(m2 / 100), p.offer}.dearer()
			if err != nil {
				t.Fatal(err)
			}
			return d
		}
		turns := false // rolls are whole, so that the gap has steps: within half a metre below
		for below := 0.05; below <= 0.5; below += 0.05 {
			turns = turns || (gap(m2) > 0) != (gap(m2-below) > 0)
		}
		if !turns || m2 < 100 || m2 > 300 {
			t.Errorf("at %g m² nothing turns", m2)
		}
	} else {
		t.Error("a delivery of 250 turns at no area")
	}
	// On a lawn twice as large all is twice as much, but its edge √2 times.
	in := lawn(firm(t, nil), 100).both.scaled(4)
	near(t, "sown", in.SownM2, 100, 1e-9)
	near(t, "laid", in.LaidM2, 300, 1e-9)
	near(t, "edge", in.EdgingM, 80, 1e-9)
	near(t, "water", in.Sowing.Litres, 6000, 1e-9)
	near(t, "water in a dry year", in.Sowing.DryLitres, 11000, 1e-9)
	near(t, "water of turf", in.Laying.DryLitres, 30000, 1e-9)
	near(t, "work", in.Work[0].Amount, 400, 1e-9)
}

// The nearest-rank percentile of ten: the first, fifth and ninth. And each cause is drawn once from every equal part.
func TestDrawsWorked(t *testing.T) {
	ten := []float64{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}
	for p, want := range map[float64]int64{0.1: 1, 0.5: 5, 0.9: 9, 0: 1, 1: 10, 0.11: 2} {
		if got := percentile(ten, p, "EUR").Minor; got != want {
			t.Errorf("percentile %g: %d, want %d", p, got, want)
		}
	}
	drawn := slices.Sorted(slices.Values(column("weather", 7)))
	for i, u := range drawn {
		if u < float64(i)/draws || u > float64(i+1)/draws {
			t.Fatalf("draw %d is %g", i, u)
		}
	}
	c := compare(t, lawn(firm(t, nil), 100))
	for _, b := range c.Bills {
		last := int64(math.MaxInt64)
		for _, d := range b.Drivers {
			// But for the weather, whose failures lie beyond its P90, a cause does both.
			if d.Cause != weatherCause && (d.Low.Minor >= b.Total.Minor || d.High.Minor <= b.Total.Minor) {
				t.Errorf("%s, %s: %s to %s about %s", b.Way, d.Cause, d.Low, d.High, b.Total)
			}
			reach := d.High.Minor - d.Low.Minor
			if reach < 0 || reach > last {
				t.Errorf("%s, %s: reaches further than the one before it", b.Way, d.Cause)
			}
			last = reach
		}
	}
	// What a day that turf wins costs: the difference over the 55 days from 26 May to 20 July.
	if want := math.Round(float64(c.find(job.ByTurf).Total.Minor-c.find(job.BySeed).Total.Minor) / 55); c.DaysEarlier != 55 || float64(c.EarlierPerDay.Minor) != want {
		t.Errorf("%d days sooner at %s a day, want %g", c.DaysEarlier, c.EarlierPerDay, want)
	}
}

// Where turf becomes the cheaper way, by hand: seed at 10.00 and weeding at 0.30 a square metre against turf at 8.00 and one delivery, whatever the
// size, are even at delivery/2.30 square metres. Turns are told between 5 and 5,000 m², and of a price those at less than a hundred times what it is.
func TestTurnsByHand(t *testing.T) {
	even := func(delivery string, turf string) pair {
		prices := firm(t, map[string]string{"turf_waste_percent": "0", "roll_m2": "0.1", "spot_weed_m2_per_hour": "100", "pallets_per_load": "1000", "delivery_per_load": delivery, "turf_per_m2": turf})
		return pair{
			seed:  Input{Way: job.BySeed, Prices: prices, SownM2: 100, Sowing: &Start{Success: 1}, Seed: func(m2 float64) []Bag { return []Bag{{KG: 1, Count: 1, Price: Amount{int64(1000 * m2), "EUR"}}} }},
			turf:  Input{Way: job.ByTurf, Prices: prices, LaidM2: 100, Laying: &Start{Success: 1}},
			offer: Offer{Prices: prices},
		}
	}
	for _, r := range []struct {
		delivery string
		low, m2  float64 // 0: none is told
	}{{"10.58", 0, 0}, {"12.65", 5.2, 6.1}, {"230", 99, 101}, {"10810", 4690, 4710}, {"12420", 0, 0}} {
		p := even(r.delivery, "8")
		turn, ok, err := p.byArea(billOf(t, p.seed), billOf(t, p.turf))
		if err != nil || ok != (r.m2 > 0) {
			t.Fatalf("a delivery of %s: %+v, %t, %v", r.delivery, turn, ok, err)
		}
		if !ok {
			continue
		}
		if m2 := float64(turn.At.(told.AreaM2)); m2 < r.low || m2 > r.m2 || turn.Means.Name != "money.turf-above" {
			t.Errorf("a delivery of %s turns at %g m², by hand between %g and %g (%s)", r.delivery, m2, r.low, r.m2, turn.Means.Name)
		}
	}
	// A delivery of 230 makes turf at 8.00 as dear as seed on 100 m²; turf at 0.09 might cost 89 times as much, at 0.07 114 times.
	for price, told := range map[string]bool{"8": true, "0.09": true, "0.07": false} {
		at, ok, err := even("230", price).linear("turf_per_m2")
		if near(t, "turf as dear as seed", at, 8, 0.01); ok != told || err != nil {
			t.Errorf("turf at %s: a turn is told %t (%v)", price, ok, err)
		}
	}
}
