package species

import (
	"swardwright/internal/told"
	"swardwright/site/weather"
)

var criterionCold = Criterion{
	ID:      "cold",
	Means:   told.Say("criteria.cold-means"),
	Quality: QualityWinter,
	Reads:   []Trait{LT50C, ThawLoss},
	Source:  "LT50 against the year's coldest crown, logistic kill curve, mean of the synthetic years",
	Score: func(t *Traits, s *Setting) float64 {
		return lossRating(meanOver(s.stress.winters, func(f *frost) float64 {
			moved := *f
			moved.crownMinC += s.off.crownC
			return moved.survival(t)
		}))
	},
	Figure: func(s *Setting) told.Sentence {
		return told.Say("criteria.cold", told.TemperatureC(s.mean.CrownMinC), told.TemperatureC(s.coldTenth()), told.Share(s.mean.Hardening), days(s.mean.ThawDays))
	},
	Limits: func(t *Traits) told.Sentence {
		return told.Say("criteria.cold-limits", told.TemperatureC(t[LT50C]), told.TemperatureC(UnhardenedC))
	},
}

// coldTenth is the crown's minimum in the coldest winter of ten.
func (s *Setting) coldTenth() float64 {
	coldest := quantiles(s.Zone.Years, 10, func(y *weather.Year) float64 { return y.CrownMinC })
	return coldest[0].CrownMinC
}
