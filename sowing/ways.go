package sowing

import (
	"context"
	"slices"
	"sync"
	"time"

	"github.com/samber/lo"

	"swardwright/internal/calendar"
	"swardwright/internal/steady"
	"swardwright/mix"
	"swardwright/site"
	"swardwright/sowing/bed"
	"swardwright/sowing/dates"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
	"swardwright/sowing/order"
	"swardwright/sowing/rate"
	"swardwright/sowing/year"
	"swardwright/species"
)

// neverMownDays is when the first cut is looked for where in most years no young grass
// gets so far: the season after.
const neverMownDays = calendar.Year

// maker is what every way is made of.
type maker struct {
	kit    kit
	prices money.Prices
	lawn   // the ground as the brief's own kind of job leaves it
	found  *site.Conditions
	matrix species.Matrix
}

// makeWays plans every way that can be meant, whole: a new lawn by seed, by turf and by
// both where zones differ; an old one by overseeding, or renovated where too little of it
// is left, and by turf on the stripped ground.
func makeWays(ctx context.Context, m maker, grass []job.Zone) ([]Way, error) {
	if len(grass) == 0 {
		return nil, nil
	}
	on := m.seasonsOn(m.when)
	var out []Way
	for _, w := range m.meant(grass) {
		w, ok, err := m.make(ctx, on, w)
		if err != nil {
			return nil, err
		}
		if ok {
			out = append(out, w)
		}
	}
	return out, nil
}

// meant are the ways that can be meant, by what is sown and laid where.
func (m maker) meant(grass []job.Zone) []Way {
	kind := m.kept.Job.Kind
	first := Way{Kind: job.BySeed, Job: kind, Sown: grass}
	switch {
	case kind == job.Overseed && m.choice.Renovate:
		first.Job = job.Renovate
	case kind == job.Overseed:
		first.Kind = job.ByOverseeding
		first.Sown, first.Kept = worthSowing(grass, m.choice.Left)
	}
	meant := []Way{first}
	if m.choice.Split != nil && first.Kind == job.BySeed {
		meant = append(meant, Way{Kind: job.BySeedApart, Job: kind, Sown: grass})
	}
	// Nobody lays a meadow, nor turf of unknown endophyte and netting where animals graze.
	turf := m.choice.Turf != nil && !m.kept.Use.Meadow() && !m.kept.Use.Livestock
	if turf {
		meant = append(meant, Way{Kind: job.ByTurf, Job: job.New, Laid: grass})
	}
	suits, rest := lo.FilterReject(grass, func(z job.Zone, _ int) bool { return turfSuits(m.matrix, z.Index) })
	if kind == job.New && turf && len(suits) > 0 && len(rest) > 0 {
		meant = append(meant, Way{Kind: job.BySeedAndTurf, Job: job.New, Sown: rest, Laid: suits})
	}
	return meant
}

// worthSowing parts the zones into those that overseeding does something for and those that
// are as well left alone. Where it does nothing for any all are sown, for whoever wants it.
func worthSowing(grass []job.Zone, left []mix.Left) (sown, kept []job.Zone) {
	for _, z := range grass {
		if slices.ContainsFunc(left, func(l mix.Left) bool { return l.Zone == z.Index && !l.Worth() }) {
			kept = append(kept, z)
		} else {
			sown = append(sown, z)
		}
	}
	if len(sown) == 0 {
		return grass, nil
	}
	return sown, kept
}

// make fills in a way of which it is known what is sown and laid where. It is not ok
// where there is no day for it.
func (m maker) make(ctx context.Context, on seasons, w Way) (Way, bool, error) {
	var err error
	w.EdgingM, w.Ground = m.found.EdgingM, m.ground
	if u := m.kept.Use; u.Grazed() || u.Meadow() { // nobody cuts an edge to a field
		w.EdgingM = 0
	}
	if w.Kind == job.BySeedApart {
		m.choice = m.choice.Apart()
		on = m.seasonsOn(m.when)
	}
	if w.Job != m.kept.Job.Kind { // another ground, with seasons of its own
		if w.Ground, err = prepare(m.kept, m.found, w.Job); err != nil {
			return w, false, err
		}
		when, err := survey(ctx, m.kit, m.kept, w.Ground, w.Ground)
		if err != nil {
			return w, false, err
		}
		on = m.seasonsOn(when)
	}
	in := bedInput(m.kept, m.found, m.choice, w.Job, w.Sown, w.Laid)
	if len(w.Sown) > 0 {
		w = m.sown(w, false)
		in = w.seeded(in)
	}
	// The stale seedbed is as long as the day it is sown on leaves it time to be.
	yard := newYard(m.kept, m.found, w.areaM2())
	in.StaleDays = bed.LeastStaleDays
	before, _ := started(withHours(m.prices, bed.Plan(in).Tasks))
	ready, err := yard.earliest(before)
	if err != nil {
		return w, false, ifRoom(err)
	}
	d := m.whenToStart(on, w, ready)
	if d.On == nil {
		return w, false, nil
	}
	w.Dates, w.StartOn = d, *d.On
	if len(w.Sown) > 0 {
		w = m.sown(w, late(w.Dates))
		want, err := w.wanted(m.prices, m.kept, w.Rate)
		if err != nil {
			return w, false, err
		}
		w.Order = order.Cheapest(want)
		in = w.seeded(in)
	}
	in.StaleDays = 0
	w.Bed, err = m.placed(yard, in, w.StartOn)
	if noRoom(err) {
		in.StaleDays = bed.LeastStaleDays
		w.Bed, err = m.placed(yard, in, w.StartOn)
	}
	if err != nil {
		return w, false, ifRoom(err)
	}
	return m.caredFor(w), true, nil
}

// placed is the work on the ground with every task on its day. Where no feed may go down on
// that of the feed at sowing it is left out.
func (m maker) placed(y yard, in bed.Input, on time.Time) (bed.Bed, error) {
	b := bed.Plan(in)
	var err error
	if b.Checks, err = priced(m.prices, b.Checks); err != nil {
		return b, err
	}
	before, after := started(withHours(m.prices, b.Tasks))
	b.Tasks, err = y.place(before, after, on)
	forbidden := func(at time.Time) bool { return m.kept.Use.NoFeed.Holds(calendar.DayOf(at)) }
	if err == nil && bed.FedOn(b.Tasks, forbidden) {
		in.Unfed = true
		return m.placed(y, in, on)
	}
	return b, err
}

// caredFor adds the care to a way whose ground work is placed, and what comes of it.
func (m maker) caredFor(w Way) Way {
	// A sowing or laying of several days starts the lawn on its last one.
	begun := w.begun()
	days := calendar.Days(w.StartOn, begun)
	w.Dates.FirstMow, w.Dates.UsableFrom = later(w.Dates.FirstMow, days), later(w.Dates.UsableFrom, days)
	w.UsableFrom = w.Dates.UsableFrom
	w.Year = m.care(w, begun)
	if i := slices.IndexFunc(w.Year.Tasks, func(t job.Task) bool { return t.ID == "first-cut" }); i >= 0 && w.Dates.FirstMow != nil {
		w.Dates.FirstMow = new(w.Year.Tasks[i].Date) // an old sward is mown before the young grass needs it
	}
	w.Tasks = byDate(slices.Concat(w.Bed.Tasks, w.Year.Tasks))
	w.Water = waterOf(w)
	needed := m.kept.Job.NeededBy
	w.InTime = needed == nil || w.UsableFrom != nil && !w.UsableFrom.After(*needed)
	w.Mixture, w.Standard = grownOn(m.choice, w)
	return w
}

// ifRoom lets a want of days pass: there is then no such way.
func ifRoom(err error) error {
	if noRoom(err) {
		return nil
	}
	return err
}

// areaM2 is what the way makes lawn of.
func (w Way) areaM2() float64 { return job.Area(w.Sown) + job.Area(w.Laid) }

// byDate sorts tasks; those of one day keep their order.
func byDate(tasks []job.Task) []job.Task {
	slices.SortStableFunc(tasks, func(a, b job.Task) int { return a.Date.Compare(b.Date) })
	return tasks
}

// turfSuits tells whether a grass that turf is grown of is at least moderately
// suited to a zone.
func turfSuits(m species.Matrix, zone int) bool {
	return slices.ContainsFunc(m.Rows, func(r species.Row) bool {
		return r.Zone == zone && r.Species.Is(species.SoldAsTurf) && (r.Class == species.S1 || r.Class == species.S2)
	})
}

// seasons are how the chosen mixture, and turf, fare on one ground; each is worked out when
// a way begins with it.
type seasons struct{ sow, lay func() dates.Season }

// seasonsOn are the seasons of a ground, one for all ways on it.
func (m maker) seasonsOn(when *dates.Table) seasons {
	whole := m.choice.Mixture.Weights()
	return seasons{
		sync.OnceValue(func() dates.Season {
			if !m.choice.Mixture.Apart {
				return when.Sow(whole)
			}
			return when.SowApart(func(zone int) map[string]float64 {
				if p := m.choice.Split.In(zone); p != nil {
					return p.Mixture.Weights()
				}
				return whole // nothing is sown there
			})
		}),
		sync.OnceValue(func() dates.Season { return when.Lay(whole) }),
	}
}

// whenToStart finds the day to sow or lay, not before the ground is ready. Where the
// days allowed leave none it is the best there is beyond them, and says so.
func (m maker) whenToStart(s seasons, w Way, ready time.Time) dates.Dates {
	begin := s.sow
	if len(w.Sown) == 0 {
		begin = s.lay
	}
	season := begin()
	return season.Dates(limits(m.kept, ready), m.kept.Job.NeededBy)
}

// limits are the days on which the lawn may be sown or laid.
func limits(b Brief, from time.Time) dates.Limits {
	return dates.Limits{From: from, NotBefore: b.Job.NotBefore, NotAfter: b.Job.NotAfter}
}

// drilledMM is how deep a drill lays seed: 5 to 15 mm, common practice, no published
// source.
const drilledMM = 10.0

// survey follows a ground, or a part of it, through the years for whatever may be sown or
// laid on it.
func survey(ctx context.Context, t kit, b Brief, ground, part *site.Conditions) (*dates.Table, error) {
	depth := 0.0 // raked in
	if b.Job.Method == job.Drill {
		depth = drilledMM
	}
	return t.grounds.Survey(ctx, part, t.Species.All(), dates.Input{
		Success:     b.Job.Success,
		CutMM:       b.Use.CutMM(ground, &ground.Zones[0]),
		DepthMM:     depth,
		Living:      b.Living(),
		Watered:     b.Use.WatersYoung(),
		LeafFallDay: int(ground.Sky.LeafOffDay),
		Mulched:     b.Job.Kind == job.New && (bed.Mulches(ground.Survey.Lawn.SlopeDeg) || bed.Strawed(b.Use) && b.Job.Method != job.InDressing),
	})
}

// Living is the share of the ground that an old sward, sown into, keeps covered; on ground
// newly made or scarified open it is none.
func (b Brief) Living() float64 {
	if b.Job.Kind != job.Overseed || b.Job.CoverPercent == nil {
		return 0
	}
	return *b.Job.CoverPercent / 100
}

// lateDays before an autumn window closes more seed is sown: common practice, no
// published source, as to the days.
const lateDays = 14

// late tells whether the sowing day is near the end of the season, or past it.
func late(d dates.Dates) bool {
	if d.Chosen < 0 || d.Chosen >= len(d.Windows) {
		return len(d.Windows) > 0
	}
	w := d.Windows[d.Chosen]
	return w.Kind == dates.Autumn && d.On.After(w.Closes.AddDate(0, 0, -lateDays))
}

// sown turns what a way sows into grams.
func (m maker) sown(w Way, late bool) Way {
	w.Sowings = nil
	if !m.choice.Mixture.Apart {
		w.Sowings = []Sowing{{Zones: w.Sown, Mixture: m.choice.Mixture}}
	} else {
		for i := range m.choice.Split.Patches {
			p := &m.choice.Split.Patches[i]
			zones := lo.Filter(w.Sown, func(z job.Zone, _ int) bool { return slices.Contains(p.Zones, z.Index) })
			w.Sowings = append(w.Sowings, Sowing{Zones: zones, Mixture: &p.Mixture})
		}
	}
	for i := range w.Sowings {
		s := &w.Sowings[i]
		s.Rate = seedRate(m.kept, s.Mixture, s.Zones, w.Kind == job.ByOverseeding, late)
	}
	w.Rate = w.Sowings[0].Rate
	if len(w.Sowings) > 1 {
		w.Rate = rate.Together(w.Rate, w.Sowings[1].Rate)
	}
	return w
}

// seeded is the ground to be prepared with the seed that a way sows.
func (w Way) seeded(in bed.Input) bed.Input {
	in.SeedGM2, in.SeedsM2 = w.Rate.GM2, w.Rate.SeedsPerM2
	if at := w.Dates.Chosen; at >= 0 && at < len(w.Dates.Windows) {
		in.Dormant = w.Dates.Windows[at].Kind == dates.Dormant
	}
	if len(w.Sowings) > 1 {
		in.Apart = lo.Map(w.Sowings, func(s Sowing, _ int) bed.Seed {
			return bed.Seed{Zones: s.Zones, GM2: s.Rate.GM2, PerM2: s.Rate.SeedsPerM2, Parts: s.Mixture.Parts()}
		})
	}
	return in
}

// seedRate turns a mixture into grams for the zones that it is sown on.
func seedRate(b Brief, m *mix.Mixture, zones []job.Zone, overseed, late bool) rate.Rate {
	in := rate.Input{Grade: b.Use.Grade, Meadow: b.meadow(), Overseed: overseed, Method: b.Job.Method, Late: late, SownM2: job.Area(zones)}
	if b.Job.CoverPercent != nil {
		in.CoverPercent = *b.Job.CoverPercent
	}
	for _, x := range m.Components {
		in.Parts = append(in.Parts, rate.Part{Species: x.Species, Percent: float64(x.Percent), Lot: lotOf(b, x.Species)})
	}
	return rate.For(in)
}

// lotOf is the first lot of a species in the brief; nil without one.
func lotOf(b Brief, s *species.Species) *mix.Lot {
	for i := range b.Stock.Lots {
		if l := &b.Stock.Lots[i]; l.Species == s {
			return l
		}
	}
	return nil
}

// care plans the weeks until the lawn bears use, and the years after.
func (m maker) care(w Way, begun time.Time) year.Calendar {
	first := begun.AddDate(0, 0, neverMownDays)
	if on := w.Dates.FirstMow; on != nil {
		first = *on
	}
	in := year.Input{
		Site: w.Ground, Growth: m.kit.growth, Zones: slices.Concat(w.Sown, w.Laid), Use: m.kept.Use, Mixture: m.choice.Mixture,
		StartOn: begun, Start: startID(w), FirstMow: first, UsableFrom: w.UsableFrom,
		Turf: len(w.Sown) == 0, Netted: w.Bed.Netted, RootsM2: w.Bed.RootsM2, Old: w.Job != job.New,
	}
	if in.Old {
		in.Lime = bed.LimeGoes(w.Bed.LimeGM2)
	}
	for _, x := range w.Dates.Watering {
		in.Watering = append(in.Watering, year.Water{Week: x.Number, MeanMM: x.MeanMM, DryMM: x.DryMM})
	}
	young := year.Plan(in)
	if len(w.Kept) == 0 {
		return young
	}
	// The years after are those of the whole sward.
	in.Zones = append(in.Zones, w.Kept...)
	all := year.Plan(in)
	starts := func(t job.Task, _ int) bool { return t.First }
	all.Tasks = byDate(slices.Concat(lo.Filter(young.Tasks, starts), lo.Reject(all.Tasks, starts)))
	return all
}

// startID is the task that starts the lawn.
func startID(w Way) string {
	for _, t := range w.Bed.Tasks {
		if t.Sort == job.Sowing || t.Sort == job.Laying {
			return t.ID
		}
	}
	return ""
}

// waterOf counts what the tasks give until the lawn bears use.
func waterOf(w Way) Water {
	out := Water{Until: w.establishedBy()}
	for _, t := range w.Tasks {
		if w.watersYoung(t) {
			out.Goes += t.Goes
			out.Litres += t.Litres
		}
	}
	out.Litres = steady.Round(out.Litres, 0)
	return out
}

// establishedBy is the day until which the young lawn is cared for: that on which it
// bears use, or where it never does the end of the first watering.
func (w Way) establishedBy() time.Time {
	if w.UsableFrom != nil {
		return *w.UsableFrom
	}
	until := w.StartOn
	for _, t := range w.Tasks {
		if t.Sort == job.Watering && t.First && t.Ends().After(until) {
			until = t.Ends()
		}
	}
	return until
}

// watersYoung tells whether a task waters the lawn before it bears use.
func (w Way) watersYoung(t job.Task) bool {
	return t.Sort == job.Watering && t.Goes > 0 && t.Litres > 0 && !t.Date.After(w.establishedBy())
}

// begun is the last day of the sowing or laying.
func (w Way) begun() time.Time {
	on := w.StartOn
	for _, t := range w.Bed.Tasks {
		if (t.Sort == job.Sowing || t.Sort == job.Laying) && t.Ends().After(on) {
			on = t.Ends()
		}
	}
	return on
}

// later is a date so many days on, if it ever comes.
func later(on *time.Time, days int) *time.Time {
	if on == nil {
		return nil
	}
	return new(on.AddDate(0, 0, days))
}

// grownOn is what grows of a way and the standard that comes of it: of the mixture where
// it is sown, of turf where it is laid, and of the lesser of the two where it is both.
func grownOn(c mix.Choice, w Way) (*mix.Mixture, Standard) {
	sown := Standard{c.Attainable, c.Holds, c.Chance, c.ShortBy, c.Because}
	t := c.Turf
	if len(w.Laid) == 0 || t == nil {
		return c.Mixture, sown
	}
	laid := Standard{c.Attainable, t.Holds, t.Chance, t.ShortBy, t.Because}
	switch {
	case len(w.Sown) == 0:
		return &t.Mixture, laid
	case t.Chance < c.Chance:
		return c.Mixture, laid
	}
	return c.Mixture, sown
}
