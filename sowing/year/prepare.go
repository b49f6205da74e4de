package year

import "swardwright/internal/calendar"

// frozenC is the soil temperature under which a spade doesn't go in.
const frozenC = 0.5

// thaw is the day from which the ground can be worked: snow gone and frost out of
// the top. It is not ok where most years have neither snow nor frost.
func (p *plan) thaw() (dated, bool) {
	s := p.season
	y := -1
	return s.event(func(snow []float32) int {
		y++ // event walks the years in order
		for d := clampDay(p.opens.day + snowSearchDays); d >= 0; d-- {
			if snow[d] >= 1 || s.soil[y*365+d] < frozenC {
				return d + 1
			}
		}
		return -1
	}, s.snow)
}

// prepare dates the steps of the ground work from sowing. Where the first of them
// would fall into the winter before it, all that come before sowing are squeezed
// between thaw and sowing, in the same proportions.
func (p *plan) prepare() {
	w := p.want
	first := 0
	for _, b := range w.Before {
		first = max(first, b.DaysBefore)
	}
	room := first
	if e, ok := p.thaw(); ok {
		thaw := p.season.date(calendar.OnOrBefore(w.SowOn, p.season.cold), e.day)
		if days := calendar.Days(thaw, w.SowOn); days >= 0 && days < first {
			room = days
			p.note("The ground work is squeezed into the %d days between thaw and sowing. Done the autumn before, up to the grading, it settles better and leaves the stale seedbed its three weeks.", room)
		}
	}
	for _, b := range w.Before {
		kind, before := Prepare, b.DaysBefore
		if before == 0 {
			kind = Sow
		}
		if before > 0 && room < first {
			before = before * room / first
		}
		p.cal.DaysBefore = append(p.cal.DaysBefore, before)
		p.add(Task{Kind: kind, Date: w.SowOn.AddDate(0, 0, -before), Title: b.Title, Detail: b.Detail, Hours: b.Hours, First: true})
	}
}
