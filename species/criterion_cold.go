package species

import (
	"fmt"

	"swardwright/site/weather"
)

var criterionCold = Criterion{
	ID:      "cold",
	Title:   "Winter cold",
	Means:   "whether frost at the crown, after that autumn's hardening and that winter's thaws, leaves it alive",
	Quality: QualityWinter,
	Reads:   []Trait{FreezingC, ThawLoss},
	Source:  "LT50 against the year's coldest crown, logistic kill curve, mean of the synthetic years",
	Score: func(t *Traits, s *Setting) float64 {
		return lossRating(meanOver(s.stress.winters, func(f *frost) float64 {
			moved := *f
			moved.crownMinC += s.off.crownC
			return moved.survival(t)
		}))
	},
	Figure: func(s *Setting) string {
		return fmt.Sprintf("the crown falls to %.0f °C in a mean winter, %.0f °C in one of ten, hardened to %.0f %%, with %s of thaw before",
			s.mean.CrownMinC, s.coldTenth(), 100*s.mean.Hardening, days(s.mean.ThawDays))
	},
	Limits: func(t *Traits) string {
		return fmt.Sprintf("half killed at %.0f °C when hardened, at %.0f °C when not", t[FreezingC], UnhardenedC)
	},
}

// coldTenth is the crown's minimum in the coldest winter of ten.
func (s *Setting) coldTenth() float64 {
	coldest := quantiles(s.Zone.Years, 10, func(y *weather.Year) float64 { return y.CrownMinC })
	return coldest[0].CrownMinC
}
