package weather

import "swardwright/internal/arith"

// The snow cover by degree-days. Own constants, fitted to the days with snow
// lying of every second station that counts them: the year's count is then 9
// days off on average, and 7 at the half held back.
const (
	snowAllC     = -0.5 // at and below this mean all falls as snow
	snowNoneC    = 2.5  // at and above it all as rain
	meltFromC    = -0.5
	meltMMPerK   = 3.0
	meltRainPerK = 0.012 // more, per mm of rain: 4.19 kJ over 334 kJ a kilogram
	groundMeltMM = 0.1   // a day, from the warmth of the ground
	freshDensity = 0.10  // of water
	oldDensity   = 0.35
	settleDry    = 0.03 // a day, of the way from fresh to old
	settleWet    = 0.15
)

// snowpack is the snow on open ground.
type snowpack struct {
	waterMM, depthCM float64
}

// rainOf is what of a day's rain and snow falls as rain.
func rainOf(precipMM, meanC float64) float64 {
	return precipMM * arith.Most(0, arith.Least(1, (meanC-snowAllC)/(snowNoneC-snowAllC)))
}

// day carries the snow over one day with its rain or snow and mean temperature.
func (s *snowpack) day(precipMM, meanC float64) {
	fresh := precipMM - rainOf(precipMM, meanC)
	density := freshDensity
	if s.waterMM > 0 && s.depthCM > 0 {
		density = s.waterMM / 10 / s.depthCM
	}
	rate := settleDry
	warm := arith.Most(0, meanC-meltFromC)
	if warm > 0 {
		rate = settleWet
	}
	density += (oldDensity - density) * rate
	melt := arith.Least(s.waterMM+fresh, groundMeltMM+warm*(meltMMPerK+meltRainPerK*(precipMM-fresh)))
	s.depthCM = 0
	old := s.waterMM - melt
	if old > 0 {
		s.depthCM = old / 10 / density
	} else {
		fresh += old // old is not above 0: what melts of the fresh snow
	}
	s.depthCM += fresh / 10 / freshDensity
	s.waterMM = arith.Most(0, old) + fresh
	if s.waterMM < 0.05 {
		s.waterMM, s.depthCM = 0, 0
	}
}
