package weather

import (
	"cmp"
	"fmt"
	"io/fs"
	"math"
	"slices"
	"sort"
	"strings"
	"unicode"

	"github.com/BurntSushi/toml"
	"golang.org/x/text/unicode/norm"

	"swardwright/internal/sheet"
)

// Attribution names the source of the station table as its collectors ask.
const Attribution = "WMO Climatological Standard Normals 1991-2020, collected by NOAA NCEI " +
	"(accession 0253808), figures of the national services named by country; " +
	"values selected, positions of Poland and Auckland corrected"

// likenessM is the difference of height that counts as much as 100 km of
// distance when the station most like a place is sought. Temperature is
// corrected for height afterwards; rain, wind and snow are not.
const likenessM = 250

// Stations is the table of stations, in the order of its file.
type Stations struct {
	all   []Station
	names []string       // folded, same order
	also  map[string]int // folded names on the sheets
}

// row is one station as the file holds it.
type row struct {
	WMO       string     `toml:"wmo"`
	Place     string     `toml:"place"`
	Also      []string   `toml:"also"`
	Country   string     `toml:"country"`
	Lat       float64    `toml:"lat"`
	Lon       float64    `toml:"lon"`
	AltitudeM float64    `toml:"altitude_m"`
	Mean      []float64  `toml:"mean_c"`
	Min       []float64  `toml:"min_c"`
	Max       []float64  `toml:"max_c"`
	Rain      []float64  `toml:"rain_mm"`
	Wet       []float64  `toml:"wet_days"`
	Sun       *[]float64 `toml:"sun_h"`
	SunFrom   string     `toml:"sun_from"`
	Vapour    *[]float64 `toml:"vapour_hpa"`
	Frost     *[]float64 `toml:"frost_days"`
	Snow      *[]float64 `toml:"snow_days"`
	SnowDepth float64    `toml:"snow_depth_cm"`
	Wind      *[]float64 `toml:"wind_ms"`
	Global    *[]float64 `toml:"global_mj"`
	GlobFrom  string     `toml:"global_from"`
}

// LoadStations reads stations.toml and checks every station in it.
func LoadStations(fsys fs.FS) (Stations, error) {
	var file struct {
		Station []row `toml:"station"`
	}
	text, err := fs.ReadFile(fsys, "stations.toml")
	if err != nil {
		return Stations{}, fmt.Errorf("station table: %w", err)
	}
	meta, err := toml.Decode(string(text), &file)
	if err != nil {
		return Stations{}, fmt.Errorf("stations.toml: %w", err)
	}
	if un := meta.Undecoded(); len(un) > 0 {
		return Stations{}, fmt.Errorf("stations.toml: unknown key %s", un[0])
	}
	s := Stations{also: map[string]int{}}
	seen := map[string]bool{}
	for _, r := range file.Station {
		n, err := r.normals()
		if err == nil {
			err = n.check()
		}
		if err == nil && seen[r.WMO] {
			err = fmt.Errorf("WMO number %s stands twice", r.WMO)
		}
		if err != nil {
			return Stations{}, fmt.Errorf("stations.toml: %s: %w", r.Place, err)
		}
		seen[r.WMO] = true
		for _, name := range r.Also {
			s.also[fold(name)] = len(s.all)
		}
		s.all = append(s.all, Station{WMO: r.WMO, Country: r.Country, Normals: n})
		s.names = append(s.names, fold(r.Place))
	}
	return s, nil
}

func (r row) normals() (Normals, error) {
	n := Normals{
		Name: r.Place, LatitudeDeg: r.Lat, LongitudeDeg: r.Lon, AltitudeM: r.AltitudeM,
		SnowDepthCM: r.SnowDepth, SunFrom: r.SunFrom, GlobalFrom: r.GlobFrom,
		Source: Attribution,
	}
	for _, c := range []struct {
		key  string
		from []float64
		to   *[12]float64
	}{
		{"mean_c", r.Mean, &n.MeanC}, {"min_c", r.Min, &n.MinC}, {"max_c", r.Max, &n.MaxC},
		{"rain_mm", r.Rain, &n.RainMM}, {"wet_days", r.Wet, &n.WetDays},
	} {
		if len(c.from) != 12 {
			return n, fmt.Errorf("%s: needs 12 values, has %d", c.key, len(c.from))
		}
		*c.to = [12]float64(c.from)
	}
	for _, c := range []struct {
		key  string
		from *[]float64
		to   **[12]float64
	}{
		{"sun_h", r.Sun, &n.SunHours}, {"vapour_hpa", r.Vapour, &n.VapourHPa},
		{"frost_days", r.Frost, &n.FrostDays}, {"snow_days", r.Snow, &n.SnowDays},
		{"wind_ms", r.Wind, &n.WindMS}, {"global_mj", r.Global, &n.GlobalMJ},
	} {
		if c.from == nil {
			continue
		}
		if len(*c.from) != 12 {
			return n, fmt.Errorf("%s: needs 12 values, has %d", c.key, len(*c.from))
		}
		v := [12]float64(*c.from)
		*c.to = &v
	}
	return n, nil
}

// All returns the stations in the order of the table.
func (s Stations) All() []Station { return s.all }

// Find looks a station up by WMO number or by name, taking no account of case,
// accents and punctuation: the place's, or the one on the sheet that its figures
// are from. The first words of a name are enough where they fit one station alone.
func (s Stations) Find(name string) (Station, bool) {
	key := fold(name)
	if key == "" {
		return Station{}, false
	}
	if i, ok := s.also[key]; ok {
		return s.all[i], true
	}
	found, count := 0, 0
	for i, full := range s.names {
		if full == key || s.all[i].WMO == key {
			return s.all[i], true
		}
		if strings.HasPrefix(full, key+" ") {
			found, count = i, count+1
		}
	}
	if count != 1 {
		return Station{}, false
	}
	return s.all[found], true
}

// Suggest returns the names of up to five stations that a reader may have
// meant, likeliest first.
func (s Stations) Suggest(name string) []string {
	key := fold(name)
	type guess struct {
		name string
		cost int
	}
	var guesses []guess
	for i, full := range s.names {
		cost := sheet.Distance(key, full)
		for _, word := range strings.Fields(full) {
			cost = min(cost, sheet.Distance(key, word))
		}
		if key != "" && strings.Contains(full, key) {
			cost = 0
		}
		if cost <= max(1, len(key)/3) {
			guesses = append(guesses, guess{s.all[i].Name, cost})
		}
	}
	sort.SliceStable(guesses, func(i, j int) bool { return guesses[i].cost < guesses[j].cost })
	var names []string
	for _, g := range guesses[:min(5, len(guesses))] {
		names = append(names, g.name)
	}
	return names
}

// Nearest returns the station most like the place, by distance and height, and
// how far off it is. A height that is not known is NaN.
func (s Stations) Nearest(latDeg, lonDeg, altitudeM float64) (Station, float64) {
	best, bestCost := -1, math.Inf(1)
	for i, st := range s.all {
		cost := DistanceKM(latDeg, lonDeg, st.LatitudeDeg, st.LongitudeDeg) / 100
		if !math.IsNaN(altitudeM) {
			cost = math.Hypot(cost, (st.AltitudeM-altitudeM)/likenessM)
		}
		if cost < bestCost {
			best, bestCost = i, cost
		}
	}
	if best < 0 {
		return Station{}, math.Inf(1)
	}
	st := s.all[best]
	return st, DistanceKM(latDeg, lonDeg, st.LatitudeDeg, st.LongitudeDeg)
}

// Next returns the station nearest to one, and how far off it is.
func (s Stations) Next(to Station) (Station, float64) {
	for _, st := range ByDistance(s.all, to.LatitudeDeg, to.LongitudeDeg) {
		if st.WMO != to.WMO {
			return st, DistanceKM(to.LatitudeDeg, to.LongitudeDeg, st.LatitudeDeg, st.LongitudeDeg)
		}
	}
	return Station{}, math.Inf(1)
}

// ByDistance are stations by their distance from a place, the nearest first.
func ByDistance(all []Station, latDeg, lonDeg float64) []Station {
	off := func(s Station) float64 { return DistanceKM(latDeg, lonDeg, s.LatitudeDeg, s.LongitudeDeg) }
	return slices.SortedStableFunc(slices.Values(all), func(a, b Station) int {
		return cmp.Or(cmp.Compare(off(a), off(b)), cmp.Compare(a.WMO, b.WMO))
	})
}

// DistanceKM is the great-circle distance between two places (haversine, mean
// earth radius 6371 km).
func DistanceKM(latA, lonA, latB, lonB float64) float64 {
	const rad = math.Pi / 180
	sinLat := math.Sin((latB - latA) * rad / 2)
	sinLon := math.Sin((lonB - lonA) * rad / 2)
	h := sinLat*sinLat + math.Cos(latA*rad)*math.Cos(latB*rad)*sinLon*sinLon
	return 2 * 6371 * math.Asin(math.Sqrt(math.Min(1, h)))
}

// plainLetters stands in for letters that do not come apart into a base letter
// and an accent.
var plainLetters = strings.NewReplacer("ø", "o", "æ", "ae", "å", "a", "ß", "ss", "ł", "l", "đ", "d", "ð", "d", "þ", "th", "œ", "oe")

// fold reduces a name to lower-case letters and digits, single spaces between.
func fold(name string) string {
	var b strings.Builder
	gap := false
	for _, r := range norm.NFD.String(plainLetters.Replace(strings.ToLower(name))) {
		switch {
		case unicode.Is(unicode.Mn, r):
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			if gap && b.Len() > 0 {
				b.WriteByte(' ')
			}
			gap = false
			b.WriteRune(r)
		default:
			gap = true
		}
	}
	return b.String()
}
