package mix

import (
	"fmt"
	"math"

	"swardwright/internal/sheet"
	"swardwright/species"
)

// Bounds that catch slips in what a seller's label says.
const (
	maxPricePerKG = 1e6
	maxBagKG      = 2000.0
)

// ReadStock reads a brief's pages [[seed_lot]] and [[premix]], whose grasses
// are those of the table.
func ReadStock(root *sheet.Sheet, table *species.Table) Stock {
	var st Stock
	for i, s := range root.Tables("seed_lot") {
		st.Lots = append(st.Lots, readLot(s, i, table))
	}
	for i, s := range root.Tables("premix") {
		st.Premixes = append(st.Premixes, readPremix(s, i, table))
	}
	return st
}

// leastOnLabel is the least purity and germination of a lot, percent.
const leastOnLabel = 10.0

func readLot(s *sheet.Sheet, i int, table *species.Table) Lot {
	var l Lot
	s.Need("species", "the grass, by its id, botanical or common name")
	if name, ok := s.Text("species"); ok {
		if l.Species = species.Named(s, "species", name, table); l.Species != nil && l.Species.Invader {
			s.Faultf("species", "%s comes in by itself and is never sown", name)
		}
	}
	var ok bool
	if l.Name, ok = s.Text("name"); !ok {
		l.Name = fmt.Sprintf("lot %d", i+1)
	}
	// A lot with next to nothing alive in it is no seed (our own bound; what may be sold has 70 % and more).
	l.PurityPercent, _ = s.Number("purity_percent", leastOnLabel, 100)
	l.GerminationPercent, _ = s.Number("germination_percent", leastOnLabel, 100)
	l.PricePerKG, _ = s.Price("price_per_kg", maxPricePerKG)
	l.BagKG = readBags(s)
	l.StockKG, _ = s.Number("kg", 0.01, 1e6)
	return l
}

// readBags reads the sizes of bags, which weigh whole grams.
func readBags(s *sheet.Sheet) []float64 {
	const gram = 0.001 // kg
	sizes, _ := s.Numbers("bag_kg", 10*gram, maxBagKG)
	for i, kg := range sizes {
		if grams := kg / gram; math.Abs(grams-math.Round(grams)) > 1e-6*grams {
			s.Faultf(fmt.Sprintf("bag_kg[%d]", i+1), "needs whole grams, at most three decimal places, is %g", kg)
		}
	}
	return sizes
}

func readPremix(s *sheet.Sheet, i int, table *species.Table) Premix {
	var p Premix
	var ok bool
	if p.Name, ok = s.Text("name"); !ok {
		p.Name = fmt.Sprintf("mixture %d", i+1)
	}
	p.PricePerKG, _ = s.Price("price_per_kg", maxPricePerKG)
	p.BagKG = readBags(s)
	for _, x := range species.ReadParts(s, table) {
		p.Parts = append(p.Parts, Part(x))
	}
	return p
}
