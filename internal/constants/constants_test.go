package constants

import (
	"testing"
	"testing/fstest"

	"swardwright"
)

func TestRead(t *testing.T) {
	table, err := Read(fstest.MapFS{"mix/a.go": {Data: []byte(`package mix

// Own constants of the search.
const (
	stepPercent = 5.0 // of weight
	tries       = 20
)

// buffer is how much is read at a time.
const buffer = 4096

// depthMM is common practice, no published source.
var depthMM = map[string]float64{"utility": 150, "ornamental": 200}

const (
	// rootedDays by Purdue AY-28.
	rootedDays = 21
	name       = "x"

	turns = 3
)
`)}, "mix/a_test.go": {Data: []byte("package mix\n\n// inTest is our own.\nconst inTest = 3\n")}})
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]string{}
	for _, g := range table.Groups {
		for _, c := range g.Constants {
			got[g.Room+"."+c.Name] = c.Value + ": " + c.Why
		}
	}
	want := map[string]string{
		"mix.stepPercent": "5.0: of weight", "mix.tries": "20: ",
		"mix.depthMM": `map[string]float64{"utility": 150, "ornamental": 200}: `,
	}
	for name, w := range want {
		if got[name] != w {
			t.Errorf("%s is %q, want %q", name, got[name], w)
		}
	}
	for _, plumbing := range []string{"mix.buffer", "mix.name", "mix.turns", "mix.inTest"} {
		if x, ok := got[plumbing]; ok {
			t.Errorf("%s is listed: %q", plumbing, x)
		}
	}
	if _, err := Read(fstest.MapFS{"a.go": {Data: []byte("pakage")}}); err == nil {
		t.Error("what is no Go is read")
	}
}

// Every room of the trade has numbers that say where they come from.
func TestCore(t *testing.T) {
	table, err := Read(swardwright.Core)
	if err != nil {
		t.Fatal(err)
	}
	rooms := map[string]int{}
	for _, g := range table.Groups {
		rooms[g.Room] += len(g.Constants)
	}
	for _, room := range []string{"site/light", "site/weather", "site/ground", "species", "mix", "mix/sward", "sowing", "sowing/dates", "sowing/bed", "sowing/year", "sowing/money"} {
		if rooms[room] == 0 {
			t.Errorf("%s has no number that says where it comes from: %v", room, rooms)
		}
	}
}
