package bed

import (
	"math"

	"swardwright/internal/told"
	"swardwright/sowing/job"
)

// Strew is the seed of one zone.
type Strew struct {
	Zone     string // its letter
	AreaM2   float64
	Grams    float64
	PassG    float64 // each of the two passes
	SandKG   float64 // dry sand to bulk each pass with
	HandfulN int     // handfuls of the bulked seed in each pass
}

// Guide says how the seed is spread by hand.
type Guide struct {
	Zones        []Strew
	PracticeM2   float64
	PracticeG    float64
	UnderHand    float64 // seeds that lie under an open hand when it is right
	Instructions []told.Sentence
}

// What a hand does: common practice, no published source.
const (
	handM2       = 0.015 // an open adult hand laid on the ground
	handfulG     = 60    // of seed bulked with sand
	sandPerSeed  = 3.0   // by weight: so that fine seed can be seen and does not drift
	practiceSide = 1.0   // m
)

// GuideOf shares the seed out over the zones: gM2 of seed as bought, perM2 viable seeds.
func GuideOf(zones []job.Zone, gM2, perM2 float64) Guide {
	g := Guide{PracticeM2: practiceSide * practiceSide, PracticeG: gM2 * practiceSide * practiceSide, UnderHand: math.Round(perM2 * handM2)}
	for _, z := range zones {
		pass := gM2 * z.AreaM2 / 2
		sand := pass * sandPerSeed
		g.Zones = append(g.Zones, Strew{
			Zone: z.Letter, AreaM2: z.AreaM2, Grams: 2 * pass, PassG: pass, SandKG: sand / 1000,
			HandfulN: int(math.Ceil((pass + sand) / handfulG)),
		})
	}
	g.Instructions = says(
		told.Say("bed.guide-weigh"),
		told.Say("bed.guide-practise", told.LengthM(practiceSide), told.MassG(g.PracticeG), told.Count(g.UnderHand)),
		told.Say("bed.guide-walk"),
	)
	return g
}
