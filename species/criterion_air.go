package species

import (
	"swardwright/internal/arith"
	"swardwright/internal/told"
	"swardwright/site"
)

// The air of a lawn is as still as its surroundings close it in, and as damp as
// its growing months are wet. Own constants, no published source.
const (
	dampAlways  = 0.6 // share of wet days at which leaves hardly dry
	dampMonthC  = 5.0 // mean of a month that counts
	stillFromTo = 0.9 // share of the sky closed off at which no wind is left
)

var criterionAir = Criterion{
	ID:      "air",
	Means:   told.Say("criteria.air-means"),
	Quality: QualityLight,
	Reads:   []Trait{StillAir},
	Source:  "sky closed off and share of wet days, common practice, no published source",
	Score:   func(t *Traits, s *Setting) float64 { return AirFit(t, Stillness(s.Site, s.Zone)) },
	Figure: func(s *Setting) told.Sentence {
		return told.Say("criteria.air", told.Share(arith.Unit(1-s.Zone.Light.SkyView)), told.Share(wetDayShare(s.Site)))
	},
	Limits: func(t *Traits) told.Sentence {
		return told.Say("criteria.air-limits", graded(t[StillAir]), told.Score(t[StillAir]))
	},
}

// wetDayShare is the share of days with rain in the months in which grass grows.
func wetDayShare(c *site.Conditions) float64 {
	wet, days := 0.0, 0.0
	for m, mean := range c.Normals.MeanC {
		if mean >= dampMonthC {
			wet += c.Normals.WetDays[m]
			days += 365.0 / 12
		}
	}
	if days == 0 {
		return 0
	}
	return arith.Unit(wet / days)
}

// Stillness is how still and damp the air of a zone is: 0 in the open or where it
// hardly rains, 1 closed in and always damp.
func Stillness(c *site.Conditions, z *site.Zone) float64 {
	return arith.Unit((1-z.Light.SkyView)/stillFromTo) * arith.Unit(wetDayShare(c)/dampAlways)
}
