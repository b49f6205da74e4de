// Package record corrects what is expected of a lawn by what was sown and seen there.
//
// A record says what was sown on a lawn and what was found since, mostly by counting
// points. [Learn] weighs by it the lawns that this one may be (package sward), so that
// whatever the plan counts over them is counted over those that are like what was found.
package record

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"github.com/samber/lo"

	"swardwright/internal/plain"
	"swardwright/internal/sheet"
	"swardwright/mix/sward"
	"swardwright/site/light"
	"swardwright/site/weather"
	"swardwright/species"
)

// Record is the brief's pages [[sown]] and [[seen]]. The zero value is no record.
type Record struct {
	Sown []Sown // oldest first
	Seen []Seen // oldest first; those of one day as written

	// Water is what seed and young grass had of it in the days of a zone, as the lawn was kept; nil: enough. It is none of the brief's.
	Water func(*weather.Days) sward.Water
}

// Where is a part of the lawn: a zone by its letter or by a point in it; the whole lawn
// when neither is given.
type Where struct {
	Zone string
	At   *light.Point
}

// Sown is seed that was sown.
type Sown struct {
	Where
	Key     string // of the table in the brief, for what is said of it
	Date    time.Time
	RateGM2 float64 // 0: the usual one of its grasses
	Parts   []species.Part
	Into    Into // empty: bare ground the first time, a sward from then on
}

// Into is what seed was sown into.
type Into string

// What seed may be sown into.
const (
	BareGround Into = "bare"
	Sward      Into = "sward"
)

// Seen is what was found on one day.
type Seen struct {
	Where
	Key  string // of the table in the brief
	Date time.Time
	By   string // who looked

	Points            int // counted; 0: none
	Layout            Layout
	Each              int // points laid at once; 0: as usual for the layout
	Grass             int // hits
	Moss, Weeds, Bare int // hits; all 0 with Rest
	Rest              int // hits on what isn't grass, not told apart
	Of                []Found
	CoverPercent      *float64 // by eye
	Up, FirstCut      bool     // half of the seedlings are up; cut for the first time
	SnowMouldPercent  *float64 // of the sward, after the last winter
	SunHours          *float64 // of direct sun on that day, under a clear sky
	MowingMM          *float64 // height of cut
}

// Layout is how points were laid.
type Layout string

// The layouts.
const (
	OnString Layout = "string" // knots on a string, further apart than patches are wide
	Throws   Layout = "throws" // a small frame thrown many times
	OnFrame  Layout = "frame"  // all points in one frame, or in a few
	Steps    Layout = "steps"  // the mark on a boot's toe
)

// Found are the hits on one grass or on several that were not told apart.
type Found struct {
	Name string // as written
	Of   []*species.Species
	Hits int
}

// Bounds that catch slips.
const (
	mostPoints   = 10000
	mostRateGM2  = 200.0
	mostCutMM    = 300.0
	mostSunHours = 24.0
	mostM        = 1000.0 // from the plan's origin
	// mostYears is how far a record reaches back.
	mostYears = 20
)

// Read reads a brief's pages [[sown]] and [[seen]]. Points lie in the lawn's outlines;
// nothing is later than the plan, whose date may be zero.
func Read(root *sheet.Sheet, table *species.Table, lawn [][]light.Point, plan time.Time) Record {
	var r Record
	for i, s := range root.Tables("sown") {
		x := Sown{Key: fmt.Sprintf("sown[%d]", i+1), Where: readWhere(s, lawn), Date: readDate(s, plan)}
		x.RateGM2, _ = s.Number("rate_g_m2", 0.1, mostRateGM2)
		x.Parts = species.ReadParts(s, table)
		x.Into, _ = sheet.Choice(s, "into", BareGround, Sward)
		if n := len(r.Sown); n > 0 && !x.Date.IsZero() && x.Date.Before(r.Sown[n-1].Date) {
			s.Faultf("date", "is before the sowing above it, of %s; write them oldest first", r.Sown[n-1].Date.Format(time.DateOnly))
		}
		r.Sown = append(r.Sown, x)
	}
	for i, s := range root.Tables("seen") {
		r.Seen = append(r.Seen, readSeen(s, i, table, lawn, plan, r.Sown))
	}
	slices.SortStableFunc(r.Seen, func(a, b Seen) int { return a.Date.Compare(b.Date) })
	if from, to := r.span(); !from.IsZero() && from.AddDate(mostYears, 0, 0).Before(later(to, plan)) {
		root.FaultAt(r.first(), "is more than %d years before the plan; leave out what is so old", mostYears)
	}
	return r
}

// Empty tells whether nothing was seen: what was sown by itself says nothing of the place.
func (r Record) Empty() bool { return len(r.Seen) == 0 }

// Last is the last day of a record; zero where nothing was seen.
func (r Record) Last() time.Time {
	if r.Empty() {
		return time.Time{}
	}
	_, last := r.span()
	return last
}

func (r Record) span() (from, to time.Time) {
	each := func(d time.Time) {
		if d.IsZero() {
			return
		}
		if from.IsZero() || d.Before(from) {
			from = d
		}
		to = later(to, d)
	}
	for _, s := range r.Sown {
		each(s.Date)
	}
	for _, s := range r.Seen {
		each(s.Date)
	}
	return from, to
}

// first is the key of its first day.
func (r Record) first() string {
	from, _ := r.span()
	for _, s := range r.Sown {
		if s.Date.Equal(from) {
			return s.Key + ".date"
		}
	}
	return r.Seen[0].Key + ".date"
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

func readDate(s *sheet.Sheet, plan time.Time) time.Time {
	s.Need("date", "the day, like 2026-08-14")
	d := s.Date("date")
	if d == nil {
		return time.Time{}
	}
	if !plan.IsZero() && d.After(plan) {
		s.Faultf("date", "is after the plan's date, %s", plan.Format(time.DateOnly))
	}
	return *d
}

func readWhere(s *sheet.Sheet, lawn [][]light.Point) Where {
	var w Where
	s.AtMostOne("zone", "at")
	w.Zone, _ = sheet.Choice(s, "zone", "A", "B", "C", "D")
	if p, ok := s.Pair("at", -mostM, mostM); ok {
		w.At = &light.Point{X: p[0], Y: p[1]}
		switch {
		case len(lawn) == 0:
			s.Faultf("at", "needs the lawn's outline to be placed against, not its area_m2 alone")
		case !slices.ContainsFunc(lawn, func(part []light.Point) bool { return light.Inside(part, *w.At) }):
			s.Faultf("at", "is not on the lawn")
		}
	}
	return w
}

func readSeen(s *sheet.Sheet, i int, table *species.Table, lawn [][]light.Point, plan time.Time, sown []Sown) Seen {
	x := Seen{Key: fmt.Sprintf("seen[%d]", i+1), Where: readWhere(s, lawn), Date: readDate(s, plan)}
	x.By, _ = s.Text("by")
	s.AtMostOne("points", "cover_percent")
	readPoints(s, &x, table)
	x.CoverPercent = s.Optional("cover_percent", 0, 100)
	x.SnowMouldPercent = s.Optional("snow_mould_percent", 0, 100)
	x.SunHours = s.Optional("sun_hours", 0, mostSunHours)
	x.MowingMM = s.Optional("mowing_mm", 3, mostCutMM)
	x.Up, x.FirstCut = readTrue(s, "up"), readTrue(s, "first_cut")
	if (x.Up || x.FirstCut) && !x.Date.IsZero() && !slices.ContainsFunc(sown, func(b Sown) bool { return b.Date.Before(x.Date) }) {
		s.Faultf("date", "has no [[sown]] before it, and seedlings come of a sowing")
	}
	if x.Up && x.FirstCut {
		s.Faultf("first_cut", "stands beside up; they are weeks apart, and each is a [[seen]] of its own")
	}
	if s.Given("by") && !s.Given("points") && !s.Given("cover_percent") {
		s.Faultf("by", "says who looked, and nothing was counted or judged by eye")
	}
	says := []string{"points", "cover_percent", "up", "first_cut", "snow_mould_percent", "sun_hours", "mowing_mm"}
	if !slices.ContainsFunc(says, s.Given) {
		s.Faultf("", "says nothing; give one of %s", strings.Join(says, ", "))
	}
	return x
}

func readTrue(s *sheet.Sheet, key string) bool {
	v, ok := s.Flag(key)
	if ok && !v {
		s.Faultf(key, "is true, or left out")
	}
	return v
}

// readPoints reads a count of points.
func readPoints(s *sheet.Sheet, x *Seen, table *species.Table) {
	good := true // as far as read
	whole := func(key string, least, most int) int {
		f, ok := s.Number(key, float64(least), float64(most))
		if ok && f != math.Round(f) {
			s.Faultf(key, "needs a whole number, is %g", f)
			ok = false
		}
		good = good && (ok || !s.Given(key))
		return int(f)
	}
	x.Points = whole("points", 1, mostPoints)
	x.Layout, _ = sheet.Choice(s, "layout", OnString, Throws, OnFrame, Steps)
	x.Each = whole("points_each", 1, mostPoints)
	x.Grass = whole("grass", 0, mostPoints)
	x.Moss = whole("moss", 0, mostPoints)
	x.Weeds = whole("weeds", 0, mostPoints)
	x.Bare = whole("bare", 0, mostPoints)
	x.Of = readFound(s, table)
	if !s.Given("points") {
		for _, key := range []string{"layout", "points_each", "grass", "moss", "weeds", "bare", "of_grass"} {
			if s.Given(key) {
				s.Faultf(key, "needs points, how many were counted")
			}
		}
		return
	}
	s.Need("grass", "how many of the points hit grass")
	checkPoints(s, x, good)
}

// checkPoints holds the parts of a count to each other, as far as they were good to read.
func checkPoints(s *sheet.Sheet, x *Seen, good bool) {
	switch {
	case x.Each == 0:
	case x.Layout != Throws && x.Layout != OnFrame:
		s.Faultf("points_each", `is for layout = "throws" or "frame"`)
	case good && x.Each > x.Points:
		s.Faultf("points_each", "needs at most the %d points counted, is %d", x.Points, x.Each)
	}
	sum := x.Grass + x.Moss + x.Weeds + x.Bare
	told := slices.ContainsFunc([]string{"moss", "weeds", "bare"}, s.Given)
	switch {
	case !good || !s.Given("grass"):
	case sum > x.Points || told && sum < x.Points:
		s.Faultf("points", "are %d, and grass, moss, weeds and bare add to %d", x.Points, sum)
	default:
		x.Rest = x.Points - sum
	}
	hits := lo.SumBy(x.Of, func(f Found) int { return f.Hits })
	if good && s.Given("grass") && hits > x.Grass {
		s.Faultf("of_grass", "adds to %d hits, more than the %d on grass", hits, x.Grass)
	}
}

// readFound reads the hits by grass or by several grasses, as far as they were told apart.
func readFound(s *sheet.Sheet, table *species.Table) []Found {
	if !s.Given("of_grass") {
		s.Table("of_grass")
		return nil
	}
	of := s.Table("of_grass")
	var out []Found
	by := map[*species.Species]string{} // that name it by itself
	for _, name := range of.Keys() {
		hits, ok := of.Number(name, 0, mostPoints)
		if ok && hits != math.Round(hits) {
			of.Faultf(name, "needs a whole number, is %g", hits)
		}
		f := Found{Name: name, Hits: int(hits), Of: table.Called(name)}
		if len(f.Of) == 0 {
			of.Hintf(name, func() string { return table.Hint(name) }, "%s is no grass of the table, nor a group of them", plain.Quote(name))
			continue
		}
		if len(f.Of) == 1 {
			if other := by[f.Of[0]]; other != "" {
				of.Faultf(name, "is the same grass as %s; add the two", other)
			}
			by[f.Of[0]] = name
		}
		out = append(out, f)
	}
	// A grass named by itself is none of a group's.
	for i := range out {
		if len(out[i].Of) > 1 {
			out[i].Of = slices.DeleteFunc(out[i].Of, func(sp *species.Species) bool { return by[sp] != "" })
		}
	}
	taken := map[*species.Species]string{}
	for _, f := range out {
		for _, sp := range f.Of {
			if other := taken[sp]; other != "" && other != f.Name {
				of.Faultf(f.Name, "has grasses in common with %s; add the two", other)
				return out
			}
			taken[sp] = f.Name
		}
	}
	return out
}
