package order

import "testing"

// Orders against each other by hand: none short before short ones, then cost, then what is left over, then bags; half a gram is no
// difference.
func TestLessWorked(t *testing.T) {
	key := func(cost, bags int64) int64 { return cost<<bagBits + bags }
	for name, r := range map[string]struct {
		a, b plan
		less bool
	}{
		"less short, though dearer":            {plan{short: 1, key: key(9, 1)}, plan{short: 2, key: key(1, 1)}, true},
		"shorter by half a gram, but cheaper":  {plan{short: 1.5, key: key(1, 1)}, plan{short: 1, key: key(9, 1)}, true},
		"shorter by 0.55 g, though cheaper":    {plan{short: 1.55, key: key(1, 1)}, plan{short: 1, key: key(9, 1)}, false},
		"cheaper, though more is left over":    {plan{key: key(1, 9), over: 99}, plan{key: key(2, 1)}, true},
		"of a cost, less left over":            {plan{key: key(2, 9), over: 1}, plan{key: key(2, 1), over: 2}, true},
		"of a cost, half a gram more left":     {plan{key: key(2, 1), over: 1.5}, plan{key: key(2, 9), over: 1}, true},
		"of a cost, 0.55 g more left over":     {plan{key: key(2, 1), over: 1.55}, plan{key: key(2, 9), over: 1}, false},
		"of a cost and as much, fewer bags":    {plan{key: key(2, 1), over: 1}, plan{key: key(2, 2), over: 1}, true},
		"alike":                                {plan{key: key(2, 1)}, plan{key: key(2, 1)}, false},
		"dearer by a minor unit, bags or none": {plan{key: key(3, 0)}, plan{key: key(2, 1<<bagBits-1)}, false},
	} {
		if got := r.a.less(r.b); got != r.less {
			t.Errorf("%s: %t", name, got)
		}
	}
	p := plan{}
	p.add(buy{key: key(5, 2), short: 1, over: 2})
	p.add(buy{key: key(7, 1), short: 3, over: 4})
	if p.key != key(12, 3) || p.short != 4 || p.over != 6 {
		t.Errorf("together %+v", p)
	}
}

// A bag ready mixed by hand: three parts of one grass and two of another meet needs of 600 and 400 g with one kilogram; of needs of 300
// and 400 g half a kilogram is of use, and 200 g of the other are bought besides.
func TestPremixWorked(t *testing.T) {
	bag := &Premix{Name: "bag", Sizes: []Size{{KG: 1, PriceMinor: 500}}, Parts: []Part{{SpeciesID: "a", Percent: 60}, {SpeciesID: "b", Percent: 40}}}
	lots := []Lot{{Name: "a", SpeciesID: "a", PLS: 1, Sizes: []Size{{KG: 0.1, PriceMinor: 1000}}}, {Name: "b", SpeciesID: "b", PLS: 1, Sizes: []Size{{KG: 0.1, PriceMinor: 1000}}}}
	for _, r := range []struct {
		a, b, used, over float64
		cost             int64
	}{{600, 400, 1, 0, 500}, {300, 400, 0.5, 500, 2500}} {
		needs := []Need{{SpeciesID: "a", Grams: r.a, PLS: 1}, {SpeciesID: "b", Grams: r.b, PLS: 1}}
		p, ok := withPremix(bag, needs, []*shop{newShop(needs[0], lots), newShop(needs[1], lots)})
		if !ok || p.usedKG != r.used || p.over != r.over || p.key>>bagBits != r.cost || p.short != 0 {
			t.Errorf("%+v: %g kg used, %g g over, %d, %t", r, p.usedKG, p.over, p.key>>bagBits, ok)
		}
		// What is left over is worth what was paid for as much of it: half a bag of 5.00 is 2.50.
		o := Cheapest(Input{Needs: needs, Lots: lots, Premixes: []Premix{*bag}})
		if o.TotalMinor != r.cost || o.LeftoverMinor != int64(r.over/1000*500) || o.Leftover["bag"] != r.over {
			t.Errorf("%+v: %+v", r, o)
		}
	}
}

// Stock that ends, by hand: of 2.4 kg in bags of a kilogram two can be had, the 600 g that are wanted beyond them cost a bag of the dearer
// lot; a bag of 0.9 kg of seed that is half as good counts for 450 g.
func TestStockWorked(t *testing.T) {
	need := Need{SpeciesID: "a", Grams: 2600, PLS: 0.8}
	scarce := Lot{Name: "scarce", SpeciesID: "a", PLS: 0.8, StockKG: 2.4, Sizes: []Size{{1, 300}}}
	for _, r := range []struct {
		other Lot
		cost  int64
		over  float64
	}{
		{Lot{Name: "dear", SpeciesID: "a", PLS: 0.8, Sizes: []Size{{1, 900}}}, 2*300 + 900, 400},
		{Lot{Name: "poor", SpeciesID: "a", PLS: 0.4, Sizes: []Size{{0.9, 200}}}, 2*300 + 2*200, 300}, // twice 450 g for the 600 g
		{Lot{Name: "better", SpeciesID: "a", PLS: 1, Sizes: []Size{{2.08, 500}}}, 500, 0},            // 2,080 g for 2,600
	} {
		o := Cheapest(Input{Needs: []Need{need}, Lots: []Lot{scarce, r.other}})
		if o.TotalMinor != r.cost || o.Leftover["a"] != r.over || len(o.Short) != 0 {
			t.Errorf("%s: %+v", r.other.Name, o)
		}
		// The value of what is left over: its share of all that was bought, at what that cost.
		if want := int64(float64(r.cost)*r.over/(2600+r.over) + 0.5); o.LeftoverMinor != want {
			t.Errorf("%s: left over is worth %d, want %d", r.other.Name, o.LeftoverMinor, want)
		}
	}
}

// Seed comes in bags of a gram to two tonnes, at what a bag may cost; others are no seed.
func TestBagsThatSell(t *testing.T) {
	for _, r := range []struct {
		size  Size
		sells bool
	}{{Size{2000, 100}, true}, {Size{2001, 100}, false}, {Size{0.001, 1}, true}, {Size{0.0009, 1}, false}, {Size{1, 0}, true}, {Size{1, -1}, false}, {Size{1, 1 << 42}, true}, {Size{1, 1<<42 + 1}, false}} {
		if usable(r.size) != r.sells {
			t.Errorf("%+v sells: %t", r.size, !r.sells)
		}
	}
}
