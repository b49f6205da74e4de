package mix

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"github.com/samber/lo"

	"swardwright/mix/practice"
	"swardwright/mix/sward"
	"swardwright/site"
	"swardwright/species"
)

// renovateBelowPercent is the living cover below which an old sward is better
// renewed than overseeded (common practice, no published source).
const renovateBelowPercent = 50.0

// Choose finds what to sow on a site for a use, or that nothing will hold.
//
// The mixture is the best by the objective of the grade (see weights) among all
// mixtures of the species that the matrix and the stock allow, followed through
// the synthetic years of every zone. Whether it keeps the standard is a chance, counted
// over lawns that this one may be (see [sward.Ensemble]). Where it is likelier not to, the
// lawn planned is a thinner one of the same kind, and the answer says what it lacks; only
// an ornamental lawn that can't be held becomes another one, an everyday lawn.
func Choose(ctx context.Context, c *site.Conditions, matrix species.Matrix, table *species.Table, published *practice.Table, use species.Use, stock Stock, task Task) (Choice, error) {
	pool := table.All()
	j := job{site: c, matrix: matrix, pool: pool, published: published, use: use, asked: use.Grade, stock: stock, task: task}

	out := Choice{Asked: use.Grade}
	if len(c.Zones) == 0 || len(c.Zones[0].Years) == 0 {
		return out, fmt.Errorf("mix: the site has no zones with weather")
	}
	planned, asked, err := j.decide(ctx)
	if err != nil {
		return out, err
	}
	if planned == nil {
		out.Use = everyday(use)
		out.Attainable = out.Use.Grade
		out.GivenUp = &GivenUp{asked}
		return out, nil
	}
	out.Zones = planned.verdicts()
	out.Heard = planned.problem.practice.Heard()
	out.Because = planned.because(planned.outlook, asked)
	out.Renovate = task.Overseed && task.CoverPercent < renovateBelowPercent
	if planned.best != nil {
		m := planned.mixture()
		if !task.Quick {
			rivals := planned.rivals(planned.found)
			m.NearTies, m.LeadsOn, m.ModelAlone = planned.nearTies(rivals), planned.leadsOn(rivals), planned.alone()
			out.Nearest = planned.nearest()
			out.Turf = planned.turf(asked)
			out.LeftOut = planned.leftOut()
			out.Left = planned.left()
			out.Split = planned.split(asked)
		}
		out.Mixture = &m
		out.Attainable, out.Use = planned.use.Grade, planned.use
		out.Holds, out.Chance = planned.holds(), planned.outlook.chance
		if !out.Holds {
			out.ShortBy = planned.outlook.shortBy(species.StandardOf(planned.use.Grade))
		}
		out.Cultivars = cultivars(m.Components)
	}
	for _, p := range stock.Premixes {
		out.Premixes = append(out.Premixes, planned.premix(p))
	}
	return out, nil
}

// job is what Choose was asked.
type job struct {
	site      *site.Conditions
	matrix    species.Matrix
	pool      []*species.Species // by id
	use       species.Use
	published *practice.Table
	asked     species.Grade // of the brief; use has the one in hand
	stock     Stock
	task      Task
}

// answer is the best mixture for one use, with the model it was found in.
type answer struct {
	job
	problem  *problem
	trial    *trial          // all histories
	ensemble *sward.Ensemble // all lawns that this one may be
	zones    []zone          // all of the site, in its order
	best     *tried          // nil: nothing may be sown
	found    *found          // what best was found in
	outlook  *outlook        // of best
}

// zone is a light zone as the search left it.
type zone struct {
	kept   bool    // grass may hold there
	alone  float64 // expected cover of the grass that does best there
	chance float64 // that it keeps the standard's least cover
	weeds  bool    // broad-leaved weeds take most of what is missing
}

// plan searches for the best mixture under the job's use, for the zones in which
// any grass may hold.
func (j job) plan(ctx context.Context) (*answer, error) {
	n := lawns
	if j.task.Quick {
		n = fewLawns
	}
	a := &answer{job: j, problem: j.problem(), ensemble: sward.NewEnsemble(j.site, j.pool, j.use, n, lawnSeed)}
	a.stand()
	a.keepZones()
	histories := a.problem.field.Years
	if j.task.Quick {
		histories = fineHistories
	}
	a.trial = a.problem.trial(histories)
	if len(a.problem.field.Zones) == 0 {
		return a, nil
	}
	if j.task.Given != nil {
		a.becomes(a.given(j.task.Given))
		return a, nil
	}
	f, ok, err := a.problem.search(ctx)
	if err != nil {
		return nil, err
	}
	if ok {
		a.settle(&f)
		a.found = &f
		a.becomes(a.trial.try(f.shares))
	}
	return a, nil
}

// becomes settles on a mixture, if it makes a lawn.
func (a *answer) becomes(t tried) {
	a.outlook = a.outlookOf(&t)
	if a.staysLawn() {
		a.best = &t
	}
}

// given is a mixture that is not looked for.
func (a *answer) given(parts []Part) tried {
	parts, pool := a.contents(Premix{Parts: parts}, nil, 0)
	pls := lo.Map(parts, func(p Part, _ int) float64 {
		lot, _ := a.lot(p.Species)
		return PureLiveSeed(p.Species, lot)
	})
	return a.trial.judge(parts, pls, pool, 1, shares{})
}

// staysLawn tells whether in some zone grass is likelier than not to keep the least
// cover that the standard calls a lawn. Where it isn't in any, the ground is better left
// without.
func (a *answer) staysLawn() bool {
	for i, z := range a.zones {
		if z.kept && max(z.chance, a.outlook.keeps[i]) >= likelier {
			return true
		}
	}
	return false
}

// stand gives the lawn what is known of it: the lawns that it may be by its record, and for
// overseeding the sward that stands there.
func (a *answer) stand() {
	p, known := a.problem, a.task.Known
	if known != nil {
		a.ensemble.Know(known)
		p.field.Know(known)
	}
	switch {
	case !a.task.Overseed:
	case known != nil:
		n := len(a.ensemble.Lawns)
		a.ensemble.Standing = func(lawn, zone int) []float64 { return known.Stands(known.Pick(lawn, n), zone) }
		for i := range p.field.Zones {
			p.field.Zones[i].Standing = known.MeanStand(i)
		}
	default:
		stands := standing(p.field, a.pool, a.task.CoverPercent)
		a.ensemble.Standing = func(int, int) []float64 { return stands }
		for i := range p.field.Zones {
			p.field.Zones[i].Standing = stands
		}
	}
}

// keepZones leaves out of the field the zones in which no grass may hold.
func (a *answer) keepZones() {
	p, least := a.problem, species.StandardOf(a.use.Grade).Least
	a.zones = make([]zone, len(p.field.Zones))
	best := make([]tried, len(a.zones)) // the grass that does best there
	t := p.trial(coarseHistories)
	for _, k := range p.candidates {
		alone := t.judge([]Part{{k.species, 100}}, []float64{k.pls}, []int{k.pool}, k.price, shares{})
		for i, v := range alone.outcome.Zone {
			if z := &a.zones[i]; v > z.alone {
				z.alone, best[i] = v, alone
			}
		}
	}
	kept := *p.field
	kept.Zones = nil
	var sown []int
	var area float64
	for i := range a.zones {
		z := &a.zones[i]
		if z.alone > 0 {
			a.ensemble.Sow([]int{i})
			z.chance, z.alone = keeping(a.ensemble.Follow(&best[i].sowing).Zone[i], least)
			if z.chance < holdsFrom {
				a.ensemble.Weeded = true
				weeded, _ := keeping(a.ensemble.Follow(&best[i].sowing).Zone[i], least)
				a.ensemble.Weeded = false
				z.weeds = weeded-z.chance > (1-z.chance)/2
			}
		}
		if z.kept = z.chance >= noneBelow; z.kept {
			sown = append(sown, i)
			kept.Zones = append(kept.Zones, p.field.Zones[i])
			area += p.field.Zones[i].Share
		}
	}
	for i := range kept.Zones {
		kept.Zones[i].Share /= area
	}
	p.field = &kept
	if len(sown) > 0 {
		a.ensemble.Sow(sown)
	}
}

// problem sets the search up.
func (j job) problem() *problem {
	std := species.StandardOf(j.use.Grade)
	p := &problem{
		field:    sward.NewField(j.site, j.pool, j.use),
		grade:    std.Grade,
		weights:  gradeWeights[std.Grade],
		even:     std.Even,
		leafMM:   make([]float64, len(j.pool)),
		rateGM2:  j.task.RateGM2,
		rate:     1,
		seedbed:  j.task.SeedbedShare,
		rough:    j.task.Quick,
		practice: &practice.Prior{},
	}
	if j.task.Given == nil { // practice is for what is sought
		p.practice = j.published.On(practice.LawnOf(j.site.AsPublished(), j.use, j.asked, j.task.cover()))
	}
	if p.seedbed == 0 {
		p.seedbed = 1
	}
	for g, s := range j.pool {
		p.leafMM[g] = s.Values[species.LeafMM].Best
		p.pale = append(p.pale, s.Values[species.Pale].Best)
		p.group = append(p.group, s.Group)
		traits := s.Best()
		p.looks = append(p.looks, species.LookFit(&traits, std))
	}
	p.season, p.winter = sward.FirstSeason(j.site, j.task.SowDay)
	p.meadow = j.task.Meadow
	if j.task.Overseed && j.task.CoverPercent >= renovateBelowPercent { // less is renovated, with the seed of a new lawn
		p.rate = OverseedShare(j.task.CoverPercent)
	}
	p.candidates = j.candidates(p)
	return p
}

// OverseedShare is the part of a new lawn's seed that a standing sward wants: a
// straight line from half at full cover to all on bare ground, which agrees with
// the published pairs (Illinois 2 against 4, Kansas State 3-4 against 6-8 pounds
// a thousand square feet); the line itself is our inference.
func OverseedShare(coverPercent float64) float64 { return 1 - 0.5*coverPercent/100 }

// standing is the sward that stands at a cover, where its grasses aren't known:
// what five seasons on this ground make of the grasses of old lawns, sown alike.
func standing(f *sward.Field, pool []*species.Species, coverPercent float64) []float64 {
	all := sward.Sowing{Season: 1}
	for g, s := range pool {
		if s.Is(species.OfOldLawns) {
			all.Grass = append(all.Grass, g)
			all.Plants = append(all.Plants, sward.AlikePlants)
		}
	}
	run := sward.Follower{Field: f, Starts: sward.Starts(f.Years, coarseHistories)}
	shares := run.Follow(&all).Shares
	for g := range shares {
		shares[g] *= coverPercent / 100
	}
	return shares
}

// lawful tells whether a grass may be sown for the use: no invader, a hay grass only from a lot
// on offer, and none that animals leave where they graze. Seed that may carry an endophyte must
// be declared free of it for them, which the plan asks for.
func (j job) lawful(s *species.Species, lot *Lot) bool {
	return !s.Invader && (!s.Fodder || lot != nil) && !(j.use.Livestock && s.Is(species.LeftUneaten))
}

// candidates are the species that may be sown: on offer, for lawns or from a lot of
// its own, lawful for the use, fitting by the matrix in some zone, and not dominated
// by another.
func (j job) candidates(p *problem) []candidate {
	fits := j.fitting()
	var out []candidate
	for g, s := range j.pool {
		lot, offered := j.lot(s)
		if !j.lawful(s, lot) || !offered || fits != nil && !fits[s.ID] || p.field.Green(g) < greenEnough {
			continue
		}
		k := candidate{species: s, pool: g, lot: lot, pls: PureLiveSeed(s, lot), cap: units, price: 1}
		if s.MaxShare > 0 && s.MaxShare < 100 {
			k.cap = s.MaxShare / stepPercent
		}
		out = append(out, k)
	}
	relativePrices(out)
	out = slices.DeleteFunc(out, func(k candidate) bool {
		return slices.ContainsFunc(out, func(other candidate) bool { return p.dominates(&other, &k) })
	})
	most := maxCandidates
	if j.task.Quick {
		most = quickCandidates
	}
	if len(out) <= most || j.task.Given != nil {
		return out
	}
	return p.shortlist(out, most, j.leaders(surelyTried))
}

// surelyTried is how many of the matrix's leaders are candidates in any case.
const surelyTried = 3

// shortlist keeps the most candidates that do best, alone or as up to a quarter
// beside the grass that does best alone, but the best of every group and the leaders
// of the matrix in any case, and the best of every kind that practice wants: a quick
// nurse may be worth a place that it couldn't hold alone.
func (p *problem) shortlist(list []candidate, most int, leaders []*species.Species) []candidate {
	t := p.trial(coarseHistories)
	scores := t.alone(list)
	if lead := bestOf(list, scores, func(k candidate) bool { return k.cap >= units }); lead >= 0 {
		for i, k := range list {
			if i != lead {
				scores[i] = max(scores[i], t.beside(list[lead], k))
			}
		}
	}
	asked := map[int]bool{} // the best of its group, or asked for by practice
	for _, k := range list {
		asked[bestOf(list, scores, func(other candidate) bool { return other.species.Group == k.species.Group })] = true
	}
	for _, set := range p.practice.Wants() {
		asked[bestOf(list, scores, func(k candidate) bool { return set.Has(k.pool) })] = true
	}
	tier := func(i int) int {
		switch {
		case slices.Contains(leaders, list[i].species):
			return 0
		case asked[i]:
			return 1
		}
		return 2
	}
	order := lo.Range(len(list))
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(tier(a)-tier(b), cmp.Compare(scores[b], scores[a]))
	})
	out := lo.Map(order[:most], func(i, _ int) candidate { return list[i] })
	slices.SortFunc(out, func(a, b candidate) int { return a.pool - b.pool })
	return out
}

// bestOf is the first of the best candidates that may be; -1: none.
func bestOf(list []candidate, scores []float64, may func(candidate) bool) int {
	best := -1
	for i, k := range list {
		if may(k) && (best < 0 || scores[i] > scores[best]) {
			best = i
		}
	}
	return best
}

// alone is how each candidate does by itself; without end badly where it may not be sown so.
func (t *trial) alone(list []candidate) []float64 {
	return lo.Map(list, func(k candidate, _ int) float64 {
		if k.cap < units {
			return math.Inf(-1)
		}
		return t.judge([]Part{{k.species, 100}}, []float64{k.pls}, []int{k.pool}, k.price, shares{}).score
	})
}

// beside is how a candidate does as up to a quarter beside a main one.
func (t *trial) beside(main, k candidate) float64 {
	share := math.Min(25, float64(k.cap*stepPercent))
	a, b, of := main, k, 100-share
	if k.pool < main.pool {
		a, b, of = k, main, share
	}
	return t.judge([]Part{{a.species, of}, {b.species, 100 - of}}, []float64{a.pls, b.pls}, []int{a.pool, b.pool},
		((100-share)*main.price+share*k.price)/100, shares{}).score
}

// fitting are the species that the matrix rates near enough to the best of some
// zone to be worth following; nil, for all, without a matrix or with lots on offer.
func (j job) fitting() map[string]bool {
	if len(j.matrix.Rows) == 0 || len(j.stock.Lots) > 0 {
		return nil
	}
	best := map[int]float64{}
	for _, r := range j.matrix.Rows {
		best[r.Zone] = max(best[r.Zone], r.Overall)
	}
	out := map[string]bool{}
	for _, r := range j.matrix.Rows {
		if r.Overall >= nearEnough*best[r.Zone] {
			out[r.Species.ID] = true
		}
	}
	return out
}

// greenEnough is the share of the growing season for which a grass must be green.
const greenEnough = 0.5

// nearEnough is the part of the best overall rating that makes a species a candidate.
const nearEnough = 0.15

// lot is the first lot of a species, and whether it can be had: everything can
// when the brief lists no lots.
func (j job) lot(s *species.Species) (*Lot, bool) {
	for i := range j.stock.Lots {
		if l := &j.stock.Lots[i]; l.Species != nil && l.Species.ID == s.ID {
			return l, true
		}
	}
	return nil, len(j.stock.Lots) == 0
}

// dominates reports whether one grass is at least as good as another by every
// figure that the model reads, and better by one. What is dominated is left out
// of the search, so that adding it to the table changes nothing.
// The figures stand one after another, as the model reads them.
//
//gocyclo:ignore
func (p *problem) dominates(a, b *candidate) bool {
	if a.pool == b.pool {
		return false
	}
	better := false
	atLeast := func(x, y float64) bool {
		better = better || x > y
		return x >= y
	}
	va, vb := &a.species.Values, &b.species.Values
	// Finer seed of the better grass would only let it be sown more thinly.
	if !atLeast(va[species.SeedsPerGram].Best*a.pls*va[species.FieldEmergence].Best, vb[species.SeedsPerGram].Best*b.pls*vb[species.FieldEmergence].Best) ||
		!atLeast(-p.leafMM[a.pool], -p.leafMM[b.pool]) || !atLeast(-a.price, -b.price) || a.cap < b.cap ||
		a.species.Group != b.species.Group {
		return false
	}
	for i := range p.field.Zones {
		z := &p.field.Zones[i]
		if !atLeast(z.Capacity[a.pool], z.Capacity[b.pool]) || !atLeast(z.Claim[a.pool], z.Claim[b.pool]) ||
			!atLeast(z.Spread[a.pool], z.Spread[b.pool]) {
			return false
		}
		n := len(p.field.IDs)
		for y := range p.field.Years {
			if !atLeast(float64(z.Gain[y*n+a.pool]), float64(z.Gain[y*n+b.pool])) ||
				!atLeast(float64(z.Summer[y*n+a.pool]), float64(z.Summer[y*n+b.pool])) ||
				!atLeast(float64(z.Winter[y*n+a.pool]), float64(z.Winter[y*n+b.pool])) {
				return false
			}
		}
	}
	return better
}

// cover is the share of the ground that the old sward covers and goes on to; 0 of a new lawn, and of one that is renovated
// with the seed of one.
func (t Task) cover() float64 {
	if !t.Overseed || t.CoverPercent < renovateBelowPercent {
		return 0
	}
	return t.CoverPercent / 100
}
