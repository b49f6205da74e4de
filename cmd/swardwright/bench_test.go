package main

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"swardwright/sowing"
)

// folderOfBriefs writes n briefs of lawns in all the places of the station
// table, of every size, light and grade.
func folderOfBriefs(b *testing.B, n int) string {
	tables, err := sowing.BuiltIn()
	if err != nil {
		b.Fatal(err)
	}
	stations := tables.Stations.All()
	r := rand.New(rand.NewPCG(1, 2))
	dir := b.TempDir()
	for i := range n {
		st := stations[r.IntN(len(stations))]
		light := fmt.Sprintf("[light]\nsun_hours = %.1f\n", 1+7*r.Float64())
		lawn := fmt.Sprintf("area_m2 = %d\n", 20+r.IntN(800))
		if i%2 == 0 { // half of them with a house to throw its shade
			w, h := 5+15*r.Float64(), 4+10*r.Float64()
			lawn = fmt.Sprintf("outline = [[0, 0], [%.1f, 0], [%.1[1]f, %.1f], [0, %.1[2]f]]\n", w, h)
			light = fmt.Sprintf("[[obstacle]]\nkind = \"solid\"\nfootprint = [[0, -9], [%.1f, -9], [%.1[1]f, -1], [0, -1]]\nheight_m = %.1f\n", w, 2+6*r.Float64())
		}
		grade := []string{"ornamental", "utility", "hard-wearing", "extensive"}[r.IntN(4)]
		text := fmt.Sprintf("title = \"Lawn %d\"\n[place]\nlatitude = %g\nlongitude = %g\nstation = %q\n[lawn]\n%s%s[use]\ngrade = %q\n",
			i+1, st.LatitudeDeg, st.LongitudeDeg, st.WMO, lawn, light, grade)
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%04d.toml", i+1)), []byte(text), 0o600); err != nil {
			b.Fatal(err)
		}
	}
	return dir
}

// BenchmarkPlanMany plans a folder of lawns from briefs to the list:
//
//	go test ./cmd/swardwright -run '^$' -bench PlanMany/1000 -benchtime 1x
func BenchmarkPlanMany(b *testing.B) {
	for _, n := range []int{10, 100, 1000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			dir := folderOfBriefs(b, n)
			b.ResetTimer()
			for b.Loop() {
				var out, errs bytes.Buffer
				if got := run(context.Background(), []string{"plan", dir}, nil, &out, &errs); got != exitDone {
					b.Fatalf("ends with %d: %s", got, errs.String())
				}
			}
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			b.ReportMetric(float64(m.Sys)/(1<<20), "MB-from-system")
			b.ReportMetric(b.Elapsed().Seconds()/float64(b.N*n), "s/lawn")
		})
	}
}
