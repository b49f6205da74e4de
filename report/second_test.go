package report_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"testing"

	"swardwright/internal/agree"
	"swardwright/internal/calendar"
	"swardwright/report"
	"swardwright/sowing"
	"swardwright/sowing/job"
)

// halfShaded is a lawn with a house and two trees on one side of it, invented.
const halfShaded = `title = "Half shaded (invented)"
date = 2027-02-01
[place]
latitude = %v
longitude = %v
[lawn]
outline = [[0,0],[20,0],[20,16],[0,16]]
[[obstacle]]
name = "house"
kind = "solid"
footprint = [[0,-9],[20,-9],[20,-1],[0,-1]]
height_m = 6
[[obstacle]]
name = "oak"
kind = "tree"
at = [4,4]
height_m = 12
clear_stem_m = 2.5
crown_m = 9
leaf = "deciduous"
[[obstacle]]
name = "lime"
kind = "tree"
at = [13,3]
height_m = 12
clear_stem_m = 2.5
crown_m = 9
leaf = "deciduous"
[use]
grade = "%s"
irrigation = %t
%s`

// A second mixture is taken where it pays, told of where it doesn't, and not spoken of where
// one grass does best in sun and shade; and every plan agrees with itself.
func TestSecondMixtures(t *testing.T) {
	tables, err := sowing.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	type found struct {
		Second *struct {
			Taken    bool
			Mixtures []struct{ Zones []string }
		} `json:"mixture_by_zone"`
	}
	for _, c := range []struct {
		name      string
		lat, long float64
		grade     string
		watered   bool
		more      string
		taken     bool
		told      bool
	}{
		{"meadow-grass in the open, fescue in shade", 45.5, -122.7, "utility", true, "", true, true},
		{"the same, drilled", 45.5, -122.7, "utility", true, "[job]\nmethod = \"drill\"\n", true, true},
		{"the same, with a bag on offer", 45.5, -122.7, "utility", true, "[[premix]]\nname = \"a bag\"\nprice_per_kg = 4.0\nbag_kg = [5]\nparts = { \"chewings-fescue\" = 50, \"perennial-ryegrass\" = 50 }\n", true, true},
		{"a little more, and dearer", 43.0, 141.3, "utility", true, "", false, true},
		{"tall fescue does best in all", 38, -85, "utility", false, "", false, false},
		{"overseeded", 45.5, -122.7, "utility", true, "[job]\nkind = \"overseed\"\ncover_percent = 70\n", false, false},
	} {
		b, err := sowing.ReadBrief("", fmt.Appendf(nil, halfShaded, c.lat, c.long, c.grade, c.watered, c.more), nil)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		p, err := sowing.NewPlan(context.Background(), tables, b)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		var out bytes.Buffer
		if err := report.JSON(&out, p); err != nil {
			t.Fatal(err)
		}
		for _, wrong := range agree.Check(b, out.Bytes()) {
			t.Errorf("%s: %s", c.name, wrong)
		}
		var got found
		if err := json.Unmarshal(out.Bytes(), &got); err != nil {
			t.Fatal(err)
		}
		s := got.Second
		if told := s != nil; told != c.told || told && s.Taken != c.taken {
			t.Errorf("%s: a second mixture told of %v, %+v; want %v, taken %v", c.name, told, s, c.told, c.taken)
		}
		// Turf is set against the seed that is sown.
		for _, w := range p.Ways {
			if w.Kind == job.ByTurf && calendar.Days(*w.UsableFrom, *p.UsableFrom) != p.Cost.DaysEarlier {
				t.Errorf("%s: turf bears use %d days earlier, from %v against %v", c.name, p.Cost.DaysEarlier, w.UsableFrom, p.UsableFrom)
			}
		}
		if c.taken && len(p.Bed.Guide.Zones) != len(p.Sown) {
			t.Errorf("%s: seed weighed out for %d of %d zones", c.name, len(p.Bed.Guide.Zones), len(p.Sown))
		}
	}
}
