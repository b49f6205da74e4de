package mix

import (
	"fmt"
	"math"
	"strings"

	"swardwright/internal/plain"
	"swardwright/internal/sheet"
	"swardwright/species"
)

// Bounds that catch slips in what a seller's label says.
const (
	maxPricePerKG = 1e6
	maxBagKG      = 2000.0
	sumTolerance  = 0.5 // on shares that should add to 100 %, for rounding on the label
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

// grassNamed finds the grass of a name, or says what is wrong with the name under
// the key.
func grassNamed(s *sheet.Sheet, key, name string, table *species.Table) *species.Species {
	sp, ok := table.Find(name)
	if !ok {
		s.Hintf(key, func() string {
			if near := table.Suggest(name); len(near) > 0 {
				return fmt.Sprintf("; did you mean %s?", strings.Join(near, " or "))
			}
			return "; swardwright species lists them"
		}, "%s is no grass of the table", plain.Quote(name))
		return nil
	}
	return sp
}

func readLot(s *sheet.Sheet, i int, table *species.Table) Lot {
	var l Lot
	s.Need("species", "the grass, by its id, botanical or common name")
	if name, ok := s.Text("species"); ok {
		if l.Species = grassNamed(s, "species", name, table); l.Species != nil && l.Species.Invader {
			s.Faultf("species", "%s comes in by itself and is never sown", name)
		}
	}
	var ok bool
	if l.Name, ok = s.Text("name"); !ok {
		l.Name = fmt.Sprintf("lot %d", i+1)
	}
	// A lot with nothing alive in it is no seed.
	l.PurityPercent, _ = s.Number("purity_percent", 1, 100)
	l.GerminationPercent, _ = s.Number("germination_percent", 1, 100)
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

	s.Need("parts", `its grasses with their percent by weight, like { "hard fescue" = 60, "browntop bent" = 40 }`)
	parts := s.Table("parts")
	sum, sound := 0.0, true
	seen := map[*species.Species]string{}
	names := parts.Keys()
	for _, name := range names {
		share, good := parts.Number(name, 0.1, 100)
		sp := grassNamed(parts, name, name, table)
		switch {
		case sp == nil:
		case seen[sp] != "":
			parts.Faultf(name, "is the same grass as %s; add the two shares", seen[sp])
		default:
			seen[sp] = name
			p.Parts = append(p.Parts, Part{Species: sp, Percent: share})
		}
		sum, sound = sum+share, sound && good
	}
	switch {
	case len(names) == 0 && s.Given("parts"):
		parts.Faultf("", "name no grass")
	case sound && len(names) > 0 && math.Abs(sum-100) > sumTolerance:
		s.Faultf("parts", "need to add to 100 percent, add to %.4g", sum)
	}
	return p
}
