package text

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"swardwright/internal/told"
	"swardwright/report/say"
	"swardwright/sowing"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
	"swardwright/sowing/order"
)

// Lawn is one lawn of several, planned or failed.
type Lawn struct {
	Name  string // of its brief
	Fault string // what is wrong with it; empty: planned

	Title    string
	Advice   sowing.Advice
	Grade    string // attainable
	AreaM2   float64
	SeedG    float64
	Totals   map[job.Way]money.Amount
	Units    string
	Language string
}

// LawnOf keeps of a plan what a list of lawns shows.
func LawnOf(name string, p sowing.Plan) Lawn {
	l := Lawn{
		Name: name, Title: p.Brief.Title, Advice: p.Advice, Grade: string(p.Choice.Attainable),
		SeedG: p.Rate.TotalG, Totals: map[job.Way]money.Amount{},
		Units: p.Brief.Units, Language: p.Brief.Language,
	}
	if p.Site != nil {
		l.AreaM2 = p.Site.AreaM2
	}
	for _, b := range p.Cost.Bills {
		l.Totals[b.Way] = b.Total
	}
	if p.Kind == job.BySeedApart { // of the seed that is shown beside it
		l.Totals[job.BySeed] = p.Bill.Total
	}
	return l
}

// Bulk is one seed order over several lawns.
type Bulk struct {
	Currency        string
	Units, Language string // that it is shown in
	Order           order.Order
}

// Lawns writes a list of lawns and the seed to order for all of them.
func Lawns(w io.Writer, lawns []Lawn, bulk []Bulk, look Look) error {
	p := newPage(look)
	p.heading("Lawns")
	var rows [][]string
	planned := 0
	for _, l := range lawns {
		if l.Fault != "" {
			rows = append(rows, []string{l.Name, l.Fault, "", "", "", ""})
			continue
		}
		planned++
		f, err := say.New(l.Language, l.Units, "", nil)
		if err != nil {
			return err
		}
		total := func(way job.Way) string {
			if a, ok := l.Totals[way]; ok {
				return f.MoneyRound(a)
			}
			return ""
		}
		seed := ""
		if l.SeedG > 0 {
			seed = f.Figure(told.MassG(l.SeedG))
		}
		advice := string(l.Advice)
		if l.Grade != "" {
			advice += ", " + l.Grade
		}
		rows = append(rows, []string{l.Title, advice, f.Figure(told.AreaM2(l.AreaM2)), seed, total(job.BySeed), total(job.ByTurf)})
	}
	p.table([]column{{title: "lawn"}, {title: "advice"}, {title: "area", right: true, optional: true}, {title: "seed", right: true},
		{title: "by seed", right: true}, {title: "by turf", right: true, optional: true}}, rows)
	p.line("")
	p.para(fmt.Sprintf("%d of %d planned.", planned, len(lawns)))

	for _, b := range bulk {
		if err := p.bulk(b); err != nil {
			return err
		}
	}
	return p.to(w)
}

// bulk writes one seed order over several lawns.
func (p *page) bulk(b Bulk) error {
	if len(b.Order.Bags) == 0 {
		return nil
	}
	f, err := say.New(b.Language, b.Units, b.Currency, nil)
	if err != nil {
		return err
	}
	p.heading("Seed to order for all, " + b.Currency)
	var rows [][]string
	for _, bag := range b.Order.Bags {
		price := money.Amount{Minor: bag.PriceMinor * int64(bag.Count), Currency: b.Currency}
		rows = append(rows, []string{fmt.Sprintf("%d × %s", bag.Count, f.Figure(told.MassG(bag.KG*1000))), bag.Lot, strings.ReplaceAll(bag.SpeciesID, "-", " "), f.Sum(price)})
	}
	rows = append(rows, []string{"", "together", "", f.Sum(money.Amount{Minor: b.Order.TotalMinor, Currency: b.Currency})})
	p.table([]column{{title: "bags", right: true}, {title: "lot"}, {title: "grass", optional: true}, {title: b.Currency, right: true}}, rows)
	for _, id := range slices.Sorted(maps.Keys(b.Order.Short)) {
		p.item(fmt.Sprintf("Nobody has enough of %s: %s short", strings.ReplaceAll(id, "-", " "), f.Figure(told.MassG(b.Order.Short[id]))))
	}
	return nil
}
