package say

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/BurntSushi/toml"
)

// calendar is how a language writes dates: a long, a medium and a yearless pattern
// (%d day, %B month, %b short month, %Y year), then the months as written inside a
// date, short inside a date, and short standing alone.
type calendar struct {
	Long     string   `toml:"long"`
	Medium   string   `toml:"medium"`
	Day      string   `toml:"day"`
	Months   []string `toml:"months"`
	Short    []string `toml:"short"`
	Alone    []string `toml:"alone"`
	American *struct {
		Long   string `toml:"long"`
		Medium string `toml:"medium"`
		Day    string `toml:"day"`
	} `toml:"american"` // of English alone
}

// calendars are the dates of each language.
var calendars = kept[calendar]{parse: parseCalendar}

func parseCalendar(raw []byte) (calendar, error) {
	var c calendar
	if err := toml.Unmarshal(raw, &c); err != nil {
		return calendar{}, err
	}
	if len(c.Months) != 12 || len(c.Short) != 12 || len(c.Alone) != 12 {
		return calendar{}, errors.New("needs twelve months, twelve short ones and twelve that stand alone")
	}
	return c, nil
}

// in is the calendar in the reader's kind of English.
func (c calendar) in(american bool) calendar {
	if american && c.American != nil {
		c.Long, c.Medium, c.Day = c.American.Long, c.American.Medium, c.American.Day
	}
	return c
}

// write fills a pattern. No date is an en dash.
func (c calendar) write(pattern string, t time.Time) string {
	if t.IsZero() {
		return "–"
	}
	m := t.Month() - 1
	return strings.NewReplacer(" ", nb, "%d", fmt.Sprint(t.Day()), "%B", c.Months[m], "%b", c.Short[m], "%Y", fmt.Sprint(t.Year())).Replace(pattern)
}

// longDay is a date without its year and with its month in full.
func (c calendar) longDay(t time.Time) string {
	return c.write(strings.Replace(c.Day, "%b", "%B", 1), t)
}

// Date writes a whole date: "28 April 2027". No date is an en dash.
func (s *Sayer) Date(t time.Time) string { return s.dates().write(s.dates().Long, t) }

// DayMonth writes a date without its year: "28 Apr".
func (s *Sayer) DayMonth(t time.Time) string { return s.dates().write(s.dates().Day, t) }

// DayOfYear writes a day of a year of 365 days, 0 being 1 January: "28 Apr".
// A negative day is an en dash.
func (s *Sayer) DayOfYear(day int) string {
	if day < 0 {
		return "–"
	}
	return s.DayMonth(dayOf(day))
}

// Month is the short name of a month standing alone.
func (s *Sayer) Month(m time.Month) string { return s.dates().Alone[m-1] }

// dates are those of the language that the words are in.
func (s *Sayer) dates() calendar { return s.voices[0].dates }

// dayOf is a day of a year without 29 February.
func dayOf(day int) time.Time { return time.Date(2001, 1, 1+day, 0, 0, 0, 0, time.UTC) }
