package dates

import (
	"sort"

	"swardwright/internal/calendar"
	"swardwright/site"
	"swardwright/site/weather"
)

// zone holds the running sums and marks of one zone, over the series and horizon
// days of its beginning once more, so that a sowing late in it can be followed.
type zone struct {
	share float64 // of the lawn's area
	days  *weather.Days
	n     int    // days of the series
	bare  []bool // the ground is free of snow on some day of the week
	work  []bool // and neither frozen nor waterlogged, so that a seedbed can be made
	open  []bool // the same on the day itself
	mark  []mark

	// Running sums; the value at a day is what the days before it add up to.
	germ  []germination
	cool  []float32 // growth above growthBaseC weighed by light and water
	warm  []float32 // the same for warm-season grasses
	heat  []float32 // warmth of means above heatFromC
	dry   []float32 // days without water in the rootzone
	parch []float32 // days without water at the surface, were it not watered
	cold  []float32 // days too cold for seed in the ground to stir
	stir  []float32 // the others, so far as they are moist
	waste []float32 // the days on which it stirs, weighed by how fast it is lost
}

// mark is what lies ahead of a day.
type mark struct {
	kill   int32   // the day of the coldest crown of the winter to come
	rest   int32   // the coldest time of the year, by the calendar
	fall   int32   // leaf fall
	frozen float32 // coldest crown on the day in kill
	idle   float32 // days without growth in that winter
	sprout float32 // coldest crown of the month from this day on
	weeds  float32 // warm-season growth until the frost kills annual weeds
}

// germination is the running sum of warmth above one base temperature.
type germination struct {
	base float64
	sum  []float32
}

// horizon is how far beyond the series a sowing is followed.
const horizon = 2 * 365

func newZone(cz *site.Zone, bases []float64, input Input) *zone {
	d := cz.Days
	n := len(d.MeanC)
	z := &zone{share: cz.Share, days: d, n: n}
	size := n + horizon
	sum := func(value func(i int) float64) []float32 {
		s := make([]float32, size+1)
		total := 0.0
		for k := range size {
			total += value(k % n)
			s[k+1] = float32(total)
		}
		return s
	}
	light := z.lightByDay()
	moist := func(i int) float64 {
		if input.Watered {
			return 1
		}
		return clamp01((float64(d.Surface[i]) - dryForSeed) / (moistForSeed - dryForSeed))
	}
	for _, b := range bases {
		z.germ = append(z.germ, germination{b, sum(func(i int) float64 {
			return max(0, float64(d.SoilC[i])-b) * moist(i)
		})})
	}
	young := func(i int) float64 {
		if d.SnowCM[i] >= 1 {
			return 0
		}
		water := 1.0
		if !input.Watered {
			water = min(1, float64(d.Moisture[i])+dryBelow)
		}
		return light[i%365] * water
	}
	z.cool = sum(func(i int) float64 {
		return max(0, min(growthLidC, float64(d.MeanC[i]))-growthBaseC) * young(i)
	})
	z.warm = sum(func(i int) float64 {
		return max(0, min(warmLidC, float64(d.MeanC[i]))-warmBaseC) * young(i)
	})
	z.heat = sum(func(i int) float64 { return max(0, float64(d.MeanC[i])-heatFromC) })
	z.dry = sum(func(i int) float64 {
		if d.MeanC[i] < dryFromC {
			return 0
		}
		return max(0, 1-float64(d.Moisture[i])/dryBelow)
	})
	z.parch = sum(func(i int) float64 {
		if d.MeanC[i] < dryFromC {
			return 0
		}
		return max(0, 1-float64(d.Surface[i])/dryBelow)
	})
	z.waste = sum(func(i int) float64 { return clamp01((float64(d.SoilC[i])-stirC)/(wasteFullC-stirC)) * moist(i) })
	z.cold = sum(func(i int) float64 {
		if d.SoilC[i] > stirC {
			return 0
		}
		return 1
	})
	z.stir = sum(func(i int) float64 {
		if d.SoilC[i] > stirC {
			return moist(i)
		}
		return 0
	})
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
	z.marks(input)
	return z
}

// lightByDay is the growth of a seedling in the zone's light over that in the
// open, by day of the year.
func (z *zone) lightByDay() (f [365]float64) {
	var month [12]float64
	for m, dli := range z.days.Exposure.DLI {
		month[m] = weather.LightFactor(dli)
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
		i, day := k%z.n, k%365
		if day == cold {
			rest = int32(k)
		}
		if input.LeafFallDay > 0 && day == input.LeafFallDay%365 {
			fall = int32(k)
		}
		if d.MinC[i] < weedFrostC || day == cold { // annual weeds die
			ahead = 0
		}
		ahead += weather.WarmGrowthPotential(float64(d.MeanC[i]))
		z.mark[k] = mark{rest: rest, fall: fall, weeds: float32(ahead)}
	}
	z.sprouts()
	z.winters((cold + 182) % 365)
}

// winters finds the day of the coldest crown of each winter, taking years from
// one midsummer to the next, and notes for every day which of them lies ahead.
func (z *zone) winters(midsummer int) {
	d, size := z.days, z.n+horizon
	next := mark{kill: int32(size)}
	note := func(from, to int) {
		for k := from; k < to; k++ {
			z.mark[k].kill, z.mark[k].frozen, z.mark[k].idle = next.kill, next.frozen, next.idle
		}
	}
	for end := size + 1; end > 0; {
		start := end - 1
		for start > 0 && start%365 != midsummer {
			start--
		}
		coldest, idle := start, float32(0)
		for k := start; k < end; k++ {
			if d.MeanC[k%z.n] < growthBaseC {
				idle++
			}
			if d.CrownC[k%z.n] < d.CrownC[coldest%z.n] {
				coldest = k
			}
		}
		note(coldest+1, end)
		next = mark{kill: int32(coldest), frozen: d.CrownC[coldest%z.n], idle: idle}
		note(start, coldest+1)
		end = start
	}
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

// sums gives the running sums of warmth and growth that a species follows.
func (z *zone) sums(s *sown) (germ, grow []float32) {
	grow = z.cool
	if s.warm {
		grow = z.warm
	}
	for _, g := range z.germ {
		if g.base == s.base {
			return g.sum, grow
		}
	}
	return nil, grow
}

// reach is the first day by which a running sum has grown by so much since day
// from; the last day where it never does.
func reach(sum []float32, from int, by float64) int {
	goal := sum[from] + float32(by)
	i := from + sort.Search(len(sum)-from, func(i int) bool { return sum[from+i] >= goal })
	return min(i, len(sum)-1)
}
