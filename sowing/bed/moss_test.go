package bed

import (
	"slices"
	"testing"

	"swardwright/mix"
	"swardwright/site/ground"
	"swardwright/sowing/job"
	"swardwright/species"
)

// noted tells whether a sentence of the name is among the bed's notes.
func noted(b Bed, name string) bool {
	for _, n := range slices.Concat(b.Notes, b.Moss) {
		if n.Name == name {
			return true
		}
	}
	return false
}

// Landschoot, A cultivated, healthy lawn will gather no moss (Penn State, 1999), names
// acid, wet, shaded and hungry ground; Oregon State University Extension says that moss
// comes back where its cause stays.
func TestMossCauses(t *testing.T) {
	for _, r := range []struct {
		cause  string
		survey ground.Survey
		use    species.Use
	}{
		{"bed.moss-acid", ground.Survey{PH: ptr(4.8)}, species.Use{Grade: species.Utility}},
		{"bed.moss-untested", ground.Survey{}, species.Use{Grade: species.Utility}},
		{"bed.moss-wet", ground.Survey{Drainage: "poorly drained", PH: ptr(6.2)}, species.Use{Grade: species.Utility}},
		{"bed.moss-unfed", ground.Survey{PH: ptr(6.2)}, species.Use{Grade: species.Utility, Feeding: "none"}},
		{"bed.moss-starved", ground.Survey{PH: ptr(6.2)}, species.Use{Grade: species.Utility, NitrogenGM2: ptr(2)}},
		{"bed.moss-scalped", ground.Survey{PH: ptr(6.2)}, species.Use{Grade: species.Utility, MowingMM: 20}},
		{"bed.moss-no-cause", ground.Survey{PH: ptr(6.2)}, species.Use{Grade: species.Utility}},
	} {
		w := Input{Site: place(t, r.survey), Use: r.use, Kind: job.Renovate, Parts: mixture(), Moss: true}
		b := Plan(w)
		if !noted(b, r.cause) || !noted(b, "bed.moss-returns") {
			t.Errorf("%s: %v", r.cause, b.Notes)
		}
		w.Moss = false
		if b := Plan(w); noted(b, r.cause) {
			t.Errorf("%s without moss", r.cause)
		}
	}
}

func mixture() []mix.Part { return []mix.Part{fescue, meadow} }

// Oregon State University, Controlling moss in putting greens: 0.73 to 0.98 g of iron a
// square metre and go, which is 3.6 to 4.9 g of crystals of 20 % iron; the trade's home
// rates run from 4 to 24 g.
func TestMossIsTreatedBeforeRaking(t *testing.T) {
	if ironGM2 < 3.6 || ironGM2 > 10 {
		t.Errorf("%g g/m² of iron sulphate", ironGM2)
	}
	for kind, rake := range map[job.Kind]string{job.Renovate: "scarify", job.Overseed: "rake-out"} {
		b := Plan(Input{Site: place(t, ground.Survey{}), Use: species.Use{Grade: species.Utility}, Kind: kind, Parts: mixture(), Moss: true})
		at := slices.IndexFunc(b.Tasks, func(x job.Task) bool { return x.ID == rake })
		if at < 0 || !slices.Contains(b.Tasks[at].Needs, job.Need{ID: "treat-moss", Days: ironDays}) {
			t.Errorf("%s: raked before the moss is dead", kind)
		}
	}
	if b := Plan(Input{Site: place(t, ground.Survey{}), Kind: job.New, Parts: mixture(), Moss: true}); slices.ContainsFunc(b.Tasks, func(x job.Task) bool { return x.ID == "treat-moss" }) {
		t.Error("moss that is stripped off is treated")
	}
}

// Landschoot & Wolf 2011: no phosphate where the test doesn't ask for it.
func TestPhosphateOfRenovation(t *testing.T) {
	for class, want := range map[string]float64{"": 0, "high": 0, "medium": 0, "low": 5} {
		b := Plan(Input{Site: place(t, ground.Survey{Phosphorus: class}), Use: species.Use{Grade: species.Utility}, Kind: job.Renovate, Parts: mixture()})
		near(t, "phosphate, test "+class, b.StarterP2O5, want, 0)
		g, grams := gradeFor(b.StarterN, b.StarterP2O5, b.StarterK2O)
		near(t, "phosphate fed, test "+class, grams*g.p2o5/100, want, 0.01)
	}
}
