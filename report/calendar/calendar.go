// Package calendar writes dated tasks as an iCalendar file (RFC 5545) that
// calendar programs import: all-day events, the yearly ones repeating.
package calendar

import (
	"bufio"
	"crypto/sha1"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"swardwright/internal/told"
	"swardwright/report/say"
	"swardwright/sowing"
	"swardwright/sowing/job"
)

// Head is what the file says of itself.
type Head struct {
	Title     string
	Stamp     time.Time // the plan's date, not the clock's: two runs give identical bytes
	Namespace string    // what tells this lawn from any other, the same on every run, so that a new import replaces the old
}

const (
	// repeats is how many seasons the tasks of a full season are written for.
	repeats  = 4
	lineMost = 75 // octets, RFC 5545 section 3.1
)

// Plan writes the work of a plan.
func Plan(w io.Writer, p sowing.Plan) error {
	words, err := say.For(p)
	if err != nil {
		return err
	}
	h := Head{Title: p.Brief.Title, Stamp: p.Date, Namespace: identity(p.Brief)}
	return write(w, h, p.Tasks, words)
}

// identity tells a lawn from every other: whose it is, what it is called and where it
// lies, to about a kilometre. All else of a brief may change and it is still the
// same lawn, so that the events of a plan made anew replace those it had.
func identity(b sowing.Brief) string {
	place := fmt.Sprintf("%.2f", b.Site.Place.LatitudeDeg)
	if lon := b.Site.Place.LongitudeDeg; lon != nil {
		place += fmt.Sprintf(" %.2f", *lon)
	}
	return strings.Join([]string{b.Client, b.Reference, b.Title, place}, "\x00")
}

// write writes the tasks as one calendar, in the words of a sayer. It fails without a stamp or a namespace,
// or when w does.
func write(w io.Writer, h Head, tasks []job.Task, words *say.Sayer) error {
	if h.Stamp.IsZero() {
		return errors.New("calendar: the plan has no date, which every event must be stamped with")
	}
	if h.Namespace == "" {
		return errors.New("calendar: no namespace, without which a second import would double the events")
	}
	out := &lines{w: bufio.NewWriter(w), words: words.Plain()}
	out.put("BEGIN", "VCALENDAR")
	out.put("VERSION", "2.0")
	out.put("PRODID", "-//Swardwright//Lawn plan//EN")
	out.put("CALSCALE", "GREGORIAN")
	out.put("NAME", text(h.Title)) // RFC 7986
	out.put("X-WR-CALNAME", text(h.Title))
	seen := map[string]int{}
	for _, t := range tasks {
		series := fmt.Sprintf("%s first %v", t.ID, t.First)
		seen[series]++
		out.event(h, t, uid(h.Namespace, fmt.Sprintf("%s %d", series, seen[series])))
	}
	out.put("END", "VCALENDAR")
	if out.err == nil {
		out.err = out.w.Flush()
	}
	return out.err
}

func (l *lines) event(h Head, t job.Task, id string) {
	until := t.Until
	if until.Before(t.Date) {
		until = t.Date
	}
	l.put("BEGIN", "VEVENT")
	l.put("UID", id)
	l.put("DTSTAMP", h.Stamp.UTC().Format("20060102T150405Z"))
	l.put("DTSTART;VALUE=DATE", t.Date.Format("20060102"))
	l.put("DTEND;VALUE=DATE", until.AddDate(0, 0, 1).Format("20060102")) // exclusive
	if !t.First {
		l.put("RRULE", fmt.Sprintf("FREQ=YEARLY;COUNT=%d", repeats))
	}
	l.put("SUMMARY", text(l.words.Say(t.Title)))
	l.put("DESCRIPTION", text(l.description(t)))
	l.put("CATEGORIES", text(string(t.Sort)))
	l.put("TRANSP", "TRANSPARENT") // the day stays free for other things
	l.put("END", "VEVENT")
}

// mostMinutes is up to where hours of work are told in minutes.
const mostMinutes = 120

// description is what the event says under its title.
func (l *lines) description(t job.Task) string {
	parts := slices.Concat(t.Detail, t.Caution)
	for _, m := range t.Materials {
		parts = append(parts, told.Say("calendar.take", m))
	}
	if t.Goes > 1 {
		parts = append(parts, told.Say("calendar.goes", told.Count(t.Goes)))
	}
	if t.Hours > 0 {
		minutes := max(5, int(t.Hours*60/5+0.5)*5)
		if minutes < mostMinutes {
			parts = append(parts, told.Say("calendar.takes", told.Counted{N: minutes, Of: "minutes"}))
		} else {
			parts = append(parts, told.Say("calendar.takes", told.CrewHours(t.Hours)))
		}
	}
	if t.Chance > 0 {
		parts = append(parts, told.Say("calendar.right", told.Chance(t.Chance)))
	}
	return strings.Join(l.words.All(parts), "\n")
}

// uid is a name-based UUID (RFC 4122 version 5) in a namespace of this program's own.
func uid(namespace, name string) string {
	sum := sha1.Sum([]byte("swardwright lawn plan\x00" + namespace + "\x00" + name))
	sum[6] = sum[6]&0x0f | 0x50
	sum[8] = sum[8]&0x3f | 0x80
	return fmt.Sprintf("%x-%x-%x-%x-%x", sum[0:4], sum[4:6], sum[6:8], sum[8:10], sum[10:16])
}

// text escapes a value of type TEXT, RFC 5545 section 3.3.11; control characters
// are left out and bytes that are no UTF-8 replaced.
func text(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '\\' || r == ';' || r == ',':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r < ' ' && r != '\t' || r == 0x7f:
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// lines writes content lines, folded.
type lines struct {
	w     *bufio.Writer
	err   error
	words *say.Sayer
}

// put writes one content line, broken before lineMost octets and never inside a
// character; what goes on stands behind a space.
func (l *lines) put(name, value string) {
	line := name + ":" + value
	room := lineMost
	for len(line) > room {
		cut := room
		for !utf8.RuneStart(line[cut]) {
			cut--
		}
		l.write(line[:cut], "\r\n ")
		line, room = line[cut:], lineMost-1
	}
	l.write(line, "\r\n")
}

func (l *lines) write(parts ...string) {
	for _, p := range parts {
		if l.err == nil {
			_, l.err = l.w.WriteString(p)
		}
	}
}
