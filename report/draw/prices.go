package draw

import (
	"math"

	"swardwright/internal/told"
	"swardwright/report/face"
	"swardwright/report/say"
	"swardwright/sowing/money"
)

// Price is one way and what it costs; 8 totals in 10 lie from Low to High.
type Price struct {
	Name             string
	Total, Low, High money.Amount
	Chosen           bool
	Note             string // when it is ready, how sure it is
}

// priceBars compares the ways by their totals, rounded, each with its range; nil where
// none has a price.
func priceBars(prices []Price, f *say.Sayer, w float64) *Drawing {
	top := int64(0)
	for _, p := range prices {
		top = max(top, p.Total.Minor, p.High.Minor)
	}
	if top <= 0 {
		return nil
	}
	d := &Drawing{Name: "prices", Title: f.Say(told.Say("draw.prices")), W: w}
	const barH = 3.6
	x := func(a money.Amount) float64 { return (w - 1) * float64(max(a.Minor, 0)) / float64(top) }
	y := 0.0
	var words []told.Source
	for _, p := range prices {
		total := f.MoneyRound(Rounded(p.Total))
		span := f.Say(told.Say("draw.in-ten", told.Count(8), told.Count(10), told.Between(told.MoneyRound(Rounded(p.Low)), told.MoneyRound(Rounded(p.High)))))
		// Name and sum over the bar, the range and what else there is to say under it.
		sumW := face.Width(total, face.Bold, 10)
		name := p.Name
		if p.Chosen {
			name = f.Say(told.Say("draw.advised", told.Source(name)))
		}
		y += 3.2
		d.add(bold(0, y, face.Shorten(name, face.Bold, 10, w-sumW-4), 10, Start), bold(w, y, total, 10, End))
		y += 1.2
		bar := Box{0, y, max(x(p.Total), 1), barH}
		l := look{tint(Green, 0.35), Plain}
		if !p.Chosen {
			l = look{"#e3e3df", Plain}
		}
		d.add(Area{Points: rounded(bar, barH/2), Fill: l.fill, Outline: Stroke{Color: Ink, MM: 0.2}})
		if p.High.Minor > p.Low.Minor {
			mid := y + barH/2
			low, high := x(p.Low), x(p.High)
			d.add(line(low, mid, high, mid, Ink, 0.6), line(low, mid-1.2, low, mid+1.2, Ink, 0.4), line(high, mid-1.2, high, mid+1.2, Ink, 0.4))
		}
		y += barH + 0.6
		note := span
		if p.Note != "" {
			note += "; " + p.Note
		}
		lines, h := block(0, 0, w, note, small, face.Regular, Ink)
		d.add(Group{DY: y, Items: lines})
		y += h + 2.6
		words = append(words, told.Source(name+" "+total+", "+note))
	}
	d.H = y - 1.6
	d.Desc = f.Say(told.Say("draw.prices-desc", told.Joined(told.Clauses, words...)))
	return d
}

// Rounded is an amount to three significant figures, as far as a forecast goes.
func Rounded(a money.Amount) money.Amount {
	if a.Minor == 0 {
		return a
	}
	step := max(math.Pow10(int(math.Floor(math.Log10(math.Abs(float64(a.Minor)))))-2), math.Pow10(money.Digits(a.Currency)))
	a.Minor = int64(math.Round(float64(a.Minor)/step) * step)
	return a
}
