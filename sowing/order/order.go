// Package order buys the seed: the bags that give the grams needed at least
// cost.
package order

import "swardwright/internal/told"

// Bag is one size of one lot on sale.
type Bag struct {
	Lot        string
	SpeciesID  string // empty for a premix
	KG         float64
	PriceMinor int64
	Count      int
	Invented   bool // its price is of the example price list
}

// Order is what to buy.
type Order struct {
	Bags          []Bag
	TotalMinor    int64
	Needed        map[string]float64 // grams by species id
	Leftover      map[string]float64 // grams by species id; of a premix by its name
	LeftoverMinor int64              // their value at the price paid
	Short         map[string]float64 // grams by species id that nobody has on offer
	PremixUsedKG  float64            // of the premix in the order, what is sown
	Notes         []told.Sentence
}

// Input is what seed is needed and what is on offer.
type Input struct {
	Needs    []Need
	Lots     []Lot
	Premixes []Premix
}

// Need is the seed of one species to be sown.
type Need struct {
	SpeciesID string
	Grams     float64 // of seed of the pure live seed below
	PLS       float64 // 0 to 1; 0: the same as every lot's
}

// Lot is seed of one species on sale in bags.
type Lot struct {
	Name      string
	SpeciesID string
	PLS       float64 // pure live seed, 0 to 1; 0: as the need's
	StockKG   float64 // on offer; 0: no limit
	Sizes     []Size
	Invented  bool
}

// Premix is a ready-mixed bag on sale. It is used only as far as the mixture
// allows: whatever it lacks is bought by the species and mixed in.
type Premix struct {
	Name     string
	Sizes    []Size
	Parts    []Part
	Invented bool
}

// Part is a species with its share by weight.
type Part struct {
	SpeciesID string
	Percent   float64
}

// Size is a bag on sale.
type Size struct {
	KG         float64
	PriceMinor int64
}
