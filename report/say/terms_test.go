package say

import (
	"slices"
	"strings"
	"testing"

	"github.com/samber/lo"

	"swardwright/data"
	"swardwright/mix"
	"swardwright/mix/practice"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/sowing"
	"swardwright/sowing/bed"
	"swardwright/sowing/dates"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
	"swardwright/species"
)

// all are a closed list of the core.
func all[S ~string](list ...S) []string {
	return lo.Map(list, func(s S, _ int) string { return string(s) })
}

// TestTerms holds the closed lists of the core against the terms of the catalogue, both
// ways.
func TestTerms(t *testing.T) {
	grades := all(species.Ornamental, species.Utility, species.HardWearing, species.Extensive)
	ways := all(job.BySeed, job.BySeedApart, job.ByTurf, job.BySeedAndTurf, job.ByOverseeding)
	criteria := lo.Map(species.Criteria, func(c species.Criterion, _ int) string { return c.ID })
	table, err := species.Load(data.FS)
	if err != nil {
		t.Fatal(err)
	}
	list, err := money.LoadList(data.FS, table)
	if err != nil {
		t.Fatal(err)
	}
	prices, err := list.In("EUR", nil)
	if err != nil {
		t.Fatal(err)
	}
	var plant, causes []string
	for _, p := range prices.Keys() {
		if p.Plant != "" {
			plant = append(plant, p.Plant)
		}
		if p.Cause != "" {
			causes = append(causes, p.Cause)
		}
		if s := strings.TrimSuffix(p.Unit, "s"); customary[p.Unit].name == "" && !slices.Contains(names(t, english), "count."+s+"s") && !slices.Contains([]string{"h", "%", "sum", "word"}, s) {
			t.Errorf("the unit of %s, %q, is neither a measure nor counted in words", p.Key, p.Unit)
		}
	}
	for kind, want := range map[string][]string{
		"grade": grades, "lawn-of": grades, "way": ways, "doing": ways, "stage": all(sowing.NotBegun, sowing.Sown, sowing.Laid, sowing.Up, sowing.Cut),
		"traffic":   all(species.Light, species.Moderate, species.Heavy),
		"criterion": append(criteria, "slope", mix.Weeds),
		"short-of":  append(criteria, "slope", mix.Weeds),
		"drainage":  ground.DrainageClasses(),
		"texture":   ground.Textures(),
		"bearing":   all(ground.Firm, ground.Soft, ground.Poor),
		"genus":     lo.Map(light.Genera(), func(g light.Genus, _ int) string { return g.Name }),
		"thing":     all(light.Solid, light.Gable, light.Tree, light.Screen),
		"obstacle":  all(light.Solid, light.Gable, light.Tree, light.Screen),
		"leaf":      all(light.Deciduous, light.Evergreen),
		"layer":     all(bed.LayerKinds...),
		"window":    all(dates.Spring, dates.Summer, dates.Autumn, dates.Dormant),
		"cost":      all(money.Groups...),
		"basis":     all(species.Read, species.Near, species.Memory, species.Practice, species.Inferred),
		"advice":    all(sowing.AdviseSow, sowing.AdviseOverseed, sowing.AdviseTurf, sowing.AdviseNoGrass),
		"plant":     plant,
		"cause":     append(causes, "weather"),

		"grasses":         lo.FlatMap(table.All(), func(s *species.Species, _ int) []string { return s.Kinds }),
		"group":           append(lo.Without(lo.Map(table.All(), func(s *species.Species, _ int) string { return s.Group }), "other"), "fescue"),
		"likeness-block":  practice.Blocks,
		"likeness-degree": practice.Degrees,
		"likeness-way":    practice.Ways,
		"purpose":         all(practice.Show, practice.Family, practice.Sport, practice.Neglect, practice.Pasture),
	} {
		want = lo.Uniq(want)
		var have []string
		for _, name := range names(t, english) {
			if word, ok := strings.CutPrefix(name, "terms."+kind+"."); ok {
				have = append(have, word)
			}
		}
		slices.Sort(want)
		if !slices.Equal(have, want) {
			t.Errorf("terms of %s: the catalogue has %q, the core %q", kind, have, want)
		}
	}
}
