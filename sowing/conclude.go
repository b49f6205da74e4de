package sowing

import (
	"fmt"
	"math"
	"slices"

	"github.com/samber/lo"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/site/weather"
	"swardwright/sowing/bed"
	"swardwright/sowing/job"
	"swardwright/species"
)

// conclude draws the answer from what the rooms found.
func conclude(p Plan) Plan {
	p.Advice = adviceOf(p)
	p.Headline = headline(p)
	p.Cautions = cautions(p)
	p.Assumptions = assumptions(p)
	p.Sources = sources(p)
	return p
}

func adviceOf(p Plan) Advice {
	switch p.Kind {
	case "":
		return AdviseNoGrass
	case job.ByTurf:
		return AdviseTurf
	case job.ByOverseeding:
		return AdviseOverseed
	}
	return AdviseSow
}

// refusal is why nothing is sown: none of it would hold, or it would more likely be lost, and
// that to weeds alone where feeding it and pulling them would keep it.
func refusal(zones []mix.ZoneVerdict) told.Sentence {
	doubtful := lo.Filter(zones, func(v mix.ZoneVerdict, _ int) bool { return v.Verdict == mix.Doubtful })
	switch {
	case len(doubtful) == 0:
		return told.Say("job.no-grass")
	case lo.EveryBy(doubtful, func(v mix.ZoneVerdict) bool { return v.LimitedBy == mix.Weeds }):
		return told.Say("job.lost-to-weeds")
	}
	return told.Say("job.likely-lost")
}

// headline is the answer in a few sentences.
func headline(p Plan) []told.Sentence {
	c := p.Choice
	if c.Mixture == nil {
		return []told.Sentence{refusal(c.Zones)}
	}
	if p.Kind == "" {
		return []told.Sentence{told.Say("job.no-day")}
	}
	var out []told.Sentence
	switch p.Advice {
	case AdviseTurf:
		out = append(out, told.Say("job.lay", turfOf(p.Choice), told.AreaM2(p.areaM2())))
	case AdviseOverseed:
		out = append(out, overseeded(p, partsOf(c.Mixture))...)
	default:
		if p.Job == job.Renovate {
			out = append(out, told.Say("job.renovate", partsOf(c.Mixture), told.GramsPerM2(p.Rate.GM2)))
			break
		}
		if len(p.Sowings) > 1 {
			a, b := p.Sowings[0], p.Sowings[1]
			out = append(out, told.Say("job.sow-two", job.Named(a.Zones), partsOf(a.Mixture), told.GramsPerM2(a.Rate.GM2), job.Named(b.Zones), partsOf(b.Mixture), told.GramsPerM2(b.Rate.GM2)))
		} else {
			out = append(out, told.Say("job.sow", partsOf(c.Mixture), told.GramsPerM2(p.Rate.GM2)))
		}
		if len(p.Laid) > 0 {
			out = append(out, told.Say("job.lay-rest", turfOf(p.Choice), told.AreaM2(job.Area(p.Laid))))
		}
	}
	if all := p.Site.AreaM2; p.areaM2()+job.Area(p.Kept) < all-1 {
		out = append(out, told.Say("job.not-all", told.AreaM2(p.areaM2()), told.AreaM2(all)))
	}
	if c.Asked != c.Attainable {
		out = append(out, told.Say("job.other-standard", lawnOf(c.Attainable), lawnOf(c.Asked)))
	}
	return out
}

// partsOf are the grasses of a mixture with their shares.
func partsOf(m *mix.Mixture) told.List {
	return told.All(lo.Map(m.Components, func(x mix.Component, _ int) told.Sentence {
		return told.Say("job.part", told.Share(float64(x.Percent)/100), told.Grass(x.Species.ID))
	})...)
}

// turfOf is the grasses that turf is asked for by.
func turfOf(c mix.Choice) told.List {
	return told.All(lo.Map(c.Turf.Mixture.Components, func(x mix.Component, _ int) told.Grass { return told.Grass(x.Species.ID) })...)
}

// overseeded says what is overseeded, and what is as well left alone.
func overseeded(p Plan, mixture told.List) []told.Sentence {
	sow := told.Say("job.overseed", mixture, told.GramsPerM2(p.Rate.GM2))
	letters := func(zones []job.Zone) told.List {
		return told.All(lo.Map(zones, func(z job.Zone, _ int) told.Zone { return told.Zone(z.Letter) })...)
	}
	switch left := p.Choice.Left; {
	case bed.TooWeedy(p.Brief.weeds()):
		return []told.Sentence{told.Say("job.too-weedy", told.Share(p.Brief.weeds())), sow}
	case len(p.Kept) > 0:
		return []told.Sentence{told.Say("job.overseed-zones", letters(p.Sown), mixture, told.GramsPerM2(p.Rate.GM2), letters(p.Kept))}
	case len(left) > 0 && !slices.ContainsFunc(left, mix.Left.Worth):
		return []told.Sentence{told.Say("job.leave-alone"), sow}
	}
	return []told.Sentence{sow}
}

// lawnOf is a lawn of a standard.
func lawnOf(g species.Grade) told.Term { return told.Term{Kind: "lawn-of", Word: string(g)} }

// assumptions gathers what was taken for granted in every room, each once.
func assumptions(p Plan) []told.Sentence {
	out := slices.Concat(p.Brief.Defaults, p.Site.Assumptions, p.Bed.Notes, p.Bed.Moss, p.Year.Notes, p.Order.Notes)
	if len(p.Cost.Bills) > 0 {
		out = append(out, p.Cost.Assumptions...) // nothing priced, nothing assumed of prices
	}
	if p.Learned != nil {
		out = append(out, told.Say("job.rated-as-seen"))
		if math.Abs(p.Learned.Light-1) >= 0.005 { // as a whole percentage
			out = append(out, told.Say("job.lit-as-seen", told.Share(p.Learned.Light)))
		}
	}
	if p.Brief.Date.IsZero() {
		out = append(out, told.Say("job.no-date", told.Year(p.Date.Year())))
	}
	if !p.Brief.Use.Irrigation && p.Choice.Mixture != nil {
		if p.Brief.Use.WatersYoung() {
			out = append(out, told.Say("job.watered-young"))
		} else {
			out = append(out, told.Say("job.unwatered"))
		}
	}
	out = append(out, unproven(p)...)
	return lo.UniqBy(out, func(s told.Sentence) string { return fmt.Sprint(s) })
}

// unproven names the ratings that decide about a grass of the mixture and rest
// on no publication.
func unproven(p Plan) []told.Sentence {
	if p.Choice.Mixture == nil {
		return nil
	}
	var out []told.Sentence
	for _, c := range p.Choice.Mixture.Components {
		for i := range p.Site.Zones {
			r, ok := p.Matrix.Row(c.Species.ID, i)
			if !ok {
				continue
			}
			if x, ok := r.Rating(r.LimitedBy); ok && !x.Basis.Evidence() {
				out = append(out, told.Say("job.unproven", told.Grass(c.Species.ID), told.Term{Kind: "criterion", Word: r.LimitedBy}, told.Term{Kind: "basis", Word: string(x.Basis)}))
			}
		}
	}
	return out
}

// sources of the methods and figures that this plan stands on.
func sources(p Plan) []told.Sentence {
	out := []told.Sentence{told.Say("job.source", told.Source(weather.Attribution))}
	of := func(what told.Term, source string) {
		if source != "" {
			out = append(out, told.Say("job.source-of", what, told.Source(source)))
		}
	}
	for _, c := range p.Matrix.Criteria {
		of(told.Term{Kind: "criterion", Word: c.ID}, c.Source)
	}
	for _, c := range p.Bed.Checks {
		of(c.Told(), c.Source)
	}
	for _, s := range p.Year.Sources {
		of(told.Term{Kind: "care", Word: s.Of}, s.Source)
	}
	return lo.UniqBy(out, func(s told.Sentence) string { return fmt.Sprint(s) })
}
