package species

import (
	"fmt"
	"math"

	"swardwright/site/weather"
)

var criterionHeat = Criterion{
	ID:      "heat",
	Title:   "Summer warmth",
	Means:   "whether the summer is neither too hot for it nor too cool to grow in",
	Quality: QualityHeat,
	Reads:   []Trait{Heat, WarmthC},
	Source:  "mean temperature of the hottest 30 days, logistic on both sides, mean of the synthetic years",
	Score: func(t *Traits, s *Setting) float64 {
		hot := lossRating(meanOver(s.stress.summers, func(y *weather.Year) float64 { return HeatSurvival(t, y) }))
		warm := meanOver(s.stress.summers, func(y *weather.Year) float64 { return WarmthFit(t, y) })
		return math.Min(hot, warm)
	},
	Figure: func(s *Setting) string {
		return fmt.Sprintf("the hottest 30 days have a mean of %.0f °C, with maxima of %.0f", s.mean.HotMeanC, s.mean.HotC)
	},
	Limits: func(t *Traits) string {
		return fmt.Sprintf("a mean of %.0f °C halves it; too cool below %.0f °C", heatHalfC(t), t[WarmthC])
	},
}
