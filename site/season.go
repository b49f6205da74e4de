package site

import (
	"math"

	"swardwright/internal/calendar"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/site/weather"
)

// Constants of the season. The leaf dates are inferred: with them broad leaves
// are out in late April in mid Germany, in early May about 45° N inland and
// about 1 June at 64° N, and have fallen by late October, mid October and late
// September.
const (
	leafOutDegDays = 120.0 // above leafBaseC since midwinter, leaves out
	leafBaseC      = 5.0
	leafFallC      = 8.0  // smoothed mean at which leaves have fallen
	optimumC       = 20.0 // of cool-season growth; more heat does not end the season
	dormantWeight  = 0.02 // growth potential below which a month is no part of the season
	smoothingDays  = 15   // of the mean year, to take out sampling noise
)

// Depths of rooting. FAO-56 table 22 gives 0.5 to 1.0 m for cool-season turf at
// its best; mown lawns on ordinary ground root about 0.3 m, and on thin topsoil
// a little below it (common practice, no published source).
const (
	rootDepthM      = 0.30
	rootBelowM      = 0.05
	leastRootDepthM = 0.08
	leastOnDeckM    = 0.02 // a mat of roots has some depth
)

// sky is the average sky of the place. A month weighs in the growing season by
// its growth potential: light is worth most when the grass can grow.
func sky(series *weather.Series, globalMJ [12]float64) light.Sky {
	sk := light.Sky{GlobalMJ: globalMJ}
	year := meanYear(series)
	day, top := 0, 0.0
	for m, n := range calendar.MonthDays {
		for range n {
			sk.SeasonWeight[m] += weather.GrowthPotential(math.Min(year[day], optimumC)) / float64(n)
			day++
		}
		top = math.Max(top, sk.SeasonWeight[m])
	}
	for m := range sk.SeasonWeight {
		if sk.SeasonWeight[m] < dormantWeight {
			sk.SeasonWeight[m] = 0
		}
		if top > 0 {
			sk.SeasonWeight[m] /= top
		}
	}
	sk.LeafOnDay, sk.LeafOffDay = leafDates(year, series.Normals.ColdestDay())
	return sk
}

// meanYear is the smoothed mean air temperature of each day of the year, °C.
func meanYear(series *weather.Series) (year [365]float64) {
	var raw [365]float64
	for i, t := range series.MeanC {
		raw[i%365] += float64(t) / float64(series.Years)
	}
	for d := range year {
		for k := -smoothingDays; k <= smoothingDays; k++ {
			year[d] += raw[(d+k+365)%365] / (2*smoothingDays + 1)
		}
	}
	return year
}

// leafDates are the days of the year on which broad leaves are out and have
// fallen, in a year whose seasons turn on its coldest day. Where it is always warm
// they never fall, and where it is never warm they never come.
func leafDates(year [365]float64, coldest int) (on, off float64) {
	sum, out := 0.0, -1
	for k := range 365 {
		d := (coldest + k) % 365
		sum += math.Max(0, year[d]-leafBaseC)
		if out < 0 && sum >= leafOutDegDays {
			out = k
		}
		if out >= 0 && k > 180 && year[d] < leafFallC {
			return float64((coldest+out)%365 + 1), float64(d + 1)
		}
	}
	if out < 0 {
		return 1, 1
	}
	return float64((coldest+out)%365 + 1), float64((coldest+364)%365 + 1)
}

// exposure is what sets a zone's ground and sward apart from the open.
func exposure(z light.Zone, openDLI [12]float64, soil ground.Soil, irrigated bool) weather.Exposure {
	e := onSoil(weather.Exposure{DLI: z.Light.DLI, Irrigated: irrigated}, soil)
	for m := range e.OpenShare {
		e.OpenShare[m] = 1
		if openDLI[m] > 0 {
			e.OpenShare[m] = min(1, z.Light.DLI[m]/openDLI[m])
		}
	}
	return e
}

// onSoil is an exposure on the soil given.
func onSoil(e weather.Exposure, soil ground.Soil) weather.Exposure {
	e.FieldCapacity, e.WiltingPoint, e.Saturation = soil.FieldCapacity, soil.WiltingPoint, soil.Saturation
	e.RootDepthM = max(leastRootDepthM, min(rootDepthM, soil.DepthCM/100+rootBelowM))
	if soil.OnDeck { // there is nothing below
		e.RootDepthM = max(leastOnDeckM, min(rootDepthM, soil.DepthCM/100))
	}
	e.DrainMMD = soil.DrainMMD
	return e
}

func mean(months [12]float64) float64 {
	sum := 0.0
	for _, x := range months {
		sum += x
	}
	return sum / 12
}
