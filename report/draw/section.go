package draw

import (
	"fmt"
	"strings"

	"swardwright/report/face"
	"swardwright/report/form"
	"swardwright/sowing"
	"swardwright/sowing/bed"
)

// layerLook tells materials apart by the words of their names.
func layerLook(name string) look {
	n := strings.ToLower(name)
	for _, m := range []struct {
		word string
		look look
	}{
		{"gravel", look{"#d9d9d6", Crossed}}, {"stone", look{"#d9d9d6", Crossed}},
		{"rootzone", look{tint(Orange, 0.35), Dotted}}, {"sand", look{tint(Yellow, 0.45), Dotted}}, {"dressing", look{tint(Yellow, 0.45), Dotted}},
		{"subsoil", look{tint(Vermillion, 0.3), Rising}}, {"clay", look{tint(Vermillion, 0.3), Rising}},
		{"seedbed", look{tint(Green, 0.25), Falling}}, {"topsoil", look{"#cbb79c", Falling}},
	} {
		if strings.Contains(n, m.word) {
			return m.look
		}
	}
	return look{"#d8cbb8", Level}
}

// Section is the ground as found beside the ground as wanted, to one depth scale.
func Section(s *sowing.Plan, f form.Form, w float64) *Drawing {
	if len(s.Bed.Layers) == 0 {
		return nil
	}
	total := func(layers []bed.Layer) (mm float64) {
		for _, l := range layers {
			mm += max(l.DepthMM, 0)
		}
		return mm
	}
	deepest := max(total(s.Bed.Layers), total(s.Bed.Found), 100)
	const top, depthH = 11.0, 62.0
	perMM := depthH / deepest
	d := &Drawing{Name: "ground", Title: "Section of the ground", W: w}

	unit := 1.0
	if f.US() {
		unit = 25.4
	}
	step := niceStep(deepest/unit, 6) * unit
	const axisW, columnW = 16.0, 28.0
	for at := 0.0; at <= deepest+1; at += step {
		y := top + at*perMM
		d.add(line(axisW-1.5, y, axisW, y, Ink, 0.2), quiet(axisW-2.5, y+middle(small), f.Depth(at), small, End))
	}
	d.add(line(axisW, top, axisW, top+deepest*perMM, Ink, 0.2))
	half := (w - axisW - 3) / 2
	bottom := top + depthH + 2
	for i, column := range []struct {
		title  string
		layers []bed.Layer
	}{{"As found", s.Bed.Found}, {"As wanted", s.Bed.Layers}} {
		if len(column.layers) == 0 {
			continue
		}
		x := axisW + 3 + float64(i)*half
		d.add(bold(x, 3, column.title, small+1, Start))
		if i == 1 { // the sward on top
			for k := range 14 {
				gx := x + (float64(k)+0.5)*columnW/14
				d.add(line(gx, top, gx-0.7, top-2.6, Green, 0.35), line(gx, top, gx+0.5, top-3.2, Green, 0.35))
			}
		}
		y, label := top, top
		for _, l := range column.layers {
			h := max(l.DepthMM, 0) * perMM
			b := Box{x, y, columnW, h}
			lk := layerLook(l.Name)
			d.add(Filled(b.Corners(), lk.fill, lk.pattern)...)
			d.add(frame(b, Ink, 0.25))
			tx := x + columnW + 4
			title := l.Name
			if l.DepthMM > 0 {
				title += ", " + f.Depth(l.DepthMM)
			}
			at := max(label, y+0.4)
			head, hh := block(tx, at, half-columnW-8, title, small, face.Bold, Ink)
			d.add(head...)
			if l.Note != "" {
				note, nh := block(tx, at+hh, half-columnW-8, l.Note, small, face.Regular, Ink)
				d.add(note...)
				hh += nh
			}
			d.add(Line{Points: []Point{{x + columnW, y + min(h/2, 2)}, {x + columnW + 1.5, y + min(h/2, 2)}, {tx - 0.8, at + 1.4}}, Stroke: Stroke{Quiet, 0.15, nil}})
			label = at + hh + 1.2
			y += h
		}
		bottom = max(bottom, label)
	}
	d.H = bottom + 1
	var words []string
	for _, l := range s.Bed.Layers {
		words = append(words, fmt.Sprintf("%s %s", f.Depth(l.DepthMM), l.Name))
	}
	d.Desc = "Section of the ground as wanted, from the top: " + strings.Join(words, ", ") + "."
	return d
}
