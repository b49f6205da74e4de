package sowing

import (
	"context"

	"swardwright/site/weather"
	"swardwright/species"
)

// Elsewhere is what would lead the mixture by the weather of the next station: a lawn
// lies at none, and what two that are as near say otherwise is a near tie.
type Elsewhere struct {
	Station    weather.Station
	DistanceKM float64
	Leads      *species.Species
}

// nextKM is how far a station may be to speak for the same place.
const nextKM = 300.0

// LookElsewhere fills in a plan's Elsewhere, roughly, for whoever doubts the plan: it takes a
// tenth of the plan's own time. It stays nil where there is no mixture, where the brief has a
// climate of its own, and where no other station is near.
func LookElsewhere(ctx context.Context, t Tables, p *Plan) error {
	at := p.Found.Station
	if p.Choice.Mixture == nil || at.WMO == "" {
		return nil
	}
	next, km := t.Stations.Next(at)
	if km > nextKM {
		return nil
	}
	b := p.Brief
	b.Site.Place.Station, b.Site.Place.AltitudeM = next.WMO, &p.Found.Normals.AltitudeM
	k := kitOf(t)
	site, err := roughSite(ctx, k, b, true)
	if err != nil {
		return err
	}
	there, err := roughly(ctx, k, b, site, nil, p.Learned)
	if err != nil {
		return err
	}
	if m := there.Choice.Mixture; m != nil {
		p.Elsewhere = &Elsewhere{next, km, m.Leads()}
	}
	return nil
}
