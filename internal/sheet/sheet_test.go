package sheet

import (
	"fmt"
	"math"
	"strings"
	"swardwright/internal/told"
	"testing"
	"time"
)

// faults opens a text, lets it be read, and gives what is said of it.
func faults(text string, read func(*Sheet)) string {
	s := Open("", []byte(text))
	if read != nil {
		read(s)
	}
	if err := s.Faults(); err != nil {
		return err.Error()
	}
	return ""
}

func TestReaders(t *testing.T) {
	s := Open("x.toml", []byte(`
name = "lawn"
count = 3
share = 0.25
on = true
day = 2027-03-15
list = [1, 2.5]
corner = [2, -1.5]
corners = [[0, 0], [1, 0], [1, 1]]
months = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]
price = 9.40
[place]
kind = "tree"
[[thing]]
n = 1
[[thing]]
n = 2
`))
	name, _ := s.Text("name")
	count, _ := s.Number("count", 0, 10)
	on, given := s.Flag("on")
	day := s.Date("day")
	list, _ := s.Numbers("list", 0, 10)
	corner, _ := s.Pair("corner", -10, 10)
	corners, _ := s.Pairs("corners", "corners", 3, [2]float64{-9, -9}, [2]float64{9, 9})
	months := s.Months("months", 0, 12)
	price, _ := s.Price("price", 100)
	kind, _ := Choice(s.Table("place"), "kind", "tree", "wall")
	if name != "lawn" || count != 3 || !on || !given || kind != "tree" || price != "9.4" {
		t.Errorf("read %q %v %v %q %q", name, count, on, kind, price)
	}
	if day == nil || !day.Equal(time.Date(2027, 3, 15, 0, 0, 0, 0, time.UTC)) {
		t.Errorf("day %v", day)
	}
	if len(list) != 2 || list[1] != 2.5 || corner != (Pair{2, -1.5}) || len(corners) != 3 || months == nil || months[11] != 12 {
		t.Errorf("lists %v %v %v %v", list, corner, corners, months)
	}
	if f := s.Optional("share", 0, 1); f == nil || *f != 0.25 {
		t.Errorf("share %v", f)
	}
	if f := s.Optional("absent", 0, 1); f != nil || s.Given("absent") {
		t.Errorf("an absent key is given as %v", f)
	}
	if v := s.NumberOr("taken", 0, 9, 4, told.Say("test.taken")); v != 4 || len(s.Assumed()) != 1 {
		t.Errorf("an absent key took %v and noted %v", v, s.Assumed())
	}
	sum := 0.0
	for _, x := range s.Tables("thing") {
		n, _ := x.Number("n", 0, 9)
		sum += n
	}
	if sum != 3 {
		t.Errorf("tables add to %v", sum)
	}
	if err := s.Faults(); err != nil {
		t.Errorf("faults of a sound text: %v", err)
	}
}

// TestWholeText has texts that cannot be read at all.
func TestWholeText(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"too long", strings.Repeat("# a lawn\n", MaxBytes/9+1), "is longer than 1024 kB; a brief is a few kB of text"},
		{"UTF-16", "\xff\xfet\x00", "is UTF-16 text; save it as UTF-8"},
		{"Windows-1252", "a = 1\nname = \"\xd6stersund\"", "line 2: is not UTF-8 (byte 0xd6); save it as UTF-8"},
		{"NUL", "a = 1\n\x00", "line 2: holds a NUL byte; is this a text file? save it as UTF-8"},
		{"deep brackets", "a = " + strings.Repeat("[", 100000), "line 1: more than 12 brackets or tables inside each other"},
		{"deep braces", "a = " + strings.Repeat("{a=", 100000), "line 1: more than 12 brackets or tables inside each other"},
		{"deep tables", "[" + strings.Repeat("a.", 100000) + "a]", "line 1: more than 12 brackets or tables inside each other"},
		{"long key", strings.Repeat("k", 5000) + " = 1", "line 1: a key is longer than 100 characters"},
		{"unclosed string over lines", "a = '''\n\n", "line 2: cannot be read as part of a, which begins on line 1; is a bracket, comma or quote missing?"},
	} {
		if got := faults(c.text, nil); got != c.want {
			t.Errorf("%s:\ngot:  %s\nwant: %s", c.name, got, c.want)
		}
	}
}

// TestForms has texts that are odd but sound.
func TestForms(t *testing.T) {
	for _, c := range []struct{ name, text string }{
		{"byte order mark", "\ufeffa = 1\n"},
		{"carriage returns", "a = 1\r\nb = 2\r\n"},
		{"no line end", "a = 1"},
		{"comments and blank lines", "\n# note\n\n a = 1 # more\n"},
		{"quoted keys", "\"a\" = 1\n'b' = 2\n"},
		{"dotted keys", "t.x = 1\n"},
	} {
		got := faults(c.text, func(s *Sheet) {
			s.Number("a", 0, 1)
			s.Number("b", 2, 2)
			s.Table("t").Number("x", 1, 1)
		})
		if got != "" {
			t.Errorf("%s: %s", c.name, got)
		}
	}
}

// TestLines checks that faults name the line where the value stands, whatever
// stands around it.
func TestLines(t *testing.T) {
	text := `# one
a = [
  1, # two brackets ]] in a note
  "x", # line 4
]
b = "a [quoted] # text" # six
c = """
several
lines"""
d = 'x' # ten
[t]
e = { f = 1, g = "y" } # twelve
[[u.v]]
h = 1
[[u.v]]
h = "z" # sixteen
`
	got := faults(text, func(s *Sheet) {
		s.Numbers("a", 0, 9)
		s.Number("b", 0, 9)
		s.Number("c", 0, 9)
		s.Number("d", 0, 9)
		e := s.Table("t").Table("e")
		e.Number("f", 0, 9)
		e.Number("g", 0, 9)
		for _, x := range s.Table("u").Tables("v") {
			x.Number("h", 0, 9)
		}
	})
	want := `a[2] (line 4): needs a number from 0 to 9, is "x"
b (line 6): needs a number from 0 to 9, is "a [quoted] # text"
c (line 7): needs a number from 0 to 9, is "several\nlines"
d (line 10): needs a number from 0 to 9, is "x"
t.e.g (line 12): needs a number from 0 to 9, is "y"
u.v[2].h (line 16): needs a number from 0 to 9, is "z"`
	if got != want {
		t.Errorf("got:\n%s\nwant:\n%s", got, want)
	}
}

// TestLinesBesides checks lines that only the rest of a text tells: those after a
// bracket that stays open, which its own line no longer holds once it is left out, and
// that of a table known only from its parts, until it has a head of its own.
func TestLinesBesides(t *testing.T) {
	for text, want := range map[string]string{
		"a = [1 2\nb = 1\n": "a (line 1): brackets do not match: one is missing or one too many\n" +
			"b (line 2): is not a key of a brief",
		"[p.q]\nx = 1\n":                "p (line 1): is not a key of a brief",
		"[p.q]\nx = 1\n[p]\ny = \"\"\n": "p (line 3): is not a key of a brief",
	} {
		if got := faults(text, nil); got != want {
			t.Errorf("%q: got\n%s\nwant\n%s", text, got, want)
		}
	}
}

// TestManyFaults keeps the list of faults to what a reader can use.
func TestManyFaults(t *testing.T) {
	var b strings.Builder
	for range 3000 {
		b.WriteString("[[t]]\nx = 1\n")
	}
	got := faults(b.String(), func(s *Sheet) { s.Tables("t") })
	lines := strings.Split(got, "\n")
	if len(lines) != maxFaults+1 || !strings.Contains(lines[maxFaults], "more faults from here on") {
		t.Errorf("%d lines, the last: %s", len(lines), lines[len(lines)-1])
	}
}

func TestNearest(t *testing.T) {
	words := []string{"latitude", "longitude", "altitude_m", "station", "height_m"}
	for _, c := range []struct{ word, want string }{
		{"latitude", "latitude"}, {"latitud", "latitude"}, {"lattitude", "latitude"}, {"lat", "latitude"},
		{"longtitude", "longitude"}, {"altitude", "altitude_m"}, {"hieght_m", "height_m"}, {"HEIGHT_M", "height_m"},
		{"sprinkler", ""}, {"", ""}, {"x", ""},
	} {
		if got := Nearest(c.word, words); got != c.want {
			t.Errorf("Nearest(%q) = %q, want %q", c.word, got, c.want)
		}
	}
}

// TestDistance has worked examples of the restricted distance (optimal string
// alignment): "CA" to "ABC" takes 3 where swaps may not be cut open again.
func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"", "", 0}, {"", "abc", 3}, {"kitten", "sitting", 3}, {"ca", "abc", 3}, {"ab", "ba", 1}, {"örn", "orn", 1},
	} {
		if got := Distance(c.a, c.b); got != c.want || Distance(c.b, c.a) != c.want {
			t.Errorf("Distance(%q, %q) = %d, want %d", c.a, c.b, got, c.want)
		}
	}
	if Distance(strings.Repeat("a", 1000), "b") != math.MaxInt {
		t.Error("long words are measured")
	}
}

// FuzzOpen reads any text without a panic, in time, and with the same faults
// each time. What the decoder accepts, the walk for lines has to know the place of.
func FuzzOpen(f *testing.F) {
	for _, s := range []string{
		"a = 1", "a = [1, [2, {b = 3}]]", "[t]\nx = 'y'", "[[t]]\n[[t]]\nx.y = \"\"\"z\"\"\"", "a = 2027-02-30", "a = 1,5",
		"a = {", "a = [}", "[", "[[", "=", "a = \"", "\ufeffa=1\r\n", "a = '''", "\"\\u0041\" = 1", "a.b.c = 1\n[a]\nd = 2", "'' = 1",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		read := func() (string, *Sheet) {
			s := Open("", text)
			s.Number("a", 0, 1)
			s.Pairs("a", "corners", 3, [2]float64{}, [2]float64{})
			for _, x := range s.Tables("t") {
				x.Text("x")
			}
			s.Table("t").Date("x")
			sound := s.Sound()
			if err := s.Faults(); err != nil {
				return err.Error(), s
			}
			if !sound {
				t.Error("unsound without a fault")
			}
			return "", s
		}
		first, s := read()
		if again, _ := read(); again != first {
			t.Errorf("first %q, then %q", first, again)
		}
		for key := range s.table {
			if s.book.damaged[""] || strings.ContainsAny(key, "\\\"'.[]") || key == "" {
				continue // written in a way that need not be its path
			}
			if s.book.line[join("", key)] == 0 && !strings.Contains(string(text), `\`) {
				t.Errorf("the line of %q is not known", key)
			}
		}
	})
}

func BenchmarkOpen(b *testing.B) {
	text := []byte(strings.Repeat("[[obstacle]]\nname = \"a wall\"\nfootprint = [[0, 0], [1, 0], [1, 1], [0, 1]]\nheight_m = 3\n", 100))
	for b.Loop() {
		Open("", text)
	}
}

// TestHintsOnlyWhereShown: of faults beyond those that are shown, none is thought
// about.
func TestHintsOnlyWhereShown(t *testing.T) {
	var text strings.Builder
	for i := range 3 * maxFaults {
		fmt.Fprintf(&text, "x%d = 1\n", i)
	}
	s := Open("", []byte(text.String()))
	asked := 0
	for i := range 2 * maxFaults {
		s.Hintf(fmt.Sprintf("x%d", i), func() string { asked++; return "; a hint" }, "is wrong")
	}
	faults := s.Faults().(Faults)
	if len(faults) != maxFaults+1 || asked == 0 || asked > maxFaults {
		t.Errorf("%d faults shown, %d hints thought of", len(faults), asked)
	}
	if first, last := faults[0], faults[maxFaults]; first.Path != "x0" || !strings.HasSuffix(first.Text, "; a hint") || !strings.HasSuffix(last.Text, "more faults from here on") {
		t.Errorf("first %v, last %v", first, last)
	}
}

// TestQuotedKeys: a key that is no bare one stands in quotes in the path of its
// fault, so that it cannot pass for another.
func TestQuotedKeys(t *testing.T) {
	got := faults("[lawn]\n\"area.m2\" = 1\n\"x\\ny (line 9)\" = 2\n", func(s *Sheet) { s.Table("lawn").Number("area_m2", 0, 9) })
	want := "lawn.\"area.m2\" (line 2): is not a key of [lawn]; did you mean area_m2?\n" +
		"lawn.\"x\\ny (line 9)\" (line 3): is not a key of [lawn]"
	if got != want {
		t.Errorf("got:\n%s\nwant:\n%s", got, want)
	}
}
