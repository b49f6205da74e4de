package bed

import (
	"math"
	"swardwright/internal/told"
)

// sieve is one point of a grading curve.
type sieve struct{ SizeMM, PassingPercent float64 }

// grading is a grading curve, finest sieve first.
type grading []sieve

// d is the size in mm that the given percentage by weight passes, read on the
// logarithm of size; beyond the curve, its end.
func (g grading) d(percent float64) float64 {
	for i, s := range g {
		if percent > s.PassingPercent {
			continue
		}
		if i == 0 || s.PassingPercent == g[i-1].PassingPercent {
			return s.SizeMM
		}
		below := g[i-1]
		t := (percent - below.PassingPercent) / (s.PassingPercent - below.PassingPercent)
		return below.SizeMM * math.Pow(s.SizeMM/below.SizeMM, t)
	}
	return g[len(g)-1].SizeMM
}

// Usual gradings of what is sold: common practice, no published source. The sand
// keeps within the USGA rootzone limits; the gravel is a washed 2 to 6 mm.
var (
	mediumSand = grading{{0.05, 1}, {0.15, 5}, {0.25, 17}, {0.5, 62}, {1, 95}, {2, 100}}
	fineGravel = grading{{1, 1}, {2, 4}, {4, 50}, {6.3, 95}, {8, 100}}
)

// withFines is the grading of a mix whose sand has the given curve: fines are
// spread over the sizes of clay and silt, sand keeps its shape above them.
func withFines(sand grading, g grain) grading {
	silt := 100 - g.SandPercent - g.ClayPercent
	mix := grading{{0.0005, 0}, {0.002, g.ClayPercent}, {0.05, g.ClayPercent + silt}}
	base := sand[0].PassingPercent // what of the sand's own curve lies under 0.05 mm
	for _, s := range sand[1:] {
		over := (s.PassingPercent - base) / (100 - base)
		mix = append(mix, sieve{s.SizeMM, 100 - g.SandPercent*(1-over)})
	}
	return mix
}

// edition is an edition of the USGA recommendations for putting greens, whose
// limits between rootzone and gravel differ.
type edition struct {
	Year               string
	Bridging, Evenness float64 // D15 gravel over D85 rootzone at most; D90 over D15 of the gravel at most
	Permeability       float64 // D15 gravel over D15 rootzone at least
}

// The editions. 1993 is from memory.
var (
	usga1993 = edition{"1993", 5, 2.5, 5}
	usga2004 = edition{"2004", 8, 3, 5}
)

// joint holds the three ratios between a rootzone and the gravel under it.
type joint struct{ Bridging, Permeability, Evenness float64 }

// jointOf works out the ratios.
func jointOf(rootzone, gravel grading) joint {
	return joint{
		Bridging:     gravel.d(15) / rootzone.d(85),
		Permeability: gravel.d(15) / rootzone.d(15),
		Evenness:     gravel.d(90) / gravel.d(15),
	}
}

// checks judges a joint by an edition.
func (e edition) checks(j joint) []Check {
	source := "USGA, Recommendations for a method of putting green construction, edition " + e.Year
	return []Check{
		{
			ID: "bridging", Figure: told.Say("bed.bridging", one(j.Bridging)),
			Limit: told.Say("bed.at-most", trimmed(e.Bridging)), OK: j.Bridging <= e.Bridging, Source: source,
			Advice: told.Say("bed.finer-gravel", gritLayer, told.Between(told.FineMM(1), told.FineMM(4))),
		},
		{
			ID: "permeability", Figure: told.Say("bed.permeability", told.Number{X: j.Permeability}),
			Limit: told.Say("bed.at-least", trimmed(e.Permeability)), OK: j.Permeability >= e.Permeability, Source: source,
			Advice: told.Say("bed.coarser-gravel"),
		},
		{
			ID: "uniformity", Figure: told.Say("bed.uniformity", one(j.Evenness)),
			Limit: told.Say("bed.at-most", trimmed(e.Evenness)), OK: j.Evenness <= e.Evenness, Source: source,
			Advice: told.Say("bed.even-gravel"),
		},
	}
}

// gritLayer lies between a rootzone and a gravel too coarse for it.
var gritLayer = told.Between(told.DepthMM(50), told.DepthMM(100))

// one and trimmed are plain ratios, to a tenth and with no noughts.
func one(x float64) told.Figure { return told.Number{X: x, Decimals: 1} }

func trimmed(x float64) told.Figure {
	if x == math.Trunc(x) {
		return told.Number{X: x}
	}
	return one(x)
}
