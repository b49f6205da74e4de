package money

import (
	"cmp"
	"context"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"swardwright/internal/steady"
)

// draws is the size of the Monte Carlo. With stratified draws of each cause P10
// and P90 stand to well under one per cent of the total.
const draws = 4000

// pertMean is the mean of a three-point estimate (o + 4m + p)/6, by D. G. Malcolm
// et al., Operations Research 7 (1959) 646.
func pertMean(low, likely, high float64) float64 { return (low + 4*likely + high) / 6 }

// spread is a three-point estimate as a beta distribution whose mean µ is
// PERTMean: α = 6(µ−o)/(p−o) = 1 + 4(m−o)/(p−o), β = 6 − α. Its variance is
// (µ−o)(p−µ)/7; the ((p−o)/6)² of the 1959 paper is that of certain shapes only.
type spread struct {
	low, high float64
	quantiles [spreadSteps + 1]float64 // of the unit interval
}

const (
	spreadSteps = 256  // of the table of quantiles
	densitySize = 2048 // of the integration
)

// logs are the logarithms of the middles of the integration's steps.
var logs = func() (logs [densitySize]float64) {
	for i := range logs {
		logs[i] = math.Log((float64(i) + 0.5) / densitySize)
	}
	return logs
}()

// newSpread is the distribution of a factor whose likeliest value is 1.
func newSpread(low, high float64) *spread {
	s := &spread{low: min(low, 1), high: max(high, 1)}
	if s.low == s.high {
		return s
	}
	alpha := 6 * (pertMean(s.low, 1, s.high) - s.low) / (s.high - s.low)
	beta := 6 - alpha
	cumulative := make([]float64, densitySize+1)
	for i, log := range logs {
		cumulative[i+1] = cumulative[i] + steady.Exp((alpha-1)*log+(beta-1)*logs[densitySize-1-i])
	}
	total := cumulative[densitySize]
	at := 0
	for q := range s.quantiles {
		want := total * float64(q) / spreadSteps
		for at < densitySize-1 && cumulative[at+1] < want {
			at++
		}
		s.quantiles[q] = float64(at) / densitySize
		if step := cumulative[at+1] - cumulative[at]; step > 0 {
			s.quantiles[q] += (want - cumulative[at]) / step / densitySize
		}
	}
	s.quantiles[spreadSteps] = 1
	return s
}

// at is the factor at a quantile of 0 to 1.
func (s *spread) at(u float64) float64 {
	if s.low == s.high {
		return 1
	}
	f := u * spreadSteps
	i := min(int(f), spreadSteps-1)
	x := s.quantiles[i] + (f-float64(i))*(s.quantiles[i+1]-s.quantiles[i])
	return s.low + x*(s.high-s.low)
}

// varying is a bill ready to be drawn: what is fixed, and what moves with which
// cause. Lines of one cause move as one, which is the careful assumption: the
// spread of the total is never understated for want of correlation.
type varying struct {
	fixed  float64 // minor units, net
	gross  float64 // total over net
	causes []cause
}

type cause struct {
	name   string
	lines  []varyingLine
	column []float64 // the quantile in each draw
}

type varyingLine struct {
	amount  float64
	spread  *spread
	retry   bool    // falls due with each failed attempt
	success float64 // of one
	repeat  float64
}

// at is what the line comes to at a quantile of its cause. Attempts fail in the
// worst of the weather: k of them in the share (1 − success)^k of the draws.
func (l varyingLine) at(u float64) float64 {
	if !l.retry {
		return l.amount * l.spread.at(u)
	}
	sum, failed := 0.0, 1-l.success
	for range mostAttempts {
		if 1-u >= failed {
			break
		}
		sum += l.repeat
		failed *= 1 - l.success
	}
	return sum
}

// at is a cause's part of the net sum.
func (c cause) at(u float64) (sum float64) {
	for _, l := range c.lines {
		sum += l.at(u)
	}
	return sum
}

// likely is a cause's part of the net sum as billed.
func (c cause) likely() (sum float64) {
	for _, l := range c.lines {
		sum += l.amount
	}
	return sum
}

// vary makes a bill ready to be drawn.
func (b Bill) vary(seed uint64) varying {
	v := varying{gross: 1}
	if b.Net.Minor != 0 {
		v.gross = b.Total.float() / b.Net.float()
	}
	spreads := map[[2]float64]*spread{}
	for _, l := range b.Lines {
		amount := float64(l.Amount.Minor)
		if l.Cause == "" {
			v.fixed += amount
			continue
		}
		key := [2]float64{l.Low, l.High}
		if spreads[key] == nil {
			spreads[key] = newSpread(l.Low, l.High)
		}
		i := slices.IndexFunc(v.causes, func(c cause) bool { return c.name == l.Cause })
		if i < 0 {
			i = len(v.causes)
			v.causes = append(v.causes, cause{name: l.Cause, column: column(l.Cause, seed)})
		}
		v.causes[i].lines = append(v.causes[i].lines, varyingLine{amount, spreads[key], l.retry, l.success, l.repeat})
	}
	slices.SortFunc(v.causes, func(a, b cause) int { return strings.Compare(a.name, b.name) })
	return v
}

// column are the quantiles of one cause, one a draw: stratified, in an order set
// by the seed and the cause's name, so that a cause is the same in every bill.
func column(name string, seed uint64) []float64 {
	h := fnv.New64a()
	h.Write([]byte(name))
	rng := rand.New(rand.NewPCG(seed, h.Sum64()))
	out := make([]float64, draws)
	for i, j := range rng.Perm(draws) {
		out[i] = (float64(j) + rng.Float64()) / draws
	}
	return out
}

// sample draws the totals of a bill, in minor units.
func (v varying) sample(ctx context.Context) ([]float64, error) {
	out := make([]float64, draws)
	for i := range out {
		if i%512 == 0 && ctx.Err() != nil {
			return nil, ctx.Err()
		}
		net := v.fixed
		for _, c := range v.causes {
			net += c.at(c.column[i])
		}
		out[i] = net * v.gross
	}
	return out, nil
}

// drivers are the causes with what each does to the total alone.
func (v varying) drivers(b Bill) []Driver {
	var out []Driver
	for _, c := range v.causes {
		total := func(u float64) Amount {
			return Amount{b.Total.Minor + int64(steady.Round((c.at(u)-c.likely())*v.gross, 0)), b.Total.Currency}
		}
		if d := (Driver{c.name, total(0.1), total(0.9)}); d.Low != d.High {
			out = append(out, d)
		}
	}
	reach := func(d Driver) int64 { return max(d.High.Minor-d.Low.Minor, d.Low.Minor-d.High.Minor) }
	slices.SortStableFunc(out, func(a, b Driver) int { return cmp.Compare(reach(b), reach(a)) })
	return out
}

// percentile is the nearest-rank percentile of sorted draws, in minor units.
func percentile(sorted []float64, p float64, code string) Amount {
	i := min(max(int(math.Ceil(p*float64(len(sorted))))-1, 0), len(sorted)-1)
	return Amount{int64(steady.Round(sorted[i], 0)), code}
}
