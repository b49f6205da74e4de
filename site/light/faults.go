package light

import (
	"errors"
	"fmt"
	"math"

	"github.com/samber/lo"

	"swardwright/internal/plain"
)

// Fault is something in a scene that cannot be worked with.
type Fault struct {
	// Path is the key in a brief: lawn.outline, or lawn.part[2].outline where the
	// lawn has several parts; obstacle[3].height_m, counted from 1; probe[1].at.
	Path string
	// Problem says what is wrong and what to do, beginning with the obstacle's
	// or probe's name where it has one.
	Problem string
}

func (f Fault) Error() string { return f.Path + ": " + f.Problem }

// Bounds on a scene, for whoever reads one as well. They are far beyond any garden, and
// catch slips and wrong units.
const (
	MaxExtentM    = 1000.0 // from the plan's origin
	MaxHeightM    = 300.0
	MinCrownM     = 0.1
	MaxCrownM     = 60.0
	MaxAlbedo     = 0.95
	MaxSlopeDeg   = 60.0
	MinHorizonDeg = -10.0
	MaxHorizonDeg = 89.0
)

// Bounds that keep a file made by mistake from running for hours.
const (
	maxCorners   = 2000 // of one footprint, and of the lawn's outlines together
	maxEdges     = 5000 // of all footprints together
	leastAreaM2  = 1e-3
	samePlaceM   = 1e-6
	maxObstacles = 1000
)

// Faults checks the geometry of a scene. Without faults, Trace and SunHoursOn
// give an answer.
func (s Scene) Faults() []Fault {
	faults := s.partFaults()
	if len(faults) > 0 {
		return faults
	}
	if s.allUnder() {
		faults = append(faults, Fault{outlinePath(len(s.Lawn), 0), "all of the lawn lies under obstacles; move its outline or theirs"})
	}
	return faults
}

// outlinePath is the key of an outline of a lawn of so many parts.
func outlinePath(parts, i int) string {
	if parts > 1 {
		return fmt.Sprintf("lawn.part[%d].outline", i+1)
	}
	return "lawn.outline"
}

// partFaults checks each part of a scene by itself and where parts meet.
func (s Scene) partFaults() []Fault {
	var c check
	lying := c.place(s)
	if !c.outlines(s.Lawn) {
		return c.faults
	}
	ground := newFrame(Scene{})
	if lying {
		ground = newFrame(s)
	}
	if c.obstacles(s.Obstacles, ground) {
		c.probes(s)
	}
	return c.faults
}

// place checks where the lawn lies and says whether its plane is known.
func (c *check) place(s Scene) bool {
	c.number("place.latitude", "", s.LatitudeDeg, -90, 90, "degrees, north positive")
	c.number("place.longitude", "", s.LongitudeDeg, -180, 180, "degrees, east positive")
	c.number("place.altitude_m", "", s.AltitudeM, -500, 9000, "metres")
	c.number("lawn.plan_north_deg", "", s.PlanNorthDeg, -360, 360, "degrees")
	slope := c.number("lawn.slope_deg", "", s.SlopeDeg, 0, MaxSlopeDeg, "degrees")
	aspect := c.number("lawn.aspect_deg", "", s.AspectDeg, -360, 360, "degrees, the bearing the ground falls towards")
	for i, p := range s.Horizon {
		path := fmt.Sprintf("lawn.horizon[%d]", i+1)
		c.number(path, "bearing", p.BearingDeg, 0, 360, "degrees clockwise from north")
		c.number(path, "elevation", p.ElevationDeg, MinHorizonDeg, MaxHorizonDeg, "degrees; nearer things are obstacles")
	}
	return slope && aspect
}

// outlines checks the parts of a lawn; false says that they are too much to go on with.
func (c *check) outlines(lawn [][]Point) bool {
	if len(lawn) == 0 {
		c.add("lawn.outline", "missing; give the corners of the lawn")
	}
	if corners := lo.SumBy(lawn, func(part []Point) int { return len(part) }); corners > maxCorners {
		c.add("lawn.outline", "the lawn has %d corners, more than %d; draw it simpler", corners, maxCorners)
		return false
	}
	for i, part := range lawn {
		path := outlinePath(len(lawn), i)
		if !c.polygon(path, "", part) {
			continue
		}
		for k, other := range lawn[:i] {
			if overlap(part, other) {
				c.add(path, "overlaps part %d; join the two or draw them side by side", k+1)
			}
		}
	}
	return true
}

// obstacles checks all of them; false says that they are too much to go on with.
func (c *check) obstacles(all []Obstacle, ground frame) bool {
	if len(all) > maxObstacles {
		c.add("obstacle", "%d obstacles are more than can be traced (%d); leave out what throws no shade on the lawn", len(all), maxObstacles)
		return false
	}
	if edges := lo.SumBy(all, func(o Obstacle) int { return len(o.Footprint) }); edges > maxEdges {
		c.add("obstacle", "the footprints have %d corners together, more than %d; draw them simpler", edges, maxEdges)
		return false
	}
	for i, o := range all {
		c.obstacle(fmt.Sprintf("obstacle[%d]", i+1), o, ground)
	}
	return true
}

func (c *check) probes(s Scene) {
	for i, p := range s.Probes {
		path := fmt.Sprintf("probe[%d].at", i+1)
		if !c.point(path, p.Name, p.At) {
			continue
		}
		for k, o := range s.Obstacles {
			if o.Kind != Tree && Inside(o.Footprint, p.At) && o.faceDistance(p.At) > onFaceM {
				c.add(path, "%sstands inside obstacle %d%s; move it out", quoted(p.Name), k+1, after(o.Name))
			}
		}
	}
}

// refuse makes one error of some faults.
func refuse(faults []Fault) error {
	errs := make([]error, len(faults))
	for i, f := range faults {
		errs[i] = f
	}
	return errors.Join(errs...)
}

type check struct{ faults []Fault }

func (c *check) add(path, format string, args ...any) {
	c.faults = append(c.faults, Fault{path, fmt.Sprintf(format, args...)})
}

// number checks a value and says whether it can be used.
func (c *check) number(path, what string, v, lo, hi float64, unit string) bool {
	if v >= lo && v <= hi {
		return true
	}
	if what != "" {
		what += " "
	}
	c.add(path, "%s%v is outside %v to %v (%s)", what, v, lo, hi, unit)
	return false
}

func (c *check) point(path, name string, p Point) bool {
	if math.Abs(p.X) <= MaxExtentM && math.Abs(p.Y) <= MaxExtentM {
		return true
	}
	c.add(path, "%s[%v, %v] is no place on the plan; metres, within %v of the origin", quoted(name), p.X, p.Y, MaxExtentM)
	return false
}

// polygon checks an outline: enough corners, in reach, some area, not crossing
// itself.
func (c *check) polygon(path, name string, ps []Point) bool {
	n := len(c.faults)
	name = quoted(name)
	switch {
	case len(ps) < 3:
		c.add(path, "%sneeds at least 3 corners, has %d", name, len(ps))
		return false
	case len(ps) > maxCorners:
		c.add(path, "%shas %d corners, more than %d; draw it simpler", name, len(ps), maxCorners)
		return false
	}
	for i, p := range ps {
		if !(math.Abs(p.X) <= MaxExtentM && math.Abs(p.Y) <= MaxExtentM) {
			c.add(path, "%scorner %d, [%v, %v], is no place on the plan; metres, within %v of the origin", name, i+1, p.X, p.Y, MaxExtentM)
			return false
		}
	}
	if a, _ := planArea(ps); math.Abs(a) < leastAreaM2 {
		// A bow-tie has no net area either: name its crossing.
		if i, j, ok := crossing(ps); ok && !onOneLine(ps) {
			c.add(path, "%scrosses itself: side %s meets side %s; give the corners in order round it", name, sideName(i, ps), sideName(j, ps))
		} else {
			c.add(path, "%shas no area; its corners lie on one line", name)
		}
		return false
	}
	if i, j, ok := crossing(ps); ok {
		c.add(path, "%scrosses itself: side %s meets side %s; give the corners in order round it", name, sideName(i, ps), sideName(j, ps))
	}
	return len(c.faults) == n
}

// onOneLine says whether no corner lies off the line through the first corner and
// the one farthest from it.
func onOneLine(ps []Point) bool {
	far := ps[0]
	for _, p := range ps {
		if math.Hypot(p.X-ps[0].X, p.Y-ps[0].Y) > math.Hypot(far.X-ps[0].X, far.Y-ps[0].Y) {
			far = p
		}
	}
	for _, p := range ps {
		if turn(ps[0], far, p) != 0 {
			return false
		}
	}
	return true
}

func sideName(i int, ps []Point) string { return fmt.Sprintf("%d–%d", i+1, (i+1)%len(ps)+1) }

// crossing finds two sides of an outline that meet elsewhere than at a corner
// they share. Repeated corners are passed over.
func crossing(ps []Point) (int, int, bool) {
	type side struct {
		i    int
		a, b Point
	}
	var sides []side
	for i, a := range ps {
		if b := ps[(i+1)%len(ps)]; math.Hypot(b.X-a.X, b.Y-a.Y) > samePlaceM {
			sides = append(sides, side{i, a, b})
		}
	}
	n := len(sides)
	for i, s := range sides {
		for j := i + 1; j < n; j++ {
			t := sides[j]
			switch {
			case j == i+1 || i == 0 && j == n-1:
				// Neighbours share a corner; they may only fold back on each other.
				p, q, r := s.a, s.b, t.b
				if j != i+1 {
					p, q, r = t.a, s.a, s.b
				}
				if turn(p, q, r) == 0 && (q.X-p.X)*(r.X-q.X)+(q.Y-p.Y)*(r.Y-q.Y) < 0 {
					return s.i, t.i, true
				}
			case meet(s.a, s.b, t.a, t.b):
				return s.i, t.i, true
			}
		}
	}
	return 0, 0, false
}

// overlap says whether two outlines share ground; to touch along a side is no
// overlap.
func overlap(a, b []Point) bool {
	for i, p := range a {
		q := a[(i+1)%len(a)]
		for j, r := range b {
			s := b[(j+1)%len(b)]
			if turn(p, q, r)*turn(p, q, s) < 0 && turn(r, s, p)*turn(r, s, q) < 0 {
				return true
			}
		}
	}
	// Without a crossing one lies in the other or they lie apart. A point just
	// within a corner tells, where the corner itself may lie on a side.
	return Inside(b, within(a)) || Inside(a, within(b))
}

// within is a point inside an outline: the centre of the first ear found.
func within(ps []Point) Point {
	area, c := planArea(ps)
	if Inside(ps, c) {
		return c
	}
	n := len(ps)
	for i, p := range ps {
		a, b := ps[(i+n-1)%n], ps[(i+1)%n]
		ear := []Point{a, p, b}
		if t, m := planArea(ear); t*area > 0 && Inside(ps, m) {
			empty := true
			for k, q := range ps {
				empty = empty && (k == i || k == (i+1)%n || k == (i+n-1)%n || !Inside(ear, q))
			}
			if empty {
				return m
			}
		}
	}
	return c
}

// turn is 1 where p→q→r turns left, -1 right, 0 straight on.
func turn(p, q, r Point) int {
	c := (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X)
	switch {
	case math.Abs(c) <= samePlaceM*samePlaceM:
		return 0
	case c > 0:
		return 1
	}
	return -1
}

// meet says whether two sides have a point in common.
func meet(a, b, c, d Point) bool {
	if max(a.X, b.X) < min(c.X, d.X) || max(c.X, d.X) < min(a.X, b.X) ||
		max(a.Y, b.Y) < min(c.Y, d.Y) || max(c.Y, d.Y) < min(a.Y, b.Y) {
		return false
	}
	return turn(a, b, c)*turn(a, b, d) <= 0 && turn(c, d, a)*turn(c, d, b) <= 0
}

// obstacle checks the shape that an obstacle's kind has, and how high it stands.
func (c *check) obstacle(path string, o Obstacle, ground frame) {
	switch o.Kind {
	case Tree:
		standing := c.point(path+".at", o.Name, o.At)
		c.crown(path, o)
		c.height(path, o, ground, standing)
	case Solid, Gable, Screen:
		standing := c.polygon(path+".footprint", o.Name, o.Footprint)
		if o.Albedo != nil {
			c.number(path+".albedo", o.Name, *o.Albedo, 0, MaxAlbedo, "share of light its walls throw back")
		}
		if o.Kind == Screen {
			c.number(path+".transmittance", o.Name, o.Transmittance, 0, 1, "share of light let through")
		}
		if o.Kind == Gable && standing && !rectangle(ground.ring(o.Footprint)) {
			c.add(path+".footprint", "%sa gable needs a rectangle: four square corners", quoted(o.Name))
		}
		c.height(path, o, ground, standing)
	default:
		c.add(path+".kind", `%s%q is not "solid", "gable", "tree" or "screen"`, quoted(o.Name), o.Kind)
	}
}

func (c *check) crown(path string, o Obstacle) {
	c.number(path+".crown_m", o.Name, o.CrownM, MinCrownM, MaxCrownM, "metres across")
	if o.Leaf != "" && o.Leaf != Deciduous && o.Leaf != Evergreen {
		c.add(path+".leaf", `%s%q is not "deciduous" or "evergreen"`, quoted(o.Name), o.Leaf)
	}
	if o.MonthTransmittance != nil {
		for m, v := range o.MonthTransmittance {
			c.number(fmt.Sprintf("%s.transmittance[%d]", path, m+1), o.Name, v, 0, 1, "share of light let through")
		}
	}
}

// height checks how high an obstacle rises, and its eaves or clear stem below that; one
// given by its top can be checked only where its foot is known to stand.
func (c *check) height(path string, o Obstacle, ground frame, standing bool) {
	name := quoted(o.Name)
	height := o.HeightM
	key := path + ".height_m"
	if o.TopM != nil {
		key = path + ".top_m"
		if !c.number(key, o.Name, *o.TopM, -MaxHeightM, MaxHeightM, "metres above the plan's datum") || !standing {
			return
		}
		height = *o.TopM - ground.foot(o)
	}
	if !(height > 0 && height <= MaxHeightM) {
		if o.TopM != nil {
			c.add(key, "%sits top lies %.2f m above the ground at its foot; that must be more than 0 and at most %v", name, height, MaxHeightM)
		} else {
			c.add(key, "%sa height of %v m must be more than 0 and at most %v", name, height, MaxHeightM)
		}
		return
	}
	if o.Kind == Gable && !(o.EavesM > 0 && o.EavesM < height) {
		c.add(path+".eaves_m", "%seaves at %v m must lie above the ground and below the ridge at %.2f m", name, o.EavesM, height)
	}
	if o.Kind == Tree && !(o.ClearStemM >= 0 && o.ClearStemM < height) {
		c.add(path+".clear_stem_m", "%sa clear stem of %v m must be at least 0 and less than the height, %.2f m", name, o.ClearStemM, height)
	}
}

// rectangle says whether a ring has four square corners, to a hundredth of a side.
func rectangle(ring []vec) bool {
	if len(ring) != 4 {
		return false
	}
	for i := range ring {
		a := ring[(i+1)%4].sub(ring[i])
		b := ring[(i+2)%4].sub(ring[(i+1)%4])
		if math.Abs(a.dot(b)) > 0.01*a.length()*b.length() {
			return false
		}
	}
	return true
}

func quoted(name string) string {
	if name == "" {
		return ""
	}
	return plain.Quote(name) + ": "
}

func after(name string) string {
	if name == "" {
		return ""
	}
	return " " + plain.Quote(name)
}
