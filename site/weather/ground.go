package weather

import (
	"swardwright/internal/arith"
	"swardwright/internal/steady"
)

// Soil surface under short grass: W. J. Parton, Soil Sci. 138:93 (1984), with the
// standing growth of a thin sward in kg m⁻². A seedbed kept moist is taken to
// warm like it; dry bare ground gets hotter by day.
const (
	swardKGM2     = 0.2
	dayShareOfMax = 0.41
)

// Soil at sowing depth follows the surface by a share of the gap each day;
// while water in it freezes or thaws the share falls by the ratio of heat
// capacities, and snow cuts it off: the form and constants of Rankinen, Karvonen
// and Butterfield, Hydrol. Earth Syst. Sci. 8:706 (2004), but for the share
// itself, which suits a depth of 20 to 50 mm.
const (
	soilShare       = 0.5
	frozenShare     = 1.1 / (1.1 + 6.6)
	snowPerCM       = 0.06
	snowyGroundMaxC = 0.5
)

// underSward is the share of a day's warming that reaches the surface under the sward.
var underSward = steady.Exp(-4.8*swardKGM2) - 0.13

// surfaceC is the mean temperature of the soil surface where mj arrives a day.
func surfaceC(minC, maxC, mj float64) float64 {
	hi := maxC + (24*(1-steady.Exp(-0.038*mj))+0.35*maxC)*underSward
	lo := minC + 6*swardKGM2 - 1.82
	return dayShareOfMax*hi + (1-dayShareOfMax)*lo
}

// soilNext carries the soil over one day.
func soilNext(soilC, surface, snowCM float64) float64 {
	share := soilShare
	if soilC <= 0 && soilC > -1.5 || soilC > 0 && soilC < 0.3 && surface < 0 {
		share *= frozenShare
	}
	if snowCM > 0 {
		share *= steady.Exp(-snowPerCM * snowCM)
		surface = arith.Least(surface, snowyGroundMaxC)
	}
	return soilC + share*(surface-soilC)
}

// swardShelterCM is the depth of snow that shelters a crown as much as the leaf and
// thatch of a mown sward do. Fitted so that ryegrass (half killed at -14 °C at the
// crown) outlasts air of -20 °C on open ground and is halved at -26 °C, as the
// third-year monocultures of Kirwan et al. (2014) were on the mean of their sites.
const swardShelterCM = 5.0

// crownMinC is the coldest the crown gets in a day: the rule of CERES-Wheat (J. T.
// Ritchie; from Aase and Siddoway, Agron. J. 71, 1979), in which 15 cm of snow
// halve the frost that bare ground lets through.
func crownMinC(minC, snowCM float64) float64 {
	if minC >= 0 {
		return minC
	}
	bare := 15 - arith.Least(15, snowCM)
	return arith.Least(0, 2+minC*(0.4+0.0018*bare*bare))
}

// Water. Coefficients of FAO-56: table 12 and 22 for cool-season turf, equation
// 74 and 77 for the layer that dries by evaporation.
const (
	turfCoefficient  = 0.95
	turfDepletion    = 0.40 // share of the available water drawn without stress
	bareCoefficient  = 1.05 // of wet bare soil
	surfaceM         = 0.020
	readyShare       = 0.5 // of the surface layer's water that leaves unhindered
	capillaryRiseMMD = 2.0 // own: what bare ground sends up to a dry surface, mm a day; no sward drinks it dry
	wateredSurface   = 0.8 // kept at least so moist where watered
)

// Light. Growth of turf against daily light: own curve, half of full growth at
// about a quarter of a midsummer day's light, level at a clear summer's day.
const (
	lightHalf = 8  // mol m⁻² d⁻¹
	lightFull = 35 // mol m⁻² d⁻¹
)

// LightFactor is the growth of turf in a daily light integral over that in a
// clear summer's day.
func LightFactor(dli float64) float64 {
	return min(1, dli/(dli+lightHalf)*(lightFull+lightHalf)/lightFull)
}

// GrowthPotential of cool-season grass at a mean temperature: W. Gelernter and
// L. Stowell, Golf Course Management (2005).
func GrowthPotential(meanC float64) float64 { return bell(meanC, 20, 5.5) }

// WarmGrowthPotential is that of warm-season grass, level above its optimum.
func WarmGrowthPotential(meanC float64) float64 { return bell(arith.Least(meanC, 31), 31, 7) }

func bell(t, optimum, spread float64) float64 {
	z := (t - optimum) / spread
	return steady.Exp(-0.5 * z * z)
}

// grassDay is what a day is to grass wherever it grows; nothing under snow.
type grassDay struct {
	thirst
	cool, warm float64 // growth potential of cool-season and of warm-season grass
}

// grassDays works them out.
func (s *Series) grassDays() []grassDay {
	evap := newEvaporation(s.Normals)
	days := make([]grassDay, len(s.MeanC))
	for i := range days {
		if s.SnowCM[i] < 1 {
			mean := float64(s.MeanC[i])
			days[i] = grassDay{
				evap.thirst(i%365, mean, float64(s.MinC[i]), float64(s.MaxC[i]), float64(s.GlobalMJ[i])),
				GrowthPotential(mean), WarmGrowthPotential(mean),
			}
		}
	}
	return days
}

// Exposed follows the ground and the sward of one zone through the series.
func (s *Series) Exposed(e Exposure) *Days {
	size := s.Years * 365
	take := arrays(3, size)
	d := &Days{Series: s, SoilC: take(), CrownC: take(), ET0MM: take()}
	share := linear(e.OpenShare)
	soil := s.Normals.MeanC[0]
	// The last year is run first and thrown away, so that the first starts with
	// the soil of a year before it.
	for t := -365; t < size; t++ {
		i := (t + size) % size
		day := i % 365
		lo, hi := float64(s.MinC[i]), float64(s.MaxC[i])
		soil = soilNext(soil, surfaceC(lo, hi, float64(s.GlobalMJ[i])*share[day]), float64(s.SnowCM[i]))
		if t < 0 {
			continue
		}
		d.SoilC[i] = float32(soil)
		d.CrownC[i] = float32(crownMinC(lo, float64(s.SnowCM[i])+swardShelterCM))
		d.ET0MM[i] = float32(s.grass[i].at(share[day]))
	}
	d.ground(e)
	return d
}

// On is the same zone in the same weather on other ground, or watered: of the
// exposure only the light must be the same.
func (d *Days) On(e Exposure) *Days {
	k := &Days{Series: d.Series, SoilC: d.SoilC, CrownC: d.CrownC, ET0MM: d.ET0MM}
	k.ground(e)
	return k
}

// ground follows what the ground makes of the zone's weather: its water, its ice and
// what the sward can grow of it.
func (d *Days) ground(e Exposure) {
	s, size := d.Series, len(d.MeanC)
	take := arrays(7, size)
	d.Exposure = e
	d.Moisture, d.Surface, d.Wet, d.WaterMM, d.IceMM, d.Growth, d.Warm = take(), take(), take(), take(), take(), take(), take()
	w := newWater(e)
	var growthLight [12]float64
	for m, dli := range e.DLI {
		growthLight[m] = LightFactor(dli)
	}
	light, share := linear(growthLight), linear(e.OpenShare)
	ice, snowBefore := 0.0, 0.0
	// As above, the last year is run first and thrown away.
	for t := -365; t < size; t++ {
		i := (t + size) % size
		snowCM, snowMM := float64(s.SnowCM[i]), float64(s.SnowMM[i])
		water := arith.Most(0, float64(s.RainMM[i])+snowBefore-snowMM)
		snowBefore = snowMM

		rain := arith.Least(water, rainOf(float64(s.RainMM[i]), float64(s.MeanC[i])))
		ice = iceNext(ice, frost{
			rainMM: rain * (1 - e.Sheds), meltMM: (water - rain) * (1 - e.Sheds),
			meanC: float64(s.MeanC[i]), maxC: float64(s.MaxC[i]), soilC: float64(d.SoilC[i]), snowCM: snowCM,
			mj: float64(s.GlobalMJ[i]) * share[i%365],
		})
		w.day(water, float64(d.ET0MM[i]))
		if t < 0 {
			continue
		}
		d.Moisture[i] = float32(w.moisture())
		d.Surface[i] = float32(w.surface / w.surfaceFull)
		d.Wet[i] = float32(w.wet)
		d.WaterMM[i] = float32(w.given)
		d.IceMM[i] = float32(ice)
		if snowCM < 1 {
			left := w.stress * light[i%365]
			d.Growth[i] = float32(s.grass[i].cool * left)
			d.Warm[i] = float32(s.grass[i].warm * left)
		}
	}
}

// arrays gives so many arrays of a size, one after the other, out of one piece of memory.
func arrays(n, size int) func() []float32 {
	v := make([]float32, n*size)
	return func() []float32 {
		part := v[:size:size]
		v = v[size:]
		return part
	}
}

// Ice: rain, and some of what melts, that comes on to frozen ground with little snow
// and freezes there; what a cold snow cover loses to the ground's warmth is too little
// to pool. Mild air melts it slowly and the sun fast, so that it lies long where winters
// are wet and dark. Own constants, set so that ryegrass lives through the winters of
// Norwegian pitches, of Finnish leys and of Iceland as often as it was found to
// (see the tests of package species).
const (
	iceSnowCM    = 3    // deeper snow takes the water up
	iceOfMelt    = 0.35 // share of meltwater that stays to freeze
	iceSealMM    = 5    // thick enough to seal
	iceMeltMMK   = 0.6  // a day
	iceMeltMMMJ  = 0.5  // of sun, on bare ice in air above 0 °C by day
	frozenBelowC = -0.3
)

// frost is what of a day's weather ice goes by.
type frost struct {
	rainMM, meltMM             float64
	meanC, maxC, soilC, snowCM float64
	mj                         float64 // on the ground of the zone
}

func iceNext(iceMM float64, d frost) float64 {
	if d.soilC < frozenBelowC && d.snowCM < iceSnowCM && d.meanC > meltFromC {
		iceMM += d.rainMM + iceOfMelt*d.meltMM
	}
	iceMM -= arith.Most(0, d.meanC) * iceMeltMMK
	if d.maxC > 0 && d.snowCM < shelterCM {
		iceMM -= d.mj * iceMeltMMMJ
	}
	return arith.Most(0, iceMM)
}

// water is the rootzone's balance of FAO-56 chapter 8, with the water above
// field capacity held until the ground below takes it.
type water struct {
	available, ponding, drain float64 // mm, mm, mm a day
	store                     float64 // above wilting point, mm
	surfaceFull, surface      float64 // mm
	irrigated                 bool

	wet    float64 // share of the day above field capacity
	stress float64 // FAO-56 equation 84, 1 when turf draws freely
	given  float64 // irrigation, mm
}

func newWater(e Exposure) *water {
	w := &water{
		available:   max(1, 1000*(e.FieldCapacity-e.WiltingPoint)*e.RootDepthM),
		drain:       e.DrainMMD,
		surfaceFull: max(0.5, 1000*(e.FieldCapacity-0.5*e.WiltingPoint)*surfaceM),
		irrigated:   e.Irrigated,
	}
	w.ponding = max(w.available, 1000*(e.Saturation-e.WiltingPoint)*e.RootDepthM)
	w.store, w.surface = w.available, w.surfaceFull
	return w
}

func (w *water) moisture() float64 { return arith.Least(1, w.store/w.available) }

func (w *water) day(in, et0 float64) {
	w.given = 0
	w.store = arith.Least(w.ponding, w.store+in)
	w.wet = 0
	if above := w.store - w.available; above > 0 {
		w.wet = 1
		if w.drain > 0 {
			w.wet = arith.Least(1, above/w.drain)
		}
		w.store -= arith.Least(above, w.drain)
	}
	ready := turfDepletion * w.available
	if w.irrigated && w.available-w.store > ready {
		w.given = w.available - w.store
		w.store = w.available
	}
	w.stress = arith.Most(0, arith.Least(1, w.store/(w.available-ready)))
	w.store = arith.Most(0, w.store-turfCoefficient*et0*w.stress)

	w.surface = arith.Least(w.surfaceFull, w.surface+in+capillaryRiseMMD*(1-w.surface/w.surfaceFull))
	w.surface -= arith.Least(w.surface, bareCoefficient*et0*arith.Least(1, w.surface/(readyShare*w.surfaceFull)))
	if w.irrigated {
		w.surface = arith.Most(w.surface, wateredSurface*w.surfaceFull)
	}
}
