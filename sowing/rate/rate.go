// Package rate turns a mixture into grams of seed: from viable seeds wanted per
// square metre, pure live seed, seeds per gram and field establishment.
package rate

// Rate is how much seed is sown.
type Rate struct {
	GM2        float64 // seed as bought, over the whole lawn
	SeedsPerM2 float64 // viable
	Low, High  float64 // the published weight rates that bound it, g/m²
	Bounded    bool    // the seed count asked for more or less than they allow
	Because    string
	Components []Component
	TotalG     float64
}

// Component is the seed of one species.
type Component struct {
	SpeciesID   string
	GM2, TotalG float64
	PLS         float64 // pure live seed, 0 to 1
	SeedPercent float64 // of viable seeds
	Source      string  // of purity and germination
}
