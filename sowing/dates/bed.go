package dates

import (
	"math"

	"swardwright/internal/arith"
	"swardwright/site/weather"
)

// seedbed is the water that seed and seedlings find in bare ground, day by day: a top
// that dries by evaporation and a layer below that feeds it (FAO-56 chapter 7, in
// two layers).
type seedbed struct {
	germ   []float32 // rate of germination over that in wet ground: hydrothermal time
	stress []float32 // how far seedlings on their first roots go short of water, 0 to 1
}

// moist is how far water lets seed germinate on a day, 0 to 1. Watering lets some dry days through.
func (b *seedbed) moist(i int, watered bool) float64 {
	m := float64(b.germ[i])
	if watered {
		m += (1 - wateringLapse) * (1 - m)
	}
	return m
}

// newSeedbed follows bare ground with seed at a depth, mulched or not.
func newSeedbed(d *weather.Days, input Input) seedbed {
	e := d.Exposure
	n := len(d.MeanC)
	b := seedbed{germ: make([]float32, n), stress: make([]float32, n)}
	held := 1000 * max(0.02, e.FieldCapacity-e.WiltingPoint/2)
	wilting := e.WiltingPoint / 2 / (e.FieldCapacity - e.WiltingPoint/2)
	rate := germinationByWater(e)
	kc, depth := bareKc, sownDepthMM
	if input.Mulched {
		kc *= mulchedKc
	}
	if input.DepthMM > 0 {
		depth = input.DepthMM
	}
	below := arith.Unit(depth/bedDepthMM - 0.5) // how far the seed lies towards the layer below
	w := bedWater{topMM: held * bedDepthMM / 1000, lowMM: held * lowDepthMM / 1000}
	w.top, w.low = w.topMM, w.lowMM
	snow := 0.0
	// The last year is run first and thrown away.
	for t := -365; t < n; t++ {
		i := t
		if t < 0 {
			i += n
		}
		in := arith.Most(0, float64(d.RainMM[i])+snow-float64(d.SnowMM[i]))
		snow = float64(d.SnowMM[i])
		top, low := w.day(in, kc*float64(d.ET0MM[i]))
		if t < 0 {
			continue
		}
		at := top + (low-top)*below
		b.germ[i] = float32(rate[int(at*float64(len(rate)-1)+0.5)])
		b.stress[i] = float32(arith.Unit(0.5 + (wilting-(top+low)/2)/wiltSpread))
	}
	return b
}

// bedWater is the water of the two layers and how much they hold, mm.
type bedWater struct{ top, low, topMM, lowMM float64 }

// day takes rain in and lets the air draw, in parts of a day since the top dries
// within one. It returns the mean shares of their water that the layers have.
func (w *bedWater) day(in, airMM float64) (top, low float64) {
	w.top += in
	if over := w.top - w.topMM; over > 0 {
		w.top = w.topMM
		w.low = arith.Least(w.lowMM, w.low+over)
	}
	for range bedSteps {
		t, l := w.top/w.topMM, w.low/w.lowMM
		top += t / bedSteps
		low += l / bedSteps
		rise := arith.Most(0, l-t) * capillaryRiseMMD / bedSteps
		// FAO-56 lets half of the wetness draw freely.
		w.top = arith.Least(w.topMM, arith.Most(0, w.top+rise-airMM*arith.Least(1, 2*t)/bedSteps)) // air may give dew
		w.low = arith.Most(0, w.low-rise)
	}
	return top, low
}

// germinationByWater is the rate of germination, over that in wet ground, by the
// share of the layer's water that is left: linear in water potential down to a base
// (hydrothermal time, Gummerson, J. Exp. Bot. 37:729, 1986), with the potential by
// the power law between field capacity and wilting point (Campbell, Soil Sci.
// 117:311, 1974).
func germinationByWater(e weather.Exposure) (rate [65]float64) {
	power := math.Log(wiltingMPa/capacityMPa) / math.Log(e.FieldCapacity/e.WiltingPoint)
	for i := range rate {
		share := float64(i) / float64(len(rate)-1)
		theta := e.WiltingPoint/2 + share*(e.FieldCapacity-e.WiltingPoint/2)
		rate[i] = arith.Unit(1 - capacityMPa*math.Pow(e.FieldCapacity/theta, power)/germBaseMPa)
	}
	return rate
}
