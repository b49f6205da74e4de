package mix

import (
	"slices"
	"strconv"

	"swardwright/internal/told"
	"swardwright/species"
)

const (
	// goodAs is the score, over the best mixture's, from which a bag is as good.
	goodAs = 0.97
	// topUpStep is the step of a top-up, g for each kilogram of the bag.
	topUpStep = 50.0
	topUpMost = 1000.0
)

// premix judges a ready-mixed bag by the same model, and finds the top-up that
// mends it best.
func (a *answer) premix(p Premix) Judged {
	out := Judged{Premix: p}
	if len(a.problem.field.Zones) == 0 {
		out.Verdict = told.Say("mix.bag-nor-any")
		return out
	}
	bag, ok := a.bag(p, nil, 0)
	if !ok {
		out.Verdict = told.Say("mix.bag-unknown")
		return out
	}
	out.Mixture = a.describeBag(&bag, p)
	out.TopUpScore = bag.score
	best := 0.0
	if a.best != nil {
		best = a.best.score
	}
	if bag.score >= goodAs*best {
		out.Verdict = told.Say("mix.bag-as-good", told.Score(bag.score), told.Score(best))
		return out
	}
	var mend *candidate
	var grams float64
	quick := a.problem.trial(fineHistories)
	for i := range a.problem.candidates {
		k := &a.problem.candidates[i]
		for g := topUpStep; g <= topUpMost; g *= 2 {
			t, _ := quick.bag(a, p, k.species, g)
			if t.score > out.TopUpScore+minGain {
				out.TopUpScore, mend, grams = t.score, k, g
			}
		}
	}
	if mend == nil {
		out.Verdict = told.Say("mix.bag-falls-short", told.Score(bag.score), told.Score(best))
		return out
	}
	mended, _ := a.bag(p, mend.species, grams)
	out.TopUpScore = mended.score
	out.TopUp = []TopUp{{Species: mend.species, GramsPerKG: grams}}
	out.Verdict = told.Say("mix.bag-topped-up", told.Score(bag.score), told.Score(best), told.Score(mended.score))
	return out
}

// bag follows a bag through all years, with grams of another grass added to each
// kilogram; ok is false when it holds nothing known.
func (a *answer) bag(p Premix, add *species.Species, grams float64) (r tried, ok bool) {
	return a.trial.bag(a, p, add, grams)
}

func (t *trial) bag(a *answer, p Premix, add *species.Species, grams float64) (tried, bool) {
	parts, pool := a.contents(p, add, grams)
	if len(parts) == 0 {
		return tried{}, false
	}
	var pls []float64
	for _, x := range parts {
		pls = append(pls, PureLiveSeed(x.Species, nil))
	}
	return t.judge(parts, pls, pool, 1, shares{}), true
}

// contents are the grasses of a bag in the order of the pool, one entry each, in
// percent of the whole with what is added.
func (a *answer) contents(p Premix, add *species.Species, grams float64) (parts []Part, pool []int) {
	percent := make([]float64, len(a.pool))
	put := func(s *species.Species, x float64) {
		if g := slices.IndexFunc(a.pool, func(o *species.Species) bool { return o.ID == s.ID }); g >= 0 {
			percent[g] += x
		}
	}
	for _, x := range p.Parts {
		put(x.Species, x.Percent*1000/(1000+grams))
	}
	if add != nil {
		put(add, 100*grams/(1000+grams))
	}
	for g, x := range percent {
		if x > 0 {
			parts = append(parts, Part{a.pool[g], x})
			pool = append(pool, g)
		}
	}
	return parts, pool
}

// describeBag is a bag in the plan's form; its parts need not be in 5 % steps.
func (a *answer) describeBag(t *tried, p Premix) Mixture {
	m := a.describe(t, a.outlookOf(t))
	parts, pool := a.contents(p, nil, 0)
	for i, x := range parts {
		m.Components = append(m.Components, Component{
			Species: a.pool[pool[i]], Percent: int(x.Percent + 0.5),
			SeedPercent: 100 * t.density.Viable[i] / max(1, t.density.SeedsPerM2),
		})
	}
	slices.SortStableFunc(m.Components, func(x, y Component) int { return y.Percent - x.Percent })
	return m
}

// relativePrices sets each candidate's price over that of ryegrass: by what is
// usual, and for lots with a price by it, the mean of them taken as usual.
func relativePrices(list []candidate) {
	var asked, usual float64
	price := make([]float64, len(list))
	for i := range list {
		k := &list[i]
		k.price = k.species.Values[species.SeedPrice].Best
		if k.lot == nil {
			continue
		}
		if v, err := strconv.ParseFloat(k.lot.PricePerKG, 64); err == nil && v > 0 {
			price[i] = v
			asked += v
			usual += k.price
		}
	}
	for i := range list {
		if price[i] > 0 {
			list[i].price = price[i] * usual / asked
		}
	}
}
