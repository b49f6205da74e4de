package sward

import (
	"math"
	"slices"

	"swardwright/internal/arith"
	"swardwright/internal/steady"
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

	ownKind float64 // see [Scales]; 0 without a record
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

	Standing []float64 // by grass: cover that stands before anything is sown; nil: bare ground

	First *First // of a first season that is watered; nil: as any
}

// First is what a season is to the grasses where the lawn is watered through its
// first one alone.
type First struct{ Gain, Summer, Growth []float32 }

// Green is the share of the growing season for which a grass is green, mean of the
// zones by area.
func (f *Field) Green(g int) float64 {
	var green float64
	for i := range f.Zones {
		green += f.Zones[i].Share * f.Zones[i].Green[g]
	}
	return green
}

// stands tells whether any of a grass stands before anything is sown.
func (f *Field) stands(g int) bool {
	return slices.ContainsFunc(f.Zones, func(z Zone) bool { return z.Standing != nil && z.Standing[g] > 0 })
}

// Sowing is what goes into the ground.
type Sowing struct {
	Grass  []int     // index in the pool, rising
	Plants []float64 // plants/m² that come up, by sown grass
	Season float64   // share of the first growing season left after establishment, 0 to 1
	Winter bool      // a winter comes before the first growing season is counted
}

// NewField works out what the grasses of a pool meet on a site under a use.
//
// With the response functions of package species (each 0 to 1), by grass:
//
//	K = k₀ · light · lasts · √(√cut · pH · feed · air) · salt
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
		f.Zones[zi] = newStand(c, &c.Zones[zi], use).zone(pool, traits)
	}
	return f
}

// stand is one zone under one use, the site's side of every response.
type stand struct {
	share                float64
	dli, open, leaf      float64 // light
	need                 float64 // light below which no sward lasts, mol m⁻² d⁻¹
	cut, phi             float64
	fed, soilN, nitrogen float64 // g/m² a year fed and from the soil; of both over the usual
	feed                 float64 // that the grade's look asks for, of full need
	ph, salt             float64
	still, mild          float64
	moist, warm          float64 // shares of the growing season
	heatDeath            float64
	traffic              species.Traffic
	moss                 float64  // of the ground that nothing else covers, share that moss comes to hold
	years, first         []season // any season; a first one that is watered, nil: as any
	winters              []species.Winter
}

// season is one year of a stand.
type season struct {
	weather.Year
	wetShare, warmth, growth float64
}

func newStand(c *site.Conditions, z *site.Zone, use species.Use) *stand {
	s := &stand{
		share: z.Share, dli: z.Light.DLISeason, open: z.Light.OpenShare, leaf: species.LeafTaken(z.Light), need: LeastDLI(c),
		cut: use.CutMM(c, z), fed: use.NitrogenOrClass(), soilN: species.SoilNitrogenGM2(&c.Soil), feed: species.StandardOf(use.Grade).Feed,
		ph: c.Soil.PH, salt: c.Soil.ECeDSM, still: species.Stillness(c, z), mild: arith.Unit(c.Weather.ColdestMonthC / mildC),
		moist: moistness(z.Years), warm: warmShare(z.Years), heatDeath: heatDry + heatDamp*hottestWet(c), traffic: use.TrafficOr(),
	}
	s.phi = firstCut(s.cut)
	s.nitrogen = (s.fed + s.soilN) / nitrogen0
	met := func(years []weather.Year, watered bool) (out []season) {
		for _, y := range years {
			felt := species.YearInZone(y, z.Light, &c.Soil, watered)
			out = append(out, season{
				Year: felt, wetShare: species.WetShare(&felt, &c.Soil),
				warmth: warmMerit * min(1.5, max(-0.5, (felt.HotC-neutralC)/warmStepC)),
				growth: math.Sqrt(y.GrowthSum / fullGrowth),
			})
		}
		return out
	}
	s.years, s.first = met(z.Years, use.Irrigation), met(z.First, true)
	for i := range s.years {
		s.winters = append(s.winters, species.WinterOf(&s.years[i].Year))
	}
	s.moss = s.mossShare(z.Days)
	return s
}

// figures are what a grass is in a stand, whatever the year.
type figures struct {
	capacity, claim, spread, green, volunteer float64
	merit                                     float64
}

// deviation is how far one lawn lies from what the site's models say of it. The zero
// value is no deviation.
type deviation struct {
	light  float64 // ln of a factor
	need   float64 // ln of a factor on the least light
	crownC float64
	ph     float64
	wet    float64 // factor less 1
}

// of works out the figures of a grass.
func (s *stand) of(t *species.Traits, warm bool, off *deviation) figures {
	factor := 1.0
	if off.light != 0 {
		factor = steady.Exp(off.light)
	}
	dli, shade := s.dli*factor, 1-min(1, s.open*factor)
	light := species.LightCover(t, dli, s.leaf)
	mowing := species.MowingFit(t, s.cut, shade)
	ph := species.PHFit(t, s.ph+off.ph)
	salt := species.SaltFit(t, s.salt)
	air := species.AirFit(t, s.still)
	fed := species.NitrogenFit(t, s.fed, s.soilN, s.feed, shade)

	f := figures{green: 1}
	f.capacity = fullCover * light * lightLasts(dli, s.need, off.need) * math.Sqrt(math.Sqrt(mowing)*ph*fed*air) * salt
	f.claim = claim(t, s.phi) * light
	if warm {
		f.green = s.warm
	}
	f.spread = (tillering + (1-tillering)*t[species.Spread]) * f.green
	f.volunteer = t[species.Volunteer] * s.moist
	f.merit = t[species.Persistence] +
		lightMerit*logOf(light) + mowingMerit*logOf(mowing) + logOf(ph) + logOf(salt) + logOf(air) + logOf(fed) +
		feedMerit*(t[species.NitrogenGM2]/nitrogen0-1)*(s.nitrogen-1)
	if !warm {
		hardy := (t[species.LT50C] - dormantC) / dormantStepC
		f.merit += mildMerit * s.mild * min(1.5, max(-1, hardy))
	}
	return f
}

// in works out what one year is to a grass of some merit: e to the power of its merit
// over half the season, and the shares that outlast summer and the winter after.
func (s *stand) in(year *season, t *species.Traits, merit float64, off *deviation) (gain, summer, winter float64) {
	cold := species.WinterOf(&year.Year)
	gain, summer = s.grows(year, t, merit, off)
	return gain, summer, cold.Survival(t, species.MouldHalfDays(t), off.crownC)
}

// grows is the same without the winter.
func (s *stand) grows(year *season, t *species.Traits, merit float64, off *deviation) (gain, summer float64) {
	stress := math.Pow(species.DroughtSurvival(t, &year.Year), droughtDeath) * power(species.HeatSurvival(t, &year.Year), s.heatDeath) *
		species.WetSurvival(t, arith.Unit(year.wetShare*(1+off.wet))) * species.WarmthFit(t, &year.Year)
	worn := 1 - species.WearLoss(t, s.traffic, arith.Unit(year.growth))
	// e to the half of κ ln S' and of ω ln(1 − wear), as powers.
	thinned := math.Pow(max(stress, leastFit), stressMerit/2) * math.Pow(max(worn, leastFit), wearMerit/2)
	gain = steady.Exp((merit+year.warmth*(t[species.Heat]-0.5))/2) * thinned
	return gain, stress * worn
}

// zone is the stand as the grasses of a pool meet it by their best figures.
func (s *stand) zone(pool []*species.Species, traits []species.Traits) Zone {
	n, years := len(pool), len(s.years)
	out := Zone{
		Share:    s.share,
		Capacity: make([]float64, n), Claim: make([]float64, n), Spread: make([]float64, n), Volunteer: make([]float64, n), Green: make([]float64, n),
		Gain: make([]float32, years*n), Summer: make([]float32, years*n), Winter: make([]float32, years*n),
		Growth: make([]float32, years),
	}
	for y := range s.years {
		out.Growth[y] = float32(fullGrowth * s.years[y].growth)
	}
	if s.first != nil {
		out.First = &First{Gain: make([]float32, years*n), Summer: make([]float32, years*n), Growth: make([]float32, years)}
		for y := range s.first {
			out.First.Growth[y] = float32(fullGrowth * s.first[y].growth)
		}
	}
	var none deviation
	for g, sp := range pool {
		t := &traits[g]
		f, mould := s.of(t, sp.Warm, &none), species.MouldHalfDays(t)
		out.Capacity[g], out.Claim[g], out.Spread[g], out.Volunteer[g], out.Green[g] = f.capacity, f.claim, f.spread, f.volunteer, f.green
		for y := range s.years {
			gain, summer := s.grows(&s.years[y], t, f.merit, &none)
			i := y*n + g
			out.Gain[i], out.Summer[i], out.Winter[i] = float32(gain), float32(summer), float32(s.winters[y].Survival(t, mould, 0))
			if s.first != nil {
				gain, summer := s.grows(&s.first[y], t, f.merit, &none)
				out.First.Gain[i], out.First.Summer[i] = float32(gain), float32(summer)
			}
		}
	}
	return out
}

// LeastDLI is the light below which no sown grass is promised to last at a place, mol
// m⁻² d⁻¹. Published rules of sun hours, turned into light: 3 hours for fescues in
// Pennsylvania and for tall fescue in Arkansas, 4 to 6 for others. A warm sward burns
// more than a cool one, so a hot summer asks for more light and a cool one for less:
// respiration rises by respirationQ10 with 10 °C.
func LeastDLI(c *site.Conditions) float64 {
	var sum, weight float64
	for m, w := range c.Sky.SeasonWeight {
		sum += w * c.Normals.MeanC[m]
		weight += w
	}
	if weight == 0 {
		return leastAt15
	}
	return leastAt15 * math.Pow(respirationQ10, (sum/weight-15)/10)
}

// lightLasts is the part of its cover that a sward keeps for years in some light: half
// where it is the least light, nearly all a fifth above it, hardly any a fifth below.
func lightLasts(dli, need, off float64) float64 {
	if dli <= 0 {
		return 0
	}
	return 1 / (1 + steady.Exp(lightLastsSteepness*(math.Log(need/dli)+off)))
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
	return arith.Unit(warm / max(1, cool))
}

// claim is the ground a seedling has claimed after eight weeks in full light, m².
func claim(t *species.Traits, phi float64) float64 {
	emergence := t[species.EmergeDegDays] / max(1, soil0-t[species.GermBaseC])
	return claim0 * steady.Exp(phi*(headStart*(emergence0-emergence)+vigour*(t[species.Vigour]-vigour0)))
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
	return 1 - firstCutLoss*(1-cutMM/firstCutFullMM)*steady.Exp(-(max(firstCutDay0, day)-firstCutDay0)/firstCutDays)
}

// moistness is the share of the growing season without drought, mean of the years.
func moistness(years []weather.Year) float64 {
	var sum float64
	for i := range years {
		if d := years[i].GrowingDays; d > 0 {
			sum += arith.Unit(1 - years[i].DroughtDays/d)
		}
	}
	return sum / max(1, float64(len(years)))
}

// power is x to the power of y, both over 0, as math.Pow has it but for its last digit: that takes twice as long.
func power(x, y float64) float64 { return steady.Exp(y * math.Log(x)) }

// leastFit is what no fit or survival counts as less than.
const leastFit = 1e-4

// logOf is the natural logarithm of a fit.
func logOf(x float64) float64 { return math.Log(max(x, leastFit)) }
