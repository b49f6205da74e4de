package ground

import (
	"math"
	"slices"
)

// drainage is a natural drainage class of the USDA Soil Survey Manual, with what
// this program takes it to mean in numbers. The manual gives words only; the
// rates are set so that 27 mm of draining water (15 cm of loam) leaves in hours,
// a day, days, or weeks, as the words say.
type drainage struct {
	name     string
	drainMMD float64 // out of a saturated rootzone
	wetness  float64
}

var drainages = []drainage{
	{"excessively", 500, 0},
	{"somewhat excessively", 250, 0},
	{"well", 100, 0.1},
	{"moderately well", 30, 0.3},
	{"somewhat poorly", 10, 0.55},
	{"poorly", 3, 0.8},
	{"very poorly", 0.5, 1},
}

// DrainageClasses are the USDA natural drainage classes, driest first.
func DrainageClasses() []string {
	names := make([]string, len(drainages))
	for i, d := range drainages {
		names[i] = d.name
	}
	return names
}

// drainageNamed finds a class with or without the word "drained" behind it.
func drainageNamed(name string) (drainage, bool) {
	name = plain(name)
	i := slices.IndexFunc(drainages, func(d drainage) bool { return d.name == name || d.name+" drained" == name })
	if i < 0 {
		return drainage{}, false
	}
	return drainages[i], true
}

// drainageFor is the class whose rate lies nearest, by ratio.
func drainageFor(drainMMD float64) drainage {
	best := drainages[0]
	for _, d := range drainages {
		if math.Abs(math.Log(d.drainMMD/drainMMD)) < math.Abs(math.Log(best.drainMMD/drainMMD)) {
			best = d
		}
	}
	return best
}

// wetnessAt reads the wetness of a drain rate between the classes, on the log of
// the rate.
func wetnessAt(drainMMD float64) float64 {
	if drainMMD >= drainages[0].drainMMD {
		return drainages[0].wetness
	}
	for i := 1; i < len(drainages); i++ {
		fast, slow := drainages[i-1], drainages[i]
		if drainMMD >= slow.drainMMD {
			t := math.Log(drainMMD/slow.drainMMD) / math.Log(fast.drainMMD/slow.drainMMD)
			return slow.wetness + t*(fast.wetness-slow.wetness)
		}
	}
	return drainages[len(drainages)-1].wetness
}

// holeSides is the wetted area of the standard test hole over its base: 300 mm
// square, its water falling from 225 to 75 mm, so 150 mm deep on average.
const holeSides = 1 + 4*0.30*0.15/(0.30*0.30)

// infiltrationFromPercolation is the water that passes a unit of wetted ground in a
// soaked percolation hole whose level falls at the given rate: the sides of the
// hole take in water too, so the ground takes a third of what the level loses.
func infiltrationFromPercolation(fallMMH float64) float64 { return fallMMH / holeSides }

// density is a class of compaction, Saxton & Rawls 2006.
type density struct {
	name   string
	factor float64 // on the usual density
}

var densities = []density{
	{"loose", 0.9},
	{"normal", 1.0},
	{"dense", 1.1},
	{"hard", 1.2},
	{"severe", 1.3},
}

// Compactions are the names of the density classes, loosest first.
func Compactions() []string {
	names := make([]string, len(densities))
	for i, d := range densities {
		names[i] = d.name
	}
	return names
}

func densityNamed(name string) (density, bool) {
	name = plain(name)
	i := slices.IndexFunc(densities, func(d density) bool { return d.name == name })
	if i < 0 {
		return density{}, false
	}
	return densities[i], true
}

// CompactionFactor is the factor of a density class on the usual density of the
// soil; 1 for a name that is none.
func CompactionFactor(name string) float64 {
	if d, ok := densityNamed(name); ok {
		return d.factor
	}
	return 1
}
