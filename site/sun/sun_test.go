package sun

import (
	"bufio"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"
)

// rows reads a table of testdata: tab-separated, # starts a comment, - is no value.
func rows(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var out [][]string
	for sc := bufio.NewScanner(f); sc.Scan(); {
		if line := sc.Text(); line != "" && !strings.HasPrefix(line, "#") {
			out = append(out, strings.Split(line, "\t"))
		}
	}
	if len(out) == 0 {
		t.Fatalf("%s is empty", name)
	}
	return out
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestPositionAgainstAstropy(t *testing.T) {
	const tol = 0.01 // degrees, what Meeus claims for the method
	for _, r := range rows(t, "position.tsv") {
		when, err := time.Parse(time.RFC3339, r[0])
		if err != nil {
			t.Fatal(err)
		}
		want := number(t, r[3])
		p := At(when, number(t, r[1]), number(t, r[2]))
		if d := math.Abs(p.ElevationDeg - want); d > tol {
			t.Errorf("%s lat %s: elevation %.4f, want %.4f", r[0], r[1], p.ElevationDeg, want)
		}
		// An error in azimuth counts as it moves the sun: by the cosine of its height.
		if d := math.Abs(wrap180(p.AzimuthDeg-number(t, r[5]))) * math.Cos(want*rad); d > tol {
			t.Errorf("%s lat %s: azimuth %.4f, want %s", r[0], r[1], p.AzimuthDeg, r[5])
		}
		if r[4] != "-" {
			if d := math.Abs(p.ApparentDeg - number(t, r[4])); d > tol {
				t.Errorf("%s lat %s: apparent elevation %.4f, want %s", r[0], r[1], p.ApparentDeg, r[4])
			}
		}
	}
}

// A day reckoned with its noon's declination, as the light of a lawn is.
func TestDayLengthAgainstAstropy(t *testing.T) {
	for _, r := range rows(t, "daylength.tsv") {
		lat := number(t, r[0])
		date, err := time.Parse("2006-01-02", r[1])
		if err != nil {
			t.Fatal(err)
		}
		decl := DeclinationDeg(float64(date.YearDay()))
		if math.Abs(decl-number(t, r[2])) > 0.02 {
			t.Errorf("%s: declination of the day %.4f, want %s", r[1], decl, r[2])
		}
		want, half := number(t, r[3]), HalfDayRad(lat, decl, GeometricDeg)
		got := half * 24 / math.Pi
		// A minute, and more where the sun grazes the horizon: 0.02° of
		// elevation there is worth 0.02°/(15° cosφ cosδ sin H) hours an end.
		tol := 1.0 / 60
		if s := math.Cos(lat*rad) * math.Cos(decl*rad) * math.Sin(half); s > 0 {
			tol = max(tol, 2*0.02/15/s)
		}
		if math.Abs(got-want) > tol {
			t.Errorf("lat %v %s: %.4f h, want %.4f ± %.4f", lat, r[1], got, want, tol)
		}
	}
}

// Meeus, Astronomical Algorithms, 2nd ed., example 25.a p. 165: 1992 October 13, 0 h TD.
func TestMeeus25a(t *testing.T) {
	eq := equatorial(2448908.5 - 2451545)
	for _, c := range []struct {
		what           string
		got, want, tol float64
	}{
		{"declination", eq.declination / rad, -(7 + 47.0/60 + 6.0/3600), 0.5 / 3600},
		{"right ascension", eq.rightAscension/rad + 360, (13 + 13.0/60 + 31.4/3600) * 15, 0.05 * 15 / 3600},
		{"distance", eq.distanceAU, 0.99766, 5e-6},
	} {
		if math.Abs(c.got-c.want) > c.tol {
			t.Errorf("%s %.6f, want %.6f", c.what, c.got, c.want)
		}
	}
}

// Meeus example 16.a p. 107: a true altitude of 33.246′ is lifted by 24.618′ in
// the formula's own air, 1010 hPa and 10 °C.
func TestSaemundsson(t *testing.T) {
	got := refractionDeg(33.246/60) * 60 * (273 + temperatureC) / 283
	if math.Abs(got-24.618) > 0.01 {
		t.Errorf("refraction %.3f′, want 24.618′", got)
	}
}

func TestFAO56(t *testing.T) {
	for _, c := range []struct {
		what           string
		got, want, tol float64
	}{
		{"example 8, Ra 20° S on 3 September", RaMJ(-20, 246), 32.2, 0.05},
		{"example 9, N there", DaylightHours(-20, 246), 11.7, 0.05},
		{"example 10, Ra Rio de Janeiro in May", RaMJ(-22.9, 135), 25.1, 0.05},
		{"example 10, N there", DaylightHours(-22.9, 135), 10.9, 0.05},
		{"example 15, Ra Lyon in July", RaMJ(45.72, 196), 40.6, 0.05},
	} {
		if math.Abs(c.got-c.want) > c.tol {
			t.Errorf("FAO-56 %s: %.3f, want %.3f", c.what, c.got, c.want)
		}
	}
	for _, lat := range []float64{-90, 90, 75} {
		for day := 1; day <= 365; day++ {
			ra, n := RaMJ(lat, day), DaylightHours(lat, day)
			if math.IsNaN(ra) || ra < 0 || n < 0 || n > 24 {
				t.Fatalf("lat %v day %d: Ra %v N %v", lat, day, ra, n)
			}
		}
	}
}

func TestHalfDay(t *testing.T) {
	for _, c := range []struct{ lat, decl, el, want float64 }{
		{0, 10, 0, math.Pi / 2}, // six hours either side of noon on the equator
		{50, 0, 0, math.Pi / 2}, // and everywhere at the equinox
		{90, 10, 0, math.Pi},
		{90, -10, 0, 0},
		{-90, 10, 0, 0},
		{70, 23, 0, math.Pi},
		{70, -23, 0, 0},
	} {
		if got := HalfDayRad(c.lat, c.decl, c.el); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("lat %v declination %v: %v, want %v", c.lat, c.decl, got, c.want)
		}
	}
}
