package year

import (
	"math"
	"time"

	"swardwright/internal/calendar"
	"swardwright/internal/steady"
	"swardwright/internal/told"
	"swardwright/sowing/job"
)

// Watering of new seed: City of Regina, Seed your lawn: 6 mm four times a week
// until the grass is up, then 12 mm twice a week, four to six weeks in all.
const (
	seedGoMM    = 6.0
	seedWeeks   = 3
	youngGoMM   = 12.0
	youngWeeks  = 6
	soakGoMM    = 25.0 // later, every 7 to 10 days (the same; University of Saskatchewan)
	turfFirstMM = 20.0 // within the first hour: Nursery Sod Growers Association of Ontario
	turfDayMM   = 6.0  // then for two weeks: common practice, no published source (5 to 7)
	turfWeeks   = 2
	// tallFirstMM is the height at which seedlings are first cut at the latest:
	// Parkland County and the Polish road specification (about 10 cm).
	tallFirstMM  = 100.0
	leastFirstMM = 40.0     // that young grass is cut to at the lowest: common practice, no published source
	stepDays     = 7.0      // from one step down to the next
	waterHours   = 0.25     // of standing by, each go, at the least;
	moveHours    = 5.0 / 60 // a sprinkler is moved once for each sprinklerM2: common practice, no published source
	sprinklerM2  = 150.0
	leastGoMM    = 4.0 // worth getting a hose out for: common practice, no published source
)

// A seedbed is netted until the grass stands so high, kept moist so deep, and sown
// again where it is bare within so many weeks: common practice, no published source.
const (
	nettedMM   = 30
	moistMM    = 20
	resowWeeks = 3
)

// soakMM is what a standing lawn is given at once: no more than its rooted depth holds
// for grass, since the rest runs through.
func (p *plan) soakMM() float64 {
	least := soakGoMM
	for _, z := range p.in.Site.Zones {
		if z.Days == nil {
			continue
		}
		e := z.Days.Exposure
		if holds := 1000 * (e.FieldCapacity - e.WiltingPoint) * e.RootDepthM; holds > 0 {
			least = math.Min(least, math.Max(holds, leastGoMM))
		}
	}
	return least
}

// soakEvery is how often: a soaking of soakGoMM lasts 7 to 10 days, a smaller one less.
func (p *plan) soakEvery() told.Range {
	share := p.soakMM() / soakGoMM
	days := func(n float64) told.Days { return told.Days(math.Max(math.Round(n*share), 1)) }
	return told.Between(days(7), days(10))
}

// resumeDays after overseeding the old sward is mown again, while it grows: common
// practice, no published source.
const resumeDays = 14

// resume brings the first mowing forward to the day on which an old sward, cut down
// before the sowing, stands as high as it may.
func (p *plan) resume() {
	if !p.in.Old {
		return
	}
	stands, rate := p.firstStands(), growthMMD(p.fullN())
	mm := job.MownDownMM
	for at := p.in.StartOn; at.Before(p.in.FirstMow); at = at.AddDate(0, 0, 1) {
		if mm >= stands && !at.Before(p.in.StartOn.AddDate(0, 0, resumeDays)) {
			p.in.FirstMow = at
			return
		}
		mm += rate * p.season.mean[calendar.Since(p.season.cold, calendar.DayOf(at))]
	}
}

// establish adds the weeks from the sowing or laying until the lawn bears use.
func (p *plan) establish() {
	w := p.in
	if w.Turf {
		p.waterTurf()
	} else {
		p.waterSeed()
		p.add(job.Task{ID: "look-over-seed", Sort: job.Watching, Date: w.StartOn.AddDate(0, 0, 1), Until: p.lookedOver(), Title: told.Say("year.look-over-seed"), First: true, Needs: p.afterStart(1),
			Detail: p.lookOver()})
	}
	cut := job.Task{ID: "first-cut", Sort: job.Mowing, Date: w.FirstMow, Hours: p.mower.ordinary(w.Use, p.area, p.open).hours(p.area), First: true, Title: told.Say("year.first-cut"), Detail: p.firstCut(), Needs: p.afterStart(1)}
	if w.Old {
		cut.Title = told.Say("year.resume-mowing")
		if len(p.steps()) > 1 {
			cut.Title = told.Say("year.resume-by-steps")
		}
	}
	if at, ok := p.weedsFirst(); ok {
		cut.Date, cut.Title, cut.Detail = at, told.Say("year.meadow-weeds"), append(p.weedsHow(at), told.Say("year.mower-guards"))
	}
	p.add(cut)
	if at := p.youngFeed(); !at.IsZero() {
		t := p.feedTask(at, youngGM2, "leaf", 0, true)
		t.ID, t.Title, t.Needs = "feed-young", told.Say("year.feed-young"), p.afterStart(1)
		p.add(t)
	}
	if w.Use.Livestock {
		p.add(job.Task{ID: "first-grazing", Sort: job.Watching, Date: p.firstGrazing(), Title: told.Say("year.first-grazing"), First: true, Needs: p.afterStart(1),
			Detail: says(told.Say("year.first-grazing-how", told.Between(told.DepthMM(GrazeFromMM), told.DepthMM(GrazeToMM)), told.DepthMM(grazeDownMM), told.Weeks(grazeRestWeeks)))})
	}
	if w.UsableFrom != nil {
		how := told.Say("year.bears-use-how")
		switch {
		case w.Use.Grazed():
			how = told.Say("year.bears-feet")
		case w.Use.Rough():
			how = told.Say("year.bears-rough")
		}
		p.add(job.Task{ID: "bears-use", Sort: job.BearingUse, Date: *w.UsableFrom, Title: told.Say("year.bears-use"), First: true, Needs: p.afterStart(1), Detail: says(how)})
	}
}

// lookOverDays is how long a sowing is looked over at the most: common practice, no published source.
const lookOverDays = 60

// lookedOver is the day until which a sowing is looked over: its first cut, or when birds and
// wash do it no more harm.
func (p *plan) lookedOver() time.Time {
	if most := p.in.StartOn.AddDate(0, 0, lookOverDays); most.Before(p.in.FirstMow) {
		return most
	}
	return p.in.FirstMow
}

// lookOver is what is looked for in a sown lawn until it is mown.
func (p *plan) lookOver() (how []told.Sentence) {
	if p.in.Netted {
		how = says(told.Say("year.keep-net", told.DepthMM(nettedMM)))
	}
	return append(how, told.Say("year.look-over-seed-how", told.Weeks(resowWeeks)))
}

// afterStart is the need of everything that follows on the sowing or laying.
func (p *plan) afterStart(days int) []job.Need {
	if p.in.Start == "" {
		return nil
	}
	return []job.Need{{ID: p.in.Start, Days: days}}
}

// phase is a stretch of weeks in which water is given in like goes.
type phase struct {
	from, to int // weeks after sowing
	goMM     float64
	why      told.Sentence
}

// waterSeed gathers the weeks of watering into the phases in which it is given in
// fewer and deeper goes.
func (p *plan) waterSeed() {
	p.water([]phase{
		{1, seedWeeks, seedGoMM, told.Say("year.water-seed", told.DepthMM(moistMM))},
		{seedWeeks + 1, youngWeeks, math.Min(youngGoMM, p.soakMM()), told.Say("year.water-deeper")},
		{youngWeeks + 1, 52, p.soakMM(), told.Say("year.water-soak", p.soakEvery())},
	})
}

// water adds the watering of the weeks told of, by phases, up to the day the lawn
// bears use: what is given after that is the care of a standing lawn.
func (p *plan) water(phases []phase) {
	for _, phase := range phases {
		var mean, dry float64
		first, last := 0, 0
		for _, week := range p.in.Watering {
			at := p.in.StartOn.AddDate(0, 0, 7*(week.Week-1))
			if week.Week < phase.from || week.Week > phase.to || week.DryMM < 1 || p.in.UsableFrom != nil && !at.Before(*p.in.UsableFrom) {
				continue
			}
			if first == 0 {
				first = week.Week
			}
			last = week.Week
			mean += week.MeanMM
			dry += week.DryMM
		}
		if first == 0 {
			continue
		}
		title := told.Say("year.water-weeks", told.Between(told.Ordinal(first), told.Ordinal(last)))
		if first == last {
			title = told.Say("year.water-week", told.Ordinal(first))
		}
		until := p.in.StartOn.AddDate(0, 0, 7*last-1)
		if p.in.UsableFrom != nil && until.After(*p.in.UsableFrom) {
			until = *p.in.UsableFrom
		}
		p.add(job.Task{ID: "water-young", Sort: job.Watering, Date: p.in.StartOn.AddDate(0, 0, 7*(first-1)), Until: until,
			Goes: max(int(math.Ceil(steady.Figure(mean/phase.goMM))), 1), Hours: p.waterHours(), Litres: mean * p.area, DryLitres: dry * p.area, First: true, Title: title, Needs: p.afterStart(0),
			Detail: says(told.Say("year.water-how", told.WaterMM(mean), told.WaterMM(dry), told.WaterMM(math.Min(phase.goMM, math.Max(mean, leastGoMM)))), phase.why)})
	}
}

// waterHours is what a go of watering takes of a person: standing by, or moving the sprinkler.
func (p *plan) waterHours() float64 {
	return math.Max(waterHours, math.Ceil(steady.Figure(p.area/sprinklerM2))*moveHours)
}

// waterTurf adds the watering of new turf: a soaking as it is laid, then every dry day
// of two weeks, then a soaking a week until it has rooted.
func (p *plan) waterTurf() {
	w := p.in
	p.add(job.Task{ID: "water-turf-in", Sort: job.Watering, Date: w.StartOn, Hours: p.waterHours(), Litres: turfFirstMM * p.area, DryLitres: turfFirstMM * p.area, First: true, Title: told.Say("year.soak-turf"), Needs: p.afterStart(0),
		Detail: says(told.Say("year.soak-turf-how", told.WaterMM(turfFirstMM)))})
	p.water([]phase{
		{1, turfWeeks, turfDayMM, told.Say("year.water-turf-daily")},
		{turfWeeks + 1, 52, math.Min(youngGoMM, p.soakMM()), told.Say("year.water-turf-soak")},
	})
}

// firstStands is how high the grass stands at its first cut, mm.
func (p *plan) firstStands() float64 {
	return math.Min(math.Max(p.cal.CutMM, leastFirstMM)*(1+mayGrow), tallFirstMM)
}

// steps are the heights by which mowing comes down from the first cut.
func (p *plan) steps() (down []told.DepthMM) {
	for mm := math.Max(p.cal.CutMM, p.firstStands()/(1+mayGrow)); mm > p.cal.CutMM*1.1; mm *= 0.8 {
		down = append(down, told.DepthMM(mm))
	}
	return append(down, told.DepthMM(p.cal.CutMM))
}

// keptHigh tells whether the season is over before mowing has come down by its steps, so that
// it comes down after the winter.
func (p *plan) keptHigh() bool {
	steps := len(p.steps())
	origin := calendar.OnOrBefore(p.in.FirstMow, p.season.cold)
	left := p.season.date(origin, p.closes.day).Sub(p.in.FirstMow).Hours() / 24
	return steps > 1 && left < stepDays*float64(steps)
}

// firstCut tells how mowing comes down to the height of cut by steps, after the winter
// where it is near.
func (p *plan) firstCut() []told.Sentence {
	stands, steps := p.firstStands(), p.steps()
	how := says(told.Say("year.first-cut-how", told.DepthMM(stands), told.Joined(told.Then, steps...)))
	if p.keptHigh() {
		how = says(told.Say("year.first-cut-how", told.DepthMM(stands), steps[0]), told.Say("year.first-cut-then", told.Joined(told.Then, steps[1:]...)))
	} else if len(steps) > 1 {
		how = append(how, told.Say("year.first-cut-steps"))
	} else if p.in.Use.Rough() {
		how = says(told.Say("year.first-cut-rough", told.DepthMM(stands), steps[0]))
	}
	if p.winterBetween() {
		how = append(how, told.Say("year.first-cut-waits"))
	}
	if p.mower.name == "robot" {
		how = append(how, told.Say("year.first-cut-ordinary"))
	}
	if !p.in.Turf {
		how = append(how, told.Say("year.first-cut-weeds"))
	}
	return append(how, told.Say("year.mower-guards"))
}

// winterBetween tells whether seed that comes up before a winter makes grass that is first cut
// after it.
func (p *plan) winterBetween() bool {
	closes := p.season.date(calendar.OnOrBefore(p.in.StartOn, p.season.cold), p.closes.day)
	return !p.in.Turf && p.in.StartOn.AddDate(0, 0, upDays).Before(closes) && p.in.FirstMow.After(closes)
}

// upDays after sowing in the growing season grass is up: common practice, no published source.
const upDays = 30

// youngFeed is the date of the second feed of a new lawn; zero: none.
func (p *plan) youngFeed() time.Time {
	w := p.in
	if p.cal.NitrogenGM2 == 0 || w.Use.Feeding == "none" {
		return time.Time{}
	}
	at := w.StartOn.AddDate(0, 0, youngDays)
	if before := w.FirstMow.AddDate(0, 0, -7); at.Before(before) { // seed that lay through a winter, or came up slowly
		at = before
	}
	at = w.Use.NoFeed.Free(at, w.StartOn.AddDate(0, 0, youngFromDays)) // before a ban it may be too early
	origin := calendar.OnOrBefore(w.FirstMow, p.season.cold)
	if at.After(p.season.date(origin, p.closes.day-hardeningDays)) {
		return time.Time{} // too late in the year for nitrogen
	}
	return at
}

// firstSeason is the rest of the season in which the lawn is first mown: no
// raking, spiking or dressing yet (City of Calgary: no dethatching of a young lawn).
func (p *plan) firstSeason(origin time.Time) {
	w := p.in
	from := w.FirstMow.AddDate(0, 0, 3)
	closes := p.season.date(origin, p.closes.day)
	switch {
	case w.Use.Grazed():
		p.grazing(origin, w.FirstMow.AddDate(0, 0, weedsClearDays), true)
	case p.meadow():
		if w.Use.Meadow() && !w.Turf { // no hay in the season in which weeds are kept down
			first := w.FirstMow
			if at, ok := p.weedsFirst(); ok {
				first = at
			}
			p.meadowWeeds(first, closes)
		} else {
			p.extensiveTasks(origin, w.FirstMow.AddDate(0, 0, weedsClearDays), true)
		}
	case from.Before(closes):
		p.mowTasks(from, closes, true)
	}
	after := w.FirstMow
	if at := p.youngFeed(); !at.IsZero() {
		after = at.AddDate(0, 0, apartDays-1)
	}
	p.feedTasks(p.fed, origin, after, true)
	p.autumn(origin, w.FirstMow, true)
}
