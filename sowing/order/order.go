// Package order buys the seed: the bags that give the grams needed at least
// cost.
package order

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
	Leftover      map[string]float64 // grams by species id
	LeftoverMinor int64              // their value at the price paid
	Notes         []string
}
