package desk

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"swardwright/site/weather"
	"swardwright/sowing"
)

// Start is what a page needs once.
type Start struct {
	Fields  []Field  `json:"fields"` // in the order they are read
	Pages   []Page   `json:"pages"`
	Grasses []Grass  `json:"grasses"`
	Scale   []string `json:"scale"` // colours of a quantity, least first
	Forms   []string `json:"forms"` // endings of the files of a plan
}

// Field is one key of a brief as a form shows it. What it takes comes from the readers.
type Field struct {
	Path  string     `json:"path"`
	Kind  string     `json:"kind"`
	Lo    [2]float64 `json:"lo"`
	Hi    [2]float64 `json:"hi"`
	Words []string   `json:"words,omitempty"`
	Unit  string     `json:"unit,omitempty"`
	Label string     `json:"label"`
	Hint  string     `json:"hint,omitempty"`
	Left  string     `json:"left,omitempty"` // what is taken when it is left out
}

// Page is a table of a brief with its heading.
type Page struct {
	Path  string `json:"path"`
	Title string `json:"title"`
	One   string `json:"one,omitempty"` // what one of several is called
	Hint  string `json:"hint,omitempty"`
	Fold  bool   `json:"fold,omitempty"` // seldom said: folded away until it is
}

// Grass is a grass that can be named.
type Grass struct {
	ID        string `json:"id"`
	Name      string `json:"name"`
	Botanical string `json:"botanical"`
}

func (d *Desk) start() *Start {
	s := &Start{Pages: pages, Scale: scale(9)}
	for _, a := range d.asks {
		w := words[a.Path]
		label := w.label
		if label == "" {
			label = plainLabel(a.Path)
		}
		s.Fields = append(s.Fields, Field{a.Path, string(a.Kind), a.Lo, a.Hi, a.Words, unitOf(a.Path), label, w.hint, w.left})
	}
	for _, sp := range d.tables.Species.All() {
		if !sp.Invader {
			s.Grasses = append(s.Grasses, Grass{sp.ID, sp.Common("en-GB"), sp.Botanical})
		}
	}
	for _, f := range forms {
		s.Forms = append(s.Forms, f.Ending)
	}
	return s
}

// units are the units that keys end in; the longest ending that fits counts.
var units = []struct{ ending, unit string }{
	{"_per_kg", "for a kg"}, {"mol_m2_d", "mol/m² a day"}, {"_g_m2", "g/m²"}, {"_ds_m", "dS/m"}, {"_mm_h", "mm/h"},
	{"_percent", "%"}, {"_deg", "°"}, {"_m2", "m²"}, {"_cm", "cm"}, {"_mm", "mm"}, {"_kg", "kg"}, {"_m", "m"},
	{"_c", "°C"}, {"_hours", "h"}, {"sun_h", "h"}, {"wet_days", "days"}, {"place.latitude", "°"}, {"place.longitude", "°"},
}

func unitOf(path string) string {
	for _, u := range units {
		if strings.HasSuffix(path, u.ending) || path == u.ending {
			return u.unit
		}
	}
	return ""
}

// plainLabel makes words of a key that has none of its own: obstacle.stem_cm, Stem.
func plainLabel(path string) string {
	key := path[strings.LastIndexByte(path, '.')+1:]
	for _, u := range units {
		if short, ok := strings.CutSuffix(key, u.ending); ok && short != "" {
			key = short
			break
		}
	}
	key = strings.ReplaceAll(key, "_", " ")
	return strings.ToUpper(key[:1]) + key[1:]
}

// Near asks for stations: by a part of their name, or near a place.
type Near struct {
	Named string      `json:"named,omitempty"`
	At    *[2]float64 `json:"at,omitempty"` // latitude, longitude
	Alt   *float64    `json:"altitude,omitempty"`
}

// Station is one of them.
type Station struct {
	Name      string   `json:"name"`
	Country   string   `json:"country"`
	Latitude  float64  `json:"latitude"`
	Longitude float64  `json:"longitude"`
	AltitudeM float64  `json:"altitude_m"`
	KM        *float64 `json:"km,omitempty"` // from the place asked about
}

// fewStations is how many are shown to choose from.
const fewStations = 8

func (d *Desk) stations(n Near) []Station {
	out := []Station{}
	add := func(st weather.Station) {
		s := Station{Name: st.Name, Country: st.Country, Latitude: st.LatitudeDeg, Longitude: st.LongitudeDeg, AltitudeM: st.AltitudeM}
		if n.At != nil {
			km := math.Round(weather.DistanceKM(n.At[0], n.At[1], st.LatitudeDeg, st.LongitudeDeg))
			s.KM = &km
		}
		if !slices.ContainsFunc(out, func(o Station) bool { return o.Name == s.Name }) {
			out = append(out, s)
		}
	}
	switch named := strings.ToLower(strings.TrimSpace(n.Named)); {
	case named != "":
		if st, ok := d.tables.Stations.Find(n.Named); ok {
			add(st)
		}
		for _, st := range d.tables.Stations.All() {
			if strings.Contains(strings.ToLower(st.Name+", "+st.Country), named) {
				add(st)
			}
		}
		for _, name := range d.tables.Stations.Suggest(n.Named) {
			if st, ok := d.tables.Stations.Find(name); ok {
				add(st)
			}
		}
	case n.At != nil && math.Abs(n.At[0]) <= 90 && math.Abs(n.At[1]) <= 180:
		all := slices.Clone(d.tables.Stations.All())
		slices.SortStableFunc(all, func(a, b weather.Station) int {
			return cmp.Compare(weather.DistanceKM(n.At[0], n.At[1], a.LatitudeDeg, a.LongitudeDeg),
				weather.DistanceKM(n.At[0], n.At[1], b.LatitudeDeg, b.LongitudeDeg))
		})
		// The one that a brief without a station gets comes first.
		alt := math.NaN()
		if n.Alt != nil {
			alt = *n.Alt
		}
		first, _ := d.tables.Stations.Nearest(n.At[0], n.At[1], alt)
		add(first)
		for _, st := range all[:min(len(all), fewStations)] {
			add(st)
		}
	}
	return out[:min(len(out), fewStations)]
}

// PriceOf is one figure of the price list.
type PriceOf struct {
	Key    string `json:"key"`
	Title  string `json:"title"`
	Unit   string `json:"unit"`
	Kind   string `json:"kind"`
	Figure string `json:"figure"`
}

// prices is the list in the currency that a brief says.
func (d *Desk) prices(says map[string]any) []PriceOf {
	code, _ := says["currency"].(string)
	list, err := d.tables.Prices.In(cmp.Or(code, sowing.DefaultCurrency), nil)
	if err != nil {
		if list, err = d.tables.Prices.In(sowing.DefaultCurrency, nil); err != nil {
			return nil
		}
	}
	var out []PriceOf
	for _, p := range list.Keys() {
		figure := p.Figure(list.Currency)
		if p.Text != "" {
			figure = p.Text
		}
		out = append(out, PriceOf{p.Key, p.Title, p.Unit, string(p.Kind), figure})
	}
	return out
}
