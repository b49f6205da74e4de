package record

import (
	"bufio"
	"context"
	"flag"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"swardwright/mix/internal/place"
	"swardwright/mix/sward"
	"swardwright/species"
)

var counts = flag.Int("counts", 1, "counts drawn of every ley")

// ley is one sown mixture of two grasses of testdata/leys.tsv.
type ley struct {
	site, station, one, other string
	sown                      float64    // of the two grasses' seed, the first
	share                     [3]float64 // of the two grasses; NaN: not followed so long
}

func leys(t *testing.T) []ley {
	f, err := os.Open("testdata/leys.tsv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var out []ley
	for s := bufio.NewScanner(f); s.Scan(); {
		c := strings.Split(s.Text(), "\t")
		if strings.HasPrefix(s.Text(), "#") || c[0] == "site" {
			continue
		}
		l := ley{site: c[0], station: c[1], one: c[2], other: c[3]}
		l.sown, err = strconv.ParseFloat(c[4], 64)
		for i := range l.share {
			l.share[i] = math.NaN()
			if c[5+i] != "" {
				p, err := strconv.ParseFloat(c[5+i], 64)
				if err != nil {
					t.Fatal(err)
				}
				l.share[i] = p / 100
			}
		}
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, l)
	}
	return out
}

// score is how well shares were foretold.
type score struct{ err, width, holds, crps, n float64 }

func (s *score) add(values []float64, is float64) {
	v := slices.Sorted(slices.Values(values))
	n := float64(len(v))
	range80 := between(v)
	s.width += range80[1] - range80[0]
	if is >= range80[0] && is <= range80[1] {
		s.holds++
	}
	s.err += math.Abs(v[len(v)/2] - is)
	// The continuous ranked probability score of an ensemble (Gneiting & Raftery 2007).
	for i, x := range v {
		s.crps += math.Abs(x-is)/n - x*(2*float64(i)+1-n)/(n*n)
	}
	s.n++
}

func (s score) mean() score { return score{s.err / s.n, s.width / s.n, s.holds / s.n, s.crps / s.n, 1} }

// TestLeys foretells leys that were followed for three years (Kirwan et al. 2014, Ecology
// 95:2680, data) from what was sown, and from a hundred points of the first year: that
// must be a fifth better in the second year by the ranked probability score. It does not foretell the third, where it must not be
// worse by more than five sites can tell; a second count must make that better; and ranges of 8 in 10 must hold 0.65 to 0.95 of them. Scores are means of sites, so that none counts more than another.
func TestLeys(t *testing.T) {
	fullRate := map[string]float64{"timothy": 12, "smooth-stalked-meadow-grass": 18, "perennial-ryegrass": 28, "tall-fescue": 30} // kg/ha, common practice, no published source
	type by = map[string]*score                                                                                                   // by site
	nothing, first, both := [2]by{{}, {}}, [2]by{{}, {}}, by{}
	at := func(m by, site string) *score {
		if m[site] == nil {
			m[site] = &score{}
		}
		return m[site]
	}
	benches := map[string]bench{}
	random := rand.New(rand.NewPCG(21, 22))
	for _, x := range leys(t) {
		b, ok := benches[x.station]
		if !ok {
			b = newBench(t, place.Spot{Station: x.station, Years: 60})
			benches[x.station] = b
		}
		b.use = species.Use{Traffic: species.Light, MowingMM: 125, NitrogenGM2: new(6.0)}
		if x.one == "perennial-ryegrass" {
			b.use.NitrogenGM2 = new(12.0)
		}
		one, other := x.sown*fullRate[x.one], (1-x.sown)*fullRate[x.other]
		r := Record{Sown: []Sown{{Date: day("2021-05-10"), RateGM2: (one + other) / 10, Parts: b.parts(map[string]float64{x.one: one, x.other: other})}}}
		for _, on := range []string{"2021-09-15", "2022-09-15", "2023-09-15"} {
			r.Seen = append(r.Seen, Seen{Date: day(on), Points: 100, Layout: OnString, Grass: 100, Of: []Found{b.found(x.one, 60), b.found(x.other, 30)}})
		}
		l, err := prepare(b.site, b.table, b.use, r, sward.Moment{Year: 2023, Part: 0.9})
		if err != nil {
			t.Fatal(err)
		}
		shares := func(year int, runs [][]float64) []float64 {
			out := make([]float64, len(runs))
			for i, run := range runs {
				covers := l.covers(&l.seen[year], run)
				a, b := covers[l.seen[year].kinds[0].members[0]], covers[l.seen[year].kinds[1].members[0]]
				out[i] = a / (a + b)
			}
			return out
		}
		dates := l.dates
		for rep := range *counts {
			for year := range 2 {
				s := &l.seen[year]
				k := 0
				for range 100 {
					if random.Float64() < x.share[year] {
						k++
					}
				}
				s.hits = []int{k, 100 - k}
				if s.kinds[0].members[0] != l.index(x.one) {
					s.hits = []int{100 - k, k}
				}
				s.anything, s.anyOf = 1e3, anyCount(100, 2) // the cover of a ley tells nothing
			}
			flip := func(v float64) float64 {
				if l.seen[0].kinds[0].members[0] != l.index(x.one) {
					return 1 - v
				}
				return v
			}
			foretold := func(known int) ([][]float64, [][]float64) {
				l.dates = dates[:known+1]
				all, alone, _, err := l.weigh(context.Background(), 400, uint64(rep))
				if err != nil {
					t.Fatal(err)
				}
				return l.runs(all, 3), alone
			}
			runs, alone := foretold(1)
			for year := 1; year < 3; year++ {
				if math.IsNaN(x.share[year]) {
					continue
				}
				at(nothing[year-1], x.site).add(shares(year, alone), flip(x.share[year]))
				at(first[year-1], x.site).add(shares(year, runs), flip(x.share[year]))
			}
			if !math.IsNaN(x.share[2]) {
				runs, _ = foretold(2)
				at(both, x.site).add(shares(2, runs), flip(x.share[2]))
			}
		}
	}
	mean := func(name string, of by) score {
		var s score
		for _, site := range slices.Sorted(maps.Keys(of)) {
			m := of[site].mean()
			s = score{s.err + m.err, s.width + m.width, s.holds + m.holds, s.crps + m.crps, s.n + 1}
		}
		s = s.mean()
		t.Logf("%-32s error %4.1f, width of 8 in 10 %4.1f, holds %.2f, score %4.1f", name, 100*s.err, 100*s.width, s.holds, 100*s.crps)
		return s
	}
	none2, none3 := mean("year 2, nothing counted", nothing[0]), mean("year 3, nothing counted", nothing[1])
	one2, one3 := mean("year 2, 100 points in year 1", first[0]), mean("year 3, 100 points in year 1", first[1])
	two3 := mean("year 3, 100 in years 1 and 2", both)
	if one2.crps > 0.82*none2.crps {
		t.Errorf("year 2: a count scores %.3f, nothing %.3f", one2.crps, none2.crps)
	}
	if one3.crps > 1.12*none3.crps || two3.crps > 0.95*none3.crps {
		t.Errorf("year 3: counts score %.3f and %.3f, nothing %.3f", one3.crps, two3.crps, none3.crps)
	}
	for _, s := range []score{none2, one2, none3, one3, two3} {
		if s.holds < 0.65 || s.holds > 0.95 {
			t.Errorf("ranges of 8 in 10 hold %.2f", s.holds)
		}
	}
}

// index is that of a grass among those held.
func (l *lawn) index(id string) int {
	return slices.IndexFunc(l.past.Grass, func(g int) bool { return l.pool[g].ID == id })
}
