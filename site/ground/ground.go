// Package ground reads the soil of a lawn: texture to water and conductivity,
// drainage, bearing, pH, salt and nutrients; and it holds the arithmetic of
// materials that are carried to it.
//
// Texture is by the USDA classes, whose silt ends at 0.05 mm; British and German
// triangles cut elsewhere and their names don't carry over. Water and
// conductivity follow K. E. Saxton and W. J. Rawls, "Soil water characteristic
// estimates by texture and organic matter for hydrologic solutions", Soil Sci.
// Soc. Am. J. 70:1569 (2006), which holds for mineral soil with at most 8 % of
// organic matter and 60 % of clay. Peat and frozen ground are outside it.
package ground

import "swardwright/internal/told"

// Survey is what the brief says of the ground.
type Survey struct {
	Texture                  string // a USDA class, or empty
	SandPercent, ClayPercent *float64
	OrganicPercent           *float64
	PH                       *float64 // in water
	Drainage                 string   // a USDA natural drainage class, or empty
	PercolationMMH           *float64 // fall of the water in a soaked test hole
	ECeDSM                   *float64
	DepthCM                  *float64 // usable topsoil
	Compaction               string   // a density class of Saxton & Rawls, or empty
	Phosphorus, Potassium    string   // soil-test class: "low", "medium", "high", or empty
	Over                     string   // [Deck] where the topsoil lies on a building, or empty
	StonesPercent            *float64 // of the topsoil's volume
}

// Deck is a roof or another floor that the topsoil lies on, over a drainage layer and a
// membrane: there is no ground below.
const Deck = "deck"

// Soil is the ground as found, with every gap filled by a stated assumption.
type Soil struct {
	Texture                               string
	SandPercent, SiltPercent, ClayPercent float64
	OrganicPercent                        float64
	PH                                    float64
	PHKnown                               bool
	ECeDSM                                float64
	DepthCM                               float64
	DepthKnown                            bool
	OnDeck                                bool    // it lies on a building
	Stones                                float64 // share of the topsoil's volume, 0 to 1
	Drainage                              string
	Compaction                            string
	Phosphorus, Potassium                 string // empty: not tested

	// Saxton & Rawls 2006, at the density that texture and organic matter give. Contents
	// and conductivity are those of the whole soil, its stones with it; the density is of
	// the earth between them.
	WiltingPoint, FieldCapacity, Saturation float64 // volume fractions
	KsatMMH                                 float64 // saturated conductivity
	DensityKGM3                             float64 // dry, settled

	InfiltrationMMH float64 // into the lawn's surface, compaction counted
	DrainMMD        float64 // what leaves the rootzone downwards at saturation
	Wetness         float64 // 0 freely drained to 1 very poorly drained
	WinterBearing   Bearing

	Assumptions []told.Sentence
}

// Bearing is how well wet winter ground carries feet and wheels.
type Bearing string

// The classes of bearing.
const (
	Firm Bearing = "firm" // can be walked on except in a thaw
	Soft Bearing = "soft" // marks; keep wheels off from autumn to spring
	Poor Bearing = "poor" // poaches under foot
)
