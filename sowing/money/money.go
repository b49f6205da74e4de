// Package money prices a plan: a bill of quantities for each way of making the
// lawn, its uncertainty, and the choice between them.
//
// Rounding: quantities are rounded first, to whole bags, rolls and loads and to a
// hundredth of everything else; a line is its rounded quantity times its rate,
// rounded to the minor unit, half away from zero; margin, discount and tax are
// each reckoned on the sum so far and rounded in the same way. So every printed
// total is the exact sum of the printed figures above it.
package money

import "time"

// Job is what is to be priced, in plain figures.
type Job struct {
	Prices  Prices
	Zones   []Zone
	EdgingM float64
	Curved  bool       // a curved or much cut plot wastes more turf
	Ground  []Quantity // work and materials, for the whole of the zones that hold

	// Seed is the order for so many square metres.
	Seed           func(areaM2 float64) []Bag
	Overseed       bool   // into a standing sward
	Sowing, Laying *Start // nil: that way is not open
	NeededBy       *time.Time
	Date           time.Time // of the offer; zero: none given
	RandSeed       uint64    // of the Monte Carlo draws
	SquareFeet     bool      // sentences speak of square feet; nothing else changes
}

// Zone is a part of the lawn.
type Zone struct {
	Name      string
	AreaM2    float64
	Holds     bool // sown grass holds there; a zone where it doesn't is in no bill
	TurfSuits bool // so do the grasses that turf is grown of
}

// Quantity is one piece of ground work or one material.
type Quantity struct {
	Item   string
	Group  Group // empty: ground
	For    Way   // Seed or Turf: of that way alone; empty: of every way
	Amount float64
	Unit   string // "m2", "m3", "m", "kg" or as the price list has it
	Key    string // of the price list: an output for work, a price for a material
	Cause  string // empty: the price list's
	Fixed  bool   // doesn't grow with the area
	Source string // where the amount comes from
}

// Bag is one size of seed in the order.
type Bag struct {
	Item  string // what it holds
	KG    float64
	Count int
	Price Amount // of one
	Key   string // of the price list, where the price is of it; empty: the lot's own price
}

// Start is how sowing or laying goes.
type Start struct {
	Usable         time.Time
	Success        float64 // chance that the first attempt succeeds, 0 to 1
	WaterMM, DryMM float64 // watering until it bears use: mean, and in the dry year in ten
	Waterings      int     // times somebody has to water; 0: not known
	Cuts           int     // until it bears use
}

// Way is one way of making the lawn.
type Way string

// The ways.
const (
	Seed  Way = "seed"
	Turf  Way = "turf"
	Mixed Way = "seed and turf" // turf in some zones, seed in the others
)

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

// Line is one line of a bill.
type Line struct {
	Group     Group
	Item      string
	Quantity  float64
	Unit      string
	Rate      Rate
	Amount    Amount  // quantity × rate, rounded half away from zero to the minor unit
	Low, High float64 // three-point factors on the amount: optimistic and pessimistic over likely
	Cause     string  // lines of one cause vary together; empty: nothing varies
	Source    string  // where quantity and rate come from
	Invented  bool    // the rate is of the example price list

	retry   bool    // falls due as often as attempts fail …
	success float64 // … of which each succeeds with this chance
	repeat  float64 // what one more attempt costs, in minor units
}

// Bill is the whole of one way.
type Bill struct {
	Way                                        Way
	AreaM2                                     float64
	Lines                                      []Line
	Extras                                     []Line // margin, discount (negative) and tax as lines: with them the lines add up to the total
	Net, Margin, Discount, Tax, Total, Deposit Amount // discount is what is taken off
	PerM2                                      Amount
	P10, P50, P90                              Amount
	UsableFrom                                 time.Time
	InTime                                     bool     // bears use by the day needed; true when none is set
	Success                                    float64  // chance that the first attempt succeeds
	Drivers                                    []Driver // what moves the total most, greatest first
}

// Driver is one cause and how far it moves the total.
type Driver struct {
	Name      string
	Low, High Amount // the total with that cause at its P10 and P90, all else as likely
}

// Turn is where the answer between two ways turns over.
type Turn struct {
	What  string // "labour rate", "area", "day needed by"
	At    string // "GBP 41.50 an hour"
	Means string
}

// Comparison is the choice between the ways.
type Comparison struct {
	Currency                     string
	Bills                        []Bill // none where no grass holds
	Advised                      Way    // empty: none
	Advice                       string // one sentence
	EarlierPerDay                Amount // what each day won by turf costs
	DaysEarlier                  int
	TurfCheaperChance            float64 // share of the draws in which turf costs less than seed
	Turns                        []Turn
	Unpriced                     []string // what neither price shows
	ExamplePrices                bool     // some rate is of the invented price list
	Validity, DepositNote, Terms string
	Assumptions                  []string
}
