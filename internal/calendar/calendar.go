// Package calendar counts days. A year has 365 of them and day 0 is 1 January,
// so that every year of the weather is of one length; 29 February counts as the
// 28th. Dates are midnights in UTC. A date that may never come is a *time.Time,
// nil where it never does: the zero time is no date.
package calendar

import "time"

// Year is the length of a year in days, Half of its half.
const (
	Year = 365
	Half = Year / 2
)

// MonthDays are the lengths of the months.
var MonthDays = [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

var monthOf = func() (of [Year]int) {
	day := 0
	for month, days := range MonthDays {
		for range days {
			of[day] = month
			day++
		}
	}
	return of
}()

// MonthOf is the month, 0 to 11, that a day lies in; days beyond the year's ends
// count on into its neighbours.
func MonthOf(day int) int { return monthOf[Wrap(day)] }

// MonthStart is the day on which a month, 0 to 11, begins.
func MonthStart(month int) int {
	day := 0
	for _, days := range MonthDays[:month] {
		day += days
	}
	return day
}

// Wrap brings a day beyond the year's ends to its place in a year, 0 to 364.
func Wrap(day int) int { return (day%Year + Year) % Year }

// Since is how many days after one day of the year another comes, 0 to 364.
func Since(from, day int) int { return Wrap(day - from) }

// leap tells whether a year has a 29 February.
func leap(year int) bool { return year%4 == 0 && (year%100 != 0 || year%400 == 0) }

// DayOf is the day of the year, 0 to 364, that a date falls on.
func DayOf(t time.Time) int {
	day := t.YearDay() - 1
	if leap(t.Year()) && day >= 59 {
		day--
	}
	return day
}

// Date is the date of a day of a year; days beyond the year's ends count on into
// its neighbours. It is never 29 February.
func Date(year, day int) time.Time {
	at := Wrap(day)
	year += (day - at) / Year
	if leap(year) && at >= 59 {
		at++
	}
	return time.Date(year, time.January, 1+at, 0, 0, 0, 0, time.UTC)
}

// OnOrAfter is the first date with a day of the year (0 to 364) that is not before t.
func OnOrAfter(t time.Time, day int) time.Time {
	at := Date(t.Year(), day)
	if at.Before(Midnight(t)) {
		return Date(t.Year()+1, day)
	}
	return at
}

// OnOrBefore is the last date with a day of the year (0 to 364) that is not after t.
func OnOrBefore(t time.Time, day int) time.Time {
	at := Date(t.Year(), day)
	if at.After(t) {
		return Date(t.Year()-1, day)
	}
	return at
}

// Midnight is the beginning of a date.
func Midnight(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC)
}

// Days is how many days lie from one date to another, 29 February counted;
// negative where the other comes first.
func Days(from, to time.Time) int {
	return int(Midnight(to).Sub(Midnight(from)) / (24 * time.Hour))
}

// coldSpan is the days either side of a day over which it is looked at: single
// days say little where the winter is flat.
const coldSpan = 15

// Coldest is the day in the middle of the coldest month of a year of daily means.
// A season is counted from it, so that in both hemispheres one holds a whole
// growing season.
func Coldest(meanC [Year]float64) int {
	coldest, least := 0, 0.0
	for day := range meanC {
		sum := 0.0
		for k := -coldSpan; k <= coldSpan; k++ {
			sum += meanC[Wrap(day+k)]
		}
		if day == 0 || sum < least {
			coldest, least = day, sum
		}
	}
	return coldest
}
