// Package species holds the turfgrasses, their traits with sources, and the
// suitability matrix that rates each against a site.
package species

// Class is a suitability class of the FAO Framework for Land Evaluation (1976).
type Class string

// The classes, best first.
const (
	S1 Class = "S1" // highly suitable
	S2 Class = "S2" // moderately
	S3 Class = "S3" // marginally
	N1 Class = "N1" // not at present
	N2 Class = "N2" // not at all
)

// Rating is one cell of the matrix with its reason.
type Rating struct {
	Criterion string  // id
	Value     float64 // 0 to 1
	Figure    string  // what the site offers, with unit
	Limits    string  // what the grass needs, with unit
	Source    string
	Basis     Basis
}

// Row is one species in one zone.
type Row struct {
	Species   *Species
	Zone      int
	Ratings   []Rating // one a criterion, in the order of Criteria
	Overall   float64
	Class     Class
	LimitedBy string // id of the limiting criterion

	ClassChance  map[Class]float64 // over draws within the trait ranges
	LeaderChance float64           // share of draws in which it is among the leading five of its zone
	Sureness     string            // "sure", "likely", "could go either way"
}

// Matrix rates every species in every zone.
type Matrix struct {
	Criteria []Criterion
	Rows     []Row // by zone, then best first
}
