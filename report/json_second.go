package report

import (
	"github.com/samber/lo"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/report/say"
	"swardwright/sowing"
	"swardwright/sowing/job"
	"swardwright/sowing/rate"
)

// jsonSecond is what two mixtures would be, or are, in place of one.
type jsonSecond struct {
	Taken    bool       `json:"taken"`
	Because  string     `json:"because"`
	Zones    []string   `json:"zones"`      // that gain most
	Gain     float64    `json:"cover_gain"` // there, 0 to 1
	Chance   float64    `json:"chance_gain"`
	LawnGain float64    `json:"lawn_cover_gain"`
	More     string     `json:"more"` // that it costs than one mixture
	Mixtures []jsonPart `json:"mixtures"`
}

// jsonPart is one of two mixtures with what becomes of its zones.
type jsonPart struct {
	Zones         []string        `json:"zones"`
	M2            float64         `json:"m2"`
	Components    []jsonComponent `json:"components"`
	RateGM2       float64         `json:"rate_g_m2"`
	SeedsPerM2    float64         `json:"seeds_per_m2"`
	SeedKG        float64         `json:"seed_kg"`
	CoverExpected float64         `json:"cover_expected"`
	CoverBadYear  float64         `json:"cover_bad_year"`
	Chance        float64         `json:"chance"`
	Common        struct {
		CoverExpected float64 `json:"cover_expected"`
		Chance        float64 `json:"chance"`
	} `json:"one_mixture"` // what that for all comes to there
}

func secondOf(p sowing.Plan, f *say.Sayer) *jsonSecond {
	s := p.Second
	if s == nil {
		return nil
	}
	out := &jsonSecond{
		Taken: s.Taken, Because: f.Say(s.Because), Zones: job.Letters(s.Zones),
		Gain: round(s.Cover, 3), Chance: round(s.Chance, 2), LawnGain: round(s.Lawn, 3), More: s.More.String(),
	}
	for i, x := range p.WayOf(job.BySeedApart).Sowings {
		patch := &p.Choice.Split.Patches[i]
		part := jsonPart{
			Zones: job.Letters(x.Zones), M2: round(job.Area(x.Zones), 1), Components: componentsOf(x.Mixture, x.Rate, f),
			RateGM2: round(x.Rate.GM2, 1), SeedsPerM2: round(x.Rate.SeedsPerM2, -2), SeedKG: round(x.Rate.TotalG/1000, 3),
			CoverExpected: round(x.Mixture.CoverExpected, 3), CoverBadYear: round(x.Mixture.CoverBadYear, 3), Chance: round(patch.Chance, 2),
		}
		part.Common.CoverExpected, part.Common.Chance = round(patch.Common.Cover, 3), round(patch.Common.Chance, 2)
		out.Mixtures = append(out.Mixtures, part)
	}
	return out
}

// componentsOf are the grasses of a mixture with the seed of each.
func componentsOf(m *mix.Mixture, r rate.Rate, f *say.Sayer) []jsonComponent {
	grams := lo.SliceToMap(r.Components, func(c rate.Component) (string, float64) { return c.SpeciesID, c.TotalG })
	return lo.Map(m.Components, func(c mix.Component, _ int) jsonComponent {
		return jsonComponent{
			ID: c.Species.ID, Species: f.Figure(told.Grass(c.Species.ID)), PercentByWeight: c.Percent,
			PercentBySeed: round(c.SeedPercent, 1), Grams: round(grams[c.Species.ID], 0), Because: f.Say(c.Because),
		}
	})
}
