package species

import "swardwright/internal/told"

// Looks is the criterion of looks, which leaves no ground bare.
const Looks = "look"

// closeHalf is the lack of shoot density that halves the look.
const closeHalf = 0.35

var criterionLook = Criterion{
	ID:      Looks,
	Means:   told.Say("criteria.look-means"),
	Quality: QualityLook,
	Reads:   []Trait{LeafMM, ShootDensity},
	Source:  "membership function of Burrough 1989 on leaf width and shoot density; what the grades ask is common practice, no published source",
	Score:   func(t *Traits, s *Setting) float64 { return LookFit(t, StandardOf(s.Use.Grade)) },
	Figure: func(s *Setting) told.Sentence {
		std := StandardOf(s.Use.Grade)
		return told.Say("criteria.look", std.Grade.Told(), told.FineMM(std.LeafMM), told.Score(std.ShootDensity))
	},
	Limits: func(t *Traits) told.Sentence {
		return told.Say("criteria.look-limits", told.FineMM(t[LeafMM]), told.Score(t[ShootDensity]))
	},
}

// LookFit is how well a grass by itself has the look that a grade asks for.
func LookFit(t *Traits, std Standard) float64 {
	return bell((t[LeafMM]-std.LeafMM)/std.LeafMM) * bell((std.ShootDensity-t[ShootDensity])/closeHalf)
}
