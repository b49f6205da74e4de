// Package schedule places work on days: each task after what it needs and the waits
// between, on days on which the ground can be worked, and no more on one day than
// the crew gets done.
//
// Days are whole numbers from the plan's date. A task takes the crew's free hours
// from its first day on, skipping the days on which it can't work; one without hours
// takes its day and no hours.
package schedule

import (
	"fmt"
	"math"
	"slices"

	"swardwright/sowing/job"
)

// Work is one task to be placed.
type Work struct {
	ID    string
	Hours float64 // of the whole crew
	Needs []job.Need
	Opens bool // needs ground that can be worked
}

// Crew is who works and when.
type Crew struct {
	HoursADay float64            // of work that the crew gets done in a day
	Workable  func(day int) bool // whether ground can be worked on a day; nil: on every day
	Horizon   int                // no task may end after this day
}

// Placed is where a task went: its first and last day.
type Placed struct{ From, Until int }

// ErrNoRoom is returned where the work does not fit before the horizon.
var ErrNoRoom = fmt.Errorf("schedule: the work does not fit into the days there are")

// Earliest places every task as early as the last of them can be over, none before
// day from. Every order that the needs allow is tried, each task taking the first
// hours there are; no schedule of work that is alike in needing open ground ends
// sooner. Work of a lawn is nearly a chain, so
// that the orders are few. The error is
// ErrNoRoom, or names a need that is not among the tasks or a circle of needs.
func (c Crew) Earliest(tasks []Work, from int) ([]Placed, error) {
	s, err := newSearch(c, tasks, from)
	if err != nil {
		return nil, err
	}
	s.extend(from)
	if s.best == nil {
		return nil, ErrNoRoom
	}
	return s.best, nil
}

// Latest places every task as late as it can be with the last of them over by day
// until, none before day from.
func (c Crew) Latest(tasks []Work, from, until int) ([]Placed, error) {
	// Time turned round: what is needed before becomes what is needed after.
	turned := make([]Work, len(tasks))
	for i, t := range tasks {
		turned[i] = t
		turned[i].Needs = nil
	}
	for _, t := range tasks {
		for _, n := range t.Needs {
			k := slices.IndexFunc(tasks, func(x Work) bool { return x.ID == n.ID })
			if k < 0 {
				return nil, unknown(t.ID, n.ID)
			}
			turned[k].Needs = append(turned[k].Needs, job.Need{ID: t.ID, Days: n.Days})
		}
	}
	slices.Reverse(turned) // among equals the last one stays last
	back := Crew{HoursADay: c.HoursADay, Horizon: until - from}
	if c.Workable != nil {
		back.Workable = func(day int) bool { return c.Workable(until - day) }
	}
	got, err := back.Earliest(turned, 0)
	if err != nil {
		return nil, err
	}
	slices.Reverse(got)
	for i, p := range got {
		got[i] = Placed{until - p.Until, until - p.From}
	}
	return got, nil
}

func unknown(task, need string) error {
	return fmt.Errorf("schedule: %s needs %s, which is no task of this work", task, need)
}

// search goes through the orders of the tasks, each placed as early as it can be.
type search struct {
	crew   Crew
	tasks  []Work
	needs  [][]need // by task
	placed []Placed
	done   []bool
	count  int
	free   map[int]float64 // hours left of days on which something is placed
	best   []Placed
	ends   int // of best
	tries  int
}

type need struct{ task, days int }

// mostTries bounds the search on work that is far from a chain: what is then
// returned is the best of so many placements.
const mostTries = 20000

func newSearch(c Crew, tasks []Work, from int) (*search, error) {
	s := &search{
		crew: c, tasks: tasks, needs: make([][]need, len(tasks)), placed: make([]Placed, len(tasks)),
		done: make([]bool, len(tasks)), free: map[int]float64{}, ends: math.MaxInt,
	}
	if c.HoursADay <= 0 {
		return nil, fmt.Errorf("schedule: a crew works more than %g hours a day", c.HoursADay)
	}
	for i, t := range tasks {
		for _, n := range t.Needs {
			k := slices.IndexFunc(tasks, func(x Work) bool { return x.ID == n.ID })
			if k < 0 {
				return nil, unknown(t.ID, n.ID)
			}
			s.needs[i] = append(s.needs[i], need{k, n.Days})
		}
	}
	if s.circle() {
		return nil, fmt.Errorf("schedule: the tasks need each other in a circle")
	}
	return s, nil
}

// circle tells whether some task needs itself, by way of others.
func (s *search) circle() bool {
	over := make([]bool, len(s.tasks))
	for range s.tasks {
		for i := range s.tasks {
			over[i] = over[i] || !slices.ContainsFunc(s.needs[i], func(n need) bool { return !over[n.task] })
		}
	}
	return slices.Contains(over, false)
}

// extend places one more task, every one that may come next in turn.
func (s *search) extend(from int) {
	if s.count == len(s.tasks) {
		ends := 0
		for _, p := range s.placed {
			ends = max(ends, p.Until)
		}
		if ends < s.ends {
			s.ends, s.best = ends, slices.Clone(s.placed)
		}
		return
	}
	for i := range s.tasks {
		if s.done[i] || s.tries > mostTries || slices.ContainsFunc(s.needs[i], func(n need) bool { return !s.done[n.task] }) {
			continue
		}
		s.tries++
		p, used, ok := s.place(i, from)
		if !ok || p.Until > s.ends || p.Until == s.ends && s.best != nil {
			continue // no better than what is known
		}
		s.take(i, p, used, 1)
		s.extend(from)
		s.take(i, p, used, -1)
	}
}

// take books the hours of a task, or with sign -1 gives them back.
func (s *search) take(i int, p Placed, used []booking, sign float64) {
	for _, b := range used {
		if _, ok := s.free[b.day]; !ok {
			s.free[b.day] = s.crew.HoursADay
		}
		s.free[b.day] -= sign * b.hours
	}
	s.done[i] = sign > 0
	s.placed[i] = p
	s.count += int(sign)
}

type booking struct {
	day   int
	hours float64
}

// sliver is an hour's part that is no work: sums of hours are not exact.
const sliver = 1e-9

// place finds the first days for a task after what it needs.
func (s *search) place(i, from int) (p Placed, used []booking, ok bool) {
	t := s.tasks[i]
	start := from
	for _, n := range s.needs[i] {
		start = max(start, s.placed[n.task].Until+n.days)
	}
	left, begun := t.Hours, false
	for day := start; day <= s.crew.Horizon; day++ {
		if t.Opens && s.crew.Workable != nil && !s.crew.Workable(day) {
			continue
		}
		free, booked := s.free[day]
		if !booked {
			free = s.crew.HoursADay
		}
		if left > sliver && free <= sliver {
			continue
		}
		if !begun {
			p.From, begun = day, true
		}
		if n := min(left, free); n > sliver {
			used = append(used, booking{day, n})
			left -= n
		}
		if left <= sliver {
			p.Until = day
			return p, used, true
		}
	}
	return Placed{}, nil, false
}
