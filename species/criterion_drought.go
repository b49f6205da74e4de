package species

import (
	"fmt"

	"swardwright/site/weather"
)

var criterionDrought = Criterion{
	ID:      "drought",
	Title:   "Drought",
	Means:   "whether it outlasts the dry weeks of the place's summers",
	Quality: QualityWater,
	Reads:   []Trait{Drought},
	Source:  "days counted by the share of its water the sward goes short of (FAO-56), with what tree roots add, mean of the synthetic years",
	Score: func(t *Traits, s *Setting) float64 {
		return lossRating(meanOver(s.stress.droughts, func(y *weather.Year) float64 { return DroughtSurvival(t, y) }))
	},
	Figure: func(s *Setting) string {
		f := fmt.Sprintf("%s without water in a mean year", days(s.mean.DroughtDays))
		if roots := rootThirst(s.Zone.Light, &s.Site.Soil); roots >= 1 && !s.Use.Irrigation {
			f += fmt.Sprintf(", %.0f of them by tree roots", roots)
		}
		if s.Use.Irrigation {
			f += ", watered"
		}
		return f
	},
	Limits: func(t *Traits) string {
		return fmt.Sprintf("%s without water halve it", days(droughtHalfDays(t)))
	},
}
