package dates

import (
	"math"
	"time"

	"swardwright/site/weather"
)

// turfYear is how laid turf fares on each day of the year.
func (t *Table) turfYear() (success, use [365]float64) {
	for _, z := range t.zones {
		each := z.share / float64(t.years)
		var uses [365][]float64
		for k := range z.n {
			day := k % 365
			if rooted, inUse := z.lay(k, t.want.Watered); rooted {
				success[day] += each
				uses[day] = append(uses[day], float64(inUse-k))
			}
		}
		for day := range uses {
			use[day] += z.share * spanOrFar(uses[day]).P50
		}
	}
	return success, use
}

func spanOrFar(v []float64) Span {
	if len(v) == 0 {
		return Span{365, 365, 365}
	}
	return span(v)
}

// lay tells whether turf laid on a day roots before winter, drought or heat can
// take it, and when it bears use.
func (z *zone) lay(k int, watered bool) (rooted bool, inUse int) {
	d := z.days
	if d.SoilC[k] < turfSoilC || d.SnowCM[k] >= 1 {
		return false, 0
	}
	root := reach(z.cool, k, turfRootDegDays)
	inUse = reach(z.cool, k, turfUseDegDays)
	if root >= len(z.cool)-1 || root-k > turfRootDays {
		return false, 0
	}
	hot, dry := 0.0, 0.0
	for i := k; i < k+fortnight; i++ {
		hot += float64(d.MaxC[i%z.n]) / fortnight
		if d.Surface[i%z.n] < surfaceLeast/2 {
			dry++
		}
	}
	return hot < turfHotC && (watered || dry < fortnight/2), inUse
}

// turf adds turf's own windows and the day it bears use.
func (t *Table) turf(d *Dates) {
	success, use := t.turfYear()
	good := func(day int) bool { return success[day] >= t.want.Success }
	start := t.first()
	var w *Window
	var best time.Time
	bestSuccess := -1.0
	for k := range 365 {
		day := (start + k) % 365
		date := midnight(t.want.From).AddDate(0, 0, k)
		if good(day) {
			if w == nil {
				d.TurfWindows = append(d.TurfWindows, Window{Kind: t.kindOf(day, false), Opens: date, Best: date, BestSuccess: success[day]})
				w = &d.TurfWindows[len(d.TurfWindows)-1]
			}
			w.Closes = date
			w.Success += success[day]
			if success[day] > w.BestSuccess {
				w.Best, w.BestSuccess = date, success[day]
			}
		} else {
			w = nil
		}
		if t.permits(date) && success[day] > bestSuccess+1e-9 && (bestSuccess < t.want.Success) {
			best, bestSuccess = date, success[day]
		}
	}
	for i := range d.TurfWindows {
		w := &d.TurfWindows[i]
		w.Success /= w.Closes.Sub(w.Opens).Hours()/24 + 1
		w.Met = t.permits(w.Opens) || t.permits(w.Closes)
		w.OpensBecause, w.ClosesBecause = "the ground is warm enough for turf to root", "turf would not root in time"
	}
	if bestSuccess <= 0 {
		d.Notes = append(d.Notes, "turf would root on no day allowed")
		return
	}
	d.TurfOn, d.TurfSuccess = best, bestSuccess
	d.TurfUsableFrom = best.AddDate(0, 0, int(math.Round(use[dayOfYear(best)])))
}

// watering adds the water a seedbed needs from SowOn until it bears use.
func (t *Table) watering(d *Dates, parts []part) {
	if !t.want.Watered {
		return
	}
	day := dayOfYear(d.SowOn)
	lead := parts[0]
	for _, p := range parts {
		if p.share > lead.share {
			lead = p
		}
	}
	sp := &t.table[lead.index]
	var weeks [mostWeeks][]float64
	var totals []float64
	last := 0
	for _, z := range t.zones {
		for k := day; k < z.n; k += 365 {
			f := z.at(sp, t.want, k)
			if f.emerge < 0 || f.through[dangerUp] == 0 || f.slept {
				continue
			}
			_, grow := z.sums(sp)
			use := reach(grow, f.emerge, useShare*sp.mowDD)
			each := z.waterings(k, f.mow, use)
			total := 0.0
			for w, mm := range each {
				weeks[w] = append(weeks[w], mm)
				total += mm
				if mm > 0 && w > last {
					last = w
				}
			}
			totals = append(totals, total)
		}
	}
	if len(totals) == 0 {
		return
	}
	for w := 0; w <= last; w++ {
		mean := 0.0
		for _, v := range weeks[w] {
			mean += v / float64(len(weeks[w]))
		}
		dry := spanAt(weeks[w], drySeason)
		if dry < leastWeekMM {
			continue
		}
		d.Watering = append(d.Watering, Week{Number: w + 1, MeanMM: mean, DryMM: dry})
	}
	if d.Chosen >= 0 {
		d.Windows[d.Chosen].WaterMM = span(totals)
	}
}

func spanAt(v []float64, p float64) float64 {
	s := append([]float64(nil), v...)
	span(s)
	return weather.Percentile(s, p)
}

// waterings is the water given week by week to a seedbed sown on day k, first
// mown on day mow and in use from day use: light and often to the surface until
// the first mowing, then to the young roots.
func (z *zone) waterings(k, mow, use int) (weeks [mostWeeks]float64) {
	e := z.days.Exposure
	available := 1000 * (e.FieldCapacity - e.WiltingPoint)
	depthM, kc := bedDepthM, bareKc
	store := available * depthM
	for i := k; i < use && (i-k)/7 < mostWeeks; i++ {
		if z.days.MeanC[i%z.n] < dryFromC {
			continue
		}
		if i == mow {
			depthM, kc = youngRootM, turfKc
			store += available * (youngRootM - bedDepthM) * 0.7
		}
		full := available * depthM
		store = min(full, store+float64(z.days.RainMM[i%z.n])) - kc*float64(z.days.ET0MM[i%z.n])
		if store < surfaceLeast*full {
			weeks[(i-k)/7] += full - store
			store = full
		}
	}
	return weeks
}
