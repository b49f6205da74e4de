package calendar

import (
	"strings"
	"testing"

	"swardwright/sowing"
)

// TestIdentity: edits that keep the lawn keep its identity; another client's lawn of
// the same name, or another lawn of the client's, has its own.
func TestIdentity(t *testing.T) {
	const lawn = "title = \"Back lawn\"\nclient = \"A\"\nreference = \"7\"\n[place]\nlatitude = 57.1\nlongitude = -3.8\n[lawn]\narea_m2 = 84\n[use]\ngrade = \"utility\"\n"
	of := func(text string) string {
		b, err := sowing.ReadBrief("", []byte(text), nil)
		if err != nil {
			t.Fatal(err)
		}
		return identity(b)
	}
	for _, edit := range [][2]string{{"area_m2 = 84", "area_m2 = 90"}, {"utility", "ornamental"}, {"title", "date = 2027-05-01\ntitle"}, {"57.1", "57.101"}} {
		if of(strings.Replace(lawn, edit[0], edit[1], 1)) != of(lawn) {
			t.Errorf("%s instead of %s makes another lawn of it", edit[1], edit[0])
		}
	}
	for _, other := range [][2]string{{`"A"`, `"B"`}, {`"7"`, `"8"`}, {"Back", "Front"}, {"57.1", "58.1"}, {"client = \"A\"\n", ""}} {
		if of(strings.Replace(lawn, other[0], other[1], 1)) == of(lawn) {
			t.Errorf("%s instead of %s is taken for the same lawn", other[1], other[0])
		}
	}
}
