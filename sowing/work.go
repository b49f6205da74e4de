package sowing

import (
	"errors"
	"math"
	"slices"
	"time"

	"swardwright/internal/calendar"
	"swardwright/internal/steady"
	"swardwright/site"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
	"swardwright/sowing/schedule"
)

// Who works: common practice, no published source. A small lawn is one person's; more
// of them get in each other's way.
const (
	twoFromM2   = 60.0
	threeFromM2 = 600.0
	// On lawns of more than a team's there is a hand for so much ground (our judgement).
	eachM2 = 2000.0
	// horizonDays is how far ahead work is placed.
	horizonDays = 3 * calendar.Year
)

// People is how many work on a lawn of a size.
func People(areaM2 float64) int {
	switch {
	case areaM2 >= threeFromM2:
		return max(3, int(areaM2/eachM2))
	case areaM2 >= twoFromM2:
		return 2
	}
	return 1
}

// CrewDays are the whole days that so many hours of one person take a crew.
func CrewDays(hours float64, people int) int {
	return int(math.Ceil(hours/(job.ProductiveHours*float64(people)) - 1e-9))
}

// Ground that can be worked: snow gone, frost out of the top, and not so wet that it
// smears, in at least half of the years.
const (
	frozenC      = 0.5 // soil temperature under which a spade doesn't go in
	smearsWet    = 0.5 // share of the day above field capacity, mean of a week
	workableFrom = 0.5 // share of the years
	leastOpen    = 60  // days of the year: ground that is dry on fewer is worked wet or never
	// Clay and clay loam stick until they are drier than they drain to: they are workable at
	// about the lower plastic limit (two heavy soils near Berlin, J. Plant Nutr. Soil Sci.,
	// Soil moisture and workability of heavy arable soils), which is taken as so much of the
	// water that grass finds in them.
	stickyClay   = 27.0 // percent, from which
	crumblesFrom = 0.9
)

// openDays tells for each day of the year whether the ground can be worked: as dry as is
// wished for, or where that leaves too few days drained, or thawed.
func openDays(c *site.Conditions) (open [calendar.Year]bool) {
	days := c.Zones[largestZone(c)].Days
	if days == nil || days.Years == 0 {
		for d := range open {
			open[d] = true
		}
		return open
	}
	var thawed, dry, crumbles [calendar.Year]float64
	n := days.Years * calendar.Year
	wet := 0.0
	for k := -6; k < 0; k++ {
		wet += float64(days.Wet[(k+n)%n])
	}
	for k := range n {
		wet += float64(days.Wet[k])
		if days.SnowCM[k] < 1 && float64(days.SoilC[k]) >= frozenC {
			thawed[k%calendar.Year]++
			if wet/7 < smearsWet {
				dry[k%calendar.Year]++
				if c.Soil.ClayPercent < stickyClay || days.Moisture[k] < crumblesFrom {
					crumbles[k%calendar.Year]++
				}
			}
		}
		wet -= float64(days.Wet[(k-6+n)%n])
	}
	for _, years := range [][calendar.Year]float64{crumbles, dry, thawed} {
		count := 0
		for d := range open {
			if open[d] = years[d] >= workableFrom*float64(days.Years); open[d] {
				count++
			}
		}
		if count >= leastOpen {
			break
		}
	}
	return open
}

// site and crew of one way's work, counted in days from the plan's date.
type yard struct {
	from  time.Time
	crew  schedule.Crew
	hands float64
}

func newYard(b Brief, found *site.Conditions, areaM2 float64) yard {
	open := openDays(found)
	y := yard{from: calendar.Midnight(b.planDate()), hands: float64(People(areaM2))}
	first := calendar.DayOf(y.from)
	y.crew = schedule.Crew{HoursADay: job.ProductiveHours * y.hands, Horizon: horizonDays,
		Workable: func(day int) bool { return open[calendar.Wrap(first+day)] }}
	return y
}

func (y yard) date(day int) time.Time { return y.from.AddDate(0, 0, day) }

// work are the tasks as the scheduler sees them. Where nobody knows an output the task
// takes its day and no hours.
func (y yard) work(tasks []job.Task) []schedule.Work {
	out := make([]schedule.Work, len(tasks))
	for i, t := range tasks {
		out[i] = schedule.Work{ID: t.ID, Hours: t.Hours, Needs: t.Needs, Opens: t.Opens}
	}
	return out
}

// started splits the work at the tasks that start the lawn: what must be over before
// them, and they with all that follows.
func started(tasks []job.Task) (before, after []job.Task) {
	start := slices.IndexFunc(tasks, func(t job.Task) bool { return t.Sort == job.Sowing || t.Sort == job.Laying })
	if start < 0 {
		return tasks, nil
	}
	follows := map[string]bool{}
	for _, t := range tasks {
		if t.Sort == job.Sowing || t.Sort == job.Laying || slices.ContainsFunc(t.Needs, func(n job.Need) bool { return follows[n.ID] }) {
			follows[t.ID] = true
			after = append(after, t)
		} else {
			before = append(before, t)
		}
	}
	return before, after
}

// earliest is the first day on which all before the sowing or laying can be over.
func (y yard) earliest(before []job.Task) (time.Time, error) {
	got, err := y.crew.Earliest(y.work(before), 0)
	if err != nil {
		return time.Time{}, err
	}
	last := 0
	for _, p := range got {
		last = max(last, p.Until)
	}
	return y.date(last), nil
}

// place dates the work around the day on which the lawn is started: what comes before
// as late as it can be, so that the bed is fresh; what follows as soon as it may.
func (y yard) place(before, after []job.Task, on time.Time) ([]job.Task, error) {
	day := calendar.Days(y.from, on)
	early, err := y.crew.Latest(y.work(before), 0, day)
	if err != nil {
		return nil, err
	}
	before, after = slices.Clone(before), slices.Clone(after)
	for i, p := range early {
		before[i].Date, before[i].Until = y.span(p)
	}
	// What follows waits for nothing that came before the start.
	rest := slices.Clone(after)
	for i := range rest {
		rest[i].Needs = slices.DeleteFunc(slices.Clone(rest[i].Needs), func(n job.Need) bool {
			return !slices.ContainsFunc(after, func(t job.Task) bool { return t.ID == n.ID })
		})
		rest[i].Opens = false // the day of the start was chosen, and its own work is short
	}
	late, err := y.crew.Earliest(y.work(rest), day)
	if err != nil {
		return nil, err
	}
	for i, p := range late {
		after[i].Date, after[i].Until = y.span(p)
	}
	return slices.Concat(before, after), nil
}

func (y yard) span(p schedule.Placed) (from, until time.Time) {
	if p.Until > p.From {
		until = y.date(p.Until)
	}
	return y.date(p.From), until
}

// withHours gives every task the hours of one person, by the list's outputs.
func withHours(prices money.Prices, tasks []job.Task) []job.Task {
	out := slices.Clone(tasks)
	for i := range out {
		if out[i].OutputKey == "" {
			continue
		}
		if h, err := prices.Hours(out[i].OutputKey, out[i].Quantity); err == nil {
			out[i].Hours = steady.Round(h, 2)
		}
	}
	return out
}

// noRoom tells whether work could not be placed for want of days.
func noRoom(err error) bool { return errors.Is(err, schedule.ErrNoRoom) }
