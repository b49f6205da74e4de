package draw

import (
	"cmp"
	"slices"

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

// SwardArea is the sward as a stacked area over the seasons: each grass by its share of
// the ground, bare ground above, and the band from what counts for the standard down to
// one case of ten, h millimetres high as far as its names let it; nil without seasons.
func SwardArea(s Seasons, f *say.Sayer, w, h float64) *Drawing {
	if len(s.Stands) == 0 || len(s.Stands[0].Cover) == 0 {
		return nil
	}
	n := len(s.Stands[0].Cover)
	d := &Drawing{Name: "sward", Title: f.Say(told.Say("draw.sward")), W: w}
	const axis, top = 10.5, 1.5
	plotH := min(max(0.4*h, 34), 46)
	namesW := min(54, 0.36*w)
	plot := Box{axis, top, w - axis - namesW, plotH}
	x := func(k int) float64 { return plot.X + plot.W*float64(k)/float64(n) } // end of season k; 0: the beginning
	y := func(v float64) float64 { return plot.Y + plot.H*(1-min(max(v, 0), 1)) }
	// Borders between the grasses, from the ground up.
	borders := [][]float64{make([]float64, n+1)}
	first := s.cover(0)
	for _, g := range s.Stands {
		under, over := borders[len(borders)-1], make([]float64, n+1)
		if first > 0 {
			over[0] = under[0] + s.Start*g.Cover[0]/first
		}
		for k := range n {
			over[k+1] = under[k+1] + g.Cover[k]
		}
		borders = append(borders, over)
	}
	run := func(v []float64) []Point {
		out := make([]Point, len(v))
		for k := range v {
			out[k] = Point{x(k), y(v[k])}
		}
		return out
	}
	band := func(under, over []float64) []Point {
		out := run(over)
		for low, k := run(under), n; k >= 0; k-- {
			out = append(out, low[k])
		}
		return out
	}
	full := make([]float64, n+1)
	for k := range full {
		full[k] = 1
	}
	mean := borders[len(borders)-1]
	bare := band(mean, full)
	d.add(Area{Points: bare, Fill: "#efe6da"})
	shapes := make([][]Point, len(s.Stands))
	for i := range s.Stands {
		shapes[i] = band(borders[i], borders[i+1])
		l := looks[i%len(looks)]
		d.add(Filled(shapes[i], l.fill, l.pattern)...)
		d.add(Area{Points: shapes[i], Outline: Stroke{Color: Ink, MM: 0.15}})
	}
	for _, v := range []float64{0, 0.25, 0.5, 0.75, 1} {
		d.add(line(plot.X-1, y(v), plot.X, y(v), Ink, 0.2), quiet(plot.X-1.6, y(v)+middle(small), f.Percent(v), small, End))
	}
	d.add(frame(plot, Ink, 0.25))
	var counted []Point
	if s.Counts > 0 && n >= lasting {
		from := x(lasting - 1)
		counted = []Point{{from, y(s.Counts)}, {x(n), y(s.Counts)}, {x(n), y(s.Bad)}, {from, y(s.Bad)}}
		for _, l := range hatches([][]Point{counted}, 90, 1.1) {
			d.add(Line{Points: l, Stroke: Stroke{Color: Vermillion, MM: 0.25}})
		}
		for _, v := range []float64{s.Counts, s.Bad} {
			d.add(line(from, y(v), x(n), y(v), White, 1.3), line(from, y(v), x(n), y(v), Vermillion, 0.8, 1.8, 0.8))
		}
	}
	for k := range n {
		d.add(line(x(k+1), plot.Y+plot.H, x(k+1), plot.Y+plot.H+1.2, Ink, 0.2))
		d.add(text((x(k)+x(k+1))/2, plot.Y+plot.H+4.6, f.Number(float64(k+1), 0), small, Middle))
	}
	d.add(quiet(plot.X+plot.W/2, plot.Y+plot.H+8.6, f.Say(told.Say("draw.season")), small, Middle))
	d.H = plot.Y + plot.H + 10

	// Names stand to the right, each by its band at the end, pushed apart, with leaders.
	type name struct {
		lines []string
		want  float64
		thing []Point
		l     *look
		key   string
	}
	const step, keyW = 3.7, 6.5
	textW := namesW - 9 - keyW
	var names []name
	add := func(s string, at float64, thing []Point, l *look, key string) {
		names = append(names, name{face.Wrap(s, face.Regular, small, textW), at, thing, l, key})
	}
	middleOf := func(i int) float64 { return y((borders[i][n] + borders[i+1][n]) / 2) }
	add(s.Bare+" "+f.Percent(1-mean[n]), (y(1)+y(mean[n]))/2, []Point{{x(n), y(1)}, {x(n), y(mean[n])}}, &look{"#efe6da", Plain}, "")
	for i := len(s.Stands) - 1; i >= 0; i-- {
		g := s.Stands[i]
		l := looks[i%len(looks)]
		add(g.Name+" "+f.Percent(g.Cover[n-1]), middleOf(i), []Point{{x(n), y(borders[i][n])}, {x(n), y(borders[i+1][n])}}, &l, g.Key)
	}
	if len(counted) > 0 {
		add(f.Say(told.Say("draw.counts", told.Share(s.Counts))), y(s.Counts)+0.01, counted[1:2], nil, "")
		add(f.Say(told.Say("draw.one-in-ten", told.Count(1), told.Count(10), told.Share(s.Bad))), y(s.Bad)+0.01, counted[2:3], nil, "")
	}
	slices.SortStableFunc(names, func(a, b name) int { return cmp.Compare(a.want, b.want) })
	tops := spread(len(names), func(i int) (float64, float64) { return names[i].want, float64(len(names[i].lines))*step + 1 }, 0, d.H)
	for i, m := range names {
		tx := plot.X + plot.W + 8
		mid := tops[i] + 1.8
		from := Point{plot.X + plot.W + 0.2, m.want}
		d.add(Line{Points: []Point{from, {from.X + 2, from.Y}, {tx - 2.2, mid}, {tx - 0.6, mid}}, Stroke: Stroke{Color: Quiet, MM: 0.15}})
		switch {
		case m.l == nil:
			d.add(line(tx, mid, tx+5.2, mid, Vermillion, 0.8, 1.8, 0.8))
		default:
			b := Box{tx, mid - 1.6, 5.2, 3.2}
			d.add(Filled(b.Corners(), m.l.fill, m.l.pattern)...)
			d.add(frame(b, Ink, 0.15))
			if m.key != "" {
				d.add(rect(Box{tx + 1.5, mid - 1.4, 2.2, 2.8}, White), bold(tx+2.6, mid+middle(small), m.key, small, Middle))
			}
		}
		for k, l := range m.lines {
			d.add(text(tx+keyW, mid+middle(small)+float64(k)*step, l, small, Start))
		}
		d.H = max(d.H, tops[i]+float64(len(m.lines))*step+1)
	}
	// Inside the areas the letters, where they are thick enough.
	for i, g := range s.Stands {
		for k := 2*n - 1; k > 1 && g.Key != ""; k-- { // at the ends and in the middle of seasons
			from, to := k/2, (k+1)/2
			mid := (borders[i][from] + borders[i+1][from] + borders[i][to] + borders[i+1][to]) / 4
			t := centred(Text{S: g.Key, PT: small, Weight: face.Bold, Color: Ink, Of: shapes[i]}, Point{(x(from) + x(to)) / 2, y(mid)})
			if q := boxed.corners(t); (len(counted) == 0 || !overlap(q, counted, 0)) && !hides(q, shapes[i]) && inside(shapes[i], q[0]) {
				d.add(Area{Points: q, Fill: White}, t)
				break
			}
		}
	}
	var words []told.Sentence
	for _, g := range s.Stands {
		words = append(words, told.Say("draw.stand-desc", told.Source(g.Name), told.Share(g.Cover[n-1])))
	}
	d.Desc = f.Say(told.Say("draw.sward-desc", told.Count(n), told.Share(s.cover(0)), told.Share(s.cover(n-1)), told.Joined(told.Commas, words...), told.Share(s.Counts), told.Share(s.Bad)))
	return d
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
