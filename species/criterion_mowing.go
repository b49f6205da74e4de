package species

import "fmt"

var criterionMowing = Criterion{
	ID:      "mowing",
	Title:   "Height of cut",
	Means:   "whether it bears the height it will be cut at, which in shade must be higher",
	Quality: QualityKeep,
	Reads:   []Trait{MowLowMM, MowBestMM, MowHighMM},
	Source:  "membership function of Burrough 1989 on the published range of cuts",
	Score:   func(t *Traits, s *Setting) float64 { return MowingFit(t, s.CutMM, s.shade()) },
	Figure: func(s *Setting) string {
		f := fmt.Sprintf("cut at %.0f mm", s.CutMM)
		if s.shade() > 0.1 {
			f += fmt.Sprintf(" in %.0f %% shade", 100*s.shade())
		}
		return f
	},
	Limits: func(t *Traits) string {
		return fmt.Sprintf("in sun bears %.0f mm, at its best from %.0f to %.0f mm", t[MowLowMM], t[MowBestMM], t[MowHighMM])
	},
}
