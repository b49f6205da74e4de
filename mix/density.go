package mix

import "swardwright/species"

// SeedTarget is how many viable seeds a square metre of new lawn of a grade is
// sown with. Published targets run from 10,800 to 21,500 (1,000 to 2,000 a
// square foot, Grounds Maintenance magazine) and from 23,000 to 31,000 (15 to 20
// a square inch, Ohio State University Extension Bulletin 546, which calls more
// a gain in early density only). A close fine lawn stands at the upper end, an
// extensive one at the lower; where between the grades stand is our inference.
func SeedTarget(g species.Grade) float64 {
	switch g {
	case species.Ornamental:
		return 30000
	case species.HardWearing:
		return 25000
	case species.Extensive:
		return 12000
	default:
		return 25000
	}
}

// Density is how thickly a mixture is sown.
type Density struct {
	RateGM2    float64   // seed as bought
	SeedsPerM2 float64   // viable
	Viable     []float64 // viable seeds/m² of each part, in the order of the parts
	Bounded    bool      // the seed count asked for more or less than published weight rates allow
}

// Sow works out the density of parts of a mixture: enough seed for the grade's
// count of viable seeds, but never outside the published weight rates, each
// species' own weighted by its share. A count alone would sow ryegrass too thickly
// and bents too thinly, since seed of one is thirty times as heavy as of the other.
// rateGM2 fixes the rate instead when it isn't zero. pls is the pure live seed of
// each part, 0 to 1.
func Sow(parts []Part, pls []float64, grade species.Grade, rateGM2 float64) Density {
	var total, perGram float64
	for i, p := range parts {
		total += p.Percent
		perGram += p.Percent * p.Species.Values[species.SeedsPerGram].Best * pls[i]
	}
	d := Density{RateGM2: rateGM2, Viable: make([]float64, len(parts))}
	if total == 0 || perGram == 0 {
		return d
	}
	if rateGM2 == 0 {
		want := SeedTarget(grade) / (perGram / total)
		low, high := WeightRates(parts)
		d.RateGM2 = min(max(want, low), high)
		d.Bounded = d.RateGM2 != want
	}
	for i, p := range parts {
		d.Viable[i] = d.RateGM2 * p.Percent / total * p.Species.Values[species.SeedsPerGram].Best * pls[i]
		d.SeedsPerM2 += d.Viable[i]
	}
	return d
}

// WeightRates are the published weight rates that bound a mixture, g/m²: each
// species' own, weighted by its share, from half way to the least to a little over
// the usual. The ends of the published ranges are for the best of seedbeds below
// and for haste and repair above.
func WeightRates(parts []Part) (low, high float64) {
	var total float64
	for _, p := range parts {
		v := p.Species.Values[species.RateGM2]
		total += p.Percent
		low += p.Percent * (v.Low + v.Best) / 2
		high += p.Percent * (v.Best + overUsual*(v.High-v.Best))
	}
	if total == 0 {
		return 0, 0
	}
	return low / total, high / total
}

// Seed of a meadow of grasses alone, g/m²: common practice, no published source. With
// flowers among them it is 1 to 5, and over 4 in no garden (British and German advice on
// sown meadows); the Polish road specification of 1998 has 10 for verges on the flat.
const LeastMeadowGM2, MostMeadowGM2 = 3.0, 10.0

// overUsual is how far above the usual the bound lies, of the way to the greatest.
const overUsual = 0.2

// PureLiveSeed is the share of a species' seed, by weight, that is pure and
// alive: by the lot's label, or else what a lawful lot has at least.
func PureLiveSeed(s *species.Species, lot *Lot) float64 {
	purity, germination := s.Values[species.Purity].Best, s.Values[species.Germination].Best
	if lot != nil && lot.PurityPercent > 0 {
		purity = lot.PurityPercent
	}
	if lot != nil && lot.GerminationPercent > 0 {
		germination = lot.GerminationPercent
	}
	return purity / 100 * germination / 100
}
