package sward

import (
	"time"

	"swardwright/internal/arith"
	"swardwright/internal/calendar"
	"swardwright/site"
)

// FirstSeason is the share of the first growing season left after a lawn sown on a
// day has established, and whether a winter comes first: a sowing that most of
// the year's growth is behind meets the winter young.
func FirstSeason(c *site.Conditions, sowDay int) (left float64, winter bool) {
	days := c.Zones[0].Days
	if days == nil || days.Years == 0 || sowDay <= 0 {
		return springSeason, false
	}
	coldest := days.Normals.ColdestDay()
	sown := calendar.Since(coldest, sowDay)
	var total, after float64
	for i, g := range days.Growth {
		total += float64(g)
		if calendar.Since(coldest, i) >= sown {
			after += float64(g)
		}
	}
	years := float64(days.Years)
	total, after = total/years, after/years
	if total == 0 {
		return springSeason, false
	}
	if after < autumnShare*total {
		return 1, true
	}
	return arith.Unit((after - establishGrowth) / total), false
}

const (
	springSeason    = 0.75 // of the season, after a sowing at its start
	autumnShare     = 0.40 // of the year's growth still to come: less is an autumn sowing
	establishGrowth = 25.0 // days of full growth until established: eight weeks of ordinary growth
)

// Growing is how the growth of a mean year runs from its coldest day on.
type Growing struct {
	Coldest int                        // day of the year, from 0
	until   [calendar.Year + 1]float64 // days of full growth before the day
}

// GrowingOf is that of a site.
func GrowingOf(c *site.Conditions) Growing {
	var g Growing
	days := c.Zones[0].Days
	g.Coldest = days.Normals.ColdestDay()
	var by [calendar.Year]float64
	for i, x := range days.Growth {
		by[calendar.Since(g.Coldest, i)] += float64(x) / float64(days.Years)
	}
	for k, x := range by {
		g.until[k+1] = g.until[k] + x
	}
	return g
}

// Moment is a day as the model knows it: the year, which begins on its coldest day, and the
// share of its growth that is over.
type Moment struct {
	Year int
	Part float64
}

// At is the moment of a day.
func (g *Growing) At(day time.Time) Moment {
	at := calendar.DayOf(day)
	m := Moment{Year: day.Year()}
	if at < g.Coldest {
		m.Year--
	}
	if total := g.until[calendar.Year]; total > 0 {
		m.Part = g.until[calendar.Since(g.Coldest, at)] / total
	}
	return m
}

// established is the share of a year's growth that a sowing needs until it stands.
func (g *Growing) established() float64 {
	return establishGrowth / max(establishGrowth, g.until[calendar.Year])
}
