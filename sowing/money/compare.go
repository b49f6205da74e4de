package money

import (
	"context"
	"fmt"
	"math"
	"slices"

	"github.com/shopspring/decimal"

	"swardwright/internal/calendar"
)

const dateForm = "2006-01-02"

const (
	// fairChance is the least chance of the first attempt at which a way is advised
	// for its price: our choice, more likely than not.
	fairChance = 0.5
	// likely is the chance below which the advice says how likely it is.
	likely = 0.8
	// m2PerSquareFoot is by the international foot of 0.3048 m.
	m2PerSquareFoot = 0.3048 * 0.3048
)

// Compare prices every way that is open and chooses between them. Where grass
// holds in no zone there is no bill.
func Compare(ctx context.Context, job Job) (Comparison, error) {
	c := Comparison{Currency: job.Prices.Currency}
	if err := CheckCurrency(c.Currency); err != nil {
		return Comparison{}, err
	}
	if err := job.check(); err != nil {
		return Comparison{}, err
	}
	job.Seed = once(job.Seed)
	if err := job.bills(&c); err != nil {
		return Comparison{}, err
	}
	samples := make([][]float64, len(c.Bills))
	for i := range c.Bills {
		b := &c.Bills[i]
		v := b.vary(job.RandSeed)
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
	seed, turf := c.find(Seed), c.find(Turf)
	if seed != nil && turf != nil {
		c.DaysEarlier = calendar.Days(turf.UsableFrom, seed.UsableFrom)
		c.EarlierPerDay = Amount{Currency: c.Currency}
		if extra := turf.Total.Minor - seed.Total.Minor; c.DaysEarlier > 0 && extra > 0 {
			perDay, err := Round(Amount{extra, c.Currency}.Decimal().Div(decimal.NewFromInt(int64(c.DaysEarlier))), c.Currency)
			if err != nil {
				return Comparison{}, err
			}
			c.EarlierPerDay = perDay
		}
		cheaper := 0
		for i, s := range samples[0] {
			if samples[1][i] < s {
				cheaper++
			}
		}
		c.TurfCheaperChance = float64(cheaper) / draws
		turns, err := job.turns(*seed, *turf)
		if err != nil {
			return Comparison{}, err
		}
		c.Turns = turns
	}
	c.advise(job)
	c.Unpriced = job.unpriced(c)
	c.terms(job)
	return c, nil
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

// bills prices seed, turf and both, in that order, each where it is open.
func (j Job) bills(c *Comparison) error {
	var holds, suits float64
	for _, z := range j.Zones {
		if z.Holds {
			holds += z.AreaM2
			if z.TurfSuits {
				suits += z.AreaM2
			}
		}
	}
	sow, lay := j.Sowing != nil && j.Seed != nil, j.Laying != nil
	for _, w := range []struct {
		way          Way
		open         bool
		sown, turfed float64
	}{
		{Seed, sow, holds, 0},
		{Turf, lay, 0, holds},
		{Mixed, sow && lay && suits > 0 && suits < holds, holds - suits, suits},
	} {
		if !w.open || holds <= 0 {
			continue
		}
		b, err := j.bill(w.way, w.sown, w.turfed)
		if err != nil {
			return err
		}
		c.Bills = append(c.Bills, b)
	}
	return nil
}

func (c Comparison) find(w Way) *Bill {
	i := slices.IndexFunc(c.Bills, func(b Bill) bool { return b.Way == w })
	if i < 0 {
		return nil
	}
	return &c.Bills[i]
}

// verbs are the ways as advice.
var verbs = map[Way]string{Seed: "sow", Turf: "lay turf", Mixed: "lay turf where it suits and sow the rest"}

// advise takes the cheapest way that bears use in time, is more likely than not
// to succeed and whose grasses suit every zone; another only when there is none.
func (c *Comparison) advise(j Job) {
	if len(c.Bills) == 0 {
		c.Advice = "nothing is priced, since grass will not hold here"
		return
	}
	allSuit := !slices.ContainsFunc(j.Zones, func(z Zone) bool { return z.Holds && !z.TurfSuits })
	best := &c.Bills[0]
	for i := 1; i < len(c.Bills); i++ {
		b := &c.Bills[i]
		if b.Way == Turf && !allSuit && best.Way != Turf {
			continue
		}
		if better(b, best) {
			best = b
		}
	}
	c.Advised = best.Way
	verb := verbs[best.Way]
	if j.Overseed && best.Way == Seed {
		verb = "overseed"
	}
	c.Advice = fmt.Sprintf("%s: %s %s, %s", verb, best.Total, c.Currency, j.perArea(best.Total.Float()/best.AreaM2)) + c.against(j, best)
	if best.Success < likely {
		c.Advice += "; the first attempt succeeds in " + yearsOfTen(best.Success)
	}
}

// against sets the advised way against the plain other one.
func (c *Comparison) against(j Job, best *Bill) string {
	other := c.find(Turf)
	if best.Way != Seed {
		other = c.find(Seed)
	}
	if other == nil {
		return ""
	}
	s := fmt.Sprintf(" against %s to %s", other.Total, verbs[other.Way])
	switch days := calendar.Days(best.UsableFrom, other.UsableFrom); {
	case j.NeededBy != nil && best.InTime && !other.InTime:
		s += fmt.Sprintf(", which would not bear use by %s", j.NeededBy.Format(dateForm))
	case j.NeededBy != nil && !best.InTime:
		s += fmt.Sprintf("; neither bears use by %s", j.NeededBy.Format(dateForm))
	case days < 0 && c.EarlierPerDay.Minor > 0 && best.Way == Seed:
		s += fmt.Sprintf(", which would bear use %d days sooner at %s for each of them", -days, c.EarlierPerDay)
	case days > 0:
		s += fmt.Sprintf(", and bears use %d days sooner", days)
	}
	return s
}

// perArea writes a price of a square metre in the units of the sentences.
func (j Job) perArea(perM2 float64) string {
	if j.SquareFeet {
		return j.figure(perM2*m2PerSquareFoot) + " a sq ft"
	}
	return j.figure(perM2) + " a m²"
}

// area writes an area in the units of the sentences.
func (j Job) area(m2 float64) string {
	if j.SquareFeet {
		return fmt.Sprintf("%.0f sq ft", m2/m2PerSquareFoot)
	}
	return fmt.Sprintf("%.0f m²", m2)
}

// yearsOfTen writes a chance in words.
func yearsOfTen(chance float64) string {
	if n := math.Round(10 * chance); n >= 2 {
		return fmt.Sprintf("%.0f years of 10", n)
	}
	return "1 year of 10 at most"
}

// better orders two bills: in time first, then a fair chance, then cost; where
// all are late, the sooner.
func better(a, b *Bill) bool {
	switch {
	case a.InTime != b.InTime:
		return a.InTime
	case (a.Success >= fairChance) != (b.Success >= fairChance):
		return a.Success >= fairChance
	case !a.InTime && !a.UsableFrom.Equal(b.UsableFrom):
		return a.UsableFrom.Before(b.UsableFrom)
	}
	return a.Total.Minor < b.Total.Minor
}

// unpriced is what neither price shows.
func (j Job) unpriced(c Comparison) []string {
	var out []string
	seed, turf := c.find(Seed), c.find(Turf)
	if seed != nil {
		out = append(out, "seed contends with weed seedlings for its first season")
		if n := j.Sowing.Waterings; n > 0 {
			out = append(out, fmt.Sprintf("somebody has to water a sown lawn about %d times before it bears use", n))
		}
	}
	if turf != nil {
		if slices.ContainsFunc(j.Zones, func(z Zone) bool { return z.Holds && !z.TurfSuits }) {
			out = append(out, "turf is grown in full sun of grasses that will thin out in part of this lawn; seed can be chosen for it")
		}
		out = append(out,
			"turf is whatever its grower sowed; a mixture for the place can only be had by seed",
			"turf carries soil of its own, and a layer unlike the ground below slows both water and roots",
			"joins between rolls open when turf dries out in its first weeks, and it needs water every day until it has rooted",
		)
		if n := j.Laying.Waterings; n > 0 {
			out = append(out, fmt.Sprintf("somebody has to water turf about %d times before it bears use", n))
		}
	}
	return out
}

// terms fills in the small print.
func (c *Comparison) terms(j Job) {
	days, _ := j.Prices.Get("validity_days")
	if days.Best.IsPositive() {
		c.Validity = fmt.Sprintf("this offer stands for %s days", days.Best)
		if !j.Date.IsZero() {
			c.Validity += ", until " + j.Date.AddDate(0, 0, int(days.Best.IntPart())).Format(dateForm)
		}
	}
	if deposit, _ := j.Prices.Get("deposit_percent"); deposit.Best.IsPositive() {
		c.DepositNote = fmt.Sprintf("%s %% of the total on acceptance, the rest on completion", deposit.Best)
	}
	text, _ := j.Prices.Get(TermsKey)
	c.Terms = text.Text
	c.Assumptions = append(c.Assumptions, j.Prices.Assumption(),
		"every line is rounded to the minor unit of the currency, half away from zero, and the totals are sums of the rounded figures",
		fmt.Sprintf("the spread of each total is of %d draws from three-point estimates (PERT), lines of one cause moving together", draws))
}
