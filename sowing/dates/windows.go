package dates

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"
	"time"

	"swardwright/internal/calendar"
	"swardwright/site/weather"
)

// part is one component of the mixture on sowing.
type part struct {
	index int // in Table.table
	share float64
}

// parts sorts out the shares by weight; species the table does not hold are
// left out.
func (t *Table) parts(shares map[string]float64) []part {
	var parts []part
	total := 0.0
	for id, v := range shares {
		if i, ok := t.ids[id]; ok && v > 0 {
			t.follow(i)
			parts = append(parts, part{i, v})
		}
	}
	slices.SortFunc(parts, func(a, b part) int { return cmp.Compare(a.index, b.index) })
	for _, p := range parts {
		total += p.share
	}
	for i := range parts {
		parts[i].share /= total
	}
	return parts
}

// follow works out the fate of one species in every zone, once.
func (t *Table) follow(index int) {
	for _, z := range t.zones {
		if z.survival[index] == nil {
			z.follow(index, &t.table[index], t.want)
		}
	}
}

// BestDay is the day of the year (1 to 365) on which these species, sown
// together in equal shares, would be sown were the whole lawn like one zone.
func (t *Table) BestDay(ids []string, index int) int {
	whole := *t.zones[index]
	whole.share = 1
	alone := *t
	alone.zones = []*zone{&whole}
	shares := map[string]float64{}
	for _, id := range ids {
		shares[id] = 1
	}
	parts := alone.parts(shares)
	if len(parts) == 0 {
		return t.first() + 1
	}
	return calendar.DayOf(alone.plan(parts).SowOn) + 1
}

// first is the day of the year (0 to 364) of the first day considered.
func (t *Table) first() int { return calendar.DayOf(t.want.From) }

// allowed lists the days of the year that may be sown on, in the order in which
// they come; all of them where the limits leave none.
func (t *Table) allowed() []int {
	var days []int
	for k := range 365 {
		day := (t.first() + k) % 365
		if t.permits(t.date(day)) {
			days = append(days, day)
		}
	}
	if len(days) == 0 {
		for k := range 365 {
			days = append(days, (t.first()+k)%365)
		}
	}
	return days
}

func (t *Table) permits(date time.Time) bool {
	w := t.want
	return (w.NotBefore == nil || !date.Before(*w.NotBefore)) && (w.NotAfter == nil || !date.After(*w.NotAfter))
}

// date is the first date on or after the first day considered that falls on a
// day of the year.
func (t *Table) date(day int) time.Time {
	return calendar.OnOrAfter(t.want.From, day)
}

// year is how a mixture fares on each day of the year.
type year struct {
	success [365]float64 // share of years, over the zones
	score   [365]float64 // mean share of seedlings that come through
}

func (t *Table) yearOf(parts []part) *year {
	y := &year{}
	for _, z := range t.zones {
		each := z.share / float64(t.years)
		for k := range z.n {
			stand := 0.0
			for _, p := range parts {
				stand += p.share * float64(z.survival[p.index][k])
			}
			stand /= 255
			y.score[k%365] += each * stand
			if stand >= standShare {
				y.success[k%365] += each
			}
		}
	}
	for day := range y.success { // shares of one add up to a rounding more
		y.success[day] = min(y.success[day], 1)
	}
	return y
}

// sowing is one synthetic year's sowing of the mixture in one zone: days from
// sowing to each event, by its parts.
type sowing struct {
	weight           float64
	emerge, mow, use []float64 // by part; NaN: never
	stand            float64
	slept            bool
}

// sow follows the mixture from one day of the year through all years and zones.
func (t *Table) sow(parts []part, day int) []sowing {
	var all []sowing
	for _, z := range t.zones {
		for k := day; k < z.n; k += 365 {
			s := sowing{weight: z.share / float64(t.years)}
			for _, p := range parts {
				sp := &t.table[p.index]
				f := z.at(sp, t.want, k)
				_, grow := z.sums(sp)
				emerge, mow, use := math.NaN(), math.NaN(), math.NaN()
				if f.emerge >= 0 && f.through[dangerUp] > 0 {
					emerge = float64(f.emerge - k)
					mow = daysUntil(f.mow, k, grow)
					use = daysUntil(reach(grow, f.emerge, useShare*sp.mowDD), k, grow)
				}
				s.emerge = append(s.emerge, emerge)
				s.mow = append(s.mow, mow)
				s.use = append(s.use, use)
				s.stand += p.share * f.survival()
				s.slept = s.slept || f.slept
			}
			all = append(all, s)
		}
	}
	return all
}

// daysUntil counts from day k to a day that a running sum was to reach; NaN where
// it reached its end instead.
func daysUntil(day, k int, sum []float32) float64 {
	if day >= len(sum)-1 {
		return math.NaN()
	}
	return float64(day - k)
}

// reach is the first day by which a running sum has grown by so much since day
// from; the last day where it never does.
func reach(sum []float32, from int, by float64) int {
	goal := sum[from] + float32(by)
	i := from + sort.Search(len(sum)-from, func(i int) bool { return sum[from+i] >= goal })
	return min(i, len(sum)-1)
}

// spanOf is the spread over years of the day on which half the mixture by weight
// has reached a stage; years in which it never does are left out.
func spanOf(all []sowing, parts []part, of func(*sowing) []float64) Span {
	var v []float64
	for i := range all {
		if d := half(of(&all[i]), parts); !math.IsNaN(d) {
			v = append(v, d)
		}
	}
	return span(v)
}

// half is the day by which parts that make up half the mixture have got there.
func half(days []float64, parts []part) float64 {
	var order [mostParts]int
	n := 0
	for i, d := range days {
		if !math.IsNaN(d) && n < mostParts {
			order[n] = i
			n++
		}
	}
	slices.SortFunc(order[:n], func(a, b int) int { return cmp.Compare(days[a], days[b]) })
	sum := 0.0
	for _, i := range order[:n] {
		if sum += parts[i].share; sum >= 0.5-1e-9 {
			return days[i]
		}
	}
	return math.NaN()
}

// mostParts is more than a mixture ever has.
const mostParts = 32

func span(v []float64) Span {
	sort.Float64s(v)
	return Span{weather.Percentile(v, 0.1), weather.Percentile(v, 0.5), weather.Percentile(v, 0.9)}
}

// kindOf names the season of a sowing day by its distance from the warmest time
// of the year.
func (t *Table) kindOf(day int, slept bool) Kind {
	if slept {
		return Dormant
	}
	warmest := t.zones[0].days.Normals.ColdestDay() + calendar.Half
	switch after := (day-warmest+2*365+182)%365 - 182; {
	case after >= -summerBefore && after < summerAfter:
		return Summer
	case after < 0:
		return Spring
	default:
		return Autumn
	}
}

// For gives the dates of a mixture, shares by weight by species id.
func (t *Table) For(shares map[string]float64) Dates {
	parts := t.parts(shares)
	if len(parts) == 0 {
		return Dates{
			Chosen: -1, Threshold: t.want.Success, NeededBy: t.want.NeededBy,
			Notes: []string{"no species of the mixture is known to the table, so no dates can be given"},
		}
	}
	d := t.plan(parts)
	t.watering(&d, parts)
	t.turf(&d)
	return d
}

// plan finds the windows and the day to sow.
func (t *Table) plan(parts []part) Dates {
	d := Dates{Chosen: -1, Threshold: t.want.Success, NeededBy: t.want.NeededBy}
	y := t.yearOf(parts)
	for _, r := range merge(t.runs(parts, y)) {
		d.Windows = append(d.Windows, t.window(parts, y, r))
	}
	for i := range d.Windows { // one window's latest day is not the next one's business
		for _, next := range d.Windows {
			if w := &d.Windows[i]; next.Opens.After(w.Closes) && !next.Opens.After(w.Latest) {
				w.Latest = next.Opens.AddDate(0, 0, -1)
			}
		}
	}
	rank(d.Windows)
	t.choose(&d, parts, y)
	return d
}

// rank puts the windows in order of their score, but those nearly as good as
// the best by date: the lawn is wanted.
func rank(windows []Window) {
	best := 0.0
	for _, w := range windows {
		best = max(best, w.Score)
	}
	tied := func(w Window) bool { return w.Score >= tieShare*best }
	slices.SortStableFunc(windows, func(a, b Window) int {
		switch {
		case tied(a) && tied(b):
			return a.Best.Compare(b.Best)
		case tied(a):
			return -1
		case tied(b):
			return 1
		}
		return cmp.Compare(b.Score, a.Score)
	})
}

// run is a stretch of days of the year about a best one. Days count on from the
// first day considered and may pass the end of the year.
type run struct {
	kind        Kind
	first, last int
}

// runs finds the stretches of days that succeed often enough, each about a day
// that is better than those around it and reaching as far as its neighbours are
// nearly as good.
func (t *Table) runs(parts []part, y *year) []run {
	const n = 365
	at := func(k int) int { return (k%n + n) % n }
	var smooth [n]float64
	for k := range smooth {
		for w := -smoothDays; w <= smoothDays; w++ {
			smooth[k] += y.score[at(k+w)] / (2*smoothDays + 1)
		}
	}
	good := func(k int) bool { return y.success[at(k)] >= t.want.Success }
	var taken [n]bool
	var runs []run
	for {
		peak := -1
		for k := range n {
			if !taken[k] && good(k) && (peak < 0 || smooth[k] > smooth[peak]) {
				peak = k
			}
		}
		if peak < 0 {
			return t.spring(parts, y, runs)
		}
		// Down both slopes to the trough, and how deep it is.
		slope := func(step int) (reach int, trough float64, met bool) {
			trough = smooth[peak]
			for reach < n {
				next := at(peak + step*(reach+1))
				if taken[next] {
					return reach, trough, true
				}
				if smooth[next] > trough*ripple {
					return reach, trough, false
				}
				trough = min(trough, smooth[next])
				reach++
			}
			return reach, trough, false
		}
		back, backTrough, backMet := slope(-1)
		on, onTrough, onMet := slope(1)
		for k := -back; k <= on; k++ {
			taken[at(peak+k)] = true
		}
		if backMet && smooth[peak] <= backTrough*ripple || onMet && smooth[peak] <= onTrough*ripple {
			continue // the shoulder of a better window
		}
		near := func(k int) bool { return good(k) && smooth[at(k)] >= windowShare*smooth[peak] }
		r := run{first: peak, last: peak}
		for r.first > peak-back && near(r.first-1) {
			r.first--
		}
		for r.last < peak+on && near(r.last+1) {
			r.last++
		}
		if r.last-r.first+1 >= shortestRun {
			r.kind = t.kindOf(at((r.first+r.last)/2), t.slept(parts, peak))
			r.first, r.last = r.first+n, r.last+n
			runs = append(runs, r)
		}
	}
}

// merge joins runs of one season that lie close together.
func merge(runs []run) []run {
	slices.SortFunc(runs, func(a, b run) int { return cmp.Compare(a.first, b.first) })
	var out []run
	for _, r := range runs {
		if n := len(out); n > 0 && out[n-1].kind == r.kind && r.first-out[n-1].last <= joinDays {
			out[n-1].last = max(out[n-1].last, r.last)
			continue
		}
		out = append(out, r)
	}
	return out
}

// spring adds the days of spring that succeed often enough but lie on the slope
// of a later window: many wish to sow then, to have a lawn that year.
func (t *Table) spring(parts []part, y *year, runs []run) []run {
	const n = 365
	cold := t.zones[0].days.Normals.ColdestDay()
	covered := func(day int) bool {
		return slices.ContainsFunc(runs, func(r run) bool {
			return (day-r.first%n+n)%n <= r.last-r.first
		})
	}
	r := run{kind: Spring, first: -1}
	for k := cold; k < cold+n/2; k++ {
		day := k % n
		ok := y.success[day] >= t.want.Success && !covered(day) &&
			t.kindOf(day, false) == Spring && !t.slept(parts, day)
		switch {
		case ok && r.first < 0:
			r.first, r.last = k, k
		case ok:
			r.last = k
		case r.first >= 0 && r.last-r.first+1 < shortestRun:
			r.first = -1
		}
		if r.first >= 0 && !ok {
			break
		}
	}
	if r.first < 0 || r.last-r.first+1 < shortestRun {
		return runs
	}
	r.first, r.last = r.first+n, r.last+n
	return append(runs, r)
}

// slept tells whether seed sown on a day of the year mostly lies through the
// winter, for most of the mixture.
func (t *Table) slept(parts []part, day int) bool {
	slept := 0
	for _, z := range t.zones {
		for _, p := range parts {
			if z.sleeps(&t.table[p.index], t.want, day) {
				slept++
			}
		}
	}
	return 2*slept > len(t.zones)*len(parts)
}

// sleeps tells whether seed sown on a day of the year mostly lies through the
// winter.
func (z *zone) sleeps(s *sown, want Want, day int) bool {
	slept, years := 0, 0
	for k := day; k < z.n; k += 365 * max(1, z.n/365/sampleYears) {
		years++
		if f := z.at(s, want, k); f.slept && f.through[dangerUp] > 0 {
			slept++
		}
	}
	return 2*slept > years
}

func (t *Table) window(parts []part, y *year, r run) Window {
	w := Window{Kind: r.kind, Met: true}
	opens, closes := t.date(r.first%365), t.date(r.last%365)
	clippedBy := ""
	if from := calendar.Midnight(t.want.From); closes.Before(opens) { // it is open now
		if closes.Sub(from) >= (shortestRun-1)*24*time.Hour {
			opens = from
			clippedBy = "the first day considered"
		} else { // too late for this year's
			closes = calendar.Date(closes.Year()+1, r.last%365)
		}
	}
	// Clip to the days allowed; a window that keeps none stands unmet.
	lo, hi := opens, closes
	late := ""
	if nb := t.want.NotBefore; nb != nil && !lo.After(*nb) {
		lo, clippedBy = calendar.Midnight(*nb), "the brief allows no sowing before"
	}
	if na := t.want.NotAfter; na != nil && hi.After(*na) {
		hi, late = calendar.Midnight(*na), "the brief allows no sowing after"
	}
	if hi.Before(lo) {
		w.Met = false
		late, clippedBy = "", ""
	} else {
		opens, closes = lo, hi
	}
	w.Opens, w.Closes = opens, closes
	w.Latest = closes
	for late == "" && w.Latest.Sub(opens) < 300*24*time.Hour {
		next := w.Latest.AddDate(0, 0, 1)
		if y.success[calendar.DayOf(next)] < t.want.Success || t.want.NotAfter != nil && next.After(*t.want.NotAfter) {
			break
		}
		w.Latest = next
	}
	sum, n, top, surest := 0.0, 0.0, 0.0, 0.0
	for d := opens; !d.After(closes); d = d.AddDate(0, 0, 1) {
		sum += y.success[calendar.DayOf(d)]
		n++
		top = max(top, y.score[calendar.DayOf(d)])
		surest = max(surest, y.success[calendar.DayOf(d)])
	}
	w.Best = opens
	enough := func(day int) bool { return y.score[day] >= bestShare*top }
	if r.kind == Spring {
		enough = func(day int) bool { return y.success[day] >= surest-springSlack }
	}
	for !enough(calendar.DayOf(w.Best)) {
		w.Best = w.Best.AddDate(0, 0, 1)
	}
	w.Success, w.Score = sum/n, top
	best := t.describe(&w, parts, y)
	w.OpensBecause, w.ClosesBecause = clippedBy, late
	if w.OpensBecause == "" {
		w.OpensBecause = t.because(parts, y, w.Kind, best, (r.first+365-edgeDays)%365, true)
	}
	if w.ClosesBecause == "" {
		w.ClosesBecause = t.because(parts, y, w.Kind, best, (r.last+edgeDays)%365, false)
	}
	return w
}

// describe fills in what follows from the window's best day, and returns that
// day of the year.
func (t *Table) describe(w *Window, parts []part, y *year) int {
	best := calendar.DayOf(w.Best)
	all := t.sow(parts, best)
	w.BestSuccess = y.success[best]
	w.EmergenceDays = spanOf(all, parts, func(s *sowing) []float64 { return s.emerge })
	w.FirstMowDays = spanOf(all, parts, func(s *sowing) []float64 { return s.mow })
	return best
}

// means are the mean shares that come through each danger on one day.
func (t *Table) means(parts []part, day int) (m [dangers]float64) {
	for _, z := range t.zones {
		for k := day; k < z.n; k += 365 {
			for _, p := range parts {
				f := z.at(&t.table[p.index], t.want, k)
				w := p.share * z.share / float64(t.years)
				for i, v := range f.through {
					m[i] += w * v
				}
			}
		}
	}
	return m
}

// because says why a window of some kind opens or closes: what is worse on a day
// outside it than on its best day.
func (t *Table) because(parts []part, y *year, kind Kind, best, outer int, opening bool) string {
	when := "later"
	if opening {
		when = "earlier"
	}
	if y.success[outer] >= t.want.Success && y.score[outer] >= windowShare*y.score[best] {
		return when + " days are nearly as good and count to another season"
	}
	inside, outside := t.means(parts, best), t.means(parts, outer)
	worst := danger(0)
	for i := range dangers {
		if inside[i]-outside[i] > inside[worst]-outside[worst] {
			worst = i
		}
	}
	switch worst {
	case dangerWork:
		return when + " the ground is frozen, under snow or too wet to work"
	case dangerUp:
		if kind == Dormant && opening {
			return "seed sown earlier would sprout and die of the frost"
		}
		cause := "too cold"
		if !t.want.Watered {
			cause = "too cold or too dry"
		}
		up := spanOf(t.sow(parts, outer), parts, func(s *sowing) []float64 { return s.emerge })
		if up.P50 == 0 {
			return fmt.Sprintf("%s the ground is %s for the seed to come up", when, cause)
		}
		return fmt.Sprintf("%s the ground is %s: seed would lie %.0f days", when, cause, up.P50)
	case dangerSlow:
		return when + " sowings would not be fit to mow within the year"
	case dangerFrost:
		return "hard frost would catch seedlings just up"
	case dangerWinter:
		return when + " sowings meet the winter's frost before they have hardened"
	case dangerCover:
		return when + " sowings leave the ground bare to winter rain, moss and weeds"
	case dangerWeeds:
		return when + " sowings grow up amid a flush of annual weeds"
	case dangerHeat:
		return when + " sowings meet summer heat as seedlings"
	case dangerDry:
		return when + " sowings meet drought before they have rooted"
	default:
		return "leaves would fall on grass not yet mown"
	}
}

// choose picks the sowing day.
func (t *Table) choose(d *Dates, parts []part, y *year) {
	chance := func(date time.Time) float64 { return t.neededChance(parts, date) }
	for i := range d.Windows {
		w := &d.Windows[i]
		if !w.Met || t.want.NeededBy == nil {
			continue
		}
		// The best day of the window that can still be ready.
		if chance(w.Best) >= t.want.Success {
			continue
		}
		if chance(w.Opens) < t.want.Success {
			w.Met = false
			continue
		}
		lo, hi := 0, calendar.Days(w.Opens, w.Best)
		for hi-lo > 1 {
			mid := (lo + hi) / 2
			if chance(w.Opens.AddDate(0, 0, mid)) >= t.want.Success {
				lo = mid
			} else {
				hi = mid
			}
		}
		w.Best = w.Opens.AddDate(0, 0, lo)
		t.describe(w, parts, y)
	}
	d.Chosen = slices.IndexFunc(d.Windows, func(w Window) bool { return w.Met })
	if d.Chosen >= 0 {
		d.SowOn = d.Windows[d.Chosen].Best
	} else {
		best := -1
		for _, day := range t.allowed() {
			if best < 0 || y.score[day] > y.score[best] {
				best = day
			}
		}
		d.SowOn = t.date(best)
	}
	day := calendar.DayOf(d.SowOn)
	all := t.sow(parts, day)
	mow := spanOf(all, parts, func(s *sowing) []float64 { return s.mow })
	use := spanOf(all, parts, func(s *sowing) []float64 { return s.use })
	after := func(s Span) time.Time { // zero where no year gets there
		if s.P50 == 0 {
			return time.Time{}
		}
		return d.SowOn.AddDate(0, 0, int(math.Round(s.P50)))
	}
	d.FirstMow, d.UsableFrom = after(mow), after(use)
	for i, p := range parts {
		one := func(of func(*sowing) []float64) Span {
			var v []float64
			for k := range all {
				if x := of(&all[k])[i]; !math.IsNaN(x) {
					v = append(v, x)
				}
			}
			return span(v)
		}
		c := Component{SpeciesID: t.table[p.index].id}
		c.EmergenceDays = one(func(s *sowing) []float64 { return s.emerge })
		c.FirstMowDays = one(func(s *sowing) []float64 { return s.mow })
		for _, z := range t.zones {
			c.Success += z.share * float64(z.success[p.index][day])
		}
		c.Success = min(c.Success, 1) // shares of the zones add up to 1 only nearly
		d.Components = append(d.Components, c)
	}
	t.notes(d, parts, y)
}

// neededChance is the share of years in which a sowing bears use by the day it
// is needed.
func (t *Table) neededChance(parts []part, date time.Time) float64 {
	left := float64(calendar.Days(date, *t.want.NeededBy))
	chance := 0.0
	for _, s := range t.sow(parts, calendar.DayOf(date)) {
		if use := half(s.use, parts); s.stand >= standShare && use <= left {
			chance += s.weight
		}
	}
	return chance
}

func (t *Table) notes(d *Dates, parts []part, y *year) {
	day := calendar.DayOf(d.SowOn)
	percent := func(v float64) string { return fmt.Sprintf("%.0f years in 100", 100*v) }
	if d.Chosen < 0 {
		switch {
		case len(d.Windows) == 0:
			d.Notes = append(d.Notes, fmt.Sprintf("no day of the year succeeds in %s; %s is the best there is, with %s",
				percent(t.want.Success), d.SowOn.Format("2 January"), percent(y.success[day])))
		default:
			d.Notes = append(d.Notes, fmt.Sprintf("no window meets the dates asked for; %s is the best day left, with %s",
				d.SowOn.Format("2 January 2006"), percent(y.success[day])))
		}
	}
	if d.Chosen < 0 && !t.want.Watered {
		d.Notes = append(d.Notes, "the seedbed is not watered; sowings fail less often where it is kept moist until the first mowing")
	}
	if t.want.NotBefore != nil && t.want.NotAfter != nil && t.want.NotAfter.Before(*t.want.NotBefore) {
		d.Notes = append(d.Notes, "not_after lies before not_before, so neither was kept to")
	}
	if t.want.NeededBy != nil {
		d.NeededByChance = t.neededChance(parts, d.SowOn)
		if d.NeededByChance < t.want.Success {
			d.Notes = append(d.Notes, fmt.Sprintf("sown on %s it bears use by %s in only %s",
				d.SowOn.Format("2 January 2006"), t.want.NeededBy.Format("2 January 2006"), percent(d.NeededByChance)))
		}
	}
}
