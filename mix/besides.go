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
}

const (
	// asGood is how much less a mixture may score and still be as good: the traits
	// aren't known well enough to tell (inferred from the scores of good mixtures,
	// which lie within 0.01 to 0.03 of each other).
	asGood = 0.005
	// other is how much of a mixture's weight, in units, must be of other grasses for
	// it to count as another one.
	other = 3
	// mostTies is how many mixtures as good are named.
	mostTies = 2
	// tiesTried is how many of the grid's best are followed on more histories for it.
	tiesTried = 30
)

// unlike is how many units of a mixture are of other grasses than another's.
func unlike(a, b shares) (units int) {
	for i := range a {
		units += max(0, int(a[i])-int(b[i]))
	}
	return units
}

// nearTies are mixtures unlike the one found, and each other, that are as good.
func (a *answer) nearTies() []Blend {
	f := a.found
	var near []ranked
	for s, score := range f.coarse.scores {
		if unlike(s, f.shares) >= other && a.problem.allowed(s) {
			near = append(near, ranked{s, score})
		}
	}
	slices.SortFunc(near, better)
	near = near[:min(tiesTried, len(near))]
	least := f.fine.score(f.shares) - asGood
	for i := range near {
		near[i].score = f.fine.score(near[i].shares)
	}
	slices.SortFunc(near, better)
	var kept []shares
	var out []Blend
	for _, r := range near {
		if r.score < least || len(kept) == mostTies {
			break
		}
		if !slices.ContainsFunc(kept, func(k shares) bool { return unlike(k, r.shares) < other }) {
			kept = append(kept, r.shares)
			out = append(out, a.blend(r.shares))
		}
	}
	return out
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
	return Blend{parts, o.cover, o.badCover}
}
