package sowing

import (
	"slices"

	"github.com/shopspring/decimal"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/sowing/bed"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
	"swardwright/sowing/order"
	"swardwright/sowing/rate"
)

// plainCorners is the most corners of an outline that turf is cut to with little
// waste: common practice, no published source.
const plainCorners = 6

// pricesOf is the price list as a brief has it, with the machines that can come in.
func pricesOf(t Tables, b Brief) (money.Prices, error) {
	list, err := t.Prices.In(b.Currency, b.Prices)
	access := b.Job.AccessM
	if b.Site.Ground.Over == ground.Deck && (access == nil || *access > onDeckM) {
		access = new(onDeckM)
	}
	return list.Through(access), err
}

// onDeckM is how wide machines are at most that are reckoned with on a deck, those that a
// person walks behind: common practice, no published source.
const onDeckM = 0.8

// wanted is the seed that a way takes at a rate. A bag is mixed for one lawn: of two mixtures
// neither is bought in bags ready mixed.
func (w Way) wanted(list money.Prices, b Brief, r rate.Rate) (order.Input, error) {
	if w.Kind == job.BySeedApart {
		b.Stock.Premixes = nil
	}
	return wantOrder(list, b, r)
}

// wantOrder is the seed to be bought at a rate, and everything on offer: the brief's
// own lots and bags, and the price list's seed of a species that the brief has no lot
// of, or not enough.
func wantOrder(list money.Prices, b Brief, r rate.Rate) (order.Input, error) {
	var w order.Input
	for _, c := range r.Components {
		need := order.Need{SpeciesID: c.SpeciesID, Grams: c.TotalG, PLS: c.PLS}
		w.Needs = append(w.Needs, need)
		short := need.Grams
		for _, l := range b.Stock.Lots {
			if l.Species.ID != c.SpeciesID {
				continue
			}
			lot, err := offer(list, l)
			if err != nil {
				return order.Input{}, err
			}
			w.Lots = append(w.Lots, lot)
			if l.StockKG == 0 {
				short = 0
			}
			short -= l.StockKG * 1000 * lot.PLS / c.PLS
		}
		if short <= 0 {
			continue
		}
		bags, err := list.SeedBags(c.SpeciesID)
		if err != nil {
			return order.Input{}, err
		}
		lot := order.Lot{Name: "price list", SpeciesID: c.SpeciesID, PLS: c.PLS}
		for _, b := range bags {
			lot.Sizes = append(lot.Sizes, order.Size{KG: b.KG, PriceMinor: b.Price.Minor})
			lot.Invented = b.Invented
		}
		w.Lots = append(w.Lots, lot)
	}
	for _, m := range b.Stock.Premixes {
		sizes, err := bags(list, m.PricePerKG, m.BagKG)
		if err != nil {
			return order.Input{}, err
		}
		if len(sizes) == 0 { // a premix without a price is judged, not bought
			continue
		}
		x := order.Premix{Name: m.Name, Sizes: sizes}
		for _, part := range m.Parts {
			x.Parts = append(x.Parts, order.Part{SpeciesID: part.Species.ID, Percent: part.Percent})
		}
		w.Premixes = append(w.Premixes, x)
	}
	return w, nil
}

// offer is a lot of the brief's with the prices of its bags; where it has no
// price or no bags of its own they are the list's.
func offer(list money.Prices, l mix.Lot) (order.Lot, error) {
	lot := order.Lot{Name: l.Name, SpeciesID: l.Species.ID, PLS: mix.PureLiveSeed(l.Species, &l), StockKG: l.StockKG}
	perKG := l.PricePerKG
	if x, ok := list.Get(money.SeedKey(l.Species.ID)); ok && perKG == "" {
		perKG, lot.Invented = x.Best.String(), x.Invented()
	}
	var err error
	lot.Sizes, err = bags(list, perKG, l.BagKG)
	return lot, err
}

// bags are the sizes of one seed at one price a kilogram.
func bags(list money.Prices, perKG string, kg []float64) ([]order.Size, error) {
	if perKG == "" {
		return nil, nil
	}
	price, err := decimal.NewFromString(perKG)
	if err != nil {
		return nil, err
	}
	if len(kg) == 0 {
		kg = list.BagSizes()
	}
	var out []order.Size
	for _, k := range kg {
		a, err := money.Round(price.Mul(decimal.NewFromFloat(k)), list.Currency)
		if err != nil {
			return nil, err
		}
		out = append(out, order.Size{KG: k, PriceMinor: a.Minor})
	}
	return out, nil
}

// billInput is a way in the plain figures that its price is reckoned from. Every one
// is read from the way: its order, its materials, its tasks.
func billInput(list money.Prices, b Brief, w Way) money.Input {
	in := money.Input{
		Way: w.Kind, Prices: list, SownM2: job.Area(w.Sown), LaidM2: job.Area(w.Laid),
		EdgingM: w.EdgingM, NeededBy: b.Job.NeededBy, UsableFrom: w.UsableFrom,
		Curved: slices.ContainsFunc(b.Site.Lawn.Parts, func(o []light.Point) bool { return len(o) > plainCorners }),
		Work:   quantities(w),
	}
	if in.SownM2 > 0 {
		in.Sowing = w.startCost(job.Letters(w.Sown))
		in.Seed = func(areaM2 float64) []money.Bag {
			want, err := w.wanted(list, b, w.Rate.On(areaM2))
			if err != nil { // prices are the same for any area, and were good for this one
				return nil
			}
			return billBags(order.Cheapest(want), w, list.Currency)
		}
	}
	if in.LaidM2 > 0 {
		in.Laying = w.startCost(job.Letters(w.Laid))
	}
	return in
}

// priced are checks whose advice says what it would cost in materials.
func priced(list money.Prices, checks []bed.Check) ([]bed.Check, error) {
	out := slices.Clone(checks)
	for i, c := range out {
		if c.OK || c.Takes == nil {
			continue
		}
		sum, err := costOf(list, c.Takes.PriceKey, c.Takes.Quantity)
		if err != nil {
			return nil, err
		}
		out[i].Advice = told.Say("bed.advice-costs", c.Advice, told.MoneyRound(*sum))
	}
	return out, nil
}

// startCost is the watering and cutting of some of a way's zones until it bears use, as
// its tasks have them; where one task serves all zones, their share of it.
func (w Way) startCost(letters []string) *money.Start {
	s := &money.Start{Success: w.Dates.Success, Scythed: w.Year.Scythed}
	for _, t := range w.Tasks {
		if len(t.Zones) > 0 && !slices.Contains(t.Zones, letters[0]) {
			continue
		}
		share := 1.0
		if n := len(t.Zones); n > len(letters) && t.AreaM2 > 0 {
			share = w.areaOf(letters) / t.AreaM2
		}
		switch {
		case w.watersYoung(t):
			s.Litres += share * t.Litres
			s.DryLitres += share * t.DryLitres
		case t.Sort == job.Mowing && t.First && t.ID != "mow-down" && t.Hours > 0 && (w.UsableFrom == nil || t.Date.Before(*w.UsableFrom)):
			s.Cuts += w.goesUntilUse(t)
		}
	}
	return s
}

func (w Way) areaOf(letters []string) (m2 float64) {
	for _, z := range slices.Concat(w.Sown, w.Laid) {
		if slices.Contains(letters, z.Letter) {
			m2 += z.AreaM2
		}
	}
	return m2
}

// goesUntilUse is how many of a task's goes fall before the lawn bears use.
func (w Way) goesUntilUse(t job.Task) int {
	if w.UsableFrom == nil || !t.Ends().After(*w.UsableFrom) {
		return t.Goes
	}
	whole := t.Ends().Sub(t.Date).Hours() + 24
	return int(float64(t.Goes) * w.UsableFrom.Sub(t.Date).Hours() / whole)
}

// quantities are the work and materials of a way's ground. What is done on or after the
// day of sowing or laying is done again where that fails.
func quantities(w Way) []money.Quantity {
	var out []money.Quantity
	for _, m := range w.Bed.Materials {
		if m.PriceKey == "" {
			continue
		}
		q := money.Quantity{Item: m.Item, Amount: m.Quantity, Unit: m.Unit, Key: m.PriceKey, Source: m.For}
		if m.WithSeed {
			q.Again, q.Group = job.BySeed, money.Materials
		}
		out = append(out, q)
	}
	_, after := started(w.Bed.Tasks)
	for _, t := range w.Bed.Tasks {
		if t.OutputKey == "" {
			continue
		}
		q := money.Quantity{Item: t.Title, Amount: t.Quantity, Unit: t.Unit, Key: t.OutputKey}
		if slices.ContainsFunc(after, func(x job.Task) bool { return x.ID == t.ID }) {
			q.Again, q.Group = job.BySeed, money.Labour
			if t.Sort == job.Laying {
				q.Again = job.ByTurf
			}
		}
		out = append(out, q)
	}
	return out
}

// billBags is an order as lines of a bill.
func billBags(o order.Order, w Way, currency string) []money.Bag {
	var out []money.Bag
	for _, b := range o.Bags {
		bag := money.Bag{Item: told.Say("money.seed-of", told.Verbatim(b.Lot)), KG: b.KG, Count: b.Count, Price: money.Amount{Minor: b.PriceMinor, Currency: currency}}
		if b.Invented {
			bag.Key = money.SeedKey(b.SpeciesID)
		}
		for _, c := range w.Rate.Components {
			if c.SpeciesID == b.SpeciesID {
				bag.Item = told.Say("money.seed-of", told.Grass(b.SpeciesID))
				if !b.Invented && b.Lot != "" {
					bag.Item = told.Say("money.seed-lot", told.Grass(b.SpeciesID), told.Verbatim(b.Lot))
				}
			}
		}
		out = append(out, bag)
	}
	return out
}

// accountFor gives every way the day and chance that its bill found, so that both say
// the same.
func accountFor(ways []Way, c money.Comparison) []Way {
	out := slices.Clone(ways)
	for i := range out {
		out[i].Bill = c.Bills[i]
	}
	return out
}
