package light

import (
	"bufio"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"swardwright/site/sun"
)

// scenes are those of testdata/raycast.tsv.
func scenes(latitudeDeg float64) map[string]Scene {
	wall := func(name string, x0, y0, x1, y1, height float64) Obstacle {
		return Obstacle{Name: name, Kind: Solid, HeightM: height, Footprint: box(x0, y0, x1, y1)}
	}
	lawn := [][]Point{box(0, 0, 12, 8)}
	return map[string]Scene{
		"a": {LatitudeDeg: latitudeDeg, Lawn: lawn},
		"b": {LatitudeDeg: latitudeDeg, Lawn: lawn, Obstacles: []Obstacle{wall("wall", -14, -2.5, 26, -2, 6)}},
		"d": {LatitudeDeg: latitudeDeg, Lawn: [][]Point{box(0, 0, 12, 12)}, Obstacles: court(5)},
		"g": {LatitudeDeg: latitudeDeg, Lawn: lawn, SlopeDeg: 10},
	}
}

func box(x0, y0, x1, y1 float64) []Point { return []Point{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}} }

// court is four walls about a square of 12 m.
func court(height float64) []Obstacle {
	var out []Obstacle
	for _, w := range []struct {
		name string
		at   []Point
	}{
		{"south wall", box(-0.5, -0.5, 12.5, 0)},
		{"north wall", box(-0.5, 12, 12.5, 12.5)},
		{"west wall", box(-0.5, 0, 0, 12)},
		{"east wall", box(12, 0, 12.5, 12)},
	} {
		out = append(out, Obstacle{Name: w.name, Kind: Solid, Footprint: w.at, HeightM: height})
	}
	return out
}

type castRow struct {
	scene                                          string
	latitude, day, x, y, decl, sun, beam, rays, sp float64
}

func castRows(t *testing.T) []castRow {
	t.Helper()
	f, err := os.Open("testdata/raycast.tsv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var out []castRow
	for sc := bufio.NewScanner(f); sc.Scan(); {
		if strings.HasPrefix(sc.Text(), "#") {
			continue
		}
		col := strings.Split(sc.Text(), "\t")
		var v [10]float64
		for i, s := range col[1:] {
			if v[i], err = strconv.ParseFloat(s, 64); err != nil {
				t.Fatal(err)
			}
		}
		out = append(out, castRow{col[0], v[0], v[1], v[2], v[3], v[4], v[5], v[6], v[7], v[8]})
	}
	if len(out) < 1000 {
		t.Fatalf("only %d rows", len(out))
	}
	return out
}

func TestAgainstRayCaster(t *testing.T) {
	worst, worstTrue, worstRays := 0.0, 0.0, 0.0
	bad := 0
	for _, r := range castRows(t) {
		scene := scenes(r.latitude)[r.scene]
		for _, c := range []struct {
			decl, tol float64
			worst     *float64
		}{
			{r.decl / rad, 0.11 + r.sp, &worst},
			{sun.DeclinationDeg(r.day), 0.20 + r.sp, &worstTrue},
		} {
			tr := newTracer(scene, []day{pathOf(r.latitude, 0, c.decl, sun.DistanceAU(r.day), 0)})
			tr.tau = [][]float64{nil}
			var b bench
			var got [1]sunlight
			tr.look(&b, tr.onGround(Point{r.x, r.y}))
			tr.sun(&b, &tr.ground, got[:])
			d := math.Abs(got[0].hours - r.sun)
			if c.worst == &worst {
				worstRays = max(worstRays, math.Abs(got[0].hours-r.rays))
				if r.scene == "a" && r.beam > 100 && math.Abs(got[0].beam/r.beam-1) > 0.01 {
					t.Errorf("%+v: beam %.1f", r, got[0].beam)
				}
			}
			if d-r.sp > *c.worst {
				*c.worst = d - r.sp
			}
			if d > c.tol {
				bad++
				if bad < 20 {
					t.Errorf("%+v: %.3f h, tolerance %.2f", r, got[0].hours, c.tol)
				}
			}
		}
	}
	t.Log(worst, worstTrue, worstRays, bad)
}
