package species

import "fmt"

var criterionWet = Criterion{
	ID:      "wet",
	Title:   "Wet ground",
	Means:   "whether it grows where the ground stays wet",
	Quality: QualityWater,
	Reads:   []Trait{Wet},
	Source:  "share of the growing season with the ground above field capacity, or wet by its drainage class",
	Score: func(t *Traits, s *Setting) float64 {
		sum := 0.0
		for _, share := range s.stress.wetShares {
			sum += WetSurvival(t, clamp01(share*(1+s.off.wet)))
		}
		return lossRating(sum / float64(len(s.stress.wetShares)))
	},
	Figure: func(s *Setting) string {
		sum := 0.0
		for _, share := range s.stress.wetShares {
			sum += share / float64(len(s.stress.wetShares))
		}
		return fmt.Sprintf("wet for %.0f %% of the growing season, %s drained", 100*sum, s.Site.Soil.Drainage)
	},
	Limits: func(t *Traits) string { return "stands wet ground " + graded(t[Wet]) },
}
