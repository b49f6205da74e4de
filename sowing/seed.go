package sowing

import (
	"swardwright/mix"
	"swardwright/sowing/rate"
	"swardwright/species"
)

// seedRate turns the mixture into grams.
func (p *Plan) seedRate() rate.Rate {
	j := p.Brief.Job
	w := rate.Want{Grade: p.grade(), Overseed: j.Kind == Overseed, Method: j.Method}
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
