package calendar

import (
	"math"
	"testing"
	"testing/quick"
	"time"
)

func date(s string) time.Time {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		panic(err)
	}
	return t
}

func TestDayOf(t *testing.T) {
	for _, c := range []struct {
		date string
		day  int
	}{
		{"2027-01-01", 0}, {"2027-02-28", 58}, {"2027-03-01", 59}, {"2027-12-31", 364},
		{"2028-02-28", 58}, {"2028-02-29", 58}, {"2028-03-01", 59}, {"2028-12-31", 364},
		{"2000-03-01", 59}, {"2100-03-01", 59},
	} {
		if got := DayOf(date(c.date)); got != c.day {
			t.Errorf("%s: day %d, want %d", c.date, got, c.day)
		}
	}
}

func TestLeap(t *testing.T) {
	for year := 1890; year < 2110; year++ {
		if got, want := leap(year), date("2027-01-01").AddDate(year-2027, 1, 28).Month() == time.February; got != want {
			t.Errorf("%d: leap %v", year, got)
		}
	}
}

// Every day of a year is the day of its own date, never on 29 February, and days
// follow one another without a gap.
func TestDateAndDayAgree(t *testing.T) {
	for year := 2023; year < 2034; year++ {
		for day := -2 * Year; day < 3*Year; day++ {
			at := Date(year, day)
			if DayOf(at) != Wrap(day) || at.Month() == time.February && at.Day() == 29 {
				t.Fatalf("day %d of %d is %v", day, year, at)
			}
			if int(at.Month())-1 != MonthOf(day) {
				t.Fatalf("%v: month %d", at, MonthOf(day))
			}
			step := Days(at, Date(year, day+1))
			if leapt := at.Month() == time.February && at.Day() == 28 && leap(at.Year()); step != 1 && !(leapt && step == 2) {
				t.Fatalf("%d days from %v to the next", step, at)
			}
		}
	}
}

// The dates with a day of the year on either side of a date lie within a year of it.
func TestOnOrAfterAndBefore(t *testing.T) {
	check := func(days uint16, day uint16) bool {
		at, want := date("2019-01-01").AddDate(0, 0, int(days)%6000), int(day)%Year
		after, before := OnOrAfter(at, want), OnOrBefore(at, want)
		if DayOf(after) != want || DayOf(before) != want {
			return false
		}
		ahead, behind := Days(at, after), Days(before, at)
		return ahead >= 0 && ahead <= 365 && behind >= 0 && behind <= 365
	}
	if err := quick.Check(check, &quick.Config{MaxCount: 20000}); err != nil {
		t.Error(err)
	}
}

func TestDays(t *testing.T) {
	for _, c := range []struct {
		from, to string
		days     int
	}{
		{"2027-01-01", "2027-01-01", 0}, {"2028-02-28", "2028-03-01", 2}, {"2027-02-28", "2027-03-01", 1},
		{"2027-03-01", "2027-02-27", -2}, {"2027-12-31", "2029-01-01", 367},
	} {
		if got := Days(date(c.from), date(c.to)); got != c.days {
			t.Errorf("%s to %s: %d days, want %d", c.from, c.to, got, c.days)
		}
	}
}

// A yearly wave is coldest at its trough, wherever that lies; a single cold day
// does not move it; turned by half a year, it is half a year on.
func TestColdest(t *testing.T) {
	for _, trough := range []int{0, 15, 31, 196, 212, 360} {
		var wave [Year]float64
		for day := range wave {
			wave[day] = 8 - 10*math.Cos(2*math.Pi*float64(day-trough)/Year)
		}
		wave[Wrap(trough+60)] -= 12
		if got := Coldest(wave); Since(trough, got) > 3 && Since(got, trough) > 3 {
			t.Errorf("trough on day %d: coldest on %d", trough, got)
		}
	}
}
