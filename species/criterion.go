package species

import (
	"swardwright/site"
)

// Setting is what a criterion may look at: one zone of a site and the use.
type Setting struct {
	Site  *site.Conditions
	Zone  *site.Zone
	Use   Use
	CutMM float64 // the height of cut in this zone
}

// Criterion is one column of the matrix. Adding one is adding one file.
type Criterion struct {
	ID     string
	Title  string
	Means  string // one sentence for a client
	Reads  []Trait
	Source string // of the method
	Rate   func(traits *Traits, s *Setting) Rating
}
