package sowing

import (
	"context"
	"fmt"
	"math"
	"testing"

	"swardwright/site/light"
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
	b, err := ReadBrief("lawn.toml", []byte(brief), nil)
	if err != nil {
		t.Fatal(err)
	}
	p, err := NewPlan(context.Background(), builtIn(t), b)
	if err != nil {
		t.Fatal(err)
	}
	if p.Learned == nil || len(p.Changed) > 0 {
		t.Errorf("changed: %+v", p.Changed)
	}
}
