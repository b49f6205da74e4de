package content

import (
	"fmt"
	"slices"
	"swardwright/mix"
	"swardwright/mix/practice"

	"swardwright/internal/told"
	"swardwright/report/draw"
	"swardwright/sowing/order"
	"swardwright/species"
)

func criterion(id string) told.Figure { return told.Term{Kind: "criterion", Word: id} }

func (w *writer) place(b *builder) {
	p := w.p
	if p.Site == nil {
		return
	}
	b.text(w.weatherSource())
	b.facts(w.climate())
	if b.table(nil, w.zones()) {
		b.note(told.Say("plan.sun-and-light"))
	}
	b.figure("by-month", w.drawn(draw.Light), told.Say("plan.fig-light"), nil)
	if len(p.Site.Field.Cells) > 0 {
		b.figure("maps", w.drawn(draw.SunMap), told.Say("plan.fig-sun-map"), nil)
	}
	b.figure("noon", w.drawn(draw.Noon), told.Say("parts.fig-noon"), nil)
	probes := table{caption: told.Say("plan.probes"), columns: []head{keys(), left(told.Say("heads.point")), right(told.Say("heads.sun-a-day")), right(told.Say("heads.light")),
		right(told.Say("heads.most-sun")), right(told.Say("heads.least-sun"))}}
	for i, q := range p.Site.Field.Probes {
		least, most := slices.Min(q.Light.SunHours[:]), slices.Max(q.Light.SunHours[:])
		probes.row(key(i), told.Verbatim(q.Name), told.SunHours(q.Light.SunHoursSeason), told.DLI(q.Light.DLISeason), told.SunHours(most), told.SunHours(least))
	}
	b.table(probes.caption, probes)
	w.notes(b, p.Site.Field.Notes)
}

// zones are the parts of the lawn by their light.
func (w *writer) zones() table {
	p := w.p
	t := table{caption: told.Say("plan.zones"), columns: []head{left(told.Say("heads.zone")), right(told.Say("heads.area")), right(told.Say("heads.of-lawn")), right(told.Say("heads.sun-a-day")),
		right(told.Say("heads.light")), right(told.Say("heads.of-open")), left(told.Say("heads.holds-to"))}}
	for i, z := range p.Site.Field.Zones {
		t.row(w.zoneName(i), told.AreaM2(z.AreaM2), told.Share(z.Share), told.SunHours(z.Light.SunHoursSeason), told.DLI(z.Light.DLISeason), told.Share(z.Light.OpenShare), w.verdict(i))
	}
	return t
}

// weatherSource is whose weather the plan goes by.
func (w *writer) weatherSource() told.Figure {
	s := w.p.Site
	station := told.Verbatim(s.Station.Name)
	switch alt := w.p.Brief.Site.Place.AltitudeM; {
	case s.Station.Name == "" && s.Normals.Name == "":
		return nil
	case s.Station.Name == "":
		return told.Say("plan.weather-own", told.Verbatim(s.Normals.Name))
	case alt != nil && *alt != s.Station.AltitudeM:
		return told.Say("plan.weather-corrected", station, told.DistanceKM(s.DistanceKM))
	default:
		return told.Say("plan.weather", station, told.DistanceKM(s.DistanceKM))
	}
}

func (w *writer) climate() []fact {
	s := w.p.Site.Weather
	if s.GrowingDays <= 0 {
		return nil
	}
	span := func(from, to int) told.Figure { return told.Between(told.DayOfYear(from), told.DayOfYear(to)) }
	facts := []fact{{told.Say("plan.growing-season"), span(s.GrowingFrom, s.GrowingTo), told.Say("plan.in-mean-year", told.Days(s.GrowingDays+0.5))}}
	if s.LastFrost50 >= 0 && s.FirstFrost50 >= 0 {
		facts = append(facts, fact{told.Say("plan.frost-free"), span(s.LastFrost50, s.FirstFrost50), told.Say("plan.last-frost", told.DayOfYear(s.LastFrost10), told.Chance(0.9))})
	}
	return append(facts,
		fact{told.Say("plan.mean-year"), told.TemperatureC(s.MeanYearC), told.Say("plan.warmest-month", told.TemperatureC(s.WarmestMonthC))},
		fact{told.Say("plan.coldest-air"), told.TemperatureC(s.AirMinC), told.Say("plan.snow-and-cold", told.Days(s.SnowDays+0.5), told.TemperatureC(s.ColdestMonthC))},
		fact{told.Say("plan.rain"), told.WaterMM(s.RainYearMM), told.Say("plan.hardest-hour", told.WaterMM(s.DesignRainMMH), told.Years(2))})
}

// verdict is the standard that grass holds to in a zone.
func (w *writer) verdict(zone int) told.Figure {
	for _, v := range w.p.Choice.Zones {
		switch {
		case v.Zone != zone:
		case !v.Sown:
			return told.Say("plan.none")
		case v.Verdict == mix.Doubtful:
			return told.Say("plan.cover-doubtful", told.Share(v.Cover), told.Odds(v.Chance))
		default:
			return told.Say("plan.cover", told.Share(v.Cover))
		}
	}
	return nil
}

// leading is how many grasses of each zone have their limits told in words, and
// leadersShown how many are listed where no drawing shows them.
const leading, leadersShown = 5, 8

func (w *writer) grasses(b *builder) {
	p := w.p
	if len(p.Matrix.Rows) == 0 || p.Site == nil {
		return
	}
	b.text(told.Say("plan.matrix-means"))
	b.table(told.Say("plan.limits-of-leaders"), w.limits())
	for zone := range p.Site.Zones {
		w.matrix(b, zone)
	}
	b.list(w.sownThough())
	means := table{caption: told.Say("plan.criteria"), columns: []head{left(told.Say("heads.criterion")), left(told.Say("heads.what-it-asks"))}}
	for _, c := range p.Matrix.Criteria {
		means.row(criterion(c.ID), c.Means)
	}
	b.table(means.caption, means)
}

// limits are what limits the leading grasses of each zone, in figures.
func (w *writer) limits() table {
	p := w.p
	t := table{caption: told.Say("plan.limits-of-leaders"), columns: []head{left(told.Say("heads.grass")), left(told.Say("heads.zone")), left(told.Say("heads.limited-by")), left(told.Say("heads.here")),
		left(told.Say("heads.it-wants")), left(told.Say("heads.how-sure"))}}
	for zone, z := range p.Site.Zones {
		for _, r := range first(leading, p.Matrix.Zone(zone)) {
			if x, ok := r.Rating(r.LimitedBy); ok {
				t.row(told.Grass(r.Species.ID), told.Zone(z.Letter), criterion(r.LimitedBy), x.Figure, x.Limits, told.Term{Kind: "sure", Word: r.Sureness})
			}
		}
	}
	return t
}

// first are the first n of a list, or all of it.
func first[T any](n int, list []T) []T { return list[:min(n, len(list))] }

// matrix is the suitability of the grasses in one zone: drawn, the leading ones and
// every one that is sown; the others by name.
func (w *writer) matrix(b *builder, zone int) {
	p := w.p
	var caption told.Figure = told.Say("plan.whole-lawn")
	if len(p.Site.Zones) > 1 {
		caption = told.Say("plan.zone", w.zoneName(zone))
	}
	data := table{caption: caption, columns: []head{left(told.Say("heads.grass")), left(told.Say("heads.class")), right(told.Say("heads.rating")), left(told.Say("heads.limited-by")), left(told.Say("heads.how-sure"))}}
	drawn := map[*species.Species]bool{}
	for _, r := range draw.MatrixRows(p, zone) {
		drawn[r.Species] = true
	}
	sown := draw.Sown(p, zone)
	var rest []told.Figure
	for i, r := range p.Matrix.Zone(zone) {
		grass := told.Grass(r.Species.ID)
		if i < leadersShown || sown[r.Species.ID] {
			data.row(grass, told.Source(r.Class), told.Score(r.Overall), criterion(r.LimitedBy), told.Term{Kind: "sure", Word: r.Sureness})
		}
		if !drawn[r.Species] {
			rest = append(rest, told.Say("plan.grass-class", grass, told.Source(r.Class)))
		}
	}
	b.figure(fmt.Sprintf("matrix-%d", zone+1), func(width, _ float64) *draw.Drawing { return draw.Matrix(p, w.f, zone, width) }, caption, &data)
	if len(rest) > 0 {
		b.note(told.Say("plan.other-grasses", told.Joined(told.Commas, rest...)))
	}
}

// sownThough says why a grass is sown in a zone that it rates low in: one mixture goes
// over the whole lawn.
func (w *writer) sownThough() (out []told.Figure) {
	p := w.p
	if p.Choice.Mixture == nil || len(p.Sowings) > 1 {
		return nil
	}
	for _, c := range p.Choice.Mixture.Components {
		best := -1
		var low []told.Figure
		for zone, z := range p.Site.Zones {
			r, ok := p.Matrix.Row(c.Species.ID, zone)
			if !ok {
				continue
			}
			if r.Class == species.N1 || r.Class == species.N2 {
				low = append(low, told.Zone(z.Letter))
			}
			if b, ok := p.Matrix.Row(c.Species.ID, max(best, 0)); best < 0 || ok && r.Overall > b.Overall {
				best = zone
			}
		}
		if len(low) > 0 && len(low) < len(p.Site.Zones) {
			out = append(out, told.Say("parts.sown-though", told.Grass(c.Species.ID), told.All(low...), told.Zone(p.Site.Zones[best].Letter)))
		}
	}
	return out
}

func (w *writer) mixture(b *builder) {
	p := w.p
	m := p.Choice.Mixture
	if m == nil {
		return
	}
	t := table{caption: told.Say("plan.mixture-reasons"), columns: []head{keys(), left(told.Say("heads.grass")), right(told.Say("heads.by-weight")), right(told.Say("heads.by-seed")),
		right(told.Say("heads.amount")), left(told.Say("heads.there-for"))}}
	w.eachPart(&t, func(name told.Figure, c mix.Component, grams told.Figure) {
		t.row(name, told.Grass(c.Species.ID), told.Share(float64(c.Percent)/100), told.Share(c.SeedPercent/100), grams, c.Because)
	})
	b.table(nil, t)
	bars := told.Say("plan.fig-mixture")
	if len(p.Sowings) > 1 {
		bars = told.Say("plan.fig-mixtures")
	}
	b.figure("bars", w.drawn(draw.Mixture), bars, nil)
	b.text(told.Say("plan.expected-cover", told.Share(m.CoverExpected), told.Share(m.CoverBadYear), told.Share(m.EarlyCover), told.Weeks(mix.EarlyWeeks)))
	b.text(p.Rate.Because)
	if p.Second != nil {
		b.text(p.Second.Because)
	}
	if len(m.Sward) > 0 {
		b.heading(told.Say("plan.what-it-becomes"))
		data := w.seasons()
		b.table(nil, data)
	}
	if one := p.Common(); one != nil {
		b.text(told.Say("plan.of-one-mixture", grassesOf(one)))
	}
	leftOut := table{caption: told.Say("plan.left-out"), columns: []head{left(told.Say("heads.grass")), left(told.Say("heads.why-left-out"))}}
	for _, l := range p.Choice.LeftOut {
		leftOut.row(told.Grass(l.Species.ID), l.Because)
	}
	b.table(leftOut.caption, leftOut)
	b.heading(told.Say("practice.title"))
	b.list(Published(p.Choice))
	b.heading(told.Say("plan.other-mixtures"))
	b.list(w.besides())
	w.bags(b)
	if len(p.Choice.Cultivars) > 0 {
		b.heading(told.Say("plan.varieties"))
		b.list(sentences(p.Choice.Cultivars))
	}
}

// Published is what public bodies publish for lawns like this one, and where the plan
// departs from it.
func Published(c mix.Choice) []told.Figure {
	var out []told.Figure
	if c.Heard < practice.HardlyHeard {
		out = append(out, told.Say("practice.none"))
	}
	for _, n := range c.Nearest {
		said := []told.Sentence{told.Say("practice.nearest", told.Source(n.Institution+", "+n.Title), told.Verbatim(n.Place), n.Sows, n.Alike)}
		if len(n.Departs) == 0 {
			said = append(said, told.Say("practice.meets"))
		} else {
			said = append(said, told.Say("practice.departs", told.Joined(told.Commas, n.Departs...), n.Because))
		}
		out = append(out, told.Joined(told.Sentences, said...))
	}
	return out
}

// worthSaying is the cover of weeds or moss that is spoken of.
const worthSaying = 0.01

// seasons is what the sowing becomes, in figures.
func (w *writer) seasons() table {
	t := table{caption: told.Say("plan.what-it-becomes"), columns: []head{right(told.Say("heads.season")), right(told.Say("heads.cover")), left(told.Say("heads.made-of"))}}
	for _, s := range w.p.Choice.Mixture.Sward {
		ids := make([]string, 0, len(s.Shares))
		for id, share := range s.Shares {
			if share >= 0.5 {
				ids = append(ids, id)
			}
		}
		slices.SortFunc(ids, func(a, b string) int { return byShare(s.Shares, a, b) })
		var parts []told.Figure
		for _, id := range ids {
			parts = append(parts, told.Say("plan.made-of", told.Grass(id), told.Share(s.Shares[id]/100)))
		}
		if s.Weeds >= worthSaying {
			parts = append(parts, told.Say("plan.weeds-on", told.Share(s.Weeds)))
		}
		if s.Moss >= worthSaying {
			parts = append(parts, told.Say("plan.moss-on", told.Share(s.Moss)))
		}
		t.row(told.Ordinal(s.Year), told.Share(s.Cover), told.Joined(told.Commas, parts...))
	}
	return t
}

// besides says what else might be sown in place of the mixture: what is as good,
// and what the model would sow by itself.
func (w *writer) besides() []told.Figure {
	m := w.p.Choice.Mixture
	var out []told.Figure
	for _, tie := range m.NearTies {
		out = append(out, told.Say("plan.as-good", blend(tie), told.Odds(tie.Ahead)))
	}
	out = append(out, w.steady()...)
	if m.ModelAlone == nil {
		return append(out, told.Say("plan.model-agrees"))
	}
	return append(out, told.Say("plan.model-alone", blend(*m.ModelAlone)))
}

// steady says how firmly the grass that leads the mixture does so.
func (w *writer) steady() []told.Figure {
	m := w.p.Choice.Mixture
	leader := m.Leads().ID
	out := []told.Figure{told.Say("plan.leads-on", told.Grass(leader), told.Odds(m.LeadsOn))}
	if e := w.p.Elsewhere; e != nil {
		name, off := told.Verbatim(e.Station.Name), told.DistanceKM(e.DistanceKM)
		if e.Leads.ID == leader {
			return append(out, told.Say("plan.leads-elsewhere-too", name, off))
		}
		out = append(out, told.Say("plan.other-leads-elsewhere", name, off, told.Grass(e.Leads.ID)))
	}
	return out
}

// bags are the ready-mixed bags judged and the seed to buy.
func (w *writer) bags(b *builder) {
	p := w.p
	judged := table{caption: told.Say("plan.bags"), columns: []head{left(told.Say("heads.bag")), right(told.Say("heads.cover")), right(told.Say("heads.bad-year")), left(told.Say("heads.top-up")), left(told.Say("heads.verdict"))}}
	for _, j := range p.Choice.Premixes {
		var top []told.Figure
		for _, u := range j.TopUp {
			top = append(top, told.Say("plan.top-up", told.GramsPerKG(u.GramsPerKG), told.Grass(u.Species.ID)))
		}
		judged.row(told.Verbatim(j.Premix.Name), told.Share(j.Mixture.CoverExpected), told.Share(j.Mixture.CoverBadYear), told.Joined(told.Commas, top...), j.Verdict)
	}
	b.table(judged.caption, judged)
	order := table{caption: told.Say("plan.seed-to-buy"), columns: []head{left(told.Say("heads.lot")), right(told.Say("heads.bag")), right(told.Say("heads.bags")), right(told.Say("heads.price-a-bag")), right(told.Say("heads.together"))}}
	for _, x := range p.Order.Bags {
		order.row(w.lot(x), told.MassKG(x.KG), told.Count(x.Count), w.minor(x.PriceMinor), w.minor(x.PriceMinor*int64(x.Count)))
	}
	if len(order.rows) > 0 && p.Order.TotalMinor > 0 {
		order.total(told.Say("plan.seed-total"), nil, nil, nil, w.minor(p.Order.TotalMinor))
	}
	b.table(order.caption, order)
	w.notes(b, p.Order.Notes)
}

// lot is a bag by its grass, with the name of the lot where the brief gives one; a
// ready-mixed bag by its own name.
func (w *writer) lot(x order.Bag) told.Figure {
	switch {
	case x.SpeciesID == "":
		return told.Verbatim(x.Lot)
	case x.Lot == "" || x.Lot == listed:
		return told.Grass(x.SpeciesID)
	}
	return told.Say("parts.lot", told.Grass(x.SpeciesID), told.Verbatim(x.Lot))
}

// listed is what the core calls a lot that no one offers by name.
const listed = "price list"
