package mix

import (
	"cmp"
	"context"
	"maps"
	"slices"

	"swardwright/internal/told"
	"swardwright/mix/sward"
	"swardwright/site"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/species"
)

// decide plans for what was asked and, where that can't be, for what comes nearest:
// an everyday lawn for an ornamental one. The mower, the traffic and the feeding stay
// as asked. So does the height of cut, but where the everyday lawn doesn't hold at it,
// or no grass at all, and does at its usual one. A first look plans nothing where the
// ornamental lawn can't be, and what it found of that one is not looked for again.
// One policy, to be read from top to bottom.
//
//gocyclo:ignore
func (j job) decide(ctx context.Context) (planned, asked *answer, err error) {
	ornamental := j.use.Grade == species.Ornamental
	if up := j.task.GivenUp; up != nil {
		asked = up.asked
	} else if asked, err = j.planIf(ctx, ornamental); err != nil {
		return nil, nil, err
	}
	planned = asked
	if j.task.FirstLook && ornamental && !asked.holds() {
		return nil, asked, nil
	}
	low := func() bool { return j.use.MowingMM > 0 && j.use.MowingMM < species.StandardOf(j.use.Grade).CutMM }
	if ornamental && !asked.holds() {
		j.use = everyday(j.use)
		if planned, err = j.planIf(ctx, low()); err != nil {
			return nil, nil, err
		}
	}
	if low() && (planned.best == nil || planned != asked && !planned.holds()) {
		j.use.MowingMM, j.use.MowsPerWeek = 0, 0
		higher, err := j.plan(ctx)
		if err != nil {
			return nil, nil, err
		}
		if higher.best != nil && (planned.best == nil || higher.holds()) {
			planned = higher
		}
	}
	if planned.task.Quick && !j.task.Quick { // nothing better was found
		planned.task.Quick = false
		planned, err = planned.plan(ctx)
	}
	return planned, asked, err
}

// everyday is the use of a lawn that can't be the ornamental one asked for.
func everyday(u species.Use) species.Use {
	u.Traffic = u.TrafficOr()
	u.Grade = species.Utility
	return u
}

// planIf plans as well as can be, or only roughly where there is something else to
// plan instead and this is far from holding.
func (j job) planIf(ctx context.Context, instead bool) (*answer, error) {
	if instead && !j.task.Quick {
		rough := j
		rough.task.Quick = true
		if a, err := rough.plan(ctx); err != nil || a.best == nil || a.outlook.chance < likelier-roughness {
			return a, err
		}
	}
	return j.plan(ctx)
}

// roughness is how far a rough plan's chance may lie below that of a good one: a
// hundred lawns give it to five points, and the search leaves some.
const roughness = 0.15

// holds tells whether the best mixture is likelier to keep its standard than not.
func (a *answer) holds() bool { return a.best != nil && a.outlook.holds() }

func (o *outlook) holds() bool { return o.chance >= likelier }

// lost are the zones, by index, in which no grass will hold.
func (a *answer) lost() (out []int) {
	for i, z := range a.zones {
		if !z.kept {
			out = append(out, i)
		}
	}
	return out
}

// verdicts say zone by zone whether grass will hold.
func (a *answer) verdicts() []ZoneVerdict {
	var out []ZoneVerdict
	for i, z := range a.zones {
		v := ZoneVerdict{Zone: i, Sown: z.kept && a.best != nil, LimitedBy: a.limitedBy(i), Chance: z.chance, Cover: z.alone}
		if z.kept && a.outlook != nil {
			// A zone where the grass that does best there may hold is sown with what is best
			// for the whole, and judged by the better of the two.
			v.Chance, v.Cover = max(z.chance, a.outlook.keeps[i]), a.outlook.zones[i]
		}
		v.Verdict = verdictOf(v.Chance)
		if v.Verdict != Holds {
			v.Instead = a.instead(z, shadeOf(a.site.Zones[i].Light, &a.site.Soil))
		}
		out = append(out, v)
	}
	return out
}

// limitedBy is what grass lacks most in a zone: the criterion by which the grasses of the
// mixture rate lowest there, by their shares, or without one the best of the matrix. Looks
// are left out, since they leave no ground bare. It is weeds where grass would hold if
// they were pulled.
func (a *answer) limitedBy(zone int) string {
	if a.zones[zone].weeds {
		return Weeds
	}
	share := map[string]float64{}
	if a.best != nil {
		for _, p := range a.best.parts(a.problem) {
			share[p.Species.ID] = p.Percent
		}
	}
	sums := map[string]float64{}
	for _, r := range a.matrix.Rows {
		if r.Zone != zone || !r.Species.ForLawns() || len(share) > 0 && share[r.Species.ID] == 0 {
			continue
		}
		for _, x := range r.Ratings {
			if x.Criterion != species.Looks {
				sums[x.Criterion] += cmp.Or(share[r.Species.ID], 1) * x.Value
			}
		}
		if len(share) == 0 {
			break
		}
	}
	lowest := ""
	for _, id := range slices.Sorted(maps.Keys(sums)) {
		if lowest == "" || sums[id] < sums[lowest] {
			lowest = id
		}
	}
	return lowest
}

// Weeds is what limits a lawn that broad-leaved weeds take.
const Weeds = "weeds"

// instead is what to do where grass doesn't hold for sure, in the order of falling light
// that extension services give (University of Illinois; Purdue AY-14; Regina and
// Gothenburg take lasting shade out of lawn).
func (a *answer) instead(z zone, in shade) []told.Sentence {
	u := a.use
	if z.weeds {
		return []told.Sentence{told.Say("mix.feed-instead"), told.Say("mix.meadow-instead")}
	}
	if u.TrafficOr() == species.Heavy || u.Grade == species.HardWearing {
		return []told.Sentence{told.Say("mix.paving-instead"), told.Say("mix.bark-instead"), told.Say("mix.cover-beside-path")}
	}
	switch in {
	case dryShade:
		return []told.Sentence{told.Say("mix.cover-dry-instead"), told.Say("mix.bark-instead"), told.Say("mix.mulch-instead")}
	case dampShade:
		return []told.Sentence{told.Say("mix.cover-damp-instead"), told.Say("mix.moss-damp-instead"), told.Say("mix.paths-instead")}
	}
	return []told.Sentence{told.Say("mix.cover-instead"), told.Say("mix.perennials-instead"), told.Say("mix.moss-instead"), told.Say("mix.mulch-instead")}
}

// shade is what else there is about a dark place: trees that drink it dry, or wet ground.
type shade int

const (
	plainShade shade = iota
	dryShade
	dampShade
)

// Where wet ground begins, and how much of the light leaves take where roots take the water:
// our own.
const (
	dampFrom   = 0.5
	leavesFrom = 0.25
)

func shadeOf(l light.Light, s *ground.Soil) shade {
	switch {
	case s.Wetness >= dampFrom:
		return dampShade
	case species.LeafTaken(l) >= leavesFrom:
		return dryShade
	}
	return plainShade
}

// because says why the standard planned is what it is, of what is planned or laid
// instead.
func (a *answer) because(o *outlook, asked *answer) told.Sentence {
	if a.best == nil {
		return a.becauseNone()
	}
	std := species.StandardOf(a.use.Grade)
	stays := told.Say("mix.stays-covered", told.Share(o.cover), told.Share(o.badCover))
	chance := told.Say("mix.keeps-standard", named(std.Grade), told.Odds(o.chance))
	if a == asked && o.holds() {
		return told.Say("mix.both", stays, chance)
	}
	var said []told.Figure
	switch {
	case a == asked:
		said = append(said, told.Say("mix.unlikely-to-hold", named(std.Grade), a.limit(), o.lacks(std)))
	case a.use.Grade == asked.use.Grade:
		said = append(said, told.Say("mix.cut-higher-or-none"))
	case asked.best == nil:
		said = append(said, told.Say("mix.no-fine-grass", named(asked.use.Grade)))
	default:
		said = append(said, told.Say("mix.wont-hold", named(asked.use.Grade), asked.limit(), asked.outlook.lacks(species.StandardOf(asked.use.Grade))), told.Say("mix.instead", named(std.Grade)))
		if asked.use.MowingMM != a.use.MowingMM {
			said = append(said, told.Say("mix.cut-higher"))
		}
	}
	if a != asked {
		said = append(said, told.Say("mix.expect", told.Share(o.cover), told.Share(o.badCover)))
	}
	said = append(said, told.Say("mix.expect-standard", named(std.Grade), told.Odds(o.chance)))
	return told.Say("mix.one", told.Joined(told.Sentences, said...))
}

// lacks is what it lacks of a standard.
func (o *outlook) lacks(std species.Standard) told.List {
	var parts []told.Sentence
	for _, s := range o.shortBy(std) {
		is, asks := told.Share(s.Is), told.Share(s.Asks)
		var part told.Sentence
		switch s.What {
		case Cover:
			part = told.Say("mix.short-cover", is, asks)
		case BadCover:
			part = told.Say("mix.short-bad-cover", is, asks)
		case Even:
			part = told.Say("mix.short-even", is, asks)
		case Look:
			part = told.Say("mix.short-look", is, asks)
		}
		if s.Missed {
			part = told.Say("mix.short-in-cases", part)
		}
		parts = append(parts, part)
	}
	return told.Joined(told.And, parts...)
}

// limit is what limits grass most where most of it is.
func (a *answer) limit() told.Figure {
	if o := a.outlook; o != nil && !slices.ContainsFunc(o.shortBy(species.StandardOf(a.use.Grade)), func(s Shortfall) bool { return s.What == Cover || s.What == BadCover }) {
		return told.Term{Kind: "short-of", Word: species.Looks}
	}
	if c := a.limitedBy(a.largest()); c != "" {
		return told.Term{Kind: "short-of", Word: c}
	}
	return told.Say("mix.against")
}

// becauseNone says why nothing is sown.
func (a *answer) becauseNone() told.Sentence {
	if len(a.problem.candidates) == 0 || a.outlook == nil && len(a.lost()) < len(a.zones) {
		return told.Say("mix.no-seed")
	}
	i := lightest(a.site)
	z := &a.site.Zones[i].Light
	if least := sward.LeastDLI(a.site); z.DLISeason < least {
		return told.Say("mix.too-dark", told.DLI(z.DLISeason), told.SunHours(z.SunHoursSeason), told.DLI(least))
	}
	return told.Say("mix.too-thin", told.Share(a.zones[i].alone), a.limit())
}

// named is a lawn of a standard.
func named(g species.Grade) told.Term {
	return told.Term{Kind: "lawn-of", Word: string(species.StandardOf(g).Grade)}
}

func lightest(c *site.Conditions) int {
	best := 0
	for i := range c.Zones {
		if c.Zones[i].Light.DLISeason > c.Zones[best].Light.DLISeason {
			best = i
		}
	}
	return best
}

// largest is the largest zone in which grass holds.
func (a *answer) largest() int {
	best := -1
	for i, z := range a.zones {
		if z.kept && (best < 0 || a.site.Zones[i].Share > a.site.Zones[best].Share) {
			best = i
		}
	}
	return max(0, best)
}
