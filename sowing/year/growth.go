package year

import (
	"maps"
	"math"
	"sort"

	"swardwright/internal/steady"
	"swardwright/site"
	"swardwright/site/weather"
)

// season is how the lawn grows through the synthetic years. Days are counted from
// the coldest of the year, so that one season lies whole between 0 and 364 in both
// hemispheres.
type season struct {
	cold   int // day of the year of season day 0
	years  int
	growth []float32 // years × 365: area mean of the zones, running mean of a month
	snow   []float32 // cm
	soil   []float32 // °C at 20 mm in the lightest zone
	wet    []float32 // area mean share of the day above field capacity, running mean of a week
	dry    []float32 // area mean of the share of the rootzone's water that is gone
	water  []float32 // irrigation given, mm
	mean   [365]float64
	potent [365]float64 // growth potential of the temperature alone, mean of years
	peak   float64      // of mean
	begins float64      // growth at which the season opens and closes
}

// The running means smooth single warm or wet days out of the dates.
const (
	growthSpanDays = 31
	wetSpanDays    = 7
	// opensShare: the season runs while a month's growth is over this share of the
	// year's peak. Own constant: it gives the weeks between the first and the last
	// mowing that are usual at 47 to 63° N.
	opensShare = 0.25

	// Cool-season growth potential peaks at 20 °C, in cool places at 18 (M. Woods
	// 2014, for annual meadow-grass and fine fescue). A place counts as cool by its
	// warmest month; between 18 and 20 °C the peak follows it.
	potentialSpreadC = 5.5
	warmOptimumC     = 20.0
	coolOptimumC     = 18.0
)

// coolShift is growth with the peak of the place over growth with the peak at 20 °C.
func coolShift(meanC, optimumC float64) float64 {
	z20, z := (meanC-warmOptimumC)/potentialSpreadC, (meanC-optimumC)/potentialSpreadC
	return steady.Exp(0.5 * (z20*z20 - z*z))
}

// Growth keeps how grounds grow, so that several lawns on one are read once. The zero value
// knows of none. It is not for several goroutines at once.
type Growth struct{ of map[grown]*season }

// grown is all that the season of a lawn depends on.
type grown struct {
	zones          [mostZones]growing
	warm, warmestC float64
}

type growing struct {
	days  *weather.Days
	share float64
}

// mostZones is how many zones a lawn has that is kept.
const mostZones = 4

// season is that of a lawn, worked out once.
func (g *Growth) season(c *site.Conditions, warm float64) (*season, bool) {
	if g == nil || len(c.Zones) > mostZones {
		return seasonOf(c, warm)
	}
	of := grown{warm: warm, warmestC: c.Weather.WarmestMonthC}
	for i, z := range c.Zones {
		of.zones[i] = growing{z.Days, z.Share}
	}
	s, known := g.of[of]
	if !known {
		s, _ = seasonOf(c, warm)
		if g.of == nil {
			g.of = map[grown]*season{}
		}
		g.of[of] = s
	}
	return s, s != nil && s.peak > 0
}

// Beside are the same for what is planned beside a lawn: what that adds isn't kept with it.
func (g *Growth) Beside() *Growth { return &Growth{maps.Clone(g.of)} }

// seasonOf reads the zones' days; warm is the share of warm-season grass in the sward.
func seasonOf(c *site.Conditions, warm float64) (*season, bool) {
	if len(c.Zones) == 0 || c.Zones[0].Days == nil || c.Zones[0].Days.Years == 0 {
		return nil, false
	}
	first := c.Zones[0].Days
	s := &season{years: first.Years, cold: first.Normals.ColdestDay()}
	n := s.years * 365
	rotate := func(from []float32, into []float32, weight float64) {
		for i := range into {
			into[i] += float32(weight) * from[(i+s.cold)%n]
		}
	}
	fill := func() []float32 { return make([]float32, n) }
	s.growth, s.snow, s.soil, s.wet, s.dry, s.water = fill(), fill(), fill(), fill(), fill(), fill()
	rotate(first.SnowCM, s.snow, 1)
	rotate(first.SoilC, s.soil, 1)
	optimum := math.Min(math.Max(c.Weather.WarmestMonthC, coolOptimumC), warmOptimumC)
	moist := fill()
	shift := make([]float64, n)
	for k := range shift {
		shift[k] = coolShift(float64(first.MeanC[(k+s.cold)%n]), optimum)
	}
	for i := range c.Zones {
		z := &c.Zones[i]
		for k := range s.growth {
			g := float64(z.Days.Growth[(k+s.cold)%n]) * shift[k]
			s.growth[k] += float32(min(g, 1) * z.Share * (1 - warm))
		}
		rotate(z.Days.Warm, s.growth, z.Share*warm)
		rotate(z.Days.Wet, s.wet, z.Share)
		rotate(z.Days.Moisture, moist, z.Share)
		rotate(z.Days.WaterMM, s.water, z.Share)
	}
	for i := range s.dry {
		s.dry[i] = 1 - moist[i]
	}
	s.growth = runningMean(s.growth, growthSpanDays)
	s.wet = runningMean(s.wet, wetSpanDays)
	for i, g := range s.growth {
		t := float64(first.MeanC[(i+s.cold)%n])
		s.mean[i%365] += float64(g) / float64(s.years)
		potent := float64((1 - warm) * (weather.GrowthPotential(t) * shift[i]))
		if warm > 0 {
			potent += float64(warm * weather.WarmGrowthPotential(t))
		}
		s.potent[i%365] += potent / float64(s.years)
	}
	for _, g := range s.mean {
		s.peak = math.Max(s.peak, g)
	}
	s.begins = opensShare * s.peak
	return s, s.peak > 0
}

// runningMean is centred and closes upon itself.
func runningMean(v []float32, span int) []float32 {
	n := len(v)
	out := make([]float32, n)
	sum := 0.0
	half := span / 2
	for k := -half; k <= half; k++ {
		sum += float64(v[(k+n)%n])
	}
	for i := range out {
		out[i] = float32(sum / float64(2*half+1))
		sum += float64(v[(i+half+1)%n]) - float64(v[(i-half+n)%n])
	}
	return out
}

// dated is a day of the season with the share of years in which it is right.
type dated struct {
	day    int
	chance float64
}

// rightWithin is how far off a date may be to have been right.
const rightWithin = 10 // days

// event finds the median over the years of a day that each year gives, or -1; a
// year without one counts against the date. It is not ok when half the years have none.
func (s *season) event(of func(year []float32) int, days []float32) (dated, bool) {
	var got []int
	for y := range s.years {
		if d := of(days[y*365 : (y+1)*365]); d >= 0 {
			got = append(got, d)
		}
	}
	if 2*len(got) < s.years {
		return dated{}, false
	}
	sort.Ints(got)
	e := dated{day: got[len(got)/2]}
	right := 0
	for _, d := range got {
		if abs(d-e.day) <= rightWithin {
			right++
		}
	}
	e.chance = float64(right) / float64(s.years)
	return e, true
}

func abs(x int) int {
	if x < 0 {
		return -x
	}
	return x
}

// opens is the day growth sets in.
func (s *season) opens() (dated, bool) {
	return s.event(func(g []float32) int {
		for d, v := range g {
			if float64(v) >= s.begins {
				return d
			}
		}
		return -1
	}, s.growth)
}

// closes is the last day of growth.
func (s *season) closes() (dated, bool) {
	return s.event(func(g []float32) int {
		for d := 364; d >= 0; d-- {
			if float64(g[d]) >= s.begins {
				return d
			}
		}
		return -1
	}, s.growth)
}

// share is the share of years for which ok holds of the year's slice of days.
func (s *season) share(ok func(y int) bool) float64 {
	n := 0
	for y := range s.years {
		if ok(y) {
			n++
		}
	}
	return float64(n) / float64(s.years)
}

// growing is the share of years in which grass grows on the day.
func (s *season) growing(day int) float64 {
	return s.share(func(y int) bool { return float64(s.growth[y*365+clampDay(day)]) >= s.begins })
}

// bare is the share of years in which the ground is neither frozen nor under snow on the day.
func (s *season) bare(day int) float64 {
	return s.share(func(y int) bool {
		i := y*365 + clampDay(day)
		return s.snow[i] < lyingSnowCM && s.soil[i] >= 0
	})
}

// lyingSnowCM is the snow from which the ground counts as covered.
const lyingSnowCM = 1

// workable is the share of years in which it grows and the ground is not wet.
func (s *season) workable(day int) float64 {
	return s.share(func(y int) bool {
		i := y*365 + clampDay(day)
		return float64(s.growth[i]) >= s.begins && s.wet[i] < workableWet
	})
}

// workableWet is the share of a week above field capacity from which spikes smear.
const workableWet = 0.5

func clampDay(d int) int { return min(max(d, 0), 364) }

// reaches is the first day on which the growth summed from a day reaches a total.
func (s *season) reaches(from int, total float64) (dated, bool) {
	return s.event(func(g []float32) int {
		sum := 0.0
		for d := from; d < len(g); d++ {
			if sum += float64(g[d]); sum >= total {
				return d
			}
		}
		return -1
	}, s.growth)
}
