package mix

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"swardwright/internal/told"
	"swardwright/species"
)

// mixture is the answer as the plan shows it.
func (a *answer) mixture() Mixture {
	m := a.describe(a.best, a.outlook)
	for i := range m.Components {
		c := &m.Components[i]
		var without shares
		rest := 0
		for k, u := range a.best.shares {
			if a.problem.candidates[max(0, min(k, len(a.problem.candidates)-1))].species != c.Species {
				without[k] = u
				rest += int(u)
			}
		}
		if rest == 0 {
			c.Because = told.Say("mix.nothing-better")
			continue
		}
		t := a.trial.try(scaled(without, rest))
		c.WithoutCover = a.best.outcome.Expected - t.outcome.Expected
		c.WithoutBadCover = a.best.outcome.BadYear - t.outcome.BadYear
		c.WithoutEarly = a.best.outcome.Early - t.outcome.Early
		c.Because = a.reason(c, &t)
	}
	return m
}

// scaled is a mixture of rest units brought to a whole, larger remainders first.
func scaled(s shares, rest int) shares {
	var out shares
	type part struct{ i, remainder int }
	var parts []part
	left := units
	for i, u := range s {
		if u > 0 {
			out[i] = uint8(int(u) * units / rest)
			left -= int(out[i])
			parts = append(parts, part{i, int(u) * units % rest})
		}
	}
	slices.SortStableFunc(parts, func(a, b part) int { return b.remainder - a.remainder })
	for k := 0; left > 0; k++ {
		out[parts[k%len(parts)].i]++
		left--
	}
	return out
}

// describe turns a tried mixture into the plan's form.
func (a *answer) describe(t *tried, o *outlook) Mixture {
	m := mixtureOf(o)
	m.SeedsPerM2, m.RateGM2, m.Score = t.density.SeedsPerM2, t.density.RateGM2, t.score
	k := 0
	for i, u := range t.shares {
		if u > 0 {
			m.Components = append(m.Components, Component{
				Species: a.problem.candidates[i].species, Percent: int(u) * stepPercent,
				SeedPercent: 100 * t.density.Viable[k] / max(1, t.density.SeedsPerM2),
			})
			k++
		}
	}
	slices.SortStableFunc(m.Components, func(x, y Component) int { return y.Percent - x.Percent })
	return m
}

// mixtureOf is a mixture by what becomes of it.
func mixtureOf(o *outlook) Mixture {
	return Mixture{CoverExpected: o.cover, CoverBadYear: o.badCover, Covers: o.covers, EarlyCover: o.early, Evenness: o.even, Sward: o.sward[:]}
}

// inPercent is a share in percent, rounded.
func inPercent(x float64) int { return int(math.Round(100 * x)) }

// EarlyWeeks of growth after which the early cover is told.
const EarlyWeeks = 8

// reason says what a component is there for: the greatest of its losses, weighed
// as the objective weighs them.
func (a *answer) reason(c *Component, without *tried) told.Sentence {
	w := a.problem.weights
	type loss struct {
		worth float64
		said  told.Sentence
	}
	var losses []loss
	cover := func(weight, lost float64, said told.Sentence) {
		if inPercent(lost) > 0 { // a gain that rounds to nothing is no reason
			losses = append(losses, loss{weight * lost, said})
		}
	}
	cover(w.cover, c.WithoutCover, told.Say("mix.carries", told.Points(c.WithoutCover)))
	cover(w.badYear, c.WithoutBadCover, told.Say("mix.stands-bad-years", told.Points(c.WithoutBadCover)))
	cover(w.early, c.WithoutEarly, told.Say("mix.up-first", told.Points(c.WithoutEarly), told.Weeks(EarlyWeeks)))
	losses = append(losses, []loss{
		{w.fineness * (a.best.fineness - without.fineness), told.Say("mix.fine-leaf")},
		{w.evenness * (a.best.evenness - without.evenness), told.Say("mix.even-look")},
		{w.diversity * (a.best.diverse - without.diverse), told.Say("mix.spreads-risk")},
	}...)
	losses = slices.DeleteFunc(losses, func(l loss) bool { return l.worth < littleWorth })
	slices.SortStableFunc(losses, func(x, y loss) int { return cmp.Compare(y.worth, x.worth) })
	var said []told.Sentence
	for i, l := range losses[:min(2, len(losses))] {
		if i == 0 || l.worth > losses[0].worth/3 {
			said = append(said, l.said)
		}
	}
	if r := a.problem.practice.RuleFor(c.Species, true); r != nil && without.against > a.best.against {
		said = append(said, told.Say("mix.practice-sows", told.Source(r.Source)))
	}
	if len(said) == 0 {
		return told.Say("mix.safer-than-one")
	}
	return told.Say("mix.one", told.Joined(told.Clauses, said...))
}

// leftOut names the leading species of the matrix that are not in the mixture,
// with what a tenth of each would change.
func (a *answer) leftOut() []LeftOut {
	var out []LeftOut
	leaders := a.leaders(leading)
	if leaders == nil {
		for _, k := range a.problem.candidates[:min(leading, len(a.problem.candidates))] {
			leaders = append(leaders, k.species)
		}
	}
	for _, s := range leaders {
		if slices.ContainsFunc(a.best.parts(a.problem), func(p Part) bool { return p.Species.ID == s.ID }) {
			continue
		}
		out = append(out, LeftOut{s, a.whyNot(s)})
	}
	return out
}

// leading is how many species of a matrix count as its leaders.
const leading = 6

// leaders are the species that rate best over the zones by area, so many; none
// without a matrix.
func (j job) leaders(most int) []*species.Species {
	if len(j.matrix.Rows) == 0 {
		return nil
	}
	overall := map[string]float64{}
	for _, r := range j.matrix.Rows {
		if r.Zone < len(j.site.Zones) {
			overall[r.Species.ID] += j.site.Zones[r.Zone].Share * r.Overall
		}
	}
	list := slices.DeleteFunc(slices.Clone(j.pool), func(s *species.Species) bool { return !s.ForLawns() })
	slices.SortStableFunc(list, func(x, y *species.Species) int {
		return cmp.Or(cmp.Compare(overall[y.ID], overall[x.ID]), strings.Compare(x.ID, y.ID))
	})
	return list[:min(most, len(list))]
}

func (t *tried) parts(p *problem) []Part {
	parts, _, _ := p.parts(t.shares)
	return parts
}

// whyNot says why a species isn't in the mixture.
func (a *answer) whyNot(s *species.Species) told.Sentence {
	if _, offered := a.lot(s); !offered {
		return told.Say("mix.not-on-offer")
	}
	if a.use.Livestock && s.Is(species.LeftUneaten) {
		return told.Say("mix.uneaten")
	}
	at := slices.IndexFunc(a.problem.candidates, func(k candidate) bool { return k.species.ID == s.ID })
	if at < 0 {
		return a.whyNotTried(s)
	}
	with := a.best.shares.withTwo(at)
	t := a.trial.try(with)
	w, b := a.problem.weights, a.best
	type change struct {
		worth float64
		said  told.Sentence
	}
	var changes []change
	lost := func(weight, cover float64, said told.Sentence) {
		if inPercent(cover) > 0 { // a loss that rounds to nothing is no reason
			changes = append(changes, change{weight * cover, said})
		}
	}
	cover, bad, early := b.outcome.Expected-t.outcome.Expected, b.outcome.BadYear-t.outcome.BadYear, b.outcome.Early-t.outcome.Early
	lost(w.cover, cover, told.Say("mix.would-lose", told.Points(cover)))
	lost(w.badYear, bad, told.Say("mix.would-lose-bad", told.Points(bad)))
	lost(w.early, early, told.Say("mix.would-lose-early", told.Points(early), told.Weeks(EarlyWeeks)))
	changes = append(changes, []change{
		{w.evenness * (b.evenness - t.evenness), told.Say("mix.less-even")},
		{w.fineness * (b.fineness - t.fineness), told.Say("mix.too-broad")},
		{w.diversity * (b.diverse - t.diverse), told.Say("mix.crowds-out")},
		{w.cost * (t.density.RateGM2 - b.density.RateGM2) / dearSeed, told.Say("mix.dearer")},
	}...)
	if r := a.problem.practice.RuleFor(s, false); r != nil {
		changes = append(changes, change{practiceWeight * (t.against - b.against), told.Say("mix.practice-leaves", told.Source(r.Source))})
	}
	slices.SortStableFunc(changes, func(x, y change) int { return cmp.Compare(y.worth, x.worth) })
	if !a.problem.allowed(with) {
		return told.Say("mix.no-room")
	}
	if changes[0].worth < littleWorth {
		return told.Say("mix.changes-little")
	}
	return changes[0].said
}

// whyNotTried says why a species is no candidate.
func (a *answer) whyNotTried(s *species.Species) told.Sentence {
	k := candidate{species: s, pool: slices.IndexFunc(a.pool, func(p *species.Species) bool { return p.ID == s.ID }), pls: PureLiveSeed(s, nil), cap: units, price: 1}
	for i := range a.problem.candidates {
		if better := &a.problem.candidates[i]; a.problem.dominates(better, &k) {
			return told.Say("mix.dominated", told.Grass(better.species.ID))
		}
	}
	return told.Say("mix.worse-alone")
}

// withTwo is a mixture with two units of a candidate that isn't in it, taken from the
// largest.
func (s shares) withTwo(at int) shares {
	s[at] = 2
	for range 2 {
		big := -1
		for i := range s {
			if i != at && (big < 0 || s[i] > s[big]) {
				big = i
			}
		}
		s[big]--
	}
	return s
}

// littleWorth is a change of score too small to speak of.
const littleWorth = 0.001

// cultivars is what to ask a merchant for, in general words.
func cultivars(components []Component) []told.Sentence {
	var out []told.Sentence
	for _, c := range components {
		name := told.Grass(c.Species.ID)
		switch {
		case c.Percent >= 40:
			out = append(out, told.Say("mix.cultivars-many", name))
		case c.Percent >= 15:
			out = append(out, told.Say("mix.cultivars-few", name))
		default:
			out = append(out, told.Say("mix.cultivars-one", name))
		}
	}
	return out
}
