package ground

import "math"

// The range in which Saxton & Rawls fitted their equations.
const (
	maxOrganicPercent = 8
	maxClayPercent    = 60
)

// particleKGM3 is the density of mineral grains, Saxton & Rawls 2006 eq. 6.
const particleKGM3 = 2650

// Water is how a soil holds and passes water. Contents are volume fractions.
type Water struct {
	WiltingPoint  float64 // at 1500 kPa
	FieldCapacity float64 // at 33 kPa
	Saturation    float64
	KsatMMH       float64 // saturated conductivity
	DensityKGM3   float64 // dry

	slope float64 // λ of the conductivity equation
}

// WaterOf estimates the water of a soil at its usual density, Saxton & Rawls 2006
// eq. 1-6, 15, 16, 18. Organic matter above 8 % and clay above 60 % are taken as
// 8 % and 60 %, where the equations end.
//
// The square term of eq. 2 is 1.283; some copies print 1.238, which does not give
// the paper's own table 3.
func WaterOf(sandPercent, clayPercent, organicPercent float64) Water {
	clayPercent = math.Min(clayPercent, maxClayPercent)
	s, c, om := sandPercent/100, clayPercent/100, math.Min(organicPercent, maxOrganicPercent)

	t := -0.024*s + 0.487*c + 0.006*om + 0.005*s*om - 0.013*c*om + 0.068*s*c + 0.031
	wp := t + 0.14*t - 0.02 // eq. 1

	t = -0.251*s + 0.195*c + 0.011*om + 0.006*s*om - 0.027*c*om + 0.452*s*c + 0.299
	fc := t + 1.283*t*t - 0.374*t - 0.015 // eq. 2

	t = 0.278*s + 0.034*c + 0.022*om - 0.018*s*om - 0.027*c*om - 0.584*s*c + 0.078
	free := t + 0.636*t - 0.107 // eq. 3, saturation to 33 kPa

	// At the corners of the triangle the equations give a sand without wilting
	// point and a clay without free water; the least values keep them soils.
	wp = math.Max(wp, 0.01)
	fc = math.Max(fc, wp+0.01)
	sat := math.Min(math.Max(fc+free-0.097*s+0.043, fc+leastAir), 0.9) // eq. 5

	w := Water{WiltingPoint: wp, FieldCapacity: fc, Saturation: sat, DensityKGM3: (1 - sat) * particleKGM3}
	w.slope = (math.Log(fc) - math.Log(wp)) / (math.Log(1500) - math.Log(33)) // eq. 15, 18
	w.KsatMMH = conductivity(sat-fc, w.slope)
	return w
}

// leastAir is the smallest share of pores that drain, so that no soil is sealed.
const leastAir = 0.005

// conductivity is eq. 16.
func conductivity(air, slope float64) float64 {
	return 1930 * math.Pow(math.Max(air, leastAir), 3-slope)
}

// Stony is the same soil, pressed as it is, with a share of its volume taken up by stones, which hold no
// water and which it has to pass by: Saxton & Rawls 2006 eq. 19-22.
func (w Water) Stony(share float64) Water {
	if share <= 0 {
		return w
	}
	s := w
	earth := 1 - share
	s.WiltingPoint, s.FieldCapacity, s.Saturation = w.WiltingPoint*earth, w.FieldCapacity*earth, w.Saturation*earth
	byWeight := share * particleKGM3 / (share*particleKGM3 + earth*w.DensityKGM3)
	alpha := w.DensityKGM3 / particleKGM3
	s.KsatMMH = w.KsatMMH * (1 - byWeight) / (1 - byWeight*(1-1.5*alpha))
	return s
}

// SoakedKGM3 is what a cubic metre of soil weighs with every pore full of water, its
// stones with it.
func (s Soil) SoakedKGM3() float64 {
	w := WaterOf(s.SandPercent, s.ClayPercent, s.OrganicPercent).Pressed(CompactionFactor(s.Compaction))
	earth := w.DensityKGM3 + w.Saturation*waterKGM3
	return s.Stones*particleKGM3 + (1-s.Stones)*earth
}

const waterKGM3 = 1000

// Pressed is the same soil at a density of factor times its usual one (0.9 loose
// to 1.3 severely compacted), Saxton & Rawls 2006 eq. 7-10.
func (w Water) Pressed(factor float64) Water {
	p := w
	p.DensityKGM3 = w.DensityKGM3 * factor
	p.Saturation = math.Max(1-p.DensityKGM3/particleKGM3, w.WiltingPoint+2*leastAir)
	p.FieldCapacity = math.Min(w.FieldCapacity-0.2*(w.Saturation-p.Saturation), p.Saturation-leastAir)
	p.FieldCapacity = math.Max(p.FieldCapacity, w.WiltingPoint+leastAir)
	p.KsatMMH = conductivity(p.Saturation-p.FieldCapacity, w.slope)
	return p
}
