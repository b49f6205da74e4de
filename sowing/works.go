package sowing

import (
	"time"

	"swardwright/internal/calendar"
	"swardwright/mix"
	"swardwright/sowing/bed"
	"swardwright/sowing/money"
	"swardwright/sowing/year"
)

// bed plans the ground, for seed or for turf.
func (p *Plan) bed(turf bool) bed.Bed {
	j := p.Brief.Job
	w := bed.Want{Site: p.Site, Use: p.keptUse(), Kind: bed.Kind(j.Kind), Method: j.Method, Turf: turf}
	if p.Choice.Renovate {
		w.Kind = bed.Renovate
	}
	if j.CoverPercent != nil {
		w.Cover = *j.CoverPercent / 100
	}
	w.SeedGM2, w.SeedsM2 = p.Rate.GM2, p.Rate.SeedsPerM2
	for i, z := range p.Site.Zones {
		if p.holds(i) {
			w.Zones = append(w.Zones, z.Zone)
		}
	}
	if r := j.Rootzone; r != nil {
		w.Rootzone = &bed.Rootzone{DepthCM: r.DepthCM, SandPercent: r.SandPercent, SoilPercent: r.SoilPercent, Base: r.Base}
	}
	if m := p.Choice.Mixture; m != nil {
		for _, c := range m.Components {
			w.Parts = append(w.Parts, mix.Part{Species: c.Species, Percent: float64(c.Percent)})
		}
	}
	return bed.Plan(w)
}

// orNone is a date that may never come, as the rooms that have no word for never yet
// take it.
func orNone(t *time.Time) time.Time {
	if t == nil {
		return time.Time{}
	}
	return *t
}

// year plans the care of what is sown or laid.
func (p *Plan) year(prices money.Prices, turf bool) year.Calendar {
	w := year.Want{
		Site: p.Site, Use: p.keptUse(), Mixture: p.Choice.Mixture,
		SowOn: p.Dates.SowOn, FirstMow: orNone(p.Dates.FirstMow), UsableFrom: orNone(p.Dates.UsableFrom),
		Old: p.Brief.Job.Kind == Overseed || p.Brief.Job.Kind == Renovate,
	}
	if turf {
		w.Turf = true
		w.SowOn, w.FirstMow, w.UsableFrom = *p.Dates.TurfOn, p.Dates.TurfOn.AddDate(0, 0, turfMowDays), orNone(p.Dates.TurfUsableFrom)
	}
	for _, x := range p.Dates.Watering {
		w.Watering = append(w.Watering, year.Water{Week: x.Number, MeanMM: x.MeanMM, DryMM: x.DryMM})
	}
	since := calendar.Days(p.Date, w.SowOn) // nothing can be done before the plan is made
	for _, s := range p.Bed.Steps {
		work := year.Work{Title: s.Title, Detail: s.Detail, DaysBefore: min(s.DaysBefore, max(0, since))}
		if hours, err := prices.Hours(s.OutputKey, s.Quantity); err == nil { // some steps are waiting, without hours
			work.Hours = hours
		}
		w.Before = append(w.Before, work)
	}
	c := year.Plan(w)
	for i, days := range c.DaysBefore { // a winter before sowing moves the work on the ground
		p.Bed.Steps[i].DaysBefore = days
	}
	return c
}
