package sowing

import (
	"slices"

	"github.com/samber/lo"

	"swardwright/internal/steady"
	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
)

// Second is what a second mixture, for the lighter or the darker zones by themselves, is
// worth against one for all. Both are ways of the plan, each with its bill.
type Second struct {
	Zones   []job.Zone // that gain most by a mixture of their own
	Cover   float64    // that they gain, 0 to 1
	Chance  float64    // that they gain of keeping the standard
	Lawn    float64    // cover that the lawn gains
	More    money.Amount
	Taken   bool // by the rule
	Because told.Sentence
}

// secondCover is what the zones that gain most by a mixture of their own must gain of cover;
// less is within what the model knows, as for a change of the place (roughPoints). And a
// point of cover must come no dearer by it than in the lawn as a whole: what costs more than
// the rest of the lawn is not worth another lot to order, weigh out and keep apart (our
// judgement).
const secondCover = 0.03

// secondOf weighs the way by two mixtures against that by one; nil where it wasn't planned.
func secondOf(c mix.Choice, ways []Way) *Second {
	one, two := wayOf(ways, job.BySeed), wayOf(ways, job.BySeedApart)
	if one == nil || two == nil {
		return nil
	}
	patch := c.Split.Gains()
	gain := patch.Gain()
	s := &Second{
		Zones: lo.Filter(two.Sown, func(z job.Zone, _ int) bool { return slices.Contains(patch.Zones, z.Index) }),
		Cover: gain.Cover, Chance: gain.Chance, Lawn: c.Split.Mixture.CoverExpected - c.Mixture.CoverExpected,
		More: money.Amount{Minor: two.Bill.Total.Minor - one.Bill.Total.Minor, Currency: one.Bill.Total.Currency},
	}
	fair := float64(s.More.Minor)*c.Mixture.CoverExpected <= float64(one.Bill.Total.Minor)*s.Lawn
	enough := steady.Round(s.Cover, 2) >= secondCover // as it is told
	late := one.InTime && !two.InTime
	s.Taken = enough && fair && !late
	s.Because = s.because(enough, late)
	return s
}

// Allows tells whether a way may be chosen.
func (s *Second) Allows(k job.Way) bool {
	switch k {
	case job.BySeed:
		return s == nil || !s.Taken
	case job.BySeedApart:
		return s != nil && s.Taken
	}
	return true
}

// because says the rule with both figures.
func (s *Second) because(enough, late bool) told.Sentence {
	zones, points := job.Named(s.Zones), told.Points(s.Cover)
	more := told.Say("job.for-more", told.MoneyRound(s.More))
	if s.More.Minor < 0 {
		more = told.Say("job.for-less", told.MoneyRound{Minor: -s.More.Minor, Currency: s.More.Currency})
	}
	switch {
	case s.Taken:
		return told.Say("job.second-taken", zones, points, more)
	case enough && late:
		return told.Say("job.second-late", zones, points, more)
	case enough:
		return told.Say("job.second-dear", zones, points, more)
	}
	return told.Say("job.second-little", zones, points, more)
}
