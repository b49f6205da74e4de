package draw

import (
	"cmp"
	"math"
	"slices"

	"swardwright/internal/steady"
	"swardwright/site/light"
)

// grid finds the cells of a field by column and row. It knows only the cells there
// are: the parts of a lawn may lie far apart.
type grid struct {
	spots      []spot // by row, then by column
	cell       float64
	left, foot float64 // m, centre of column 0, row 0
	at         lookup  // indices in spots
}

type spot struct {
	col, row int
	light.Cell
}

// lookup finds a number by column and row: in a table where the columns and rows are
// well filled, else in a map.
type lookup struct {
	cols, rows, pad int
	table           []int32 // number + 1; 0: none
	sparse          map[[2]int]int32
}

// dense is how many places of a table there may be to each that is filled.
const dense = 12

func newLookup(cols, rows, pad, filled int) lookup {
	l := lookup{cols: cols + 2*pad, rows: rows + 2*pad, pad: pad}
	if float64(l.cols)*float64(l.rows) <= float64(dense*filled+1000) {
		l.table = make([]int32, l.cols*l.rows)
	} else {
		l.sparse = make(map[[2]int]int32, filled)
	}
	return l
}

func (l *lookup) set(col, row, value int) {
	if l.table != nil {
		l.table[(row+l.pad)*l.cols+col+l.pad] = int32(value + 1)
	} else {
		l.sparse[[2]int{col, row}] = int32(value + 1)
	}
}

// get is the number at a place, -1 where there is none.
func (l *lookup) get(col, row int) int {
	if l.table == nil {
		return int(l.sparse[[2]int{col, row}]) - 1
	}
	if col += l.pad; col < 0 || col >= l.cols {
		return -1
	}
	if row += l.pad; row < 0 || row >= l.rows {
		return -1
	}
	return int(l.table[row*l.cols+col]) - 1
}

func newGrid(field light.Field) *grid {
	g := &grid{cell: field.CellM}
	if !(g.cell > 0) || len(field.Cells) == 0 {
		return g
	}
	g.left, g.foot = math.Inf(1), math.Inf(1)
	for _, c := range field.Cells {
		g.left, g.foot = min(g.left, c.At.X), min(g.foot, c.At.Y)
	}
	place := func(at, from float64) int { return int(math.Round((at - from) / g.cell)) }
	cols, rows := 0, 0
	g.spots = make([]spot, len(field.Cells))
	for i, c := range field.Cells {
		g.spots[i] = spot{place(c.At.X, g.left), place(c.At.Y, g.foot), c}
		cols, rows = max(cols, g.spots[i].col+1), max(rows, g.spots[i].row+1)
	}
	order := func(a, b spot) int { return cmp.Or(cmp.Compare(a.row, b.row), cmp.Compare(a.col, b.col)) }
	if !slices.IsSortedFunc(g.spots, order) {
		slices.SortStableFunc(g.spots, order)
	}
	g.at = newLookup(cols, rows, 0, len(g.spots))
	for i, s := range g.spots {
		g.at.set(s.col, s.row, i)
	}
	return g
}

// index is where the cell of a column and row stands in spots, -1 where there is none.
func (g *grid) index(col, row int) int {
	if len(g.spots) == 0 {
		return -1
	}
	return g.at.get(col, row)
}

// zone is the zone of the cell at a place, -1 where there is none.
func (g *grid) zone(q light.Point) int {
	if len(g.spots) == 0 {
		return -1
	}
	if i := g.index(int(math.Round((q.X-g.left)/g.cell)), int(math.Round((q.Y-g.foot)/g.cell))); i >= 0 {
		return g.spots[i].Zone
	}
	return -1
}

// level is the value of a square.
type level struct{ col, row, value int }

// levels are the values of the cells, and of two rings of squares around them that
// take the value of a neighbour: so that a contour cut off at the lawn's outline has no
// gap along it.
type levels struct {
	all []level
	at  lookup
}

func (g *grid) levels(value func(light.Cell) int) *levels {
	const rings = 2
	l := &levels{all: make([]level, 0, 2*len(g.spots))}
	cols, rows := 0, 0
	for _, s := range g.spots {
		cols, rows = max(cols, s.col+1), max(rows, s.row+1)
	}
	l.at = newLookup(cols, rows, rings, len(g.spots))
	add := func(v level) {
		l.at.set(v.col, v.row, v.value)
		l.all = append(l.all, v)
	}
	for _, s := range g.spots {
		add(level{s.col, s.row, value(s.Cell)})
	}
	from := 0
	for range rings {
		to := len(l.all)
		for _, v := range l.all[from:to] {
			for _, step := range [][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, 1}, {-1, -1}, {1, -1}, {-1, 1}} {
				if c, r := v.col+step[0], v.row+step[1]; l.at.get(c, r) < 0 {
					add(level{c, r, v.value})
				}
			}
		}
		from = to
	}
	return l
}

// contour are the smoothed borders of the squares whose level is at least least, as
// closed outlines to be filled even-odd.
func (g *grid) contour(l *levels, least int) [][]light.Point {
	in := func(col, row int) bool { return l.at.get(col, row) >= least }
	// The sides of squares between in and out, each from its start; in lies to the left.
	next := map[[2]int][][2]int{}
	var starts [][2]int
	add := func(from, to [2]int) {
		if len(next[from]) == 0 {
			starts = append(starts, from)
		}
		next[from] = append(next[from], to)
	}
	for _, v := range l.all {
		if v.value < least {
			continue
		}
		c, r := v.col, v.row
		if !in(c, r-1) {
			add([2]int{c, r}, [2]int{c + 1, r})
		}
		if !in(c+1, r) {
			add([2]int{c + 1, r}, [2]int{c + 1, r + 1})
		}
		if !in(c, r+1) {
			add([2]int{c + 1, r + 1}, [2]int{c, r + 1})
		}
		if !in(c-1, r) {
			add([2]int{c, r + 1}, [2]int{c, r})
		}
	}
	var out [][]light.Point
	for _, start := range starts {
		for len(next[start]) > 0 {
			var loop [][2]int
			for at := start; len(next[at]) > 0; {
				to := next[at][0]
				next[at] = next[at][1:]
				loop = append(loop, at)
				if at = to; at == start {
					break
				}
			}
			out = append(out, g.smoothed(loop))
		}
	}
	return out
}

// smoothed runs a stair of corners through the middles of its steps and evens it out,
// by less than half a cell; corners are counted from the lower left of square 0, 0.
func (g *grid) smoothed(loop [][2]int) []light.Point {
	n := len(loop)
	mid := make([]light.Point, n)
	for i, a := range loop {
		b := loop[(i+1)%n]
		mid[i] = light.Point{
			X: g.left + (float64(a[0]+b[0])/2-0.5)*g.cell,
			Y: g.foot + (float64(a[1]+b[1])/2-0.5)*g.cell,
		}
	}
	even := make([]light.Point, n)
	for i, b := range mid {
		a, c := mid[(i+n-1)%n], mid[(i+1)%n]
		even[i] = light.Point{X: (a.X + 2*b.X + c.X) / 4, Y: (a.Y + 2*b.Y + c.Y) / 4}
	}
	// What lies on a straight run adds nothing.
	var out []light.Point
	for i, b := range even {
		a, c := even[(i+n-1)%n], even[(i+1)%n]
		if math.Abs((b.X-a.X)*(c.Y-b.Y)-(b.Y-a.Y)*(c.X-b.X)) > 1e-6*g.cell*g.cell {
			out = append(out, b)
		}
	}
	return out
}

// widest is the middle of the largest square of cells with one value, and its side, m.
func (g *grid) widest(value int, of func(light.Cell) int) (at light.Point, sideM float64) {
	side := make([]int, len(g.spots)) // of the largest square whose upper right cell this is
	sideAt := func(col, row int) int {
		if i := g.index(col, row); i >= 0 {
			return side[i]
		}
		return 0
	}
	best, off := 0, 0.0
	var middle light.Point
	for _, c := range g.spots {
		middle.X += c.At.X / float64(len(g.spots))
		middle.Y += c.At.Y / float64(len(g.spots))
	}
	for i, c := range g.spots {
		if of(c.Cell) != value {
			continue
		}
		side[i] = 1 + min(sideAt(c.col-1, c.row), sideAt(c.col, c.row-1), sideAt(c.col-1, c.row-1))
		back := float64(side[i]-1) / 2 * g.cell
		q := light.Point{X: c.At.X - back, Y: c.At.Y - back}
		// Of equal squares the one nearest the middle of the lawn.
		if d := steady.Figure(math.Hypot(q.X-middle.X, q.Y-middle.Y)); side[i] > best || side[i] == best && d < off {
			best, at, off = side[i], q, d
		}
	}
	return at, float64(best) * g.cell
}

// fits says whether a box of w × h metres around a point lies in cells of one value,
// by nine of its points.
func (g *grid) fits(at light.Point, w, h float64, value int, of func(light.Cell) int) bool {
	for _, dx := range []float64{-w / 2, 0, w / 2} {
		for _, dy := range []float64{-h / 2, 0, h / 2} {
			col, row := int(steady.Round((at.X+dx-g.left)/g.cell, 0)), int(steady.Round((at.Y+dy-g.foot)/g.cell, 0))
			if i := g.index(col, row); i < 0 || of(g.spots[i].Cell) != value {
				return false
			}
		}
	}
	return true
}

// roomFor is the place nearest to from where a box of w × h metres lies in cells of one
// value, and that is free besides.
func (g *grid) roomFor(from light.Point, w, h float64, value int, of func(light.Cell) int, free func(light.Point) bool) (light.Point, bool) {
	best, nearest, found := light.Point{}, math.Inf(1), false
	for _, c := range g.spots {
		d := steady.Figure(math.Hypot(c.At.X-from.X, c.At.Y-from.Y))
		if d < nearest && of(c.Cell) == value && g.fits(c.At, w, h, value, of) && free(c.At) {
			best, nearest, found = c.At, d, true
		}
	}
	return best, found
}
