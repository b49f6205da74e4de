package species

import "fmt"

var criterionPH = Criterion{
	ID:      "ph",
	Title:   "Soil reaction",
	Means:   "whether the soil is neither too sour nor too limy for it",
	Quality: QualitySoil,
	Reads:   []Trait{PHLow, PHHigh},
	Source:  "membership function of Burrough 1989 on the preferred range",
	Score:   func(t *Traits, s *Setting) float64 { return PHFit(t, s.Site.Soil.PH+s.off.ph) },
	Figure: func(s *Setting) string {
		if !s.Site.Soil.PHKnown {
			return fmt.Sprintf("pH %.1f, assumed", s.Site.Soil.PH)
		}
		return fmt.Sprintf("pH %.1f", s.Site.Soil.PH)
	},
	Limits: func(t *Traits) string { return fmt.Sprintf("prefers pH %.1f to %.1f", t[PHLow], t[PHHigh]) },
}
