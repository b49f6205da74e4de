package content

import (
	"reflect"
	"slices"
	"time"

	"github.com/samber/lo"

	"swardwright/internal/told"
	"swardwright/report/draw"
	"swardwright/report/say"
	"swardwright/sowing"
	"swardwright/species"
)

// writer sets out one plan.
type writer struct {
	p     *sowing.Plan
	f     *say.Sayer
	noted []told.Sentence // where it belongs, and so not once more at the end
}

// chapter is a section before it is written.
type chapter struct {
	id    string
	title told.Sentence
	page  bool
	fill  func(*builder)
}

// New sets out the parts of a plan that are asked for, in the reader's forms.
func New(p *sowing.Plan, f *say.Sayer, parts ...PartName) Document {
	w := writer{p: p, f: f}
	d := w.document()
	b := builder{say: f, section: "answer"}
	w.screen(&b)
	d.Answer = b.blocks
	d.More = f.Say(told.Say("parts.more", told.Source("--parts client,crew,evidence"), told.Source("--pdf FILE")))
	for _, name := range PartNames {
		if !slices.Contains(parts, name) {
			continue
		}
		part := Part{Name: name}
		var chapters []chapter
		switch name {
		case Client:
			part.Title, chapters = f.Say(told.Say("parts.client")), w.client()
		case Crew:
			part.Title, chapters = f.Say(told.Say("parts.crew")), w.crew()
		default:
			part.Title, chapters = f.Say(told.Say("parts.evidence")), w.evidence()
		}
		for _, c := range chapters {
			b := builder{say: f, section: c.id}
			c.fill(&b)
			if len(b.blocks) > 0 {
				part.Sections = append(part.Sections, Section{c.id, f.Say(c.title), c.page, b.blocks})
			}
		}
		if len(part.Sections) > 0 {
			d.Parts = append(d.Parts, part)
		}
	}
	if len(d.Parts) == 0 && len(parts) > 0 { // the crew has nothing to do where no grass will hold: the answer says so
		title := f.Say(told.Say("plan.answer"))
		d.Parts = []Part{{parts[0], title, []Section{{"answer", title, true, d.Answer}}}}
	}
	return d
}

// document is what a document says of itself.
func (w *writer) document() Document {
	p, f := w.p, w.f
	d := Document{Title: p.Brief.Title, Reference: p.Brief.Reference, By: p.Brief.PreparedBy, Language: f.Language(), Draft: f.Draft()}
	if d.Title == "" {
		d.Title = f.Say(told.Say("plan.untitled"))
	}
	if !p.Brief.Date.IsZero() {
		d.Date = f.Date(p.Brief.Date)
	}
	if p.Cost.ExamplePrices {
		d.Warning = f.Say(told.Say("plan.example-prices"))
	}
	return d
}

// evidence is everything that the answer stands on.
func (w *writer) evidence() []chapter {
	return []chapter{
		{"contents", told.Say("parts.contents"), true, func(b *builder) { b.add(Contents{}) }},
		{"place", told.Say("plan.place"), false, w.place},
		{"grasses", told.Say("plan.grasses"), false, w.grasses},
		{"mixture", told.Say("plan.mixture"), false, w.mixture},
		{"standing", told.Say("record.standing"), false, w.standing},
		{"dates", told.Say("plan.dates"), false, w.dates},
		{"ground", told.Say("plan.ground"), false, w.ground},
		{"cost", told.Say("plan.cost"), false, w.cost},
		{"care", told.Say("plan.care"), false, w.care},
		{"variants", told.Say("compare.title"), false, w.variants},
		{"basis", told.Say("plan.basis"), false, w.basis},
	}
}

// drawn is a drawing of the plan at whatever width it is asked for.
func (w *writer) drawn(of func(*sowing.Plan, *say.Sayer, float64) *draw.Drawing) func(w, h float64) *draw.Drawing {
	return func(width, _ float64) *draw.Drawing { return of(w.p, w.f, width) }
}

// drawnIn is the same of a drawing that goes by the height there is as well.
func (w *writer) drawnIn(of func(*sowing.Plan, *say.Sayer, float64, float64) *draw.Drawing) func(w, h float64) *draw.Drawing {
	return func(width, height float64) *draw.Drawing { return of(w.p, w.f, width, height) }
}

// zoneName is how a zone is spoken of: its letter and where it lies.
func (w *writer) zoneName(zone int) told.Figure {
	z := w.p.Site.Zones[zone]
	return told.Say("plan.zone-name", told.Zone(z.Letter), z.Name)
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

func sentences(list []told.Sentence) []told.Figure {
	return lo.Map(list, func(s told.Sentence, _ int) told.Figure { return s })
}

func lawnOf(g species.Grade) told.Figure { return told.Term{Kind: "lawn-of", Word: string(g)} }

// quantity is a figure with the unit that a price list has it in.
func (w *writer) quantity(q float64, unit string) told.Figure {
	if q <= 0 || unit == "" {
		return nil
	}
	n, u := w.f.Quantity(q, unit)
	return told.Verbatim(n + "\u00a0" + u)
}

// notes are what was taken for granted, said where it belongs.
func (w *writer) notes(b *builder, list []told.Sentence) {
	w.noted = append(w.noted, list...)
	b.list(sentences(list))
}

func (w *writer) basis(b *builder) {
	rest := lo.Reject(w.p.Assumptions, func(s told.Sentence, _ int) bool {
		return slices.ContainsFunc(w.noted, func(n told.Sentence) bool { return reflect.DeepEqual(n, s) })
	})
	if len(rest) > 0 {
		b.heading(told.Say("plan.assumptions"))
		b.list(sentences(rest))
	}
	if len(w.p.Sources) > 0 {
		b.heading(told.Say("plan.sources"))
		b.list(sentences(w.p.Sources))
	}
}
