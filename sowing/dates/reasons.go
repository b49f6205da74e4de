package dates

import (
	"fmt"

	"swardwright/internal/calendar"
)

// means are the mean shares that come through each danger on a day of the year, over
// some of the years.
func (s *Season) means(day int) (m [dangers]float64) {
	for i := range s.fields {
		f := &s.fields[i]
		step := max(1, s.table.years/sampleYears)
		weight := f.zone.share * float64(step) / float64(s.table.years)
		for k := day; k < len(f.stand); k += step * calendar.Year {
			for i, p := range s.parts {
				one := f.trials[i].at(k)
				for j, v := range one.through {
					m[j] += p.share * weight * v
				}
			}
		}
	}
	return m
}

// because says why a window of some kind opens or closes: what is worse on a day
// outside it than on its best day.
func (s *Season) because(kind Kind, success float64, best, outer int, opening bool) string {
	if s.parts == nil {
		return s.turfBecause(outer, opening)
	}
	when := "later"
	if opening {
		when = "earlier"
	}
	if s.Success[outer] >= success && s.Score[outer] >= windowShare*s.Score[best] {
		return when + " days are nearly as good and count to another season"
	}
	inside, outside := s.means(best), s.means(outer)
	worst := danger(0)
	for i := range dangers {
		if inside[i]-outside[i] > inside[worst]-outside[worst] {
			worst = i
		}
	}
	switch worst {
	case dangerWork:
		return when + " the ground is frozen, under snow or too wet to work"
	case dangerUp, dangerLost:
		return s.notUp(kind, outer, opening, when)
	case dangerWash:
		return when + " sowings meet the heavy rain of thunderstorms"
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

// wrong says what takes most of a sowing on a day of the year.
func (s *Season) wrong(day int) string {
	if s.parts == nil {
		if s.hot(day) {
			return "summer heat burns fresh turf"
		}
		return "the turf does not root before drought or frost"
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

var wrongs = [dangers]string{
	dangerWork:   "the ground cannot be worked in time",
	dangerUp:     "the ground is too cold or too dry for the seed to come up",
	dangerLost:   "birds and rot take the seed while it lies",
	dangerWash:   "heavy rain washes the seed off",
	dangerFrost:  "hard frost catches seedlings just up",
	dangerWinter: "the winter takes seedlings that have not hardened",
	dangerCover:  "the winter finds bare ground: wash, moss and weeds",
	dangerWeeds:  "annual weeds overgrow the seedlings",
	dangerHeat:   "summer heat takes seedlings",
	dangerDry:    "drought takes seedlings before they have rooted",
	dangerSlow:   "the grass is not fit to mow within the year",
	dangerLeaves: "leaves fall on grass not yet mown",
}

// notUp says why seed sown on a day outside a window is lost before it is up.
func (s *Season) notUp(kind Kind, outer int, opening bool, when string) string {
	if kind == Dormant && opening {
		return "seed sown earlier would sprout and die of the frost"
	}
	cause := "too cold"
	if !s.table.input.Watered {
		cause = "too cold or too dry"
	}
	var up spread
	s.years(outer, func(f *field, k int, weight float64) { up.add(f.up[k], weight) })
	if up.total < hardlyAny {
		return fmt.Sprintf("%s the ground is %s for the seed to come up", when, cause)
	}
	return fmt.Sprintf("%s the ground is %s: seed would lie %.0f days", when, cause, up.at(0.5))
}

func (s *Season) turfBecause(outer int, opening bool) string {
	switch hot := s.hot(outer); {
	case hot && opening:
		return "summer heat burns turf laid earlier"
	case hot:
		return "summer heat burns fresh turf"
	case opening:
		return "turf laid earlier would not root in time"
	default:
		return "turf laid later would not root in time"
	}
}
