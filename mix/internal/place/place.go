// Package place makes site conditions for the tests of the mixture and of the
// sward: a lawn at a station, with its light and ground as stated.
package place

import (
	"context"

	"swardwright/data"
	"swardwright/site"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/site/weather"
)

// Spot is one lawn in a few words.
type Spot struct {
	Station   string
	NorthDeg  float64 // how far north of the station the lawn lies
	AltitudeM *float64
	SunHours  float64 // direct sun on a clear day in the growing season; 0: open
	Shade     float64 // instead: % of the open sky's light that is missing
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
	survey := site.Survey{
		Place:  site.Place{Station: s.Station},
		Lawn:   site.Lawn{AreaM2: 100},
		Ground: s.Ground,
	}
	if st, ok := stations.Find(s.Station); ok {
		survey.Place.LatitudeDeg = st.LatitudeDeg + s.NorthDeg
		survey.Place.LongitudeDeg = &st.LongitudeDeg
		survey.Place.AltitudeM = s.AltitudeM
	}
	survey.Light = light.Seen{}
	switch {
	case s.SunHours > 0:
		survey.Light.SunHours = &s.SunHours
	default:
		survey.Light.ShadePercent = &s.Shade
	}
	years := s.Years
	if years == 0 {
		years = 200
	}
	return survey.Conditions(context.Background(), site.Tables{Stations: stations}, site.Options{Years: years, Seed: 1, Irrigated: s.Irrigated})
}
