package report

import (
	"io"

	"github.com/samber/lo"

	"swardwright/report/content"
	"swardwright/report/say"
	"swardwright/sowing"
	"swardwright/sowing/job"
)

type jsonVariant struct {
	Name          string      `json:"name"`
	Advice        string      `json:"advice"`
	Grade         string      `json:"grade"`
	Holds         bool        `json:"holds"`
	Chance        float64     `json:"chance"`
	CoverExpected *float64    `json:"cover_expected"`
	CoverBadYear  *float64    `json:"cover_bad_year"`
	GrassM2       float64     `json:"grass_m2"`
	StartOn       string      `json:"start_on"`
	UsableFrom    *string     `json:"usable_from"`
	Total         string      `json:"total"`
	CareHours     float64     `json:"care_hours"`
	CoverGain     *jsonSpread `json:"cover_gain,omitempty"`
	Differs       []string    `json:"differs"`
}

// jsonSpread is a difference with the range that holds it in 8 cases of 10.
type jsonSpread struct {
	Middle float64 `json:"middle"`
	Low    float64 `json:"low"`
	High   float64 `json:"high"`
}

// ComparisonJSON writes lawns planned beside each other.
func ComparisonJSON(w io.Writer, all []sowing.Compared) error {
	f, err := say.For(all[0].Plan)
	if err != nil {
		return err
	}
	return write(w, struct {
		Title    string        `json:"title"`
		Currency string        `json:"currency"`
		Compared []jsonVariant `json:"compared"`
	}{all[0].Plan.Brief.Title, all[0].Plan.Cost.Currency, lo.Map(all, func(c sowing.Compared, _ int) jsonVariant { return variantOf(c, f) })})
}

func variantOf(c sowing.Compared, f *say.Sayer) jsonVariant {
	p := &c.Plan
	out := jsonVariant{
		Name: c.Name, Advice: string(p.Advice), Grade: string(p.Standard.Grade), Holds: p.Standard.Holds, Chance: round(p.Standard.Chance, 3),
		GrassM2: round(job.Area(p.Grass), 1), CareHours: round(p.CareHours(), 1), Differs: []string{},
	}
	if m := p.Mixture; m != nil {
		out.CoverExpected, out.CoverBadYear = new(round(m.CoverExpected, 3)), new(round(m.CoverBadYear, 3))
	}
	if p.Kind != "" {
		out.StartOn, out.Total = day(p.StartOn), p.Bill.Total.String()
		if p.UsableFrom != nil {
			out.UsableFrom = new(day(*p.UsableFrom))
		}
	}
	if g := c.Gain; g != nil {
		out.CoverGain = &jsonSpread{round(g.Cover.Middle, 3), round(g.Cover.Low, 3), round(g.Cover.High, 3)}
		if s := content.Bought(c); s != nil {
			out.Differs = append(out.Differs, f.Figure(s))
		}
	}
	return out
}
