package money

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/shopspring/decimal"

	"swardwright/internal/told"
	"swardwright/sowing/job"
)

// What can be billed, at its bounds: 100 million square metres, metres or kilograms, a thousand times as many litres, chances to one.
func TestBillBounds(t *testing.T) {
	for name, r := range map[string]struct {
		most float64
		set  func(in *Input, x float64)
	}{
		"area sown":  {1e8, func(in *Input, x float64) { in.SownM2 = x }},
		"area laid":  {1e8, func(in *Input, x float64) { in.LaidM2 = x }},
		"edging":     {1e8, func(in *Input, x float64) { in.EdgingM = x }},
		"work":       {1e8, func(in *Input, x float64) { in.Work = []Quantity{{Key: "rake_m2_per_hour", Amount: x}} }},
		"success":    {1, func(in *Input, x float64) { in.Sowing.Success = x }},
		"litres":     {1e11, func(in *Input, x float64) { in.Sowing.Litres = x }},
		"dry litres": {1e11, func(in *Input, x float64) { in.Laying.DryLitres = x }},
	} {
		for x, sound := range map[float64]bool{0: true, r.most: true, r.most * 1.001: false, -0.001: false, math.NaN(): false, math.Inf(1): false} {
			in := lawn(firm(t, nil), 100).both
			r.set(&in, x)
			if err := in.check(); (err == nil) != sound {
				t.Errorf("%s of %g: %v", name, x, err)
			}
		}
	}
	// A price to a thousand million, an output to a million, a term to 100,000, and both to a hundred times the list's own; a share to
	// a hundred; six places and no more.
	price := func(kind Kind, best int64, unit string) Price {
		return Price{Kind: kind, Best: decimal.NewFromInt(best), Unit: unit}
	}
	for _, r := range []struct {
		x     Price
		v     string
		sound bool
	}{
		{price(PriceKind, 5, "m2"), "1000000000", true}, {price(PriceKind, 5, "m2"), "1000000001", false}, {price(PriceKind, 5, "m2"), "0", true}, {price(PriceKind, 5, "m2"), "-0.01", false},
		{price(OutputKind, 20000, "m2"), "1000000", true}, {price(OutputKind, 20000, "m2"), "1000001", false}, {price(OutputKind, 50, "m2"), "5000", true}, {price(OutputKind, 50, "m2"), "5001", false}, {price(OutputKind, 50, "m2"), "0.5", true}, {price(OutputKind, 50, "m2"), "0.49", false},
		{price(TermKind, 2000, "m2"), "100000", true}, {price(TermKind, 2000, "m2"), "100001", false}, {price(TermKind, 20, "%"), "100", true}, {price(TermKind, 20, "%"), "100.1", false}, {price(TermKind, 20, "%"), "0", true}, {price(TermKind, 30, "days"), "0", true}, {price(TermKind, 30, "m3"), "0", false},
		{price(PriceKind, 5, "m2"), "0.000001", true}, {price(PriceKind, 5, "m2"), "0.0000001", false}, {price(PriceKind, 5, "m2"), "1e9", true}, {price(PriceKind, 5, "m2"), "1e10", false},
	} {
		v, err := decimal.NewFromString(r.v)
		if err != nil {
			t.Fatal(err)
		}
		if err := r.x.allows(v); (err == nil) != r.sound {
			t.Errorf("%s of %s (%s): %v", r.x.Kind, r.v, r.x.Unit, err)
		}
	}
	// Money is written with the places of its currency, other figures plainly; what a brief gives in place of the list's is its own.
	x := Price{Kind: PriceKind, Best: decimal.RequireFromString("4.5"), Listed: decimal.RequireFromString("4")}
	if x.Figure("EUR") != "4.50" || x.ListFigure("EUR") != "4.00" || !x.Invented() {
		t.Errorf("%s, %s", x.Figure("EUR"), x.ListFigure("EUR"))
	}
	x.Kind, x.Overridden = OutputKind, true
	if x.Figure("EUR") != "4.5" || x.Invented() {
		t.Errorf("%s", x.Figure("EUR"))
	}
}

// The distribution of a three-point estimate against the beta that it is, by Simpson's rule: α = 1 + 4(m − o)/(p − o), β = 6 − α; one
// that is even about its likeliest value is so at every quantile.
func TestSpreadAgainstBeta(t *testing.T) {
	for _, r := range [][2]float64{{0.5, 1.5}, {0.8, 1.5}, {0.9, 1}, {1, 3}} {
		s := newSpread(r[0], r[1])
		alpha := 1 + 4*(1-r[0])/(r[1]-r[0])
		beta := 6 - alpha
		density := func(x float64) float64 { return math.Pow(x, alpha-1) * math.Pow(1-x, beta-1) }
		integral := func(to float64) (sum float64) {
			const n = 2000
			for i := range n {
				a, b := to*float64(i)/n, to*float64(i+1)/n
				sum += (b - a) / 6 * (density(a) + 4*density((a+b)/2) + density(b))
			}
			return sum
		}
		whole := integral(1)
		for _, u := range []float64{0.01, 0.1, 0.25, 0.5, 0.75, 0.9, 0.99} {
			x := (s.at(u) - r[0]) / (r[1] - r[0])
			near(t, fmt.Sprintf("%g to %g: share under its quantile of %g", r[0], r[1], u), integral(x)/whole, u, 0.0006)
		}
		near(t, "the least", s.at(0), r[0], 0.002*(r[1]-r[0]))
		near(t, "the most", s.at(1), r[1], 1e-12)
		if r == [2]float64{0.5, 1.5} {
			for k := range 257 {
				u := float64(k) / 256
				near(t, fmt.Sprintf("even about 1 at %g", u), s.at(u)+s.at(1-u), 2, 1e-9)
			}
		}
	}
	near(t, "no spread", newSpread(1, 1).at(0.3), 1, 0)
}

// What a bill is likely to come to, by all its draws again: the 10th, 50th and 90th of a hundred, and how often turf is the cheaper.
func TestChancesCounted(t *testing.T) {
	weedy := map[string]string{"weed_m2_per_hour": "5"}
	j := lawn(firm(t, weedy), 100)
	even, _, err := pair{j.seed, j.turf, j.offer}.linear("turf_per_m2")
	if err != nil {
		t.Fatal(err)
	}
	weedy["turf_per_m2"] = fmt.Sprintf("%.2f", even)
	j = lawn(firm(t, weedy), 100)
	c := compare(t, j)
	drawn := map[job.Way][]float64{}
	for _, b := range c.Bills {
		totals, err := b.vary(j.offer.RandSeed).sample(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		drawn[b.Way] = totals
		under := func(a Amount) (share float64) {
			for _, x := range totals {
				if x <= float64(a.Minor)+0.5 {
					share += 1.0 / draws
				}
			}
			return share
		}
		for what, pair := range map[string][2]float64{"10th": {under(b.P10), 0.1}, "50th": {under(b.P50), 0.5}, "90th": {under(b.P90), 0.9}} {
			near(t, fmt.Sprintf("%s: %s", b.Way, what), pair[0], pair[1], 0.012) // failures come in steps
		}
		// Line by line, as the first draw has them.
		net := 0.0
		for _, l := range b.Lines {
			switch {
			case l.Cause == "":
				net += float64(l.Amount.Minor)
			case !l.retry:
				net += float64(l.Amount.Minor) * newSpread(l.Low, l.High).at(column(l.Cause, j.offer.RandSeed)[0])
			default:
				u := column(l.Cause, j.offer.RandSeed)[0]
				for k := 1; k <= 4 && 1-u < math.Pow(1-l.success, float64(k)); k++ {
					net += l.repeat
				}
			}
		}
		near(t, string(b.Way)+": the first draw", totals[0], net*b.Total.float()/b.Net.float(), 0.01)
	}
	cheaper := 0
	for i, x := range drawn[job.BySeed] {
		if drawn[job.ByTurf][i] < x {
			cheaper++
		}
	}
	near(t, "turf the cheaper", c.TurfCheaperChance, float64(cheaper)/4000, 1e-12)
	if cheaper == 0 || cheaper == 4000 {
		t.Errorf("%d of 4000 draws tell nothing", cheaper)
	}
	// A cause that does nothing to the total is none of its drivers.
	b := Bill{Net: Amount{100, "EUR"}, Total: Amount{120, "EUR"}, Lines: []Line{{Amount: Amount{40, "EUR"}, Cause: "a", Low: 1, High: 1}, {Amount: Amount{60, "EUR"}, Cause: "b", Low: 0.5, High: 2}}}
	v := b.vary(1)
	drivers := v.drivers(b)
	if len(drivers) != 1 || drivers[0].Cause != "b" {
		t.Fatalf("%+v", drivers)
	}
	s := newSpread(0.5, 2)
	near(t, "its low, with what is charged on top", float64(drivers[0].Low.Minor), 120+math.Round((60*s.at(0.1)-60)*1.2), 0)
	near(t, "its high", float64(drivers[0].High.Minor), 120+math.Round((60*s.at(0.9)-60)*1.2), 0)
}

// What is hardly anything is a hundredth of its unit, and no hours are none.
func TestLeastOfALine(t *testing.T) {
	b := &biller{prices: firm(t, nil)}
	b.price(Materials, told.Say("money.edge"), 0.0001, "turf_per_m2", told.Say("money.edge"))
	b.work(Labour, told.Say("money.edge"), 0.0001, "rake_m2_per_hour", told.Say("money.edge"))
	b.price(Materials, told.Say("money.edge"), 0, "turf_per_m2", told.Say("money.edge"))
	b.repeated(Labour, told.Say("money.edge"), 0, 9, "rake_m2_per_hour", told.Say("money.edge"))
	if b.err != nil || len(b.lines) != 2 || b.lines[0].Quantity != 0.01 || b.lines[1].Quantity != 0.01 {
		t.Errorf("%+v, %v", b.lines, b.err)
	}
	// A bag at the brief's own price costs that and no more or less.
	in := lawn(firm(t, nil), 100).seed
	in.Seed = func(float64) []Bag { return []Bag{{KG: 1, Count: 3, Price: Amount{400, "EUR"}}} }
	bag := line(t, billOf(t, in), "money.bag-of")
	if bag.Low != 1 || bag.High != 1 || bag.Cause != "" || bag.Invented || bag.Amount.Minor != 1200 {
		t.Errorf("%+v", bag)
	}
	// Labour of 50 m² three times over, at its output; its range is that of the output turned over.
	b = &biller{prices: firm(t, map[string]string{"rake_m2_per_hour": "60"})}
	b.repeated(Labour, told.Say("money.edge"), 3, 50, "rake_m2_per_hour", told.Say("money.edge"))
	near(t, "hours", b.lines[0].Quantity, 2.5, 1e-9)
	near(t, "cost", b.lines[0].Amount.float(), 75, 1e-9)
	x, _ := builtIn(t).In("EUR", nil)
	out, _ := x.output("rake_m2_per_hour", 50)
	b = &biller{prices: x}
	b.repeated(Labour, told.Say("money.edge"), 1, 50, "rake_m2_per_hour", told.Say("money.edge"))
	near(t, "at the best output", b.lines[0].Low, out.Best.InexactFloat64()/out.High.InexactFloat64(), 1e-12)
	near(t, "at the worst", b.lines[0].High, out.Best.InexactFloat64()/out.Low.InexactFloat64(), 1e-12)
}

// A wage at which the ways cost the same: above it turf is the cheaper where turf takes fewer hours, and a turn beyond a hundred times
// the price is none.
func TestTurnByLabour(t *testing.T) {
	j := lawn(firm(t, map[string]string{"weed_m2_per_hour": "5"}), 100) // weeding takes 20 hours
	p := pair{j.seed, j.turf, j.offer}
	seed, turf := billOf(t, j.seed), billOf(t, j.turf)
	at, ok, err := p.linear("labour_per_hour")
	if err != nil || !ok {
		t.Fatalf("no turn: %v", err)
	}
	turn, _, _ := p.byLabour(seed, turf)
	for factor, dearer := range map[float64]bool{0.9: true, 1.1: false} {
		gap, err := p.gap("labour_per_hour", at*factor)
		if err != nil || (gap > 0) != dearer {
			t.Errorf("at %g of %g an hour turf is %g dearer (%v)", factor, at, gap, err)
		}
	}
	if turn.Means.Name != "money.turf-above" {
		t.Errorf("%v", turn.Means)
	}
	// The same seen from a wage above the turn.
	j = lawn(firm(t, map[string]string{"weed_m2_per_hour": "5", "labour_per_hour": fmt.Sprint(math.Round(2 * at))}), 100)
	p = pair{j.seed, j.turf, j.offer}
	again, ok, err := p.byLabour(billOf(t, j.seed), billOf(t, j.turf))
	if err != nil || !ok || again.Means.Name != "money.turf-above" {
		t.Errorf("%v, %t, %v", again.Means, ok, err)
	}
	// Turf of a cent would have to cost so many times more that it tells nothing.
	j = lawn(firm(t, map[string]string{"weed_m2_per_hour": "1", "turf_per_m2": "0.05"}), 100)
	p = pair{j.seed, j.turf, j.offer}
	if at, ok, _ := p.linear("turf_per_m2"); ok || at < 5 {
		t.Errorf("a turn at %g a square metre, a hundred times the price and more: %t", at, ok)
	}
}
