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
	Source:  "days with the rootzone drawn below what turf takes without stress (FAO-56), mean of the synthetic years",
	Score: func(t *Traits, s *Setting) float64 {
		return lossRating(meanOver(s.stress.droughts, func(y *weather.Year) float64 { return DroughtSurvival(t, y) }))
	},
	Figure: func(s *Setting) string {
		f := fmt.Sprintf("%.0f days of dry ground in a mean summer", s.mean.DroughtDays)
		if s.Use.Irrigation {
			f += ", watered"
		}
		return f
	},
	Limits: func(t *Traits) string {
		return fmt.Sprintf("%.0f dry days halve it", droughtLeastDays+(droughtMostDays-droughtLeastDays)*t[Drought])
	},
}
