package content

import (
	"fmt"
	"strings"
	"time"

	"swardwright/report/draw"
	"swardwright/report/say"
	"swardwright/sowing/dates"
	"swardwright/sowing/money"
	"swardwright/sowing/year"
)

func (w *writer) days(s *dates.Span) string {
	if s == nil {
		return ""
	}
	return w.f.Span(s.P10, s.P90, 0) + "\u00a0days"
}

func (w *writer) dates(b *builder) {
	p, f := w.p, w.f
	d := p.Dates
	if d.SowOn.IsZero() && len(d.Windows) == 0 {
		b.list(d.Notes)
		return
	}
	b.figure(draw.Dates(p, f.Form, w.w), "The first year: windows, emergence, first cut and work, over the growth of the months")
	t := Table{Caption: "Sowing windows", Columns: columns("Window", "Opens to closes", "Best", ">Succeeds", ">Up after", ">First cut after", ">Water till established")}
	var because []string
	for i, x := range d.Windows {
		name := say.Capital(string(x.Kind))
		if i == d.Chosen {
			name += " (chosen)"
		} else if !x.Allowed {
			name += " (outside the dates given)"
		}
		water := ""
		if i == d.Chosen && d.WaterMM != nil {
			water = f.Range(f.Depth(d.WaterMM.P10), f.Depth(d.WaterMM.P90))
		}
		t.Rows = append(t.Rows, row(name, f.Dates(x.Opens, x.Closes), f.DayMonth(x.Best), w.chance(x.Success), w.days(x.EmergenceDays), w.days(x.FirstMowDays), water))
		if reasons := nonEmpty(x.OpensBecause, x.ClosesBecause); len(reasons) > 0 {
			because = append(because, say.Capital(string(x.Kind))+": "+strings.Join(reasons, "; "))
		}
	}
	if b.table("", t) {
		s := "Ranges hold 8 years in 10"
		if d.Threshold > 0 {
			s += "; a window is a run of days on which sowing succeeds in at least " + f.Percent(d.Threshold) + " of the years"
		}
		b.note(s)
	}
	b.list(because)
	parts := Table{Caption: "Each grass, sown on " + f.DayMonth(d.SowOn), Columns: columns("Grass", ">Up after", ">First cut after", ">Succeeds")}
	for _, c := range d.Components {
		parts.Rows = append(parts.Rows, row(w.grassByID(c.SpeciesID), w.days(c.EmergenceDays), w.days(c.FirstMowDays), w.chance(c.Success)))
	}
	b.table(parts.Caption, parts)
	water := Table{Caption: "Watering after sowing", Columns: columns("Week", ">Mean year", ">Dry year in ten", ">Whole lawn, dry year")}
	for _, x := range d.Watering {
		water.Rows = append(water.Rows, row("Week "+f.Number(float64(x.Number), 0), f.Depth(x.MeanMM), f.Depth(x.DryMM), f.Litres(x.DryMM*w.area())))
	}
	b.table(water.Caption, water)
	turf := Table{Caption: "Days to lay turf", Columns: columns("Window", "Opens to closes", "Best", ">Succeeds")}
	for _, x := range d.TurfWindows {
		turf.Rows = append(turf.Rows, row(say.Capital(string(x.Kind)), f.Dates(x.Opens, x.Closes), f.DayMonth(x.Best), w.chance(x.Success)))
	}
	b.table("Turf instead", turf)
	if d.NeededBy != nil {
		b.text(fmt.Sprintf("Needed by %s: sown on %s it bears use by then %s", f.Date(*d.NeededBy), f.DayMonth(d.SowOn), f.Chance(d.NeededByChance)))
	}
	b.list(d.Notes)
}

func (w *writer) ground(b *builder) {
	p, f := w.p, w.f
	if p.Site == nil {
		return
	}
	b.text(w.found())
	b.figure(draw.Section(p, f.Form, w.w), "The ground as found and as wanted, to one scale of depth")
	bed := p.Bed
	steps := Table{Caption: "The work on the ground", Columns: columns("When", "Work", "How", ">Quantity")}
	for _, s := range bed.Steps {
		when := ""
		if !p.Dates.SowOn.IsZero() {
			when = f.DayMonth(p.Dates.SowOn.AddDate(0, 0, -s.DaysBefore))
		}
		how := sentence(s.Detail)
		if s.Caution != "" {
			how = strings.TrimSpace(how + " Caution: " + sentence(s.Caution))
		}
		steps.Rows = append(steps.Rows, row(when, s.Title, how, w.quantity(s.Quantity, s.Unit)))
	}
	b.table("The work, in order", steps)
	mats := Table{Caption: "Materials", Columns: columns("Material", "For", ">Settled", ">Loose", ">Weight", ">Barrows", ">Loads")}
	for _, m := range bed.Materials {
		weight, loads := w.quantity(m.Quantity, m.Unit), ""
		switch {
		case m.Tonnes > 0:
			weight = f.Tonnes(m.Tonnes)
		case m.KG > 0:
			weight = f.Mass(m.KG * 1000)
		case m.LooseM3 > 0:
			weight = ""
		}
		switch {
		case m.LorryLoads > 0:
			loads = f.Count(m.LorryLoads, "lorry", "lorries")
		case m.BulkBags > 0:
			loads = f.Count(m.BulkBags, "bulk bag", "bulk bags")
		}
		mats.Rows = append(mats.Rows, row(say.Capital(m.Item), m.For, w.volume(m.SettledM3), w.volume(m.LooseM3), weight, w.count(m.BarrowLoads), loads))
	}
	b.table("Materials", mats)
	checks := Table{Caption: "Checks of the ground", Columns: columns("Check", "Here", "Should be", "Passed", "What to do")}
	for _, c := range bed.Checks {
		passed := "no"
		if c.OK {
			passed = "yes"
		}
		checks.Rows = append(checks.Rows, row(say.Capital(c.Name), c.Figure, c.Limit, passed, sentence(c.Advice)))
	}
	b.table("Checks of the ground", checks)
	feed := nonEmpty(bed.Lime)
	if bed.StarterN > 0 || bed.StarterP2O5 > 0 || bed.StarterK2O > 0 {
		feed = append(feed, fmt.Sprintf("At sowing: nitrogen %s, phosphate (P₂O₅) %s, potash (K₂O) %s. %s", f.RateGM2(bed.StarterN), f.RateGM2(bed.StarterP2O5), f.RateGM2(bed.StarterK2O), sentence(bed.Starter)))
	}
	if bed.DrainSpacingM > 0 {
		feed = append(feed, "Pipe drains every "+f.Length(bed.DrainSpacingM))
	}
	if len(feed) > 0 {
		b.heading("Lime, feed and water")
	}
	b.list(append(feed, bed.Notes...))
}

// found is the soil as found, in a line.
func (w *writer) found() string {
	f, s := w.f, w.p.Site.Soil
	if s.Texture == "" {
		return ""
	}
	parts := []string{"Found: " + s.Texture}
	if s.Drainage != "" {
		parts = append(parts, s.Drainage+" drained")
	}
	if s.PH > 0 {
		ph := "pH\u00a0" + f.Number(s.PH, 1)
		if !s.PHKnown {
			ph += " (assumed)"
		}
		parts = append(parts, ph)
	}
	if s.DepthCM > 0 {
		parts = append(parts, f.Depth(s.DepthCM*10)+" of usable topsoil")
	}
	if s.InfiltrationMMH > 0 {
		parts = append(parts, "takes in "+f.Depth(s.InfiltrationMMH)+" of rain an hour")
	}
	return strings.Join(parts, ", ")
}

// spreading is the guide for whoever walks with the seed.
func (w *writer) spreading(b *builder) {
	f, g := w.f, w.p.Bed.Guide
	if g == nil {
		return
	}
	t := Table{Caption: "Seed for each zone", Columns: columns("Zone", ">Area", ">Seed", ">Each of two passes", ">Dry sand for each pass", ">Handfuls for each pass")}
	for _, z := range g.Zones {
		name := z.Zone
		for i, site := range w.p.Site.Zones {
			if site.Letter == z.Zone {
				name = w.zoneName(i)
			}
		}
		t.Rows = append(t.Rows, row(name, f.Area(z.AreaM2), f.Mass(z.Grams), f.Mass(z.PassG), f.Mass(z.SandKG*1000), w.count(z.HandfulN)))
	}
	b.table("", t)
	b.steps(g.Instructions)
	b.note("Sand and dressed seed are dusty: wear a mask and gloves, and keep seed from children and animals")
}

func (w *writer) cost(b *builder) {
	p, f := w.p, w.f
	c := p.Cost
	b.text(c.Advice)
	if len(c.Bills) == 0 {
		return
	}
	b.figure(draw.Cost(p, f.Form, w.w), "The total of each way by its parts; below each bar the range that holds 8 totals in 10, with its middle")
	b.table("", w.ways())
	if c.DaysEarlier > 0 && c.EarlierPerDay.Minor > 0 {
		b.text(fmt.Sprintf("Turf bears use %s earlier; each of them costs %s", f.Count(c.DaysEarlier, "day", "days"), f.Money(c.EarlierPerDay)))
	}
	for _, bill := range c.Bills {
		t := w.bill(bill)
		b.table(t.Caption, t)
	}
	moves := Table{Caption: "What moves the total most", Columns: columns("Way", "Cause", ">Total at its low end", ">Total at its high end")}
	for _, bill := range c.Bills {
		for _, d := range bill.Drivers[:min(4, len(bill.Drivers))] {
			moves.Rows = append(moves.Rows, row(say.Capital(string(bill.Way)), say.Capital(d.Name), f.MoneyRound(d.Low), f.MoneyRound(d.High)))
		}
	}
	b.table("What moves the total most", moves)
	turns := Table{Caption: "Where the answer turns", Columns: columns("What", "Turns at", "What it means")}
	for _, t := range c.Turns {
		turns.Rows = append(turns.Rows, row(say.Capital(t.What), t.At, sentence(t.Means)))
	}
	b.table("Where the answer turns", turns)
	if len(c.Unpriced) > 0 {
		b.heading("What no price shows")
		b.list(c.Unpriced)
	}
}

// bill is one way's bill, its lines by group, as a contractor sends it.
func (w *writer) bill(bill money.Bill) Table {
	f := w.f
	sign := f.Currency(w.money(0).Currency)
	t := Table{Caption: "Bill of quantities: " + string(bill.Way), Columns: columns("Item", ">Quantity", "Unit", ">Rate, "+sign, ">Amount, "+sign)}
	var group money.Group
	invented := false
	for _, l := range bill.Lines {
		if l.Group != group {
			group = l.Group
			t.Rows = append(t.Rows, Row{Kind: GroupHead, Cells: []string{say.Capital(string(group))}})
		}
		item := say.Capital(l.Item)
		if l.Invented {
			item, invented = item+"\u00a0*", true
		}
		n, unit := f.Quantity(l.Quantity, l.Unit)
		t.Rows = append(t.Rows, row(item, n, unit, f.Rate(l.Rate, l.Unit), f.Sum(l.Amount)))
	}
	for _, s := range []struct {
		name   string
		amount money.Amount
		always bool
	}{
		{"Net", bill.Net, true}, {"Margin", bill.Margin, false},
		{"Discount", money.Amount{Minor: -bill.Discount.Minor, Currency: bill.Discount.Currency}, false},
		{"Tax", bill.Tax, false}, {"Total", bill.Total, true}, {"Deposit", bill.Deposit, false},
	} {
		if s.always || s.amount.Minor != 0 {
			r := Row{Kind: Sum, Cells: []string{s.name, "", "", "", f.Sum(s.amount)}}
			if s.name == "Total" {
				r.Kind = Total
			}
			t.Rows = append(t.Rows, r)
		}
	}
	if invented {
		t.Rows = append(t.Rows, Row{Kind: GroupHead, Cells: []string{"* rate of the invented example list"}})
	}
	return t
}

func (w *writer) care(b *builder) {
	p, f := w.p, w.f
	y := p.Year
	if len(y.Tasks) == 0 {
		return
	}
	var facts []Fact
	if y.CutMM > 0 {
		facts = append(facts, Fact{"Height of cut", f.Depth(y.CutMM), "never more than a third of the leaf at once"})
	}
	if y.CutsPerYear > 0 {
		facts = append(facts, Fact{"Cuts a year", f.Number(y.CutsPerYear, 0), f.Number(y.MowHoursYear, 1) + " hours of mowing"})
	}
	if y.NitrogenGM2 > 0 {
		facts = append(facts, Fact{"Nitrogen a year", f.RateGM2(y.NitrogenGM2), f.Count(len(y.Feeds), "feed", "feeds")})
	}
	b.facts(facts)
	head := columns("When", "Work", "How", ">Times", ">Hours each", ">Chance")
	first, later := Table{Caption: "The first year", Columns: head}, Table{Caption: "Every year after", Columns: head}
	for _, t := range y.Tasks {
		if t.First {
			first.Rows = append(first.Rows, w.task(t))
		} else {
			later.Rows = append(later.Rows, w.task(t))
		}
	}
	b.table(first.Caption, first)
	b.table(later.Caption, later)
	b.note("The chance is the share of years in which the date is right; where none is given the work does not hang on the weather")
	mow := Table{Caption: "Mowing by month", Columns: columns("Month", ">Cut at", ">Every", ">Cuts")}
	for i, m := range y.Months {
		if m.Mows > 0 {
			mow.Rows = append(mow.Rows, row(say.Capital(f.Month(time.Month(i+1))), f.Depth(m.CutMM), f.Count(int(m.MowEveryDays+0.5), "day", "days"), f.Figures(m.Mows, 2)))
		}
	}
	b.table("Mowing by month", mow)
	b.list(y.Notes)
}

// task is one row of the calendar; work that comes round every year has no year.
func (w *writer) task(t year.Task) Row {
	f := w.f
	runs := !t.Until.IsZero() && !t.Until.Equal(t.Date)
	var when string
	switch {
	case t.First && runs:
		when = f.Dates(t.Date, t.Until)
	case t.First:
		when = f.DateShort(t.Date)
	case runs:
		when = f.Range(f.DayMonth(t.Date), f.DayMonth(t.Until))
	default:
		when = f.DayMonth(t.Date)
	}
	how := sentence(t.Detail)
	if len(t.Materials) > 0 {
		how = strings.TrimSpace(how + " " + sentence(say.Capital(strings.Join(t.Materials, ", "))))
	}
	times, hours, chance := "", "", ""
	if t.Times > 1 {
		times = w.count(t.Times)
	}
	if t.Hours > 0 {
		hours = f.Figures(t.Hours, 2)
	}
	switch {
	case t.Chance >= 0.995: // no one is sure of the weather
		chance = "over " + f.Percent(0.99)
	case t.Chance > 0:
		chance = f.Percent(t.Chance)
	}
	return row(when, t.Title, how, times, hours, chance)
}
