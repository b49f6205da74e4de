// Package mix finds which grasses to sow together, explains the choice, and
// judges bags bought ready-mixed.
package mix

import (
	"cmp"
	"slices"

	"github.com/samber/lo"

	"swardwright/internal/told"
	"swardwright/mix/sward"
	"swardwright/species"
)

// Stock is the brief's pages [[seed_lot]] and [[premix]]: what is on offer.
type Stock struct {
	Lots     []Lot
	Premixes []Premix
}

// Lot is seed of one species that can be bought, by its label.
type Lot struct {
	Species            *species.Species
	Name               string
	PurityPercent      float64 // 0: the lawful least
	GerminationPercent float64
	PricePerKG         string    // decimal, in the brief's currency; empty: the price list's
	BagKG              []float64 // bag sizes on sale
	StockKG            float64   // on offer; 0: no limit
}

// Premix is a ready-mixed bag on offer.
type Premix struct {
	Name       string
	PricePerKG string
	BagKG      []float64
	Parts      []Part
}

// Part is a species with its share by weight.
type Part struct {
	Species *species.Species
	Percent float64
}

// Task is the work the mixture is for.
type Task struct {
	Overseed     bool
	Meadow       bool         // sown as thinly as one
	CoverPercent float64      // living cover now, for overseeding
	SowDay       int          // day of the year
	RateGM2      float64      // seed sown; 0: by the seed count for the grade
	SeedbedShare float64      // field emergence on this seedbed over that on a fair one
	Known        *sward.Known // what a record tells of the lawn; nil: nothing
	Quick        bool         // a rough answer will do: fewer lawns, a coarser search, no words
	FirstLook    bool         // stop where the standard asked for can't be kept, with the one to plan for and nothing else
	GivenUp      *GivenUp     // that standard, as a first look left it; nil: it is yet to be tried
	Given        []Part       // of a rough answer: the mixture is this one, whatever is best; nil: the best is looked for
}

// Component is one grass of a mixture.
type Component struct {
	Species                                     *species.Species
	Percent                                     int     // by weight, a multiple of 5 in one mixture
	SeedPercent                                 float64 // by number of viable seeds
	WithoutCover, WithoutBadCover, WithoutEarly float64 // what is lost without it (positive is loss)
	Because                                     told.Sentence
}

// Mixture is what to sow.
type Mixture struct {
	Components                  []Component
	SeedsPerM2                  float64   // viable
	RateGM2                     float64   // of seed as bought
	CoverExpected, CoverBadYear float64   // third season on, of the middle lawn and of one lawn and year in ten; over zones by area
	Covers                      []float64 // expected cover of each lawn that this one may be, the same lawns for every use and mixture
	EarlyCover                  float64   // eight weeks of growth after emergence
	Evenness                    float64   // of look, 0 to 1
	Score                       float64
	Sward                       []sward.Season
	Apart                       bool // two mixtures, each in zones of its own: shares are of all seed, in whole percent

	NearTies   []Blend // unlike it and as good, best first; not of bags
	LeadsOn    float64 // share of the lawns that this one may be on which the grass that leads it still leads the best mixture; not of bags
	ModelAlone *Blend  // what the model would sow without published caps and practice; nil: much the same
}

// Leads is the grass that it holds most of.
func (m *Mixture) Leads() *species.Species {
	return slices.MaxFunc(m.Components, func(a, b Component) int { return cmp.Compare(a.Percent, b.Percent) }).Species
}

// Parts are its grasses with their shares.
func (m *Mixture) Parts() []Part {
	return lo.Map(m.Components, func(c Component, _ int) Part { return Part{c.Species, float64(c.Percent)} })
}

// Weights are the shares by weight, 0 to 1, by the ids of its grasses.
func (m *Mixture) Weights() map[string]float64 {
	shares := map[string]float64{}
	for _, c := range m.Components {
		shares[c.Species.ID] = float64(c.Percent) / 100
	}
	return shares
}

// Share is that of a grass by weight, 0 to 1.
func (m *Mixture) Share(sp *species.Species) float64 {
	for _, c := range m.Components {
		if c.Species == sp {
			return float64(c.Percent) / 100
		}
	}
	return 0
}

// Verdict is whether grass keeps the least cover of a standard.
type Verdict string

// The verdicts, by the chance that it does.
const (
	Holds    Verdict = "holds"    // 0.8 or more
	Doubtful Verdict = "doubtful" // between
	None     Verdict = "none"     // below 0.2: nothing is sown there
)

// verdictOf is the verdict of a chance.
func verdictOf(chance float64) Verdict {
	switch {
	case chance >= holdsFrom:
		return Holds
	case chance >= noneBelow:
		return Doubtful
	}
	return None
}

// The chances from which grass is said to hold, and below which nothing is sown (our
// judgement).
const holdsFrom, noneBelow = 0.8, 0.2

// ZoneVerdict says whether grass will hold in a zone.
type ZoneVerdict struct {
	Zone      int
	Verdict   Verdict
	Chance    float64 // that grass keeps the standard's least cover, over years, light and the grasses' needs
	Cover     float64 // of the middle lawn: of the chosen mixture, or where nothing is sown of the grass that does best
	Sown      bool    // grass comes into the zone
	LimitedBy string
	Instead   []told.Sentence // what to do there when it doesn't hold for sure
}

// Measure is what a standard asks for.
type Measure string

// The measures.
const (
	Cover    Measure = "cover"          // living, mean of years
	BadCover Measure = "bad-year cover" // the same in one year of ten
	Even     Measure = "evenness"       // of look
	Look     Measure = "look"           // fineness of leaf and shoot density
)

// Shortfall is a measure by which a lawn stays below its standard; 0 to 1.
type Shortfall struct {
	What     Measure
	Is, Asks float64
	Missed   bool // Is of the lawns that miss it: the middle one does not
}

// Judged is a premix scored by the same model.
type Judged struct {
	Premix     Premix
	Mixture    Mixture
	TopUp      []TopUp
	TopUpScore float64
	Verdict    told.Sentence
}

// TopUp is seed that mends a premix.
type TopUp struct {
	Species    *species.Species
	GramsPerKG float64 // for each kilogram of the premix
}

// LeftOut is a leading species that is not in the mixture, with the reason.
type LeftOut struct {
	Species *species.Species
	Because told.Sentence
}

// GivenUp is what a first look found of a standard that can't be kept, so that it need not be tried again.
type GivenUp struct{ asked *answer }

// Choice is the whole answer of this room.
type Choice struct {
	Mixture           *Mixture // nil when no grass will hold
	Zones             []ZoneVerdict
	Asked, Attainable species.Grade // Attainable is the standard planned; empty when no grass will hold
	Use               species.Use   // planned: as asked, of the standard planned
	Holds             bool          // the lawn is likelier to keep that standard than not
	Chance            float64       // that it keeps it, over years and all that isn't known of the place and its grasses
	ShortBy           []Shortfall   // what it lacks of the standard where it doesn't hold
	Because           told.Sentence // why
	GivenUp           *GivenUp      // of a first look: nil where the standard asked for is to be planned
	Split             *Split        // two mixtures in place of the one, each for its zones; nil: not looked for, or hardly better
	Turf              *Turf         // the kind to ask for if it is to be turf; nil when no grass will hold
	LeftOut           []LeftOut
	Premixes          []Judged
	Left              []Left          // by zone, where a record knows the sward that is overseeded
	Renovate          bool            // too little of the old sward is left to overseed
	Cultivars         []told.Sentence // advice in general words

	Nearest []NearPractice // published recommendations for lawns like this, the most like first
	Heard   float64        // how much published practice has to say of this lawn, 0 to 1
}
