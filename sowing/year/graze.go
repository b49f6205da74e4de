package year

import (
	"time"

	"swardwright/internal/calendar"
	"swardwright/internal/told"
	"swardwright/sowing/job"
)

// Grazing. From 150 to 200 mm down to 80 (Utah State University Extension, Pastures), three
// weeks of rest (Rutgers, Horse pasture best management practices). That a new sward is let
// be until plants resist a pull, six months or the next season: common practice, no
// published source.
const (
	grazeMonths    = 6
	GrazeFromMM    = 150
	GrazeToMM      = 200
	grazeDownMM    = 80
	grazeRestWeeks = 3
	grazeGrowing   = 30 // days of growth in a season before animals come
)

// firstGrazing is the day from which animals may be tried on a new sward.
func (p *plan) firstGrazing() time.Time {
	at := p.in.StartOn.AddDate(0, grazeMonths, 0)
	if u := p.in.UsableFrom; u != nil && u.After(at) {
		at = *u
	}
	origin := calendar.OnOrBefore(at, p.season.cold)
	opens, closes := p.season.date(origin, p.opens.day).AddDate(0, 0, grazeGrowing), p.season.date(origin, p.closes.day).AddDate(0, 0, -grazeGrowing)
	switch {
	case at.Before(opens):
		return opens
	case at.After(closes):
		return p.season.date(origin.AddDate(1, 0, 0), p.opens.day).AddDate(0, 0, grazeGrowing)
	}
	return at
}

// What animals leave is topped at the height they are taken off at, dung is picked up, and
// they come off before the ground is soft: common practice, no published source.
const (
	topped       = 0.3  // of the year's growth, at each of which what is left standing is topped
	toppings     = 2    // a year
	dungEvery    = 3.5  // days
	dungM2PerH   = 2000 // looked over and picked
	softDaysFrom = 21   // before growth ends
)

// grazing adds the topping of what animals leave, the picking of dung and the end of grazing.
func (p *plan) grazing(origin, after time.Time, first bool) {
	total := 0.0
	for _, g := range p.season.mean {
		total += g
	}
	for i := range toppings {
		e, ok := p.season.reaches(0, topped*float64(i+1)*total)
		if at := p.season.date(origin, e.day); ok && at.After(after) {
			p.add(job.Task{ID: "top-grazing", Sort: job.Mowing, Date: at, Hours: p.mower.hours(p.area), First: first, Chance: e.chance, Title: told.Say("year.top-grazing"),
				Detail: says(told.Say("year.top-grazing-how", told.DepthMM(grazeDownMM)))})
		}
	}
	from, off := p.season.date(origin, p.opens.day).AddDate(0, 0, grazeGrowing), p.season.date(origin, p.closes.day-softDaysFrom)
	if begins := p.firstGrazing(); from.Before(begins) {
		from = begins
	}
	if off.Before(from) || off.Before(after) {
		return
	}
	p.add(job.Task{ID: "pick-dung", Sort: job.Raking, Date: from, Until: off, Goes: max(int(off.Sub(from).Hours()/24/dungEvery), 1), Hours: setUpH + p.area/dungM2PerH, First: first,
		Title: told.Say("year.pick-dung"), Detail: says(told.Say("year.pick-dung-how"))})
	p.add(job.Task{ID: "end-grazing", Sort: job.Watching, Date: off, First: first, Title: told.Say("year.end-grazing"), Detail: says(told.Say("year.end-grazing-how"))})
}
