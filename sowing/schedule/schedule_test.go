package schedule

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"swardwright/sowing/job"
)

func TestChainKeepsItsWaits(t *testing.T) {
	work := []Work{
		{ID: "grade", Hours: 10, Opens: true},
		{ID: "rake", Hours: 3, Opens: true, Needs: []job.Need{{ID: "grade", Days: 14}}},
		{ID: "hoe", Hours: 2, Opens: true, Needs: []job.Need{{ID: "rake", Days: 21}}},
	}
	crew := Crew{HoursADay: 8, Horizon: 365, Workable: func(day int) bool { return day >= 30 }}
	got, err := crew.Earliest(work, 0)
	if err != nil {
		t.Fatal(err)
	}
	// Two days of grading from day 30, a fortnight, a day of raking, three weeks.
	if want := []Placed{{30, 31}, {45, 45}, {66, 66}}; !slices.Equal(got, want) {
		t.Errorf("earliest %v, want %v", got, want)
	}
	got, err = crew.Latest(work, 0, 100)
	if err != nil {
		t.Fatal(err)
	}
	if want := []Placed{{64, 65}, {79, 79}, {100, 100}}; !slices.Equal(got, want) {
		t.Errorf("latest %v, want %v", got, want)
	}
	if _, err := crew.Latest(work, 0, 65); !errors.Is(err, ErrNoRoom) {
		t.Errorf("with a day too few: %v", err)
	}
}

// Days by hand, of a crew of eight hours: what finds a day full waits for the next, what takes no hours doesn't, and what is left of a day
// is used; backwards no day before the first is taken.
func TestFullDays(t *testing.T) {
	crew := Crew{HoursADay: 8, Horizon: 20}
	for _, r := range []struct {
		work []Work
		from int
		want []Placed
	}{
		{[]Work{{ID: "dig", Hours: 8}, {ID: "rake", Hours: 2, Needs: []job.Need{{ID: "dig"}}}}, 3, []Placed{{3, 3}, {4, 4}}},
		{[]Work{{ID: "dig", Hours: 8}, {ID: "look", Needs: []job.Need{{ID: "dig"}}}}, 3, []Placed{{3, 3}, {3, 3}}},
		{[]Work{{ID: "dig", Hours: 9}, {ID: "rake", Hours: 7, Needs: []job.Need{{ID: "dig"}}}}, 3, []Placed{{3, 4}, {4, 4}}},
		{[]Work{{ID: "dig", Hours: 9}, {ID: "rake", Hours: 7.1, Needs: []job.Need{{ID: "dig"}}}}, 3, []Placed{{3, 4}, {4, 5}}},
	} {
		if got, err := crew.Earliest(r.work, r.from); err != nil || !slices.Equal(got, r.want) {
			t.Errorf("%+v: %v (%v), want %v", r.work, got, err, r.want)
		}
	}
	dig := []Work{{ID: "dig", Hours: 17}}
	if got, err := crew.Latest(dig, 10, 12); err != nil || got[0] != (Placed{10, 12}) {
		t.Errorf("three days from day 10: %v, %v", got, err)
	}
	if got, err := crew.Latest(dig, 11, 12); !errors.Is(err, ErrNoRoom) {
		t.Errorf("three days in two: %v, %v", got, err)
	}
}

func TestWorkThatDoesNotFitTheFrostGoesBeforeIt(t *testing.T) {
	work := []Work{
		{ID: "dig", Hours: 8, Opens: true},
		{ID: "rake", Hours: 4, Opens: true, Needs: []job.Need{{ID: "dig", Days: 14}}},
	}
	frozen := func(day int) bool { return day < 40 || day > 200 }
	got, err := Crew{HoursADay: 8, Horizon: 400, Workable: frozen}.Latest(work, 0, 210)
	if err != nil {
		t.Fatal(err)
	}
	if want := []Placed{{39, 39}, {210, 210}}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v: digging belongs to the autumn before", got, want)
	}
}

func TestFaults(t *testing.T) {
	for name, work := range map[string][]Work{
		"unknown": {{ID: "a", Needs: []job.Need{{ID: "b"}}}},
		"circle":  {{ID: "a", Needs: []job.Need{{ID: "b"}}}, {ID: "b", Needs: []job.Need{{ID: "a"}}}},
	} {
		if _, err := (Crew{HoursADay: 1, Horizon: 9}).Earliest(work, 0); err == nil || errors.Is(err, ErrNoRoom) {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := (Crew{HoursADay: 1, Horizon: 9}).Latest(work, 0, 9); err == nil || errors.Is(err, ErrNoRoom) {
			t.Errorf("%s, latest: %v", name, err)
		}
	}
	if _, err := (Crew{}).Earliest(nil, 0); err == nil {
		t.Error("a crew that doesn't work is none")
	}
}

// randomWork is a small job: up to five tasks, needs among the earlier ones.
func randomWork(r *rand.Rand, alike bool) ([]Work, Crew) {
	var work []Work
	for i := range 2 + r.IntN(4) {
		w := Work{ID: fmt.Sprint(i), Hours: float64(r.IntN(4)), Opens: alike || r.IntN(3) > 0}
		for k := range i {
			if r.IntN(3) == 0 {
				w.Needs = append(w.Needs, job.Need{ID: fmt.Sprint(k), Days: r.IntN(4)})
			}
		}
		work = append(work, w)
	}
	open := make([]bool, 60)
	for d := range open {
		open[d] = r.IntN(3) > 0 || d > 30
	}
	return work, Crew{HoursADay: 2, Horizon: 45, Workable: func(d int) bool { return d < 0 || d >= len(open) || open[d] }}
}

// obeys says what a schedule breaks of needs, ground and the crew's day.
func obeys(work []Work, c Crew, got []Placed, from int) error {
	total := 0.0
	first, last := from, from
	for i, w := range work {
		total += w.Hours
		p := got[i]
		if p.From < from || p.Until < p.From || p.Until > c.Horizon {
			return fmt.Errorf("%s at %v lies outside", w.ID, p)
		}
		if w.Opens && (!c.Workable(p.From) || !c.Workable(p.Until)) {
			return fmt.Errorf("%s begins or ends on a closed day: %v", w.ID, p)
		}
		for _, n := range w.Needs {
			k := slices.IndexFunc(work, func(x Work) bool { return x.ID == n.ID })
			if p.From < got[k].Until+n.Days {
				return fmt.Errorf("%s at %v waits less than %d days after %s at %v", w.ID, p, n.Days, n.ID, got[k])
			}
		}
		last = max(last, p.Until)
		// What lies whole within a span of days must fit into their hours.
		for j := range work {
			span := Placed{p.From, got[j].Until}
			sum := 0.0
			for k, q := range got {
				if q.From >= span.From && q.Until <= span.Until {
					sum += work[k].Hours
				}
			}
			if span.Until >= span.From && sum > c.HoursADay*float64(span.Until-span.From+1)+sliver {
				return fmt.Errorf("%g hours in %d days of %g", sum, span.Until-span.From+1, c.HoursADay)
			}
		}
	}
	if total > c.HoursADay*float64(last-first+1)+sliver {
		return fmt.Errorf("%g hours in %d days", total, last-first+1)
	}
	return nil
}

// bruteEnd is the earliest day on which all can be over, by trying every start day of
// every task; a task then takes what is left of the crew's days, as the scheduler does.
func bruteEnd(work []Work, c Crew, from, most int) int {
	best := most + 1
	free := map[int]float64{}
	placed := make([]Placed, len(work))
	done := make([]bool, len(work))
	var try func(n int)
	try = func(n int) {
		if n == len(work) {
			ends := 0
			for _, p := range placed {
				ends = max(ends, p.Until)
			}
			best = min(best, ends)
			return
		}
		for i, w := range work {
			if done[i] {
				continue
			}
			start, ready := from, true
			for _, need := range w.Needs {
				k := slices.IndexFunc(work, func(x Work) bool { return x.ID == need.ID })
				ready = ready && done[k]
				start = max(start, placed[k].Until+need.Days)
			}
			if !ready {
				continue
			}
			for s := start; s < best; s++ {
				if w.Opens && !c.Workable(s) || w.Hours > 0 && c.HoursADay-free[s] <= sliver {
					continue
				}
				left := w.Hours
				taken := map[int]float64{}
				until := -1
				for d := s; d < best && until < 0; d++ {
					if w.Opens && !c.Workable(d) {
						continue
					}
					n := min(left, c.HoursADay-free[d])
					if left > 0 && n <= 0 {
						continue
					}
					taken[d] = n
					left -= n
					if left <= sliver {
						until = d
					}
				}
				if until < 0 {
					continue
				}
				for d, n := range taken {
					free[d] += n
				}
				done[i], placed[i] = true, Placed{s, until}
				try(n + 1)
				done[i] = false
				for d, n := range taken {
					free[d] -= n
				}
			}
		}
	}
	try(0)
	return best
}

func TestEarliestAgainstBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for n := range 150 {
		work, crew := randomWork(r, true)
		if len(work) > 4 {
			work = work[:4]
		}
		got, err := crew.Earliest(work, 0)
		if err != nil {
			t.Fatalf("%d: %v", n, err)
		}
		if err := obeys(work, crew, got, 0); err != nil {
			t.Fatalf("%d: %v\n%+v\n%v", n, err, work, got)
		}
		ends := 0
		for _, p := range got {
			ends = max(ends, p.Until)
		}
		if want := bruteEnd(work, crew, 0, ends); ends != want {
			t.Fatalf("%d: over on day %d, brute force on %d\n%+v\n%v", n, ends, want, work, got)
		}
	}
}

func TestLatestObeys(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for n := range 500 {
		work, crew := randomWork(r, false)
		crew.Horizon = 45
		got, err := crew.Latest(work, 0, 45)
		if err != nil {
			t.Fatalf("%d: %v", n, err)
		}
		if err := obeys(work, crew, got, 0); err != nil {
			t.Fatalf("%d: %v\n%+v\n%v", n, err, work, got)
		}
		// As late as can be: where all of it is moved a day on, something breaks.
		earliest, err := crew.Earliest(work, 0)
		if err != nil {
			t.Fatal(err)
		}
		for i := range work {
			if got[i].Until < earliest[i].From {
				t.Fatalf("%d: %s latest %v before its earliest %v", n, work[i].ID, got[i], earliest[i])
			}
		}
	}
}
