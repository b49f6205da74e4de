package mix

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

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
			c.Because = "nothing else may be sown here with more success"
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
	m := Mixture{
		SeedsPerM2: t.density.SeedsPerM2, RateGM2: t.density.RateGM2,
		CoverExpected: o.cover, CoverBadYear: o.badCover, Covers: o.covers,
		EarlyCover: o.early, Evenness: o.even, Score: t.score,
		Sward: o.sward[:],
	}
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

// inPercent is a share in percent, rounded.
func inPercent(x float64) int { return int(math.Round(100 * x)) }

// points is a difference of shares as percentage points, in words.
func points(x float64) string {
	if n := inPercent(x); n != 1 {
		return fmt.Sprintf("%d points", n)
	}
	return "1 point"
}

// reason says what a component is there for: the greatest of its losses, weighed
// as the objective weighs them.
func (a *answer) reason(c *Component, without *tried) string {
	w := a.problem.weights
	type loss struct {
		worth float64
		text  string
	}
	var losses []loss
	cover := func(weight, lost float64, does, when string) {
		if inPercent(lost) > 0 { // a gain that rounds to nothing is no reason
			losses = append(losses, loss{weight * lost, fmt.Sprintf("%s: without it %s less cover %s", does, points(lost), when)})
		}
	}
	cover(w.cover, c.WithoutCover, "it carries the lawn", "from the third season on")
	cover(w.badYear, c.WithoutBadCover, "it stands the bad years", "in one year of ten")
	cover(w.early, c.WithoutEarly, "it is up first and keeps weeds and wash away", "after eight weeks")
	losses = append(losses, []loss{
		{w.fineness * (a.best.fineness - without.fineness), "it makes the fine leaf the grade asks for"},
		{w.evenness * (a.best.evenness - without.evenness), "it keeps the look even"},
		{w.diversity * (a.best.diverse - without.diverse), fmt.Sprintf("it spreads the risk: a pest or disease of one grass leaves the others (chance that two shoots differ: %d %% with it, %d %% without)", inPercent(a.best.diverse), inPercent(without.diverse))},
	}...)
	losses = slices.DeleteFunc(losses, func(l loss) bool { return l.worth < littleWorth })
	slices.SortStableFunc(losses, func(x, y loss) int { return cmp.Compare(y.worth, x.worth) })
	var texts []string
	for i, l := range losses[:min(2, len(losses))] {
		if i == 0 || l.worth > losses[0].worth/3 {
			texts = append(texts, l.text)
		}
	}
	if r := a.problem.practice.ruleFor(c.Species, true); r != nil && without.against > a.best.against {
		texts = append(texts, "public bodies sow it on such ground ("+r.Source+")")
	}
	if len(texts) == 0 {
		return "it is as good here as the others, and two grasses are safer than one"
	}
	return strings.Join(texts, "; ")
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
func (a *answer) whyNot(s *species.Species) string {
	if _, offered := a.lot(s); !offered {
		return "no lot of it is on offer"
	}
	if a.use.Livestock && s.Endophyte {
		return "its seed may carry an endophyte that harms grazing animals"
	}
	at := slices.IndexFunc(a.problem.candidates, func(k candidate) bool { return k.species.ID == s.ID })
	if at < 0 {
		for i := range a.problem.candidates {
			k := candidate{species: s, pool: slices.IndexFunc(a.pool, func(p *species.Species) bool { return p.ID == s.ID }), pls: PureLiveSeed(s, nil), cap: units, price: 1}
			if a.problem.dominates(&a.problem.candidates[i], &k) {
				return fmt.Sprintf("%s does everything here that it does, and better", a.problem.candidates[i].species.Common("en-GB"))
			}
		}
		return "sown alone it does worse here than the grasses tried"
	}
	with := a.best.shares
	with[at] = 2
	rest := units - 2
	for left := units; left > rest; left-- { // two units from the largest
		big := -1
		for i := range with {
			if i != at && (big < 0 || with[i] > with[big]) {
				big = i
			}
		}
		with[big]--
	}
	t := a.trial.try(with)
	w, b := a.problem.weights, a.best
	type change struct {
		worth float64
		text  string
	}
	var changes []change
	lost := func(weight, cover float64, when string) {
		if inPercent(cover) > 0 { // a loss that rounds to nothing is no reason
			changes = append(changes, change{weight * cover, fmt.Sprintf("a tenth of it in place of the main grass would lose %s of cover %s", points(cover), when)})
		}
	}
	lost(w.cover, b.outcome.Expected-t.outcome.Expected, "from the third season on")
	lost(w.badYear, b.outcome.BadYear-t.outcome.BadYear, "in a bad year")
	lost(w.early, b.outcome.Early-t.outcome.Early, "after eight weeks")
	changes = append(changes, []change{
		{w.evenness * (b.evenness - t.evenness), "it would make the look less even"},
		{w.fineness * (b.fineness - t.fineness), "its leaf is too broad for the grade"},
		{w.diversity * (b.diverse - t.diverse), "it would crowd the others out and leave the lawn to one grass"},
		{w.cost * (t.density.RateGM2 - b.density.RateGM2) / dearSeed, "it would only make the seed dearer"},
	}...)
	if r := a.problem.practice.ruleFor(s, false); r != nil {
		changes = append(changes, change{practiceWeight * (t.against - b.against), "public bodies sow little or none of it on such ground (" + r.Source + ")"})
	}
	slices.SortStableFunc(changes, func(x, y change) int { return cmp.Compare(y.worth, x.worth) })
	if !a.problem.allowed(with) {
		return "five grasses, or the cap on its kind, leave no room for it"
	}
	if changes[0].worth < littleWorth {
		return "a tenth of it would change little either way"
	}
	return changes[0].text
}

// littleWorth is a change of score too small to speak of.
const littleWorth = 0.001

// cultivars is what to ask a merchant for, in general words.
func cultivars(components []Component) []string {
	var out []string
	for _, c := range components {
		name := c.Species.Common("en-GB")
		switch {
		case c.Percent >= 40:
			out = append(out, fmt.Sprintf("%s: two to four cultivars in about equal parts, so that a disease of one leaves the rest; ask for turf types high on the current official list for this use", name))
		case c.Percent >= 15:
			out = append(out, fmt.Sprintf("%s: one or two turf cultivars; ask for winter hardiness, disease resistance and close growth", name))
		default:
			out = append(out, fmt.Sprintf("%s: one good turf cultivar is enough", name))
		}
	}
	return out
}
