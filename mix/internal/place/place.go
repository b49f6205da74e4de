// Package place makes site conditions for the tests of the mixture and of the
// sward: a station's weather over ground and light as stated.
package place

import (
	"fmt"

	"swardwright/data"
	"swardwright/site"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/site/weather"
)

// parMolPerMJ turns global radiation to photosynthetic light: PAR fraction 0.45
// (McCree 1972) times 4.57 µmol/J.
const parMolPerMJ = 0.45 * 4.57

// Spot is one place in words.
type Spot struct {
	Station   string
	Open      []float64 // light over the open's, by zone, of equal area; nil: full
	Leaf      float64   // of the light lost, the share lost to leaves
	Ground    ground.Survey
	Irrigated bool
	Years     int // 0: 200
}

// Conditions are what a grass meets there.
func (s Spot) Conditions() (*site.Conditions, error) {
	stations, err := weather.LoadStations(data.FS)
	if err != nil {
		return nil, err
	}
	st, ok := stations.Find(s.Station)
	if !ok {
		return nil, fmt.Errorf("no station %q", s.Station)
	}
	soil, err := s.Ground.Soil()
	if err != nil {
		return nil, err
	}
	years := s.Years
	if years == 0 {
		years = 200
	}
	global, _ := stations.Radiation(st.Normals)
	series := weather.Generate(st.Normals, global, years, 1)
	c := &site.Conditions{Station: st, Normals: st.Normals, Weather: series.Summary(), Soil: soil, AreaM2: 100}
	c.Survey.Place.LatitudeDeg = st.LatitudeDeg
	open := s.Open
	if open == nil {
		open = []float64{1}
	}
	for m := range global {
		c.Field.OpenDLI[m] = global[m] * parMolPerMJ
	}
	for i, share := range open {
		z := light.Zone{Letter: string(rune('A' + i)), Share: 1 / float64(len(open)), AreaM2: 100 / float64(len(open))}
		var e weather.Exposure
		var weight float64
		for m := range global {
			e.OpenShare[m] = share
			e.DLI[m] = share * c.Field.OpenDLI[m]
			w := weather.GrowthPotential(min(20, st.MeanC[m]))
			z.Light.DLISeason += w * e.DLI[m]
			weight += w
		}
		z.Light.DLISeason /= weight
		z.Light.DLI, z.Light.OpenShare, z.Light.SkyView, z.Light.LeafShade = e.DLI, share, share, s.Leaf
		e.FieldCapacity, e.WiltingPoint, e.Saturation = soil.FieldCapacity, soil.WiltingPoint, soil.Saturation
		e.RootDepthM, e.DrainMMD, e.Irrigated = min(0.30, soil.DepthCM/100+0.05), soil.DrainMMD, s.Irrigated
		days := series.Meet(e)
		c.Zones = append(c.Zones, site.Zone{Zone: z, Days: days, Years: days.Seasons()})
	}
	return c, nil
}
