package bed

import (
	"cmp"
	"math"
	"slices"

	"github.com/samber/lo"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/sowing/job"
)

// Strew is the seed of one zone.
type Strew struct {
	Zone     string // its letter
	AreaM2   float64
	Grams    float64
	PassG    float64 // each of the two passes
	SandKG   float64 // dry sand to bulk each pass with by hand; 0: none
	HandfulN int     // handfuls of the bulked seed in each pass; 0: not by hand
}

// Guide says how the seed is spread, as the method has it.
type Guide struct {
	Zones        []Strew
	Instructions []told.Sentence
}

// Spread is how seed is spread.
type Spread struct {
	Method string // "broadcast", "drill", "in dressing"; empty: broadcast
	Level  bool   // both passes go level along a slope
}

// What a hand does: common practice, no published source.
const (
	handM2       = 0.015 // an open adult hand laid on the ground
	handfulG     = 60    // of seed bulked with sand
	sandPerSeed  = 3.0   // by weight: so that fine seed can be seen and does not drift
	practiceSide = 1.0   // m
	byHandM2     = 300.0 // more than this is walked with a spreader
)

// sandKG is the dry sand that all passes are bulked with.
func (g *Guide) sandKG() (kg float64) {
	if g == nil {
		return 0
	}
	for _, z := range g.Zones {
		kg += 2 * z.SandKG
	}
	return kg
}

// blended says in which order the bags of a mixture are mixed before it is weighed out.
func blended(parts []mix.Part) []told.Sentence {
	if len(parts) < 2 {
		return nil
	}
	sorted := slices.Clone(parts)
	slices.SortStableFunc(sorted, func(a, b mix.Part) int { return cmp.Compare(a.Percent, b.Percent) })
	return says(told.Say("bed.guide-blend", told.Joined(told.Then, lo.Map(sorted, func(p mix.Part, _ int) told.Grass { return told.Grass(p.Species.ID) })...)))
}

// GuideOf shares the seed out over the zones: gM2 of seed as bought, perM2 viable seeds.
func GuideOf(by Spread, zones []job.Zone, gM2, perM2 float64) Guide {
	hand := by.Method != job.Drill && by.Method != job.InDressing && job.Area(zones) <= byHandM2
	var g Guide
	for _, z := range zones {
		pass := gM2 * z.AreaM2 / 2
		strew := Strew{Zone: z.Letter, AreaM2: z.AreaM2, Grams: 2 * pass, PassG: pass}
		if hand {
			sand := pass * sandPerSeed
			strew.SandKG, strew.HandfulN = sand/1000, int(math.Ceil((pass+sand)/handfulG))
		}
		g.Zones = append(g.Zones, strew)
	}
	walk := told.Say("bed.guide-walk")
	if by.Level {
		walk = told.Say("bed.guide-walk-level")
	}
	switch {
	case by.Method == job.Drill:
		g.Instructions = says(told.Say("bed.guide-fill"), told.Say("bed.drill-set", told.GramsPerM2(gM2)))
	case by.Method == job.InDressing:
		g.Instructions = says(told.Say("bed.guide-mix"))
	case !hand:
		g.Instructions = says(told.Say("bed.guide-fill"), told.Say("bed.spreader-set", told.GramsPerM2(gM2)))
	default:
		g.Instructions = says(told.Say("bed.guide-weigh"),
			told.Say("bed.guide-practise", told.LengthM(practiceSide), told.MassG(gM2*practiceSide*practiceSide), told.Count(math.Round(perM2*handM2))))
	}
	g.Instructions = append(g.Instructions, walk)
	return g
}
