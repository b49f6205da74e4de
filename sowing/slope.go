package sowing

import (
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
	c.Mixture, c.Attainable = nil, ""
	c.Because = "the ground is steeper than 1 in 3, too steep for a mown lawn"
	zones := make([]mix.ZoneVerdict, len(c.Zones))
	for i, v := range c.Zones {
		v.Holds, v.Doubtful, v.Grade, v.LimitedBy = false, false, "", "slope"
		v.Instead = []string{"terraces, the walls designed by a chartered engineer", "ground-cover plants or shrubs that hold the slope", "a meadow cut once a year with a scythe (grade \"extensive\")"}
		zones[i] = v
	}
	c.Zones = zones
	return c
}
