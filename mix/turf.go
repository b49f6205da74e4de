package mix

import (
	"cmp"

	"swardwright/internal/told"
	"swardwright/mix/sward"
	"swardwright/species"
)

// Turf is the kind of turf to ask for, of those that are grown for sale, and what
// becomes of it.
type Turf struct {
	Mixture Mixture // its grasses in about equal parts; nothing of seed
	Holds   bool    // it is likelier to keep the standard planned than not
	Chance  float64
	ShortBy []Shortfall
	Because told.Sentence
}

// laidCover is the cover of turf as it is laid: closed but for its joins (common
// practice, no published source).
const laidCover = 0.95

// turf tries what turf is grown of, each grass by itself and every two together, on
// the zones that are kept; nil where no turf may be laid.
func (a *answer) turf(asked *answer) *Turf {
	var grown []int
	for g, s := range a.pool {
		if s.Is(species.SoldAsTurf) && !(a.use.Livestock && s.Endophyte) {
			grown = append(grown, g)
		}
	}
	var best *outlook
	var of []int
	try := func(grasses ...int) {
		o := a.laid(grasses)
		if best == nil || cmp.Or(cmp.Compare(o.chance, best.chance), cmp.Compare(o.cover, best.cover)) > 0 {
			best, of = o, grasses
		}
	}
	for i, g := range grown {
		try(g)
		for _, h := range grown[i+1:] {
			try(g, h)
		}
	}
	if best == nil {
		return nil
	}
	t := &Turf{Mixture: mixtureOf(best), Holds: best.holds(), Chance: best.chance, Because: a.because(best, asked)}
	for _, g := range of {
		t.Mixture.Components = append(t.Mixture.Components, Component{Species: a.pool[g], Percent: 100 / len(of)})
	}
	if !t.Holds {
		t.ShortBy = best.shortBy(species.StandardOf(a.use.Grade))
	}
	return t
}

// laid follows turf of some grasses in equal parts.
func (a *answer) laid(grasses []int) *outlook {
	standing := make([]float64, len(a.pool))
	for _, g := range grasses {
		standing[g] = laidCover / float64(len(grasses))
	}
	stood := a.ensemble.Standing
	defer func() { a.ensemble.Standing = stood }()
	a.ensemble.Standing = func(int, int) []float64 { return standing }
	return a.outlookOf(&tried{sowing: sward.Sowing{Season: 1}})
}
