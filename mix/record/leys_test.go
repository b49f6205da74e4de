package record

import (
	"bufio"
	"cmp"
	"context"
	"flag"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/samber/lo"

	"swardwright/mix/internal/place"
	"swardwright/mix/sward"
	"swardwright/species"
)

var (
	counts = flag.Int("counts", 1, "counts drawn of every ley")
	refit  = flag.Bool("refit", false, "fit the scales over a wide grid, each time without a site: minutes")
)

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

// forecast is a share as it is foretold: the chance that it is no more than each hundredth.
type forecast [101]float32

// forecastOf is that of values with weights that add up to one.
func forecastOf(values, weights []float64) *forecast {
	var each [101]float64
	for i, x := range values {
		each[int(math.Ceil(100*min(1, max(0, x))))] += weights[i]
	}
	f, sum := new(forecast), 0.0
	for k, x := range each {
		sum += x
		f[k] = float32(sum)
	}
	return f
}

// add mixes another one in.
func (f *forecast) add(o *forecast, weight float64) {
	for k, x := range o {
		f[k] += float32(weight) * x
	}
}

// at is the share below which it lies with a chance.
func (f *forecast) at(chance float64) float64 {
	k := slices.IndexFunc(f[:], func(x float32) bool { return float64(x) >= chance })
	if k <= 0 {
		return float64(-k)
	}
	low, high := float64(f[k-1]), float64(f[k])
	return (float64(k-1) + (chance-low)/(high-low)) / 100
}

// crps is the continuous ranked probability score (Gneiting & Raftery 2007) of what came.
func (f *forecast) crps(is float64) (sum float64) {
	for k := range 100 {
		below := float64(f[k]+f[k+1]) / 2
		past := min(1, max(0, float64(k+1)-100*is)) // of this hundredth, what lies past what came
		sum += (past*(below-1)*(below-1) + (1-past)*below*below) / 100
	}
	return sum
}

// log is the logarithmic score of what came: of the density within five hundredths of it, a twentieth flat.
func (f *forecast) log(is float64) float64 {
	low, high := max(0, int(math.Round(100*is))-5), min(100, int(math.Round(100*is))+5)
	return math.Log(0.95*float64(f[high]-f[low])*100/float64(high-low) + 0.05)
}

// score is how well shares were foretold.
type score struct{ err, width, holds, crps, log, n float64 }

// add takes in what was foretold and what came.
func (s *score) add(f *forecast, is float64) {
	from, to := f.at(low), f.at(high)
	s.width += to - from
	if is >= from && is <= to {
		s.holds++
	}
	s.err += math.Abs(f.at(0.5) - is)
	s.crps += f.crps(is)
	s.log += f.log(is)
	s.n++
}

func (s score) plus(o score) score {
	return score{s.err + o.err, s.width + o.width, s.holds + o.holds, s.crps + o.crps, s.log + o.log, s.n + o.n}
}

func (s score) mean() score {
	return score{s.err / s.n, s.width / s.n, s.holds / s.n, s.crps / s.n, s.log / s.n, 1}
}

// sown is a ley ready to be followed, with lawns that it may be.
type sown struct {
	ley
	lawn       *lawn
	one, other int // among the grasses held
	members    []member
}

// sowLeys makes every ley ready, with so many lawns each that it may be.
func sowLeys(t *testing.T, n int) (out []sown) {
	fullRate := map[string]float64{"timothy": 12, "smooth-stalked-meadow-grass": 18, "perennial-ryegrass": 28, "tall-fescue": 30} // kg/ha, common practice, no published source
	benches := map[string]bench{}
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
		s := sown{ley: x, lawn: l, one: l.index(x.one), other: l.index(x.other)}
		random := rand.New(rand.NewPCG(seed, stream))
		for i := range n {
			s.members = append(s.members, member{of: i % drawn, z: normals(random, l.dim), run: make([]float64, l.past.Size())})
		}
		out = append(out, s)
	}
	return out
}

// shares are those of the first grass in a year.
func (s *sown) shares(year int, runs [][]float64) []float64 {
	out := make([]float64, len(runs))
	for i, run := range runs {
		covers := s.lawn.covers(&s.lawn.seen[year], run)
		out[i] = covers[s.one] / (covers[s.one] + covers[s.other])
	}
	return out
}

// find puts the hits of a year's count in, of a hundred points k on the first grass.
func (s *sown) find(year, k int) {
	x := &s.lawn.seen[year]
	x.hits = []int{k, 100 - k}
	if x.kinds[0].members[0] != s.one {
		x.hits = []int{100 - k, k}
	}
	x.anything, x.anyOf = 1e3, anyCount(100, 2) // the cover of a ley tells nothing
}

// task is one thing to foretell: a year's share, by so many counts before it.
type task struct{ year, counts int }

// tasks are in the order in which they are told of; the year is from nought.
var tasks = []task{{1, 0}, {1, 1}, {2, 0}, {2, 1}, {2, 2}}

func (k task) String() string { return fmt.Sprintf("year %d, %d counts", k.year+1, k.counts) }

// scores are by task and site.
type scores [5]map[string]score

func (s *scores) add(k int, site string, f *forecast, is float64) {
	if math.IsNaN(is) {
		return
	}
	if s[k] == nil {
		s[k] = map[string]score{}
	}
	x := s[k][site]
	x.add(f, is)
	s[k][site] = x
}

// mean is that of a task over sites, but for those left out: none counts more than another.
func (s *scores) mean(k int, without string) (sum score) {
	for _, site := range slices.Sorted(maps.Keys(s[k])) {
		if site != without {
			sum = sum.plus(s[k][site].mean())
		}
	}
	return sum.mean()
}

// raw are the ranked probability scores of all tasks, means of sites: a site that is badly foretold whatever
// the scales counts most.
func (s *scores) raw(_ *scores, without string) (sum float64) {
	for k := range tasks {
		sum += s.mean(k, without).crps
	}
	return sum
}

// relative are the same, each as a part of what the site's own is by base with nothing counted, so that sites count alike.
func (s *scores) relative(base *scores, without string) (sum float64) {
	for k, of := range tasks {
		part, n := 0.0, 0.0
		for site, x := range s[k] {
			if site != without {
				part += x.mean().crps / base[k-of.counts][site].mean().crps
				n++
			}
		}
		sum += part / n
	}
	return sum
}

// logs are the logarithmic scores of a site, mean of its tasks.
func (s *scores) logs(site string) float64 {
	sum, n := 0.0, 0.0
	for k := range tasks {
		if x, ok := s[k][site]; ok {
			sum += x.mean().log
			n++
		}
	}
	return sum / n
}

// less is by how much of its mean a score lies over another, over sites, with the standard error of that.
func less(a, b map[string]score) (by, se float64) {
	var differ []float64
	base := 0.0
	for _, site := range slices.Sorted(maps.Keys(a)) {
		differ = append(differ, a[site].mean().crps-b[site].mean().crps)
		base += b[site].mean().crps
	}
	n := float64(len(differ))
	mean := lo.Sum(differ) / n
	square := 0.0
	for _, d := range differ {
		square += (d - mean) * (d - mean)
	}
	return mean / (base / n), math.Sqrt(square/(n-1)/n) / (base / n)
}

// even are weights that are all alike.
func even(n int) []float64 { return slices.Repeat([]float64{1 / float64(n)}, n) }

// TestLeys foretells leys that were followed for three years (Kirwan et al. 2014, Ecology
// 95:2680, data) from what was sown, and from a hundred points of the first year. Held against what a plan
// without a record says, that must be a fifth better in the second year by the ranked probability score and
// better in the third, by two counts as well; against the same lawns with nothing counted it must be
// better in the second, and in the third not worse by more than five sites can tell. Ranges of 8 in 10
// must hold 0.65 to 0.95 of them.
func TestLeys(t *testing.T) {
	var unseen, seen scores
	random := rand.New(rand.NewPCG(21, 22))
	for _, x := range sowLeys(t, 0) {
		l, dates := x.lawn, x.lawn.dates
		for rep := range *counts {
			for year := range 2 {
				k := 0
				for range 100 {
					if random.Float64() < x.share[year] {
						k++
					}
				}
				x.find(year, k)
			}
			for known := range 3 {
				l.dates = dates[:known+1]
				all, _, _, err := l.weigh(context.Background(), 400, uint64(rep))
				if err != nil {
					t.Fatal(err)
				}
				runs := l.runs(all, 3)
				for k, of := range tasks {
					if of.counts == known {
						seen.add(k, x.site, forecastOf(x.shares(of.year, runs), even(len(runs))), x.share[of.year])
					}
					if known == 0 && of.counts == 0 {
						l.past.Scales = sward.Unseen()
						unseen.add(k, x.site, forecastOf(x.shares(of.year, l.runs(all, 3)), even(len(runs))), x.share[of.year])
						l.past.Scales = sward.Seen()
					}
				}
			}
		}
	}
	tell(t, "without a record", &unseen)
	tell(t, "with one", &seen)
	for _, of := range []struct {
		name   string
		got    int
		base   map[string]score
		most   float64 // of the difference
		errors float64 // standard errors more
	}{
		{"year 2 by a count, a plan without a record", 1, unseen[0], -0.2, 0},
		{"year 3 by a count, a plan without a record", 3, unseen[2], 0, 0},
		{"year 3 by two counts, a plan without a record", 4, unseen[2], -0.1, 0},
		{"year 2 by a count, nothing counted", 1, seen[0], -0.1, 0},
		{"year 3 by a count, nothing counted", 3, seen[2], 0, 1.5},
		{"year 3 by two counts, nothing counted", 4, seen[2], 0, 1.5},
	} {
		by, se := less(seen[of.got], of.base)
		t.Logf("%-46s %+.2f, standard error over sites %.2f", of.name, by, se)
		if by > of.most+of.errors*se {
			t.Errorf("%s: %+.2f", of.name, by)
		}
	}
	for k := range tasks {
		if m := seen.mean(k, ""); m.holds < 0.65 || m.holds > 0.95 {
			t.Errorf("%v: ranges of 8 in 10 hold %.2f", tasks[k], m.holds)
		}
	}
}

// tell logs scores.
func tell(t *testing.T, name string, s *scores) {
	for k, of := range tasks {
		if s[k] != nil {
			m := s.mean(k, "")
			t.Logf("%-18s %v: error %4.1f, width of 8 in 10 %4.1f, holds %.2f, score %4.1f", name, of, 100*m.err, 100*m.width, m.holds, 100*m.crps)
		}
	}
}

// prospects are what is foretold of every ley, by task.
type prospects [][5]*forecast

// scores are those of what was foretold of leys.
func (f prospects) scores(leys []sown) *scores {
	out := new(scores)
	for i, x := range leys {
		for k, of := range tasks {
			out.add(k, x.site, f[i][k], x.share[of.year])
		}
	}
	return out
}

// foretell is what scales and an intra-class correlation foretell of leys, their counts being the shares
// themselves: the lawns that a ley may be, weighed by them.
func foretell(leys []sown, by sward.Scales, passings []float64) []prospects {
	out := make([]prospects, len(passings))
	for i := range leys {
		x := &leys[i]
		l, n := x.lawn, len(x.members)
		l.past.Scales = by
		runs := l.runs(x.members, 3)
		shares := [3][]float64{x.shares(0, runs), x.shares(1, runs), x.shares(2, runs)}
		for at, passing := range passings {
			logs := make([]float64, n)
			var of [5]*forecast
			for known := range 3 {
				if known > 0 {
					x.find(known-1, int(math.Round(100*x.share[known-1])))
					s := &l.seen[known-1]
					for j, run := range runs {
						var room [maxKinds]float64
						logs[j] += guarded(multinomial(s.hits, s.shares(l.covers(s, run), room[:0]), s.design+99*passing), s.anyOf, flat)
					}
				}
				weights := weightsOf(logs)
				for k, task := range tasks {
					if task.counts == known {
						of[k] = forecastOf(shares[task.year], weights)
					}
				}
			}
			out[at] = append(out[at], of)
		}
	}
	return out
}

// weightsOf are weights by their logarithms, adding up to one.
func weightsOf(logs []float64) []float64 {
	most, sum := slices.Max(logs), 0.0
	out := make([]float64, len(logs))
	for i, x := range logs {
		out[i] = math.Exp(x - most)
		sum += out[i]
	}
	for i := range out {
		out[i] /= sum
	}
	return out
}

// grids are the sets of scales and intra-class correlations that are tried, with how many lawns each.
func grids() (lawns int, passings []float64, scales []sward.Scales) {
	if !*refit {
		return 300, []float64{0.1, 0.2, 0.4}, []sward.Scales{sward.Unseen(), sward.Seen()}
	}
	for _, establish := range []float64{0.6, 0.8} {
		for _, merit := range []float64{0.1, 0.2, 0.4} {
			for _, together := range []float64{0, 0.3} {
				for _, season := range []float64{0.3, 0.5, 0.7} {
					for _, own := range []float64{0, 0.3, 0.6, 0.9} {
						scales = append(scales, sward.Scales{Establish: establish, Merit: merit, Together: together, Season: season, OwnKind: own})
					}
				}
			}
		}
	}
	return 1000, []float64{0.05, 0.1, 0.15, 0.2, 0.3, 0.4}, scales
}

// averaged are weights of sets by how well they foretold all sites but one, each site being one observation:
// by their logarithmic scores, mean of Bayesian bootstraps of the sites (pseudo-BMA+: Yao, Vehtari, Simpson & Gelman 2018).
func averaged(all []*scores, sites []string, without string) []float64 {
	const times = 200
	random := rand.New(rand.NewPCG(31, 32))
	out, logs := make([]float64, len(all)), make([]float64, len(all))
	sites = lo.Without(sites, without)
	for range times {
		parts, sum := make([]float64, len(sites)), 0.0
		for i := range parts {
			parts[i] = random.ExpFloat64()
			sum += parts[i]
		}
		clear(logs)
		for at, s := range all {
			for i, site := range sites {
				logs[at] += float64(len(sites)) * parts[i] / sum * s.logs(site)
			}
		}
		for at, w := range weightsOf(logs) {
			out[at] += w / times
		}
	}
	return out
}

// TestLeaveOneSiteOut fits the scales and the intra-class correlation of counts to the leys of all sites
// but one, and foretells those of that site: with -refit over a wide grid, otherwise over a small one. Seven sites can't tell the
// sets of a grid apart, so what is asked is asked of their average: that the second year by a count is foretold better by a fifth
// than by a plan without a record, the third no worse, and that ranges of 8 in 10 hold 0.65 to 0.95. Told beside it is what single
// sets foretell, chosen by scores in parts of each site's own and, with -refit, by raw ones; whatever site is left out, a lead must
// regress in them.
func TestLeaveOneSiteOut(t *testing.T) {
	lawns, passings, grid := grids()
	type set struct {
		sward.Scales
		passing float64
	}
	leys := sowLeys(t, lawns)
	base := foretell(leys, sward.Unseen(), []float64{passing})[0].scores(leys)
	var sets []set
	var of []prospects
	var all []*scores
	for _, g := range grid {
		for i, f := range foretell(leys, g, passings) {
			sets, of, all = append(sets, set{g, passings[i]}), append(of, f), append(all, f.scores(leys))
		}
	}
	sites := slices.Sorted(maps.Keys(base[0]))
	chosen := func(by func(*scores, *scores, string) float64) func(string) []float64 {
		return func(without string) []float64 {
			sums := lo.Map(all, func(s *scores, _ int) float64 { return by(s, base, without) })
			at := slices.Index(sums, slices.Min(sums))
			t.Logf("without %-16s %+v", cmp.Or(without, "none"), sets[at])
			if sets[at].OwnKind == 0 {
				t.Errorf("without %s: a lead doesn't regress", without)
			}
			out := make([]float64, len(all))
			out[at] = 1
			return out
		}
	}
	refitted := func(weights func(without string) []float64) *scores {
		out := new(scores)
		for _, site := range sites {
			mix(out, leys, of, weights(site), site)
		}
		return out
	}
	tell(t, "scales of a plan", base)
	if *refit {
		report(t, "chosen, raw", refitted(chosen((*scores).raw)), base)
	}
	chosen((*scores).relative)("")
	report(t, "chosen", refitted(chosen((*scores).relative)), base)
	out := refitted(func(without string) []float64 { return averaged(all, sites, without) })
	report(t, "averaged", out, base)
	for k, most := range map[int]float64{1: -0.2, 3: 0, 4: -0.1} {
		of := tasks[k]
		if by, _ := less(out[k], base[k-of.counts]); by > most {
			t.Errorf("%v: %+.2f to a plan without a record", of, by)
		}
	}
	for k := range tasks {
		if m := out.mean(k, ""); m.holds < 0.65 || m.holds > 0.95 {
			t.Errorf("%v: ranges of 8 in 10 hold %.2f", tasks[k], m.holds)
		}
	}
	if by := out.relative(base, "") / float64(len(tasks)); by > 0.95 {
		t.Errorf("all tasks score %.3f of a plan without a record", by)
	}
}

// mix adds the scores of a site, of what sets foretell of it mixed by their weights.
func mix(into *scores, leys []sown, of []prospects, weights []float64, site string) {
	for i, x := range leys {
		if x.site != site {
			continue
		}
		for k, task := range tasks {
			f := new(forecast)
			for at, w := range weights {
				if w > 0 {
					f.add(of[at][i][k], w)
				}
			}
			into.add(k, site, f, x.share[task.year])
		}
	}
}

// report logs scores beside those of a plan without a record, and of the same lawns with nothing counted.
func report(t *testing.T, name string, out, base *scores) {
	tell(t, name, out)
	for k, of := range tasks {
		by, se := less(out[k], base[k-of.counts])
		t.Logf("%s: %v, to a plan without a record: %+.2f, standard error over sites %.2f", name, of, by, se)
	}
	for k, of := range tasks {
		if of.counts > 0 {
			by, se := less(out[k], out[k-of.counts])
			t.Logf("%s: %v, to nothing counted: %+.2f, standard error over sites %.2f", name, of, by, se)
		}
	}
}

// TestLeadsRegress: of the log-odds in which two grasses were sown, leys kept 0.775, 0.663 and 0.587 after one, two
// and three years (slopes on eleven sown ratios, mean of 15 sites, 11 in the third year, standard errors 0.05, 0.04 and 0.07;
// reckoned from Kirwan et al. 2014, Ecology 95:2680, data; of eight sites with grasses that are not known here as well). Asked is
// the same within two of them.
func TestLeadsRegress(t *testing.T) {
	published := [3]struct{ slope, se float64 }{{0.775, 0.052}, {0.663, 0.043}, {0.587, 0.074}}
	var sums [3]float64
	n := 0.0
	by := lo.GroupBy(sowLeys(t, 100), func(x sown) string { return x.site })
	for _, site := range slices.Sorted(maps.Keys(by)) {
		leys := by[site]
		if len(leys) < 3 {
			continue
		}
		n++
		for year := range sums {
			var sx, sy, sxx, sxy float64
			for _, x := range leys {
				mean := 0.0
				for _, share := range x.shares(year, x.lawn.runs(x.members, 3)) {
					mean += math.Log(share/(1-share)) / float64(len(x.members))
				}
				odds := math.Log(x.sown / (1 - x.sown))
				sx, sy, sxx, sxy = sx+odds, sy+mean, sxx+odds*odds, sxy+odds*mean
			}
			m := float64(len(leys))
			sums[year] += (sxy - sx*sy/m) / (sxx - sx*sx/m)
		}
	}
	for year, p := range published {
		got := sums[year] / n
		t.Logf("year %d: %.2f of the log-odds sown, published %.2f", year+1, got, p.slope)
		if math.Abs(got-p.slope) > 2*p.se {
			t.Errorf("year %d: lawns keep %.2f of the log-odds sown, leys %.2f", year+1, got, p.slope)
		}
	}
}

// index is that of a grass among those held.
func (l *lawn) index(id string) int {
	return slices.IndexFunc(l.past.Grass, func(g int) bool { return l.pool[g].ID == id })
}
