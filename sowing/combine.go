package sowing

import (
	"cmp"
	"slices"

	"swardwright/sowing/order"
)

// SeedWanted is the seed to be bought for the plan and everything on offer for
// it, premixes left out: a bag mixed for one lawn seldom suits another.
func (p Plan) SeedWanted(t Tables) (order.Input, error) {
	if len(p.Sown) == 0 {
		return order.Input{}, nil
	}
	list, err := t.Prices.In(p.Brief.Currency, p.Brief.Prices)
	if err != nil {
		return order.Input{}, err
	}
	w, err := wantOrder(list, p.Brief, p.Rate)
	w.Premixes = nil
	return w, err
}

// Combine makes one want of several in the same currency: what is needed of a
// species is added up, and a lot that several briefs offer on the same terms is
// one lot.
func Combine(wants []order.Input) order.Input {
	var all order.Input
	for _, w := range wants {
		for _, n := range w.Needs {
			i := slices.IndexFunc(all.Needs, func(x order.Need) bool { return x.SpeciesID == n.SpeciesID })
			if i < 0 {
				all.Needs = append(all.Needs, n)
				continue
			}
			// Grams of one quality stand for grams of another by what is alive in them.
			if x := &all.Needs[i]; n.PLS > 0 && x.PLS > 0 {
				x.Grams += n.Grams * n.PLS / x.PLS
			} else {
				x.Grams += n.Grams
			}
		}
		for _, l := range w.Lots {
			if !slices.ContainsFunc(all.Lots, func(x order.Lot) bool { return sameLot(x, l) }) {
				all.Lots = append(all.Lots, l)
			}
		}
	}
	slices.SortStableFunc(all.Needs, func(a, b order.Need) int { return cmp.Compare(a.SpeciesID, b.SpeciesID) })
	return all
}

func sameLot(a, b order.Lot) bool {
	return a.Name == b.Name && a.SpeciesID == b.SpeciesID && a.StockKG == b.StockKG && slices.Equal(a.Sizes, b.Sizes)
}
