package dates

import (
	"cmp"
	"slices"

	"swardwright/internal/calendar"
)

// run is a stretch of days of the year about a best one. Days count on and may pass
// the end of the year.
type run struct {
	kind        Kind
	first, last int
}

func (r run) holds(day int) bool { return calendar.Since(r.first, day) <= r.last-r.first }

// runs finds the stretches of days that succeed in a share of the years.
func (s *Season) runs(success float64) []run {
	if s.parts == nil {
		return s.plateaus(success)
	}
	return merge(s.spring(success, s.peaks(success)))
}

// smooth is the running mean of the score.
func (s *Season) smooth() [calendar.Year]float64 { return about(&s.Score, smoothDays) }

// about is the mean of a figure of the days of the year over so many days to either side.
func about(of *[calendar.Year]float64, days int) (mean [calendar.Year]float64) {
	for day := range mean {
		for w := -days; w <= days; w++ {
			mean[day] += of[calendar.Wrap(day+w)] / float64(2*days+1)
		}
	}
	return mean
}

// peaks finds the stretches of days that succeed often enough, each about a day that
// is better than those around it and reaching as far as its neighbours are nearly as
// good.
func (s *Season) peaks(success float64) []run {
	smooth := s.smooth()
	good := func(day int) bool { return s.Success[calendar.Wrap(day)] >= success }
	var taken [calendar.Year]bool
	var runs []run
	for {
		peak, ok := best(&smooth, func(day int) bool { return !taken[day] && good(day) })
		if !ok {
			return runs
		}
		back, backMeets := slope(&smooth, &taken, peak, -1)
		on, onMeets := slope(&smooth, &taken, peak, 1)
		for day := peak - back; day <= peak+on; day++ {
			taken[calendar.Wrap(day)] = true
		}
		if backMeets || onMeets {
			continue // the shoulder of a better window
		}
		// It opens when days are nearly as good, since those before count to another
		// season, and stays open while they are good enough, the stand no thin one and the
		// seedbed as warm as sowing asks for.
		near := func(day int) bool { return good(day) && smooth[calendar.Wrap(day)] >= windowShare*smooth[peak] }
		warm := s.warmed(peak)
		thick := func(day int) bool {
			return good(day) && smooth[calendar.Wrap(day)] >= closeShare*smooth[peak] && (!warm || s.warmed(calendar.Wrap(day)))
		}
		r := run{first: reachOf(peak, -1, back, near), last: reachOf(peak, 1, on, thick)}
		if r.last-r.first+1 < shortestRun {
			continue
		}
		if r.kind = s.kind((r.first + r.last) / 2); s.slept(peak) {
			r.kind = Dormant
		}
		r.first, r.last = r.first+calendar.Year, r.last+calendar.Year
		runs = append(runs, r)
	}
}

// late are the days after the windows of autumn on which seed succeeds less and less often,
// from less than was asked to a share of the years: who comes late asks for them.
func (s *Season) late(windows []run, success float64) (late []run) {
	if s.parts == nil {
		return nil
	}
	taken := func(day int) bool {
		return s.kind(calendar.Wrap(day)) != Autumn || slices.ContainsFunc(windows, func(w run) bool { return w.holds(day) })
	}
	for _, w := range windows {
		r := run{kind: Autumn, first: w.last + 1}
		for !taken(r.first) && s.Success[calendar.Wrap(r.first)] >= s.table.input.Success {
			r.first++
		}
		r.last = reachOf(r.first-1, 1, calendar.Half, func(day int) bool { return !taken(day) && s.Success[calendar.Wrap(day)] >= success })
		if w.kind != Dormant && r.last-r.first+1 >= shortestRun {
			late = append(late, r)
		}
	}
	return late
}

// reachOf is the last day of a run from a peak on that stays good, most days away at most.
func reachOf(peak, step, most int, good func(day int) bool) int {
	day := peak
	for day != peak+step*most && good(day+step) {
		day += step
	}
	return day
}

// best is the first of the best days that may be.
func best(smooth *[calendar.Year]float64, may func(day int) bool) (day int, ok bool) {
	for d := range smooth {
		if may(d) && (!ok || smooth[d] > smooth[day]) {
			day, ok = d, true
		}
	}
	return day, ok
}

// slope goes down from a peak to the trough beside it, or to days that are taken. It
// tells how far that is, and whether it met days taken with no trough between.
func slope(smooth *[calendar.Year]float64, taken *[calendar.Year]bool, peak, step int) (reach int, meets bool) {
	trough := smooth[peak]
	for reach < calendar.Year {
		next := calendar.Wrap(peak + step*(reach+1))
		if taken[next] {
			return reach, smooth[peak] <= trough*ripple
		}
		if smooth[next] > trough*ripple {
			return reach, false
		}
		trough = min(trough, smooth[next])
		reach++
	}
	return reach, false
}

// merge joins runs of one season that lie close together.
func merge(runs []run) []run {
	slices.SortFunc(runs, func(a, b run) int { return cmp.Compare(a.first, b.first) })
	var out []run
	for _, r := range runs {
		if n := len(out); n > 0 && out[n-1].kind == r.kind && r.first-out[n-1].last <= joinDays {
			out[n-1].last = max(out[n-1].last, r.last)
			continue
		}
		out = append(out, r)
	}
	return out
}

// spring adds the days of spring that succeed often enough but lie on the slope of a
// later window: many wish to sow then, to have a lawn that year.
func (s *Season) spring(success float64, runs []run) []run {
	cold := s.table.coldest
	r := run{kind: Spring, first: -1}
	for day := cold; day < cold+calendar.Half; day++ {
		of := calendar.Wrap(day)
		ok := s.Success[of] >= success && s.kind(of) == Spring && !s.slept(of) &&
			!slices.ContainsFunc(runs, func(r run) bool { return r.holds(of) })
		switch {
		case ok && r.first < 0:
			r.first, r.last = day, day
		case ok:
			r.last = day
		case r.first >= 0 && r.last-r.first+1 < shortestRun:
			r.first = -1
		}
		if r.first >= 0 && !ok {
			break
		}
	}
	if r.first < 0 || r.last-r.first+1 < shortestRun {
		return runs
	}
	days := r.last - r.first
	r.first = calendar.Wrap(r.first) + calendar.Year
	r.last = r.first + days
	return append(runs, r)
}

// plateaus finds the stretches of days on which turf roots often enough. They begin
// where the year does not, so that none is cut in two.
func (s *Season) plateaus(success float64) []run {
	begin := slices.IndexFunc(s.Success[:], func(v float64) bool { return v < success })
	if begin < 0 {
		return []run{{first: calendar.Year, last: 2*calendar.Year - 1}}
	}
	var runs []run
	for day := begin; day < begin+calendar.Year; day++ {
		if s.Success[calendar.Wrap(day)] < success {
			continue
		}
		if n := len(runs); n > 0 && day-runs[n-1].last <= joinDays {
			runs[n-1].last = day
		} else {
			runs = append(runs, run{first: day, last: day})
		}
	}
	return slices.DeleteFunc(runs, func(r run) bool { return r.last-r.first+1 < shortestRun })
}
