package dates

import (
	"swardwright/internal/calendar"
	"swardwright/internal/told"
)

// means are the mean shares that come through each danger on a day of the year, over
// some of the years.
func (s *Season) means(day int) (m [dangers]float64) {
	for i := range s.fields {
		f := &s.fields[i]
		step := max(1, s.table.years/sampleYears)
		weight := f.zone.share * float64(step) / float64(s.table.years)
		for k := day; k < len(f.stand); k += step * calendar.Year {
			for i, p := range f.sown {
				if !p.sown() {
					continue
				}
				one := f.trials[i].at(k)
				for j, v := range one.through {
					m[j] += p.share * weight * v
				}
			}
		}
	}
	return m
}

// edge is what is said where a danger opens a window and where it closes one.
type edge struct{ before, after told.Sentence }

func (e edge) at(opening bool) told.Sentence {
	if opening {
		return e.before
	}
	return e.after
}

var edges = [dangers]edge{
	dangerWork:   {told.Say("when.closed-before"), told.Say("when.closed-after")},
	dangerWash:   {told.Say("when.wash-before"), told.Say("when.wash-after")},
	dangerFrost:  {told.Say("when.frost-before"), told.Say("when.frost-after")},
	dangerWinter: {told.Say("when.winter-before"), told.Say("when.winter-after")},
	dangerCover:  {told.Say("when.bare-before"), told.Say("when.bare-after")},
	dangerWeeds:  {told.Say("when.weeds-before"), told.Say("when.weeds-after")},
	dangerHeat:   {told.Say("when.heat-before"), told.Say("when.heat-after")},
	dangerDry:    {told.Say("when.drought-before"), told.Say("when.drought-after")},
	dangerSlow:   {told.Say("when.slow-before"), told.Say("when.slow-after")},
	dangerLeaves: {told.Say("when.leaves-before"), told.Say("when.leaves-after")},
}

var (
	edgeGood     = edge{told.Say("when.good-before"), told.Say("when.good-after")}
	edgeHot      = edge{told.Say("when.turf-heat-before"), told.Say("when.turf-heat-after")}
	edgeUnrooted = edge{told.Say("when.turf-unrooted-before"), told.Say("when.turf-unrooted-after")}
	edgeNever    = edge{told.Say("when.never-up-before"), told.Say("when.never-up-after")}
)

// because says why a window of some kind opens or closes: what is worse on a day
// outside it than on its best day.
func (s *Season) because(kind Kind, success float64, best, outer int, opening bool) told.Sentence {
	switch {
	case s.parts == nil && s.hot(outer):
		return edgeHot.at(opening)
	case s.parts == nil:
		return edgeUnrooted.at(opening)
	case s.Success[outer] >= success && s.Score[outer] >= windowShare*s.Score[best]:
		return edgeGood.at(opening)
	}
	inside, outside := s.means(best), s.means(outer)
	worst := danger(0)
	for i := range dangers {
		if inside[i]-outside[i] > inside[worst]-outside[worst] {
			worst = i
		}
	}
	if worst == dangerUp || worst == dangerLost {
		return s.notUp(kind, outer, opening)
	}
	return edges[worst].at(opening)
}

// notUp says why seed sown on a day outside a window is lost before it is up.
func (s *Season) notUp(kind Kind, outer int, opening bool) told.Sentence {
	if kind == Dormant && opening {
		return told.Say("when.sprouts-before")
	}
	var up spread
	s.settled(outer, func(f *field, k int, weight float64) { up.add(f.up[k], weight) })
	if up.total < hardlyAny {
		return edgeNever.at(opening)
	}
	lies := told.Days(up.at(0.5))
	if s.table.input.Watered {
		return edge{told.Say("when.cold-before", lies), told.Say("when.cold-after", lies)}.at(opening)
	}
	return edge{told.Say("when.dry-before", lies), told.Say("when.dry-after", lies)}.at(opening)
}

// wrong says what takes most of a sowing, or of turf, on a day of the year.
func (s *Season) wrong(day int) told.Sentence {
	if s.parts == nil {
		if s.hot(day) {
			return told.Say("when.goes-turf-heat")
		}
		return told.Say("when.goes-turf-unrooted")
	}
	m := s.means(day)
	worst := danger(0)
	for i := range dangers {
		if m[i] < m[worst] {
			worst = i
		}
	}
	return wrongs[worst]
}

var wrongs = [dangers]told.Sentence{
	dangerWork:   told.Say("when.goes-closed"),
	dangerUp:     told.Say("when.goes-not-up"),
	dangerLost:   told.Say("when.goes-lost"),
	dangerWash:   told.Say("when.goes-washed"),
	dangerFrost:  told.Say("when.goes-frost"),
	dangerWinter: told.Say("when.goes-winter"),
	dangerCover:  told.Say("when.goes-bare"),
	dangerWeeds:  told.Say("when.goes-weeds"),
	dangerHeat:   told.Say("when.goes-heat"),
	dangerDry:    told.Say("when.goes-drought"),
	dangerSlow:   told.Say("when.goes-slow"),
	dangerLeaves: told.Say("when.goes-leaves"),
}
