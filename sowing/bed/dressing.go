package bed

import (
	"swardwright/site/ground"
	"swardwright/sowing/job"
)

// Top dressing and the holes it goes into.
const (
	dressRenovateMM = 5 // the most at one time: City of Regina, Topdressing
	dressOverseedMM = 3

	// Common practice, no published source: about 70 % sand to 30 % weed-free
	// compost; hundreds of holes, 15 cm deep, by hand fork.
	dressSandShare = 0.7
	spikeDepthMM   = 150
	spikeSpacingMM = 100
	tineMM         = 10
)

// dressingMM is the top dressing that goes with the seed.
func dressingMM(w Input) float64 {
	switch {
	case w.turf():
		return 0
	case w.Kind == job.Renovate:
		return dressRenovateMM
	case w.Kind == job.Overseed || w.Method == job.InDressing:
		return dressOverseedMM
	default:
		return 0
	}
}

// spikes is the pattern of a hand fork.
func spikes() ground.Holes { return ground.HolesOf(spikeSpacingMM, tineMM, spikeDepthMM) }

// dressingKG is the weight of a settled volume of dressing.
func dressingKG(m3 float64) float64 {
	return ground.Sand.Settled(m3*dressSandShare).KG + ground.Compost.Settled(m3*(1-dressSandShare)).KG
}
