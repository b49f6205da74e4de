package dates

import (
	"maps"

	"swardwright/site"
	"swardwright/site/weather"
)

// Grounds keeps the ground that was followed, with what came of what was sown and laid on it,
// so that ground of the same days is followed once: for a first look at a lawn and the last,
// for its ways and its variants. The zero value holds none. It is not for several goroutines
// at once.
type Grounds struct{ zones map[bedding]*zone }

// bedding is all that a zone depends on but its share of the lawn.
type bedding struct {
	days             *weather.Days
	slopeDeg         float64
	watered, mulched bool
	depthMM          float64
	leafFallDay      int
	leafFall         float64
}

// Beside are the same grounds for what is planned beside a lawn: what that adds isn't kept
// with them.
func (g *Grounds) Beside() *Grounds { return &Grounds{maps.Clone(g.zones)} }

// zone is a zone of a lawn.
func (g *Grounds) zone(cz *site.Zone, slopeDeg float64, input Input) *zone {
	b := bedding{cz.Days, slopeDeg, input.Watered, input.Mulched, input.DepthMM, input.LeafFallDay, cz.LeafFall}
	followed, ok := g.zones[b]
	if !ok {
		if g.zones == nil {
			g.zones = map[bedding]*zone{}
		}
		followed = newZone(cz, slopeDeg, input)
		g.zones[b] = followed
	}
	z := *followed
	z.share = cz.Share
	return &z
}

// grown is what came of what was sown and laid in a zone, as far as it was asked for.
type grown struct {
	watered, dry *care
	traces       map[seed]trace
	trials       map[seed]trial // of the bed as it is kept
	laid         map[bool]field // by whether the turf is of the warm season
}

// seed is all that the fate of a grass in a zone depends on.
type seed struct {
	sown
	watered bool
	living  float64
}

// traced follows a grass on every sowing day.
func (z *zone) traced(s *sown, input Input) (trial, trace) {
	of := seed{*s, input.Watered, input.Living}
	t, ok := z.grown.trials[of]
	if !ok {
		t = newTrial(z, s, z.bedKept(input.Watered), input)
		z.grown.trials[of], z.grown.traces[of] = t, t.trace()
	}
	return t, z.grown.traces[of]
}

// tracedDry is the same where nobody waters.
func (z *zone) tracedDry(s *sown, input Input) trace {
	of := seed{*s, false, input.Living}
	out, ok := z.grown.traces[of]
	if !ok {
		t := newTrial(z, s, z.bedKept(false), input)
		out = t.trace()
		z.grown.traces[of] = out
	}
	return out
}

// bedKept is the care of a bed that is watered or left to the rain.
func (z *zone) bedKept(watered bool) *care {
	c := &z.grown.dry
	if watered {
		c = &z.grown.watered
	}
	if *c == nil {
		*c = z.kept(watered)
	}
	return *c
}
