// Package job holds the words that the rooms of a plan share: the kinds of job and
// the ways to a lawn, the part of a lawn that is worked, and the task, which is
// scheduled, priced and printed as one thing. It imports none of those rooms.
package job

import (
	"swardwright/internal/told"
	"time"
)

// Kind is what is to be done.
type Kind string

// The kinds of job.
const (
	New      Kind = "new"
	Overseed Kind = "overseed"
	Renovate Kind = "renovate"
)

// Found is what stands where the lawn is to be.
type Found string

// What may stand there.
const (
	Bare    Found = "bare"
	OldLawn Found = "old lawn"
	Moss    Found = "moss"
	Gravel  Found = "gravel"
	Paving  Found = "paving"
)

// Sward says whether grass can be sown into it.
func (f Found) Sward() bool { return f == OldLawn || f == Moss }

// Surfaced says whether it is a made surface, which is lifted before anything grows.
func (f Found) Surfaced() bool { return f == Gravel || f == Paving }

// Way is one way of coming to a lawn.
type Way string

// The ways.
const (
	BySeed        Way = "seed"          // bare ground sown, or an old sward renovated
	BySeedApart   Way = "two mixtures"  // bare ground sown, lighter and darker zones each with a mixture of their own
	ByTurf        Way = "turf"          // laid on bare ground; an old sward is stripped first
	BySeedAndTurf Way = "seed and turf" // turf in the zones that suit it, seed in the others
	ByOverseeding Way = "overseed"      // seed into a standing sward
)

// ProductiveHours is the work got out of a day, and out of a day for which plant is hired:
// BS 7370 part 1 puts productive time at 5 to 5.5 hours of a day of 8 (as quoted by the
// Grounds Management Association).
const ProductiveHours = 5.25

// LimeApartMonths is the least between two goes of lime on a standing sward: common
// practice, no published source.
const LimeApartMonths = 4

// MownDownMM is what an old sward is cut down to before seed goes into it: common
// practice, no published source.
const MownDownMM = 20.0

// Spiking and top dressing. City of Regina, Topdressing: at most 5 mm in one go, once or
// twice a year. 70 % sand to 30 % weed-free compost, and hundreds of holes, 15 cm deep, are
// common practice, no published source.
const (
	MostDressMM    = 5.0
	DressSandShare = 0.7
	SpikeDepthMM   = 150
	SpikeSpacingMM = 100
)

// Methods of sowing: by hand or spreader, in rows by machine, and mixed into the dressing.
const (
	Broadcast  = "broadcast"
	Drill      = "drill"
	InDressing = "in dressing"
)

// Rootzone is a made ground the client asked for; shares are by volume.
type Rootzone struct {
	DepthCM, SandPercent, SoilPercent float64
	Base                              string // "gravel" or empty
}

// Zone is a light zone of the lawn that a way works on.
type Zone struct {
	Index  int    // in site.Conditions.Zones
	Letter string // on the plan
	AreaM2 float64
}

// Area is the area of several zones, m².
func Area(zones []Zone) (m2 float64) {
	for _, z := range zones {
		m2 += z.AreaM2
	}
	return m2
}

// Letters are the letters of several zones.
func Letters(zones []Zone) []string {
	out := make([]string, len(zones))
	for i, z := range zones {
		out[i] = z.Letter
	}
	return out
}

// Named is several zones by their letters.
func Named(zones []Zone) told.Sentence {
	letters := make([]told.Zone, len(zones))
	for i, z := range zones {
		letters[i] = told.Zone(z.Letter)
	}
	if len(zones) == 1 {
		return told.Say("job.zone", letters[0])
	}
	return told.Say("job.zones", told.All(letters...))
}

// Sort gathers tasks that look alike on a calendar.
type Sort string

// The sorts of task.
const (
	Preparing  Sort = "prepare"
	Sowing     Sort = "sow"
	Laying     Sort = "lay"
	Watering   Sort = "water"
	Mowing     Sort = "mow"
	Feeding    Sort = "feed"
	Spiking    Sort = "spike"
	Raking     Sort = "rake"
	Dressing   Sort = "dress"
	Reseeding  Sort = "overseed"
	Edging     Sort = "edge"
	Leaves     Sort = "leaves"
	Watching   Sort = "watch"
	BearingUse Sort = "in use"
)

// Need is a task that must be over so many days before another begins; none for
// work that may follow on the same day.
type Need struct {
	ID   string
	Days int
}

// Task is one piece of work: first described, then placed on a day. Every count
// of the plan (hours, litres, goes) is read from it.
type Task struct {
	ID      string // begins with what it is: "sow", "lay-turf", "drain", "water-1", "first-cut"
	Sort    Sort
	Title   told.Sentence
	Detail  []told.Sentence // what is done and how, in order
	Caution []told.Sentence // where it can hurt someone
	Zones   []string
	AreaM2  float64

	OutputKey string  // of the price list's output rates; empty: waiting, or minutes
	Quantity  float64 // of the work, in Unit
	Unit      string  // "m2", "m", "m3"
	Hours     float64 // of one person, each go
	Goes      int     // how often it is done between Date and Until, at least 1
	Litres    float64 // of water, over all goes, in a mean year …
	DryLitres float64 // … and in the dry year in ten
	Materials []told.Sentence

	Needs  []Need
	Opens  bool // needs ground that is thawed and not wet
	Date   time.Time
	Until  time.Time // last day of a task that runs on; zero: one day
	Chance float64   // share of years in which the date is right; 0: not a matter of weather
	First  bool      // of the first year only; the rest come round every year
}

// Ends is the last day of a task.
func (t Task) Ends() time.Time {
	if t.Until.IsZero() {
		return t.Date
	}
	return t.Until
}
