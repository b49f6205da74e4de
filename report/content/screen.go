package content

import (
	"swardwright/internal/told"
	"swardwright/sowing/job"
)

// screen is the answer on one screen: what, how it will look, when, at what price, and
// what to do next.
func (w *writer) screen(b *builder) {
	p := w.p
	w.lead(b)
	if p.Choice.Mixture == nil {
		b.list(w.instead())
		return
	}
	b.facts(w.keyDates())
	ways := table{caption: told.Say("plan.ways"), columns: []head{left(told.Say("heads.way")), right(told.Say("heads.total")), left(told.Say("heads.in-eight-of-ten", told.Count(8), told.Count(10))), left(told.Say("heads.bears-use-from"))}}
	for _, x := range p.Ways {
		ways.row(way(x.Kind), told.MoneyRound(x.Bill.Total), told.Between(told.MoneyRound(x.Bill.P10), told.MoneyRound(x.Bill.P90)), dateOrNever(x.UsableFrom))
	}
	b.table(nil, ways)
	if p.Second != nil && len(p.Sown) > 0 {
		b.note(p.Second.Because)
	}
	b.add(List{Items: b.sentences(w.next()), Numbered: true})
}

// next are the first things to do.
func (w *writer) next() []told.Figure {
	p := w.p
	next := []told.Figure{told.Say("parts.next-choose", p.Cost.Validity)}
	if len(p.Sown) > 0 && p.Rate.TotalG > 0 {
		next = append(next, told.Say("parts.next-seed", told.MassG(p.Rate.TotalG), told.ShortDay(p.StartOn)))
	}
	if len(p.Laid) > 0 {
		next = append(next, told.Say("parts.next-turf", told.AreaM2(job.Area(p.Laid)), told.ShortDay(p.StartOn)))
	}
	for _, t := range p.Tasks {
		if t.Date.Equal(w.begins()) {
			return append(next, told.Say("parts.next-work", told.Date(t.Date), t.Title))
		}
	}
	return next
}
