package light

import (
	"cmp"
	"math"
	"slices"
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

// classes sorts the cells into at most maxZones classes of season light, the
// lightest 0. Of the divisions into so many classes it takes the one with the
// least variance of the logarithm of light within classes (Fisher, J. Am. Stat.
// Assoc. 53:789, 1958), and of those the one with most classes that are all far
// enough apart and large enough.
func classes(cells []Cell, total float64) []int {
	type bin struct{ area, dli float64 }
	top := 0.0
	for _, c := range cells {
		top = max(top, c.Light.DLISeason)
	}
	bins := make([]bin, 1+int(top/binMol))
	at := func(c *Cell) int { return len(bins) - 1 - int(c.Light.DLISeason/binMol) } // lightest first
	for i := range cells {
		b := &bins[at(&cells[i])]
		b.area += cells[i].AreaM2
		b.dli += cells[i].AreaM2 * cells[i].Light.DLISeason
	}

	// Sums up to each bin give the spread of any run of bins at once.
	n := len(bins)
	area, sum, square, dli := make([]float64, n+1), make([]float64, n+1), make([]float64, n+1), make([]float64, n+1)
	for i, b := range bins {
		v := 0.0
		if b.area > 0 {
			v = math.Log(b.dli/b.area + darkMol)
		}
		area[i+1] = area[i] + b.area
		sum[i+1] = sum[i] + b.area*v
		square[i+1] = square[i] + b.area*v*v
		dli[i+1] = dli[i] + b.dli
	}
	spread := func(i, j int) float64 { // of bins i to j-1
		w := area[j] - area[i]
		if w <= 0 {
			return 0
		}
		d := sum[j] - sum[i]
		return max(0, square[j]-square[i]-d*d/w)
	}
	// best[k][j]: the least spread of bins before j in k+1 classes; from[k][j]:
	// where the last of them begins.
	var best [maxZones][]float64
	var from [maxZones][]int
	for k := range best {
		best[k], from[k] = make([]float64, n+1), make([]int, n+1)
		for j := range n + 1 {
			if k == 0 {
				best[0][j] = spread(0, j)
				continue
			}
			best[k][j] = math.Inf(1)
			for i := range j + 1 {
				if v := best[k-1][i] + spread(i, j); v < best[k][j] {
					best[k][j], from[k][j] = v, i
				}
			}
		}
	}
	for k := maxZones - 1; k >= 0; k-- {
		limits := []int{n} // from the darkest back
		for c := k; c >= 0; c-- {
			limits = append(limits, from[c][limits[len(limits)-1]])
		}
		slices.Reverse(limits)
		good := true
		for c := 0; good && c <= k; c++ {
			i, j := limits[c], limits[c+1]
			w := area[j] - area[i]
			good = w >= max(leastM2, leastShare*total) || k == 0
			if good && c > 0 {
				lighter := (dli[i] - dli[limits[c-1]]) / (area[i] - area[limits[c-1]])
				here := (dli[j] - dli[i]) / w
				good = lighter >= here*stepRatio && lighter >= here+stepMol
			}
		}
		if !good {
			continue
		}
		out := make([]int, len(cells))
		for i := range cells {
			b := at(&cells[i])
			for limits[out[i]+1] <= b {
				out[i]++
			}
		}
		return out
	}
	return make([]int, len(cells))
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
		order := make([]int, len(patches))
		for p := range order {
			order[p] = p
		}
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(area[a], area[b]) })
		// A patch whose neighbour has changed hands waits for the next round, so
		// that every change makes one patch fewer.
		stale := make([]bool, len(patches))
		for _, p := range order {
			if area[p] >= least {
				break
			}
			if stale[p] {
				continue
			}
			var touch [maxZones]int
			for _, i := range patches[p] {
				for _, j := range beside[i] {
					if of[j] != p {
						touch[class[j]]++
					}
				}
			}
			to := 0
			for c := range touch {
				if touch[c] > touch[to] {
					to = c
				}
			}
			if touch[to] == 0 {
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
