package sowing

import (
	"cmp"
	"slices"
	"time"

	"github.com/samber/lo"

	"swardwright/internal/calendar"
	"swardwright/internal/told"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
)

const (
	// fairChance is the least chance of the first attempt at which a way is advised
	// for its price: our choice, more likely than not.
	fairChance = 0.5
	// nearlyAsLikely is a difference of chances to keep the standard that decides
	// nothing by itself: our choice.
	nearlyAsLikely = 0.15
	// likely is the chance below which the advice says how likely it is.
	likely = 0.8
)

// advise chooses among the ways by what the brief wants, and says why in a sentence:
// in time first, then the standard held, then a fair chance at the first attempt, then
// the whole cost with what failures are expected to cost; where all are late, the
// sooner. Of one mixture and two only the one that the rule is for may be chosen. The index
// is -1 where there is no way.
func advise(b Brief, ways []Way, cost money.Comparison, second *Second) (best int, why []told.Sentence) {
	order := lo.Filter(lo.Range(len(ways)), func(i, _ int) bool { return second.Allows(ways[i].Kind) })
	if len(order) == 0 {
		return -1, nil
	}
	most := mostLikely(ways)
	slices.SortStableFunc(order, func(i, j int) int { return better(&ways[i], &ways[j], most) })
	why = because(b, ways, order, cost)
	if k := ways[order[0]].Kind; second != nil && (k == job.BySeed || k == job.BySeedApart) {
		why = append(why, second.Because)
	}
	return order[0], why
}

// better orders two ways, the better first; most is the best chance of any to keep the
// standard. One that is likelier to keep it than not, or nearly as likely as any, is as
// good by that as another.
func better(a, b *Way, most float64) int {
	first := func(x, y bool) int {
		switch {
		case x == y:
			return 0
		case x:
			return -1
		}
		return 1
	}
	late := 0
	if !a.InTime && !b.InTime {
		late = sooner(a.UsableFrom, b.UsableFrom)
	}
	return cmp.Or(
		first(a.InTime, b.InTime),
		first(keeps(a, most), keeps(b, most)),
		first(a.Dates.Success >= fairChance, b.Dates.Success >= fairChance),
		late,
		cmp.Compare(a.Bill.Total.Minor, b.Bill.Total.Minor),
	)
}

// mostLikely is the best chance of any way to keep the standard.
func mostLikely(ways []Way) float64 {
	return lo.MaxBy(ways, func(a, b Way) bool { return a.Standard.Chance > b.Standard.Chance }).Standard.Chance
}

// keeps tells whether a way keeps the standard likelier than not, or nearly as likely as any.
func keeps(w *Way, most float64) bool {
	return w.Standard.Holds || w.Standard.Chance >= most-nearlyAsLikely
}

// sooner orders two days of which one may never come.
func sooner(a, b *time.Time) int {
	switch {
	case a == nil && b == nil:
		return 0
	case a == nil:
		return 1
	case b == nil:
		return -1
	}
	return a.Compare(*b)
}

// because sets the chosen way against the others, plainly.
func because(b Brief, ways []Way, order []int, cost money.Comparison) []told.Sentence {
	best := &ways[order[0]]
	s := []told.Sentence{told.Say("job.way-costs", doing(best), told.Money(best.Bill.Total))}
	most := mostLikely(ways)
	for _, i := range order[1:] {
		other := &ways[i]
		s = append(s, beside(b, best, other, cost.Currency))
		if best.InTime == other.InTime && keeps(best, most) && !keeps(other, most) {
			s = append(s, told.Say("job.likelier-kept", doing(best), told.Chance(best.Standard.Chance), told.Chance(other.Standard.Chance)))
		}
	}
	if best.Dates.Success < likely {
		s = append(s, told.Say("job.first-attempt", told.Chance(best.Dates.Success)))
	}
	n := b.Job.NeededBy
	if n == nil {
		return s
	}
	if !best.InTime {
		s = append(s, told.Say("job.none-in-time", told.Date(*n)))
	}
	for _, i := range order {
		if w := &ways[i]; !w.InTime {
			s = append(s, told.Say("job.by-then", told.Term{Kind: "way", Word: string(w.Kind)}, told.Date(*n), told.Term{Kind: "stage", Word: string(w.stageOn(*n))}))
		}
	}
	return s
}

// Stage is how far a young lawn has come that doesn't bear use yet.
type Stage string

// The stages.
const (
	NotBegun Stage = "not begun"
	Sown     Stage = "sown" // and not up
	Laid     Stage = "laid" // and not rooted
	Up       Stage = "up"   // and not cut
	Cut      Stage = "cut"
)

// stageOn is how far a way has come by a day, in the middling year.
func (w *Way) stageOn(day time.Time) Stage {
	switch first := w.Dates.FirstMow; {
	case day.Before(w.StartOn):
		return NotBegun
	case first != nil && !day.Before(*first):
		return Cut
	case len(w.Sown) == 0:
		return Laid
	}
	for _, c := range w.Dates.Components {
		if e := c.EmergenceDays; e != nil && float64(calendar.Days(w.StartOn, day)) >= float64(e.P50) {
			return Up
		}
	}
	return Sown
}

// doing is a way as what is done.
func doing(w *Way) told.Term { return told.Term{Kind: "doing", Word: string(w.Kind)} }

// beside says what another way costs more or less and how much sooner or later it is.
func beside(b Brief, best, other *Way, currency string) told.Sentence {
	extra := other.Bill.Total.Minor - best.Bill.Total.Minor
	costs := told.Say("job.costs-more", doing(other), told.Money{Minor: extra, Currency: currency})
	if extra < 0 {
		costs = told.Say("job.costs-less", doing(other), told.Money{Minor: -extra, Currency: currency})
	}
	switch {
	case b.Job.NeededBy != nil && best.InTime && !other.InTime:
		return told.Say("job.and-late", costs)
	case other.UsableFrom == nil:
		return told.Say("job.and-never", costs)
	case best.UsableFrom != nil:
		switch days := calendar.Days(*other.UsableFrom, *best.UsableFrom); {
		case days > 0:
			return told.Say("job.and-sooner", costs, told.Days(days))
		case days < 0:
			return told.Say("job.and-later", costs, told.Days(-days))
		}
	}
	return told.Say("job.and-no-more", costs)
}

// unpriced is what no price shows.
func unpriced(ways []Way) []told.Sentence {
	var out []told.Sentence
	if slices.ContainsFunc(ways, func(w Way) bool { return len(w.Sown) > 0 }) {
		out = append(out, told.Say("job.weeds-in-seed"))
	}
	if slices.ContainsFunc(ways, func(w Way) bool { return len(w.Laid) > 0 }) {
		out = append(out, told.Say("job.turf-as-grown"), told.Say("job.turf-soil"), told.Say("job.turf-joins"))
	}
	return out
}
