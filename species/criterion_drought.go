package species

import (
	"math"
	"swardwright/internal/told"
	"swardwright/site/weather"
)

var criterionDrought = Criterion{
	ID:      "drought",
	Means:   told.Say("criteria.drought-means"),
	Quality: QualityWater,
	Reads:   []Trait{Drought},
	Source:  "days counted by the share of its water the sward goes short of (FAO-56), with what tree roots add, mean of the synthetic years",
	Score: func(t *Traits, s *Setting) float64 {
		return lossRating(meanOver(s.stress.droughts, func(y *weather.Year) float64 { return DroughtSurvival(t, y) }))
	},
	Figure: func(s *Setting) told.Sentence {
		dry := days(s.mean.DroughtDays)
		if s.Use.Irrigation {
			return told.Say("criteria.drought-watered", dry)
		}
		if roots := rootThirst(s.Zone.Light, &s.Site.Soil); roots >= 1 {
			return told.Say("criteria.drought-roots", dry, told.Count(math.Round(roots)))
		}
		return told.Say("criteria.drought", dry)
	},
	Limits: func(t *Traits) told.Sentence {
		return told.Say("criteria.drought-limits", days(droughtHalfDays(t)))
	},
}
