package desk

import (
	"context"
	"math"

	"swardwright/report/say"
	"swardwright/site"
	"swardwright/site/light"
	"swardwright/site/weather"
)

// Light is the light of a lawn as the page draws it. Lists by month have January first and
// the mean of the growing season last.
type Light struct {
	CellM  float64     `json:"cell_m"`
	Cells  Cells       `json:"cells"`
	Sun    [13][]int   `json:"sun"` // direct sun on a clear day, tenths of an hour, a cell
	DLI    [13][]int   `json:"dli"` // light under average cloud, tenths of mol m⁻² d⁻¹, a cell
	Zones  []ZoneLook  `json:"zones"`
	Probes []ProbeLook `json:"probes"`
	Open   float64     `json:"open_dli"` // of the open lawn, season
	Notes  []string    `json:"notes"`
}

// Cells are squares of the plan, counted in columns and rows from a corner.
type Cells struct {
	X0   float64 `json:"x0"`
	Y0   float64 `json:"y0"`
	Col  []int   `json:"col"`
	Row  []int   `json:"row"`
	Zone []int   `json:"zone,omitempty"`
}

// ZoneLook is a zone with its light by month.
type ZoneLook struct {
	Letter string      `json:"letter"`
	Name   string      `json:"name"`
	Share  float64     `json:"share"`
	AreaM2 float64     `json:"area_m2"`
	Sun    [13]float64 `json:"sun"`
	DLI    [13]float64 `json:"dli"`
}

// ProbeLook is a named point with its light by month.
type ProbeLook struct {
	Name string      `json:"name"`
	Sun  [13]float64 `json:"sun"`
	DLI  [13]float64 `json:"dli"`
}

// Hours is the sun of one day, hour by hour.
type Hours struct {
	Day   int     `json:"day"`
	CellM float64 `json:"cell_m"`
	Cells Cells   `json:"cells"`
	At    []Hour  `json:"at"`
}

// Hour is one time of it.
type Hour struct {
	Hour      float64 `json:"hour"` // by the sun: at 12 it stands highest
	Bearing   float64 `json:"bearing"`
	Elevation float64 `json:"elevation"`
	Share     []int   `json:"share"` // percent of the direct sun, a cell
}

func lightOf(f light.Field, s site.Survey, words *say.Sayer) *Light {
	l := &Light{CellM: f.CellM, Zones: []ZoneLook{}, Probes: []ProbeLook{}, Notes: words.All(f.Notes)}
	l.Cells = cellsOf(f.Cells, s.Lawn.Parts, f.CellM)
	for m := range 13 {
		l.Sun[m], l.DLI[m] = make([]int, len(f.Cells)), make([]int, len(f.Cells))
		for i := range f.Cells {
			c := &f.Cells[i].Light
			hours, dli := c.SunHoursSeason, c.DLISeason
			if m < 12 {
				hours, dli = c.SunHours[m], c.DLI[m]
			}
			l.Sun[m][i], l.DLI[m][i] = tenths(hours), tenths(dli)
		}
	}
	for _, c := range f.Cells {
		l.Cells.Zone = append(l.Cells.Zone, c.Zone)
	}
	for _, z := range f.Zones {
		l.Zones = append(l.Zones, ZoneLook{z.Letter, words.Say(z.Name), round(z.Share, 4), round(z.AreaM2, 1),
			byMonth(z.Light.SunHours, z.Light.SunHoursSeason), byMonth(z.Light.DLI, z.Light.DLISeason)})
		if z.Light.OpenShare > 0 {
			l.Open = round(z.Light.DLISeason/z.Light.OpenShare, 1)
		}
	}
	for _, p := range f.Probes {
		l.Probes = append(l.Probes, ProbeLook{p.Name,
			byMonth(p.Light.SunHours, p.Light.SunHoursSeason), byMonth(p.Light.DLI, p.Light.DLISeason)})
	}
	return l
}

func hoursOf(ctx context.Context, s site.Survey, n weather.Normals, sky light.Sky, day, cells int) (*Hours, error) {
	hours := make([]float64, 48)
	for i := range hours {
		hours[i] = float64(i) / 2
	}
	h, err := light.SunByHour(ctx, s.Scene(n), sky, day, hours, cells)
	if err != nil {
		return nil, err
	}
	out := &Hours{Day: day, CellM: h.CellM, Cells: cellsOf(h.Cells, s.Lawn.Parts, h.CellM), At: []Hour{}}
	for _, a := range h.At {
		at := Hour{a.Hour, round(a.BearingDeg, 1), round(a.ElevationDeg, 1), make([]int, len(a.Share))}
		for i, x := range a.Share {
			at.Share[i] = int(math.Round(100 * x))
		}
		out.At = append(out.At, at)
	}
	return out, nil
}

// cellsOf counts cells in columns and rows from the left and lower limit of the lawn, as
// they were cut.
func cellsOf(cells []light.Cell, parts [][]light.Point, side float64) Cells {
	x0, y0 := math.Inf(1), math.Inf(1)
	for _, part := range parts {
		for _, p := range part {
			x0, y0 = min(x0, p.X), min(y0, p.Y)
		}
	}
	out := Cells{Col: make([]int, len(cells)), Row: make([]int, len(cells))}
	if len(cells) == 0 {
		return out
	}
	out.X0, out.Y0 = x0, y0
	for i, c := range cells {
		out.Col[i], out.Row[i] = int(math.Floor((c.At.X-x0)/side)), int(math.Floor((c.At.Y-y0)/side))
	}
	return out
}

func byMonth(months [12]float64, season float64) (out [13]float64) {
	for m, x := range months {
		out[m] = round(x, 2)
	}
	out[12] = round(season, 2)
	return out
}

func tenths(x float64) int { return int(math.Round(10 * x)) }

func round(x float64, digits int) float64 {
	k := math.Pow10(digits)
	return math.Round(x*k) / k
}
