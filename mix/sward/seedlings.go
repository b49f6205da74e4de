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

// Water is how far it lets seed stir and young grass grow, 0 to 1, by day of a zone's series; nil: as far as they like.
type Water struct{ Stir, Grow []float32 }

// on is such a share on a day.
func on(share []float32, k int) float64 {
	if share == nil {
		return 1
	}
	return float64(share[k])
}

// Up is how many days after its sowing on a day of the year half of the seedlings are up on
// every lawn, in the soil of the zone where most of it was sown; a whole year where they are not sooner.
func (p *Past) Up(c *site.Conditions, b *Before, day int, w Water) []float64 {
	days := c.Zones[b.Zones[0]].Days
	out := make([]float64, len(p.e.Lawns))
	for i := range out {
		out[i] = b.half(p.emerge(days, b, i, p.dayOf(days, b, i, day), w))
	}
	return out
}

// Cut is how many days after its sowing the first grass that makes up a real part of it is tall enough to be
// cut on every lawn that will be kept at a height; two years where it is not sooner. Seedlings may have been up later than
// expected, by so many days on each lawn; nil: they were not.
func (p *Past) Cut(c *site.Conditions, b *Before, day int, keptMM float64, late []float64, w Water) []float64 {
	kinds := [2]height{heightOf(&c.Zones[b.Zones[0]], false, w), heightOf(&c.Zones[b.Zones[0]], true, w)}
	least := min(cutPart, slices.Max(b.Weight))
	out := make([]float64, len(p.e.Lawns))
	for i := range out {
		from := p.dayOf(kinds[0].days, b, i, day)
		up := p.emerge(kinds[0].days, b, i, from, w)
		if late != nil {
			for j := range up {
				up[j] = max(0, math.Round(up[j]+late[i]))
			}
		}
		out[i] = mostCut
		for j, g := range b.Grass {
			if b.Weight[j] < least {
				continue
			}
			sp, h := p.e.pool[g], &kinds[0]
			if sp.Warm {
				h = &kinds[1]
			}
			goal := species.FirstCutDegDays(sp.At(&p.e.Lawns[i].Grass[g].Traits)[species.Vigour], keptMM)
			out[i] = min(out[i], float64(h.reached(from%len(h.grows)+int(up[j]), goal)-from%len(h.grows)))
		}
		out[i] = max(out[i], b.half(up)) // no mower goes over what is only coming up
	}
	return out
}

// height is how grass grows taller in a zone.
type height struct {
	days  *weather.Days
	grows []float64 // degree-days that a day adds
	mown  []int32   // the first day from each on on which it grows enough to be mown
}

func heightOf(z *site.Zone, warm bool, w Water) height {
	var stretch [12]float64
	for m, dli := range z.Days.Exposure.DLI {
		stretch[m] = species.Stretched(dli, z.Days.Exposure.OpenShare[m])
	}
	n := len(z.Days.MeanC)
	h := height{days: z.Days, grows: make([]float64, n)}
	sums, sum := make([]float32, n+2*mostCut+1), 0.0 // the latest sowings go on with the first years
	for k := range n + 2*mostCut {
		warmth := species.Warmth(float64(z.Days.MeanC[k%n]), warm)
		sum += warmth
		sums[k+1] = float32(sum)
		if k < n && z.Days.SnowCM[k] < 1 {
			h.grows[k] = warmth * stretch[calendar.MonthOf(k%calendar.Year)] * on(w.Grow, k)
		}
	}
	h.mown = species.Mown(sums, n)
	return h
}

// reached is the day on which what came up on another is first cut, so many degree-days tall; frost kills
// leaf that has to grow again.
func (h *height) reached(up int, goal float64) int {
	tall, killed := 0.0, 0.0
	at, last := up, min(up+mostCut, len(h.mown)-1)
	for ; at < last && tall < goal; at++ {
		k := at % len(h.grows)
		if lost := species.LeafKilled(float64(h.days.CrownC[k])); lost > killed {
			tall *= (1 - lost) / (1 - killed)
			killed = lost
		}
		tall += h.grows[k]
	}
	return int(h.mown[min(at, last)])
}

// dayOf is a day of the year of a sowing among the days of a lawn's run of weather.
func (p *Past) dayOf(days *weather.Days, b *Before, lawn, day int) int {
	return ((p.e.Lawns[lawn].Start+b.At.Year-p.first)%days.Years)*calendar.Year + day
}

// emerge is after how many days each grass sown on a day of a lawn's run of weather is up.
func (p *Past) emerge(days *weather.Days, b *Before, lawn, from int, w Water) []float64 {
	up := make([]float64, len(b.Grass))
	for j, g := range b.Grass {
		t := p.e.pool[g].At(&p.e.Lawns[lawn].Grass[g].Traits)
		sum := 0.0
		for up[j] < mostUp && sum < t[species.EmergeDegDays] {
			k := (from + int(up[j])) % len(days.SoilC)
			sum += max(0, float64(days.SoilC[k])-t[species.GermBaseC]) * on(w.Stir, k)
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
