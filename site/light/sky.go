package light

import (
	"math"

	"swardwright/internal/calendar"
	"swardwright/site/sun"
)

// What sunlight is made of, and how the average sky is shared out. Only ratios
// of the clear-sky beam enter the light of a lawn: the amounts come from
// Sky.GlobalMJ.
const (
	// parShare is the share of global radiation that is photosynthetic (400 to
	// 700 nm). Published values for sun and sky together run from 0.45 to 0.50;
	// the lower end, so that a plan does not promise light. The light of the sky
	// alone is richer in it, so deep shade is if anything a little lighter.
	parShare = 0.45
	// molPerMJ turns photosynthetic energy into photons: 4.57 µmol/J for sun
	// and sky (McCree 1972; Thimijan & Heins, HortScience 18:818, 1983).
	molPerMJ = 4.57

	// wallAlbedo is the share of light a wall throws back, evenly all round, where
	// none is stated: the middle of brick, 0.20 to 0.40; white paint has 0.50 to
	// 0.90 (Oke, Boundary Layer Climates, 1987).
	wallAlbedo = 0.30

	// linkeTurbidity of clean northern air. It shapes the day (how much of the
	// beam comes with a low sun), not its sum.
	linkeTurbidity = 3.0

	solarConstantWM2 = 1367
)

// clearBeam is the direct radiation on a plane square to the sun under a clear
// sky, W/m²: the model of the European Solar Radiation Atlas, Rigollier, Bauer &
// Wald, Solar Energy 68:33 (2000), eq. 3 to 9, with the optical thickness of
// Kasten (1996) and the air mass of Kasten & Young (1989). Elevation is of the
// sun's centre, without refraction.
func clearBeam(sinElevation, altitudeM, distanceAU float64) float64 {
	if sinElevation <= 0 {
		return 0
	}
	h := math.Asin(min(1, sinElevation))
	h += 0.061359 * (0.1594 + 1.1230*h + 0.065656*h*h) / (1 + 28.9344*h + 277.3971*h*h) // refraction
	m := math.Exp(-altitudeM/8434.5) / (math.Sin(h) + 0.50572*math.Pow(h/rad+6.07995, -1.6364))
	thickness := 1 / (10.4 + 0.718*m)
	if m <= 20 {
		thickness = 1 / (6.6296 + m*(1.7513+m*(-0.1202+m*(0.0065-m*0.00013))))
	}
	return solarConstantWM2 / (distanceAU * distanceAU) * math.Exp(-0.8662*linkeTurbidity*m*thickness)
}

// diffuseShare is the share of the month's global radiation that comes from the
// sky rather than the sun: Erbs, Klein & Duffie, Solar Energy 28:293 (1982), for
// monthly means, by the clearness index and the sunset hour angle of the middle
// of the month. The fit holds for an index of 0.3 to 0.8 and is held at its ends
// beyond.
func diffuseShare(clearness, sunsetRad float64) float64 {
	k := max(0.3, min(0.8, clearness))
	if sunsetRad <= 81.4*rad {
		return 1.391 + k*(-3.560+k*(4.189-k*2.137))
	}
	return 1.311 + k*(-3.022+k*(3.427-k*1.821))
}

// monthSky is the average sky of one month over open level ground, MJ m⁻² d⁻¹.
type monthSky struct{ beam, diffuse float64 }

// split parts each month's global radiation into sun and sky.
func (s Sky) split(latitudeDeg float64) [12]monthSky {
	var out [12]monthSky
	for m := range out {
		var ra, half float64
		for _, d := range monthDays(m) {
			ra += sun.RaMJ(latitudeDeg, int(math.Round(d))) / float64(daysAMonth)
			half += sun.HalfDayRad(latitudeDeg, sun.DeclinationDeg(d), sun.GeometricDeg) / float64(daysAMonth)
		}
		g := s.GlobalMJ[m]
		if ra <= 0 { // polar night: what light there is comes from the sky
			out[m] = monthSky{diffuse: g}
			continue
		}
		k := diffuseShare(g/ra, half)
		out[m] = monthSky{beam: g * (1 - k), diffuse: g * k}
	}
	return out
}

// weights are the parts the months have in a mean over the growing season. A
// place that has none is judged by the whole year.
func (s Sky) weights() [12]float64 {
	var w [12]float64
	sum := 0.0
	for m, share := range s.SeasonWeight {
		w[m] = share * float64(calendar.MonthDays[m])
		sum += w[m]
	}
	for m := range w {
		if sum > 0 {
			w[m] /= sum
		} else {
			w[m] = float64(calendar.MonthDays[m]) / 365
		}
	}
	return w
}

// monthStart is the day of the year, from 1, on which a month begins.
func monthStart(m int) int { return calendar.MonthStart(m) + 1 }

// monthOf is the month, from 0, that a day of the year lies in.
func monthOf(dayOfYear float64) int { return calendar.MonthOf(int(dayOfYear) - 1) }

// daysAMonth is how many days stand for a month. A lawn in shade gains or loses
// its sun within days, which one day in the middle of the month would miss: at
// points behind walls at 47 to 64° N the mean sun hours of single months are then
// off by up to 2.6 h and by 0.1 h in the mean. With three days they are off by 0.5 h at the worst and by
// 0.01 h in the mean.
const daysAMonth = 3

// monthDays are the middles of the thirds of a month, in days of the year.
func monthDays(m int) [daysAMonth]float64 {
	var out [daysAMonth]float64
	for i := range out {
		out[i] = float64(monthStart(m)) - 0.5 + float64(calendar.MonthDays[m])*(float64(i)+0.5)/daysAMonth
	}
	return out
}
