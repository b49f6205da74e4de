package sowing

import (
	"swardwright/mix"
	"swardwright/sowing/dates"
	"swardwright/sowing/rate"
	"swardwright/species"
)

// lateDays before an autumn window closes more seed is sown: common practice, no
// published source, as to the days.
const lateDays = 14

// late tells whether the sowing day is near the end of the season, or past it.
func (p *Plan) late() bool {
	d := p.Dates
	if d.Chosen < 0 || d.Chosen >= len(d.Windows) {
		return len(d.Windows) > 0
	}
	w := d.Windows[d.Chosen]
	return w.Kind == dates.Autumn && d.SowOn.After(w.Closes.AddDate(0, 0, -lateDays))
}

// seedRate turns the mixture into grams.
func (p *Plan) seedRate() rate.Rate {
	j := p.Brief.Job
	w := rate.Want{Grade: p.grade(), Overseed: j.Kind == Overseed, Method: j.Method, Late: p.late()}
	if j.CoverPercent != nil {
		w.CoverPercent = *j.CoverPercent
	}
	for _, c := range p.Choice.Mixture.Components {
		w.Parts = append(w.Parts, rate.Part{Species: c.Species, Percent: float64(c.Percent), Lot: p.lotOf(c.Species)})
	}
	for i, z := range p.Site.Zones {
		w.Zones = append(w.Zones, rate.Zone{Name: z.Name, AreaM2: z.AreaM2, Sown: p.holds(i)})
	}
	return rate.For(w)
}

// lotOf is the first lot of a species in the brief; nil without one.
func (p *Plan) lotOf(s *species.Species) *mix.Lot {
	for i := range p.Brief.Stock.Lots {
		if l := &p.Brief.Stock.Lots[i]; l.Species == s {
			return l
		}
	}
	return nil
}
