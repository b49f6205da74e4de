package bed

import (
	"math"

	"swardwright/site/ground"
)

// equivalentDepth is Hooghoudt's d: the depth of flow below drains of radius r,
// spaced l apart, over a barrier depth below them, that stands for the crowding of
// the flow lines. All in metres. Closed form of van der Molen & Wesseling, Agric.
// Water Manage. 19:1 (1991).
func equivalentDepth(l, depth, r float64) float64 {
	if depth <= r { // pipe on the barrier
		return depth
	}
	x := 2 * math.Pi * depth / l
	var f float64
	if x > 1 {
		for k := 1.0; k <= 15; k += 2 {
			e := math.Exp(-2 * k * x)
			f += 4 * e / (k * (1 - e))
		}
	} else {
		f = math.Pi*math.Pi/(4*x) + math.Log(x/(2*math.Pi))
	}
	return math.Pi * l / 8 / (math.Log(l/(math.Pi*r)) + f)
}

// drains is ground to be drained by parallel pipes.
type drains struct {
	AboveMD, BelowMD float64 // conductivity above and below the pipes, m/d
	HeadM            float64 // water table midway between pipes, above them
	BarrierM         float64 // depth of the tight layer below them
	RadiusM          float64
	DischargeMD      float64 // to be carried off, m/d
}

// spacing is the distance between pipes, Hooghoudt: L² = (8 Kb d h + 4 Ka h²)/q.
// Metres; 0 when the ground passes nothing.
func (d drains) spacing() float64 {
	// The right side grows with L more slowly than the left: bisection.
	over := func(l float64) bool {
		de := math.Min(equivalentDepth(l, d.BarrierM, d.RadiusM), d.BarrierM)
		return l*l > (8*d.BelowMD*de*d.HeadM+4*d.AboveMD*d.HeadM*d.HeadM)/d.DischargeMD
	}
	low, high := 4*d.RadiusM, 1000.0
	if !(d.HeadM > 0 && d.DischargeMD > 0) || over(low) {
		return 0
	}
	for high-low > 1e-4 {
		if mid := (low + high) / 2; over(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return low
}

// What lawn drains are laid to: common practice, no published source.
const (
	lawnDischargeMD = 0.025 // low end of 25 to 50 mm a day
	drainDepthM     = 0.6
	drainFrostM     = 0.9 // where the coldest month is below frostMonthC: under the frost
	frostMonthC     = -3
	dryTopM         = 0.3 // kept free of water midway between the pipes
	drainRadiusM    = 0.04
	barrierM        = 1.0 // below the pipes, where nobody has dug
	closestM        = 2.0 // pipes laid closer cost more than a made rootzone
	gravelDrainM    = 4.5 // under a gravel base: USGA, at most 15 feet
)

// lawnDrains is the ground of a lawn with the given conductivity of its topsoil.
func lawnDrains(ksatMMH, coldestMonthC float64) (d drains, depthM float64) {
	depthM = drainDepthM
	if coldestMonthC < frostMonthC {
		depthM = drainFrostM
	}
	k := ksatMMH * 24 / 1000
	return drains{
		AboveMD: k, BelowMD: k * ground.SubsoilLoss,
		HeadM: depthM - dryTopM, BarrierM: barrierM, RadiusM: drainRadiusM, DischargeMD: lawnDischargeMD,
	}, depthM
}
