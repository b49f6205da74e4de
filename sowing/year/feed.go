package year

import (
	"math"
	"time"

	"swardwright/internal/calendar"
	"swardwright/internal/told"
	"swardwright/sowing/job"
	"swardwright/species"
)

// Nitrogen. A month can use Nmax × growth potential: M. Woods after W. Gelernter
// and L. Stowell, Golf Course Management 2005: 2 (creeping bent) to 4 (bermuda)
// g/m² a month; 3 is annual meadow-grass's.
const (
	coolMonthGM2 = 3.0
	warmMonthGM2 = 4.0

	// In shade the feed is cut by 40 to 50 % (University of Arizona, Turf Tips
	// VI(8), 1999), and never exceeds 2 lb a 1000 square feet (Purdue 2017).
	shadeFactor  = 0.6
	shadeFrom    = 0.7 // share of the open lawn's light under which the cut begins
	shadeWhole   = 0.4 // and at which it is whole
	shadeMostGM2 = 9.8

	// Clippings left on the lawn give this share of the year's nitrogen back:
	// common practice, no published source.
	clippingsShare = 0.2

	mostFeedGM2  = 4.9 // in one go: 1 lb of quick nitrogen a 1000 square feet (UC IPM)
	usualFeedGM2 = 2.0
	leastFeedGM2 = 1.0
	// hardeningShare of the year goes into the last feed, within its bounds; a
	// year of less than splitGM2 is given in one.
	hardeningShare = 0.2
	hardeningGM2   = 2.5
	splitGM2       = 3.0
	// hardeningDays before growth ends, so that it is used up before frost; the
	// first feed waits until growth is under way; feeds stand about a month apart:
	// common practice, no published source (monthly, May to August, the last in
	// August or September).
	hardeningDays = 45
	leafAfterDays = 21
	apartDays     = 30
	leafEndsDays  = 45 // before the last feed

	// A new lawn's second feed: New Brunswick, Agdex 273.21: 0.25 kg N per 100 m²
	// four to six weeks after sowing.
	youngGM2      = 2.5
	youngFromDays = 28
	youngDays     = 35
)

// Grades of the two feeds, percent of N, P₂O₅, K₂O.
var (
	leafGrade      = [3]float64{12, 0, 8}
	hardeningGrade = [3]float64{6, 0, 12}
)

// fullN is the nitrogen the use asks for in full light, g/m² a year.
func (p *plan) fullN() float64 {
	u := p.in.Use
	if u.Grade == species.Extensive && u.Feeding == "" && u.NitrogenGM2 == nil {
		return 0
	}
	return u.NitrogenOrClass()
}

// nitrogen is the yearly feed of this lawn.
func (p *plan) nitrogen() float64 {
	asked := p.fullN()
	if asked == 0 {
		return 0
	}
	n := asked
	if can := p.usableN(); can < n {
		n = can
		p.note(told.Say("year.nitrogen-by-warmth", told.GramsPerM2(n)))
	}
	if high := p.mixtureN(); high > 0 && high < n {
		n = high
		p.note(told.Say("year.nitrogen-by-mixture", told.GramsPerM2(n)))
	}
	if cut := shadeCut(p.open); cut < 1 {
		n = math.Min(n*cut, shadeMostGM2)
		p.note(told.Say("year.nitrogen-by-shade", told.Share(1-cut)))
	}
	if !p.mower.boxed {
		n *= 1 - clippingsShare
	}
	return math.Round(n*10) / 10
}

// shadeCut is the factor on the feed at a share of the open lawn's light.
func shadeCut(open float64) float64 {
	t := math.Min(math.Max((shadeFrom-open)/(shadeFrom-shadeWhole), 0), 1)
	return 1 - t*(1-shadeFactor)
}

// usableN is what the warmth of the place lets grass use.
func (p *plan) usableN() float64 {
	month := coolMonthGM2*(1-p.warm) + warmMonthGM2*p.warm
	sum := 0.0
	for _, g := range p.season.byMonth(p.season.potent) {
		sum += g * month
	}
	return sum
}

// mixtureN is the most the mixture wants, by its shares; 0 without a mixture.
func (p *plan) mixtureN() float64 {
	if p.in.Mixture == nil {
		return 0
	}
	n, sum := 0.0, 0.0
	for _, c := range p.in.Mixture.Components {
		n += float64(c.Percent) * c.Species.Values[species.NitrogenGM2].High
		sum += float64(c.Percent)
	}
	if sum == 0 {
		return 0
	}
	return n / sum
}

// feedDay is a feed on a day of the season.
type feedDay struct {
	day    int
	n      float64
	kind   string
	chance float64
}

// Cool-season grass where summers are hot is fed from autumn on: Kansas State Research and
// Extension (September, November and, for more, May), University of Arkansas Extension
// 2014 (three quarters of the year in autumn, over half of that late; none before mid-April).
// From which warmth on is our own, between Minnesota's dates (most of it by mid-September)
// and those of Kansas and Kentucky. Days are before growth ends, or after it begins.
const (
	hotMonthC    = 24.5
	septemberDay = 65
	octoberDay   = 35
	novemberDay  = 7
	mayDay       = 60
	hotFeeds     = 4 // of them at most, which is all that is given there
)

// autumnFeeds are the feeds of cool-season grass where summers are hot.
func (p *plan) autumnFeeds(n float64) (list []feedDay) {
	s := p.season
	at := func(day int, share float64, kind string) feedDay {
		day = clampDay(day)
		return feedDay{day, share, kind, s.growing(day)}
	}
	september := at(p.closes.day-septemberDay, 1, "leaf")
	may := at(p.opens.day+mayDay, 0.25, "leaf")
	november := at(p.closes.day-novemberDay, 0.4, "late")
	switch {
	case n < splitGM2:
		list = []feedDay{september}
	case n <= 2*splitGM2:
		september.n, november.n = 0.5, 0.5
		list = []feedDay{september, november}
	case n <= mostFeedGM2/november.n:
		september.n = 0.35
		list = []feedDay{may, september, november}
	default:
		september.n, november.n = 0.25, 0.25
		list = []feedDay{may, september, at(p.closes.day-octoberDay, 0.25, "leaf"), november}
	}
	given, due := 0.0, 0.0
	for i := range list {
		due += list[i].n * n // tenths are rounded on the running sum, so that none is lost
		to := math.Round(10*due) / 10
		list[i].n = math.Round(10*(to-given)) / 10
		given = to
	}
	return list
}

// feeds splits the year's nitrogen into leaf feeds about a month apart, each by the
// growth it falls in, and a last one that hardens the grass.
func (p *plan) feeds(n float64) []feedDay {
	if n < leastFeedGM2 {
		return nil
	}
	if p.hot && n <= hotFeeds*mostFeedGM2 && p.opens.day+mayDay < p.closes.day-septemberDay {
		return p.autumnFeeds(n)
	}
	s := p.season
	first := p.opens.day + leafAfterDays
	last := max(p.closes.day-hardeningDays, first)
	list := []feedDay{}
	hardening := math.Min(math.Max(hardeningShare*n, leastFeedGM2), hardeningGM2)
	if n < splitGM2 || last < first+leafEndsDays {
		hardening = 0 // too little to divide, or too short a season
	}
	leaf := n - hardening
	slots := 1
	if span := last - leafEndsDays - first; hardening > 0 && span > 0 {
		slots += span / apartDays
	}
	count := min(max(int(math.Round(leaf/usualFeedGM2)), 1), slots)
	if leaf/float64(count) > mostFeedGM2 {
		count = int(math.Ceil(leaf / mostFeedGM2)) // nearer together rather than stronger
	}
	// Feeds that must be nearer together still all come before the last one.
	span := max(last-leafEndsDays-first, apartDays*(count-1)/2)
	if hardening > 0 {
		span = min(span, last-first-apartDays/2)
	}
	for i := range count {
		d := first
		if count > 1 {
			d += i * span / (count - 1)
		} else if hardening == 0 {
			d = first + 14
		}
		list = append(list, feedDay{day: clampDay(d), kind: "leaf", n: math.Sqrt(s.mean[clampDay(d)])})
	}
	given := s.byGrowth(list, leaf)
	if hardening > 0 {
		list = append(list, feedDay{day: last, kind: "hardening", n: math.Round((n-given)*10) / 10,
			chance: s.share(func(y int) bool { return float64(s.growth[y*365+clampDay(last+28)]) >= s.begins })})
	}
	return list
}

// byGrowth deals the leaf nitrogen out to the feeds, by the growth that each has, and gives
// what is given.
func (s *season) byGrowth(list []feedDay, leaf float64) (given float64) {
	weight := 0.0
	for _, f := range list {
		weight += f.n
	}
	due := 0.0
	for i := range list {
		due += leaf * list[i].n / weight // tenths are rounded on the running sum, so that none is lost
		list[i].n = math.Round(math.Min(due-given, mostFeedGM2)*10) / 10
		given += list[i].n
		list[i].chance = s.growing(list[i].day)
	}
	return given
}

// lawful moves feeds out of the time in which the law forbids them. Those that come to lie
// on one day are given as one, within the most in one go; what is over is left out.
func (p *plan) lawful(list []feedDay) (out []feedDay) {
	ban := p.in.Use.NoFeed
	for _, f := range list {
		var ok bool
		if f.day, ok = p.freeDay(f.day); !ok {
			continue
		}
		if last := len(out) - 1; ban != nil && last >= 0 && f.day-out[last].day < apartDays/2 {
			out[last].n = math.Min(out[last].n+f.n, mostFeedGM2)
			continue
		}
		out = append(out, f)
	}
	return out
}

// freeDay is the day of the season nearest to one on which feeding is lawful; not ok where
// there is none.
func (p *plan) freeDay(day int) (int, bool) {
	for off := range calendar.Year {
		for _, d := range []int{day - off, day + off} {
			if d == clampDay(d) && !p.in.Use.NoFeed.Holds(calendar.Wrap(p.season.cold+d)) {
				return d, true
			}
		}
	}
	return day, false
}

// feedRules stand with every feed: each may be read alone, in a calendar.
var feedRules = told.Say("year.feed-rules")

// feedTasks adds the feeds of a season whose dates lie after a date.
func (p *plan) feedTasks(list []feedDay, origin, after time.Time, first bool) {
	for _, f := range list {
		at := p.season.date(origin, f.day)
		if !at.After(after) {
			continue
		}
		if !first {
			p.cal.Feeds = append(p.cal.Feeds, Feed{Date: at, NGM2: f.n, Kind: f.kind})
		}
		p.add(p.feedTask(at, f.n, f.kind, f.chance, first))
	}
}

func (p *plan) feedTask(at time.Time, n float64, kind string, chance float64, first bool) job.Task {
	g, title, why := leafGrade, told.Say("year.feed-leaf"), told.Say("year.feed-leaf-why")
	switch kind {
	case "hardening":
		g, title, why = hardeningGrade, told.Say("year.feed-last"), told.Say("year.feed-last-why")
	case "late":
		title, why = told.Say("year.feed-late"), told.Say("year.feed-late-why")
	}
	area := p.area
	grams := n * 100 / g[0]
	feed := told.Say("bed.feed-grade", told.Count(g[0]), told.Count(g[1]), told.Count(g[2]))
	return job.Task{
		ID: "feed", Sort: job.Feeding, Date: at, Goes: 1, First: first, Chance: chance, Title: title,
		Hours:     feedOutput.hours(area),
		Materials: says(told.Say("year.feed-bag", told.MassG(grams*area), feed)),
		Detail:    says(told.Say("year.feed-how", told.GramsPerM2(n), told.GramsPerM2(grams), feed), why, feedRules),
	}
}
