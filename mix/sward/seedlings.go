package sward

import (
	"math"
	"slices"

	"swardwright/internal/calendar"
	"swardwright/site"
	"swardwright/site/weather"
	"swardwright/species"
)

const (
	// mostUp and mostCut are the days after which nobody waits for seedlings and for a first cut.
	mostUp, mostCut = calendar.Year, 2 * calendar.Year
	// cutPart is the part of a sowing by weight from which it is cut as soon as that grass is tall enough
	// (common practice, no published source).
	cutPart = 0.10
)

// Up is how many days after its sowing on a day of the year half of the seedlings are up on
// every lawn, in the soil of the zone where most of it was sown; a whole year where they are not sooner.
func (p *Past) Up(c *site.Conditions, b *Before, day int) []float64 {
	days := c.Zones[b.Zones[0]].Days
	out := make([]float64, len(p.e.Lawns))
	for i := range out {
		out[i] = b.half(p.emerge(days, b, i, p.dayOf(days, b, i, day)))
	}
	return out
}

// Cut is how many days after its sowing the first grass that makes up a real part of it is tall enough to be
// cut on every lawn that will be kept at a height; two years where it is not sooner. Seedlings may have been up later than
// expected, by so many days on each lawn; nil: they were not. Water is taken as enough.
func (p *Past) Cut(c *site.Conditions, b *Before, day int, keptMM float64, late []float64) []float64 {
	z := &c.Zones[b.Zones[0]]
	var stretch [12]float64
	for m, dli := range z.Days.Exposure.DLI {
		stretch[m] = species.Stretched(dli, z.Days.Exposure.OpenShare[m])
	}
	least := min(cutPart, slices.Max(b.Weight))
	out := make([]float64, len(p.e.Lawns))
	for i := range out {
		from := p.dayOf(z.Days, b, i, day)
		up := p.emerge(z.Days, b, i, from)
		out[i] = mostCut
		for j, g := range b.Grass {
			if b.Weight[j] < least {
				continue
			}
			sp := p.e.pool[g]
			goal := species.FirstCutDegDays(sp.At(&p.e.Lawns[i].Grass[g].Traits)[species.Vigour], keptMM)
			at := up[j]
			if late != nil {
				at = max(0, math.Round(at+late[i]))
			}
			for tall := 0.0; at < out[i] && tall < goal; at++ {
				k := (from + int(at)) % len(z.Days.MeanC)
				if z.Days.SnowCM[k] < 1 {
					tall += species.Warmth(float64(z.Days.MeanC[k]), sp.Warm) * stretch[calendar.MonthOf(k%calendar.Year)]
				}
			}
			out[i] = min(out[i], at)
		}
	}
	return out
}

// dayOf is a day of the year of a sowing among the days of a lawn's run of weather.
func (p *Past) dayOf(days *weather.Days, b *Before, lawn, day int) int {
	return ((p.e.Lawns[lawn].Start+b.At.Year-p.first)%days.Years)*calendar.Year + day
}

// emerge is after how many days each grass sown on a day of a lawn's run of weather is up.
func (p *Past) emerge(days *weather.Days, b *Before, lawn, from int) []float64 {
	up := make([]float64, len(b.Grass))
	for j, g := range b.Grass {
		t := p.e.pool[g].At(&p.e.Lawns[lawn].Grass[g].Traits)
		sum := 0.0
		for up[j] < mostUp && sum < t[species.EmergeDegDays] {
			sum += max(0, float64(days.SoilC[(from+int(up[j]))%len(days.SoilC)])-t[species.GermBaseC])
			up[j]++
		}
	}
	return up
}

// half is when half of the plants are up, by when those of each grass are.
func (b *Before) half(up []float64) float64 {
	all := 0.0
	for _, n := range b.Plants {
		all += n
	}
	half := float64(mostUp)
	for _, at := range up {
		sum := 0.0
		for j, n := range b.Plants {
			if up[j] <= at {
				sum += n
			}
		}
		if sum >= all/2 {
			half = min(half, at)
		}
	}
	return half
}
