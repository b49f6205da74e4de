package bed

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/site"
	"swardwright/site/ground"
	"swardwright/sowing/job"
	"swardwright/species"
)

// Nothing is dug, spiked, drained or brought onto a deck, whatever its soil lacks, and its
// weight is told.
func TestDeck(t *testing.T) {
	poor := ground.Survey{Texture: "clay", Drainage: "poorly", DepthCM: ptr(6), OrganicPercent: ptr(1), Over: ground.Deck}
	for _, w := range []Input{
		{Kind: job.New}, {Kind: job.New, Laid: []job.Zone{{AreaM2: 84}}}, {Kind: job.Overseed}, {Kind: job.Renovate}, {Kind: job.New, Old: true},
	} {
		w.Site, w.Use, w.Parts = place(t, poor), species.Use{Grade: species.HardWearing}, []mix.Part{meadow}
		if len(w.Laid) == 0 {
			w.Sown = []job.Zone{{AreaM2: 84}}
		}
		b := Plan(w)
		for _, m := range b.Materials {
			if slices.Contains([]string{"topsoil_per_m3", "drain_pipe_per_m", "gravel_per_m3"}, m.PriceKey) {
				t.Errorf("%s onto a deck", m.PriceKey)
			}
		}
		for _, x := range b.Tasks {
			for _, never := range []string{"spike", "drain", "dig", "topsoil", "gravel"} {
				if strings.HasPrefix(x.ID, never) {
					t.Errorf("%s: %s on a deck", w.Kind, x.ID)
				}
			}
			for _, s := range append(x.Detail, x.Caution...) {
				if s.Name == "bed.caution-services" || s.Name == "bed.loosen-how" {
					t.Errorf("%s: %s says %s", w.Kind, x.ID, s.Name)
				}
			}
		}
		if last := b.Layers[len(b.Layers)-1]; last.Kind != Deck || b.DrainSpacingM > 0 {
			t.Errorf("under it lies %s, drains %g m apart", last.Kind, b.DrainSpacingM)
		}
		i := slices.IndexFunc(b.Notes, func(s told.Sentence) bool { return s.Name == "bed.deck-weighs" })
		if i < 0 {
			t.Fatal("its weight is not told")
		}
		// 60 mm at what a cubic metre weighs soaked.
		near(t, "kg/m²", float64(b.Notes[i].Figures[1].(told.KGPerM2)), 0.06*w.Site.Soil.SoakedKGM3(), 1e-9)
		works := WorksOf(w)
		if works.Imported.DepthCM > 0 || works.DrainsMMD > 0 || works.Compaction != "" {
			t.Errorf("%+v", works)
		}
	}
	near(t, "loosened of 60 mm", Input{Site: place(t, poor)}.scratchMM(), 30, 1e-9)
	poor.DepthCM = ptr(30)
	near(t, "loosened of 300 mm", Input{Site: place(t, poor)}.scratchMM(), 50, 1e-9)
	poor.DepthCM = ptr(2)
	near(t, "loosened of 20 mm", Input{Site: place(t, poor)}.scratchMM(), 10, 1e-9)
}

// Stones of the top 50 mm are picked and taken away, and from 15 % on no tined machine is used.
func TestStones(t *testing.T) {
	narrow := 0.7 // nothing but a barrow comes in
	plan := func(percent float64, grade species.Grade) Bed {
		c := &site.Conditions{Soil: place(t, ground.Survey{DepthCM: ptr(30), StonesPercent: &percent}).Soil, AreaM2: 84}
		return Plan(Input{Site: c, Use: species.Use{Grade: grade, Mower: "scythe", Feeding: "none"}, Parts: []mix.Part{meadow}, Sown: []job.Zone{{AreaM2: 84}}, AccessM: &narrow})
	}
	task := func(b Bed, id string) *job.Task {
		if i := slices.IndexFunc(b.Tasks, func(x job.Task) bool { return x.ID == id }); i >= 0 {
			return &b.Tasks[i]
		}
		return nil
	}
	b := plan(20, species.Utility)
	near(t, "picked, m³", task(b, "pick-stones").Quantity, 0.2*0.05*84, 1e-9)
	near(t, "taken away, m³", find(t, b, "bed.stones-item").SettledM3, 0.2*0.05*84, 1e-9)
	if c := check(t, b, "stones"); c.OK || task(b, "loosen").OutputKey != "fork_m2_per_hour" {
		t.Errorf("%+v, loosened by %s", c, task(b, "loosen").OutputKey)
	}
	narrow = burierM // a stone burier comes in: it loosens and leaves none to pick
	if b = plan(20, species.Utility); task(b, "pick-stones") != nil || task(b, "loosen").OutputKey != "bury_stones_m2_per_hour" {
		t.Errorf("stones to bury: loosened by %s", task(b, "loosen").OutputKey)
	}
	narrow = 0.7
	if b = plan(10, species.Utility); !check(t, b, "stones").OK || task(b, "loosen").OutputKey != "dig_m2_per_hour" {
		t.Error("a tenth of stones is in order, and a machine works it")
	}
	if b = plan(0, species.Utility); task(b, "pick-stones") != nil {
		t.Error("no stones are picked where there are none")
	}
	if b = plan(20, species.Extensive); task(b, "pick-stones") != nil {
		t.Error("the stones of a meadow are left")
	}
}

// A made surface is lifted with its base and taken away; topsoil brought on top has no stones to pick.
func TestSurfaceLifted(t *testing.T) {
	stones := 30.0
	c := &site.Conditions{Soil: place(t, ground.Survey{DepthCM: ptr(5), StonesPercent: &stones}).Soil, AreaM2: 84}
	for found, title := range map[job.Found]string{job.Gravel: "bed.lift-gravel", job.Paving: "bed.lift-paving"} {
		b := Plan(Input{Site: c, Use: species.Use{Grade: species.Utility}, Parts: []mix.Part{meadow}, Surface: found, Sown: []job.Zone{{AreaM2: 84}}})
		near(t, "taken away, m³", find(t, b, "bed.surface-item").SettledM3, 0.15*84, 1e-9)
		if b.Tasks[1].Title.Name != title || slices.ContainsFunc(b.Tasks, func(x job.Task) bool { return x.ID == "pick-stones" }) {
			t.Errorf("%s: %s", found, b.Tasks[1].Title.Name)
		}
	}
}

// Hay, verges and grazing are left as the ground lies: no fall from a house, no rootzone to build.
func TestRoughGround(t *testing.T) {
	level := func(s ground.Survey) *site.Conditions {
		c := place(t, s)
		c.Survey.Lawn.SlopeDeg = 0
		return c
	}
	for name, use := range map[string]species.Use{
		"verge": {Grade: species.Extensive, Mower: "rotary"}, "meadow": {Grade: species.Extensive, Mower: "scythe", Feeding: "none"},
		"paddock": {Grade: species.HardWearing, Livestock: true},
	} {
		b := Plan(Input{Site: level(ground.Survey{Texture: "clay"}), Use: use, Parts: []mix.Part{meadow}})
		if said := fmt.Sprint(b.Checks, b.Notes); strings.Contains(said, "bed.no-fall") || strings.Contains(said, "bed.rootzone-would") || strings.Contains(said, "bed.finished-level") {
			t.Errorf("%s: %s", name, said)
		}
	}
	mown := species.Use{Grade: species.HardWearing, Livestock: true, MowingMM: 40}
	if said := fmt.Sprint(Plan(Input{Site: level(ground.Survey{}), Use: mown, Parts: []mix.Part{meadow}}).Checks); !strings.Contains(said, "bed.no-fall") {
		t.Error("a mown lawn whose clippings are fed falls from the house")
	}
}

// Seed into grazed grass goes in by harrow and roller, without dressing and spikes; asked for in a dressing it is dressed.
func TestHarrowedIn(t *testing.T) {
	use := species.Use{Grade: species.Extensive, Livestock: true}
	ids := func(w Input) (out []string) {
		for _, x := range Plan(w).Tasks {
			out = append(out, x.ID)
		}
		return out
	}
	w := Input{Site: place(t, ground.Survey{}), Use: use, Kind: job.Overseed, Cover: 0.6, Parts: []mix.Part{meadow}}
	if got := strings.Join(ids(w), " "); got != "mow-down rake-out sow roll-in" || Plan(w).DressingMM != 0 {
		t.Errorf("%s, dressed with %g mm", got, Plan(w).DressingMM)
	}
	w.Method = job.InDressing
	if !slices.Contains(ids(w), "sow-in-dressing") || Plan(w).DressingMM == 0 {
		t.Error("asked for in a dressing")
	}
}

// A lawn left to the rain is sown under straw at 450 g/m² (State of Colorado, mined-land
// reclamation permits, of slopes) and not under a net; a watered one, a meadow and turf are not.
func TestStrawedWhereNobodyWaters(t *testing.T) {
	zone := []job.Zone{{AreaM2: 84}}
	rain := species.Use{Grade: species.Extensive, Mower: "rotary"}
	for name, c := range map[string]struct {
		use        species.Use
		sown, laid []job.Zone
		straw      float64
	}{
		"left to the rain": {rain, zone, nil, 0.450 * 84},
		"watered":          {species.Use{Grade: species.Extensive, Mower: "rotary", Irrigation: true}, zone, nil, 0},
		"everyday":         {species.Use{Grade: species.Utility}, zone, nil, 0},
		"meadow":           {species.Use{Grade: species.Extensive, Mower: "scythe", Feeding: "none"}, zone, nil, 0},
		"turf":             {rain, nil, zone, 0},
	} {
		b := Plan(Input{Site: place(t, ground.Survey{DepthCM: ptr(30)}), Use: c.use, Parts: []mix.Part{fescue}, Sown: c.sown, Laid: c.laid})
		kg := 0.0
		for _, m := range b.Materials {
			if m.PriceKey == "straw_per_kg" {
				kg += m.KG
			}
		}
		near(t, name+", straw, kg", kg, c.straw, 1e-9)
		if strawed := slices.ContainsFunc(b.Tasks, func(x job.Task) bool { return x.ID == "straw-seed" }); strawed != (kg > 0) || strawed && b.Netted {
			t.Errorf("%s: strawed %v, netted %v", name, strawed, b.Netted)
		}
	}
}

// What the ground doesn't take in runs off by the fall that this lawn has, or by none.
func TestWhatShedsRain(t *testing.T) {
	for _, c := range []struct {
		slopeDeg float64
		kind     job.Kind
		name     string
	}{{0, job.New, "bed.sheds"}, {0, job.Overseed, "bed.nothing-sheds"}, {5, job.New, "bed.slope-sheds"}, {5, job.Renovate, "bed.slope-sheds"}} {
		w := Input{Site: place(t, ground.Survey{Texture: "clay"}), Kind: c.kind, Parts: []mix.Part{fescue}}
		w.Site.Survey.Lawn.SlopeDeg = c.slopeDeg
		if got := check(t, Plan(w), "rain-found"); got.OK || got.Advice.Name != c.name {
			t.Errorf("%s on %g degrees: %+v", c.kind, c.slopeDeg, got)
		}
	}
}

// A clay's sand is what the advice says and is priced by its loose cubic metres.
func TestSandOfTheAdvice(t *testing.T) {
	b := Plan(Input{Site: place(t, ground.Survey{Texture: "clay", DepthCM: ptr(20)}), Use: species.Use{Grade: species.Ornamental}, Parts: []mix.Part{fescue}})
	c := check(t, b, "texture")
	if c.Takes == nil || c.Takes.PriceKey != "sand_per_m3" {
		t.Fatalf("%+v", c.Takes)
	}
	near(t, "sand, loose m³", c.Takes.Quantity, float64(c.Advice.Figures[3].(told.VolumeM3)), 1e-9)
}
