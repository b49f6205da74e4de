package money

import (
	"fmt"
	"math"
	"slices"
	"swardwright/internal/told"

	"github.com/shopspring/decimal"
)

// Areas between which a turn is looked for.
const (
	leastAreaM2 = 5.0
	mostAreaM2  = 5000.0
)

// pair is a way by seed and the way by turf, between which the answer may turn.
type pair struct {
	seed, turf Input
	offer      Offer
}

// breakEvens finds where turf becomes the cheaper way, or the only one in time.
func (p pair) breakEvens(seed, turf Bill) ([]BreakEven, error) {
	var out []BreakEven
	for _, find := range []func(seed, turf Bill) (BreakEven, bool, error){p.byTurfPrice, p.byLabour, p.byArea} {
		t, ok, err := find(seed, turf)
		if err != nil {
			return nil, err
		}
		if ok {
			out = append(out, t)
		}
	}
	if seed.UsableFrom != nil && turf.UsableFrom != nil && turf.UsableFrom.Before(*seed.UsableFrom) {
		out = append(out, BreakEven{"day needed by", told.Date(*seed.UsableFrom), told.Say("money.turf-in-time", told.Date(*turf.UsableFrom))})
	}
	return out, nil
}

// gap is by how much turf is dearer than seed with a figure of the list changed.
func (p pair) gap(key string, value float64) (float64, error) {
	list, err := p.offer.Prices.with(key, value)
	if err != nil {
		return 0, err
	}
	p.seed.Prices, p.turf.Prices = list, list
	return p.dearer()
}

// dearer is by how much turf is dearer than seed, in major units.
func (p pair) dearer() (float64, error) {
	seed, err := p.seed.bill()
	if err != nil {
		return 0, err
	}
	turf, err := p.turf.bill()
	return turf.Total.float() - seed.Total.float(), err
}

// linear is the value of a price at which the ways cost the same. Both totals
// are straight lines in any one price but for rounding, so two points give it.
func (p pair) linear(key string) (at float64, ok bool, err error) {
	x, _ := p.offer.Prices.Get(key)
	now := x.Best.InexactFloat64()
	if now == 0 {
		return 0, false, nil
	}
	a, err := p.gap(key, now)
	if err != nil {
		return 0, false, err
	}
	b, err := p.gap(key, 2*now)
	if err != nil || a == b {
		return 0, false, err
	}
	at = now - a*now/(b-a)
	return at, at > 0 && at < 100*now, nil
}

func (p pair) byTurfPrice(_, _ Bill) (BreakEven, bool, error) {
	at, ok, err := p.linear("turf_per_m2")
	if err != nil || !ok {
		return BreakEven{}, false, err
	}
	perM2, err := p.offer.amount(at)
	return BreakEven{"turf price", told.MoneyPerArea{Money: perM2, AreaM2: 1}, told.Say("money.turf-below")}, true, err
}

func (p pair) byLabour(seed, turf Bill) (BreakEven, bool, error) {
	at, ok, err := p.linear("labour_per_hour")
	if err != nil || !ok {
		return BreakEven{}, false, err
	}
	now, _ := p.offer.Prices.Rate("labour_per_hour")
	means := told.Say("money.turf-below")
	if (turf.Total.Minor > seed.Total.Minor) == (at > now.InexactFloat64()) {
		means = told.Say("money.turf-above")
	}
	perHour, err := p.offer.amount(at)
	return BreakEven{"labour rate", told.Say("money.an-hour", perHour), means}, true, err
}

// amount is a price found by reckoning, to the minor unit.
func (o Offer) amount(x float64) (told.Money, error) {
	a, err := Round(decimal.NewFromFloat(x), o.Prices.Currency)
	return told.Money(a), err
}

// byArea looks for the lawn size at which the cheaper way changes, all else in
// proportion: on small lawns the delivery of turf and the smallest bag of seed
// weigh most.
func (p pair) byArea(seed, turf Bill) (BreakEven, bool, error) {
	const steps = 40
	if !(seed.AreaM2 > 0) { // nothing that all else could be in proportion to
		return BreakEven{}, false, nil
	}
	at := func(areaM2 float64) (float64, error) {
		k := areaM2 / seed.AreaM2
		return pair{seed: p.seed.scaled(k), turf: p.turf.scaled(k), offer: p.offer}.dearer()
	}
	area := func(i int) float64 {
		return leastAreaM2 * math.Pow(mostAreaM2/leastAreaM2, float64(i)/steps)
	}
	before, err := at(area(0))
	if err != nil {
		return BreakEven{}, false, err
	}
	for i := 1; i <= steps; i++ {
		now, err := at(area(i))
		if err != nil {
			return BreakEven{}, false, err
		}
		if (now > 0) == (before > 0) {
			before = now
			continue
		}
		low, high := area(i-1), area(i)
		for high-low > 0.5 {
			mid := (low + high) / 2
			d, err := at(mid)
			if err != nil {
				return BreakEven{}, false, err
			}
			if (d > 0) == (before > 0) {
				low = mid
			} else {
				high = mid
			}
		}
		means := told.Say("money.turf-below")
		if before > 0 {
			means = told.Say("money.turf-above")
		}
		return BreakEven{"area", told.AreaM2(high), means}, true, nil
	}
	return BreakEven{}, false, nil
}

// scaled is the same way on a lawn of another size: areas, work, water and seed in
// proportion, edges by the square root.
func (in Input) scaled(k float64) Input {
	out := in
	out.SownM2, out.LaidM2 = in.SownM2*k, in.LaidM2*k
	out.EdgingM *= math.Sqrt(k)
	out.Work = slices.Clone(in.Work)
	for i := range out.Work {
		out.Work[i].Amount *= k
	}
	for _, s := range []**Start{&out.Sowing, &out.Laying} {
		if *s != nil {
			start := **s
			start.Litres, start.DryLitres = start.Litres*k, start.DryLitres*k
			*s = &start
		}
	}
	if in.Seed == nil || in.SownM2 == 0 {
		return out
	}
	var cost int64
	for _, bag := range in.Seed(in.SownM2) {
		cost += int64(bag.Count) * bag.Price.Minor
	}
	perM2 := float64(cost) / in.SownM2
	out.Seed = func(areaM2 float64) []Bag {
		return []Bag{{KG: 1, Count: 1, Price: Amount{int64(math.Round(perM2 * areaM2)), in.Prices.Currency}}}
	}
	return out
}

// with is the list with one figure changed.
func (p Prices) with(key string, value float64) (Prices, error) {
	i, ok := p.index[key]
	if !ok {
		return Prices{}, fmt.Errorf("money: price %s: %w", key, p.unknown(key))
	}
	out := p
	out.list = append([]Price(nil), p.list...)
	v := decimal.NewFromFloat(value)
	out.list[i].Best, out.list[i].Low, out.list[i].High = v, v, v
	return out, nil
}
