package mix

import (
	"math"
	"slices"

	"github.com/samber/lo"
)

const (
	// asGood is how much less a mixture may score and still be as good: the traits
	// aren't known well enough to tell (inferred from the scores of good mixtures,
	// which lie within 0.01 to 0.03 of each other).
	asGood = 0.005
	// mayLead is how much less a mixture may score and still come out ahead with half an
	// hour of sun more or less: another grass may then lead (measured on the lawns of
	// TestSteady).
	mayLead = 0.010
	// mayContend is how much less the best mixture that another grass leads may score and
	// still be looked at lawn by lawn: beyond it few lawns would have it (measured on the
	// lawns of TestSteady).
	mayContend = 0.04
	// other is how much of a mixture's weight, in units, must be of other grasses for
	// it to count as another one.
	other = 3
	// mostTies is how many mixtures as good are named.
	mostTies = 3
	// tiesTried is how many of the grid's best are followed on more histories for it.
	tiesTried = 30
	// rivalsTried is how many of the best that one grass leads are.
	rivalsTried = 5
)

// unlike is how many units of a mixture are of other grasses than another's.
func unlike(a, b shares) (units int) {
	for i := range a {
		units += max(0, int(a[i])-int(b[i]))
	}
	return units
}

// leads says whether a candidate has at least as large a share of a mixture as any other.
func (s shares) leads(candidate int) bool {
	return s[candidate] > 0 && s[candidate] == slices.Max(s[:])
}

// rivals are the best mixtures led by each grass but those that lead the one found, best
// first, on as many histories as the last refinement.
func (a *answer) rivals(f *found) []ranked {
	var out []ranked
	for i := range a.problem.candidates {
		if !f.shares.leads(i) {
			led := a.closest(f, rivalsTried, func(s shares) bool { return s.leads(i) })
			out = append(out, led[:min(1, len(led))]...)
		}
	}
	slices.SortFunc(out, better)
	return out
}

// closest are the best mixtures of some kind that the search met, best first: the most of
// them by the few histories of the grid, ranked on more.
func (a *answer) closest(f *found, most int, kind func(shares) bool) []ranked {
	var near []ranked
	for s, score := range f.coarse.scores {
		if kind(s) && a.problem.allowed(s) {
			near = append(near, ranked{s, score})
		}
	}
	slices.SortFunc(near, better)
	near = near[:min(most, len(near))]
	for i := range near {
		near[i].score = f.fine.score(near[i].shares)
	}
	slices.SortFunc(near, better)
	return near
}

// settle lets all histories decide where some of them say that another grass might as
// well lead.
func (a *answer) settle(f *found) {
	if f.fine == nil {
		return
	}
	best := ranked{f.shares, math.NaN()}
	least := f.fine.score(f.shares) - asGood
	for _, r := range a.rivals(f) {
		if r.score < least {
			break
		}
		if math.IsNaN(best.score) {
			best.score = a.trial.score(best.shares)
		}
		if r.score = a.trial.score(r.shares); better(r, best) < 0 {
			best = r
		}
	}
	f.shares = best.shares
}

// nearTies are mixtures that are as good: the best that other grasses lead, where they
// may come out ahead on a lawn that nobody could tell from this one, and such as are unlike
// the one found and each other.
func (a *answer) nearTies(rivals []ranked) []Blend {
	f := a.found
	at := f.fine.score(f.shares)
	var kept []shares
	for _, r := range rivals {
		if r.score >= at-mayLead && len(kept) < mostTies {
			kept = append(kept, r.shares)
		}
	}
	for _, r := range a.closest(f, tiesTried, func(s shares) bool { return unlike(s, f.shares) >= other }) {
		if r.score < at-asGood || len(kept) == mostTies {
			break
		}
		if !slices.ContainsFunc(kept, func(k shares) bool { return unlike(k, r.shares) < other }) {
			kept = append(kept, r.shares)
		}
	}
	out := make([]Blend, len(kept))
	for i, s := range kept {
		out[i] = a.blend(s)
	}
	return out
}

// leadsOn is on how many of the lawns that this one may be, by its light and the traits of
// the grasses, the best mixture is led by the grass that leads the one found. What a lawn's
// cover is over the mean of lawns counts there as much as cover counts in the score.
func (a *answer) leadsOn(rivals []ranked) float64 {
	f := a.found
	at := f.fine.score(f.shares)
	own := a.onEachLawn(at, a.outlook.covers)
	ahead := slices.Repeat([]bool{true}, len(own))
	for _, r := range rivals {
		if r.score < at-mayContend {
			break
		}
		t := f.fine.try(r.shares)
		for i, x := range a.onEachLawn(r.score, a.ensemble.Follow(&t.sowing).Cover) {
			ahead[i] = ahead[i] && own[i] >= x
		}
	}
	return float64(lo.Count(ahead, true)) / float64(len(ahead))
}

// onEachLawn is a mixture's score lawn by lawn.
func (a *answer) onEachLawn(score float64, covers []float64) []float64 {
	w := a.problem.weights
	mean := lo.Mean(covers)
	return lo.Map(covers, func(c float64, _ int) float64 { return score + float64((w.cover+w.young+w.badYear)*(c-mean)) })
}
