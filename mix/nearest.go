package mix

import (
	"math"

	"swardwright/internal/told"
	"swardwright/mix/practice"
)

// NearPractice is a published recommendation for a lawn like the one in hand, with
// where the mixture departs from it.
type NearPractice struct {
	practice.Near
	Sows    told.Sentence
	Departs []told.Sentence // none where the mixture meets it
	Because told.Sentence   // why the mixture departs; silent where it meets it
}

// shownPractice is how many recommendations are shown.
const shownPractice = 3

// nearest are the recommendations for the lawns most like this one.
func (a *answer) nearest() []NearPractice {
	parts, _, pool := a.problem.parts(a.best.shares)
	var out []NearPractice
	for _, n := range a.problem.practice.Nearest(shownPractice) {
		near := NearPractice{Near: n, Sows: a.published.Sown(n.Row)}
		for _, d := range a.published.Departures(n.Row, pool, percents(parts)) {
			near.Departs = append(near.Departs, told.Say("practice.departure", a.published.Told(d.Of), told.Share(d.Percent/100), told.Between(told.Share(d.Low/100), told.Share(d.High/100))))
		}
		if len(near.Departs) > 0 {
			near.Because = a.whyUnlike(n.Row)
		}
		out = append(out, near)
	}
	return out
}

// whyUnlike says what would come of the mixture changed to meet a recommendation.
func (a *answer) whyUnlike(r *practice.Row) told.Sentence {
	as := a.toward(r)
	parts, _, pool := a.problem.parts(as)
	if len(a.published.Departures(r, pool, percents(parts))) > 0 {
		return told.Say("practice.not-to-be-had")
	}
	t := a.trial.try(as)
	for _, lost := range []struct {
		cover float64
		name  func(told.Points) told.Sentence
	}{
		{a.best.outcome.Expected - t.outcome.Expected, func(p told.Points) told.Sentence { return told.Say("practice.less-cover", p) }},
		{a.best.outcome.BadYear - t.outcome.BadYear, func(p told.Points) told.Sentence { return told.Say("practice.less-in-bad-years", p) }},
		{a.best.outcome.Early - t.outcome.Early, func(p told.Points) told.Sentence { return told.Say("practice.less-early", p) }},
	} {
		if inPercent(lost.cover) > 0 { // less rounds to nothing
			return lost.name(told.Points(lost.cover))
		}
	}
	if a.best.against < t.against {
		return told.Say("practice.others-sow-otherwise")
	}
	return told.Say("practice.as-well")
}

// toward is the mixture changed, a step at a time, until it meets a recommendation or
// no step brings it nearer.
func (a *answer) toward(r *practice.Row) shares {
	at := a.best.shares
	amiss := func(s shares) float64 {
		parts, _, pool := a.problem.parts(s)
		return a.published.Amiss(r, pool, percents(parts))
	}
	for now := amiss(at); now > 0; {
		next, least := at, math.Inf(1)
		for i := range a.problem.candidates {
			for j := range a.problem.candidates {
				if i == j || at[i] == 0 {
					continue
				}
				s := at
				s[i]--
				s[j]++
				if x := amiss(s); a.problem.allowed(s) && x < least {
					next, least = s, x
				}
			}
		}
		if least >= now {
			break
		}
		at, now = next, least
	}
	return at
}
