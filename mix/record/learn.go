package record

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"time"

	"github.com/samber/lo"

	"swardwright/internal/calendar"
	"swardwright/mix/sward"
	"swardwright/site"
	"swardwright/site/light"
	"swardwright/species"
)

// How the lawns are weighed by the record: sequential Monte Carlo, one date after another,
// each tempered so that half of the lawns still count, and followed by moves that leave the
// prior as it is (preconditioned Crank-Nicolson steps, Cotter et al. 2013; tempering as Del
// Moral, Doucet & Jasra 2006). The figures are plumbing.
const (
	drawn     = 400 // lawns of the ensemble, whose traits, light and years are taken whole
	members   = 800
	kept      = 400 // of them, for the plan
	moves     = 6   // a stage
	stepFirst = 0.3
	leastMove = 0.05 // acceptance below which a step is made half as long
	mostMove  = 0.4  // and above which half as long again
	seed      = 1    // as the plan's lawns are drawn with, so that a plan without a record is of the same
	stream    = 0x5ee
)

// Learned is what a record tells of a lawn.
type Learned struct {
	Known *sward.Known // for the plan
	Rows  []Row        // by date
	Next  []Outlook    // by zone: a season on, nothing sown
}

// Row is one thing seen, beside what was expected of it.
type Row struct {
	Seen     *Seen
	What     What
	Of       string // for [Share]: the grasses, as written
	Zone     string // letter; empty: the whole lawn
	Found    float64
	Range    [2]float64 // of what was found: 95 %
	Expected [2]float64 // before it was found: 8 in 10
	Now      [2]float64 // of the same, with the whole record
	Surprise float64    // share of what might have been found that was no likelier
	Alone    float64    // the same by the tables alone
	Zones    []float64  // for Cover: the same were it another zone's
}

// What is what a row is about.
type What string

// What a row may be about.
const (
	Cover     What = "cover"      // of grass, share of the ground
	Share     What = "share"      // of the grass
	Emergence What = "emergence"  // days from sowing until half of the seedlings are up
	SnowMould What = "snow_mould" // share of the sward
	Sun       What = "sun_hours"
)

// Outlook is a zone's standing sward, and a season on when nothing is sown.
type Outlook struct {
	Letter      string
	Cover       [2]float64 // now, 8 in 10
	Season      [2]float64 // at the end of a season
	SeasonAlone [2]float64 // the same by the tables alone
	Narrowed    float64    // part of the spread of Season that the record takes away, 0 to 1
	Shares      []Standing // now, the largest first
}

// Standing is a grass of the standing sward.
type Standing struct {
	Species *species.Species
	Share   float64 // of the sward, mean of the lawns
	Expect  float64 // by the tables and what was sown alone
}

// sighting is something seen as the model is asked for it.
type sighting struct {
	*Seen
	moment   int
	zones    []int
	area     []float64 // by such zone
	kinds    []kind
	hits     []int   // by kind
	design   float64 // of all points …
	ofDesign float64 // … and of the hits on grasses
	observer int     // in the vector of a lawn; -1: none
	anything float64 // see guarded: of the finding …
	flat     float64
	anyOf    float64 // … and of the kinds of grass in it

	days     float64     // since the sowing of seedlings
	up       []float64   // expected, by lawn
	mould    [][]float64 // by zone: see sward.Past.Mould
	autumn   int         // moment before the winter of the mould; -1: nothing stood then
	sunHours float64     // by the site
}

// kind are grasses that were not told apart in a count.
type kind struct {
	name    string
	members []int  // index among the grasses held
	group   string // of all of them, or empty
}

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

// member is a lawn that this one may be.
type member struct {
	of       int       // lawn of the ensemble that the rest is taken from
	z        []float64 // what sets it apart
	run      []float64
	old, now float64 // log-likelihood of the dates before, and of the date in hand
}

// Learn weighs by a record the lawns that one lawn may be. The plan's day is not before the
// last of the record. The site is as it was found, the use as the lawn was kept.
func Learn(ctx context.Context, c *site.Conditions, table *species.Table, use species.Use, r Record, plan time.Time) (*Learned, error) {
	growing := sward.GrowingOf(c)
	l, err := prepare(c, table, use, r, growing.At(later(r.Last(), plan)))
	if err != nil {
		return nil, err
	}
	all, alone, rows, err := l.weigh(ctx, members, stream)
	if err != nil {
		return nil, err
	}
	after := l.runs(all, l.ahead+1)
	l.nowExpected(rows, all, after)
	of, z, runs := make([]int, kept), make([][]float64, kept), make([][]float64, kept)
	for i := range of {
		at := i * members / kept
		of[i], z[i], runs[i] = all[at].of, all[at].z, after[at]
	}
	return &Learned{Known: l.past.Known(of, z, runs, l.now), Rows: rows, Next: l.outlooks(after, alone)}, nil
}

// weigh draws so many members and takes in the record, date by date. It gives back also what
// the members showed at first, and what was expected of every finding before it.
func (l *lawn) weigh(ctx context.Context, n int, stream uint64) (all []member, alone [][]float64, rows []Row, err error) {
	random := rand.New(rand.NewPCG(seed, stream))
	all = make([]member, n)
	for i := range all {
		m := &all[i]
		m.of = i % drawn
		m.z = make([]float64, l.dim)
		for k := range m.z {
			m.z[k] = random.NormFloat64()
		}
		m.run = make([]float64, l.past.Size())
	}
	alone = l.runs(all, l.ahead+1)
	s := sampler{lawn: l, random: random, all: all, step: stepFirst, spare: make([]member, n)}
	for d := range l.dates[:len(l.dates)-1] {
		if err := ctx.Err(); err != nil {
			return nil, nil, nil, err
		}
		expected := make([][]float64, n)
		for i := range s.all {
			s.judge(&s.all[i], d)
			expected[i] = s.all[i].run
		}
		for i := l.dates[d]; i < l.dates[d+1]; i++ {
			rows = append(rows, l.rows(&l.seen[i], s.all, expected, alone)...)
		}
		s.date(d)
	}
	return s.all, alone, rows, nil
}

// runs follows every member until so many moments are over.
func (l *lawn) runs(all []member, moments int) [][]float64 {
	out := make([][]float64, len(all))
	for i := range all {
		out[i] = make([]float64, l.past.Size())
		l.past.Run(all[i].of, all[i].z[:l.past.Dim()], moments, out[i])
	}
	return out
}

// sampler moves the members of a lawn from date to date.
type sampler struct {
	*lawn
	random     *rand.Rand
	all, spare []member
	step       float64
}

// date takes in what was seen on one date, by which the members have been judged.
func (s *sampler) date(d int) {
	weights := make([]float64, len(s.all))
	for power := 0.0; power < 1; {
		next := s.next(power, weights)
		s.resample(weights)
		power = next
		for k := range moves {
			s.move(d, power, k%3 == 2)
		}
	}
}

// judge works out how likely what was seen up to a date is on a member.
func (s *sampler) judge(m *member, d int) {
	s.past.Run(m.of, m.z[:s.past.Dim()], s.momentOf[d], m.run)
	m.old, m.now = 0, 0
	for i := range s.seen[:s.dates[d+1]] {
		v := s.likelihood(&s.seen[i], m)
		if i < s.dates[d] {
			m.old += v
		} else {
			m.now += v
		}
	}
}

// next is the greatest power of the likelihood at which half of the members still count,
// with the weights that lead there.
func (s *sampler) next(power float64, weights []float64) float64 {
	size := func(to float64) float64 {
		most := math.Inf(-1)
		for i := range s.all {
			weights[i] = (to - power) * s.all[i].now
			most = max(most, weights[i])
		}
		var sum, square float64
		for i, w := range weights {
			w = math.Exp(w - most)
			weights[i] = w
			sum += w
			square += w * w
		}
		for i := range weights {
			weights[i] /= sum
		}
		return sum * sum / square
	}
	half := float64(len(s.all)) / 2
	if size(1) >= half {
		return 1
	}
	low, high := power, 1.0
	for range 30 {
		if mid := (low + high) / 2; size(mid) >= half {
			low = mid
		} else {
			high = mid
		}
	}
	low = max(low, power+leastPower)
	size(low)
	return low
}

// leastPower is the least step of the power, so that it ends.
const leastPower = 1e-3

// resample draws the members anew by their weights, evenly.
func (s *sampler) resample(weights []float64) {
	n := len(s.all)
	at, sum, u := 0, weights[0], s.random.Float64()
	for i := range n {
		for at+1 < n && sum < (float64(i)+u)/float64(n) {
			at++
			sum += weights[at]
		}
		from, to := &s.all[at], &s.spare[i]
		to.of, to.old, to.now = from.of, from.old, from.now
		to.z = append(to.z[:0], from.z...)
		to.run = append(to.run[:0], from.run...)
	}
	s.all, s.spare = s.spare, s.all
}

// move proposes to every member another lawn a step away, or the same effects on another
// lawn of the ensemble; both leave the prior as it is.
func (s *sampler) move(d int, power float64, other bool) {
	stay, accepted := math.Sqrt(1-s.step*s.step), 0
	try := member{z: make([]float64, s.dim), run: make([]float64, s.past.Size())}
	for i := range s.all {
		m := &s.all[i]
		try.of = m.of
		copy(try.z, m.z)
		if other {
			try.of = s.random.IntN(drawn)
		} else {
			for k, z := range m.z {
				try.z[k] = stay*z + s.step*s.random.NormFloat64()
			}
		}
		s.judge(&try, d)
		if math.Log(s.random.Float64()) < try.old-m.old+power*(try.now-m.now) {
			*m, try = try, *m
			accepted++
		}
	}
	if other {
		return
	}
	switch share := float64(accepted) / float64(len(s.all)); {
	case share < 0.2:
		s.step = max(leastMove, s.step/1.5)
	case share > mostMove:
		s.step = min(1, s.step*1.5)
	}
}

// likelihood is how likely something seen is on a member.
func (l *lawn) likelihood(s *sighting, m *member) float64 {
	log := 0.0
	switch {
	case s.Points > 0:
		covers := l.covers(s, m.run)
		log = guarded(binomial(s.Grass, s.Points, min(lo.Sum(covers), 1), s.design), s.anything, s.flat)
		if len(s.kinds) > 0 {
			var shares [maxKinds]float64
			log += guarded(multinomial(s.hits, s.shares(covers, shares[:0]), s.ofDesign), s.anyOf, s.flat)
		}
		return log
	case s.CoverPercent != nil:
		log = byEye(*s.CoverPercent, lo.Sum(l.covers(s, m.run)), m.z[s.observer])
	case s.up != nil:
		log = normal(s.days, s.up[m.of], upSD(s.up[m.of]))
	case s.SnowMouldPercent != nil && s.autumn >= 0:
		log = normal(logit(*s.SnowMouldPercent/100), logit(l.mouldOf(s, m.of, m.run)), mouldSD)
	case s.SunHours != nil:
		log = normal(math.Log(max(*s.SunHours, leastHours)/s.sunHours), math.Log(l.past.Light(m.of)), sunSD)
	default:
		return 0
	}
	return guarded(log, s.anything, s.flat)
}

// leastHours is what no hours of sun count as less than.
const leastHours = 0.1

// maxKinds bounds the kinds told apart in one count that need no memory of their own.
const maxKinds = 32

// covers are those of the grasses held where it was seen.
func (l *lawn) covers(s *sighting, run []float64) []float64 {
	if len(s.zones) == 1 {
		return l.past.Covers(run, s.moment, s.zones[0])
	}
	out := make([]float64, len(l.past.Grass))
	for i, z := range s.zones {
		for k, x := range l.past.Covers(run, s.moment, z) {
			out[k] += s.area[i] * x
		}
	}
	return out
}

// shares are those of the kinds told apart, with the hits that are taken for another.
// It runs for every lawn that may be and every sighting, in the room it is given.
//
//gocyclo:ignore
func (s *sighting) shares(covers, into []float64) []float64 {
	total := 0.0
	for _, k := range s.kinds {
		x := 0.0
		for _, at := range k.members {
			x += covers[at]
		}
		into = append(into, x)
		total += x
	}
	n := len(into)
	for i := range into {
		if total <= 0 {
			into[i] = 1 / float64(n)
		} else {
			into[i] /= total
		}
	}
	if n == 1 {
		return into
	}
	var mixed [maxKinds]float64
	out := mixed[:0]
	for range into {
		out = append(out, 0)
	}
	for i, x := range into {
		akin, others := 0, 0
		for j := range s.kinds {
			switch {
			case s.akin(i, j):
				akin++
			case i != j && s.kinds[j].name != "": // nobody takes a grass for one he doesn't name
				others++
			}
		}
		stays := 1.0
		if akin > 0 {
			stays -= withinKind
		}
		if others > 0 {
			stays -= betweenKinds
		}
		for j := range out {
			switch {
			case i == j:
				out[j] += stays * x
			case s.akin(i, j):
				out[j] += withinKind * x / float64(akin)
			case s.kinds[j].name != "":
				out[j] += betweenKinds * x / float64(others)
			}
		}
	}
	copy(into, out)
	return into
}

// akin tells whether two kinds are of one group.
func (s *sighting) akin(i, j int) bool {
	return i != j && s.kinds[i].group != "" && s.kinds[i].group == s.kinds[j].group
}

// mouldOf is the share of the sward that snow mould takes on a member.
func (l *lawn) mouldOf(s *sighting, of int, run []float64) float64 {
	n := len(l.past.Grass)
	var lost, all float64
	for i, z := range s.zones {
		for k, x := range l.past.Covers(run, s.autumn, z) {
			lost += s.area[i] * x * (1 - s.mould[i][of*n+k])
			all += s.area[i] * x
		}
	}
	if all == 0 {
		return 0
	}
	return lost / all
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
	var found []int
	for i := range l.seen {
		for _, f := range l.seen[i].Of {
			if len(f.Of) == 1 || !l.mayBe(f.Of, sown) {
				for _, sp := range f.Of {
					found = append(found, slices.Index(l.pool, sp))
				}
			}
		}
	}
	l.firstCuts(e, r)

	moments := l.moments(growing)
	l.now, l.ahead = len(moments), len(moments)+1
	moments = append(moments, plan, sward.Moment{Year: plan.Year + ifLate(plan), Part: 1})
	l.past = e.NewPast(growing, sown, found, moments)
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
	}
	return b
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

// said is what was seen, for an order among sightings of one day and place.
func (s *sighting) said() string {
	v := *s.Seen
	v.Key, v.At = "", nil
	hits := ""
	for _, f := range v.Of {
		hits += fmt.Sprint(f.Name, f.Hits)
	}
	v.Of = nil
	number := func(x *float64) string {
		if x == nil {
			return ""
		}
		return fmt.Sprint(*x)
	}
	return fmt.Sprint(v.Points, v.Grass, v.Moss, v.Weeds, v.Bare, v.Layout, v.By, hits, v.Up, v.FirstCut,
		number(v.CoverPercent), number(v.SnowMouldPercent), number(v.SunHours), number(v.MowingMM))
}

// firstCuts tells the model of first cuts that were seen.
func (l *lawn) firstCuts(e *sward.Ensemble, r Record) {
	const half = 4 // days from the first seedlings to half of them: common practice, no published source
	for i := range l.seen {
		s := &l.seen[i]
		if !s.FirstCut {
			continue
		}
		sown := r.sownBefore(l.site, s)
		days := s.Date.Sub(sown.Date).Hours()/24 - usualUpDays
		for j := range l.seen[:i] {
			if u := &l.seen[j]; u.Up && slices.Equal(u.zones, s.zones) && u.Date.After(sown.Date) {
				days = s.Date.Sub(u.Date).Hours()/24 + half
			}
		}
		cut := e.CutMM(s.zones[0])
		if s.MowingMM != nil {
			cut = *s.MowingMM
		}
		e.FirstCut(s.zones, cut, max(1, days))
	}
}

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
	case s.Up:
		sown := r.sownBefore(l.site, s)
		b := sown.before(l.pool, growing, l.site, true)
		b.Zones = s.zones
		s.days = s.Date.Sub(sown.Date).Hours() / 24
		s.up = l.past.Up(l.site, &b, calendar.DayOf(sown.Date))
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

// tell sorts the hits of a count by the kinds that can be told apart in it.
func (l *lawn) tell(s *sighting) {
	if len(s.Of) == 0 {
		return
	}
	told, named := 0, map[int]bool{}
	for _, f := range s.Of {
		k := kind{name: f.Name}
		for _, sp := range f.Of {
			if at, ok := slices.BinarySearch(l.past.Grass, slices.Index(l.pool, sp)); ok {
				k.members = append(k.members, at)
				named[at] = true
			}
		}
		k.group = groupOf(f.Of)
		told += f.Hits
		// Fine-leaved fescues are not told apart reliably: they count as one.
		if i := slices.IndexFunc(s.kinds, func(o kind) bool { return o.group == k.group && k.group == fineFescue }); i >= 0 {
			s.kinds[i].members = append(s.kinds[i].members, k.members...)
			s.kinds[i].name += " + " + k.name
			s.hits[i] += f.Hits
			continue
		}
		s.kinds, s.hits = append(s.kinds, k), append(s.hits, f.Hits)
	}
	// Where every hit was told apart the grasses not named were not there; but those that come
	// by themselves are often overlooked.
	if told == s.Grass {
		var rest kind
		for at, g := range l.past.Grass {
			if !named[at] && l.pool[g].Values[species.Volunteer].High == 0 {
				rest.members = append(rest.members, at)
			}
		}
		if len(rest.members) > 0 {
			s.kinds, s.hits = append(s.kinds, rest), append(s.hits, 0)
		}
	}
	if len(s.kinds) == 1 || len(s.kinds) > maxKinds {
		s.kinds, s.hits = nil, nil
	}
}

const fineFescue = "fine fescue"

// groupOf is the group of several grasses; empty where they are of several.
func groupOf(of []*species.Species) string {
	for _, sp := range of {
		if sp.Group != of[0].Group {
			return ""
		}
	}
	if len(of) == 0 {
		return ""
	}
	return of[0].Group
}
