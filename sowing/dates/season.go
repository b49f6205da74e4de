package dates

import (
	"math"
	"time"

	"swardwright/internal/calendar"
	"swardwright/internal/steady"
)

// Season is how one mixture, or turf, fares by the day of the year on which it is
// sown, or laid.
type Season struct {
	Success [calendar.Year]float64 // share of years in which it comes through, over the zones
	Score   [calendar.Year]float64 // share of the seedlings, or of the turf, that comes through, mean of years

	table  *Table
	parts  []part // none of turf
	fields []field
}

// part is one component of the mixture on sowing.
type part struct {
	index int // in Table.table
	share float64
}

// sown tells whether any of it is.
func (p part) sown() bool { return p.share > 0 }

// field is how one zone fares by the day of the series on which work begins. Days
// are counted from it.
type field struct {
	zone         *zone
	missing      float64  // chance that the watering is missed
	up, cut, use []uint16 // of a sowing settled on the days that are asked for
	stand        []uint8  // share that comes through, in 255ths
	missed       []uint8  // the same if nobody waters
	sown         []part   // the parts of the season, by their shares here; none of turf
	trials       []trial
	parts, dry   []trace // by component; dry if nobody waters, none of a bed left to the rain
	cover        cover   // of a sowing
}

// trace is what comes of one component, by steps of so many days of sowing.
type trace struct {
	up, cut []int32 // day of the series; 0: it doesn't come
	stand   []uint8
}

// newTrace is that of n days of which nothing comes.
func newTrace(n int) trace {
	steps := (n + sowingStep - 1) / sowingStep
	return trace{make([]int32, steps), make([]int32, steps), make([]uint8, steps)}
}

// upOn is how many days after sowing on day k it is up, and cutOn, cut.
func (t *trace) upOn(k int) uint16 { return after(k, int(t.up[k/sowingStep])) }

func (t *trace) cutOn(k int) uint16 {
	if t.upOn(k) == never {
		return never
	}
	return after(k, int(t.cut[k/sowingStep]))
}

// after is how many days a day comes after day k; never where it doesn't, or too late.
func after(k, day int) uint16 {
	if day <= k || day-k > horizon {
		return never
	}
	return uint16(day - k)
}

func newField(z *zone) field {
	days := make([]uint16, 3*z.n)
	shares := make([]uint8, 2*z.n)
	return field{zone: z, up: days[:z.n], cut: days[z.n : 2*z.n], use: days[2*z.n:], stand: shares[:z.n], missed: shares[z.n:]}
}

// never is a day that does not come.
const never = math.MaxUint16

// full is a stand of which nothing is lost.
const full = math.MaxUint8

// half rounds up to a whole part, what lies on the edge always: shares in twentieths of
// whole parts often do, and the last digit differs between processors.
const half = 0.5 + 1e-9

// lucky is the chance that a stand of so many 255ths on the mean of all sowings is
// enough of one on the sowing at hand.
var lucky = func() (chance [full + 1]float64) {
	for stand := 1; stand <= full; stand++ {
		z := math.Log(float64(stand)/(full*standShare)) / luckSpread
		chance[stand] = math.Erfc(-z/math.Sqrt2) / 2
	}
	return chance
}()

// chance is the chance that what is begun on a day of the series makes a lawn.
func (f *field) chance(k int) float64 {
	return f.missing*lucky[f.missed[k]] + (1-f.missing)*lucky[f.stand[k]]
}

// chanceOf is the same of one component were it sown alone.
func (f *field) chanceOf(part, k int) float64 {
	step := k / sowingStep
	chance := lucky[f.parts[part].stand[step]]
	if f.missing > 0 {
		chance = f.missing*lucky[f.dry[part].stand[step]] + (1-f.missing)*chance
	}
	return chance
}

// gather sums the fields up by day of the year.
func (s *Season) gather() {
	for i := range s.fields {
		f := &s.fields[i]
		each := f.zone.share / float64(s.table.years)
		for k, stand := range f.stand {
			day := k % calendar.Year
			s.Score[day] += each * float64(stand) / full
			s.Success[day] += each * f.chance(k)
		}
	}
	s.Success = capped(s.Success)
	// Days that are as good as each other are so on every machine.
	steady.Figures(s.Score[:])
	steady.Figures(s.Success[:])
}

// spread is how a number of days is spread over the years.
type spread struct {
	weight [horizon + 1]float64 // by number of days
	total  float64
}

func (s *spread) add(days uint16, weight float64) {
	if days <= horizon && weight > 0 {
		s.weight[days] += weight
		s.total += weight
	}
}

// at is the number of days within which it has come in a share of the years that
// have it.
func (s *spread) at(share float64) float64 {
	left := share * s.total
	for days, w := range s.weight {
		if left -= w; left <= 0 && w > 0 {
			return float64(days)
		}
	}
	return horizon
}

// span is nil where it hardly comes in any year.
func (s *spread) span() *Span {
	if s.total < hardlyAny {
		return nil
	}
	return &Span{s.at(0.1), s.at(0.5), s.at(0.9)}
}

// years calls a function for every year and zone of a day of the year, with its
// weight.
func (s *Season) years(day int, of func(f *field, k int, weight float64)) {
	for i := range s.fields {
		f := &s.fields[i]
		each := f.zone.share / float64(s.table.years)
		for k := day; k < len(f.stand); k += calendar.Year {
			of(f, k, each)
		}
	}
}

// settled is the same once it is known when what was begun is up, cut and in use.
func (s *Season) settled(day int, of func(f *field, k int, weight float64)) {
	s.years(day, func(f *field, k int, weight float64) {
		f.settle(k)
		of(f, k, weight)
	})
}

// on is what comes of beginning on a date.
func (s *Season) on(date time.Time) Start {
	day := calendar.DayOf(date)
	start := Start{On: date, Success: s.Success[day], Score: s.Score[day]}
	var up, cut, use spread
	s.settled(day, func(f *field, k int, weight float64) {
		up.add(f.up[k], weight)
		cut.add(f.cut[k], weight)
		use.add(f.use[k], weight*f.chance(k))
	})
	start.EmergenceDays, start.FirstMowDays, start.UseDays = up.span(), cut.span(), use.span()
	start.FirstMow, start.UsableFrom = median(date, &cut), median(date, &use)
	for i, p := range s.parts {
		one := Part{SpeciesID: s.table.table[p.index].id}
		var up, cut spread
		area := 1.0
		for _, f := range s.fields {
			if !f.sown[i].sown() {
				area -= f.zone.share
			}
		}
		s.years(day, func(f *field, k int, weight float64) {
			if !f.sown[i].sown() {
				return
			}
			weight /= area
			t := &f.parts[i]
			up.add(t.upOn(k), weight)
			cut.add(t.cutOn(k), weight)
			one.Success += weight * f.chanceOf(i, k)
		})
		one.Success = min(one.Success, 1)
		one.EmergenceDays, one.FirstMowDays = up.span(), cut.span()
		start.Parts = append(start.Parts, one)
	}
	return start
}

// median is the date on which something has come in half of the years that have it;
// nil where it comes in no year of the middling half.
func median(from time.Time, s *spread) *time.Time {
	if s.total < 0.25 {
		return nil
	}
	return new(from.AddDate(0, 0, int(s.at(0.5))))
}

// chance is the share of years in which what was begun on a date bears use by another.
func (s *Season) chance(on, by time.Time) float64 {
	left, chance := calendar.Days(on, by), 0.0
	s.settled(calendar.DayOf(on), func(f *field, k int, weight float64) {
		if use := f.use[k]; use != never && int(use) <= left {
			chance += weight * f.chance(k)
		}
	})
	return min(chance, 1)
}

// ready is the date by which what was begun on another bears use in a share of the
// years; nil where it does in fewer.
func (s *Season) ready(on time.Time, chance float64) *time.Time {
	var use spread
	s.settled(calendar.DayOf(on), func(f *field, k int, weight float64) {
		use.add(f.use[k], weight*f.chance(k))
	})
	if chance > use.total || use.total == 0 {
		return nil
	}
	return new(on.AddDate(0, 0, int(use.at(chance/use.total))))
}
