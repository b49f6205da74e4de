package content

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"swardwright/report/draw"
	"swardwright/report/say"
	"swardwright/species"
)

func (w *writer) place(b *builder) {
	p, f := w.p, w.f
	if p.Site == nil {
		return
	}
	b.text(w.weatherSource())
	b.facts(w.climate())
	b.figure(draw.Lawn(p, f.Form, w.w), "The lawn, its zones of light and what stands around it")
	t := Table{Caption: "Zones of light", Columns: columns("Zone", ">Area", ">Sun, hours a day", ">Light, mol a m² and day", ">Of the open", "Grass holds to")}
	for i, z := range p.Site.Field.Zones {
		t.Rows = append(t.Rows, row(z.Letter+", "+z.Name, f.Area(z.AreaM2), f.Number(z.Light.SunHoursSeason, 1), f.Number(z.Light.DLISeason, 1), f.Percent(z.Light.OpenShare), w.verdict(i)))
	}
	if b.table("", t) {
		b.note("Sun is direct sun on a clear day, light is photosynthetic light under average cloud; both are means of the growing season")
	}
	b.figure(draw.SunMap(p, f.Form, w.w), "Light over the lawn in the growing season")
	b.figure(draw.Light(p, f.Form, w.w), "Light and sun by month")
	probes := Table{Caption: "Points of interest", Columns: columns("", "Point", ">Sun, hours a day", ">Light, mol a m² and day", ">Most sun", ">Least sun")}
	for i, pr := range p.Site.Field.Probes {
		least, most := slices.Min(pr.Light.SunHours[:]), slices.Max(pr.Light.SunHours[:])
		probes.Rows = append(probes.Rows, row(key(i), pr.Name, f.Number(pr.Light.SunHoursSeason, 1), f.Number(pr.Light.DLISeason, 1), f.Number(most, 1)+"\u00a0h", f.Number(least, 1)+"\u00a0h"))
	}
	b.table("Points of interest", probes)
	b.list(p.Site.Field.Notes)
}

func (w *writer) weatherSource() string {
	s := w.p.Site
	switch {
	case s.Station.Name != "":
		text := fmt.Sprintf("Weather from the normals of %s, %s away", s.Station.Name, w.f.Distance(s.DistanceKM))
		if alt := w.p.Brief.Site.Place.AltitudeM; alt != nil && *alt != s.Station.AltitudeM {
			text += ", corrected for height"
		}
		return text
	case s.Normals.Name != "":
		return "Weather from the normals of " + s.Normals.Name
	default:
		return ""
	}
}

func (w *writer) climate() []Fact {
	f, s := w.f, w.p.Site.Weather
	if s.GrowingDays <= 0 {
		return nil
	}
	days := func(x float64) string { return f.Count(int(math.Round(x)), "day", "days") }
	facts := []Fact{{"Growing season", f.Range(f.DayOfYear(s.GrowingFrom), f.DayOfYear(s.GrowingTo)), days(s.GrowingDays) + " in the mean year"}}
	if s.LastFrost50 >= 0 && s.FirstFrost50 >= 0 {
		facts = append(facts, Fact{"Frost-free", f.Range(f.DayOfYear(s.LastFrost50), f.DayOfYear(s.FirstFrost50)), "in the middle year; last frost by " + f.DayOfYear(s.LastFrost10) + " in 9 years of 10"})
	}
	return append(facts,
		Fact{"Coldest air", f.Temp(s.AirMinC), days(s.SnowDays) + " of snow; mean of the coldest month " + f.Temp(s.ColdestMonthC)},
		Fact{"Rain a year", f.Depth(s.RainYearMM), "hardest hour in two years " + f.Depth(s.DesignRainMMH)})
}

// verdict is the standard that grass holds to in a zone.
func (w *writer) verdict(zone int) string {
	for _, v := range w.p.Choice.Zones {
		switch {
		case v.Zone != zone:
		case !v.Holds:
			return "none"
		case v.Grade != "":
			return string(v.Grade) + ", " + w.f.Percent(v.Cover)
		default:
			return w.f.Percent(v.Cover) + " cover"
		}
	}
	return ""
}

// leading is how many grasses of each zone have their limits told in words.
const leading = 5

func (w *writer) grasses(b *builder) {
	p, f := w.p, w.f
	if len(p.Matrix.Rows) == 0 || p.Site == nil {
		return
	}
	b.text("Each grass is rated against the place, as the lawn will be kept, by every criterion; the weakest rating weighs most. Classes are those of the FAO Framework for Land Evaluation")
	why := Table{Caption: "What limits the leading grasses", Columns: columns("Grass", "Zone", "Limited by", "Here", "It wants", "How sure")}
	for zone := range p.Site.Zones {
		caption := "Zone " + w.zoneName(zone)
		if len(p.Site.Zones) == 1 {
			caption = "The whole lawn"
		}
		b.figure(draw.Matrix(p, f.Form, zone, w.w), caption)
		drawn := map[*species.Species]bool{}
		for _, r := range draw.MatrixRows(p, zone) {
			drawn[r.Species] = true
		}
		count := 0
		var rest []string
		for _, r := range p.Matrix.Rows {
			if r.Zone != zone {
				continue
			}
			count++
			if !drawn[r.Species] {
				rest = append(rest, f.GrassName(r.Species)+"\u00a0"+string(r.Class))
			}
			for _, x := range r.Ratings {
				if count <= leading && x.Criterion == r.LimitedBy {
					why.Rows = append(why.Rows, row(w.grass(r.Species), p.Site.Zones[zone].Letter, species.TitleOf(x.Criterion), x.Figure, x.Limits, r.Sureness))
				}
			}
		}
		if len(rest) > 0 {
			b.note("The other grasses: " + strings.Join(rest, ", "))
		}
	}
	b.table("What limits the leading grasses", why)
	means := Table{Caption: "The criteria", Columns: columns("Criterion", "What it asks")}
	for _, c := range p.Matrix.Criteria {
		if c.Means != "" {
			means.Rows = append(means.Rows, row(c.Title, sentence(c.Means)))
		}
	}
	b.table("The criteria", means)
}

func (w *writer) mixture(b *builder) {
	p, f := w.p, w.f
	m := p.Choice.Mixture
	if m == nil {
		return
	}
	t := Table{Caption: "The mixture and its reasons", Columns: columns("", "Grass", ">Weight", ">Seeds", ">Amount", "What it is there for")}
	for i, c := range m.Components {
		t.Rows = append(t.Rows, row(key(i), w.grass(c.Species), f.Percent(float64(c.Percent)/100), f.Percent(c.SeedPercent/100), w.seedMass(c.Species.ID), sentence(c.Because)))
	}
	b.table("", t)
	b.figure(draw.Mixture(p, f.Form, w.w), "The mixture by weight, and by the number of its seeds")
	b.text(p.Rate.Because)
	if p.Rate.Low > 0 && p.Rate.High > 0 {
		b.note(fmt.Sprintf("Published weight rates for such a mixture run from %s to %s. Viable seeds sown: %s", f.RateGM2(p.Rate.Low), f.RateGM2(p.Rate.High), f.PerArea(p.Rate.SeedsPerM2)))
	}
	if fig := draw.Sward(p, f.Form, w.w); fig != nil {
		b.heading("What the sowing becomes")
		b.figure(fig, "Living cover at the end of each growing season, mean of many synthetic years, by grass; the rest is bare, or goes to broad-leaved weeds where nobody pulls them")
	}
	left := Table{Caption: "Leading grasses left out", Columns: columns("Grass", "Why it was left out")}
	for _, l := range p.Choice.LeftOut {
		left.Rows = append(left.Rows, row(w.grass(l.Species), sentence(l.Because)))
	}
	b.table("Left out", left)
	b.heading("Other mixtures")
	b.list(f.Besides(m))
	bags := Table{Caption: "Ready-mixed bags judged", Columns: columns("Bag", ">Cover", ">Bad years", "Top-up", "Verdict")}
	for _, j := range p.Choice.Premixes {
		var top []string
		for _, u := range j.TopUp {
			top = append(top, f.TopUp(u))
		}
		bags.Rows = append(bags.Rows, row(j.Premix.Name, f.Percent(j.Mixture.CoverExpected), f.Percent(j.Mixture.CoverBadYear), strings.Join(top, ", "), sentence(j.Verdict)))
	}
	b.table("Ready-mixed bags", bags)
	order := Table{Caption: "Seed to buy", Columns: columns("Lot", ">Bag", ">Bags", ">Price a bag", ">Together")}
	for _, x := range p.Order.Bags {
		order.Rows = append(order.Rows, row(say.Capital(x.Lot), f.Mass(x.KG*1000), f.Number(float64(x.Count), 0), f.Money(w.money(x.PriceMinor)), f.Money(w.money(x.PriceMinor*int64(x.Count)))))
	}
	if len(order.Rows) > 0 && p.Order.TotalMinor > 0 {
		order.Rows = append(order.Rows, total("Seed, before margin and tax", "", "", "", f.Money(w.money(p.Order.TotalMinor))))
	}
	b.table("Seed to buy", order)
	b.list(p.Order.Notes)
	if len(p.Choice.Cultivars) > 0 {
		b.heading("Choosing varieties")
		b.list(p.Choice.Cultivars)
	}
}
