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
		plan := planned(t, text)
		said := ""
		for _, s := range plan.Cautions {
			said += fmt.Sprint(s) + "\n"
		}
		if got := strings.Contains(said, "job.far-station"); got != (c.far != "") || !strings.Contains(said, c.far) {
			t.Errorf("%g, %g: cautions\n%s", c.latitude, c.longitude, said)
		}
	}
}

// Who keeps animals on it is told what horses are sown, and that no grass of those spares one that founders (Allen, Sheaffer
// and Martinson 2013: ryegrass, timothy and smooth meadow-grass alike higher in sugar than others); nobody else is.
func TestHorsesAreCautioned(t *testing.T) {
	for _, livestock := range []bool{true, false} {
		text := fmt.Sprintf("title = \"Paddock\"\n[place]\nlatitude = 52.2\nlongitude = -1.5\n[lawn]\narea_m2 = 900\n[light]\nsun_hours = 8\n[use]\ngrade = \"extensive\"\nlivestock = %t\n", livestock)
		plan := planned(t, text)
		said := fmt.Sprint(plan.Cautions)
		for _, name := range []string{"job.horses ", "job.horses-sugar "} {
			if strings.Contains(said, name) != livestock {
				t.Errorf("livestock %t: %s in %s", livestock, name, said)
			}
		}
	}
}

// planned is the plan of a brief.
func planned(t testing.TB, text string) Plan {
	t.Helper()
	brief, err := ReadBrief("lawn.toml", []byte(text), nil)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := NewPlan(context.Background(), builtIn(t), brief)
	if err != nil {
		t.Fatal(err)
	}
	return plan
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
