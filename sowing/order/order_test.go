package order

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// brute tries every number of every bag.
func brute(want Input) (cost int64, short bool) {
	best := int64(math.MaxInt64)
	type bag struct {
		lot  *Lot
		size Size
	}
	var bags []bag
	for i := range want.Lots {
		for _, z := range want.Lots[i].Sizes {
			bags = append(bags, bag{&want.Lots[i], z})
		}
	}
	for m := -1; m < len(want.Premixes); m++ {
		var mix *Premix
		sizes := []Size{{}}
		if m >= 0 {
			mix = &want.Premixes[m]
			sizes = mix.Sizes
		}
		// The premix is tried in all numbers of all its bags.
		var premix func(i int, kg float64, cost int64)
		premix = func(i int, kg float64, cost int64) {
			if i < len(sizes) {
				for n := 0; ; n++ {
					premix(i+1, kg+float64(n)*sizes[i].KG, cost+int64(n)*sizes[i].PriceMinor)
					if mix == nil || float64(n)*sizes[i].KG > 4 {
						return
					}
				}
			}
			used := kg * 1000
			rest := map[string]float64{}
			for _, n := range want.Needs {
				rest[n.SpeciesID] = n.Grams
			}
			if mix != nil {
				for _, p := range mix.Parts {
					used = min(used, rest[p.SpeciesID]/(p.Percent/100))
				}
				for _, p := range mix.Parts {
					rest[p.SpeciesID] -= used * p.Percent / 100
				}
			}
			stock := map[*Lot]float64{}
			var species func(i int, rest map[string]float64, cost int64)
			species = func(i int, rest map[string]float64, cost int64) {
				if cost >= best {
					return
				}
				if i == len(bags) {
					for _, g := range rest {
						if g > 1e-6 {
							return
						}
					}
					best = cost
					return
				}
				b := bags[i]
				id := b.lot.SpeciesID
				ratio := 1.0
				for _, n := range want.Needs {
					if n.SpeciesID == id && n.PLS > 0 && b.lot.PLS > 0 {
						ratio = b.lot.PLS / n.PLS
					}
				}
				before, had := stock[b.lot], rest[id]
				for n := 0; ; n++ {
					rest[id] = had - float64(n)*math.Floor(b.size.KG*1000*ratio+1e-9)
					stock[b.lot] = before + float64(n)*b.size.KG
					if b.lot.StockKG > 0 && stock[b.lot] > b.lot.StockKG+1e-9 {
						break
					}
					species(i+1, rest, cost+int64(n)*b.size.PriceMinor)
					if rest[id] <= 0 {
						break
					}
				}
				rest[id], stock[b.lot] = had, before
			}
			species(0, rest, cost)
		}
		premix(0, 0, 0)
	}
	return best, best == math.MaxInt64
}

// check tells what is wrong with an order in itself.
func check(t *testing.T, want Input, o Order) {
	t.Helper()
	var total int64
	got := map[string]float64{}
	stock := map[string]float64{}
	for _, b := range o.Bags {
		if b.Count <= 0 {
			t.Errorf("%d bags of %s", b.Count, b.Lot)
		}
		total += int64(b.Count) * b.PriceMinor
		stock[b.Lot] += float64(b.Count) * b.KG
		if b.SpeciesID == "" {
			for _, m := range want.Premixes {
				for _, p := range m.Parts {
					if m.Name == b.Lot {
						got[p.SpeciesID] += o.PremixUsedKG * 1000 * p.Percent / 100 * float64(b.Count) * b.KG / premixKG(o)
					}
				}
			}
			continue
		}
		ratio := 1.0
		for _, l := range want.Lots {
			for _, n := range want.Needs {
				if l.Name == b.Lot && n.SpeciesID == b.SpeciesID && l.PLS > 0 && n.PLS > 0 {
					ratio = l.PLS / n.PLS
				}
			}
		}
		got[b.SpeciesID] += float64(b.Count) * b.KG * 1000 * ratio
	}
	if total != o.TotalMinor {
		t.Errorf("the bags cost %d, the order says %d", total, o.TotalMinor)
	}
	for _, l := range want.Lots {
		if l.StockKG > 0 && stock[l.Name] > l.StockKG+1e-9 {
			t.Errorf("%v kg of %s, of which there are %v", stock[l.Name], l.Name, l.StockKG)
		}
	}
	for _, n := range want.Needs {
		if have := got[n.SpeciesID] + o.Short[n.SpeciesID]; have < n.Grams-0.01 {
			t.Errorf("%s: %v g bought and %v g short of %v g", n.SpeciesID, got[n.SpeciesID], o.Short[n.SpeciesID], n.Grams)
		}
	}
}

func premixKG(o Order) (kg float64) {
	for _, b := range o.Bags {
		if b.SpeciesID == "" {
			kg += float64(b.Count) * b.KG
		}
	}
	return kg
}

func TestCheapestAgainstBruteForce(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	sizes := []float64{0.25, 0.5, 1, 1.5, 2, 3, 5}
	n := 300
	if testing.Short() {
		n = 80
	}
	for i := range n {
		var want Input
		for s := range 1 + rng.IntN(2) {
			id := fmt.Sprintf("species-%d", s)
			want.Needs = append(want.Needs, Need{SpeciesID: id, Grams: float64(1 + rng.IntN(4000)), PLS: 0.8})
			for l := range 1 + rng.IntN(2) {
				lot := Lot{Name: fmt.Sprintf("%s-%d", id, l), SpeciesID: id}
				if l > 0 { // the first is unlimited, so that no need is short
					lot.StockKG = float64(rng.IntN(5))
				}
				if rng.IntN(2) == 0 {
					lot.PLS = 0.7 + 0.2*rng.Float64()
				}
				for range 1 + rng.IntN(3) {
					kg := sizes[rng.IntN(len(sizes))]
					lot.Sizes = append(lot.Sizes, Size{kg, int64(kg * float64(500+rng.IntN(600)))})
				}
				want.Lots = append(want.Lots, lot)
			}
		}
		if rng.IntN(2) == 0 && len(want.Needs) == 2 {
			share := float64(5 + rng.IntN(90))
			want.Premixes = []Premix{{Name: "bag", Sizes: []Size{{1, 600}, {2, 1100 - int64(rng.IntN(400))}},
				Parts: []Part{{"species-0", share}, {"species-1", 100 - share}}}}
		}
		o := Cheapest(want)
		check(t, want, o)
		if cost, _ := brute(want); o.TotalMinor != cost {
			t.Fatalf("order %d: %d, the least is %d\n%+v\n%+v", i, o.TotalMinor, cost, want, o)
		}
	}
}

func TestGreedyWouldLose(t *testing.T) {
	// 6 kg: the cheapest kilogram is in the 5 kg bag, but 5 + 1 costs more than two
	// of 3 kg.
	o := Cheapest(Input{
		Needs: []Need{{SpeciesID: "a", Grams: 6000}},
		Lots:  []Lot{{Name: "lot", SpeciesID: "a", Sizes: []Size{{1, 1000}, {3, 2200}, {5, 3500}}}},
	})
	if o.TotalMinor != 4400 || len(o.Bags) != 1 || o.Bags[0].Count != 2 || o.Bags[0].KG != 3 {
		t.Errorf("%+v", o)
	}
}

func TestTies(t *testing.T) {
	// 2 kg at one price whether in a bag of 2, two of 1, or one of 3: none left over
	// and one bag to carry.
	o := Cheapest(Input{
		Needs: []Need{{SpeciesID: "a", Grams: 2000}},
		Lots:  []Lot{{Name: "lot", SpeciesID: "a", Sizes: []Size{{1, 500}, {3, 1000}, {2, 1000}}}},
	})
	if len(o.Bags) != 1 || o.Bags[0].KG != 2 || o.LeftoverMinor != 0 {
		t.Errorf("%+v", o)
	}
}

func TestLeftoverAndShort(t *testing.T) {
	o := Cheapest(Input{
		Needs: []Need{{SpeciesID: "a", Grams: 1500}, {SpeciesID: "b", Grams: 3000}, {SpeciesID: "c", Grams: 10}},
		Lots: []Lot{
			{Name: "a", SpeciesID: "a", Sizes: []Size{{2, 1600}}},
			{Name: "b", SpeciesID: "b", StockKG: 2, Sizes: []Size{{1, 900}}},
		},
	})
	if math.Abs(o.Leftover["a"]-500) > 1e-9 || o.LeftoverMinor != 400 {
		t.Errorf("leftover %v worth %d, want 500 g worth 400", o.Leftover, o.LeftoverMinor)
	}
	if math.Abs(o.Short["b"]-1000) > 1e-9 || math.Abs(o.Short["c"]-10) > 1e-9 || o.TotalMinor != 3400 || len(o.Notes) != 2 {
		t.Errorf("%+v", o)
	}
}

func TestBetterSeedCountsForMore(t *testing.T) {
	// Texas DOT, pure live seed: 1.56 lb in bulk for each pound at 0.85 × 0.75.
	pls := 0.85 * 0.75
	o := Cheapest(Input{
		Needs: []Need{{SpeciesID: "a", Grams: 1560, PLS: pls}},
		Lots:  []Lot{{Name: "pure", SpeciesID: "a", PLS: 1, Sizes: []Size{{1, 100}}}},
	})
	if len(o.Bags) != 1 || o.Bags[0].Count != 1 {
		t.Errorf("1 kg of pure live seed does for 1.56 kg in bulk: %+v", o)
	}
}

func TestUnwantedPremix(t *testing.T) {
	o := Cheapest(Input{
		Needs:    []Need{{SpeciesID: "a", Grams: 1000}},
		Lots:     []Lot{{Name: "lot", SpeciesID: "a", Sizes: []Size{{1, 5000}}}},
		Premixes: []Premix{{Name: "bag", Sizes: []Size{{1, 1}}, Parts: []Part{{"a", 90}, {"weed", 10}}}},
	})
	if len(o.Bags) != 1 || o.Bags[0].SpeciesID != "a" {
		t.Errorf("a premix with a grass that isn't wanted was bought: %+v", o)
	}
}

// large is a lawn of 30,000 m² at 30 g/m² with forty lots of each of five grasses.
func large() Input {
	var want Input
	for s := range 5 {
		id := fmt.Sprintf("species-%d", s)
		want.Needs = append(want.Needs, Need{SpeciesID: id, Grams: 180_000, PLS: 0.8})
		for l := range 40 {
			lot := Lot{Name: fmt.Sprintf("%s-%d", id, l), SpeciesID: id, PLS: 0.75 + 0.002*float64(l), StockKG: float64(20 + 5*l)}
			for _, kg := range []float64{0.5, 1, 5, 20} {
				lot.Sizes = append(lot.Sizes, Size{kg, int64(kg * float64(700+l))})
			}
			want.Lots = append(want.Lots, lot)
		}
	}
	return want
}

func TestLargeNeed(t *testing.T) {
	want := large()
	o := Cheapest(want)
	check(t, want, o)
	// No order can beat the cheapest viable gram of any lot.
	least := math.Inf(1)
	for _, l := range want.Lots {
		for _, z := range l.Sizes {
			least = min(least, float64(z.PriceMinor)/(z.KG*1000*l.PLS/0.8))
		}
	}
	bound := least * 900_000
	if got := float64(o.TotalMinor); got < bound || got > 1.1*bound {
		t.Errorf("%v for seed that costs at least %v", got, bound)
	}
}

func BenchmarkLargeNeed(b *testing.B) {
	want := large()
	for b.Loop() {
		Cheapest(want)
	}
}

func FuzzCheapest(f *testing.F) {
	f.Add(1000.0, 0.8, 1.0, int64(500), 3.0, 0.7)
	f.Add(0.001, 0.0, 25.0, int64(1)<<40, 0.0, 1.0)
	f.Add(9e5, 1.0, 56.001, int64(0), 25800.3, 1.0/60)
	f.Add(21.0, 0.0, 0.0105, int64(10), 0.0, 0.0)
	f.Add(1.5e6, 0.0, 2000.0, int64(10), 0.0, 0.0)
	f.Add(9e5, 1.0, 0.001, int64(0), 1e-3, 0.01)
	f.Fuzz(func(t *testing.T, grams, pls, kg float64, price int64, stock, lotPLS float64) {
		if !(grams >= 0 && grams < 1e7 && pls >= 0 && pls <= 1 && lotPLS >= 0 && lotPLS <= 1 && stock >= 0 && stock < 1e6 && kg < 1e6) {
			return
		}
		kg = math.Round(kg*1000) / 1000  // bags are of whole grams
		if lotPLS < 0.01 || pls < 0.01 { // no lot is sold that is dead
			lotPLS, pls = 0, 0
		}
		want := Input{
			Needs: []Need{{SpeciesID: "a", Grams: grams, PLS: pls}},
			Lots:  []Lot{{Name: "lot", SpeciesID: "a", PLS: lotPLS, StockKG: stock, Sizes: []Size{{kg, price}, {1, 700}}}},
		}
		check(t, want, Cheapest(want))
	})
}
