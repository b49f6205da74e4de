package year

import (
	"math"
	"sort"
	"time"

	"github.com/samber/lo"

	"swardwright/internal/calendar"
	"swardwright/internal/told"
	"swardwright/site"
	"swardwright/site/ground"
	"swardwright/site/weather"
	"swardwright/sowing/job"
	"swardwright/species"
)

// output is the area worked in an hour by hand, by a machine walked behind, and by
// one ridden or drawn: common practice, no published source.
type output [3]float64

var (
	feedOutput  = output{300, 1500, 8000}
	spikeOutput = output{40, 400, 3000}
	rakeOutput  = output{60, 150, 3000}
	dressOutput = output{30, 60, 1500}
	seedOutput  = output{150, 600, 5000}
	leafOutput  = output{200, 800, 4000}
)

const (
	walkFrom  = 200.0 // m² from which a machine is walked behind
	setUpH    = 0.1   // hours to fetch a tool and put it away: common practice, no published source
	machineUp = 0.25  // h to fetch and clean it
)

func (o output) hours(areaM2 float64) float64 {
	switch {
	case areaM2 >= rideOnFrom:
		return machineUp + areaM2/o[2]
	case areaM2 >= walkFrom:
		return machineUp + areaM2/o[1]
	default:
		return setUpH + areaM2/o[0]
	}
}

// What the work of a season goes by: common practice, no published source.
const (
	thatchMM   = 15  // of dead matter from which it is raked out
	moistWeeks = 3   // that seed is kept moist
	wetDownMM  = 100 // that a soaking goes
)

// standard is how often a grade is worked, common practice, no published source.
type standard struct {
	dressMM float64 // each time
	dresses int     // a year
	spikes  int
	scarify bool
}

func standardOf(u species.Use) standard {
	s := standard{dressMM: 3, dresses: 1, spikes: 1, scarify: true}
	switch u.Grade {
	case species.Ornamental:
		s.dresses, s.spikes = 2, 2
	case species.HardWearing:
		s.dressMM, s.spikes = 4, 2
	case species.Extensive:
		return standard{} // left alone
	}
	if u.TrafficOr() == species.Heavy {
		s.spikes = 2
	}
	s.dressMM = math.Min(s.dressMM, job.MostDressMM)
	return s
}

// Days after growth sets in, and before it ends, on which the work falls: with at
// least three weeks of growth ahead that closes the sward again, and not before
// the ground carries.
const (
	springSpike  = 24
	springDress  = 26
	scarifyAhead = 56
	spikeAhead   = 54
	dressAhead   = 52
)

// fullSeason adds a whole season's care; its tasks come round every year.
func (p *plan) fullSeason(origin time.Time) {
	s, w := p.season, p.in
	std := standardOf(w.Use)
	at := func(k int) time.Time { return s.date(origin, clampDay(k)) }

	p.spring(origin)
	switch {
	case w.Use.Grazed():
		p.grazing(origin, origin, false)
		std = standard{}
	case p.meadow():
		p.extensiveTasks(origin, origin, false)
	default:
		p.mowTasks(at(p.opens.day), at(p.closes.day), false)
	}
	p.feedTasks(p.fed, origin, origin, false)

	area := p.area
	late := p.closes.day - dressAhead
	if late <= p.opens.day+springDress {
		late = (p.opens.day + p.closes.day) / 2 // a season so short that there is but one time for it
		std.spikes, std.dresses = min(std.spikes, 1), min(std.dresses, 1)
	}
	shift := late - (p.closes.day - dressAhead)
	if p.in.RootsM2 >= p.area {
		std.spikes = 0
	}
	if w.Site.Soil.OnDeck { // nothing is driven in, and no weight added year by year
		std.spikes, std.dresses = 0, 0
		p.note(told.Say("year.deck"))
	}
	if std.spikes == 2 {
		p.add(p.spike(at(p.opens.day+springSpike), p.opens.day+springSpike))
	}
	if std.dresses == 2 {
		p.dress(at(p.opens.day+springDress), p.opens.day+springDress, std.dressMM, 0)
	}
	if std.scarify {
		day := p.closes.day - scarifyAhead + shift
		t := job.Task{ID: "rake-out-thatch", Sort: job.Raking, Date: at(day), Hours: rakeOutput.hours(area), Chance: s.workable(day), Title: told.Say("year.rake-out"),
			Detail: says(told.Say("year.rake-out-how", told.DepthMM(thatchMM)))}
		if p.mossy() {
			t.Title, t.Detail = told.Say("year.rake-out-moss"), append(t.Detail, told.Say("year.rake-moss-holds"))
		}
		p.add(t)
	}
	if std.spikes > 0 {
		p.add(p.spike(at(p.closes.day-spikeAhead+shift), p.closes.day-spikeAhead+shift))
	}
	seed := p.overseedGM2()
	if std.dresses > 0 {
		p.dress(at(late), late, std.dressMM, seed)
	} else if seed > 0 {
		p.add(job.Task{ID: "overseed-thin", Sort: job.Reseeding, Date: at(late), Hours: seedOutput.hours(area), Chance: p.emerges(late), Title: told.Say("year.overseed-thin"),
			Materials: says(p.seedOf(seed, area)), Detail: says(told.Say("year.overseed-thin-how"), p.keepMoist())})
	}
	p.summer(origin)
	p.autumn(origin, origin, false)
}

func (p *plan) spike(at time.Time, day int) job.Task {
	t := job.Task{ID: "spike-lawn", Sort: job.Spiking, Date: at, Hours: spikeOutput.hours(p.area - p.in.RootsM2), Chance: p.season.workable(day), Title: told.Say("bed.spike"),
		Detail: says(told.Say("year.spike-how", told.DepthMM(job.SpikeDepthMM), told.DepthMM(job.SpikeSpacingMM)))}
	if p.in.RootsM2 > 0 {
		t.Detail = append(t.Detail, told.Say("year.spike-no-roots", told.AreaM2(p.in.RootsM2)))
	}
	return t
}

// dress adds a top dressing, with seed in it where the sward needs it.
func (p *plan) dress(at time.Time, day int, mm, seedGM2 float64) {
	area := p.area
	m3 := mm / 1000 * area
	sand, compost := ground.Sand.Settled(m3*job.DressSandShare), ground.Compost.Settled(m3*(1-job.DressSandShare))
	p.cal.DressingM3 += sand.LooseM3 + compost.LooseM3
	t := job.Task{ID: "top-dress", Sort: job.Dressing, Date: at, Hours: dressOutput.hours(area), Title: told.Say("year.top-dress"),
		Chance: p.season.share(func(y int) bool {
			return float64(p.season.growth[y*365+clampDay(day)]) >= p.season.begins &&
				float64(p.season.growth[y*365+clampDay(day+21)]) >= p.season.begins
		}),
		Materials: says(
			told.Say("year.volume-of", told.LoadL(sand.LooseM3*1000), told.MassKG(sand.KG), told.Say("bed.dry-sand")),
			told.Say("year.volume-of", told.LoadL(compost.LooseM3*1000), told.MassKG(compost.KG), told.Say("bed.item-compost")),
		),
		Detail: says(told.Say("year.top-dress-how", told.DepthMM(mm), told.Share(job.DressSandShare), told.Share(1-job.DressSandShare), told.Counted{N: sand.BarrowLoads + compost.BarrowLoads, Of: "barrow-loads"}, told.DepthMM(job.MostDressMM)),
			told.Say("year.top-dress-after", told.Days(2)), told.Say("year.dust-and-germs"))}
	if seedGM2 > 0 {
		t.Sort, t.Title = job.Reseeding, told.Say("year.overseed-dress")
		t.Materials = append(t.Materials, p.seedOf(seedGM2, area))
		t.Detail = append(t.Detail, told.Say("year.overseed-dress-how"), p.keepMoist())
		t.Hours += seedOutput.hours(area)
	}
	p.add(t)
}

// keepMoist is how seed in a standing lawn comes by its water.
func (p *plan) keepMoist() told.Sentence {
	if !p.in.Use.WatersYoung() {
		return told.Say("year.overseed-before-rain")
	}
	return told.Say("year.overseed-moist", told.Weeks(moistWeeks))
}

// seedOf is so much seed, of the mixture or of the two that the zones have.
func (p *plan) seedOf(gM2, areaM2 float64) told.Sentence {
	if p.in.Mixture != nil && p.in.Mixture.Apart {
		return told.Say("year.of-each-mixture", told.MassG(gM2*areaM2), told.GramsPerM2(gM2))
	}
	return told.Say("year.of-the-mixture", told.MassG(gM2*areaM2), told.GramsPerM2(gM2))
}

// A sward that is left with less cover than its grade asks by the last season
// followed is overseeded every year, at half the rate of new ground for the part
// that is bare (half the new rate is what extension services give for overseeding).
const (
	overseedShare = 0.5
	leastSeedGM2  = 1
)

// overseedGM2 is the seed the sward needs every year, over the whole lawn.
func (p *plan) overseedGM2() float64 {
	m := p.in.Mixture
	if m == nil || len(m.Sward) == 0 {
		return 0
	}
	cover := m.Sward[len(m.Sward)-1].Cover
	if cover >= species.StandardOf(p.in.Use.Grade).Cover {
		return 0
	}
	return math.Max(m.RateGM2*overseedShare*(1-cover), leastSeedGM2)
}

// emerges is the share of years in which six weeks of growth follow a day.
func (p *plan) emerges(day int) float64 { return p.season.growing(day + 42) }

// Mould and moss: when the plan speaks of them. Own limits.
const (
	snowDaysTold   = 20 // mean of the years
	mouldDaysTold  = 50
	snowSearchDays = 30 // after growth sets in: later snow is a shower
	mossWetness    = 0.5
	heaveC         = 2.0 // mean of the coldest month under which frost heaves
	mossOpen       = 0.5
)

// snowDays are those of the mean year.
func (p *plan) snowDays() float64 {
	return p.in.Site.MeanYear(func(y *weather.Year) float64 { return y.SnowDays })
}

// spring adds what the end of winter asks for.
func (p *plan) spring(origin time.Time) {
	s, w := p.season, p.in
	mould := w.Site.MeanYear(func(y *weather.Year) float64 { return y.MouldDays })
	if p.snowDays() >= snowDaysTold {
		gone, ok := s.event(func(snow []float32) int {
			for d := p.opens.day + snowSearchDays; d >= 0; d-- {
				if snow[clampDay(d)] >= 1 {
					return d + 1
				}
			}
			return -1
		}, s.snow)
		if ok {
			p.add(job.Task{ID: "look-for-mould", Sort: job.Watching, Date: s.date(origin, gone.day), Chance: gone.chance, Title: told.Say("year.look-for-snow-mould"), Detail: says(told.Say("year.look-for-snow-mould-how"))})
		}
	} else if mould >= mouldDaysTold {
		p.add(job.Task{ID: "look-for-mould", Sort: job.Watching, Date: s.date(origin, max(p.opens.day-21, 0)), Title: told.Say("year.look-for-mould"), Detail: says(told.Say("year.look-for-mould-how"))})
	}
	look := job.Task{ID: "rake-spring", Sort: job.Raking, Date: s.date(origin, p.opens.day), Hours: rakeOutput.hours(p.area), Chance: p.opens.chance, Title: told.Say("year.rake-spring"), Detail: says(told.Say("year.rake-spring-how"))}
	if w.Site.Weather.ColdestMonthC < heaveC {
		look.Detail = append(look.Detail, told.Say("year.press-heaved"))
	}
	switch {
	case w.Use.Grazed():
		look.Title, look.Detail = told.Say("year.harrow"), says(told.Say("year.harrow-how"))
	case p.meadow():
		look.Title, look.Detail = told.Say("year.rake-rough"), says(told.Say("year.rake-rough-how"))
	}
	p.add(look)
	if p.mossy() {
		p.add(job.Task{ID: "look-for-moss", Sort: job.Watching, Date: s.date(origin, clampDay(p.opens.day+14)), Title: told.Say("year.look-for-moss"), Detail: says(told.Say("year.look-for-moss-how", told.Joined(told.Commas, p.mossOf()...)))})
	}
	if w.Use.Dogs {
		p.dogs(origin)
	}
	if w.Use.Grade == species.Ornamental || w.Use.Grade == species.Utility {
		p.add(job.Task{ID: "look-for-annual-meadow-grass", Sort: job.Watching, Date: s.date(origin, clampDay(p.opens.day+28)), Until: s.date(origin, clampDay(p.opens.day+70)), Title: told.Say("year.look-for-invader"), Detail: says(told.Say("year.look-for-invader-how"))})
	}
}

// mossy tells whether moss is to be looked for.
func (p *plan) mossy() bool {
	return !p.in.Use.Rough() && (p.in.Site.Soil.Wetness >= mossWetness || p.open < mossOpen)
}

// mossOf is what moss comes of on this lawn.
func (p *plan) mossOf() (causes []told.Sentence) {
	if p.open < mossOpen {
		causes = append(causes, told.Say("year.moss-of-shade"))
	}
	if p.in.Site.Soil.Wetness >= mossWetness {
		causes = append(causes, told.Say("year.moss-of-wet"))
	}
	if len(p.in.Lime) > 0 {
		causes = append(causes, told.Say("year.moss-of-acid"))
	}
	if p.in.Use.Scalped() {
		causes = append(causes, told.Say("year.moss-of-cut"))
	}
	return causes
}

// Drought is told of when the rootzone has lost this share of its water for ten
// days on end: twice what turf bears without stress (FAO-56 table 22, 0.40).
const (
	droughtShare = 0.8
	droughtDays  = 10
	droughtYears = 0.2 // told of when met in this share of the years
)

// summer adds watering, or what to do without it.
func (p *plan) summer(origin time.Time) {
	if p.in.Use.Irrigation {
		p.watering(origin)
		return
	}
	s := p.season
	var begins, ends []int // of the longest spell of each year that has one
	for y := range s.years {
		run, best, end := 0, 0, 0
		for k := range 365 {
			if float64(s.dry[y*365+k]) < droughtShare {
				run = 0
				continue
			}
			if run++; run > best {
				best, end = run, k
			}
		}
		if best >= droughtDays {
			begins, ends = append(begins, end-best+1), append(ends, end)
		}
	}
	chance := float64(len(begins)) / float64(s.years)
	if chance < droughtYears {
		return
	}
	sort.Ints(begins)
	sort.Ints(ends)
	how := told.Say("year.look-for-drought-how", told.WaterMM(p.soakMM()), p.soakEvery())
	if p.in.Use.Rough() {
		how = told.Say("year.look-for-drought-rough")
	}
	p.add(job.Task{ID: "look-for-drought", Sort: job.Watching, Date: s.date(origin, begins[len(begins)/4]), Until: s.date(origin, ends[len(ends)*3/4]), Chance: chance, Title: told.Say("year.look-for-drought"), Detail: says(how)})
}

// watering adds the watering of a standing lawn by month.
func (p *plan) watering(origin time.Time) {
	s := p.season
	var mean [365]float64
	for i, mm := range s.water {
		mean[i%365] += float64(mm) / float64(s.years)
	}
	months := s.byMonth(mean)
	taper := s.date(origin, clampDay(p.closes.day-taperDays))
	opens := s.date(origin, p.opens.day)
	for at := time.Date(opens.Year(), opens.Month(), 1, 0, 0, 0, 0, time.UTC); at.Before(taper); at = at.AddDate(0, 1, 0) {
		mm := months[at.Month()-1] * float64(calendar.MonthDays[at.Month()-1])
		goes := int(math.Round(mm / p.soakMM()))
		if goes < 1 { // the ground holds so much
			continue
		}
		p.add(job.Task{ID: "water-lawn", Sort: job.Watering, Date: at, Until: at.AddDate(0, 1, -1), Goes: goes, Hours: p.waterHours(), Litres: mm * p.area,
			Chance: s.share(func(y int) bool { return s.wateredIn(y, at.Month()) }), Title: told.Say("year.water-lawn"),
			Detail: says(told.Say("year.water-lawn-how", told.WaterMM(mm), told.WaterMM(p.soakMM()), p.soakEvery(), told.DepthMM(math.Min(wetDownMM, 10*p.in.Site.Soil.DepthCM))))})
	}
	if months[taper.Month()-1] > 0 {
		p.add(job.Task{ID: "taper-off", Sort: job.Watering, Date: taper, Title: told.Say("year.taper-off"), Detail: says(told.Say("year.taper-off-how"))})
	}
}

const (
	// taperDays before growth ends: City of Yorkton eases off from early September.
	taperDays = 35
)

func (s *season) wateredIn(y int, month time.Month) bool {
	for k := range 365 {
		if m := calendar.MonthOf(s.cold + k); m == int(month)-1 && s.water[y*365+k] > 0 {
			return true
		}
	}
	return false
}

// autumn adds what closes a season, as far as it lies after a date.
func (p *plan) autumn(origin, after time.Time, first bool) {
	s, w := p.season, p.in
	area := p.area
	last := s.date(origin, p.closes.day)
	if !p.meadow() && !w.Use.Grazed() && last.After(after) {
		mm := math.Round(p.cal.CutMM * (1 + tallerShare))
		if first && p.keptHigh() {
			mm = math.Max(mm, float64(p.steps()[0]))
		}
		at := heights(w.Site, w.Use, mm, p.cal.CutMM)
		how := told.Say("year.last-cut-how", at)
		if p.mower.name == "robot" {
			how = told.Say("year.last-cut-robot", at)
		}
		mats := told.Say("year.last-cut-wet")
		if p.snowDays() >= snowDaysTold {
			mats = told.Say("year.last-cut-snow")
		}
		p.add(job.Task{ID: "last-cut", Sort: job.Mowing, Date: last, Hours: p.mower.hours(area), First: first, Chance: p.closes.chance, Title: told.Say("year.last-cut"),
			Detail: says(how, mats, told.Say("year.put-away"))})
	}
	if leafy := p.leafyM2(); leafy > 0 {
		from, until := s.date(origin, clampDay(p.closes.day-25)), s.date(origin, clampDay(p.closes.day+25))
		if until.After(after) {
			if from.Before(after) {
				from = after
			}
			p.add(job.Task{ID: "clear-leaves", Sort: job.Leaves, Date: from, Until: until, Goes: max(int(until.Sub(from).Hours()/24/7), 1), AreaM2: leafy, Hours: leafOutput.hours(leafy), First: first,
				Title: told.Say("year.clear-leaves"), Detail: says(told.Say("year.clear-leaves-how"))})
		}
	}
}

// leafyM2 is the grass that leaves of deciduous trees come down on.
func (p *plan) leafyM2() float64 {
	zones := p.in.Site.Zones
	if len(p.in.Zones) == 0 {
		return p.area * lo.SumBy(zones, func(z site.Zone) float64 { return z.Share * z.LeafFall })
	}
	return lo.SumBy(p.in.Zones, func(z job.Zone) float64 { return z.AreaM2 * zones[z.Index].LeafFall })
}
