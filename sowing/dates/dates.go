// Package dates finds when to sow seed and when to lay turf: for every day of the
// year, in how many of the synthetic years a sowing begun on it comes through, when
// it is up, first cut and in use, and what goes wrong.
//
// A Table follows the ground of one lawn through the years. Table.Sow and Table.Lay
// make a Season of it: the fate of one mixture, or of turf, by day of the year. A
// Season answers what a plan asks: the windows, what comes of one day, the chance to
// bear use by a date. Days of the year are those of package calendar; a date that
// never comes is nil.
package dates

import (
	"time"

	"swardwright/internal/told"
)

// Kind is a season of work.
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

// Limits are the days on which work may begin.
type Limits struct {
	From                time.Time // the first day considered; the year after it is searched
	NotBefore, NotAfter *time.Time
}

// Window is a run of days on which sowing, or laying turf, succeeds often enough.
type Window struct {
	Kind                        Kind
	Opens, Closes               time.Time
	Best                        time.Time
	Success                     float64 // mean share of years over its days
	BestSuccess                 float64 // on its best day
	Score                       float64 // share of the seedlings that come through on its best day, mean of years
	EmergenceDays, FirstMowDays *Span   // from its best day; nil where that never comes, and for what turf has none of
	OpensBecause, ClosesBecause told.Sentence
	Allowed                     bool          // by Limits
	Wrong                       told.Sentence // what fails most often, of a second choice
}

// Open is the time about the day chosen on which work may begin: its window and those that
// meet it, since spring runs on into summer. It is false where no window holds the day.
func (d *Dates) Open() (opens, closes time.Time, ok bool) {
	if d.Chosen < 0 || d.Chosen >= len(d.Windows) {
		return opens, closes, false
	}
	opens, closes = d.Windows[d.Chosen].Opens, d.Windows[d.Chosen].Closes
	for range d.Windows {
		for _, w := range d.Windows {
			if w.Allowed && w.Opens.Equal(closes.AddDate(0, 0, 1)) {
				closes = w.Closes
			}
			if w.Allowed && w.Closes.Equal(opens.AddDate(0, 0, -1)) {
				opens = w.Opens
			}
		}
	}
	return opens, closes, true
}

// Start is what comes of sowing, or of laying turf, on one day.
type Start struct {
	On                                   time.Time
	Success                              float64 // share of years in which it comes through
	Score                                float64
	EmergenceDays, FirstMowDays, UseDays *Span // from On, of the years that get there; nil where hardly any does
	FirstMow, UsableFrom                 *time.Time
	Parts                                []Part // how each grass fares; none of turf
}

// Part is how one grass of a mixture fares.
type Part struct {
	SpeciesID                   string
	EmergenceDays, FirstMowDays *Span
	Success                     float64
}

// Week is the watering of one week after sowing, litres a square metre.
type Week struct {
	Number        int
	MeanMM, DryMM float64 // mean and the dry year in ten
}

// Dates is the answer for one mixture, or for turf.
type Dates struct {
	On                   *time.Time // to sow or lay; nil where no day of the year will do
	Chosen               int        // index in Windows; -1: none allowed, On is the best there is
	Windows              []Window   // best first
	Seconds              []Window   // second choices, which succeed less often than was asked
	Threshold            float64    // share of years a day must succeed in
	Success              float64    // of On
	Components           []Part     // on On; none of turf
	FirstMow, UsableFrom *time.Time // median; nil where hardly any year gets there
	Watering             []Week
	WaterMM              *Span // over all weeks
	NeededBy             *time.Time
	NeededByChance       float64         // share of years it bears use by then
	SoonestOn, Soonest   *time.Time      // where that is too few: when to begin for the earliest use, and when that comes in as many years as were asked
	Notes                []told.Sentence // what is impossible and why
}
