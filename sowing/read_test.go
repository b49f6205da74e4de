package sowing

import (
	"fmt"
	"io"
	"io/fs"
	"strings"
	"testing"

	"swardwright/data"
	"swardwright/internal/briefs"
	"swardwright/sowing/job"
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
	if b.Units != "metric" || b.Currency != "GBP" || b.Job.Kind != job.New {
		t.Errorf("defaults: units %q, currency %q, job %q", b.Units, b.Currency, b.Job.Kind)
	}
	if len(b.Defaults) == 0 {
		t.Error("nothing is said of what was taken for the keys left out")
	}
}

// TestWhatStandsThere: what is found on the ground goes by the job unless it is told,
// and every key of the place and the use is carried to where it is wanted.
func TestWhatStandsThere(t *testing.T) {
	for text, want := range map[string]job.Found{
		"": job.Bare, "found = \"paving\"": job.Paving, "kind = \"overseed\"": job.OldLawn, "kind = \"renovate\"\nfound = \"moss\"": job.Moss,
	} {
		b, err := ReadBrief("", []byte(smallest+"dogs = true\nmower_width_cm = 43\n[job]\naccess_m = 0.9\n"+text), nil)
		if err != nil {
			t.Fatal(err)
		}
		if b.Job.Found != want || b.Job.AccessM == nil || *b.Job.AccessM != 0.9 || !b.Use.Dogs || b.Use.MowerWidthCM != 43 || !b.Site.Trend {
			t.Errorf("%q: found %q, %+v", text, b.Job.Found, b.Use)
		}
	}
	b, err := ReadBrief("", []byte(smallest+"[climate]\ntrend = false\n"), nil)
	if err != nil || b.Site.Trend || b.Site.Climate != nil {
		t.Errorf("normals kept as they are: %v, %+v", err, b.Site)
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

// TestWeatherFile reads a weather file that stands beside the brief.
func TestWeatherFile(t *testing.T) {
	text := strings.Replace(smallest, "[lawn]", "[climate]\nepw = \"cove.epw\"\n[lawn]", 1)
	opens := func(content string) func(string) (io.ReadCloser, error) {
		return func(name string) (io.ReadCloser, error) {
			if name != "cove.epw" {
				return nil, fmt.Errorf("asked for %q", name)
			}
			return io.NopCloser(strings.NewReader(content)), nil
		}
	}
	b, err := ReadBrief("", []byte(text), opens(briefs.Year(12, 0)))
	if err != nil {
		t.Fatal(err)
	}
	n := b.Site.Climate
	if n == nil || n.Name != "Invented Cove" || n.MeanC[6] != 12 || n.RainMM[0] != 11*6 {
		t.Errorf("climate %+v", n)
	}
	year := briefs.Year(12, 0)
	for what, content := range map[string]string{"half a file": year[:len(year)/2], "an empty file": "", "another file": "title = \"x\"\n"} {
		_, err := ReadBrief("", []byte(text), opens(content))
		if err == nil || !strings.HasPrefix(err.Error(), "climate.epw (line 7): cove.epw: weather file") {
			t.Errorf("%s: %v", what, err)
		}
	}
}
