package content

import (
	"slices"
	"time"

	"swardwright/internal/calendar"
	"swardwright/internal/told"
	"swardwright/report/draw"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
	"swardwright/sowing/year"
)

// client is what whoever decides takes away: the answer to sign, the plan of the lawn,
// its year, its price.
func (w *writer) client() []chapter {
	// Without grass there is little, and nothing to sign: no pages of their own.
	own, price := true, told.Say("parts.price")
	if w.p.Kind == "" {
		own, price = false, told.Say("plan.cautions")
	}
	return []chapter{
		{"answer", told.Say("plan.answer"), true, w.answer},
		{"lawn", told.Say("parts.lawn"), own, w.lawn},
		{"record", told.Say("record.title"), own, w.record},
		{"year", told.Say("parts.year"), own, w.year},
		{"price", price, own, w.price},
	}
}

// The size of the plan beside the answer, mm.
const keyW, keyH = 62, 58

// answer is page one: what, how it will look, when, at what price, and what to decide.
func (w *writer) answer(b *builder) {
	b.beside(0.6, func(b *builder) {
		w.details(b)
		w.lead(b)
	}, func(b *builder) {
		if w.p.Site != nil && len(w.p.Site.Survey.Lawn.Parts) > 0 {
			b.figure("key-plan", func(width, _ float64) *draw.Drawing { return draw.Key(w.p, w.f, min(width, keyW), keyH) }, nil, nil)
		}
	})
	b.facts(w.keyDates())
	if w.p.Choice.Mixture == nil {
		b.notice(told.Say("plan.instead"), append([]told.Figure{spoken(w.p.Choice.Because)}, w.instead()...)...)
		return
	}
	b.heading(told.Say("plan.cost"))
	ways := w.ways()
	b.figure("prices", w.drawn(draw.Cost), nil, &ways)
	b.text(running(w.p.Why...))
	w.decide(b)
}

// lead is the answer in one plain sentence, and how the lawn will look and be kept.
func (w *writer) lead(b *builder) {
	if s := b.sentence(running(w.p.Headline...)); s != "" {
		b.add(Lead{s})
	}
	b.text(w.look())
}

// look is how the lawn will look and what keeping it takes.
func (w *writer) look() told.Figure {
	p := w.p
	if p.Mixture == nil || p.Year.CutMM <= 0 {
		return nil
	}
	cuts := told.Counted{N: w.cuts(), Of: "cuts"}
	looks := told.Say("parts.mixed-look")
	if p.Mixture.Evenness >= evenFrom {
		looks = told.Say("parts.even-look")
	}
	care := told.Say("parts.cuts-a-year", cuts)
	if n := len(p.Year.Feeds); n > 0 {
		care = told.Say("parts.cuts-and-feeds", cuts, told.Counted{N: n, Of: "feeds"})
	}
	mm := told.DepthMM(p.Year.CutMM)
	cut := told.Say("parts.is-cut", mm)
	switch p.Year.Cutting {
	case year.ByRobot:
		cut = told.Say("parts.by-robot", mm)
	case year.ByAnimals:
		cut = told.Say("parts.by-animals", mm)
	case year.ForHay:
		cut = told.Say("parts.for-hay", mm)
	}
	return told.Say("parts.look-and-care", looks, told.Share(p.Mixture.CoverExpected), told.Share(p.Mixture.CoverBadYear),
		cut, care, told.CrewHours(w.hours()))
}

// cuts are those of a full year, as its tasks say.
func (w *writer) cuts() (sum int) {
	for _, t := range w.p.Tasks {
		if !t.First && t.Sort == job.Mowing {
			sum += max(t.Goes, 1)
		}
	}
	return sum
}

// evenFrom is the evenness of look, 0 to 1, from which a sward looks all of a piece
// (our judgement).
const evenFrom = 0.75

// hours are those of a full year's care.
func (w *writer) hours() (sum float64) {
	for _, t := range w.p.Tasks {
		if !t.First {
			sum += t.Hours * float64(max(t.Goes, 1))
		}
	}
	return sum
}

// keyDates are the days that a client asks for first, and the standard.
func (w *writer) keyDates() []fact {
	p := w.p
	if p.Kind == "" {
		return nil
	}
	var facts []fact
	if first := w.begins(); !first.IsZero() && first.Before(p.StartOn) {
		facts = append(facts, fact{told.Say("parts.work-begins"), told.Period{From: first}, nil})
	}
	on := told.Say("plan.sow-about")
	if p.Kind == job.ByTurf {
		on = told.Say("parts.lay-about")
	}
	note := told.Say("plan.no-window")
	if opens, closes, ok := p.Dates.Open(); ok {
		note = told.Say("parts.window", told.Between(told.ShortDay(opens), told.ShortDay(closes)))
	}
	facts = append(facts, fact{on, told.Period{From: p.StartOn}, note})
	if p.UsableFrom != nil {
		var note told.Figure
		if p.Dates.FirstMow != nil {
			note = told.Say("plan.first-cut-about", told.ShortDay(*p.Dates.FirstMow))
		}
		facts = append(facts, fact{told.Say("plan.bears-use-from"), told.Period{From: *p.UsableFrom}, note})
	} else {
		facts = append(facts, fact{told.Say("plan.bears-use-from"), told.Say("plan.never"), nil})
	}
	if n := p.Brief.Job.NeededBy; n != nil {
		note := told.Say("parts.in-time")
		switch {
		case p.InTime:
		case p.UsableFrom == nil:
			note = told.Say("parts.not-by-then")
		default:
			note = told.Say("parts.days-late", told.Days(calendar.Days(*n, *p.UsableFrom)))
		}
		facts = append(facts, fact{told.Say("parts.needed-by"), told.Period{From: *n}, note})
	}
	if s, asked := p.Standard, p.Choice.Asked; s.Grade != "" {
		note := told.Say("parts.likely", told.Chance(s.Chance))
		if asked != "" && asked != s.Grade {
			note = told.Say("parts.likely-asked-for", told.Chance(s.Chance), lawnOf(asked))
		}
		facts = append(facts, fact{told.Say("plan.expect"), lawnOf(s.Grade), note})
	}
	return facts
}

// begins is the day of the first work.
func (w *writer) begins() (first time.Time) {
	for _, t := range w.p.Tasks {
		if first.IsZero() || t.Date.Before(first) {
			first = t.Date
		}
	}
	return first
}

// decide is what the client ticks and signs.
func (w *writer) decide(b *builder) {
	p := w.p
	if len(p.Ways) == 0 {
		return
	}
	var options []string
	for _, x := range p.Ways {
		if !p.Second.Allows(x.Kind) { // priced beside, and advised against
			continue
		}
		options = append(options, b.words(told.Say("parts.option", way(x.Kind), told.Money(x.Bill.Total), told.Money(x.Bill.Deposit))))
	}
	if len(p.Next) > 0 {
		options = append(options, b.words(told.Say("record.option-alone", told.Money(p.Bill.Total.Part(0)))))
	}
	b.add(Choice{b.words(told.Say("parts.decide")), options})
	b.note(spoken(p.Cost.Validity))
	b.add(Signatures{
		Roles: []string{b.words(told.Say("plan.sign-client")), b.words(told.Say("plan.sign-maker"))},
		Lines: []string{b.words(told.Say("parts.name")), b.words(told.Say("parts.day")), b.words(told.Say("parts.signature"))},
	})
}

// lawn is the plan to scale with what becomes of each zone, and the sward.
func (w *writer) lawn(b *builder) {
	p := w.p
	if p.Site == nil {
		return
	}
	if len(p.Site.Survey.Lawn.Parts) > 0 {
		b.figure("plan", w.drawnIn(draw.Lawn), told.Say("parts.fig-plan"), nil)
	} else {
		b.table(nil, w.zones())
		b.figure("by-month", w.drawn(draw.Light), told.Say("plan.fig-light"), nil)
	}
	for _, v := range p.Choice.Zones {
		if !v.Sown && p.Choice.Mixture != nil {
			b.text(told.Say("plan.instead-in-zone", w.zoneName(v.Zone), criterion(v.LimitedBy), told.Joined(told.Clauses, v.Instead...)))
		}
	}
	if m := p.Mixture; m != nil && len(m.Sward) > 0 {
		becomes := told.Say("plan.what-it-becomes")
		if p.Kind == job.ByTurf {
			becomes = told.Say("parts.what-turf-becomes")
		}
		b.heading(becomes)
		b.figure("sward", w.drawnIn(draw.Sward), told.Say("parts.fig-sward"), nil)
		if len(p.Sown) > 0 {
			b.table(nil, w.components())
		}
		if s := p.Standard; !s.Because.Silent() {
			title := told.Say("plan.limits")
			if s.Holds && p.Choice.Asked == s.Grade {
				title = told.Say("plan.holds")
			}
			b.notice(title, append([]told.Figure{s.Because}, w.lifts(2)...)...)
		}
		if len(p.Bed.Moss) > 0 {
			b.notice(told.Say("parts.moss"), sentences(p.Bed.Moss)...)
		}
	}
}

// year is the year in bars, and what it takes of the owner's time.
func (w *writer) year(b *builder) {
	p := w.p
	if len(p.Tasks) == 0 {
		return
	}
	b.figure("year", w.drawn(draw.Dates), told.Say("parts.fig-year"), nil)
	b.heading(told.Say("parts.hours"))
	t := table{caption: told.Say("parts.hours"), columns: []head{left(told.Say("heads.work")), left(told.Say("heads.when")), right(told.Say("heads.times")), right(told.Say("heads.hours-a-year"))}}
	total := 0.0
	for _, s := range yearly {
		hours, goes := 0.0, 0
		var from, until time.Time
		for _, x := range p.Tasks {
			if x.First || !slices.Contains(s.sorts, x.Sort) {
				continue
			}
			hours += x.Hours * float64(max(x.Goes, 1))
			goes += max(x.Goes, 1)
			if from.IsZero() || x.Date.Before(from) {
				from = x.Date
			}
			if x.Ends().After(until) {
				until = x.Ends()
			}
		}
		if goes > 0 && (hours > 0 || slices.Contains(s.sorts, job.Mowing)) {
			t.row(s.name, told.Between(told.ShortDay(from), told.ShortDay(until)), told.Count(goes), told.CrewHours(hours))
			total += hours
		}
	}
	if len(t.rows) > 0 {
		t.total(told.Say("parts.together"), nil, nil, told.CrewHours(total))
	}
	b.table(nil, t)
	b.note(told.Say("parts.hours-mean"))
	w.cutting(b)
}

// cutting is how high the grass is kept, and by whom.
func (w *writer) cutting(b *builder) {
	p := w.p
	if p.Year.CutMM == 0 {
		return
	}
	b.heading(told.Say("parts.cut"))
	mm := told.DepthMM(p.Year.CutMM)
	switch p.Year.Cutting {
	case year.ByThirds:
		b.text(told.Say("parts.third-rule"))
		b.figure("cut", w.drawn(draw.Cuts), nil, nil)
	case year.ByRobot:
		b.text(told.Say("parts.robot-rule", mm))
	case year.ByAnimals:
		b.text(told.Say("parts.graze-rule", told.Between(told.DepthMM(year.GrazeFromMM), told.DepthMM(year.GrazeToMM)), mm))
	case year.ForHay:
		b.text(told.Say("parts.hay-rule", mm))
	}
}

// yearly are the kinds of work that come round every year, as an owner counts them.
var yearly = []struct {
	name  told.Sentence
	sorts []job.Sort
}{
	{told.Say("parts.mowing"), []job.Sort{job.Mowing}},
	{told.Say("parts.edging"), []job.Sort{job.Edging}},
	{told.Say("parts.watering"), []job.Sort{job.Watering}},
	{told.Say("parts.feeding"), []job.Sort{job.Feeding}},
	{told.Say("parts.renewing"), []job.Sort{job.Raking, job.Spiking, job.Dressing, job.Reseeding}},
	{told.Say("parts.leaves"), []job.Sort{job.Leaves}},
}

// price is the offer without what is the maker's own business, and what stands with it.
func (w *writer) price(b *builder) {
	p := w.p
	if p.Kind == "" {
		b.list(sentences(p.Cautions))
		b.note(told.Say("plan.no-promise"))
		return
	}
	b.beside(0.46, func(b *builder) {
		b.table(told.Say("parts.offer", way(p.Kind)), w.offer(p.Bill))
	}, func(b *builder) {
		b.heading(told.Say("plan.unpriced"))
		b.list(sentences(p.Unpriced))
	})
	if len(p.Cautions) > 0 {
		b.heading(told.Say("plan.cautions"))
		b.list(sentences(p.Cautions))
	}
	b.heading(told.Say("parts.terms"))
	b.list([]told.Figure{spoken(p.Cost.Validity), spoken(p.Cost.DepositNote), w.terms(), told.Say("plan.no-promise")})
}

// terms are the maker's own, or the usual ones.
func (w *writer) terms() told.Figure {
	if w.p.Cost.Terms == "" {
		return told.Say("money.terms")
	}
	return told.Verbatim(w.p.Cost.Terms)
}

// offer is the price of a way by what it goes into, as a client is shown it.
func (w *writer) offer(bill money.Bill) table {
	f := w.f
	t := table{caption: told.Say("parts.offer", way(bill.Way)), columns: []head{left(told.Say("heads.item")), right(told.Say("heads.sum", told.Verbatim(f.Currency(bill.Total.Currency))))}}
	for _, o := range bill.Offered() {
		t.row(told.Term{Kind: "cost", Word: string(o.Group)}, told.Verbatim(f.Sum(o.Amount)))
	}
	if bill.Tax.Minor != 0 {
		t.row(told.Say("plan.tax"), told.Verbatim(f.Sum(bill.Tax)))
	}
	t.total(told.Say("plan.total"), told.Verbatim(f.Sum(bill.Total)))
	if bill.Deposit.Minor != 0 {
		t.row(told.Say("parts.of-it-deposit"), told.Verbatim(f.Sum(bill.Deposit)))
	}
	return t
}
