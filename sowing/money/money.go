package money

import "time"

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
)

// Line is one line of a bill.
type Line struct {
	Group     Group
	Item      string
	Quantity  float64
	Unit      string
	Rate      Rate
	Amount    Amount  // quantity × rate, rounded half away from zero to the minor unit
	Low, High float64 // three-point factors on the amount: optimistic and pessimistic over likely
	Cause     string  // lines of one cause vary together: "labour", "weather", …; empty: alone
	Source    string  // where quantity and rate come from
	Invented  bool    // the rate is of the example price list
}

// Bill is the whole of one way.
type Bill struct {
	Way                                        Way
	Lines                                      []Line
	Net, Margin, Discount, Tax, Total, Deposit Amount
	PerM2                                      Amount
	P10, P50, P90                              Amount
	UsableFrom                                 time.Time
	Success                                    float64  // chance that the first attempt succeeds
	Drivers                                    []Driver // what moves the total most, greatest first
}

// Driver is one cause and how far it moves the total.
type Driver struct {
	Name      string
	Low, High Amount // the total with that cause at its P10 and P90
}

// Turn is where the answer between two ways turns over.
type Turn struct {
	What  string // "labour rate", "area", "day needed by"
	At    string // "41.50 GBP an hour"
	Means string
}

// Comparison is the choice between the ways.
type Comparison struct {
	Currency                     string
	Bills                        []Bill
	Advice                       string // one sentence
	EarlierPerDay                Amount // what each day won by turf costs
	DaysEarlier                  int
	Turns                        []Turn
	Unpriced                     []string // what neither price shows
	ExamplePrices                bool     // some rate is of the invented price list
	Validity, DepositNote, Terms string
}
