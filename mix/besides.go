package mix

import (
	"cmp"
	"slices"

	"swardwright/mix/practice"
)

// Blend is a mixture that was not chosen, in short.
type Blend struct {
	Parts                       []Part // greatest first
	CoverExpected, CoverBadYear float64
	Ahead                       float64 // share of the lawns that this one may be on which it covers more than the one chosen
}

// alone is what the model would sow by itself, without published caps and
// practice, sought from the mixture found; nil when that is much the same.
func (a *answer) alone() *Blend {
	f := a.found
	free := *a.problem
	free.uncapped, free.practice = true, &practice.Prior{}
	t := free.trial(coarseHistories)
	at := t.climb(ranked{f.shares, t.score(f.shares)})
	if unlike(at.shares, f.shares) < other {
		return nil
	}
	b := a.blend(at.shares)
	return &b
}

func (a *answer) blend(s shares) Blend {
	t := a.trial.try(s)
	o := a.outlookOf(&t)
	parts, _, _ := a.problem.parts(s)
	slices.SortStableFunc(parts, func(x, y Part) int { return cmp.Compare(y.Percent, x.Percent) })
	ahead := 0
	for i, x := range o.covers {
		if x > a.outlook.covers[i] {
			ahead++
		}
	}
	return Blend{parts, o.cover, o.badCover, float64(ahead) / float64(len(o.covers))}
}
