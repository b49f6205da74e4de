package dates

import (
	"context"
	"errors"
	"math"
	"slices"
	"time"

	"swardwright/site"
	"swardwright/site/weather"
	"swardwright/species"
)

// Want is what is asked of the dates.
type Want struct {
	From                          time.Time // first day that can be considered; the year after it is searched
	NotBefore, NotAfter, NeededBy *time.Time
	Success                       float64 // share of years; 0: four in five
	Overseed                      bool    // into a living sward, which keeps the ground covered
	Watered                       bool    // the seedbed is kept moist until the first mowing
	LeafFallDay                   int     // day of the year on which deciduous trees over the lawn have dropped their leaves; 0: none
}

// Table holds the fate of every species in every zone on every sowing day of
// every synthetic year.
type Table struct {
	want  Want
	years int
	zones []*zone
	ids   map[string]int
	table []sown
}

// sown is what a species' sowing depends on.
type sown struct {
	id             string
	warm           bool
	base, emergeDD float64 // germination
	mowDD          float64 // growth from emergence to first mowing
	lt50           float64
	hotFit, dryFit float64 // heat and drought tolerance, 0 to 1
}

// zone holds the running sums of one zone, over the series and horizon days of
// its beginning once more, so that a sowing late in the series can be followed.
type zone struct {
	share  float64 // of the lawn's area
	days   *weather.Days
	n      int // days of the series
	germ   []germination
	cool   []float32 // growth above growthBaseC weighed by light and water
	warm   []float32
	heat   []float32
	dry    []float32 // days without water in the rootzone
	parch  []float32 // days without water at the surface, were it not watered
	weeds  []float32 // not a sum: warm-season growth still ahead in the season
	stir   []int32   // days on which seed in the ground stirs
	sprout []float32 // not a sum: coldest crown of the month from that day on
	kill   []int32   // the day of the coldest crown of the winter to come
	rest   []int32   // the coldest time of the year to come, by the calendar
	frozen []float32 // coldest crown on the day in kill
	fall   []int32   // the day of leaf fall to come

	survival [][]uint8 // by species: share of seedlings that come through, in 255ths, by sowing day
	mean     [][365]float32
	success  [][365]float32
}

// germination is the running sum of warmth above one base temperature.
type germination struct {
	base float64
	sum  []float32
}

// horizon is how far beyond the series a sowing is followed.
const horizon = 2 * 365

// Survey works out the fate of every species of the table on every sowing day.
// It fails only when ctx ends or the conditions hold no days.
func Survey(ctx context.Context, cond *site.Conditions, table []*species.Species, want Want) (*Table, error) {
	if want.Success == 0 {
		want.Success = defaultSuccess
	}
	if want.From.IsZero() {
		if want.NotBefore == nil {
			return nil, errors.New("dates: no first day to consider")
		}
		want.From = *want.NotBefore
	}
	t := &Table{want: want, ids: map[string]int{}}
	var bases []float64
	for _, s := range table {
		v := s.Best()
		b := v[species.GermBaseC]
		t.ids[s.ID] = len(t.table)
		t.table = append(t.table, sown{
			id: s.ID, warm: s.Warm, base: b, emergeDD: v[species.EmergeDegDays],
			mowDD: mowDegDays / (mowVigourLow + (1-mowVigourLow)*v[species.Vigour]),
			lt50:  v[species.FreezingC], hotFit: v[species.Heat], dryFit: v[species.Drought],
		})
		if !slices.Contains(bases, b) {
			bases = append(bases, b)
		}
	}
	for i := range cond.Zones {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		cz := &cond.Zones[i]
		if cz.Days == nil || cz.Days.Years == 0 {
			return nil, errors.New("dates: a zone holds no days")
		}
		z := newZone(cz, bases, want)
		t.years = cz.Days.Years
		for k := range t.table {
			z.follow(&t.table[k], want)
		}
		t.zones = append(t.zones, z)
	}
	if len(t.zones) == 0 {
		return nil, errors.New("dates: the lawn has no zones")
	}
	return t, nil
}

func newZone(cz *site.Zone, bases []float64, want Want) *zone {
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
		if want.Watered {
			return 1
		}
		return max(0, min(1, (float64(d.Surface[i])-0.1)/0.4))
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
		if !want.Watered {
			water = min(1, float64(d.Moisture[i])/(1-dryBelow))
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
	z.stir = make([]int32, size+1)
	for k := range size {
		z.stir[k+1] = z.stir[k]
		if d.SoilC[k%n] > stirC {
			z.stir[k+1]++
		}
	}
	z.marks(want)
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
		f[d] = month[weather.MonthOf(d)]
	}
	return f
}

// marks finds the days that decide a young sward's fate.
func (z *zone) marks(want Want) {
	d, size := z.days, z.n+horizon
	cold := d.Normals.ColdestDay()
	z.rest = make([]int32, size+1)
	z.fall = make([]int32, size+1)
	z.weeds = make([]float32, size+1)
	rest, fall := int32(size), int32(size)
	ahead := 0.0
	for k := size; k >= 0; k-- {
		i, day := k%z.n, k%365
		if day == cold {
			rest = int32(k)
		}
		if want.LeafFallDay > 0 && day == want.LeafFallDay%365 {
			fall = int32(k)
		}
		z.rest[k], z.fall[k] = rest, fall
		if d.MinC[i] < weedFrostC || day == cold { // annual weeds die
			ahead = 0
		}
		ahead += weather.WarmGrowthPotential(float64(d.MeanC[i]))
		z.weeds[k] = float32(ahead)
	}
	z.sprout = make([]float32, size+1)
	slidingMin(z.sprout, func(k int) float32 { return d.CrownC[k%z.n] }, sproutDays)
	z.winters((cold + 182) % 365)
}

// winters finds the day of the coldest crown of each winter, taking years from
// one midsummer to the next, and notes for every day which of them lies ahead.
func (z *zone) winters(midsummer int) {
	d, size := z.days, z.n+horizon
	z.kill = make([]int32, size+1)
	z.frozen = make([]float32, size+1)
	next, nextC := int32(size), float32(0)
	end := size + 1
	for end > 0 {
		start := end - 1
		for start > 0 && start%365 != midsummer {
			start--
		}
		coldest := start
		for k := start; k < end; k++ {
			if d.CrownC[k%z.n] < d.CrownC[coldest%z.n] {
				coldest = k
			}
		}
		for k := end - 1; k > coldest; k-- {
			z.kill[k], z.frozen[k] = next, nextC
		}
		next, nextC = int32(coldest), d.CrownC[coldest%z.n]
		for k := coldest; k >= start; k-- {
			z.kill[k], z.frozen[k] = next, nextC
		}
		end = start
	}
}

// weedFrostC is the minimum that kills summer annuals.
const weedFrostC = -1.0

// slidingMin fills out with the least of the next width values.
func slidingMin(out []float32, value func(k int) float32, width int) {
	var queue []int // days of rising value
	for k := len(out) - 1; k >= 0; k-- {
		v := value(k)
		for len(queue) > 0 && value(queue[len(queue)-1]) >= v {
			queue = queue[:len(queue)-1]
		}
		queue = append(queue, k)
		if queue[0] >= k+width {
			queue = queue[1:]
		}
		out[k] = value(queue[0])
	}
}

// fate is what becomes of one sowing.
type fate struct {
	emerge int  // day of half emergence, counted as the series'; -1: never
	mow    int  // day of the first mowing
	slept  bool // through a winter

	up, frost, winter, cover, weeds, heat, dry, leaves float64 // shares that come through each
}

func (f *fate) survival() float64 {
	return f.up * f.frost * f.winter * f.cover * f.weeds * f.heat * f.dry * f.leaves
}

// danger is one of the things that take seedlings.
type danger int

const (
	dangerUp danger = iota
	dangerFrost
	dangerWinter
	dangerCover
	dangerWeeds
	dangerHeat
	dangerDry
	dangerLeaves
)

func (f *fate) shares() [8]float64 {
	return [8]float64{f.up, f.frost, f.winter, f.cover, f.weeds, f.heat, f.dry, f.leaves}
}

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

// follow works out the fate of a species on every sowing day. The days of
// emergence and first mowing never move back as the sowing moves on, so that
// one pass finds them all.
func (z *zone) follow(s *sown, want Want) {
	germ, grow := z.sums(s)
	survival := make([]uint8, z.n)
	var mean, success [365]float32
	years := float32(z.n / 365)
	emerge, mow := 0, 0
	last := len(germ) - 1
	for k := range z.n {
		target := germ[k] + float32(s.emergeDD)
		for emerge < last && germ[emerge] < target {
			emerge++
		}
		mow = max(mow, emerge)
		goal := grow[emerge] + float32(s.mowDD)
		for mow < last && grow[mow] < goal {
			mow++
		}
		f := z.fate(s, want, germ, grow, k, emerge, mow)
		v := f.survival()
		survival[k] = uint8(math.Round(255 * max(0, min(1, v))))
		day := k % 365
		mean[day] += float32(v) / years
		if v >= standShare {
			success[day] += 1 / years
		}
	}
	z.survival = append(z.survival, survival)
	z.mean = append(z.mean, mean)
	z.success = append(z.success, success)
}

// fate judges the sowing of day k that emerges and is first mown on the days
// given.
func (z *zone) fate(s *sown, want Want, germ, grow []float32, k, emerge, mow int) fate {
	last := len(germ) - 1
	if emerge >= last {
		return fate{emerge: -1, mow: -1}
	}
	f := fate{emerge: emerge, mow: mow, cover: 1, weeds: 1, leaves: 1}

	// Seed is lost day by day in warm ground, slowly in cold; what has begun to
	// sprout when the deep frost comes dies of it.
	stirring := int(z.stir[emerge] - z.stir[k])
	asleep := emerge - k - stirring
	f.slept = asleep >= sleepDays
	if stirring <= seedDays {
		f.up = max(0, 1-lossPerD*float64(max(0, stirring-freeDays))-sleepLossPerD*float64(asleep))
	}
	if kill := int(z.kill[k]); kill < emerge && z.frozen[k] < sproutFrostC {
		sprouted := float64(germ[kill]-germ[k]) / s.emergeDD
		f.up *= clamp01((sproutLost - sprouted) / (sproutLost - sproutSafe))
	}

	f.frost = clamp01(0.5 + (float64(z.sprout[emerge])-sproutC)/(2*sproutRange))

	// The winter ahead: how much of its hardiness the plant will have.
	hardyDD := hardyShare * s.mowDD
	kill := min(int(z.kill[emerge]), last)
	age := float64(grow[kill]-grow[emerge]) / hardyDD
	need := (tenderC - float64(z.frozen[emerge])) / (tenderC - min(s.lt50, tenderC-1))
	f.winter = clamp01(0.5 + (age-min(1, need))/hardySpread)

	// Bare ground in it, for what is sown in its year's second half.
	restAfter := min(int(z.rest[emerge]), last)
	if !want.Overseed && !f.slept && restAfter-emerge < 182 {
		grown := float64(grow[restAfter]-grow[emerge]) / (coverShare * s.mowDD)
		f.cover = bareWinter + (1-bareWinter)*min(1, grown)
	}

	if !s.warm {
		f.weeds = 1 / (1 + float64(z.weeds[emerge])*(1.25-0.5*(mowDegDays/s.mowDD))/weedHalf)
	}
	hot := float64(z.heat[min(emerge+heatDays, last)]-z.heat[emerge]) * 1.5 * (1 - s.hotFit)
	f.heat = 1 / (1 + hot/heatHalf)

	// Drought: of the seedbed until the first mowing, which watering meets but
	// for its lapses, and of the young roots after it.
	bedEnd := min(mow, emerge+bedDays)
	lapse := 1.0
	if want.Watered {
		lapse = wateringLapse
	}
	thirst := lapse * float64(z.parch[bedEnd]-z.parch[k])
	if to := min(emerge+dryDays, last); to > mow && !z.days.Exposure.Irrigated {
		thirst += float64(z.dry[to] - z.dry[mow])
	}
	thirst *= 1.5 * (1 - s.dryFit)
	f.dry = 1 / (1 + thirst/dryHalf)

	if want.LeafFallDay > 0 && int(z.fall[k]) < mow {
		f.leaves = leafShare
	}
	return f
}

func clamp01(v float64) float64 { return max(0, min(1, v)) }
