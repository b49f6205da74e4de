package text

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"swardwright/mix"
	"swardwright/report/say"
	"swardwright/sowing"
	"swardwright/sowing/dates"
	"swardwright/sowing/money"
	"swardwright/species"
)

// Plan writes a whole plan, the answer first.
func Plan(w io.Writer, plan sowing.Plan, look Look) error {
	f, err := say.For(plan)
	if err != nil {
		return err
	}
	plan = f.Worded(plan)
	p := planPage{newPage(look), f, plan}
	p.answer()
	p.mixture()
	p.bags()
	p.when()
	p.ground()
	p.cost()
	p.lightAndPlace()
	p.grasses()
	p.care()
	p.list("Take care", plan.Cautions)
	p.list("What was assumed", plan.Assumptions)
	p.list("Where the figures come from", plan.Sources)
	return p.to(w)
}

// planPage is a page about one plan.
type planPage struct {
	*page
	f *say.Sayer
	sowing.Plan
}

func (p *planPage) list(title string, points []string) {
	if len(points) > 0 {
		p.heading(title)
		p.items(points)
	}
}

// answer is what the reader asked for, in a dozen lines.
func (p *planPage) answer() {
	p.strongPara(strings.ToUpper(p.Brief.Title))
	var by []string
	for _, t := range []string{p.Brief.Client, p.Brief.PreparedBy, p.Brief.Reference} {
		if t != "" {
			by = append(by, t)
		}
	}
	if !p.Date.IsZero() {
		by = append(by, p.f.Date(p.Date))
	}
	if len(by) > 0 {
		p.para(strings.Join(by, " · "))
	}
	p.line("")
	p.strongPara(p.Headline)
	if why := p.Choice.Because; why != "" && !strings.Contains(p.Headline, why) && p.Choice.Asked != p.Choice.Attainable {
		p.para(stop(why))
	}
	p.line("")

	rows := [][]string{{"Advice", string(p.Advice)}}
	if c := p.Site; c != nil {
		rows = append(rows, []string{"Lawn", p.f.Area(c.AreaM2)})
	}
	if p.Choice.Mixture != nil {
		rows = append(rows,
			[]string{"Seed", fmt.Sprintf("%s, sown at %s; viable seeds %s", p.f.Mass(p.Rate.TotalG), p.f.RateGM2(p.Rate.GM2), p.f.PerArea(p.Rate.SeedsPerM2))},
			[]string{"Sow", p.sowWhen()})
	}
	for _, b := range p.Cost.Bills {
		rows = append(rows, []string{"By " + string(b.Way), fmt.Sprintf("%s, in 8 cases of 10 from %s to %s; in use from %s",
			p.f.Money(b.Total), p.f.MoneyRound(b.P10), p.f.MoneyRound(b.P90), p.f.Date(b.UsableFrom))})
	}
	p.facts(rows)
}

func (p *planPage) sowWhen() string {
	d := p.Dates
	if d.Chosen >= 0 && d.Chosen < len(d.Windows) {
		w := d.Windows[d.Chosen]
		return fmt.Sprintf("%s, best about %s; succeeds %s", p.f.Dates(w.Opens, w.Closes), p.f.DayMonth(d.SowOn), p.f.Chance(w.Success))
	}
	return fmt.Sprintf("about %s, outside every safe window", p.f.Date(d.SowOn))
}

func (p *planPage) mixture() {
	m := p.Choice.Mixture
	if m == nil {
		p.heading("No mixture")
		p.zoneVerdicts()
		return
	}
	p.heading("The mixture")
	grams := map[string]float64{}
	for _, c := range p.Rate.Components {
		grams[c.SpeciesID] = c.TotalG
	}
	var rows [][]string
	for _, c := range m.Components {
		rows = append(rows, []string{p.f.Percent(float64(c.Percent) / 100), p.f.GrassName(c.Species),
			p.f.Mass(grams[c.Species.ID]), p.f.Percent(c.SeedPercent / 100)})
	}
	p.table([]column{{title: "weight", right: true}, {title: "grass", flex: true}, {title: "seed", right: true},
		{title: "by count", right: true}}, rows)
	p.line("")
	for _, c := range m.Components {
		p.item(stop(fmt.Sprintf("%s: %s", p.f.GrassName(c.Species), c.Because)))
	}
	p.line("")
	p.para(fmt.Sprintf("Expected cover %s once established, %s in the bad year of ten; %s eight weeks after it comes up.",
		p.f.Percent(m.CoverExpected), p.f.Percent(m.CoverBadYear), p.f.Percent(m.EarlyCover)))
	if p.Rate.Because != "" {
		p.para(stop(p.Rate.Because))
	}
	p.sward(*m)
	p.zoneVerdicts()
	var left []string
	for _, l := range p.Choice.LeftOut {
		left = append(left, fmt.Sprintf("%s: %s", p.f.GrassName(l.Species), l.Because))
	}
	p.list("Leading grasses left out", left)
	p.list("Other mixtures", p.f.Besides(m))
	p.list("Choosing varieties", p.Choice.Cultivars)
	if len(p.Choice.Lifts) > 0 {
		p.heading("What would let the place hold more")
		for _, l := range p.Choice.Lifts {
			p.item(fmt.Sprintf("%s: %s, cover %s", sentence(l.Change), l.Grade, p.f.Percent(l.Cover)))
		}
	}
	p.premixes()
}

// sward tells what the sowing becomes.
func (p *planPage) sward(m mix.Mixture) {
	if len(m.Sward) == 0 {
		return
	}
	p.line("")
	var rows [][]string
	for _, s := range m.Sward {
		ids := make([]string, 0, len(s.Shares))
		for id := range s.Shares {
			ids = append(ids, id)
		}
		slices.SortFunc(ids, func(a, b string) int {
			return cmp.Or(cmp.Compare(s.Shares[b], s.Shares[a]), strings.Compare(a, b))
		})
		var parts []string
		for _, id := range ids {
			if share := s.Shares[id]; share >= 0.5 {
				parts = append(parts, fmt.Sprintf("%s %s", p.nameOf(id), p.f.Percent(share/100)))
			}
		}
		rows = append(rows, []string{p.f.Number(float64(s.Year), 0), p.f.Percent(s.Cover), strings.Join(parts, ", ")})
	}
	p.table([]column{{title: "season", right: true}, {title: "cover", right: true}, {title: "what the sward is made of", flex: true}}, rows)
	p.para("What is not covered is bare, or goes to broad-leaved weeds where nobody pulls them.")
}

// nameOf is the common name of a species by its id.
func (p *planPage) nameOf(id string) string {
	for _, r := range p.Matrix.Rows {
		if r.Species.ID == id {
			return p.f.GrassName(r.Species)
		}
	}
	return strings.ReplaceAll(id, "-", " ")
}

func (p *planPage) zoneVerdicts() {
	if p.Site == nil {
		return
	}
	var doubts []string
	for _, v := range p.Choice.Zones {
		if v.Zone >= len(p.Site.Zones) || v.Holds && !v.Doubtful {
			continue
		}
		z := p.Site.Zones[v.Zone]
		where := fmt.Sprintf("zone %s, %s (%s)", z.Letter, z.Name, p.f.Area(z.AreaM2))
		if v.Holds {
			doubts = append(doubts, fmt.Sprintf("Grass is doubtful in %s: thin, soon worn and slow to mend.", where))
		} else {
			doubts = append(doubts, fmt.Sprintf("No grass will hold in %s: limited by %s.", where, species.Limit(v.LimitedBy)))
		}
	}
	if len(doubts) > 0 {
		p.line("")
		p.items(doubts)
	}
}

func (p *planPage) premixes() {
	if len(p.Choice.Premixes) == 0 {
		return
	}
	p.heading("Ready-mixed bags on offer")
	var rows [][]string
	for _, j := range p.Choice.Premixes {
		verdict := j.Verdict
		var add []string
		for _, t := range j.TopUp {
			add = append(add, p.f.TopUp(t))
		}
		if len(add) > 0 {
			verdict += ": add " + strings.Join(add, " and ")
		}
		rows = append(rows, []string{j.Premix.Name, p.f.Percent(j.Mixture.CoverExpected), p.f.Percent(j.Mixture.CoverBadYear), verdict})
	}
	p.table([]column{{title: "bag"}, {title: "cover", right: true}, {title: "bad year", right: true, optional: true}, {title: "verdict", flex: true}}, rows)
}

func (p *planPage) bags() {
	if len(p.Order.Bags) == 0 {
		return
	}
	p.heading("Seed to order")
	var rows [][]string
	for _, b := range p.Order.Bags {
		price := money.Amount{Minor: b.PriceMinor * int64(b.Count), Currency: p.Brief.Currency}
		note := ""
		if b.Invented {
			note = "example price"
		}
		rows = append(rows, []string{fmt.Sprintf("%d × %s", b.Count, p.f.Mass(b.KG*1000)), b.Lot, p.f.Sum(price), note})
	}
	rows = append(rows, []string{"", "together", p.f.Sum(money.Amount{Minor: p.Order.TotalMinor, Currency: p.Brief.Currency}), ""})
	p.table([]column{{title: "bags", right: true}, {title: "lot", flex: true}, {title: p.f.Currency(p.Brief.Currency), right: true}, {optional: true}}, rows)
	p.items(p.Order.Notes)
}

func (p *planPage) when() {
	d := p.Dates
	if len(d.Windows) == 0 && len(d.Notes) == 0 {
		return
	}
	p.heading("When to sow")
	var rows [][]string
	for i, w := range d.Windows {
		mark := ""
		switch {
		case i == d.Chosen:
			mark = "*"
		case !w.Allowed:
			mark = "x"
		}
		rows = append(rows, []string{mark, string(w.Kind), p.f.Dates(w.Opens, w.Closes), p.f.Chance(w.Success),
			p.span(w.EmergenceDays), p.span(w.FirstMowDays)})
	}
	p.table([]column{{}, {title: "window"}, {title: "days"}, {title: "succeeds", flex: true}, {title: "up after", right: true},
		{title: "first cut", right: true, optional: true}}, rows)
	if len(rows) > 0 {
		p.para("* the one chosen; x outside the dates the brief allows.")
	}
	if d.Chosen >= 0 && d.Chosen < len(d.Windows) {
		w := d.Windows[d.Chosen]
		for _, t := range []struct{ what, why string }{{"It opens", w.OpensBecause}, {"It closes", w.ClosesBecause}} {
			if t.why != "" {
				p.para(fmt.Sprintf("%s because %s.", t.what, t.why))
			}
		}
	}
	if d.FirstMow != nil && d.UsableFrom != nil {
		p.para(fmt.Sprintf("Sown on %s: first cut about %s, in use about %s.", p.f.Date(d.SowOn), p.f.Date(*d.FirstMow), p.f.Date(*d.UsableFrom)))
	}
	if d.NeededBy != nil {
		p.para(fmt.Sprintf("It bears use by %s %s.", p.f.Date(*d.NeededBy), p.f.Chance(d.NeededByChance)))
	}
	p.watering()
	p.items(d.Notes)
}

func (p *planPage) span(s *dates.Span) string {
	if s == nil {
		return "never"
	}
	return p.f.Span(s.P10, s.P90, 0) + " days"
}

func (p *planPage) watering() {
	var rows [][]string
	for _, w := range p.Dates.Watering {
		if w.DryMM >= 0.5 {
			rows = append(rows, []string{p.f.Number(float64(w.Number), 0), p.f.Depth(w.MeanMM), p.f.Depth(w.DryMM)})
		}
	}
	if len(rows) > 0 {
		p.line("")
		p.table([]column{{title: "week after sowing", right: true}, {title: "water", right: true}, {title: "in a dry year", right: true}}, rows)
	}
}

func (p *planPage) ground() {
	b := p.Bed
	if len(b.Layers)+len(b.Steps)+len(b.Checks)+len(b.Materials) == 0 && b.Lime == "" {
		return
	}
	p.heading("The ground")
	if p.Site != nil {
		s := p.Site.Soil
		p.para(fmt.Sprintf("Found: %s, pH %s, drainage class %s.", s.Texture, p.f.Number(s.PH, 1), s.Drainage))
	}
	var rows [][]string
	for _, l := range b.Layers {
		depth := ""
		if l.DepthMM > 0 {
			depth = p.f.Depth(l.DepthMM)
		}
		rows = append(rows, []string{depth, l.Name, l.Note})
	}
	p.table([]column{{title: "wanted", right: true}, {title: "layer"}, {title: "", flex: true}}, rows)
	if b.Lime != "" {
		p.para(stop(b.Lime))
	}
	if b.Starter != "" {
		p.para(stop("Feed at sowing: " + b.Starter))
	}
	for _, c := range b.Checks {
		if !c.OK {
			t := fmt.Sprintf("%s: %s, wanted %s", sentence(c.Name), c.Figure, c.Limit)
			if c.Advice != "" {
				t += "; " + c.Advice
			}
			p.item(t)
		}
	}
	rows = nil
	for _, m := range b.Materials {
		rows = append(rows, []string{m.Item, p.materialAmount(m.LooseM3, m.Tonnes, m.KG), m.For})
	}
	if len(rows) > 0 {
		p.line("")
		p.table([]column{{title: "material"}, {title: "amount", right: true}, {title: "for", flex: true}}, rows)
	}
	if len(b.Steps) > 0 {
		titles := make([]string, len(b.Steps))
		for i, s := range b.Steps {
			titles[i] = s.Title
		}
		p.line("")
		p.para(stop("The steps, told in full by date below: " + strings.Join(titles, ", ")))
	}
	p.items(b.Notes)
}

func (p *planPage) materialAmount(m3, tonnes, kg float64) string {
	switch {
	case m3 > 0:
		t := p.f.Volume(m3)
		if tonnes > 0 {
			t += ", " + p.f.Tonnes(tonnes)
		}
		return t
	case kg > 0:
		return p.f.Mass(kg * 1000)
	}
	return ""
}

func (p *planPage) cost() {
	c := p.Cost
	if len(c.Bills) == 0 {
		return
	}
	p.heading("What it costs")
	if c.Advice != "" {
		p.para(stop(c.Advice))
	}
	columns := []column{{title: p.f.Currency(c.Currency), flex: true}}
	for _, b := range c.Bills {
		columns = append(columns, column{title: string(b.Way), right: true})
	}
	var rows [][]string
	row := func(name string, of func(money.Bill) string) {
		cells := []string{name}
		for _, b := range c.Bills {
			cells = append(cells, of(b))
		}
		rows = append(rows, cells)
	}
	for _, g := range money.Groups {
		if slices.ContainsFunc(c.Bills, func(b money.Bill) bool {
			return slices.ContainsFunc(b.Lines, func(l money.Line) bool { return l.Group == g })
		}) {
			row(string(g), func(b money.Bill) string { return p.f.Sum(b.Of(g)) })
		}
	}
	row("margin", func(b money.Bill) string { return p.f.Sum(b.Margin) })
	if slices.ContainsFunc(c.Bills, func(b money.Bill) bool { return b.Discount.Minor != 0 }) {
		row("discount", func(b money.Bill) string { return "−" + p.f.Sum(b.Discount) })
	}
	row("tax", func(b money.Bill) string { return p.f.Sum(b.Tax) })
	row("total", func(b money.Bill) string { return p.f.Sum(b.Total) })
	row("1 case in 10 below", func(b money.Bill) string { return p.f.Sum(b.P10) })
	row("1 case in 10 above", func(b money.Bill) string { return p.f.Sum(b.P90) })
	row("each "+p.unitArea(), func(b money.Bill) string { return p.f.MoneyPerArea(b.Total, b.AreaM2) })
	row("in use from", func(b money.Bill) string { return p.f.DateShort(b.UsableFrom) })
	row("succeeds at once", func(b money.Bill) string { return p.f.Chance(b.Success) })
	p.table(columns, rows)
	for _, b := range c.Bills {
		if len(b.Drivers) > 0 {
			d := b.Drivers[0]
			p.item(fmt.Sprintf("What moves the total most, by %s: %s, from %s to %s with all else as reckoned", b.Way, d.Name, p.f.MoneyRound(d.Low), p.f.MoneyRound(d.High)))
		}
	}
	for _, t := range c.Turns {
		p.item(fmt.Sprintf("%s: the answer turns at %s. %s", sentence(t.What), t.At, sentence(t.Means)))
	}
	for _, u := range c.Unpriced {
		p.item("Not in the price: " + u)
	}
	if c.ExamplePrices {
		p.item("Some prices are of the invented example list; give your own under [prices]")
	}
}

func (p *planPage) unitArea() string {
	if p.f.US() {
		return "sq ft"
	}
	return "m²"
}

func (p *planPage) lightAndPlace() {
	c := p.Site
	if c == nil {
		return
	}
	p.heading("The place")
	w := c.Weather
	from := c.Normals.Name
	if c.DistanceKM > 0 {
		from += ", " + p.f.Distance(c.DistanceKM) + " off"
	}
	p.facts([][]string{
		{"Weather", from},
		{"Year", fmt.Sprintf("mean %s, coldest month %s, warmest %s; rain %s", p.f.Temp(w.MeanYearC), p.f.Temp(w.ColdestMonthC), p.f.Temp(w.WarmestMonthC), p.f.Depth(w.RainYearMM))},
		{"Grass grows", fmt.Sprintf("%s – %s, %.0f days", p.f.DayOfYear(w.GrowingFrom), p.f.DayOfYear(w.GrowingTo), w.GrowingDays)},
		{"Winter", fmt.Sprintf("%.0f days of snow, down to %s", w.SnowDays, p.f.Temp(w.AirMinC))},
	})
	p.line("")
	lightTables(p.page, p.f.Form, c.Field)
}

func (p *planPage) grasses() {
	if p.Site == nil || len(p.Matrix.Rows) == 0 {
		return
	}
	p.heading("Which grasses suit it")
	for zone := range p.Site.Zones {
		matrixTable(p.page, p.f.Form, p.Matrix, p.Site, zone, leadersShown)
	}
}

func (p *planPage) care() {
	if len(p.Year.Tasks) == 0 {
		return
	}
	p.heading("The work, by date")
	var rows [][]string
	for _, t := range p.Year.Tasks {
		when := p.f.DateShort(t.Date)
		if !t.Until.IsZero() && t.Until.After(t.Date.Add(24*time.Hour)) {
			when = p.f.Dates(t.Date, t.Until)
		}
		what := t.Title
		if t.Detail != "" {
			what += ": " + t.Detail
		}
		if t.Chance > 0 {
			what += " (" + p.f.Chance(t.Chance) + ")"
		}
		rows = append(rows, []string{when, what})
	}
	p.table([]column{{title: "date"}, {title: "task", flex: true}}, rows)
	if p.Year.CutsPerYear > 0 {
		p.para(fmt.Sprintf("In a full year: about %.0f cuts at %s, %s nitrogen.", p.Year.CutsPerYear, p.f.Depth(p.Year.CutMM), p.f.RateGM2(p.Year.NitrogenGM2)))
	}
	p.items(p.Year.Notes)
}

// stop makes a sentence of a text that may be one already.
func stop(t string) string {
	t = sentence(strings.TrimSpace(t))
	if t == "" || strings.HasSuffix(t, ".") || strings.HasSuffix(t, "!") || strings.HasSuffix(t, "?") {
		return t
	}
	return t + "."
}

// sentence begins with a capital.
func sentence(t string) string {
	for i, r := range t {
		return strings.ToUpper(string(r)) + t[i+len(string(r)):]
	}
	return t
}

// basisWords says how well a value is founded.
var basisWords = map[species.Basis]string{
	species.Read: "measured", species.Near: "measured for a near grass", species.Memory: "from memory of the publication",
	species.Practice: "common practice, no published source", species.Inferred: "concluded from the rest",
}
