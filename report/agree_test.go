package report_test

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"runtime"
	"sync"
	"testing"

	"swardwright/internal/agree"
	"swardwright/internal/briefs"
	"swardwright/report"
	"swardwright/sowing"
)

var (
	plans = flag.Int("plans", 300, "how many random briefs TestRandomPlans plans")
	from  = flag.Uint64("from", 1, "the seed of the first of them")
)

// TestRandomPlans plans random briefs over every key and holds each plan to
// itself. One brief again, with its text:
//
//	go test ./report -run RandomPlans -plans 1 -from SEED -v
func TestRandomPlans(t *testing.T) {
	n := *plans
	if testing.Short() {
		n = min(n, 12)
	}
	tables, err := sowing.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	seeds := make(chan uint64)
	var workers sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			for seed := range seeds {
				b := briefs.Random(seed)
				if testing.Verbose() && *plans == 1 {
					fmt.Println(b.Text)
				}
				for _, wrong := range contradictions(tables, b) {
					t.Errorf("seed %d: %s", seed, wrong)
				}
			}
		})
	}
	for i := range uint64(n) {
		seeds <- *from + i
	}
	close(seeds)
	workers.Wait()
}

// contradictions plans a brief and gives what the plan says against itself.
func contradictions(tables sowing.Tables, b briefs.Brief) (wrongs []string) {
	defer func() {
		if r := recover(); r != nil {
			wrongs = append(wrongs, fmt.Sprintf("panics: %v", r))
		}
	}()
	brief, err := sowing.ReadBrief("", []byte(b.Text), b.Open)
	if err != nil {
		return []string{"no sound brief: " + err.Error()}
	}
	plan, err := sowing.NewPlan(context.Background(), tables, brief)
	if err != nil {
		return []string{"sound by the reader and not planned: " + err.Error()}
	}
	var out bytes.Buffer
	if err := report.JSON(&out, plan); err != nil {
		return []string{err.Error()}
	}
	return agree.Check(brief, out.Bytes())
}
