package bed

import (
	"math"
	"slices"

	"swardwright/internal/told"
	"swardwright/site/light"
	"swardwright/sowing/job"
)

// The ground round a tree that is left to its roots: a circle of twelve times the stem's
// diameter, at most 15 m (BS 5837:2012), or of the crown where the stem is not known
// (common practice, no published source). Soil over roots: published advice runs from none
// to 75 mm once; the 25 mm a year of the same texture, and the depth that is scratched
// open, are common practice, no published source.
const (
	rootStems    = 12.0
	rootMostM    = 15.0
	overRootsMM  = 25.0
	scratchMM    = 20.0
	leastRootsM2 = 0.5  // under which no work is told apart
	mostlyRoots  = 0.95 // of the ground, from which none of it is worked deep
)

// rootM is how far from its stem a tree's roots are left alone; 0 for what is no tree.
func rootM(o light.Obstacle) float64 {
	switch {
	case o.Kind != light.Tree:
		return 0
	case o.StemCM > 0:
		return math.Min(rootStems*o.StemCM/100, rootMostM)
	}
	return o.CrownM / 2
}

// rootsM2 is how much of the ground that is worked lies over the roots of trees.
func (w Input) rootsM2() (m2 float64) {
	zones, rooted := w.zones(), w.rooted()
	for _, c := range w.Site.Field.Cells {
		worked := len(zones) == 0
		for _, z := range zones {
			worked = worked || z.Index == c.Zone
		}
		if worked && rooted(c.At) {
			m2 += c.AreaM2
		}
	}
	switch area := w.area(); {
	case m2 < leastRootsM2:
		return 0
	case m2 > mostlyRoots*area:
		return area
	}
	return m2
}

// rooted gives what tells whether a point lies over the roots of a tree.
func (w Input) rooted() func(light.Point) bool {
	type circle struct {
		light.Point
		radiusM float64
	}
	var circles []circle
	for _, o := range w.Site.Survey.Obstacles {
		if r := rootM(o); r > 0 {
			circles = append(circles, circle{o.At, r})
		}
	}
	return func(at light.Point) bool {
		return slices.ContainsFunc(circles, func(c circle) bool { return math.Hypot(at.X-c.X, at.Y-c.Y) <= c.radiusM })
	}
}

// deepM2 is the ground that may be dug, loosened, drained and built up.
func (w Input) deepM2() float64 { return w.area() - w.rootsM2() }

// caution is what is said of trees with work on the ground: where some are known their own
// ground is told of by itself, and where the survey names nothing around the lawn there may be.
func (w Input) caution() []told.Sentence {
	if len(w.Site.Survey.Obstacles) == 0 && w.Site.Field.CellM == 0 {
		return says(cautionServices, cautionTrees)
	}
	return says(cautionServices)
}

// roots adds the handwork over the roots of trees.
func (l *list) roots(w Input) {
	m2 := w.rootsM2()
	if m2 == 0 {
		return
	}
	how := says(told.Say("bed.roots-never"))
	for i, o := range w.Site.Survey.Obstacles {
		if r := rootM(o); r > 0 {
			how = append(how, told.Say("bed.roots-of", o.Called(i+1), told.LengthM(r)))
		}
	}
	switch w.Kind {
	case job.New:
		how = append(how, told.Say("bed.roots-how", told.DepthMM(scratchMM), told.DepthMM(overRootsMM)))
	default:
		how = append(how, told.Say("bed.roots-old", told.DepthMM(scratchMM), told.DepthMM(dressingMM(w))))
	}
	l.add(job.Task{ID: "over-roots", Title: told.Say("bed.roots"), OutputKey: "rake_m2_per_hour", Quantity: m2, Unit: "m2", Needs: l.after(0, l.last()),
		Detail: how, Caution: says(told.Say("bed.caution-protected"))})
}
