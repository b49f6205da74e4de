package sowing

import (
	"fmt"
	"slices"
	"strings"

	"github.com/samber/lo"
	"golang.org/x/text/language"

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
		return "No grass will hold here: " + c.Because + "."
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
		s += fmt.Sprintf(" It will be a lawn of %s standard, not %s: %s.", c.Attainable, c.Asked, c.Because)
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
func assumptions(p Plan) []string {
	out := slices.Concat(p.Brief.Defaults, p.Site.Assumptions, p.Bed.Notes, p.Year.Notes, p.Order.Notes)
	if len(p.Cost.Bills) > 0 {
		out = append(out, p.Cost.Assumptions...) // nothing priced, nothing assumed of prices
	}
	if p.Brief.Date.IsZero() {
		out = append(out, fmt.Sprintf("the brief has no date: the plan is made as if at the beginning of %d", p.Date.Year()))
	}
	if !p.Brief.Use.Irrigation && p.Choice.Mixture != nil {
		if p.Brief.seedbedWatered() {
			out = append(out, "the young grass is watered by hand until its first cut; the standing lawn is not watered")
		} else {
			out = append(out, "nothing is watered, not even the seedbed")
		}
	}
	out = append(out, unproven(p)...)
	return lo.Uniq(out)
}

// unproven names the ratings that decide about a grass of the mixture and rest
// on no publication.
func unproven(p Plan) []string {
	if p.Choice.Mixture == nil {
		return nil
	}
	var out []string
	for _, c := range p.Choice.Mixture.Components {
		for i := range p.Site.Zones {
			r, ok := p.Matrix.Row(c.Species.ID, i)
			if !ok {
				continue
			}
			if x, ok := r.Rating(r.LimitedBy); ok && !x.Basis.Evidence() {
				s := fmt.Sprintf("%s is limited by %s here, and that figure is %s, not measured", nameOf(p.Brief, c.Species), species.Limit(r.LimitedBy), basisWords[x.Basis])
				if !slices.Contains(out, s) {
					out = append(out, s)
				}
			}
		}
	}
	return out
}

var basisWords = map[species.Basis]string{
	species.Memory:   "recalled from its publication",
	species.Practice: "common practice, no published source",
	species.Inferred: "inferred",
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
			out = append(out, c.Name+": "+c.Source)
		}
	}
	out = append(out, p.Year.Sources...)
	return lo.Uniq(out)
}
