package weather

import (
	"math"
	"math/rand/v2"

	"swardwright/internal/calendar"
	"swardwright/internal/steady"
	"swardwright/site/sun"
)

// The residuals of maximum and minimum temperature and radiation from day to
// day: z(t) = A z(t-1) + B e(t). Matrices of C. W. Richardson and D. A. Wright,
// WGEN: A model for generating daily weather variables, USDA ARS-8, 1984.
var (
	residualA = [3][3]float64{{0.567, 0.086, -0.002}, {0.253, 0.504, -0.050}, {-0.006, -0.039, 0.244}}
	residualB = [3][3]float64{{0.781, 0, 0}, {0.328, 0.637, 0}, {0.238, -0.341, 0.873}}
)

// Rain by day from rain by month: Geng, Penning de Vries and Supit, Agric. For.
// Meteorol. 36:363 (1986). A wet day follows a dry one with probability 0.75 f
// and a wet one with 0.25 more, f being the share of wet days; the scale of the
// gamma distribution of amounts is -2.16 + 1.83 x their mean.
const (
	wetAfterDry    = 0.75
	wetAfterWet    = 0.25 // more
	gengIntercept  = -2.16
	gengSlope      = 1.83
	wetDayMM       = 1 // least rain of a wet day of the normals
	mostWetOfMonth = 0.97
)

// Own constants.
const (
	// Radiation of a wet day over that of a dry one, and standard deviation of
	// each over its own mean; the bounds are shares of what comes in above the
	// air. Of the order of the tables of Richardson and Wright 1984 (from memory).
	wetLight      = 0.55
	dryLightCV    = 0.25
	wetLightCV    = 0.45
	darkestDay    = 0.06
	brightestDay  = 0.78
	rangeCV       = 0.45 // most that the daily range varies over its mean
	clearestDry   = 0.72 // no dry-day mean above this share
	wetDayCoolK   = 0.35 // fall of the maximum on wet days per MJ of light lost
	wetDayWinterK = 0.8  // less this: in the dark months cloud keeps the warmth in
)

// Generate makes synthetic years whose months have the means of the normals:
// a two-state chain of wet and dry days with gamma amounts, and maximum and
// minimum temperature and radiation that follow one another from day to day, in
// the manner of C. W. Richardson, Water Resour. Res. 17:182 (1981). globalMJ is
// radiation on open level ground by month, MJ m⁻² d⁻¹.
//
// A seed is one run of luck, the same at every place (common random numbers): a
// cold spell or a wet one of the third winter comes to all places, at each by its
// own measure, so that what differs between two places is climate and not chance.
// The second half of the years mirrors the luck of the first (antithetic variates):
// its departures add up to nothing, and what is counted over the years differs less
// from seed to seed.
func Generate(n Normals, globalMJ [12]float64, years int, seed uint64) *Series {
	size := years * 365
	s := &Series{
		Years: years, Normals: n,
		MeanC: make([]float32, size), MinC: make([]float32, size), MaxC: make([]float32, size),
		RainMM: make([]float32, size), GlobalMJ: make([]float32, size),
		SnowMM: make([]float32, size), SnowCM: make([]float32, size),
	}
	p := dailyParameters(n, globalMJ)
	luck := rand.NewPCG(seed, luckStream)
	rng := rand.New(luck)
	// How many draws an amount of rain takes depends on the place, so each day's
	// has a stream of its own.
	amounts := rand.NewPCG(seed, 0)
	amount := rand.New(amounts)
	var z [3]float64
	var snow snowpack
	wet := false
	const warmUp = 365 // a year thrown away, so that the first starts amid snow where there is any
	mirror := (years + 1) / 2 * 365
	sign, luck0, z0 := 1.0, *luck, z
	for t := -warmUp; t < size; t++ {
		d := (t + warmUp) % 365
		switch t {
		case 0:
			luck0, z0 = *luck, z
		case mirror:
			*luck, sign = luck0, -1
			for i := range z {
				z[i] = -z0[i]
			}
		}
		q := &p[d]
		chance := q.wetAfterDry
		if wet {
			chance = q.wetAfterWet
		}
		wet = 0.5+sign*(rng.Float64()-0.5) < chance
		e := [3]float64{sign * rng.NormFloat64(), sign * rng.NormFloat64(), sign * rng.NormFloat64()}
		z = nextResidual(z, e)
		rain, light, hi := 0.0, q.dry, q.maxDry
		if wet {
			amounts.Seed(seed+rainStream, uint64(t))
			rain = q.leastRain + gamma(amount, q.shape)*q.scale
			light, hi = q.wet, q.maxWet
		}
		tmin, tmax := q.extremes(hi, z)
		mean := max(tmin, min(tmax, (tmax+tmin)/2+q.meanOffset))
		global := max(q.lightLow, min(q.lightHigh, light.mean+light.sd*z[2]))
		snow.day(rain, mean)
		if t < 0 {
			continue
		}
		s.MaxC[t], s.MinC[t], s.MeanC[t] = float32(tmax), float32(tmin), float32(mean)
		s.RainMM[t], s.GlobalMJ[t] = float32(rain), float32(global)
		s.SnowMM[t], s.SnowCM[t] = float32(snow.waterMM), float32(snow.depthCM)
	}
	s.grass = s.grassDays()
	return s
}

// nextResidual is what follows a day's residual, e being the new day's own luck.
func nextResidual(z, e [3]float64) (next [3]float64) {
	for i := range next {
		for k := range z {
			next[i] += residualA[i][k]*z[k] + residualB[i][k]*e[k]
		}
	}
	return next
}

// extremes are a day's lowest and highest temperature, from its mean maximum and its
// residual.
func (q *parameters) extremes(meanMax float64, z [3]float64) (tmin, tmax float64) {
	both := q.common * skewed((z[0]+z[1])*commonScale, q.skew)
	apart := q.apart * (z[0] - z[1])
	tmax = meanMax + q.sdMax*(both+apart)
	tmin = q.minMean + q.sdMin*(both-apart)
	if gap := tmin + leastRangeK - tmax; gap > 0 {
		tmax += gap / 2
		tmin -= gap / 2
	}
	return tmin, tmax
}

// Any constants that keep the streams of one seed apart.
const (
	luckStream = 0x5377617264
	rainStream = 0x5261696e
)

// leastRangeK is the least difference of a day's maximum and minimum.
const leastRangeK = 0.5

// light is the radiation of a dry or a wet day before it is held in bounds.
type lightOfDay struct{ mean, sd float64 }

// parameters are those of one day of the year.
type parameters struct {
	wetAfterDry, wetAfterWet float64
	leastRain, shape, scale  float64
	minMean, maxDry, maxWet  float64
	meanOffset               float64 // of the daily mean from the middle of the extremes
	sdMax, sdMin             float64
	skew                     float64
	common, apart            float64 // shares of the sum and the difference of the two residuals
	dry, wet                 lightOfDay
	lightLow, lightHigh      float64
}

func dailyParameters(n Normals, globalMJ [12]float64) (p [365]parameters) {
	mean, lo, hi := dailyCurve(n.MeanC), dailyCurve(n.MinC), dailyCurve(n.MaxC)
	global := dailyCurve(globalMJ)
	spreadMin := n.minSpread()
	spreadMax := n.maxSpread(spreadMin)
	sdMin, sdMax := linear(spreadMin), linear(spreadMax)
	winter := linear(n.winterness())
	for d := range p {
		q := &p[d]
		m := calendar.MonthOf(d)

		f := min(mostWetOfMonth, n.WetDays[m]/float64(calendar.MonthDays[m]))
		if n.RainMM[m] <= 0 {
			f = 0
		}
		q.wetAfterDry = wetAfterDry * f
		q.wetAfterWet = wetAfterWet + wetAfterDry*f
		if f > 0 {
			amount := n.RainMM[m] / (f * float64(calendar.MonthDays[m]))
			q.leastRain = min(wetDayMM, amount)
			above := amount - q.leastRain
			q.scale = max(above, gengIntercept+gengSlope*above) // shape at most 1
			if q.scale > 0 {
				q.shape = above / q.scale
			}
		}

		// Light: dry and wet means that average to the month's, each drawn
		// from a normal held in bounds.
		ra := sun.RaMJ(n.LatitudeDeg, d+1)
		g := max(0, global[d])
		q.lightLow = min(g, darkestDay*ra)
		q.lightHigh = max(g*1.05, brightestDay*ra)
		dry := min(g/(1-f*(1-wetLight)), max(g, clearestDry*ra))
		wet := dry * wetLight
		if f > 0 {
			wet = max(0, (g-(1-f)*dry)/f)
		}
		q.dry = boundedLight(dry, dryLightCV*dry, q.lightLow, q.lightHigh)
		q.wet = boundedLight(wet, wetLightCV*wet, q.lightLow, q.lightHigh)

		q.sdMin, q.sdMax = sdMin[d], sdMax[d]
		daily := max(leastRangeK, hi[d]-lo[d])
		a, b := tie(daily, q.sdMin, q.sdMax)
		q.common, q.apart = a, b/math.Sqrt(2*(1-residualR))
		q.skew = skewness(winter[d])
		// What holding the minimum below the maximum will add to the range is
		// taken off beforehand.
		rangeSD := math.Hypot((q.sdMax-q.sdMin)*a, (q.sdMax+q.sdMin)*b)
		excess := heldMean(daily, rangeSD, leastRangeK, 100) - daily
		cooler := wetDayCoolK*(dry-wet) - wetDayWinterK
		q.maxDry = hi[d] + f*cooler - excess/2
		q.maxWet = hi[d] - (1-f)*cooler - excess/2
		q.minMean = lo[d] + excess/2
		q.meanOffset = mean[d] - (hi[d]+lo[d])/2
	}
	return p
}

// commonScale makes a standard variate of the sum of the first two residuals.
var commonScale = 1 / math.Sqrt(2*(1+residualR))

// residualR is the correlation of the first two residuals on one day that the
// matrices lead to.
const residualR = 0.633

// tie gives the shares (of unit variance together) that the days' common
// departure and the departure of the range have in maximum and minimum: those
// of the published residuals, unless they would let the range vary by more than
// rangeCV of itself, as they would in the dark months of cold places.
func tie(rangeK, sdMin, sdMax float64) (common, apart float64) {
	apart = min(math.Sqrt((1-residualR)/2), rangeCV*rangeK/(sdMin+sdMax))
	return math.Sqrt(1 - apart*apart), apart
}

// boundedLight finds the mean of a normal variate that, held between lo and hi,
// averages to target.
func boundedLight(target, sd, lo, hi float64) lightOfDay {
	target = max(lo, min(hi, target))
	if sd <= 0 || hi <= lo {
		return lightOfDay{mean: target}
	}
	a, b := lo-4*sd, hi+4*sd
	for range 30 {
		mid := (a + b) / 2
		if heldMean(mid, sd, lo, hi) < target {
			a = mid
		} else {
			b = mid
		}
	}
	return lightOfDay{mean: (a + b) / 2, sd: sd}
}

// heldMean is the mean of a normal variate held between lo and hi.
func heldMean(mean, sd, lo, hi float64) float64 {
	a, b := (lo-mean)/sd, (hi-mean)/sd
	pa, pb := normalCDF(a), normalCDF(b)
	density := func(z float64) float64 { return steady.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }
	return lo*pa + hi*(1-pb) + mean*(pb-pa) + sd*(density(a)-density(b))
}

// gamma draws from a gamma distribution of unit scale and shape in (0, 1]:
// Marsaglia and Tsang, ACM Trans. Math. Softw. 26:363 (2000).
func gamma(rng *rand.Rand, shape float64) float64 {
	if shape <= 0 {
		return 0
	}
	if shape == 1 {
		return rng.ExpFloat64()
	}
	d := shape + 1 - 1.0/3
	c := 1 / math.Sqrt(9*d)
	for {
		x := rng.NormFloat64()
		v := 1 + c*x
		if v <= 0 {
			continue
		}
		v = v * v * v
		u := rng.Float64()
		if math.Log(u) < 0.5*x*x+d-d*v+d*math.Log(v) {
			return d * v * math.Pow(1-rng.Float64(), 1/shape)
		}
	}
}
