package content

import (
	"swardwright/internal/told"
	"swardwright/mix/record"
	"swardwright/report/draw"
)

// record is what was seen on the lawn beside what was expected, what it asks and what it
// changes; nothing where nothing was seen.
func (w *writer) record(b *builder) {
	l := w.p.Learned
	if l == nil {
		return
	}
	b.text(told.Say("record.intro", told.Count(8), told.Count(10)))
	rows := w.findings(l)
	b.figure("findings", w.drawn(draw.Record), nil, &rows)
	b.notice(told.Say("record.asks"), sentences(l.Asks())...)
	var says []told.Figure
	for _, c := range w.p.Changed {
		grass, is, was := told.Grass(c.Species.ID), told.Share(c.Is), told.Share(c.Was)
		switch {
		case c.Is == 0:
			says = append(says, told.Say("record.no-seed", grass, was))
		case c.Was == 0:
			says = append(says, told.Say("record.new-seed", grass, is))
		default:
			says = append(says, told.Say("record.more-seed", grass, is, was))
		}
	}
	for _, o := range l.Next {
		says = append(says, sentences(o.Says())...)
	}
	b.heading(told.Say("record.changed"))
	b.list(says)
	if b.table(told.Say("record.next-year"), w.nextYear()) {
		b.note(told.Say("record.care-either-way", told.CrewHours(w.hours())))
		for _, x := range w.p.Next {
			if max(x.Alone, x.Sown) < evenChance {
				b.text(told.Say("record.neither", told.Zone(w.p.Site.Zones[x.Zone].Letter), told.Chance(max(x.Alone, x.Sown))))
			}
		}
	}
	b.table(told.Say("record.standing"), w.stands(l))
	b.note(told.Say("record.counts"))
}

// evenChance is the chance below which neither choice is told of as one that will do.
const evenChance = 0.5

// findings are the rows of the record.
func (w *writer) findings(l *record.Learned) table {
	t := table{caption: told.Say("record.chart"), columns: []head{left(told.Say("heads.seen-on")), left(told.Say("heads.zone")), left(told.Say("heads.what")),
		right(told.Say("heads.was-expected")), right(told.Say("heads.found")), right(told.Say("heads.found-range")), right(told.Say("heads.now-expected")), left(told.Say("heads.how-it-fits"))}}
	for _, r := range l.Rows {
		expected, found, now := r.Ranges()
		var zone told.Figure
		if r.Zone != "" {
			zone = told.Zone(r.Zone)
		}
		t.row(told.Date(r.Seen.Date), zone, r.About(), expected, r.Figure(), found, now, r.Fits())
	}
	return t
}

// stands is the standing sward by zone and grass.
func (w *writer) stands(l *record.Learned) table {
	t := table{caption: told.Say("record.standing"), columns: []head{left(told.Say("heads.zone")), left(told.Say("heads.grass")), right(told.Say("heads.of-sward")), right(told.Say("heads.was-expected"))}}
	for _, o := range l.Next {
		for _, s := range o.Shares {
			t.row(told.Zone(o.Letter), told.Grass(s.Species.ID), told.Share(s.Share), told.Share(s.Expect))
		}
		t.sum(told.Zone(o.Letter), told.Say("record.cover"), told.Between(told.Share(o.Cover[0]), told.Share(o.Cover[1])), nil)
	}
	return t
}

// nextYear has two lines a zone: what comes of leaving it alone and what of overseeding it,
// with what is sown and the bill.
func (w *writer) nextYear() table {
	t := table{caption: told.Say("record.next-year"), columns: []head{left(told.Say("heads.zone")), left(told.Say("heads.to-do")), right(told.Say("heads.keeps-cover")),
		right(told.Say("heads.bill")), right(told.Say("heads.seed")), left(told.Say("heads.when"))}}
	for _, x := range w.p.Next {
		alone, sow := told.Say("record.leave-alone"), told.Say("record.overseed")
		if x.Worth() {
			sow = told.Say("record.advised", sow)
		} else {
			alone = told.Say("record.advised", alone)
		}
		var when told.Figure
		if x.Window != nil {
			when = told.Between(told.ShortDay(x.Window.Opens), told.ShortDay(x.Window.Closes))
		}
		t.row(w.zoneName(x.Zone), alone, told.Chance(x.Alone), told.Money(x.Total.Part(0)), nil, nil)
		t.row(told.Zone(w.p.Site.Zones[x.Zone].Letter), sow, told.Chance(x.Sown), told.Money(x.Total), told.MassG(x.SeedG), when)
	}
	return t
}
