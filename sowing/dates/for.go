package dates

import (
	"fmt"
	"slices"
	"time"
)

// Dates gives the day to begin within the limits and what comes of it. Where the limits
// leave no day it is the best one after From, and the notes say so.
func (s *Season) Dates(l Limits, needed *time.Time) Dates {
	d := Dates{Chosen: -1, Threshold: s.table.input.Success, NeededBy: needed}
	if len(s.fields) == 0 {
		d.Notes = append(d.Notes, "no species of the mixture is known to the table, so no dates can be given")
		return d
	}
	on := s.Pick(l, needed, nil)
	if on == nil { // the limits leave no day
		on = s.Pick(Limits{From: l.From}, needed, nil)
	}
	start := s.On(*on)
	if start.Success == 0 && s.parts == nil {
		d.Notes = append(d.Notes, "turf would root on no day allowed")
		return d
	}
	d.On, d.Success = on, start.Success
	d.Windows = s.Windows(l)
	d.Chosen = slices.IndexFunc(d.Windows, func(w Window) bool {
		return w.Allowed && !on.Before(w.Opens) && !on.After(w.Closes)
	})
	d.Components, d.FirstMow, d.UsableFrom = start.Parts, start.FirstMow, start.UsableFrom
	d.Watering, d.WaterMM = s.Watering(*on)
	d.Notes = append(d.Notes, s.notes(&d, start, l)...)
	return d
}

func (s *Season) notes(d *Dates, start Start, l Limits) (notes []string) {
	percent := func(v float64) string { return fmt.Sprintf("%.0f years in 100", 100*v) }
	if d.Chosen < 0 {
		switch {
		case len(d.Windows) == 0:
			notes = append(notes, fmt.Sprintf("no day of the year succeeds in %s; %s is the best there is, with %s",
				percent(s.table.input.Success), d.On.Format("2 January"), percent(start.Success)))
		default:
			notes = append(notes, fmt.Sprintf("no window meets the dates asked for; %s is the best day left, with %s",
				d.On.Format("2 January 2006"), percent(start.Success)))
		}
		if !s.table.input.Watered {
			notes = append(notes, "the seedbed is not watered; sowings fail less often where it is kept moist until the first mowing")
		}
	}
	if l.NotBefore != nil && l.NotAfter != nil && l.NotAfter.Before(*l.NotBefore) {
		notes = append(notes, "not_after lies before not_before, so neither was kept to")
	}
	if d.NeededBy != nil {
		d.NeededByChance = s.Chance(*d.On, *d.NeededBy)
		if d.NeededByChance < s.table.input.Success {
			notes = append(notes, fmt.Sprintf("sown on %s it bears use by %s in only %s",
				d.On.Format("2 January 2006"), d.NeededBy.Format("2 January 2006"), percent(d.NeededByChance)))
		}
	}
	return notes
}
