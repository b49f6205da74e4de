package draw

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"swardwright/mix/sward"
	"swardwright/report/face"
	"swardwright/report/form"
	"swardwright/sowing"
)

// partKey is the letter of the n-th grass of the mixture.
func partKey(n int) string { return string(rune('a' + n%26)) }

// swatch is a small filled box with a key in it.
func (d *Drawing) swatch(b Box, l look, key string) {
	d.add(Filled(b.Corners(), l.fill, l.pattern)...)
	d.add(frame(b, Ink, 0.15))
	d.label(b, key)
}

// label sets a bold key on white in the middle of a box that has room for it.
func (d *Drawing) label(b Box, s string) {
	w := face.Width(s, face.Bold, small)
	if w+1.6 > b.W || b.H < 3 {
		return
	}
	x, y := b.X+b.W/2, b.Y+b.H/2
	d.add(rect(Box{x - w/2 - 0.7, y - 1.7, w + 1.4, 3.4}, White), bold(x, y+middle(small), s, small, Middle))
}

// Mixture is the mixture as two bars: by weight, and by number of viable seeds.
func Mixture(s *sowing.Plan, f form.Form, w float64) *Drawing {
	m := s.Choice.Mixture
	if m == nil || len(m.Components) == 0 {
		return nil
	}
	d := &Drawing{Name: "mixture", Title: "The mixture", W: w, H: 20}
	const labelW, barH = 22.0, 8.5
	bar := func(y float64, name string, share func(int) float64) {
		d.add(text(0, y+barH/2+middle(small), name, small, Start))
		sum := 0.0
		for i := range m.Components {
			sum += share(i)
		}
		x := labelW
		for i := range m.Components {
			if sum <= 0 {
				break
			}
			b := Box{x, y, (w - labelW) * share(i) / sum, barH}
			d.add(Filled(b.Corners(), looks[i%len(looks)].fill, looks[i%len(looks)].pattern)...)
			d.add(frame(b, Ink, 0.2))
			long := partKey(i) + "  " + f.Percent(share(i)/100)
			if face.Width(long, face.Bold, small)+3 < b.W {
				d.label(b, long)
			} else {
				d.label(b, partKey(i))
			}
			x += b.W
		}
	}
	bar(0, "by weight", func(i int) float64 { return float64(m.Components[i].Percent) })
	bar(barH+2, "by seed", func(i int) float64 { return m.Components[i].SeedPercent })
	var words []string
	for i, c := range m.Components {
		words = append(words, fmt.Sprintf("%s: %s %d %% by weight, %s %% of the seeds", partKey(i), f.GrassName(c.Species), c.Percent, f.Number(c.SeedPercent, 0)))
	}
	d.Desc = strings.Join(words, "; ") + "."
	return d
}

// Sward is what the sowing becomes: living cover at the end of each of five
// seasons, divided by grass, with the cover of the bad years marked.
func Sward(s *sowing.Plan, f form.Form, w float64) *Drawing {
	m := s.Choice.Mixture
	if m == nil || len(m.Sward) == 0 {
		return nil
	}
	type part struct {
		id, key, name string
		look          look
	}
	var parts []part
	known := map[string]bool{}
	for i, c := range m.Components {
		parts = append(parts, part{c.Species.ID, partKey(i), form.Capital(f.GrassName(c.Species)), looks[i%len(looks)]})
		known[c.Species.ID] = true
	}
	var others []string
	for _, y := range m.Sward {
		for id := range y.Shares {
			if !known[id] {
				known[id] = true
				others = append(others, id)
			}
		}
	}
	slices.SortFunc(others, cmp.Compare[string])
	// Named are those that come to something.
	var names []string
	for _, id := range others {
		most := 0.0
		for _, y := range m.Sward {
			most = max(most, y.Shares[id])
		}
		if most >= 2 {
			names = append(names, strings.ReplaceAll(id, "-", " "))
		}
	}
	if len(names) < len(others) {
		names = append(names, "a little of others")
	}
	if len(others) > 0 {
		parts = append(parts, part{"", "+", "not sown; there already or come in: " + strings.Join(names, ", "), look{White, Crossed}})
	}
	// shareOf is a part's share of the season's sward; the last part holds the others.
	shareOf := func(s sward.Season, p part) (sum float64) {
		if p.id != "" {
			return s.Shares[p.id]
		}
		for _, id := range others {
			sum += s.Shares[id]
		}
		return sum
	}

	d := &Drawing{Name: "sward", Title: "The sward through five seasons", W: w, H: 66}
	plotBox := Box{12, 4, w*0.6 - 12, 52}
	y := func(v float64) float64 { return plotBox.Y + plotBox.H*(1-v) }
	for _, v := range []float64{0, 0.25, 0.5, 0.75, 1} {
		d.add(line(plotBox.X, y(v), plotBox.X+plotBox.W, y(v), Rule, 0.15), quiet(plotBox.X-1.5, y(v)+middle(small), f.Percent(v), small, End))
	}
	slot := plotBox.W / float64(len(m.Sward))
	type key struct {
		box  Box
		text string
	}
	var keys []key // set last, over the lines
	for i, season := range m.Sward {
		x := plotBox.X + slot*(float64(i)+0.16)
		foot := 0.0
		sum := 0.0
		for _, p := range parts {
			sum += shareOf(season, p)
		}
		for _, p := range parts {
			if sum <= 0 {
				break
			}
			h := season.Cover * shareOf(season, p) / sum
			if h <= 0 {
				continue
			}
			b := Box{x, y(foot + h), slot * 0.68, y(foot) - y(foot+h)}
			d.add(Filled(b.Corners(), p.look.fill, p.look.pattern)...)
			d.add(frame(b, Ink, 0.15))
			keys = append(keys, key{b, p.key})
			foot += h
		}
		d.add(line(x-slot*0.1, y(season.BadCover), x+slot*0.78, y(season.BadCover), White, 1.3), line(x-slot*0.1, y(season.BadCover), x+slot*0.78, y(season.BadCover), Vermillion, 0.7, 1.4, 0.6))
		d.add(text(x+slot*0.34, plotBox.Y+plotBox.H+4.2, "season "+f.Number(float64(season.Year), 0), small, Middle))
	}
	for _, k := range keys {
		d.label(k.box, k.text)
	}
	x, top := w*0.6+6, 4.0
	for _, p := range parts {
		lines, h := block(0, 0, w-x-8, p.name, small, face.Regular, Ink)
		d.swatch(Box{x, top, 5.6, 4}, p.look, p.key)
		d.add(Group{DX: x + 7.5, DY: top + 0.3, Items: lines})
		top += max(h, 4) + 1.6
	}
	d.add(line(x, top+2, x+5.6, top+2, Vermillion, 0.7, 1.4, 0.6))
	lines, h := block(0, 0, w-x-8, "cover in the worst tenth of the years", small, face.Regular, Ink)
	d.add(Group{DX: x + 7.5, DY: top + 0.3, Items: lines})
	d.H = max(d.H-5, top+h+1)
	last := m.Sward[len(m.Sward)-1]
	d.Desc = fmt.Sprintf("Living cover at the end of each season: %s in season 1, %s in season %d; in the worst tenth of the years %s.",
		f.Percent(m.Sward[0].Cover), f.Percent(last.Cover), last.Year, f.Percent(last.BadCover))
	return d
}
