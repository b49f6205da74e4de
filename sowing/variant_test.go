package sowing

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
)

const courtyard = `title = "Court"
[place]
latitude = 57.1
longitude = -3.8
[lawn]
outline = [[0, 0], [9, 0], [9, 6], [0, 6]]
# the wall that nobody may touch
[[obstacle]]
name = "slatted fence"
kind = "screen"
footprint = [[0, 6], [9, 6], [9, 6.1], [0, 6.1]]
height_m = 1.8
transmittance = 0.4
[[obstacle]]
name = "rowan"
kind = "tree"
at = [11, 3]
height_m = 9
clear_stem_m = 2
crown_m = 5
leaf = "deciduous"
[use]
grade = "utility"
`

// A variant's brief is that of the file with its keys edited by hand.
func TestVariantIsTheEditedBrief(t *testing.T) {
	text := courtyard + `
[[variant]]
name = "crown lifted, mown higher"
set = { "obstacle.rowan.clear_stem_m" = 3.0, "use.mowing_mm" = 50 }
[[variant]]
name = "fence opened"
set.obstacle."slatted fence".transmittance = 0.9
[[variant]]
name = "sown in May, drained"
set = { "job.not_before" = 2027-05-01, "ground.drainage" = "well" }
`
	b, err := ReadBrief("court.toml", []byte(text), noFile)
	if err != nil {
		t.Fatal(err)
	}
	edits := [][]string{
		{"clear_stem_m = 2", "clear_stem_m = 3.0", "grade = \"utility\"", "grade = \"utility\"\nmowing_mm = 50"},
		{"transmittance = 0.4", "transmittance = 0.9"},
		{"[use]", "[ground]\ndrainage = \"well\"\n[job]\nnot_before = 2027-05-01\n[use]"},
	}
	if len(b.Variants) != len(edits) {
		t.Fatalf("%d variants", len(b.Variants))
	}
	for i, e := range edits {
		byHand, err := ReadBrief("court.toml", []byte(strings.NewReplacer(e...).Replace(courtyard)), noFile)
		if err != nil {
			t.Fatal(err)
		}
		if got := b.Variants[i].Brief; !reflect.DeepEqual(got, byHand) {
			t.Errorf("%s:\n%+v\nby hand\n%+v", b.Variants[i].Name, got, byHand)
		}
	}
}

func TestVariantFaults(t *testing.T) {
	for _, c := range []struct{ variant, want string }{
		{`name = "a"`, "variant[1].set (line 24): is missing"},
		{`set = { "use.mowing_mm" = 50 }`, "variant[1].name (line 24): is missing"},
		{"name = \"a\"\nset = { \"use.mowing_m\" = 50 }", "did you mean mowing_mm"},
		{"name = \"a\"\nset = { \"obstacle.rowann.height_m\" = 5 }", "did you mean rowan?"},
		{"name = \"a\"\nset = { \"obstacle.height_m\" = 5 }", "needs the name of one of the tables"},
		{"name = \"a\"\nset = { \"obstacle.rowan.height_m\" = 5000 }", "obstacle[2].height_m"},
		{"name = \"a\"\nset = { \"use.grade\" = \"fine\" }", "use.grade"},
		{"name = \"a\"\nset = { \"variant.1.name\" = \"b\" }", "not the variants"},
		{"name = \"a\"\nset = { \"use.mowing_mm\" = 50 }\n[[variant]]\nname = \"a\"\nset = { \"use.mowing_mm\" = 60 }", "is that of another variant"},
	} {
		_, err := ReadBrief("court.toml", []byte(courtyard+"[[variant]]\n"+c.variant+"\n"), noFile)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s\n gives %v\n want %s", c.variant, err, c.want)
		}
	}
}

func TestParseSetting(t *testing.T) {
	for _, c := range []struct {
		in, key string
		value   any
	}{
		{"use.mowing_mm=50", "use.mowing_mm", int64(50)},
		{"obstacle.'a = b'.height_m = 3.5", "obstacle.'a = b'.height_m", 3.5},
		{"ground.texture=clay loam", "ground.texture", "clay loam"},
		{`ground.texture="clay loam"`, "ground.texture", "clay loam"},
		{"use.irrigation=true", "use.irrigation", true},
	} {
		got, err := ParseSetting(c.in)
		if err != nil || got.Key != c.key || got.Value != c.value {
			t.Errorf("%s: %+v, %v", c.in, got, err)
		}
	}
	for _, in := range []string{"", "use.mowing_mm", "=3", "a b.c=3", "use.mowing_mm="} {
		if got, err := ParseSetting(in); err == nil {
			t.Errorf("%q is taken for %+v", in, got)
		}
	}
}

// Whatever is set, it is a brief or faults that name the key; never a panic.
func FuzzSetting(f *testing.F) {
	for _, s := range []string{"use.mowing_mm=50", "obstacle.rowan.at=[1,2]", "obstacle.3.kind=\"tree\"", "lawn={}", "title=\"\"", "job.rootzone={depth_cm=20}"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		set, err := ParseSetting(s)
		if err != nil {
			return
		}
		b, err := With("court.toml", []byte(courtyard), noFile, []Setting{set})
		if err == nil && b.Title == "" {
			t.Errorf("%q gives a brief without a title", s)
		}
		if err != nil && strings.TrimSpace(err.Error()) == "" {
			t.Errorf("%q: a fault without words", s)
		}
	})
}

// A brief has 24 variants at most (our choice): more are no table that anyone reads.
func TestMostVariants(t *testing.T) {
	for n, sound := range map[int]bool{24: true, 25: false} {
		text := courtyard
		for i := range n {
			text += fmt.Sprintf("[[variant]]\nname = \"v%d\"\nset = { \"use.mowing_mm\" = %d }\n", i, 30+i)
		}
		b, err := ReadBrief("court.toml", []byte(text), noFile)
		if (err == nil) != sound || sound && len(b.Variants) != n {
			t.Errorf("%d variants: %d read, %v", n, len(b.Variants), err)
		}
	}
}
