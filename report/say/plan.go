package say

import (
	"swardwright/mix"
	"swardwright/sowing"
	"swardwright/species"
)

// For is the sayer of a plan, as its brief asks, with the grasses that it judged.
func For(p sowing.Plan) (*Sayer, error) {
	known := map[string]*species.Species{}
	for _, r := range p.Matrix.Rows {
		known[r.Species.ID] = r.Species
	}
	for _, m := range []*mix.Mixture{p.Choice.Mixture, p.Mixture} {
		if m == nil {
			continue
		}
		for _, c := range m.Components {
			known[c.Species.ID] = c.Species
		}
	}
	return New(p.Brief.Language, p.Brief.Units, p.Brief.Currency, func(id string) *species.Species { return known[id] })
}
