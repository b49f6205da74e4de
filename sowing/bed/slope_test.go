package bed

import (
	"slices"
	"testing"

	"swardwright/data"
	"swardwright/mix"
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
	}{{0, false, false}, {5.5, false, false}, {6, false, false}, {11, false, false}, {12, true, false}, {18, true, false}, {19, false, true}} {
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
		if along != (r.degrees >= 6) { // from 1 in 10 rain washes seed: University of Alaska Fairbanks Extension HGA-00046
			t.Errorf("%g degrees: sown along the slope %t", r.degrees, along)
		}
		c.Survey.Lawn.SlopeDeg = r.degrees
		if Mulches(r.degrees) != (r.straw || r.blanket) {
			t.Errorf("%g degrees: mulched %t", r.degrees, Mulches(r.degrees))
		}
	}
}

// Oats go out with slow grass on a strawed slope, 1½ bushels of 32 lb an acre (Tallgrass Prairie
// Center, Integrated Roadside Vegetation Management Technical Manual); where a grass of the
// mixture is quick itself, under a blanket, on gentler ground and into an old sward none do.
func TestSlowGrassOnASlopeHasANurse(t *testing.T) {
	part := grown(t)
	zones := []job.Zone{{Letter: "A", AreaM2: 84}}
	for name, r := range map[string]struct {
		degrees float64
		kind    job.Kind
		parts   []mix.Part
		sownM2  float64
		dormant bool
	}{
		"slow, one in four":     {14, job.New, []mix.Part{part("chewings-fescue", 100)}, 84, false},
		"slow, a blanket":       {19, job.New, []mix.Part{part("chewings-fescue", 100)}, 0, false},
		"slow, gentle":          {11, job.New, []mix.Part{part("chewings-fescue", 100)}, 0, false},
		"slow, old":             {14, job.Renovate, []mix.Part{part("chewings-fescue", 100)}, 0, false},
		"a tenth of ryegrass":   {14, job.New, []mix.Part{part("chewings-fescue", 90), part("perennial-ryegrass", 10)}, 0, false},
		"a twentieth of it":     {14, job.New, []mix.Part{part("chewings-fescue", 95), part("perennial-ryegrass", 5)}, 84, false},
		"a third of meadow":     {14, job.New, []mix.Part{part("chewings-fescue", 65), part("smooth-stalked-meadow-grass", 35)}, 84, false},
		"a quarter of timothy":  {14, job.New, []mix.Part{part("chewings-fescue", 75), part("timothy", 25)}, 0, false},
		"all of it tall fescue": {14, job.New, []mix.Part{part("tall-fescue", 100)}, 0, false},
		"slow, dormant":         {14, job.New, []mix.Part{part("chewings-fescue", 100)}, 0, true},
	} {
		c := place(t, ground.Survey{})
		c.Survey.Lawn.SlopeDeg = r.degrees
		b := Plan(Input{Site: c, Use: species.Use{Grade: species.Utility}, Kind: r.kind, Parts: r.parts, Dormant: r.dormant, Sown: zones, SeedGM2: 20, SeedsM2: 20000})
		const publishedGM2 = 1.5 * 32 * 453.6 / 4046.9
		bought := 0.0
		for _, m := range b.Materials {
			if m.PriceKey == "oats_per_kg" {
				bought += m.KG
			}
		}
		near(t, name+": oats, kg", bought, publishedGM2*r.sownM2/1000, 0.01*publishedGM2*84/1000)
		at := slices.IndexFunc(b.Tasks, func(x job.Task) bool { return x.ID == "nurse-oats" })
		if (at >= 0) != (r.sownM2 > 0) {
			t.Errorf("%s: sown %t", name, at >= 0)
		}
		rolled := slices.IndexFunc(b.Tasks, func(x job.Task) bool { return x.ID == "roll-in" })
		if at >= 0 && (b.Tasks[at].Quantity != r.sownM2 || b.Tasks[rolled].Needs[0].ID != "nurse-oats") {
			t.Errorf("%s: %+v, then %+v", name, b.Tasks[at], b.Tasks[rolled].Needs)
		}
	}
}

// grown makes parts of mixtures of the grasses that there are.
func grown(t *testing.T) func(id string, percent float64) mix.Part {
	t.Helper()
	table, err := species.Load(data.FS)
	if err != nil {
		t.Fatal(err)
	}
	return func(id string, percent float64) mix.Part { return mix.Part{Species: table.ByID(id), Percent: percent} }
}

// Of two mixtures only the ground of the slow one has a nurse.
func TestNurseOfTwoMixtures(t *testing.T) {
	c := place(t, ground.Survey{})
	c.Survey.Lawn.SlopeDeg = 14
	part := grown(t)
	one, other := []job.Zone{{Letter: "A", AreaM2: 50}}, []job.Zone{{Letter: "B", Index: 1, AreaM2: 34}}
	b := Plan(Input{Site: c, Kind: job.New, Parts: mixture(), Sown: slices.Concat(one, other), SeedGM2: 20, SeedsM2: 20000, Apart: []Seed{
		{one, 20, 20000, []mix.Part{part("chewings-fescue", 100)}}, {other, 25, 15000, []mix.Part{part("perennial-ryegrass", 100)}}}})
	near(t, "with a nurse, m²", b.NursedM2, 50, 1e-9)
}

// No roller goes, nor is hired, where none may: on a slope from 1 in 5 and on a deck; on the level one does.
func TestNoRollerOnSlopesAndDecks(t *testing.T) {
	for name, r := range map[string]struct {
		degrees float64
		over    string
		rolled  bool
	}{"level": {0, "", true}, "one in four": {14, "", false}, "steeper": {19, "", false}, "a deck": {0, "deck", false}} {
		for _, method := range []string{"broadcast", "drill"} {
			c := place(t, ground.Survey{Over: r.over, DepthCM: ptr(20)})
			c.Survey.Lawn.SlopeDeg = r.degrees
			b := Plan(Input{Site: c, Kind: job.New, Method: method, Parts: mixture(), Sown: []job.Zone{{Letter: "A", AreaM2: 84}}, SeedGM2: 20, SeedsM2: 20000})
			if got := slices.ContainsFunc(b.Tasks, func(x job.Task) bool { return x.OutputKey == "roll_m2_per_hour" }); got != r.rolled {
				t.Errorf("%s, %s: rolled %t", name, method, got)
			}
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
