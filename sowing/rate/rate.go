// Package rate turns a mixture into grams of seed: from viable seeds wanted per
// square metre, pure live seed and seeds per gram, within the published weight
// rates.
package rate

import (
	"slices"

	"swardwright/internal/steady"
	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/sowing/job"
	"swardwright/species"
)

// Input is what is to be sown, on what.
type Input struct {
	Parts  []Part
	Grade  species.Grade // sets the viable seeds wanted (mix.SeedTarget)
	SownM2 float64       // that is sown

	Meadow       bool // sown as thinly as one of grasses alone
	Overseed     bool
	CoverPercent float64 // living cover of the old sward, for overseeding
	Method       string  // "broadcast", "drill", "in dressing"; empty: broadcast
	Late         bool    // sown in the last weeks of the season
}

// Part is one species of the mixture.
type Part struct {
	Species *species.Species
	Percent float64  // by weight
	Lot     *mix.Lot // the seed it is to be of, by its label; nil: what a lawful lot has at least
}

// Rate is how much seed is sown.
type Rate struct {
	GM2        float64 // seed as bought, where it is sown
	SeedsPerM2 float64 // viable, at that rate
	Target     float64 // viable seeds/m² asked for
	Low, High  float64 // the published weight rates that bound it, g/m²
	Bounded    bool    // the seed count asked for more or less than they allow
	Because    told.Sentence
	Components []Component
	SownM2     float64
	TotalG     float64
}

// Component is the seed of one species.
type Component struct {
	SpeciesID   string
	Botanical   string
	GM2, TotalG float64
	PLS         float64 // pure live seed, 0 to 1
	SeedPercent float64 // of viable seeds
	Source      string  // of purity and germination
}

// Own constants.
const (
	// lateShare is how much more is sown late in the season: 5 to 10 % by a French
	// trade journal on greening poor soils (placedupro.com, article 659).
	lateShare = 1.075
	// drillShare is what drilling needs of the broadcast rate, for seed that is all
	// covered at one depth: common practice, no published source.
	drillShare = 0.9
)

// For works out the seed. Seed count and published weight rates can't both hold
// for every grass: 20,000 viable seeds are 50 g of ryegrass and 2 g of bent. So
// the count is aimed at and the weights bound it; method, season and old sward
// then change the rate and its bounds alike.
func For(want Input) Rate {
	parts := make([]mix.Part, len(want.Parts))
	pls := make([]float64, len(want.Parts))
	for i, p := range want.Parts {
		parts[i] = mix.Part{Species: p.Species, Percent: p.Percent}
		pls[i] = mix.PureLiveSeed(p.Species, p.Lot)
	}
	d := mix.Sow(parts, pls, want.Grade, 0)
	low, high := mix.WeightRates(parts)
	if want.Meadow {
		low, high = mix.LeastMeadowGM2, mix.MostMeadowGM2
		if d.RateGM2 > high {
			d = mix.Sow(parts, pls, want.Grade, high)
			d.Bounded = true
		}
	}
	r := Rate{GM2: d.RateGM2, SeedsPerM2: d.SeedsPerM2, Target: mix.SeedTarget(want.Grade), Low: low, High: high, Bounded: d.Bounded}
	factor, why := want.factor()
	r.Because = told.Say("job.rate", told.Joined(told.Clauses, append([]told.Sentence{because(r, want)}, why...)...))
	r.GM2, r.Low, r.High, r.SeedsPerM2 = r.GM2*factor, low*factor, high*factor, r.SeedsPerM2*factor
	// Rounded to what a scale can weigh out, so that the printed figures multiply.
	if rounded := steady.Round(r.GM2, 1); rounded > 0 {
		r.SeedsPerM2 *= rounded / r.GM2
		r.GM2 = rounded
	}
	r.SownM2 = want.SownM2
	total := 0.0
	for _, p := range parts {
		total += p.Percent
	}
	for i, p := range parts {
		c := Component{SpeciesID: p.Species.ID, Botanical: p.Species.Botanical, PLS: pls[i], Source: labelSource(want.Parts[i])}
		if total > 0 {
			c.GM2 = r.GM2 * p.Percent / total
		}
		if d.SeedsPerM2 > 0 {
			c.SeedPercent = 100 * d.Viable[i] / d.SeedsPerM2
		}
		c.TotalG = c.GM2 * r.SownM2
		r.TotalG += c.TotalG
		r.Components = append(r.Components, c)
	}
	return r
}

// Together is the seed of two mixtures, each sown at its rate on ground of its own: the
// mean over the ground, and of every grass what both take.
func Together(a, b Rate) Rate {
	area := a.SownM2 + b.SownM2
	mean := func(x, y float64) float64 { return (x*a.SownM2 + y*b.SownM2) / area }
	r := Rate{
		GM2: mean(a.GM2, b.GM2), SeedsPerM2: mean(a.SeedsPerM2, b.SeedsPerM2), Target: a.Target,
		Low: min(a.Low, b.Low), High: max(a.High, b.High), Bounded: a.Bounded || b.Bounded,
		Because: told.Say("job.rate-two", a.Because, b.Because), SownM2: area, TotalG: a.TotalG + b.TotalG,
	}
	for _, of := range []Rate{a, b} {
		for _, c := range of.Components {
			seeds := c.SeedPercent * of.SeedsPerM2 * of.SownM2 / (r.SeedsPerM2 * area)
			at := slices.IndexFunc(r.Components, func(x Component) bool { return x.SpeciesID == c.SpeciesID })
			if at < 0 {
				at = len(r.Components)
				r.Components = append(r.Components, Component{SpeciesID: c.SpeciesID, Botanical: c.Botanical, PLS: c.PLS, Source: c.Source})
			}
			x := &r.Components[at]
			x.TotalG += c.TotalG
			x.GM2 = x.TotalG / area
			x.SeedPercent += seeds
		}
	}
	return r
}

// On is the same rate on so many square metres.
func (r Rate) On(areaM2 float64) Rate {
	r.SownM2, r.TotalG = areaM2, 0
	r.Components = slices.Clone(r.Components)
	for i := range r.Components {
		r.Components[i].TotalG = r.Components[i].GM2 * areaM2
		r.TotalG += r.Components[i].TotalG
	}
	return r
}

// factor is by how much the rate on a fair, bare seedbed is changed, and why.
func (w Input) factor() (float64, []told.Sentence) {
	factor, why := 1.0, []told.Sentence(nil)
	by := func(share float64) told.Figure {
		factor *= share
		return told.Share(share)
	}
	if w.Method == job.Drill {
		why = append(why, told.Say("job.rate-drilled", by(drillShare)))
	}
	if w.Late {
		why = append(why, told.Say("job.rate-late", by(lateShare)))
	}
	if w.Overseed {
		why = append(why, told.Say("job.rate-overseed", by(mix.OverseedShare(w.CoverPercent)), told.Share(w.CoverPercent/100)))
	}
	return factor, why
}

// because says where the rate on a fair, bare seedbed comes from.
func because(r Rate, want Input) told.Sentence {
	sown, asked := told.SeedsPerM2(r.SeedsPerM2), told.SeedsPerM2(r.Target)
	bounds := told.Between(told.GramsPerM2(r.Low), told.GramsPerM2(r.High))
	switch {
	case len(want.Parts) == 0:
		return told.Say("job.rate-unsown")
	case want.Meadow:
		return told.Say("job.rate-meadow", sown, bounds)
	case !r.Bounded:
		return told.Say("job.rate-within", asked, bounds)
	case r.SeedsPerM2 < r.Target:
		return told.Say("job.rate-fewer", sown, asked, bounds)
	default:
		return told.Say("job.rate-more", sown, asked, bounds)
	}
}

// labelSource names where purity and germination come from.
func labelSource(p Part) string {
	traits := []species.Trait{species.Purity, species.Germination}
	if p.Lot != nil && p.Lot.PurityPercent > 0 {
		traits = slices.DeleteFunc(traits, func(t species.Trait) bool { return t == species.Purity })
	}
	if p.Lot != nil && p.Lot.GerminationPercent > 0 {
		traits = slices.DeleteFunc(traits, func(t species.Trait) bool { return t == species.Germination })
	}
	if len(traits) == 0 {
		return "the lot's label"
	}
	s := p.Species.Values[traits[0]].Source
	if len(traits) == 1 {
		return "the lot's label and " + s
	}
	return s
}
