package sowing

import (
	"fmt"
	"slices"
	"strings"

	"github.com/samber/lo"

	"swardwright/site/weather"
	"swardwright/sowing/money"
	"swardwright/species"
)

// conclude draws the answer from what the rooms found.
func (p *Plan) conclude() {
	p.Advice = p.advice()
	p.Headline = p.headline()
	p.Cautions = p.cautions()
	p.Assumptions = p.assumptions()
	p.Sources = p.sources()
}

func (p *Plan) advice() Advice {
	switch {
	case p.Choice.Mixture == nil:
		return AdviseNoGrass
	case p.Cost.Advised == money.Turf:
		return AdviseTurf
	case p.Brief.Job.Kind == Overseed && !p.Choice.Renovate:
		return AdviseOverseed
	}
	return AdviseSow
}

// headline is the answer in two sentences at most.
func (p *Plan) headline() string {
	c := p.Choice
	if c.Mixture == nil {
		return "No grass will hold here: " + c.Because + "."
	}
	var parts []string
	for _, x := range c.Mixture.Components {
		parts = append(parts, fmt.Sprintf("%d %% %s", x.Percent, p.NameOf(x.Species)))
	}
	verb := map[Advice]string{AdviseSow: "Sow", AdviseOverseed: "Overseed with", AdviseTurf: "Lay turf; if it is sown after all, sow"}[p.Advice]
	s := fmt.Sprintf("%s %s at %.3g g/m².", verb, enumerate(parts), p.Rate.GM2)
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
func (p *Plan) assumptions() []string {
	out := slices.Concat(p.Brief.Defaults, p.Site.Assumptions, p.Bed.Notes, p.Year.Notes, p.Order.Notes)
	if len(p.Cost.Bills) > 0 {
		out = append(out, p.Cost.Assumptions...) // nothing priced, nothing assumed of prices
	}
	if p.Brief.Date.IsZero() {
		out = append(out, fmt.Sprintf("the brief has no date: dates are shown for %d", p.Date.Year()))
	}
	if !p.Brief.Use.Irrigation && p.Choice.Mixture != nil {
		if p.Brief.seedbedWatered() {
			out = append(out, "the young grass is watered by hand until its first cut; the standing lawn is not watered")
		} else {
			out = append(out, "nothing is watered, not even the seedbed")
		}
	}
	out = append(out, p.unproven()...)
	return lo.Uniq(out)
}

// unproven names the ratings that decide about a grass of the mixture and rest
// on no publication.
func (p *Plan) unproven() []string {
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
				s := fmt.Sprintf("%s is limited by %s here, and that figure is %s, not measured", p.NameOf(c.Species), species.Limit(r.LimitedBy), basisWords[x.Basis])
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
func (p *Plan) sources() []string {
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
