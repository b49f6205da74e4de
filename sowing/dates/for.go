package dates

import (
	"fmt"
	"slices"
	"time"
)

// For gives the dates of a mixture, shares by weight by species id, and of turf.
func (t *Table) For(shares map[string]float64, l Limits, needed *time.Time) Dates {
	d := Dates{Chosen: -1, Threshold: t.input.Success, NeededBy: needed}
	s := t.Sow(shares)
	if len(s.parts) == 0 {
		d.Notes = append(d.Notes, "no species of the mixture is known to the table, so no dates can be given")
		return d
	}
	on := s.Pick(l, needed, nil)
	if on == nil { // the limits leave no day
		on = s.Pick(Limits{From: l.From}, needed, nil)
	}
	d.SowOn = *on
	d.Windows = s.Windows(l)
	d.Chosen = slices.IndexFunc(d.Windows, func(w Window) bool {
		return w.Allowed && !d.SowOn.Before(w.Opens) && !d.SowOn.After(w.Closes)
	})
	start := s.On(d.SowOn)
	d.Components, d.FirstMow, d.UsableFrom = start.Parts, start.FirstMow, start.UsableFrom
	d.Watering, d.WaterMM = s.Watering(d.SowOn)
	t.turf(&d, l, needed)
	d.Notes = append(d.Notes, s.notes(&d, start, l)...)
	return d
}

// turf adds turf's own windows and the day it bears use.
func (t *Table) turf(d *Dates, l Limits, needed *time.Time) {
	s := t.Lay()
	d.TurfWindows = s.Windows(l)
	on := s.Pick(l, needed, nil)
	if on == nil {
		return
	}
	if start := s.On(*on); start.Success > 0 {
		d.TurfOn, d.TurfSuccess, d.TurfUsableFrom = on, start.Success, start.UsableFrom
	} else {
		d.Notes = append(d.Notes, "turf would root on no day allowed")
	}
}

func (s *Season) notes(d *Dates, start Start, l Limits) (notes []string) {
	percent := func(v float64) string { return fmt.Sprintf("%.0f years in 100", 100*v) }
	if d.Chosen < 0 {
		switch {
		case len(d.Windows) == 0:
			notes = append(notes, fmt.Sprintf("no day of the year succeeds in %s; %s is the best there is, with %s",
				percent(s.table.input.Success), d.SowOn.Format("2 January"), percent(start.Success)))
		default:
			notes = append(notes, fmt.Sprintf("no window meets the dates asked for; %s is the best day left, with %s",
				d.SowOn.Format("2 January 2006"), percent(start.Success)))
		}
		if !s.table.input.Watered {
			notes = append(notes, "the seedbed is not watered; sowings fail less often where it is kept moist until the first mowing")
		}
	}
	if l.NotBefore != nil && l.NotAfter != nil && l.NotAfter.Before(*l.NotBefore) {
		notes = append(notes, "not_after lies before not_before, so neither was kept to")
	}
	if d.NeededBy != nil {
		d.NeededByChance = s.Chance(d.SowOn, *d.NeededBy)
		if d.NeededByChance < s.table.input.Success {
			notes = append(notes, fmt.Sprintf("sown on %s it bears use by %s in only %s",
				d.SowOn.Format("2 January 2006"), d.NeededBy.Format("2 January 2006"), percent(d.NeededByChance)))
		}
	}
	return notes
}
