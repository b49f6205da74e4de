package content

import (
	"fmt"
	"math"
	"slices"
	"time"

	"github.com/samber/lo"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/report/draw"
	"swardwright/report/say"
	"swardwright/site"
	"swardwright/sowing"
	"swardwright/sowing/job"
)

// Comparison sets lawns planned beside each other out on a client's page: the lawns
// drawn small, what each change buys and costs, what differs, and which it shall be.
func Comparison(all []sowing.Compared, f *say.Sayer) Document {
	first := &all[0].Plan
	w := writer{p: first, f: f}
	d := w.document()
	b := builder{say: f, section: "compared"}
	w.details(&b)
	b.add(Lead{b.sentence(told.Say("compare.lead", told.Count(len(all))))})
	plans := Gallery{}
	for i, c := range all {
		if c.Plan.Site == nil || len(c.Plan.Site.Survey.Lawn.Parts) == 0 {
			continue
		}
		plans.Figures = append(plans.Figures, Figure{Name: fmt.Sprintf("compared-plan-%d", i+1), Caption: c.Name,
			Draw: func(width, _ float64) *draw.Drawing { return draw.Key(&c.Plan, f, min(width, keyW), keyH) }})
	}
	if len(plans.Figures) > 0 {
		b.add(plans)
	}
	compared(&b, all)
	if w.p.Kind != "" {
		var options []string
		for _, c := range all {
			if c.Plan.Kind != "" {
				options = append(options, b.words(told.Say("compare.option", told.Verbatim(c.Name), told.Money(c.Plan.Bill.Total))))
			}
		}
		b.add(Choice{b.words(told.Say("compare.decide")), options})
	}
	title := f.Say(told.Say("compare.title"))
	d.Parts = []Part{{Name: Compared, Title: title, Sections: []Section{{ID: "answer", Title: f.Say(told.Say("compare.side-by-side")), Page: true, Blocks: b.blocks}}}}
	return d
}

// variants are those of the plan's own brief, beside it.
func (w *writer) variants(b *builder) {
	if len(w.p.Variants) == 0 {
		return
	}
	as := sowing.Compared{Name: b.words(told.Say("compare.as-it-is")), Plan: *w.p}
	compared(b, append([]sowing.Compared{as}, w.p.Variants...))
}

// compared adds what each change buys and costs and the tables of what differs, the
// first lawn in each.
func compared(b *builder, all []sowing.Compared) {
	b.list(lo.FilterMap(all, func(c sowing.Compared, _ int) (told.Figure, bool) {
		return Bought(c), c.Gain != nil
	}))
	any := false
	for rest := range slices.Chunk(all[1:], mostBeside) {
		any = b.table(nil, differences(append([]sowing.Compared{all[0]}, rest...), b.say)) || any
	}
	if !any {
		b.text(told.Say("compare.nothing"))
	}
	b.note(told.Say("compare.same-luck", told.Count(8), told.Count(10)))
}

// mostBeside is how many lawns fit beside the first in one table.
const mostBeside = 3

// What is spoken of (our judgement).
const (
	careWorth  = 1     // hours of care a year
	coverWorth = 0.015 // of cover, either way
	costWorth  = 0.005 // of the total
)

// Bought is one sentence of what a change buys and costs; nil for the first of those
// compared.
func Bought(c sowing.Compared) told.Figure {
	if c.Gain == nil {
		return nil
	}
	name := told.Verbatim(c.Name)
	if c.Plan.Kind == "" {
		return told.Say("compare.no-grass", name)
	}
	parts := append(moreCover(c.Gain.Cover), moreOfTheRest(c)...)
	if len(parts) == 0 {
		return told.Say("compare.no-change", name)
	}
	return told.Say("compare.buys", name, told.Joined(told.And, parts...))
}

// moreCover says what becomes of the cover, if that is worth a word.
func moreCover(p sowing.Spread) (parts []told.Sentence) {
	points := func(share float64) told.Figure { return told.Count(math.Round(100 * share)) }
	switch {
	case math.Round(100*p.Middle) > 0:
		parts = append(parts, told.Say("compare.more-cover", told.Points(p.Middle), told.Between(points(p.Low), points(p.High)), told.Count(8), told.Count(10)))
	case math.Round(100*p.Middle) < 0:
		parts = append(parts, told.Say("compare.less-cover", told.Points(-p.Middle), told.Between(points(-p.High), points(-p.Low)), told.Count(8), told.Count(10)))
	case max(p.High, -p.Low) >= coverWorth:
		parts = append(parts, told.Say("compare.same-cover", told.Between(points(p.Low), points(p.High)), told.Count(8), told.Count(10)))
	}
	return parts
}

// moreOfTheRest says what becomes of days, care and cost, if that is worth a word.
func moreOfTheRest(c sowing.Compared) (parts []told.Sentence) {
	g := c.Gain
	switch days := g.DaysSooner; {
	case days == nil:
	case *days > 0:
		parts = append(parts, told.Say("compare.sooner", told.Days(*days)))
	case *days < 0:
		parts = append(parts, told.Say("compare.later", told.Days(-*days)))
	}
	switch hours := g.CareHours; {
	case hours >= careWorth:
		parts = append(parts, told.Say("compare.more-care", told.CrewHours(hours)))
	case hours <= -careWorth:
		parts = append(parts, told.Say("compare.less-care", told.CrewHours(-hours)))
	}
	switch more := g.CostMinor; {
	case more == nil || math.Abs(float64(*more)) < costWorth*float64(c.Plan.Bill.Total.Minor):
	case *more > 0:
		parts = append(parts, told.Say("compare.dearer", told.MoneyRound{Minor: *more, Currency: c.Plan.Cost.Currency}))
	case *more < 0:
		parts = append(parts, told.Say("compare.cheaper", told.MoneyRound{Minor: -*more, Currency: c.Plan.Cost.Currency}))
	}
	return parts
}

// differences is the table of what is not alike, the better of each row marked.
func differences(all []sowing.Compared, f *say.Sayer) table {
	t := table{caption: told.Say("compare.table"), columns: []head{left(told.Say("compare.what"))}}
	for _, c := range all {
		t.columns = append(t.columns, left(told.Verbatim(c.Name)))
	}
	for _, r := range comparedRows {
		cells := lo.Map(all, func(c sowing.Compared, _ int) told.Figure { return r.of(&c.Plan) })
		texts := lo.Map(cells, func(c told.Figure, _ int) string {
			if c == nil {
				return ""
			}
			return f.Figure(c)
		})
		if len(lo.Uniq(texts)) < 2 {
			continue
		}
		if r.worth != nil {
			best := bestOf(all, texts, r.worth)
			for i := range cells {
				if best[i] && cells[i] != nil {
					cells[i] = told.Say("compare.better", cells[i])
				}
			}
		}
		t.row(append([]told.Figure{r.title}, cells...)...)
	}
	return t
}

// bestOf marks those of the highest worth, and what reads the same, unless all do.
func bestOf(all []sowing.Compared, texts []string, worth func(*sowing.Plan) float64) []bool {
	w := lo.Map(all, func(c sowing.Compared, _ int) float64 { return worth(&c.Plan) })
	top := texts[slices.Index(w, slices.Max(w))]
	if !slices.ContainsFunc(texts, func(t string) bool { return t != top }) {
		return make([]bool, len(w))
	}
	return lo.Map(texts, func(t string, _ int) bool { return t == top })
}

// comparedRow is one thing that lawns are compared by. Worth is what makes one better
// than another; nil where none is.
type comparedRow struct {
	title told.Figure
	of    func(*sowing.Plan) told.Figure
	worth func(*sowing.Plan) float64
}

// grassOr gives a figure of the grass where there is some.
func grassOr(p *sowing.Plan, f func() told.Figure) told.Figure {
	if p.Mixture == nil {
		return nil
	}
	return f()
}

func cover(p *sowing.Plan) float64 {
	if p.Mixture == nil {
		return -1
	}
	return p.Mixture.CoverExpected
}

func badCover(p *sowing.Plan) float64 {
	if p.Mixture == nil {
		return -1
	}
	return p.Mixture.CoverBadYear
}

// soon is the sooner the more.
func soon(t *time.Time) float64 {
	if t == nil {
		return -1e12
	}
	return -float64(t.Unix())
}

var comparedRows = []comparedRow{
	{told.Say("compare.advice"), func(p *sowing.Plan) told.Figure { return told.Term{Kind: "advice", Word: string(p.Advice)} }, nil},
	{told.Say("compare.standard"), func(p *sowing.Plan) told.Figure {
		return grassOr(p, func() told.Figure {
			return told.Say("compare.standard-chance", lawnOf(p.Standard.Grade), told.Odds(p.Standard.Chance))
		})
	}, func(p *sowing.Plan) float64 { return p.Standard.Chance }},
	{told.Say("heads.cover"), func(p *sowing.Plan) told.Figure {
		return grassOr(p, func() told.Figure { return told.Share(cover(p)) })
	}, cover},
	{told.Say("heads.bad-year"), func(p *sowing.Plan) told.Figure {
		return grassOr(p, func() told.Figure { return told.Share(badCover(p)) })
	}, badCover},
	{told.Say("heads.light"), func(p *sowing.Plan) told.Figure {
		return told.Joined(told.Commas, lo.Map(p.Site.Zones, func(z site.Zone, _ int) told.Sentence {
			return told.Say("compare.zone-light", told.Zone(z.Letter), told.DLI(z.Light.DLISeason))
		})...)
	}, nil},
	{told.Say("compare.grass-area"), func(p *sowing.Plan) told.Figure { return told.AreaM2(job.Area(p.Grass)) }, func(p *sowing.Plan) float64 { return job.Area(p.Grass) }},
	{told.Say("plan.mixture"), func(p *sowing.Plan) told.Figure {
		return grassOr(p, func() told.Figure {
			if len(p.Sowings) > 1 {
				return told.Joined(told.Clauses, lo.Map(p.Sowings, func(s sowing.Sowing, _ int) told.Sentence {
					return told.Say("compare.mixture-of", job.Named(s.Zones), grassesOf(s.Mixture))
				})...)
			}
			return grassesOf(p.Mixture)
		})
	}, nil},
	{told.Say("compare.rate"), func(p *sowing.Plan) told.Figure { return some(p.Rate.GM2 > 0, told.GramsPerM2(p.Rate.GM2)) }, nil},
	{told.Say("compare.start"), func(p *sowing.Plan) told.Figure { return date(p.StartOn) }, nil},
	{told.Say("plan.bears-use-from"), func(p *sowing.Plan) told.Figure {
		if p.Kind == "" {
			return nil
		}
		return dateOrNever(p.UsableFrom)
	}, func(p *sowing.Plan) float64 { return soon(p.UsableFrom) }},
	{told.Say("heads.total"), func(p *sowing.Plan) told.Figure { return some(p.Kind != "", told.Money(p.Bill.Total)) }, func(p *sowing.Plan) float64 {
		if p.Kind == "" {
			return 0
		}
		return -float64(p.Bill.Total.Minor)
	}},
	{told.Say("compare.care"), func(p *sowing.Plan) told.Figure { return some(p.Kind != "", told.CrewHours(p.CareHours())) }, func(p *sowing.Plan) float64 { return -p.CareHours() }},
}

// grassesOf are the grasses of a mixture with their shares.
func grassesOf(m *mix.Mixture) told.List {
	return told.Joined(told.Commas, lo.Map(m.Components, func(c mix.Component, _ int) told.Sentence {
		return told.Say("compare.part", told.Share(float64(c.Percent)/100), told.Grass(c.Species.ID))
	})...)
}
