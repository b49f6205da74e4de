package light

import (
	"fmt"
	"math"

	"swardwright/site/sun"
)

// From hours to light.
//
// Growers and extension rules count hours of direct sun; grass lives on the sum
// of light. What joins the two depends on where about the lawn its shade stands,
// which a number of hours does not say. Here the lawn is taken to lie within an
// even skyline, of the same height all round, just high enough to leave it those
// hours of sun in the mean of the growing season. Then everything follows: the
// sun comes in the middle of the day, when it is worth most, and the sky view is
// cos² of the skyline's height (Oke, Boundary Layer Climates, 1987).
//
// That is inference, not evidence: no published trial measured both figures. It
// is exact in the open; with one high wall the true light is higher at the same
// hours (more sky), under the sides of a glade lower (a low sun counts as much
// as a high one in hours). What is evidence is the astronomy and the average
// sky, which make an hour at 60° worth less than one at 40°.

// ring is the lawn within an even skyline at one latitude.
type ring struct {
	days    []day
	months  [12]monthSky
	weights [12]float64
	level   [12]float64
}

func newRing(latitudeDeg float64, sky Sky) ring {
	r := ring{months: sky.split(latitudeDeg), weights: sky.weights()}
	for m := range 12 {
		for _, d := range monthDays(m) {
			r.days = append(r.days, newDay(latitudeDeg, 0, d))
			r.level[m] += r.days[len(r.days)-1].beam[beamSteps].u
		}
	}
	return r
}

// month is the sun hours and DLI of a month within a skyline of an elevation.
func (r *ring) month(m int, elevationDeg float64) (hours, dli float64) {
	beam := 0.0
	for i := m * daysAMonth; i < (m+1)*daysAMonth; i++ {
		d := &r.days[i]
		half := sun.HalfDayRad(math.Atan2(d.sinP, d.cosP)/rad, math.Atan2(d.sinD, d.cosD)/rad, elevationDeg)
		if half = min(half, d.half); half > 0 {
			day := span{moment{w: -half}, moment{w: half}}
			hours += day.hours() / daysAMonth
			beam += d.beamIn(day).u
		}
	}
	c := math.Cos(elevationDeg * rad)
	mj := r.months[m].diffuse * c * c
	if r.level[m] > 0 {
		mj += r.months[m].beam * beam / r.level[m]
	}
	return hours, mj * parShare * molPerMJ
}

// season is the light of every month and its season's means.
func (r *ring) season(elevationDeg float64) Light {
	var l Light
	for m := range 12 {
		l.SunHours[m], l.DLI[m] = r.month(m, elevationDeg)
	}
	c := math.Cos(elevationDeg * rad)
	l.SkyView = c * c
	return l.summed(r.weights)
}

func (l Light) summed(weights [12]float64) Light {
	l.season(weights, 0)
	return l
}

// lowest finds the lowest skyline at which a figure that falls as the skyline
// rises is no more than wanted.
func lowest(wanted float64, at func(elevationDeg float64) float64) float64 {
	lo, hi := 0.0, 90.0
	if at(lo) <= wanted {
		return lo
	}
	for range 40 {
		if mid := (lo + hi) / 2; at(mid) > wanted {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}

func (r *ring) forHours(hours float64) float64 {
	return lowest(hours, func(e float64) float64 { return r.season(e).SunHoursSeason })
}

func (r *ring) forDLI(dli float64) float64 {
	return lowest(dli, func(e float64) float64 { return r.season(e).DLISeason })
}

// DLIFromSunHours turns hours of direct sun on a clear day, mean of the growing
// season, into the daily light integral that goes with them at a latitude under
// an average sky, mol m⁻² d⁻¹, as described above: so that a rule published as
// "3 hours" for one latitude can be compared with a lawn at another. Hours
// beyond the open lawn's count as the open lawn's.
func DLIFromSunHours(hours, latitudeDeg float64, sky Sky) float64 {
	r := newRing(latitudeDeg, sky)
	return r.season(r.forHours(max(0, hours))).DLISeason
}

// Stated is the light of a lawn of which only what was seen is known: one zone.
// A lawn of which nothing was seen either lies open.
func Stated(seen Seen, latitudeDeg float64, sky Sky, areaM2 float64) Field {
	r := newRing(latitudeDeg, sky)
	open := r.season(0)
	l, note := r.stated(seen, open)
	l.season(r.weights, open.DLISeason)
	f := Field{
		Zones:   []Zone{{Letter: "A", Name: wholeLawn, Share: 1, AreaM2: areaM2, Light: l}},
		OpenDLI: open.DLI,
		Notes:   []string{note},
	}
	return f
}

// stated is the light that was seen, month by month.
func (r *ring) stated(seen Seen, open Light) (Light, string) {
	switch {
	case seen.SunHours != nil:
		l := r.season(r.forHours(*seen.SunHours))
		note := fmt.Sprintf("%.1f h of sun a day, as stated, taken as %.1f mol/m² of light a day (an even skyline about the lawn)", *seen.SunHours, l.DLISeason)
		if *seen.SunHours > open.SunHoursSeason+0.05 {
			note = fmt.Sprintf("%.1f h of sun a day are stated, but an open lawn here has %.1f h: taken as open", *seen.SunHours, open.SunHoursSeason)
		}
		return l, note
	case seen.SunHoursMonth != nil:
		l := Light{}
		for m, h := range seen.SunHoursMonth {
			e := lowest(h, func(e float64) float64 { h, _ := r.month(m, e); return h })
			l.SunHours[m], l.DLI[m] = r.month(m, e)
			c := math.Cos(e * rad)
			l.SkyView += r.weights[m] * c * c
		}
		l.season(r.weights, open.DLISeason)
		return l, fmt.Sprintf("sun hours by month, as stated, taken as %.1f mol/m² of light a day in the growing season (an even skyline about the lawn)", l.DLISeason)
	case seen.DLI != nil, seen.ShadePercent != nil:
		var share float64
		var note string
		if seen.DLI != nil {
			share = 0
			if open.DLISeason > 0 {
				share = *seen.DLI / open.DLISeason
			}
			note = fmt.Sprintf("%.1f mol/m² of light a day, as stated, is %.0f %% of the open sky's here", *seen.DLI, 100*share)
		} else {
			share = 1 - *seen.ShadePercent/100
			note = fmt.Sprintf("%.0f %% shade, as stated, leaves %.1f mol/m² of light a day", *seen.ShadePercent, share*open.DLISeason)
		}
		// The same share every month; the hours are those of the skyline that
		// leaves as much light.
		l := r.season(r.forDLI(share * open.DLISeason))
		for m := range l.DLI {
			l.DLI[m] = share * open.DLI[m]
		}
		return l, note
	}
	return open, "nothing is said of shade: the lawn is taken to lie open"
}

// Corrected is a computed field brought into line with what was seen on the lawn
// as a whole. Light and hours of every part are scaled alike, so that where the
// shade lies stays as computed and how deep it is becomes as seen; nothing is
// made lighter than the open lawn. A note says by how much the two disagreed.
func (f Field) Corrected(seen Seen, latitudeDeg float64, sky Sky) Field {
	if seen == (Seen{}) || len(f.Zones) == 0 {
		return f
	}
	r := newRing(latitudeDeg, sky)
	open := r.season(0)
	was := f.mean().summed(r.weights)
	is, _ := r.stated(seen, open)
	is.season(r.weights, open.DLISeason)

	var hours, light [12]float64 // factors
	var what string
	switch {
	case seen.SunHours != nil:
		// Hours are compared with hours; the light follows in the ratio that the
		// same conversion gives both.
		k := ratio(is.DLISeason, r.season(r.forHours(was.SunHoursSeason)).DLISeason)
		for m := range 12 {
			hours[m], light[m] = ratio(*seen.SunHours, was.SunHoursSeason), k
		}
		what = disagree("sun seen on a clear day", "h", *seen.SunHours, was.SunHoursSeason)
	case seen.SunHoursMonth != nil:
		for m := range 12 {
			e := lowest(was.SunHours[m], func(e float64) float64 { h, _ := r.month(m, e); return h })
			_, dli := r.month(m, e)
			hours[m], light[m] = ratio(seen.SunHoursMonth[m], was.SunHours[m]), ratio(is.DLI[m], dli)
		}
		what = disagree("sun seen by month, mean of the growing season", "h", is.SunHoursSeason, was.SunHoursSeason)
	default:
		k := ratio(is.DLISeason, was.DLISeason)
		kh := ratio(is.SunHoursSeason, r.season(r.forDLI(was.DLISeason)).SunHoursSeason)
		for m := range 12 {
			hours[m], light[m] = kh, k
		}
		what = disagree("light stated", "mol/m² a day", is.DLISeason, was.DLISeason)
	}

	openMean := Light{DLI: f.OpenDLI}.summed(r.weights).DLISeason
	correct := func(l Light) Light {
		for m := range 12 {
			l.SunHours[m] = scale(l.SunHours[m], hours[m], open.SunHours[m])
			l.DLI[m] = scale(l.DLI[m], light[m], f.OpenDLI[m])
		}
		l.season(r.weights, openMean)
		return l
	}
	f.Cells = append([]Cell(nil), f.Cells...)
	for i := range f.Cells {
		f.Cells[i].Light = correct(f.Cells[i].Light)
	}
	f.Probes = append([]ProbeLight(nil), f.Probes...)
	for i := range f.Probes {
		f.Probes[i].Light = correct(f.Probes[i].Light)
	}
	f.Zones = append([]Zone(nil), f.Zones...)
	for i := range f.Zones {
		f.Zones[i].Light = correct(f.Zones[i].Light)
	}
	now := f.mean().summed(r.weights)
	f.Notes = append(append([]string(nil), f.Notes...), fmt.Sprintf(
		"%s; what was seen counts, and the light of every part is scaled: %.1f instead of %.1f mol/m² a day over the lawn",
		what, now.DLISeason, was.DLISeason))
	return f
}

// mean is the light of the lawn as a whole.
func (f Field) mean() Light {
	var l Light
	for _, z := range f.Zones {
		for m := range 12 {
			l.SunHours[m] += z.Share * z.Light.SunHours[m]
			l.DLI[m] += z.Share * z.Light.DLI[m]
		}
	}
	return l
}

func disagree(what, unit string, seen, computed float64) string {
	s := fmt.Sprintf("%s: %.1f %s, computed from the obstacles: %.1f", what, seen, unit, computed)
	if computed > 0 {
		if p := 100 * (seen/computed - 1); math.Abs(p) >= 0.5 {
			return fmt.Sprintf("%s (%+.0f %%)", s, p)
		}
		return s + " (they agree)"
	}
	return s
}

// ratio is 1 where there is nothing to compare with.
func ratio(seen, computed float64) float64 {
	if computed <= 0 {
		return 1
	}
	return seen / computed
}

// scale multiplies, but lifts nothing above the open lawn.
func scale(v, k, open float64) float64 {
	if k > 1 {
		return max(v, min(v*k, open))
	}
	return v * k
}
