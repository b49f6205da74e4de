// Package site turns what a brief says of a place (Survey) into what a grass
// meets there, by zone and by year (Conditions).
package site

import (
	"slices"
	"sync"

	"github.com/samber/lo"

	"swardwright/internal/told"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/site/weather"
)

// Survey is the brief's pages on the place: [place] [lawn] [[obstacle]]
// [[probe]] [climate] [light] [ground].
type Survey struct {
	Place     Place
	Lawn      Lawn
	Obstacles []light.Obstacle
	Probes    []light.Probe
	Climate   *weather.Normals // the brief's own normals or weather file
	Trend     bool             // normals are moved to the years planned for; never those of a weather file
	Light     light.Seen
	Ground    ground.Survey
}

// Place is where the lawn lies.
type Place struct {
	LatitudeDeg  float64
	LongitudeDeg *float64
	AltitudeM    *float64
	Station      string // name or WMO number; empty: the nearest of like height
}

// Lawn is its shape and lie.
type Lawn struct {
	AreaM2        float64         // from the outline, or as stated
	Parts         [][]light.Point // outlines; empty when only the area is known
	PlanNorthDeg  float64
	SlopeDeg      float64
	AspectDeg     float64
	AspectUnknown bool // on a slope
	Horizon       []light.HorizonPoint
	EdgingM       *float64 // nil: the perimeter where it meets no wall
}

// Conditions are what a grass meets at the place.
type Conditions struct {
	Survey Survey

	Station       weather.Station // the source of the normals; zero when the brief gave its own
	DistanceKM    float64
	Normals       weather.Normals // after correction for height
	RadiationFrom told.Sentence   // how global radiation was found
	Weather       weather.Summary

	Sky     light.Sky // the average sky, by month
	Field   light.Field
	Soil    ground.Soil
	Zones   []Zone
	AreaM2  float64
	EdgingM float64

	Assumptions []told.Sentence

	known     *Known
	published *publication // nil: these are what is published for
}

// publication is the lawn as publications speak of it, worked out when it is asked for.
type publication struct {
	soil       ground.Soil
	conditions func() *Conditions
}

// MeanYear is the mean over years and ground of a figure that a year of a zone has.
func (c *Conditions) MeanYear(of func(*weather.Year) float64) (mean float64) {
	for i := range c.Zones {
		z := &c.Zones[i]
		for y := range z.Years {
			mean += z.Share * of(&z.Years[y]) / float64(len(z.Years))
		}
	}
	return mean
}

// Only is the lawn were all of it like some of its zones, by their index.
func (c *Conditions) Only(zones ...int) *Conditions {
	part := *c
	part.Zones = lo.Map(zones, func(z, _ int) Zone { return c.Zones[z] })
	area := lo.SumBy(part.Zones, func(z Zone) float64 { return z.Share })
	for i := range part.Zones {
		part.Zones[i].Share /= area
	}
	if p := c.published; p != nil {
		part.published = &publication{p.soil, sync.OnceValue(func() *Conditions { return p.conditions().Only(zones...) })}
	}
	return &part
}

// Undated are the conditions without the days that they were gathered from, which are most of
// their size, for a plan that is made and only read from then on.
func (c *Conditions) Undated() *Conditions {
	u := *c
	u.known, u.published = nil, nil
	u.Zones = slices.Clone(c.Zones)
	for i := range u.Zones {
		u.Zones[i].Days = nil
	}
	return &u
}

// AsPublished is the lawn as publications speak of lawns: in the climate of the normals
// before they were moved to the years planned for, on the ground as it was found, before
// any works.
func (c *Conditions) AsPublished() *Conditions {
	if c.published != nil {
		return c.published.conditions()
	}
	return c
}

// Zone is a part of the lawn with what it meets, day by day and year by year.
type Zone struct {
	light.Zone
	Days  *weather.Days
	Years []weather.Year
	First []weather.Year // the same years for a lawn in its first growing season, where it is watered through that alone; nil: as any other
}
