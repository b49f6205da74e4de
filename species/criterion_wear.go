package species

import (
	"math"
	"swardwright/internal/told"
)

// fullSeasonDays is a growing season long enough to make good a year's wear.
const fullSeasonDays = 200.0

var criterionWear = Criterion{
	ID:      "wear",
	Means:   told.Say("criteria.wear-means"),
	Quality: QualityWear,
	Reads:   []Trait{Wear, HalfCoverDLI},
	Source:  "loss of canopy under traffic, less regrowth; ranks of Shearman & Beard 1975",
	Score: func(t *Traits, s *Setting) float64 {
		growth := LightCover(t, s.dli(), LeafTaken(s.Zone.Light)) * math.Min(1, s.mean.GrowingDays/fullSeasonDays)
		return lossRating(1 - WearLoss(t, s.Use.TrafficOr(), growth))
	},
	Figure: func(s *Setting) told.Sentence {
		return told.Say("criteria.wear", s.Use.TrafficOr().Told(), days(s.mean.GrowingDays))
	},
	Limits: func(t *Traits) told.Sentence {
		return told.Say("criteria.wear-limits", graded(t[Wear]), told.Score(t[Wear]))
	},
}
