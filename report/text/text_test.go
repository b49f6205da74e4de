package text

import (
	"bytes"
	"io"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"swardwright/internal/told"
	"swardwright/report/content"
	"swardwright/report/sample"
	"swardwright/report/say"
	"swardwright/site/light"
	"swardwright/site/weather"
	"swardwright/sowing"
	"swardwright/sowing/order"
)

func written(t *testing.T, write func(io.Writer) error) string {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestWidths writes every sample plan at several widths and finds no line too
// long for its terminal.
func TestWidths(t *testing.T) {
	for _, c := range sample.Cases() {
		for _, width := range []int{10, 60, 80, 100, 300} {
			look := Look{Width: width}
			page := written(t, func(w io.Writer) error { return Plan(w, *c.Plan, look, content.PartNames...) })
			if again := written(t, func(w io.Writer) error { return Plan(w, *c.Plan, look, content.PartNames...) }); again != page {
				t.Errorf("%s: two runs differ", c.Name)
			}
			most := min(max(width, MinWidth), maxWidth)
			for n, l := range strings.Split(page, "\n") {
				if utf8.RuneCountInString(l) > most && strings.Contains(strings.TrimSpace(l), " ") {
					t.Errorf("%s at %d: line %d has %d characters: %s", c.Name, width, n+1, utf8.RuneCountInString(l), l)
				}
				if strings.TrimRight(l, " ") != l || strings.ContainsAny(l, "\u00a0\x1b\t") {
					t.Errorf("%s at %d: line %d holds what a plain page does not: %q", c.Name, width, n+1, l)
				}
			}
		}
	}
}

// TestPlanTells looks for what a reader needs in the text of a full plan.
func TestPlanTells(t *testing.T) {
	p := sample.Full()
	page := strings.Join(strings.Fields(written(t, func(w io.Writer) error { return Plan(w, *p, Look{Width: 100}, content.PartNames...) })), " ")
	f, err := say.For(*p)
	if err != nil {
		t.Fatal(err)
	}
	plainly := func(s string) string { return strings.Join(strings.Fields(strings.ReplaceAll(s, "\u00a0", " ")), " ") }
	want := []string{strings.ToUpper(p.Brief.Title), f.Text(p.Headline), f.Figure(told.MassG(p.Rate.TotalG)), f.Figure(told.GramsPerM2(p.Rate.GM2)), f.Figure(told.AreaM2(p.Site.AreaM2))}
	for _, c := range p.Choice.Mixture.Components {
		want = append(want, f.Figure(told.Grass(c.Species.ID)))
	}
	for _, b := range p.Cost.Bills {
		want = append(want, f.Money(b.Total))
		if b.UsableFrom != nil {
			want = append(want, f.Date(*b.UsableFrom))
		}
	}
	want = append(want, f.All(p.Cautions)...)
	want = append(want, f.All(p.Assumptions)...)
	for _, s := range want {
		if !strings.Contains(strings.ToLower(page), strings.ToLower(plainly(s))) { // a sentence begins with a capital
			t.Errorf("the plan does not say %q", plainly(s))
		}
	}
	if i, j := strings.Index(page, plainly(f.Text(p.Headline))), strings.Index(page, "THE MIXTURE"); i < 0 || i > j {
		t.Error("the answer does not come first")
	}
}

// TestScreen: the answer of every plan fits on a screen of 80 columns and 24 lines, its
// prompt among them, says what to do next, and keeps money within 60 columns.
func TestScreen(t *testing.T) {
	for _, c := range sample.Cases() {
		page := written(t, func(w io.Writer) error { return Plan(w, *c.Plan, Look{Width: 80}) })
		if n := strings.Count(page, "\n"); n > 23 && c.Name != "names" { // a title of eight lines
			t.Errorf("%s: %d lines:\n%s", c.Name, n, page)
		}
		for l := range strings.Lines(page) {
			if strings.HasPrefix(l, "Seed ") && utf8.RuneCountInString(l) > 61 {
				t.Errorf("%s: the money takes %d columns: %s", c.Name, utf8.RuneCountInString(l)-1, l)
			}
		}
	}
	page := written(t, func(w io.Writer) error { return Plan(w, *sample.Full(), Look{Width: 80}) })
	for _, want := range []string{"COURT LAWN", "£4,251", "12 May 2027", "1. Choose the way", "Order 3.88", "--parts client,crew,evidence", "Prices are invented examples"} {
		if !strings.Contains(page, want) {
			t.Errorf("the answer does not say %q:\n%s", want, page)
		}
	}
}

// TestDraft: words that no one of the trade has read say so on the one screen and in the
// parts.
func TestDraft(t *testing.T) {
	p := sample.Full()
	p.Brief.Language = "sv"
	for _, parts := range [][]content.PartName{nil, {content.Client}} {
		page := written(t, func(w io.Writer) error { return Plan(w, *p, Look{Width: 80}, parts...) })
		if strings.Count(page, "Den svenska texten är ett utkast") != 1 {
			t.Errorf("%v: does not say that it is a draft:\n%s", parts, page)
		}
	}
}

func TestBold(t *testing.T) {
	page := written(t, func(w io.Writer) error { return Plan(w, *sample.Full(), Look{Width: 80, Bold: true}) })
	if !strings.Contains(page, "\x1b[1m") || strings.Count(page, "\x1b[1m") != strings.Count(page, "\x1b[0m") {
		t.Error("headings are not set in bold and back")
	}
}

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		text  string
		width int
		want  string
	}{
		{"", 10, ""},
		{"one two three", 7, "one two|three"},
		{"one two\u00a0three", 7, "one|two\u00a0three"},
		{"averyveryverylongword b", 5, "averyveryverylongword|b"},
		{"  a   b\n c ", 80, "a b c"},
		{"grün über", 5, "grün|über"},
	} {
		if got := strings.Join(wrap(c.text, c.width), "|"); got != c.want {
			t.Errorf("wrap(%q, %d) = %q, want %q", c.text, c.width, got, c.want)
		}
	}
}

func TestFold(t *testing.T) {
	lines := "how      " + strings.Repeat("word ", 14) + "\n  x = 1\n      " + strings.Repeat("said ", 13) + "\n"
	want := "how      " + strings.TrimSpace(strings.Repeat("word ", 10)) + "\n         word word word word\n  x = 1\n      " +
		strings.TrimSpace(strings.Repeat("said ", 11)) + "\n      said said\n"
	if got := written(t, func(w io.Writer) error { return Fold(w, []byte(lines), Look{Width: 60}) }); got != want {
		t.Errorf("folded\n%swant\n%s", got, want)
	}
}

func TestTable(t *testing.T) {
	columns := []column{{title: "n", right: true}, {title: "what"}, {title: "more", optional: true}}
	rows := [][]string{{"1", "short", "x"}, {"20", "a text that has to be wrapped somewhere", "yy"}}
	got := strings.Join(table(columns, rows, 30), "\n")
	want := ` n  what                  more
--  --------------------  ----
 1  short                 x
20  a text that has to    yy
    be wrapped somewhere`
	if got != want {
		t.Errorf("got:\n%s\nwant:\n%s", got, want)
	}
	got = strings.Join(table(columns, rows, 20), "\n")
	want = ` n  what        more
--  ----------  ----
 1  short       x
20  a text      yy
    that has
    to be
    wrapped
    somewhere`
	if got != want {
		t.Errorf("narrow, got:\n%s\nwant:\n%s", got, want)
	}
	got = strings.Join(table(columns, rows, 16), "\n")
	want = ` n  what
--  ------------
 1  short
20  a text that
    has to be
    wrapped
    somewhere`
	if got != want {
		t.Errorf("narrower, got:\n%s\nwant:\n%s", got, want)
	}
	got = strings.Join(table(columns[:2], [][]string{rows[0][:2], rows[1][:2], {"all of it together"}}, 10), "\n")
	want = `1
  what:
  short

20
  what: a
  text
  that has
  to be
  wrapped
  somewhere

all of it
together`
	if got != want {
		t.Errorf("no room for columns, got:\n%s\nwant:\n%s", got, want)
	}
}

func TestCompass(t *testing.T) {
	for deg, want := range map[float64]string{0: "north", 359: "north", 90: "east", -90: "west", 340: "north-north-west", 720: "north", 202: "south-south-west"} {
		if got := compass(deg); got != want {
			t.Errorf("compass(%v) = %s, want %s", deg, got, want)
		}
	}
}

// TestLight draws the light of every sample that has a place.
func TestLight(t *testing.T) {
	for _, c := range sample.Cases() {
		if c.Plan.Site == nil {
			continue
		}
		f, err := say.For(*c.Plan)
		if err != nil {
			t.Fatal(err)
		}
		page := written(t, func(w io.Writer) error { return Light(w, "x", c.Plan.Site.Field, 20, f, Look{Width: 70}) })
		for _, z := range c.Plan.Site.Field.Zones {
			if !strings.Contains(page, "\n"+z.Letter+" ") {
				t.Errorf("%s: zone %s is not told", c.Name, z.Letter)
			}
		}
		lines := strings.Split(page, "\n")
		for _, l := range lines {
			if utf8.RuneCountInString(l) > 70 {
				t.Errorf("%s: too long: %s", c.Name, l)
			}
		}
	}
}

func TestLawns(t *testing.T) {
	lawns := []Lawn{
		LawnOf("a.toml", *sample.Full()),
		{Name: "bad.toml", Fault: "not planned, see above"},
	}
	bulk := []Bulk{{Currency: "GBP", Order: order.Order{TotalMinor: 900, Short: map[string]float64{"hard-fescue": 40},
		Bags: []order.Bag{{Lot: "lot", SpeciesID: "hard-fescue", KG: 1, PriceMinor: 450, Count: 2}}}}}
	page := written(t, func(w io.Writer) error { return Lawns(w, lawns, bulk, Look{Width: 80}) })
	for _, want := range []string{"bad.toml", "1 of 2 planned", "2 × 1 kg", "9.00", "hard fescue"} {
		if !strings.Contains(page, want) {
			t.Errorf("the list does not say %q:\n%s", want, page)
		}
	}
}

func TestTables(t *testing.T) {
	tables, err := sowing.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	look := Look{Width: 80}
	for _, s := range tables.Species.All() {
		page := written(t, func(w io.Writer) error { return Species(w, s, look) })
		if !strings.Contains(page, s.Botanical) || !strings.Contains(page, "[1] ") {
			t.Errorf("%s: no name or no source", s.ID)
		}
	}
	list := written(t, func(w io.Writer) error { return SpeciesList(w, tables.Species.All(), look) })
	for _, s := range tables.Species.All() {
		if !strings.Contains(list, "\n"+s.ID+" ") {
			t.Errorf("the list lacks %s", s.ID)
		}
	}
	near := written(t, func(w io.Writer) error {
		return Stations(w, weather.ByDistance(tables.Stations.All(), 57.2, -3.8)[:3], 57.2, -3.8, look)
	})
	if !strings.Contains(strings.Split(near, "\n")[2], "Aviemore") {
		t.Errorf("the station nearest to Aviemore is another:\n%s", near)
	}
	all := written(t, func(w io.Writer) error { return Stations(w, tables.Stations.All(), math.NaN(), math.NaN(), look) })
	if n := strings.Count(all, "\n"); n < len(tables.Stations.All()) {
		t.Errorf("%d lines for %d stations", n, len(tables.Stations.All()))
	}
	prices, err := tables.Prices.In("SEK", nil)
	if err != nil {
		t.Fatal(err)
	}
	page := written(t, func(w io.Writer) error { return Prices(w, prices, look) })
	for _, want := range []string{"invented", "PRICES, SEK", "labour_per_hour", "mow_m2_per_hour", "tax_percent"} {
		if !strings.Contains(page, want) {
			t.Errorf("the price list does not say %q", want)
		}
	}
}

// TestMatrix writes and explains the matrix of every sample that has one.
func TestMatrix(t *testing.T) {
	for _, c := range sample.Cases() {
		p := c.Plan
		if p.Site == nil || len(p.Matrix.Rows) == 0 {
			continue
		}
		f, err := say.For(*p)
		if err != nil {
			t.Fatal(err)
		}
		page := written(t, func(w io.Writer) error { return Matrix(w, "x", p.Matrix, p.Site, f, Look{Width: 80}) })
		first := p.Matrix.Rows[0]
		why := written(t, func(w io.Writer) error { return Why(w, first.Species, p.Matrix, p.Site, f, Look{Width: 80}) })
		for _, z := range p.Site.Zones {
			if !strings.Contains(page, "\nZone "+z.Letter+", ") {
				t.Errorf("%s: zone %s is not in the matrix", c.Name, z.Letter)
			}
		}
		if !strings.Contains(page, "FAO Framework") || !strings.Contains(why, first.Species.Botanical) || !strings.Contains(why, "\nSOURCES\n") {
			t.Errorf("%s: the matrix does not explain itself", c.Name)
		}
	}
}

func TestDays(t *testing.T) {
	f, err := say.New("en-GB", "metric", "", nil)
	if err != nil {
		t.Fatal(err)
	}
	probes := []light.ProbeDays{
		{Probe: light.Probe{Name: "seat"}, Days: []light.DaySun{{Day: 15, SunHours: 3.256}, {Day: 172, SunHours: 9}}},
		{Probe: light.Probe{Name: "door"}, Days: []light.DaySun{{Day: 15}, {Day: 172, SunHours: 0.5}}},
	}
	page := written(t, func(w io.Writer) error { return Days(w, "x", probes, f, Look{Width: 60}) })
	for _, want := range []string{"15", "15 Jan", "3.26", "21 Jun", "9.00", "0.50", "- (2) door"} {
		if !strings.Contains(page, want) {
			t.Errorf("the days do not say %q:\n%s", want, page)
		}
	}
}
