package species

import "swardwright/internal/told"

var criterionMowing = Criterion{
	ID:      "mowing",
	Means:   told.Say("criteria.mowing-means"),
	Quality: QualityKeep,
	Reads:   []Trait{MowLowMM, MowBestMM, MowHighMM},
	Source:  "membership function of Burrough 1989 on the published range of cuts",
	Score:   func(t *Traits, s *Setting) float64 { return MowingFit(t, s.CutMM, s.shade()) },
	Figure: func(s *Setting) told.Sentence {
		if s.shade() > 0.1 {
			return told.Say("criteria.mowing-shade", told.DepthMM(s.CutMM), told.Share(s.shade()))
		}
		return told.Say("criteria.mowing", told.DepthMM(s.CutMM))
	},
	Limits: func(t *Traits) told.Sentence {
		return told.Say("criteria.mowing-limits", told.DepthMM(t[MowLowMM]), told.Between(told.DepthMM(t[MowBestMM]), told.DepthMM(t[MowHighMM])))
	},
}
