package dates

import (
	"time"

	"swardwright/internal/calendar"
)

// watering is the water that a seedbed sown on a date, or turf laid on it, needs until it bears use, week
// by week; none where it is not watered. Total is its spread over the years.
func (s *Season) watering(on time.Time) (weeks []Week, total *Span) {
	if !s.table.input.Watered {
		return nil, nil
	}
	var byWeek [mostWeeks][]float64
	var all spread
	last := 0
	s.settled(calendar.DayOf(on), func(f *field, k int, weight float64) {
		if f.up[k] == never || f.use[k] == never {
			return
		}
		sum := 0.0
		for w, mm := range f.zone.waterings(k, k+int(f.up[k]), k+int(f.use[k]), s.parts == nil) {
			byWeek[w] = append(byWeek[w], mm)
			sum += mm
			if mm > 0 {
				last = max(last, w)
			}
		}
		all.add(uint16(min(sum, horizon)), weight)
	})
	if len(byWeek[0]) == 0 {
		return nil, nil
	}
	for w := range last + 1 {
		mean := 0.0
		for _, v := range byWeek[w] {
			mean += v / float64(len(byWeek[w]))
		}
		if dry := max(mean, spanAt(byWeek[w], drySeason)); dry >= leastWeekMM {
			weeks = append(weeks, Week{Number: w + 1, MeanMM: mean, DryMM: dry})
		}
	}
	return weeks, all.span()
}

// waterings is the water given week by week to a seedbed sown on day k, up on day
// emerge and in use from day use: light and often to the surface that the seed
// lies in, then less often and deeper as roots follow, each time half of what
// they reach has gone. Turf is green from the first day.
func (z *zone) waterings(k, emerge, use int, turf bool) (weeks [mostWeeks]float64) {
	e := z.days.Exposure
	available := 1000 * (e.FieldCapacity - e.WiltingPoint) // mm in a metre
	depthM, kc := bedDepthM, bareKc
	if turf {
		kc = turfKc
	}
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
