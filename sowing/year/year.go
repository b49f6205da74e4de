// Package year plans the care of the lawn: mowing, feeding, spiking, dressing,
// overseeding and watering through the first year and the years after, as dated
// tasks.
package year

import "time"

// Task is one piece of work with its date.
type Task struct {
	Date      time.Time
	Until     time.Time // last day of a task that runs on; zero: one day
	Title     string
	Detail    string
	Hours     float64 // of one person, each time
	Times     int     // how often it is done between Date and Until, at least 1
	Materials []string
	Chance    float64 // share of years in which the date is right; 0: not a matter of weather
	First     bool    // of the first year only
}

// Feed is one feeding.
type Feed struct {
	Date time.Time
	NGM2 float64
	Kind string // "leaf" or "hardening"
}

// Month is the growth and mowing of one month.
type Month struct {
	Growth       float64 // mean growth, 0 to 1
	MowEveryDays float64 // 0: no mowing
	Mows         float64
	CutMM        float64
}

// Calendar is the whole answer.
type Calendar struct {
	Tasks        []Task // by date
	Months       [12]Month
	Feeds        []Feed
	NitrogenGM2  float64 // a year
	CutMM        float64
	CutsPerYear  float64
	MowHoursYear float64
	Notes        []string
}
