package species

import (
	"math/rand/v2"
	"slices"
)

// Basis says how well a trait value is founded.
type Basis string

// The bases, best first. Only Read and Near are evidence.
const (
	Read     Basis = "read"     // measured for this grass, text seen
	Near     Basis = "near"     // read for a near taxon, a class or a rank
	Memory   Basis = "memory"   // recalled from the named publication
	Practice Basis = "practice" // common practice, no published source
	Inferred Basis = "inferred" // concluded from the rest; never shown as measured
)

// Evidence reports whether a figure on this basis was read in a publication.
func (b Basis) Evidence() bool { return b == Read || b == Near }

// bases lists the bases from best to worst.
var bases = []Basis{Read, Near, Memory, Practice, Inferred}

// Value is one trait of one grass: the figure used, and the range within which
// the sources and the kinds on sale lie.
type Value struct {
	Low    float64
	Best   float64
	High   float64
	Basis  Basis
	Source string // a short citation
}

// draw is one value from the triangular distribution on [Low, High] with its
// mode at Best, by the inverse of its distribution function at u in [0, 1).
func (v Value) draw(u float64) float64 {
	return triangular(v.Low, v.Best, v.High, u)
}

// Species is one turfgrass.
type Species struct {
	ID             string
	Botanical      string
	Synonyms       []string            // botanical names it is also found under
	Names          map[string][]string // by BCP 47 tag, the first is the usual one
	Group          string              // one of Groups
	Kinds          []string            // names under which publications speak of it with others
	Warm           bool                // a warm-season (C4) grass
	Invader        bool                // comes in by itself and is never sown
	Fodder         bool                // a hay grass: judged in bags, never chosen but from a lot on offer
	Endophyte      bool                // seed may carry an endophyte that harms grazing animals
	MaxShare       int                 // published cap in a mixture, % by weight; 0: none
	MaxShareSource string
	Notes          []string        // what a merchant's page would not say
	Facts          map[Fact]string // what else is known of it, each with its source
	Values         [TraitCount]Value
}

// Fact is something known of a grass that is no figure.
type Fact string

// The facts.
const (
	OfOldLawns  Fact = "old_lawns" // old lawns are made of it
	SoldAsTurf  Fact = "turf"      // turf on sale is grown of it
	LeftUneaten Fact = "uneaten"   // grazing animals leave it
)

// facts lists them.
var facts = []Fact{OfOldLawns, SoldAsTurf, LeftUneaten}

// Is tells whether a fact is known of the grass.
func (s *Species) Is(f Fact) bool { return s.Facts[f] != "" }

// IsOf tells whether publications speak of the grass under one of these names.
func (s *Species) IsOf(kinds []string) bool {
	return slices.ContainsFunc(kinds, func(k string) bool { return slices.Contains(s.Kinds, k) })
}

// groups are the kinds of grass, as the trade sorts them.
var groups = []string{"ryegrass", "fine fescue", "tall fescue", "meadow-grass", "bent", "other", "warm-season"}

// Best holds the figure used for every trait.
func (s *Species) Best() Traits {
	var t Traits
	for i, v := range s.Values {
		t[i] = v.Best
	}
	return t
}

// draw is one set of traits from within their ranges. It takes TraitCount
// numbers from r, one a trait.
func (s *Species) draw(r *rand.Rand) Traits {
	var t Traits
	for i, v := range s.Values {
		t[i] = v.draw(r.Float64())
	}
	return t
}

// At is the set of traits at quantiles of their ranges.
func (s *Species) At(quantiles *[TraitCount]float64) Traits {
	var t Traits
	for i, v := range s.Values {
		t[i] = v.draw(quantiles[i])
	}
	return t
}

// ForLawns says whether a grass is one to choose for a lawn.
func (s *Species) ForLawns() bool { return !s.Invader && !s.Fodder }

// Common is the usual common name in a language: the tag itself, then its
// base language, then British English; the botanical name without one.
func (s *Species) Common(tag string) string {
	for _, k := range []string{tag, baseTag(tag), "en-GB"} {
		if n := s.Names[k]; len(n) > 0 {
			return n[0]
		}
	}
	return s.Botanical
}

func baseTag(tag string) string {
	for i, r := range tag {
		if r == '-' || r == '_' {
			return tag[:i]
		}
	}
	return tag
}
