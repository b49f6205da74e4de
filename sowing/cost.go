package sowing

import (
	"cmp"
	"math"
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"swardwright/mix"
	"swardwright/site/light"
	"swardwright/sowing/bed"
	"swardwright/sowing/dates"
	"swardwright/sowing/money"
	"swardwright/sowing/order"
	"swardwright/species"
)

// How turf is judged and kept alive.
const (
	// turfFirstMM is given in the first hour: Nursery Sod Growers Association of
	// Ontario.
	turfFirstMM = 20.0
	// turfDailyMM is given on each of turfDays dry days: 5 to 7 mm, common practice,
	// no published source.
	turfDailyMM = 6.0
	turfDays    = 14
	// turfMowDays is the wait for the first cut: Nursery Sod Growers Association of
	// Ontario, 6 to 7 days.
	turfMowDays = 7
	// wateringsAWeek is how often seed is watered: City of Regina, Seed your lawn.
	wateringsAWeek = 4
	// plainCorners is the most corners of an outline that turf is cut to with little
	// waste: common practice, no published source.
	plainCorners = 6
)

// wantOrder is the seed to be bought for so many square metres, and everything
// on offer: the brief's own lots and bags, and the price list's seed of a species
// that the brief has no lot of, or not enough.
func (p Plan) wantOrder(list money.Prices, areaM2 float64) (order.Want, error) {
	var w order.Want
	for _, c := range p.Rate.Components {
		need := order.Need{SpeciesID: c.SpeciesID, Grams: c.GM2 * areaM2, PLS: c.PLS}
		w.Needs = append(w.Needs, need)
		short := need.Grams
		for _, l := range p.Brief.Stock.Lots {
			if l.Species.ID != c.SpeciesID {
				continue
			}
			lot, err := offer(list, l)
			if err != nil {
				return order.Want{}, err
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
			return order.Want{}, err
		}
		lot := order.Lot{Name: "price list", SpeciesID: c.SpeciesID, PLS: c.PLS}
		for _, b := range bags {
			lot.Sizes = append(lot.Sizes, order.Size{KG: b.KG, PriceMinor: b.Price.Minor})
			lot.Invented = b.Invented
		}
		w.Lots = append(w.Lots, lot)
	}
	for _, m := range p.Brief.Stock.Premixes {
		sizes, err := bags(list, m.PricePerKG, m.BagKG)
		if err != nil || len(sizes) == 0 { // a premix without a price is judged, not bought
			if err != nil {
				return order.Want{}, err
			}
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
	price, err := decimal.NewFromString(perKG)
	if perKG == "" {
		return nil, nil
	}
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

// wantMoney is the plan in the plain figures that its price is reckoned from.
func (p Plan) wantMoney(list money.Prices, seed uint64) (money.Job, error) {
	j := money.Job{
		Prices: list, EdgingM: p.Site.EdgingM, NeededBy: p.Brief.Job.NeededBy, Date: p.Brief.Date, RandSeed: seed, SquareFeet: p.Brief.Units == "us",
		Curved: slices.ContainsFunc(p.Site.Survey.Lawn.Parts, func(o []light.Point) bool { return len(o) > plainCorners }),
	}
	held := 0.0
	for i, z := range p.Site.Zones {
		zone := money.Zone{Name: z.Name, AreaM2: z.AreaM2, Holds: p.holds(i), TurfSuits: p.turfSuits(i)}
		if zone.Holds {
			held += zone.AreaM2
		}
		j.Zones = append(j.Zones, zone)
	}
	j.Ground = quantities(p.Bed, held/p.Site.AreaM2)
	if p.Choice.Mixture == nil {
		return j, nil
	}
	if _, err := p.wantOrder(list, held); err != nil {
		return money.Job{}, err
	}
	j.Seed = func(areaM2 float64) []money.Bag {
		want, err := p.wantOrder(list, areaM2)
		if err != nil { // prices are the same for any area, and were good for this one
			return nil
		}
		return p.bill(order.Cheapest(want), list.Currency)
	}
	j.Sowing = &money.Start{Usable: orNone(p.Dates.UsableFrom), Success: p.sowingSuccess(), Cuts: p.cuts(orNone(p.Dates.FirstMow), orNone(p.Dates.UsableFrom))}
	wet := 0
	for _, w := range p.Dates.Watering {
		j.Sowing.WaterMM += w.MeanMM
		j.Sowing.DryMM += w.DryMM
		if w.MeanMM > 0 {
			wet++
		}
	}
	j.Sowing.Waterings = wet * wateringsAWeek
	j.Overseed = p.Brief.Job.Kind == Overseed
	if j.Overseed || p.Dates.TurfOn == nil {
		return j, nil
	}
	j.Laying = &money.Start{Usable: orNone(p.Dates.TurfUsableFrom), Cuts: p.cuts(p.Dates.TurfOn.AddDate(0, 0, turfMowDays), orNone(p.Dates.TurfUsableFrom)),
		Success: p.Dates.TurfSuccess, WaterMM: turfFirstMM, DryMM: turfFirstMM + turfDays*turfDailyMM, Waterings: turfDays}
	if len(p.Dates.Watering) == 0 { // nothing is known of the rain: half of the days are dry
		j.Laying.WaterMM += turfDays * turfDailyMM / 2
	}
	for _, w := range p.Dates.Watering[:min(len(p.Dates.Watering), turfDays/7)] {
		j.Laying.WaterMM += w.MeanMM
	}
	j.Laying.DryMM = math.Max(j.Laying.DryMM, j.Laying.WaterMM)
	return j, nil
}

// cuts is how often a lawn is mown from its first mowing until it bears use, by
// the growth of the months between.
func (p Plan) cuts(first, usable time.Time) int {
	n := 1.0
	for day := first; !first.IsZero() && day.Before(usable); day = day.AddDate(0, 0, 1) {
		if every := p.Year.Months[day.Month()-1].MowEveryDays; every > 0 {
			n += 1 / every
		}
	}
	return int(n)
}

// holds tells whether sown grass holds in a zone.
func (p Plan) holds(zone int) bool {
	return p.Choice.Mixture != nil && slices.ContainsFunc(p.Choice.Zones, func(v mix.ZoneVerdict) bool { return v.Zone == zone && v.Holds })
}

// turfSuits tells whether a grass that turf is grown of is at least moderately
// suited to a zone.
func (p Plan) turfSuits(zone int) bool {
	return slices.ContainsFunc(p.Matrix.Rows, func(r species.Row) bool {
		return r.Zone == zone && r.Species.Is(species.SoldAsTurf) && (r.Class == species.S1 || r.Class == species.S2)
	})
}

// sowingSuccess is the chance that the sowing comes through.
func (p Plan) sowingSuccess() float64 {
	if d := p.Dates; d.Chosen >= 0 && d.Chosen < len(d.Windows) {
		return d.Windows[d.Chosen].BestSuccess
	}
	if len(p.Dates.Components) == 0 {
		return 0
	}
	return slices.MinFunc(p.Dates.Components, func(a, b dates.Part) int { return cmp.Compare(a.Success, b.Success) }).Success
}

// quantities are the ground work and materials on a share of the lawn. What is
// done on or after the day of sowing is of the seed way alone.
func quantities(b bed.Bed, share float64) []money.Quantity {
	var out []money.Quantity
	for _, m := range b.Materials {
		if m.PriceKey == "" {
			continue
		}
		q := money.Quantity{Item: m.Item, Amount: m.Quantity * share, Unit: m.Unit, Key: m.PriceKey, Source: m.For}
		if m.PriceKey == "bird_line_per_m2" || m.For == "top dressing" && b.DressingMM > 0 {
			q.For, q.Group = money.Seed, money.Aftercare
		}
		if m.For == "top dressing" {
			q.Group = money.Materials
		}
		out = append(out, q)
	}
	for _, s := range b.Steps {
		if s.OutputKey == "" {
			continue
		}
		q := money.Quantity{Item: s.Title, Amount: s.Quantity * share, Unit: s.Unit, Key: s.OutputKey}
		if s.DaysBefore <= 0 {
			q.For, q.Group = money.Seed, money.Labour
		}
		out = append(out, q)
	}
	return out
}

// bill is an order as lines of a bill.
func (p Plan) bill(o order.Order, currency string) []money.Bag {
	var out []money.Bag
	for _, b := range o.Bags {
		bag := money.Bag{Item: b.Lot, KG: b.KG, Count: b.Count, Price: money.Amount{Minor: b.PriceMinor, Currency: currency}}
		if b.Invented {
			bag.Key = money.SeedKey(b.SpeciesID)
		}
		for _, c := range p.Choice.Mixture.Components {
			if c.Species.ID == b.SpeciesID {
				bag.Item = c.Species.Botanical
				if !b.Invented && b.Lot != "" {
					bag.Item += ", " + b.Lot
				}
			}
		}
		out = append(out, bag)
	}
	return out
}
