package agree

import (
	"bytes"
	"context"
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"swardwright/data"
	"swardwright/report"
	"swardwright/sowing"
	"swardwright/species"
)

// TestCheckNotices: the plan of a demo agrees with itself, and each figure of it that
// is put out of line is noticed.
func TestCheckNotices(t *testing.T) {
	text, err := data.FS.ReadFile("demo/court.toml")
	if err != nil {
		t.Fatal(err)
	}
	b, err := sowing.ReadBrief("", text, nil)
	if err != nil {
		t.Fatal(err)
	}
	tables, err := sowing.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	p, err := sowing.NewPlan(context.Background(), tables, b)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := report.JSON(&out, p); err != nil {
		t.Fatal(err)
	}
	if wrongs := Check(b, out.Bytes()); len(wrongs) > 0 {
		t.Fatalf("the plan of the demo: %v", wrongs)
	}
	for _, spoil := range []struct{ what, pattern, with string }{
		{"a share of a zone", `"share": 0\.\d+`, `"share": 0.011`},
		{"an area", `"area_m2": [\d.]+`, `"area_m2": 12.5`},
		{"the grass", `"grass_m2": [\d.]+`, `"grass_m2": 1`},
		{"a rating", `"light": 0\.\d+`, `"light": 1.01`},
		{"a share of the mixture", `"percent_by_weight": \d+`, `"percent_by_weight": 35`},
		{"grams", `"grams": \d+`, `"grams": 5`},
		{"the rate", `"rate_g_m2": [\d.]+`, `"rate_g_m2": 55`},
		{"a season", `"annual-meadow-grass": [\d.]+`, `"annual-meadow-grass": 99`},
		{"a success", `"success": [\d.]+`, `"success": 1.2`},
		{"a span", `"emergence_days": \[\s*\d+`, `"emergence_days": [99`},
		{"a bag", `"count": \d+`, `"count": 0`},
		{"the days of a task", `"date": "2027-0[3-9]-\d\d"`, `"date": "2026-01-01"`},
		{"a zero date", `"usable_from": "[^"]*"`, `"usable_from": "0001-01-01"`},
		{"a day of use", `"usable_from": "[^"]*"`, `"usable_from": "2027-02-02"`},
		{"hours", `"hours": [\d.]+`, `"hours": -1`},
		{"goes", `"goes": \d+,\s*"litres"`, `"goes": 999, "litres"`},
		{"litres", `"litres": [1-9][\d.]+,\s*"until"`, `"litres": 1, "until"`},
		{"an amount", `"amount": "[\d.]+"`, `"amount": "0.01"`},
		{"a total", `"total": "[\d.]+"`, `"total": "1.00"`},
		{"a percentile", `"p90": "[\d.]+"`, `"p90": "0.50"`},
		{"the advice", `"advice": "\w+"`, `"advice": "lay turf"`},
		{"the grade asked for", `"asked": "\w+"`, `"asked": "extensive"`},
		{"a need", `"id": "[a-z-]+",\s*"days": \d+`, `"id": "nothing", "days": 1`},
		{"a wait", `"days": \d+`, `"days": 400`},
		{"the headline", `"headline": "[^"]*"`, `"headline": ""`},
		{"no number", `"detail": "[^"]*"`, `"detail": "take NaN kg"`},
	} {
		done := false
		bad := regexp.MustCompile(spoil.pattern).ReplaceAllStringFunc(out.String(), func(s string) string {
			if done {
				return s
			}
			done = true
			return spoil.with
		})
		if !done || !json.Valid([]byte(bad)) {
			t.Errorf("%s: nothing to put out of line", spoil.what)
			continue
		}
		if wrongs := Check(b, []byte(bad)); len(wrongs) == 0 {
			t.Errorf("%s out of line is not noticed", spoil.what)
		} else if testing.Verbose() {
			t.Logf("%s: %s", spoil.what, strings.Join(wrongs, "; "))
		}
	}
}

// The law of the brief is held against every feed, whatever the year: 29 February is as the day before.
func TestLawful(t *testing.T) {
	for _, r := range []struct {
		id, date string
		wrong    bool
	}{
		{"feed", "2027-11-20", true}, {"feed-2", "2028-02-29", true}, {"starter-feed", "2028-03-01", true}, {"starter-feed", "2028-03-02", false},
		{"feed-young", "2027-11-14", false}, {"lime", "2027-12-01", false},
	} {
		c := checker{b: sowing.Brief{Use: species.Use{NoFeed: &species.Ban{From: 318, Until: 59}}}} // 15 November to 1 March
		c.lawful(task{ID: r.id, Date: day(r.date)})
		if (len(c.wrongs) > 0) != r.wrong {
			t.Errorf("%s on %s: %v", r.id, r.date, c.wrongs)
		}
	}
}
