package sowing

import (
	"fmt"
	"io"
	"io/fs"
	"testing"

	"swardwright/data"
)

// smallest is the smallest brief that gives a full plan.
const smallest = `
title = "Back lawn"
[place]
latitude = 57.1
station = "Stornoway Airport"
[lawn]
area_m2 = 84
[light]
sun_hours = 3.5
[use]
grade = "utility"
`

func TestSmallestBrief(t *testing.T) {
	b, err := ReadBrief("small.toml", []byte(smallest), nil)
	if err != nil {
		t.Fatal(err)
	}
	if b.Title != "Back lawn" || b.Site.Lawn.AreaM2 != 84 || b.Site.Light.SunHours == nil || *b.Site.Light.SunHours != 3.5 {
		t.Errorf("read %+v", b)
	}
	if b.Units != "metric" || b.Currency != "GBP" || b.Job.Kind != New {
		t.Errorf("defaults: units %q, currency %q, job %q", b.Units, b.Currency, b.Job.Kind)
	}
	if len(b.Defaults) == 0 {
		t.Error("nothing is said of what was taken for the keys left out")
	}
}

// TestDemos reads every demo brief.
func TestDemos(t *testing.T) {
	demos, err := fs.Glob(data.FS, "demo/*.toml")
	if err != nil || len(demos) < 3 {
		t.Fatalf("%d demo briefs, %v", len(demos), err)
	}
	for _, name := range demos {
		text, err := data.FS.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := ReadBrief(name, text, nil); err != nil {
			t.Error(err)
		}
	}
}

// noFile stands in for a folder without files.
func noFile(name string) (io.ReadCloser, error) {
	return nil, fmt.Errorf("there is no file %s", name)
}
