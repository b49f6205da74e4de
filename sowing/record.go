package sowing

import (
	"context"
	"time"

	"swardwright/mix/record"
	"swardwright/mix/sward"
	"swardwright/site"
	"swardwright/site/weather"
	"swardwright/sowing/dates"
	"swardwright/sowing/job"
	"swardwright/species"
)

// Changed is a grass of which the record changes how much is sown.
type Changed struct {
	Species *species.Species
	Is, Was float64 // of the seed by weight, 0 to 1, and without what was seen
}

// muchSeed is the share of the seed from which a change is told: less is the search's.
const muchSeed = 0.10

// learn weighs the lawns that this one may be by what was seen on it; nil where nothing was.
func learn(ctx context.Context, t Tables, b Brief, found *site.Conditions) (*record.Learned, error) {
	if b.Record.Empty() {
		return nil, nil
	}
	r := b.Record
	r.Water = func(d *weather.Days) (w sward.Water) {
		w.Stir, w.Grow = dates.Waters(d, b.Use.WatersYoung())
		return w
	}
	return record.Learn(ctx, found, t.Species, b.Use, r, b.planDate())
}

// asSeen is the brief with what its record tells of the standing sward.
func (b Brief) asSeen(found *site.Conditions, l *record.Learned) Brief {
	if l == nil || b.Job.Kind == job.New || b.Job.CoverPercent != nil {
		return b
	}
	cover := 0.0
	for i, z := range found.Zones {
		for _, x := range l.Known.MeanStand(i) {
			cover += z.Share * x
		}
	}
	b.Job.CoverPercent = new(100 * min(1, cover))
	return b
}

// weeds is the share of the sward that was weeds on the last day on which they were counted.
func (b Brief) weeds() float64 {
	var last time.Time
	weeds, points := 0, 0
	for _, s := range b.Record.Seen {
		if s.Points == 0 || s.Rest > 0 || s.Date.Before(last) {
			continue
		}
		if s.Date.After(last) {
			last, weeds, points = s.Date, 0, 0
		}
		weeds, points = weeds+s.Weeds, points+s.Points
	}
	if points == 0 {
		return 0
	}
	return float64(weeds) / float64(points)
}

// rated are the grasses as this place has shown them.
func rated(t Tables, l *record.Learned) *species.Table {
	if l == nil {
		return t.Species
	}
	return t.Species.Moved(l.Known.Traits)
}

// known is what a record tells of the lawns, for the choice of the grasses.
func known(l *record.Learned) *sward.Known {
	if l == nil {
		return nil
	}
	return l.Known
}

// asLit is a site in the light that was seen on it: what is rated by light and what is shown of
// it go by that. The lawns of the record have it already.
func asLit(c *site.Conditions, l *record.Learned) *site.Conditions {
	if l == nil || l.Light == 1 {
		return c
	}
	return c.Lit(l.Light)
}

// changed is what was seen does to the mixture: chosen roughly, with it and for the same lawns without,
// for the place followed roughly.
func changed(ctx context.Context, t kit, p *Plan, rough *site.Conditions) ([]Changed, error) {
	if p.Learned == nil || p.Choice.Mixture == nil {
		return nil, nil
	}
	with, err := roughly(ctx, t, p.Brief, rough, nil, p.Learned)
	if err != nil {
		return nil, err
	}
	without, err := roughly(ctx, t, p.Brief, rough, nil, &record.Learned{Known: p.Learned.Alone, Light: 1})
	if err != nil || with.Choice.Mixture == nil || without.Choice.Mixture == nil {
		return nil, err
	}
	var out []Changed
	for _, sp := range t.Species.All() {
		c := Changed{sp, p.Choice.Mixture.Share(sp), without.Choice.Mixture.Share(sp)}
		// What differs is the record's where the rough answers differ alike.
		alike := with.Choice.Mixture.Share(sp) - c.Was
		if d := c.Is - c.Was; (d >= muchSeed && alike >= muchSeed/2) || (d <= -muchSeed && alike <= -muchSeed/2) {
			out = append(out, c)
		}
	}
	return out, nil
}
