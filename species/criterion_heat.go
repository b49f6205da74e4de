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
	Source:  "mean daily maximum of the hottest 30 days, logistic on both sides, mean of the synthetic years",
	Score: func(t *Traits, s *Setting) float64 {
		hot := lossRating(meanOver(s.stress.summers, func(y *weather.Year) float64 { return HeatSurvival(t, y) }))
		warm := meanOver(s.stress.summers, func(y *weather.Year) float64 { return WarmthFit(t, y) })
		return math.Min(hot, warm)
	},
	Figure: func(s *Setting) string {
		return fmt.Sprintf("the hottest 30 days reach %.0f °C", s.mean.HotC)
	},
	Limits: func(t *Traits) string {
		return fmt.Sprintf("too hot from %.0f °C, too cool below %.0f °C", heatLeastC+(heatMostC-heatLeastC)*t[Heat], t[WarmthC])
	},
}
