package dates

import (
	"cmp"
	"slices"

	"swardwright/internal/calendar"
)

// Sow is the season of a mixture: shares by weight by species id. Species that the
// table does not hold are left out; of a mixture of such alone nothing comes up.
func (t *Table) Sow(shares map[string]float64) Season {
	s := Season{table: t, parts: t.partsOf(shares)}
	for _, z := range t.zones {
		s.fields = append(s.fields, z.sow(t.table, s.parts, t.input))
	}
	s.gather()
	return s
}

// partsOf sorts out the shares, to add up to one.
func (t *Table) partsOf(shares map[string]float64) []part {
	parts := []part{}
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
	if input.Watered {
		f.missing = missedWatering
	}
	for _, p := range parts {
		s := &table[p.index]
		trial, trace := z.traced(s, input)
		f.trials, f.parts = append(f.trials, trial), append(f.parts, trace)
		if input.Watered {
			f.dry = append(f.dry, z.tracedDry(s, input))
		}
	}
	cover := covers(z, table, parts)
	real := min(realPart, 1/float64(max(1, len(parts))))
	for k := range z.n {
		stand, missed, cut := 0.0, 0.0, uint16(never)
		for i, p := range parts {
			t := &f.parts[i]
			stand += p.share * float64(t.stand[k])
			if input.Watered {
				missed += p.share * float64(f.dry[i].stand[k])
			}
			if p.share >= real-1e-9 {
				cut = min(cut, t.cut[k])
			}
		}
		f.stand[k], f.missed[k], f.cut[k] = uint8(stand+half), uint8(missed+half), cut
		f.up[k] = halfUp(f.parts, parts, k)
		f.use[k] = never
		if f.up[k] != never && cut != never {
			f.use[k] = cover.reached(f.parts, k, k+int(cut))
		}
	}
	return f
}

// halfUp is the day by which the parts that make up half of the mixture are up.
func halfUp(traces []trace, parts []part, k int) uint16 {
	half := uint16(never)
	for i := range traces {
		up, sum := traces[i].up[k], 0.0
		if up >= half {
			continue
		}
		for j, p := range parts {
			if traces[j].up[k] <= up {
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
	day   int         // near which the last sowing asked for was in use
}

func covers(z *zone, table []sown, parts []part) cover {
	c := cover{parts: parts}
	for _, p := range parts {
		grow := z.growth(&table[p.index])
		c.grow = append(c.grow, grow)
		c.each = append(c.each, float32(p.share/(useShare*table[p.index].mowDD)))
	}
	return c
}

// reached is how many days after sowing on day k the parts that come up have covered
// the ground enough to bear use, no sooner than a day; never where they do not. The
// search sets out from where the last one ended, since sowings that follow one
// another are in use on days that do.
func (c *cover) reached(traces []trace, k, soonest int) uint16 {
	wanted := float32(0)
	for i, p := range c.parts {
		if traces[i].up[k] != never {
			wanted += useCover * float32(p.share)
		}
	}
	covered := func(day int) bool {
		sum := float32(0)
		for i, p := range c.parts {
			if up := k + int(traces[i].up[k]); traces[i].up[k] != never && up < day {
				sum += min(float32(p.share), c.each[i]*(c.grow[i][day]-c.grow[i][up]))
			}
		}
		return sum >= wanted
	}
	end := min(k+horizon, len(c.grow[0])-1)
	c.day = min(max(c.day, soonest), end)
	for c.day > soonest && covered(c.day-1) {
		c.day--
	}
	for c.day < end && !covered(c.day) {
		c.day++
	}
	if c.day == end {
		return never
	}
	return uint16(c.day - k)
}

// slept tells whether seed sown on a day of the year mostly lies through the winter,
// for most of the mixture.
func (s *Season) slept(day int) bool {
	slept, all := 0, 0
	s.years(day, func(f *field, k int, _ float64) {
		for i := range f.parts {
			up := f.parts[i].up[k]
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
