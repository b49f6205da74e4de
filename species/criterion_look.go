package species

import "fmt"

var criterionLook = Criterion{
	ID:      "look",
	Title:   "Look",
	Means:   "whether its leaf is as fine as the grade of lawn asks",
	Quality: QualityLook,
	Reads:   []Trait{LeafMM},
	Source:  "membership function of Burrough 1989 on leaf width; widths for the grades are common practice, no published source",
	Score: func(t *Traits, s *Setting) float64 {
		widest := StandardOf(s.Use.Grade).LeafMM
		return bell((t[LeafMM] - widest) / widest)
	},
	Figure: func(s *Setting) string {
		std := StandardOf(s.Use.Grade)
		return fmt.Sprintf("a lawn of %s grade, leaves to %.1f mm", std.Grade, std.LeafMM)
	},
	Limits: func(t *Traits) string { return fmt.Sprintf("leaf %.1f mm wide", t[LeafMM]) },
}
