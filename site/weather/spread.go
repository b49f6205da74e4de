package weather

import (
	"math"

	"swardwright/internal/calendar"
)

// Standard deviation of the daily minimum about its mean: it grows with the
// yearly range of the monthly means and is widest in winter. Own fit to the
// frost days of the stations that count them, whose yearly count it leaves 4 to
// 5 days off on average.
const (
	spreadBase       = 1.9
	spreadPerRange   = 0.10
	spreadWinter     = -0.1
	spreadWinterRate = 0.06
	spreadLeast      = 1.2
)

// skewWinter is how much longer the tail of cold is in the coldest month: with clear
// nights over snow and air from inland winters have days far colder than their mean, and
// none as far above it. frostTrust is how far the coldest month's own count of frost
// days moves the spread from the general rule; in spring and autumn it settles it, but
// in the depth of winter it tells of one end of the distribution alone. Fitted together to the mean yearly minimum of 59
// stations (from memory of maps of hardiness zones, good to 1.5 °C): it is then 1.1 °C
// off on average, and 1.6 with a distribution that has no skew; the frost days of
// stations whose counts are withheld come out better too.
const (
	skewWinter = 0.08
	frostTrust = 0.5
)

// Standard deviation of the daily maximum over that of the minimum: the wider
// in summer, the narrower in winter (from memory of tables of daily climate).
const (
	maxOverMin       = 1.04
	maxOverMinWinter = -0.20
)

// minSpread is the standard deviation of the daily minimum by month: from the
// counts of frost days where a month's tell anything, and beyond them the
// general rule, scaled to agree with what the counts of this place say.
func (n Normals) minSpread() (spread [12]float64) {
	if n.spread != nil {
		return *n.spread
	}
	winter := n.winterness()
	for m := range spread {
		r := n.yearRange()
		spread[m] = max(spreadLeast, spreadBase+spreadPerRange*r+(spreadWinter+spreadWinterRate*r)*winter[m])
	}
	if n.FrostDays == nil {
		return spread
	}
	daily := dailyCurve(n.MinC)
	var ratio, weight float64
	var fitted [12]float64
	for m := range spread {
		s, ok := spreadFromFrost(daily, m, n.FrostDays[m], skewness(winter[m]))
		if !ok {
			continue
		}
		s = max(0.6*spread[m], min(1.6*spread[m], s))
		trust := 1 - (1-frostTrust)*max(0, winter[m])
		s = math.Pow(s, trust) * math.Pow(spread[m], 1-trust)
		fitted[m] = s
		ratio += s / spread[m]
		weight++
	}
	if weight == 0 {
		return spread
	}
	for m := range spread {
		if fitted[m] > 0 {
			spread[m] = fitted[m]
		} else {
			spread[m] *= ratio / weight
		}
	}
	return spread
}

// spreadFromFrost finds the standard deviation that gives the count of frost
// days of month m under a skew. A count near none, all or half the days tells nothing of it.
func spreadFromFrost(daily [365]float64, m int, frost, skew float64) (float64, bool) {
	share := frost / float64(calendar.MonthDays[m])
	if share < 0.03 || share > 0.97 || math.Abs(share-0.5) < 0.08 {
		return 0, false
	}
	count := func(sd float64) (days float64) {
		for d, mu := range daily {
			if calendar.MonthOf(d) == m {
				days += skewedCDF(-mu/sd, skew)
			}
		}
		return days
	}
	lo, hi := 0.3, 20.0
	rising := count(hi) > count(lo)
	for range 40 {
		mid := (lo + hi) / 2
		if (count(mid) < frost) == rising {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2, lo > 0.31 && hi < 19.9
}

// skewness of a day's temperature by how deep the winter is.
func skewness(winterness float64) float64 { return skewWinter * max(0, winterness) }

// skewed turns a standard normal variate into one of mean 0 and variance 1 with a
// longer tail of cold.
func skewed(z, k float64) float64 { return (z - k*(z*z-1)) / math.Sqrt(1+2*k*k) }

// skewedCDF is its distribution.
func skewedCDF(x, k float64) float64 {
	x *= math.Sqrt(1 + 2*k*k)
	root := 1 - 4*k*(x-k)
	if root <= 0 {
		return 1
	}
	root = math.Sqrt(root)
	return normalCDF(2*(x-k)/(1+root)) + normalCDF(-(1+root)/(2*k))
}

func (n Normals) maxSpread(minSpread [12]float64) (spread [12]float64) {
	winter := n.winterness()
	for m := range spread {
		spread[m] = minSpread[m] * (maxOverMin + maxOverMinWinter*winter[m])
	}
	return spread
}

// yearRange is the warmest month's mean less the coldest's.
func (n Normals) yearRange() float64 {
	lo, hi := n.MeanC[0], n.MeanC[0]
	for _, v := range n.MeanC {
		lo, hi = min(lo, v), max(hi, v)
	}
	return hi - lo
}

// winterness runs from 1 in the coldest month to -1 half a year on.
func (n Normals) winterness() (w [12]float64) {
	cold := 0
	for m, v := range n.MeanC {
		if v < n.MeanC[cold] {
			cold = m
		}
	}
	for m := range w {
		w[m] = math.Cos(2 * math.Pi * float64(m-cold) / 12)
	}
	return w
}
