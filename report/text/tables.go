package text

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"swardwright/internal/told"
	"swardwright/report/say"
	"swardwright/site/weather"
	"swardwright/sowing/money"
	"swardwright/species"
)

// figure writes a number of a table with as few digits as it needs.
func figure(x float64) string { return strconv.FormatFloat(x, 'g', 4, 64) }

// basisWords says how well a value is founded.
var basisWords = map[species.Basis]string{
	species.Read: "measured", species.Near: "measured for a near grass", species.Memory: "from memory of the publication",
	species.Practice: "common practice, no published source", species.Inferred: "concluded from the rest",
}

// warmSeason is what grasses of warm seasons are called, a group of the trade too.
const warmSeason = "warm-season"

// SpeciesList writes the grasses of the table.
func SpeciesList(w io.Writer, all []*species.Species, look Look) error {
	p := newPage(look)
	var rows [][]string
	for _, s := range all {
		note := s.Group
		switch {
		case s.Invader:
			note += "; comes in by itself, never sown"
		case s.Fodder:
			note += "; a hay grass, judged in bags"
		case s.Warm && s.Group != warmSeason:
			note += "; " + warmSeason
		}
		rows = append(rows, []string{s.ID, s.Botanical, note})
	}
	p.table([]column{{title: "id"}, {title: "botanical name"}, {title: "group", optional: true}}, rows)
	return p.to(w)
}

// Species writes one grass with its traits and their sources.
func Species(w io.Writer, s *species.Species, look Look) error {
	p := newPage(look)
	p.strongPara(s.Botanical)
	facts := [][]string{{"id", s.ID}, {"group", s.Group}}
	tags := make([]string, 0, len(s.Names))
	for tag := range s.Names {
		tags = append(tags, tag)
	}
	slices.Sort(tags)
	for _, tag := range tags {
		facts = append(facts, []string{tag, strings.Join(s.Names[tag], ", ")})
	}
	p.facts(facts)
	if s.MaxShare > 0 {
		p.para(fmt.Sprintf("At most %d %% of a mixture by weight.", s.MaxShare))
	}
	p.line("")
	var rows [][]string
	var sources []string
	for t, v := range s.Values {
		trait := species.Trait(t)
		n := slices.Index(sources, v.Source)
		if n < 0 {
			n, sources = len(sources), append(sources, v.Source)
		}
		rows = append(rows, []string{trait.Title(), figure(v.Low), figure(v.Best), figure(v.High), trait.Unit(), string(v.Basis), fmt.Sprintf("[%d]", n+1)})
	}
	p.table([]column{{title: "trait"}, {title: "low", right: true, optional: true}, {title: "best", right: true}, {title: "high", right: true, optional: true},
		{title: "unit"}, {title: "basis"}, {title: ""}}, rows)
	p.heading("Sources")
	for i, t := range sources {
		p.item(fmt.Sprintf("[%d] %s", i+1, t))
	}
	p.heading("Basis")
	for _, b := range []species.Basis{species.Read, species.Near, species.Memory, species.Practice, species.Inferred} {
		p.item(string(b) + ": " + basisWords[b])
	}
	return p.to(w)
}

// Stations writes stations, with a position (no NaN) how far each is from it.
func Stations(w io.Writer, all []weather.Station, lat, lon float64, look Look) error {
	p := newPage(look)
	near := !math.IsNaN(lat)
	off := func(s weather.Station) float64 { return weather.DistanceKM(lat, lon, s.LatitudeDeg, s.LongitudeDeg) }
	columns := []column{{title: "station"}, {title: "WMO"}, {title: "lat", right: true}, {title: "lon", right: true},
		{title: "m", right: true}, {title: "°C", right: true, optional: true}, {title: "rain mm", right: true, optional: true}}
	if near {
		columns = append(columns, column{title: "km", right: true})
	}
	var rows [][]string
	for _, s := range all {
		mean, rain := 0.0, 0.0
		for m := range 12 {
			mean += s.MeanC[m] / 12
			rain += s.RainMM[m]
		}
		row := []string{s.Name, s.WMO, fmt.Sprintf("%.2f", s.LatitudeDeg), fmt.Sprintf("%.2f", s.LongitudeDeg),
			fmt.Sprintf("%.0f", s.AltitudeM), fmt.Sprintf("%.1f", mean), fmt.Sprintf("%.0f", rain)}
		if near {
			row = append(row, fmt.Sprintf("%.0f", off(s)))
		}
		rows = append(rows, row)
	}
	p.table(columns, rows)
	p.line("")
	p.para("Means of the year. " + weather.Attribution + ".")
	return p.to(w)
}

// Prices writes a price list.
func Prices(w io.Writer, list money.Prices, look Look) error {
	s, err := say.New("", "", list.Currency, nil)
	if err != nil {
		return err
	}
	p := newPage(look)
	p.para(say.Capital(list.Note) + ".")
	for _, x := range list.Keys() {
		switch {
		case x.Overridden && x.Kind == money.TextKind:
			p.item("The brief sets " + x.Key)
		case x.Overridden:
			p.item(fmt.Sprintf("The brief sets %s to %s; the list has %s", x.Key, x.Figure(list.Currency), x.ListFigure(list.Currency)))
		}
	}
	for _, part := range []struct {
		kind  money.Kind
		title string
	}{
		{money.PriceKind, "Prices, " + list.Currency}, {money.OutputKind, "Done in an hour by one person"}, {money.TermKind, "Allowances and terms"},
	} {
		p.heading(part.title)
		var rows [][]string
		for _, x := range list.Keys() {
			if x.Kind == part.kind {
				rows = append(rows, []string{x.Key, x.Figure(list.Currency), x.Unit, x.Title, x.Source})
			}
		}
		p.table([]column{{title: "key"}, {title: "figure", right: true}, {title: "unit"}, {title: "of", optional: true}, {title: "source", optional: true}}, rows)
	}
	p.heading("Terms printed under the bill (" + money.TermsKey + ")")
	terms, _ := list.Get(money.TermsKey)
	p.para(cmp.Or(terms.Text, s.Say(told.Say("money.terms"))+"."))
	return p.to(w)
}
