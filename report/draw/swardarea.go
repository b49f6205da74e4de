package draw

import (
	"cmp"
	"slices"

	"github.com/samber/lo"

	"swardwright/internal/told"
	"swardwright/report/face"
	"swardwright/report/say"
)

// Stand is one grass through the seasons: its share of the ground at the end of each.
type Stand struct {
	Key, Name string
	Cover     []float64 // of the ground, 0 to 1
}

// Seasons are a lawn through its growing seasons.
type Seasons struct {
	Start  float64 // living cover when it begins, 0 to 1
	Stands []Stand // from the ground up; their covers add up to the mean cover
	Counts float64 // of the ground that counts for the standard from season Lasting on, in the middling case …
	Bad    float64 // … and in one case of ten; 0: nothing is known of it
	Bare   string  // what the ground without grass is called
}

// cover is the mean cover at the end of season k.
func (s Seasons) cover(k int) (sum float64) {
	for _, g := range s.Stands {
		sum += g.Cover[k]
	}
	return sum
}

// lasting is the season from which a sward is judged.
const lasting = 3

// swardArea is the sward as a stacked area over the seasons: each grass by its share of
// the ground, bare ground above, and the band from what counts for the standard down to
// one case of ten, h millimetres high as far as its names let it; nil without seasons.
func swardArea(s Seasons, f *say.Sayer, w, h float64) *Drawing {
	if len(s.Stands) == 0 || len(s.Stands[0].Cover) == 0 {
		return nil
	}
	const axis, top = 10.5, 1.5
	namesW := min(54, 0.36*w)
	d := &Drawing{Name: "sward", Title: f.Say(told.Say("draw.sward")), W: w}
	a := stack{Drawing: d, Seasons: s, f: f, n: len(s.Stands[0].Cover), plot: Box{axis, top, w - axis - namesW, min(max(0.4*h, 34), 46)}}
	a.borders = a.stacked()
	a.areas()
	if s.Counts > 0 && a.n >= lasting {
		a.standard()
	}
	a.seasonNames()
	d.H = a.plot.Y + a.plot.H + 10
	a.names(namesW)
	for i := range s.Stands {
		a.letter(i)
	}
	words := lo.Map(s.Stands, func(g Stand, _ int) told.Sentence {
		return told.Say("draw.stand-desc", told.Source(g.Name), told.Share(g.Cover[a.n-1]))
	})
	d.Desc = f.Say(told.Say("draw.sward-desc", told.Count(a.n), told.Share(s.cover(0)), told.Share(s.cover(a.n-1)), told.Joined(told.Commas, words...), told.Share(s.Counts), told.Share(s.Bad)))
	return d
}

// stack is the drawing of a sward over n seasons.
type stack struct {
	*Drawing
	Seasons
	f       *say.Sayer
	n       int
	plot    Box
	borders [][]float64 // between the grasses, from the ground up, at the end of each season
	shapes  [][]Point   // of the grasses
	counted []Point     // the corners of the band that counts; none: nothing counts
}

const bareFill = "#efe6da"

// x is the end of season k; 0: the beginning.
func (a *stack) x(k int) float64 { return a.plot.X + a.plot.W*float64(k)/float64(a.n) }

func (a *stack) y(v float64) float64 { return a.plot.Y + a.plot.H*(1-min(max(v, 0), 1)) }

// mean is the cover of all grasses together.
func (a *stack) mean() []float64 { return a.borders[len(a.borders)-1] }

func (a *stack) stacked() [][]float64 {
	borders := [][]float64{make([]float64, a.n+1)}
	first := a.cover(0)
	for _, g := range a.Stands {
		under, over := borders[len(borders)-1], make([]float64, a.n+1)
		if first > 0 {
			over[0] = under[0] + a.Start*g.Cover[0]/first
		}
		for k := range a.n {
			over[k+1] = under[k+1] + g.Cover[k]
		}
		borders = append(borders, over)
	}
	return borders
}

// band is the outline of what lies between two borders.
func (a *stack) band(under, over []float64) []Point {
	var out []Point
	for k, v := range over {
		out = append(out, Point{a.x(k), a.y(v)})
	}
	for k, v := range slices.Backward(under) {
		out = append(out, Point{a.x(k), a.y(v)})
	}
	return out
}

func (a *stack) areas() {
	full := slices.Repeat([]float64{1}, a.n+1)
	a.add(Area{Points: a.band(a.mean(), full), Fill: bareFill})
	for i := range a.Stands {
		shape := a.band(a.borders[i], a.borders[i+1])
		a.shapes = append(a.shapes, shape)
		l := looks[i%len(looks)]
		a.add(filled(shape, l.fill, l.pattern)...)
		a.add(Area{Points: shape, Outline: Stroke{Color: Ink, MM: 0.15}})
	}
	for _, v := range []float64{0, 0.25, 0.5, 0.75, 1} {
		a.add(line(a.plot.X-1, a.y(v), a.plot.X, a.y(v), Ink, 0.2), quiet(a.plot.X-1.6, a.y(v)+middle(small), a.f.Percent(v), small, End))
	}
	a.add(frame(a.plot, Ink, 0.25))
}

// standard draws the band from what counts down to one case of ten.
func (a *stack) standard() {
	from, to := a.x(lasting-1), a.x(a.n)
	a.counted = []Point{{from, a.y(a.Counts)}, {to, a.y(a.Counts)}, {to, a.y(a.Bad)}, {from, a.y(a.Bad)}}
	for _, l := range hatches([][]Point{a.counted}, 90, 1.1) {
		a.add(Line{Points: l, Stroke: Stroke{Color: Vermillion, MM: 0.25}})
	}
	for _, v := range []float64{a.Counts, a.Bad} {
		a.add(line(from, a.y(v), to, a.y(v), White, 1.3), line(from, a.y(v), to, a.y(v), Vermillion, 0.8, 1.8, 0.8))
	}
}

// seasonNames stand under the seasons.
func (a *stack) seasonNames() {
	foot := a.plot.Y + a.plot.H
	for k := range a.n {
		a.add(line(a.x(k+1), foot, a.x(k+1), foot+1.2, Ink, 0.2))
		a.add(text((a.x(k)+a.x(k+1))/2, foot+4.6, a.f.Number(float64(k+1), 0), small, Middle))
	}
	a.add(quiet(a.plot.X+a.plot.W/2, foot+8.6, a.f.Say(told.Say("draw.season")), small, Middle))
}

// bandName is what stands beside a band at its end, y of the drawing.
type bandName struct {
	lines []string
	want  float64
	look  *look // nil: a line that counts
	key   string
}

// names stand to the right, each by its band at the end, pushed apart, with leaders.
func (a *stack) names(width float64) {
	const step, keyW = 3.7, 6.5
	var names []bandName
	add := func(s string, at float64, l *look, key string) {
		names = append(names, bandName{face.Wrap(s, face.Regular, small, width-9-keyW), at, l, key})
	}
	mean := a.mean()[a.n]
	add(a.Bare+" "+a.f.Percent(1-mean), (a.y(1)+a.y(mean))/2, &look{bareFill, Plain}, "")
	for i, g := range slices.Backward(a.Stands) {
		l := looks[i%len(looks)]
		add(g.Name+" "+a.f.Percent(g.Cover[a.n-1]), a.y((a.borders[i][a.n]+a.borders[i+1][a.n])/2), &l, g.Key)
	}
	if len(a.counted) > 0 {
		add(a.f.Say(told.Say("draw.counts", told.Share(a.Counts))), a.y(a.Counts)+0.01, nil, "")
		add(a.f.Say(told.Say("draw.one-in-ten", told.Count(1), told.Count(10), told.Share(a.Bad))), a.y(a.Bad)+0.01, nil, "")
	}
	slices.SortStableFunc(names, func(x, y bandName) int { return cmp.Compare(x.want, y.want) })
	tops := spread(len(names), func(i int) (float64, float64) { return names[i].want, float64(len(names[i].lines))*step + 1 }, 0, a.H)
	tx := a.plot.X + a.plot.W + 8
	for i, m := range names {
		mid := tops[i] + 1.8
		from := Point{a.plot.X + a.plot.W + 0.2, m.want}
		a.add(Line{Points: []Point{from, {from.X + 2, from.Y}, {tx - 2.2, mid}, {tx - 0.6, mid}}, Stroke: Stroke{Color: Quiet, MM: 0.15}})
		a.key(m, tx, mid)
		for k, l := range m.lines {
			a.add(text(tx+keyW, mid+middle(small)+float64(k)*step, l, small, Start))
		}
		a.H = max(a.H, tops[i]+float64(len(m.lines))*step+1)
	}
}

// key is the swatch of a name, its middle mid down.
func (a *stack) key(m bandName, x, mid float64) {
	if m.look == nil {
		a.add(line(x, mid, x+5.2, mid, Vermillion, 0.8, 1.8, 0.8))
		return
	}
	b := Box{x, mid - 1.6, 5.2, 3.2}
	a.add(patch(b, *m.look)...)
	if m.key != "" {
		a.add(rect(Box{x + 1.5, mid - 1.4, 2.2, 2.8}, White), bold(x+2.6, mid+middle(small), m.key, small, Middle))
	}
}

// letter stands inside the area of a grass, where that is thick enough.
func (a *stack) letter(i int) {
	key, low, high := a.Stands[i].Key, a.borders[i], a.borders[i+1]
	for k := 2*a.n - 1; k > 1 && key != ""; k-- { // at the ends and in the middle of seasons
		from, to := k/2, (k+1)/2
		mid := (low[from] + high[from] + low[to] + high[to]) / 4
		t := centred(Text{S: key, PT: small, Weight: face.Bold, Color: Ink, Of: a.shapes[i]}, Point{(a.x(from) + a.x(to)) / 2, a.y(mid)})
		if q := boxed.corners(t); (len(a.counted) == 0 || !overlap(q, a.counted, 0)) && !hides(q, a.shapes[i]) && inside(a.shapes[i], q[0]) {
			a.add(Area{Points: q, Fill: White}, t)
			return
		}
	}
}

// spread sets n things of heights h, each as near as can be to where it wants its
// middle, in order from the top, none on another; they may go past low where they are
// too many.
func spread(n int, of func(int) (want, h float64), top, low float64) []float64 {
	out := make([]float64, n)
	at := top
	for i := range n {
		want, h := of(i)
		out[i] = max(at, want-h/2)
		at = out[i] + h
	}
	for i := n - 1; i >= 0; i-- { // back up from the foot
		_, h := of(i)
		if out[i]+h > low {
			out[i] = low - h
		}
		low = out[i]
		if i == 0 && out[0] < top { // too many: from the top down
			at := top
			for k := range n {
				_, h := of(k)
				out[k] = max(at, out[k])
				at = out[k] + h
			}
		}
	}
	return out
}
