package species

import (
	"fmt"
	"math"
)

const (
	// soilNGM2 is the nitrogen that a year frees from each percent of organic
	// matter (inferred), and soilNMostGM2 the most the sward can catch of it.
	soilNGM2, soilNMostGM2 = 1.5, 8.0
	// shadeNShare is the share of the sunny need that full shade asks for: half
	// to two thirds (Kentucky 2022; Illinois 1999).
	shadeNShare = 0.55
	// A supply of half the need halves the fit; one of twice the need is where
	// excess begins to harm: fine fescue, needing 7, sickens above 19.5 g/m²
	// (Landschoot, Penn State).
	nHalf, nExcess = 0.5, 2.0
)

var criterionUpkeep = Criterion{
	ID:      "upkeep",
	Title:   "Upkeep",
	Means:   "whether the feeding planned is what it needs, neither starved nor forced",
	Quality: QualityKeep,
	Reads:   []Trait{NitrogenGM2},
	Source:  "nitrogen fed and freed from the soil over nitrogen needed",
	Score: func(t *Traits, s *Setting) float64 {
		return NitrogenFit(t, s.Use.NitrogenOrClass()+s.soilN(), s.shade())
	},
	Figure: func(s *Setting) string {
		return fmt.Sprintf("%.0f g/m² of nitrogen fed a year and %.0f from the soil", s.Use.NitrogenOrClass(), s.soilN())
	},
	Limits: func(t *Traits) string { return fmt.Sprintf("needs %.0f g/m² a year in sun", t[NitrogenGM2]) },
}

// soilN is the nitrogen that the soil frees in a year, g/m².
func (s *Setting) soilN() float64 {
	return math.Min(soilNMostGM2, soilNGM2*s.Site.Soil.OrganicPercent)
}

// NitrogenFit is how well a year's supply of nitrogen, g/m², suits in a given
// shade.
func NitrogenFit(t *Traits, supplyGM2, shade float64) float64 {
	need := t[NitrogenGM2] * (1 - (1-shadeNShare)*clamp01(shade))
	if need <= 0 {
		return 1
	}
	ratio := supplyGM2 / need
	if ratio < 1 {
		return bell((1 - ratio) / nHalf)
	}
	return bell((ratio - nExcess) / nExcess)
}
