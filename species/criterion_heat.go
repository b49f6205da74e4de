package species

import (
	"math"

	"swardwright/internal/told"
	"swardwright/site/weather"
)

var criterionHeat = Criterion{
	ID:      "heat",
	Means:   told.Say("criteria.heat-means"),
	Quality: QualityHeat,
	Reads:   []Trait{Heat, WarmthC},
	Source:  "mean temperature of the hottest 30 days, logistic on both sides, mean of the synthetic years",
	Score: func(t *Traits, s *Setting) float64 {
		hot := lossRating(meanOver(s.stress.summers, func(y *weather.Year) float64 { return HeatSurvival(t, y) }))
		warm := meanOver(s.stress.summers, func(y *weather.Year) float64 { return WarmthFit(t, y) })
		return math.Min(hot, warm)
	},
	Figure: func(s *Setting) told.Sentence {
		return told.Say("criteria.heat", told.Days(30), told.TemperatureC(s.mean.HotMeanC), told.TemperatureC(s.mean.HotC))
	},
	Limits: func(t *Traits) told.Sentence {
		return told.Say("criteria.heat-limits", told.TemperatureC(heatHalfC(t)), told.TemperatureC(t[WarmthC]))
	},
}
