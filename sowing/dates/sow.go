package dates

import (
	"cmp"
	"slices"
	"sort"

	"github.com/samber/lo"

	"swardwright/internal/calendar"
)

// Sow is the season of a mixture: shares by weight by species id. Species that the
// table does not hold are left out; of a mixture of such alone nothing comes up.
func (t *Table) Sow(shares map[string]float64) Season {
	return t.SowApart(func(int) map[string]float64 { return shares })
}

// SowApart is the season of a lawn whose zones, by their index, are sown with mixtures of
// their own.
func (t *Table) SowApart(shares func(zone int) map[string]float64) Season {
	s := Season{table: t, parts: []part{}}
	for i, z := range t.zones {
		for _, p := range t.partsOf(shares(i)) {
			s.add(p.index, z.share*p.share)
		}
	}
	total := lo.SumBy(s.parts, func(p part) float64 { return p.share })
	for i := range s.parts {
		s.parts[i].share /= total
	}
	for i, z := range t.zones {
		s.fields = append(s.fields, z.sow(t.table, s.within(t.partsOf(shares(i))), t.input))
	}
	s.gather()
	return s
}

// add adds to the share of a species of the table.
func (s *Season) add(index int, share float64) {
	at, known := slices.BinarySearchFunc(s.parts, index, func(p part, index int) int { return cmp.Compare(p.index, index) })
	if !known {
		s.parts = slices.Insert(s.parts, at, part{index: index})
	}
	s.parts[at].share += share
}

// within are the season's parts with their shares in a zone, of which some may be nought.
func (s *Season) within(zone []part) []part {
	out := slices.Clone(s.parts)
	for i := range out {
		out[i].share = 0
		if at := slices.IndexFunc(zone, func(p part) bool { return p.index == out[i].index }); at >= 0 {
			out[i].share = zone[at].share
		}
	}
	return out
}

// partsOf sorts out the shares, to add up to one.
func (t *Table) partsOf(shares map[string]float64) []part {
	var parts []part
	total := 0.0
	for id, v := range shares {
		if i, ok := t.ids[id]; ok && v > 0 {
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

// sow follows a mixture sown on every day of the series.
func (z *zone) sow(table []sown, parts []part, input Input) field {
	f := newField(z)
	f.sown = parts
	if input.Watered {
		f.missing = missedWatering
	}
	f.trials, f.parts, f.dry = make([]trial, len(parts)), make([]trace, len(parts)), make([]trace, len(parts))
	for i, p := range parts {
		if !p.sown() {
			continue
		}
		s := &table[p.index]
		f.trials[i], f.parts[i] = z.traced(s, input)
		if input.Watered {
			f.dry[i] = z.tracedDry(s, input)
		}
	}
	f.cover = covers(z, table, parts)
	for k := 0; k < z.n; k += sowingStep {
		stand, missed := 0.0, 0.0
		for i, p := range parts {
			if !p.sown() {
				continue
			}
			stand += p.share * float64(f.parts[i].stand[k/sowingStep])
			if input.Watered {
				missed += p.share * float64(f.dry[i].stand[k/sowingStep])
			}
		}
		for near := k; near < min(k+sowingStep, z.n); near++ {
			f.stand[near], f.missed[near] = uint8(stand+half), uint8(missed+half)
		}
	}
	return f
}

// settle finds when a sowing on day k is up, cut and in use: of few days it is ever asked.
func (f *field) settle(k int) {
	if f.up[k] != 0 {
		return
	}
	c := &f.cover
	f.cut[k], f.use[k] = never, never
	for i, p := range f.sown {
		if c.up[i] = never; p.sown() {
			c.up[i] = f.parts[i].upOn(k)
		}
		if p.share >= c.real-1e-9 {
			f.cut[k] = min(f.cut[k], f.parts[i].cutOn(k))
		}
	}
	if f.up[k] = halfUp(c.up, f.sown); f.up[k] == never || f.cut[k] == never {
		return
	}
	f.cut[k] = max(f.cut[k], f.up[k]) // no mower goes over what is only coming up
	near := 0
	if k > 0 && f.up[k-1] != 0 && f.use[k-1] != never {
		near = k - 1 + int(f.use[k-1])
	}
	f.use[k] = c.reached(k, k+int(f.cut[k]), near)
}

// halfUp is the day by which the parts that make up half of the mixture are up, by when each is.
func halfUp(ups []uint16, parts []part) uint16 {
	half := uint16(never)
	for _, up := range ups {
		if up >= half {
			continue
		}
		sum := 0.0
		for j, p := range parts {
			if ups[j] <= up {
				sum += p.share
			}
		}
		if sum >= 0.5-1e-9 {
			half = up
		}
	}
	return half
}

// cover follows how a mixture closes over the ground.
type cover struct {
	parts []part
	grow  [][]float32 // running sums of growth, by part
	each  []float32   // cover that a unit of growth brings
	up    []uint16    // after how many days the sowing at hand is up, by part
	real  float64     // share from which a part must be cut as well
}

func covers(z *zone, table []sown, parts []part) cover {
	c := cover{parts: parts, up: make([]uint16, len(parts)), real: min(realPart, 1/float64(max(1, lo.CountBy(parts, part.sown))))}
	for _, p := range parts {
		grow := z.growth(&table[p.index])
		c.grow = append(c.grow, grow)
		c.each = append(c.each, float32(p.share/(useShare*table[p.index].mowDD)))
	}
	return c
}

// reached is how many days after sowing on day k the parts that come up have covered
// the ground enough to bear use, no sooner than a day; never where they do not. The
// search sets out from the day near which it is thought to end; 0: not known.
func (c *cover) reached(k, soonest, near int) uint16 {
	wanted, end := float32(0), min(k+horizon, len(c.grow[0])-1)
	for i, p := range c.parts {
		if c.up[i] != never {
			wanted += useCover * float32(p.share)
		}
	}
	covered := func(day int) bool {
		sum := float32(0)
		for i, p := range c.parts {
			if up := k + int(c.up[i]); up < day { // never is beyond the horizon
				sum += min(float32(p.share), c.each[i]*(c.grow[i][day]-c.grow[i][up]))
			}
		}
		return sum >= wanted
	}
	day := min(max(near, soonest), end)
	if near == 0 {
		day += sort.Search(end-day, func(i int) bool { return covered(day + i) })
	}
	for day > soonest && covered(day-1) {
		day--
	}
	for day < end && !covered(day) {
		day++
	}
	if day == end {
		return never
	}
	return uint16(day - k)
}

// slept tells whether seed sown on a day of the year mostly lies through the winter,
// for most of the mixture.
func (s *Season) slept(day int) bool {
	slept, all := 0, 0
	s.years(day, func(f *field, k int, _ float64) {
		for i := range f.parts {
			if !f.sown[i].sown() {
				continue
			}
			up := f.parts[i].upOn(k)
			all++
			if up != never && f.zone.cold[k+int(up)]-f.zone.cold[k] >= sleepDays {
				slept++
			}
		}
	})
	return 2*slept > all
}

// kind names the season of a day of the year by its distance from the warmest.
func (s *Season) kind(day int) Kind {
	switch after := calendar.Since(s.table.coldest, day) - calendar.Half; {
	case after >= -summerBefore && after < summerAfter:
		return Summer
	case after < 0:
		return Spring
	default:
		return Autumn
	}
}
