package bed

import (
	"slices"
	"testing"

	"swardwright/site/ground"
	"swardwright/sowing/job"
	"swardwright/species"
)

// State of Colorado, mined-land reclamation permits: 448 to 560 g/m² of straw; Pennsylvania
// DEP, Erosion and Sediment Pollution Control Program Manual: a blanket from 3H:1V. Under
// 1 in 5 nothing is laid.
func TestSlopeIsCovered(t *testing.T) {
	for _, r := range []struct {
		degrees        float64
		straw, blanket bool
	}{{0, false, false}, {11, false, false}, {12, true, false}, {18, true, false}, {19, false, true}} {
		c := place(t, ground.Survey{})
		c.Survey.Lawn.SlopeDeg = r.degrees
		b := Plan(Input{Site: c, Use: species.Use{Grade: species.Extensive, Irrigation: true}, Kind: job.New, Parts: mixture(), Sown: []job.Zone{{Letter: "A", AreaM2: 84}}, SeedGM2: 10, SeedsM2: 9000})
		for name, want := range map[string]bool{"bed.straw-item": r.straw, "bed.blanket-item": r.blanket} {
			at := slices.IndexFunc(b.Materials, func(m Material) bool { return m.Item.Name == name })
			if (at >= 0) != want {
				t.Errorf("%g degrees: %s %t", r.degrees, name, at >= 0)
			} else if want && name == "bed.straw-item" {
				near(t, "straw, kg/m²", b.Materials[at].KG/84, 0.504, 0.0561)
			}
		}
		sow := b.Tasks[slices.IndexFunc(b.Tasks, func(x job.Task) bool { return x.ID == "sow" })]
		along := false
		for _, s := range sow.Detail {
			along = along || s.Name == "bed.sow-slope"
		}
		if along != (r.straw || r.blanket) {
			t.Errorf("%g degrees: sown along the slope %t", r.degrees, along)
		}
		c.Survey.Lawn.SlopeDeg = r.degrees
		if Mulches(r.degrees) != (r.straw || r.blanket) {
			t.Errorf("%g degrees: mulched %t", r.degrees, Mulches(r.degrees))
		}
	}
}

// A drilled lawn is neither taught casting nor reckoned by hand, whatever the job.
func TestDrilledLawnHasADrill(t *testing.T) {
	for _, kind := range []job.Kind{job.New, job.Renovate, job.Overseed} {
		for method, output := range map[string]string{"drill": "drill_m2_per_hour", "broadcast": "sow_m2_per_hour"} {
			b := Plan(Input{Site: place(t, ground.Survey{}), Kind: kind, Method: method, Parts: mixture(), Sown: []job.Zone{{Letter: "A", AreaM2: 84}}, SeedGM2: 25, SeedsM2: 20000})
			sow := b.Tasks[slices.IndexFunc(b.Tasks, func(x job.Task) bool { return x.ID == "sow" })]
			if sow.OutputKey != output {
				t.Errorf("%s by %s: %s", kind, method, sow.OutputKey)
			}
			if z := b.Guide.Zones[0]; (z.HandfulN == 0) != (method == "drill") || (z.SandKG == 0) != (method == "drill") {
				t.Errorf("%s by %s: %+v", kind, method, z)
			}
		}
	}
}

// What isn't tested or falls short is no pass, and whatever fails says what to do.
func TestFailingChecksSayWhatToDo(t *testing.T) {
	for _, s := range []ground.Survey{{}, {PH: ptr(4.5)}, {PH: ptr(8.1)}, {DepthCM: ptr(4)}, {DepthCM: ptr(14)}, {Drainage: "very poorly drained"}, {Texture: "clay"}, {ECeDSM: ptr(9)}, {OrganicPercent: ptr(0.5)}} {
		for _, kind := range []job.Kind{job.New, job.Renovate, job.Overseed} {
			for _, g := range []species.Grade{species.Ornamental, species.Utility, species.HardWearing, species.Extensive} {
				b := Plan(Input{Site: place(t, s), Use: species.Use{Grade: g}, Kind: kind, Parts: mixture()})
				for _, c := range b.Checks {
					if !c.OK && c.Advice.Silent() {
						t.Errorf("%+v, %s, %s: %s fails and says nothing", s, kind, g, c.ID)
					}
					if c.ID == "ph" && s.PH == nil && c.OK {
						t.Errorf("%s, %s: an untested pH passes", kind, g)
					}
				}
			}
		}
	}
}

// A slope within 60 degrees of the noon sun is sunny in winter, one as far from it turned away, on either half of the globe;
// gentle slopes and mild winters have neither.
func TestWinterSun(t *testing.T) {
	for _, r := range []struct {
		latitude, aspect, slope, cold float64
		want                          string
	}{
		{60, 180, 10, -3, "bed.sunny-slope"}, {60, 121, 10, -3, "bed.sunny-slope"}, {60, 90, 10, -3, ""}, {60, 350, 10, -3, "bed.turned-slope"},
		{-50, 10, 10, -3, "bed.sunny-slope"}, {-50, 180, 10, -3, "bed.turned-slope"}, {60, 180, 10, 1, ""}, {60, 180, 3, -3, ""},
	} {
		c := place(t, ground.Survey{})
		c.Survey.Place.LatitudeDeg, c.Survey.Lawn.AspectDeg, c.Survey.Lawn.SlopeDeg, c.Weather.ColdestMonthC = r.latitude, r.aspect, r.slope, r.cold
		said := ""
		if list := (Input{Site: c}).winterSun(); len(list) > 0 {
			said = list[0].Name
		}
		if said != r.want {
			t.Errorf("%+v: %q", r, said)
		}
	}
}
