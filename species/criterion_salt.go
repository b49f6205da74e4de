package species

import "fmt"

var criterionSalt = Criterion{
	ID:      "salt",
	Title:   "Salt",
	Means:   "how much of its growth the salt of the ground leaves",
	Quality: QualitySoil,
	Reads:   []Trait{SaltDSM},
	Source:  "Maas & Hoffman 1977, threshold and slope",
	Score:   func(t *Traits, s *Setting) float64 { return SaltFit(t, s.Site.Soil.ECeDSM) },
	Figure:  func(s *Setting) string { return fmt.Sprintf("%.1f dS/m", s.Site.Soil.ECeDSM) },
	Limits:  func(t *Traits) string { return fmt.Sprintf("growth falls from %.1f dS/m", t[SaltDSM]) },
}
