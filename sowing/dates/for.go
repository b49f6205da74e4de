package dates

import (
	"slices"
	"time"

	"swardwright/internal/told"
)

// Dates gives the day to begin within the limits and what comes of it. Where the limits
// leave no day it is the best one after From, and the notes say so.
func (s *Season) Dates(l Limits, needed *time.Time) Dates {
	d := Dates{Chosen: -1, Threshold: s.table.input.Success, NeededBy: needed}
	if len(s.fields) == 0 {
		d.Notes = append(d.Notes, told.Say("when.none-known"))
		return d
	}
	on := s.Pick(l, needed)
	if on == nil { // the limits leave no day
		on = s.Pick(Limits{From: l.From}, needed)
	}
	start := s.on(*on)
	if start.Success == 0 && s.parts == nil {
		d.Notes = append(d.Notes, told.Say("when.turf-never"))
		return d
	}
	d.On, d.Success = on, start.Success
	d.Windows, d.Seconds = s.windows(l), s.seconds(l)
	d.Chosen = slices.IndexFunc(d.Windows, func(w Window) bool {
		return w.Allowed && !on.Before(w.Opens) && !on.After(w.Closes)
	})
	d.Components, d.FirstMow, d.UsableFrom = start.Parts, start.FirstMow, start.UsableFrom
	d.Watering, d.WaterMM = s.watering(*on)
	d.Notes = append(d.Notes, s.notes(&d, start, l)...)
	return d
}

// surer says that autumn is surer than the spring that was chosen, where it is.
func (s *Season) surer(d *Dates, start Start) (notes []told.Sentence) {
	if d.Chosen < 0 || d.Windows[d.Chosen].Kind != Spring || s.parts == nil {
		return nil
	}
	for _, w := range d.Windows {
		if w.Kind == Autumn && w.BestSuccess >= start.Success+surerBy {
			notes = append(notes, told.Say("when.autumn-surer", told.Date(w.Best), told.Share(w.BestSuccess), told.Share(start.Success)))
		}
	}
	return notes
}

// notes say what can't be done as it was asked for.
func (s *Season) notes(d *Dates, start Start, l Limits) (notes []told.Sentence) {
	if d.Chosen < 0 {
		if len(d.Windows) == 0 {
			notes = append(notes, told.Say("when.never-often", told.Share(d.Threshold), told.DayMonth(*d.On), told.Share(start.Success)))
		} else {
			notes = append(notes, told.Say("when.outside", told.Date(*d.On), told.Share(start.Success)))
		}
		if !s.table.input.Watered {
			notes = append(notes, told.Say("when.unwatered"))
		}
	}
	notes = append(notes, s.surer(d, start)...)
	if l.NotBefore != nil && l.NotAfter != nil && l.NotAfter.Before(*l.NotBefore) {
		notes = append(notes, told.Say("when.crossed"))
	}
	if d.NeededBy != nil {
		d.NeededByChance = s.chance(*d.On, *d.NeededBy)
		if d.NeededByChance < d.Threshold {
			d.SoonestOn, d.Soonest = s.Soonest(l)
			notes = append(notes, told.Say("when.late-for", told.Date(*d.On), told.Date(*d.NeededBy), told.Share(d.NeededByChance)))
			if d.Soonest != nil {
				notes = append(notes, told.Say("when.soonest", told.Date(*d.SoonestOn), told.Share(d.Threshold), told.Date(*d.Soonest)))
			}
		}
	}
	return notes
}
