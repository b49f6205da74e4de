package species

import (
	"fmt"
	"math"
)

// Light ratings in multiples of the light of half cover: no limit from
// fullLight, moderate at qualityLight. Fitted, with the light that hours of sun
// bring at 40° N, to extension rules: fine fescue is refused without direct sun,
// possible from 3 hours (Penn State 2001) and suited from 4 (Connecticut); smooth
// meadow-grass and ryegrass are moderate at 6 (Maryland) and thrive at 8 (Oregon).
// Trials of a few years under good care keep cover with less: see LightCover.
const fullLight, qualityLight = 3.0, 2.3

var criterionLight = Criterion{
	ID:      "light",
	Title:   "Light",
	Means:   "whether the light that reaches the lawn in the growing season keeps this grass dense",
	Quality: QualityLight,
	Reads:   []Trait{HalfLight},
	Source:  "daily light integral against multiples of the light of half cover, membership function of Burrough 1989",
	Score: func(t *Traits, s *Setting) float64 {
		return lightRating(t, s.dli(), LeafTaken(s.Zone.Light))
	},
	Figure: func(s *Setting) string {
		l := s.Zone.Light
		f := fmt.Sprintf("%.1f mol/m² of light a day in the growing season, %.0f %% of the open lawn's, with %.1f h of sun",
			l.DLISeason, 100*l.OpenShare, l.SunHoursSeason)
		if LeafTaken(l) > 0.1 {
			f += ", shaded by leaves"
		}
		return f
	},
	Limits: func(t *Traits) string {
		return fmt.Sprintf("half cover at %.1f mol/m² a day, quality from %.0f, no limit from %.0f",
			t[HalfLight], qualityLight*t[HalfLight], fullLight*t[HalfLight])
	},
}

func lightRating(t *Traits, dli, leafTaken float64) float64 {
	if dli <= 0 {
		return 0
	}
	full := fullLight * t[HalfLight] * (1 + leafShadeCost*leafTaken)
	return bell(math.Log(full/dli) / math.Log(fullLight/qualityLight))
}
