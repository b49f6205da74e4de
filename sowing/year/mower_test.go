package year

import (
	"testing"
	"time"

	"swardwright/sowing/job"
	"swardwright/species"
)

// A cut takes the less time the wider the mower, and about as long by a usual width as
// without one.
func TestMinutesACut(t *testing.T) {
	hours := func(kind string, cm, m2 float64) float64 {
		return mowerFor(species.Use{Grade: species.Utility, Mower: kind, MowerWidthCM: cm}, m2, 1).hours(m2)
	}
	for _, r := range []struct {
		kind  string
		usual float64
		m2    float64
	}{{"rotary", 43, 300}, {"cylinder", 35, 300}, {"rotary", 92, 4000}} {
		if narrow, wide := hours(r.kind, r.usual*0.7, r.m2), hours(r.kind, r.usual*1.4, r.m2); narrow <= wide {
			t.Errorf("%s: %g h narrow, %g h wide", r.kind, narrow, wide)
		}
		near(t, r.kind+" of usual width over one of none", hours(r.kind, r.usual, r.m2)/hours(r.kind, 0, r.m2), 1, 0.15)
	}
	if h := hours("robot", 22, 300); h != robotHours {
		t.Errorf("a robot takes %g h of a person", h)
	}
}

// Common practice, no published source: a robot mows daily to every second day.
func TestRobotMowsDaily(t *testing.T) {
	w := want(place(t, "Fort Wayne", 1, false), species.Utility)
	w.Use.Mower = "robot"
	for i, m := range Plan(w).Months {
		if m.MowEveryDays > 2 {
			t.Errorf("month %d: every %g days", i+1, m.MowEveryDays)
		}
	}
}

// Mowers that are ridden: 15 degrees (British trade advice after BS EN 836).
func TestTooSteepToRide(t *testing.T) {
	for deg, want := range map[float64]bool{5: false, 15: false, 16: true} {
		c := place(t, "Fort Wayne", 1, false)
		c.AreaM2, c.Survey.Lawn.SlopeDeg = 3000, deg
		in := Input{Site: c, Use: species.Use{Grade: species.Utility}, StartOn: day("2027-05-05"), FirstMow: day("2027-06-14")}
		said := false
		for _, n := range Plan(in).Notes {
			said = said || n.Name == "year.too-steep-to-ride"
		}
		if said != want {
			t.Errorf("%g degrees: warned %t", deg, said)
		}
	}
}

// University of Illinois: water within 8 hours; University of Maryland Extension: spots of
// 150 to 250 mm. Only where there are dogs.
func TestDogSpots(t *testing.T) {
	if rinseHours != 8 || spotLeastMM != 150 || spotMostMM != 250 {
		t.Error("not as published")
	}
	for _, dogs := range []bool{false, true} {
		w := want(place(t, "Fort Wayne", 1, false), species.Utility)
		w.Use.Dogs = dogs
		said := false
		for _, x := range tasks(Plan(w), job.Reseeding, false) {
			said = said || x.ID == "mend-dog-spots"
		}
		if said != dogs {
			t.Errorf("dogs %t: told of %t", dogs, said)
		}
	}
}

// However a lawn is mown, its cuts and hours of a year are those of the tasks that come
// round, month by month, and the last one closes the year.
func TestCutsAreThoseOfTheTasks(t *testing.T) {
	for _, name := range []string{"Lerwick", "Wien", "Reykjavík"} {
		c := place(t, name, 1, false)
		c.EdgingM = 40
		for _, kind := range []string{"rotary", "robot", "cylinder"} {
			w := want(c, species.Utility)
			w.Use.Mower = kind
			cal := Plan(w)
			goes, hours, months, edges := 0, 0.0, 0.0, 0.0
			var last string
			for _, x := range tasks(cal, job.Mowing, false) {
				goes += x.Goes
				hours += float64(x.Goes) * x.Hours
				last = x.ID
			}
			for _, m := range cal.Months {
				months += m.Mows
			}
			for _, x := range tasks(cal, job.Edging, false) {
				edges += float64(x.Goes) * x.Hours
			}
			if goes < 2 || float64(goes) != cal.CutsPerYear || months != cal.CutsPerYear || last != "last-cut-2" && last != "last-cut" {
				t.Errorf("%s, %s: %d cuts in tasks, %g a year, %g in months; the last %s", name, kind, goes, cal.CutsPerYear, months, last)
			}
			near(t, name+", "+kind+": hours", hours, cal.MowHoursYear, 1e-9)
			if edges <= 0 {
				t.Errorf("%s, %s: edges take no time", name, kind)
			}
			if first := tasks(cal, job.Mowing, true)[0]; first.Hours <= 0 {
				t.Errorf("%s, %s: the first cut takes %g h", name, kind, first.Hours)
			}
		}
	}
}

// A fine lawn first cut as growth ends is brought down after the winter.
func TestFirstCutBeforeWinter(t *testing.T) {
	w := want(place(t, "Heathrow", 1, false), species.Ornamental)
	w.Use.MowingMM = 12
	for _, r := range []struct {
		sown, cut string
		spring    bool
	}{{"2027-04-10", "2027-06-05", false}, {"2027-09-16", "2027-11-25", true}} {
		w.StartOn, w.FirstMow = day(r.sown), day(r.cut)
		said := false
		for _, d := range tasks(Plan(w), job.Mowing, true)[0].Detail {
			said = said || d.Name == "year.first-cut-then"
		}
		if said != r.spring {
			t.Errorf("first cut on %s: brought down in spring %t", r.cut, said)
		}
	}
}

// A new sward is not grazed until it roots, six months or the next season (common practice,
// no published source), nor from less than 150 mm or below 80 (Utah State University
// Extension, Pastures), and only where there are animals.
func TestFirstGrazing(t *testing.T) {
	c := place(t, "Heathrow", 1, false)
	for _, r := range []struct {
		sown      string
		livestock bool
	}{{"2027-05-05", true}, {"2027-09-10", true}, {"2027-05-05", false}} {
		w := want(c, species.Utility)
		w.StartOn, w.FirstMow, w.UsableFrom, w.Use.Livestock = day(r.sown), day(r.sown).AddDate(0, 0, 45), nil, r.livestock
		said := false
		for _, x := range tasks(Plan(w), job.Watching, true) {
			if x.ID != "first-grazing" {
				continue
			}
			said = true
			if x.Date.Before(w.StartOn.AddDate(0, 6, 0)) || x.Date.After(w.StartOn.AddDate(1, 2, 0)) || x.Date.Month() < time.March || x.Date.Month() > time.November {
				t.Errorf("sown on %s: grazed from %s", r.sown, x.Date.Format(time.DateOnly))
			}
		}
		if said != r.livestock {
			t.Errorf("livestock %t: grazing told of %t", r.livestock, said)
		}
	}
	if GrazeFromMM != 150 || grazeDownMM != 80 {
		t.Error("not as published")
	}
}
