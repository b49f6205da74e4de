package money

import (
	"fmt"
	"math"

	"github.com/shopspring/decimal"
)

// Areas between which a turn is looked for.
const (
	leastAreaM2 = 5.0
	mostAreaM2  = 5000.0
)

// turns finds where turf becomes the cheaper way, or the only one in time.
func (j Job) turns(seed, turf Bill) ([]Turn, error) {
	var out []Turn
	for _, find := range []func(seed, turf Bill) (Turn, bool, error){j.turfPriceTurn, j.labourTurn, j.areaTurn} {
		t, ok, err := find(seed, turf)
		if err != nil {
			return nil, err
		}
		if ok {
			out = append(out, t)
		}
	}
	if turf.UsableFrom.Before(seed.UsableFrom) {
		out = append(out, Turn{"day needed by", seed.UsableFrom.Format(dateForm),
			fmt.Sprintf("before that day a sown lawn doesn't bear use yet; turf does from %s", turf.UsableFrom.Format(dateForm))})
	}
	return out, nil
}

// gap is by how much turf is dearer than seed with a figure of the list changed.
func (j Job) gap(key string, value float64) (float64, error) {
	p, err := j.Prices.with(key, value)
	if err != nil {
		return 0, err
	}
	j.Prices = p
	return j.dearer()
}

// dearer is by how much turf is dearer than seed, in major units.
func (j Job) dearer() (float64, error) {
	var c Comparison
	if err := j.bills(&c); err != nil {
		return 0, err
	}
	return c.find(Turf).Total.Float() - c.find(Seed).Total.Float(), nil
}

// linearTurn is the value of a price at which the ways cost the same. Both totals
// are straight lines in any one price but for rounding, so two points give it.
func (j Job) linearTurn(key string) (at float64, ok bool, err error) {
	x, _ := j.Prices.Get(key)
	now := x.Best.InexactFloat64()
	if now == 0 {
		return 0, false, nil
	}
	a, err := j.gap(key, now)
	if err != nil {
		return 0, false, err
	}
	b, err := j.gap(key, 2*now)
	if err != nil || a == b {
		return 0, false, err
	}
	at = now - a*now/(b-a)
	return at, at > 0 && at < 100*now, nil
}

func (j Job) turfPriceTurn(_, _ Bill) (Turn, bool, error) {
	at, ok, err := j.linearTurn("turf_per_m2")
	if err != nil {
		return Turn{}, false, err
	}
	if !ok {
		return Turn{"price of turf", "no price", "seed is the cheaper way whatever turf costs"}, true, nil
	}
	return Turn{"price of turf", j.Prices.Currency + " " + j.perArea(at), "turf is the cheaper way below it"}, true, nil
}

func (j Job) labourTurn(seed, turf Bill) (Turn, bool, error) {
	at, ok, err := j.linearTurn("labour_per_hour")
	if err != nil || !ok {
		return Turn{}, false, err
	}
	now, _ := j.Prices.Rate("labour_per_hour")
	side := "below"
	if (turf.Total.Minor > seed.Total.Minor) == (at > now.InexactFloat64()) {
		side = "above"
	}
	return Turn{"labour rate", fmt.Sprintf("%s %s an hour", j.Prices.Currency, j.figure(at)), "turf is the cheaper way " + side + " it"}, true, nil
}

// figure writes a price found by reckoning to the minor unit.
func (j Job) figure(x float64) string {
	return decimal.NewFromFloat(x).StringFixed(int32(Digits(j.Prices.Currency)))
}

// areaTurn looks for the lawn size at which the cheaper way changes, all else in
// proportion: on small lawns the delivery of turf and the smallest bag of seed
// weigh most.
func (j Job) areaTurn(seed, turf Bill) (Turn, bool, error) {
	const steps = 40
	at := func(areaM2 float64) (float64, error) { return j.scaled(areaM2/seed.AreaM2, seed).dearer() }
	area := func(i int) float64 {
		return leastAreaM2 * math.Pow(mostAreaM2/leastAreaM2, float64(i)/steps)
	}
	before, err := at(area(0))
	if err != nil {
		return Turn{}, false, err
	}
	for i := 1; i <= steps; i++ {
		now, err := at(area(i))
		if err != nil {
			return Turn{}, false, err
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
				return Turn{}, false, err
			}
			if (d > 0) == (before > 0) {
				low = mid
			} else {
				high = mid
			}
		}
		side := "below"
		if before > 0 {
			side = "above"
		}
		return Turn{"area", "about " + j.area(high), "turf is the cheaper way " + side + " it"}, true, nil
	}
	cheaper := "seed"
	if before <= 0 {
		cheaper = "turf"
	}
	return Turn{"area", "no size", fmt.Sprintf("%s is the cheaper way at every size from %s to %s", cheaper, j.area(leastAreaM2), j.area(mostAreaM2))}, true, nil
}

// scaled is the same job on a lawn of another size: areas, ground work and seed
// in proportion, edges by the square root.
func (j Job) scaled(k float64, seed Bill) Job {
	out := j
	out.EdgingM *= math.Sqrt(k)
	out.Zones, out.Ground = nil, nil
	for _, z := range j.Zones {
		z.AreaM2 *= k
		out.Zones = append(out.Zones, z)
	}
	for _, q := range j.Ground {
		if !q.Fixed {
			q.Amount *= k
		}
		out.Ground = append(out.Ground, q)
	}
	var cost int64
	for _, bag := range j.Seed(seed.AreaM2) {
		cost += int64(bag.Count) * bag.Price.Minor
	}
	perM2 := float64(cost) / seed.AreaM2
	out.Seed = func(areaM2 float64) []Bag {
		return []Bag{{Item: "seed", KG: 1, Count: 1, Price: Amount{int64(math.Round(perM2 * areaM2)), j.Prices.Currency}}}
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
