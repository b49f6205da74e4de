package content

import (
	"slices"

	"github.com/samber/lo"

	"swardwright/internal/told"
	"swardwright/mix/record"
	"swardwright/report/draw"
	"swardwright/species"
)

// record is what was seen on the lawn beside what was expected, what it asks and what it
// changes; nothing where nothing was seen.
func (w *writer) record(b *builder) {
	l := w.p.Learned
	if l == nil {
		return
	}
	b.text(told.Say("record.intro", told.Count(8), told.Count(10)))
	shares, others := lo.FilterReject(l.Rows, func(r record.Row, _ int) bool { return r.IsShare() })
	if len(shares) > 0 {
		rows := w.findings(told.Say("record.chart"), shares)
		b.figure("findings", w.drawn(draw.Record), nil, &rows)
		if len(shares) > draw.MostFindings {
			b.note(told.Say("record.last", told.Count(draw.MostFindings)))
		}
	}
	b.table(told.Say("record.days"), w.findings(told.Say("record.days"), others))
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
	says = append(says, sentences(l.Says())...)
	if len(says) > 0 {
		b.heading(told.Say("record.changed"))
		b.list(says)
	}
	if b.table(told.Say("record.next-year"), w.nextYear()) {
		b.note(told.Say("record.care-either-way", told.CrewHours(w.hours())))
		if few := w.neither(); len(few) > 0 {
			b.text(told.Say("record.neither", told.All(few...)))
		}
	}
	if slices.ContainsFunc(shares, func(r record.Row) bool { return r.What == record.Share }) {
		b.note(told.Say("record.shares"))
	}
	if len(shares) > 0 {
		b.note(told.Say("record.counts"))
	}
}

// standing is the sward as the record has it, and all that was found where that is more than the
// client's chart holds; nothing where nothing was seen.
func (w *writer) standing(b *builder) {
	if w.p.Learned != nil {
		b.text(told.Say("record.in-brackets"))
		b.table(nil, w.stands(w.p.Learned))
		if rows := w.p.Learned.Rows; lo.CountBy(rows, record.Row.IsShare) > draw.MostFindings {
			b.table(told.Say("record.chart"), w.findings(told.Say("record.chart"), rows))
		}
	}
}

// neither are the zones in which no choice is likely to keep the cover.
func (w *writer) neither() (zones []told.Zone) {
	for _, x := range w.p.Next {
		if max(x.Alone, x.Sown) < evenChance {
			zones = append(zones, told.Zone(w.p.Site.Zones[x.Zone].Letter))
		}
	}
	return zones
}

// evenChance is the chance below which neither choice is told of as one that will do.
const evenChance = 0.5

// findings are rows of the record.
func (w *writer) findings(caption told.Sentence, rows []record.Row) table {
	t := table{caption: caption, columns: []head{left(told.Say("heads.seen-on")), left(told.Say("heads.zone")), left(told.Say("heads.what")),
		right(told.Say("heads.was-expected")), right(told.Say("heads.found")), right(told.Say("heads.found-range")), right(told.Say("heads.now-expected")), left(told.Say("heads.how-it-fits"))}}
	for _, r := range rows {
		expected, found, now := r.Ranges()
		var zone told.Figure
		if r.Zone != "" {
			zone = told.Zone(r.Zone)
		}
		t.row(told.Date(r.Seen.Date), zone, r.About(), expected, r.Figure(), found, now, r.Fits())
	}
	return t
}

// stands is the standing sward by grass and zone, beside what was expected, and what comes of
// it when it is left alone.
func (w *writer) stands(l *record.Learned) table {
	t := table{caption: told.Say("record.standing"), columns: []head{left(told.Say("heads.grass"))}}
	var grasses []*species.Species // the largest first, zone by zone
	for _, o := range l.Next {
		t.columns = append(t.columns, right(told.Say("record.zone", told.Zone(o.Letter))))
		for _, s := range o.Shares {
			if !slices.Contains(grasses, s.Species) {
				grasses = append(grasses, s.Species)
			}
		}
	}
	row := func(add func(...told.Figure), name told.Figure, of func(o *record.Outlook) told.Figure) {
		cells := []told.Figure{name}
		for i := range l.Next {
			cells = append(cells, of(&l.Next[i]))
		}
		add(cells...)
	}
	for _, g := range grasses {
		row(t.row, told.Grass(g.ID), func(o *record.Outlook) told.Figure {
			s, ok := lo.Find(o.Shares, func(s record.Standing) bool { return s.Species == g })
			if !ok {
				return nil
			}
			return told.Say("record.beside", told.Share(s.Share), told.Share(s.Expect))
		})
	}
	between := func(x [2]float64) told.Figure { return told.Between(told.Share(x[0]), told.Share(x[1])) }
	row(t.sum, told.Say("record.cover"), func(o *record.Outlook) told.Figure { return between(o.Cover) })
	row(t.row, told.Say("record.season-on"), func(o *record.Outlook) told.Figure { return between(o.Season) })
	row(t.row, told.Say("record.season-on-alone"), func(o *record.Outlook) told.Figure { return between(o.SeasonAlone) })
	row(t.row, told.Say("record.narrowed"), func(o *record.Outlook) told.Figure { return told.Share(o.Narrowed) })
	return t
}

// nextYear has a line a zone: what comes of leaving it alone and of overseeding it, with what
// each costs and what is sown.
func (w *writer) nextYear() table {
	t := table{caption: told.Say("record.next-year"), columns: []head{left(told.Say("heads.zone")), left(told.Say("heads.to-do")),
		right(told.Say("heads.left-alone")), right(told.Say("heads.bill")), right(told.Say("heads.overseeded")), right(told.Say("heads.bill")), right(told.Say("record.seed")), left(told.Say("heads.when"))}}
	for _, x := range w.p.Next {
		do := told.Say("record.leave-alone")
		if x.Worth() {
			do = told.Say("record.overseed")
		}
		var when told.Figure
		if x.Window != nil {
			when = told.Between(told.ShortDay(x.Window.Opens), told.ShortDay(x.Window.Closes))
		}
		t.row(w.zoneName(x.Zone), do, told.Chance(x.Alone), told.MoneyRound(x.Total.Part(0)), told.Chance(x.Sown), told.MoneyRound(x.Total), told.MassG(x.SeedG), when)
	}
	return t
}
