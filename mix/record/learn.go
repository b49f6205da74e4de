package record

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"time"

	"swardwright/internal/steady"
	"swardwright/internal/told"
	"swardwright/mix/sward"
	"swardwright/site"
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
	Alone *sward.Known // the same lawns by the tables and what was sown alone
	Rows  []Row        // by date
	Next  []Outlook    // by zone: a season on, nothing sown

	// Light is the factor that the record puts on the light of the site, the mean of the lawns;
	// 1 where nobody saw the sun.
	Light float64
}

// Row is one thing seen, beside what was expected of it.
type Row struct {
	Seen     *Seen
	What     What
	Of       string // for [Share]: the grasses, as written
	Zone     string // letter; empty: the whole lawn
	Found    float64
	Range    [2]float64 // of what was found: 95 %
	Expected [2]float64 // before it was found: 8 in 10; of a share with the scatter of one day's count
	Now      [2]float64 // of the same, with the whole record
	Surprise float64    // share of what might have been found that was no likelier
	Alone    float64    // the same by the tables alone
	Zones    []float64  // for Cover: the same were it another zone's

	shown told.Figure // Of as the reader's language has it
}

// What is what a row is about.
type What string

// What a row may be about.
const (
	Cover     What = "cover"      // of grass, share of the ground
	Share     What = "share"      // of the grass
	Emergence What = "emergence"  // days from sowing until half of the seedlings are up
	FirstCut  What = "first_cut"  // days from sowing to it
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
	known := func(all []member, runs [][]float64, each int) *sward.Known {
		of, z, taken := make([]int, kept), make([][]float64, kept), make([][]float64, kept)
		for i := range of {
			of[i], z[i], taken[i] = all[i*each].of, all[i*each].z, runs[i*each]
		}
		return l.past.Known(of, z, taken, l.now)
	}
	return &Learned{
		Known: known(all, after, members/kept), Alone: known(l.draw(rand.New(rand.NewPCG(seed, stream)), kept), alone, 1),
		Rows: rows, Next: l.outlooks(after, alone), Light: l.light(all),
	}, nil
}

// draw draws so many members, as lawns are of which nothing was seen.
func (l *lawn) draw(random *rand.Rand, n int) []member {
	all := make([]member, n)
	for i := range all {
		all[i] = member{of: i % drawn, z: normals(random, l.dim), run: make([]float64, l.past.Size())}
	}
	return all
}

// light is the factor on the site's light by what was seen of the sun, 1 where nothing was: what
// grass alone tells of it goes into the chances, and no further.
func (l *lawn) light(all []member) float64 {
	if !slices.ContainsFunc(l.seen, func(s sighting) bool { return s.SunHours != nil }) {
		return 1
	}
	sum := 0.0
	for i := range all {
		sum += math.Log(l.past.Light(all[i].of))
	}
	return steady.Figure(math.Exp(sum / float64(len(all))))
}

// weigh draws so many members and takes in the record, date by date. It gives back also what
// the members showed at first, and what was expected of every finding before it.
func (l *lawn) weigh(ctx context.Context, n int, stream uint64) (all []member, alone [][]float64, rows []Row, err error) {
	random := rand.New(rand.NewPCG(seed, stream))
	all = l.draw(random, n)
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

// normals are n draws of a standard normal.
func normals(r *rand.Rand, n int) []float64 {
	z := make([]float64, n)
	for i := range z {
		z[i] = r.NormFloat64()
	}
	return z
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
