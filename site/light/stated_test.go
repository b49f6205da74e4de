package light

import (
	"math"
	"strings"
	"testing"
)

func TestHoursToLight(t *testing.T) {
	for _, lat := range []float64{41, 57, 64} {
		sky := averageSky(lat)
		open := Stated(Seen{}, lat, sky, 1).Zones[0].Light
		last := -1.0
		for h := 0.0; h <= 20; h += 0.5 {
			dli := DLIFromSunHours(h, lat, sky)
			if dli < last-1e-9 || dli > open.DLISeason+1e-9 {
				t.Errorf("%v° N: %v h are %v mol, %v h less %v, open %v", lat, h, dli, 0.5, last, open.DLISeason)
			}
			last = dli
		}
		if math.Abs(last-open.DLISeason) > 1e-9 {
			t.Errorf("%v° N: all hours are %v mol, the open lawn has %v", lat, last, open.DLISeason)
		}
	}
	// An hour in the north is worth less of the light above, but below an even
	// skyline it comes with more sky: what a grass meets at 3 h is much the same.
	// Extension's 3 to 4 h at 41° N stand beside a practice figure of 10 mol for
	// cool-season turf.
	three, four := DLIFromSunHours(3, 41, averageSky(41)), DLIFromSunHours(4, 41, averageSky(41))
	if three < 8 || four > 16 {
		t.Errorf("3 and 4 h at 41° N are %.1f and %.1f mol", three, four)
	}
}

// The even skyline is an inference; computed lawns show how far it reaches.
func TestHoursToLightAgainstTraces(t *testing.T) {
	for _, c := range []struct {
		name   string
		lo, hi float64 // the conversion over the trace
	}{
		{"d", 0.85, 1.15}, // a court, walled all round
		{"b", 0.95, 1.45}, // a wall to the south: much sky, and sun early and late
	} {
		for _, lat := range []float64{47, 57, 64} {
			s, sky := scenes(lat)[c.name], averageSky(lat)
			f := trace(t, s)
			mean := f.mean().summed(sky.weights())
			got := DLIFromSunHours(mean.SunHoursSeason, lat, sky) / mean.DLISeason
			if got < c.lo || got > c.hi {
				t.Errorf("scene %s at %v° N: %.1f h are %.2f times the %.1f mol traced", c.name, lat, mean.SunHoursSeason, got, mean.DLISeason)
			}
			t.Logf("scene %s at %v° N: %.2f", c.name, lat, got)
		}
	}
}

func TestStated(t *testing.T) {
	const lat = 57
	sky := averageSky(lat)
	open := Stated(Seen{}, lat, sky, 84)
	value := func(v float64) *float64 { return &v }
	months := open.Zones[0].Light.SunHours
	for m := range months {
		months[m] /= 2
	}
	for _, c := range []struct {
		what string
		seen Seen
		ok   func(Light) bool
	}{
		{"nothing", Seen{}, func(l Light) bool { return l.OpenShare == 1 && l.SkyView == 1 }},
		{"hours", Seen{SunHours: value(3.5)}, func(l Light) bool { return math.Abs(l.SunHoursSeason-3.5) < 1e-6 && l.OpenShare < 0.7 }},
		{"no hours", Seen{SunHours: value(0)}, func(l Light) bool { return l.SunHoursSeason < 1e-6 && l.DLISeason > 0 && l.OpenShare < 0.3 }},
		{"more hours than there are", Seen{SunHours: value(20)}, func(l Light) bool { return l.OpenShare > 0.999999 }},
		{"hours by month", Seen{SunHoursMonth: &months}, func(l Light) bool {
			return math.Abs(l.SunHours[6]-months[6]) < 1e-6 && l.OpenShare < 1
		}},
		{"mol", Seen{DLI: value(9)}, func(l Light) bool { return math.Abs(l.DLISeason-9) < 1e-6 && l.SunHoursSeason < 6 }},
		{"shade", Seen{ShadePercent: value(70)}, func(l Light) bool { return math.Abs(l.OpenShare-0.3) < 1e-6 }},
		{"full shade", Seen{ShadePercent: value(100)}, func(l Light) bool { return l.DLISeason == 0 }},
		{"no shade", Seen{ShadePercent: value(0)}, func(l Light) bool { return l.OpenShare == 1 }},
	} {
		f := Stated(c.seen, lat, sky, 84)
		if len(f.Zones) != 1 || f.Zones[0].AreaM2 != 84 || f.Zones[0].Share != 1 || len(f.Cells) != 0 || len(f.Notes) != 1 {
			t.Errorf("%s: %+v", c.what, f)
		}
		if l := f.Zones[0].Light; !c.ok(l) {
			t.Errorf("%s: %+v", c.what, l)
		}
		if f.OpenDLI != open.OpenDLI {
			t.Errorf("%s: open lawn of %v", c.what, f.OpenDLI)
		}
	}
}

func TestCorrected(t *testing.T) {
	const lat = 57
	s, sky := scenes(lat)["d"], averageSky(lat)
	f := trace(t, s)
	was := f.mean().summed(sky.weights())
	value := func(v float64) *float64 { return &v }

	if got := f.Corrected(Seen{}, lat, sky); got.Zones[0].Light != f.Zones[0].Light || len(got.Notes) != len(f.Notes) {
		t.Error("nothing seen corrects something")
	}
	same := f.Corrected(Seen{SunHours: value(was.SunHoursSeason)}, lat, sky)
	if got := same.mean().summed(sky.weights()); math.Abs(got.DLISeason-was.DLISeason) > 1e-3 || !strings.Contains(same.Notes[len(same.Notes)-1], "they agree") {
		t.Errorf("the same seen as computed: %.3f mol for %.3f, %q", got.DLISeason, was.DLISeason, same.Notes)
	}
	half := f.Corrected(Seen{SunHours: value(was.SunHoursSeason / 2)}, lat, sky)
	got := half.mean().summed(sky.weights())
	if math.Abs(got.SunHoursSeason-was.SunHoursSeason/2) > 1e-6 || got.DLISeason >= was.DLISeason || got.DLISeason <= was.DLISeason/2 {
		t.Errorf("half the hours: %.2f h, %.2f mol, before %.2f, %.2f", got.SunHoursSeason, got.DLISeason, was.SunHoursSeason, was.DLISeason)
	}
	if n := half.Notes[len(half.Notes)-1]; !strings.Contains(n, "-50 %") {
		t.Errorf("note %q", n)
	}
	if f.Zones[0].Light.DLISeason == half.Zones[0].Light.DLISeason || half.Cells[0].Light.DLISeason >= f.Cells[0].Light.DLISeason {
		t.Error("zones and cells are not corrected, or the field itself was changed")
	}
	mol := f.Corrected(Seen{DLI: value(8)}, lat, sky)
	if got := mol.mean().summed(sky.weights()); math.Abs(got.DLISeason-8) > 1e-6 {
		t.Errorf("8 mol seen: %v", got.DLISeason)
	}
	bright := f.Corrected(Seen{ShadePercent: value(0)}, lat, sky)
	for _, c := range bright.Cells {
		for m, v := range c.Light.DLI {
			if v > f.OpenDLI[m]+1e-9 {
				t.Fatalf("a cell has %v mol, the open lawn %v", v, f.OpenDLI[m])
			}
		}
	}
}
