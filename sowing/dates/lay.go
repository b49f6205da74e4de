package dates

import "swardwright/internal/calendar"

// Lay is the season of turf.
func (t *Table) Lay() Season {
	s := Season{table: t}
	for _, z := range t.zones {
		f := field{zone: z, up: make([]uint16, z.n), cut: make([]uint16, z.n), use: make([]uint16, z.n), stand: make([]uint8, z.n)}
		for k := range z.n {
			f.up[k], f.cut[k], f.use[k], f.stand[k] = z.lay(k, t.input.Watered)
		}
		s.fields = append(s.fields, f)
	}
	s.gather()
	return s
}

// lay tells when turf laid on a day has rooted, is first cut and bears use, and
// whether it roots before winter, drought or heat can take it.
func (z *zone) lay(k int, watered bool) (rooted, cut, use uint16, stand uint8) {
	d := z.days
	if d.SoilC[k] < turfSoilC || d.SnowCM[k] >= 1 {
		return never, never, never, 0
	}
	last := len(z.cool) - 1
	root, inUse := reach(z.cool, k, turfRootDegDays), reach(z.cool, k, turfUseDegDays)
	if root >= last || root-k > turfRootDays {
		return never, never, never, 0
	}
	hot, dry := 0.0, 0.0
	for i := k; i < k+fortnight; i++ {
		hot += float64(d.MaxC[i%z.n]) / fortnight
		if d.Surface[i%z.n] < surfaceLeast/2 {
			dry++
		}
	}
	if hot >= turfHotC || !watered && dry >= fortnight/2 {
		return never, never, never, 0
	}
	use = never
	if inUse < last {
		use = uint16(inUse - k)
	}
	return uint16(root - k), uint16(root - k), use, full
}

// hot tells whether the fortnight from a day of the year is, on the mean of the
// years, too hot for fresh turf.
func (s *Season) hot(day int) bool {
	z := s.table.zones[0]
	sum, n := 0.0, 0.0
	for k := day; k < z.n; k += calendar.Year {
		for i := k; i < k+fortnight; i++ {
			sum += float64(z.days.MaxC[i%z.n])
			n++
		}
	}
	return sum/n >= turfHotC-turfNearHotK
}
