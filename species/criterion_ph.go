package species

import "swardwright/internal/told"

var criterionPH = Criterion{
	ID:      "ph",
	Means:   told.Say("criteria.ph-means"),
	Quality: QualitySoil,
	Reads:   []Trait{PHLow, PHHigh},
	Source:  "membership function of Burrough 1989 on the preferred range",
	Score:   func(t *Traits, s *Setting) float64 { return PHFit(t, s.Site.Soil.PH+s.off.ph) },
	Figure: func(s *Setting) told.Sentence {
		if !s.Site.Soil.PHKnown {
			return told.Say("criteria.ph-assumed", told.PH(s.Site.Soil.PH))
		}
		return told.Say("criteria.ph", told.PH(s.Site.Soil.PH))
	},
	Limits: func(t *Traits) told.Sentence {
		return told.Say("criteria.ph-limits", told.Between(told.PH(t[PHLow]), told.PH(t[PHHigh])))
	},
}
