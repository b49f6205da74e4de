package light

import (
	"cmp"
	"math"
	"slices"

	"github.com/samber/lo"

	"swardwright/internal/steady"
	"swardwright/internal/told"
)

// What makes a zone. Two parts of a lawn are told apart when a grass would tell
// them apart: by a step of light that moves a sward from one that holds to one
// that thins, about a third of what it has.
const (
	maxZones = 4
	// stepRatio and stepMol are the least differences between the mean light of
	// neighbouring zones, as a ratio and in mol m⁻² d⁻¹. Common practice, no
	// published source.
	stepRatio = 1.3
	stepMol   = 1.5
	// A zone, and each patch of one, is at least so large: what one would sow
	// or mow apart from the rest.
	leastShare = 0.04
	leastM2    = 1.0
	// Limits between zones lie at whole half mols, so that they are the same
	// for the same lawn drawn a little differently.
	binMol = 0.5
	// Light is compared by ratio, but not so near to darkness that nothing lives.
	darkMol = 2.0
)

var wholeLawn = told.Say("place.whole-lawn")

// divide gathers the cells into zones: the best classes of season light, cleared
// of small patches.
func (f *Field) divide(s Scene, y *year) {
	total := 0.0
	for _, c := range f.Cells {
		total += c.AreaM2
	}
	class := classes(f.Cells, total)
	f.clear(class, neighbours(f.Cells, s.origin(), f.CellM), max(leastM2, leastShare*total))

	count := f.lightestFirst(class)
	f.Zones = make([]Zone, count)
	for i := range f.Cells {
		c := &f.Cells[i]
		c.Zone = class[i]
		f.Zones[c.Zone].AreaM2 += c.AreaM2
	}
	lost := make([]float64, count) // by the light lost, for the share lost to leaves
	for i := range f.Cells {
		c := &f.Cells[i]
		z := &f.Zones[c.Zone]
		w := c.AreaM2 / z.AreaM2
		for m := range 12 {
			z.Light.SunHours[m] += w * c.Light.SunHours[m]
			z.Light.DLI[m] += w * c.Light.DLI[m]
		}
		z.Light.SkyView += w * c.Light.SkyView
		if s.leavesFallOn(c.At) {
			z.LeafFall += w
		}
		l := w * max(0, y.openMean-c.Light.DLISeason)
		lost[c.Zone] += l
		z.Light.LeafShade += l * c.Light.LeafShade
	}
	for i := range f.Zones {
		z := &f.Zones[i]
		z.Letter = string(rune('A' + i))
		z.Share = z.AreaM2 / total
		z.Light.season(y.weights, y.openMean)
		if lost[i] > 0 {
			z.Light.LeafShade /= lost[i]
		}
	}
	f.name(s, y.frame)
}

// leafDriftM is how far beyond its crown a tree's leaves lie thick enough to smother
// young grass: our judgement.
const leafDriftM = 5.0

// leavesFallOn tells whether the leaves of a deciduous tree fall on a point.
func (s Scene) leavesFallOn(at Point) bool {
	return slices.ContainsFunc(s.Obstacles, func(o Obstacle) bool {
		return o.Kind == Tree && o.Leaf == Deciduous && o.distance(at) <= leafDriftM
	})
}

// classes sorts the cells into at most maxZones classes of season light, the
// lightest 0. Of the divisions into so many classes it takes the one with the
// least variance of the logarithm of light within classes (Fisher, J. Am. Stat.
// Assoc. 53:789, 1958), and of those the one with most classes that are all far
// enough apart and large enough.
func classes(cells []Cell, total float64) []int {
	h := histogramOf(cells)
	from := h.divisions()
	for k := maxZones - 1; k >= 0; k-- {
		limits := []int{h.bins()} // from the darkest back
		for c := k; c >= 0; c-- {
			limits = append(limits, from[c][limits[len(limits)-1]])
		}
		slices.Reverse(limits)
		if !h.apart(limits, max(leastM2, leastShare*total)) {
			continue
		}
		out := make([]int, len(cells))
		for i := range cells {
			b := h.bin(&cells[i])
			for limits[out[i]+1] <= b {
				out[i]++
			}
		}
		return out
	}
	return make([]int, len(cells))
}

// histogram counts the ground by its season light, the lightest first, in sums up to
// each bin, which give the spread of any run of bins at once.
type histogram struct {
	area, dli   []float64 // m² and m² mol m⁻² d⁻¹
	sum, square []float64 // of the logarithm of light, by area
}

func histogramOf(cells []Cell) histogram {
	type bin struct{ area, dli float64 }
	top := 0.0
	for _, c := range cells {
		top = max(top, c.Light.DLISeason)
	}
	n := 1 + int(steady.Figure(top/binMol))
	h := histogram{make([]float64, n+1), make([]float64, n+1), make([]float64, n+1), make([]float64, n+1)}
	bins := make([]bin, n)
	for i := range cells {
		b := &bins[h.bin(&cells[i])]
		b.area += cells[i].AreaM2
		b.dli += cells[i].AreaM2 * cells[i].Light.DLISeason
	}
	for i, b := range bins {
		v := 0.0
		if b.area > 0 {
			v = math.Log(b.dli/b.area + darkMol)
		}
		h.area[i+1] = h.area[i] + b.area
		h.sum[i+1] = h.sum[i] + b.area*v
		h.square[i+1] = h.square[i] + b.area*v*v
		h.dli[i+1] = h.dli[i] + b.dli
	}
	return h
}

func (h *histogram) bins() int { return len(h.area) - 1 }

// bin is the one that a cell falls into.
func (h *histogram) bin(c *Cell) int {
	return h.bins() - 1 - int(steady.Figure(c.Light.DLISeason/binMol))
}

// spread is that of light within bins i to j-1.
func (h *histogram) spread(i, j int) float64 {
	w := h.area[j] - h.area[i]
	if w <= 0 {
		return 0
	}
	d := h.sum[j] - h.sum[i]
	return max(0, steady.Figure(h.square[j]-h.square[i]-d*d/w)) // alike divisions are so on every machine
}

// divisions finds those of least spread: from[k][j] is where the last class begins of
// the bins before j in k+1 classes.
func (h *histogram) divisions() (from [maxZones][]int) {
	n := h.bins()
	var best [maxZones][]float64 // the spread of those divisions
	for k := range best {
		best[k], from[k] = make([]float64, n+1), make([]int, n+1)
		for j := range n + 1 {
			if k == 0 {
				best[0][j] = h.spread(0, j)
				continue
			}
			best[k][j] = math.Inf(1)
			for i := range j + 1 {
				if v := best[k-1][i] + h.spread(i, j); v < best[k][j] {
					best[k][j], from[k][j] = v, i
				}
			}
		}
	}
	return from
}

// apart says whether the classes between limits, where there are several, are each large
// enough and far enough from the next.
func (h *histogram) apart(limits []int, leastM2 float64) bool {
	area := func(c int) float64 { return steady.Figure(h.area[limits[c+1]] - h.area[limits[c]]) }
	dli := func(c int) float64 { return (h.dli[limits[c+1]] - h.dli[limits[c]]) / area(c) }
	count := len(limits) - 1
	for c := range count {
		if count > 1 && !(area(c) >= leastM2) {
			return false
		}
		if c > 0 && !(dli(c-1) >= dli(c)*stepRatio && dli(c-1) >= dli(c)+stepMol) {
			return false
		}
	}
	return true
}

// clear gives patches smaller than least to the class they touch most, smallest
// first. A patch that touches no other class, a part of the lawn by itself, stays
// what it is.
func (f *Field) clear(class []int, beside [][]int32, least float64) {
	for again := true; again; {
		again = false
		patches, of := patches(class, beside)
		area := make([]float64, len(patches))
		for p, cells := range patches {
			for _, i := range cells {
				area[p] += f.Cells[i].AreaM2
			}
		}
		steady.Figures(area)
		order := lo.Range(len(patches))
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(area[a], area[b]) })
		// A patch whose neighbour has changed hands waits for the next round, so
		// that every change makes one patch fewer.
		stale := make([]bool, len(patches))
		for _, p := range order {
			if area[p] >= least {
				break
			}
			to, touches := mostTouched(patches[p], class, beside)
			if stale[p] || !touches {
				continue
			}
			for _, i := range patches[p] {
				class[i] = to
				for _, j := range beside[i] {
					stale[of[j]] = true
				}
			}
			again = true
		}
	}
}

// mostTouched is the other class that the cells of a patch lie beside most.
func mostTouched(patch []int32, class []int, beside [][]int32) (to int, touches bool) {
	var touch [maxZones]int
	for _, i := range patch {
		for _, j := range beside[i] {
			if class[j] != class[i] { // a neighbour of the same class is of the same patch
				touch[class[j]]++
			}
		}
	}
	most := slices.Max(touch[:])
	return slices.Index(touch[:], most), most > 0
}

// lightestFirst numbers the classes in use from 0, by their mean light, and says how
// many they are.
func (f *Field) lightestFirst(class []int) int {
	var area, dli [maxZones]float64
	for i, c := range class {
		area[c] += f.Cells[i].AreaM2
		dli[c] += f.Cells[i].AreaM2 * f.Cells[i].Light.DLISeason
	}
	var used []int
	for c := range area {
		if area[c] > 0 {
			used = append(used, c)
		}
	}
	slices.SortStableFunc(used, func(a, b int) int { return cmp.Compare(dli[b]/area[b], dli[a]/area[a]) })
	for i, c := range class {
		class[i] = slices.Index(used, c)
	}
	return len(used)
}

// neighbours lists for each cell those at its four sides, on the grid that cells
// counts from origin. Parts of a lawn may share a square of the grid.
func neighbours(cells []Cell, origin Point, side float64) [][]int32 {
	type square [2]int32
	of := func(c *Cell) square {
		return square{int32(math.Floor((c.At.X - origin.X) / side)), int32(math.Floor((c.At.Y - origin.Y) / side))}
	}
	in := make(map[square][]int32, len(cells))
	for i := range cells {
		q := of(&cells[i])
		in[q] = append(in[q], int32(i))
	}
	out := make([][]int32, len(cells))
	for i := range cells {
		q := of(&cells[i])
		for _, d := range [4]square{{-1, 0}, {1, 0}, {0, -1}, {0, 1}} {
			out[i] = append(out[i], in[square{q[0] + d[0], q[1] + d[1]}]...)
		}
	}
	return out
}

// patches gathers the cells into unbroken patches of one class; of is the patch
// each cell lies in.
func patches(class []int, beside [][]int32) (all [][]int32, of []int) {
	of = make([]int, len(class))
	for i := range of {
		of[i] = -1
	}
	for i := range class {
		if of[i] >= 0 {
			continue
		}
		p := len(all)
		of[i] = p
		cells := []int32{int32(i)}
		for k := 0; k < len(cells); k++ {
			for _, j := range beside[cells[k]] {
				if of[j] < 0 && class[j] == class[i] {
					of[j] = p
					cells = append(cells, j)
				}
			}
		}
		all = append(all, cells)
	}
	return all, of
}
