// Package dates finds when to sow: for every possible sowing day, in how many
// of the synthetic years emergence, first mowing and hardening before winter
// succeed.
package dates

import "time"

// Kind is a sowing season.
type Kind string

// The kinds of window.
const (
	Spring  Kind = "spring"
	Summer  Kind = "summer"
	Autumn  Kind = "autumn"
	Dormant Kind = "dormant"
)

// Span is a range that holds 8 years in 10: the 10th, 50th and 90th percentile.
type Span struct{ P10, P50, P90 float64 }

// Window is a run of sowing days that succeed often enough.
type Window struct {
	Kind                        Kind
	Opens, Closes               time.Time
	Best                        time.Time
	Latest                      time.Time // last day on or after Closes that still succeeds often enough, though less well
	Success                     float64   // mean share of years over its days
	BestSuccess                 float64
	Score                       float64 // share of seedlings that come through, mean of years, on the best day of it
	EmergenceDays               Span    // from sowing
	FirstMowDays                Span
	OpensBecause, ClosesBecause string
	Met                         bool // allowed by not_before, not_after and needed_by
	WaterMM                     Span // irrigation until established
}

// Component is how one species fares when sown on the chosen day.
type Component struct {
	SpeciesID     string
	EmergenceDays Span
	FirstMowDays  Span
	Success       float64
}

// Week is the watering of one week after sowing, litres a square metre.
type Week struct {
	Number        int
	MeanMM, DryMM float64 // mean and the dry year in ten
}

// Dates is the whole answer.
type Dates struct {
	SowOn                  time.Time
	Chosen                 int         // index in Windows; -1: none allowed, SowOn is the best there is
	Windows                []Window    // best first
	Threshold              float64     // share of years a sowing day must succeed in
	Components             []Component // on SowOn
	FirstMow, UsableFrom   time.Time   // median; zero where no year gets there
	Watering               []Week
	TurfWindows            []Window
	TurfOn, TurfUsableFrom time.Time
	TurfSuccess            float64
	NeededBy               *time.Time
	NeededByChance         float64  // share of years it bears use by then
	Notes                  []string // what is impossible and why
}
