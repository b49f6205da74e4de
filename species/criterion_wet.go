package species

import (
	"swardwright/internal/arith"
	"swardwright/internal/told"
)

var criterionWet = Criterion{
	ID:      "wet",
	Means:   told.Say("criteria.wet-means"),
	Quality: QualityWater,
	Reads:   []Trait{Wet},
	Source:  "share of the growing season with the ground above field capacity, or wet by its drainage class",
	Score: func(t *Traits, s *Setting) float64 {
		sum := 0.0
		for _, share := range s.stress.wetShares {
			sum += WetSurvival(t, arith.Unit(share*(1+s.off.wet)))
		}
		return lossRating(sum / float64(len(s.stress.wetShares)))
	},
	Figure: func(s *Setting) told.Sentence {
		sum := 0.0
		for _, share := range s.stress.wetShares {
			sum += share / float64(len(s.stress.wetShares))
		}
		return told.Say("criteria.wet", told.Share(sum), told.Term{Kind: "drainage", Word: s.Site.Soil.Drainage})
	},
	Limits: func(t *Traits) told.Sentence {
		return told.Say("criteria.wet-limits", graded(t[Wet]), told.Score(t[Wet]))
	},
}
