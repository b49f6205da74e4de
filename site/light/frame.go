package light

import "math"

// rad is a degree in radians.
const rad = math.Pi / 180

// vec is a place or a direction in metres east, north and up. Inside the package
// everything stands in this frame; the plan's own axes end in [newFrame].
type vec struct{ e, n, u float64 }

func (a vec) sub(b vec) vec       { return vec{a.e - b.e, a.n - b.n, a.u - b.u} }
func (a vec) add(b vec) vec       { return vec{a.e + b.e, a.n + b.n, a.u + b.u} }
func (a vec) times(k float64) vec { return vec{a.e * k, a.n * k, a.u * k} }
func (a vec) dot(b vec) float64   { return a.e*b.e + a.n*b.n + a.u*b.u }
func (a vec) length() float64     { return math.Sqrt(a.dot(a)) }
func (a vec) cross(b vec) vec {
	return vec{a.n*b.u - a.u*b.n, a.u*b.e - a.e*b.u, a.e*b.n - a.n*b.e}
}

// frame turns plan coordinates into east, north and up, and knows the plane the
// ground lies in: through the plan's origin, falling towards the aspect, and
// carrying on under everything that stands on it.
type frame struct {
	cos, sin float64 // of the bearing of the plan's y axis
	fallE    float64 // metres the ground falls a metre east
	fallN    float64 // and a metre north
	normal   vec     // of the ground, unit length, upwards
}

func newFrame(s Scene) frame {
	f := frame{}
	f.sin, f.cos = math.Sincos(s.PlanNorthDeg * rad)
	sinA, cosA := math.Sincos(s.AspectDeg * rad)
	fall := math.Tan(s.SlopeDeg * rad)
	f.fallE, f.fallN = fall*sinA, fall*cosA
	n := vec{f.fallE, f.fallN, 1}
	f.normal = n.times(1 / n.length())
	return f
}

// level turns a plan point, leaving the height at 0.
func (f frame) level(p Point) vec {
	return vec{p.X*f.cos + p.Y*f.sin, p.Y*f.cos - p.X*f.sin, 0}
}

// onGround is a plan point on the ground.
func (f frame) onGround(p Point) vec {
	v := f.level(p)
	v.u = -v.e*f.fallE - v.n*f.fallN
	return v
}

// edge is a top edge of an obstacle. The curtain hanging from it to the ground
// is part of the obstacle, and the curtains of all its edges together hide what
// the obstacle hides: seen from outside, the highest point of a prism or a gable
// in any direction lies on an edge.
type edge struct {
	from, to vec
	face     int  // index in solids.faces, or noFace
	both     bool // seen from both sides; else only from where from→to runs clockwise
}

// face is one lit side of a solid, which throws light back on the lawn.
type face struct {
	mid     vec // a point just before its middle
	outward vec // unit, level
	albedo  float64
}

// layer is one obstacle that lets part of the light through.
type layer struct {
	Obstacle
	edges []edge // of a screen
	crown crown  // of a tree
}

// solids is a scene ready for tracing.
type solids struct {
	frame
	edges  []edge // of all opaque obstacles
	faces  []face
	layers []layer
}

// build sets the obstacles up. The scene has no faults.
func build(s Scene) solids {
	b := solids{frame: newFrame(s)}
	for _, o := range s.Obstacles {
		switch o.Kind {
		case Solid:
			b.edges = append(b.edges, b.prism(o, true)...)
		case Gable:
			b.edges = append(b.edges, b.gable(o)...)
		case Screen:
			if o.Transmittance == 0 {
				b.edges = append(b.edges, b.prism(o, true)...)
				continue
			}
			b.layers = append(b.layers, layer{Obstacle: o, edges: b.prism(o, false)})
		case Tree:
			b.layers = append(b.layers, layer{Obstacle: o, crown: newCrown(b.frame, o)})
		}
	}
	return b
}

// ring is a footprint in the level frame, anticlockwise, without repeated
// corners.
func (f frame) ring(outline []Point) []vec {
	var out []vec
	for _, p := range outline {
		v := f.level(p)
		if len(out) == 0 || v.sub(out[len(out)-1]).length() > samePlaceM {
			out = append(out, v)
		}
	}
	for len(out) > 1 && out[0].sub(out[len(out)-1]).length() <= samePlaceM {
		out = out[:len(out)-1]
	}
	if area, _ := planArea(outline); area < 0 {
		for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
			out[i], out[j] = out[j], out[i]
		}
	}
	return out
}

// top is the height of an obstacle's highest point above the datum. A flat top
// over sloping ground stands HeightM above the ground at the middle of the
// footprint.
func (f frame) top(o Obstacle) float64 {
	if o.TopM != nil {
		return *o.TopM
	}
	return f.foot(o) + o.HeightM
}

// foot is the height of the ground an obstacle stands on: at the stem of a tree,
// else at the middle of the footprint.
func (f frame) foot(o Obstacle) float64 {
	if o.Kind == Tree {
		return f.onGround(o.At).u
	}
	_, c := planArea(o.Footprint)
	return f.onGround(c).u
}

// wall adds a face for the side between two top corners and returns its index.
func (b *solids) wall(from, to vec, o Obstacle) int {
	along := to.sub(from)
	out := vec{along.n, -along.e, 0}
	out = out.times(1 / out.length())
	mid := from.add(to).times(0.5)
	ground := -mid.e*b.fallE - mid.n*b.fallN
	mid.u = (mid.u + ground) / 2
	const clear = 0.01 // metres before the wall, so that it does not hide itself
	f := face{mid: mid.add(out.times(clear)), outward: out, albedo: wallAlbedo}
	if o.Albedo != nil {
		f.albedo = *o.Albedo
	}
	b.faces = append(b.faces, f)
	return len(b.faces) - 1
}

func (b *solids) prism(o Obstacle, walls bool) []edge {
	ring, top := b.ring(o.Footprint), b.top(o)
	edges := make([]edge, len(ring))
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		p.u, q.u = top, top
		edges[i] = edge{from: p, to: q, face: noFace}
		if walls {
			edges[i].face = b.wall(p, q, o)
		}
	}
	return edges
}

// gable sets a ridge along the longer side of a rectangle, over its middle.
func (b *solids) gable(o Obstacle) []edge {
	ring, top := b.ring(o.Footprint), b.top(o)
	eaves := b.foot(o) + o.EavesM
	if ring[1].sub(ring[0]).length() < ring[2].sub(ring[1]).length() {
		ring = append(ring[1:], ring[0]) // so that sides 0 and 2 are the long ones
	}
	for i := range ring {
		ring[i].u = eaves
	}
	p, q, r, s := ring[0], ring[1], ring[2], ring[3]
	ridge := [2]vec{s.add(p).times(0.5), q.add(r).times(0.5)}
	ridge[0].u, ridge[1].u = top, top
	front, right, back, left := b.wall(p, q, o), b.wall(q, r, o), b.wall(r, s, o), b.wall(s, p, o)
	return []edge{
		{from: p, to: q, face: front},
		{from: ridge[0], to: ridge[1], face: front},
		{from: r, to: s, face: back},
		{from: ridge[1], to: ridge[0], face: back},
		{from: q, to: ridge[1], face: right, both: true},
		{from: ridge[1], to: r, face: right, both: true},
		{from: s, to: ridge[0], face: left, both: true},
		{from: ridge[0], to: p, face: left, both: true},
	}
}
