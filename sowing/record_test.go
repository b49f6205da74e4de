package sowing

import (
	"context"
	"fmt"
	"math"
	"testing"

	"swardwright/site/light"
	"swardwright/sowing/dates"
)

// Sun that was seen moves the light that is rated and shown. Of a normal prior, hours known to
// 0.174 in the logarithm, and a normal finding, to 0.15, the mean is the finding's part of both
// precisions, 0.174²/(0.174² + 0.15²); nothing but the factor moves. Grass that was counted
// moves no light that is shown.
func TestLightAsSeen(t *testing.T) {
	lawn := "title = \"Lawn\"\ndate = 2027-08-01\n[place]\nlatitude = 57.7\nlongitude = 11.9\n[lawn]\narea_m2 = 50\n[light]\nsun_hours = 5\n[use]\ngrade = \"utility\"\n[job]\nkind = \"overseed\"\n"
	lit := func(record string) light.Light {
		b, err := ReadBrief("lawn.toml", []byte(lawn+record), nil)
		if err != nil {
			t.Fatal(err)
		}
		_, ground, err := b.Matrix(context.Background(), builtIn(t))
		if err != nil {
			t.Fatal(err)
		}
		if ground.Field.Zones[0].Light != ground.Zones[0].Light {
			t.Error("the field and the zones differ")
		}
		return ground.Zones[0].Light
	}
	is := lit("")
	if counted := lit("[[seen]]\ndate = 2027-07-10\npoints = 100\nlayout = \"string\"\ngrass = 40\nbare = 60\n"); counted != is {
		t.Errorf("a thin sward dims the light shown: %v, then %v", is.DLISeason, counted.DLISeason)
	}
	for _, part := range []float64{0.8, 1.2} {
		seen := lit(fmt.Sprintf("[[seen]]\ndate = 2027-06-20\nsun_hours = %g\n", part*is.SunHours[5]))
		want := math.Exp(math.Log(part) * 0.174 * 0.174 / (0.174*0.174 + 0.15*0.15))
		if got := seen.DLISeason / is.DLISeason; math.Abs(got-want) > 0.02 {
			t.Errorf("%g of the hours seen: light by %.3f, want %.3f", part, got, want)
		}
		if got := seen.SunHours[5] / is.SunHours[5]; math.Abs(got-want) > 0.02 {
			t.Errorf("%g of the hours seen: hours by %.3f, want %.3f", part, got, want)
		}
	}
}

// Ten hits and a glance that are as expected change no seed: what the plan would sow is held against the same lawns without what was seen.
func TestThinRecordChangesNoSeed(t *testing.T) {
	brief := `
title = "Invented"
date = 2027-03-01
[place]
latitude = 44.9
longitude = -93.2
[lawn]
area_m2 = 140
[light]
sun_hours = 4
[use]
grade = "utility"
[job]
kind = "renovate"
[[sown]]
date = 2025-08-28
parts = { "hard-fescue" = 50, "smooth-stalked-meadow-grass" = 50 }
[[seen]]
date = 2026-05-30
points = 10
grass = 6
[[seen]]
date = 2026-09-20
cover_percent = 70
`
	p := planned(t, brief)
	if p.Learned == nil || len(p.Changed) > 0 {
		t.Errorf("changed: %+v", p.Changed)
	}
}

// Days that are over are expected of a record as the sowing dates expect those to come: of one grass on one ground the middle of the range is
// about the middle year's, whether the young lawn is watered or left to the rain.
func TestDaysAsDatesHaveThem(t *testing.T) {
	tables := builtIn(t)
	for _, grass := range []string{"perennial-ryegrass", "strong-creeping-red-fescue"} {
		for _, watered := range []bool{true, false} {
			b, err := ReadBrief("lawn.toml", []byte(fmt.Sprintf("title = \"Lawn\"\ndate = 2027-08-01\n[place]\nlatitude = 57.7\nlongitude = 11.9\n[lawn]\narea_m2 = 50\n[use]\ngrade = \"utility\"\nwater_young = %t\n"+
				"[[sown]]\ndate = 2027-05-12\nparts = { %q = 100 }\n[[seen]]\ndate = 2027-05-30\nup = true\n[[seen]]\ndate = 2027-06-20\nfirst_cut = true\n", watered, grass)), nil)
			if err != nil {
				t.Fatal(err)
			}
			found, err := b.Conditions(context.Background(), tables)
			if err != nil {
				t.Fatal(err)
			}
			// Only up is expected of a sowing; the cut also of when it was seen to be.
			seen := b.Record.Seen
			mid := func(i int) float64 {
				b.Record.Seen = seen[i : i+1]
				l, err := learn(context.Background(), tables, b, found)
				if err != nil {
					t.Fatal(err)
				}
				return (l.Rows[0].Expected[0] + l.Rows[0].Expected[1]) / 2
			}
			sown := b.Record.Sown[0].Date
			table, err := dates.Survey(context.Background(), found, tables.Species.All(), dates.Input{Watered: watered, CutMM: b.Use.CutMM(found, &found.Zones[0])})
			if err != nil {
				t.Fatal(err)
			}
			season := table.Sow(map[string]float64{grass: 100})
			d := season.Dates(dates.Limits{From: sown, NotBefore: &sown, NotAfter: &sown}, nil)
			up, cut := d.Components[0].EmergenceDays.P50, d.Components[0].FirstMowDays.P50
			t.Logf("%s, watered %t: up after %.0f days, dates %.0f; cut after %.0f, dates %.0f", grass, watered, mid(0), up, mid(1), cut)
			if math.Abs(mid(0)-up) > 2+up/5 || math.Abs(mid(1)-cut) > 2+cut/5 {
				t.Errorf("%s, watered %t: up after %.0f days, cut after %.0f; the dates have %.0f and %.0f", grass, watered, mid(0), mid(1), up, cut)
			}
		}
	}
}
