package weather

import (
	"fmt"
	"math"

	"swardwright/internal/calendar"
)

// LapseKPerM is the fall of temperature with height used to carry normals from
// a station to a site: that of the ICAO standard atmosphere, 6.5 K per 1000 m.
const LapseKPerM = 0.0065

// check reports the first thing that cannot be true of a climate.
func (n Normals) check() error {
	if !(n.LatitudeDeg >= -90 && n.LatitudeDeg <= 90) {
		return fmt.Errorf("latitude: must lie between -90 and 90, is %g", n.LatitudeDeg)
	}
	for m := range 12 {
		within := func(key string, v, lo, hi float64) error {
			if !(v >= lo && v <= hi) {
				return fmt.Errorf("%s, month %d: must lie between %g and %g, is %g", key, m+1, lo, hi, v)
			}
			return nil
		}
		checks := []error{
			within("mean_c", n.MeanC[m], -60, 50),
			within("min_c", n.MinC[m], -70, n.MeanC[m]),
			within("max_c", n.MaxC[m], n.MeanC[m], 60),
			within("rain_mm", n.RainMM[m], 0, 2000),
			within("wet_days", n.WetDays[m], 0, float64(calendar.MonthDays[m])+0.5),
		}
		for _, o := range []struct {
			key string
			v   *[12]float64
			hi  float64
		}{
			{"sun_h", n.SunHours, 24 * float64(calendar.MonthDays[m])}, {"vapour_hpa", n.VapourHPa, 60},
			{"frost_days", n.FrostDays, float64(calendar.MonthDays[m]) + 0.5}, {"snow_days", n.SnowDays, float64(calendar.MonthDays[m]) + 0.5},
			{"wind_ms", n.WindMS, 40}, {"global_mj", n.GlobalMJ, 45},
		} {
			if o.v != nil {
				checks = append(checks, within(o.key, o.v[m], 0, o.hi))
			}
		}
		for _, err := range checks {
			if err != nil {
				return err
			}
		}
	}
	return nil
}

// AtAltitude carries the normals to another height by LapseKPerM.
func (n Normals) AtAltitude(m float64) Normals {
	if m == n.AltitudeM || math.IsNaN(m) {
		return n
	}
	var rise [12]float64
	for i := range rise {
		rise[i] = (n.AltitudeM - m) * LapseKPerM
	}
	out := n.warmer(rise)
	out.AltitudeM = m
	return out
}

// warmer raises the temperatures of each month. Relative humidity, rain and sun
// are kept, and how much days differ; frost days follow the temperature; the count
// of snow days, true of the station as it was, is dropped.
func (n Normals) warmer(byK [12]float64) Normals {
	out := n
	out.SnowDays = nil
	spread := n.minSpread()
	out.spread = &spread
	for m, k := range byK {
		out.MeanC[m] += k
		out.MinC[m] += k
		out.MaxC[m] += k
	}
	if n.VapourHPa != nil {
		v := *n.VapourHPa
		for m := range v {
			v[m] *= saturationKPa(out.MinC[m]) / saturationKPa(n.MinC[m])
		}
		out.VapourHPa = &v
	}
	if n.FrostDays != nil {
		f := frostDays(dailyCurve(out.MinC), spread, out.winterness())
		out.FrostDays = &f
	}
	return out
}

// frostDays counts the days of each month on which a minimum spread about its mean
// falls below 0 °C.
func frostDays(meanMin [365]float64, spread, winterness [12]float64) (days [12]float64) {
	for d, mu := range meanMin {
		m := calendar.MonthOf(d)
		days[m] += skewedCDF(-mu/spread[m], skewness(winterness[m]))
	}
	return days
}

func normalCDF(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }
