package ground

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// class is a USDA texture class with its usual grain and the rate at which a
// field of it takes in water.
type class struct {
	name       string
	sand, clay float64 // percent, the class's sample in Saxton & Rawls 2006, table 3
	intakeMMH  float64 // basic infiltration rate: the middle of the range of FAO Training Manual 5 (Brouwer et al. 1988), annex 2
}

// classes are the twelve, from light to heavy. The FAO manual names five soils;
// the rest take the rate of the named one that they lie nearest to.
var classes = []class{
	{"sand", 88, 5, 40},
	{"loamy sand", 80, 5, 30},
	{"sandy loam", 65, 10, 25},
	{"loam", 40, 20, 15},
	{"silt loam", 20, 15, 12},
	{"silt", 10, 5, 10},
	{"sandy clay loam", 60, 25, 12},
	{"clay loam", 30, 35, 7.5},
	{"silty clay loam", 10, 35, 7.5},
	{"sandy clay", 50, 40, 5},
	{"silty clay", 10, 45, 3},
	{"clay", 25, 50, 3},
}

// Textures are the names of the USDA texture classes, from light to heavy.
func Textures() []string {
	names := make([]string, len(classes))
	for i, c := range classes {
		names[i] = c.name
	}
	return names
}

// textureSample returns the usual sand and clay percentages of a texture class
// (Saxton & Rawls 2006, table 3).
func textureSample(name string) (sandPercent, clayPercent float64, err error) {
	c, ok := classNamed(name)
	if !ok {
		return 0, 0, fmt.Errorf("texture %q is no USDA texture class; use one of: %s", name, strings.Join(Textures(), ", "))
	}
	return c.sand, c.clay, nil
}

func classNamed(name string) (class, bool) {
	name = plain(name)
	i := slices.IndexFunc(classes, func(c class) bool { return c.name == name })
	if i < 0 {
		return class{}, false
	}
	return classes[i], true
}

// plain lowers a name and folds its white space, hyphens included.
func plain(name string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(strings.ToLower(name), "-", " ")), " ")
}

// TextureClass names the USDA texture class of a grain. Percentages are by weight
// of the mineral soil under 2 mm; they must be at least 0 and not exceed 100
// together. Limits: Soil Survey Manual (USDA Handbook 18), as set out for
// machines by Benham et al., NRCS 2009. The switch is their table, line by line.
//
//gocyclo:ignore
func TextureClass(sandPercent, clayPercent float64) (string, error) {
	if err := checkGrain(sandPercent, clayPercent); err != nil {
		return "", err
	}
	sand, clay := sandPercent, clayPercent
	silt := 100 - sand - clay
	switch {
	case silt+1.5*clay < 15:
		return "sand", nil
	case silt+2*clay < 30:
		return "loamy sand", nil
	case clay >= 40 && silt >= 40:
		return "silty clay", nil
	case clay >= 40 && sand <= 45:
		return "clay", nil
	case clay >= 35 && sand > 45:
		return "sandy clay", nil
	case clay >= 27 && sand <= 20:
		return "silty clay loam", nil
	case clay >= 27 && sand <= 45:
		return "clay loam", nil
	case clay >= 20 && silt < 28:
		return "sandy clay loam", nil
	case silt >= 80 && clay < 12:
		return "silt", nil
	case silt >= 50:
		return "silt loam", nil
	case clay >= 7 && sand <= 52:
		return "loam", nil
	default:
		return "sandy loam", nil
	}
}

func checkGrain(sand, clay float64) error {
	switch {
	case !within(sand, 0, 100):
		return fmt.Errorf("sand of %g %% is not between 0 and 100 %%", sand)
	case !within(clay, 0, 100):
		return fmt.Errorf("clay of %g %% is not between 0 and 100 %%", clay)
	case sand+clay > 100:
		return fmt.Errorf("sand %g %% and clay %g %% exceed 100 %% together", sand, clay)
	}
	return nil
}

// within is false for NaN.
func within(x, low, high float64) bool { return x >= low && x <= high && !math.IsInf(x, 0) }
