package sward

import (
	"swardwright/internal/arith"
	"swardwright/internal/steady"
	"swardwright/site/weather"
	"swardwright/species"
)

// broadLeaved are broad-leaved weeds of mown turf as one plant: clovers, dandelion,
// plantains, daisy, self-heal. Figures are of the order of the commonest ones (concluded
// from their habit and from where they are found in mown turf, no published source)
// but for those below.
var broadLeaved = species.Traits{
	species.LT50C: -25, species.ThawLoss: 0.3, species.SnowMould: 0.8, species.IceDays: 60,
	species.HalfCoverDLI: 9, species.StillAir: 0.7, species.Wet: 0.6, species.Drought: 0.65, species.Heat: 0.85, species.WarmthC: 6,
	species.MowLowMM: 8, species.MowBestMM: 20, species.MowHighMM: 80, species.Wear: 0.45,
	species.NitrogenGM2: 4, species.PHLow: 5.5, species.PHHigh: 7.5, species.SaltDSM: 2.5,
	species.EmergeDegDays: 150, species.GermBaseC: 3, species.Vigour: 0.4,
	species.Spread:      0.6,
	species.Volunteer:   weedSeed,
	species.Persistence: weedPersistence,
}

// Constants of the weeds, fitted together: unfed, unwatered and unweeded at Kennett
// Square, Pennsylvania, six sowings of fescues, tall fescue and smooth meadow-grass
// covered 13 to 27 % of the ground after five years, the rest being broad-leaved weeds
// (NTEP, 2015 National Low Input Cool-Season Test, 2020 data); fed lawns of the same
// place keep them under a tenth (common practice, no published source).
const (
	weedSeed        = 0.10 // share of a gap they seed themselves into in a moist year
	weedPersistence = -2.9
	weedHunger      = 6.0 // log-odds a season for nitrogen a whole N₀ short: clovers find their own, and hungry grass stands open
	weedWarmth      = 3.6 // the same for a summer whose hottest 30 days are weedWarmK warmer than weedCoolC
	weedCoolC       = 17.0
	weedWarmK       = 8.0
	// weedCrowding is what weeds lose of it where all is weeds: rosettes leave room for
	// grass between them, so that neither ousts the other.
	weedCrowding = 6.6
)

// weeds are the figures of the weeds in a stand.
func (s *stand) weeds(off *deviation) figures {
	f := s.of(&broadLeaved, false, off)
	f.merit += weedHunger * (1 - s.nitrogen)
	return f
}

// weedsIn is what one year is to weeds of some merit.
func (s *stand) weedsIn(year *season, merit float64, off *deviation) (gain, summer, winter float64) {
	return s.in(year, &broadLeaved, weedMerit(year, merit), off)
}

// weedMerit is the merit of weeds in a year.
func weedMerit(year *season, merit float64) float64 {
	return merit + weedWarmth*weedSummer(year.HotMeanC)
}

// crowding is what a part of a season leaves of what weeds gain, standing among weeds.
func (h *history) crowding(part float64) float64 {
	if h.weeds >= h.n || h.x[h.weeds] == 0 {
		return 1
	}
	total := 0.0
	for _, x := range h.x[:h.n] {
		total += x
	}
	return steady.Exp(-weedCrowding * part * h.x[h.weeds] / total)
}

// greenOver lets moss fill, over the dark half of the year, its share of what nothing
// else covers.
func (h *history) greenOver(share float64) {
	gap := h.gap()
	h.moss = min(gap, h.moss+mossYear*(share*gap-h.moss))
}

// weedSummer is how warm a summer is for weeds, 1 as in the mid-Atlantic states.
func weedSummer(hotMeanC float64) float64 {
	return min(1.3, max(0, (hotMeanC-weedCoolC)/weedWarmK))
}

// weedWorth is what cover by weeds counts for: nearly as good as grass in a lawn of little care, a third
// a blemish in an ordinary one, none in a fine one (our judgement).
func weedWorth(g species.Grade) float64 {
	switch g {
	case species.Extensive:
		return 0.8
	case species.Ornamental:
		return 0
	}
	return 0.3
}

// Moss fills thin turf and does not push out good turf (Landschoot, Penn State 1999,
// who names as its causes hunger, acid soil, heavy shade, wet soil and shallow or compact
// soil): it takes of the ground that nothing else covers a share by how many
// of its causes are there. It is no competitor of the grasses, so that grass closes over it.
const (
	mossYear     = 0.6  // of the way it goes in a year
	mossCoolC    = 1.0  // it grows on days of a mean from here
	mossWarmC    = 15.0 // to here
	mossMoist    = 0.5  // while the top of the ground holds that share of its water
	mossDays     = 0.35 // share of the days that are such where it grows all it can
	mossNeeds    = 0.35 // sum of its causes at which it takes half of what is open
	mossAcidPH   = 5.0  // ground acid enough to count whole
	mossNeutral  = 6.5  // and not at all
	mossScalpMM  = 25.0 // a cut below which turf is scalped, wholly 20 mm below it
	mossShadedMM = 60.0 // a cut above which grass shades it out, wholly at 200 mm more
)

// mossShare is the share of open ground that moss comes to hold.
func (s *stand) mossShare(d *weather.Days) float64 {
	var wet float64
	for i := range s.years {
		wet += s.years[i].wetShare / float64(len(s.years))
	}
	shade := arith.Unit(1 - s.open)
	acid := arith.Ramp(s.ph, mossNeutral, mossAcidPH)
	scalped := arith.Unit((mossScalpMM - s.cut) / 20)
	causes := 0.8*(shade*shade+wet) + 0.3*(acid+arith.Unit(1-s.nitrogen)+scalped)
	open := arith.Unit(1 - (s.cut-mossShadedMM)/200)
	return moistCool(d) * open * causes * causes / (causes*causes + mossNeeds*mossNeeds)
}

// moistCool is how near a year comes to what moss can use, 0 to 1.
func moistCool(d *weather.Days) float64 {
	if d == nil || len(d.MeanC) == 0 {
		return 0
	}
	days := 0
	for i, t := range d.MeanC {
		if t > mossCoolC && t < mossWarmC && d.Surface[i] > mossMoist {
			days++
		}
	}
	return arith.Unit(float64(days) / float64(len(d.MeanC)) / mossDays)
}
