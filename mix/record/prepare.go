package record

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"github.com/samber/lo"

	"swardwright/internal/calendar"
	"swardwright/mix/sward"
	"swardwright/site"
	"swardwright/site/light"
	"swardwright/species"
)

// lawn is a record with the model of its past.
type lawn struct {
	site     *site.Conditions
	past     *sward.Past
	seen     []sighting
	dates    []int // the first sighting of each date, and their number
	now      int   // moment of the plan's day …
	ahead    int   // a season on
	momentOf []int // by date: so many moments are over
	dim      int
	pool     []*species.Species
}

// prepare sets a lawn up.
func prepare(c *site.Conditions, table *species.Table, use species.Use, r Record, plan sward.Moment) (*lawn, error) {
	l := &lawn{site: c, pool: table.All()}
	growing := sward.GrowingOf(c)
	if cut := r.cutMM(); cut > 0 {
		use.MowingMM = cut
	}
	e := sward.NewEnsemble(c, l.pool, use, drawn, seed)
	sown, err := l.sowings(r, growing)
	if err != nil {
		return nil, err
	}
	if err := l.sightings(r); err != nil {
		return nil, err
	}
	l.firstCuts(e, r)

	moments := l.moments(growing)
	l.now, l.ahead = len(moments), len(moments)+1
	moments = append(moments, plan, sward.Moment{Year: plan.Year + ifLate(plan), Part: 1})
	l.past = e.NewPast(growing, sown, l.found(sown), moments)
	l.dim = l.past.Dim()
	l.observers()
	for i := range l.seen {
		s := &l.seen[i]
		s.flat = flat
		if slices.ContainsFunc(s.zones, l.past.Untold) {
			s.flat = flatUntold
		}
		l.expect(s, r, growing)
	}
	return l, nil
}

// sowings are what was sown, zone by zone, in order of time.
func (l *lawn) sowings(r Record, growing sward.Growing) ([]sward.Before, error) {
	c := l.site
	var sown []sward.Before
	touched := make([]bool, len(c.Zones)) // something is known of them
	for i := range r.Sown {
		s := &r.Sown[i]
		zones, err := zonesOf(c, s.Where, s.Key)
		if err != nil {
			return nil, err
		}
		// Zones that were sown into a sward and those that were bare are told apart.
		for _, z := range zones {
			bare := s.Into == BareGround || s.Into == "" && !touched[z] && !r.seenBefore(c, z, s)
			touched[z] = true
			b := s.before(l.pool, growing, c, bare)
			b.Zones = []int{z}
			sown = append(sown, b)
		}
	}
	slices.SortStableFunc(sown, func(a, b sward.Before) int {
		return cmp.Or(cmp.Compare(a.At.Year, b.At.Year), cmp.Compare(a.At.Part, b.At.Part))
	})
	return sown, nil
}

// moments are those of the sightings in order of date, so that those of a date and before
// it stand first.
func (l *lawn) moments(growing sward.Growing) []sward.Moment {
	var moments []sward.Moment
	for i := range l.seen {
		s := &l.seen[i]
		if i == 0 || !s.Date.Equal(l.seen[i-1].Date) {
			l.dates, l.momentOf = append(l.dates, i), append(l.momentOf, 0)
		}
		at := growing.At(s.Date)
		if s.SnowMouldPercent != nil {
			s.autumn = len(moments)
			moments = append(moments, sward.Moment{Year: at.Year - 1, Part: 1})
		}
		s.moment = len(moments)
		moments = append(moments, at)
		l.momentOf[len(l.momentOf)-1] = len(moments)
	}
	l.dates = append(l.dates, len(l.seen))
	return moments
}

// ifLate is one year more where the season is over for most of it.
func ifLate(m sward.Moment) int {
	if m.Part > 0.5 {
		return 1
	}
	return 0
}

// cutMM is the height of cut as seen, the mean; 0 where nobody looked.
func (r Record) cutMM() float64 {
	sum, n := 0.0, 0.0
	for _, s := range r.Seen {
		if s.MowingMM != nil {
			sum += *s.MowingMM
			n++
		}
	}
	return sum / max(1, n)
}

// seenBefore tells whether something was found in a zone before a sowing there.
func (r Record) seenBefore(c *site.Conditions, zone int, b *Sown) bool {
	return slices.ContainsFunc(r.Seen, func(s Seen) bool {
		zones, err := zonesOf(c, s.Where, s.Key)
		return err == nil && slices.Contains(zones, zone) && s.Date.Before(b.Date) && (s.Points > 0 || s.CoverPercent != nil)
	})
}

// zonesOf are the zones of a part of the lawn, by index.
func zonesOf(c *site.Conditions, w Where, key string) ([]int, error) {
	switch {
	case w.At != nil && len(c.Field.Cells) > 0:
		cell := slices.MinFunc(c.Field.Cells, func(a, b light.Cell) int {
			return cmp.Compare(math.Hypot(a.At.X-w.At.X, a.At.Y-w.At.Y), math.Hypot(b.At.X-w.At.X, b.At.Y-w.At.Y))
		})
		return []int{cell.Zone}, nil
	case w.Zone != "":
		var letters []string
		for i, z := range c.Zones {
			if z.Letter == w.Zone {
				return []int{i}, nil
			}
			letters = append(letters, z.Letter)
		}
		return nil, fmt.Errorf("%s.zone: is %s, and the lawn has %v", key, w.Zone, letters)
	}
	all := make([]int, len(c.Zones))
	for i := range all {
		all[i] = i
	}
	return all, nil
}

// before is a sowing as the model is told of it.
func (s *Sown) before(pool []*species.Species, growing sward.Growing, c *site.Conditions, bare bool) sward.Before {
	b := sward.Before{At: growing.At(s.Date), Bare: bare}
	b.Left, b.Winter = sward.FirstSeason(c, calendar.DayOf(s.Date)+1)
	parts := slices.Clone(s.Parts)
	slices.SortFunc(parts, func(x, y species.Part) int { return cmp.Compare(x.Species.ID, y.Species.ID) })
	rate, total := s.RateGM2, 0.0
	for _, p := range parts {
		total += p.Percent
	}
	if rate == 0 {
		for _, p := range parts {
			rate += p.Percent / total * p.Species.Values[species.RateGM2].Best
		}
	}
	for _, p := range parts {
		v := &p.Species.Values
		seeds := rate * p.Percent / total * v[species.SeedsPerGram].Best * v[species.Purity].Best / 100 * v[species.Germination].Best / 100
		b.Grass = append(b.Grass, slices.Index(pool, p.Species))
		b.Plants = append(b.Plants, seeds*v[species.FieldEmergence].Best)
		b.Weight = append(b.Weight, p.Percent/total)
	}
	return b
}

// found are the grasses that were seen by themselves, and those of a group of which none is
// sown or comes by itself.
func (l *lawn) found(sown []sward.Before) (out []int) {
	for i := range l.seen {
		for _, f := range l.seen[i].Of {
			if len(f.Of) > 1 && l.mayBe(f.Of, sown) {
				continue
			}
			for _, sp := range f.Of {
				out = append(out, slices.Index(l.pool, sp))
			}
		}
	}
	return out
}

// mayBe tells whether one of several grasses is sown or comes by itself.
func (l *lawn) mayBe(of []*species.Species, sown []sward.Before) bool {
	return slices.ContainsFunc(of, func(sp *species.Species) bool {
		g := slices.Index(l.pool, sp)
		return sp.Values[species.Volunteer].High > 0 || slices.ContainsFunc(sown, func(b sward.Before) bool { return slices.Contains(b.Grass, g) })
	})
}

// sightings lists what was seen, in an order that doesn't depend on that of the brief.
func (l *lawn) sightings(r Record) error {
	for i := range r.Seen {
		s := sighting{Seen: &r.Seen[i], observer: -1, autumn: -1, design: r.Seen[i].design()}
		var err error
		if s.zones, err = zonesOf(l.site, s.Where, s.Key); err != nil {
			return err
		}
		area := 0.0
		for _, z := range s.zones {
			area += l.site.Zones[z].Share
		}
		for _, z := range s.zones {
			s.area = append(s.area, l.site.Zones[z].Share/area)
		}
		l.seen = append(l.seen, s)
	}
	slices.SortStableFunc(l.seen, func(a, b sighting) int {
		return cmp.Or(a.Date.Compare(b.Date), slices.Compare(a.zones, b.zones), cmp.Compare(a.said(), b.said()))
	})
	return nil
}

// firstCuts tells the model of first cuts that were seen.
func (l *lawn) firstCuts(e *sward.Ensemble, r Record) {
	const half = 4 // days from the first seedlings to half of them: common practice, no published source
	for i := range l.seen {
		s := &l.seen[i]
		if !s.FirstCut {
			continue
		}
		days := daysBetween(r.sownBefore(l.site, s).Date, s.Date) - usualUpDays
		if up := l.upBefore(s, r); up != nil {
			days = daysBetween(up.Date, s.Date) + half
		}
		s.keptMM = e.CutMM(s.zones[0])
		if s.MowingMM != nil {
			s.keptMM = *s.MowingMM
		}
		e.FirstCut(s.zones, s.keptMM, max(1, days))
	}
}

// upBefore is when half of the seedlings were seen up that came to a first cut; nil: nobody saw it.
func (l *lawn) upBefore(s *sighting, r Record) (last *sighting) {
	sown := r.sownBefore(l.site, s)
	for i := range l.seen {
		if u := &l.seen[i]; u.Up && u.Date.Before(s.Date) && u.Date.After(sown.Date) && lo.Every(u.zones, s.zones) {
			last = u
		}
	}
	return last
}

func daysBetween(from, to time.Time) float64 { return to.Sub(from).Hours() / 24 }

// usualUpDays is when first seedlings come up where nobody saw it: common practice, no
// published source.
const usualUpDays = 10

// sownBefore is the last sowing before a sighting, there if there was one.
func (r Record) sownBefore(c *site.Conditions, s *sighting) *Sown {
	var last *Sown
	for i := range r.Sown {
		b := &r.Sown[i]
		zones, err := zonesOf(c, b.Where, b.Key)
		here := err == nil && slices.ContainsFunc(zones, func(z int) bool { return slices.Contains(s.zones, z) })
		if b.Date.Before(s.Date) && (here || last == nil) {
			last = b
		}
	}
	return last
}

// observers gives everybody who judges by eye a bias of his own.
func (l *lawn) observers() {
	by := map[string]int{}
	for i := range l.seen {
		s := &l.seen[i]
		if s.CoverPercent == nil {
			continue
		}
		at, known := by[s.By]
		if !known {
			at = l.dim
			l.dim++
			by[s.By] = at
		}
		s.observer = at
	}
}

// expect works out what is asked of the model for a sighting.
func (l *lawn) expect(s *sighting, r Record, growing sward.Growing) {
	const anyDay, anyLogit, anyHours = 100.0, 10.0, 4.0 // over which anything is as likely: days, log-odds, ln
	switch {
	case s.Points > 0:
		l.tell(s)
		s.anything = anyCount(s.Points, 2)
		if len(s.kinds) > 0 {
			n := lo.Sum(s.hits)
			s.anyOf, s.ofDesign = anyCount(n, len(s.kinds)), mixed(n, s.design)
		}
	case s.CoverPercent != nil:
		s.anything = anyPercent(*s.CoverPercent)
	case s.Up, s.FirstCut:
		sown := r.sownBefore(l.site, s)
		b := sown.before(l.pool, growing, l.site, true)
		b.Zones = s.zones
		s.days = daysBetween(sown.Date, s.Date)
		var water sward.Water
		if r.Water != nil {
			water = r.Water(l.site.Zones[b.Zones[0]].Days)
		}
		if s.Up {
			s.comes = l.past.Up(l.site, &b, calendar.DayOf(sown.Date), water)
		} else {
			var late []float64
			if up := l.upBefore(s, r); up != nil {
				s.since = up.days
				late = lo.Map(up.comes, func(x float64, _ int) float64 { return up.days - x })
			}
			s.comes = l.past.Cut(l.site, &b, calendar.DayOf(sown.Date), s.keptMM, late, water)
		}
		s.anything = -math.Log(anyDay)
	case s.SnowMouldPercent != nil:
		for _, z := range s.zones {
			s.mould = append(s.mould, l.past.Mould(s.autumn, z))
		}
		s.anything = -math.Log(anyLogit)
	case s.SunHours != nil:
		for i, z := range s.zones {
			s.sunHours += s.area[i] * l.site.Zones[z].Light.SunHours[s.Date.Month()-1]
		}
		s.sunHours = max(s.sunHours, leastHours)
		s.anything = -math.Log(anyHours)
	}
}
