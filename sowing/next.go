package sowing

import (
	"slices"

	"github.com/samber/lo"

	"swardwright/mix"
	"swardwright/sowing/dates"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
)

// Next is next year's work in a zone of a sward that a record knows: left alone, which costs
// nothing but the care that it takes either way, or overseeded.
type Next struct {
	mix.Left
	SeedG  float64       // where it is overseeded
	Total  money.Amount  // of that: its part of the bill, by area; as much a square metre where the bill leaves it out
	Window *dates.Window // for that; nil: none is good
}

// nextYear sets the two beside each other for every zone. There are none where the sward is
// renovated, or can't be sown into.
func nextYear(left []mix.Left, grass []job.Zone, ways []Way) []Next {
	w := wayOf(ways, job.ByOverseeding)
	if w == nil {
		return nil
	}
	var window *dates.Window
	if d := &w.Dates; d.Chosen >= 0 && d.Chosen < len(d.Windows) {
		window = &d.Windows[d.Chosen]
	}
	all, billed := job.Area(w.Sown), money.Amount{Currency: w.Bill.Total.Currency}
	done := 0.0
	return lo.Map(left, func(l mix.Left, _ int) Next {
		z, _ := lo.Find(grass, func(z job.Zone) bool { return z.Index == l.Zone })
		n := Next{Left: l, SeedG: w.Rate.GM2 * z.AreaM2, Window: window}
		if !slices.Contains(w.Sown, z) {
			n.Total = w.Bill.Total.Part(z.AreaM2 / all)
			return n
		}
		// What is billed up to and with this zone, less what was before: parts add up to the bill.
		done += z.AreaM2
		upTo := w.Bill.Total.Part(done / all)
		n.Total, billed = upTo.Less(billed), upTo
		return n
	})
}
