// Package year plans the care of the lawn: mowing, feeding, spiking, dressing,
// overseeding and watering through the first year and the years after, as dated
// tasks.
//
// Dates come from the growth of the synthetic years (growth potential × light ×
// water), counted from the coldest of the year so that both hemispheres have one
// season: a date that the weather decides is the median over the years of the day
// on which the thing is due, and its chance is the share of years in which that
// day lies within ten days of it. The lawn is mown when it has grown by half the
// height of cut; nitrogen is what the use asks for within what warmth, light and
// mixture let grass use. Not covered: pests, weedkillers and fungicides, which
// local rules and licensed people decide on.
package year

import (
	"fmt"
	"math"
	"slices"
	"time"

	"swardwright/internal/calendar"
	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/site"
	"swardwright/sowing/job"
	"swardwright/species"
)

// Input is what the care is planned for.
type Input struct {
	Site       *site.Conditions // as it will be
	Growth     *Growth          // keeps how it grows; nil: nothing is kept
	Zones      []job.Zone       // that grass comes into; none: the whole lawn
	Use        species.Use      // its grade is the one kept up
	Mixture    *mix.Mixture     // nil when no grass holds; then StartOn is zero and there is no care
	StartOn    time.Time        // sown or laid
	Start      string           // the task's id
	FirstMow   time.Time        // median
	UsableFrom *time.Time       // median; nil: never
	Watering   []Water          // of the weeks after sowing
	Turf       bool             // laid, not sown
	RootsM2    float64          // over the roots of trees, which are not spiked
	Netted     bool             // the seed lies under a net
	Old        bool             // sown into a standing sward, which goes on growing
	Lime       []float64        // goes of lime on a standing sward, g/m², in the season for it
}

// Water is the watering of one week after sowing, litres a square metre.
type Water struct {
	Week          int // the first is 1
	MeanMM, DryMM float64
}

// Feed is one feeding of a full year.
type Feed struct {
	Date time.Time
	NGM2 float64
	Kind string // "leaf", "hardening", or "late" where summers are hot
}

// Month is the growth and mowing of one month.
type Month struct {
	Growth       float64 // mean growth, 0 to 1
	MowEveryDays float64 // 0: no mowing
	Mows         float64 // of a full year's tasks
	CutMM        float64
}

// Cutting is how much a cut takes off.
type Cutting int

// A cut takes a third at most, a little each day, all that has grown for hay, or what animals
// leave standing.
const (
	ByThirds Cutting = iota
	ByRobot
	ForHay
	ByAnimals
)

// Calendar is the whole answer.
type Calendar struct {
	Tasks        []job.Task // by date, from the sowing or laying on
	Months       [12]Month
	Feeds        []Feed
	NitrogenGM2  float64 // a full year
	Cutting      Cutting
	CutMM        float64 // of the lightest zone in summer
	CutsPerYear  float64
	MowHoursYear float64
	Scythed      bool    // cut long and carried off by hand
	DressingM3   float64 // loose, a full year
	Notes        []told.Sentence
	Sources      []Source // of the figures
}

// Source is where figures of one kind of care come from.
type Source struct{ Of, Source string }

// plan is a calendar in the making.
type plan struct {
	in     Input
	area   float64 // of the grass, m²
	season *season
	mower  mower
	warm   float64 // share of warm-season grass
	hot    bool    // cool-season grass where summers are hot
	open   float64 // light of the lawn over the open, area mean
	opens  dated
	closes dated
	fed    []feedDay      // the feeds of a full year
	named  map[string]int // tasks by the id asked for
	cal    Calendar
}

// add puts a task on the calendar. Where several would have one id they are numbered.
func (p *plan) add(t job.Task) {
	if t.Goes == 0 {
		t.Goes = 1
	}
	if t.AreaM2 == 0 {
		t.AreaM2 = p.area
	}
	t.Zones = job.Letters(p.in.Zones)
	p.named[t.ID]++
	if n := p.named[t.ID]; n > 1 {
		t.ID = fmt.Sprintf("%s-%d", t.ID, n)
	}
	p.cal.Tasks = append(p.cal.Tasks, t)
}

func (p *plan) note(s told.Sentence) { p.cal.Notes = append(p.cal.Notes, s) }

func says(s ...told.Sentence) []told.Sentence { return s }

// Plan works out the calendar: the tasks of the first year from the preparation
// on, and those of the first full season after it, which come round every year.
func Plan(w Input) Calendar {
	if w.Mixture == nil && w.StartOn.IsZero() {
		return Calendar{}
	}
	p := &plan{in: w, area: w.Site.AreaM2, named: map[string]int{}}
	if len(w.Zones) > 0 {
		p.area = job.Area(w.Zones)
	}
	if w.Mixture != nil {
		for _, c := range w.Mixture.Components {
			if c.Species.Warm {
				p.warm += float64(c.Percent) / 100
			}
		}
	}
	for _, z := range w.Site.Zones {
		p.open += z.Share * z.Light.OpenShare
	}
	p.hot = p.warm < 0.5 && w.Site.Weather.WarmestMonthC >= hotMonthC
	p.mower = mowerFor(w.Use, p.area, p.open)
	p.cal.Scythed = p.mower.name == "scythe"
	var ok, opens, closes bool
	if p.season, ok = w.Growth.season(w.Site, p.warm); ok {
		p.opens, opens = p.season.opens()
		p.closes, closes = p.season.closes()
	}
	if !ok || !opens || !closes {
		p.note(told.Say("year.no-growth"))
		return p.cal
	}
	p.resume()
	p.cal.Sources = slices.Clone(sources)
	p.cal.NitrogenGM2 = p.nitrogen()
	p.fed = p.lawful(p.feeds(p.cal.NitrogenGM2))
	if p.in.Use.NoFeed != nil {
		p.cal.NitrogenGM2 = 0
		for _, f := range p.fed {
			p.cal.NitrogenGM2 = math.Round(10*(p.cal.NitrogenGM2+f.n)) / 10
		}
		p.note(told.Say("year.no-feed-by-law"))
	}
	p.mowing()

	// The first season ends with the coldest time after the first mowing.
	ends := calendar.OnOrBefore(p.in.FirstMow, p.season.cold).AddDate(1, 0, 0)
	p.establish()
	p.firstSeason(ends.AddDate(-1, 0, 0))
	p.fullSeason(ends)
	p.lime(ends.AddDate(-1, 0, 0))
	p.countCuts()
	byDate(p.cal.Tasks)
	return p.cal
}
