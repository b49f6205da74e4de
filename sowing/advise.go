package sowing

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"swardwright/internal/calendar"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
)

const (
	// fairChance is the least chance of the first attempt at which a way is advised
	// for its price: our choice, more likely than not.
	fairChance = 0.5
	// likely is the chance below which the advice says how likely it is.
	likely = 0.8
)

// verbs are the ways as advice.
var verbs = map[job.Way]string{job.BySeed: "sowing", job.ByTurf: "turf", job.BySeedAndTurf: "turf where it suits and seed elsewhere", job.ByOverseeding: "overseeding"}

// advise chooses among the ways by what the brief wants, and says why in a sentence:
// in time first, then the standard held, then a fair chance at the first attempt, then
// the whole cost with what failures are expected to cost; where all are late, the
// sooner. The index is -1 where there is no way.
func advise(b Brief, ways []Way, cost money.Comparison) (best int, why string) {
	if len(ways) == 0 {
		return -1, ""
	}
	order := make([]int, len(ways))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return better(&ways[i], &ways[j]) })
	return order[0], because(b, ways, order, cost)
}

// better orders two ways, the better first.
func better(a, b *Way) int {
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
		first(a.Standard.Holds, b.Standard.Holds),
		first(a.Success >= fairChance, b.Success >= fairChance),
		late,
		cmp.Compare(a.Bill.Total.Minor, b.Bill.Total.Minor),
	)
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

// because sets the chosen way against the next, plainly.
func because(b Brief, ways []Way, order []int, cost money.Comparison) string {
	best := &ways[order[0]]
	s := []string{fmt.Sprintf("%s costs %s %s.", upper(verbs[best.Kind]), best.Bill.Total, cost.Currency)}
	for _, i := range order[1:] {
		s = append(s, beside(b, best, &ways[i], cost.Currency))
	}
	if best.Success < likely {
		s = append(s, fmt.Sprintf("The first attempt succeeds in %s.", yearsOfTen(best.Success)))
	}
	if n := b.Job.NeededBy; n != nil && !best.InTime {
		s = append(s, fmt.Sprintf("No way bears use by %s.", n.Format(time.DateOnly)))
	}
	return strings.Join(s, " ")
}

// beside says what another way costs more or less and how much sooner or later it is.
func beside(b Brief, best, other *Way, currency string) string {
	extra := other.Bill.Total.Minor - best.Bill.Total.Minor
	word := "more"
	if extra < 0 {
		extra, word = -extra, "less"
	}
	s := fmt.Sprintf("%s costs %s %s %s", upper(verbs[other.Kind]), money.Amount{Minor: extra, Currency: currency}, currency, word)
	switch {
	case b.Job.NeededBy != nil && best.InTime && !other.InTime:
		s += " and would not bear use in time"
	case other.UsableFrom == nil:
		s += " and in most years never bears use"
	case best.UsableFrom != nil:
		switch days := calendar.Days(*other.UsableFrom, *best.UsableFrom); {
		case days > 0:
			s += fmt.Sprintf(" and is usable %d days sooner", days)
		case days < 0:
			s += fmt.Sprintf(" and is usable %d days later", -days)
		}
	}
	return s + "."
}

// unpriced is what no price shows.
func unpriced(ways []Way) []string {
	var out []string
	if slices.ContainsFunc(ways, func(w Way) bool { return len(w.Sown) > 0 }) {
		out = append(out, "seed contends with weed seedlings for its first season")
	}
	if slices.ContainsFunc(ways, func(w Way) bool { return len(w.Laid) > 0 }) {
		out = append(out,
			"turf is whatever its grower sowed; a mixture for the place can only be had by seed",
			"turf carries soil of its own, and a layer unlike the ground below slows both water and roots",
			"joins between rolls open when turf dries out in its first weeks, and it needs water every day until it has rooted",
		)
	}
	return out
}

func upper(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// yearsOfTen writes a chance in words.
func yearsOfTen(chance float64) string {
	if n := math.Round(10 * chance); n >= 2 {
		return fmt.Sprintf("%.0f years of 10", n)
	}
	return "1 year of 10 at most"
}
