package weather

import (
	"math"

	"swardwright/internal/calendar"
	"swardwright/internal/told"
	"swardwright/site/sun"
)

// Ångström–Prescott coefficients of FAO-56, equation 35.
const (
	angstromA = 0.25
	angstromB = 0.50
)

// sunReachKM is how far relative sunshine is carried from a station that has
// it, and sunReachM over what difference of height.
const (
	sunReachKM = 200
	sunReachM  = 300
)

// Radiation finds global radiation on open level ground by month, MJ m⁻² d⁻¹,
// from the best that is known, and says in words which that was:
//
//  1. measured at the place or close by;
//  2. the place's own sunshine (Ångström–Prescott, FAO-56 equation 35);
//  3. relative sunshine of a station within 200 km and 300 m of height;
//  4. the daily range of temperature (Hargreaves, FAO-56 equation 50), good to
//     about a tenth of a month, and no more than a clear sky lets through.
func (s Stations) Radiation(n Normals) (mjPerDay [12]float64, how told.Sentence) {
	if n.GlobalMJ != nil {
		if n.GlobalFrom != "" {
			return *n.GlobalMJ, told.Say("site.radiation-measured-at", told.Verbatim(n.GlobalFrom))
		}
		return *n.GlobalMJ, told.Say("site.radiation-measured")
	}
	ra, dayHours := monthlySun(n.LatitudeDeg)
	angstrom := func(relative [12]float64) (mj [12]float64) {
		for m := range mj {
			mj[m] = (angstromA + angstromB*relative[m]) * ra[m]
		}
		return mj
	}
	if n.SunHours != nil {
		how = told.Say("site.radiation-from-sunshine")
		if n.SunFrom != "" {
			how = told.Say("site.radiation-from-sunshine-at", told.Verbatim(n.SunFrom))
		}
		return angstrom(relativeSun(*n.SunHours, dayHours)), how
	}
	nearest, nearestKM := -1, math.Inf(1)
	for i, st := range s.all {
		if st.SunHours == nil || math.Abs(st.AltitudeM-n.AltitudeM) > sunReachM {
			continue
		}
		if km := DistanceKM(n.LatitudeDeg, n.LongitudeDeg, st.LatitudeDeg, st.LongitudeDeg); km < nearestKM {
			nearest, nearestKM = i, km
		}
	}
	if nearestKM <= sunReachKM {
		st := s.all[nearest]
		_, theirHours := monthlySun(st.LatitudeDeg)
		return angstrom(relativeSun(*st.SunHours, theirHours)),
			told.Say("site.radiation-from-station", told.Verbatim(st.Name), told.DistanceKM(nearestKM))
	}
	var rangeYear float64
	for m := range 12 {
		rangeYear += (n.MaxC[m] - n.MinC[m]) / 12
	}
	for m := range mjPerDay {
		share := hargreavesK(rangeYear) * math.Sqrt(n.MaxC[m]-n.MinC[m])
		mjPerDay[m] = min(share, clearSky(n.AltitudeM)) * ra[m]
	}
	return mjPerDay, told.Say("site.radiation-from-range")
}

// AtMostClear keeps radiation of elsewhere within what a clear sky lets through at a
// latitude, by month.
func AtMostClear(mjPerDay [12]float64, latitudeDeg, altitudeM float64) [12]float64 {
	ra, _ := monthlySun(latitudeDeg)
	for m := range mjPerDay {
		mjPerDay[m] = min(mjPerDay[m], clearSky(altitudeM)*ra[m])
	}
	return mjPerDay
}

// clearSky is the share of the radiation above the air that a clear sky lets through:
// FAO-56 equation 37.
func clearSky(altitudeM float64) float64 { return 0.75 + 2e-5*max(0, altitudeM) }

// relativeSun is n/N, held between 0 and 1: sunshine cards miss the low sun and
// at midsummer in the far north may record beyond the geometric day.
func relativeSun(hours, dayHours [12]float64) (share [12]float64) {
	for m, h := range hours {
		if dayHours[m] > 0 {
			share[m] = min(1, h/float64(calendar.MonthDays[m])/dayHours[m])
		}
	}
	return share
}

// hargreavesK is the adjustment coefficient kRs. FAO-56 gives 0.16 inland; by
// the sea, where the range is damped, it rises as the yearly mean range falls:
// medians of the value that fits, over 457 stations of the 1991-2020 normals
// with sunshine, in classes of 1 K.
func hargreavesK(rangeK float64) float64 {
	const inland = 0.16
	coast := []float64{0.244, 0.202, 0.182, 0.167} // at 3.5, 4.5, 5.5 and 6.5 K
	at := rangeK - 3.5
	switch {
	case at <= 0:
		return coast[0]
	case at < 3:
		i := int(at)
		return coast[i] + (at-float64(i))*(coast[i+1]-coast[i])
	default:
		return max(inland, coast[3]-(at-3)*(coast[3]-inland))
	}
}

// monthlySun gives extraterrestrial radiation, MJ m⁻² d⁻¹, and the geometric
// length of the day, hours, as means over the days of each month.
func monthlySun(latitudeDeg float64) (ra, dayHours [12]float64) {
	for d := range 365 {
		m := calendar.MonthOf(d)
		ra[m] += sun.RaMJ(latitudeDeg, d+1) / float64(calendar.MonthDays[m])
		dayHours[m] += sun.DaylightHours(latitudeDeg, d+1) / float64(calendar.MonthDays[m])
	}
	return ra, dayHours
}
