package draw

import (
	"slices"
	"time"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/report/say"
	"swardwright/site"
	"swardwright/sowing"
	"swardwright/sowing/bed"
	"swardwright/sowing/job"
	"swardwright/sowing/year"
	"swardwright/species"
)

// The drawings of a plan: each takes out of it what its drawing shows.

// SiteOf is the lawn of a plan and what becomes of it; empty without a place.
func SiteOf(s *sowing.Plan, f *say.Sayer) Site {
	if s.Site == nil {
		return Site{}
	}
	v := s.Site.Survey
	out := Site{
		Lawn: v.Lawn.Parts, Obstacles: v.Obstacles, Field: s.Site.Field, LatitudeDeg: v.Place.LatitudeDeg,
		NorthDeg: v.Lawn.PlanNorthDeg, SlopeDeg: drawnSlope(v.Lawn), AspectDeg: v.Lawn.AspectDeg,
	}
	for i, z := range s.Site.Field.Zones {
		zone := Zone{Letter: z.Letter, Name: f.Say(z.Name), AreaM2: z.AreaM2, Share: z.Share}
		become := becomes(s, z.Letter)
		zone.Word = f.Say(become)
		zone.Grass, zone.Note = become.Name != "draw.no-grass", zone.Word
		for _, v := range s.Choice.Zones {
			switch {
			case v.Zone != i:
			case !zone.Grass && len(v.Instead) > 0:
				zone.Note = f.Say(told.Say("draw.no-grass-instead", v.Instead[0]))
			case zone.Grass && v.Verdict == mix.Doubtful:
				zone.Note = f.Say(told.Say("draw.doubtful", become))
			}
		}
		out.Zones = append(out.Zones, zone)
	}
	return out
}

// becomes is what the chosen way makes of a zone, in a word.
func becomes(s *sowing.Plan, zone string) told.Sentence {
	switch {
	case slices.Contains(job.Letters(s.Laid), zone):
		return told.Say("draw.by-turf-word")
	case !slices.Contains(job.Letters(s.Sown), zone):
		return told.Say("draw.no-grass")
	case s.Kind == job.ByOverseeding:
		return told.Say("draw.by-overseeding-word")
	case len(s.Sowings) > 1 && slices.Contains(job.Letters(s.Sowings[0].Zones), zone):
		return told.Say("draw.by-first-word")
	case len(s.Sowings) > 1:
		return told.Say("draw.by-second-word")
	}
	return told.Say("draw.by-seed-word")
}

// drawnSlope is the slope whose fall can be drawn.
func drawnSlope(l site.Lawn) float64 {
	if l.AspectUnknown {
		return 0
	}
	return l.SlopeDeg
}

// Lawn is the plan of the lawn.
func Lawn(s *sowing.Plan, f *say.Sayer, w, h float64) *Drawing {
	return sitePlan(SiteOf(s, f), f, w, h)
}

// Key is the lawn in small.
func Key(s *sowing.Plan, f *say.Sayer, w, h float64) *Drawing {
	return keyPlan(SiteOf(s, f), f, w, h)
}

// Corners is the plan for setting out.
func Corners(s *sowing.Plan, f *say.Sayer, w, h float64) *Drawing {
	return settingOut(SiteOf(s, f), f, w, h)
}

// SunMap is sun and light over the lawn.
func SunMap(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	return lightMaps(SiteOf(s, f), f, w)
}

// Noon is the section towards the noon sun.
func Noon(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	return sunSection(SiteOf(s, f), f, w)
}

// Light is the light by month.
func Light(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	return lightCurves(SiteOf(s, f).Field, f, w)
}

// mostRows is how many grasses a drawn matrix shows besides those of the mixture.
const mostRows = 10

// Sown are the ids of the grasses of the mixture that is for a zone.
func Sown(s *sowing.Plan, zone int) map[string]bool {
	out := map[string]bool{}
	if m := s.Choice.Mixture; m != nil {
		for _, c := range m.Components {
			out[c.Species.ID] = s.SownIn(c.Species, zone)
		}
	}
	return out
}

// MatrixRows are the rows of a zone that its matrix draws, best first: the leading
// grasses, and those of the mixture.
func MatrixRows(s *sowing.Plan, zone int) []species.Row {
	sown := Sown(s, zone)
	var rows []species.Row
	for _, r := range s.Matrix.Rows {
		if r.Zone == zone && (len(rows) < mostRows || sown[r.Species.ID]) {
			rows = append(rows, r)
		}
	}
	return rows
}

// Matrix is the suitability of grasses in one zone.
func Matrix(s *sowing.Plan, f *say.Sayer, zone int, w float64) *Drawing {
	name := ""
	if s.Site != nil && zone < len(s.Site.Zones) {
		name = f.Say(told.Say("plan.zone-name", told.Zone(s.Site.Zones[zone].Letter), s.Site.Zones[zone].Name))
	}
	return matrixOf(Suitability{zone, name, s.Matrix.Criteria, MatrixRows(s, zone), Sown(s, zone)}, f, w)
}

// Mixture is the mixture by weight and by seed.
func Mixture(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	if s.Choice.Mixture == nil {
		return nil
	}
	names := [2]told.Sentence{told.Say("draw.by-weight"), told.Say("draw.by-seed")}
	two := len(s.Sowings) > 1
	if two {
		names = [2]told.Sentence{told.Say("draw.first-mixture"), told.Say("draw.second-mixture")}
	}
	var shares []Share
	for i, c := range s.Choice.Mixture.Components {
		x := Share{Key: partKey(i), Bars: [2]float64{float64(c.Percent), c.SeedPercent}}
		key, name := told.Source(x.Key), told.Source(f.Figure(told.Grass(c.Species.ID)))
		if two {
			for n, sown := range s.Sowings {
				x.Bars[n] = 100 * sown.Mixture.Share(c.Species)
			}
			x.Said = told.Say("draw.shares-desc", key, name, told.Share(x.Bars[0]/100), told.Share(x.Bars[1]/100))
		} else {
			x.Said = told.Say("draw.share-desc", key, name, told.Share(x.Bars[0]/100), told.Share(x.Bars[1]/100))
		}
		shares = append(shares, x)
	}
	return mixtureBars(names, shares, f, w)
}

// Sward is the sward through the seasons.
func Sward(s *sowing.Plan, f *say.Sayer, w, h float64) *Drawing {
	m := s.Mixture
	if m == nil {
		return nil
	}
	out := Seasons{Bare: f.Say(told.Say("draw.bare")), Counts: m.CoverExpected, Bad: m.CoverBadYear}
	known := map[string]bool{}
	stand := func(key, name string, ids ...string) {
		g := Stand{Key: key, Name: name}
		for _, y := range m.Sward {
			sum := 0.0
			for _, id := range ids {
				sum += y.Shares[id] / 100 * y.Cover
			}
			g.Cover = append(g.Cover, sum)
		}
		out.Stands = append(out.Stands, g)
	}
	for i, c := range m.Components {
		known[c.Species.ID] = true
		stand(partKey(i), say.Capital(f.Figure(told.Grass(c.Species.ID))), c.Species.ID)
	}
	var others []string
	for _, y := range m.Sward {
		for id := range y.Shares {
			if !known[id] {
				known[id] = true
				others = append(others, id)
			}
		}
	}
	if slices.Sort(others); len(others) > 0 {
		stand("+", f.Say(told.Say("draw.volunteers")), others...)
	}
	if c := s.Brief.Job.CoverPercent; c != nil {
		out.Start = *c / 100
	}
	return swardArea(out, f, w, h)
}

// Dates is the year as bars.
func Dates(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	var growth [12]float64
	for i, m := range s.Year.Months {
		growth[i] = m.Growth
	}
	return yearBars(lanesOf(s, f), growth, f, w)
}

// lanesOf are the rows of the year, those without work left out.
func lanesOf(s *sowing.Plan, f *say.Sayer) []Lane {
	var out []Lane
	add := func(name told.Sentence, kind LaneKind, spans []Span) {
		if len(spans) > 0 {
			out = append(out, Lane{f.Say(name), kind, spans})
		}
	}
	add(told.Say("draw.establishing"), Establishing, establishing(s, f))
	add(told.Say("draw.mowing"), Mowing, spansOf(s, f, false, job.Mowing))
	add(told.Say("draw.water"), Water, spansOf(s, f, false, job.Watering))
	add(told.Say("draw.feed"), Feed, spansOf(s, f, true, job.Feeding))
	add(told.Say("draw.renew"), Other, spansOf(s, f, true, job.Raking, job.Spiking, job.Dressing, job.Reseeding))
	add(told.Say("draw.watch"), Watch, spansOf(s, f, false, job.Watching, job.Leaves))
	return out
}

// establishing are the work on the ground, the start, the first cut and the first use.
func establishing(s *sowing.Plan, f *say.Sayer) []Span {
	d := s.Dates
	if d.On == nil {
		return nil
	}
	var out []Span
	var from, to time.Time
	for _, t := range s.Tasks {
		if t.Sort == job.Preparing && t.First && t.Date.Before(*d.On) {
			if from.IsZero() {
				from = t.Date
			}
			to = t.Ends()
		}
	}
	if !from.IsZero() {
		out = append(out, Span{From: from, To: to, Text: f.Say(told.Say("draw.ground-from", told.ShortDay(from)))})
	}
	what := told.Say("draw.sow-on", told.ShortDay(*d.On))
	if s.Kind == job.ByTurf {
		what = told.Say("draw.lay-on", told.ShortDay(*d.On))
	}
	start := Span{From: *d.On, Text: f.Say(what), Strong: true}
	if opens, closes, ok := d.Open(); ok {
		start.From, start.To, start.Mark = opens, closes, *d.On
	}
	out = append(out, start)
	if d.FirstMow != nil {
		out = append(out, Span{From: *d.FirstMow, Text: f.Say(told.Say("draw.first-cut-on", told.ShortDay(*d.FirstMow)))})
	}
	if s.UsableFrom != nil {
		out = append(out, Span{From: *s.UsableFrom, Text: f.Say(told.Say("draw.in-use-on", told.ShortDay(*s.UsableFrom))), Strong: true})
	}
	return out
}

// joined is the time between two tasks of one sort up to which they are one run.
const joined = 14 * day

// spansOf are the tasks of some sorts, runs joined, with their dates where asked for.
func spansOf(s *sowing.Plan, f *say.Sayer, dated bool, sorts ...job.Sort) (out []Span) {
	for _, t := range s.Tasks {
		if !slices.Contains(sorts, t.Sort) || t.Date.IsZero() {
			continue
		}
		if n := len(out); n > 0 && !dated && t.Date.Sub(out[n-1].end()) <= joined {
			if t.Ends().After(out[n-1].end()) {
				out[n-1].To = t.Ends()
			}
			continue
		}
		span := Span{From: t.Date, To: t.Until}
		if dated {
			span.Text = f.DayMonth(t.Date)
		}
		out = append(out, span)
	}
	return out
}

// Section is the section of the ground.
func Section(s *sowing.Plan, f *say.Sayer, w, h float64) *Drawing {
	g := Ground{Found: s.Bed.Found, Wanted: s.Bed.Layers}
	if s.Job == job.New && !s.Found.Soil.OnDeck {
		g.PavingLeastMM, g.PavingMostMM, g.BelowDampMM = bed.BelowPavingLeastMM, bed.BelowPavingMostMM, bed.BelowDampProofMM
	}
	return groundSection(g, f, w, h)
}

// Passes are the two passes of sowing.
func Passes(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	if s.Bed.Guide == nil {
		return nil
	}
	var passes []Pass
	for _, z := range s.Bed.Guide.Zones {
		for i, zone := range s.Site.Field.Zones {
			if zone.Letter == z.Zone {
				passes = append(passes, Pass{i, z.PassG})
			}
		}
	}
	lawn := s.Site.Survey.Lawn
	return sowingPasses(SiteOf(s, f), passes, bed.Mulches(lawn.SlopeDeg) && !lawn.AspectUnknown, f, w)
}

// Watering is the watering after sowing.
func Watering(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	var weeks []WaterWeek
	for _, k := range s.Dates.Watering {
		weeks = append(weeks, WaterWeek{f.Say(told.Say("draw.week", told.Ordinal(k.Number))), k.MeanMM, k.DryMM})
	}
	return wateringStrip(weeks, f, w)
}

// maxCutH is how high the drawing of the cut may be, mm.
const maxCutH = 26

// Cuts are the heights of cut of the year, each with the month it begins in; the grass
// is cut again when it has grown by half its height.
func Cuts(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	if s.Year.Cutting != year.ByThirds { // no height comes round
		return nil
	}
	var cuts []Cut
	for i, m := range s.Year.Months {
		if m.Mows <= 0 || m.CutMM <= 0 || len(cuts) > 0 && cuts[len(cuts)-1].CutMM == m.CutMM {
			continue
		}
		cuts = append(cuts, Cut{f.Say(told.Say("draw.from-month", told.Month(i+1))), m.CutMM, 1.5 * m.CutMM})
	}
	return cutHeights(cuts[:min(len(cuts), 4)], f, w, maxCutH)
}

// Cost compares the ways by price.
func Cost(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	var prices []Price
	for _, b := range s.Cost.Bills {
		p := Price{Name: say.Capital(f.Figure(told.Term{Kind: "way", Word: string(b.Way)})), Total: b.Total, Low: b.P10, High: b.P90, Chosen: b.Way == s.Kind}
		if b.UsableFrom != nil {
			p.Note = f.Say(told.Say("draw.use-from", told.Period{From: *b.UsableFrom}))
		}
		prices = append(prices, p)
	}
	return priceBars(prices, f, w)
}

// Width is the width that drawings are made for when they stand alone, and PlanHeight
// the height of the plans among them, mm.
const (
	Width      = 166.0
	PlanHeight = 126.0
)

// All are the drawings that a plan has something for, in the order of the report.
func All(s *sowing.Plan, f *say.Sayer, w float64) []*Drawing {
	var out []*Drawing
	add := func(d *Drawing) {
		if d != nil {
			out = append(out, d)
		}
	}
	add(Lawn(s, f, w, PlanHeight))
	add(Corners(s, f, w, PlanHeight))
	add(Noon(s, f, w))
	add(SunMap(s, f, w))
	add(Light(s, f, w))
	if s.Site != nil {
		for zone := range s.Site.Zones {
			add(Matrix(s, f, zone, w))
		}
	}
	add(Mixture(s, f, w))
	add(Sward(s, f, w, PlanHeight))
	add(Dates(s, f, w))
	add(Section(s, f, w, PlanHeight))
	add(Passes(s, f, w))
	add(Watering(s, f, w))
	add(Cuts(s, f, w))
	add(Cost(s, f, w))
	add(Record(s, f, w))
	return out
}
