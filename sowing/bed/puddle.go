package bed

import "math"

// soak is what rain falls on.
type soak struct {
	IntakeMMH float64 // into the surface
	StoreMM   float64 // pores that are empty at field capacity
	DrainMMH  float64 // out of the bottom
}

// puddle is what stands on level ground at the end of one hour of rain, in mm, and
// for how many hours more: what neither the surface takes in nor the pores and the
// ground below hold. The ground is at field capacity when it starts to rain.
func (g soak) puddle(rainMMH float64) (mm, hours float64) {
	taken := math.Min(math.Min(rainMMH, g.IntakeMMH), g.StoreMM+g.DrainMMH)
	mm = math.Max(rainMMH-taken, 0)
	if mm == 0 {
		return 0, 0
	}
	// Afterwards pores still empty fill at the rate of the surface, then water
	// leaves as fast as the ground below lets it.
	left := math.Max(g.StoreMM+g.DrainMMH-taken, 0)
	quick := math.Min(mm, left)
	hours = quick / g.IntakeMMH
	if slow := mm - quick; slow > 0 {
		hours += slow / math.Min(g.IntakeMMH, g.DrainMMH)
	}
	return mm, hours
}
