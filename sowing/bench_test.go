package sowing_test

import (
	"context"
	"fmt"
	"io/fs"
	"testing"

	"swardwright/data"
	"swardwright/sowing"
)

// BenchmarkNewPlan plans each demo brief.
func BenchmarkNewPlan(b *testing.B) {
	for _, name := range []string{"court", "family-us", "orchard"} {
		text, err := fs.ReadFile(data.FS, "demo/"+name+".toml")
		if err != nil {
			b.Fatal(err)
		}
		brief, err := sowing.ReadBrief(name, text, nil)
		if err != nil {
			b.Fatal(err)
		}
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := sowing.NewPlan(context.Background(), tables(b), brief); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// tables are those of the program.
func tables(t testing.TB) sowing.Tables {
	t.Helper()
	built, err := sowing.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	return built
}

// countedLawn is a lawn of three zones, and the same with four counts in each of three years.
func countedLawn(b *testing.B) (plain, counted sowing.Brief) {
	b.Helper()
	text := `title = "Counted lawn (invented)"
date = 2026-09-01
[place]
latitude = 57.7
longitude = 12.0
[lawn]
outline = [[0, 0], [24, 0], [24, 18], [0, 18]]
[[obstacle]]
name = "house"
kind = "solid"
footprint = [[0, -9], [24, -9], [24, -1], [0, -1]]
height_m = 9
[[obstacle]]
name = "spruces"
kind = "tree"
at = [-2, 3]
height_m = 14
crown_m = 9
leaf = "evergreen"
[use]
grade = "utility"
[job]
kind = "overseed"
cover_percent = 75
`
	record := `[[sown]]
date = 2024-05-20
parts = { chewings-fescue = 40, smooth-stalked-meadow-grass = 30, perennial-ryegrass = 30 }
`
	for year, grass := range map[int]int{2024: 70, 2025: 80, 2026: 76} {
		for i, zone := range []string{`"A"`, `"B"`, `"C"`, `"C" # again`} {
			record += fmt.Sprintf("[[seen]]\ndate = %d-08-20\nzone = %s\npoints = 100\nlayout = \"string\"\ngrass = %d\nof_grass = { fescue = %d, meadow-grass = %d, ryegrass = 6 }\n",
				year, zone, grass-4*i, 30+2*i, 20-2*i)
		}
	}
	read := func(text string) sowing.Brief {
		brief, err := sowing.ReadBrief("counted", []byte(text), nil)
		if err != nil {
			b.Fatal(err)
		}
		return brief
	}
	return read(text), read(text + record)
}

// BenchmarkRecord plans a lawn without and with three years of counts, four a year.
func BenchmarkRecord(b *testing.B) {
	plain, counted := countedLawn(b)
	for name, brief := range map[string]sowing.Brief{"without": plain, "with": counted} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := sowing.NewPlan(context.Background(), tables(b), brief); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
