package species

import (
	"math"

	"swardwright/internal/arith"
	"swardwright/internal/steady"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/site/weather"
)

// The response functions say what one stress does to one grass. The matrix and
// the model of the sward both stand on them. Survivals are the share of the
// living cover that comes through one year of that stress; fits are how near a
// fixed condition is to what the grass wants. All lie in [0, 1], 1 best, and
// all are monotone in the stress and in the trait that withstands it.

// Constants of the responses. Figures marked inferred have no publication
// behind them; the ranks they reproduce stand beside each trait in the table.
const (
	// lightSteepness is the Hill exponent of cover against light. With it a
	// grass keeps 90 % of its cover at twice its half-cover light, which is the
	// light published quality floors lie at: perennial ryegrass held cover at
	// 14.8-16.7 and lost it at 3.3-4.7 mol m⁻² d⁻¹ (half-cover light 9).
	lightSteepness = 3
	// leafShadeCost is how much more light a grass needs where leaves took all
	// the rest: red to far-red falls from 1.2 to 0.1 (inferred: a quarter).
	leafShadeCost = 0.25

	// UnhardenedC is the LT50 of any grass in active growth: -5 °C read for
	// annual meadow-grass and creeping bent (Tompkins, Bubar & Ross 1996), -5.5
	// to -6 for tall fescue.
	UnhardenedC = -5.0
	// thawDays is the e-folding time of the loss in a thaw: most of it comes in
	// the first six days at 10 °C (Espevig, Höglind & Aamlid 2014); the thaws of
	// a winter are mostly cooler.
	thawDays = 10.0
	// freezeSpreadC is the scale of the logistic kill curve around LT50: about
	// 80 % killed 2 °C below it (inferred from the width of published curves).
	freezeSpreadC = 1.5

	// Days of snow mould that halve the cover of the least and the most resistant
	// grass. A day of the longest snow cover counts whole, since the grey moulds
	// need long snow; a day of cool wet weather counts as wetMouldDay. Fitted so
	// that ryegrass stands a British winter, loses a quarter under two months of
	// snow and most under four, when caps fall to nothing, and smooth meadow-grass
	// lives in the far north (inferred; ranks of Gregos, Casler & Stier 2011 and Koch).
	mouldLeastDays, mouldMostDays = 70.0, 600.0
	wetMouldDay                   = 0.4
	mouldSteepness                = 3

	// iceSteepness: velvet bent kept 90 % at 119 days where creeping bent kept
	// half (Kvalbein & Aamlid); annual meadow-grass, hurt from 45 days, was dead
	// at 75 to 90 (Tompkins; Beard).
	iceSteepness = 3
	// iceRunShare is the longest unbroken run, on which tests count, over all the
	// days of ice of a winter (inferred).
	iceRunShare = 0.7

	// Days of drought that halve the cover of the least and the most tolerant
	// grass, each day counted by the share of its water that the sward goes
	// without. Fitted to where lawns live unwatered: ryegrass through Puget
	// Sound's summers, smooth meadow-grass in North Dakota but not in Denver
	// (extension practice). Green colour goes much sooner: after 63 days at a quarter of
	// evapotranspiration ryegrass had 24 %, smooth meadow-grass 46 % (national
	// trial, St. Paul, 2018).
	droughtLeastDays, droughtMostDays = 40.0, 175.0
	droughtSteepness                  = 4
	// rootThirstDays are the drought days that the roots of trees add where their
	// leaves take all the light, on freely drained ground (inferred: dry and damp
	// shade want different grasses).
	rootThirstDays = 55.0

	// Mean temperature of the hottest 30 days that halves the cover of the least
	// and the most tolerant grass: the mean, since warm nights do the harm. Fitted
	// to where extension services stop sowing a grass: rough meadow-grass south
	// of Wisconsin, fescues and ryegrass south of Pennsylvania, smooth
	// meadow-grass south of Missouri; tall fescue to Oklahoma.
	heatLeastC, heatMostC = 24.0, 32.8
	heatSpreadC           = 1.2
	// shadeCoolC is how much cooler the canopy is in full shade, waterCoolC where
	// it never goes short of water (inferred: smooth meadow-grass is the lawn grass
	// of irrigated Utah, whose summers are those of Arkansas).
	shadeCoolC, waterCoolC = 1.5, 1.0
	// warmthSpreadC is the scale of the logistic on the other side, where the
	// summer is too cool (inferred).
	warmthSpreadC = 1.2

	// Share of the growing season with the ground above field capacity at which
	// the wet takes half of what it can take.
	wetHalfShare = 0.25
	wetSteepness = 2

	// airHalf is the stillness that halves the fit of a grass with no resistance
	// (inferred: fine fescue fades in the wet shade of western Oregon, and holds
	// in drier shade).
	airHalf = 0.5

	// sunnyStill is the share of the light that a lawn can miss and still be
	// kept as one in sun: 8 hours of direct sun, full sun in every rule of
	// thumb, leave two thirds of the light at 40-50° N.
	sunnyStill = 0.35

	// shadeCutRise is how much higher a grass must be cut in full shade: from
	// 38-64 in sun to 64-89 mm in shade (Arizona 1999, tall fescue).
	shadeCutRise = 0.5

	// tooHigh is how far above its highest close cut a grass fits half, as a part
	// of it: bents turn puffy and patchy in a lawn of ordinary height (common
	// practice, no published source).
	tooHigh = 0.5

	// Loss of cover in a year from traffic on a grass with no tolerance and no
	// regrowth. With them 14-30 % of a fine fescue's canopy is lost under
	// moderate wear (Rutgers).
	wearLight, wearModerate, wearHeavy = 0.15, 0.45, 1.1
	// wearRegrowth is the share of that loss that full growth makes good.
	wearRegrowth = 0.5

	// phHalf is the distance outside the preferred range at which growth
	// halves: the tolerated ranges of the USDA characteristics lie about one
	// unit outside the preferred ones.
	phHalf = 1.0

	// saltSlope is the loss of growth for each dS/m above the threshold: the
	// mean of perennial ryegrass 7.6 %, tall fescue 5.3 % and bermudagrass 6.4 %
	// (Maas & Grattan 1999, recalled).
	saltSlope = 0.064
	// saltWantHalf is the part of the salt that a grass of salt ground wants that may
	// be missing before its fit is halved (inferred).
	saltWantHalf = 0.5
)

// LightCover is cover in the light of a place over cover in full sun.
//
// dli is the growing season's mean light at the sward, mol m⁻² d⁻¹. leafShade is
// the share of the open lawn's light that leaves took (see [LeafTaken]).
func LightCover(t *Traits, dli, leafShade float64) float64 {
	if dli <= 0 {
		return 0
	}
	half := t[HalfCoverDLI] * (1 + leafShadeCost*arith.Unit(leafShade))
	return hill(half/dli, lightSteepness)
}

// LeafTaken is the share of the open lawn's light that leaves took.
func LeafTaken(l light.Light) float64 {
	return arith.Unit(l.LeafShade) * arith.Unit(1-l.OpenShare)
}

// lt50 is the crown temperature in °C that kills half the plants in the coldest
// part of one winter: between tender and fully hardened by that autumn's
// hardening, less what the thaws before it undid. Hardening saturates: the first
// half of its days brings three quarters of it (inferred).
func lt50(t *Traits, y *weather.Year) float64 { return frostOf(y).lt50(t) }

// WinterSurvival is what frost leaves.
func WinterSurvival(t *Traits, y *weather.Year) float64 { return frostOf(y).survival(t) }

// frost is what of a winter frost hardiness goes by.
type frost struct {
	crownMinC float64
	hardened  float64 // share of the hardiness that autumn brought
	thawed    float64 // of what a thaw can take, the share that thaws took
}

func frostOf(y *weather.Year) frost {
	tender := 1 - arith.Unit(y.Hardening)
	return frost{y.CrownMinC, 1 - tender*tender, 1 - steady.Exp(-y.ThawDays/thawDays)}
}

func (f frost) lt50(t *Traits) float64 {
	return UnhardenedC + (t[LT50C]-UnhardenedC)*f.hardened*(1-t[ThawLoss]*f.thawed)
}

func (f frost) survival(t *Traits) float64 {
	return logistic((f.crownMinC - f.lt50(t)) / freezeSpreadC)
}

// MouldSurvival is what snow mould leaves.
func MouldSurvival(t *Traits, y *weather.Year) float64 {
	return outlastsMould(MouldHalfDays(t), y)
}

// outlastsMould is the same by the days that halve the cover.
func outlastsMould(halfDays float64, y *weather.Year) float64 {
	return hill(mouldDays(y)/halfDays, mouldSteepness)
}

// MouldHalfDays are the days of snow mould that halve the cover of a grass.
func MouldHalfDays(t *Traits) float64 {
	return mouldLeastDays * steady.Exp(mouldRange*arith.Unit(t[SnowMould]))
}

// mouldDays are the winter's days of snow mould.
func mouldDays(y *weather.Year) float64 { return y.LongestSnow + wetMouldDay*y.MouldDays }

// Winter is what of a year's winter every grass goes by, so that many may be asked for theirs.
type Winter struct {
	frost      frost
	mould, ice float64 // days
}

// WinterOf is that of a year.
func WinterOf(y *weather.Year) Winter {
	return Winter{frostOf(y), mouldDays(y), iceRunShare * y.IceDays}
}

// Survival is what frost, snow mould and ice together leave of a grass where crowns are so
// much warmer. mouldHalfDays are those of the grass.
func (w *Winter) Survival(t *Traits, mouldHalfDays, crownC float64) float64 {
	f := w.frost
	f.crownMinC += crownC
	return f.survival(t) * hill(w.mould/mouldHalfDays, mouldSteepness) * hill(w.ice/t[IceDays], iceSteepness)
}

// IceSurvival is what suffocation under ice leaves.
func IceSurvival(t *Traits, y *weather.Year) float64 {
	return hill(iceRunShare*y.IceDays/t[IceDays], iceSteepness)
}

// DroughtSurvival is what the summer's drought leaves.
func DroughtSurvival(t *Traits, y *weather.Year) float64 {
	return hill(y.DroughtDays/droughtHalfDays(t), droughtSteepness)
}

func droughtHalfDays(t *Traits) float64 {
	return droughtLeastDays + (droughtMostDays-droughtLeastDays)*arith.Unit(t[Drought])
}

// YearInZone is a year as the sward of a zone feels it: the roots of the trees that
// shade it take some of its water, unless the ground is wet from below or
// watered, and shade and watering keep it cooler in the heat.
func YearInZone(y weather.Year, l light.Light, s *ground.Soil, watered bool) weather.Year {
	if watered {
		y.HotMeanC -= waterCoolC
	} else {
		y.DroughtDays += rootThirst(l, s)
	}
	y.HotMeanC -= shadeCoolC * arith.Unit(1-l.OpenShare)
	return y
}

// rootThirst is how many days of drought tree roots add to a year's.
func rootThirst(l light.Light, s *ground.Soil) float64 {
	return rootThirstDays * LeafTaken(l) * arith.Unit(1-s.Wetness)
}

// HeatSurvival is what the summer's heat leaves.
func HeatSurvival(t *Traits, y *weather.Year) float64 {
	return logistic((heatHalfC(t) - y.HotMeanC) / heatSpreadC)
}

func heatHalfC(t *Traits) float64 { return heatLeastC + (heatMostC-heatLeastC)*arith.Unit(t[Heat]) }

// WarmthFit is how far the summer is warm enough to grow in.
func WarmthFit(t *Traits, y *weather.Year) float64 {
	return logistic((y.HotMeanC - t[WarmthC]) / warmthSpreadC)
}

// WetShare is the share of a growing season in which the ground is wet.
func WetShare(y *weather.Year, s *ground.Soil) float64 {
	return s.WetShare(y.WetDays, y.GrowingDays)
}

// WetSurvival is what ground wet for a share of the growing season leaves.
func WetSurvival(t *Traits, wetShare float64) float64 {
	return 1 - (1-arith.Unit(t[Wet]))*(1-hill(wetShare/wetHalfShare, wetSteepness))
}

// AirFit is how well the grass bears the diseases of still, damp air.
// stillness is 0 in the open wind and dry, 1 closed in and always damp.
func AirFit(t *Traits, stillness float64) float64 {
	return bell(arith.Unit(stillness) * (1 - arith.Unit(t[StillAir])) / airHalf)
}

// MowingFit is how well a height of cut suits. shade is the share of the open
// lawn's light that is missing: in shade every grass must be cut higher.
func MowingFit(t *Traits, cutMM, shade float64) float64 {
	rise := 1 + shadeCutRise*shadiness(shade)
	low, best := t[MowLowMM]*rise, t[MowBestMM]*rise
	high := math.Max(t[MowHighMM], best)
	switch {
	case cutMM < best:
		return bell((best - cutMM) / math.Max(best-low, 1))
	case cutMM > high:
		return bell((cutMM - high) / (tooHigh * high))
	}
	return 1
}

// WearLoss is the share of the cover that a year's traffic takes. growth is
// what light and season leave for regrowth, 0 none to 1 full.
func WearLoss(t *Traits, traffic Traffic, growth float64) float64 {
	base := wearModerate
	switch traffic {
	case Light:
		base = wearLight
	case Heavy:
		base = wearHeavy
	}
	return arith.Unit(base * (1 - arith.Unit(t[Wear])) * (1 - wearRegrowth*arith.Unit(growth)))
}

// shadiness is how far a lawn that misses a share of the open lawn's light is to
// be kept as one in shade, 0 to 1.
func shadiness(missing float64) float64 { return arith.Unit((missing - sunnyStill) / (1 - sunnyStill)) }

// PHFit is how well a soil's pH suits.
func PHFit(t *Traits, ph float64) float64 {
	return bell(math.Max(0, math.Max(t[PHLow]-ph, ph-t[PHHigh])) / phHalf)
}

// SaltFit is how well the salt of the ground suits: growth over growth without
// salt, and for a grass of salt ground, which is found there alone since it competes
// weakly elsewhere, how near the ground comes to that. No loss up to
// the threshold, then a straight line (Maas & Hoffman 1977).
func SaltFit(t *Traits, eceDSM float64) float64 {
	grown := arith.Unit(1 - saltSlope*math.Max(0, eceDSM-t[SaltDSM]))
	if want := t[SaltWantedDSM]; want > eceDSM {
		return grown * bell((want-eceDSM)/(want*saltWantHalf))
	}
	return grown
}

// mouldRange is the logarithm of mouldMostDays over mouldLeastDays.
var mouldRange = math.Log(mouldMostDays / mouldLeastDays)

// hill is 1 at 0, 1/2 at 1 and falls towards 0, steeper for a greater power.
func hill(x float64, power int) float64 {
	if x <= 0 {
		return 1
	}
	p := x
	for range power - 1 {
		p *= x
	}
	return 1 / (1 + p)
}

// bell is the flank of the membership function of Burrough (1989): 1 inside
// the core, 1/2 at the crossover distance.
func bell(x float64) float64 {
	if x <= 0 {
		return 1
	}
	return 1 / (1 + x*x)
}

func logistic(x float64) float64 { return 1 / (1 + steady.Exp(-x)) }

// triangular is the inverse of the triangular distribution function on
// [low, high] with mode best, at u in [0, 1).
func triangular(low, best, high, u float64) float64 {
	w := high - low
	if w <= 0 {
		return best
	}
	if f := (best - low) / w; u < f {
		return low + math.Sqrt(u*f)*w
	} else {
		return high - math.Sqrt((1-u)*(1-f))*w
	}
}
