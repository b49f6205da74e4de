package sowing_test

import (
	"context"
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
