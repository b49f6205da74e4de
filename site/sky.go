package site

import (
	"context"
	"slices"

	"swardwright/site/light"
	"swardwright/site/weather"
)

// Sky is the average sky over the place and the climate normals it comes from. It depends
// on the pages [place] and [climate] alone, so that a lawn can be redrawn under it.
func (s Survey) Sky(tables Tables, opt Options) (weather.Normals, light.Sky, error) {
	c := &Conditions{Survey: s}
	if err := c.climate(tables.Stations); err != nil {
		return weather.Normals{}, light.Sky{}, err
	}
	c.trend(opt.Year)
	mj, _ := c.radiation(tables.Stations)
	return c.Normals, sky(weather.Generate(c.Normals, mj, opt.Years, opt.Seed), mj), nil
}

// LightWithin is the light of the lawn under a sky, in at most about most cells: from the
// obstacles, from what was seen, or both.
func (s Survey) LightWithin(ctx context.Context, n weather.Normals, sky light.Sky, most int) (light.Field, error) {
	if len(s.Lawn.Parts) == 0 {
		if s.Lawn.SlopeDeg == 0 && len(s.Lawn.Horizon) == 0 {
			return light.Stated(s.Light, s.Place.LatitudeDeg, sky, s.Lawn.AreaM2), nil
		}
		return light.Lying(ctx, s.Scene(n), s.Light, sky, s.Lawn.AreaM2)
	}
	f, err := light.Trace(ctx, s.Scene(n), sky, most)
	if err != nil {
		return light.Field{}, err
	}
	return f.Corrected(s.Light, s.Place.LatitudeDeg, sky), nil
}

// Lit are the conditions with the light of the lawn scaled by a factor, as sun that was seen
// on some days says. What the ground meets in it, day by day, stays.
func (c *Conditions) Lit(by float64) *Conditions {
	l := *c
	l.Field = c.Field.Scaled(by, c.Survey.Place.LatitudeDeg, c.Sky)
	l.Zones = slices.Clone(c.Zones)
	for i := range l.Zones {
		l.Zones[i].Light = l.Field.Zones[i].Light
	}
	return &l
}
