package site

import (
	"slices"
	"sync"

	"swardwright/site/ground"
)

// Works are what a job does to the ground, as far as a grass will feel it.
type (
	Works    = ground.Works
	Rootzone = ground.Rootzone // a made ground
	Imported = ground.Imported // topsoil brought in
)

// Ground is the ground in the figures that tell it as found from it as prepared.
type Ground struct {
	Drainage        string // USDA natural drainage class
	WetShare        float64
	InfiltrationMMH float64
	PH              float64
	DepthCM         float64
	Texture         string // USDA class
}

// Ground is the ground of the conditions. Its wet share is of the growing season,
// the mean of years and zones.
func (c *Conditions) Ground() Ground {
	s := &c.Soil
	return Ground{
		Drainage: s.Drainage, WetShare: c.wetShare(), InfiltrationMMH: s.InfiltrationMMH,
		PH: s.PH, DepthCM: s.DepthCM, Texture: s.Texture,
	}
}

func (c *Conditions) wetShare() float64 {
	sum, weight := 0.0, 0.0
	for i := range c.Zones {
		z := &c.Zones[i]
		for y := range z.Years {
			sum += z.Share * c.Soil.WetShare(z.Years[y].WetDays, z.Years[y].GrowingDays)
			weight += z.Share
		}
	}
	if weight == 0 {
		return c.Soil.WetShare(0, 0)
	}
	return sum / weight
}

// leastIce is the least share of the water on frozen ground that stays there to
// freeze, however well it drains, over what stays as found (inferred: made greens on
// gravel still get ice).
const leastIce = 0.25

// Prepare is the conditions as works on the ground leave them. The balance of water in
// the ground is followed again through the same synthetic years, so that wet days,
// drought, growth and ice are those of the ground as it will be. Light, warmth and
// snow stay. Of the water that comes on frozen ground less stays to freeze, as the
// ground's wetness falls (inferred).
//
// What is published for lawns speaks of ground as it is found, so that is what the lawn is
// likened by, unless the ground is made anew or drained by pipes.
//
// The conditions given are not changed. The error is that of [ground.Soil.Prepared].
func Prepare(c *Conditions, w Works) (*Conditions, error) {
	soil, err := c.Soil.Prepared(w)
	if err != nil {
		return nil, err
	}
	p := c.worked(w, soil)
	p.published = c.published
	if p.published == nil {
		p.published = &publication{c.Soil, func() *Conditions { return c }}
	}
	if w.Rootzone != nil || w.DrainsMMD > 0 {
		found := p.published.conditions
		if soil, err = p.published.soil.Prepared(w); err != nil {
			return nil, err
		}
		p.published = &publication{soil, sync.OnceValue(func() *Conditions { return found().worked(w, soil) })}
	}
	return p, nil
}

// worked is Prepare but for what is published, with the soil that the works leave.
func (c *Conditions) worked(w Works, soil ground.Soil) *Conditions {
	p := *c
	p.Soil, p.published = soil, nil
	p.Zones = slices.Clone(c.Zones)
	sheds := 0.0
	if soil.Wetness < c.Soil.Wetness {
		sheds = 1 - max(leastIce, soil.Wetness/c.Soil.Wetness)
	}
	for i := range p.Zones {
		z := &p.Zones[i]
		e := onSoil(z.Days.Exposure, soil)
		e.Sheds = max(e.Sheds, sheds)
		if e != z.Days.Exposure {
			m := c.known.meetsOn(z.Days, e)
			z.Days, z.Years = m.days, m.years
		}
		if w.WateredFirst && !e.Irrigated {
			e.Irrigated = true
			z.First = c.known.firstYears(z.Days, e)
		}
	}
	return &p
}
