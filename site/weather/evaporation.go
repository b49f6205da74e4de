package weather

import (
	"math"

	"swardwright/internal/steady"
	"swardwright/site/sun"
)

// saturationKPa is the vapour pressure of saturated air, FAO-56 equation 11.
func saturationKPa(c float64) float64 { return 0.6108 * steady.Exp(17.27*c/(c+237.3)) }

// pressureKPa is that of the air at a height above the sea, FAO-56 equation 7.
func pressureKPa(altitudeM float64) float64 {
	return 101.3 * math.Pow((293-0.0065*altitudeM)/293, 5.26)
}

// windMS is the wind at 2 m: the value FAO-56 gives where none is measured. The
// 10 m wind of an open airfield says little of a lawn among buildings.
const windMS = 2

// penmanMonteith is FAO-56 equation 6: reference evapotranspiration, mm a day,
// from net radiation less soil heat, MJ m⁻² d⁻¹, mean temperature, wind at 2 m,
// m/s, the vapour pressure of saturated and of actual air, its slope and the
// psychrometric constant, kPa and kPa/K.
func penmanMonteith(netMJ, meanC, wind, es, ea, slope, gamma float64) float64 {
	return (0.408*slope*netMJ + gamma*900/(meanC+273)*wind*(es-ea)) / (slope + gamma*(1+0.34*wind))
}

// vapourSlope is FAO-56 equation 13, kPa/K.
func vapourSlope(c float64) float64 {
	return 4098 * saturationKPa(c) / ((c + 237.3) * (c + 237.3))
}

// netLongwave is FAO-56 equation 39, MJ m⁻² d⁻¹ outwards.
func netLongwave(maxC, minC, ea, rs, rso float64) float64 {
	const stefanBoltzmann = 4.903e-9 // MJ K⁻⁴ m⁻² d⁻¹
	hi, lo := maxC+273.16, minC+273.16
	cloud := 1.0
	if rso > 0 {
		cloud = max(0.3, min(1, rs/rso))
	}
	return stefanBoltzmann * (hi*hi*hi*hi + lo*lo*lo*lo) / 2 * (0.34 - 0.14*math.Sqrt(ea)) * (1.35*cloud - 0.35)
}

// albedo of the reference grass, FAO-56 equation 38.
const albedo = 0.23

// evaporation holds what daily ET0 needs of a place and is the same every year.
type evaporation struct {
	gamma    float64
	clearSky [365]float64 // MJ m⁻² d⁻¹
	dewGap   [365]float64 // dew point less the daily minimum, K
}

func newEvaporation(n Normals) *evaporation {
	e := &evaporation{gamma: 0.665e-3 * pressureKPa(n.AltitudeM)} // equation 8
	for d := range e.clearSky {
		ra := sun.RaMJ(n.LatitudeDeg, d+1)
		e.clearSky[d] = (0.75 + 2e-5*n.AltitudeM) * ra // equation 37
	}
	if n.VapourHPa != nil {
		// Without humidity the dew point is the minimum (equation 48); with it
		// the normals say how far from that the place lies.
		var gap [12]float64
		for m, hpa := range n.VapourHPa {
			ln := math.Log(max(0.01, hpa/10) / 0.6108)
			gap[m] = 237.3*ln/(17.27-ln) - n.MinC[m]
		}
		e.dewGap = linear(gap)
	}
	return e
}

// thirst is the reference evapotranspiration of a day in its two parts, mm.
type thirst struct {
	air float64 // by the air's dryness, anywhere
	sun float64 // by the radiation of the open
}

// at is the reference evapotranspiration where share of the open ground's radiation
// arrives. What hides the sun hides as much of the cold sky, so net longwave is
// scaled as well.
func (t thirst) at(share float64) float64 { return max(0, t.air+share*t.sun) }

// thirst is that of day d (0 to 364) of the year. FAO-56 equation 6 is linear in the
// net radiation, so that the places of a lawn differ by the second part alone.
func (e *evaporation) thirst(d int, meanC, minC, maxC, rs float64) thirst {
	es := (saturationKPa(maxC) + saturationKPa(minC)) / 2
	ea := min(es, saturationKPa(minC+e.dewGap[d]))
	net := (1-albedo)*rs - netLongwave(maxC, minC, ea, rs, e.clearSky[d])
	slope := vapourSlope(meanC)
	return thirst{
		air: penmanMonteith(0, meanC, windMS, es, ea, slope, e.gamma),
		sun: penmanMonteith(net, meanC, windMS, es, es, slope, e.gamma),
	}
}
