package text

import (
	"fmt"
	"io"
	"strings"

	"swardwright/internal/told"
	"swardwright/report/say"
	"swardwright/site"
	"swardwright/species"
)

// Matrix writes the suitability of every grass in every zone.
func Matrix(w io.Writer, title string, m species.Matrix, c *site.Conditions, f *say.Sayer, look Look) error {
	p := newPage(look)
	p.strongPara(strings.ToUpper(title))
	for zone := range c.Zones {
		matrixTable(p, f, m, c, zone, len(m.Rows))
	}
	p.line("")
	p.para("S1 highly suitable, S2 moderately, S3 marginally, N1 not as it is, N2 not at all (FAO Framework for Land Evaluation, 1976).")
	return p.to(w)
}

// matrixTable writes the leading grasses of one zone.
func matrixTable(p *page, f *say.Sayer, m species.Matrix, c *site.Conditions, zone, most int) {
	z := c.Zones[zone]
	p.line("")
	p.para(fmt.Sprintf("Zone %s, %s: %s", z.Letter, f.Say(z.Name), f.Percent(z.Share)))
	var rows [][]string
	for _, r := range m.Rows {
		if r.Zone == zone && len(rows) < most {
			rows = append(rows, []string{f.Figure(told.Grass(r.Species.ID)), string(r.Class), f.Number(r.Overall, 2), f.Figure(told.Term{Kind: "criterion", Word: r.LimitedBy}), r.Sureness})
		}
	}
	p.table([]column{{title: "grass"}, {title: "class"}, {title: "rating", right: true}, {title: "limited by"}, {title: "how sure", optional: true}}, rows)
}

// Why explains one species' rows, with figures, limits and sources.
func Why(w io.Writer, sp *species.Species, m species.Matrix, c *site.Conditions, f *say.Sayer, look Look) error {
	p := newPage(look)
	p.strongPara(strings.ToUpper(f.Figure(told.Grass(sp.ID))))
	p.para(sp.Botanical)
	for _, r := range m.Rows {
		if r.Species.ID != sp.ID {
			continue
		}
		z := c.Zones[r.Zone]
		p.heading(fmt.Sprintf("Zone %s, %s: %s, %s", z.Letter, f.Say(z.Name), r.Class, f.Number(r.Overall, 2)))
		var rows [][]string
		for _, x := range r.Ratings {
			name := f.Figure(told.Term{Kind: "criterion", Word: x.Criterion})
			if x.Criterion == r.LimitedBy {
				name += " *"
			}
			rows = append(rows, []string{name, f.Number(x.Value, 2), f.Say(told.Say("plan.here-and-grass", x.Figure, x.Limits))})
		}
		p.table([]column{{title: "criterion"}, {title: "rating", right: true}, {title: "what the place offers and what the grass is or needs"}}, rows)
		p.para("* what limits it")
	}
	p.heading("Sources")
	seen := map[string]bool{}
	for _, r := range m.Rows {
		if r.Species.ID != sp.ID {
			continue
		}
		for _, x := range r.Ratings {
			t := fmt.Sprintf("%s: %s (%s)", say.Capital(f.Figure(told.Term{Kind: "criterion", Word: x.Criterion})), x.Source, f.Figure(told.Term{Kind: "basis", Word: string(x.Basis)}))
			if x.Source != "" && !seen[t] {
				seen[t] = true
				p.item(t)
			}
		}
	}
	return p.to(w)
}
