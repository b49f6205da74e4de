package dates

import (
	"math"
	"slices"

	"swardwright/internal/calendar"
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
	for day := range success { // shares of one add up to a rounding more
		success[day] = min(success[day], 1)
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
	first := calendar.Midnight(t.want.From)
	var runs []run
	for k := range 365 {
		if success[(t.first()+k)%365] < t.want.Success {
			continue
		}
		if n := len(runs); n > 0 && k-runs[n-1].last <= joinDays {
			runs[n-1].last = k
		} else {
			runs = append(runs, run{first: k, last: k})
		}
	}
	for _, r := range runs {
		if r.last-r.first+1 < shortestRun {
			continue
		}
		w := Window{Opens: first.AddDate(0, 0, r.first), Closes: first.AddDate(0, 0, r.last)}
		best := -1
		for k := r.first; k <= r.last; k++ {
			day := (t.first() + k) % 365
			w.Success += success[day] / float64(r.last-r.first+1)
			date := first.AddDate(0, 0, k)
			if !t.permits(date) {
				continue
			}
			w.Met = true
			if best < 0 || success[day] > success[best]+turfSlack {
				best, w.Best = day, date
			}
		}
		if !w.Met {
			best, w.Best = (t.first()+r.first)%365, w.Opens
		}
		w.Latest, w.BestSuccess = w.Closes, success[best]
		w.Kind = t.kindOf(best, false)
		w.OpensBecause, w.ClosesBecause = "turf laid earlier would not root in time", "turf laid later would not root in time"
		if t.hot((t.first() + r.last + edgeDays) % 365) {
			w.ClosesBecause = "summer heat burns fresh turf"
		}
		if t.hot((t.first() + r.first + 365 - edgeDays) % 365) {
			w.OpensBecause = "summer heat burns turf laid earlier"
		}
		d.TurfWindows = append(d.TurfWindows, w)
	}
	// The first day of the first window allowed; without one, the likeliest day.
	if i := slices.IndexFunc(d.TurfWindows, func(w Window) bool { return w.Met }); i >= 0 {
		d.TurfOn, d.TurfSuccess = d.TurfWindows[i].Best, d.TurfWindows[i].BestSuccess
	} else {
		for k := range 365 {
			date := first.AddDate(0, 0, k)
			if s := success[(t.first()+k)%365]; t.permits(date) && s > d.TurfSuccess {
				d.TurfOn, d.TurfSuccess = date, s
			}
		}
		if d.TurfSuccess == 0 {
			d.Notes = append(d.Notes, "turf would root on no day allowed")
			return
		}
	}
	d.TurfUsableFrom = d.TurfOn.AddDate(0, 0, int(math.Round(use[calendar.DayOf(d.TurfOn)])))
}

// hot tells whether the fortnight from a day of the year is, on the mean of the
// years, too hot for fresh turf.
func (t *Table) hot(day int) bool {
	sum, n := 0.0, 0.0
	for k := day; k < t.zones[0].n; k += 365 {
		for i := k; i < k+fortnight; i++ {
			sum += float64(t.zones[0].days.MaxC[i%t.zones[0].n])
			n++
		}
	}
	return sum/n >= turfHotC-turfNearHotK
}

// watering adds the water a seedbed needs from SowOn until it bears use.
func (t *Table) watering(d *Dates, parts []part) {
	if !t.want.Watered {
		return
	}
	day := calendar.DayOf(d.SowOn)
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
			each := z.waterings(k, f.emerge, use)
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
		dry := max(mean, spanAt(weeks[w], drySeason))
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

// waterings is the water given week by week to a seedbed sown on day k, up on day
// emerge and in use from day use: light and often to the surface that the seed
// lies in, then less often and deeper as roots follow, each time half of what
// they reach has gone.
func (z *zone) waterings(k, emerge, use int) (weeks [mostWeeks]float64) {
	e := z.days.Exposure
	available := 1000 * (e.FieldCapacity - e.WiltingPoint) // mm in a metre
	depthM, kc := bedDepthM, bareKc
	store := available * depthM
	for i := k; i < use && (i-k)/7 < mostWeeks; i++ {
		day := i % z.n
		if i > emerge && depthM < e.RootDepthM {
			deeper := min(rootingMD, e.RootDepthM-depthM)
			depthM += deeper
			store += deeper * available * soilBelow
			kc = turfKc
		}
		if z.days.MeanC[day] < dryFromC {
			continue
		}
		full := available * depthM
		store = min(full, store+float64(z.days.RainMM[day])) - kc*float64(z.days.ET0MM[day])
		if store < surfaceLeast*full {
			weeks[(i-k)/7] += full - store
			store = full
		}
	}
	return weeks
}
