package dates

import (
	"swardwright/internal/arith"
	"swardwright/site/weather"
)

// care is what seed meets in the ground by how the bed is kept: running sums of days
// that depend on its water.
type care struct {
	zone    *zone
	watered bool
	stir    []float32 // days on which seed stirs, so far as it is moist
	waste   []float32 // those days, weighed by how fast seed is lost in warm ground
	chill   []float32 // those days, weighed by how cold they are
}

// kept is the care of a bed that is watered or left to the rain.
func (z *zone) kept(watered bool) *care {
	c := &care{zone: z, watered: watered}
	soil := z.days.SoilC
	c.stir = z.sum(func(i int) float64 {
		if soil[i] <= stirC {
			return 0
		}
		return c.moist(i)
	})
	c.waste = z.sum(func(i int) float64 {
		return arith.Unit((float64(soil[i])-stirC)/(wasteFullC-stirC)) * c.moist(i)
	})
	c.chill = z.sum(func(i int) float64 {
		if soil[i] <= stirC {
			return 0
		}
		return arith.Unit((chillC-float64(soil[i]))/(chillC-stirC)) * c.moist(i)
	})
	return c
}

// moist is how far water lets seed germinate on a day, 0 to 1.
func (c *care) moist(i int) float64 { return c.zone.bed.moist(i, c.watered) }

// Waters are, by day of a series, how far water lets seed that is raked in stir in a bed that is watered or left to the
// rain, and young grass grow, 0 to 1.
func Waters(d *weather.Days, watered bool) (stir, grow []float32) {
	bed := newSeedbed(d, Input{})
	stir, grow = make([]float32, len(d.MeanC)), make([]float32, len(d.MeanC))
	for i := range stir {
		stir[i], grow[i] = float32(bed.moist(i, watered)), float32(water(d, i, watered))
	}
	return stir, grow
}

// water is how far it lets young grass grow on a day.
func water(d *weather.Days, i int, watered bool) float64 {
	switch {
	case d.SnowCM[i] >= 1:
		return 0
	case watered:
		return 1
	}
	return min(1, float64(d.Moisture[i])+dryBelow)
}

// germination is the running sum of hydrothermal time above a base. Below stirC seed
// lies dormant, whatever its base: that is where a line through the rates in warmer
// soil meets nothing.
func (c *care) germination(baseC float64) []float32 {
	soil := c.zone.days.SoilC
	return c.zone.sum(func(i int) float64 {
		if soil[i] <= stirC {
			return 0
		}
		return arith.Most(0, min(germLidC, float64(soil[i]))-baseC) * c.moist(i)
	})
}
