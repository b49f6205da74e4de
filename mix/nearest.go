package mix

import (
	"math"

	"swardwright/internal/told"
	"swardwright/mix/practice"
)

// NearPractice is a published recommendation for a lawn like the one in hand, with
// where the mixture departs from it.
type NearPractice struct {
	Institution, Title, Year, Place string
	Firm                            bool            // first-hand, with a clear figure
	Likeness                        float64         // of the two lawns, 0 to 1
	Alike                           told.Sentence   // in words
	Sows                            told.Sentence   // what is published
	Shares                          []practice.Band // of it, where it gives shares
	Leads                           []string        // or the kinds of grass that it names first
	Departs                         []told.Sentence // none where the mixture meets it
	Because                         told.Sentence   // why the mixture departs; silent where it meets it
}

// shownPractice is how many recommendations are shown.
const shownPractice = 3

// nearest are the recommendations for the lawns most like this one.
func (a *answer) nearest() []NearPractice {
	parts, _, pool := a.problem.parts(a.best.shares)
	var out []NearPractice
	for _, n := range a.problem.practice.Nearest(shownPractice) {
		near := NearPractice{
			Institution: n.Institution, Title: n.Title, Year: n.Year, Place: n.Place, Firm: n.Firm,
			Likeness: n.Likeness, Alike: n.Alike, Sows: a.published.Sown(n.Row), Shares: n.Sows, Leads: n.Leads,
		}
		if len(n.Any) > 0 {
			near.Shares = n.Any[0]
		}
		for _, d := range a.published.Departures(n.Row, pool, percents(parts)) {
			near.Departs = append(near.Departs, a.departure(d))
		}
		if len(near.Departs) > 0 {
			near.Because = a.whyUnlike(n.Row)
		}
		out = append(out, near)
	}
	return out
}

// departure says how the mixture departs from a recommendation.
func (a *answer) departure(d practice.Departure) told.Sentence {
	grasses, has := a.published.Told(d.Of), told.Share(d.Percent/100)
	switch d.Ask {
	case practice.Lead:
		return told.Say("practice.not-first", grasses)
	case practice.Part:
		return told.Say("practice.without", grasses)
	case practice.Absence:
		return told.Say("practice.with", grasses, has)
	}
	return told.Say("practice.departure", grasses, has, told.Between(told.Share(d.Low/100), told.Share(d.High/100)))
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
