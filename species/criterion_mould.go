package species

import (
	"fmt"

	"swardwright/site/weather"
)

var criterionMould = Criterion{
	ID:      "snow-mould-ice",
	Title:   "Snow mould and ice",
	Means:   "whether it outlasts the snow mould of wet, mild snow and suffocation under ice",
	Quality: QualityWinter,
	Reads:   []Trait{SnowMould, IceDays},
	Source:  "longest snow, mould weather and ice against the days that halve its cover, mean of the synthetic years",
	Score: func(t *Traits, s *Setting) float64 {
		return lossRating(meanOver(s.stress.moulds, func(y *weather.Year) float64 {
			return MouldSurvival(t, y) * IceSurvival(t, y)
		}))
	},
	Figure: func(s *Setting) string {
		return fmt.Sprintf("snow for %.0f days on end, %.0f days of cool wet weather, %.0f days under ice in a mean winter",
			s.mean.LongestSnow, s.mean.MouldDays, s.mean.IceDays)
	},
	Limits: func(t *Traits) string {
		return fmt.Sprintf("stands snow mould %.2f of 1; %.0f days of ice on end halve it", t[SnowMould], t[IceDays])
	},
}
