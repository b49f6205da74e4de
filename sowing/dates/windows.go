package dates

import (
	"cmp"
	"slices"
	"time"

	"swardwright/internal/calendar"
)

// first is the first day that may be considered.
func (l Limits) first() time.Time {
	from := calendar.Midnight(l.From)
	if l.NotBefore != nil && l.NotBefore.After(from) {
		return calendar.Midnight(*l.NotBefore)
	}
	return from
}

// Allow tells whether work may begin on a date.
func (l Limits) Allow(date time.Time) bool {
	return !date.Before(l.first()) && (l.NotAfter == nil || !date.After(*l.NotAfter))
}

// dates are the days on which work may begin, in their order: those of one year.
func (l Limits) dates() []time.Time {
	var days []time.Time
	for date := l.first(); len(days) < calendar.Year && l.Allow(date); date = date.AddDate(0, 0, 1) {
		days = append(days, date)
	}
	return days
}

// Windows are the runs of days that succeed as often as was asked, best first.
func (s *Season) Windows(l Limits) []Window { return s.windows(l, s.table.input.Success) }

// Seconds are the runs of days, away from the windows, that succeed less often than
// was asked and yet in no few years: second choices, best first, with what goes wrong.
func (s *Season) Seconds(l Limits) []Window {
	first := s.runs(s.table.input.Success)
	success := secondShare * s.table.input.Success
	var seconds []Window
	for _, r := range s.runs(success) {
		if slices.ContainsFunc(first, func(w run) bool { return r.holds(w.first) || w.holds(r.first) }) {
			continue
		}
		w := s.window(r, l, success)
		w.Wrong = s.wrong(calendar.DayOf(w.Best))
		seconds = append(seconds, w)
	}
	rank(seconds, s.parts == nil)
	return seconds
}

func (s *Season) windows(l Limits, success float64) []Window {
	runs := s.runs(success)
	windows := make([]Window, len(runs))
	for i, r := range runs {
		windows[i] = s.window(r, l, success)
	}
	for i := range windows { // one window's latest day is not the next one's business
		for _, next := range windows {
			if w := &windows[i]; next.Opens.After(w.Closes) && !next.Opens.After(w.Latest) {
				w.Latest = next.Opens.AddDate(0, 0, -1)
			}
		}
	}
	rank(windows, s.parts == nil)
	return windows
}

// rank puts the windows in order of their score, but those nearly as good as the best
// by date: the lawn is wanted. Turf is laid in the first.
func rank(windows []Window, turf bool) {
	best := 0.0
	for _, w := range windows {
		best = max(best, w.Score)
	}
	tied := func(w Window) bool { return turf || w.Score >= tieShare*best }
	slices.SortStableFunc(windows, func(a, b Window) int {
		switch {
		case tied(a) && tied(b):
			return a.Best.Compare(b.Best)
		case tied(a):
			return -1
		case tied(b):
			return 1
		}
		return cmp.Compare(b.Score, a.Score)
	})
}

// window puts a run on the calendar.
func (s *Season) window(r run, l Limits, success float64) Window {
	w := Window{Kind: r.kind}
	first := l.first()
	opens, closes := calendar.OnOrAfter(first, calendar.Wrap(r.first)), calendar.OnOrAfter(first, calendar.Wrap(r.last))
	var opensBy, closesBy string // what cuts it short
	switch {
	case !closes.Before(opens):
	case calendar.Days(first, closes) >= shortestRun-1: // it is open now
		opens, opensBy = first, "the first day considered"
		if l.NotBefore != nil && first.Equal(calendar.Midnight(*l.NotBefore)) {
			opensBy = "the brief allows no sowing before"
		}
	default: // too late for this year's
		closes = calendar.Date(closes.Year()+1, calendar.Wrap(r.last))
	}
	w.Allowed = true
	if l.NotAfter != nil && closes.After(*l.NotAfter) {
		if last := calendar.Midnight(*l.NotAfter); last.Before(opens) {
			w.Allowed, opensBy = false, ""
		} else {
			closes, closesBy = last, "the brief allows no sowing after"
		}
	}
	w.Opens, w.Closes, w.Latest = opens, closes, closes
	if closesBy == "" {
		w.Latest = s.latest(w, l, success)
	}
	s.describe(&w)
	best := calendar.DayOf(w.Best)
	if w.OpensBecause = opensBy; opensBy == "" {
		w.OpensBecause = s.because(w.Kind, best, calendar.Wrap(r.first-edgeDays), true)
	}
	if w.ClosesBecause = closesBy; closesBy == "" {
		w.ClosesBecause = s.because(w.Kind, best, calendar.Wrap(r.last+edgeDays), false)
	}
	return w
}

// latest is the last day on end from a window's close that still succeeds.
func (s *Season) latest(w Window, l Limits, success float64) time.Time {
	last := w.Closes
	for calendar.Days(w.Opens, last) < longestWindow {
		next := last.AddDate(0, 0, 1)
		if s.Success[calendar.DayOf(next)] < success || w.Allowed && !l.Allow(next) {
			break
		}
		last = next
	}
	return last
}

// describe fills in what follows from the window's days, and picks the best of them.
func (s *Season) describe(w *Window) {
	sum, n, top, surest := 0.0, 0.0, 0.0, 0.0
	for date := w.Opens; !date.After(w.Closes); date = date.AddDate(0, 0, 1) {
		day := calendar.DayOf(date)
		sum += s.Success[day]
		n++
		top, surest = max(top, s.Score[day]), max(surest, s.Success[day])
	}
	w.Success = sum / n
	w.Best = w.Opens
	for !s.nearBest(w.Kind, calendar.DayOf(w.Best), top, surest) {
		w.Best = w.Best.AddDate(0, 0, 1)
	}
	at := s.On(w.Best)
	w.BestSuccess, w.Score = at.Success, top
	w.FirstMowDays = at.FirstMowDays
	if s.parts != nil {
		w.EmergenceDays = at.EmergenceDays
	}
}

// nearBest tells whether a day is as good as the best of its window, so that the first
// such day is the one to take: each week of delay costs growth.
func (s *Season) nearBest(kind Kind, day int, top, surest float64) bool {
	switch {
	case s.parts == nil:
		return s.Success[day] >= surest-turfSlack
	case kind == Spring:
		return s.Success[day] >= surest-springSlack
	}
	return s.Score[day] >= bestShare*top
}

// Pick is the day to begin: the best day of the best window on which the work fits,
// or without a window the best day there is. Where the lawn is needed by a date it
// is the best day that is in time often enough, else the one that is in time most
// often, else the one in use soonest. It is nil where the limits leave no day that
// fits. Nil fits means that the work fits on any day.
func (s *Season) Pick(l Limits, needed *time.Time, fits func(time.Time) bool) *time.Time {
	days := slices.DeleteFunc(l.dates(), func(d time.Time) bool { return fits != nil && !fits(d) })
	if len(days) == 0 {
		return nil
	}
	inTime := days
	if needed != nil {
		inTime = slices.DeleteFunc(slices.Clone(days), func(d time.Time) bool { return s.Chance(d, *needed) < s.table.input.Success })
	}
	if len(inTime) > 0 {
		return new(s.best(inTime, l))
	}
	best := slices.MaxFunc(days, func(a, b time.Time) int { return cmp.Compare(s.Chance(a, *needed), s.Chance(b, *needed)) })
	if s.Chance(best, *needed) >= hardlyAny {
		return &best
	}
	return new(s.soonest(days))
}

// best is the day to begin of some.
func (s *Season) best(days []time.Time, l Limits) time.Time {
	for _, w := range s.Windows(l) {
		inside := slices.DeleteFunc(slices.Clone(days), func(d time.Time) bool { return d.Before(w.Opens) || d.After(w.Closes) })
		if len(inside) == 0 {
			continue
		}
		top, surest := 0.0, 0.0
		for _, d := range inside {
			day := calendar.DayOf(d)
			top, surest = max(top, s.Score[day]), max(surest, s.Success[day])
		}
		return inside[slices.IndexFunc(inside, func(d time.Time) bool { return s.nearBest(w.Kind, calendar.DayOf(d), top, surest) })]
	}
	return slices.MaxFunc(days, func(a, b time.Time) int {
		return cmp.Compare(s.Score[calendar.DayOf(a)], s.Score[calendar.DayOf(b)])
	})
}

// soonest is the day of some from which the lawn bears use earliest, in as many years
// as were asked, or in half as many, and so on; where it never does, the best.
func (s *Season) soonest(days []time.Time) time.Time {
	for chance := s.table.input.Success; chance >= hardlyAny; chance /= 2 {
		var best, on *time.Time
		for i := range days {
			if ready := s.Ready(days[i], chance); ready != nil && (best == nil || ready.Before(*best)) {
				best, on = ready, &days[i]
			}
		}
		if on != nil {
			return *on
		}
	}
	return slices.MaxFunc(days, func(a, b time.Time) int {
		return cmp.Compare(s.Score[calendar.DayOf(a)], s.Score[calendar.DayOf(b)])
	})
}

// Soonest is the day of use of the way that is in use earliest: the day to begin and
// the day by which it bears use in as many years as were asked. Both are nil where it
// never does so often.
func (s *Season) Soonest(l Limits, fits func(time.Time) bool) (on, ready *time.Time) {
	for _, d := range l.dates() {
		if fits != nil && !fits(d) {
			continue
		}
		if at := s.Ready(d, s.table.input.Success); at != nil && (ready == nil || at.Before(*ready)) {
			on, ready = new(d), at
		}
	}
	return on, ready
}
