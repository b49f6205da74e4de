package ground

import "math"

// Material is something carried to or from a lawn.
type Material struct {
	Name      string
	LooseKGM3 float64 // as delivered, in the heap
	Swell     float64 // loose volume over settled volume, less 1
}

// The materials. Loose densities are common practice, no published source (from
// memory: sand 1500-1600, topsoil 1200-1400, gravel 1500-1700 kg/m³). Swell of
// topsoil is the 20 % that a British landscape price book allows for settlement,
// of sand and gravel the reverse of compaction factors of 0.88 to 0.93, of dug
// clay the 40 % of earthwork tables; of compost common practice, no published
// source.
var (
	Sand    = Material{"sand", 1550, 0.10}
	Gravel  = Material{"gravel", 1600, 0.10}
	Topsoil = Material{"topsoil", 1300, 0.20}
	Compost = Material{"compost", 650, 0.30}
	DugSoil = Material{"dug soil", 1250, 0.25}
	DugClay = Material{"dug clay", 1250, 0.40}
)

// What carries them: common practice, no published source.
const (
	barrowM3   = 0.06 // a builder's barrow filled so that one person can push it
	barrowKG   = 100
	bulkBagM3  = 0.6
	bulkBagKG  = 900
	lorryM3    = 10
	lorryKG    = 16000
	leastLorry = 4000 // kg: below it bulk bags are the cheaper way
)

// Load is an amount of a material and what carries it.
type Load struct {
	SettledM3, LooseM3 float64
	KG                 float64
	BarrowLoads        int
	BulkBags           int // where the whole is less than a lorry is worth sending for
	LorryLoads         int
}

// Settled is the load that fills a settled volume.
func (m Material) Settled(m3 float64) Load {
	l := Load{SettledM3: m3, LooseM3: m3 * (1 + m.Swell)}
	l.KG = l.LooseM3 * m.LooseKGM3
	l.BarrowLoads = loads(l, barrowM3, barrowKG)
	if l.KG < leastLorry {
		l.BulkBags = loads(l, bulkBagM3, bulkBagKG)
	} else {
		l.LorryLoads = loads(l, lorryM3, lorryKG)
	}
	return l
}

// loads is how often a carrier of the given room and strength must go.
func loads(l Load, m3, kg float64) int {
	const rounding = 1e-9 // a load that is full but for a rounding error is one load
	return int(math.Ceil(math.Max(l.LooseM3/m3, l.KG/kg) - rounding))
}

// Holes is a pattern of holes in the lawn.
type Holes struct {
	PerM2     float64
	AreaShare float64 // of the surface opened
	LitresM2  float64 // volume opened
}

// HolesOf counts the holes of a grid: spacing × spacing apart, of the given
// diameter and depth, all in millimetres.
func HolesOf(spacingMM, diameterMM, depthMM float64) Holes {
	per := 1e6 / (spacingMM * spacingMM)
	mm2 := math.Pi / 4 * diameterMM * diameterMM
	return Holes{PerM2: per, AreaShare: per * mm2 / 1e6, LitresM2: per * mm2 * depthMM / 1e6}
}
