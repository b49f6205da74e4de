package sowing_test

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"

	"swardwright/data"
	"swardwright/site/weather"
	"swardwright/sowing"
)

// agreement is the share of published recommendations the plan agreed with
// when the figures were last committed. A change that lowers it must say why.
const (
	firmAgreement = 0.66
	softAgreement = 0.72
)

// recommendation is one entry of testdata/cases.toml; the keys are explained
// at its head.
type recommendation struct {
	ID, Kind     string
	Firm         bool
	Source, Says string
	Station      string
	Light        map[string]any
	Ground       map[string]any
	Use          map[string]any
	Job          map[string]any
	Wants        wants
}

type wants struct {
	Outcome     string
	MainSpecies []int     `toml:"main_species"`
	Rate        []float64 // g/m², low and high
}

// rateSlack is a share of the published rate either way.
const rateSlack = 0.10

// TestPublishedRecommendations plans the lawn of every published
// recommendation and prints where plan and publication agree.
func TestPublishedRecommendations(t *testing.T) {
	if testing.Short() {
		t.Skip("plans some thirty lawns")
	}
	var table struct{ Case []recommendation }
	text, err := os.ReadFile("testdata/cases.toml")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := toml.Decode(string(text), &table); err != nil {
		t.Fatal(err)
	}
	var agreed, all [2]int // soft, firm
	for _, c := range table.Case {
		plan, err := sowing.NewPlan(context.Background(), tables(t), c.brief(t))
		if err != nil {
			t.Errorf("%s: %v", c.ID, err)
			continue
		}
		firm := 0
		if c.Firm {
			firm = 1
		}
		all[firm]++
		if why := c.Wants.disagreement(&plan); why != "" {
			t.Logf("%-4s %-26s %s\n     says: %s\n     plan: %s", strength(c.Firm), c.ID, why, c.Says, describe(&plan))
		} else {
			agreed[firm]++
		}
	}
	firm, soft := float64(agreed[1])/float64(all[1]), float64(agreed[0])/float64(all[0])
	t.Logf("agreement: firm %d of %d (%.0f %%), soft %d of %d (%.0f %%)",
		agreed[1], all[1], 100*firm, agreed[0], all[0], 100*soft)
	if firm < firmAgreement-1e-9 || soft < softAgreement-1e-9 {
		t.Errorf("agreement fell below the committed %.2f firm, %.2f soft", firmAgreement, softAgreement)
	}
}

// brief writes the recommendation's site as a brief file and reads it back, so
// that the whole way from file to plan is walked.
func (c recommendation) brief(t *testing.T) sowing.Brief {
	t.Helper()
	lawn := map[string]any{"area_m2": 100.0}
	job := maps.Clone(c.Job)
	if slope, ok := job["slope"]; ok {
		lawn["slope_deg"], lawn["aspect_deg"] = slope, 180.0
		delete(job, "slope")
	}
	doc := map[string]any{
		"title": c.ID,
		"place": map[string]any{"latitude": stationLatitude(t, c.Station), "station": c.Station},
		"lawn":  lawn, "light": c.Light, "use": c.Use,
	}
	if only, ok := job["only"].(string); ok {
		doc["seed_lot"] = []map[string]any{{"species": only, "name": "the only lot"}}
		delete(job, "only")
	}
	if len(c.Ground) > 0 {
		doc["ground"] = c.Ground
	}
	if len(job) > 0 {
		doc["job"] = job
	}
	var text bytes.Buffer
	if err := toml.NewEncoder(&text).Encode(doc); err != nil {
		t.Fatal(err)
	}
	b, err := sowing.ReadBrief(c.ID+".toml", text.Bytes(), nil)
	if err != nil {
		t.Fatalf("%s: %v\n%s", c.ID, err, text.String())
	}
	return b
}

// disagreement says where a plan departs from what was wanted; empty when it
// does not.
func (w wants) disagreement(p *sowing.Plan) string {
	refused := p.Advice == sowing.AdviseNoGrass
	said := fmt.Sprint(p.Cautions)
	warned := refused || slices.ContainsFunc([]string{"job.shaded", "job.doubtful-in", "job.terraces"}, func(name string) bool { return strings.Contains(said, name) })
	switch w.Outcome {
	case "no grass", "warned":
		if w.Outcome == "no grass" && !refused {
			return "grass was not refused"
		}
		if !warned {
			return "no warning"
		}
		return ""
	}
	if refused || p.Choice.Mixture == nil {
		return "grass was refused"
	}
	percent := map[string]float64{}
	for _, c := range p.Choice.Mixture.Components {
		percent[c.Species.ID] = float64(c.Percent)
	}
	if len(w.MainSpecies) == 2 {
		sizes := slices.Sorted(maps.Values(percent))
		slices.Reverse(sizes)
		n, got := 0, 0.0
		for ; n < len(sizes) && got < 80; n++ {
			got += sizes[n]
		}
		if n < w.MainSpecies[0] || n > w.MainSpecies[1] {
			return fmt.Sprintf("%d species make four fifths", n)
		}
	}
	if len(w.Rate) == 2 {
		if g := p.Rate.GM2; g < w.Rate[0]*(1-rateSlack) || g > w.Rate[1]*(1+rateSlack) {
			return fmt.Sprintf("rate %.1f g/m² outside %g to %g", g, w.Rate[0], w.Rate[1])
		}
	}
	return ""
}

func strength(firm bool) string {
	if firm {
		return "firm"
	}
	return "soft"
}

func describe(p *sowing.Plan) string {
	var parts []string
	if m := p.Choice.Mixture; m != nil {
		for _, c := range m.Components {
			parts = append(parts, fmt.Sprintf("%d %s", c.Percent, c.Species.ID))
		}
	}
	dli := math.NaN()
	if len(p.Site.Zones) > 0 {
		dli = p.Site.Zones[0].Light.DLISeason
	}
	return fmt.Sprintf("%s: %s; %.1f g/m², %.1f mol", p.Advice, strings.Join(parts, ", "), p.Rate.GM2, dli)
}

func stationLatitude(t *testing.T, name string) float64 {
	t.Helper()
	stations, err := weather.LoadStations(data.FS)
	if err != nil {
		t.Fatal(err)
	}
	s, ok := stations.Find(name)
	if !ok {
		t.Fatalf("no station %q; like it: %v", name, stations.Suggest(name))
	}
	return s.LatitudeDeg
}
