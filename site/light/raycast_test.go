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
	scene                                              string
	latitude, day, x, y, decl, sun, beam, rays, spread float64
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
	for _, r := range castRows(t) {
		scene := scenes(r.latitude)[r.scene]
		for _, c := range []struct {
			what            string
			decl, want, tol float64
		}{
			// The caster's walls act half a cell too far away, which is worth up
			// to 0.11 h here beyond the spread.
			{"caster", r.decl / rad, r.sun, 0.11 + r.spread},
			{"exact rays", r.decl / rad, r.rays, 0.01},
			// Its declination differs from the true one by up to 0.19°.
			{"caster, true declination", sun.DeclinationDeg(r.day), r.sun, 0.20 + r.spread},
		} {
			tr := newTracer(scene, []day{pathOf(r.latitude, 0, c.decl, sun.DistanceAU(r.day), 0)})
			var b bench
			var got [1]sunlight
			tr.look(&b, tr.onGround(Point{r.x, r.y}))
			tr.sun(&b, &tr.ground, got[:])
			if d := math.Abs(got[0].hours - c.want); d > c.tol {
				t.Errorf("scene %s, %v° N, day %v, at %v, %v: %.3f h, %s has %.3f ± %.3f",
					r.scene, r.latitude, r.day, r.x, r.y, got[0].hours, c.what, c.want, c.tol)
			}
			// The beam on open ground, level and sloping, by the same published
			// model and turbidity.
			if open := r.scene == "a" || r.scene == "g"; open && c.what == "caster" {
				if d := math.Abs(got[0].beam - r.beam); d > 0.01*r.beam+3 {
					t.Errorf("scene %s, %v° N, day %v: beam %.0f Wh/m², caster has %.0f", r.scene, r.latitude, r.day, got[0].beam, r.beam)
				}
			}
		}
	}
}
