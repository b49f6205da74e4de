package year

import (
	"sort"
	"time"

	"swardwright/internal/calendar"
	"swardwright/sowing/job"
)

// date is day k of the season that starts on the date origin.
func (s *season) date(origin time.Time, k int) time.Time {
	return calendar.Date(origin.Year(), s.cold+k)
}

// byDate sorts tasks; those of one day keep their order.
func byDate(tasks []job.Task) {
	sort.SliceStable(tasks, func(i, j int) bool { return tasks[i].Date.Before(tasks[j].Date) })
}

// byMonth is the mean of a season's days by calendar month, January first.
func (s *season) byMonth(days [365]float64) (months [12]float64) {
	for k, v := range days {
		m := calendar.MonthOf(s.cold + k)
		months[m] += v / float64(calendar.MonthDays[m])
	}
	return months
}
