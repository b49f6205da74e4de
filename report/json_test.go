package report

import (
	"bytes"
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"swardwright/report/sample"
	"swardwright/site/light"
)

// contract are the members that readers of the JSON rely on, by path; [] steps
// into the first element.
var contract = []string{
	"title", "assumptions", "advice", "matrix", "mixture", "premixes", "windows", "cost", "tasks", "cautions",
	"light.zones[].name", "light.zones[].share", "light.zones[].sun_hours_by_month", "light.zones[].sun_hours_season",
	"light.zones[].dli_season_mol_m2_d", "light.probes[].name", "light.probes[].x", "light.probes[].y",
	"light.probes[].sun_hours_by_month", "grade.asked", "grade.attainable", "grade.because",
	"matrix[].id", "matrix[].species", "matrix[].zone", "matrix[].overall", "matrix[].class", "matrix[].limited_by", "matrix[].ratings",
	"mixture.components[].id", "mixture.components[].species", "mixture.components[].percent_by_weight",
	"mixture.components[].percent_by_seed", "mixture.components[].grams", "mixture.components[].because",
	"mixture.rate_g_m2", "mixture.seeds_per_m2", "mixture.seed_kg", "mixture.cover_expected", "mixture.cover_bad_year",
	"mixture.sward[].year", "mixture.sward[].cover", "mixture.sward[].shares",
	"premixes[].name", "premixes[].score", "premixes[].cover_expected", "premixes[].cover_bad_year", "premixes[].sward",
	"premixes[].top_up[].id", "premixes[].top_up[].grams",
	"windows[].kind", "windows[].opens", "windows[].closes", "windows[].success", "windows[].emergence_days", "windows[].first_mow_days",
	"cost.currency", "cost.ways[].way", "cost.ways[].total", "cost.ways[].p10", "cost.ways[].p90", "cost.ways[].usable_from",
	"cost.ways[].lines[].item", "cost.ways[].lines[].quantity", "cost.ways[].lines[].unit", "cost.ways[].lines[].rate", "cost.ways[].lines[].amount",
	"tasks[].date", "tasks[].title", "tasks[].detail",
}

func has(v any, path string) bool {
	step, rest, more := strings.Cut(path, ".")
	name, inside := strings.CutSuffix(step, "[]")
	m, ok := v.(map[string]any)
	if !ok {
		return false
	}
	if v, ok = m[name]; !ok {
		return false
	}
	if inside {
		a, ok := v.([]any)
		if !ok || len(a) == 0 {
			return false
		}
		v = a[0]
	}
	return !more || has(v, rest)
}

func TestJSONContract(t *testing.T) {
	var b bytes.Buffer
	if err := JSON(&b, *sample.Full()); err != nil {
		t.Fatal(err)
	}
	var v any
	if err := json.Unmarshal(b.Bytes(), &v); err != nil {
		t.Fatal(err)
	}
	for _, path := range contract {
		if !has(v, path) {
			t.Errorf("the plan lacks %s", path)
		}
	}
}

// TestJSONOfEveryPlan writes plans at the edges of what there can be.
func TestJSONOfEveryPlan(t *testing.T) {
	for _, c := range sample.Cases() {
		var first, again bytes.Buffer
		if err := JSON(&first, *c.Plan); err != nil {
			t.Errorf("%s: %v", c.Name, err)
			continue
		}
		if err := JSON(&again, *c.Plan); err != nil || !bytes.Equal(first.Bytes(), again.Bytes()) {
			t.Errorf("%s: two runs differ", c.Name)
		}
		var v map[string]any
		if err := json.Unmarshal(first.Bytes(), &v); err != nil {
			t.Errorf("%s: %v", c.Name, err)
		}
		for _, list := range []string{"assumptions", "cautions", "matrix", "premixes", "windows", "tasks"} {
			if _, ok := v[list].([]any); !ok {
				t.Errorf("%s: %s is no list: %v", c.Name, list, v[list])
			}
		}
		if c.Plan.Choice.Mixture == nil && v["mixture"] != nil {
			t.Errorf("%s: nothing is sown and the mixture is %v", c.Name, v["mixture"])
		}
	}
}

func TestRound(t *testing.T) {
	for _, c := range []struct {
		x      float64
		digits int
		want   float64
	}{
		{1.005, 2, 1.01}, // the nearest float lies below 1.005
		{2.675, 1, 2.7}, {-0.04, 1, 0}, {25049, -2, 25000}, {math.NaN(), 1, 0}, {math.Inf(-1), 2, 0}, {0.1 + 0.2, 3, 0.3},
	} {
		got := round(c.x, c.digits)
		if got != c.want || math.Signbit(got) != math.Signbit(c.want) {
			t.Errorf("round(%v, %d) = %v, want %v", c.x, c.digits, got, c.want)
		}
	}
}

func TestDaysJSON(t *testing.T) {
	var b bytes.Buffer
	err := DaysJSON(&b, []light.ProbeDays{{
		Probe: light.Probe{Name: "seat", At: light.Point{X: 1, Y: 2}},
		Days:  []light.DaySun{{Day: 15, SunHours: 3.25}},
	}})
	want := `{"probes":[{"name":"seat","x":1,"y":2,"days":[{"day":15,"sun_hours":3.25}]}]}`
	got := strings.Join(strings.Fields(b.String()), "")
	if err != nil || got != want {
		t.Errorf("got %s, %v; want %s", got, err, want)
	}
}

// TestOrderOfMembers holds the members to a fixed order, so that plans can be
// compared line by line.
func TestOrderOfMembers(t *testing.T) {
	var b bytes.Buffer
	if err := JSON(&b, *sample.Full()); err != nil {
		t.Fatal(err)
	}
	at := -1
	for _, m := range []string{"title", "assumptions", "light", "grade", "advice", "matrix", "mixture", "premixes", "windows", "cost", "tasks", "cautions"} {
		i := strings.Index(b.String(), "\n  \""+m+"\":")
		if i < at {
			t.Errorf("%s stands too early", m)
		}
		at = i
	}
	if !slices.Contains(strings.Split(b.String(), "\n"), "}") {
		t.Error("the object has no end of its own")
	}
}
