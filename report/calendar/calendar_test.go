package calendar

import (
	"bytes"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	ics "github.com/arran4/golang-ical"

	"swardwright/internal/told"
	"swardwright/report/say"
	"swardwright/sowing/job"
)

func day(s string) time.Time {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		panic(err)
	}
	return t
}

// says is a text that a task might have.
func says(s string) told.Sentence { return told.Say("bed.figure", told.Verbatim(s)) }

var head = Head{Title: "Back lawn; north, Ærø", Stamp: day("2027-02-01"), Namespace: "S-17"}

var sample = []job.Task{
	{ID: "sow", Sort: job.Sowing, Date: day("2027-05-04"), Title: says("Sow"), First: true, Goes: 1},
	{ID: "mow-1", Sort: job.Mowing, Date: day("2027-07-01"), Until: day("2027-07-31"), Title: says("Mow every 5 days"), Goes: 6, Hours: 0.09,
		Detail: []told.Sentence{says("At 25 mm, in zone A; \"quarter turns\"\nbox off, C:\\sheds\\mower")}, First: true},
	{ID: "feed-2", Sort: job.Feeding, Date: day("2028-12-31"), Title: says(strings.Repeat("Späte Düngung für Wurzeln ", 9)), Chance: 0.87, Goes: 1,
		Materials: []told.Sentence{says("2.1 kg of a 6-0-12 feed")}},
}

func words(t testing.TB) *say.Sayer {
	t.Helper()
	s, err := say.New("en", "", "", nil)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func written(t *testing.T, h Head, tasks []job.Task) string {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b, h, tasks, words(t)); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// The file read back by an independent parser (github.com/arran4/golang-ical).
func TestReadBackByAnotherParser(t *testing.T) {
	cal, err := ics.ParseCalendar(strings.NewReader(written(t, head, sample)))
	if err != nil {
		t.Fatal(err)
	}
	events := cal.Events()
	if len(events) != len(sample) {
		t.Fatalf("%d events of %d tasks", len(events), len(sample))
	}
	ids := map[string]bool{}
	for i, e := range events {
		task := sample[i]
		ids[e.Id()] = true
		start, err := e.GetAllDayStartAt()
		if err != nil || !start.Equal(task.Date) {
			t.Errorf("event %d starts %v (%v), want %v", i, start, err, task.Date)
		}
		last := task.Date
		if !task.Until.IsZero() {
			last = task.Until
		}
		// RFC 5545 section 3.6.1: DTEND is exclusive.
		if end, err := e.GetAllDayEndAt(); err != nil || !end.Equal(last.AddDate(0, 0, 1)) {
			t.Errorf("event %d ends %v (%v), want the day after %v", i, end, err, last)
		}
		if got := e.GetProperty(ics.ComponentPropertySummary).Value; got != words(t).Say(task.Title) {
			t.Errorf("event %d is %q, want %v", i, got, task.Title)
		}
		if got := e.GetProperty(ics.ComponentPropertyDescription).Value; !strings.HasPrefix(got, words(t).Text(task.Detail)) {
			t.Errorf("event %d says %q, want %v first", i, got, task.Detail)
		}
		if rule := e.GetProperty(ics.ComponentPropertyRrule); (rule == nil) != task.First {
			t.Errorf("event %d, of the first year %v, repeats by %v", i, task.First, rule)
		}
		if stamp, err := e.GetDtStampTime(); err != nil || !stamp.Equal(head.Stamp) {
			t.Errorf("event %d stamped %v (%v)", i, stamp, err)
		}
	}
	if len(ids) != len(sample) {
		t.Errorf("%d different UIDs of %d events", len(ids), len(sample))
	}
}

// RFC 5545 section 3.1: lines end in CRLF and have at most 75 octets, and folding
// never parts the octets of one character.
func checkLines(t *testing.T, file string) {
	t.Helper()
	if !strings.HasSuffix(file, "END:VCALENDAR\r\n") || strings.Count(file, "\n") != strings.Count(file, "\r\n") || strings.Count(file, "\r") != strings.Count(file, "\r\n") {
		t.Errorf("line ends: %q", file[max(0, len(file)-40):])
	}
	for _, line := range strings.Split(file, "\r\n") {
		if len(line) > 75 || !utf8.ValidString(line) {
			t.Errorf("%d octets, valid UTF-8 %v: %q", len(line), utf8.ValidString(line), line)
		}
	}
}

func TestLines(t *testing.T) { checkLines(t, written(t, head, sample)) }

// RFC 5545 section 3.3.11: backslash, semicolon and comma are escaped, a line
// break is \n.
func TestText(t *testing.T) {
	for in, want := range map[string]string{
		`a;b,c\d`: `a\;b\,c\\d`, "one\ntwo\r\n": `one\ntwo\n`, "bell\a tab\t": "bell tab\t", "broken \xff": "broken \uFFFD", `C:\n`: `C:\\n`,
	} {
		if got := text(in); got != want {
			t.Errorf("text(%q) = %q, want %q", in, got, want)
		}
	}
}

// A later run of the same plan, its dates moved, keeps the UIDs; another plan has
// its own.
func TestStableUIDs(t *testing.T) {
	ids := func(h Head, tasks []job.Task) (list []string) {
		for _, line := range strings.Split(written(t, h, tasks), "\r\n") {
			if id, ok := strings.CutPrefix(line, "UID:"); ok {
				list = append(list, id)
			}
		}
		return list
	}
	moved := make([]job.Task, len(sample))
	for i, task := range sample {
		task.Date, task.Title = task.Date.AddDate(0, 0, 9), says("other words")
		task.Until = time.Time{}
		moved[i] = task
	}
	later := head
	later.Stamp = day("2027-03-01")
	other := head
	other.Namespace = "S-18"
	was, now, theirs := ids(head, sample), ids(later, moved), ids(other, sample)
	// A task before the others that there was none of leaves them their own.
	if more := ids(head, append([]job.Task{{ID: "mow-0", Sort: job.Mowing, Date: day("2027-06-01"), Title: says("Mow")}}, sample...)); !slices.Equal(more[1:], was) {
		t.Errorf("with one more task before: %v, were %v", more[1:], was)
	}
	for i := range was {
		if was[i] != now[i] || was[i] == theirs[i] {
			t.Errorf("UID %s, later %s, of another plan %s", was[i], now[i], theirs[i])
		}
	}
}

func TestRefuses(t *testing.T) {
	for _, h := range []Head{{Namespace: "x"}, {Stamp: day("2027-01-01")}} {
		if err := write(&bytes.Buffer{}, h, sample, words(t)); err == nil {
			t.Errorf("no error for %+v", h)
		}
	}
	if err := write(brokenWriter{}, head, sample, words(t)); err == nil {
		t.Error("a failing writer goes unnoticed")
	}
}

type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func FuzzWrite(f *testing.F) {
	f.Add("Mow", "a;b,c\\\n", "Ærø")
	f.Add(strings.Repeat("ß", 200), "\xf0\x9f", "\r\n")
	f.Fuzz(func(t *testing.T, title, detail, name string) {
		h := head
		h.Title = name
		file := written(t, h, []job.Task{{Sort: job.Mowing, Date: day("2027-07-01"), Title: says(title), Detail: []told.Sentence{says(detail)}}})
		checkLines(t, file)
		cal, err := ics.ParseCalendar(strings.NewReader(file))
		if err != nil || len(cal.Events()) != 1 {
			t.Fatalf("%v in %q", err, file)
		}
	})
}
