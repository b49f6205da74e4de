package content

import (
	"fmt"
	"strings"

	"swardwright/report/draw"
	"swardwright/report/say"
	"swardwright/species"
)

// answer is page one: what, how much, when, at what cost, to what standard, and
// what limits it.
func (w *writer) answer(b *builder) {
	p, f := w.p, w.f
	if who := w.details(); len(who) > 0 {
		b.blocks = append(b.blocks, Details{who})
	}
	if p.Headline != "" {
		b.blocks = append(b.blocks, Lead{sentence(p.Headline)})
	}
	b.facts(w.keyFigures())
	switch {
	case p.Choice.Mixture == nil && len(p.Choice.Zones) > 0:
		b.notice("What to do there instead", w.instead()...)
	case p.Choice.Because != "":
		title := "What limits it"
		if p.Choice.Asked != "" && p.Choice.Asked == p.Choice.Attainable {
			title = "The standard it will hold"
		}
		items := []string{p.Choice.Because}
		for i, l := range p.Choice.Lifts {
			if i < 2 {
				items = append(items, w.lift(l.Change, string(l.Grade), l.Cover))
			}
		}
		b.notice(title, items...)
	}
	if m := p.Choice.Mixture; m != nil && len(m.Components) > 0 {
		b.heading("What to sow")
		t := Table{Caption: "The mixture", Columns: columns("", "Grass", "Botanical name", ">By weight", ">By seed", ">Amount")}
		for i, c := range m.Components {
			t.Rows = append(t.Rows, row(key(i), say.Capital(f.GrassName(c.Species)), c.Species.Botanical, f.Percent(float64(c.Percent)/100), f.Percent(c.SeedPercent/100), w.seedMass(c.Species.ID)))
		}
		if len(m.Components) > 1 && p.Rate.TotalG > 0 {
			t.Rows = append(t.Rows, total("", "Together, "+f.RateGM2(p.Rate.GM2), "", "", "", f.Mass(p.Rate.TotalG)))
		}
		b.table("", t)
		b.figure(draw.Mixture(p, f.Form, w.w), "")
	}
	if len(p.Cost.Bills) > 0 {
		b.table("What it costs", w.ways())
		b.text(p.Cost.Advice)
	}
}

// details are who the plan is for and by, and which lawn it is of.
func (w *writer) details() [][2]string {
	p, f := w.p, w.f
	var who [][2]string
	add := func(label, value string) {
		if value != "" {
			who = append(who, [2]string{label, value})
		}
	}
	add("For", p.Brief.Client)
	add("By", p.Brief.PreparedBy)
	add("Reference", p.Brief.Reference)
	if !p.Date.IsZero() {
		add("Date", f.Date(p.Date))
	}
	add("Place", w.whereabouts())
	if a := w.area(); a > 0 {
		lawn := f.Area(a)
		if p.Site != nil && len(p.Site.Field.Zones) > 1 {
			lawn += " in " + f.Count(len(p.Site.Field.Zones), "zone", "zones") + " of light"
		}
		add("Lawn", lawn)
	}
	return who
}

// whereabouts is the place in words: coordinates and height.
func (w *writer) whereabouts() string {
	if w.p.Site == nil {
		return ""
	}
	place := w.p.Brief.Site.Place
	parts := []string{degrees(w.f, place.LatitudeDeg, "N", "S")}
	if place.LongitudeDeg != nil {
		parts = append(parts, degrees(w.f, *place.LongitudeDeg, "E", "W"))
	}
	if place.AltitudeM != nil {
		parts = append(parts, w.f.Length(*place.AltitudeM)+" above the sea")
	}
	return strings.Join(parts, ", ")
}

func degrees(f *say.Sayer, x float64, positive, negative string) string {
	if x < 0 {
		x, positive = -x, negative
	}
	return f.Figures(x, 4) + "°\u00a0" + positive
}

func (w *writer) lift(change, grade string, cover float64) string {
	s := "To get more: " + change
	switch {
	case grade != "" && cover > 0:
		s += fmt.Sprintf("; then %s grade, %s cover", grade, w.f.Percent(cover))
	case cover > 0:
		s += "; then " + w.f.Percent(cover) + " cover"
	}
	return s
}

func (w *writer) seedMass(id string) string {
	for _, c := range w.p.Rate.Components {
		if c.SpeciesID == id {
			return w.f.Mass(c.TotalG)
		}
	}
	return ""
}

// keyFigures are the figures a client looks for first.
func (w *writer) keyFigures() []Fact {
	p, f := w.p, w.f
	if p.Choice.Mixture == nil {
		return nil
	}
	var facts []Fact
	if p.Rate.TotalG > 0 {
		facts = append(facts, Fact{"Seed", f.Mass(p.Rate.TotalG), f.RateGM2(p.Rate.GM2)})
	}
	if d := p.Dates; !d.SowOn.IsZero() {
		note := ""
		if d.Chosen >= 0 && d.Chosen < len(d.Windows) {
			c := d.Windows[d.Chosen]
			note = f.Dates(c.Opens, c.Closes) + "; succeeds " + f.Chance(c.BestSuccess)
		} else {
			note = "no window meets the dates given"
		}
		facts = append(facts, Fact{"Sow about", f.DateShort(d.SowOn), note})
	}
	if p.Dates.UsableFrom != nil {
		note := ""
		if p.Dates.FirstMow != nil {
			note = "first cut about " + f.DayMonth(*p.Dates.FirstMow)
		}
		facts = append(facts, Fact{"Bears use from", f.DateShort(*p.Dates.UsableFrom), note})
	}
	if c := p.Choice; c.Attainable != "" {
		note := f.Percent(c.Mixture.CoverExpected) + " cover, " + f.Percent(c.Mixture.CoverBadYear) + " in bad years"
		if c.Asked != "" && c.Asked != c.Attainable {
			note += "; asked for: " + string(c.Asked)
		}
		facts = append(facts, Fact{"Expect", say.Capital(string(c.Attainable)), note})
	}
	return facts
}

// ways is the bills side by side, one row each.
func (w *writer) ways() Table {
	t := Table{Caption: "The ways compared", Columns: columns("Way", ">Total", ">8 times in 10", ">Each "+w.areaUnit(), "Bears use from", ">Succeeds first time")}
	for _, b := range w.p.Cost.Bills {
		t.Rows = append(t.Rows, row(say.Capital(string(b.Way)), w.f.Money(b.Total), w.f.Range(w.f.MoneyRound(b.P10), w.f.MoneyRound(b.P90)),
			w.f.MoneyPerArea(b.Total, b.AreaM2), w.f.DateShort(b.UsableFrom), w.chance(b.Success)))
	}
	return t
}

// instead is what to do in each zone where no grass holds.
func (w *writer) instead() []string {
	var out []string
	for _, z := range w.p.Choice.Zones {
		if z.Holds {
			continue
		}
		s := say.Capital(w.zoneName(z.Zone))
		if z.LimitedBy != "" {
			s += " (limited by " + species.Limit(z.LimitedBy) + ")"
		}
		if len(z.Instead) > 0 {
			s += ": " + strings.Join(z.Instead, "; ")
		}
		out = append(out, s)
	}
	return out
}
