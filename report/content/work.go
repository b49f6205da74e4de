package content

import (
	"cmp"
	"slices"
	"strings"

	"swardwright/internal/told"
	"swardwright/report/draw"
	"swardwright/report/say"
	"swardwright/sowing"
	"swardwright/sowing/bed"
	"swardwright/sowing/dates"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
	"swardwright/sowing/year"
)

func byShare(shares map[string]float64, a, b string) int {
	return cmp.Or(cmp.Compare(shares[b], shares[a]), strings.Compare(a, b))
}

// days is a range of days that holds 8 years in 10.
func days(s *dates.Span) told.Figure {
	if s == nil {
		return nil
	}
	return told.Between(told.Days(s.P10+0.5), told.Days(s.P90+0.5))
}

func window(k dates.Kind) told.Figure { return told.Term{Kind: "window", Word: string(k)} }

func way(m job.Way) told.Figure { return told.Term{Kind: "way", Word: string(m)} }

// turfWindows are the days for turf where it is not the way chosen.
func (w *writer) turfWindows() []dates.Window {
	i := slices.IndexFunc(w.p.Ways, func(x sowing.Way) bool { return x.Kind == job.ByTurf && w.p.Kind != job.ByTurf })
	if i < 0 {
		return nil
	}
	return w.p.Ways[i].Dates.Windows
}

func (w *writer) dates(b *builder) {
	p := w.p
	d := p.Dates
	if d.On == nil {
		b.list(sentences(d.Notes))
		return
	}
	w.windows(b)
	if d.FirstMow != nil && d.UsableFrom != nil {
		at := []told.Figure{told.Date(*d.On), told.Date(*d.FirstMow), told.Date(*d.UsableFrom)}
		if p.Kind == job.ByTurf {
			b.text(told.Say("plan.laid-cut-used", at...))
		} else {
			b.text(told.Say("plan.sown-cut-used", at...))
		}
	}
	parts := table{caption: told.Say("plan.each-grass", told.DayMonth(*d.On)), columns: []head{left(told.Say("heads.grass")), right(told.Say("heads.up-after")), right(told.Say("heads.first-cut-after")), right(told.Say("heads.succeeds"))}}
	for _, c := range d.Components {
		parts.row(told.Grass(c.SpeciesID), days(c.EmergenceDays), days(c.FirstMowDays), chance(c.Success))
	}
	b.table(parts.caption, parts)
	water := table{caption: told.Say("plan.watering"), columns: []head{right(told.Say("heads.week")), right(told.Say("heads.mean-year")), right(told.Say("heads.dry-year")), right(told.Say("heads.whole-dry-year"))}}
	for _, x := range d.Watering {
		water.row(told.Ordinal(x.Number), told.WaterMM(x.MeanMM), told.WaterMM(x.DryMM), told.VolumeL(x.DryMM*w.area()))
	}
	b.table(water.caption, water)
	turf := table{caption: told.Say("plan.turf-days"), columns: []head{left(told.Say("heads.window")), left(told.Say("heads.opens-to-closes")), left(told.Say("heads.best")), right(told.Say("heads.succeeds"))}}
	for _, x := range w.turfWindows() {
		turf.row(window(x.Kind), told.Period{From: x.Opens, To: x.Closes}, told.DayMonth(x.Best), chance(x.Success))
	}
	b.table(told.Say("plan.turf-instead"), turf)
	if d.NeededBy != nil {
		b.text(told.Say("plan.needed-by", told.Date(*d.NeededBy), told.DayMonth(*d.On), told.Chance(d.NeededByChance)))
	}
	b.list(sentences(d.Notes))
}

// windows are the runs of days to sow on, and why they open and close.
func (w *writer) windows(b *builder) {
	d := w.p.Dates
	t := table{caption: told.Say("plan.windows"), columns: []head{left(told.Say("heads.window")), left(told.Say("heads.opens-to-closes")), left(told.Say("heads.best")), right(told.Say("heads.succeeds")),
		right(told.Say("heads.up-after")), right(told.Say("heads.first-cut-after")), right(told.Say("heads.water"))}}
	var because []told.Figure
	for i, x := range d.Windows {
		name := window(x.Kind)
		if i == d.Chosen {
			name = told.Say("plan.window-chosen", name)
		} else if !x.Allowed {
			name = told.Say("plan.window-outside", name)
		}
		var water told.Figure
		if i == d.Chosen && d.WaterMM != nil {
			water = told.Between(told.WaterMM(d.WaterMM.P10), told.WaterMM(d.WaterMM.P90))
		}
		t.row(name, told.Period{From: x.Opens, To: x.Closes}, told.DayMonth(x.Best), chance(x.Success), days(x.EmergenceDays), days(x.FirstMowDays), water)
		if !x.OpensBecause.Silent() {
			because = append(because, told.Say("plan.opens-because", window(x.Kind), x.OpensBecause))
		}
		if !x.ClosesBecause.Silent() {
			because = append(because, told.Say("plan.closes-because", window(x.Kind), x.ClosesBecause))
		}
	}
	if b.table(nil, t) && d.Threshold > 0 {
		b.note(told.Say("plan.window-means", told.Chance(0.8), told.Share(d.Threshold)))
	}
	b.list(because)
	seconds := table{caption: told.Say("plan.second-choices"), columns: []head{left(told.Say("heads.window")), left(told.Say("heads.opens-to-closes")), left(told.Say("heads.best")), right(told.Say("heads.succeeds")), left(told.Say("heads.goes-wrong"))}}
	for _, x := range d.Seconds {
		seconds.row(window(x.Kind), told.Period{From: x.Opens, To: x.Closes}, told.DayMonth(x.Best), chance(x.Success), x.Wrong)
	}
	b.table(seconds.caption, seconds)
}

func (w *writer) ground(b *builder) {
	p := w.p
	if p.Site == nil {
		return
	}
	b.text(w.found())
	w.checks(b, true)
	w.feedAtStart(b)
	w.notes(b, slices.Concat(p.Bed.Notes, p.Bed.Moss))
}

// checks are the tests of the ground, all of them or those that ask for something.
func (w *writer) checks(b *builder, all bool) {
	t := table{caption: told.Say("plan.checks"), columns: []head{left(told.Say("heads.check")), left(told.Say("heads.here")), left(told.Say("heads.should-be")), left(told.Say("heads.passed")), left(told.Say("heads.what-to-do"))}}
	for _, c := range w.p.Bed.Checks {
		passed := told.Say("plan.no")
		if c.OK {
			passed = told.Say("plan.yes")
		}
		if all || !c.OK {
			t.row(c.Told(), c.Figure, c.Limit, some(all, passed), spoken(c.Advice))
		}
	}
	b.table(t.caption, t)
}

// feedAtStart is what the ground is given before the grass, and how it is drained.
func (w *writer) feedAtStart(b *builder) {
	p := w.p
	var feed []told.Figure
	if len(p.Bed.Lime) > 0 {
		feed = append(feed, running(p.Bed.Lime...))
	}
	var wants []told.Sentence
	if n := p.Bed.StarterN; n > 0 {
		wants = append(wants, told.Say("bed.of-nitrogen", told.GramsPerM2(n)))
	}
	if n := p.Bed.StarterP2O5; n > 0 {
		wants = append(wants, told.Say("bed.of-phosphate", told.GramsPerM2(n)))
	}
	if n := p.Bed.StarterK2O; n > 0 {
		wants = append(wants, told.Say("bed.of-potash", told.GramsPerM2(n)))
	}
	if len(wants) > 0 {
		feed = append(feed, told.Say("plan.feed-at-sowing", told.Joined(told.And, wants...), told.Say("bed.starter-how", p.Bed.Starter)))
	}
	if p.Bed.DrainSpacingM > 0 {
		feed = append(feed, told.Say("plan.drains", told.LengthM(p.Bed.DrainSpacingM)))
	}
	if len(feed) > 0 {
		b.heading(told.Say("plan.lime-feed-water"))
		b.list(feed)
	}
}

// layers is the section of the ground as wanted, in figures.
func (w *writer) layers() table {
	t := table{caption: told.Say("plan.fig-section"), columns: []head{right(told.Say("heads.wanted")), left(told.Say("heads.layer")), left(nil)}}
	for _, l := range w.p.Bed.Layers {
		t.row(some(l.DepthMM > 0, told.DepthMM(l.DepthMM)), l.Kind.Told(), spoken(l.Note))
	}
	return t
}

func (w *writer) materials(b *builder) {
	t := table{caption: told.Say("plan.materials"), columns: []head{left(told.Say("heads.material")), left(told.Say("heads.for")), right(told.Say("heads.settled")), right(told.Say("heads.loose")),
		right(told.Say("heads.amount")), right(told.Say("heads.barrows")), right(told.Say("heads.loads"))}}
	for _, m := range w.p.Bed.Materials {
		t.row(m.Item, spoken(m.For), some(m.SettledM3 > 0, told.VolumeM3(m.SettledM3)), some(m.LooseM3 > 0, told.VolumeM3(m.LooseM3)), w.weight(m), count(m.BarrowLoads), loads(m))
	}
	b.table(t.caption, t)
}

func (w *writer) weight(m bed.Material) told.Figure {
	switch {
	case m.Tonnes > 0:
		return told.MassT(m.Tonnes)
	case m.KG > 0:
		return told.MassKG(m.KG)
	case m.LooseM3 > 0:
		return nil
	}
	return w.quantity(m.Quantity, m.Unit)
}

func loads(m bed.Material) told.Figure {
	switch {
	case m.LorryLoads > 0:
		return told.Counted{N: m.LorryLoads, Of: "lorries"}
	case m.BulkBags > 0:
		return told.Counted{N: m.BulkBags, Of: "bulk-bags"}
	}
	return nil
}

// found is the soil as found, in a line.
func (w *writer) found() told.Figure {
	s := w.p.Found.Soil
	if s.Texture == "" {
		return nil
	}
	parts := []told.Figure{told.Say("plan.found", told.Term{Kind: "texture", Word: s.Texture})}
	if s.Drainage != "" {
		parts = append(parts, told.Say("plan.drained", told.Term{Kind: "drainage", Word: s.Drainage}))
	}
	switch {
	case s.PH > 0 && s.PHKnown:
		parts = append(parts, told.Say("plan.ph", told.PH(s.PH)))
	case s.PH > 0:
		parts = append(parts, told.Say("plan.ph-assumed", told.PH(s.PH)))
	}
	if s.DepthCM > 0 {
		parts = append(parts, told.Say("plan.usable-topsoil", told.DepthMM(s.DepthCM*10)))
	}
	switch rain := s.InfiltrationMMH; {
	case rain >= leastIntakeMMH:
		parts = append(parts, told.Say("plan.takes-in", told.MMPerHour(rain)))
	case rain > 0:
		parts = append(parts, told.Say("plan.takes-no-rain"))
	}
	return told.Joined(told.Commas, parts...)
}

// leastIntakeMMH is the least intake that is worth a figure.
const leastIntakeMMH = 0.1

// spreading is the guide for whoever walks with the seed.
func (w *writer) spreading(b *builder) {
	g := w.p.Bed.Guide
	if g == nil {
		return
	}
	t := table{caption: told.Say("plan.seed-by-zone"), columns: []head{left(told.Say("heads.zone")), right(told.Say("heads.area")), right(told.Say("heads.seed")), right(told.Say("heads.each-pass", told.Count(2))),
		right(told.Say("heads.sand-each-pass")), right(told.Say("heads.handfuls"))}}
	for _, z := range g.Zones {
		for n, s := range w.p.Sowings {
			if len(w.p.Sowings) > 1 && s.Zones[0].Letter == z.Zone {
				t.group(w.mixtureName(n))
			}
		}
		var name told.Figure = told.Verbatim(z.Zone)
		for i, site := range w.p.Site.Zones {
			if site.Letter == z.Zone {
				name = w.zoneName(i)
			}
		}
		t.row(name, told.AreaM2(z.AreaM2), told.MassG(z.Grams), told.MassG(z.PassG), some(z.SandKG > 0, told.MassKG(z.SandKG)), count(z.HandfulN))
	}
	b.table(nil, t)
	b.figure("passes", w.drawn(draw.Passes), nil, nil)
	b.steps(sentences(g.Instructions))
	if g.Zones[0].SandKG > 0 {
		b.note(told.Say("plan.dusty"))
	} else {
		b.note(told.Say("plan.keep-seed"))
	}
}

func (w *writer) cost(b *builder) {
	p := w.p
	c := p.Cost
	b.text(running(p.Why...))
	if len(c.Bills) == 0 {
		return
	}
	parts := w.parts()
	b.table(nil, parts)
	b.table(nil, w.ways())
	if c.DaysEarlier > 0 && c.EarlierPerDay.Minor > 0 {
		b.text(told.Say("plan.turf-earlier", told.Days(c.DaysEarlier), told.Money(c.EarlierPerDay)))
	}
	for _, bill := range c.Bills {
		b.table(told.Say("plan.bill", way(bill.Way)), w.bill(bill))
	}
	moves := table{caption: told.Say("plan.moves"), columns: []head{left(told.Say("heads.way")), left(told.Say("heads.cause")), right(told.Say("heads.total-low")), right(told.Say("heads.total-high"))}}
	for _, bill := range c.Bills {
		for _, d := range bill.Drivers[:min(4, len(bill.Drivers))] {
			moves.row(way(bill.Way), d.Told(), told.MoneyRound(d.Low), told.MoneyRound(d.High))
		}
	}
	b.table(moves.caption, moves)
	turns := table{caption: told.Say("plan.turns"), columns: []head{left(told.Say("heads.what")), left(told.Say("heads.turns-at")), left(told.Say("heads.means"))}}
	for _, t := range c.BreakEvens {
		turns.row(t.Told(), t.At, t.Means)
	}
	b.table(turns.caption, turns)
	if len(p.Unpriced) > 0 {
		b.heading(told.Say("plan.unpriced"))
		b.list(sentences(p.Unpriced))
	}
}

// parts are the totals of the ways by their parts, in figures.
func (w *writer) parts() table {
	c := w.p.Cost
	t := table{caption: told.Say("plan.fig-cost"), columns: []head{left(told.Verbatim(w.f.Currency(c.Currency)))}}
	for _, b := range c.Bills {
		t.columns = append(t.columns, right(way(b.Way)))
	}
	row := func(kind RowKind, name told.Figure, of func(money.Bill) money.Amount) {
		r := cells{kind, []told.Figure{name}}
		for _, b := range c.Bills {
			r.cells = append(r.cells, told.Verbatim(w.f.Sum(of(b))))
		}
		t.rows = append(t.rows, r)
	}
	any := func(of func(money.Bill) money.Amount) bool {
		return slices.ContainsFunc(c.Bills, func(b money.Bill) bool { return of(b).Minor != 0 })
	}
	for _, g := range money.Groups {
		of := func(b money.Bill) money.Amount { return b.Of(g) }
		if any(of) {
			row(Plain, told.Term{Kind: "cost", Word: string(g)}, of)
		}
	}
	for _, s := range []struct {
		name told.Figure
		of   func(money.Bill) money.Amount
	}{
		{told.Say("plan.margin"), func(b money.Bill) money.Amount { return b.Margin }},
		{told.Say("plan.discount"), func(b money.Bill) money.Amount {
			return money.Amount{Minor: -b.Discount.Minor, Currency: b.Discount.Currency}
		}},
		{told.Say("plan.tax"), func(b money.Bill) money.Amount { return b.Tax }},
	} {
		if any(s.of) {
			row(Plain, s.name, s.of)
		}
	}
	row(Total, told.Say("plan.total"), func(b money.Bill) money.Amount { return b.Total })
	row(Plain, told.Say("plan.in-ten-below", told.Count(1), told.Count(10)), func(b money.Bill) money.Amount { return b.P10 })
	row(Plain, told.Say("plan.in-ten-above", told.Count(1), told.Count(10)), func(b money.Bill) money.Amount { return b.P90 })
	return t
}

// bill is one way's bill, its lines by group, as a contractor sends it.
func (w *writer) bill(bill money.Bill) table {
	f := w.f
	sign := told.Verbatim(f.Currency(bill.Total.Currency))
	t := table{caption: told.Say("plan.bill", way(bill.Way)), columns: []head{left(told.Say("heads.item")), right(told.Say("heads.quantity")), unit(told.Say("heads.unit")), right(told.Say("heads.rate", sign)), right(told.Say("heads.sum", sign))}}
	var group money.Group
	invented := false
	for _, l := range bill.Lines {
		if l.Group != group {
			group = l.Group
			t.group(told.Term{Kind: "cost", Word: string(group)})
		}
		var item told.Figure = l.Item
		if l.Invented {
			item, invented = told.Say("plan.invented", item), true
		}
		by := l.Unit
		if l.Group == money.Aftercare && by == "m³" {
			by = say.Water
		}
		n, unit := f.Quantity(l.Quantity, by)
		t.row(item, told.Verbatim(n), told.Source(unit), told.Verbatim(f.Rate(l.Rate, by)), told.Verbatim(f.Sum(l.Amount)))
	}
	sum := func(name told.Sentence, a money.Amount) {
		if a.Minor != 0 {
			t.sum(name, nil, nil, nil, told.Verbatim(f.Sum(a)))
		}
	}
	t.sum(told.Say("plan.net"), nil, nil, nil, told.Verbatim(f.Sum(bill.Net)))
	sum(told.Say("plan.margin"), bill.Margin)
	sum(told.Say("plan.discount"), money.Amount{Minor: -bill.Discount.Minor, Currency: bill.Discount.Currency})
	sum(told.Say("plan.tax"), bill.Tax)
	t.total(told.Say("plan.total"), nil, nil, nil, told.Verbatim(f.Sum(bill.Total)))
	sum(told.Say("plan.deposit"), bill.Deposit)
	if invented {
		t.group(told.Say("plan.invented-rate"))
	}
	return t
}

func (w *writer) care(b *builder) {
	y := w.p.Year
	if len(w.p.Tasks) == 0 {
		return
	}
	var facts []fact
	if y.CutMM > 0 {
		facts = append(facts, fact{told.Say("plan.height-of-cut"), told.DepthMM(y.CutMM), some(y.Cutting == year.ByThirds, told.Say("plan.third-rule"))})
	}
	if w.cuts() > 0 {
		facts = append(facts, fact{told.Say("plan.cuts-a-year"), told.Count(w.cuts()), some(y.MowHoursYear > 0, told.Say("plan.hours-of-mowing", told.CrewHours(y.MowHoursYear)))})
	}
	if y.NitrogenGM2 > 0 {
		facts = append(facts, fact{told.Say("plan.nitrogen-a-year"), told.GramsPerM2(y.NitrogenGM2), told.Counted{N: len(y.Feeds), Of: "feeds"}})
	}
	b.facts(facts)
	heads := []head{left(told.Say("heads.when")), left(told.Say("heads.work")), left(told.Say("heads.how")), right(told.Say("heads.times")), right(told.Say("heads.hours-each")), right(told.Say("heads.chance"))}
	first := table{caption: told.Say("parts.rest-of-first-year"), columns: heads}
	later := table{caption: told.Say("plan.every-year"), columns: heads}
	for _, t := range w.p.Tasks {
		if t.First && w.after(t) && t.Date.After(w.established()) {
			first.row(w.task(t)...)
		} else if !t.First {
			later.row(w.task(t)...)
		}
	}
	b.table(first.caption, first)
	b.table(later.caption, later)
	b.note(told.Say("plan.chance-means"))
	mow := table{caption: told.Say("plan.mowing"), columns: []head{left(told.Say("heads.month")), right(told.Say("heads.cut-at")), right(told.Say("heads.every")), right(told.Say("heads.cuts"))}}
	for i, m := range y.Months {
		if m.Mows > 0 {
			mow.row(told.Month(i+1), told.DepthMM(m.CutMM), some(m.MowEveryDays > 0 && m.Mows > 1, told.Days(m.MowEveryDays+0.5)), told.Count(m.Mows))
		}
	}
	b.table(mow.caption, mow)
	w.notes(b, y.Notes)
}

// task is one row of the calendar; work that comes round every year has no year.
func (w *writer) task(t job.Task) []told.Figure {
	runs := !t.Until.IsZero() && !t.Until.Equal(t.Date)
	var when told.Figure
	switch {
	case t.First && runs:
		when = told.Period{From: t.Date, To: t.Until}
	case t.First:
		when = told.Period{From: t.Date}
	case runs:
		when = told.Between(told.ShortDay(t.Date), told.ShortDay(t.Until))
	default:
		when = told.ShortDay(t.Date)
	}
	how := w.how(t)
	return []told.Figure{when, t.Title, how, some(t.Goes > 1, told.Count(t.Goes)), some(t.Hours > 0, told.CrewHours(t.Hours)), certainty(t)}
}

// how is what a task says of itself, with what it needs.
func (w *writer) how(t job.Task) told.Figure {
	if len(t.Materials) == 0 {
		return running(t.Detail...)
	}
	return told.Say("plan.with-materials", told.Joined(told.Sentences, t.Detail...), told.Joined(told.Commas, t.Materials...))
}

// certainty is how often the date of a task is right; no one is sure of the weather.
func certainty(t job.Task) told.Figure {
	return some(t.Chance > 0, told.Odds(t.Chance))
}
