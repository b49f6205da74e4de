package weather

import (
	"math"
	"testing"
	"time"

	"swardwright/internal/calendar"
)

// Frost dates against published ones. American stations read whole degrees, so that
// their 32 °F is up to a third of a degree over what is frost here and a day or two
// earlier in autumn.
func TestFrostDates(t *testing.T) {
	day := func(month time.Month, d int) int {
		return calendar.DayOf(time.Date(2027, month, d, 0, 0, 0, 0, time.UTC))
	}
	const within = 10 // days
	s := table(t)
	for _, c := range []struct {
		station     string
		last, first int // medians published; -1: none
	}{
		// High Plains Regional Climate Center, 1896-2012 (University of Nebraska, 2012),
		// average first freeze.
		{"North Platte", -1, day(time.September, 29)},
		{"Omaha", -1, day(time.October, 17)},
		// National Weather Service, Cleveland (News 5, 2022): average first freeze.
		{"Cleveland", -1, day(time.October, 28)},
		// National Weather Service, Burlington (2025): first on 8 October on average, after
		// 158 days without.
		{"Burlington", day(time.May, 3), day(time.October, 8)},
		// National Weather Service, Minneapolis-St Paul, 1991-2020, from memory.
		{"Minneapolis", day(time.April, 27), day(time.October, 12)},
		// German Weather Service, 1981-2010 (Tagesschau, 2021): most of the country in the
		// last third of October.
		{"Potsdam", -1, day(time.October, 25)},
		{"Hannover", -1, day(time.October, 25)},
	} {
		series, _ := yearsAt(t, s, c.station, 200)
		got := series.Summary()
		if c.last >= 0 && math.Abs(float64(got.LastFrost50-c.last)) > within {
			t.Errorf("%s: last frost of spring on day %d, published %d", c.station, got.LastFrost50, c.last)
		}
		if math.Abs(float64(got.FirstFrost50-c.first)) > within {
			t.Errorf("%s: first frost of autumn on day %d, published %d", c.station, got.FirstFrost50, c.first)
		}
		if got.LastFrost10 < got.LastFrost50 || got.FirstFrost10 > got.FirstFrost50 {
			t.Errorf("%s: %+v", c.station, got)
		}
	}
}
