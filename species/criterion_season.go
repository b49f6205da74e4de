package species

import "swardwright/internal/told"

const (
	// seedbedWarmthC is the mean warmth above its base that seed lies in over
	// the part of the season fit for sowing (inferred).
	seedbedWarmthC = 9.0
	// coverDays is the growth from emergence to a closed sward of the quickest
	// grass; others take longer as their vigour is less: 21 days gives 3-4 weeks
	// for ryegrass and 10 for smooth meadow-grass, whose published times to use
	// are 2-3 and 9-12 months (Cornell University) with a winter between.
	coverDays = 21.0
	// sowingShare of the season is left when a sowing is done in good time.
	sowingShare = 0.6
)

var criterionSeason = Criterion{
	ID:      "season",
	Means:   told.Say("criteria.season-means"),
	Quality: QualitySeason,
	Reads:   []Trait{GermBaseC, EmergeDegDays, Vigour},
	Source:  "thermal time to emergence and seedling vigour against the growing season",
	Score: func(t *Traits, s *Setting) float64 {
		left := sowingShare * s.mean.GrowingDays
		if left <= 0 {
			return 0
		}
		return bell((establishDays(t) - left) / left)
	},
	Figure: func(s *Setting) told.Sentence { return told.Say("criteria.season", days(s.mean.GrowingDays)) },
	Limits: func(t *Traits) told.Sentence {
		return told.Say("criteria.season-limits", days(establishDays(t)))
	},
}

// establishDays is the time from sowing to a closed sward, in growing days.
func establishDays(t *Traits) float64 {
	return t[EmergeDegDays]/seedbedWarmthC + coverDays/max(t[Vigour], 0.05)
}
