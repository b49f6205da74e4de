package order

import (
	"math"
	"slices"
)

// shop is everything on offer of one species, with the least cost of every
// weight that can be bought of it.
type shop struct {
	grain   float64 // grams, of seed of the need's pure live seed
	coarser int64   // how many times its own unit a limited lot is counted in
	limited []*limitedLot
	open    []openBag // bags of unlimited stock
	exact   []int64   // least key for exactly so many grains; none: can't be had
	cheap   []int32   // the weight of least key at or above each; -1: none
	via     []int32   // the open bag last bought at each weight; -1: a matter of the limited lots
	coarse  bool      // the grain is coarser than the bags
}

// openBag is a bag that can be bought as often as one likes.
type openBag struct {
	lot    *Lot
	size   Size
	grains int
}

// limitedLot is a lot of limited stock: every weight it can give at least cost,
// and how much of it the best order of each total weight takes.
type limitedLot struct {
	lot     *Lot
	unit    int64    // grams that its stock is counted in; a bag counts for whole ones, rounded up
	choices []choice // by weight, the first nothing
	via     []int32  // the size last bought at each number of units; -1: can't be had
	taken   []int32  // index of choices, by the total weight of this and the lots before
}

// choice is one weight bought from a limited lot.
type choice struct {
	units  int
	grams  int64
	grains int
	key    int64
}

// counted is a number of bags of one size.
type counted struct {
	lot   *Lot
	size  Size
	count int
}

// newShop sets out what is on offer for a need.
func newShop(need Need, lots []Lot) *shop {
	s := &shop{coarser: 1}
	open, limited, largest := offered(need, lots)
	if need.Grams <= 0 || largest == 0 {
		s.grain = 1
		s.settle([]int64{0})
		return s
	}
	s.grain = grainOf(need, lots)
	reach := s.reach(need, largest)
	for s.work(reach, need, limited) > maxWork || reach > maxReach {
		s.coarse = true
		if reach > leastReach {
			s.grain *= 2
			reach = s.reach(need, largest)
		} else {
			s.coarser *= 2
		}
	}
	exact := make([]int64, reach+1)
	for w := range exact {
		exact[w] = none
	}
	exact[0] = 0
	for _, l := range limited {
		exact = s.addLimited(l, need, exact)
	}
	for _, l := range open {
		for _, z := range l.Sizes {
			if g := int(worth(l, need, z) / s.grain); usable(z) && g > 0 {
				s.open = append(s.open, openBag{l, z, g})
			}
		}
	}
	s.settle(exact)
	return s
}

// offered parts the lots that serve a need by whether their stock ends, and finds what the
// largest bag of them is worth.
func offered(need Need, lots []Lot) (open, limited []*Lot, largest float64) {
	for i := range lots {
		l := &lots[i]
		if l.SpeciesID != need.SpeciesID {
			continue
		}
		for _, z := range l.Sizes {
			if usable(z) {
				largest = max(largest, worth(l, need, z))
			}
		}
		if l.StockKG > 0 {
			limited = append(limited, l)
		} else {
			open = append(open, l)
		}
	}
	return open, limited, largest
}

// settle adds the open bags to the table and finds the cheapest cover of every
// weight.
func (s *shop) settle(exact []int64) {
	s.exact = exact
	s.via = make([]int32, len(exact))
	for w := range s.via {
		s.via[w] = -1
	}
	for b, bag := range s.open {
		for w := bag.grains; w < len(exact); w++ {
			if k := plus(exact[w-bag.grains], bag.size.key()); k < exact[w] {
				exact[w], s.via[w] = k, int32(b)
			}
		}
	}
	s.cheap = make([]int32, len(exact))
	best := int32(-1)
	for w := len(exact) - 1; w >= 0; w-- {
		if exact[w] != none && (best < 0 || exact[w]>>bagBits <= exact[best]>>bagBits) {
			best = int32(w)
		}
		s.cheap[w] = best
	}
}

// reach is the end of the table: the need and one bag more.
func (s *shop) reach(need Need, largest float64) int {
	return int(math.Ceil(need.Grams/s.grain)) + int(largest/s.grain) + 1
}

// work is how many table entries the limited lots take.
func (s *shop) work(reach int, need Need, limited []*Lot) int {
	n := reach
	for _, l := range limited {
		n += reach * s.units(l, reach, need)
	}
	return n
}

// unit is the weight in grams that all of a lot's bags are multiples of.
func (l *Lot) unit() int64 {
	unit := int64(0)
	for _, z := range l.Sizes {
		if usable(z) {
			unit = gcd(unit, gramsOf(z))
		}
	}
	return unit
}

// units is how many of a lot's units can be bought and are of use.
func (s *shop) units(l *Lot, reach int, need Need) int {
	unit := l.unit() * s.coarser
	if unit == 0 {
		return 0
	}
	return int(min(math.Floor(l.StockKG*1000+1e-6), float64(reach)*s.grain/ratio(l, need)) / float64(unit))
}

// addLimited lets the table take from a lot of limited stock as well.
func (s *shop) addLimited(l *Lot, need Need, exact []int64) []int64 {
	reach := len(exact) - 1
	lim := newLimited(l, l.unit()*s.coarser, s.units(l, reach, need))
	lim.taken = make([]int32, len(exact))
	out := slices.Clone(exact)
	for i := range lim.choices[1:] {
		c := &lim.choices[i+1]
		// A hair is added so that 0.98 × 1000 g is not 979 grains.
		c.grains = int(float64(c.grams)*ratio(l, need)/s.grain + 1e-9)
		for w := c.grains; w <= reach; w++ {
			if k := plus(exact[w-c.grains], c.key); k < out[w] {
				out[w], lim.taken[w] = k, int32(i+1)
			}
		}
	}
	s.limited = append(s.limited, lim)
	return out
}

// newLimited finds every weight that a limited lot can give, at least cost.
func newLimited(l *Lot, unit int64, units int) *limitedLot {
	lim := &limitedLot{lot: l, unit: unit, choices: []choice{{}}, via: make([]int32, units+1)}
	keys := make([]int64, units+1)
	grams := make([]int64, units+1)
	for u := range keys {
		keys[u], lim.via[u] = none, -1
	}
	keys[0] = 0
	for i, z := range l.Sizes {
		if !usable(z) {
			continue
		}
		step := lim.units(z)
		for u := step; u <= units; u++ {
			if k := plus(keys[u-step], z.key()); k < keys[u] {
				keys[u], lim.via[u], grams[u] = k, int32(i), grams[u-step]+gramsOf(z)
			}
		}
	}
	for u, k := range keys {
		if u > 0 && k != none {
			lim.choices = append(lim.choices, choice{units: u, grams: grams[u], key: k})
		}
	}
	return lim
}

// units is what a bag takes of the stock.
func (lim *limitedLot) units(z Size) int { return int((gramsOf(z) + lim.unit - 1) / lim.unit) }

// counts are the bags that make up a number of units.
func (lim *limitedLot) counts(units int) []int {
	n := make([]int, len(lim.lot.Sizes))
	for units > 0 {
		i := lim.via[units]
		n[i]++
		units -= lim.units(lim.lot.Sizes[i])
	}
	return n
}

// cover is the cheapest way to so many grams.
func (s *shop) cover(grams float64) buy {
	if grams <= 1e-9 {
		return buy{}
	}
	w := int(math.Ceil(grams/s.grain - 1e-9))
	if w < len(s.cheap) && s.cheap[w] >= 0 {
		at := int(s.cheap[w])
		return buy{key: s.exact[at], weight: at, over: max(0, float64(at)*s.grain-grams)}
	}
	// Everything there is, and the rest short.
	for at := min(w, len(s.exact)-1); at > 0; at-- {
		if s.exact[at] != none {
			return buy{key: s.exact[at], weight: at, short: grams - float64(at)*s.grain}
		}
	}
	return buy{short: grams}
}

// counts are the bags that make up a weight of the table.
func (s *shop) counts(weight int) []counted {
	var out []counted
	open := make([]int, len(s.open))
	for weight > 0 && s.via[weight] >= 0 {
		b := s.via[weight]
		open[b]++
		weight -= s.open[b].grains
	}
	for i := len(s.limited) - 1; i >= 0; i-- {
		lim := s.limited[i]
		c := lim.choices[lim.taken[weight]]
		for j, n := range lim.counts(c.units) {
			if n > 0 {
				out = append(out, counted{lim.lot, lim.lot.Sizes[j], n})
			}
		}
		weight -= c.grains
	}
	slices.Reverse(out)
	for b, n := range open {
		if n > 0 {
			out = append(out, counted{s.open[b].lot, s.open[b].size, n})
		}
	}
	return out
}

// grainOf is the weight the table counts in: the largest that all bags are
// multiples of where lots are like the need, a gram otherwise.
func grainOf(need Need, lots []Lot) float64 {
	unit := int64(0)
	for i := range lots {
		if lots[i].SpeciesID != need.SpeciesID {
			continue
		}
		for _, z := range lots[i].Sizes {
			if !usable(z) {
				continue
			}
			if ratio(&lots[i], need) != 1 {
				unit = 1
			}
			unit = gcd(unit, gramsOf(z))
		}
	}
	return float64(max(1, unit))
}

// worth is what a bag counts for, in grams of seed of the need's pure live seed.
func worth(l *Lot, need Need, z Size) float64 { return float64(gramsOf(z)) * ratio(l, need) }

// ratio is a lot's pure live seed over the need's.
func ratio(l *Lot, need Need) float64 {
	if l.PLS <= 0 || need.PLS <= 0 {
		return 1
	}
	return l.PLS / need.PLS
}

// usable leaves out bags that no shop sells.
func usable(z Size) bool {
	return gramsOf(z) >= 1 && z.KG <= maxBagKG && z.PriceMinor >= 0 && z.PriceMinor <= maxPriceMinor
}

// key is the cost of one bag with its count of one below it.
func (z Size) key() int64 { return z.PriceMinor<<bagBits + 1 }

// gramsOf is what a bag counts for in whole grams, part grams left out. A hair is
// added so that 0.57 kg is not 569 g.
func gramsOf(z Size) int64 { return int64(z.KG*1000 + 1e-6) }

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
