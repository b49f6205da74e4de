package sowing

import (
	"context"

	"swardwright/mix/record"
	"swardwright/mix/sward"
	"swardwright/site"
	"swardwright/sowing/job"
)

// learn weighs the lawns that this one may be by what was seen on it; nil where nothing was.
func learn(ctx context.Context, t Tables, b Brief, found *site.Conditions) (*record.Learned, error) {
	if b.Record.Empty() {
		return nil, nil
	}
	return record.Learn(ctx, found, t.Species, b.Use, b.Record, b.planDate())
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

// known is what a record tells of the lawns, for the choice of the grasses.
func known(l *record.Learned) *sward.Known {
	if l == nil {
		return nil
	}
	return l.Known
}
