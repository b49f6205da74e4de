package report

import (
	"io"
	"math"

	"github.com/samber/lo"

	"swardwright/report/say"
	"swardwright/site"
	"swardwright/site/weather"
	"swardwright/sowing/money"
	"swardwright/species"
)

// MatrixJSON writes the suitability of every grass in every zone, or with an id of one
// grass its rows alone.
func MatrixJSON(w io.Writer, title string, m species.Matrix, c *site.Conditions, id string, s *say.Sayer) error {
	var rows []jsonRow
	for _, r := range m.Rows {
		if id == "" || r.Species.ID == id {
			rows = append(rows, rowOf(r, c.Field.Zones, s.Plain()))
		}
	}
	return write(w, struct {
		Title  string    `json:"title"`
		Matrix []jsonRow `json:"matrix"`
	}{title, rows})
}

type jsonTrait struct {
	Key    string  `json:"key"`
	Means  string  `json:"means"`
	Unit   string  `json:"unit"`
	Low    float64 `json:"low"`
	Best   float64 `json:"best"`
	High   float64 `json:"high"`
	Basis  string  `json:"basis"`
	Source string  `json:"source"`
}

type jsonSpecies struct {
	ID        string              `json:"id"`
	Botanical string              `json:"botanical"`
	Synonyms  []string            `json:"synonyms"`
	Names     map[string][]string `json:"names"` // by BCP 47 tag
	Group     string              `json:"group"`
	Warm      bool                `json:"warm_season"`
	Invader   bool                `json:"invader"`
	Fodder    bool                `json:"fodder"`
	MostShare int                 `json:"most_percent,omitempty"` // of a mixture by weight
	Traits    []jsonTrait         `json:"traits"`
}

// SpeciesJSON writes grasses with their traits and their sources.
func SpeciesJSON(w io.Writer, all []*species.Species) error {
	return write(w, struct {
		Species []jsonSpecies `json:"species"`
	}{lo.Map(all, func(s *species.Species, _ int) jsonSpecies {
		return jsonSpecies{
			ID: s.ID, Botanical: s.Botanical, Synonyms: list(s.Synonyms), Names: s.Names, Group: s.Group,
			Warm: s.Warm, Invader: s.Invader, Fodder: s.Fodder, MostShare: s.MaxShare,
			Traits: lo.Map(s.Values[:], func(v species.Value, i int) jsonTrait {
				t := species.Trait(i)
				return jsonTrait{t.String(), t.Means(), t.Unit(), v.Low, v.Best, v.High, string(v.Basis), v.Source}
			}),
		}
	})})
}

type jsonStation struct {
	Name         string       `json:"name"`
	WMO          string       `json:"wmo"`
	Country      string       `json:"country"`
	LatitudeDeg  float64      `json:"latitude_deg"`
	LongitudeDeg float64      `json:"longitude_deg"`
	AltitudeM    float64      `json:"altitude_m"`
	DistanceKM   *float64     `json:"distance_km,omitempty"`
	MeanC        [12]float64  `json:"mean_c"`
	MinC         [12]float64  `json:"min_c"`
	MaxC         [12]float64  `json:"max_c"`
	RainMM       [12]float64  `json:"rain_mm"`
	WetDays      [12]float64  `json:"wet_days"`
	SunHours     *[12]float64 `json:"sun_h,omitempty"`
	Source       string       `json:"source"`
}

// StationsJSON writes stations with their normals; with a position (no NaN), how far
// each is from it.
func StationsJSON(w io.Writer, all []weather.Station, lat, lon float64) error {
	return write(w, struct {
		Stations []jsonStation `json:"stations"`
	}{lo.Map(all, func(s weather.Station, _ int) jsonStation {
		out := jsonStation{
			Name: s.Name, WMO: s.WMO, Country: s.Country, LatitudeDeg: s.LatitudeDeg, LongitudeDeg: s.LongitudeDeg, AltitudeM: s.AltitudeM,
			MeanC: s.MeanC, MinC: s.MinC, MaxC: s.MaxC, RainMM: s.RainMM, WetDays: s.WetDays, SunHours: s.SunHours, Source: s.Source,
		}
		if !math.IsNaN(lat) {
			km := round(weather.DistanceKM(lat, lon, s.LatitudeDeg, s.LongitudeDeg), 1)
			out.DistanceKM = &km
		}
		return out
	})})
}

type jsonPrice struct {
	Key        string `json:"key"`
	Kind       string `json:"kind"`
	Title      string `json:"title"`
	Unit       string `json:"unit"`
	Figure     string `json:"figure"`
	Overridden bool   `json:"overridden"`
	Invented   bool   `json:"invented"`
	Source     string `json:"source"`
}

// PricesJSON writes a price list.
func PricesJSON(w io.Writer, p money.Prices) error {
	return write(w, struct {
		Currency string      `json:"currency"`
		Note     string      `json:"note"`
		Prices   []jsonPrice `json:"prices"`
	}{p.Currency, p.Note, lo.Map(p.Keys(), func(x money.Price, _ int) jsonPrice {
		figure := x.Figure(p.Currency)
		if x.Kind == money.TextKind {
			figure = x.Text
		}
		return jsonPrice{x.Key, string(x.Kind), x.Title, x.Unit, figure, x.Overridden, x.Invented(), x.Source}
	})})
}
