package light

import (
	"fmt"
	"math"
	"testing"
)

// twelve works out sun hours, sky view and clear-sky beam in every cell on twelve
// days, on one core: the figures of one clear year.
func twelve(b *testing.B, s Scene, side float64) {
	b.Helper()
	b.ReportAllocs()
	cells, _ := cells(s, side)
	for b.Loop() {
		var days []day
		for m := range 12 {
			days = append(days, newDay(s.LatitudeDeg, 0, float64(monthStart(m)+14)))
		}
		tr := newTracer(s, days)
		tau := make([]float64, len(tr.layers))
		for range days {
			tr.tau = append(tr.tau, tau)
		}
		var w bench
		got := make([]sunlight, len(days))
		view := make([]float64, 1)
		for i := range cells {
			tr.look(&w, tr.onGround(cells[i].At))
			tr.sun(&w, &tr.ground, got)
			tr.skyView(&w, &tr.ground, [][]float64{tau}, view)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(cells)), "ns/cell")
}

// BenchmarkCourt is a court of 12 × 12 m between four walls in cells of 0.25 m.
func BenchmarkCourt(b *testing.B) { twelve(b, scenes(57)["d"], 0.25) }

// BenchmarkObstacles shows how the cost grows with obstacles of four edges each,
// standing in rings about the court.
func BenchmarkObstacles(b *testing.B) {
	for _, n := range []int{1, 2, 5, 10, 20, 50, 100, 200} {
		s := Scene{LatitudeDeg: 57, Lawn: [][]Point{box(0, 0, 12, 12)}}
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(min(n, 20)))
			r := 12 + 5*float64(i/20)
			x, y := 6+r*sin, 6+r*cos
			s.Obstacles = append(s.Obstacles, Obstacle{Kind: Solid, HeightM: 3 + float64(i%7) + float64(i/20), Footprint: box(x-1, y-1, x+1, y+1)})
		}
		b.Run(fmt.Sprint(n), func(b *testing.B) { twelve(b, s, 0.5) })
	}
}

// BenchmarkCells shows how it grows with cells.
func BenchmarkCells(b *testing.B) {
	for _, n := range []int{10, 32, 100, 316, 1000} {
		b.Run(fmt.Sprint(n*n), func(b *testing.B) { twelve(b, scenes(57)["d"], 12/float64(n)) })
	}
}

// BenchmarkTrace is a whole year's field, three days a month, zones and all, with
// trees, a hedge, a slope and a far skyline.
func BenchmarkTrace(b *testing.B) {
	s, sky := orchard(), averageSky(52)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Trace(b.Context(), s, sky, MostCells); err != nil {
			b.Fatal(err)
		}
	}
}
