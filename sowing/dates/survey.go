package dates

import (
	"context"
	"errors"
	"slices"
	"time"

	"swardwright/site"
	"swardwright/species"
)

// Want is what is asked of the dates.
type Want struct {
	From                          time.Time // first day that can be considered, or NotBefore if later; the year after it is searched
	NotBefore, NotAfter, NeededBy *time.Time
	Success                       float64 // share of years; 0: four in five
	Overseed                      bool    // into a living sward, which keeps the ground covered
	Watered                       bool    // the seedbed is kept moist until the first mowing
	LeafFallDay                   int     // day of the year on which deciduous trees over the lawn have dropped their leaves; 0: none
}

// Table holds the fate of every species in every zone on every sowing day of
// every synthetic year.
type Table struct {
	want  Want
	years int
	zones []*zone
	ids   map[string]int
	table []sown
}

// sown is what a species' sowing depends on.
type sown struct {
	id             string
	warm           bool
	base, emergeDD float64 // germination
	mowDD          float64 // growth from emergence to first mowing
	lt50           float64
	hotFit, dryFit float64 // heat and drought tolerance, 0 to 1
}

// Survey sets out to work out the fate of every species of the table on every
// sowing day; each is followed when it is first asked for.
// It fails only when ctx ends or the conditions hold no days.
func Survey(ctx context.Context, cond *site.Conditions, table []*species.Species, want Want) (*Table, error) {
	if want.Success == 0 {
		want.Success = defaultSuccess
	}
	if want.From.IsZero() {
		if want.NotBefore == nil {
			return nil, errors.New("dates: no first day to consider")
		}
		want.From = *want.NotBefore
	}
	if nb := want.NotBefore; nb != nil && nb.After(want.From) {
		want.From = *nb // the year from there on
	}
	t := &Table{want: want, ids: map[string]int{}}
	var bases []float64
	for _, s := range table {
		v := s.Best()
		b := v[species.GermBaseC]
		t.ids[s.ID] = len(t.table)
		t.table = append(t.table, sown{
			id: s.ID, warm: s.Warm, base: b, emergeDD: v[species.EmergeDegDays],
			mowDD: mowDegDays / (mowVigourLow + (1-mowVigourLow)*v[species.Vigour]),
			lt50:  v[species.FreezingC], hotFit: v[species.Heat], dryFit: v[species.Drought],
		})
		if !slices.Contains(bases, b) {
			bases = append(bases, b)
		}
	}
	for i := range cond.Zones {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		cz := &cond.Zones[i]
		if cz.Days == nil || cz.Days.Years == 0 {
			return nil, errors.New("dates: a zone holds no days")
		}
		z := newZone(cz, bases, want)
		t.years = cz.Days.Years
		z.survival, z.success = make([][]uint8, len(table)), make([][365]float32, len(table))
		t.zones = append(t.zones, z)
	}
	if len(t.zones) == 0 {
		return nil, errors.New("dates: the lawn has no zones")
	}
	return t, nil
}
