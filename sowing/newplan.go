package sowing

import (
	"context"
	"time"

	"github.com/samber/lo"

	"swardwright/internal/calendar"
	"swardwright/mix"
	"swardwright/mix/record"
	"swardwright/site"
	"swardwright/sowing/bed"
	"swardwright/sowing/dates"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
	"swardwright/species"
)

// How much is computed.
const (
	syntheticYears = 200 // of weather; every chance is counted over them
	matrixDraws    = 200 // from the ranges of the traits
	leadersForDate = 5   // species the sowing day is first judged for, before the mixture is known
)

// weatherSeed starts the synthetic years and every draw. It is one for all briefs: two
// lawns, or two designs for one, are tried with the same luck, so that they differ by
// what they are and a place a step away has the same years.
const weatherSeed = 1

// defaultYear is the year a plan's dates fall in when the brief names none.
// The core knows no clock: the same brief gives the same plan on any day.
const defaultYear = 2027

// NewPlan makes the whole plan of the lawn a brief describes: the one door from
// a Brief to a Plan. It is pure: equal briefs give equal plans. It fails when
// the brief can't be worked out (a station or price that isn't there, a lawn
// wholly under obstacles) and when ctx ends.
//
// What would do most for the lawn is tried beside it, and its variants are planned.
func NewPlan(ctx context.Context, t Tables, b Brief) (Plan, error) {
	k := kitOf(t)
	p, err := planKnowing(ctx, k, b, nil)
	if err != nil {
		return Plan{}, err
	}
	if len(b.Variants) == 0 { // nothing more will be sown
		k.grounds, k.growth = nil, nil
	}
	rough, err := roughSite(ctx, k, p.Brief, false)
	if err != nil {
		return Plan{}, err
	}
	if p.Lifts, err = lifts(ctx, k, &p, rough); err != nil {
		return Plan{}, err
	}
	if p.Changed, err = changed(ctx, k, &p, rough); err != nil {
		return Plan{}, err
	}
	p.Variants, err = variantsOf(ctx, k, &p)
	return p, err
}

// plan makes the plan of the lawn by itself.
func plan(ctx context.Context, t Tables, b Brief) (Plan, error) {
	return planKnowing(ctx, kitOf(t), b, nil)
}

// planKnowing is plan with what the record tells, where that is known already: every step is
// given what it needs and returns what it makes.
func planKnowing(ctx context.Context, t kit, b Brief, learned *record.Learned) (Plan, error) {
	prices, err := pricesOf(t.Tables, b)
	if err != nil {
		return Plan{}, err
	}
	found, err := b.conditions(ctx, t, b.options(syntheticYears))
	if err != nil {
		return Plan{}, err
	}
	if learned == nil {
		if learned, err = learn(ctx, t.Tables, b, found); err != nil {
			return Plan{}, err
		}
	}
	b = b.asSeen(found, learned)
	l, err := settle(ctx, t, b, found, learned)
	if err != nil {
		return Plan{}, err
	}
	matrix, err := species.Rate(ctx, rated(t.Tables, learned), asLit(l.ground, learned), l.kept.Use, matrixDraws, weatherSeed)
	if err != nil {
		return Plan{}, err
	}
	grass := grassZones(l.ground, l.choice)
	ways, err := makeWays(ctx, maker{t, prices, l, found, matrix}, grass)
	if err != nil {
		return Plan{}, err
	}
	cost, err := price(ctx, prices, b, l.choice, ways)
	if err != nil {
		return Plan{}, err
	}
	ways = accountFor(ways, cost)
	second := secondOf(l.choice, ways)
	best, why := advise(b, ways, cost, second)
	if best >= 0 && ways[best].Kind == job.BySeedApart {
		l.choice = l.choice.Apart()
	}
	p := Plan{Brief: b, Date: b.planDate(), Found: found, Site: l.ground, Matrix: matrix, Choice: l.choice, Ways: ways, Why: why, Second: second, Cost: cost, Grass: grass, Learned: learned, Next: nextYear(l.choice.Left, grass, ways)}
	if best >= 0 {
		p.Way, p.Unpriced = ways[best], unpriced(ways)
		p.Site = p.Ground
	} else {
		p.Bed = bed.Plan(bedInput(l.kept, found, l.choice, b.Job.Kind, nil, nil)) // checked, not worked
	}
	p.Site = asLit(p.Site, learned)
	return conclude(p), nil
}

// Conditions works out what a grass meets at the brief's place, the first step
// of a plan.
func (b Brief) Conditions(ctx context.Context, t Tables) (*site.Conditions, error) {
	return b.conditions(ctx, kitOf(t), b.options(syntheticYears))
}

func (b Brief) conditions(ctx context.Context, t kit, opt site.Options) (*site.Conditions, error) {
	opt.Known = t.site
	return b.Site.Conditions(ctx, site.Tables{Stations: t.Stations}, opt)
}

// options are how a brief's place is followed through so many years.
func (b Brief) options(years int) site.Options {
	return site.Options{Years: years, Seed: weatherSeed, Irrigated: b.Use.Irrigation, Year: b.planDate().Year()}
}

// Matrix works out how well each grass suits the brief's place, the ground as it will be.
func (b Brief) Matrix(ctx context.Context, t Tables) (species.Matrix, *site.Conditions, error) {
	found, err := b.Conditions(ctx, t)
	if err != nil {
		return species.Matrix{}, nil, err
	}
	learned, err := learn(ctx, t, b, found)
	if err != nil {
		return species.Matrix{}, nil, err
	}
	b = b.asSeen(found, learned)
	ground, err := prepare(b, found, b.Job.Kind)
	if err != nil {
		return species.Matrix{}, nil, err
	}
	ground = asLit(ground, learned)
	m, err := species.Rate(ctx, rated(t, learned), ground, b.Use, matrixDraws, weatherSeed)
	return m, ground, err
}

// planDate is the brief's date, or the last day of the record, or the first day of the
// first year that its job names.
func (b Brief) planDate() time.Time {
	if !b.Date.IsZero() {
		return b.Date
	}
	if last := b.Record.Last(); !last.IsZero() {
		return last
	}
	year := defaultYear
	if days := lo.Compact([]*time.Time{b.Job.NotBefore, b.Job.NotAfter, b.Job.NeededBy}); len(days) > 0 {
		year = lo.EarliestBy(days, func(d *time.Time) time.Time { return *d }).Year()
	}
	return time.Date(year, time.January, 1, 0, 0, 0, 0, time.UTC)
}

// lawn is what is to be made: the brief as it will be kept, the ground as that leaves it,
// its seasons and its grasses.
type lawn struct {
	kept   Brief
	ground *site.Conditions
	when   *dates.Table
	choice mix.Choice
}

// settle finds the grasses on ground that is prepared for the lawn that they can be. Where
// the standard asked for can't be held the ground is prepared for the one that is planned:
// nobody pays for what is given up.
func settle(ctx context.Context, t kit, b Brief, found *site.Conditions, learned *record.Learned) (lawn, error) {
	task := mixTask(b, learned)
	task.FirstLook = true
	l, err := preparedFor(ctx, t, b, b, found, task)
	if err == nil && l.choice.GivenUp != nil {
		kept := b
		kept.Use = l.choice.Use
		task.FirstLook, task.GivenUp = false, l.choice.GivenUp
		l, err = preparedFor(ctx, t, b, kept, found, task)
	}
	if err != nil {
		return l, err
	}
	l.when, err = survey(ctx, t, l.kept, l.ground, l.ground)
	if l.choice.Attainable != "" {
		l.kept.Use = l.choice.Use
	}
	return l, err
}

// preparedFor is the lawn that a brief asks for on ground prepared for one that may be
// kept otherwise.
func preparedFor(ctx context.Context, t kit, asked, kept Brief, found *site.Conditions, task mix.Task) (lawn, error) {
	l := lawn{kept: kept}
	var err error
	if l.ground, err = prepare(kept, found, kept.Job.Kind); err != nil {
		return l, err
	}
	l.choice, err = choose(ctx, t, asked, kept, l.ground, task)
	return l, err
}

// choose finds the grasses for the ground as it will be. The choice goes by the best
// figures of the traits alone: the chances of the matrix wait until it is known how
// the lawn will be kept.
func choose(ctx context.Context, t kit, b, kept Brief, ground *site.Conditions, task mix.Task) (mix.Choice, error) {
	matrix, err := species.Rate(ctx, t.Species, ground, b.Use, 0, weatherSeed)
	if err != nil {
		return mix.Choice{}, err
	}
	largest := largestZone(ground)
	when, err := survey(ctx, t, kept, ground, ground.Only(largest))
	if err != nil {
		return mix.Choice{}, err
	}
	task.SowDay = sowDay(when.Sow(leaders(matrix, largest)), limits(b, b.planDate()))
	choice, err := mix.Choose(ctx, ground, matrix, t.Species, t.Practice, b.Use, b.Stock, task)
	if err != nil {
		return mix.Choice{}, err
	}
	if tooSteep(b) {
		choice = refuseSlope(choice)
	}
	return choice, nil
}

// meadow tells whether a meadow is made: a steep bank is sown as one that must hold.
func (b Brief) meadow() bool {
	return b.Job.Kind == job.New && b.Use.Meadow() && !bed.Mulches(b.Site.Lawn.SlopeDeg)
}

// mixTask is the work as the mixture's room sees it.
func mixTask(b Brief, learned *record.Learned) mix.Task {
	t := mix.Task{Overseed: b.Job.Kind == job.Overseed, Meadow: b.meadow(), Known: known(learned)}
	if b.Job.CoverPercent != nil {
		t.CoverPercent = *b.Job.CoverPercent
	}
	return t
}

// largestZone is the index of the zone that takes up most of the lawn.
func largestZone(c *site.Conditions) int {
	largest := 0
	for i, z := range c.Zones {
		if z.Share > c.Zones[largest].Share {
			largest = i
		}
	}
	return largest
}

// leaders are the species that lead the matrix in a zone: the sowing day they
// want in the largest one, sown in equal shares, is the day the mixture is tried for.
func leaders(m species.Matrix, zone int) map[string]float64 {
	shares := map[string]float64{}
	for _, r := range m.Zone(zone) {
		if r.Species.ForLawns() && len(shares) < leadersForDate {
			shares[r.Species.ID] = 1
		}
	}
	return shares
}

// sowDay is the day of the year (1 to 365) on which a season is best begun, for
// whoever asks before a day is settled.
func sowDay(s dates.Season, l dates.Limits) int {
	on := s.Pick(l, nil)
	if on == nil {
		on = s.Pick(dates.Limits{From: l.From}, nil)
	}
	return calendar.DayOf(*on) + 1
}

// grassZones are the zones that grass comes into.
func grassZones(c *site.Conditions, choice mix.Choice) []job.Zone {
	if choice.Mixture == nil {
		return nil
	}
	var out []job.Zone
	for _, v := range choice.Zones {
		if v.Sown {
			z := c.Zones[v.Zone]
			out = append(out, job.Zone{Index: v.Zone, Letter: z.Letter, AreaM2: z.AreaM2})
		}
	}
	return out
}

// price puts a bill to every way, and sets turf against the seed that may be chosen.
func price(ctx context.Context, prices money.Prices, b Brief, c mix.Choice, ways []Way) (money.Comparison, error) {
	inputs := make([]money.Input, len(ways))
	for i, w := range ways {
		inputs[i] = billInput(prices, b, w)
	}
	sown := func(bills []money.Bill) job.Way {
		if secondOf(c, accountFor(ways, money.Comparison{Bills: bills})).Allows(job.BySeedApart) {
			return job.BySeedApart
		}
		return job.BySeed
	}
	return money.Compare(ctx, inputs, money.Offer{Prices: prices, Date: b.Date, RandSeed: weatherSeed, Sown: sown})
}
