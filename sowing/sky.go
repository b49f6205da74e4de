package sowing

import (
	"swardwright/site"
	"swardwright/site/light"
	"swardwright/site/weather"
)

// Sky is the average sky over a brief's lawn, the same that a plan of it goes by.
func Sky(t Tables, b Brief) (weather.Normals, light.Sky, error) {
	return b.Site.Sky(site.Tables{Stations: t.Stations}, site.Options{Years: syntheticYears, Seed: weatherSeed, Year: b.planDate().Year()})
}
