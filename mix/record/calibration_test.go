package record

import (
	"context"
	"flag"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"swardwright/mix/internal/place"
	"swardwright/mix/sward"
)

var replicates = flag.Int("replicates", 100, "lawns that the calibration is checked on")

// TestCalibration is simulation-based calibration (Talts, Betancourt, Simpson, Vehtari &
// Gelman 2018, arXiv 1804.06788; Cook, Gelman & Rubin 2006): lawns are drawn from what is
// expected before anything is seen, counted, and inferred from the counts; the rank of the truth
// among what is inferred is then uniform. Held against it by chi-square on 20 bins, at
// one in a thousand for each of four figures (43.8 for 19 degrees of freedom).
func TestCalibration(t *testing.T) {
	const bins, limit, thin = 20, 43.8, 40
	n := *replicates
	if testing.Short() {
		n = 40
	}
	b := newBench(t, place.Spot{Station: "Göteborg", SunHours: 5, Years: 60})
	growing := sward.GrowingOf(b.site)
	l, err := prepare(b.site, b.table, b.use, b.example(), growing.At(day("2026-08-20")))
	if err != nil {
		t.Fatal(err)
	}
	fescue := slices.Index(l.past.Grass, slices.Index(l.pool, b.table.ByID("chewings-fescue")))
	merit := func(m *member) float64 { return l.past.Merit(m.z, fescue, 0) }
	figures := []struct {
		name string
		of   func(m *member, run []float64) float64
	}{
		{"cover at the last count", func(_ *member, run []float64) float64 { return l.coverOf(&l.seen[1], [][]float64{run})[0] }},
		{"fescue of it", func(_ *member, run []float64) float64 { return l.shareOf(&l.seen[1], 0, [][]float64{run})[0] }},
		{"fescue's merit", func(m *member, _ []float64) float64 { return merit(m) }},
		{"cover a season on", func(_ *member, run []float64) float64 {
			sum := 0.0
			for _, x := range l.past.Covers(run, l.ahead, 0) {
				sum += x
			}
			return sum
		}},
	}
	counts := make([][bins]int, len(figures))
	holds := make([]float64, len(figures))
	r := rand.New(rand.NewPCG(11, 12))
	for rep := range n {
		truth := member{of: r.IntN(drawn), z: normals(r, l.dim), run: make([]float64, l.past.Size())}
		l.past.Run(truth.of, truth.z, l.ahead+1, truth.run)
		for i := range l.seen {
			l.count(r, &l.seen[i], truth.run)
		}
		all, _, _, err := l.weigh(context.Background(), bins*thin, uint64(rep))
		if err != nil {
			t.Fatal(err)
		}
		runs := l.runs(all, l.ahead+1)
		for f, x := range figures {
			is, rank, under := x.of(&truth, truth.run), 0, 0.0
			for i := range all {
				v := x.of(&all[i], runs[i])
				if i%thin == 0 && i > 0 && v < is {
					rank++
				}
				if v < is {
					under += 1 / float64(len(all))
				}
			}
			counts[f][rank]++
			if under >= low && under <= high {
				holds[f] += 1 / float64(n)
			}
		}
	}
	for f, x := range figures {
		chi, want := 0.0, float64(n)/bins
		for _, c := range counts[f] {
			chi += (float64(c) - want) * (float64(c) - want) / want
		}
		t.Logf("%-24s chi-square %.1f of 19, 80 %% ranges hold %.2f", x.name, chi, holds[f])
		if chi > limit {
			t.Errorf("%s: ranks %v are not uniform, chi-square %.1f", x.name, counts[f], chi)
		}
		if sd := math.Sqrt(0.16 / float64(n)); math.Abs(holds[f]-0.8) > 4*sd {
			t.Errorf("%s: 80 %% ranges hold %.2f", x.name, holds[f])
		}
	}
}

// count draws what would be counted on a lawn, the guard's twentieth of anything included.
func (l *lawn) count(r *rand.Rand, s *sighting, run []float64) {
	covers, cover := l.covers(s, run), 0.0
	for _, x := range covers {
		cover += x
	}
	s.Grass = r.IntN(s.Points + 1)
	if r.Float64() >= flat {
		s.Grass = draw(r, s.Points, []float64{cover, 1 - cover}, s.design)[0]
	}
	if r.Float64() >= flat {
		s.hits = draw(r, s.Grass, s.shares(covers, nil), mixed(s.Grass, s.design))
	} else {
		k := float64(len(s.kinds))
		// Any composition is as likely where the concentration is the number of kinds.
		s.hits = draw(r, s.Grass, slices.Repeat([]float64{1 / k}, len(s.kinds)), (float64(s.Grass)+k)/(1+k))
	}
	s.anything, s.anyOf = anyCount(s.Points, 2), anyCount(s.Grass, len(s.kinds))
	s.ofDesign = mixed(s.Grass, s.design)
}

// draw is one Dirichlet-multinomial draw.
func draw(r *rand.Rand, n int, shares []float64, design float64) []int {
	hits := make([]int, len(shares))
	conc := concentration(n, design)
	p := slices.Clone(shares)
	if !math.IsInf(conc, 1) {
		for i := range p {
			p[i] = gamma(r, conc*max(shares[i], leastShare))
		}
	}
	sum := 0.0
	for _, x := range p {
		sum += x
	}
	for range n {
		u := r.Float64() * sum
		k := 0
		for k < len(p)-1 && u >= p[k] {
			u -= p[k]
			k++
		}
		hits[k]++
	}
	return hits
}

// gamma is a draw of shape a (Marsaglia & Tsang 2000).
func gamma(r *rand.Rand, a float64) float64 {
	if a < 1 {
		return gamma(r, a+1) * math.Pow(r.Float64(), 1/a)
	}
	d := a - 1.0/3
	c := 1 / math.Sqrt(9*d)
	for {
		x := r.NormFloat64()
		v := 1 + c*x
		if v <= 0 {
			continue
		}
		v = v * v * v
		if math.Log(r.Float64()) < x*x/2+d-d*v+d*math.Log(v) {
			return d * v
		}
	}
}
