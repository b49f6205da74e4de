package year

import (
	"math"
	"time"

	"swardwright/internal/steady"
	"swardwright/internal/told"
	"swardwright/sowing/job"
)

// Dogs. Spots are 150 to 250 mm across (University of Maryland Extension), and water
// within 8 hours thins the urine (University of Illinois). What is kept for repair, how
// it is sown and how wide dogs wear a way: common practice, no published source.
const (
	spotLeastMM, spotMostMM = 150, 250
	rinseHours              = 8
	loosenMM                = 20
	trackM                  = 0.6
	repairShare             = 0.02 // of the lawn, sown again each year
)

// dogs adds the mending of what dogs do to a lawn.
func (p *plan) dogs(origin time.Time) {
	t := job.Task{ID: "mend-dog-spots", Sort: job.Reseeding, Date: p.season.date(origin, clampDay(p.opens.day+28)), Hours: seedOutput.hours(repairShare * p.area), Title: told.Say("year.dog-spots"),
		Detail: says(told.Say("year.dog-spots-how", told.Between(told.DepthMM(spotLeastMM), told.DepthMM(spotMostMM)), told.DepthMM(loosenMM)),
			told.Say("year.dog-rinse", told.Hours(rinseHours)), told.Say("year.dog-tracks", told.LengthM(trackM)))}
	if m := p.in.Mixture; m != nil {
		kept := math.Ceil(steady.Figure(m.RateGM2 * repairShare * p.area))
		t.Materials = says(told.Say("year.dog-seed", told.MassG(kept), told.Share(repairShare)))
	}
	p.add(t)
}
