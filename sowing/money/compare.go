package money

import (
	"context"
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"swardwright/internal/calendar"
	"swardwright/internal/told"
	"swardwright/sowing/job"
)

// Compare prices every way of one offer. The error names a figure that can't be
// billed, or what the price list lacks.
func Compare(ctx context.Context, ways []Input, o Offer) (Comparison, error) {
	c := Comparison{Currency: o.Prices.Currency}
	if err := CheckCurrency(c.Currency); err != nil {
		return Comparison{}, err
	}
	ways = slices.Clone(ways)
	for i := range ways {
		if err := ways[i].check(); err != nil {
			return Comparison{}, err
		}
		ways[i].Seed = once(ways[i].Seed)
		b, err := ways[i].bill()
		if err != nil {
			return Comparison{}, err
		}
		c.Bills = append(c.Bills, b)
	}
	samples := make([][]float64, len(c.Bills))
	for i := range c.Bills {
		b := &c.Bills[i]
		v := b.vary(o.RandSeed)
		drawn, err := v.sample(ctx)
		if err != nil {
			return Comparison{}, err
		}
		samples[i] = drawn
		sorted := slices.Sorted(slices.Values(drawn))
		b.P10, b.P50, b.P90 = percentile(sorted, 0.1, c.Currency), percentile(sorted, 0.5, c.Currency), percentile(sorted, 0.9, c.Currency)
		b.Drivers = v.drivers(*b)
		c.ExamplePrices = c.ExamplePrices || slices.ContainsFunc(b.Lines, func(l Line) bool { return l.Invented })
	}
	if err := c.against(ways, samples, o); err != nil {
		return Comparison{}, err
	}
	c.terms(o)
	return c, nil
}

// Offer is what all ways of one offer share.
type Offer struct {
	Prices   Prices
	Date     time.Time // zero: none given
	RandSeed uint64    // of the Monte Carlo draws

	// Sown tells by the bills which of two ways by seed turf is set against; nil: BySeed.
	Sown func(bills []Bill) job.Way
}

// against sets turf against seed.
func (c *Comparison) against(ways []Input, samples [][]float64, o Offer) error {
	by := job.BySeed
	if o.Sown != nil {
		by = o.Sown(c.Bills)
	}
	seed, turf := c.sown(by), c.find(job.ByTurf)
	c.EarlierPerDay = Amount{Currency: c.Currency}
	if seed == nil || turf == nil {
		return nil
	}
	var bySeed, byTurf int
	for i := range c.Bills {
		switch &c.Bills[i] {
		case seed:
			bySeed = i
		case turf:
			byTurf = i
		}
	}
	if seed.UsableFrom != nil && turf.UsableFrom != nil {
		c.DaysEarlier = calendar.Days(*turf.UsableFrom, *seed.UsableFrom)
	}
	if extra := turf.Total.Minor - seed.Total.Minor; c.DaysEarlier > 0 && extra > 0 {
		perDay, err := Round(Amount{extra, c.Currency}.decimal().Div(decimal.NewFromInt(int64(c.DaysEarlier))), c.Currency)
		if err != nil {
			return err
		}
		c.EarlierPerDay = perDay
	}
	cheaper := 0
	for i, s := range samples[bySeed] {
		if samples[byTurf][i] < s {
			cheaper++
		}
	}
	c.TurfCheaperChance = float64(cheaper) / draws
	var err error
	c.BreakEvens, err = pair{seed: ways[bySeed], turf: ways[byTurf], offer: o}.breakEvens(*seed, *turf)
	return err
}

// once keeps the orders that were asked for: the search for turns prices the same
// lawn many times over.
func once(order func(float64) []Bag) func(float64) []Bag {
	if order == nil {
		return nil
	}
	kept := map[float64][]Bag{}
	return func(areaM2 float64) []Bag {
		bags, ok := kept[areaM2]
		if !ok {
			bags = order(areaM2)
			kept[areaM2] = bags
		}
		return bags
	}
}

// terms fills in the small print.
func (c *Comparison) terms(o Offer) {
	days, _ := o.Prices.Get("validity_days")
	if days.Best.IsPositive() {
		stands := told.Days(days.Best.IntPart())
		c.Validity = told.Say("money.stands", stands)
		if !o.Date.IsZero() {
			c.Validity = told.Say("money.stands-until", stands, told.Date(o.Date.AddDate(0, 0, int(stands))))
		}
	}
	if deposit, _ := o.Prices.Get("deposit_percent"); deposit.Best.IsPositive() {
		c.DepositNote = told.Say("money.deposit", told.FineShare(deposit.Best.Shift(-2).InexactFloat64()))
	}
	text, _ := o.Prices.Get(TermsKey)
	c.Terms = text.Text
	c.Assumptions = append(o.Prices.assumptions(), told.Say("money.rounded"), told.Say("money.drawn", told.Count(draws)))
}
