package year

import (
	"fmt"
	"math"
	"strings"
	"time"

	"swardwright/internal/calendar"
)

// Watering of new seed: City of Regina, Seed your lawn: 6 mm four times a week
// until the grass is up, then 12 mm twice a week, four to six weeks in all.
const (
	seedGoMM    = 6.0
	seedWeeks   = 3
	youngGoMM   = 12.0
	youngWeeks  = 6
	soakGoMM    = 25.0 // later, every 7 to 10 days (the same; University of Saskatchewan)
	turfFirstMM = 20.0 // within the first hour: Nursery Sod Growers Association of Ontario
	turfDayMM   = 6.0  // then for two weeks: common practice, no published source (5 to 7)
	// tallFirstMM is the height at which seedlings are first cut at the latest:
	// Parkland County and the Polish road specification (about 10 cm).
	tallFirstMM = 100.0
	waterHours  = 0.25 // of standing by, each go
)

// resumeDays after overseeding the old sward is mown again, while it grows: common
// practice, no published source.
const resumeDays = 14

// resume brings the first mowing forward where an old sward would outgrow the seedlings.
func (p *plan) resume() {
	at := p.want.SowOn.AddDate(0, 0, resumeDays)
	k := calendar.Since(p.season.cold, calendar.DayOf(at))
	if p.want.Old && at.Before(p.want.FirstMow) && p.season.mean[k] >= p.season.begins {
		p.want.FirstMow = at
	}
}

// establish adds the sowing or laying and the weeks until the lawn bears use.
func (p *plan) establish() {
	w := p.want
	if w.Turf {
		if len(w.Before) == 0 {
			p.add(Task{Kind: Sow, Date: w.SowOn, Title: "Lay the turf", First: true,
				Detail: "Within 24 hours of its lifting, joints staggered and pushed tight, from boards; firm it down and soak it at once."})
		}
		p.add(Task{Kind: Watering, Date: w.SowOn, Until: w.SowOn.AddDate(0, 0, 14), Times: 15, Hours: waterHours, First: true, Title: "Water the new turf daily",
			Detail: fmt.Sprintf("%.0f mm in the first hour, then %.0f mm a day for two weeks less what rain brings; lift a corner to see that the soil below is wet.", turfFirstMM, turfDayMM)})
	} else {
		if len(w.Before) == 0 { // else sowing is one of its steps
			p.add(Task{Kind: Sow, Date: w.SowOn, Title: "Sow", First: true,
				Detail: "On a still dry day, in two passes at right angles by the spreading guide."})
		}
		p.waterSeed()
		p.add(Task{Kind: Watch, Date: w.SowOn.AddDate(0, 0, 1), Until: w.FirstMow, Title: "Look for birds, wash and bare places", First: true,
			Detail: "Keep the netting tight until the grass stands 30 mm. Rake washed seed back before it roots; sow bare places again within three weeks."})
	}
	cut := Task{Kind: Mow, Date: w.FirstMow, Hours: p.mower.hours(w.Site.AreaM2), First: true, Title: "First cut", Detail: p.firstCut()}
	if w.Old {
		cut.Title = "Resume mowing by steps"
	}
	p.add(cut)
	if at := p.youngFeed(); !at.IsZero() {
		t := p.feedTask(at, youngGM2, "leaf", 0, true)
		t.Title = "Feed the young grass"
		p.add(t)
	}
	if !w.UsableFrom.IsZero() {
		p.add(Task{Kind: InUse, Date: w.UsableFrom, Title: "Ready for use", First: true,
			Detail: "Light use from here on; spare it heavy play for the rest of its first season."})
	}
}

// waterSeed gathers the weeks of watering into the phases in which it is given in
// fewer and deeper goes.
func (p *plan) waterSeed() {
	for _, phase := range []struct {
		from, to int // weeks after sowing
		goMM     float64
		why      string
	}{
		{1, seedWeeks, seedGoMM, "The top 20 mm must not dry out until the grass is up, nor may water run or stand."},
		{seedWeeks + 1, youngWeeks, youngGoMM, "Fewer and deeper goes now, so that the roots follow the water down."},
		{youngWeeks + 1, 52, soakGoMM, "A soaking every 7 to 10 days, as for a standing lawn."},
	} {
		var mean, dry float64
		first, last := 0, 0
		for _, week := range p.want.Watering {
			if week.Week < phase.from || week.Week > phase.to || week.DryMM < 1 {
				continue
			}
			if first == 0 {
				first = week.Week
			}
			last = week.Week
			mean += week.MeanMM
			dry += week.DryMM
		}
		if first == 0 {
			continue
		}
		weeks := fmt.Sprintf("weeks %d to %d", first, last)
		if first == last {
			weeks = fmt.Sprintf("week %d", first)
		}
		p.add(Task{Kind: Watering, Date: p.want.SowOn.AddDate(0, 0, 7*(first-1)), Until: p.want.SowOn.AddDate(0, 0, 7*last-1),
			Times: max(int(math.Ceil(mean/phase.goMM)), 1), Hours: waterHours, First: true, Title: "Water, " + weeks,
			Detail: fmt.Sprintf("Beyond the rain give %.0f mm over this time (%.0f mm in the dry year in ten), %.0f mm at a time by fine spray. %s",
				mean, dry, phase.goMM, phase.why)})
	}
}

// firstCut tells how mowing comes down to the height of cut by steps.
func (p *plan) firstCut() string {
	steps := []string{}
	mm := math.Max(p.cal.CutMM, 40)
	stands := math.Min(mm*(1+mayGrow), tallFirstMM)
	mm = math.Max(mm, stands/(1+mayGrow))
	for h := mm; ; h *= 0.8 {
		if h <= p.cal.CutMM*1.1 {
			steps = append(steps, fmt.Sprintf("%.0f", p.cal.CutMM))
			break
		}
		steps = append(steps, fmt.Sprintf("%.0f", h))
	}
	return fmt.Sprintf("When it stands %.0f mm, on dry firm ground, with sharp blades and the box on: %s mm, one step a cut. Annual weeds die of mowing; pull the others by hand, and use no weedkiller in the first season. Mower guards on, nobody in reach.",
		stands, strings.Join(steps, ", then "))
}

// youngFeed is the date of the second feed of a new lawn; zero: none.
func (p *plan) youngFeed() time.Time {
	w := p.want
	if p.cal.NitrogenGM2 == 0 || w.Use.Feeding == "none" {
		return time.Time{}
	}
	at := w.SowOn.AddDate(0, 0, youngDays)
	if before := w.FirstMow.AddDate(0, 0, -7); at.Before(before) { // seed that lay through a winter, or came up slowly
		at = before
	}
	origin := calendar.OnOrBefore(w.FirstMow, p.season.cold)
	if at.After(p.season.date(origin, p.closes.day-hardeningDays)) {
		return time.Time{} // too late in the year for nitrogen
	}
	return at
}

// firstSeason is the rest of the season in which the lawn is first mown: no
// raking, spiking or dressing yet (City of Calgary: no dethatching of a young lawn).
func (p *plan) firstSeason(origin time.Time) {
	w := p.want
	from := w.FirstMow.AddDate(0, 0, 3)
	closes := p.season.date(origin, p.closes.day)
	if p.meadow() {
		p.extensiveTasks(origin, w.FirstMow.AddDate(0, 0, 28), true)
	} else if from.Before(closes) {
		p.mowTasks(from, closes, true)
	}
	after := w.FirstMow
	if at := p.youngFeed(); !at.IsZero() {
		after = at.AddDate(0, 0, apartDays-1)
	}
	p.feedTasks(p.feeds(p.cal.NitrogenGM2), origin, after, true)
	p.autumn(origin, w.FirstMow, true)
}
