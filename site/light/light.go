// Package light works out how much sun and daylight reaches a lawn: direct sun
// hours, sky view and the daily light integral (DLI) for every cell of the lawn
// and every month, gathered into at most four zones.
//
// # How
//
// Obstacles stay what they were drawn as. From each cell every straight top edge is
// an arc of a great circle; the upper of all arcs is the cell's silhouette, and the
// sun's path of a day crosses each arc where a formula says, not where a step
// happens to fall. Crowns are ellipsoids, whose outline the path crosses where a
// bracketed search ends. The sky view is the form factor of the sky polygon left
// above the silhouette, by Lambert's sum.
//
//   - Direct sun is of a clear sky: the sun's centre above the geometric horizon,
//     in local apparent solar time, one declination a day (Meeus, see package sun).
//   - Light is of the average sky: each month's global radiation is parted into sun
//     and sky by Erbs, Klein & Duffie (1982); the sun's part comes through the day as
//     the clear-sky beam of Rigollier, Bauer & Wald (2000) does; the sky is uniform.
//   - Walls throw back a share of what falls on them, once.
//   - Crowns let through what Wilkinson (1992) measured, screens what is stated, for
//     sun and sky alike, however long the way through.
//
// Not modelled: stems and bare branches below the crown, light thrown back twice or
// by crowns and snow, the brighter sky about the sun or overhead, roofs that
// overhang their walls.
//
// # Evidence and inference
//
// Hours behind walls and slopes are checked against an independent ray caster and
// against plain rays over scenes drawn at random; sky views and beams against
// published figures. How hours of sun, where only they are known, become light is
// inference: see [Stated].
//
// Bearings are degrees clockwise from true north; elevations are degrees above
// the horizontal; plan coordinates are metres, x to the right and y up the page.
package light

import "swardwright/internal/told"

// Point is a place on the plan, in metres.
type Point struct{ X, Y float64 }

// Kind says what an obstacle is.
type Kind string

// The kinds of obstacle.
const (
	Solid  Kind = "solid"  // a flat-topped prism
	Gable  Kind = "gable"  // a rectangular prism with a ridge over the middle, along its longer side
	Tree   Kind = "tree"   // an ellipsoidal crown on a clear stem
	Screen Kind = "screen" // a prism that lets part of the light through
)

// Leaf says when a tree carries leaves.
type Leaf string

// The leaf habits.
const (
	Deciduous Leaf = "deciduous"
	Evergreen Leaf = "evergreen"
)

// Obstacle is one thing that stands between the lawn and the sky.
type Obstacle struct {
	Name      string
	Kind      Kind
	Footprint []Point  // solid, gable, screen: corners in order, at least three
	HeightM   float64  // above the ground at its foot: at the middle of the footprint, or the stem
	TopM      *float64 // instead of HeightM: above the plan's datum, the ground at the origin
	EavesM    float64  // gable: height of the eaves above the ground at its foot

	Albedo        *float64 // solid, gable: share of light its walls throw back, 0 to 1; nil: 0.30
	Transmittance float64  // screen: share of the light let through, 0 to 1

	At                 Point        // tree: the stem
	ClearStemM, CrownM float64      // tree: height of the lowest leaves; crown diameter
	Leaf               Leaf         // tree
	Genus              string       // tree: botanical name, which then tells Leaf as well; empty: unknown
	StemCM             float64      // tree: diameter of the stem at breast height; 0: unknown
	MonthTransmittance *[12]float64 // tree: instead of Leaf, share let through by month
	Thinned            float64      // tree: share of its leaves and twigs taken out, 0 to 1
}

// Probe is a named point of interest.
type Probe struct {
	Name string
	At   Point
}

// HorizonPoint is one corner of the far skyline; between corners it runs straight.
type HorizonPoint struct{ BearingDeg, ElevationDeg float64 }

// Scene is everything that decides where the sun can reach.
type Scene struct {
	LatitudeDeg, LongitudeDeg float64 // north and east positive
	AltitudeM                 float64
	PlanNorthDeg              float64   // bearing of the plan's y axis
	Lawn                      [][]Point // one outline a part of the lawn
	SlopeDeg, AspectDeg       float64   // aspect: bearing the ground falls towards
	AspectUnknown             bool      // the ground falls, and nobody knows where to
	Horizon                   []HorizonPoint
	Obstacles                 []Obstacle
	Probes                    []Probe
}

// Sky is the average sky of the place, by month.
type Sky struct {
	GlobalMJ     [12]float64 // global radiation on open level ground, MJ m⁻² d⁻¹
	SeasonWeight [12]float64 // weight of each month in means of the growing season, 0 to 1
	LeafOnDay    float64     // day of the year when broad leaves are out
	LeafOffDay   float64     // day of the year when they have fallen
}

// Light is what one cell, probe or zone receives.
type Light struct {
	SunHours  [12]float64 // direct sun on a clear day, hours a day, mean of the month
	DLI       [12]float64 // photosynthetic light under average cloud, mol m⁻² d⁻¹
	SkyView   float64     // share of the open sky's diffuse light, season mean, 0 to 1
	LeafShade float64     // of the light lost, the share lost to leaves, 0 to 1

	SunHoursSeason float64 // weighted by Sky.SeasonWeight
	DLISeason      float64
	OpenShare      float64 // DLISeason over that of the open lawn at this place, 0 to 1
}

// Cell is one square of the lawn, clipped to its outline.
type Cell struct {
	At     Point // centre
	AreaM2 float64
	Zone   int // index in Field.Zones
	Light  Light
}

// Zone is a part of the lawn that means the same to a grass.
type Zone struct {
	Letter string        // "A" (lightest) to "D"
	Name   told.Sentence // plain: against the south wall
	Share  float64       // of the lawn's area, 0 to 1
	AreaM2 float64
	Light  Light

	LeafFall float64 // share of it that the leaves of deciduous trees fall on, 0 to 1
}

// ProbeLight is the light at a named point.
type ProbeLight struct {
	Probe
	Light Light
}

// ProbeDays is the direct clear-sky sun at a named point on stated days.
type ProbeDays struct {
	Probe
	Days []DaySun
}

// DaySun is one of them. Behind screens and crowns an hour of sun counts for the
// share of it that comes through.
type DaySun struct {
	Day      int     // of the year, from 1
	SunHours float64 // the sun's centre above the geometric horizon and the lawn lit
}

// Field is the light of a whole lawn.
type Field struct {
	CellM   float64 // side of a cell; 0 when the light was stated, not computed
	Cells   []Cell  // empty when the light was stated
	Zones   []Zone  // lightest first, one to four
	Probes  []ProbeLight
	OpenDLI [12]float64     // on the same lawn with nothing around it
	LogSD   float64         // how well the light is known: standard deviation of its natural logarithm
	Notes   []told.Sentence // disagreements and assumptions, for the plan
}

// AreaM2 is the area of the zones: of the outline, less what lies under obstacles.
func (f Field) AreaM2() float64 {
	sum := 0.0
	for _, z := range f.Zones {
		sum += z.AreaM2
	}
	return sum
}

// Seen is light as observed or measured, given instead of obstacles or to
// correct them. At most one of the pointers is set.
type Seen struct {
	SunHours      *float64     // direct sun on a clear day, mean of the growing season
	SunHoursMonth *[12]float64 // the same by month
	DLI           *float64     // mol m⁻² d⁻¹, mean of the growing season
	ShadePercent  *float64     // of the open sky's light that is missing
}
