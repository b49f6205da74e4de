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

// Seed is seed of one mixture, for the zones that it goes on.
type Seed struct {
	Zones []job.Zone
	GM2   float64 // as bought
	PerM2 float64 // viable seeds
	Parts []mix.Part
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

// blended says in which order the bags of a mixture, or of each of two, are mixed before it
// is weighed out.
func blended(seed []Seed) []told.Sentence {
	if !slices.ContainsFunc(seed, func(s Seed) bool { return len(s.Parts) > 1 }) {
		return nil
	}
	order := func(parts []mix.Part) told.List {
		sorted := slices.Clone(parts)
		slices.SortStableFunc(sorted, func(a, b mix.Part) int { return cmp.Compare(a.Percent, b.Percent) })
		return told.Joined(told.Then, lo.Map(sorted, func(p mix.Part, _ int) told.Grass { return told.Grass(p.Species.ID) })...)
	}
	if len(seed) > 1 {
		return says(told.Say("bed.guide-blend-two", order(seed[0].Parts), order(seed[1].Parts)))
	}
	return says(told.Say("bed.guide-blend", order(seed[0].Parts)))
}

// GuideOf shares the seed out over the zones: that of one mixture, or of two, each with
// zones of its own.
func GuideOf(by Spread, seed ...Seed) Guide {
	area := 0.0
	for _, s := range seed {
		area += job.Area(s.Zones)
	}
	hand := by.Method != job.Drill && by.Method != job.InDressing && area <= byHandM2
	var g Guide
	for _, s := range seed {
		for _, z := range s.Zones {
			pass := s.GM2 * z.AreaM2 / 2
			strew := Strew{Zone: z.Letter, AreaM2: z.AreaM2, Grams: 2 * pass, PassG: pass}
			if hand {
				sand := pass * sandPerSeed
				strew.SandKG, strew.HandfulN = sand/1000, int(math.Ceil((pass+sand)/handfulG))
			}
			g.Zones = append(g.Zones, strew)
		}
	}
	walk := told.Say("bed.guide-walk")
	if by.Level {
		walk = told.Say("bed.guide-walk-level")
	}
	two := len(seed) > 1
	if two {
		g.Instructions = says(told.Say("bed.guide-apart", job.Named(seed[0].Zones), job.Named(seed[1].Zones)))
	}
	g.Instructions = append(g.Instructions, blended(seed)...)
	switch {
	case by.Method == job.Drill:
		g.Instructions = append(g.Instructions, told.Say("bed.guide-fill"), drillSet(seed))
	case by.Method == job.InDressing:
		g.Instructions = append(g.Instructions, told.Say("bed.guide-mix"))
	case !hand:
		set := told.Say("bed.spreader-set", told.GramsPerM2(seed[0].GM2))
		if two {
			set = told.Say("bed.spreader-set-two", told.GramsPerM2(seed[0].GM2), told.GramsPerM2(seed[1].GM2))
		}
		g.Instructions = append(g.Instructions, told.Say("bed.guide-fill"), set)
	default:
		g.Instructions = append(g.Instructions, told.Say("bed.guide-weigh"), practise(seed))
	}
	g.Instructions = append(g.Instructions, walk)
	if two {
		g.Instructions = append(g.Instructions, told.Say("bed.guide-meet"))
	}
	return g
}

// drillSet says what a drill is set to.
func drillSet(seed []Seed) told.Sentence {
	if len(seed) > 1 {
		return told.Say("bed.drill-set-two", told.GramsPerM2(seed[0].GM2), told.GramsPerM2(seed[1].GM2))
	}
	return told.Say("bed.drill-set", told.GramsPerM2(seed[0].GM2))
}

// practise says how much seed lies on a square that a hand practises on, and under the hand.
func practise(seed []Seed) told.Sentence {
	grams := func(s Seed) told.Figure { return told.MassG(s.GM2 * practiceSide * practiceSide) }
	under := func(s Seed) told.Figure { return told.Count(math.Round(s.PerM2 * handM2)) }
	if len(seed) > 1 {
		return told.Say("bed.guide-practise-two", told.LengthM(practiceSide), grams(seed[0]), under(seed[0]), grams(seed[1]), under(seed[1]))
	}
	return told.Say("bed.guide-practise", told.LengthM(practiceSide), grams(seed[0]), under(seed[0]))
}
