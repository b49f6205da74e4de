package light

import (
	"fmt"
	"math"
	"strings"
	"swardwright/internal/told"
)

// name gives each zone the plain name that someone standing on the lawn would:
// by the thing that shades it ("under the birch", "against the south wall",
// "near the house"), or else by where it lies ("the open north side"). A thing
// without a name of its own is called by its kind and bearing.
func (f *Field) name(s Scene, ground frame) {
	if len(f.Zones) == 1 {
		f.Zones[0].Name = wholeLawn
		return
	}
	views := f.views(s, ground)
	taken := map[string]bool{}
	for i := len(f.Zones) - 1; i >= 0; i-- { // darkest first: it has first claim to what shades it
		z := &f.Zones[i]
		side := told.Say("place.part")
		if len(s.Lawn) == 1 {
			side = f.side(i, ground)
		}
		var options []told.Sentence
		if i > 0 {
			if v, ok := views.cause(i, s, z.Light.LeafShade > 0.5); ok {
				what := s.call(v.obstacle, ground, f.centre(allZones))
				switch {
				case v.trees > 1:
					options = append(options, told.Say("place.among-trees"))
				case v.under:
					options = append(options, told.Say("place.under", what))
				case v.against && s.Obstacles[v.obstacle].Kind != Tree:
					options = append(options, told.Say("place.against", what))
				}
				options = append(options, told.Say("place.near", what), told.Say("place.further-from", what))
			}
			options = append(options, told.Say("place.the", side), told.Say("place.rest"))
		} else if z.Light.OpenShare > openAbove {
			options = append(options, told.Say("place.open", side))
		} else {
			options = append(options, told.Say("place.lighter", side))
		}
		for _, o := range options {
			if z.Name = o; !taken[fmt.Sprint(o)] {
				break
			}
		}
		if taken[fmt.Sprint(z.Name)] {
			z.Name = told.Say("place.part-of", z.Name, told.Zone(z.Letter))
		}
		taken[fmt.Sprint(z.Name)] = true
	}
}

// openAbove is the share of the open lawn's light above which a zone is called open.
const openAbove = 0.8

// allZones stands for the whole lawn where a zone is asked for by its number.
const allZones = -1

// centre is the centre of area of a zone, or of all of them.
func (f *Field) centre(zone int) Point {
	var p Point
	area := 0.0
	for _, c := range f.Cells {
		if zone == allZones || c.Zone == zone {
			area += c.AreaM2
			p.X += c.AreaM2 * c.At.X
			p.Y += c.AreaM2 * c.At.Y
		}
	}
	return Point{p.X / area, p.Y / area}
}

// side says where on the lawn a zone lies: towards a point of the compass when
// its centre lies well off the lawn's, else in the middle or along the edges.
func (f *Field) side(zone int, ground frame) told.Sentence {
	lawn, here := f.centre(allZones), f.centre(zone)
	var all, own, area, ownArea float64 // mean squares of the distance from the lawn's centre
	for _, c := range f.Cells {
		d := (c.At.X-lawn.X)*(c.At.X-lawn.X) + (c.At.Y-lawn.Y)*(c.At.Y-lawn.Y)
		all += c.AreaM2 * d
		area += c.AreaM2
		if c.Zone == zone {
			own += c.AreaM2 * d
			ownArea += c.AreaM2
		}
	}
	all, own = math.Sqrt(all/area), math.Sqrt(own/ownArea)
	const off = 0.2 // of the lawn's own spread
	v := ground.level(Point{here.X - lawn.X, here.Y - lawn.Y})
	switch {
	case math.Hypot(v.e, v.n) > off*all:
		return told.Say("place.side", compass(v))
	case own < all:
		return told.Say("place.middle")
	}
	return told.Say("place.edges")
}

// compass names the nearest of eight points to a direction.
func compass(v vec) told.Term {
	points := [8]string{"north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"}
	eighth := math.Round(math.Atan2(v.e, v.n) / (math.Pi / 4))
	return told.Term{Kind: "compass", Word: points[(int(eighth)+8)%8]}
}

// view is how an obstacle stands to a zone.
type view struct {
	obstacle       int
	loom           float64 // mean tangent of its height over the cells' distance, in the zone
	lawn           float64 // the same over the whole lawn
	under, against bool
	trees          int // how many trees loom as large or nearly so
}

type views [][]view

// views looks at every obstacle from every zone.
func (f *Field) views(s Scene, ground frame) views {
	const close = 0.5 // metres, within which an obstacle looms no more
	all := make(views, len(f.Zones))
	for k, o := range s.Obstacles {
		height := ground.top(o) - ground.foot(o)
		loom := make([]float64, len(f.Zones))
		under := make([]float64, len(f.Zones))
		nearest := make([]float64, len(f.Zones))
		mean := make([]float64, len(f.Zones))
		for z := range nearest {
			nearest[z] = math.Inf(1)
		}
		lawn, area := 0.0, 0.0
		for _, c := range f.Cells {
			d := o.distance(c.At)
			w := height / max(close, d) * c.AreaM2
			loom[c.Zone] += w
			lawn += w
			area += c.AreaM2
			nearest[c.Zone] = min(nearest[c.Zone], d)
			mean[c.Zone] += d * c.AreaM2
			if o.Kind == Tree && d == 0 {
				under[c.Zone] += c.AreaM2
			}
		}
		for z := range f.Zones {
			a := f.Zones[z].AreaM2
			all[z] = append(all[z], view{
				obstacle: k,
				loom:     loom[z] / a,
				lawn:     lawn / area,
				under:    under[z] > a/2,
				against:  nearest[z] < 1+f.CellM && mean[z]/a < height,
			})
		}
	}
	return all
}

// cause is the obstacle that sets a zone apart: of those that loom clearly larger
// there than over the lawn as a whole, the one that looms largest; a tree where
// most of the light is lost to leaves, else anything but a tree.
func (v views) cause(zone int, s Scene, leaves bool) (best view, ok bool) {
	const clearly, nearly = 1.15, 0.6
	for _, w := range v[zone] {
		if (s.Obstacles[w.obstacle].Kind == Tree) == leaves && w.loom > clearly*w.lawn && w.loom > best.loom {
			best, ok = w, true
		}
	}
	for _, w := range v[zone] {
		if leaves && s.Obstacles[w.obstacle].Kind == Tree && w.loom > nearly*best.loom {
			best.trees++
		}
	}
	return best, ok
}

// Called is what the obstacle of a number is called in a list and on a drawing: its own
// name, or its kind and the number.
func (o Obstacle) Called(number int) told.Sentence {
	if name := strings.TrimSpace(o.Name); name != "" {
		return told.Say("place.named", told.Verbatim(name))
	}
	return told.Say("place.numbered", told.Term{Kind: "thing", Word: string(o.Kind)}, told.Ordinal(number))
}

// call is what an obstacle is called in a name: its own name with an article, or
// its kind and the side of the lawn it stands on.
func (s Scene) call(obstacle int, ground frame, lawn Point) told.Sentence {
	o := &s.Obstacles[obstacle]
	name := strings.TrimSpace(o.Name)
	if name != "" {
		if strings.HasPrefix(strings.ToLower(name), "the ") {
			return told.Say("place.named", told.Verbatim(name))
		}
		return told.Say("place.the-named", told.Verbatim(name))
	}
	at := o.At
	if o.Kind != Tree {
		_, at = planArea(o.Footprint)
	}
	return told.Say("place.kind-to-the", told.Term{Kind: "obstacle", Word: string(o.Kind)}, compass(ground.level(Point{at.X - lawn.X, at.Y - lawn.Y})))
}
