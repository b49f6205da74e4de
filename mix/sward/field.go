package sward

import (
	"math"

	"swardwright/site"
	"swardwright/site/weather"
	"swardwright/species"
)

// Field is one lawn as the grasses of a pool meet it: everything the model
// reads, worked out once and shared by every mixture tried. Slices by grass are
// in the order of the pool; slices by year and grass hold year*len(pool)+grass.
type Field struct {
	IDs     []string
	Invader []bool // by grass: comes in by itself and is never wanted
	Years   int
	Zones   []Zone
}

// Zone is one light zone of a field.
type Zone struct {
	Share float64 // of the lawn's area, 0 to 1

	Capacity  []float64 // by grass: cover it holds alone, 0 to 1
	Claim     []float64 // by grass: ground a seedling claims in eight weeks, m²
	Spread    []float64 // by grass: 0 to 1
	Volunteer []float64 // by grass: of a gap, share it seeds itself into each year
	Green     []float64 // by grass: share of the growing season in which it is green

	Gain   []float32 // by year and grass: e to the power of its merit over half a season
	Summer []float32 // by year and grass: share of the cover that outlasts the growing season's losses
	Winter []float32 // by year and grass: share that outlasts the winter after it
	Growth []float32 // by year: the season's growth, days of full growth
}

// Green is the share of the growing season for which a grass is green, mean of the
// zones by area.
func (f *Field) Green(g int) float64 {
	var green float64
	for i := range f.Zones {
		green += f.Zones[i].Share * f.Zones[i].Green[g]
	}
	return green
}

// Sowing is what goes into the ground.
type Sowing struct {
	Grass    []int     // index in the pool, rising
	Plants   []float64 // plants/m² that come up, by sown grass
	Standing []float64 // cover that stands already, by grass of the pool; nil: bare ground
	Season   float64   // share of the first growing season left after establishment, 0 to 1
	Winter   bool      // a winter comes before the first growing season is counted
}

// NewField works out what the grasses of a pool meet on a site under a use.
//
// With the response functions of package species (each 0 to 1), by grass:
//
//	K = k₀ · light · √(√cut · pH · feed · air) · salt
//	S = S' (1 − wear),   S' = drought^δ · heat^ε · wet · warmth
//	W = frost · mould · ice
//	M = persistence + λ ln light + μ ln cut + ln pH + ln salt + ln air + ln feed
//	    + ν (need/N₀ − 1)(N/N₀ − 1) + θ (T − T₀)/ΔT (heat' − ½) + κ ln S' + ω ln(1 − wear)
//	    + χ mild (LT50 − LT50₀)/ΔL
//	r = r₀ + (1 − r₀) spread
//
// The powers δ and ε stand for grass that is brown but not dead when it rains or
// cools; ε rises with the wet days of the hottest month, since damp heat brings the
// diseases that kill.
// The term in ν lets feeding favour the grasses that need it and hunger those that
// don't. The one in θ lets warm summers favour the grasses that stand heat (trait
// heat') and cool ones the others: smooth meadow-grass overcomes ryegrass in
// Indiana and gives way to it near Bonn. Those in κ and ω say that a grass which summer
// or feet have thinned has also lost ground to its neighbours while it stood still.
// The term in χ lets the grasses that grow through a mild winter, which are those
// that harden least, gain on those that rest: smooth meadow-grass gives way to
// ryegrass west of the Cascades as it doesn't inland.
// Every grass closes gaps by tillering, r₀, and some by creeping as well.
//
// Warm-season grass is brown for part of the year: it grows, and its cover counts,
// by its own sum of growth over that of cool-season grass.
func NewField(c *site.Conditions, pool []*species.Species, use species.Use) *Field {
	f := &Field{Zones: make([]Zone, len(c.Zones))}
	traits := make([]species.Traits, len(pool))
	for g, s := range pool {
		f.IDs = append(f.IDs, s.ID)
		f.Invader = append(f.Invader, s.Invader)
		traits[g] = s.Best()
	}
	for zi := range c.Zones {
		f.Years = len(c.Zones[zi].Years)
		f.Zones[zi] = newZone(c, &c.Zones[zi], pool, traits, use)
	}
	return f
}

func newZone(c *site.Conditions, z *site.Zone, pool []*species.Species, traits []species.Traits, use species.Use) Zone {
	n, years := len(pool), len(z.Years)
	out := Zone{
		Share:    z.Share,
		Capacity: make([]float64, n), Claim: make([]float64, n), Spread: make([]float64, n), Volunteer: make([]float64, n), Green: make([]float64, n),
		Gain: make([]float32, years*n), Summer: make([]float32, years*n), Winter: make([]float32, years*n),
		Growth: make([]float32, years),
	}
	shade := 1 - z.Light.OpenShare
	leaf := species.LeafTaken(z.Light)
	cut := use.CutMM(c, z)
	soilN := species.SoilNitrogenGM2(&c.Soil)
	nitrogen := (use.NitrogenOrClass() + soilN) / nitrogen0
	heatDeath := heatDry + heatDamp*hottestWet(c)
	phi := firstCut(cut)
	moist := moistness(z.Years)
	still := species.Stillness(c, z)
	warm := warmShare(z.Years)
	felt := make([]weather.Year, years)
	wetShare, warmth := make([]float64, years), make([]float64, years)
	for y := range z.Years {
		out.Growth[y] = float32(fullGrowth * math.Sqrt(z.Years[y].GrowthSum/fullGrowth))
		felt[y] = species.Felt(z.Years[y], z.Light, &c.Soil, use.Irrigation)
		wetShare[y] = species.WetShare(&felt[y], &c.Soil)
		warmth[y] = warmMerit * min(1.5, max(-0.5, (felt[y].HotC-neutralC)/warmStepC))
	}
	for g, s := range pool {
		t := &traits[g]
		light := species.LightCover(t, z.Light.DLISeason, leaf)
		mowing := species.MowingFit(t, cut, shade)
		ph := species.PHFit(t, c.Soil.PH)
		salt := species.SaltFit(t, c.Soil.ECeDSM)
		air := species.AirFit(t, still)
		fed := species.NitrogenFit(t, use.NitrogenOrClass(), soilN, species.StandardOf(use.Grade).Feed, shade)

		out.Capacity[g] = fullCover * light * math.Sqrt(math.Sqrt(mowing)*ph*fed*air) * salt
		out.Claim[g] = claim(t, phi) * light
		out.Green[g] = 1
		if s.Warm {
			out.Green[g] = warm
		}
		out.Spread[g] = (tillering + (1-tillering)*t[species.Spread]) * out.Green[g]
		out.Volunteer[g] = t[species.Volunteer] * moist
		merit := t[species.Persistence] +
			lightMerit*logOf(light) + mowingMerit*logOf(mowing) + logOf(ph) + logOf(salt) + logOf(air) + logOf(fed) +
			feedMerit*(t[species.NitrogenGM2]/nitrogen0-1)*(nitrogen-1)
		if !s.Warm {
			hardy := (t[species.FreezingC] - dormantC) / dormantStepC
			merit += mildMerit * clamp01(c.Weather.ColdestMonthC/mildC) * min(1.5, max(-1, hardy))
		}
		for y := range z.Years {
			year := &felt[y]
			growth := clamp01(float64(out.Growth[y]) / fullGrowth)
			stress := math.Pow(species.DroughtSurvival(t, year), droughtDeath) * math.Pow(species.HeatSurvival(t, year), heatDeath) *
				species.WetSurvival(t, wetShare[y]) * species.WarmthFit(t, year)
			worn := 1 - species.WearLoss(t, use.TrafficOr(), growth)

			i := y*n + g
			out.Summer[i] = float32(stress * worn)
			// e to the half of κ ln S' and of ω ln(1 − wear), as powers.
			thinned := math.Pow(max(stress, leastFit), stressMerit/2) * math.Pow(max(worn, leastFit), wearMerit/2)
			out.Gain[i] = float32(math.Exp((merit+warmth[y]*(t[species.Heat]-0.5))/2) * thinned)
			out.Winter[i] = float32(species.WinterSurvival(t, year) * species.MouldSurvival(t, year) * species.IceSurvival(t, year))
		}
	}
	return out
}

// hottestWet is the share of wet days in the hottest month.
func hottestWet(c *site.Conditions) float64 {
	hot := 0
	for m, t := range c.Normals.MeanC {
		if t > c.Normals.MeanC[hot] {
			hot = m
		}
	}
	return c.Normals.WetDays[hot] / 30
}

// warmShare is the growth of warm-season grass over that of cool-season grass.
func warmShare(years []weather.Year) float64 {
	var warm, cool float64
	for i := range years {
		warm += years[i].WarmSum
		cool += years[i].GrowthSum
	}
	return clamp01(warm / max(1, cool))
}

// claim is the ground a seedling has claimed after eight weeks in full light, m².
func claim(t *species.Traits, phi float64) float64 {
	emergence := t[species.EmergeDegDays] / max(1, soil0-t[species.GermBaseC])
	return claim0 * math.Exp(phi*(headStart*(emergence0-emergence)+vigour*(t[species.Vigour]-vigour0)))
}

// firstCut is φ for a lawn cut at a height. The first cut comes when the quickest
// grass stands half as high again, so that no more than a third is taken: after
// firstCutDay0 days at 13 mm and firstCutRise longer for each millimetre more.
func firstCut(cutMM float64) float64 {
	return early(cutMM, firstCutDay0+firstCutRise*(cutMM-13))
}

// early is φ for a first cut at a height and on a day after first emergence.
func early(cutMM, day float64) float64 {
	if cutMM >= firstCutFullMM {
		return 1
	}
	return 1 - firstCutLoss*(1-cutMM/firstCutFullMM)*math.Exp(-(max(firstCutDay0, day)-firstCutDay0)/firstCutDays)
}

// moistness is the share of the growing season without drought, mean of the years.
func moistness(years []weather.Year) float64 {
	var sum float64
	for i := range years {
		if d := years[i].GrowingDays; d > 0 {
			sum += clamp01(1 - years[i].DroughtDays/d)
		}
	}
	return sum / max(1, float64(len(years)))
}

// leastFit is what no fit or survival counts as less than.
const leastFit = 1e-4

// logOf is the natural logarithm of a fit.
func logOf(x float64) float64 { return math.Log(max(x, leastFit)) }

func clamp01(x float64) float64 { return min(1, max(0, x)) }
