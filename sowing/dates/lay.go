package dates

import (
	"swardwright/internal/arith"
	"swardwright/internal/calendar"
)

// Lay is the season of turf of the kind of grass that most of a mixture is of, of the
// cool season or the warm.
func (t *Table) Lay(shares map[string]float64) Season {
	s := Season{table: t}
	warmth := 0.0
	for _, p := range t.partsOf(shares) {
		if t.table[p.index].warm {
			warmth += p.share
		}
	}
	kind := sown{warm: warmth > 0.5}
	for _, z := range t.zones {
		f := z.turf(&kind, t.input.Watered)
		f.zone = z // of this lawn's share
		s.fields = append(s.fields, f)
	}
	s.gather()
	return s
}

// turf follows turf of a kind laid on every day of the series.
func (z *zone) turf(kind *sown, watered bool) field {
	f, ok := z.grown.laid[kind.warm]
	if !ok {
		f = newField(z)
		if watered {
			f.missing = missedWatering
		}
		for k := range z.n {
			f.lay(k, watered, z.growth(kind))
		}
		z.grown.laid[kind.warm] = f
	}
	return f
}

// lay follows turf laid on a day: when it has rooted, is cut and bears use, and how
// much of it lives through drought, heat or a winter before it has rooted.
func (f *field) lay(k int, watered bool, grow []float32) {
	z, d := f.zone, f.zone.days
	f.up[k], f.cut[k], f.use[k] = never, never, never
	if d.SoilC[k] < turfSoilC || d.SnowCM[k] >= 1 {
		return
	}
	last := len(grow) - 1
	root, inUse := reach(grow, k, turfRootDegDays), reach(grow, k, turfUseDegDays)
	if root >= last || root-k > horizon {
		return
	}
	stand := 1.0
	if growing := float64(root-k) - float64(z.cold[root]-z.cold[k]); growing > turfRootDays {
		return // it withers before it roots
	}
	if root-k > turfRootDays {
		stand = turfWinter
	}
	hot := 0.0
	for i := k; i < k+fortnight; i++ {
		hot += float64(d.MaxC[i%z.n]) / fortnight
	}
	stand *= arith.Unit(0.5 + (turfHotC-hot)/turfHotRange)
	thirst := float64(z.parch[min(root, k+turfThirstDays)]-z.parch[k]) / turfParchHalf
	missed := stand / (1 + thirst)
	if watered {
		stand /= 1 + wateringLapse*thirst
	} else {
		stand = missed
	}
	f.stand[k], f.missed[k] = uint8(full*stand+half), uint8(full*missed+half)
	f.up[k], f.cut[k] = uint16(root-k), uint16(root-k)
	if inUse < last && inUse-k <= horizon {
		f.use[k] = uint16(inUse - k)
	}
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
