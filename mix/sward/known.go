package sward

import (
	"math"

	"swardwright/species"
)

// Known is what a record tells of the lawns that one lawn may be.
type Known struct {
	Lawns  []Lawn
	stands [][]float64 // by lawn and zone: cover by grass of the pool
	shifts [][]shift   // by zone and grass of the pool
	zones  int

	// Traits are how far the figures of the grasses that were followed, by id, have moved from
	// what the tables leave open, in the mean.
	Traits map[string]species.Traits
}

// shift is how far the figures of a grass lie, in the middle of the lawns, from those of
// the tables: of logarithms, of the capacity's logit.
type shift struct{ capacity, claim, volunteer, gain, summer, winter float64 }

// Stands is what stands in a zone of a lawn, by grass of the pool.
func (k *Known) Stands(lawn, zone int) []float64 {
	return k.stands[lawn*k.zones+min(zone, k.zones-1)]
}

// Pick is which of its lawns is one of so many, evenly.
func (k *Known) Pick(i, of int) int { return i * len(k.Lawns) / of }

// MeanStand is the mean of that over the lawns.
func (k *Known) MeanStand(zone int) []float64 {
	out := make([]float64, len(k.Stands(0, zone)))
	for i := range k.Lawns {
		for g, x := range k.Stands(i, zone) {
			out[g] += x / float64(len(k.Lawns))
		}
	}
	return out
}

// Know takes the lawns of a record in place of those drawn: as many of them, evenly.
func (e *Ensemble) Know(k *Known) {
	for i := range e.Lawns {
		start := e.Lawns[i].Start
		e.Lawns[i] = k.Lawns[k.Pick(i, len(e.Lawns))]
		e.Lawns[i].Start = start
		e.Lawns[i].Grass = append([]*Draws(nil), e.Lawns[i].Grass...)
	}
	clear(e.traits)
	e.scales = Seen()
	e.read()
}

// Know moves the figures of the grasses as the record has moved them.
func (f *Field) Know(k *Known) {
	f.ownKind = ownKind
	for i := range f.Zones {
		z := &f.Zones[i]
		for g, s := range k.shifts[min(i, k.zones-1)] {
			if s == (shift{}) {
				continue
			}
			z.Capacity[g] = odds(z.Capacity[g], s.capacity)
			z.Claim[g] *= math.Exp(s.claim)
			z.Volunteer[g] *= math.Exp(s.volunteer)
			n := len(f.IDs)
			for y := range f.Years {
				at := y*n + g
				z.Gain[at] *= float32(math.Exp(s.gain))
				z.Summer[at] = min(1, z.Summer[at]*float32(math.Exp(s.summer)))
				z.Winter[at] = min(1, z.Winter[at]*float32(math.Exp(s.winter)))
				if z.First != nil {
					z.First.Gain[at] *= float32(math.Exp(s.gain))
					z.First.Summer[at] = min(1, z.First.Summer[at]*float32(math.Exp(s.summer)))
				}
			}
		}
	}
}

// odds is a share with its log-odds shifted.
func odds(p, by float64) float64 {
	if p <= 0 || p >= 1 {
		return p
	}
	return 1 / (1 + (1-p)/p*math.Exp(-by))
}

// Known sums up what is left of a past: n lawns, of each the lawn of the ensemble that it is
// drawn from, what sets it apart and what stands of it at a moment.
func (p *Past) Known(of []int, z, runs [][]float64, now int) *Known {
	zones, pool := len(p.opens), len(p.e.pool)
	k := &Known{zones: zones, Lawns: make([]Lawn, len(of)), stands: make([][]float64, len(of)*zones)}
	for i := range of {
		k.Lawns[i] = p.lawn(i%len(p.e.Lawns), of[i], z[i])
		for zone := range zones {
			stand := make([]float64, pool)
			for at, x := range p.Covers(runs[i], now, zone) {
				stand[p.Grass[at]] = x
			}
			k.stands[i*zones+zone] = stand
		}
	}
	k.Traits = map[string]species.Traits{}
	for _, g := range p.Grass {
		sp := p.e.pool[g]
		var moved species.Traits
		add := func(lawn int, weight float64) {
			for i, x := range sp.At(&p.e.Lawns[lawn].Grass[g].Traits) {
				moved[i] += weight * x
			}
		}
		for _, lawn := range of {
			add(lawn, 1/float64(len(of)))
		}
		for lawn := range p.e.Lawns {
			add(lawn, -1/float64(len(p.e.Lawns)))
		}
		k.Traits[sp.ID] = moved
	}
	k.shifts = make([][]shift, zones)
	for zone := range zones {
		k.shifts[zone] = p.shiftsIn(zone, of, z)
	}
	return k
}

// shiftsIn are those of the grasses held; of all others the lawn's alone.
func (p *Past) shiftsIn(zone int, of []int, z [][]float64) []shift {
	out := make([]shift, len(p.e.pool))
	lawns, n := len(p.e.Lawns), len(p.Grass)
	var lawn shift
	each := 1 / float64(len(of))
	for i := range of {
		scale := tailsOf(z[i])
		lawn.capacity += each * scale * coverSD * shared(z[i][atCover], p.ownCover(z[i], zone))
		lawn.volunteer += each * scale * volunteerSD * z[i][atVolunteers]
	}
	for g := range out {
		out[g] = lawn
	}
	logs := func(c *pastColumn) (s shift) {
		s.capacity = logitOf(c.capacity)
		s.claim, s.volunteer = logOf(c.claim), 0
		if c.volunteer > 0 {
			s.volunteer = math.Log(c.volunteer)
		}
		for t := range p.years {
			s.gain += math.Log(c.gain[t]) / float64(p.years)
			s.summer += logOf(c.summer[t]) / float64(p.years)
			s.winter += logOf(c.winter[t]) / float64(p.years)
		}
		return s
	}
	for k, g := range p.Grass {
		add := func(s shift, w float64) {
			o := &out[g]
			o.capacity += w * s.capacity
			o.claim += w * s.claim
			o.volunteer += w * s.volunteer
			o.gain += w * s.gain
			o.summer += w * s.summer
			o.winter += w * s.winter
		}
		all := make([]shift, lawns)
		for b := range all {
			all[b] = logs(&p.base[(zone*n+k)*lawns+b])
			add(all[b], -1/float64(lawns))
		}
		for i := range of {
			establish, merit := p.apart(z[i], k, zone)
			grass := tailsOf(z[i]) / math.Sqrt2
			add(all[of[i]], each)
			add(shift{claim: grass * p.Scales.Establish * establish, gain: grass * p.Scales.Merit * merit / 2}, each)
		}
	}
	return out
}

func logitOf(x float64) float64 {
	x = min(1-leastFit, max(leastFit, x))
	return math.Log(x / (1 - x))
}
