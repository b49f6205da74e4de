package year

import (
	"time"

	"swardwright/internal/calendar"
	"swardwright/internal/told"
	"swardwright/sowing/job"
)

// Lime lies between the feeds, since it drives ammonia out of them and locks their
// phosphate up: common practice, no published source.
const (
	limeAfterGrowth = 7  // days after growth ends
	limeFeedDays    = 28 // from a feed or a sowing fed
)

// bareShare is the share of years from which a day counts as one on which the ground lies bare and
// unfrozen, as lime asks: common practice, no published source.
const bareShare = 0.5

// lime dates the lime of a standing sward: after growth ends, on ground that is neither frozen nor
// under snow, in goes some months apart, as many in a winter as are over before the first feed.
func (p *plan) lime(origin time.Time) {
	earliest := p.in.StartOn.AddDate(0, 0, youngDays+limeFeedDays)
	for i, gM2 := range p.in.Lime {
		at, ok := p.limeDay(origin, earliest)
		for range 2 { // this winter may be over, or have no such day
			if !ok {
				origin = origin.AddDate(1, 0, 0)
				at, ok = p.limeDay(origin, earliest)
			}
		}
		how := says(told.Say("year.lime-how", told.GramsPerM2(gM2)), told.Say("year.lime-apart", told.Weeks(limeFeedDays/7)))
		if i > 0 {
			how = append(how, told.Say("year.lime-again"))
		}
		p.add(job.Task{ID: "lime-lawn", Sort: job.Dressing, Date: at, Hours: feedOutput.hours(p.area), First: true, Title: told.Say("bed.lime"), Detail: how,
			Caution: says(told.Say("bed.caution-dust")), Materials: says(told.Say("year.lime-of", told.MassKG(gM2*p.area/1000), told.GramsPerM2(gM2)))})
		earliest = at.AddDate(0, job.LimeApartMonths, 0)
	}
}

// limeDay is the first day for lime in the winter that a season ends in; where it has none it is
// the day after growth, and not ok.
func (p *plan) limeDay(origin, earliest time.Time) (time.Time, bool) {
	from := p.season.date(origin, p.closes.day).AddDate(0, 0, limeAfterGrowth)
	if from.Before(earliest) {
		from = earliest
	}
	until := p.firstFeed(origin).AddDate(0, 0, -limeFeedDays)
	for at := from; !at.After(until); at = at.AddDate(0, 0, 1) {
		if p.season.bare(calendar.Since(p.season.cold, calendar.DayOf(at))) >= bareShare {
			return at, true
		}
	}
	return from, false
}

// firstFeed is the earliest that the grass is fed after the winter that a season ends in.
func (p *plan) firstFeed(origin time.Time) time.Time {
	return p.season.date(origin.AddDate(1, 0, 0), p.opens.day).AddDate(0, 0, leafAfterDays)
}
