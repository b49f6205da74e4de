package species

import (
	"swardwright/internal/told"
	"swardwright/site/weather"
)

var criterionMould = Criterion{
	ID:      "snow-mould-ice",
	Means:   told.Say("criteria.mould-means"),
	Quality: QualityWinter,
	Reads:   []Trait{SnowMould, IceDays},
	Source:  "longest snow, mould weather and ice against the days that halve its cover, mean of the synthetic years",
	Score: func(t *Traits, s *Setting) float64 {
		half := MouldHalfDays(t)
		return lossRating(meanOver(s.stress.moulds, func(y *weather.Year) float64 {
			return outlastsMould(half, y) * IceSurvival(t, y)
		}))
	},
	Figure: func(s *Setting) told.Sentence {
		return told.Say("criteria.mould", days(s.mean.LongestSnow), days(s.mean.MouldDays), days(s.mean.IceDays))
	},
	Limits: func(t *Traits) told.Sentence {
		return told.Say("criteria.mould-limits", graded(t[SnowMould]), told.Score(t[SnowMould]), days(t[IceDays]))
	},
}
