package content

import (
	"time"

	"github.com/samber/lo"

	"swardwright/internal/told"
	"swardwright/report/say"
	"swardwright/sowing"
	"swardwright/species"
)

// writer sets out one plan.
type writer struct {
	p *sowing.Plan
	f *say.Sayer
	w float64 // of drawings, mm
}

// New sets out a plan in the reader's forms, with drawings width millimetres wide.
func New(p *sowing.Plan, f *say.Sayer, width float64) Document {
	worded := f.Worded(*p)
	p = &worded
	w := writer{p, f, width}
	d := Document{Title: p.Brief.Title, Reference: p.Brief.Reference, By: p.Brief.PreparedBy, Language: f.Language()}
	if d.Title == "" {
		d.Title = f.Say(told.Say("plan.untitled"))
	}
	if !p.Date.IsZero() {
		d.Date = f.Date(p.Date)
	}
	if p.Cost.ExamplePrices {
		d.Warning = f.Say(told.Say("plan.example-prices"))
	}
	for _, s := range []struct {
		id    string
		title told.Sentence
		fill  func(*builder)
	}{
		{"answer", told.Say("plan.answer"), w.answer},
		{"place", told.Say("plan.place"), w.place},
		{"grasses", told.Say("plan.grasses"), w.grasses},
		{"mixture", told.Say("plan.mixture"), w.mixture},
		{"dates", told.Say("plan.dates"), w.dates},
		{"ground", told.Say("plan.ground"), w.ground},
		{"sowing", told.Say("plan.spreading"), w.spreading},
		{"cost", told.Say("plan.cost"), w.cost},
		{"care", told.Say("plan.care"), w.care},
		{"cautions", told.Say("plan.cautions"), w.cautions},
		{"basis", told.Say("plan.basis"), w.basis},
		{"acceptance", told.Say("plan.acceptance"), w.acceptance},
	} {
		b := builder{say: f}
		s.fill(&b)
		if len(b.blocks) > 0 {
			d.Sections = append(d.Sections, Section{s.id, f.Say(s.title), b.blocks})
		}
	}
	return d
}

// zoneName is how a zone is spoken of: its letter and where it lies.
func (w *writer) zoneName(zone int) told.Figure {
	z := w.p.Site.Zones[zone]
	return told.Say("plan.zone-name", told.Zone(z.Letter), told.Verbatim(z.Name))
}

func (w *writer) area() float64 {
	if w.p.Site != nil && w.p.Site.AreaM2 > 0 {
		return w.p.Site.AreaM2
	}
	return w.p.Brief.Site.Lawn.AreaM2
}

// minor is a sum of the plan's currency, or nothing.
func (w *writer) minor(minor int64) told.Figure {
	curr := w.p.Cost.Currency
	if curr == "" {
		curr = w.p.Brief.Currency
	}
	return told.Money{Minor: minor, Currency: curr}
}

// The figures that are left out where there is nothing to show.

func chance(share float64) told.Figure { return some(share > 0, told.Chance(share)) }

func count(n int) told.Figure { return some(n > 0, told.Count(n)) }

func date(t time.Time) told.Figure { return some(!t.IsZero(), told.Date(t)) }

// dateOrNever is a day that may not come.
func dateOrNever(t *time.Time) told.Figure {
	if t == nil {
		return told.Say("plan.never")
	}
	return told.Date(*t)
}

func verbatim(s string) told.Figure { return some(s != "", told.Verbatim(s)) }

func some(there bool, f told.Figure) told.Figure {
	if !there {
		return nil
	}
	return f
}

// running are sentences that follow each other.
func running(list ...told.Sentence) told.Figure {
	return some(len(list) > 0, told.Joined(told.Sentences, list...))
}

// spoken is a sentence, or nothing where it is silent.
func spoken(s told.Sentence) told.Figure { return some(!s.Silent(), s) }

// texts are what the core still says in letters.
func texts(list []string) []told.Figure {
	return lo.Map(list, func(s string, _ int) told.Figure { return told.Verbatim(s) })
}

func sentences(list []told.Sentence) []told.Figure {
	return lo.Map(list, func(s told.Sentence, _ int) told.Figure { return s })
}

func grade(g species.Grade) told.Figure { return told.Term{Kind: "grade", Word: string(g)} }

// quantity is a figure with the unit that a price list has it in.
func (w *writer) quantity(q float64, unit string) told.Figure {
	if q <= 0 || unit == "" {
		return nil
	}
	n, u := w.f.Quantity(q, unit)
	return told.Verbatim(n + "\u00a0" + u)
}

func (w *writer) cautions(b *builder) { b.list(sentences(w.p.Cautions)) }

func (w *writer) basis(b *builder) {
	if len(w.p.Assumptions) > 0 {
		b.heading(told.Say("plan.assumptions"))
		b.list(sentences(w.p.Assumptions))
	}
	if len(w.p.Sources) > 0 {
		b.heading(told.Say("plan.sources"))
		b.list(texts(w.p.Sources))
	}
}

func (w *writer) acceptance(b *builder) {
	p := w.p
	if len(p.Cost.Bills) == 0 && p.Choice.Mixture == nil {
		return
	}
	b.text(p.Cost.Validity)
	b.text(p.Cost.DepositNote)
	b.text(told.Verbatim(p.Cost.Terms))
	b.text(told.Say("plan.no-promise"))
	b.add(Signatures{[]string{w.f.Say(told.Say("plan.sign-client")), w.f.Say(told.Say("plan.sign-maker"))}})
}
