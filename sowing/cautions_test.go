package sowing

import (
	"context"
	"fmt"
	"strings"
	"testing"
)

// TestFarStation: weather from far away is a caution, from near by it is none.
func TestFarStation(t *testing.T) {
	for _, c := range []struct {
		latitude, longitude float64
		far                 string // the sentence
	}{
		{33.4, -112.1, "{job.far-station [Winslow, Arizona 221."}, // low desert; the station is on the plateau
		{51.5, 0, ""},
	} {
		text := fmt.Sprintf("title = \"Lawn\"\n[place]\nlatitude = %g\nlongitude = %g\n[lawn]\narea_m2 = 50\n[light]\nsun_hours = 8\n[use]\ngrade = \"utility\"\n", c.latitude, c.longitude)
		brief, err := ReadBrief("lawn.toml", []byte(text), nil)
		if err != nil {
			t.Fatal(err)
		}
		plan, err := NewPlan(context.Background(), builtIn(t), brief)
		if err != nil {
			t.Fatal(err)
		}
		said := ""
		for _, s := range plan.Cautions {
			said += fmt.Sprint(s) + "\n"
		}
		if got := strings.Contains(said, "job.far-station"); got != (c.far != "") || !strings.Contains(said, c.far) {
			t.Errorf("%g, %g: cautions\n%s", c.latitude, c.longitude, said)
		}
	}
}

// builtIn are the tables of the program.
func builtIn(t testing.TB) Tables {
	t.Helper()
	tables, err := BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	return tables
}
