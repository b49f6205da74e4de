package dates

import (
	"sort"

	"swardwright/internal/arith"
	"swardwright/internal/calendar"
	"swardwright/site"
	"swardwright/site/weather"
	"swardwright/species"
)

// zone holds the running sums and marks of one zone, over the series and horizon
// days of its beginning once more, so that a sowing late in it can be followed. A
// running sum's value at a day is what the days before it add up to.
type zone struct {
	share    float64 // of the lawn's area
	days     *weather.Days
	n        int // days of the series
	slopeDeg float64
	leaves   float64 // of the young grass, left where leaves fall on it
	bare     []bool  // the ground is free of snow on some day of the week
	work     []bool  // and neither frozen nor waterlogged, so that a seedbed can be made
	open     []bool  // the same on the day itself
	mark     []mark
	soilC    [calendar.Year]float64 // of the seedbed, mean of the years and of the week

	bed   seedbed
	cool  []float32    // growth weighed by light and water
	warm  []float32    // the same for warm-season grasses
	tall  [2][]float32 // the growth in height of cool-season and of warm-season grasses
	mown  [2][]int32   // the first day, from each on, on which such a grass grows enough to be mown
	heat  []float32    // warmth of means above heatFromC
	dry   []float32    // days without water in the rootzone
	parch []float32    // days on which seedlings go short of water, were they not watered
	heavy []float32    // rain that runs off bare ground, mm
	cold  []float32    // days too cold for seed in the ground to stir

	grown *grown // shared by copies of the zone
}

// mark is what lies ahead of a day.
type mark struct {
	kill   int32   // the day of the coldest crown of the winter to come
	rest   int32   // the coldest time of the year, by the calendar
	fall   int32   // leaf fall
	frozen float32 // coldest crown on the day in kill
	idle   float32 // days without growth in that winter
	open   float32 // share of the deep of it in which the ground is neither frozen nor under snow
	sprout float32 // coldest crown of the month from this day on
	weeds  float32 // warm-season growth until the frost kills annual weeds
}

// horizon is how far beyond the series a sowing is followed.
const horizon = 2 * calendar.Year

func newZone(cz *site.Zone, slopeDeg float64, input Input) *zone {
	d := cz.Days
	z := &zone{
		share: cz.Share, days: d, n: len(d.MeanC), slopeDeg: slopeDeg, bed: newSeedbed(d, input), leaves: 1 - (1-leafShare)*cz.LeafFall,
		grown: &grown{traces: map[seed]trace{}, trials: map[seed]trial{}, laid: map[bool]field{}},
	}
	light, stretch := z.lightByDay(func(dli, _ float64) float64 { return weather.LightFactor(dli) }), z.lightByDay(species.Stretched)
	water := func(i int) float64 { return water(d, i, input.Watered) }
	young := func(i int) float64 { return light[i%calendar.Year] * water(i) }
	thirsty := func(i int, short float64) float64 {
		if d.MeanC[i] < dryFromC {
			return 0
		}
		return short
	}
	cool := func(i int) float64 { return species.Warmth(float64(d.MeanC[i]), false) }
	warm := func(i int) float64 { return species.Warmth(float64(d.MeanC[i]), true) }
	z.cool = z.sum(func(i int) float64 { return cool(i) * young(i) })
	z.warm = z.sum(func(i int) float64 { return warm(i) * young(i) })
	z.tall = [2][]float32{
		z.sum(func(i int) float64 { return cool(i) * stretch[i%calendar.Year] * water(i) }),
		z.sum(func(i int) float64 { return warm(i) * stretch[i%calendar.Year] * water(i) }),
	}
	z.mown = [2][]int32{species.Mown(z.sum(cool), z.n), species.Mown(z.sum(warm), z.n)}
	z.heat = z.sum(func(i int) float64 { return arith.Most(0, float64(d.MeanC[i])-heatFromC) })
	z.dry = z.sum(func(i int) float64 { return thirsty(i, arith.Most(0, 1-float64(d.Moisture[i])/dryBelow)) })
	z.parch = z.sum(func(i int) float64 { return thirsty(i, float64(z.bed.stress[i])) })
	z.heavy = z.sum(func(i int) float64 { return arith.Most(0, float64(d.RainMM[i])-washFromMM) })
	z.cold = z.sum(func(i int) float64 {
		if d.SoilC[i] > stirC {
			return 0
		}
		return 1
	})
	z.workable()
	z.marks(input)
	z.soilC = z.weekOfSoil()
	return z
}

// weekOfSoil is the soil's temperature by day of the year, mean of the years and of the
// week about the day.
func (z *zone) weekOfSoil() [calendar.Year]float64 {
	var day [calendar.Year]float64
	for i, c := range z.days.SoilC {
		day[i%calendar.Year] += float64(c) / float64(z.days.Years)
	}
	return about(&day, 3)
}

// sum is the running sum of a value by day of the series.
func (z *zone) sum(value func(i int) float64) []float32 {
	sums := make([]float32, z.n+horizon+1)
	total, i := 0.0, 0
	for k := range z.n + horizon {
		total += value(i)
		sums[k+1] = float32(total)
		if i++; i == z.n {
			i = 0
		}
	}
	return sums
}

// growth is the running sum that a species grows by.
func (z *zone) growth(s *sown) []float32 {
	if s.warm {
		return z.warm
	}
	return z.cool
}

// height is the running sum that a species grows taller by.
func (z *zone) height(s *sown) []float32 { return z.tall[s.index()] }

// index is where what is kept for cool-season and for warm-season grasses stands.
func (s *sown) index() int {
	if s.warm {
		return 1
	}
	return 0
}

// workable notes the days on which the ground is open, and those of a week with one.
func (z *zone) workable() {
	d, n := z.days, z.n
	z.bare, z.work, z.open = make([]bool, n), make([]bool, n), make([]bool, n)
	nextBare, nextWork := 3*n, 3*n
	for k := 2*n - 1; k >= 0; k-- {
		if i := k % n; d.SnowCM[i] < 1 {
			nextBare = k
			if d.SoilC[i] > workC && d.Wet[i] < workWet {
				nextWork = k
				z.open[i] = true
			}
		}
		if k < n {
			z.bare[k], z.work[k] = nextBare < k+workDays, nextWork < k+workDays
		}
	}
}

// lightByDay is what a seedling makes of the zone's light, by day of the year.
func (z *zone) lightByDay(growth func(dli, openShare float64) float64) (f [calendar.Year]float64) {
	var month [12]float64
	for m, dli := range z.days.Exposure.DLI {
		month[m] = growth(dli, z.days.Exposure.OpenShare[m])
	}
	for d := range f {
		f[d] = month[calendar.MonthOf(d)]
	}
	return f
}

// marks finds the days that decide a young sward's fate.
func (z *zone) marks(input Input) {
	d, size := z.days, z.n+horizon
	cold := d.Normals.ColdestDay()
	z.mark = make([]mark, size+1)
	rest, fall := int32(size), int32(size)
	ahead := 0.0
	for k := size; k >= 0; k-- {
		i, day := k%z.n, k%calendar.Year
		if day == cold {
			rest = int32(k)
		}
		if input.LeafFallDay > 0 && day == input.LeafFallDay%calendar.Year {
			fall = int32(k)
		}
		if d.MinC[i] < weedFrostC || day == cold { // annual weeds die
			ahead = 0
		}
		ahead += weather.WarmGrowthPotential(float64(d.MeanC[i]))
		z.mark[k] = mark{rest: rest, fall: fall, weeds: float32(ahead)}
	}
	z.sprouts()
	z.winters(calendar.Wrap(cold + calendar.Half))
}

// winters finds the day of the coldest crown of each winter, taking years from
// one midsummer to the next, and notes for every day which of them lies ahead.
func (z *zone) winters(midsummer int) {
	next := mark{kill: int32(z.n + horizon)}
	note := func(from, to int) {
		for k := from; k < to; k++ {
			m := &z.mark[k]
			m.kill, m.frozen, m.idle, m.open = next.kill, next.frozen, next.idle, next.open
		}
	}
	for end := z.n + horizon + 1; end > 0; {
		start := end - 1
		for start > 0 && start%calendar.Year != midsummer {
			start--
		}
		winter := z.winter(start, end)
		note(int(winter.kill)+1, end)
		next = winter
		note(start, int(next.kill)+1)
		end = start
	}
}

// winter reads the year between two midsummers.
func (z *zone) winter(start, end int) mark {
	d := z.days
	w := mark{kill: int32(start)}
	for k := start; k < end; k++ {
		i := k % z.n
		if d.MeanC[i] < species.GrowthBaseC {
			w.idle++
		}
		if from := k - start; from >= calendar.Half-deepWinter && from < calendar.Half+deepWinter && z.open[i] {
			w.open += 1.0 / (2 * deepWinter)
		}
		if d.CrownC[i] < d.CrownC[int(w.kill)%z.n] {
			w.kill = int32(k)
		}
	}
	w.frozen = d.CrownC[int(w.kill)%z.n]
	return w
}

// sprouts notes the coldest crown of the sproutDays from each day on.
func (z *zone) sprouts() {
	value := func(k int) float32 { return z.days.CrownC[k%z.n] }
	var queue []int // days ahead, each colder than those nearer
	for k := len(z.mark) - 1; k >= 0; k-- {
		for len(queue) > 0 && value(queue[len(queue)-1]) >= value(k) {
			queue = queue[:len(queue)-1]
		}
		queue = append(queue, k)
		if queue[0] >= k+sproutDays {
			queue = queue[1:]
		}
		z.mark[k].sprout = value(queue[0])
	}
}

// reach is the first day by which a running sum has grown by so much since day
// from; the last day where it never does.
func reach(sum []float32, from int, by float64) int {
	goal := sum[from] + float32(by)
	i := from + sort.Search(len(sum)-from, func(i int) bool { return sum[from+i] >= goal })
	return min(i, len(sum)-1)
}
