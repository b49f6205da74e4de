package sowing

import (
	"fmt"
	"slices"
	"strings"

	"github.com/samber/lo"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/site/light"
	"swardwright/sowing/bed"
	"swardwright/species"
)

// Limits of the cautions.
const (
	steepDeg     = 6.0  // from about 1:10 work on the slope is named a hazard
	longRunShare = 0.10 // of a grass nobody sowed in the sward worth a word
)

// shadeAlternatives are what public advice offers where light is short.
const shadeAlternatives = "a shade ground cover, woodland plants, moss, mulch, gravel or paving"

// shadedShare is the share of the open lawn's light below which other plants are named
// beside grass: shade over 50 % (University of Alaska Fairbanks Extension HGA-00045).
const shadedShare = 0.5

// farStationKM is from where on a station says little of a place (our judgement).
const farStationKM = 100.0

// cautions are what the client must hear: first where grass is the wrong or a
// doubtful answer, then what can hurt someone.
func cautions(p Plan) []told.Sentence {
	return slices.Concat(asWritten(doubts(p)), p.Dates.Notes, asWritten(hazards(p)))
}

// doubts are the honest limits of the plan.
func doubts(p Plan) []string {
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }

	for _, v := range p.Choice.Zones {
		z := p.Site.Zones[v.Zone]
		switch {
		case !v.Sown():
			say("Zone %s, %s (%.0f %% of the lawn): no grass will hold there (limited by %s). Instead: %s.",
				z.Letter, z.Name, 100*z.Share, species.Limit(v.LimitedBy), strings.Join(v.Instead, ", "))
		case v.Verdict == mix.Doubtful:
			say("Zone %s, %s: it is doubtful that grass lasts there, at %.1f mol m⁻² d⁻¹ (about %.1f h of sun on a clear day). Keep feet off it, cut high, and think of %s before money is spent on it every year.",
				z.Letter, z.Name, z.Light.DLISeason, z.Light.SunHoursSeason, shadeAlternatives)
		case z.Light.OpenShare < shadedShare:
			say("Zone %s, %s: less than half of the open light reaches it. Where grass thins there, %s is the better answer.", z.Letter, z.Name, shadeAlternatives)
		}
	}
	if s := p.Site; s.DistanceKM > farStationKM {
		say("The weather is that of %s, %.0f km away and %.0f m above the sea: a lawn there may be no guide to this one. Give the place's altitude and, under [climate], normals from nearer by, before you rely on the grasses and the dates.",
			s.Station.Name, s.DistanceKM, s.Station.AltitudeM)
	}
	if c := p.Choice; c.Asked != c.Attainable && c.Attainable != "" {
		say("The %s standard asked for cannot be held here.", c.Asked)
	}
	if m := p.Choice.Mixture; m != nil && len(m.Sward) > 0 {
		last := m.Sward[len(m.Sward)-1]
		for _, r := range p.Matrix.Zone(0) {
			if s := last.Shares[r.Species.ID]; r.Species.Invader && s >= 100*longRunShare {
				say("A grass that nobody sowed, %s, comes in by itself and makes about %.0f %% of the sward by year %d; it seeds even under close mowing and thins in drought and under ice.", nameOf(p.Brief, r.Species), s, last.Year)
			}
		}
	}
	return out
}

// hazards are the usual cautions, where they apply and nowhere else. They defer
// to local codes and licensed practice.
func hazards(p Plan) []string {
	var out []string
	if p.Choice.Mixture == nil {
		return append(out, "Whatever is planted or laid instead: find buried services before digging. Local codes and licensed practice come before this plan.")
	}
	has := func(keys ...string) bool {
		return slices.ContainsFunc(p.Bed.Materials, func(m bed.Material) bool { return slices.Contains(keys, m.PriceKey) })
	}
	out = append(out, "Find buried cables, pipes and drains before digging, spiking or driving edging in; ask the owners of the services.")
	if has("sand_per_m3", "lime_per_kg", "topsoil_per_m3", "spoil_per_m3") {
		out = append(out, "Dry sand, lime and soil raise dust that harms the lungs: wet them down, wear a mask that fits, and stay upwind.")
	}
	out = append(out, "Bags, barrows and turf are heavy: lift with the legs, share the load, and keep barrow runs firm and level.")
	out = append(out, "Keep seed, above all dressed seed, and fertiliser from children, animals and watercourses; sweep both off paving.")
	if carriers := endophytes(p); len(carriers) > 0 {
		names := enumerate(carriers)
		if p.Brief.Use.Livestock {
			out = append(out, "Animals graze here or are fed the clippings: the seed of "+names+" must be declared free of endophyte on its label.")
		} else {
			out = append(out, "The seed of "+names+" may carry an endophyte that poisons grazing animals, horses most of all: never graze this lawn or feed its clippings.")
		}
	}
	out = append(out, "Lime and fertiliser only by a soil test and within local nutrient rules, which differ near water and from place to place.")
	out = append(out, "Check that no species of the mixture is listed as invasive where the lawn lies.")
	if has("compost_per_m3") {
		out = append(out, "Handle compost with gloves and in the open air; it can carry moulds and bacteria.")
	}
	out = append(out, "Keep guards on mower and edging tools; clear stones first, and stop the engine before reaching in.")
	if needsPractitioner(p) {
		out = append(out, "Standing water, drains, retaining walls, steep ground and trees, which may be under a preservation order, belong to a licensed or chartered practitioner.")
	}
	return append(out, "Local codes and licensed practice come before anything in this plan.")
}

// endophytes are the grasses of the mixture whose seed may carry an endophyte.
func endophytes(p Plan) []string {
	return lo.FilterMap(p.Choice.Mixture.Components, func(c mix.Component, _ int) (string, bool) {
		return nameOf(p.Brief, c.Species), c.Species.Endophyte
	})
}

func needsPractitioner(p Plan) bool {
	trees := lo.SomeBy(p.Site.Survey.Obstacles, func(o light.Obstacle) bool { return o.Kind == light.Tree })
	return trees || p.Site.Survey.Lawn.SlopeDeg >= steepDeg || p.Bed.DrainSpacingM > 0 || p.Bed.PuddleMM > 0
}
