package sowing

import (
	"swardwright/sowing/bed"
	"swardwright/species"
)

// tooSteep is true where a mown lawn was asked for on ground that no mower should
// work.
func (p *Plan) tooSteep() bool {
	return !bed.Mowable(p.Brief.Site.Lawn.SlopeDeg) && p.Brief.Use.Grade != species.Extensive
}

// refuseSlope turns the choice into one of no lawn.
func (p *Plan) refuseSlope() {
	c := &p.Choice
	c.Mixture, c.Attainable = nil, ""
	c.Because = "the ground is steeper than 1 in 3, too steep for a mown lawn"
	for i := range c.Zones {
		v := &c.Zones[i]
		v.Holds, v.Doubtful, v.Grade, v.LimitedBy = false, false, "", "slope"
		v.Instead = []string{"terraces, the walls designed by a chartered engineer", "ground-cover plants or shrubs that hold the slope", "a meadow cut once a year with a scythe (grade \"extensive\")"}
	}
}
