package sowing

import (
	"slices"

	"github.com/samber/lo"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/site/light"
	"swardwright/sowing/bed"
)

// Limits of the cautions.
const (
	steepDeg     = 6.0  // from about 1:10 work on the slope is named a hazard
	longRunShare = 0.10 // of a grass nobody sowed in the sward worth a word
)

// shadedShare is the share of the open lawn's light below which other plants are named
// beside grass: shade over 50 % (University of Alaska Fairbanks Extension HGA-00045).
const shadedShare = 0.5

// farStationKM is from where on a station says little of a place (our judgement).
const farStationKM = 100.0

// cautions are what the client must hear: first where grass is the wrong or a
// doubtful answer, then what can hurt someone.
func cautions(p Plan) []told.Sentence {
	return append(doubts(p), hazards(p)...)
}

// doubts are the honest limits of the plan.
func doubts(p Plan) []told.Sentence {
	var out []told.Sentence

	for _, v := range p.Choice.Zones {
		z := p.Site.Zones[v.Zone]
		letter := told.Zone(z.Letter)
		switch {
		case !v.Sown:
			out = append(out, told.Say("job.no-grass-in", letter, z.Name, told.Share(z.Share), limit(v.LimitedBy), told.Joined(told.Clauses, v.Instead...)))
		case v.Verdict == mix.Doubtful && v.LimitedBy != "light":
			out = append(out, told.Say("job.doubtful-by", letter, z.Name, told.Term{Kind: "short-of", Word: v.LimitedBy}, told.Odds(v.Chance)))
		case v.Verdict == mix.Doubtful:
			out = append(out, told.Say("job.doubtful-in", letter, z.Name, told.DLI(z.Light.DLISeason), told.SunHours(z.Light.SunHoursSeason), told.Joined(told.Clauses, v.Instead...)))
		case z.Light.OpenShare < shadedShare:
			out = append(out, told.Say("job.shaded", letter, z.Name))
		}
	}
	if s := p.Site; s.DistanceKM > farStationKM {
		out = append(out, told.Say("job.far-station", told.Verbatim(s.Station.Name), told.DistanceKM(s.DistanceKM), told.LengthM(s.Station.AltitudeM)))
	}
	if c := p.Choice; c.Asked != c.Attainable && c.Attainable != "" {
		out = append(out, told.Say("job.standard-not-held", lawnOf(c.Asked)))
	}
	if m := p.Choice.Mixture; m != nil && len(m.Sward) > 0 {
		last := m.Sward[len(m.Sward)-1]
		for _, r := range p.Matrix.Zone(0) {
			if s := last.Shares[r.Species.ID]; r.Species.Invader && s >= 100*longRunShare {
				out = append(out, told.Say("job.invader", told.Grass(r.Species.ID), told.Share(s/100), told.Ordinal(last.Year)))
			}
		}
	}
	return append(out, p.Dates.Notes...)
}

// limit is what limits grass, a criterion or the slope.
func limit(id string) told.Term { return told.Term{Kind: "criterion", Word: id} }

// hazards are the usual cautions, where they apply and nowhere else. They defer
// to local codes and licensed practice.
func hazards(p Plan) []told.Sentence {
	var out []told.Sentence
	if p.Choice.Mixture == nil {
		return append(out, told.Say("job.whatever-instead"))
	}
	has := func(keys ...string) bool {
		return slices.ContainsFunc(p.Bed.Materials, func(m bed.Material) bool { return slices.Contains(keys, m.PriceKey) })
	}
	if soil := p.Found.Soil; soil.OnDeck {
		depth := 10 * soil.DepthCM
		out = append(out, told.Say("job.deck", told.DepthMM(depth), told.KGPerM2(soil.SoakedKGM3()*depth/1000)))
	} else {
		out = append(out, told.Say("job.services"))
	}
	if has("sand_per_m3", "dry_sand_per_kg", "lime_per_kg", "topsoil_per_m3", "spoil_per_m3") {
		out = append(out, told.Say("job.dust"))
	}
	out = append(out, told.Say("job.heavy"))
	out = append(out, told.Say("job.keep-from-children"))
	if carriers := endophytes(p); len(carriers) > 0 {
		names := told.All(carriers...)
		if p.Brief.Use.Livestock {
			out = append(out, told.Say("job.endophyte-free", names))
		} else {
			out = append(out, told.Say("job.endophyte", names))
		}
	}
	if p.Brief.Use.Livestock {
		out = append(out, told.Say("job.horses", told.Source("University of Minnesota Extension")),
			told.Say("job.horses-sugar", told.Source("Allen, Sheaffer and Martinson 2013, Agronomy Journal 105")))
	}
	out = append(out, told.Say("job.nutrient-rules"))
	out = append(out, told.Say("job.invasive"))
	if has("compost_per_m3") {
		out = append(out, told.Say("job.compost"))
	}
	out = append(out, told.Say("job.guards"))
	if needsPractitioner(p) {
		out = append(out, told.Say("job.practitioner"))
	}
	return append(out, told.Say("job.local-codes"))
}

// endophytes are the grasses of the mixture whose seed may carry an endophyte.
func endophytes(p Plan) []told.Grass {
	return lo.FilterMap(p.Choice.Mixture.Components, func(c mix.Component, _ int) (told.Grass, bool) {
		return told.Grass(c.Species.ID), c.Species.Endophyte
	})
}

func needsPractitioner(p Plan) bool {
	trees := lo.SomeBy(p.Site.Survey.Obstacles, func(o light.Obstacle) bool { return o.Kind == light.Tree })
	return trees || p.Site.Survey.Lawn.SlopeDeg >= steepDeg || p.Bed.DrainSpacingM > 0 || p.Bed.PuddleMM > 0 && !p.Found.Soil.OnDeck
}
