package species

import (
	"math"
	"swardwright/internal/told"
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
	Means:   told.Say("criteria.light-means"),
	Quality: QualityLight,
	Reads:   []Trait{HalfCoverDLI},
	Source:  "daily light integral against multiples of the light of half cover, membership function of Burrough 1989",
	Score: func(t *Traits, s *Setting) float64 {
		return lightRating(t, s.dli(), LeafTaken(s.Zone.Light))
	},
	Figure: func(s *Setting) told.Sentence {
		l := s.Zone.Light
		light, open, sun := told.DLI(l.DLISeason), told.Share(l.OpenShare), told.SunHours(l.SunHoursSeason)
		if LeafTaken(l) > 0.1 {
			return told.Say("criteria.light-leaves", light, open, sun)
		}
		return told.Say("criteria.light", light, open, sun)
	},
	Limits: func(t *Traits) told.Sentence {
		return told.Say("criteria.light-limits", told.DLI(t[HalfCoverDLI]), told.DLI(qualityLight*t[HalfCoverDLI]), told.DLI(fullLight*t[HalfCoverDLI]))
	},
}

func lightRating(t *Traits, dli, leafTaken float64) float64 {
	if dli <= 0 {
		return 0
	}
	full := fullLight * t[HalfCoverDLI] * (1 + leafShadeCost*leafTaken)
	return bell(math.Log(full/dli) / math.Log(fullLight/qualityLight))
}
