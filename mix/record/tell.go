package record

import (
	"cmp"
	"math"
	"slices"

	"github.com/samber/lo"

	"swardwright/internal/steady"
	"swardwright/internal/told"
	"swardwright/site/weather"
	"swardwright/species"
)

// low and high bound what is expected: 8 in 10. What was found is bounded 95 in 100.
const (
	low, high = 0.1, 0.9
	foundZ    = 1.96
)

// The surprise from which a finding is past belief, and unlike what was expected (our
// judgement).
const (
	PastBelief = 0.01
	Unlike     = 0.05
)

// rows hold a sighting beside what was expected of it: by the members as they stand before
// it, and by the tables alone.
// A switch over what can be seen, each with a row of its own.
//
//gocyclo:ignore
func (l *lawn) rows(s *sighting, all []member, runs, alone [][]float64) []Row {
	row := Row{Seen: s.Seen}
	if len(s.zones) == 1 && len(l.site.Zones) > 1 {
		row.Zone = l.site.Zones[s.zones[0]].Letter
	}
	var out []Row
	add := func(r Row, values, without []float64, surprise func([]float64) float64) {
		r.Expected = between(values)
		r.Surprise, r.Alone = steady.Figure(surprise(values)), steady.Figure(surprise(without)) // shares that add up to a whole are as surprising as each other
		out = append(out, r)
	}
	// measured is with an error: the chance that less than the finding is found where so much is expected.
	measured := func(r Row, less func(float64) float64) {
		without := make([]float64, len(alone))
		for i := range without {
			without[i] = l.valueOf(s, i%drawn, alone[i]) // as they are drawn at first
		}
		add(r, l.valuesOf(s, all, runs), without, func(v []float64) float64 {
			under := 0.0
			for _, x := range v {
				under += less(x) / float64(len(v))
			}
			return 2 * min(under, 1-under)
		})
	}
	switch {
	case s.Points > 0:
		r := row
		r.What, r.Found, r.Range = Cover, float64(s.Grass)/float64(s.Points), wilson(s.Grass, s.Points, s.design)
		counted := func(v []float64) float64 { return unlikely(s.Grass, s.Points, v, s.design) }
		if len(s.zones) == 1 {
			for z := range l.site.Zones {
				other := *s
				other.zones, other.area = []int{z}, []float64{1}
				r.Zones = append(r.Zones, counted(l.coverOf(&other, runs)))
			}
		}
		add(r, l.coverOf(s, runs), l.coverOf(s, alone), counted)
		n := lo.Sum(s.hits)
		for i, k := range s.kinds {
			if k.name == "" || n == 0 {
				continue
			}
			r := row
			r.What, r.Of, r.shown, r.Found, r.Range = Share, k.name, k.shown, float64(s.hits[i])/float64(n), wilson(s.hits[i], n, s.design)
			values := l.shareOf(s, i, runs)
			add(r, values, l.shareOf(s, i, alone), func(v []float64) float64 { return unlikely(s.hits[i], n, v, s.ofDesign) })
			// What a sward is made of scatters from day to day, so that more may be found than lasts.
			out[len(out)-1].Expected = countedBetween(n, values, s.ofDesign)
		}
	case s.CoverPercent != nil:
		r := row
		r.What, r.Found = Cover, *s.CoverPercent/100
		r.Range = aboutShare(r.Found, eyeSD)
		from, to := rounded(*s.CoverPercent)
		add(r, l.coverOf(s, runs), l.coverOf(s, alone), func(v []float64) float64 {
			under, over := 0.0, 0.0
			for _, x := range v {
				under += below((logit(to)-logit(x))/eyeSD) / float64(len(v))
				over += below((logit(x)-logit(from))/eyeSD) / float64(len(v))
			}
			return min(1, 2*min(under, over))
		})
	case s.comes != nil:
		r := row
		r.What, r.Found = Emergence, s.days
		if s.FirstCut {
			r.What = FirstCut
		}
		early, late := s.daysSD(s.days)
		r.Range = [2]float64{max(s.since, s.days-foundZ*late), s.days + foundZ*early}
		measured(r, func(x float64) float64 {
			early, late := s.daysSD(x)
			_, part := split(s.days-x, early, late)
			return part
		})
	case s.SnowMouldPercent != nil && s.autumn >= 0:
		r := row
		r.What, r.Found = SnowMould, *s.SnowMouldPercent/100
		r.Range = aboutShare(r.Found, mouldSD)
		measured(r, func(x float64) float64 { return below((mouldy(r.Found) - mouldy(x)) / mouldSD) })
	case s.SunHours != nil:
		r := row
		r.What, r.Found = Sun, *s.SunHours
		r.Range = [2]float64{r.Found * math.Exp(-foundZ*sunSD), r.Found * math.Exp(foundZ*sunSD)}
		measured(r, func(x float64) float64 { return below(math.Log(max(r.Found, leastHours)/x) / sunSD) })
	}
	return out
}

// valueOf is what is expected of something measured, on one lawn.
func (l *lawn) valueOf(s *sighting, of int, run []float64) float64 {
	switch {
	case s.comes != nil:
		return s.comes[of]
	case s.SunHours != nil:
		return s.sunHours * l.past.Light(of)
	}
	return l.mouldOf(s, of, run)
}

func (l *lawn) valuesOf(s *sighting, all []member, runs [][]float64) []float64 {
	out := make([]float64, len(all))
	for i := range all {
		out[i] = l.valueOf(s, all[i].of, runs[i])
	}
	return out
}

// coverOf is the cover of grass where and when something was seen, by member.
func (l *lawn) coverOf(s *sighting, runs [][]float64) []float64 {
	out := make([]float64, len(runs))
	for i, run := range runs {
		out[i] = lo.Sum(l.covers(s, run))
	}
	return out
}

// shareOf is the share of a kind among those told apart there.
func (l *lawn) shareOf(s *sighting, kind int, runs [][]float64) []float64 {
	out := make([]float64, len(runs))
	for i, run := range runs {
		var shares [maxKinds]float64
		out[i] = s.shares(l.covers(s, run), shares[:0])[kind]
	}
	return out
}

// nowExpected fills in what is expected of every finding now that the whole record is known.
func (l *lawn) nowExpected(rows []Row, all []member, runs [][]float64) {
	for i := range rows {
		r := &rows[i]
		at := slices.IndexFunc(l.seen, func(s sighting) bool { return s.Seen == r.Seen })
		s := &l.seen[at]
		switch r.What {
		case Cover:
			r.Now = between(l.coverOf(s, runs))
		case Share:
			r.Now = between(l.shareOf(s, slices.IndexFunc(s.kinds, func(k kind) bool { return k.name == r.Of }), runs))
		default:
			r.Now = between(l.valuesOf(s, all, runs))
		}
	}
}

// outlooks are the standing sward by zone, and what becomes of it.
func (l *lawn) outlooks(runs, alone [][]float64) []Outlook {
	var out []Outlook
	for z := range l.past.Zones() {
		total := func(runs [][]float64, moment int) []float64 {
			v := make([]float64, len(runs))
			for i, run := range runs {
				v[i] = lo.Sum(l.past.Covers(run, moment, z))
			}
			return v
		}
		o := Outlook{Letter: l.site.Zones[z].Letter, Cover: between(total(runs, l.now)), Season: between(total(runs, l.ahead)), SeasonAlone: between(total(alone, l.ahead))}
		mean := func(runs [][]float64) []float64 {
			v, sum := make([]float64, len(l.past.Grass)), 0.0
			for _, run := range runs {
				for k, x := range l.past.Covers(run, l.now, z) {
					v[k] += x
					sum += x
				}
			}
			for k := range v {
				v[k] /= max(sum, tiny)
			}
			return v
		}
		is, was := mean(runs), mean(alone)
		var narrow, wide float64
		for k, g := range l.past.Grass {
			if is[k] >= leastShown || was[k] >= leastShown {
				o.Shares = append(o.Shares, Standing{Species: l.pool[g], Share: is[k], Expect: was[k]})
			}
			narrow += spread(runs, func(run []float64) float64 { return l.past.Covers(run, l.ahead, z)[k] })
			wide += spread(alone, func(run []float64) float64 { return l.past.Covers(run, l.ahead, z)[k] })
		}
		o.Narrowed = max(0, 1-narrow/max(wide, tiny))
		slices.SortStableFunc(o.Shares, func(a, b Standing) int { return cmp.Compare(b.Share, a.Share) })
		out = append(out, o)
	}
	return out
}

// leastShown is the share of a sward from which a grass is told of.
const leastShown = 0.01

// spread is the standard deviation of a figure over members.
func spread(runs [][]float64, of func([]float64) float64) float64 {
	var sum, square float64
	n := float64(len(runs))
	for _, run := range runs {
		x := of(run)
		sum += x
		square += x * x
	}
	return math.Sqrt(max(0, square/n-sum*sum/(n*n)))
}

func between(values []float64) [2]float64 {
	v := slices.Sorted(slices.Values(values))
	return [2]float64{weather.Percentile(v, low), weather.Percentile(v, high)}
}

// wilson is the score interval of a share (Wilson 1927) among as many points as the count is
// worth.
func wilson(k, n int, design float64) [2]float64 {
	p, m := float64(k)/float64(n), float64(n)/design
	z2 := foundZ * foundZ
	mid := (p + z2/(2*m)) / (1 + z2/m)
	half := foundZ / (1 + z2/m) * math.Sqrt(p*(1-p)/m+z2/(4*m*m))
	return [2]float64{max(0, mid-half), min(1, mid+half)}
}

// unlikely is the share of counts of n points that are no likelier than k hits, where the
// share covered is one of several as likely as each other.
func unlikely(k, n int, shares []float64, design float64) float64 {
	pmf := foretold(n, shares, design)
	sum := 0.0
	for _, p := range pmf {
		if p <= pmf[k]*(1+1e-9) {
			sum += p
		}
	}
	return min(1, sum)
}

// countedBetween is what 8 of 10 such counts would find.
func countedBetween(n int, shares []float64, design float64) (out [2]float64) {
	pmf := foretold(n, shares, design)
	for i, part := range []float64{low, high} {
		k, sum := 0, pmf[0]
		for sum < part && k < n {
			k++
			sum += pmf[k]
		}
		out[i] = float64(k) / float64(n)
	}
	return out
}

// foretold are the chances of every number of hits among n points, where the share covered is one of
// several as likely as each other.
func foretold(n int, shares []float64, design float64) []float64 {
	pmf := make([]float64, n+1)
	conc := concentration(n, design)
	every := max(1, len(shares)/predictive)
	for i := 0; i < len(shares); i += every {
		addBinomial(pmf, min(1-leastShare, max(leastShare, shares[i])), conc)
	}
	all := lo.Sum(pmf)
	for k := range pmf {
		pmf[k] /= all
	}
	return pmf
}

// predictive is over how many members what might have been found is reckoned.
const predictive = 200

// addBinomial adds the chances of every number of hits, each from the one before.
func addBinomial(pmf []float64, p, conc float64) {
	n := len(pmf) - 1
	q := 1 - p
	var log float64
	if math.IsInf(conc, 1) {
		log = float64(n) * math.Log(q)
	} else {
		log = lgamma(conc*q+float64(n)) - lgamma(conc*q) + lgamma(conc) - lgamma(conc+float64(n))
	}
	// From the likeliest count outwards would be as good; logarithms do for small chances.
	for k := range pmf {
		pmf[k] += math.Exp(log)
		if k == n {
			break
		}
		left := float64(n - k)
		if math.IsInf(conc, 1) {
			log += math.Log(left / float64(k+1) * p / q)
		} else {
			log += math.Log(left / float64(k+1) * (conc*p + float64(k)) / (conc*q + left - 1))
		}
	}
}

// aboutShare is the range about a share that is seen with a normal error of its log-odds.
func aboutShare(p, sd float64) [2]float64 {
	return [2]float64{expit(logit(p) - foundZ*sd), expit(logit(p) + foundZ*sd)}
}

func expit(x float64) float64 { return 1 / (1 + math.Exp(-x)) }

// Asks are what the record is asked about: findings past belief, that contradict others or that
// would fit another zone. All of them are used.
func (l *Learned) Asks() []told.Sentence {
	var out []told.Sentence
	for i, r := range l.Rows {
		// The most surprising thing of each sighting stands for all of it.
		if r.Surprise >= Unlike || slices.ContainsFunc(l.Rows, func(o Row) bool { return o.Seen == r.Seen && o.Surprise < r.Surprise }) ||
			slices.ContainsFunc(l.Rows[:i], func(o Row) bool { return o.Seen == r.Seen && o.Surprise == r.Surprise }) {
			continue
		}
		on, found := told.Date(r.Seen.Date), r.told()
		expected := told.Between(r.figure(r.Expected[0]), r.figure(r.Expected[1]))
		before := slices.IndexFunc(l.Rows[:i], r.contradicts)
		switch {
		case before >= 0:
			o := l.Rows[before]
			out = append(out, told.Say("record.contradicts-count", on, found, o.Figure(), told.Date(o.Seen.Date)))
		case r.Alone >= likelyAlone:
			out = append(out, told.Say("record.contradicts", on, found, expected))
		case r.Surprise < PastBelief:
			out = append(out, told.Say("record.past-belief", on, found, expected))
		default:
			out = append(out, told.Say("record.unlike", on, found, expected))
		}
		if z := r.fits(l.Next); z != "" {
			out = append(out, told.Say("record.other-zone", told.Zone(z)))
		}
	}
	if len(out) > 0 {
		out = append(out, told.Say("record.check"))
	}
	return out
}

// contradicts tells whether another finding, of the same in the same place and season, can hardly be true
// beside this one.
func (r Row) contradicts(o Row) bool {
	const season = 100 // days
	return o.What == r.What && o.Of == r.Of && o.Zone == r.Zone && r.Seen.Date.Sub(o.Seen.Date).Hours() < season*24 &&
		(o.Range[0] > r.Range[1] || o.Range[1] < r.Range[0])
}

// likelyAlone is how unsurprising a finding is by the tables alone that contradicts only what
// was seen before.
const likelyAlone = 0.2

// fits is the zone that a surprising count would fit; empty where there is none.
func (r Row) fits(zones []Outlook) string {
	best := ""
	most := fitsFrom
	for z, p := range r.Zones {
		if p > most && zones[z].Letter != r.Zone {
			best, most = zones[z].Letter, p
		}
	}
	return best
}

// fitsFrom is how unsurprising a count must be in a zone to be taken for one of it.
const fitsFrom = 0.3

// told is what a row is about, with what was found.
func (r Row) told() told.Sentence {
	where := told.Say("record.everywhere")
	if r.Zone != "" {
		where = told.Say("record.in-zone", told.Zone(r.Zone))
	}
	return told.Say("record.found", r.About(), where, r.Figure())
}

// About is what a row is about.
func (r Row) About() told.Figure {
	switch r.What {
	case Cover:
		if r.Seen.CoverPercent != nil {
			return told.Say("record.cover-by-eye")
		}
		return told.Say("record.cover")
	case Share:
		return told.Say("record.share", r.shown)
	case Emergence:
		return told.Say("record.emergence")
	case FirstCut:
		return told.Say("record.first-cut")
	case SnowMould:
		return told.Say("record.snow-mould")
	}
	return told.Say("record.sun")
}

// InShort is the same where there is little room.
func (r Row) InShort() told.Figure {
	if r.What == Share {
		return told.Say("record.share-short", r.shown)
	}
	return r.About()
}

// IsShare tells whether it is about a share of the ground or of the sward, and not about days or hours.
func (r Row) IsShare() bool { return r.What == Cover || r.What == Share || r.What == SnowMould }

// Figure is what was found.
func (r Row) Figure() told.Figure { return r.figure(r.Found) }

// Ranges are what was expected, the range of what was found, and what is expected now.
func (r Row) Ranges() (expected, found, now told.Figure) {
	between := func(x [2]float64) told.Figure { return told.Between(r.figure(x[0]), r.figure(x[1])) }
	return between(r.Expected), between(r.Range), between(r.Now)
}

func (r Row) figure(x float64) told.Figure {
	switch r.What {
	case Emergence, FirstCut:
		return told.Days(math.Round(x))
	case Sun:
		return told.SunHours(x)
	}
	return told.Share(x)
}

// Fit is how a finding agrees with what was expected.
type Fit string

// How a finding may agree.
const (
	AsExpected Fit = "as expected"
	IsUnlike   Fit = "unlike"
	IsPast     Fit = "past belief"
)

// Fit is how it agrees with what was expected.
func (r Row) Fit() Fit {
	switch {
	case r.Surprise < PastBelief:
		return IsPast
	case r.Surprise < Unlike:
		return IsUnlike
	}
	return AsExpected
}

// Fits says the same in words.
func (r Row) Fits() told.Sentence {
	switch r.Fit() {
	case IsPast:
		return told.Say("record.is-past-belief")
	case IsUnlike:
		return told.Say("record.is-unlike")
	}
	return told.Say("record.is-as-expected")
}

// Says is what the record tells of the place: grasses that made much more or much less of the
// standing sward than was expected, each with the zones where they do.
func (l *Learned) Says() []told.Sentence {
	type made struct {
		species *species.Species
		more    bool
	}
	var order []made
	by := map[made][]told.Zone{}
	is, was := map[made][]float64{}, map[made][]float64{}
	for _, o := range l.Next {
		for _, s := range o.Shares {
			d := s.Share - s.Expect
			if math.Abs(d) < muchMore {
				continue
			}
			m := made{s.Species, d > 0}
			if by[m] == nil {
				order = append(order, m)
			}
			by[m] = append(by[m], told.Zone(o.Letter))
			is[m], was[m] = append(is[m], s.Share), append(was[m], s.Expect)
		}
	}
	return lo.Map(order, func(m made, _ int) told.Sentence {
		grass, zones := told.Grass(m.species.ID), told.All(by[m]...)
		if m.more {
			return told.Say("record.more", grass, shares(is[m]), shares(was[m]), zones)
		}
		return told.Say("record.less", grass, shares(is[m]), shares(was[m]), zones)
	})
}

// shares is a share, or the range of several.
func shares(x []float64) told.Figure {
	if len(x) == 1 {
		return told.Share(x[0])
	}
	return told.Between(told.Share(slices.Min(x)), told.Share(slices.Max(x)))
}

// muchMore is the difference of shares from which it is told.
const muchMore = 0.08

// Certainty is the range, 95 in 100, that so many points leave of a share found.
func Certainty(l Layout, points int, share float64) (low, high float64) {
	s := Seen{Points: points, Layout: l}
	r := wilson(int(math.Round(share*float64(points))), points, s.design())
	return r[0], r[1]
}
