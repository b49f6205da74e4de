package species

import (
	"fmt"
	"math"
)

// qualityLight is the light, in multiples of that for half cover, at which a
// grass is moderately suited. With it a grass is marginal at its half-cover
// light and well suited at twice that, the light it has its quality at.
const qualityLight = 1.387

var criterionLight = Criterion{
	ID:      "light",
	Title:   "Light",
	Means:   "whether the light that reaches the lawn in the growing season keeps this grass dense",
	Quality: QualityLight,
	Reads:   []Trait{HalfLight},
	Source:  "daily light integral against the light of half cover, Hill curve",
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
		return fmt.Sprintf("half cover at %.1f mol/m² a day, good cover from %.0f", t[HalfLight], 2*t[HalfLight])
	},
}

func lightRating(t *Traits, dli, leafTaken float64) float64 {
	if dli <= 0 {
		return 0
	}
	need := qualityLight * t[HalfLight] * (1 + leafShadeCost*leafTaken)
	return 1 / (1 + math.Pow(need/dli, lightSteepness))
}
