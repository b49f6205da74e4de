package tape

import (
	"errors"
	"math"
	"testing"
)

func near(a, b float64) bool { return math.Abs(a-b) < 1e-9 }

// Right-angled triangles of whole sides (Euclid, Elements I.47) fix points exactly.
func TestByTapes(t *testing.T) {
	for _, c := range []struct {
		name         string
		a, b         Point
		fromA, fromB float64
		side         Side
		want         Point
		angle        float64
	}{
		{"3-4-5 to the left", Point{0, 0}, Point{4, 0}, 3, 5, Left, Point{0, 3}, 53.13010235415598},
		{"3-4-5 to the right", Point{0, 0}, Point{4, 0}, 3, 5, Right, Point{0, -3}, 53.13010235415598},
		{"5-12-13 on a line that climbs", Point{1, 1}, Point{1, 13}, 5, 13, Right, Point{6, 1}, 67.38013505195957},
		{"square on the point", Point{0, 0}, Point{5, 0}, 3, 4, Left, Point{1.8, 2.4}, 90},
		{"just touching", Point{0, 0}, Point{10, 0}, 4, 6, Left, Point{4, 0}, 180},
		{"one within the other, touching", Point{0, 0}, Point{10, 0}, 16, 6, Left, Point{16, 0}, 0},
	} {
		p, angle, err := ByTapes(c.a, c.b, c.fromA, c.fromB, c.side)
		if err != nil || !near(p.X, c.want.X) || !near(p.Y, c.want.Y) || !near(angle, c.angle) {
			t.Errorf("%s: %v at %v°, %v; want %v at %v°", c.name, p, angle, err, c.want, c.angle)
		}
	}
}

func TestByTapesRefuses(t *testing.T) {
	var apart Apart
	if _, _, err := ByTapes(Point{0, 0}, Point{10, 0}, 4, 5.88, Left); !errors.As(err, &apart) || !near(apart.GapM, 0.12) || apart.Inside {
		t.Errorf("tapes too short: %v", err)
	}
	if _, _, err := ByTapes(Point{0, 0}, Point{10, 0}, 17, 6.75, Left); !errors.As(err, &apart) || !near(apart.GapM, 0.25) || !apart.Inside {
		t.Errorf("one tape too long: %v", err)
	}
	if _, _, err := ByTapes(Point{1, 2}, Point{1, 2}, 1, 1, Left); !errors.Is(err, errSamePoint) {
		t.Errorf("one point twice: %v", err)
	}
	if _, err := ByOffset(Point{1, 2}, Point{1, 2}, 1, 1, Left); !errors.Is(err, errSamePoint) {
		t.Errorf("a line of one point: %v", err)
	}
}

func TestByOffset(t *testing.T) {
	for _, c := range []struct {
		along, off float64
		side       Side
		want       Point
	}{
		{3, 2, Left, Point{-1, 5}}, {3, 2, Right, Point{3, 5}}, {-1, 0, Left, Point{1, 1}}, {12, 1, Right, Point{2, 14}},
	} {
		// The line runs up the page from (1, 2).
		if p, err := ByOffset(Point{1, 2}, Point{1, 8}, c.along, c.off, c.side); err != nil || !near(p.X, c.want.X) || !near(p.Y, c.want.Y) {
			t.Errorf("%v along, %v off: %v, %v, want %v", c.along, c.off, p, err, c.want)
		}
	}
}

// The spread at a right angle is the error itself, and twice that at 30° and 150°.
func TestSpread(t *testing.T) {
	for angle, want := range map[float64]float64{90: 1, 30: 2, 150: 2} {
		if got := Spread(angle); !near(got, want) {
			t.Errorf("at %v°: %v, want %v", angle, got, want)
		}
	}
	if Flat(90) || Flat(30) || Flat(150) || !Flat(29) || !Flat(151) {
		t.Error("flat angles are below 30° and above 150°")
	}
}

func TestNorth(t *testing.T) {
	for _, c := range []struct {
		from, to Point
		bearing  float64
		want     float64
	}{
		{Point{0, 0}, Point{0, 5}, 12, 12},   // the y axis itself
		{Point{0, 0}, Point{5, 0}, 90, 0},    // a wall that runs east along the x axis
		{Point{0, 0}, Point{5, 0}, 75, 345},  // and one that runs a little north of it
		{Point{5, 5}, Point{0, 0}, 225, 0},   // to the south-west
		{Point{0, 0}, Point{-3, 0}, 300, 30}, // to the left
	} {
		if got, err := NorthDeg(c.from, c.to, c.bearing); err != nil || !near(got, c.want) {
			t.Errorf("%v to %v at %v°: north %v, %v, want %v", c.from, c.to, c.bearing, got, err, c.want)
		}
	}
	if _, err := NorthDeg(Point{1, 1}, Point{1, 1}, 0); !errors.Is(err, errSamePoint) {
		t.Errorf("a line of one point: %v", err)
	}
}

// FuzzByTapes fixes any point from any two others and finds it again.
func FuzzByTapes(f *testing.F) {
	f.Add(0.0, 0.0, 4.0, 0.0, 1.0, 3.0)
	f.Add(-3.0, 2.0, 11.5, -7.0, 100.0, -40.0)
	f.Fuzz(func(t *testing.T, ax, ay, bx, by, px, py float64) {
		for _, v := range []float64{ax, ay, bx, by, px, py} {
			if !(math.Abs(v) < 1000) {
				return
			}
		}
		a, b, p := Point{ax, ay}, Point{bx, by}, Point{px, py}
		base := math.Hypot(bx-ax, by-ay)
		fromA, fromB := math.Hypot(px-ax, py-ay), math.Hypot(px-bx, py-by)
		if base < 0.1 || fromA < 0.1 || fromB < 0.1 {
			return
		}
		side := Right
		if (bx-ax)*(py-ay)-(by-ay)*(px-ax) > 0 {
			side = Left
		}
		got, angle, err := ByTapes(a, b, fromA, fromB, side)
		var apart Apart
		if errors.As(err, &apart) && apart.GapM < 1e-9 {
			return // on the line, by rounding just off it
		}
		if err != nil {
			t.Fatal(err)
		}
		// Near a flat angle rounding moves the point, as the error of a tape would: along the line by that of
		// the lengths times their sum over the base, and off it by the half chord of a bow of that height.
		along := 0x1p-50 * (fromA + fromB) * (fromA + fromB) / base
		if d := math.Hypot(got.X-p.X, got.Y-p.Y); d > 1e-8+along+math.Sqrt(2*fromA*along) || !Flat(angle) && d > 1e-8 {
			t.Errorf("%v fixed at %v, %v° ", p, got, angle)
		}
	})
}
