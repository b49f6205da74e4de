package light

import (
	"math"
	"slices"

	"swardwright/internal/told"
	"swardwright/site/sun"
)

// sunLeft and skyLeft are the shares of the sun's and the sky's light on a lawn
// that has a share x of the open lawn's sun hours: see [Stated].
func sunLeft(x float64) float64 { return x * x * (3 - 2*x) }
func skyLeft(x float64) float64 { return (1 + x) / 2 }

// openLawn is what a level lawn with nothing about it gets, by month.
type openLawn struct {
	hours     [12]float64 // direct sun on a clear day
	sun, sky  [12]float64 // photosynthetic light of each, mol m⁻² d⁻¹
	weights   [12]float64
	meanHours float64 // over the season
}

func newOpenLawn(latitudeDeg float64, sky Sky) openLawn {
	o := openLawn{weights: sky.weights()}
	for m, mj := range sky.split(latitudeDeg) {
		o.sun[m], o.sky[m] = mj.beam*parShare*molPerMJ, mj.diffuse*parShare*molPerMJ
		for _, d := range monthDays(m) {
			o.hours[m] += 2 * sun.HalfDayRad(latitudeDeg, sun.DeclinationDeg(d), sun.GeometricDeg) * 12 / math.Pi / daysAMonth
		}
		o.meanHours += o.weights[m] * o.hours[m]
	}
	return o
}

// light is that of a lawn with a share of its sun hours left in each month.
func (o *openLawn) light(left [12]float64) Light {
	var l Light
	for m, x := range left {
		l.SunHours[m] = x * o.hours[m]
		l.DLI[m] = o.sun[m]*sunLeft(x) + o.sky[m]*skyLeft(x)
		l.SkyView += o.weights[m] * skyLeft(x)
	}
	return l.summed(o.weights)
}

// even is the same share in every month.
func even(x float64) (left [12]float64) {
	for m := range left {
		left[m] = x
	}
	return left
}

// forHours is the share of the open lawn's hours that some hours are.
func (o *openLawn) forHours(hours float64) float64 { return share(hours, o.meanHours) }

// forDLI is the share of sun hours left on a lawn with some light.
func (o *openLawn) forDLI(dli float64) float64 {
	lo, hi := 0.0, 1.0
	for range 40 {
		if mid := (lo + hi) / 2; o.light(even(mid)).DLISeason > dli {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

// share is a part of a whole, from 0 to 1; all of it where there is nothing.
func share(part, whole float64) float64 {
	if whole <= 0 {
		return 1
	}
	return max(0, min(1, part/whole))
}

func (l Light) summed(weights [12]float64) Light {
	l.season(weights, 0)
	return l
}

// Stated is the light of a lawn of which only what was seen is known: one zone.
// A lawn of which nothing was seen either lies open.
//
// Hours of direct sun on a clear day, mean of the growing season, are turned into the
// daily light integral that goes with them at the latitude under the sky: so that a rule
// published as "3 hours" for one latitude can be compared with a lawn at another. Hours
// and light beyond the open lawn's count as the open lawn's.
//
// Growers and extension rules count hours of direct sun; grass lives on the sum
// of light. What joins the two depends on what takes the sun away, which a number
// of hours does not say. With x the share of the open lawn's sun hours that is
// left, the lawn is taken to get
//
//   - of the sky's light (1 + x)/2: even without sun it sees half the sky, as
//     along the north side of a long building (Oke, Boundary Layer Climates, 1987);
//   - of the sun's light x²(3 - 2x): the first hours that shade takes, and the last
//     it leaves, are mostly those of a low sun, which are worth least.
//
// This is inference, not evidence: no published trial gives both figures. It was
// fitted to lawns among walls, houses and trees placed at random and traced by
// this package at 41, 57 and 64° N, where it gives 0.85 to 1.05 times the median
// light of lawns with like hours, and four lawns in five lie within a quarter of
// it. A court, which gets its few hours about noon, has more light; the foot of a
// wall to the south less. What is evidence is the astronomy and the average sky,
// which make an hour at 60° worth less than one at 40°.
func Stated(seen Seen, latitudeDeg float64, sky Sky, areaM2 float64) Field {
	o := newOpenLawn(latitudeDeg, sky)
	open := o.light(even(1))
	l, note := o.stated(seen)
	l.season(o.weights, open.DLISeason)
	return Field{
		Zones:   []Zone{{Letter: "A", Name: wholeLawn, Share: 1, AreaM2: areaM2, Light: l}},
		OpenDLI: open.DLI,
		LogSD:   seen.logSD(),
		Notes:   []told.Sentence{note},
	}
}

// How well light is known, as the standard deviation of its natural logarithm. Hours
// as [Stated] says: four lawns in five lie within a quarter. The others are our
// own figures, no published source: shade is judged by eye, a meter is read on some days,
// and what is computed rests on normals of radiation, an even sky and crowns of their kind.
const (
	hoursLogSD    = 0.174
	shadeLogSD    = 0.174
	meteredLogSD  = 0.10
	computedLogSD = 0.08
)

// logSD is how well light is known from what was seen.
func (s Seen) logSD() float64 {
	switch {
	case s.SunHours != nil || s.SunHoursMonth != nil:
		return hoursLogSD
	case s.ShadePercent != nil:
		return shadeLogSD
	case s.DLI != nil:
		return meteredLogSD
	}
	return computedLogSD
}

// stated is the light that was seen, month by month, and a note on it.
func (o *openLawn) stated(seen Seen) (Light, told.Sentence) {
	open := o.light(even(1))
	switch {
	case seen.SunHours != nil:
		l := o.light(even(o.forHours(*seen.SunHours)))
		if *seen.SunHours > o.meanHours+0.05 {
			return l, told.Say("site.more-sun-than-open", told.SunHours(*seen.SunHours), told.SunHours(o.meanHours))
		}
		return l, told.Say("site.sun-stated", told.SunHours(*seen.SunHours), told.DLI(l.DLISeason))
	case seen.SunHoursMonth != nil:
		var left [12]float64
		for m, h := range seen.SunHoursMonth {
			left[m] = share(h, o.hours[m])
		}
		l := o.light(left)
		return l, told.Say("site.sun-stated-by-month", told.DLI(l.DLISeason))
	case seen.DLI != nil:
		k := ratio(*seen.DLI, open.DLISeason)
		if k > 1.005 {
			return open, told.Say("site.more-light-than-open", told.DLI(*seen.DLI), told.DLI(open.DLISeason))
		}
		return o.dimmed(k), told.Say("site.light-stated", told.DLI(*seen.DLI), told.Share(k))
	case seen.ShadePercent != nil:
		l := o.dimmed(1 - *seen.ShadePercent/100)
		return l, told.Say("site.shade-stated", told.Share(*seen.ShadePercent/100), told.DLI(l.DLISeason))
	}
	return open, told.Say("site.nothing-said-of-shade")
}

// dimmed is a lawn with the same share of the open lawn's light in every month;
// its hours are those that go with as much light.
func (o *openLawn) dimmed(k float64) Light {
	open := o.light(even(1))
	l := o.light(even(o.forDLI(k * open.DLISeason)))
	for m := range l.DLI {
		l.DLI[m] = k * open.DLI[m]
	}
	return l.summed(o.weights)
}

// Corrected is a computed field brought into line with what was seen on the lawn
// as a whole. Light and hours of every part are scaled alike, so that where the
// shade lies stays as computed and how deep it is becomes as seen; nothing is
// made lighter than the open lawn. A note says by how much the two disagreed.
func (f Field) Corrected(seen Seen, latitudeDeg float64, sky Sky) Field {
	if seen == (Seen{}) || len(f.Zones) == 0 {
		return f
	}
	o := newOpenLawn(latitudeDeg, sky)
	was := f.mean().summed(o.weights)
	is, _ := o.stated(seen)
	by := o.correction(seen, was, is)

	if len(f.Cells) == 0 { // nothing about it was drawn: it is known as well as what was seen
		f.LogSD = max(f.LogSD, seen.logSD())
	}
	f = o.relit(f, func(l Light) Light {
		l = o.scaled(l, by.factors, f.OpenDLI)
		for m := range 12 {
			if was.SunHours[m] == 0 { // sun where none was computed has nothing to scale
				l.SunHours[m] = is.SunHours[m]
			}
		}
		return l
	})
	f.Notes = append(slices.Clone(f.Notes), told.Say("site.seen-counts", by.why, told.DLI(f.mean().summed(o.weights).DLISeason), told.DLI(was.DLISeason)))
	return f
}

// Scaled is the field with light and hours scaled by one factor everywhere, as what was seen on
// some days of it says; nothing is made lighter than the open lawn.
func (f Field) Scaled(by, latitudeDeg float64, sky Sky) Field {
	o := newOpenLawn(latitudeDeg, sky)
	return o.relit(f, func(l Light) Light { return o.scaled(l, factors{even(by), even(by)}, f.OpenDLI) })
}

// scaled is light with its hours and its amount scaled month by month, never above those of
// the open lawn.
func (o *openLawn) scaled(l Light, by factors, openDLI [12]float64) Light {
	for m := range 12 {
		l.SunHours[m] = scale(l.SunHours[m], by.hours[m], o.hours[m])
		l.DLI[m] = scale(l.DLI[m], by.light[m], openDLI[m])
	}
	return l
}

// relit is a field with the months of every light in it turned into others, and its season
// summed anew; the one given stays.
func (o *openLawn) relit(f Field, turn func(Light) Light) Field {
	openMean := Light{DLI: f.OpenDLI}.summed(o.weights).DLISeason
	light := func(l *Light) {
		*l = turn(*l)
		l.season(o.weights, openMean)
	}
	f.Cells, f.Probes, f.Zones = slices.Clone(f.Cells), slices.Clone(f.Probes), slices.Clone(f.Zones)
	for i := range f.Cells {
		light(&f.Cells[i].Light)
	}
	for i := range f.Probes {
		light(&f.Probes[i].Light)
	}
	for i := range f.Zones {
		light(&f.Zones[i].Light)
	}
	return f
}

// correction is what brings a computed lawn into line with what was seen.
type correction struct {
	factors
	why told.Sentence
}

// factors scale light, month by month.
type factors struct{ hours, light [12]float64 }

// correction of the light that was computed to what is so, as seen.
func (o *openLawn) correction(seen Seen, was, is Light) (c correction) {
	switch {
	case seen.SunHours != nil:
		// Hours are compared with hours; the light follows in the ratio that the
		// same conversion gives both.
		computed := o.light(even(o.forHours(was.SunHoursSeason)))
		c.hours, c.light = even(ratio(is.SunHoursSeason, was.SunHoursSeason)), even(ratio(is.DLISeason, computed.DLISeason))
		c.why = told.Say("site.sun-seen", told.SunHours(*seen.SunHours), told.SunHours(was.SunHoursSeason), disagree(*seen.SunHours, was.SunHoursSeason))
	case seen.SunHoursMonth != nil:
		var left [12]float64
		for m := range left {
			left[m] = share(was.SunHours[m], o.hours[m])
		}
		computed := o.light(left)
		for m := range 12 {
			c.hours[m], c.light[m] = ratio(is.SunHours[m], was.SunHours[m]), ratio(is.DLI[m], computed.DLI[m])
		}
		c.why = told.Say("site.sun-seen-by-month", told.SunHours(is.SunHoursSeason), told.SunHours(was.SunHoursSeason), disagree(is.SunHoursSeason, was.SunHoursSeason))
	default:
		computed := o.forDLI(was.DLISeason) * o.meanHours
		c.hours, c.light = even(ratio(is.SunHoursSeason, computed)), even(ratio(is.DLISeason, was.DLISeason))
		c.why = told.Say("site.light-seen", told.DLI(is.DLISeason), told.DLI(was.DLISeason), disagree(is.DLISeason, was.DLISeason))
	}
	return c
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

// disagree is how far what was seen lies from what was computed.
func disagree(seen, computed float64) told.Sentence {
	switch apart := seen/computed - 1; {
	case computed <= 0:
		return told.Say("site.none-computed")
	case apart >= 0.005:
		return told.Say("site.more-seen", told.Share(apart))
	case apart <= -0.005:
		return told.Say("site.less-seen", told.Share(-apart))
	}
	return told.Say("site.agree")
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
