// Package money prices a plan: a bill of quantities for each way of making the
// lawn, its uncertainty, and the choice between them.
//
// Rounding: quantities are rounded first, to whole bags, rolls and loads and to a
// hundredth of everything else; a line is its rounded quantity times its rate,
// rounded to the minor unit, half away from zero; margin, discount and tax are
// each reckoned on the sum so far and rounded in the same way. So every printed
// total is the exact sum of the printed figures above it.
package money

import (
	"cmp"
	"slices"
	"time"

	"swardwright/internal/told"
	"swardwright/sowing/job"
)

// Input is one way to be priced, in plain figures.
type Input struct {
	Way            job.Way
	Prices         Prices
	SownM2, LaidM2 float64
	EdgingM        float64
	Curved         bool       // a curved or much cut plot wastes more turf
	Work           []Quantity // work and materials of the ground, for what is sown and laid

	// Seed is the order for so many square metres; nil where nothing is sown.
	Seed           func(areaM2 float64) []Bag
	Sowing, Laying *Start // of the part that is sown, and the one that is laid; nil: none is
	UsableFrom     *time.Time
	NeededBy       *time.Time
}

// Quantity is one piece of ground work or one material.
type Quantity struct {
	Item   told.Sentence
	Group  Group   // empty: ground
	Again  job.Way // BySeed or ByTurf: done again where a sowing or laying fails; empty: once
	Amount float64
	Unit   string        // "m2", "m3", "m", "kg" or as the price list has it
	Key    string        // of the price list: an output for work, a price for a material
	Source told.Sentence // where the amount comes from; silent: from the way itself
}

// Bag is one size of seed in the order.
type Bag struct {
	Item  told.Sentence // what it holds
	KG    float64
	Count int
	Price Amount // of one
	Key   string // of the price list, where the price is of it; empty: the lot's own price
}

// Start is how a sowing or laying goes until it bears use.
type Start struct {
	Success           float64 // chance that the first attempt succeeds, 0 to 1
	Litres, DryLitres float64 // watering: mean, and in the dry year in ten
	Cuts              int
	Scythed           bool // they are cut and carried off by hand, as long grass is
}

// Group gathers the lines of a bill.
type Group string

// The groups, in the order of a bill.
const (
	Ground      Group = "ground"
	Materials   Group = "materials"
	Labour      Group = "labour"
	Plant       Group = "plant hire"
	Delivery    Group = "delivery"
	Aftercare   Group = "aftercare"
	Contingency Group = "contingency"
	Extra       Group = "margin, discount and tax" // of Extras alone
)

// Groups are all groups, in the order of a bill.
var Groups = []Group{Ground, Materials, Labour, Plant, Delivery, Aftercare, Contingency}

// Told is the group as a sentence carries it.
func (g Group) Told() told.Term { return told.Term{Kind: "cost", Word: string(g)} }

// Line is one line of a bill.
type Line struct {
	Group     Group
	Item      told.Sentence
	Quantity  float64
	Unit      string
	Rate      Rate
	Amount    Amount        // quantity × rate, rounded half away from zero to the minor unit
	Low, High float64       // three-point factors on the amount: optimistic and pessimistic over likely
	Cause     string        // lines of one cause vary together; empty: nothing varies
	Source    told.Sentence // where quantity and rate come from
	Invented  bool          // the rate is of the example price list

	retry   bool    // falls due as often as attempts fail …
	success float64 // … of which each succeeds with this chance
	repeat  float64 // what one more attempt costs, in minor units
}

// Bill is the whole of one way.
type Bill struct {
	Way                                        job.Way
	AreaM2                                     float64
	Lines                                      []Line
	Extras                                     []Line // margin, discount (negative) and tax as lines: with them the lines add up to the total
	Net, Margin, Discount, Tax, Total, Deposit Amount // discount is what is taken off
	PerM2                                      Amount
	P10, P50, P90                              Amount
	UsableFrom                                 *time.Time // nil: in most years never
	InTime                                     bool       // bears use by the day needed; true when none is set
	Success                                    float64    // chance that the first attempt succeeds
	Drivers                                    []Driver   // what moves the total most, greatest first
}

// Driver is one cause and how far it moves the total.
type Driver struct {
	Cause     string
	Low, High Amount // the total with that cause at its P10 and P90, all else as likely
}

// Told is the cause as a sentence carries it.
func (d Driver) Told() told.Term { return told.Term{Kind: "cause", Word: d.Cause} }

// BreakEven is where the answer between two ways turns over.
type BreakEven struct {
	Of    string      // "turf price", "labour rate", "area" or "day needed by"
	At    told.Figure // the price, size or day
	Means told.Sentence
}

// Told is what the answer turns on as a sentence carries it.
func (b BreakEven) Told() told.Term { return told.Term{Kind: "break-even", Word: b.Of} }

// Comparison is the price of every way, in the order of the inputs.
type Comparison struct {
	Currency              string
	Bills                 []Bill  // none where no grass holds
	EarlierPerDay         Amount  // what each day won by turf costs
	DaysEarlier           int     // that turf bears use before seed; 0 where one of them never does
	TurfCheaperChance     float64 // share of the draws in which turf costs less than seed
	BreakEvens            []BreakEven
	ExamplePrices         bool // some rate is of the invented price list
	Validity, DepositNote told.Sentence
	Terms                 string // the user's own words, or the list's
	Assumptions           []told.Sentence
}

// find is the bill of a way; nil without one.
func (c *Comparison) find(w job.Way) *Bill {
	i := slices.IndexFunc(c.Bills, func(b Bill) bool { return b.Way == w })
	if i < 0 {
		return nil
	}
	return &c.Bills[i]
}

// sown is the bill of the way by seed alone: of bare ground, by the mixtures asked for, or of
// a standing sward.
func (c *Comparison) sown(by job.Way) *Bill { return cmp.Or(c.find(by), c.find(job.ByOverseeding)) }
