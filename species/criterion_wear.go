package species

import (
	"fmt"
	"math"
)

// fullSeasonDays is a growing season long enough to make good a year's wear.
const fullSeasonDays = 200.0

var criterionWear = Criterion{
	ID:      "wear",
	Title:   "Wear",
	Means:   "whether it keeps its cover under feet with the light and season left to grow again",
	Quality: QualityWear,
	Reads:   []Trait{Wear, HalfLight},
	Source:  "loss of canopy under traffic, less regrowth; ranks of Shearman & Beard 1975",
	Score: func(t *Traits, s *Setting) float64 {
		growth := LightCover(t, s.dli(), LeafTaken(s.Zone.Light)) * math.Min(1, s.mean.GrowingDays/fullSeasonDays)
		return lossRating(1 - WearLoss(t, s.Use.TrafficOr(), growth))
	},
	Figure: func(s *Setting) string {
		return fmt.Sprintf("%s traffic, %.0f growing days to recover in", s.Use.TrafficOr(), s.mean.GrowingDays)
	},
	Limits: func(t *Traits) string { return "stands wear " + graded(t[Wear]) },
}
