package mix

import (
	"cmp"
	"slices"

	"swardwright/internal/arith"
	"swardwright/mix/sward"
	"swardwright/site/weather"
	"swardwright/species"
)

const (
	// lawns are how many chances are counted over: they are right to two or three
	// points. A rough answer does with fewLawns.
	lawns, fewLawns = 400, 100
	// lawnSeed draws the same lawns for every place and use, so that what differs
	// between two plans is what was changed between them.
	lawnSeed = 1
	// likelier is the chance from which a standard is named as held.
	likelier = 0.5
	// badYear is the share of years and lawns that counts as bad.
	badYear = 0.10
)

// A zone whose midwinter light is below some share of the open's, and whose snow lies
// long, loses its fine grasses: not yet at the first figure, wholly at the second
// (common practice, no published source).
const (
	winterLightFrom, winterShade = 0.45, 0.25
	snowDaysFrom, deepSnowDays   = 60.0, 90.0
)

// outlook is what a mixture becomes over all lawns that this one may be.
type outlook struct {
	chance          float64             // that the lawn keeps its standard
	cover, badCover float64             // see Mixture
	covers          []float64           // by lawn
	early           float64             // the same
	even, look      float64             // of the middle lawn
	zones           []float64           // cover by zone of the site, 0 where nothing is sown
	keeps           []float64           // chance by zone that it keeps the least cover
	alone           map[Measure]float64 // chance that each measure by itself is kept
	missed          map[Measure]float64 // what it comes to, in the mean, on the lawns that miss it
	sward           [sward.Seasons]sward.Season
}

// outlookOf follows a mixture on the zones that are kept.
func (a *answer) outlookOf(t *tried) *outlook { return a.fates(a.ensemble.Follow(&t.sowing)) }

// fates is the outlook of a sowing that was followed.
func (a *answer) fates(f sward.Fates) *outlook {
	p, std := a.problem, species.StandardOf(a.use.Grade)
	n := len(f.Cover)
	leaf, pale, fit := make([]float64, len(f.Grass)), make([]float64, len(f.Grass)), make([]float64, len(f.Grass))
	for i, g := range f.Grass {
		leaf[i], pale[i], fit[i] = p.leafMM[g], p.pale[g], p.looks[g]
	}
	o := &outlook{
		covers: slices.Clone(f.Cover), cover: among(f.Cover, middle), badCover: among(f.Season, badYear), early: among(f.Early, middle),
		alone: map[Measure]float64{}, missed: map[Measure]float64{},
	}
	dies := 0.0
	if std.Grade == species.Ornamental {
		dies = a.fineGrassesDie()
	}
	kept, met := 0, map[Measure]int{}
	evens, looks := make([]float64, n), make([]float64, n)
	for i := range n {
		even, fine := look(f.Life(i), leaf, pale, fit)
		fine *= 1 - dies
		evens[i], looks[i] = even, fine
		keeps := true
		worst := slices.Min(f.Season[i*sward.Lasting : (i+1)*sward.Lasting])
		for _, m := range measures(std, f.Cover[i], worst, even, fine) {
			if m.Is >= m.Asks {
				met[m.What]++
			} else {
				o.missed[m.What] += m.Is
				keeps = false
			}
		}
		if keeps {
			kept++
		}
	}
	for _, m := range measures(std, 0, 0, 0, 0) {
		o.alone[m.What] = float64(met[m.What]) / float64(n)
		o.missed[m.What] /= float64(max(1, n-met[m.What]))
	}
	o.chance = float64(kept) / float64(n) * (1 - dies)
	o.even, o.look = among(evens, middle), among(looks, middle)
	for _, covers := range f.Zone {
		keeps, cover := keeping(covers, std.Least)
		o.zones, o.keeps = append(o.zones, cover), append(o.keeps, keeps)
	}
	o.sward = f.Seasons(p.field.IDs)
	return o
}

// keeping is the chance that covers reach the least, and the middle one.
func keeping(covers []float64, least float64) (chance, cover float64) {
	n := 0
	for _, x := range covers {
		if x >= least {
			n++
		}
	}
	return float64(n) / float64(len(covers)), among(covers, middle)
}

// among is the value below which the share p lies of values in any order.
func among(values []float64, p float64) float64 {
	return weather.Percentile(slices.Sorted(slices.Values(values)), p)
}

// middle is the share of lawns below the one that a plan speaks of: what it expects is
// likelier met than not.
const middle = 0.5

// measures are what a standard asks for beside what there is.
func measures(std species.Standard, cover, badCover, even, look float64) []Shortfall {
	all := []Shortfall{{What: Cover, Is: cover, Asks: std.Cover}, {What: BadCover, Is: badCover, Asks: std.BadCover}, {What: Even, Is: even, Asks: std.Even}}
	if std.Grade == species.Ornamental {
		all = append(all, Shortfall{What: Look, Is: look, Asks: fineEnough})
	}
	return all
}

// fineEnough is the share of fine leaves, as look has it, of an ornamental lawn.
const fineEnough = 0.6

// shortBy is what the outlook lacks of a standard that it doesn't hold: every measure
// that is expected to stay below it. Where each by itself would be kept but not all of
// them together it is the one most often missed, with what it then comes to.
func (o *outlook) shortBy(std species.Standard) []Shortfall {
	all := measures(std, o.cover, o.badCover, o.even, o.look)
	short := slices.DeleteFunc(slices.Clone(all), func(s Shortfall) bool { return s.Is >= s.Asks })
	if len(short) == 0 {
		s := slices.MinFunc(all, func(x, y Shortfall) int { return cmp.Compare(o.alone[x.What], o.alone[y.What]) })
		s.Is, s.Missed = o.missed[s.What], true
		short = append(short, s)
	}
	return short
}

// fineGrassesDie is the share of the lawn on which months of winter shade under deep
// snow take the fine grasses.
func (j job) fineGrassesDie() (area float64) {
	for i := range j.site.Zones {
		z := &j.site.Zones[i]
		var snow float64
		for y := range z.Years {
			snow += z.Years[y].LongestSnow / float64(len(z.Years))
		}
		months := [3]int{10, 11, 0} // November to January, or May to July
		if j.site.Survey.Place.LatitudeDeg < 0 {
			months = [3]int{4, 5, 6}
		}
		var here, open float64
		for _, m := range months {
			here += z.Light.DLI[m]
			open += j.site.Field.OpenDLI[m]
		}
		if open > 0 {
			area += z.Share * arith.Ramp(snow, snowDaysFrom, deepSnowDays) * arith.Ramp(here/open, winterLightFrom, winterShade)
		}
	}
	return area
}
