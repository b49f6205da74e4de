package year

import (
	"testing"

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
	if h := hours("robot", 22, 300); h != 0 {
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
