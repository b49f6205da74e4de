package desk

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"swardwright/internal/sheet"
	"swardwright/report/draw"
)

const smallest = `title = "Back lawn" # as the client calls it
[place]
latitude = 57.1
station = "Aviemore"
[lawn]
outline = [[0, 0], [12, 0], [12, 7], [0, 7]]
[use]
grade = "utility"
`

func ask(t *testing.T, d *Desk, r Request) Answer {
	t.Helper()
	a, err := d.Answer(t.Context(), r)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func TestEditIsSpliced(t *testing.T) {
	d := newDesk(t)
	a := ask(t, d, Request{Text: smallest, Edits: []Edit{
		{[]any{"lawn", "outline"}, []any{[]any{0, 0}, []any{json.Number("12.5"), 0}, []any{12, 7}, []any{0, 7}}},
		{[]any{"job", "needed_by"}, "2028-07-01"},
		{[]any{"obstacle", 1}, map[string]any{}}, {[]any{"obstacle", 1, "kind"}, "tree"},
	}})
	for _, want := range []string{"# as the client calls it", "[[0, 0], [12.5, 0], [12, 7], [0, 7]]", "needed_by = 2028-07-01\n", "[[obstacle]]\nkind = \"tree\"\n"} {
		if !strings.Contains(a.Text, want) {
			t.Errorf("the text has no %q:\n%s", want, a.Text)
		}
	}
	if a.Refused != "" || !a.Readable {
		t.Errorf("refused: %q", a.Refused)
	}
	// The tree lacks its height, its place and its crown; they are told where a form shows them.
	var paths []string
	for _, f := range a.Faults {
		paths = append(paths, f.Path)
		if f.Said != fmt.Sprintf("%s (line %d): %s", f.Path, f.Line, f.Text) {
			t.Errorf("said %q of %+v", f.Said, f)
		}
	}
	if got := strings.Join(paths, " "); got != "obstacle[1].at obstacle[1].crown_m obstacle[1].height_m" {
		t.Errorf("faults of %s", got)
	}
	if says, _ := a.Says["job"].(map[string]any); says["needed_by"] != "2028-07-01" {
		t.Errorf("says %v", a.Says["job"])
	}
}

func TestEditRefused(t *testing.T) {
	d := newDesk(t)
	broken := "title = \n" + smallest
	a := ask(t, d, Request{Text: broken, Edits: []Edit{{[]any{"use", "grade"}, "extensive"}}})
	if a.Refused == "" || a.Text != broken || a.Readable || len(a.Faults) == 0 {
		t.Errorf("an edit of a broken text: %q, readable %v, %d faults", a.Refused, a.Readable, len(a.Faults))
	}
	many := make([]Edit, maxEdits+1)
	if a := ask(t, d, Request{Text: smallest, Edits: many}); a.Refused == "" {
		t.Error("edits without bound are taken")
	}
}

// TestLightOfFaultyBrief has light while other pages have faults, and none of a faulty lawn.
func TestLightOfFaultyBrief(t *testing.T) {
	d := newDesk(t)
	text := strings.Replace(smallest, `"utility"`, `"utmost"`, 1)
	if a := ask(t, d, Request{Text: text, Want: Want{Cells: 400, Plan: true}}); a.Plan != nil || len(a.Faults) != 1 {
		t.Errorf("a faulty brief is planned; %d faults", len(a.Faults))
	}
	a := ask(t, d, Request{Text: text, Want: Want{Cells: 400}})
	if a.Light == nil || len(a.Light.Cells.Col) < 100 || len(a.Light.Cells.Col) > 400 {
		t.Fatalf("light %+v", a.Light)
	}
	crossed := strings.Replace(smallest, "[12, 7], [0, 7]", "[0, 7], [12, 7]", 1)
	if a := ask(t, d, Request{Text: crossed, Want: Want{Cells: 400}}); a.Light != nil || len(a.Faults) != 1 {
		t.Errorf("an outline that crosses itself has light; faults %v", a.Faults)
	}
}

// TestLightIsThePlans compares the quick light with the plan's: the open lawn is one zone
// whose light does not depend on the cells, and the light at rest has more of them.
func TestLightIsThePlans(t *testing.T) {
	d := newDesk(t)
	for _, name := range []string{"court", "orchard", "family-us"} {
		text := demo(t, name)
		quick := ask(t, d, Request{Text: text, Want: Want{Cells: 400}}).Light
		whole := ask(t, d, Request{Text: text, Want: Want{Plan: true}})
		if whole.Plan == nil || whole.Light == nil {
			t.Fatalf("%s is not planned: %s %v", name, whole.Problem, whole.Faults)
		}
		if len(quick.Cells.Col) > 440 || len(whole.Light.Cells.Col) <= 2*len(quick.Cells.Col) {
			t.Errorf("%s: %d cells quickly, %d at rest", name, len(quick.Cells.Col), len(whole.Light.Cells.Col))
		}
		mean := func(l *Light) (sum float64) {
			for _, z := range l.Zones {
				sum += z.Share * z.DLI[12]
			}
			return sum
		}
		// Zones' light at 1 m and at 0.25 m differs by a few tenths of a mol.
		if a, b := mean(quick), mean(whole.Light); math.Abs(a-b) > 0.4 {
			t.Errorf("%s: %.2f mol quickly, %.2f at rest", name, a, b)
		}
		for m := range 13 {
			if len(whole.Light.Sun[m]) != len(whole.Light.Cells.Col) || len(whole.Light.DLI[m]) != len(whole.Light.Cells.Zone) {
				t.Errorf("%s: lists of month %d are of other lengths", name, m)
			}
		}
	}
}

func TestHours(t *testing.T) {
	d := newDesk(t)
	a := ask(t, d, Request{Text: demo(t, "court"), Want: Want{Cells: 400, Day: 172}})
	if a.Hours == nil || len(a.Hours.At) < 36 {
		t.Fatalf("hours of midsummer at 63° N: %+v", a.Hours)
	}
	for _, h := range a.Hours.At {
		if len(h.Share) != len(a.Hours.Cells.Col) || h.Elevation <= 0 {
			t.Errorf("%v: %d shares of %d cells, sun at %v°", h.Hour, len(h.Share), len(a.Hours.Cells.Col), h.Elevation)
		}
	}
}

func TestFiles(t *testing.T) {
	d := newDesk(t)
	a := ask(t, d, Request{Text: smallest, Want: Want{Files: []string{"pdf", "html", "json", "csv", "ics"}}})
	begins := map[string]string{"pdf": "%PDF-", "html": "<!DOCTYPE html>", "json": "{", "csv": "", "ics": "BEGIN:VCALENDAR"}
	for _, f := range a.Files {
		ending := strings.TrimPrefix(filepath.Ext(f.Name), ".")
		if len(f.Data) < 500 || !bytes.HasPrefix(f.Data, []byte(begins[ending])) || f.Type == "" || f.Name != "back-lawn."+ending {
			t.Errorf("%s of %d bytes as %q begins %q", f.Name, len(f.Data), f.Type, f.Data[:min(20, len(f.Data))])
		}
		delete(begins, ending)
	}
	if len(begins) > 0 {
		t.Errorf("no file of %v: %s", begins, a.Problem)
	}
	if a := ask(t, d, Request{Text: smallest, Want: Want{Files: []string{"exe"}}}); a.Problem == "" || a.Files != nil {
		t.Error("a form that is none is made")
	}
}

// TestSamePlan holds the figures to what the command writes: they are made by one writer.
func TestSamePlan(t *testing.T) {
	d := newDesk(t)
	a := ask(t, d, Request{Text: smallest, Want: Want{Plan: true, Files: []string{"json"}}})
	if len(a.Files) != 1 || !bytes.Equal(bytes.TrimSpace(a.Files[0].Data), bytes.TrimSpace(a.Plan.Figures)) {
		t.Error("the figures beside the drawing are not those of the file")
	}
	again := ask(t, newDesk(t), Request{Text: smallest, Want: Want{Plan: true}})
	if !bytes.Equal(a.Plan.Figures, again.Plan.Figures) || a.Plan.Page != again.Plan.Page {
		t.Error("another desk answers otherwise")
	}
}

// TestSkyIsKeptByPlace goes from place to place and back: what is kept must not be seen.
func TestSkyIsKeptByPlace(t *testing.T) {
	d := newDesk(t)
	south := strings.Replace(smallest, "latitude = 57.1\nstation = \"Aviemore\"", "latitude = 47.3\nlongitude = 11.4", 1)
	light := func(d *Desk, text string) string {
		l, err := json.Marshal(ask(t, d, Request{Text: text, Want: Want{Cells: 50}}).Light)
		if err != nil {
			t.Fatal(err)
		}
		return string(l)
	}
	first, other := light(d, smallest), light(d, south)
	if first == other {
		t.Error("two places have one light")
	}
	if light(d, smallest) != first || light(newDesk(t), south) != other {
		t.Error("the light depends on what was asked before")
	}
	// The growing season is that of the years planned for.
	if later := light(d, "date = 2060-01-01\n"+smallest); later == first {
		t.Error("the sky of one year is kept for another")
	}
}

func TestStations(t *testing.T) {
	d := newDesk(t)
	byName := ask(t, d, Request{Want: Want{Stations: &Near{Named: "avie"}}}).Stations
	if len(byName) == 0 || byName[0].Name != "Aviemore" || byName[0].KM != nil {
		t.Errorf("stations called avie: %+v", byName)
	}
	near := ask(t, d, Request{Want: Want{Stations: &Near{At: &[2]float64{57.1, -3.8}}}}).Stations
	if len(near) != fewStations || near[0].KM == nil || *near[0].KM > 60 {
		t.Errorf("stations near 57.1, -3.8: %+v", near)
	}
	for _, none := range []Near{{}, {Named: "zzzzzz"}, {At: &[2]float64{91, 0}}} {
		if s := ask(t, d, Request{Want: Want{Stations: &none}}).Stations; len(s) != 0 {
			t.Errorf("%+v finds %+v", none, s)
		}
	}
}

// TestStartKnowsEveryKey: every key of a brief has a field with a label, and words stand
// for keys that there are.
func TestStartKnowsEveryKey(t *testing.T) {
	s := ask(t, newDesk(t), Request{Want: Want{Start: true}}).Start
	known := map[string]bool{}
	for _, f := range s.Fields {
		known[f.Path] = true
		if f.Label == "" {
			t.Errorf("%s has no label", f.Path)
		}
	}
	for path := range words {
		if !known[path] {
			t.Errorf("words for %s, which is no key", path)
		}
	}
	if len(s.Grasses) < 20 || len(s.Scale) != 9 || len(s.Forms) < 5 {
		t.Errorf("%d grasses, %d colours, %d forms", len(s.Grasses), len(s.Scale), len(s.Forms))
	}
}

func TestPlainLabel(t *testing.T) {
	for path, want := range map[string]string{"obstacle.stem_cm": "Stem", "use.mower_width_cm": "Mower width", "sown.rate_g_m2": "Rate", "seen.snow_mould_percent": "Snow mould"} {
		if got := plainLabel(path); got != want {
			t.Errorf("%s is %q, want %q", path, got, want)
		}
	}
}

// TestLeftOut holds what a form says is taken for a key that is left out to what a plan
// takes: to say it makes no difference.
func TestLeftOut(t *testing.T) {
	d := newDesk(t)
	figures := func(edits ...Edit) string {
		a := ask(t, d, Request{Text: smallest, Edits: edits, Want: Want{Plan: true}})
		if a.Plan == nil {
			t.Fatalf("%v: %v %s", edits, a.Faults, a.Problem)
		}
		var f map[string]any
		if err := json.Unmarshal(a.Plan.Figures, &f); err != nil {
			t.Fatal(err)
		}
		delete(f, "assumptions")
		out, err := json.Marshal(f)
		if err != nil {
			t.Fatal(err)
		}
		return string(out)
	}
	plain := figures()
	for path, value := range map[string]any{
		"units": "metric", "currency": "GBP", "language": "en-GB", "lawn.slope_deg": nil, "use.irrigation": false, "use.livestock": false,
		"use.dogs": false, "job.kind": "new", "job.found": "bare", "job.method": "broadcast", "job.success": 0.8, "climate.trend": true,
		"use.feeding": "moderate", "ground.texture": "loam", "lawn.plan_north_deg": 0,
	} {
		if value == nil {
			continue
		}
		var at []any
		for _, p := range strings.Split(path, ".") {
			at = append(at, p)
		}
		if w := words[path]; w.left == "" {
			t.Errorf("nothing is said of %s left out", path)
		}
		if figures(Edit{at, value}) != plain {
			t.Errorf("%s = %v is not what is taken when it is left out", path, value)
		}
	}
}

func TestMeasured(t *testing.T) {
	for _, c := range []struct {
		name string
		m    Measured
		at   [2]float64
		says string // of what is said, warned or refused
	}{
		{"two tapes", Measured{By: "tapes", B: [2]float64{4, 0}, FromA: 3, FromB: 5}, [2]float64{0, 3}, "cross at 53°"},
		{"on the right", Measured{By: "tapes", B: [2]float64{4, 0}, FromA: 3, FromB: 5, Right: true}, [2]float64{0, -3}, ""},
		{"nearly in one line", Measured{By: "tapes", B: [2]float64{10, 0}, FromA: 5, FromB: 5.1}, [2]float64{4.95, 0.71}, "a tape wrong by 1 cm moves the point by 4 cm"},
		{"in one line", Measured{By: "tapes", B: [2]float64{10, 0}, FromA: 4, FromB: 6}, [2]float64{4, 0}, "moves the point far"},
		{"too short", Measured{By: "tapes", B: [2]float64{10, 0}, FromA: 4, FromB: 5.88}, [2]float64{}, "12 cm are missing"},
		{"too long", Measured{By: "tapes", B: [2]float64{10, 0}, FromA: 17, FromB: 6.75}, [2]float64{}, "too long for the other by 25 cm"},
		{"short by a millimetre", Measured{By: "tapes", B: [2]float64{10, 0}, FromA: 4, FromB: 5.999}, [2]float64{}, "1 cm are missing"},
		{"from one point", Measured{By: "tapes", FromA: 4, FromB: 6}, [2]float64{}, "same place"},
		{"an offset", Measured{By: "offset", A: [2]float64{1, 2}, B: [2]float64{1, 8}, Along: 3, Off: 2, Right: true}, [2]float64{3, 5}, ""},
		{"beyond the line", Measured{By: "offset", A: [2]float64{1, 2}, B: [2]float64{1, 8}, Along: 7.5, Off: 0}, [2]float64{1, 9.5}, "beyond the line, which is 6.00 m long"},
		{"less than nothing", Measured{By: "tapes", B: [2]float64{10, 0}, FromA: -1, FromB: 5}, [2]float64{}, "from 0 to 1000 m"},
		{"no way", Measured{By: "eye"}, [2]float64{}, "no way of measuring"},
	} {
		f := c.m.find()
		if said := f.Said + f.Warned + f.Refused; !strings.Contains(said, c.says) {
			t.Errorf("%s: says %q, want %q", c.name, said, c.says)
		}
		if c.at == ([2]float64{}) {
			if f.At != nil || f.Refused == "" {
				t.Errorf("%s is found at %v", c.name, f.At)
			}
		} else if f.At == nil || *f.At != c.at {
			t.Errorf("%s: %v, want %v", c.name, f.At, c.at)
		}
	}
}

// TestNorth: at true noon a shadow falls due north on the northern half of the earth
// (and by Meeus' sun, which package sun is tested with, at 12:00 UTC on 15 April 2027 the
// sun stands within half a degree of the meridian of Greenwich).
func TestNorth(t *testing.T) {
	shadow := Northward{By: "shadow", To: [2]float64{0, 2}, Time: "2027-04-15T12:00:00Z", Latitude: 51.48}
	if f := shadow.find(); f.North == nil || math.Abs(math.Remainder(*f.North, 360)) > 0.5 || !strings.Contains(f.Said, "high at a bearing of") {
		t.Errorf("north by a noon shadow up the page: %+v", f)
	}
	// An hour of summer time makes the sun a quarter of an hour's turn, about 15° and more, off.
	shadow.Time = "2027-04-15T12:00:00+01:00"
	if f := shadow.find(); f.North == nil || *f.North < 335 || *f.North > 345 {
		t.Errorf("north by a shadow at eleven: %+v", f)
	}
	for _, c := range []struct {
		n    Northward
		want string
	}{
		{Northward{By: "bearing", To: [2]float64{5, 0}, Bearing: 75, Variation: 3}, ""},
		{Northward{By: "bearing", To: [2]float64{5, 0}, Bearing: -1}, "0° to 360°"},
		{Northward{By: "bearing", Bearing: 10}, "same place"},
		{Northward{By: "shadow", To: [2]float64{0, 1}, Time: "2027-04-15T00:00:00Z", Latitude: 51}, "not up"},
		{Northward{By: "shadow", To: [2]float64{0, 1}, Time: "2027-04-15T05:40:00Z", Latitude: 51}, "long shadow"},
		{Northward{By: "shadow", To: [2]float64{0, 1}, Time: "2027-06-21T12:00:00Z", Latitude: 48}, "short shadow"},
		{Northward{By: "shadow", To: [2]float64{0, 1}, Time: "noon", Latitude: 48}, "clock time"},
		{Northward{By: "shadow", To: [2]float64{0, 1}, Time: "2027-06-21T12:00:00Z", Latitude: 999}, "place first"},
		{Northward{By: "guess"}, "no way"},
	} {
		f := c.n.find()
		if said := f.Said + f.Warned + f.Refused; !strings.Contains(said, c.want) {
			t.Errorf("%+v says %q, want %q", c.n, said, c.want)
		}
	}
	if f := (Northward{By: "bearing", To: [2]float64{5, 0}, Bearing: 75, Variation: 3}).find(); f.North == nil || *f.North != 348 {
		t.Errorf("a wall along x at 75° by a compass 3° east: %+v, want 348", f)
	}
}

func TestMerge(t *testing.T) {
	d := newDesk(t)
	mine := strings.NewReplacer("[12, 7]", "[12, 8]", `"utility"`, `"extensive"`).Replace(smallest)
	theirs := strings.NewReplacer("57.1", "57.2", `"utility"`, `"ornamental" # they changed their mind`).Replace(smallest) + "traffic = \"light\"\n"
	m := ask(t, d, Request{Text: mine, Want: Want{Merge: &Merge{From: smallest, Into: theirs}}}).Merged
	for _, want := range []string{"[12, 8]", "57.2", `"ornamental" # they changed their mind`, "traffic"} {
		if !strings.Contains(m.Text, want) {
			t.Errorf("no %s in\n%s", want, m.Text)
		}
	}
	if strings.Join(m.Brought, " ") != "lawn.outline" || strings.Join(m.Both, " ") != "use.grade" || m.Refused != "" {
		t.Errorf("brought %v, both %v, %s", m.Brought, m.Both, m.Refused)
	}
	// Into a text that can't be read nothing is brought, and nothing is lost.
	m = ask(t, d, Request{Text: mine, Want: Want{Merge: &Merge{From: smallest, Into: "title ="}}}).Merged
	if m.Text != "title =" || m.Refused == "" || len(m.Brought) > 0 {
		t.Errorf("into a broken text: %+v", m)
	}
}

func TestVariants(t *testing.T) {
	d := newDesk(t)
	text := smallest + "\n[[variant]]\nname = \"cut high\"\nset = { \"use.mowing_mm\" = 70 }\n"
	a := ask(t, d, Request{Text: text, Want: Want{Plan: true, Variant: 1}})
	if a.Plan == nil || a.Variant == nil {
		t.Fatalf("the variant is not planned: %v %s", a.Faults, a.Problem)
	}
	if use, _ := a.Variant["use"].(map[string]any); use["mowing_mm"] != 70.0 {
		t.Errorf("the variant says %v", a.Variant["use"])
	}
	if a.Text != text {
		t.Error("the text is changed by looking at a variant")
	}
	if a := ask(t, d, Request{Text: text, Want: Want{Plan: true, Variant: 2}}); a.Problem == "" || a.Plan != nil {
		t.Error("there is a second variant")
	}
}

// TestPaletteIsThePapers holds the page's colours to the drawings'.
func TestPaletteIsThePapers(t *testing.T) {
	css := string(Assets()["desk.css"].Data)
	for name, color := range palette {
		if !strings.Contains(css, "--"+name+": "+string(color)+";") {
			t.Errorf("the page has no --%s: %s", name, color)
		}
	}
	for pair, want := range map[[2]draw.Color]float64{ // WCAG 2.2: 4.5 for text, 3 for edges
		{"#555555", "#ffffff"}: 4.5, {"#a33b00", "#ffffff"}: 4.5, {"#00527f", "#ffffff"}: 4.5, {"#767676", "#ffffff"}: 3,
		{"#b8b8b8", "#1a1a1a"}: 4.5, {"#ff9d66", "#1a1a1a"}: 4.5, {"#8fc9ee", "#1a1a1a"}: 4.5, {"#9a9a9a", "#1a1a1a"}: 3, {"#009e73", "#ffffff"}: 3,
	} {
		if got := draw.Contrast(pair[0], pair[1]); got < want {
			t.Errorf("%s on %s has %.1f, want %.1f", pair[0], pair[1], got, want)
		}
		if !strings.Contains(css, string(pair[0])) {
			t.Errorf("the page has no %s", pair[0])
		}
	}
}

// TestWeatherFiles: a page names no files.
func TestWeatherFiles(t *testing.T) {
	a := ask(t, newDesk(t), Request{Text: strings.Replace(smallest, "[lawn]", "[climate]\nepw = \"/etc/passwd\"\n[lawn]", 1)})
	if len(a.Faults) != 1 || a.Faults[0].Path != "climate.epw" {
		t.Errorf("faults %v", a.Faults)
	}
}

func TestReadRequest(t *testing.T) {
	for _, bad := range []string{"", "[]", `{"text": 3}`, `{"open": "file"}`, "{"} {
		if _, err := ReadRequest([]byte(bad)); err == nil {
			t.Errorf("%s is a request", bad)
		}
	}
	if _, err := ReadRequest([]byte(`{"text": "", "edits": [{"path": ["a"], "value": 1.50}], "want": {"cells": 400}}`)); err != nil {
		t.Error(err)
	}
}

func TestPlainTree(t *testing.T) {
	got := plainTree(sheet.Open("", []byte("a = nan\nb = -inf\nc = 2027-01-02\nd = [1, {e = 2027-01-02T03:04:05Z}]\n")).Tree())
	out, err := json.Marshal(got)
	if want := `{"a":"NaN","b":"-Inf","c":"2027-01-02","d":[1,{"e":"2027-01-02T03:04:05Z"}]}`; err != nil || string(out) != want {
		t.Errorf("%s, %v", out, err)
	}
}

// FuzzAnswer asks about any text and any edit: an answer comes, in time, as JSON.
func FuzzAnswer(f *testing.F) {
	f.Add(smallest, "lawn", "slope_deg", `2.5`)
	f.Add("", "place", "latitude", `"north"`)
	f.Add("a = [", "x", "y", `null`)
	f.Add(smallest, "obstacle", "kind", `[1, {"a": true}]`)
	d := newDesk(f)
	f.Fuzz(func(t *testing.T, text, table, key, value string) {
		var v any
		if json.Unmarshal([]byte(value), &v) != nil {
			return
		}
		begun := time.Now()
		request, err := json.Marshal(Request{Text: text, Edits: []Edit{{[]any{table, key}, v}, {[]any{table, 1, key}, v}}, Want: Want{Cells: 50, Day: 172}})
		if err != nil {
			t.Fatal(err)
		}
		if out, err := d.AnswerJSON(t.Context(), request); err != nil || !json.Valid(out) {
			t.Fatalf("%s: %v", out, err)
		}
		if took := time.Since(begun); took > time.Minute {
			t.Errorf("took %v", took)
		}
	})
}
