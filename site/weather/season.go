package weather

import (
	"math"
	"slices"
	"sort"

	"swardwright/internal/calendar"
	"swardwright/internal/steady"
)

// Own constants of the seasons.
const (
	growingC      = 5.0  // daily mean at which grass is said to grow
	shelterCM     = 1.0  // depth from which snow is said to lie
	hardeningDays = 25.0 // of full hardening that make a grass as hardy as it gets
	thawC         = 5.0
	rehardenDays  = 21 // after which a grass is as hard as before a thaw
	winterDays    = 150
	mouldHighC    = 8.0
	hottestDays   = 30 // on end
	frozenGroundC = -0.5
	killingCrownC = -5.0
)

// Hardening of a day. Cool days harden a grass, mild ones half as fast, and it needs
// light for it: solved from timothy and perennial ryegrass hardened at 6, 9/3 and
// 12 °C under early, middle and late autumn light at 69.7° N (Dalmannsdottir et al.
// 2016: 12 °C instead of 6 costs 2 to 5 °C of LT50, late autumn light 3 to 5).
const (
	hardeningLowC   = -2.0 // colder days harden no further
	hardeningFullC  = 6.0
	hardeningHighC  = 17.0
	hardeningHalfMJ = 0.6 // light at which hardening goes half as fast
)

// HardeningDay is what a day of a mean temperature and of light on the sward does
// towards hardening, 0 to 1.
func HardeningDay(meanC, mj float64) float64 {
	if meanC <= hardeningLowC || meanC >= hardeningHighC {
		return 0
	}
	return min(1, (hardeningHighC-meanC)/(hardeningHighC-hardeningFullC)) * mj / (mj + hardeningHalfMJ)
}

// ColdestDay is the day of the year (0 to 364) in the middle of the coldest month,
// where a season begins.
func (n Normals) ColdestDay() int { return calendar.Coldest(dailyCurve(n.MeanC)) }

// Seasons gathers the days into years. A year's growing season runs from one
// coldest time of the year to the next and its winter half a year either side of
// the latter. The series is taken to close upon itself, so that there are as
// many years as it has.
func (d *Days) Seasons() []Year {
	n := len(d.MeanC)
	cold := d.Normals.ColdestDay()
	years := make([]Year, d.Years)
	maxima := make([]float64, 365)
	for y := range years {
		years[y] = d.season(y*365+cold, n, maxima)
	}
	return years
}

// season reads the growing season that starts on day start of a series of n
// days, and the winter after it.
func (d *Days) season(start, n int, maxima []float64) Year {
	y := Year{FirstFrost: -1, LastFrost: -1}
	d.growing(&y, start, n, maxima)
	d.hottest(&y, start, n, maxima)
	d.winter(&y, start, n)
	return y
}

// growing reads growth, water and frost, and fills maxima with the days' highest.
func (d *Days) growing(y *Year, start, n int, maxima []float64) {
	drought := 0.0
	for k := range 365 {
		i := (start + k) % n
		maxima[k] = float64(d.MaxC[i])
		y.GrowthSum += float64(d.Growth[i])
		y.WarmSum += float64(d.Warm[i])
		y.WaterMM += float64(d.WaterMM[i])
		got := 1.0
		if d.MeanC[i] > growingC {
			y.GrowingDays++
			y.WaterDeficitMM += float64(d.ET0MM[i] - d.RainMM[i])
			got = min(1, float64(d.Moisture[i])/(1-turfDepletion))
			y.WetDays += float64(d.Wet[i])
		}
		drought = max(0, drought+(1-got)-got)
		y.DroughtDays = max(y.DroughtDays, drought)
		if d.MinC[i] < 0 {
			if k < 182 {
				y.LastFrost = i % 365
			} else if y.FirstFrost < 0 {
				y.FirstFrost = i % 365
			}
		}
	}
}

// hottest reads the hottest run of days.
func (d *Days) hottest(y *Year, start, n int, maxima []float64) {
	run30, mean30 := 0.0, 0.0
	y.HotC, y.HotMeanC = math.Inf(-1), math.Inf(-1)
	for k, v := range maxima {
		run30 += v
		mean30 += float64(d.MeanC[(start+k)%n])
		if k >= hottestDays {
			run30 -= maxima[k-hottestDays]
			mean30 -= float64(d.MeanC[(start+k-hottestDays)%n])
		}
		if k >= hottestDays-1 {
			y.HotC = max(y.HotC, run30/hottestDays)
			y.HotMeanC = max(y.HotMeanC, mean30/hottestDays)
		}
	}
}

// winter reads half a year either side of the coldest day to come.
func (d *Days) winter(y *Year, start, n int) {
	y.CrownMinC = math.Inf(1)
	run, coldest := 0.0, 182
	for k := 182; k < 182+365; k++ {
		i := (start + k) % n
		crown := float64(d.CrownC[i])
		if crown < y.CrownMinC {
			y.CrownMinC, coldest = crown, k
		}
		fromCold := k - 365
		if d.SnowCM[i] < shelterCM {
			run = 0
			if d.RainMM[i] > 0 && d.MeanC[i] > 0 && d.MeanC[i] < mouldHighC && fromCold > -winterDays && fromCold < winterDays {
				y.MouldDays++
			}
		} else {
			run++
			y.SnowDays++
			y.LongestSnow = max(y.LongestSnow, run)
			if d.SoilC[i] > frozenGroundC {
				y.MouldDays++
			}
		}
		if d.IceMM[i] >= iceSealMM {
			y.IceDays++
		}
	}
	y.Hardening = d.hardening(start, n)
	for k := max(0, coldest-rehardenDays); k < coldest; k++ {
		if i := (start + k) % n; d.SnowCM[i] < shelterCM && d.SoilC[i] > thawC {
			y.ThawDays++
		}
	}
}

// hardening is how far grass is hardened, 0 to 1, by the coldest day to come or the first
// cold that kills what is not.
func (d *Days) hardening(start, n int) float64 {
	days := 0.0
	for k := 182; k <= 365; k++ {
		i := (start + k) % n
		if d.SnowCM[i] < shelterCM {
			days += HardeningDay(float64(d.MeanC[i]), float64(d.GlobalMJ[i])*d.Exposure.OpenShare[calendar.MonthOf(i%365)])
		}
		if d.CrownC[i] < killingCrownC {
			break
		}
	}
	return min(1, days/hardeningDays)
}

// Summary gathers what a reader of a plan wants to know of the weather.
func (s *Series) Summary() Summary {
	n := s.Normals
	sum := Summary{ColdestMonthC: math.Inf(1), WarmestMonthC: math.Inf(-1)}
	for m, v := range n.MeanC {
		sum.MeanYearC += v * float64(calendar.MonthDays[m]) / 365
		sum.ColdestMonthC = min(sum.ColdestMonthC, v)
		sum.WarmestMonthC = max(sum.WarmestMonthC, v)
		sum.RainYearMM += n.RainMM[m]
	}
	sum.GrowingFrom, sum.GrowingTo = growingSeason(n)

	cold := n.ColdestDay()
	years := float64(s.Years)
	var last, first, wettest []float64 // days after the coldest day; -1: no frost
	for y := range s.Years {
		lastFrost, firstFrost := -1, 365
		coldest, wet := math.Inf(1), 0.0
		for k := range 365 {
			i := (y*365 + cold + k) % len(s.MeanC)
			if s.MeanC[i] > growingC {
				sum.GrowingDays += 1 / years
			}
			if s.MinC[i] < 0 {
				if k < 182 {
					lastFrost = k
				} else {
					firstFrost = min(firstFrost, k)
				}
			}
			if s.SnowCM[i] >= shelterCM {
				sum.SnowDays += 1 / years
			}
			coldest = min(coldest, float64(s.MinC[i]))
			wet = max(wet, float64(s.RainMM[i]))
		}
		sum.FrostFreeDays += float64(firstFrost-lastFrost-1) / years
		sum.AirMinC += coldest / years
		last = append(last, float64(lastFrost))
		first = append(first, float64(firstFrost))
		wettest = append(wettest, wet)
	}
	sort.Float64s(last)
	sort.Float64s(first)
	sort.Float64s(wettest)
	dayOf := func(k float64) int {
		if k < 0 || k >= 365 {
			return -1
		}
		return (cold + int(k)) % 365
	}
	sum.LastFrost10, sum.LastFrost50 = dayOf(Percentile(last, 0.9)), dayOf(Percentile(last, 0.5))
	sum.FirstFrost10, sum.FirstFrost50 = dayOf(Percentile(first, 0.1)), dayOf(Percentile(first, 0.5))
	sum.DesignRainMMH = designRain(sum.WarmestMonthC, Percentile(wettest, 0.5))
	return sum
}

// Rain of the wettest hour met once in two years: it rises with the warmth of
// summer and cannot be more than a share of the wettest day's. Own fit to figures
// of national rainfall atlases, from memory, within a third: 10 mm at Lerwick, 13 at Valentia, 14
// at London, 19 at Hamburg, 29 at Boston, 36 at Minneapolis, 44 at Little Rock.
const (
	hourRainMM    = 9.6 // where the warmest month has hourRainAtC
	hourRainAtC   = 12.6
	hourRainPerC  = 0.098 // e-fold
	hourRainOfDay = 0.7
)

func designRain(warmestC, dayMM float64) float64 {
	return min(hourRainOfDay*dayMM, hourRainMM*steady.Exp(hourRainPerC*(warmestC-hourRainAtC)))
}

// growingSeason is the longest run of days whose mean curve lies above
// growingC; both ends are -1 where it never does, and the whole year where it
// always does.
func growingSeason(n Normals) (from, to int) {
	curve := dailyCurve(n.MeanC)
	cold := n.ColdestDay()
	if slices.Min(curve[:]) > growingC {
		return 0, 364
	}
	from, to = -1, -1
	best, run := 0, 0
	for k := range 365 {
		d := (cold + k) % 365
		if curve[d] > growingC {
			run++
			if run > best {
				best = run
				to = d
				from = (d - run + 1 + 365) % 365
			}
		} else {
			run = 0
		}
	}
	return from, to
}

// Percentile reads the share p (0 to 1) of sorted values, between neighbours in
// a straight line. It is 0 of none.
func Percentile(sorted []float64, p float64) float64 {
	if len(sorted) == 0 {
		return 0
	}
	at := p * float64(len(sorted)-1)
	i := min(int(at), len(sorted)-1)
	if i+1 == len(sorted) {
		return sorted[i]
	}
	return sorted[i] + (at-float64(i))*(sorted[i+1]-sorted[i])
}
