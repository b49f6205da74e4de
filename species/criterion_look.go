package species

import "fmt"

// closeHalf is the lack of closeness that halves the look.
const closeHalf = 0.35

var criterionLook = Criterion{
	ID:      "look",
	Title:   "Look",
	Means:   "whether its leaf is as fine, and its sward as close, as the grade of lawn asks",
	Quality: QualityLook,
	Reads:   []Trait{LeafMM, Close},
	Source:  "membership function of Burrough 1989 on leaf width and closeness; what the grades ask is common practice, no published source",
	Score:   func(t *Traits, s *Setting) float64 { return LookFit(t, StandardOf(s.Use.Grade)) },
	Figure: func(s *Setting) string {
		std := StandardOf(s.Use.Grade)
		return fmt.Sprintf("a lawn of %s grade, leaves to %.1f mm and a closeness of %.2f", std.Grade, std.LeafMM, std.Close)
	},
	Limits: func(t *Traits) string { return fmt.Sprintf("leaf %.1f mm wide, closeness %.2f", t[LeafMM], t[Close]) },
}

// LookFit is how well a grass by itself has the look that a grade asks for.
func LookFit(t *Traits, std Standard) float64 {
	return bell((t[LeafMM]-std.LeafMM)/std.LeafMM) * bell((std.Close-t[Close])/closeHalf)
}
