package species

import (
	"math"

	"swardwright/internal/told"
	"swardwright/site/ground"
)

const (
	// Nitrogen that comes without feeding in a year: with the rain and from
	// clippings left lying, and freed from each percent of organic matter, up to
	// what a sward can catch (inferred).
	freeNGM2, soilNGM2, soilNMostGM2 = 2.0, 1.5, 10.0
	// shadeNShare is the share of the sunny need that full shade asks for: half
	// to two thirds (Kentucky 2022; Illinois 1999).
	shadeNShare = 0.55
	// A supply of half the need halves the fit. Excess begins to harm at
	// nExcess times the need: fine fescue, needing 7, sickens above 19.5 g/m²
	// (Landschoot, Penn State); nExcessHalf beyond that it halves the fit.
	nHalf, nExcess, nExcessHalf = 0.5, 2.8, 3.0
)

var criterionUpkeep = Criterion{
	ID:      "upkeep",
	Means:   told.Say("criteria.upkeep-means"),
	Quality: QualityKeep,
	Reads:   []Trait{NitrogenGM2},
	Source:  "nitrogen fed and freed from the soil over nitrogen needed",
	Score: func(t *Traits, s *Setting) float64 {
		return NitrogenFit(t, s.Use.NitrogenOrClass(), s.soilN(), StandardOf(s.Use.Grade).Feed, s.shade())
	},
	Figure: func(s *Setting) told.Sentence {
		return told.Say("criteria.upkeep", told.GramsPerM2(s.Use.NitrogenOrClass()), told.GramsPerM2(s.soilN()))
	},
	Limits: func(t *Traits) told.Sentence {
		return told.Say("criteria.upkeep-limits", told.GramsPerM2(t[NitrogenGM2]))
	},
}

// soilN is the nitrogen that comes in a year without feeding, g/m².
func (s *Setting) soilN() float64 { return SoilNitrogenGM2(&s.Site.Soil) }

// SoilNitrogenGM2 is the nitrogen that comes in a year without feeding, g/m².
func SoilNitrogenGM2(s *ground.Soil) float64 {
	return math.Min(soilNMostGM2, freeNGM2+soilNGM2*s.OrganicPercent)
}

// NitrogenFit is how well what is fed in a year in full light and what the soil
// frees, g/m², suit. grade is the share of the full need that the look asked for
// takes (see [Standard]). In shade the grass needs less and is fed
// as much less.
func NitrogenFit(t *Traits, fedGM2, soilGM2, grade, shade float64) float64 {
	share := 1 - (1-shadeNShare)*shadiness(shade)
	need := t[NitrogenGM2] * grade * share
	if need <= 0 {
		return 1
	}
	ratio := (fedGM2*share + soilGM2) / need
	if ratio < 1 {
		return bell((1 - ratio) / nHalf)
	}
	return bell((ratio - nExcess) / nExcessHalf)
}
