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
		s, ok := spreadFromFrost(daily, m, n.FrostDays[m])
		if !ok {
			continue
		}
		s = max(0.6*spread[m], min(1.6*spread[m], s))
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
// days of month m. A count near none, all or half the days tells nothing of it.
func spreadFromFrost(daily [365]float64, m int, frost float64) (float64, bool) {
	share := frost / float64(calendar.MonthDays[m])
	if share < 0.03 || share > 0.97 || math.Abs(share-0.5) < 0.08 {
		return 0, false
	}
	count := func(sd float64) (days float64) {
		for d, mu := range daily {
			if calendar.MonthOf(d) == m {
				days += normalCDF(-mu / sd)
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
