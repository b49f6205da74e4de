package year

import (
	"math"
	"slices"
	"time"

	"github.com/samber/lo"

	"swardwright/internal/calendar"
	"swardwright/internal/steady"
	"swardwright/internal/told"
	"swardwright/site"
	"swardwright/sowing/job"
	"swardwright/species"
)

// Growth of a lawn at its best, mm a day: 3 to 6 by how it is fed. From memory,
// and weak: no measured range for lawns was found.
const (
	leastGrowthMMD = 3.0
	mostGrowthMMD  = 6.0
	fullyFedGM2    = 20.0 // nitrogen a year at which growth is at its most
)

func growthMMD(nGM2 float64) float64 {
	return leastGrowthMMD + (mostGrowthMMD-leastGrowthMMD)*math.Min(nGM2/fullyFedGM2, 1)
}

const (
	// mayGrow is what a lawn may grow between cuts, over its height of cut, so
	// that no cut takes more than a third off: cut at 1.5 times the height
	// (Cornell: keep 3 inches, mow at 4.5).
	mayGrow = 0.5
	// tallerShare is how much higher the lawn is cut while it grows slowly, in
	// spring, autumn and drought: British practice (13 to 25 mm in summer, up to 40
	// in spring and autumn), of which this is the lower half; from memory.
	tallerShare = 0.25
	// slowShare of the peak: months of less growth are cut higher.
	slowShare = 0.5
	// A robot goes out daily while grass grows quickly and every second day else: common
	// practice, no published source.
	robotQuickDays, robotSlowDays = 1.0, 2.0
	// It is cleaned and its blades are seen to in a quarter of an hour a fortnight: the same.
	robotHours = 0.25 / 14

	longestDays = 45.0 // between cuts; a month that needs fewer is mown neither by rule nor by robot
)

// mower is how fast a lawn is mown: common practice, no published source.
type mower struct {
	m2PerHour float64
	setUpH    float64 // fetching, edges, emptying, cleaning
	boxed     bool    // clippings carried off
	name      string
}

// mowerLowest is the lowest cut a kind of mower makes well: common practice, no
// published source.
var mowerLowest = map[string]float64{"rotary": 20, "robot": 20, "scythe": 40}

// boxOpen is the share of the open's light below which clippings smother what
// little grass there is: common practice, no published source.
const boxOpen = 0.5

// rideOnFrom is the area from which a machine is ridden.
const rideOnFrom = 1500 // m²

// mowerFor takes the brief's mower, else the one usual for the grade and size.
func mowerFor(u species.Use, areaM2, open float64) mower {
	kind := u.Mower
	if kind == "" {
		switch {
		case u.Grade == species.Ornamental:
			kind = "cylinder"
		case u.Grade == species.Extensive && u.MowsPerWeek == 0:
			kind = "scythe"
		default:
			kind = "rotary"
		}
	}
	m := mowerOf(kind, u, areaM2, open)
	if width := u.MowerWidthCM / 100; width > 0 && !math.IsInf(m.m2PerHour, 1) && m.name != "scythe" {
		m.m2PerHour = width * (1 - overlap) * speedMH[m.name] * cuttingShare
	}
	return m
}

// Speeds, m/h, the lap of one pass over the next, and the share of the time in which a
// mower moves forward and cuts: common practice, no published source.
var speedMH = map[string]float64{"rotary": 3000, "cylinder": 4000, "ride-on": 6000}

const (
	overlap      = 0.1
	cuttingShare = 0.5
)

// mowerOf is a kind of mower of the usual width; above an area one is ridden.
func mowerOf(kind string, u species.Use, areaM2, open float64) mower {
	if areaM2 > rideOnFrom && (kind == "rotary" || kind == "cylinder" || u.Mower == "") {
		return mower{2500, 0.25, kind == "cylinder", "ride-on"}
	}
	switch kind {
	case "cylinder":
		// A lawn of some tens of square metres takes about five minutes, edges
		// included.
		return mower{600, 1.0 / 60, true, "cylinder"}
	case "robot":
		return mower{math.Inf(1), robotHours, false, "robot"}
	case "scythe":
		return mower{120, 0.1, true, "scythe"}
	default:
		return mower{550, 3.0 / 60, u.Grade == species.Ornamental || open < boxOpen, "rotary"}
	}
}

// ordinary is the mower of the first cuts: a robot waits for them.
func (m mower) ordinary(u species.Use, areaM2, open float64) mower {
	if m.name == "robot" {
		return mowerOf("rotary", u, areaM2, open)
	}
	return m
}

// told is the mower as a sentence carries it.
func (m mower) told() told.Term { return told.Term{Kind: "mower", Word: m.name} }

// hours of one mowing.
func (m mower) hours(areaM2 float64) float64 {
	return m.setUpH + areaM2/m.m2PerHour // a robot's is the looking after alone
}

// meadow tells whether the lawn is cut once or twice a year: an extensive one for
// which no lower or more frequent cut is asked.
func (p *plan) meadow() bool {
	u := p.in.Use
	return u.Grade == species.Extensive && u.MowsPerWeek == 0 && (u.MowingMM == 0 || u.MowingMM >= meadowMM)
}

// meadowMM is the lowest cut of a meadow: 50 to 120 mm (care4GREEN, Austria).
const meadowMM = 50

// mowing fills the months and the cuts of the year.
func (p *plan) mowing() {
	c := p.in.Site
	p.cal.CutMM = p.in.Use.CutMM(c, &c.Zones[0])
	growth := p.season.byMonth(p.flushed())
	rate := growthMMD(p.fullN())
	switch {
	case p.in.Use.Grazed():
		p.cal.Cutting, p.cal.CutMM = ByAnimals, grazeDownMM
	case p.meadow():
		p.cal.Cutting = ForHay
	case p.mower.name == "robot":
		p.cal.Cutting = ByRobot
	}
	if p.cal.Cutting == ByAnimals || p.cal.Cutting == ForHay { // no cuts come round
		for m := range growth {
			p.cal.Months[m] = Month{Growth: growth[m], CutMM: p.cal.CutMM}
		}
		return
	}
	asked := 0.0
	if p.in.Use.MowsPerWeek > 0 {
		asked = 7 / p.in.Use.MowsPerWeek
	}
	tooSeldom := 0.0
	for m := range growth {
		month := Month{Growth: growth[m], CutMM: p.cal.CutMM}
		if growth[m] < slowShare*p.season.peak {
			month.CutMM = math.Round(p.cal.CutMM * (1 + tallerShare))
		}
		if perDay := rate * growth[m]; perDay > 0 {
			grown := mayGrow * month.CutMM / perDay // days till it is to be cut
			if grown <= longestDays && asked > grown {
				tooSeldom = math.Max(tooSeldom, asked*perDay/mayGrow)
			}
			month.MowEveryDays = math.Max(p.mowEvery(grown, asked, growth[m] >= slowShare*p.season.peak), 1)
		}
		p.cal.Months[m] = month
	}
	p.mowNotes(tooSeldom)
}

// Cool-season grass runs up to flower in spring: it grows by flushMore more about the day by which flushAt of
// the year's growth is over, for some flushDays to either side, and by so much less in the rest of the year. Measured on
// Irish farms it grew 75 kg/ha a day in May and about 60 from July to the middle of September (PastureBase Ireland 2023);
// by warmth and light alone May has seven tenths of August there. When it comes is our own.
const (
	flushMore = 0.8
	flushAt   = 0.2
	flushDays = 35.0
)

// flushed is the mean growth of the season's days with the flush of spring.
func (p *plan) flushed() [365]float64 {
	mean := p.season.mean
	total := 0.0
	for _, g := range mean {
		total += g
	}
	peak, over := 0, 0.0
	for d, g := range mean {
		if over += g; over >= flushAt*total {
			peak = d
			break
		}
	}
	out, sum := mean, 0.0
	for d := range out {
		off := float64(d-peak) / flushDays
		out[d] *= 1 + flushMore*(1-p.warm)*steady.Exp(-off*off)
		sum += out[d]
	}
	if sum > 0 {
		for d := range out {
			out[d] *= total / sum
		}
	}
	return out
}

// mowNotes says what is wrong with the mowing as asked for; tooSeldom is the height that would bear
// so few cuts, or 0.
func (p *plan) mowNotes(tooSeldom float64) {
	c := p.in.Site
	if tooSeldom > 0 {
		p.note(told.Say("year.mown-too-seldom", told.Days(math.Round(7/p.in.Use.MowsPerWeek)), told.DepthMM(math.Ceil(tooSeldom/5)*5)))
	}
	if low, ok := mowerLowest[p.mower.name]; ok && p.cal.CutMM < low {
		p.note(told.Say("year.mower-scalps", p.mower.told(), told.DepthMM(low)))
	}
	p.mowerSlope()
	low, who := p.lowestCut()
	if who != "" && slices.ContainsFunc(lo.Range(len(c.Zones)), func(i int) bool { return p.in.Use.CutMM(c, &c.Zones[i]) < low }) {
		p.note(told.Say("year.cut-too-low", told.Grass(who), told.DepthMM(low)))
	}
}

// mowEvery is the days between cuts where the grass asks for so many and the brief for
// others, or 0: in the growing months as asked, else as it grows, and a robot by its own.
func (p *plan) mowEvery(grown, asked float64, quick bool) float64 {
	switch {
	case grown > longestDays:
		return grown
	case asked > 0 && (grown <= 2*7 || asked > grown):
		return asked
	case asked > 0 || p.mower.name != "robot":
		return grown
	case quick:
		return robotQuickDays
	}
	return robotSlowDays
}

// Slopes that a mower is driven on, degrees. Ridden: 15, and a machine's own limit is
// half of that at which it tips (BS EN 836, as the trade explains it). A robot's is the
// maker's; from 1 in 5 it is asked for.
const (
	rideOnDeg   = 15.0
	robotAskDeg = 11.3
)

// mowerSlope says where the ground is too steep for the mower.
func (p *plan) mowerSlope() {
	deg := p.in.Site.Survey.Lawn.SlopeDeg
	switch {
	case p.mower.name == "ride-on" && deg > rideOnDeg:
		p.note(told.Say("year.too-steep-to-ride", told.Degrees(deg), told.Degrees(rideOnDeg)))
	case p.mower.name == "robot" && deg >= robotAskDeg:
		p.note(told.Say("year.ask-robot-slope", told.Degrees(deg)))
	}
}

// lowestCut is the lowest cut that every grass of the mixture bears, and the one that sets it.
func (p *plan) lowestCut() (mm float64, who string) {
	if p.in.Mixture == nil {
		return 0, ""
	}
	for _, c := range p.in.Mixture.Components {
		if v := c.Species.Values[species.MowLowMM].Best; v > mm {
			mm, who = v, c.Species.ID
		}
	}
	return mm, who
}

// heights says how high each zone is cut.
func heights(c *site.Conditions, u species.Use, monthMM, baseMM float64) told.Sentence {
	var list []told.Sentence
	same := true
	for i := range c.Zones {
		mm := math.Round(u.CutMM(c, &c.Zones[i]) * monthMM / baseMM)
		same = same && math.Abs(mm-monthMM) < 5
		list = append(list, told.Say("year.zone-at", told.Zone(c.Zones[i].Letter), told.DepthMM(mm)))
	}
	if same {
		return told.Say("year.at", told.DepthMM(monthMM))
	}
	return told.Say("year.by-zone", told.Joined(told.Commas, list...))
}

// mowTasks adds the mowing of the months between two dates, the last of which is that
// of the last cut. A cut falls due when the grass has grown for it, in whichever month
// that began.
func (p *plan) mowTasks(from, to time.Time, first bool) {
	area := p.area
	due, given := 0.0, 0
	rules := p.mowRules(first) // said once a season
	high := first && p.keptHigh()
	if first && !high && len(p.steps()) > 1 {
		rules = append(says(told.Say("year.mow-steps")), rules...)
	}
	for at := time.Date(from.Year(), from.Month(), 1, 0, 0, 0, 0, time.UTC); at.Before(to); at = at.AddDate(0, 1, 0) {
		m := p.cal.Months[at.Month()-1]
		if m.MowEveryDays == 0 {
			continue
		}
		begins, ends := at, at.AddDate(0, 1, -1)
		if begins.Before(from) {
			begins = from
		}
		if ends.After(to) {
			ends = to
		}
		if mm := float64(p.steps()[0]); high && mm > m.CutMM { // taller grass is cut less often
			m.CutMM, m.MowEveryDays = mm, m.MowEveryDays*mm/m.CutMM
		}
		days := ends.Sub(begins).Hours()/24 + 1
		due += days / m.MowEveryDays
		times := int(math.Round(due)) - given
		given += times
		if ends.Equal(to) {
			times-- // the last cut
		}
		if times < 1 {
			continue
		}
		p.add(job.Task{
			ID: "mow", Sort: job.Mowing, Date: begins, Until: ends, Goes: times, Hours: p.mower.hours(area), First: first,
			Title:  every(m.MowEveryDays),
			Detail: append(says(told.Say("year.mow-how", heights(p.in.Site, p.in.Use, m.CutMM, p.cal.CutMM), p.mower.told())), rules...),
		})
		rules = nil
	}
	p.trimEdges(from, to, given, first)
}

// Edges are trimmed with every other week of mowing, by shears or line: common practice,
// no published source.
const (
	edgeMH        = 300.0
	edgeEveryDays = 14.0
)

// trimEdges adds the edges of the weeks of mowing, no oftener than it is mown.
func (p *plan) trimEdges(from, to time.Time, cuts int, first bool) {
	if m := p.in.Site.EdgingM; m > 0 && from.Before(to) {
		goes := min(int(to.Sub(from).Hours()/24/edgeEveryDays), cuts)
		p.add(job.Task{ID: "trim-edges", Sort: job.Edging, Date: from, Until: to, Goes: max(goes, 1), Hours: setUpH + m/edgeMH, First: first,
			Title: told.Say("year.trim-edges"), Detail: says(told.Say("year.trim-edges-how", told.LengthM(m)))})
	}
}

// countCuts sums up the cuts of a full year, as its tasks have them.
func (p *plan) countCuts() {
	for m := range p.cal.Months {
		p.cal.Months[m].Mows = 0
	}
	for _, t := range p.cal.Tasks {
		if t.First || t.Sort != job.Mowing {
			continue
		}
		p.cal.CutsPerYear += float64(t.Goes)
		p.cal.MowHoursYear += float64(t.Goes) * t.Hours
		p.cal.Months[t.Date.Month()-1].Mows += float64(t.Goes)
	}
	for m := range p.cal.Months {
		if p.cal.Months[m].Mows == 0 {
			p.cal.Months[m].MowEveryDays = 0
		}
	}
}

func every(days float64) told.Sentence {
	switch d := int(math.Round(days)); {
	case d <= 1:
		return told.Say("year.mow-daily")
	case d == 7:
		return told.Say("year.mow-weekly")
	case d == 14:
		return told.Say("year.mow-fortnightly")
	case d > 24:
		return told.Say("year.mow-monthly")
	default:
		return told.Say("year.mow-every", told.Days(d))
	}
}

// mowRules are what holds for every cut of a season. A cylinder mower's roller lays stripes,
// which the next cut crosses; a robot needs no third rule.
func (p *plan) mowRules(first bool) []told.Sentence {
	switch {
	case p.mower.name == "robot" && first:
		return says(told.Say("year.robot-mulches"), told.Say("year.robot-waits"), told.Say("year.robot-by-day"))
	case p.mower.name == "robot":
		return says(told.Say("year.robot-mulches"), told.Say("year.robot-by-day"))
	case p.mower.name == "cylinder":
		return says(told.Say("year.third-rule"), p.clippings(), told.Say("year.cross-stripes"))
	}
	return says(told.Say("year.third-rule"), p.clippings(), told.Say("year.turn-and-trim"))
}

func (p *plan) clippings() told.Sentence {
	if p.mower.boxed {
		return told.Say("year.box-clippings")
	}
	return told.Say("year.leave-clippings")
}

// A young meadow is cut 6 to 8 weeks after sowing and every two months after that, at 50
// to 100 mm (Sussex Wildlife Trust, meadow advice, and another text it stands beside).
const (
	weedsAfterDays = 56
	weedsApartDays = 60
	weedsCutMM     = 100.0
	weedsClearDays = 28 // from the first cut of the grass itself
)

// meadowWeeds adds the cuts of the first season by which weeds are kept from seeding over
// a young meadow, after the first one.
func (p *plan) meadowWeeds(first, closes time.Time) {
	for at := p.in.StartOn.AddDate(0, 0, weedsAfterDays); at.Before(closes); at = at.AddDate(0, 0, weedsApartDays) {
		if math.Abs(at.Sub(first).Hours()/24) < weedsClearDays || !p.grows(at) {
			continue
		}
		p.add(job.Task{ID: "mow-weeds", Sort: job.Mowing, Date: at, Hours: p.mower.hours(p.area), First: true, Needs: p.afterStart(1), Title: told.Say("year.meadow-weeds"), Detail: p.weedsHow(at)})
	}
}

// weedsFirst is the day of the first cut of a young meadow, where its weeds are to be cut before
// its grass stands high enough.
func (p *plan) weedsFirst() (at time.Time, ok bool) {
	at = p.in.StartOn.AddDate(0, 0, weedsAfterDays)
	return at, p.in.Use.Meadow() && !p.in.Turf && at.Before(p.in.FirstMow) && p.grows(at)
}

func (p *plan) weedsHow(at time.Time) []told.Sentence {
	how := says(told.Say("year.meadow-weeds-how", told.DepthMM(weedsCutMM)))
	if calendar.Since(p.season.cold, calendar.DayOf(at)) < calendar.Half {
		how = append(how, told.Say("year.meadow-weeds-spring"))
	}
	return how
}

// grows tells whether grass grows on a date of a middling year.
func (p *plan) grows(at time.Time) bool {
	return p.season.mean[calendar.Since(p.season.cold, calendar.DayOf(at))] >= p.season.begins
}

// extensiveTasks are the cuts of a lawn kept as a meadow: when near half and
// nine tenths of the year's growth is over. A verge's are no hay.
func (p *plan) extensiveTasks(origin time.Time, after time.Time, first bool) {
	total := 0.0
	for _, g := range p.season.mean {
		total += g
	}
	titles := says(told.Say("year.verge-first"), told.Say("year.verge-last"))
	how := told.Say("year.verge-how", told.DepthMM(p.cal.CutMM))
	if p.in.Use.Meadow() {
		titles = says(told.Say("year.meadow-first"), told.Say("year.meadow-last"))
		how = told.Say("year.meadow-how", told.DepthMM(p.cal.CutMM), told.Days(2))
	}
	for i, part := range []float64{0.5, 0.9} {
		e, ok := p.season.reaches(0, part*total)
		if !ok {
			continue
		}
		at := p.season.date(origin, e.day)
		if at.Before(after) {
			continue
		}
		p.add(job.Task{ID: "mow-meadow", Sort: job.Mowing, Date: at, Goes: 1, Hours: p.mower.hours(p.area), First: first, Chance: e.chance,
			Title: titles[i], Detail: says(how)})
	}
}
