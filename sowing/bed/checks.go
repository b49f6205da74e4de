package bed

import (
	"fmt"
	"math"
	"strings"

	"swardwright/site/ground"
	"swardwright/sowing/job"
	"swardwright/species"
)

// Slopes as rise over run.
const (
	steepest  = 1.0 / 3 // mown grass: Uppsala and Östersund municipalities; BS 4428:1989
	preferred = 1.0 / 5 // BS 4428:1989
	warnFrom  = 0.10    // University of Alaska Fairbanks Extension HGA-00046
	terrace   = 0.25    // City of Regina, New lawns
	leastFall = 0.01    // Växjö municipality, Teknisk handbok
)

// Mowable says whether a lawn on this slope, in degrees, can be mown safely.
func Mowable(slopeDeg float64) bool {
	return math.Tan(slopeDeg*math.Pi/180) <= steepest
}

func slopeChecks(slope float64) []Check {
	figure := "level"
	if slope > 0 {
		figure = fmt.Sprintf("%.0f %% (1 in %.0f)", 100*slope, 1/slope)
	}
	c := Check{Name: "slope", Figure: figure, Limit: "mown grass at most 1 in 3, better 1 in 5", OK: slope <= steepest,
		Source: "BS 4428:1989; Uppsala and Östersund municipalities, technical handbooks"}
	switch {
	case slope > steepest:
		c.Advice = "too steep to mow safely: no mown lawn here. Terrace it, or plant ground cover or a meadow cut once a year; walls and banks go to a chartered engineer"
	case slope >= terrace:
		c.Advice = "consider terracing (City of Regina asks for it from 25 %); mow along a bank with a hand mower only, never a ride-on"
	case slope > preferred:
		c.Advice = "steeper than the 1 in 5 to be wished: hold the seed with netting and mow with care"
	case slope >= warnFrom:
		c.Advice = "from 10 % on rain washes seed: sow in dressing or under netting, and rake across the slope, never down it"
	}
	fall := Check{Name: "fall", Figure: figure, Limit: "1 to 2 % away from buildings, 3 % where snow melts on frozen ground", OK: slope >= leastFall,
		Source: "University of Alaska Fairbanks Extension HGA-00046 (1 to 2 %); Växjö municipality (at least 1 %); City of Regina (2 %); University of Saskatchewan (about 3 %)"}
	if !fall.OK {
		fall.Advice = "grade the finished level to fall 1 to 2 % (10 to 20 mm a metre) away from the house: hollows fill, freeze and kill the grass"
	}
	return []Check{c, fall}
}

// leastCover of the old sward that overseeding can still mend.
const leastCover = 0.5

// checks tests the ground as found and as prepared.
func (z rootzone) checks(w Input, b Bed, pipesHelp bool) []Check {
	soil, rain := w.Site.Soil, w.Site.Weather.DesignRainMMH
	var list []Check
	add := func(c Check) {
		if c.OK {
			c.Advice = ""
		}
		list = append(list, c)
	}

	if width, ok := narrowest(w.Site.Survey.Lawn.Parts); ok {
		add(Check{Name: "width", Figure: fmt.Sprintf("%.1f m at the narrowest part", width), Limit: fmt.Sprintf("%g m, so that a mower can turn", leastWidthM),
			OK: width >= leastWidthM, Source: "Uppsala municipality, technical handbook", Advice: "too narrow for a machine: cut it by hand, pave it, or plant it"})
	}
	want := depthMM(w.Use.Grade)
	add(Check{Name: "depth of topsoil", Figure: fmt.Sprintf("%.0f mm", soil.DepthCM*10), Limit: fmt.Sprintf("%.0f mm", want),
		OK: soil.DepthCM*10 > want-leastImportMM || z.made, Source: "Östersund municipality (150 mm at least); City of Regina (150 to 200 mm); East Lothian and Tauranga (100 mm on verges)",
		Advice: depthAdvice(w, z)})

	if w.Kind == job.New && !z.made && (w.Use.Grade == species.Ornamental || w.Use.Grade == species.HardWearing) {
		add(Check{Name: "texture", Figure: soil.Texture, Limit: fmt.Sprintf("at most %d %% clay for a fine or a worn lawn", mostClay), OK: soil.ClayPercent <= mostClay,
			Source: "common practice, no published source", Advice: sandAdvice(soil)})
	}
	list = append(list, rainCheck("design rain, ground as found", rain, soil.InfiltrationMMH, b.FoundPuddleMM, b.FoundPuddleHours))
	if w.Kind != job.Overseed {
		c := rainCheck("design rain, as prepared", rain, z.water.KsatMMH, b.PuddleMM, b.PuddleHours)
		if !c.OK {
			c.Advice += "; " + rootzoneAdvice(w, rain)
		}
		list = append(list, c)
	}

	drained := Check{Name: "drainage", Figure: soil.Drainage + " drained", Limit: "moderately well drained or better", OK: soil.Wetness < wetFrom,
		Source: "USDA Soil Survey Manual (classes); Hooghoudt (spacing), in Ritzema, ILRI Publication 16, 1994"}
	switch {
	case drained.OK:
	case b.DrainSpacingM > 0:
		drained.Advice = fmt.Sprintf("pipe drains about %.1f m apart; ask a drainage engineer before digging, above all near walls, slopes, neighbours or an outfall", b.DrainSpacingM)
	case !pipesHelp:
		drained.Advice = fmt.Sprintf("this ground passes too little water for pipes alone (they would have to lie closer than %.0f m): a made rootzone on gravel with an outfall, or a raised lawn; ask a drainage engineer", closestM)
	default:
		drained.Advice = "spiking and sand dressing help the surface only: drains belong to a renewal of the lawn; ask a drainage engineer"
	}
	add(drained)

	bearing := Check{Name: "bearing in winter", Figure: string(soil.WinterBearing), Limit: "firm", OK: soil.WinterBearing == ground.Firm,
		Source: "common practice, no published source", Advice: "keep wheels off from autumn to spring"}
	if soil.WinterBearing == ground.Poor {
		bearing.Advice = "keep feet and wheels off whenever it is wet; lay a path where people must pass"
	}
	if !z.made {
		add(bearing)
	}

	if low, high := wantedPH(w.Parts); low > 0 {
		figure := fmt.Sprintf("%.1f", soil.PH)
		if !soil.PHKnown {
			figure = "not tested"
		}
		add(Check{Name: "acidity (pH)", Figure: figure, Limit: fmt.Sprintf("%.1f to %.1f for this mixture", low, high),
			OK: !soil.PHKnown || soil.PH >= low && soil.PH <= high, Source: "the species table, by share of the mixture", Advice: phAdvice(soil.PH, low, b)})
		if limit, who := saltLimit(w.Parts); who != nil {
			add(Check{Name: "salt", Figure: fmt.Sprintf("ECe %.1f dS/m", soil.ECeDSM), Limit: fmt.Sprintf("%.1f dS/m, where %s starts to suffer", limit, who.ID),
				OK: soil.ECeDSM <= limit, Source: "the species table", Advice: "find where the salt comes from (road spray, sea, feed) and wash it down with clean water once the ground drains"})
		}
	}
	if w.Kind == job.Overseed && w.Cover > 0 {
		add(Check{Name: "cover of the old sward", Figure: fmt.Sprintf("%.0f %%", 100*w.Cover), Limit: fmt.Sprintf("%.0f %% or more", 100*leastCover),
			OK: w.Cover >= leastCover, Source: "common practice, no published source", Advice: "renovate the whole lawn instead: too little is left to mend"})
	}
	organic := soil.OrganicPercent
	add(Check{Name: "organic matter", Figure: fmt.Sprintf("%.1f %%", organic), Limit: fmt.Sprintf("%g %% or more", organicFloor),
		OK: organic >= organicFloor, Source: "common practice, no published source; Saskatoon asks for 5 %", Advice: organicAdvice(z)})

	if z.gravel {
		for _, c := range USGA2004.Checks(JointOf(withFines(mediumSand, z.grain), fineGravel)) {
			c.Name += " between rootzone and gravel"
			c.Figure += " (usual gradings taken; ask the merchant for sieve tests)"
			add(c)
		}
	}
	return list
}

// A close or trodden lawn on clay seals and poaches: mostClay is the clay it bears,
// sandyPercent the sand of a mix that keeps its pores. Common practice, no
// published source.
const (
	mostClay     = 27
	sandyPercent = 75
)

// sandAdvice says how much sand makes a rootzone of heavy soil.
func sandAdvice(soil ground.Soil) string {
	share, err := ShareFor(rootzoneSand, grainOf(soil), sandyPercent)
	if err != nil {
		return "bring in lighter topsoil"
	}
	return fmt.Sprintf("mix %.0f parts of sand with %.0f of this soil by volume for a rootzone of %d %% sand, or bring in lighter topsoil; a little sand on clay makes it worse, not better",
		100*share, 100*(1-share), sandyPercent)
}

func depthAdvice(w Input, z rootzone) string {
	if w.Kind != job.New {
		return "shallow: dress a few millimetres every year, 5 mm at most in one go, and water in drought"
	}
	return fmt.Sprintf("bring in %.0f mm of topsoil", z.importMM)
}

func organicAdvice(z rootzone) string {
	if z.compostMM > 0 {
		return fmt.Sprintf("dig in %.0f mm of weed-free compost", z.compostMM)
	}
	return "dress with compost in the mix every year"
}

func phAdvice(ph, low float64, b Bed) string {
	switch {
	case ph > low && ph > 7:
		return "no lime, no lime-rich sand in dressings; feed with sulphate of ammonia"
	case b.LimeGM2 > 0:
		return "lime as stated"
	default:
		return "no lime yet; test again in three years"
	}
}

func rainCheck(name string, rain, intake, puddleMM, hours float64) Check {
	c := Check{Name: name, Limit: fmt.Sprintf("%.0f mm within an hour, met once in two years, taken in without standing water", rain), OK: puddleMM < 1,
		Source: "intake by Saxton & Rawls 2006 and FAO Irrigation Training Manual 5; storm from the place's rain"}
	if c.OK {
		c.Figure = fmt.Sprintf("takes in %.0f mm an hour; nothing stands", intake)
		return c
	}
	c.Figure = fmt.Sprintf("takes in %.1f mm an hour; on level ground %.0f mm stand for %s", intake, puddleMM, hoursText(hours))
	c.Advice = "the fall of 1 to 2 % sheds most of it; spike, keep hollows filled"
	return c
}

func hoursText(h float64) string {
	switch {
	case h < 1:
		return "less than an hour"
	case h < 1.5:
		return "an hour"
	case h < 48:
		return fmt.Sprintf("%.0f hours", h)
	default:
		return fmt.Sprintf("%.0f days", h/24)
	}
}

// rootzoneAdvice names the least share of sand in a mix with this soil that takes
// in the design rain.
func rootzoneAdvice(w Input, rain float64) string {
	soil := grainOf(w.Site.Soil)
	for share := 0.5; share < 0.96; share += 0.05 {
		g := Blend(rootzoneSand, soil, share)
		if ground.WaterOf(g.SandPercent, g.ClayPercent, g.OrganicPercent).KsatMMH >= rain {
			return fmt.Sprintf("a made rootzone of %.0f %% sand and %.0f %% of this soil on gravel would take it in", 100*share, 100*(1-share))
		}
	}
	return "only a pure sand rootzone on gravel would take it in"
}

// notes holds what a check does not say.
func notes(w Input, z rootzone, b Bed) []string {
	var list []string
	if w.Kind == job.New {
		list = append(list, "Finished level: 12 to 25 mm below paving that is mown over (City of Regina), 25 mm proud of kerbs that new soil must settle to (East Lothian Council), and at least 150 mm below the damp-proof course of a house.")
	}
	if z.made {
		list = append(list, fmt.Sprintf("The rootzone is a %s: %.0f %% sand, %.0f %% silt, %.0f %% clay. For a putting green the USGA allows at most 5 %% silt and 3 %% clay; a lawn with more holds water better in dry weather.",
			z.class, z.grain.SandPercent, 100-z.grain.SandPercent-z.grain.ClayPercent, z.grain.ClayPercent))
	}
	if z.gravel {
		r := withFines(mediumSand, z.grain)
		list = append(list, fmt.Sprintf("Gravel to ask for: D15 between %.1f and %.1f mm, D90 at most 3 times D15, nothing over 12 mm (USGA, edition 2004; the 1993 edition allows D15 up to %.1f mm and a ratio of 2.5). Coarser gravel needs 50 to 100 mm of grit between.",
			USGA2004.Permeability*r.D(15), USGA2004.Bridging*r.D(85), USGA1993.Bridging*r.D(85)))
	}
	if b.StarterP2O5 > 0 && w.Site.Soil.Phosphorus == "" {
		list = append(list, "Phosphate is reckoned for an untested soil: have it tested first. Where local rules allow phosphate on proven need only, leave it out until the test is back.")
	}
	if w.Site.Weather.ColdestMonthC < 0 {
		list = append(list, "Frozen ground takes in nothing: the fall, not the soil, keeps ice off this lawn in winter.")
	}
	if strings.Contains(w.Method, "drill") && w.Kind == job.New {
		list = append(list, "Drilled seed needs no raking in: roll once after the drill.")
	}
	return list
}
