// Package ground reads the soil of a lawn: texture to water and conductivity,
// drainage, bearing, pH, salt and nutrients.
package ground

// Survey is what the brief says of the ground.
type Survey struct {
	Texture                  string // a USDA class, or empty
	SandPercent, ClayPercent *float64
	OrganicPercent           *float64
	PH                       *float64
	Drainage                 string // a USDA natural drainage class, or empty
	PercolationMMH           *float64
	ECeDSM                   *float64
	DepthCM                  *float64 // usable topsoil
	Phosphorus, Potassium    string   // soil-test class: "low", "medium", "high", or empty
}

// Soil is the ground as found, with every gap filled by a stated assumption.
type Soil struct {
	Texture                               string
	SandPercent, SiltPercent, ClayPercent float64
	OrganicPercent                        float64
	PH                                    float64
	PHKnown                               bool
	ECeDSM                                float64
	DepthCM                               float64
	Drainage                              string
	Phosphorus, Potassium                 string // empty: not tested

	// Saxton & Rawls 2006.
	WiltingPoint, FieldCapacity, Saturation float64 // volume fractions
	KsatMMH                                 float64 // saturated conductivity
	DensityKGM3                             float64

	InfiltrationMMH float64 // into the lawn's surface, compaction counted
	DrainMMD        float64 // what leaves the rootzone downwards at saturation
	Wetness         float64 // 0 freely drained to 1 very poorly drained

	Assumptions []string
}
