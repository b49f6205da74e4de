package sowing

import (
	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/sowing/bed"
	"swardwright/species"
)

// tooSteep is true where a mown lawn was asked for on ground that no mower should
// work.
func tooSteep(b Brief) bool {
	return !bed.Mowable(b.Site.Lawn.SlopeDeg) && b.Use.Grade != species.Extensive
}

// refuseSlope turns a choice into one of no lawn.
func refuseSlope(c mix.Choice) mix.Choice {
	c.Mixture, c.Attainable, c.Holds, c.Chance, c.ShortBy = nil, "", false, 0, nil
	c.Because = told.Say("mix.too-steep", told.OneIn(bed.Steepest))
	zones := make([]mix.ZoneVerdict, len(c.Zones))
	for i, v := range c.Zones {
		v.Verdict, v.Chance, v.Sown, v.LimitedBy = mix.None, 0, false, "slope"
		v.Instead = []told.Sentence{told.Say("job.terraces"), told.Say("job.shrubs"), told.Say("job.scythed-meadow")}
		zones[i] = v
	}
	c.Zones = zones
	return c
}
