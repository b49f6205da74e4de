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
		half := mouldHalfDays(t)
		return lossRating(meanOver(s.stress.moulds, func(y *weather.Year) float64 {
			return outlastsMould(half, y) * IceSurvival(t, y)
		}))
	},
	Figure: func(s *Setting) string {
		return fmt.Sprintf("snow for %s on end, %s of cool wet weather, %s under ice in a mean winter",
			days(s.mean.LongestSnow), days(s.mean.MouldDays), days(s.mean.IceDays))
	},
	Limits: func(t *Traits) string {
		return fmt.Sprintf("stands snow mould %s; %s of ice on end halve it", graded(t[SnowMould]), days(t[IceDays]))
	},
}
