// Package sun is the sun's astronomy for the rooms of site: its place in the
// sky at an instant, how long it is up, and the radiation that reaches the top of
// the atmosphere.
//
// Two descriptions are kept apart on purpose. [At] and [DeclinationDeg]
// follow Meeus, Astronomical Algorithms (2nd ed. 1998), ch. 25, good to about
// 0.01° between 1950 and 2050. [RaMJ] and [DaylightHours] follow the simpler
// series of FAO Irrigation and Drainage Paper 56, because the coefficients of
// that paper (Ångström, Hargreaves, Penman-Monteith) were fitted with it.
//
// Latitudes and longitudes are degrees, north and east positive. Azimuths are
// degrees clockwise from true north. Days of the year count from 1, 1 January
// of a year of 365 days.
package sun

import (
	"math"
	"time"
)

// GeometricDeg is the elevation at which the sun's centre rises and sets on the bare
// horizon, without refraction.
const GeometricDeg = 0.0

const (
	rad = math.Pi / 180 // a degree in radians

	// deltaTSeconds is Terrestrial less Universal Time, 67.6 s in 2015 and about
	// 69 s in 2025; ten seconds of error move the sun by 0.0001°.
	deltaTSeconds = 69

	// parallaxDeg is the sun's equatorial horizontal parallax at 1 AU, 8.794″.
	parallaxDeg = 8.794 / 3600

	// The air that refraction is reckoned with.
	pressureHPa  = 1010
	temperatureC = 15
)

// Position is where the sun stands.
type Position struct {
	ElevationDeg   float64 // of the centre, without refraction
	ApparentDeg    float64 // the same lifted by refraction; equal to ElevationDeg below -1°
	AzimuthDeg     float64 // 0 to 360
	DeclinationDeg float64
}

// At returns the sun's position at an instant, seen from a place. At the poles,
// where there is no north to count from, the azimuth is that of the meridian of
// the longitude given.
func At(t time.Time, latitudeDeg, longitudeDeg float64) Position {
	days := daysFromJ2000(t)
	eq := equatorial(days + deltaTSeconds/86400.0)

	// Sidereal time at Greenwich, Meeus eq. 12.4, and the nutation in right
	// ascension that makes it apparent.
	T := days / 36525
	sidereal := 280.46061837 + 360.98564736629*days + 0.000387933*T*T + eq.nutationDeg*math.Cos(eq.obliquity)
	hour := wrap180(sidereal + longitudeDeg - eq.rightAscension/rad)

	// Meeus eq. 13.5 and 13.6, azimuth turned to count from north.
	phi, H := latitudeDeg*rad, hour*rad
	sinPhi, cosPhi := math.Sincos(phi)
	sinD, cosD := math.Sincos(eq.declination)
	sinEl := sinPhi*sinD + cosPhi*cosD*math.Cos(H)
	el := math.Asin(max(-1, min(1, sinEl))) / rad
	az := math.Atan2(-cosD*math.Sin(H), sinD*cosPhi-cosD*math.Cos(H)*sinPhi) / rad
	if az < 0 {
		az += 360
	}
	el -= parallaxDeg / eq.distanceAU * math.Cos(el*rad)
	return Position{
		ElevationDeg:   el,
		ApparentDeg:    el + refractionDeg(el),
		AzimuthDeg:     az,
		DeclinationDeg: eq.declination / rad,
	}
}

// DeclinationDeg is the sun's declination at noon of a day of the year, in a
// common year in the middle of the leap cycle; in any one year the true value
// differs by up to 0.2°, three quarters of a day's motion.
func DeclinationDeg(dayOfYear float64) float64 {
	return equatorial(yearStartJ2000+dayOfYear-0.5).declination / rad
}

// DistanceAU is the earth's distance from the sun at noon of a day of the year.
func DistanceAU(dayOfYear float64) float64 {
	return equatorial(yearStartJ2000 + dayOfYear - 0.5).distanceAU
}

// yearStartJ2000 is 0 h on 1 January 2026, in days from J2000.0: of the years
// 2025 to 2028 the one whose equinoxes fall nearest to the mean of the cycle.
const yearStartJ2000 = 9496.5

// HalfDayRad is the hour angle, in radians, at which a sun of the given
// declination passes an elevation: 0 when it stays below all day, π when it
// stays above. Meeus eq. 15.1.
func HalfDayRad(latitudeDeg, declinationDeg, elevationDeg float64) float64 {
	phi, d := latitudeDeg*rad, declinationDeg*rad
	num := math.Sin(elevationDeg*rad) - math.Sin(phi)*math.Sin(d)
	den := math.Cos(phi) * math.Cos(d)
	switch {
	case num >= den:
		return 0
	case num <= -den:
		return math.Pi
	}
	return math.Acos(num / den)
}

// RaMJ is the radiation of one day on level ground at the top of the atmosphere,
// MJ m⁻² d⁻¹: FAO-56 eq. 21 to 25, in every latitude, polar day and night
// included.
func RaMJ(latitudeDeg float64, dayOfYear int) float64 {
	const solarConstant = 0.0820 // MJ m⁻² min⁻¹
	d, ws := fao(latitudeDeg, dayOfYear)
	phi := latitudeDeg * rad
	dr := 1 + 0.033*math.Cos(2*math.Pi*float64(dayOfYear)/365)
	ra := 24 * 60 / math.Pi * solarConstant * dr *
		(ws*math.Sin(phi)*math.Sin(d) + math.Cos(phi)*math.Cos(d)*math.Sin(ws))
	return max(0, ra)
}

// DaylightHours is the greatest possible length of sunshine of a day: FAO-56
// eq. 34.
func DaylightHours(latitudeDeg float64, dayOfYear int) float64 {
	_, ws := fao(latitudeDeg, dayOfYear)
	return 24 / math.Pi * ws
}

// fao gives the declination (eq. 24) and the sunset hour angle (eq. 25), both in
// radians, as FAO-56 has them; the angle is bounded where the sun does not set
// or rise.
func fao(latitudeDeg float64, dayOfYear int) (declination, sunset float64) {
	declination = 0.409 * math.Sin(2*math.Pi*float64(dayOfYear)/365-1.39)
	return declination, math.Acos(max(-1, min(1, -math.Tan(latitudeDeg*rad)*math.Tan(declination))))
}

// equator is the sun's place on the celestial sphere, in radians.
type equator struct {
	rightAscension, declination, obliquity float64
	nutationDeg                            float64 // in longitude
	distanceAU                             float64
}

// equatorial follows Meeus ch. 25, low accuracy, for an instant in days of
// Terrestrial Time from J2000.0.
func equatorial(days float64) equator {
	T := days / 36525
	L0 := 280.46646 + T*(36000.76983+T*0.0003032)         // eq. 25.2
	M := (357.52911 + T*(35999.05029-T*0.0001537)) * rad  // eq. 25.3
	e := 0.016708634 - T*(0.000042037+T*0.0000001267)     // eq. 25.4
	C := (1.914602-T*(0.004817+T*0.000014))*math.Sin(M) + // equation of the centre
		(0.019993-T*0.000101)*math.Sin(2*M) + 0.000289*math.Sin(3*M)
	R := 1.000001018 * (1 - e*e) / (1 + e*math.Cos(M+C*rad)) // eq. 25.5
	node := (125.04 - 1934.136*T) * rad
	nutation := -0.00478 * math.Sin(node)
	lambda := (L0 + C - 0.00569 + nutation) * rad // apparent longitude
	eps0 := 23.4392911 - T*(0.0130042+T*(1.64e-7-T*5.04e-7))
	eps := (eps0 + 0.00256*math.Cos(node)) * rad // eq. 22.2 and 25.8
	sinL, cosL := math.Sincos(lambda)
	return equator{
		rightAscension: math.Atan2(math.Cos(eps)*sinL, cosL), // eq. 25.6
		declination:    math.Asin(math.Sin(eps) * sinL),      // eq. 25.7
		obliquity:      eps,
		nutationDeg:    nutation,
		distanceAU:     R,
	}
}

// refractionDeg is how much refraction lifts a body of true elevation h:
// Saemundsson's formula, Meeus eq. 16.4, for the air stated above.
func refractionDeg(h float64) float64 {
	if h < -1 {
		return 0
	}
	const air = pressureHPa / 1010.0 * 283 / (273 + temperatureC)
	return max(0, air*1.02/60/math.Tan((h+10.3/(h+5.11))*rad))
}

var j2000 = time.Date(2000, 1, 1, 12, 0, 0, 0, time.UTC)

// daysFromJ2000 splits off whole days, since a Duration holds only 292 years.
func daysFromJ2000(t time.Time) float64 {
	sec := t.Unix() - j2000.Unix()
	return (float64(sec) + float64(t.Nanosecond())/1e9) / 86400
}

func wrap180(deg float64) float64 { return deg - 360*math.Round(deg/360) }
