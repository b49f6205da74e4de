package desk

import (
	"context"
	"io"
	"slices"

	"swardwright/internal/sheet"
	"swardwright/report"
	"swardwright/report/calendar"
	"swardwright/report/content"
	"swardwright/report/draw"
	"swardwright/report/page"
	"swardwright/report/paper"
	"swardwright/report/say"
	"swardwright/site"
	"swardwright/site/light"
	"swardwright/site/weather"
	"swardwright/sowing"
)

// Everything that the desk has of the core and of the other reports goes through here.

func plan(ctx context.Context, t sowing.Tables, b sowing.Brief) (sowing.Plan, error) {
	return sowing.NewPlan(ctx, t, b)
}

// doubted tells whether the evidence is among what is wanted of a plan.
func doubted(w Want) bool {
	return w.Plan && (len(w.Parts) == 0 || slices.Contains(w.Parts, string(content.Evidence))) || slices.Contains(w.Files, "html")
}

func skyOver(t sowing.Tables, b sowing.Brief) (weather.Normals, light.Sky, error) {
	return sowing.Sky(t, b)
}

func readSite(root *sheet.Sheet, t sowing.Tables, open site.Opener) (sowing.Brief, bool) {
	return sowing.ReadSite(root, t, open)
}

// sayer words sentences as a brief asks, as far as what it asks can be done.
func (d *Desk) sayer(says map[string]any) *say.Sayer {
	get := func(key, otherwise string) string {
		t, ok := says[key].(string)
		if !ok {
			return otherwise
		}
		return t
	}
	words, err := say.New(get("language", "en-GB"), get("units", "metric"), get("currency", sowing.DefaultCurrency), d.tables.Species.ByID)
	if err != nil {
		words, _ = say.New("en-GB", "metric", sowing.DefaultCurrency, d.tables.Species.ByID) // these are sound
	}
	return words
}

// forms are the forms that a plan can be had in, by the ending of its file.
var forms = []struct {
	Ending, Type string
	write        func(io.Writer, *sowing.Plan) error
}{
	{"pdf", "application/pdf", func(w io.Writer, p *sowing.Plan) error { return paper.Write(w, p, paper.Options{}) }},
	{"html", "text/html", func(w io.Writer, p *sowing.Plan) error { return writePage(w, p, nil) }},
	{"json", "application/json", func(w io.Writer, p *sowing.Plan) error { return report.JSON(w, *p) }},
	{"csv", "text/csv", func(w io.Writer, p *sowing.Plan) error { return report.CSV(w, *p) }},
	{"ics", "text/calendar", func(w io.Writer, p *sowing.Plan) error { return calendar.Plan(w, *p) }},
}

// writePage writes some parts of the plan's page, or with none named all of it.
func writePage(w io.Writer, p *sowing.Plan, parts []string) error {
	names := make([]content.PartName, len(parts))
	for i, name := range parts {
		names[i] = content.PartName(name)
	}
	return page.Write(w, p, names...)
}

// palette are the colours of the paper that the page has too.
var palette = map[string]draw.Color{
	"ink": draw.Ink, "quiet": draw.Quiet, "rule": draw.Rule, "faint": draw.Faint, "green": draw.Green,
}

// scale are the colours of a quantity, least first.
func scale(steps int) []string {
	out := make([]string, steps)
	for i := range out {
		out[i] = string(draw.Viridis(float64(i) / float64(steps-1)))
	}
	return out
}
