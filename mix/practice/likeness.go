package practice

import (
	"math"

	"swardwright/site/weather"
)

// Likeness is how like two lawns are, 0 to 1, block by block.
type Likeness struct {
	Winter, Summer, Water, Light, Ground, Salt, Feed, Work, Purpose, Near float64
}

// Differences that make two lawns unlike: at so much likeness in a block falls to 0.61
// of what it can lose, at twice as much to 0.14.
const (
	minScaleC       = 5.0 // yearly minimum of the air
	coldScaleC      = 5.0 // mean of the coldest month
	snowScaleDays   = 50.0
	hotScaleC       = 2.5  // mean of the hottest 30 days
	meanScaleC      = 4.0  // mean of the year
	rainScale       = 0.7  // of the logarithm of a year's rain
	droughtScale    = 0.15 // share of the growing season
	dliScaleMol     = 7.0
	openScale       = 0.3 // share of the open lawn's light
	wetScale        = 0.3 // ground.Soil.Wetness
	sandScale       = 35.0
	saltScale       = 1.0 // of the logarithm of salinity
	nitrogenScaleGM = 6.0
	coverScale      = 0.2    // by an old sward
	nearScaleKM     = 1000.0 // what is sown, and what can be had, also goes by the country
)

// What is left of likeness however unlike a block is, so that one mismatch doesn't
// silence a recommendation.
const (
	winterFloor  = 0.02
	summerFloor  = 0.02
	waterFloor   = 0.1
	lightFloor   = 0.02
	groundFloor  = 0.05
	saltFloor    = 0.05
	feedFloor    = 0.2
	workFloor    = 0.1 // a new lawn beside an old one oversown
	purposeFloor = 0.04
	farFloor     = 0.1
)

// saltFromDSM is the salinity up to which ground is alike.
const saltFromDSM0 = 0.5

// LikenessOf compares two lawns.
func LikenessOf(a, b *Lawn) Likeness {
	l := Likeness{
		Winter:  alike(winterFloor, (a.WinterMinC-b.WinterMinC)/minScaleC, (a.ColdMonthC-b.ColdMonthC)/coldScaleC, (a.SnowDays-b.SnowDays)/snowScaleDays),
		Summer:  alike(summerFloor, (a.HotC-b.HotC)/hotScaleC, (a.MeanC-b.MeanC)/meanScaleC),
		Water:   alike(waterFloor, math.Log(a.RainMM/b.RainMM)/rainScale, (a.DroughtShare-b.DroughtShare)/droughtScale),
		Light:   alike(lightFloor, (a.DLI-b.DLI)/dliScaleMol, (a.OpenShare-b.OpenShare)/openScale),
		Ground:  alike(groundFloor, (a.Wetness-b.Wetness)/wetScale, (a.SandPercent-b.SandPercent)/sandScale),
		Salt:    alike(saltFloor, math.Log(max(a.ECeDSM, saltFromDSM0)/max(b.ECeDSM, saltFromDSM0))/saltScale),
		Feed:    alike(feedFloor, (a.NitrogenGM2-b.NitrogenGM2)/nitrogenScaleGM),
		Near:    alike(farFloor, a.kmTo(b)/nearScaleKM),
		Work:    alike(workFloor, (a.Cover-b.Cover)/coverScale),
		Purpose: 1,
	}
	if a.Purpose != b.Purpose {
		l.Purpose = purposeFloor
		if !a.Purpose.ordinary() || !b.Purpose.ordinary() {
			l.Purpose /= 2
		}
	}
	return l
}

// Whole is the likeness of the lawns by all blocks.
func (l Likeness) Whole() float64 {
	return l.Winter * l.Summer * l.Water * l.Light * l.Ground * l.Salt * l.Feed * l.Work * l.Purpose * l.Near
}

// mean is the likeness of the lawns in a block, over all blocks: their geometric mean.
func (l Likeness) mean() float64 { return math.Pow(l.Whole(), 1.0/blocks) }

// blocks is how many blocks a likeness has.
const blocks = 10

// alike is likeness that falls from 1 to a floor as a normal curve does, by
// differences in their scales.
func alike(floor float64, differences ...float64) float64 {
	sum := 0.0
	for _, d := range differences {
		sum += d * d
	}
	return floor + (1-floor)*math.Exp(-sum/2)
}

// kmTo is the way to another lawn along a great circle.
func (l *Lawn) kmTo(o *Lawn) float64 {
	return weather.DistanceKM(l.LatitudeDeg, l.LongitudeDeg, o.LatitudeDeg, o.LongitudeDeg)
}
