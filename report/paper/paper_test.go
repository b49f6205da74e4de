package paper

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"swardwright/data"
	"swardwright/internal/briefs"
	"swardwright/internal/told"
	"swardwright/report"
	"swardwright/report/content"
	"swardwright/report/draw"
	"swardwright/report/face"
	"swardwright/report/sample"
	"swardwright/report/say"
	"swardwright/sowing"
)

// TestSheets lays every sample out on both papers and looks at every text: none
// leaves the margins, none stands on another; and no line or area leaves the paper's
// margins either.
func TestSheets(t *testing.T) {
	for _, c := range sample.Cases() {
		checkSheets(t, c.Name, c.Plan)
	}
}

// TestDemos lays out the demo plans in the same way, as they are worked out.
func TestDemos(t *testing.T) {
	if testing.Short() {
		t.Skip("works out whole plans")
	}
	demos, err := data.FS.ReadDir("demo")
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range demos {
		text, err := data.FS.ReadFile("demo/" + d.Name())
		if err != nil {
			t.Fatal(err)
		}
		brief, err := sowing.ReadBrief(d.Name(), text, nil)
		if err != nil {
			t.Fatal(err)
		}
		plan, err := sowing.NewPlan(context.Background(), tables(t), brief)
		if err != nil {
			t.Fatal(err)
		}
		checkSheets(t, d.Name(), &plan)
		checkPages(t, d.Name(), &plan, "")
	}
}

func checkSheets(t *testing.T, plan string, p *sowing.Plan) {
	for _, name := range []string{"a4", "letter"} {
		b, err := layOut(p, Options{Paper: name, Parts: content.PartNames})
		if err != nil {
			t.Fatal(plan, err)
		}
		checkBook(t, plan, b, name)
	}
}

func checkBook(t *testing.T, plan string, b *book, name string) {
	t.Helper()
	size := formats[name]
	for i, s := range b.sheets {
		at := fmt.Sprintf("%s on %s, page %d", plan, name, i+1)
		texts := draw.Texts(s.items)
		for k, p := range texts {
			for _, q := range p.Corners {
				if q.X < size.left-0.3 || q.X > size.left+column+0.3 || q.Y < 10 || q.Y > size.h-10 {
					t.Errorf("%s: %q leaves the margins at %.1f, %.1f", at, p.S, q.X, q.Y)
					break
				}
			}
			for _, other := range texts[:k] {
				if p.Overlap(other, 0.2) {
					t.Errorf("%s: %q stands on %q", at, p.S, other.S)
				}
			}
		}
		for _, q := range ink(s.items, 0, 0, nil) {
			if q.X < size.left-0.8 || q.X > size.left+column+0.8 || q.Y < 10 || q.Y > size.h-10 {
				t.Errorf("%s: ink outside the margins at %.1f, %.1f", at, q.X, q.Y)
				break
			}
		}
		if len(texts) < 2 {
			t.Errorf("%s: has nothing on it", at)
		}
	}
}

// ink are the corners of lines and areas, cut to the clips around them.
func ink(items []draw.Item, dx, dy float64, clip *draw.Box) []draw.Point {
	var out []draw.Point
	add := func(ps []draw.Point) {
		for _, p := range ps {
			p.X, p.Y = p.X+dx, p.Y+dy
			if clip != nil {
				p.X, p.Y = min(max(p.X, clip.X), clip.X+clip.W), min(max(p.Y, clip.Y), clip.Y+clip.H)
			}
			out = append(out, p)
		}
	}
	for _, it := range items {
		switch v := it.(type) {
		case draw.Line:
			add(v.Points)
		case draw.Area:
			add(v.Points)
		case draw.Group:
			inner := clip
			if len(v.Clip) > 0 && clip == nil {
				x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
				for _, p := range v.Clip {
					x0, y0, x1, y1 = min(x0, p.X), min(y0, p.Y), max(x1, p.X), max(y1, p.Y)
				}
				inner = &draw.Box{X: x0 + dx + v.DX, Y: y0 + dy + v.DY, W: x1 - x0, H: y1 - y0}
			}
			out = append(out, ink(v.Items, dx+v.DX, dy+v.DY, inner)...)
		}
	}
	return out
}

// words is all text of a book, sheet by sheet, with plain spaces.
func words(b *book) []string {
	var out []string
	for _, s := range b.sheets {
		var sb strings.Builder
		for _, t := range draw.Texts(s.items) {
			sb.WriteString(t.S + " ")
		}
		out = append(out, strings.ReplaceAll(sb.String(), "\u00a0", " "))
	}
	return out
}

// TestAnswer: page one holds what the client asks, and every page its number and,
// with example prices, the warning.
func TestAnswer(t *testing.T) {
	b, err := layOut(sample.Full(), Options{Paper: "a4"})
	if err != nil {
		t.Fatal(err)
	}
	pages := words(b)
	for _, want := range []string{"Court lawn at Nowhere Lodge", "INV-0042", "1 February 2027", "A. Nobody", "12 May 2027", "6 Aug 2027", "everyday lawn", "93%", "81%",
		"£4,250", "£5,250", "£4,250.97", "£5,252.71", "Which way shall it be?", "Accepted for the client", "deposit", "Signature"} {
		if !strings.Contains(pages[0], want) {
			t.Errorf("page one has no %q", want)
		}
	}
	for i, p := range pages {
		if !strings.Contains(p, fmt.Sprintf("Page %d of %d", i+1, len(pages))) {
			t.Errorf("page %d is not numbered", i+1)
		}
		if !strings.Contains(p, "Prices are invented examples") {
			t.Errorf("page %d does not say that prices are invented", i+1)
		}
	}
}

// TestDraft: words that no one of the trade has read say so on every page, others nowhere.
func TestDraft(t *testing.T) {
	for _, language := range []string{"sv", "de", "en-GB"} {
		p := sample.Full()
		p.Brief.Language = language
		b, err := layOut(p, Options{Parts: content.PartNames})
		if err != nil {
			t.Fatal(err)
		}
		for i, page := range words(b) {
			if says := strings.Contains(page, "Den svenska texten är ett utkast"); says != (language == "sv") {
				t.Errorf("%s, page %d: says that it is a draft: %v", language, i+1, says)
			}
		}
	}
}

// TestNothingIsCut: every word of the document stands on some sheet.
func TestNothingIsCut(t *testing.T) {
	for _, c := range sample.Cases() {
		b, err := layOut(c.Plan, Options{Parts: content.PartNames})
		if err != nil {
			t.Fatal(c.Name, err)
		}
		have := map[string]int{}
		for _, p := range words(b) {
			for _, w := range strings.Fields(p) {
				have[w]++
			}
		}
		f, _ := say.For(*c.Plan)
		for _, p := range content.New(c.Plan, f, content.PartNames...).Parts {
			for _, s := range p.Sections {
				for _, text := range texts(s.Blocks) {
					for _, w := range strings.Fields(strings.ReplaceAll(clean(text), "\u00a0", " ")) {
						if len(w) < 14 && !strings.ContainsAny(w, "-/–") && have[w] == 0 { // longer ones may be broken
							t.Errorf("%s, %s: %q is missing", c.Name, s.ID, w)
						}
					}
				}
			}
		}
	}
}

func texts(blocks []content.Block) []string {
	var out []string
	for _, b := range blocks {
		switch v := b.(type) {
		case content.Lead:
			out = append(out, v.S)
		case content.Heading:
			out = append(out, v.S)
		case content.Text:
			out = append(out, v.S)
		case content.Note:
			out = append(out, v.S)
		case content.Notice:
			out = append(append(out, v.Title), v.Items...)
		case content.List:
			out = append(out, v.Items...)
		case content.Facts:
			for _, f := range v.Items {
				out = append(out, f.Label, f.Value, f.Note)
			}
		case content.Details:
			for _, d := range v.Items {
				out = append(out, d[0], d[1])
			}
		case content.Table:
			for _, col := range v.Columns {
				out = append(out, col.Title)
			}
			for _, r := range v.Rows {
				out = append(out, r.Cells...)
			}
		case content.Figure:
			if v.Draw(column, draw.PlanHeight) != nil {
				out = append(out, v.Caption)
			}
		case content.Beside:
			out = append(append(out, texts(v.Left)...), texts(v.Right)...)
		case content.Choice:
			out = append(append(out, v.Title), v.Options...)
		case content.Signatures:
			out = append(append(out, v.Roles...), v.Lines...)
		}
	}
	return out
}

// TestNoOrphans: no heading is the last thing on a page, and a table that goes on
// overleaf repeats its head.
func TestNoOrphans(t *testing.T) {
	for _, c := range sample.Cases() {
		b, err := layOut(c.Plan, Options{Parts: content.PartNames})
		if err != nil {
			t.Fatal(c.Name, err)
		}
		for _, m := range b.marks {
			lowest := 0.0
			for _, p := range draw.Texts(b.sheets[m.sheet].items) {
				if y := p.Corners[2].Y; y < b.h-20 { // not the footer
					lowest = max(lowest, y)
				}
			}
			if lowest < m.y+9 {
				t.Errorf("%s: heading %q stands alone at the foot of page %d", c.Name, m.title, m.sheet+1)
			}
		}
	}
	b, err := layOut(crowded(t), Options{Paper: "a4", Parts: content.PartNames})
	if err != nil {
		t.Fatal(err)
	}
	heads := 0
	for _, p := range words(b) {
		if strings.Contains(p, "One more thing to bring") {
			heads++
			if !strings.Contains(p, "Quantity") || !strings.Contains(p, "Amount,") {
				t.Error("a page of the bill has no table head")
			}
			if heads > 1 && !strings.Contains(p, "continued") {
				t.Error("a bill that goes on overleaf does not say so")
			}
		}
	}
	if heads < 2 {
		t.Errorf("the long bill is on %d pages; the test needs two", heads)
	}
}

func crowded(t testing.TB) *sowing.Plan {
	t.Helper()
	for _, c := range sample.Cases() {
		if c.Name == "crowded" {
			return c.Plan
		}
	}
	t.Fatal("no crowded sample")
	return nil
}

// TestOutline: the outline never skips a level, every part and every section is in it,
// and the contents of the evidence lead to its sections.
func TestOutline(t *testing.T) {
	b, err := layOut(sample.Full(), Options{Parts: content.PartNames})
	if err != nil {
		t.Fatal(err)
	}
	level := -1
	has := map[string]bool{}
	for _, m := range b.marks {
		if m.level > level+1 {
			t.Errorf("%q skips a level", m.title)
		}
		level = m.level
		has[m.title] = true
	}
	for _, want := range []string{"Court lawn at Nowhere Lodge", "For the client", "The lawn", "The year", "The price", "For the crew", "The work, in order", "The evidence", "The place and its light", "Assumptions and sources"} {
		if !has[want] {
			t.Errorf("%q is not in the outline: %v", want, has)
		}
	}
	links := map[string]bool{}
	for _, s := range b.sheets {
		for _, p := range draw.Texts(s.items) {
			if p.Link != "" {
				links[p.Link] = true
			}
		}
	}
	for link := range links {
		if _, ok := b.places[link]; !ok {
			t.Errorf("a link to %q leads nowhere", link)
		}
	}
	if len(links) < 8 {
		t.Errorf("only %d sections in the contents", len(links))
	}
}

// TestPages: the client's part and the crew's have at most four pages each.
func TestPages(t *testing.T) {
	for _, c := range sample.Cases() {
		if c.Name == "names" || c.Name == "crowded" { // terms, bills and tasks past all reason
			continue
		}
		for _, paper := range []string{"a4", "letter"} {
			checkPages(t, c.Name, c.Plan, paper)
		}
	}
}

func checkPages(t *testing.T, name string, p *sowing.Plan, paper string) {
	t.Helper()
	for _, part := range []content.PartName{content.Client, content.Crew} {
		b, err := layOut(p, Options{Paper: paper, Parts: []content.PartName{part}})
		if err != nil {
			t.Fatal(name, err)
		}
		if len(b.sheets) > most[part] {
			t.Errorf("%s on %s: the %s's part has %d pages", name, paper, part, len(b.sheets))
		}
	}
}

// TestPagesOfBriefs: most lawns come within the pages of their parts, and what a brief
// by chance asks for at its worst (walls by the dozen, terms by the page) never runs
// away.
func TestPagesOfBriefs(t *testing.T) {
	if testing.Short() {
		t.Skip("works out whole plans")
	}
	const lawns, worst = 24, 7
	built := tables(t)
	over := map[content.PartName]int{}
	for seed := range uint64(lawns) {
		b := briefs.Random(seed + 1)
		brief, err := sowing.ReadBrief("brief.toml", []byte(b.Text), b.Open)
		if err != nil {
			t.Fatal(seed, err)
		}
		plan, err := sowing.NewPlan(context.Background(), built, brief)
		if err != nil {
			t.Fatal(seed, err)
		}
		checkSheets(t, fmt.Sprint("brief ", seed+1), &plan)
		for _, part := range []content.PartName{content.Client, content.Crew} {
			laid, err := layOut(&plan, Options{Parts: []content.PartName{part}})
			if err != nil {
				t.Fatal(seed, err)
			}
			if n := len(laid.sheets); n > worst {
				t.Errorf("brief %d: the %s's part has %d pages", seed+1, part, n)
			} else if n > allowed(t, &plan, part) {
				over[part]++
				t.Logf("brief %d: the %s's part has %d pages", seed+1, part, n)
			}
		}
	}
	for part, n := range over {
		if n > lawns/6 {
			t.Errorf("the %s's part of %d lawns of %d has more pages than it may", part, n, lawns)
		}
	}
}

// TestNoEmptyPaper: a part that a plan has nothing for is no empty page.
func TestNoEmptyPaper(t *testing.T) {
	for _, c := range sample.Cases() {
		if c.Plan.Kind != "" {
			continue
		}
		b, err := layOut(c.Plan, Options{Parts: []content.PartName{content.Crew}})
		if err != nil {
			t.Fatal(err)
		}
		if text := strings.Join(words(b), ""); len(b.sheets) != 1 || !strings.Contains(text, "No grass will hold here") {
			t.Errorf("%s: %d sheets: %q", c.Name, len(b.sheets), text)
		}
		return
	}
	t.Error("no sample without grass")
}

// allowed is how many pages a part of a plan may have.
func allowed(t *testing.T, p *sowing.Plan, part content.PartName) int {
	t.Helper()
	f, err := say.For(*p)
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range content.New(p, f, part).Parts {
		return pagesOf(x)
	}
	return 0
}

// TestCompared: lawns beside each other go on a page as long as one table holds them,
// with each lawn drawn, named and to be chosen, and the better of what differs in words.
func TestCompared(t *testing.T) {
	f, err := say.For(*sample.Full())
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range []int{2, 4, 7} {
		all := compared(n)
		for _, name := range []string{"a4", "letter"} {
			b, err := set(content.Comparison(all, f), f, name, all[0].Plan.Date)
			if err != nil {
				t.Fatal(err)
			}
			checkBook(t, fmt.Sprint(n, " lawns"), b, name)
			if want := (n + 1) / 3; len(b.sheets) > want {
				t.Errorf("%d lawns on %s have %d pages, not %d", n, name, len(b.sheets), want)
			}
			text := strings.Join(words(b), " ")
			for i, c := range all {
				if got := strings.Count(text, c.Name); got < 2 {
					t.Errorf("lawn %d of %d is named %d times", i+1, n, got)
				}
			}
			for _, want := range []string{"(better)", "Which shall it be?", "£1,000 more to pay", "6 points more of cover (4 to 9 in 8 cases of 10)"} {
				if !strings.Contains(text, want) {
					t.Errorf("%d lawns: no %q", n, want)
				}
			}
		}
	}
	var file bytes.Buffer
	if err := Compared(&file, compared(3), Options{}); err != nil || !bytes.HasPrefix(file.Bytes(), []byte("%PDF")) {
		t.Error("no PDF", err)
	}
}

// compared are n lawns, each after the first dearer and of more cover.
func compared(n int) []sowing.Compared {
	all := []sowing.Compared{{Name: "as found", Plan: *sample.Full()}}
	for i := 1; i < n; i++ {
		p := *sample.Full()
		m := *p.Mixture
		m.CoverExpected += 0.06
		p.Mixture = &m
		p.Bill.Total.Minor += 100000
		all = append(all, sowing.Compared{Name: fmt.Sprintf("change %c", 'A'+i), Plan: p,
			Gain: &sowing.Gain{Cover: sowing.Spread{Middle: 0.06, Low: 0.04, High: 0.09}, CostMinor: new(int64(100000))}})
	}
	return all
}

// TestFigures holds the sums, dates and weights of the JSON against the words of the
// print.
func TestFigures(t *testing.T) {
	p := sample.Full()
	var file bytes.Buffer
	if err := report.JSON(&file, *p); err != nil {
		t.Fatal(err)
	}
	var j struct {
		Cost struct {
			Ways []struct {
				Total    string
				Usable   string `json:"usable_from"`
				P10, P90 string
				Lines    []struct{ Item, Amount string }
			}
		}
		Mixture struct {
			Components []struct {
				Percent int `json:"percent_by_weight"`
				Grams   float64
			}
		}
		Tasks []struct{ Date string }
	}
	if err := json.Unmarshal(file.Bytes(), &j); err != nil {
		t.Fatal(err)
	}
	f, err := say.For(*p)
	if err != nil {
		t.Fatal(err)
	}
	b, err := layOut(p, Options{Parts: content.PartNames})
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Join(words(b), " ")
	want := func(s string) {
		t.Helper()
		if s = strings.ReplaceAll(s, "\u00a0", " "); !strings.Contains(all, s) {
			t.Errorf("%q of the JSON is not in the print", s)
		}
	}
	day := func(s string) time.Time {
		d, err := time.Parse(time.DateOnly, s)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	for _, w := range j.Cost.Ways {
		for _, sum := range []string{w.Total} {
			x, err := strconv.ParseFloat(sum, 64)
			if err != nil {
				t.Fatal(err)
			}
			want(f.Number(x, 2))
		}
		want(f.Figure(told.Period{From: day(w.Usable)}))
		for _, l := range w.Lines {
			x, err := strconv.ParseFloat(l.Amount, 64)
			if err != nil {
				t.Fatal(err)
			}
			want(f.Number(x, 2))
		}
	}
	for _, c := range j.Mixture.Components {
		want(f.Percent(float64(c.Percent) / 100))
		want(f.Number(c.Grams/1000, 2) + " kg")
	}
	for _, k := range j.Tasks {
		want(f.DayMonth(day(k.Date)))
	}
}

func print(t testing.TB, p *sowing.Plan, opt Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, p, opt); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// TestSameBytes prints every sample twice.
func TestSameBytes(t *testing.T) {
	for _, c := range sample.Cases() {
		one, two := print(t, c.Plan, Options{}), print(t, c.Plan, Options{})
		if !bytes.Equal(one, two) {
			t.Errorf("%s: two prints differ", c.Name)
		}
		if !bytes.HasPrefix(one, []byte("%PDF-1.")) || !bytes.HasSuffix(bytes.TrimSpace(one), []byte("%%EOF")) {
			t.Errorf("%s: not a whole PDF", c.Name)
		}
		if len(one) > 600_000 {
			t.Errorf("%s: %d bytes", c.Name, len(one))
		}
	}
}

// TestColours follows the graphics state through the page (q, Q and the colour
// operators of ISO 32000-1, 8.4.2 and 8.6.8) and checks that each text is set in the
// colour that its item asks for, and no line is dashed by another's leave.
func TestColours(t *testing.T) {
	b, err := layOut(sample.Full(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	b.plain = true
	var file bytes.Buffer
	if err := b.write(&file); err != nil {
		t.Fatal(err)
	}
	var want []string
	for _, s := range b.sheets {
		for _, p := range draw.Texts(s.items) {
			if p.S == "" {
				continue
			}
			r, g, bl := p.Color.RGB()
			want = append(want, fmt.Sprintf("%.3f %.3f %.3f", float64(r)/255, float64(g)/255, float64(bl)/255))
		}
	}
	type state struct{ fill string }
	var now state
	var stack []state
	var got []string
	inStream := false
	for _, l := range strings.Split(file.String(), "\n") {
		switch {
		case strings.HasPrefix(l, "stream"):
			inStream, now, stack = true, state{"0.000 0.000 0.000"}, nil
		case strings.HasPrefix(l, "endstream"):
			inStream = false
		}
		if !inStream || len(l) > 4000 {
			continue
		}
		f := strings.Fields(l)
		for i, op := range f {
			switch op {
			case "q":
				stack = append(stack, now)
			case "Q":
				if len(stack) > 0 {
					now, stack = stack[len(stack)-1], stack[:len(stack)-1]
				}
			case "rg":
				if i >= 3 {
					now.fill = strings.Join(f[i-3:i], " ")
				}
			case "g":
				if i >= 1 && !strings.Contains(l, "Tj") {
					now.fill = strings.Join([]string{f[i-1], f[i-1], f[i-1]}, " ")
				} else if i == 2 { // "q 0.102 g BT …"
					now.fill = strings.Join([]string{f[1], f[1], f[1]}, " ")
				}
			case "Td":
				got = append(got, now.fill)
			}
			if op == "Td" { // the text itself may hold anything
				if strings.HasPrefix(l, "q ") {
					now, stack = stack[len(stack)-1], stack[:len(stack)-1]
				}
				break
			}
		}
	}
	if len(got) != len(want) {
		t.Fatalf("%d texts in the file, %d on the sheets", len(got), len(want))
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("text %d is set in %s, want %s", i, got[i], want[i])
		}
	}
}

// TestNoGrowth prints many plans in a row: nothing of one may stay for the next.
func TestNoGrowth(t *testing.T) {
	if testing.Short() {
		t.Skip("prints many plans")
	}
	p := sample.Full()
	held := func(times int) uint64 {
		for range times {
			if err := Write(io.Discard, p, Options{}); err != nil {
				t.Fatal(err)
			}
		}
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	before := held(10)
	if after := held(50); after > before+1<<20 {
		t.Errorf("%d bytes more are held after 50 plans", after-before)
	}
}

// TestErrors: what cannot be printed is an error, never a panic or a broken file.
func TestErrors(t *testing.T) {
	for want, try := range map[string]func(p *sowing.Plan) Options{
		"neither a4 nor letter": func(*sowing.Plan) Options { return Options{Paper: "a3"} },
		"language":              func(p *sowing.Plan) Options { p.Brief.Language = "???"; return Options{} },
	} {
		p := sample.Full()
		opt := try(p)
		if err := Write(io.Discard, p, opt); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("want an error with %q, got %v", want, err)
		}
	}
	bad := &book{w: 210, h: 297, sheets: []*sheet{{items: []draw.Item{draw.Line{Points: []draw.Point{{X: math.NaN()}, {}}, Stroke: draw.Stroke{Color: draw.Ink, MM: 1}}}}}}
	if err := bad.write(io.Discard); err == nil || !strings.Contains(err.Error(), "page 1") {
		t.Errorf("a coordinate that is not a number: %v", err)
	}
}

// FuzzText sends any text through the gate to the library behind it.
func FuzzText(f *testing.F) {
	f.Add("Lawn 🌱 \xff\x00 ș", 10.0, 0.0)
	f.Add("庭 Ω\u0301 (\\) \r", 3.5, 45.0)
	f.Fuzz(func(t *testing.T, s string, pt, turn float64) {
		if !(pt > 0 && pt < 200 && turn > -360 && turn < 360) || len(s) > 2000 {
			return
		}
		text := draw.Text{At: draw.Point{X: 20, Y: 20}, S: s, PT: pt, Color: draw.Ink, TurnDeg: turn}
		bold := text
		bold.Weight, bold.Anchor = face.Bold, draw.End
		b := &book{w: 210, h: 297, title: clean(s), author: clean(s), marks: []mark{{title: clean(s)}},
			sheets: []*sheet{{items: []draw.Item{text, bold}}}, date: time.Unix(0, 0).UTC()}
		if err := b.write(io.Discard); err != nil {
			t.Fatal(err)
		}
	})
}

func BenchmarkWrite(b *testing.B) {
	p := sample.Full()
	b.ReportAllocs()
	for b.Loop() {
		if err := Write(io.Discard, p, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkLayOut(b *testing.B) {
	p := sample.Full()
	for b.Loop() {
		if _, err := layOut(p, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// tables are those of the program.
func tables(t testing.TB) sowing.Tables {
	t.Helper()
	built, err := sowing.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	return built
}
