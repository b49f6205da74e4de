package light

import (
	"fmt"
	"math"
	"testing"

	"swardwright/internal/approx"
)

var near = approx.Near

// The beam under a clear sky by equations 3 to 9 of the European Solar Radiation Atlas (Rigollier, Bauer & Wald 2000), with
// Kasten's optical thickness of 1996 and the air mass of Kasten & Young 1989, worked apart from the program for a Linke turbidity of 3.
func TestClearBeamWorked(t *testing.T) {
	for _, r := range []struct{ elevation, altitude, distance, want float64 }{
		{90, 0, 1, 998.362}, {60, 0, 1, 960.670}, {30, 0, 1, 801.189}, {30, 1500, 0.983, 885.246}, {10, 0, 1.017, 459.400}, {1, 0, 1, 147.450},
	} {
		got := clearBeam(math.Sin(r.elevation*math.Pi/180), r.altitude, r.distance)
		near(t, fmt.Sprintf("beam at %g°, %g m", r.elevation, r.altitude), got, r.want, 0.01)
	}
	near(t, "below the horizon", clearBeam(-0.01, 0, 1), 0, 0)
}

// The sky's share of a month's radiation by Erbs, Klein & Duffie 1982, worked from the printed polynomials, held at 0.3 and 0.8;
// what is photosynthetic of it (0.45, McCree's 4.57 µmol/J) is the light of an open lawn.
func TestDiffuseShareWorked(t *testing.T) {
	for _, r := range []struct{ clearness, sunset, want float64 }{
		{0.5, 1.3, 0.39113}, {0.5, 1.6, 0.42913}, {0.3, 1.3, 0.64231}, {0.1, 1.3, 0.64231}, {0.8, 1.6, 0.15433}, {0.95, 1.6, 0.15433}, {0.5, 1.420, 0.39113}, {0.5, 1.422, 0.42913},
	} {
		near(t, "sky's share", diffuseShare(r.clearness, r.sunset), r.want, 1e-5)
	}
	sky := Sky{}
	for m := range sky.GlobalMJ {
		sky.GlobalMJ[m] = 10
	}
	o := newOpenLawn(50, sky)
	for m := range o.sun {
		near(t, "light of sun and sky", o.sun[m]+o.sky[m], 10*0.45*4.57, 1e-9)
	}
	// Half of the sun hours leave half of the sun's light, a quarter 0.156; of the sky's three quarters and five eighths.
	for x, want := range map[float64][2]float64{0: {0, 0.5}, 0.25: {0.15625, 0.625}, 0.5: {0.5, 0.75}, 1: {1, 1}} {
		near(t, "sun's light left", sunLeft(x), want[0], 1e-12)
		near(t, "sky's light left", skyLeft(x), want[1], 1e-12)
	}
}

// Months weigh by their days; a place without a season by the whole year. Three days stand for a month, the middles of its
// thirds: those of April (days 91 to 120) are 95.5, 105.5 and 115.5.
func TestMonthsWorked(t *testing.T) {
	w := Sky{SeasonWeight: [12]float64{5: 1, 6: 0.5}}.weights()
	near(t, "June", w[5], 30/45.5, 1e-9)
	near(t, "July", w[6], 15.5/45.5, 1e-9)
	near(t, "no season", Sky{}.weights()[1], 28.0/365, 1e-12)
	for i, want := range []float64{95.5, 105.5, 115.5} {
		near(t, "day of April", monthDays(3)[i], want, 1e-9)
	}
}

// A point within an outline is inside it, also where its centre of area isn't: an L, a U and a sickle.
func TestWithin(t *testing.T) {
	for _, o := range [][]Point{
		{{0, 0}, {10, 0}, {10, 1}, {1, 1}, {1, 10}, {0, 10}},
		{{0, 0}, {9, 0}, {9, 9}, {8, 9}, {8, 1}, {1, 1}, {1, 9}, {0, 9}},
		{{0, 0}, {10, -4}, {4, 0}, {10, 4}},
		{{10, 4}, {4, 0}, {10, -4}, {0, 0}},
		{{0, 0}, {4, 0}, {4, 3}, {0, 3}},
		{{0, 0}, {6, 0}, {6, 6}, {5, 6}, {5, 1}, {1, 1}, {1, 6}, {0, 6}},
	} {
		if p := within(o); !Inside(o, p) {
			t.Errorf("%v is not within %v", p, o)
		}
	}
}

// An outline that folds back on itself, along either axis or a slant, crosses itself; one that goes straight on through a corner doesn't.
func TestFoldedOutline(t *testing.T) {
	for _, r := range []struct {
		outline []Point
		crosses bool
	}{
		{[]Point{{0, 0}, {4, 0}, {2, 0}, {2, 3}}, true},
		{[]Point{{0, 0}, {0, 4}, {0, 2}, {3, 2}}, true},
		{[]Point{{0, 0}, {4, 4}, {2, 2}, {5, 1}}, true},
		{[]Point{{2, 3}, {0, 0}, {4, 0}, {2, 0}}, true},
		{[]Point{{0, 0}, {2, 0}, {4, 0}, {2, 3}}, false},
		{[]Point{{0, 0}, {0, 2}, {0, 4}, {-3, 2}}, false},
		{[]Point{{0, 0}, {1, 1}, {2, 2}, {2, 0}}, false},
		{[]Point{{0, 0}, {4, 4}, {4, 0}, {0, 4}}, true},
	} {
		if _, _, got := crossing(r.outline); got != r.crosses {
			t.Errorf("%v crosses itself: %t", r.outline, got)
		}
	}
}

// A crown whose edge stands straight overhead, as where a point lies just as far from a tree as its crown reaches, is seen as from
// a hair nearer and a hair farther, whichever way a last digit fell.
func TestCrownEdgeOverhead(t *testing.T) {
	c := crown{centre: vec{u: 4}, radius: 3, squash: 3 / 2.3, bound: 3}
	for k := range 360 {
		sin, cos := math.Sincos(float64(k) * math.Pi / 180)
		seen := func(far float64) (lo, hi float64) {
			g := c.from(vec{e: 3 * far * cos, n: 3 * far * sin})
			turn, across := math.Sincos(0.3)
			return g.along(-cos*across+sin*turn, -sin*across-cos*turn) // towards the tree, a little aside
		}
		at, top := seen(1)
		near, _ := seen(1 - 1e-6)
		far, beyond := seen(1 + 1e-6)
		if math.Abs(at-near) > 1e-3 || math.Abs(at-far) > 1e-3 || top < 1e3 || beyond < 1e3 {
			t.Fatalf("%d degrees: hidden from %g to %g, a hair nearer from %g, a hair farther from %g to %g", k, at, top, near, far, beyond)
		}
	}
}
