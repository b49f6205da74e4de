// Sources writes docs/sources.md: every trait, criterion, rule of practice and
// output rate of the tables, and every number of the models, with its source.
//
//	go run ./internal/gen/sources > docs/sources.md
package main

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"strings"

	"swardwright/data"
	"swardwright/internal/told"
	"swardwright/mix/practice"
	"swardwright/report/say"
	"swardwright/site/weather"
	"swardwright/sowing/money"
	"swardwright/species"
)

func main() {
	w := bufio.NewWriter(os.Stdout)
	err := write(w)
	if err == nil {
		err = w.Flush()
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "sources:", err)
		os.Exit(1)
	}
}

// write writes the whole page.
func write(w io.Writer) error {
	table, err := species.Load(data.FS)
	if err != nil {
		return err
	}
	list, err := money.LoadList(data.FS, table)
	if err != nil {
		return err
	}
	prices, err := list.In("EUR", nil)
	if err != nil {
		return err
	}
	english, err := say.New("", "", "", table.ByID)
	if err != nil {
		return err
	}
	p := page{w: w}
	p.line("# Sources")
	p.line("")
	p.line("Written from the tables by `go run ./internal/gen/sources`; do not edit. What a value rests on: *read*, measured for")
	p.line("this grass and seen in the text; *near*, read for a near taxon, a class or a rank; *memory*, recalled from the named")
	p.line("publication; *practice*, common practice, no published source; *inferred*, concluded from the rest.")

	p.line("")
	p.line("## Weather")
	p.line("")
	p.line(weather.Attribution + ".")

	p.heading("Criteria of suitability", "criterion", "what it rates", "method")
	for i := range species.Criteria {
		c := &species.Criteria[i]
		p.row(say.Capital(english.Figure(told.Term{Kind: "criterion", Word: c.ID})), english.Say(c.Means), c.Source)
	}

	p.heading("Published practice", "grasses", "% by weight", "on", "not on", "source")
	for _, r := range practice.Rules {
		p.row(strings.Join(r.Of, ", "), fmt.Sprintf("%g-%g", r.Low, r.High), kinds(r.On), kinds(r.Off), r.Source)
	}

	p.heading("Output rates and prices", "figure", "least", "usual", "most", "unit", "source")
	for _, x := range prices.Keys() {
		if x.Kind != money.TextKind {
			p.row(x.Title, x.Low.String(), x.Best.String(), x.High.String(), x.Unit, x.Source)
		}
	}

	for _, s := range table.All() {
		p.heading(s.Common("en-GB")+" (*"+s.Botanical+"*)", "trait", "low", "best", "high", "unit", "rests on", "source")
		for t := range species.TraitCount {
			v := s.Values[t]
			p.row(species.Trait(t).Title(), fmt.Sprint(v.Low), fmt.Sprint(v.Best), fmt.Sprint(v.High), species.Trait(t).Unit(), string(v.Basis), v.Source)
		}
	}
	return p.err
}

// page writes Markdown and keeps the first error.
type page struct {
	w   io.Writer
	err error
}

func (p *page) line(s string) {
	if p.err == nil {
		_, p.err = fmt.Fprintln(p.w, s)
	}
}

// heading opens a section with one table.
func (p *page) heading(title string, columns ...string) {
	p.line("")
	p.line("## " + title)
	p.line("")
	p.row(columns...)
	p.line("|" + strings.Repeat(" --- |", len(columns)))
}

func (p *page) row(cells ...string) {
	for i, c := range cells {
		cells[i] = strings.ReplaceAll(c, "|", `\|`)
	}
	p.line("| " + strings.Join(cells, " | ") + " |")
}

func kinds(list []practice.Kind) string {
	out := make([]string, len(list))
	for i, k := range list {
		out[i] = string(k)
	}
	return strings.Join(out, ", ")
}
