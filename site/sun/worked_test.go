package sun

import (
	"fmt"
	"math"
	"testing"
	"time"

	"swardwright/internal/approx"
)

// Meeus ch. 25 set out term by term, eq. 25.2 to 25.8 and 22.2, for centuries in which the small terms show: a figure or a sign
// that is off shows in the sixth decimal.
func TestEquatorialTermByTerm(t *testing.T) {
	sin := func(deg float64) float64 { return math.Sin(deg / 180 * math.Pi) }
	cos := func(deg float64) float64 { return math.Cos(deg / 180 * math.Pi) }
	for _, T := range []float64{-12, -7.3, -1, 0.26, 2, 15} {
		L := 280.46646 + 36000.76983*T + 0.0003032*T*T
		M := 357.52911 + 35999.05029*T - 0.0001537*T*T
		e := 0.016708634 - 0.000042037*T - 0.0000001267*T*T
		C := 1.914602*sin(M) - 0.004817*T*sin(M) - 0.000014*T*T*sin(M) + 0.019993*sin(2*M) - 0.000101*T*sin(2*M) + 0.000289*sin(3*M)
		node := 125.04 - 1934.136*T
		eps := 23 + 26/60.0 + 21.448/3600 - 46.8150/3600*T - 0.00059/3600*T*T + 0.001813/3600*T*T*T + 0.00256*cos(node)
		lambda := L + C - 0.00569 - 0.00478*sin(node)
		got := equatorial(36525 * T)
		approx.Near(t, fmt.Sprintf("T %g: declination", T), got.declination*180/math.Pi, math.Asin(sin(eps)*sin(lambda))*180/math.Pi, 4e-6)
		ra := math.Atan2(cos(eps)*sin(lambda), cos(lambda))
		approx.Near(t, fmt.Sprintf("T %g: right ascension", T), math.Remainder(got.rightAscension-ra, 2*math.Pi)*180/math.Pi, 0, 4e-6)
		approx.Near(t, fmt.Sprintf("T %g: obliquity", T), got.obliquity*180/math.Pi, eps, 3e-6)
		approx.Near(t, fmt.Sprintf("T %g: nutation", T), got.nutationDeg, -0.00478*sin(node), 1e-9)
		approx.Near(t, fmt.Sprintf("T %g: distance", T), got.distanceAU, 1.000001018*(1-e*e)/(1+e*cos(M+C)), 1e-9)
	}
}

// The sun's place by another way than spherical trigonometry: its direction as a vector, turned by the sidereal time (Meeus
// eq. 12.4) and tilted by the latitude; its parallax of 8.794″ takes 1/23455 of the earth's radius from it. Sixty-nine seconds lie
// between the two times, from memory.
func TestAtByVectors(t *testing.T) {
	for _, when := range []time.Time{
		time.Date(2026, 6, 21, 4, 30, 0, 500_000_000, time.UTC), time.Date(2026, 12, 21, 11, 0, 0, 0, time.UTC), time.Date(1990, 3, 3, 17, 45, 12, 0, time.UTC),
		time.Date(800, 9, 9, 9, 9, 9, 0, time.UTC), time.Date(3900, 1, 31, 23, 0, 0, 0, time.UTC),
	} {
		for _, place := range [][2]float64{{63.2, 14.6}, {-41.3, 174.8}, {0.5, -78}, {51.5, 0}, {35, -120}} {
			days := when.Sub(time.Date(2000, 1, 1, 12, 0, 0, 0, time.UTC)).Hours() / 24
			if y := when.Year(); y < 1800 || y > 2200 { // more than a Duration holds
				days = float64(when.Unix()-946728000) / 86400
			}
			eq := equatorial(days + 69.0/86400)
			T := days / 36525
			theta := math.Mod(280.46061837+360.98564736629*days+0.000387933*T*T+eq.nutationDeg*math.Cos(eq.obliquity), 360)
			H := theta*math.Pi/180 + place[1]*math.Pi/180 - eq.rightAscension
			// South, east and up at the equator's frame, then tilted to the horizon.
			x, y, z := math.Cos(eq.declination)*math.Cos(H), -math.Cos(eq.declination)*math.Sin(H), math.Sin(eq.declination)
			phi := place[0] * math.Pi / 180
			up := x*math.Cos(phi) + z*math.Sin(phi)
			north := z*math.Cos(phi) - x*math.Sin(phi)
			east := y
			elevation := math.Atan2(up-8.794/3600*math.Pi/180/eq.distanceAU, math.Hypot(north, east)) * 180 / math.Pi
			azimuth := math.Mod(math.Atan2(east, north)*180/math.Pi+360, 360)
			got := At(when, place[0], place[1])
			name := fmt.Sprintf("%v at %v: ", when, place)
			approx.Near(t, name+"elevation", got.ElevationDeg, elevation, 1e-5)
			approx.Near(t, name+"azimuth", got.AzimuthDeg, azimuth, 1e-5)
			approx.Near(t, name+"declination", got.DeclinationDeg, eq.declination*180/math.Pi, 1e-9)
			approx.Near(t, name+"refraction", got.ApparentDeg-got.ElevationDeg, refractionDeg(got.ElevationDeg), 1e-9)
		}
	}
	// Half a second moves the sun: a tenth of a minute of arc in azimuth and more.
	a, b := At(time.Date(2026, 3, 20, 12, 0, 0, 0, time.UTC), 10, 0), At(time.Date(2026, 3, 20, 12, 0, 0, 500_000_000, time.UTC), 10, 0)
	approx.Near(t, "half a second, degrees on the sky", math.Hypot(b.ElevationDeg-a.ElevationDeg, (b.AzimuthDeg-a.AzimuthDeg)*math.Cos(a.ElevationDeg*math.Pi/180)), 15.0/7200, 2e-5)
}

// A day of the year is a day of 2026 at noon; HalfDayRad by the sun's own elevation at that hour angle.
func TestDaysOfTheYear(t *testing.T) {
	for _, day := range []int{1, 80, 172, 266, 355} {
		noon := time.Date(2026, 1, day, 12, 0, 0, 0, time.UTC)
		days := noon.Sub(time.Date(2000, 1, 1, 12, 0, 0, 0, time.UTC)).Hours() / 24
		approx.Near(t, "declination", DeclinationDeg(float64(day)), equatorial(days).declination*180/math.Pi, 1e-9)
		approx.Near(t, "distance", DistanceAU(float64(day)), equatorial(days).distanceAU, 1e-12)
	}
	for _, lat := range []float64{-50, -20, 0, 35, 60, 68} {
		for _, decl := range []float64{-23, -5, 10, 23} {
			for _, el := range []float64{-6, 0, 5, 20} {
				h := HalfDayRad(lat, decl, el)
				at := func(h float64) float64 { // elevation at hour angle h
					phi, d := lat*math.Pi/180, decl*math.Pi/180
					return math.Asin(math.Sin(phi)*math.Sin(d)+math.Cos(phi)*math.Cos(d)*math.Cos(h)) * 180 / math.Pi
				}
				switch {
				case h > 0 && h < math.Pi:
					approx.Near(t, fmt.Sprintf("elevation at the half day of %g, %g", lat, decl), at(h), el, 1e-9)
				case h == 0 && at(0) > el || h == math.Pi && at(math.Pi) < el:
					t.Errorf("latitude %g, declination %g: half a day of %g passes %g", lat, decl, h, el)
				}
			}
		}
	}
}
