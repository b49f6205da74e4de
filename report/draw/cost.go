package draw

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"swardwright/report/face"
	"swardwright/report/form"
	"swardwright/sowing"
	"swardwright/sowing/money"
)

// Cost compares the ways: each bill's net by groups, margin and tax, and the range
// that holds 8 totals in 10.
func Cost(s *sowing.Plan, f form.Form, w float64) *Drawing {
	if len(s.Cost.Bills) == 0 {
		return nil
	}
	curr := s.Cost.Currency
	top := 0.0
	parts := make([][]float64, len(s.Cost.Bills))
	for i, b := range s.Cost.Bills {
		sum := 0.0
		parts[i] = costParts(b)
		for _, v := range parts[i] {
			sum += max(v, 0)
		}
		top = max(top, sum, float64(b.Total.Minor), float64(b.P90.Minor))
	}
	if top <= 0 {
		return nil
	}
	d := &Drawing{Name: "cost", Title: "What each way costs", W: w}
	const labelW, barH, gap = 30.0, 9.0, 9.5
	unit := math.Pow10(money.Digits(curr))
	step := niceStep(top/unit, 5) * unit
	high := math.Ceil(top/step) * step
	x := func(minor float64) float64 { return labelW + (w-labelW-26)*max(minor, 0)/high }
	bottom := 2 + float64(len(s.Cost.Bills))*(barH+gap)
	for v := 0.0; v <= high+step/2; v += step {
		d.add(line(x(v), 0, x(v), bottom, Rule, 0.15), quiet(x(v), bottom+4, f.MoneyRound(money.Amount{Minor: int64(v), Currency: curr}), small, Middle))
	}
	names := slices.Clone(money.Groups)
	names = append(names, "margin less discount", "tax")
	used := make([]bool, len(names))
	var words []string
	for i, b := range s.Cost.Bills {
		y := 1 + float64(i)*(barH+gap)
		d.add(bold(0, y+barH/2+middle(9), string(b.Way), 9, Start))
		at := 0.0
		for k, v := range parts[i] {
			if v <= 0 {
				continue
			}
			used[k] = true
			box := Box{x(at), y, x(at+v) - x(at), barH}
			l := costLook(k)
			d.add(Filled(box.Corners(), l.fill, l.pattern)...)
			d.add(frame(box, Ink, 0.15))
			d.label(box, f.Number(float64(k+1), 0))
			at += v
		}
		// The range below the bar, with its middle.
		ry := y + barH + 2
		if b.P90.Minor > b.P10.Minor {
			p10, p50, p90 := x(float64(b.P10.Minor)), x(float64(b.P50.Minor)), x(float64(b.P90.Minor))
			d.add(line(p10, ry, p90, ry, Ink, 0.5), line(p10, ry-1.1, p10, ry+1.1, Ink, 0.4), line(p90, ry-1.1, p90, ry+1.1, Ink, 0.4), Area{Points: circle(Point{p50, ry}, 0.9), Fill: Ink})
			label := f.Range(f.MoneyRound(b.P10), f.MoneyRound(b.P90))
			t := text(p90+2, ry+middle(small), label, small, Start)
			if textBox(t).X+textBox(t).W > w {
				t = text(p10-2, ry+middle(small), label, small, End)
			}
			d.add(rect(textBox(t).Inset(-0.4), White), t)
		}
		total := bold(x(at)+2, y+barH/2+middle(9), f.MoneyRound(b.Total), 9, Start)
		d.add(rect(textBox(total).Inset(-0.4), White), total)
		d.add(quiet(0, ry+middle(small), "8 times in 10", small, Start))
		words = append(words, fmt.Sprintf("%s %s, 8 times in 10 between %s and %s", b.Way, f.Money(b.Total), f.MoneyRound(b.P10), f.MoneyRound(b.P90)))
	}
	lx, ly := 0.0, bottom+8
	for k, name := range names {
		if !used[k] {
			continue
		}
		width := 7.5 + face.Width(string(name), face.Regular, small) + 5
		if lx+width > w {
			lx, ly = 0, ly+5.4
		}
		d.swatch(Box{lx, ly, 6, 4}, costLook(k), f.Number(float64(k+1), 0))
		d.add(text(lx+7.5, ly+2+middle(small), string(name), small, Start))
		lx += width
	}
	d.H = ly + 5
	d.Desc = "Bars of the total of each way: " + strings.Join(words, "; ") + "."
	return d
}

func costLook(k int) look {
	if k < len(looks) {
		return looks[k]
	}
	return []look{{"#d8d8d8", Rising}, {"#bcbcbc", Plain}}[min(k-len(looks), 1)]
}

// costParts are the net sums of a bill by group, then margin less discount, then tax.
func costParts(b money.Bill) []float64 {
	var sums []float64
	for _, g := range money.Groups {
		sums = append(sums, float64(b.Of(g).Minor))
	}
	return append(sums, float64(b.Margin.Minor-b.Discount.Minor), float64(b.Tax.Minor))
}
