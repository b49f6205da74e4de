package practice

import (
	"math"

	"swardwright/site"
	"swardwright/species"
)

// Purpose is what a lawn is for, as publications sort lawns.
type Purpose string

// The purposes.
const (
	Show    Purpose = "show"    // looked at more than walked on
	Family  Purpose = "family"  // an ordinary lawn
	Sport   Purpose = "sport"   // worn by play or paths
	Neglect Purpose = "neglect" // covers ground with little care
	Pasture Purpose = "pasture" // grazed
)

// Lawn is a lawn by the figures that decide what is sown: its site, means over the
// synthetic years and over the zones by area, and how it is used and kept.
type Lawn struct {
	Purpose      Purpose `toml:"purpose"`
	NitrogenGM2  float64 `toml:"nitrogen_g_m2"` // fed in a year
	Watered      bool    `toml:"watered"`
	Cover        float64 `toml:"cover"` // of the ground, by the old sward that is sown into; 0: a new lawn
	LatitudeDeg  float64 `toml:"latitude"`
	LongitudeDeg float64 `toml:"longitude"`

	WinterMinC   float64 `toml:"winter_min_c"` // mean yearly minimum of the air
	ColdMonthC   float64 `toml:"cold_month_c"` // mean of the coldest month
	SnowDays     float64 `toml:"snow_days"`    // a year, in the open
	HotC         float64 `toml:"hot_30_c"`     // mean of the hottest 30 days
	MeanC        float64 `toml:"mean_c"`
	RainMM       float64 `toml:"rain_mm"`
	DroughtShare float64 `toml:"drought_share"` // of the growing season, as the lawn is watered or not
	DLI          float64 `toml:"dli"`           // season's mean, mol/m² a day
	OpenShare    float64 `toml:"open_share"`    // of the open lawn's light
	Wetness      float64 `toml:"wetness"`       // ground.Soil.Wetness
	SandPercent  float64 `toml:"sand_percent"`
	ECeDSM       float64 `toml:"ece_ds_m"`
}

// LawnOf is the lawn of a site and a use. asked is the grade that was asked for: a
// lawn that can't be as good as was asked is still walked on as much. cover is the share of the
// ground that an old sward covers which is sown into.
func LawnOf(c *site.Conditions, u species.Use, asked species.Grade, cover float64) Lawn {
	w := &c.Weather
	l := Lawn{
		Purpose:     purpose(u, asked),
		NitrogenGM2: u.NitrogenOrClass(),
		Watered:     u.Irrigation,
		Cover:       cover,
		LatitudeDeg: c.Normals.LatitudeDeg, LongitudeDeg: c.Normals.LongitudeDeg,
		WinterMinC: w.AirMinC, ColdMonthC: w.ColdestMonthC, SnowDays: w.SnowDays, MeanC: w.MeanYearC, RainMM: w.RainYearMM,
		Wetness: c.Soil.Wetness, SandPercent: c.Soil.SandPercent, ECeDSM: c.Soil.ECeDSM,
	}
	var drought, growing, share, years float64
	for i := range c.Zones {
		z := &c.Zones[i]
		l.DLI += z.Share * z.Light.DLISeason
		l.OpenShare += z.Share * z.Light.OpenShare
		share += z.Share
		for y := range z.Years {
			l.HotC += z.Share * z.Years[y].HotMeanC
			drought += z.Share * z.Years[y].DroughtDays
			growing += z.Share * z.Years[y].GrowingDays
			years += z.Share
		}
	}
	if share > 0 {
		l.DLI /= share
		l.OpenShare /= share
	}
	if years > 0 {
		l.HotC /= years
		l.DroughtShare = drought / math.Max(1, growing)
	}
	return l
}

// oversown tells whether an old sward is sown into.
func (l *Lawn) oversown() bool { return l.Cover > 0 }

// ordinary purposes shade into each other: a family's lawn is worn, a worn one a family's.
func (p Purpose) ordinary() bool { return p == Family || p == Sport }

func purpose(u species.Use, asked species.Grade) Purpose {
	switch {
	case u.Grazed():
		return Pasture
	case asked == species.HardWearing || u.Traffic == species.Heavy:
		return Sport
	case asked == species.Extensive:
		return Neglect
	case asked == species.Ornamental:
		return Show
	}
	return Family
}
