package record

import (
	"math"

	"github.com/samber/lo"
)

// How well a sighting tells of the lawn. Design effects are computed from points laid on
// patches 0.3 m wide, and agree with published ones of clustered points (one frame of a
// hundred points is worth about nine of them); the rest is common practice, no published
// source, unless it says otherwise.
const (
	stringDesign  = 1.1
	unknownDesign = 2.0
	throwKinship  = 0.3 // intra-class correlation of points in a small frame
	frameKinship  = 0.1 // in a larger one
	smallFrame    = 10  // points
	throwPoints   = 5   // of a nail board, when nothing is said

	eyeSD    = 0.45 // logit of a cover judged by eye; ten observers spread so far (Sykes, Horrill & Mountford 1983)
	eyeOwn   = 0.5  // of its variance, the observer's own: the same whenever he looks
	upDaysSD = 3.0  // of when half of the seedlings are seen up, and a tenth of the days
	cutSD    = 5.0  // of a first cut before the day expected, and a tenth of the days, or of those since it was seen up …
	lateSD   = 15.0 // … and of one after it: nobody must come on the day
	daysPart = 0.10
	mouldSD  = 0.6  // logit of the share with snow mould …
	sunSD    = 0.15 // ln of hours of sun

	leastMould = 0.02 // … less of which counts as this: by eye nobody tells such patches from none

	betweenKinds = 0.05 // of hits, taken for a grass of another kind (published: 6 to 10 % for plants in general)
	withinKind   = 0.15 // for another of its own kind

	// passing is the intra-class correlation of what a sward of grasses is made of on one day
	// with itself: how far what is counted stands for what lasts. Fitted to leys followed for three years: see
	// TestLeaveOneSiteOut.
	passing = 0.2

	// flat is the part of every likelihood that any finding has alike, so that one wrong
	// count can't rule (our judgement).
	flat = 0.05
	// flatUntold is the same on a sward that nobody told the sowing of, of which so little is
	// expected that hardly anything is wrong.
	flatUntold = 1e-4
)

// design is the design effect of a count: how many points count as one.
func (s *Seen) design() float64 {
	each := s.Each
	d := unknownDesign
	switch s.Layout {
	case OnString, Steps:
		d = stringDesign
	case Throws, OnFrame:
		if each == 0 && s.Layout == Throws {
			each = throwPoints
		}
		if each == 0 {
			each = s.Points
		}
		kinship := throwKinship
		if each > smallFrame {
			kinship = frameKinship
		}
		d = 1 + float64(each-1)*kinship
	}
	// Whatever way they were laid, n points are worth one at least.
	return min(d, max(1, float64(s.Points)-leastPoints))
}

// leastPoints keeps the concentration above nothing.
const leastPoints = 0.01

// mixed is the design effect of the hits on grasses, n of them: what is found of the shares on
// one day is that day's in part, so that a second count tells more than many points.
func mixed(n int, design float64) float64 {
	return design + float64(max(0, n-1))*passing
}

// concentration is how closely shares among n points lie about those of the whole, the sum
// of the parameters of a beta-binomial or a Dirichlet-multinomial: with it the variance of
// n points is the design effect times that of points laid apart.
func concentration(n int, design float64) float64 {
	points := float64(n)
	design = min(design, points-leastPoints)
	if n <= 1 || design <= 1 {
		return math.Inf(1)
	}
	return (points - design) / (design - 1)
}

// binomial is the logarithm of the chance of k hits among n points where a share p is
// covered, points being worth what the design effect says: beta-binomial.
func binomial(k, n int, p, design float64) float64 {
	return multinomial([]int{k, n - k}, []float64{p, 1 - p}, design)
}

// multinomial is the same among several kinds: Dirichlet-multinomial. Kinds that are
// pooled add up in it exactly.
func multinomial(hits []int, shares []float64, design float64) float64 {
	n := lo.Sum(hits)
	if n == 0 {
		return 0
	}
	conc := concentration(n, design)
	log := lgamma(float64(n) + 1)
	if math.IsInf(conc, 1) {
		for i, h := range hits {
			log += float64(h)*math.Log(max(shares[i], leastShare)) - lgamma(float64(h)+1)
		}
		return log
	}
	log += lgamma(conc) - lgamma(conc+float64(n))
	for i, h := range hits {
		if h == 0 {
			continue
		}
		a := conc * max(shares[i], leastShare)
		log += lgamma(a+float64(h)) - lgamma(a) - lgamma(float64(h)+1)
	}
	return log
}

// leastShare is what no share counts as less than: points fall on strays.
const leastShare = 1e-4

func lgamma(x float64) float64 {
	v, _ := math.Lgamma(x)
	return v
}

// anyCount is the logarithm of the chance of a count where any is as likely as another.
func anyCount(n, kinds int) float64 {
	return lgamma(float64(n)+1) + lgamma(float64(kinds)) - lgamma(float64(n+kinds))
}

// guarded mixes a likelihood with what any finding has alike.
func guarded(log, anything, flat float64) float64 {
	hi, lo := log+math.Log1p(-flat), anything+math.Log(flat)
	if hi < lo {
		hi, lo = lo, hi
	}
	return hi + math.Log1p(math.Exp(lo-hi))
}

// byEye is the logarithm of the chance that somebody calls a cover so many percent, rounded
// as people do to tens or to fives. The observer's own share of the error is given as a
// standard normal.
func byEye(percent, cover, observer float64) float64 {
	low, high := rounded(percent)
	mean := logit(cover) + eyeSD*math.Sqrt(eyeOwn)*observer
	sd := eyeSD * math.Sqrt(1-eyeOwn)
	from, to := 0.0, 1.0
	if low > 0 {
		from = below((logit(low) - mean) / sd)
	}
	if high < 1 {
		to = below((logit(high) - mean) / sd)
	}
	return math.Log(max(to-from, tiny))
}

// rounded is what may have been meant by a percentage.
func rounded(percent float64) (low, high float64) {
	half := 0.5
	switch {
	case math.Mod(percent, 10) == 0:
		half = 5
	case math.Mod(percent, 5) == 0:
		half = 2.5
	}
	return max(0, percent-half) / 100, min(100, percent+half) / 100
}

// anyPercent is the logarithm of the chance of a percentage where any is as likely.
func anyPercent(percent float64) float64 {
	low, high := rounded(percent)
	return math.Log(high - low)
}

// normal is the logarithm of the density of a normal.
func normal(x, mean, sd float64) float64 {
	d := (x - mean) / sd
	return -d*d/2 - math.Log(sd) - math.Log(2*math.Pi)/2
}

// daysSD are the standard deviations, before it and after it, of the day on which it is seen that half of the seedlings are up, or
// on which it is cut for the first time; counted from the day on which they were seen up, if they were.
func (s *sighting) daysSD(days float64) (early, late float64) {
	early, late = upDaysSD, upDaysSD
	if s.FirstCut {
		early, late = cutSD, lateSD
	}
	part := daysPart * (days - s.since)
	return math.Hypot(early, part), math.Hypot(late, part)
}

// split is the logarithm of the density of a normal with one standard deviation below its mode and another above it
// (two-piece normal), so far off the mode, and part is its distribution.
func split(off, under, over float64) (log, part float64) {
	all := under + over
	log = math.Log(2/all) - math.Log(2*math.Pi)/2
	if off < 0 {
		z := off / under
		return log - z*z/2, 2 * under / all * below(z)
	}
	z := off / over
	return log - z*z/2, 1 - 2*over/all*below(-z)
}

const tiny = 1e-300

func below(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }

// mouldy is the log-odds of a share with snow mould as it is seen.
func mouldy(p float64) float64 { return logit(max(leastMould, p)) }

// logit is the log-odds of a share, of the ends as of a tenth of a percent.
func logit(p float64) float64 {
	p = min(1-1e-3, max(1e-3, p))
	return math.Log(p / (1 - p))
}
