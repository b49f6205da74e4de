package sowing

import (
	"fmt"
	"slices"
	"strings"

	"github.com/samber/lo"
	"golang.org/x/text/language"

	"swardwright/internal/told"
	"swardwright/site/weather"
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

// nameOf is a species' usual name for the reader of the plan.
func nameOf(b Brief, s *species.Species) string { return s.Common(English(b.Language, b.Units)) }

// English is the tag of the kind of English that grasses are named in for a reader of
// a language and of units: American in North America, British elsewhere.
func English(lang, units string) string {
	region, sure := language.Make(lang).Region()
	american := units == "us"
	if sure == language.Exact {
		american = region.String() == "US" || region.String() == "CA"
	}
	if american {
		return "en-US"
	}
	return "en-GB"
}

// headline is the answer in two sentences at most.
func headline(p Plan) string {
	c := p.Choice
	if c.Mixture == nil {
		return "No grass will hold here."
	}
	var parts []string
	for _, x := range c.Mixture.Components {
		parts = append(parts, fmt.Sprintf("%d %% %s", x.Percent, nameOf(p.Brief, x.Species)))
	}
	var s string
	switch p.Advice {
	case AdviseTurf:
		s = fmt.Sprintf("Lay turf on %.0f m².", p.areaM2())
	case AdviseOverseed:
		s = fmt.Sprintf("Overseed with %s at %.3g g/m².", enumerate(parts), p.Rate.GM2)
	default:
		s = fmt.Sprintf("Sow %s at %.3g g/m².", enumerate(parts), p.Rate.GM2)
		if len(p.Laid) > 0 {
			s += fmt.Sprintf(" Lay turf on the other %.0f m².", job.Area(p.Laid))
		}
	}
	if all := p.Site.AreaM2; p.areaM2() < all-1 {
		s += fmt.Sprintf(" That is %.0f of %.0f m²: the rest is too dark or too poor for grass.", p.areaM2(), all)
	}
	if c.Asked != c.Attainable {
		s += fmt.Sprintf(" It will be a lawn of %s standard, not %s.", c.Attainable, c.Asked)
	}
	return s
}

// enumerate joins parts as a sentence does.
func enumerate(parts []string) string {
	if len(parts) < 2 {
		return strings.Join(parts, "")
	}
	return strings.Join(parts[:len(parts)-1], ", ") + " and " + parts[len(parts)-1]
}

// assumptions gathers what was taken for granted in every room, each once.
func assumptions(p Plan) []told.Sentence {
	out := slices.Concat(p.Brief.Defaults, p.Site.Assumptions, p.Bed.Notes, p.Year.Notes, asWritten(p.Order.Notes))
	if len(p.Cost.Bills) > 0 {
		out = append(out, p.Cost.Assumptions...) // nothing priced, nothing assumed of prices
	}
	if p.Brief.Date.IsZero() {
		out = append(out, told.Say("job.no-date", told.Year(p.Date.Year())))
	}
	if !p.Brief.Use.Irrigation && p.Choice.Mixture != nil {
		if p.Brief.seedbedWatered() {
			out = append(out, told.Say("job.watered-young"))
		} else {
			out = append(out, told.Say("job.unwatered"))
		}
	}
	out = append(out, unproven(p)...)
	return lo.UniqBy(out, func(s told.Sentence) string { return fmt.Sprint(s) })
}

// asWritten are sentences that still stand in letters.
func asWritten(list []string) []told.Sentence {
	return lo.Map(list, func(s string, _ int) told.Sentence { return told.Say("job.as-written", told.Verbatim(s)) })
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
func sources(p Plan) []string {
	out := []string{weather.Attribution}
	for _, c := range p.Matrix.Criteria {
		if c.Source != "" {
			out = append(out, c.Title+": "+c.Source)
		}
	}
	for _, c := range p.Bed.Checks {
		if c.Source != "" {
			out = append(out, c.ID+": "+c.Source)
		}
	}
	out = append(out, p.Year.Sources...)
	return lo.Uniq(out)
}
