package sowing

import (
	"context"
	"slices"
	"time"

	"golang.org/x/text/language"

	"swardwright/internal/calendar"
	"swardwright/mix"
	"swardwright/site"
	"swardwright/site/light"
	"swardwright/sowing/dates"
	"swardwright/sowing/money"
	"swardwright/sowing/order"
	"swardwright/species"
)

// How much is computed.
const (
	syntheticYears = 200 // of weather; every chance is counted over them
	matrixDraws    = 200 // from the ranges of the traits
	leadersForDate = 5   // species the sowing day is first judged for, before the mixture is known
)

// seed of the weather and of every draw, the same for every brief: two plans differ
// by what differs between their lawns, never by luck.
const seed = 1

// leadDays are how long after the plan's date seed or turf can go in at the
// earliest: clearing, digging, levelling and two weeks of settling for bare ground,
// a day or two of raking for an old sward (common practice, no published source).
var leadDays = map[JobKind]int{New: 21, Renovate: 10, Overseed: 3}

// defaultYear is the year a plan's dates fall in when the brief names none.
// The core knows no clock: the same brief gives the same plan on any day.
const defaultYear = 2027

// NewPlan makes the whole plan of the lawn a brief describes: the one door from
// a Brief to a Plan. It is pure: equal briefs give equal plans. It fails when
// the brief can't be worked out (a station or price that isn't there, a lawn
// wholly under obstacles) and when ctx ends.
func NewPlan(ctx context.Context, b Brief) (Plan, error) {
	t, err := BuiltIn()
	if err != nil {
		return Plan{}, err
	}
	prices, err := t.Prices.In(b.Currency, b.Prices)
	if err != nil {
		return Plan{}, err
	}
	p := Plan{Brief: b, Date: b.planDate()}

	if p.Site, err = b.Conditions(ctx); err != nil {
		return Plan{}, err
	}
	// The choice goes by the best figures alone: the chances wait until it is known
	// how the lawn will be kept.
	if p.Matrix, err = species.Rate(ctx, t.Species, p.Site, b.Use, 0, seed); err != nil {
		return Plan{}, err
	}
	when, err := dates.Survey(ctx, p.Site, t.Species.All(), p.wantDates())
	if err != nil {
		return Plan{}, err
	}
	task := b.task()
	largest := p.largestZone()
	task.SowDay = sowDay(when.Zone(largest).Sow(p.leaders(largest)), p.limits())
	if p.Choice, err = mix.Choose(ctx, p.Site, p.Matrix, t.Species, b.Use, b.Stock, task); err != nil {
		return Plan{}, err
	}
	if p.tooSteep() {
		p.refuseSlope()
	}
	if p.Matrix, err = species.Rate(ctx, t.Species, p.Site, p.keptUse(), matrixDraws, seed); err != nil {
		return Plan{}, err
	}
	if p.Choice.Mixture != nil {
		p.Dates = when.For(p.shares(), p.limits(), b.Job.NeededBy)
		p.Rate = p.seedRate()
		p.Bed = p.bed(false)
		want, err := p.wantOrder(prices, p.Rate.SownM2)
		if err != nil {
			return Plan{}, err
		}
		p.Order = order.Cheapest(want)
	}
	job, err := p.wantMoney(prices, seed)
	if err != nil {
		return Plan{}, err
	}
	if p.Cost, err = money.Compare(ctx, job); err != nil {
		return Plan{}, err
	}
	if p.Choice.Mixture != nil {
		turf := p.Cost.Advised == money.Turf
		if turf {
			p.Bed = p.bed(turf)
		}
		p.Year = p.year(prices, turf)
	}
	p.conclude()
	return p, nil
}

// Conditions works out what a grass meets at the brief's place, the first step
// of a plan.
func (b Brief) Conditions(ctx context.Context) (*site.Conditions, error) {
	t, err := BuiltIn()
	if err != nil {
		return nil, err
	}
	return b.Site.Conditions(ctx, site.Tables{Stations: t.Stations}, site.Options{
		Years: syntheticYears, Seed: seed, Irrigated: b.Use.Irrigation, Year: b.planDate().Year(),
	})
}

// Matrix works out how well each grass suits the brief's place, the second step
// of a plan.
func (b Brief) Matrix(ctx context.Context) (species.Matrix, *site.Conditions, error) {
	t, err := BuiltIn()
	if err != nil {
		return species.Matrix{}, nil, err
	}
	c, err := b.Conditions(ctx)
	if err != nil {
		return species.Matrix{}, nil, err
	}
	m, err := species.Rate(ctx, t.Species, c, b.Use, matrixDraws, seed)
	return m, c, err
}

// planDate is the brief's date, or the first day of the year its work falls in.
func (b Brief) planDate() time.Time {
	year := defaultYear
	switch {
	case !b.Date.IsZero():
		return b.Date
	case b.Job.NotBefore != nil:
		year = b.Job.NotBefore.Year()
	case b.Job.NeededBy != nil:
		year = b.Job.NeededBy.Year()
	}
	return time.Date(year, time.January, 1, 0, 0, 0, 0, time.UTC)
}

// task is the work as the mixture's room sees it.
func (b Brief) task() mix.Task {
	t := mix.Task{Overseed: b.Job.Kind == Overseed}
	if b.Job.CoverPercent != nil {
		t.CoverPercent = *b.Job.CoverPercent
	}
	return t
}

// limits are the days on which the lawn may be sown or laid.
func (p *Plan) limits() dates.Limits {
	j := p.Brief.Job
	return dates.Limits{From: p.Date.AddDate(0, 0, leadDays[j.Kind]), NotBefore: j.NotBefore, NotAfter: j.NotAfter}
}

// sowDay is the day of the year (1 to 365) on which a season is best begun, for
// whoever asks before a day is settled.
func sowDay(s dates.Season, l dates.Limits) int {
	on := s.Pick(l, nil, nil)
	if on == nil {
		on = s.Pick(dates.Limits{From: l.From}, nil, nil)
	}
	return calendar.DayOf(*on) + 1
}

func (p *Plan) wantDates() dates.Input {
	j := p.Brief.Job
	return dates.Input{
		Success:     j.Success,
		Overseed:    j.Kind == Overseed,
		Watered:     p.Brief.seedbedWatered(),
		LeafFallDay: p.leafFallDay(),
	}
}

// seedbedWatered tells whether somebody waters until the first cut, as everybody
// does who wants a lawn soon; only an extensive one is left to the rain.
func (b Brief) seedbedWatered() bool {
	return b.Use.Irrigation || b.Use.Grade != species.Extensive
}

// leafFallDay is when the leaves are off deciduous trees by the lawn; 0 without
// any.
func (p *Plan) leafFallDay() int {
	byLawn := slices.ContainsFunc(p.Brief.Site.Obstacles, func(o light.Obstacle) bool {
		return o.Kind == light.Tree && o.Leaf == light.Deciduous
	})
	if !byLawn {
		return 0
	}
	return int(p.Site.Sky.LeafOffDay)
}

// largestZone is the index of the zone that takes up most of the lawn.
func (p *Plan) largestZone() int {
	largest := 0
	for i, z := range p.Site.Zones {
		if z.Share > p.Site.Zones[largest].Share {
			largest = i
		}
	}
	return largest
}

// leaders are the species that lead the matrix in a zone: the sowing day they
// want in the largest one, sown in equal shares, is the day the mixture is tried for.
func (p *Plan) leaders(zone int) map[string]float64 {
	shares := map[string]float64{}
	for _, r := range p.Matrix.Zone(zone) {
		if r.Species.ForLawns() && len(shares) < leadersForDate {
			shares[r.Species.ID] = 1
		}
	}
	return shares
}

// shares of the mixture by species id, adding to 1.
func (p *Plan) shares() map[string]float64 {
	out := map[string]float64{}
	for _, c := range p.Choice.Mixture.Components {
		out[c.Species.ID] = float64(c.Percent) / 100
	}
	return out
}

// grade is the standard the work is done to: the one asked for, or the best the
// site can hold.
func (p *Plan) grade() species.Grade {
	if p.Choice.Attainable != "" {
		return p.Choice.Attainable
	}
	return p.Brief.Use.Grade
}

// keptUse is the use with the grade that is kept up.
func (p *Plan) keptUse() species.Use {
	u := p.Brief.Use
	u.Grade = p.grade()
	if u.Grade != p.Brief.Use.Grade && u.MowingMM < species.StandardOf(u.Grade).CutMM {
		// The lesser grade is held by its own, higher cut, not by the one asked for.
		u.MowingMM, u.MowsPerWeek = 0, 0
	}
	return u
}

// NameOf is a species' usual name for the reader of the plan.
func (p *Plan) NameOf(s *species.Species) string {
	return s.Common(English(p.Brief.Language, p.Brief.Units))
}

// English is the tag of the kind of English that grasses are named in for a reader of
// a language and of units: American in North America, British elsewhere.
func English(lang, units string) string {
	region, sure := language.Make(lang).Region()
	american := units == "us"
	if sure == language.Exact {
		american = region.String() == "US" || region.String() == "CA"
	}
	if american {
		return "en-US"
	}
	return "en-GB"
}
