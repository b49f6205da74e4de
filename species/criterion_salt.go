package species

import "swardwright/internal/told"

var criterionSalt = Criterion{
	ID:      "salt",
	Means:   told.Say("criteria.salt-means"),
	Quality: QualitySoil,
	Reads:   []Trait{SaltDSM, SaltWantedDSM},
	Source:  "Maas & Hoffman 1977, threshold and slope",
	Score:   func(t *Traits, s *Setting) float64 { return SaltFit(t, s.Site.Soil.ECeDSM) },
	Figure:  func(s *Setting) told.Sentence { return told.Say("criteria.salt", told.SalinityDSM(s.Site.Soil.ECeDSM)) },
	Limits: func(t *Traits) told.Sentence {
		if want := t[SaltWantedDSM]; want > 0 {
			return told.Say("criteria.salt-wanted", told.SalinityDSM(want), told.SalinityDSM(t[SaltDSM]))
		}
		return told.Say("criteria.salt-limits", told.SalinityDSM(t[SaltDSM]))
	},
}
