package bed

import (
	"swardwright/site/ground"
	"swardwright/sowing/job"
)

// dressOverseedMM is the top dressing that goes with the seed into a standing sward.
const dressOverseedMM = 3

// tineMM is the thickness of a tine: common practice, no published source.
const tineMM = 10

// dressingMM is the top dressing that goes with the seed.
func dressingMM(w Input) float64 {
	switch {
	case w.turf() || w.Kind != job.New && w.Use.Rough() && w.Method != job.InDressing: // a field is not dressed
		return 0
	case w.Kind == job.Renovate:
		return job.MostDressMM
	case w.Kind == job.Overseed || w.Method == job.InDressing:
		return dressOverseedMM
	default:
		return 0
	}
}

// spikes is the pattern of a hand fork.
func spikes() ground.Holes { return ground.HolesOf(job.SpikeSpacingMM, tineMM, job.SpikeDepthMM) }

// dressingKG is the weight of a settled volume of dressing.
func dressingKG(m3 float64) float64 {
	return ground.Sand.Settled(m3*job.DressSandShare).KG + ground.Compost.Settled(m3*(1-job.DressSandShare)).KG
}
