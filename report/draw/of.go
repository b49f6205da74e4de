package draw

import (
	"slices"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/report/say"
	"swardwright/sowing"
	"swardwright/sowing/job"
	"swardwright/species"
)

// The drawings of a plan: each takes out of it what its drawing shows.

func siteOf(s *sowing.Plan, f *say.Sayer) Site {
	v := s.Site.Survey
	out := Site{
		Lawn: v.Lawn.Parts, Obstacles: v.Obstacles, Field: s.Site.Field, LatitudeDeg: v.Place.LatitudeDeg,
		NorthDeg: v.Lawn.PlanNorthDeg, SlopeDeg: v.Lawn.SlopeDeg, AspectDeg: v.Lawn.AspectDeg,
	}
	for i, z := range s.Site.Field.Zones {
		zone := Zone{Letter: z.Letter, Name: z.Name, AreaM2: z.AreaM2, Share: z.Share}
		become := becomes(s, z.Letter)
		zone.Word = f.Say(become)
		zone.Grass, zone.Note = become.Name != "draw.no-grass", zone.Word
		for _, v := range s.Choice.Zones {
			switch {
			case v.Zone != i:
			case !zone.Grass && len(v.Instead) > 0:
				zone.Note = f.Say(told.Say("draw.no-grass-instead", told.Verbatim(v.Instead[0])))
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
	}
	return told.Say("draw.by-seed-word")
}

// Lawn is the plan of the lawn.
func Lawn(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	if s.Site == nil {
		return nil
	}
	return SitePlan(siteOf(s, f), f, w)
}

// Key is the lawn in small.
func Key(s *sowing.Plan, f *say.Sayer, w, h float64) *Drawing {
	if s.Site == nil {
		return nil
	}
	return KeyPlan(siteOf(s, f), f, w, h)
}

// Corners is the plan for setting out.
func Corners(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	if s.Site == nil {
		return nil
	}
	return SettingOut(siteOf(s, f), f, w)
}

// SunMap is sun and light over the lawn.
func SunMap(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	if s.Site == nil {
		return nil
	}
	return LightMaps(siteOf(s, f), f, w)
}

// Noon is the section towards the noon sun.
func Noon(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	if s.Site == nil {
		return nil
	}
	return SunSection(siteOf(s, f), f, w)
}

// Light is the light by month.
func Light(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	if s.Site == nil {
		return nil
	}
	return LightCurves(s.Site.Field, f, w)
}

// mostRows is how many grasses a drawn matrix shows besides those of the mixture.
const mostRows = 10

func sown(s *sowing.Plan) map[string]bool {
	out := map[string]bool{}
	if m := s.Choice.Mixture; m != nil {
		for _, c := range m.Components {
			out[c.Species.ID] = true
		}
	}
	return out
}

// MatrixRows are the rows of a zone that its matrix draws, best first: the leading
// grasses, and those of the mixture.
func MatrixRows(s *sowing.Plan, zone int) []species.Row {
	sown := sown(s)
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
		name = s.Site.Zones[zone].Letter + ", " + s.Site.Zones[zone].Name
	}
	return MatrixOf(Suitability{zone, name, s.Matrix.Criteria, MatrixRows(s, zone), sown(s)}, f, w)
}

// Mixture is the mixture by weight and by seed.
func Mixture(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	if s.Choice.Mixture == nil {
		return nil
	}
	var shares []Share
	for i, c := range s.Choice.Mixture.Components {
		shares = append(shares, Share{partKey(i), f.Figure(told.Grass(c.Species.ID)), float64(c.Percent), c.SeedPercent})
	}
	return MixtureBars(shares, f, w)
}

// Sward is the sward through the seasons.
func Sward(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	m := s.Choice.Mixture
	if m == nil {
		return nil
	}
	out := Seasons{Bare: f.Say(told.Say("draw.bare"))}
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
		out.Bad = append(out.Bad, y.BadCover)
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
	return SwardArea(out, f, w)
}

// Dates is the year as bars.
func Dates(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	var growth [12]float64
	for i, m := range s.Year.Months {
		growth[i] = m.Growth
	}
	return YearBars(lanesOf(s, f), growth, f, w)
}

// lanesOf are the rows of the year, those without work left out.
func lanesOf(s *sowing.Plan, f *say.Sayer) []Lane {
	var out []Lane
	add := func(name string, kind LaneKind, spans []Span) {
		if len(spans) > 0 {
			out = append(out, Lane{name, kind, spans})
		}
	}
	d := s.Dates
	var start []Span
	if d.On != nil {
		what := f.Say(told.Say("draw.sow-on", told.ShortDay(*d.On)))
		if s.Kind == job.ByTurf {
			what = f.Say(told.Say("draw.lay-on", told.ShortDay(*d.On)))
		}
		start = append(start, Span{From: *d.On, Text: what, Strong: true})
		if d.Chosen >= 0 && d.Chosen < len(d.Windows) {
			w := d.Windows[d.Chosen]
			start[0] = Span{From: w.Opens, To: w.Closes, Mark: *d.On, Text: what, Strong: true}
		}
		if d.FirstMow != nil {
			start = append(start, Span{From: *d.FirstMow, Text: f.Say(told.Say("draw.first-cut-on", told.ShortDay(*d.FirstMow)))})
		}
		if d.UsableFrom != nil {
			start = append(start, Span{From: *d.UsableFrom, Text: f.Say(told.Say("draw.in-use-on", told.ShortDay(*d.UsableFrom))), Strong: true})
		}
	}
	add(f.Say(told.Say("draw.establishing")), Establishing, start)
	of := func(dated bool, sorts ...job.Sort) (spans []Span) {
		for _, t := range s.Tasks {
			if !slices.Contains(sorts, t.Sort) || t.Date.IsZero() || !t.First && d.On != nil {
				continue
			}
			span := Span{From: t.Date, To: t.Until}
			if dated {
				span.Text = f.DayMonth(t.Date)
			}
			spans = append(spans, span)
		}
		return spans
	}
	add(f.Say(told.Say("draw.mowing")), Mowing, of(false, job.Mowing))
	add(f.Say(told.Say("draw.water")), Water, of(false, job.Watering))
	add(f.Say(told.Say("draw.feed")), Feed, of(true, job.Feeding))
	add(f.Say(told.Say("draw.watch")), Watch, of(false, job.Watching))
	return out
}

// Section is the section of the ground.
func Section(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	return GroundSection(Ground{Found: s.Bed.Found, Wanted: s.Bed.Layers}, f, w)
}

// Passes are the two passes of sowing.
func Passes(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	if s.Site == nil || s.Bed.Guide == nil {
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
	return SowingPasses(siteOf(s, f), passes, f, w)
}

// Watering is the watering after sowing.
func Watering(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	var weeks []WaterWeek
	for _, k := range s.Dates.Watering {
		weeks = append(weeks, WaterWeek{f.Say(told.Say("draw.week", told.Ordinal(k.Number))), k.MeanMM, k.DryMM})
	}
	return WateringStrip(weeks, f, w)
}

// maxCutH is how high the drawing of the cut may be, mm.
const maxCutH = 32

// Cuts are the heights of cut of the year, each with the month it begins in; the grass
// is cut again when it has grown by half its height.
func Cuts(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	var cuts []Cut
	for i, m := range s.Year.Months {
		if m.Mows <= 0 || m.CutMM <= 0 || len(cuts) > 0 && cuts[len(cuts)-1].CutMM == m.CutMM {
			continue
		}
		cuts = append(cuts, Cut{f.Say(told.Say("draw.from-month", told.Month(i+1))), m.CutMM, 1.5 * m.CutMM})
	}
	return CutHeights(cuts[:min(len(cuts), 4)], f, w, maxCutH)
}

// Cost compares the ways by price.
func Cost(s *sowing.Plan, f *say.Sayer, w float64) *Drawing {
	var prices []Price
	for _, b := range s.Cost.Bills {
		p := Price{Name: say.Capital(f.Figure(told.Term{Kind: "way", Word: string(b.Way)})), Total: b.Total, Low: b.P10, High: b.P90, Chosen: b.Way == s.Kind}
		if b.UsableFrom != nil {
			p.Note = f.Say(told.Say("draw.use-from", told.ShortDay(*b.UsableFrom)))
		}
		prices = append(prices, p)
	}
	return PriceBars(prices, f, w)
}

// Width is the width that drawings are made for when they stand alone, mm.
const Width = 166.0

// All are the drawings that a plan has something for, in the order of the report.
func All(s *sowing.Plan, f *say.Sayer, w float64) []*Drawing {
	var out []*Drawing
	add := func(d *Drawing) {
		if d != nil {
			out = append(out, d)
		}
	}
	add(Lawn(s, f, w))
	add(Corners(s, f, w))
	add(Noon(s, f, w))
	add(SunMap(s, f, w))
	add(Light(s, f, w))
	if s.Site != nil {
		for zone := range s.Site.Zones {
			add(Matrix(s, f, zone, w))
		}
	}
	add(Mixture(s, f, w))
	add(Sward(s, f, w))
	add(Dates(s, f, w))
	add(Section(s, f, w))
	add(Passes(s, f, w))
	add(Watering(s, f, w))
	add(Cuts(s, f, w))
	add(Cost(s, f, w))
	return out
}
