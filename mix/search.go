package mix

import (
	"cmp"
	"context"
	"math"
	"slices"

	"swardwright/internal/steady"
	"swardwright/mix/practice"
	"swardwright/mix/sward"
	"swardwright/species"
)

// practiceWeight is what a mixture wholly against practice loses of its score. The
// scores of the better half of the grid are spread over about a fifth of that.
const practiceWeight = 0.5

const (
	stepPercent = 5                 // shares are multiples of this
	units       = 100 / stepPercent // in a whole mixture
	maxParts    = 5                 // species in a mixture

	coarseUnits     = 5  // steps of the exhaustive grid, as units: 25 %
	coarseHistories = 10 // histories followed on the grid
	fineHistories   = 40 // and in the last refinement
	refined         = 5  // best points of the grid that are refined on as many histories
	polished        = 2  // best of them that are refined on more
	quickCandidates = 6  // of a rough search
)

// candidate is a species the search may use.
type candidate struct {
	species *species.Species
	pool    int // its index in the field
	lot     *Lot
	pls     float64
	cap     int     // most units it may have
	price   float64 // of its seed over the mean price of all candidates
}

// problem is one search: a field, what may be sown on it and how it is judged.
type problem struct {
	field      *sward.Field
	candidates []candidate // by id
	leafMM     []float64   // by grass of the field
	pale       []float64   // by grass of the field: how far it stands out
	even       float64     // least evenness that the grade asks
	group      []string    // by grass of the field
	grade      species.Grade
	weights    weights
	looks      []float64 // by grass of the field: look fit for the grade
	rateGM2    float64   // fixed; 0: by seed count
	meadow     bool
	rate       float64 // of the rate for bare ground, 0 to 1
	seedbed    float64
	season     float64
	winter     bool
	practice   *practice.Prior
	rough      bool // the best point of the grid, refined on its few histories, will do
	uncapped   bool
}

// shares is a mixture as units by candidate; it is compared and used as a key.
type shares [maxCandidates]uint8

// maxCandidates bounds the candidates of one search.
const maxCandidates = 10

// tried is a mixture with what it becomes.
type tried struct {
	shares  shares
	sowing  sward.Sowing
	outcome sward.Outcome
	density Density

	evenness, fineness, diverse float64
	against                     float64 // published practice, 0 to 1
	score                       float64
}

// trial evaluates mixtures on one set of histories and remembers their scores.
type trial struct {
	*problem
	follower sward.Follower
	scores   map[shares]float64
	wide     bool   // exchanges among three species as well
	sieve    *trial // on fewer histories: what is clearly worse there is not tried; nil: none
}

func (p *problem) trial(histories int) *trial {
	return &trial{
		problem:  p,
		follower: sward.Follower{Field: p.field, Starts: sward.Starts(p.field.Years, histories)},
		scores:   map[shares]float64{},
	}
}

// parts is a mixture as species and percent.
func (p *problem) parts(s shares) (parts []Part, pls []float64, pool []int) {
	for i, u := range s {
		if u > 0 {
			c := &p.candidates[i]
			parts = append(parts, Part{c.species, float64(u) * stepPercent})
			pls = append(pls, c.pls)
			pool = append(pool, c.pool)
		}
	}
	return parts, pls, pool
}

// try follows one mixture.
func (t *trial) try(s shares) tried {
	parts, pls, pool := t.parts(s)
	var price float64
	for i, u := range s {
		if u > 0 {
			price += float64(u) / units * t.candidates[i].price
		}
	}
	return t.judge(parts, pls, pool, price, s)
}

// judge follows any parts, which must be in the order of the pool.
func (t *trial) judge(parts []Part, pls []float64, pool []int, price float64, s shares) tried {
	d := Sow(parts, pls, t.grade, t.rateGM2)
	switch {
	case t.rateGM2 > 0:
	case t.meadow && d.RateGM2 > MostMeadowGM2:
		d = Sow(parts, pls, t.grade, MostMeadowGM2)
	case t.rate < 1:
		d = Sow(parts, pls, t.grade, d.RateGM2*t.rate)
	}
	plants := make([]float64, len(parts))
	for i, p := range parts {
		plants[i] = d.Viable[i] * p.Species.Values[species.FieldEmergence].Best * t.seedbed
	}
	r := tried{shares: s, density: d, sowing: sward.Sowing{Grass: pool, Plants: plants, Season: t.season, Winter: t.winter}}
	o := t.follower.Follow(&r.sowing)
	r.outcome = o
	r.diverse = diversity(o.Shares, t.follower.Worth(), t.group)
	r.evenness, r.fineness = look(o.Life, t.leafMM, t.pale, t.looks)
	r.against = t.practice.Against(pool, percents(parts))
	r.score = t.weights.score(&o, r.evenness, r.fineness, thrift(parts, pool, o.Life), r.diverse, d.RateGM2*price) -
		eachMore*float64(len(parts)-1) - uneven*max(0, t.even-r.evenness) - practiceWeight*r.against
	r.score = steady.Figure(r.score)
	return r
}

// percents are the shares of parts.
func percents(parts []Part) []float64 {
	out := make([]float64, len(parts))
	for i, p := range parts {
		out[i] = p.Percent
	}
	return out
}

func (t *trial) score(s shares) float64 {
	v, ok := t.scores[s]
	if !ok {
		v = t.try(s).score
		t.scores[s] = v
	}
	return v
}

// allowed reports whether a mixture keeps to the caps and to the number of parts.
func (p *problem) allowed(s shares) bool {
	parts := 0
	for i, u := range s {
		if u == 0 {
			continue
		}
		parts++
		if int(u) > p.candidates[i].cap && !p.uncapped {
			return false
		}
	}
	return parts <= maxParts
}

// grid calls f with every allowed mixture in steps of step units.
func (p *problem) grid(step int, f func(shares)) {
	var s shares
	var fill func(i, left, parts int)
	fill = func(i, left, parts int) {
		if left == 0 {
			if p.allowed(s) {
				f(s)
			}
			return
		}
		if i == len(p.candidates) || parts == maxParts {
			return
		}
		fill(i+1, left, parts)
		for u := step; u <= left; u += step {
			s[i] = uint8(u)
			fill(i+1, left-u, parts+1)
		}
		s[i] = 0
	}
	fill(0, units, 0)
}

// better orders mixtures by score, then by shares, so that the order in which
// they were met never shows.
func better(a, b ranked) int {
	return cmp.Or(cmp.Compare(b.score, a.score), -slices.Compare(a.shares[:], b.shares[:]))
}

type ranked struct {
	shares shares
	score  float64
}

// found is the best mixture and the trials it was found in; a rough search has no
// fine one.
type found struct {
	shares
	coarse, fine *trial
}

// search finds the best mixture: every point of a coarse grid, then exchanges of
// one step and more between two species from the best points until none helps,
// first on the few histories of the grid and then, from the best, on more. ok is
// false when nothing is allowed.
func (p *problem) search(ctx context.Context) (best found, ok bool, err error) {
	if len(p.candidates) == 0 {
		return best, false, nil
	}
	coarse := p.trial(coarseHistories)
	best.coarse = coarse
	var points []ranked
	add := func(s shares) { points = append(points, ranked{s, coarse.score(s)}) }
	p.grid(coarseUnits, add)
	if len(points) == 0 { // few species under tight caps
		p.grid(1, add)
	}
	if len(points) == 0 { // fewer than the caps leave room for
		p.uncapped = true
		p.grid(coarseUnits, add)
	}
	slices.SortFunc(points, better)
	most := refined
	if p.rough {
		most = 1
	}
	tops := points[:min(most, len(points))]
	for i := range tops {
		if err := ctx.Err(); err != nil {
			return best, false, err
		}
		tops[i] = coarse.climb(tops[i])
	}
	slices.SortFunc(tops, better)
	tops = slices.CompactFunc(tops, func(a, b ranked) bool { return a.shares == b.shares })

	if p.rough {
		best.shares = tops[0].shares
		return best, true, nil
	}
	fine := p.trial(fineHistories)
	fine.wide, fine.sieve = true, coarse
	var top ranked
	for i, start := range tops[:min(polished, len(tops))] {
		r := fine.climb(ranked{start.shares, fine.score(start.shares)})
		if i == 0 || better(r, top) < 0 {
			top = r
		}
	}
	best.shares, best.fine = top.shares, fine
	return best, true, nil
}

// climb exchanges units between species while that helps: always the best of all
// exchanges of any size between two species and, in a wide trial, of a unit or two
// among three.
// Nearly all of the search goes through these loops, so they stand in one piece.
//
//gocyclo:ignore
func (t *trial) climb(at ranked) ranked {
	for {
		next := at
		least := math.Inf(-1)
		if t.sieve != nil {
			least = t.sieve.score(at.shares) - sieveSlack
		}
		consider := func(s shares) {
			if t.allowed(s) && (t.sieve == nil || t.sieve.score(s) >= least) {
				if r := (ranked{s, t.score(s)}); better(r, next) < 0 {
					next = r
				}
			}
		}
		for i := range t.candidates {
			if at.shares[i] == 0 {
				continue
			}
			for j := range t.candidates {
				if i == j {
					continue
				}
				for _, u := range [...]uint8{1, 2, 3, 5, 10, at.shares[i]} {
					if u > at.shares[i] {
						break
					}
					s := at.shares
					s[i] -= u
					s[j] += u
					consider(s)
				}
				for k := range j {
					if k == i || !t.wide {
						continue
					}
					if s := at.shares; s[i] >= 2 { // one gives to two
						s[i] -= 2
						s[j]++
						s[k]++
						consider(s)
					}
					if s := at.shares; s[k] > 0 { // two give to one
						s[i]--
						s[k]--
						s[j] += 2
						consider(s)
					}
					if s := at.shares; s[j] > 0 {
						s[i]--
						s[j]--
						s[k] += 2
						consider(s)
					}
				}
			}
		}
		if next.score <= at.score+minGain {
			return at
		}
		at = next
	}
}

// sieveSlack is how much worse than the mixture in hand an exchange may look on the
// few histories of the grid and still be tried on more. The gain of an exchange of one
// step differs between the two by at most 0.001 to 0.005 where grass does well, and by
// 0.02 where it does badly (five places, every point of the grid).
const sieveSlack = 0.005

// minGain is the gain in score an exchange must bring: less is noise.
const minGain = 1e-6
