package sowing

import (
	"slices"
	"testing"

	"swardwright/internal/sheet"
)

// TestKeys has keys of every room and kind, those of tables inside tables included.
func TestKeys(t *testing.T) {
	tables, err := BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	keys := Keys(tables)
	find := func(path string) sheet.Ask {
		i := slices.IndexFunc(keys, func(a sheet.Ask) bool { return a.Path == path })
		if i < 0 {
			t.Fatalf("%s is no key", path)
		}
		return keys[i]
	}
	for _, c := range []struct {
		path string
		kind sheet.Kind
	}{
		{"title", sheet.OneText}, {"date", sheet.OneDay}, {"place.latitude", sheet.OneNumber}, {"lawn.part", sheet.SomeTables},
		{"lawn.part.outline", sheet.SomePairs}, {"obstacle.at", sheet.OnePair}, {"climate.min_c", sheet.TwelveMonth},
		{"use.irrigation", sheet.YesOrNo}, {"seed_lot.bag_kg", sheet.SomeNumbers}, {"job.rootzone.depth_cm", sheet.OneNumber},
		{"ground.texture", sheet.OneWord}, {"prices", sheet.OneTable},
	} {
		if a := find(c.path); a.Kind != c.kind {
			t.Errorf("%s is a %s, want %s", c.path, a.Kind, c.kind)
		}
	}
	if a := find("place.latitude"); a.Lo[0] != -90 || a.Hi[0] != 90 {
		t.Errorf("latitudes from %g to %g", a.Lo[0], a.Hi[0])
	}
	if a := find("use.grade"); !slices.Contains(a.Words, "utility") {
		t.Errorf("grades %v", a.Words)
	}
	if !slices.ContainsFunc(keys, func(a sheet.Ask) bool { return a.Path == "premix.parts" && a.Kind == sheet.AnyKeys }) {
		t.Error("the parts of a bag have no free keys")
	}
}
