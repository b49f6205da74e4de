package dates

import (
	"context"
	"errors"
	"slices"

	"swardwright/internal/calendar"
	"swardwright/site"
	"swardwright/site/weather"
	"swardwright/species"
)

// Input is what the dates depend on beside the place and the grasses.
type Input struct {
	Success     float64 // share of years in which a day must succeed; 0: four in five
	Living      float64 // share of the ground that a living sward keeps covered, into which it is sown
	Watered     bool    // the seedbed is kept moist until the first mowing
	Mulched     bool    // straw, compost or a blanket lies on it
	DepthMM     float64 // of the seed; 0: raked in
	CutMM       float64 // height at which the lawn will be kept; 0: half of the height of a first cut
	LeafFallDay int     // day of the year on which deciduous trees have dropped their leaves, where any fall on a zone; 0: never
}

// Table holds a lawn's ground, day by day through the synthetic years.
type Table struct {
	input   Input
	years   int
	coldest int // day of the year
	zones   []*zone
	ids     map[string]int
	table   []sown
}

// sown is what a species' sowing depends on.
type sown struct {
	id             string
	warm           bool
	base, emergeDD float64 // germination
	mowDD          float64 // growth from emergence to the size of a first mowing
	cutDD          float64 // and to the height at which this lawn is first mown
	lt50           float64
	hotFit, dryFit float64 // heat and drought tolerance, 0 to 1
}

// Survey follows the ground of every zone through the years of the conditions.
// It fails only when ctx ends or the conditions hold no days.
func Survey(ctx context.Context, cond *site.Conditions, table []*species.Species, input Input) (*Table, error) {
	return new(Grounds).Survey(ctx, cond, table, input)
}

// Survey is the same on grounds of which some may have been followed.
func (g *Grounds) Survey(ctx context.Context, cond *site.Conditions, table []*species.Species, input Input) (*Table, error) {
	if input.Success == 0 {
		input.Success = defaultSuccess
	}
	t := &Table{input: input, ids: map[string]int{}}
	for _, s := range table {
		v := s.Best()
		t.ids[s.ID] = len(t.table)
		t.table = append(t.table, sown{
			id: s.ID, warm: s.Warm, base: v[species.GermBaseC], emergeDD: v[species.EmergeDegDays],
			mowDD: species.MowDegDays(v[species.Vigour]), cutDD: species.FirstCutDegDays(v[species.Vigour], input.CutMM),
			lt50: v[species.LT50C], hotFit: v[species.Heat], dryFit: v[species.Drought],
		})
	}
	for i := range cond.Zones {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		cz := &cond.Zones[i]
		if cz.Days == nil || cz.Days.Years == 0 {
			return nil, errors.New("dates: a zone holds no days")
		}
		t.years = cz.Days.Years
		t.zones = append(t.zones, g.zone(cz, cond.Survey.Lawn.SlopeDeg, input))
	}
	if len(t.zones) == 0 {
		return nil, errors.New("dates: the lawn has no zones")
	}
	t.coldest = t.zones[0].days.Normals.ColdestDay()
	return t, nil
}

// capped takes off what shares that add up to one add up to beyond it by rounding.
func capped(share [calendar.Year]float64) [calendar.Year]float64 {
	for day := range share {
		share[day] = min(share[day], 1)
	}
	return share
}

// spanAt reads a percentile of values in any order.
func spanAt(v []float64, p float64) float64 {
	sorted := slices.Clone(v)
	slices.Sort(sorted)
	return weather.Percentile(sorted, p)
}
