package year

import (
	"testing"

	"swardwright/internal/calendar"
	"swardwright/site"
	"swardwright/sowing/job"
	"swardwright/species"
)

// Penn State Extension: lime on grass in autumn or winter, at most 488 g/m² (100 lb a
// 1000 square feet) at once; Maryland and Kansas feed in September and November and in
// May, and lime is kept four weeks from a feed.
func TestLimeLiesInWinterBetweenFeeds(t *testing.T) {
	for _, station := range []string{"Fort Wayne", "Anchorage", "Helsinki"} {
		t.Run(station, func(t *testing.T) { limed(t, want(place(t, station, 1, false), species.Utility)) })
	}
}

// bareIn is the share of years in which neither snow nor frost lies on a day.
func bareIn(c *site.Conditions, day int) (share float64) {
	d := c.Zones[0].Days
	for k := day; k < len(d.SnowCM); k += 365 {
		if d.SnowCM[k] < 1 && d.SoilC[k] >= 0 {
			share += 1 / float64(d.Years)
		}
	}
	return share
}

func limed(t *testing.T, w Input) {
	w.Old, w.Lime = true, []float64{400, 400}
	c := Plan(w)
	var limed []job.Task
	for _, x := range c.Tasks {
		if x.Title.Name == "bed.lime" {
			limed = append(limed, x)
		}
	}
	if len(limed) != len(w.Lime) {
		t.Fatalf("limed %d times", len(limed))
	}
	for i, x := range limed {
		if m := x.Date.Month(); m > 4 && m < 10 {
			t.Errorf("limed on %s", x.Date.Format("2 Jan"))
		}
		if i > 0 && x.Date.Before(limed[i-1].Date.AddDate(0, job.LimeApartMonths, 0)) {
			t.Errorf("limed on %s and %s", limed[i-1].Date, x.Date)
		}
		if k := calendar.DayOf(x.Date); bareIn(w.Site, k) < 0.5 {
			t.Errorf("limed on %s, when snow or frost lies on it in %.0f %% of years", x.Date.Format("2 Jan"), 100-100*bareIn(w.Site, k))
		}
		for _, f := range c.Tasks {
			if apart := f.Date.Sub(x.Date).Hours() / 24; f.Sort == job.Feeding && apart > -limeFeedDays && apart < limeFeedDays {
				t.Errorf("fed %s, %g days from lime", f.Date.Format("2 Jan 2006"), apart)
			}
		}
	}
	w.Lime = nil
	for _, x := range Plan(w).Tasks {
		if x.Title.Name == "bed.lime" {
			t.Error("limed without need")
		}
	}
}
