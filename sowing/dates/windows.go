package dates

import (
	"cmp"
	"slices"
	"time"

	"swardwright/internal/calendar"
	"swardwright/internal/told"
)

// first is the first day that may be considered.
func (l Limits) first() time.Time {
	from := calendar.Midnight(l.From)
	if l.NotBefore != nil && l.NotBefore.After(from) {
		return calendar.Midnight(*l.NotBefore)
	}
	return from
}

// allow tells whether work may begin on a date.
func (l Limits) allow(date time.Time) bool {
	return !date.Before(l.first()) && (l.NotAfter == nil || !date.After(*l.NotAfter))
}

// dates are the days on which work may begin, in their order: those of one year.
func (l Limits) dates() []time.Time {
	var days []time.Time
	for date := l.first(); len(days) < calendar.Year && l.allow(date); date = date.AddDate(0, 0, 1) {
		days = append(days, date)
	}
	return days
}

// windows are the runs of days that succeed as often as was asked, best first.
func (s *Season) windows(l Limits) []Window {
	success := s.table.input.Success
	return s.explained(s.placed(s.runs(success), l), success)
}

// seconds are the runs of days, outside the windows, that succeed less often than
// was asked and yet in no few years: second choices, best first, with what goes wrong.
func (s *Season) seconds(l Limits) []Window {
	first := s.runs(s.table.input.Success)
	success := secondShare * s.table.input.Success
	runs := slices.DeleteFunc(s.runs(success), func(r run) bool {
		return slices.ContainsFunc(first, func(w run) bool { return r.holds(w.first) || w.holds(r.first) })
	})
	runs = append(runs, s.late(first, success)...)
	seconds := s.explained(s.placed(runs, l), success)
	for i := range seconds {
		seconds[i].Wrong = s.wrong(calendar.DayOf(seconds[i].Best))
	}
	return seconds
}

// placed is a run put on the calendar, with what cuts it short at either end.
type placed struct {
	Window
	run               run
	opensBy, closesBy told.Sentence
}

// placed puts runs on the calendar, best first.
func (s *Season) placed(runs []run, l Limits) []placed {
	out := make([]placed, len(runs))
	for i, r := range runs {
		out[i] = s.place(r, l)
	}
	rank(out, s.parts == nil)
	return out
}

// explained are the windows with the reasons why they open and close.
func (s *Season) explained(of []placed, success float64) []Window {
	out := make([]Window, len(of))
	for i, p := range of {
		best := calendar.DayOf(p.Best)
		if p.OpensBecause = p.opensBy; p.opensBy.Silent() {
			p.OpensBecause = s.because(p.Kind, success, best, calendar.Wrap(p.run.first-edgeDays), true)
		}
		if p.ClosesBecause = p.closesBy; p.closesBy.Silent() {
			p.ClosesBecause = s.because(p.Kind, success, best, calendar.Wrap(p.run.last+edgeDays), false)
		}
		out[i] = p.Window
	}
	return out
}

// rank puts the windows in order of their score, but those nearly as good as the best
// by date: the lawn is wanted. Turf is laid in the first.
func rank(windows []placed, turf bool) {
	best := 0.0
	for _, w := range windows {
		best = max(best, w.Score)
	}
	tied := func(w placed) bool { return turf || w.Score >= tieShare*best }
	slices.SortStableFunc(windows, func(a, b placed) int {
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

// place puts a run on the calendar.
func (s *Season) place(r run, l Limits) placed {
	p := placed{Window: Window{Kind: r.kind, Allowed: true}, run: r}
	first := l.first()
	opens, closes := calendar.OnOrAfter(first, calendar.Wrap(r.first)), calendar.OnOrAfter(first, calendar.Wrap(r.last))
	switch {
	case !closes.Before(opens):
	case calendar.Days(first, closes) >= shortestRun-1: // it is open now
		opens, p.opensBy = first, told.Say("when.first-day")
		if l.NotBefore != nil && first.Equal(calendar.Midnight(*l.NotBefore)) {
			p.opensBy = told.Say("when.not-before")
		}
	default: // too late for this year's
		closes = calendar.Date(closes.Year()+1, calendar.Wrap(r.last))
	}
	if l.NotAfter != nil && closes.After(*l.NotAfter) {
		if last := calendar.Midnight(*l.NotAfter); last.Before(opens) {
			p.Allowed, p.opensBy = false, told.Sentence{}
		} else {
			closes, p.closesBy = last, told.Say("when.not-after")
		}
	}
	if warm := s.thawed(r.kind, opens, closes); warm.After(opens) {
		opens, p.opensBy = warm, told.Say("when.cold-bed", told.TemperatureC(coldBedC))
	}
	p.Opens, p.Closes = opens, closes
	s.describe(&p.Window)
	return p
}

// describe fills in what follows from the window's days, and picks the best of them.
func (s *Season) describe(w *Window) {
	var days []time.Time
	sum := 0.0
	for date := w.Opens; !date.After(w.Closes); date = date.AddDate(0, 0, 1) {
		days = append(days, date)
		sum += s.Success[calendar.DayOf(date)]
		w.Score = max(w.Score, s.Score[calendar.DayOf(date)])
	}
	w.Success = sum / float64(len(days))
	w.Best = s.bestOf(w.Kind, days)
	at := s.on(w.Best)
	w.BestSuccess = at.Success
	w.FirstMowDays = at.FirstMowDays
	if s.parts != nil {
		w.EmergenceDays = at.EmergenceDays
	} else { // turf may be laid half the year: its window is called by its best day
		w.Kind = s.kind(calendar.DayOf(w.Best))
	}
}

// bestOf is the day to take of some days of a window: the first that is as good as the best,
// in spring the first such day on which the seedbed is warm enough, where there is one.
// Where that one is not mown before its first winter and others are, at no less a chance
// and of nearly as good a stand, the best of those is taken: grass that has been mown once
// goes into the winter closed (common practice, no published source).
func (s *Season) bestOf(kind Kind, days []time.Time) time.Time {
	if kind == Summer && s.kind(calendar.DayOf(days[0])) == Spring {
		kind = Spring // that lasts all summer
	}
	top, surest := 0.0, 0.0
	for _, d := range days {
		day := calendar.DayOf(d)
		top, surest = max(top, s.Score[day]), max(surest, s.Success[day])
	}
	good := func(d time.Time) bool { return s.nearBest(kind, calendar.DayOf(d), top, surest) }
	if kind == Spring && s.parts != nil {
		if i := slices.IndexFunc(days, func(d time.Time) bool { return good(d) && s.warmed(calendar.DayOf(d)) }); i >= 0 {
			return days[i]
		}
	}
	first := days[max(0, slices.IndexFunc(days, good))]
	if s.parts == nil || kind != Autumn || s.mownBeforeWinter(first) {
		return first
	}
	mown := slices.DeleteFunc(slices.Clone(days), func(d time.Time) bool {
		day := calendar.DayOf(d)
		return s.Success[day] < surest-mownSlack || s.Score[day] < mownShare*top || !s.mownBeforeWinter(d)
	})
	if len(mown) == 0 {
		return first
	}
	return slices.MaxFunc(mown, func(a, b time.Time) int { return cmp.Compare(s.Score[calendar.DayOf(a)], s.Score[calendar.DayOf(b)]) })
}

// thawed is the first day of a spring's sowing on which the seedbed is not too cold; the
// day on which the days open where none is, in other seasons, and for turf.
func (s *Season) thawed(kind Kind, opens, closes time.Time) time.Time {
	if kind != Spring || s.parts == nil {
		return opens
	}
	for d := opens; !d.After(closes); d = d.AddDate(0, 0, 1) {
		if s.soilC(calendar.DayOf(d)) >= coldBedC {
			return d
		}
	}
	return opens
}

// warmed tells whether the seedbed is as warm as sowing in spring asks on a day.
func (s *Season) warmed(day int) bool { return s.soilC(day) >= springSoilC }

// soilC is the seedbed's temperature on a day of a middling year.
func (s *Season) soilC(day int) (soil float64) {
	for i := range s.fields {
		z := s.fields[i].zone
		soil += z.share * z.soilC[day]
	}
	return soil
}

// mownBeforeWinter tells whether what is sown on a date is mown, in most years, before
// growth ends for the winter ahead.
func (s *Season) mownBeforeWinter(on time.Time) bool {
	day := calendar.DayOf(on)
	var cut spread
	s.settled(day, func(f *field, k int, weight float64) { cut.add(f.cut[k], weight) })
	return cut.total >= 0.5 && cut.at(0.5) < float64(calendar.Wrap(s.table.coldest-day)-growthEnds)
}

// nearBest tells whether a day is as good as the best of its window, so that the first
// such day is the one to take: each week of delay costs growth.
func (s *Season) nearBest(kind Kind, day int, top, surest float64) bool {
	switch {
	case s.parts == nil:
		return s.Success[day] >= surest-turfSlack
	case kind == Spring:
		return s.Success[day] >= surest-springSlack && s.Score[day] >= springShare*top
	}
	return s.Score[day] >= bestShare*top
}

// Pick is the day to begin: the best day of the best window, or without a window the
// best day there is. Where the lawn is needed by a date it is the best day that is in
// time often enough, else the one that is in time most often, else the one in use
// soonest. It is nil where the limits leave no day.
func (s *Season) Pick(l Limits, needed *time.Time) *time.Time {
	days := l.dates()
	if len(days) == 0 {
		return nil
	}
	if needed == nil {
		return new(s.best(days, l))
	}
	var inTime []time.Time
	best, most := days[0], 0.0
	for _, d := range days {
		in := s.chance(d, *needed)
		if in >= s.table.input.Success {
			inTime = append(inTime, d)
		}
		if in > most {
			best, most = d, in
		}
	}
	switch {
	case len(inTime) > 0:
		return new(s.best(inTime, l))
	case most < hardlyAny:
		return new(s.soonest(days))
	}
	return &best
}

// best is the day to begin of some.
func (s *Season) best(days []time.Time, l Limits) time.Time {
	for _, w := range s.placed(s.runs(s.table.input.Success), l) {
		inside := slices.DeleteFunc(slices.Clone(days), func(d time.Time) bool { return d.Before(w.Opens) || d.After(w.Closes) })
		if len(inside) == 0 {
			continue
		}
		return s.bestOf(w.Kind, inside)
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
			if ready := s.ready(days[i], chance); ready != nil && (best == nil || ready.Before(*best)) {
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

// Soonest is the earliest day by which the lawn bears use in as many years as were
// asked, and the day to begin for that. Both are nil where it never does so often.
func (s *Season) Soonest(l Limits) (on, ready *time.Time) {
	for _, d := range l.dates() {
		if at := s.ready(d, s.table.input.Success); at != nil && (ready == nil || at.Before(*ready)) {
			on, ready = new(d), at
		}
	}
	return on, ready
}
