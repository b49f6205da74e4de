package mix

import (
	"cmp"
	"slices"

	"github.com/samber/lo"

	"swardwright/internal/steady"
	"swardwright/internal/told"
	"swardwright/mix/practice"
	"swardwright/mix/sward"
	"swardwright/species"
)

// Split is a lawn sown with two mixtures, each in zones of its own, lighter ones first.
// Grasses of one mixture sort themselves out by light as it is, so that a second mixture
// seldom brings much; where it does, the one for all is a compromise between grasses for
// sun and grasses for shade. Public bodies name a mixture for each: University of Illinois,
// Suggested lawn mixes for northern Illinois; University of Minnesota, Establishing a new
// lawn; Washington State University, Plant lawn seed now. That a lawn which has both is sown
// with both is common practice, no published source.
type Split struct {
	Patches [2]Patch
	Mixture Mixture // of the two together, over the lawn: its shares are of all seed
	Zones   []ZoneVerdict
	Holds   bool
	Chance  float64
	ShortBy []Shortfall
	Because told.Sentence
}

// Patch is what becomes of some zones by a mixture of their own, and by the one for all.
type Patch struct {
	Zones   []int   // of the site
	Share   float64 // of what is sown
	Mixture Mixture // with what becomes of it there
	Chance  float64 // that these zones keep the standard
	Common  Likely  // the same of the one mixture for all
}

// Likely is what a mixture comes to.
type Likely struct{ Cover, Chance float64 }

// Gain is what the patch gains by a mixture of its own.
func (p *Patch) Gain() Likely {
	return Likely{p.Mixture.CoverExpected - p.Common.Cover, p.Chance - p.Common.Chance}
}

// Gains is the patch that gains most cover by a mixture of its own.
func (s *Split) Gains() *Patch {
	if s.Patches[1].Gain().Cover >= s.Patches[0].Gain().Cover {
		return &s.Patches[1]
	}
	return &s.Patches[0]
}

// In is the patch that a zone lies in; nil where nothing is sown.
func (s *Split) In(zone int) *Patch {
	for i := range s.Patches {
		if slices.Contains(s.Patches[i].Zones, zone) {
			return &s.Patches[i]
		}
	}
	return nil
}

// leastLotG is the seed that a mixture must take at least to be a lot of its own: less is
// not worth another bag to weigh, keep apart and store (common practice, no published source).
const leastLotG = 500.0

// worthTrying is the cover that a rough search must find for some zones by a mixture of
// their own, and worthTelling what they must gain in the end: less than two points, as it is
// told, is not worth another way to choose from (our judgement).
const worthTrying, worthTelling = 0.01, 0.015

// split looks for two mixtures in place of the one found: the zones in which grass may hold
// are parted once in the order of their light, where the lawn gains most. There is none where
// a part is too small for a lot of its own, where no part would gain by it, and where the lawn
// would be the less likely to keep its standard.
func (a *answer) split(asked *answer) *Split {
	if a.task.Overseed || a.task.Known != nil {
		return nil
	}
	order := a.byLight()
	var best []*part
	most := 0.0
	for cut := 1; cut < len(order); cut++ {
		parts := []*part{a.part(order[:cut]), a.part(order[cut:])}
		if parts[0].seedG < leastLotG || parts[1].seedG < leastLotG {
			continue
		}
		if !parts[0].promises(a.best.shares) && !parts[1].promises(a.best.shares) {
			continue
		}
		for _, p := range parts {
			p.look(a.best.shares)
		}
		gain := parts[0].share*parts[0].gain + parts[1].share*parts[1].gain
		if max(parts[0].gain, parts[1].gain) >= worthTrying && gain > most {
			most, best = gain, parts
		}
	}
	if best == nil {
		return nil
	}
	for _, p := range best {
		p.fine()
	}
	s := a.together(best, asked)
	if s.Gains().Gain().Cover < worthTelling || s.Chance < a.outlook.chance {
		return nil
	}
	return s
}

// byLight are the zones that are sown, the lightest first.
func (a *answer) byLight() []int {
	kept := lo.Filter(lo.Range(len(a.zones)), func(i, _ int) bool { return a.zones[i].kept })
	slices.SortStableFunc(kept, func(x, y int) int {
		return cmp.Compare(a.site.Zones[y].Light.DLISeason, a.site.Zones[x].Light.DLISeason)
	})
	return kept
}

// part is a part of the lawn that a mixture is sought for, as a lawn of its own, among the
// grasses that were tried for the whole.
type part struct {
	answer         // its outlook is over the part's zones
	of     []int   // the zones of the site
	share  float64 // of what is sown
	seedG  float64 // that the mixture for all takes there
	gain   float64 // of expected cover, by the search, over the mixture for all
}

// part is that of some of the zones that are sown.
func (a *answer) part(zones []int) *part {
	p := &part{answer: answer{job: a.job, ensemble: a.ensemble, zones: a.zones}, of: slices.Clone(zones)}
	p.site = a.site.Only(zones...)
	area := func(zones []int) float64 {
		return lo.SumBy(zones, func(z int) float64 { return a.site.Zones[z].Share })
	}
	p.share = area(zones) / area(a.byLight())
	p.seedG = area(zones) * a.site.AreaM2 * a.best.density.RateGM2
	problem := *a.problem
	problem.field = a.fieldOf(zones)
	problem.practice = p.published.On(practice.LawnOf(p.site.AsPublished(), p.use, p.asked, p.task.cover()))
	p.problem = &problem
	return p
}

// fieldOf is the field of some of the zones that are sown.
func (a *answer) fieldOf(zones []int) *sward.Field {
	f := *a.problem.field
	f.Zones = nil
	area, next := 0.0, 0
	for i, z := range a.zones {
		if !z.kept {
			continue
		}
		if slices.Contains(zones, i) {
			f.Zones = append(f.Zones, a.problem.field.Zones[next])
			area += f.Zones[len(f.Zones)-1].Share
		}
		next++
	}
	for i := range f.Zones {
		f.Zones[i].Share /= area
	}
	return &f
}

// promises tells whether any one grass, in place of a quarter, half or all of the mixture
// for all, does the part as much good as makes a search worth while: a quick test, which
// most lawns fail.
func (p *part) promises(common shares) bool {
	t := p.problem.trial(coarseHistories)
	was := t.try(common)
	for i := range p.problem.candidates {
		for _, u := range [...]int{units / 4, units / 2, units} {
			s := common.with(i, u)
			if !p.problem.allowed(s) {
				continue
			}
			if r := t.try(s); r.score >= was.score && r.outcome.Expected >= was.outcome.Expected+worthTrying {
				return true
			}
		}
	}
	return false
}

// with is a mixture of which so many units are given to one candidate.
func (s shares) with(at, given int) (out shares) {
	left := units
	for i, u := range s {
		out[i] = uint8(int(u) * (units - given) / units)
		left -= int(out[i])
	}
	out[at] += uint8(left)
	return out
}

// look improves a mixture for the part on few histories; fine does on more what was found.
func (p *part) look(common shares) {
	coarse := p.problem.trial(coarseHistories)
	at := coarse.climb(ranked{common, coarse.score(common)})
	fine := p.problem.trial(fineHistories)
	fine.wide, fine.sieve = true, coarse
	p.found = &found{at.shares, coarse, fine}
	p.gain = fine.try(at.shares).outcome.Expected - fine.try(common).outcome.Expected
}

func (p *part) fine() {
	f := p.found
	f.shares = f.fine.climb(ranked{f.shares, f.fine.score(f.shares)}).shares
	p.trial = p.problem.trial(p.problem.field.Years)
	own := p.trial.try(f.shares)
	p.best = &own
}

// together is the lawn that two parts make, each with its mixture.
func (a *answer) together(parts []*part, asked *answer) *Split {
	s := new(Split)
	var fates []sward.Fates
	var areas []float64
	for i, p := range parts {
		a.ensemble.Sow(p.of)
		f := a.ensemble.Follow(&p.best.sowing)
		p.outlook = p.fates(f)
		common := p.fates(a.ensemble.Follow(&a.best.sowing))
		s.Patches[i] = Patch{Zones: p.of, Share: p.share, Mixture: p.mixture(), Chance: p.outlook.chance, Common: Likely{common.cover, common.chance}}
		fates, areas = append(fates, f), append(areas, p.share)
	}
	a.ensemble.Sow(a.byLight())
	both := *a
	both.outlook = a.fates(sward.Together(fates, areas))
	s.Mixture = s.mixture(both.outlook)
	s.Zones = both.verdicts()
	s.Because = a.because(both.outlook, asked)
	s.Holds, s.Chance = both.outlook.holds(), both.outlook.chance
	if !s.Holds {
		s.ShortBy = both.outlook.shortBy(species.StandardOf(a.use.Grade))
	}
	return s
}

// mixture is that of the lawn: every grass by its share of all seed.
func (s *Split) mixture(o *outlook) Mixture {
	m := mixtureOf(o)
	m.Apart = true
	for i := range s.Patches {
		p := &s.Patches[i]
		m.RateGM2 += p.Share * p.Mixture.RateGM2
		m.SeedsPerM2 += p.Share * p.Mixture.SeedsPerM2
		m.Score += p.Share * p.Mixture.Score
	}
	var exact []float64
	for i := range s.Patches {
		p := &s.Patches[i]
		for _, c := range p.Mixture.Components {
			at := slices.IndexFunc(m.Components, func(x Component) bool { return x.Species == c.Species })
			if at < 0 {
				at = len(m.Components)
				m.Components, exact = append(m.Components, Component{Species: c.Species, Because: c.Because}), append(exact, 0)
			}
			exact[at] += float64(c.Percent) * p.Share * p.Mixture.RateGM2 / m.RateGM2
			m.Components[at].SeedPercent += c.SeedPercent * p.Share * p.Mixture.SeedsPerM2 / m.SeedsPerM2
		}
	}
	for i, n := range wholePercents(exact) {
		m.Components[i].Percent = n
	}
	slices.SortStableFunc(m.Components, func(x, y Component) int { return y.Percent - x.Percent })
	return m
}

// wholePercents rounds shares that add up to a hundred so that they still do: the largest
// remainders up, and none to nothing.
func wholePercents(exact []float64) []int {
	out, left := make([]int, len(exact)), 100
	for i, x := range exact {
		out[i] = max(1, int(x))
		left -= out[i]
	}
	order := lo.Range(len(exact))
	slices.SortStableFunc(order, func(i, j int) int {
		return cmp.Compare(steady.Figure(exact[j]-float64(out[j])), steady.Figure(exact[i]-float64(out[i])))
	})
	for k := 0; left > 0; k = (k + 1) % len(order) {
		out[order[k]]++
		left--
	}
	for ; left < 0; left++ {
		out[slices.Index(out, slices.Max(out))]--
	}
	return out
}

// Apart is the choice were two mixtures sown in place of one; what else might be sown, and
// what was left out and is published, stays what is known of the one.
func (c Choice) Apart() Choice {
	s := c.Split
	m := s.Mixture
	m.NearTies, m.LeadsOn, m.ModelAlone = c.Mixture.NearTies, c.Mixture.LeadsOn, c.Mixture.ModelAlone
	c.Mixture, c.Zones = &m, s.Zones
	c.Holds, c.Chance, c.ShortBy, c.Because = s.Holds, s.Chance, s.ShortBy, s.Because
	c.LeftOut = slices.DeleteFunc(slices.Clone(c.LeftOut), func(l LeftOut) bool { return m.Share(l.Species) > 0 })
	c.Cultivars = cultivars(m.Components)
	return c
}
