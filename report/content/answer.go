package content

import (
	"math"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/sowing/job"
	"swardwright/sowing/rate"
)

// details are who the plan is for and by, and which lawn it is of.
func (w *writer) details(b *builder) {
	p := w.p
	var who [][2]string
	add := func(label, value told.Figure) {
		if s := b.words(value); s != "" {
			who = append(who, [2]string{b.words(label), s})
		}
	}
	add(told.Say("plan.for"), verbatim(p.Brief.Client))
	add(told.Say("plan.by"), verbatim(p.Brief.PreparedBy))
	add(told.Say("plan.reference"), verbatim(p.Brief.Reference))
	add(told.Say("plan.date"), date(p.Brief.Date))
	add(told.Say("plan.where"), w.whereabouts())
	if a := w.area(); a > 0 {
		var lawn told.Figure = told.AreaM2(a)
		if p.Site != nil && len(p.Site.Field.Zones) > 1 {
			lawn = told.Say("plan.lawn-in-zones", lawn, told.Counted{N: len(p.Site.Field.Zones), Of: "zones-of-light"})
		}
		add(told.Say("plan.lawn"), lawn)
	}
	if len(who) > 0 {
		b.add(Details{who})
	}
}

// whereabouts is the place in words: coordinates and height.
func (w *writer) whereabouts() told.Figure {
	if w.p.Site == nil {
		return nil
	}
	place := w.p.Brief.Site.Place
	degrees := func(x float64) told.Figure { return told.Coordinate(math.Abs(x)) }
	var parts []told.Figure
	if place.LatitudeDeg < 0 {
		parts = append(parts, told.Say("plan.south", degrees(place.LatitudeDeg)))
	} else {
		parts = append(parts, told.Say("plan.north", degrees(place.LatitudeDeg)))
	}
	switch lon := place.LongitudeDeg; {
	case lon == nil:
	case *lon < 0:
		parts = append(parts, told.Say("plan.west", degrees(*lon)))
	default:
		parts = append(parts, told.Say("plan.east", degrees(*lon)))
	}
	if place.AltitudeM != nil {
		parts = append(parts, told.Say("plan.above-sea", told.LengthM(*place.AltitudeM)))
	}
	return told.Joined(told.Commas, parts...)
}

// components is the mixture with its amounts.
func (w *writer) components() table {
	p := w.p
	t := table{caption: told.Say("plan.mixture"), columns: []head{keys(), left(told.Say("heads.grass")), left(told.Say("heads.botanical-name")),
		right(told.Say("heads.by-weight")), right(told.Say("heads.by-seed")), right(told.Say("heads.amount"))}}
	w.eachPart(&t, func(name told.Figure, c mix.Component, grams told.Figure) {
		t.row(name, told.Grass(c.Species.ID), told.Source(c.Species.Botanical), told.Share(float64(c.Percent)/100), told.Share(c.SeedPercent/100), grams)
	})
	if len(t.rows) > 1 && p.Rate.TotalG > 0 {
		t.total(nil, told.Say("plan.together-at", told.GramsPerM2(p.Rate.GM2)), nil, nil, nil, told.MassG(p.Rate.TotalG))
	}
	return t
}

// eachPart calls a function with every grass of what is sown, its key and its amount; where
// two mixtures are sown, those of each under its name. Of turf they have no amount.
func (w *writer) eachPart(t *table, row func(key told.Figure, c mix.Component, grams told.Figure)) {
	sowings := w.p.Sowings
	if len(sowings) < 2 {
		for i, c := range w.p.Choice.Mixture.Components {
			row(key(i), c, seedMass(w.p.Rate, c.Species.ID))
		}
		return
	}
	keys := map[string]told.Figure{}
	for i, c := range w.p.Choice.Mixture.Components {
		keys[c.Species.ID] = key(i)
	}
	for n, s := range sowings {
		t.group(w.mixtureName(n))
		for _, c := range s.Mixture.Components {
			row(keys[c.Species.ID], c, seedMass(s.Rate, c.Species.ID))
		}
	}
}

// mixtureName is the n-th of two mixtures with its zones and rate.
func (w *writer) mixtureName(n int) told.Sentence {
	s := w.p.Sowings[n]
	zones, rate := job.Named(s.Zones), told.GramsPerM2(s.Rate.GM2)
	if n == 0 {
		return told.Say("plan.first-mixture", zones, rate)
	}
	return told.Say("plan.second-mixture", zones, rate)
}

// key is the letter of the n-th component or point, as in the drawings.
func key(n int) told.Figure { return told.Zone(rune('a' + n%26)) }

func seedMass(r rate.Rate, id string) told.Figure {
	for _, c := range r.Components {
		if c.SpeciesID == id {
			return told.MassG(c.TotalG)
		}
	}
	return nil
}

// lifts are the first few changes that would let the place hold more.
func (w *writer) lifts(most int) []told.Figure {
	var out []told.Figure
	for _, l := range w.p.Lifts[:min(most, len(w.p.Lifts))] {
		gain := told.Say("lift.gain", l.Change, told.Points(l.Gain.Middle), lawnOf(l.Grade), told.Odds(l.Chance))
		if math.Round(100*l.Gain.Middle) == 0 {
			gain = told.Say("lift.surer", l.Change, lawnOf(l.Grade), told.Odds(l.Chance))
		}
		switch {
		case l.Cost != nil && l.Yearly:
			gain = told.Say("lift.a-year", gain, told.MoneyRound{Minor: l.Cost.Minor, Currency: l.Cost.Currency})
		case l.Cost != nil:
			gain = told.Say("lift.priced", gain, told.MoneyRound{Minor: l.Cost.Minor, Currency: l.Cost.Currency})
		case l.AskPrice:
			gain = told.Say("lift.ask", gain)
		}
		out = append(out, gain)
	}
	return out
}

// ways is the bills side by side, one row each.
func (w *writer) ways() table {
	t := table{caption: told.Say("plan.ways"), columns: []head{left(told.Say("heads.way")), right(told.Say("heads.total")), right(told.Say("heads.in-eight-of-ten", told.Count(8), told.Count(10))),
		right(told.Say("heads.each-area")), left(told.Say("heads.bears-use-from")), right(told.Say("heads.succeeds-first"))}}
	for _, b := range w.p.Cost.Bills {
		t.row(way(b.Way), told.Money(b.Total), told.Between(told.MoneyRound(b.P10), told.MoneyRound(b.P90)),
			told.MoneyPerArea{Money: told.Money(b.Total), AreaM2: b.AreaM2}, dateOrNever(b.UsableFrom), chance(b.Success))
	}
	return t
}

// instead is what to do in each zone where no grass holds.
func (w *writer) instead() []told.Figure {
	var out []told.Figure
	for _, z := range w.p.Choice.Zones {
		if !z.Sown {
			out = append(out, told.Say("plan.instead-in-zone", w.zoneName(z.Zone), criterion(z.LimitedBy), told.Joined(told.Clauses, z.Instead...)))
		}
	}
	return out
}

// blend is another mixture with what comes of it.
func blend(m mix.Blend) told.Figure {
	var parts []told.Figure
	for _, p := range m.Parts {
		parts = append(parts, told.Say("plan.part", told.Share(p.Percent/100), told.Grass(p.Species.ID)))
	}
	return told.Say("plan.blend", told.Joined(told.Commas, parts...), told.Share(m.CoverExpected), told.Share(m.CoverBadYear))
}
