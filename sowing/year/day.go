package year

import (
	"sort"
	"time"
)

// monthDay is a day of the year (0 is 1 January, no 29 February).
func monthDay(day int) (time.Month, int) {
	t := time.Date(2023, time.January, 1+((day%365)+365)%365, 0, 0, 0, 0, time.UTC)
	return t.Month(), t.Day()
}

// yearDay is its inverse; 29 February counts as the 28th.
func yearDay(t time.Time) int {
	d := t.Day()
	if t.Month() == time.February && d == 29 {
		d = 28
	}
	return time.Date(2023, t.Month(), d, 0, 0, 0, 0, time.UTC).YearDay() - 1
}

// onOrBefore is the last date with the given day of the year that is not after t.
func onOrBefore(t time.Time, day int) time.Time {
	m, d := monthDay(day)
	at := time.Date(t.Year(), m, d, 0, 0, 0, 0, time.UTC)
	if at.After(t) {
		at = time.Date(t.Year()-1, m, d, 0, 0, 0, 0, time.UTC)
	}
	return at
}

// date is day k of the season that starts on the date origin.
func (s *season) date(origin time.Time, k int) time.Time {
	m, d := monthDay(s.cold + k)
	at := time.Date(origin.Year(), m, d, 0, 0, 0, 0, time.UTC)
	if s.cold+k >= 365 {
		at = time.Date(origin.Year()+1, m, d, 0, 0, 0, 0, time.UTC)
	}
	return at
}

// byDate sorts tasks; those of one day keep their order.
func byDate(tasks []Task) {
	sort.SliceStable(tasks, func(i, j int) bool { return tasks[i].Date.Before(tasks[j].Date) })
}

// monthLengths of a common year.
var monthLengths = [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

// byMonth is the mean of a season's days by calendar month, January first.
func (s *season) byMonth(days [365]float64) (months [12]float64) {
	for k, v := range days {
		m, _ := monthDay(s.cold + k)
		months[m-1] += v / float64(monthLengths[m-1])
	}
	return months
}
