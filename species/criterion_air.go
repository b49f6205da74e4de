package species

import "fmt"

// The air of a lawn is as still as its surroundings close it in, and as damp as
// its growing months are wet. Own constants, no published source.
const (
	dampAlways  = 0.6 // share of wet days at which leaves hardly dry
	dampMonthC  = 5.0 // mean of a month that counts
	airHalf     = 0.35
	stillFromTo = 0.9 // share of the sky closed off at which no wind is left
)

var criterionAir = Criterion{
	ID:      "air",
	Title:   "Moving air",
	Means:   "whether the air moves enough, for the damp of the place, to keep its leaves free of mildew and rots",
	Quality: QualityLight,
	Reads:   []Trait{StillAir},
	Source:  "sky closed off and share of wet days, common practice, no published source",
	Score:   func(t *Traits, s *Setting) float64 { return AirFit(t, s.stillness()) },
	Figure: func(s *Setting) string {
		return fmt.Sprintf("%.0f %% of the sky closed off, rain on %.0f %% of days in the growing months",
			100*clamp01(1-s.Zone.Light.SkyView), 100*s.wetDayShare())
	},
	Limits: func(t *Traits) string {
		return fmt.Sprintf("stands still, damp air %.2f of 1", t[StillAir])
	},
}

// wetDayShare is the share of days with rain in the months in which grass grows.
func (s *Setting) wetDayShare() float64 {
	wet, days := 0.0, 0.0
	for m, c := range s.Site.Normals.MeanC {
		if c >= dampMonthC {
			wet += s.Site.Normals.WetDays[m]
			days += 30.4
		}
	}
	if days == 0 {
		return 0
	}
	return clamp01(wet / days)
}

func (s *Setting) stillness() float64 {
	still := clamp01((1 - s.Zone.Light.SkyView) / stillFromTo)
	return still * clamp01(s.wetDayShare()/dampAlways)
}
