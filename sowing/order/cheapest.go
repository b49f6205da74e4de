package order

import (
	"cmp"
	"math"
	"slices"
	"swardwright/internal/told"
)

// The method. Buying bags to cover a need is a covering knapsack: exact[w], the
// least cost of bags weighing exactly w, is found by dynamic programming over
// whole grains of seed (R. Bellman, Dynamic Programming, 1957), lot by lot where
// a lot's stock is limited and bag by bag where it isn't; the order is the
// cheapest w that covers the need. Species are independent of each other but for
// a premix, of which every quantity that can be bought and used is tried.
//
// A grain is the largest weight that all bags are multiples of, or one gram where
// lots differ in pure live seed. Bags are taken down and needs up to whole grains,
// so an order is never short.
const (
	// maxWork bounds the entries of the tables that one species may take. On needs
	// that would take more the grain is coarsened, which the order then says.
	maxWork = 50_000_000
	// maxReach bounds one table, and with it the bags in an order.
	maxReach = 1<<bagBits - 1
	// leastReach is the table that is not coarsened further: then stocks are counted
	// in coarser units instead, never to more than there is.
	leastReach = 1000
	// bagBits is the room in a key below the cost for the number of bags: of equal
	// costs the order of fewer bags is taken.
	bagBits = 20
	// maxPriceMinor keeps the key of a bag far inside int64; dearer bags are no seed.
	maxPriceMinor = 1 << 42
	// maxBagKG is the largest bag that seed comes in, two tonnes.
	maxBagKG = 2000
	none     = int64(math.MaxInt64)
)

// Cheapest is the order of least cost, exact within what the constants say. Of
// orders of equal cost it takes the one with least left over, then the one of
// fewest bags. At most one kind of premix is used. Needs that stock can't meet
// stand in Short.
func Cheapest(want Input) Order {
	o := Order{Needed: map[string]float64{}, Leftover: map[string]float64{}, Short: map[string]float64{}}
	shops := make([]*shop, len(want.Needs))
	for i, n := range want.Needs {
		o.Needed[n.SpeciesID] += n.Grams
		shops[i] = newShop(n, want.Lots)
		if shops[i].coarse {
			o.Notes = append(o.Notes, told.Say("job.counted-in-steps", told.Grass(n.SpeciesID), told.MassG(shops[i].grain)))
		}
	}
	best := plan{buys: make([]buy, len(shops))}
	for i, s := range shops {
		best.buys[i] = s.cover(want.Needs[i].Grams)
		best.add(best.buys[i])
	}
	for i := range want.Premixes {
		if p, ok := withPremix(&want.Premixes[i], want.Needs, shops); ok && p.less(best) {
			best = p
		}
	}
	best.write(&o, want, shops)
	return o
}

// buy is a choice in one shop: the key of its table at a weight.
type buy struct {
	key    int64 // cost << bagBits | bags
	weight int   // grains bought
	short  float64
	over   float64 // grams left over
}

// plus adds keys; what goes beyond int64 can't be had.
func plus(a, b int64) int64 {
	if a > none-b {
		return none
	}
	return a + b
}

// plan is a whole order before it is written out.
type plan struct {
	key         int64
	short, over float64
	buys        []buy
	premix      *Premix
	premixShop  *shop
	premixBuy   buy
	usedKG      float64
}

func (p *plan) add(b buy) {
	p.key = plus(p.key, b.key)
	p.short += b.short
	p.over += b.over
}

// less orders plans: none short before short ones, then cost, what is left over,
// number of bags.
func (p plan) less(q plan) bool {
	const gram = 0.5 // less than that is no difference
	if math.Abs(p.short-q.short) > gram {
		return p.short < q.short
	}
	if c := cmp.Compare(p.key>>bagBits, q.key>>bagBits); c != 0 {
		return c < 0
	}
	if math.Abs(p.over-q.over) > gram {
		return p.over < q.over
	}
	return p.key < q.key
}

// withPremix is the best order that uses some of a premix. A premix holding a
// species that isn't wanted can't be used.
func withPremix(m *Premix, needs []Need, shops []*shop) (plan, bool) {
	share := make([]float64, len(needs))
	total := 0.0
	for _, part := range m.Parts {
		total += part.Percent
		i := slices.IndexFunc(needs, func(n Need) bool { return n.SpeciesID == part.SpeciesID })
		if i < 0 && part.Percent > 0 {
			return plan{}, false
		}
		if i >= 0 {
			share[i] += part.Percent
		}
	}
	most := math.Inf(1) // grams of the premix that can be used
	for i, n := range needs {
		if share[i] /= total; share[i] > 0 {
			most = min(most, n.Grams/share[i])
		}
	}
	if !(total > 0) || math.IsInf(most, 1) || most <= 0 {
		return plan{}, false
	}
	s := newShop(Need{SpeciesID: m.Name, Grams: most}, []Lot{{Name: m.Name, SpeciesID: m.Name, Sizes: m.Sizes}})
	var best plan
	found := false
	for w := 1; w < len(s.exact); w++ {
		if s.exact[w] == none {
			continue
		}
		bought := float64(w) * s.grain
		used := min(bought, most)
		p := plan{premix: m, premixShop: s, usedKG: used / 1000, buys: make([]buy, len(needs))}
		p.premixBuy = buy{key: s.exact[w], weight: w, over: bought - used}
		p.add(p.premixBuy)
		for i, n := range needs {
			p.buys[i] = shops[i].cover(n.Grams - used*share[i])
			p.add(p.buys[i])
		}
		if !found || p.less(best) {
			best, found = p, true
		}
	}
	return best, found
}

// write turns a plan into an order.
func (p plan) write(o *Order, want Input, shops []*shop) {
	value := 0.0
	if p.premix != nil {
		o.PremixUsedKG = p.usedKG
		for _, c := range p.premixShop.counts(p.premixBuy.weight) {
			o.Bags = append(o.Bags, Bag{Lot: p.premix.Name, KG: c.size.KG, PriceMinor: c.size.PriceMinor, Count: c.count, Invented: p.premix.Invented})
		}
		if over := p.premixBuy.over; over > 0 {
			o.Leftover[p.premix.Name] = over
			value += float64(p.premixBuy.key>>bagBits) * over / (float64(p.premixBuy.weight) * p.premixShop.grain)
		}
	}
	for i, b := range p.buys {
		id := want.Needs[i].SpeciesID
		if b.short > 0 {
			o.Short[id] = b.short
			o.Notes = append(o.Notes, told.Say("job.nowhere-on-offer", told.MassG(b.short), told.Grass(id)))
		}
		for _, c := range shops[i].counts(b.weight) {
			o.Bags = append(o.Bags, Bag{Lot: c.lot.Name, SpeciesID: id, KG: c.size.KG, PriceMinor: c.size.PriceMinor, Count: c.count, Invented: c.lot.Invented})
		}
		if b.over > 0 {
			o.Leftover[id] += b.over
			value += float64(b.key>>bagBits) * b.over / (float64(b.weight) * shops[i].grain)
		}
	}
	o.TotalMinor = p.key >> bagBits
	o.LeftoverMinor = int64(math.Round(value))
}
