package site

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"sync"
	"time"

	"swardwright/internal/told"
	"swardwright/site/light"
	"swardwright/site/weather"
)

// Tables are what a survey is read against.
type Tables struct {
	Stations weather.Stations
}

// Options of the computation.
type Options struct {
	Years      int     // synthetic years
	Seed       uint64  // of the weather; derived from the brief's content
	Irrigated  bool    // the lawn is watered when it is dry
	RootDepthM float64 // 0: as deep as the topsoil lets a lawn root
	Year       int     // the first that the lawn is to live in; 0: the years of the normals
	Cells      int     // at most, that the light is worked out for; 0: light.MostCells

	// Known is what was worked out already, and keeps what is; nil: nothing is kept.
	Known *Known
	// Passing says that these conditions are asked for once: only their weather is kept.
	Passing bool
}

// coveredM2 is how much of a lawn may lie under obstacles before its area is
// reckoned without it: less is how the outlines were drawn.
const coveredM2 = 0.05

// Conditions works out what a grass meets at the place: the climate normals
// there, light by zone, soil, and each zone's synthetic years.
func (s Survey) Conditions(ctx context.Context, tables Tables, opt Options) (*Conditions, error) {
	c := &Conditions{Survey: s, AreaM2: s.Lawn.AreaM2, EdgingM: s.edging()}

	if err := c.climate(tables.Stations); err != nil {
		return nil, err
	}
	published := c.Normals
	c.trend(opt.Year)
	mj, how := c.radiation(tables.Stations)
	c.RadiationFrom = how
	c.assume(told.Say("site.radiation", how))

	soil, err := s.Ground.Soil()
	if err != nil {
		return nil, err
	}
	c.Soil = soil
	c.Assumptions = append(c.Assumptions, soil.Assumptions...)

	series := opt.Known.years(c.Normals, mj, opt.Years, opt.Seed)
	if !opt.Passing {
		c.known = opt.Known
	}
	c.Weather = series.Summary()

	c.Sky = sky(series, mj)
	if c.Field, err = c.known.light(ctx, s, c.Normals, c.Sky, cmp.Or(opt.Cells, light.MostCells)); err != nil {
		return nil, err
	}
	c.Assumptions = append(c.Assumptions, c.Field.Notes...)
	if grown := c.Field.AreaM2(); c.AreaM2-grown > coveredM2 {
		c.AreaM2 = grown // the rest lies under obstacles
	}

	c.Zones = make([]Zone, len(c.Field.Zones))
	for i, z := range c.Field.Zones {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		m := c.known.meets(series, exposure(z, c.Field.OpenDLI, soil, opt.Irrigated))
		c.Zones[i] = Zone{Zone: z, Days: m.days, Years: m.years}
	}
	if c.Normals != published {
		c.published = &publication{soil: c.Soil, conditions: sync.OnceValue(func() *Conditions { return c.in(published, mj, opt) })}
	}
	return c, nil
}

// publishedYears are enough for the means that advice is compared by.
const publishedYears = 100

// in is the lawn under other normals.
func (c *Conditions) in(n weather.Normals, globalMJ [12]float64, opt Options) *Conditions {
	other := *c
	other.Normals, other.published = n, nil
	series := opt.Known.years(n, globalMJ, min(opt.Years, publishedYears), opt.Seed)
	other.Weather = series.Summary()
	other.Zones = make([]Zone, len(c.Zones))
	for i, z := range c.Zones {
		m := c.known.meets(series, z.Days.Exposure)
		other.Zones[i] = Zone{Zone: z.Zone, Days: m.days, Years: m.years}
	}
	return &other
}

func (c *Conditions) assume(s told.Sentence) { c.Assumptions = append(c.Assumptions, s) }

// climate settles the normals: the brief's own, the station it names, or the
// nearest of like height, corrected to the lawn's altitude.
func (c *Conditions) climate(stations weather.Stations) error {
	p := c.Survey.Place
	if own := c.Survey.Climate; own != nil {
		c.Normals = *own
		if km := p.kmTo(own.LatitudeDeg, own.LongitudeDeg); km > worthSayingKM {
			c.assume(told.Say("site.own-climate-away", told.Verbatim(own.Name), told.DistanceKM(km)))
		}
		c.Normals.LatitudeDeg = p.LatitudeDeg
		if p.LongitudeDeg != nil {
			c.Normals.LongitudeDeg = *p.LongitudeDeg
		}
		if p.AltitudeM != nil {
			c.Normals.AltitudeM = *p.AltitudeM
		}
		if !c.Normals.HasRain() {
			near, km := stations.Nearest(c.Normals.LatitudeDeg, c.Normals.LongitudeDeg, c.Normals.AltitudeM)
			c.Normals = c.Normals.WithRain(near.Normals)
			c.assume(told.Say("site.rain-taken", told.Verbatim(near.Name), told.DistanceKM(km)))
		}
		return nil
	}
	switch {
	case p.Station != "":
		st, ok := stations.Find(p.Station)
		if !ok {
			return fmt.Errorf("place.station: no station %q in the table; list them with: swardwright stations", p.Station)
		}
		// Without a longitude it is known only how far north or south it lies.
		c.Station, c.DistanceKM = st, p.kmTo(st.LatitudeDeg, st.LongitudeDeg)
	case p.LongitudeDeg != nil:
		altitude := math.NaN()
		if p.AltitudeM != nil {
			altitude = *p.AltitudeM
		}
		c.Station, c.DistanceKM = stations.Nearest(p.LatitudeDeg, *p.LongitudeDeg, altitude)
		name, away := told.Verbatim(c.Station.Name), told.DistanceKM(c.DistanceKM)
		if p.AltitudeM != nil {
			c.assume(told.Say("site.nearest-of-like-height", name, away))
		} else {
			c.assume(told.Say("site.nearest", name, away))
		}
	default:
		return fmt.Errorf("place: needs a longitude, a station or a [climate] of its own")
	}
	c.Normals = c.Station.Normals
	if p.AltitudeM != nil {
		c.Normals = c.Normals.AtAltitude(*p.AltitudeM)
		if d := *p.AltitudeM - c.Station.AltitudeM; math.Abs(d) >= 50 {
			name, height := told.Verbatim(c.Station.Name), told.LengthM(math.Abs(d))
			change := told.TemperatureDiffK(math.Abs(mean(c.Normals.MeanC) - mean(c.Station.MeanC)))
			if d > 0 {
				c.assume(told.Say("site.carried-up", name, height, change))
			} else {
				c.assume(told.Say("site.carried-down", name, height, change))
			}
		}
	}
	return nil
}

// seasonsPlanned are the growing seasons that a plan follows; the normals are moved
// to their middle.
const seasonsPlanned = 5

// trend moves normals of 1991-2020 to the seasons that start in a year, unless the
// brief says otherwise.
func (c *Conditions) trend(year int) {
	if year == 0 {
		return
	}
	if !c.Survey.Trend {
		c.assume(told.Say("site.no-trend"))
		return
	}
	w := c.Normals.Warming(float64(year) + float64(seasonsPlanned-1)/2)
	c.Normals = c.Normals.Warmed(w)
	c.assume(told.Say("site.trend", told.Year(math.Round(w.ToYear)), told.Count(seasonsPlanned), told.TemperatureDiffK(w.YearK), told.TemperatureDiffK(math.Abs(w.GiveK)),
		told.TemperatureDiffK(w.ByMonthK[0]), told.Month(time.January), told.TemperatureDiffK(w.ByMonthK[6]), told.Between(told.Year(1991), told.Year(2020)), told.Month(time.July), told.Source("NOAAGlobalTemp v6.0.0")))
}

// sameLatitudeDeg is how far off a station's sun is the lawn's as well.
const sameLatitudeDeg = 1.0

// radiation is the global radiation of the lawn's sky, by month, and how it is known.
func (c *Conditions) radiation(stations weather.Stations) ([12]float64, told.Sentence) {
	mj, how := stations.Radiation(c.Normals)
	if at := c.Survey.Place.LatitudeDeg; c.Survey.Climate != nil || math.Abs(at-c.Normals.LatitudeDeg) > sameLatitudeDeg {
		mj = weather.AtMostClear(mj, at, c.Normals.AltitudeM)
	}
	return mj, how
}

// worthSayingKM is from where on a weather file is said to come from another place.
const worthSayingKM = 25.0

// kmTo is how far the place is from another; without a longitude, at least.
func (p Place) kmTo(latDeg, lonDeg float64) float64 {
	from := lonDeg
	if p.LongitudeDeg != nil {
		from = *p.LongitudeDeg
	}
	return weather.DistanceKM(p.LatitudeDeg, from, latDeg, lonDeg)
}

// Scene is the geometry of the lawn for the light room.
func (s Survey) Scene(n weather.Normals) light.Scene {
	return light.Scene{
		LatitudeDeg:  s.Place.LatitudeDeg,
		LongitudeDeg: n.LongitudeDeg,
		AltitudeM:    n.AltitudeM,
		PlanNorthDeg: s.Lawn.PlanNorthDeg,
		Lawn:         s.Lawn.Parts,
		SlopeDeg:     s.Lawn.SlopeDeg,
		AspectDeg:    s.Lawn.AspectDeg, AspectUnknown: s.Lawn.AspectUnknown,
		Horizon:   s.Lawn.Horizon,
		Obstacles: s.Obstacles,
		Probes:    s.Probes,
	}
}
