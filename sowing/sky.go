package sowing

import (
	"swardwright/site"
	"swardwright/site/light"
	"swardwright/site/weather"
)

// Sky is the average sky over the lawn of a survey, the same that a plan of it from a
// year on goes by.
func Sky(t Tables, s site.Survey, year int) (weather.Normals, light.Sky, error) {
	return s.Sky(site.Tables{Stations: t.Stations}, site.Options{Years: syntheticYears, Seed: weatherSeed, Year: year})
}
