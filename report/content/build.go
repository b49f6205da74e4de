package content

import (
	"fmt"
	"strings"

	"swardwright/report/say"
	"swardwright/sowing"
	"swardwright/sowing/money"
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
	worded := f.Form.Worded(*p)
	p = &worded
	w := writer{p, f, width}
	d := Document{Title: p.Brief.Title, Reference: p.Brief.Reference, By: p.Brief.PreparedBy, Language: p.Brief.Language}
	if d.Title == "" {
		d.Title = "Lawn plan"
	}
	if d.Language == "" {
		d.Language = "en"
	}
	if !p.Date.IsZero() {
		d.Date = f.Date(p.Date)
	}
	if p.Cost.ExamplePrices {
		d.Warning = "Prices are invented examples: put your own before you quote."
	}
	for _, s := range []struct {
		id, title string
		fill      func(*builder)
	}{
		{"answer", "The answer", w.answer},
		{"place", "The place and its light", w.place},
		{"grasses", "Which grasses can live here", w.grasses},
		{"mixture", "The mixture", w.mixture},
		{"dates", "When to sow", w.dates},
		{"ground", "The ground", w.ground},
		{"sowing", "Spreading the seed", w.spreading},
		{"cost", "What it costs", w.cost},
		{"care", "Care through the year", w.care},
		{"cautions", "Cautions", w.cautions},
		{"basis", "Assumptions and sources", w.basis},
		{"acceptance", "Acceptance", w.acceptance},
	} {
		var b builder
		s.fill(&b)
		if len(b.blocks) > 0 {
			d.Sections = append(d.Sections, Section{s.id, s.title, b.blocks})
		}
	}
	return d
}

// zoneName is how a zone is spoken of.
func (w *writer) zoneName(zone int) string {
	if w.p.Site != nil && zone >= 0 && zone < len(w.p.Site.Zones) {
		z := w.p.Site.Zones[zone]
		return z.Letter + ", " + z.Name
	}
	return fmt.Sprintf("zone %d", zone+1)
}

func (w *writer) area() float64 {
	if w.p.Site != nil && w.p.Site.AreaM2 > 0 {
		return w.p.Site.AreaM2
	}
	return w.p.Brief.Site.Lawn.AreaM2
}

func (w *writer) areaUnit() string {
	if w.f.US() {
		return "square foot"
	}
	return "square metre"
}

// grass is the name of a grass at the head of a cell.
func (w *writer) grass(s *species.Species) string { return say.Capital(w.f.GrassName(s)) }

// grassByID is the name of a species that the plan mentions.
func (w *writer) grassByID(id string) string {
	for _, r := range w.p.Matrix.Rows {
		if r.Species != nil && r.Species.ID == id {
			return w.grass(r.Species)
		}
	}
	return say.Capital(strings.ReplaceAll(id, "-", " "))
}

func (w *writer) money(minor int64) money.Amount {
	curr := w.p.Cost.Currency
	if curr == "" {
		curr = w.p.Brief.Currency
	}
	return money.Amount{Minor: minor, Currency: curr}
}

func (w *writer) chance(share float64) string {
	if share <= 0 {
		return ""
	}
	return w.f.Chance(share)
}

func (w *writer) volume(m3 float64) string {
	if m3 <= 0 {
		return ""
	}
	return w.f.Volume(m3)
}

func (w *writer) count(n int) string {
	if n <= 0 {
		return ""
	}
	return w.f.Number(float64(n), 0)
}

// quantity is a figure with its unit, in the reader's units.
func (w *writer) quantity(q float64, unit string) string {
	if q <= 0 || unit == "" {
		return ""
	}
	n, u := w.f.Quantity(q, unit)
	return n + "\u00a0" + u
}

func (w *writer) cautions(b *builder) { b.list(w.p.Cautions) }

func (w *writer) basis(b *builder) {
	if len(w.p.Assumptions) > 0 {
		b.heading("Assumptions")
		b.list(w.p.Assumptions)
	}
	if len(w.p.Sources) > 0 {
		b.heading("Sources")
		b.list(w.p.Sources)
	}
}

func (w *writer) acceptance(b *builder) {
	p := w.p
	if len(p.Cost.Bills) == 0 && p.Choice.Mixture == nil {
		return
	}
	b.text(p.Cost.Validity)
	b.text(p.Cost.DepositNote)
	b.text(p.Cost.Terms)
	b.text("The plan is a forecast from averages and many synthetic years, not a promise of one year's weather. Local codes, rules on seed, feed and water, and licensed practice come before it")
	b.blocks = append(b.blocks, Signatures{[]string{"Accepted for the client", "For the maker of the plan"}})
}
