package year

import (
	"testing"

	"swardwright/internal/approx"
	"swardwright/internal/told"
	"swardwright/site"
	"swardwright/site/weather"
)

// No more is given at once than the rooted depth holds, and the oftener for it: 25 mm every 7 to 10 days
// (City of Regina; University of Saskatchewan) on deep ground, half of that twice as often where half is held.
func TestSoaking(t *testing.T) {
	for _, c := range []struct {
		depthM, holds, mm float64
		from, to          told.Days
	}{
		{0.30, 0.15, 25, 7, 10},
		{0.10, 0.125, 12.5, 4, 5},
		{0.06, 0.08, 4.8, 1, 2},
		{0.02, 0.08, leastGoMM, 1, 2},
	} {
		z := site.Zone{Days: &weather.Days{Exposure: weather.Exposure{RootDepthM: c.depthM, FieldCapacity: 0.05 + c.holds, WiltingPoint: 0.05}}}
		p := &plan{in: Input{Site: &site.Conditions{Zones: []site.Zone{z}}}}
		approx.Near(t, "a go, mm", p.soakMM(), c.mm, 1e-9)
		if got := p.soakEvery(); got != told.Between(c.from, c.to) {
			t.Errorf("%g mm every %v, want %v to %v days", c.mm, got, c.from, c.to)
		}
	}
}
