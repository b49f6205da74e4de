// Package bed plans the ground: what is there against what the lawn needs, the
// rootzone and its volumes, drainage, lime and the feed at sowing.
package bed

// Layer is one layer of the section, from the top.
type Layer struct {
	Name    string
	DepthMM float64
	Note    string
}

// Material is something brought in or taken away.
type Material struct {
	Item               string
	SettledM3, LooseM3 float64
	Tonnes             float64
	BarrowLoads        int
	LorryLoads         int
	KG                 float64 // for lime and feed, which go by weight
	PriceKey           string  // of the price list
	For                string  // what it is for
}

// Step is one piece of the preparation or renovation, in order.
type Step struct {
	Title, Detail string
	Hours         float64 // of one person
	OutputKey     string  // of the price list's output rates
	DaysBefore    int     // before sowing; negative: after
}

// Check is one test of the ground, passed or not.
type Check struct {
	Name   string
	Figure string
	Limit  string
	OK     bool
	Advice string
	Source string
}

// Bed is the whole answer.
type Bed struct {
	Layers                            []Layer // the section as wanted
	Found                             []Layer // as found
	Materials                         []Material
	Steps                             []Step
	Checks                            []Check
	Lime                              string  // the answer on lime, "no lime" as a rule
	StarterN, StarterP2O5, StarterK2O float64 // g/m² at sowing
	PuddleMM                          float64 // left standing by the design rain
	PuddleHours                       float64
	DrainSpacingM                     float64 // 0: no pipe drains
	MownSlope                         bool    // not too steep to mow
	Notes                             []string
}
