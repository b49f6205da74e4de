package species

import (
	"swardwright/internal/arith"
	"swardwright/site/weather"
)

// How a young grass grows to its first cut: by thermal time. The base is that of tall fescue's
// growth curve, the sum is set by first mowing four to five weeks after sowing ryegrass and
// eight to nine after smooth meadow-grass in warm moist soil (common practice, no published source).
const (
	GrowthBaseC = 3.0
	growthLidC  = 22.0  // warmer days bring no more
	warmBaseC   = 10.0  // warm-season grasses
	warmLidC    = 32.0  // common practice, no published source
	firstCutMM  = 75.0  // height that mowDegDays were set by
	overCut     = 1.5   // a first cut takes a third off (common practice, no published source),
	shortestMM  = 50.0  // from 50 mm (the Royal Horticultural Society's 5 to 8 cm, second-hand)
	tallestMM   = 100.0 // to 100 mm (the Polish road specification)

	mowDegDays   = 300.0
	mowVigourLow = 0.25 // mowDegDays / (mowVigourLow + (1-mowVigourLow) x vigour)

	// What isn't tall enough before the winter is cut when grass grows again, in a fortnight with so much of the
	// warmth of the warmest, as the season of mowing opens. Where the crown is at leafSafeC no leaf has
	// died, at leafGoneC all: our own.
	mownWarmth = 0.25
	fortnight  = 14
	leafSafeC  = -5.0
	leafGoneC  = -15.0

	// In shade grass grows the taller, down to this share of the open's light: in pots and
	// plots of five turfgrasses vertical growth rose linearly with shade up to 65 %, the
	// deepest tried (Tegg and Lane, Australian Journal of Experimental Agriculture 44, 2004).
	// By how much is our judgement.
	stretchShare = 0.35
	stretchMost  = 0.5
)

// MowDegDays is the growth, in degree-days, from emergence to the size of a first mowing: of
// the quickest grass (vigour 1) 300.
func MowDegDays(vigour float64) float64 {
	return mowDegDays / (mowVigourLow + (1-mowVigourLow)*vigour)
}

// FirstCutDegDays is the same to the height at which a lawn is first cut that will be kept at another.
func FirstCutDegDays(vigour, keptMM float64) float64 {
	return MowDegDays(vigour) * FirstCutMM(keptMM) / firstCutMM
}

// FirstCutMM is the height of the grass at its first cut, for a lawn kept at another; 0: not known.
func FirstCutMM(keptMM float64) float64 {
	if keptMM <= 0 {
		return firstCutMM
	}
	return min(tallestMM, max(shortestMM, keptMM*overCut))
}

// Warmth is what a day of a mean temperature adds to the growth of a grass, in degree-days.
func Warmth(meanC float64, warm bool) float64 {
	if warm {
		return arith.Most(0, min(warmLidC, meanC)-warmBaseC)
	}
	return arith.Most(0, min(growthLidC, meanC)-GrowthBaseC)
}

// Stretched is the growth in height in a light over that in a clear summer's day, openShare being the
// light's part of the open's: in shade grass loses leaves and roots and stretches, until little is left of the light.
func Stretched(dli, openShare float64) float64 {
	share := max(openShare, stretchShare)
	return weather.LightFactor(dli/share) * (1 + stretchMost*(1-share)/(1-stretchShare))
}

// LeafKilled is the share of the leaf of a young grass that the frost of a winter kills, by its coldest crown.
func LeafKilled(crownC float64) float64 {
	return arith.Unit((leafSafeC - crownC) / (leafSafeC - leafGoneC))
}

// Mown finds for every day of a running sum of warmth the first from it on that begins a fortnight with mownWarmth
// of the warmth of the best of so many days; the day itself where no such day lies ahead.
func Mown(warmth []float32, days int) []int32 {
	last := len(warmth) - 1
	fortnightly := func(k int) float32 { return warmth[min(k+fortnight, last)] - warmth[k] }
	most := float32(0)
	for k := range days {
		most = max(most, fortnightly(k))
	}
	from, next := make([]int32, last+1), int32(-1)
	for k := last; k >= 0; k-- {
		if most > 0 && fortnightly(k) >= mownWarmth*most {
			next = int32(k)
		}
		if from[k] = next; next < 0 {
			from[k] = int32(k)
		}
	}
	return from
}
