package sward

import (
	"math"
	"slices"

	"swardwright/internal/arith"
	"swardwright/species"
)

// Past follows the lawns of an ensemble through the years that are over, so that what
// was seen in them can be held against what each would have shown. What sets a lawn apart
// is given from outside, as standard normals (see [Past.Dim]), beside the lawn that the rest
// is taken from: traits, light, frost, wetness, pH and the run of years.
type Past struct {
	Grass  []int  // those that can occur, by their index in the pool
	Scales Scales // [Seen], unless they are being fitted

	e       *Ensemble
	growing Growing
	first   int // year of the first one followed
	years   int
	opens   []opening // by zone
	events  [][]event // by zone, in order
	moments []Moment  // Year from the first followed
	base    []pastColumn
	weeds   []pastColumn
	history history
	claim   [maxGrass]float64
	gain    []float64 // by year and grass held
	shift   []float64 // by year: of capacity
}

// Before is a sowing that is over.
type Before struct {
	At     Moment
	Left   float64   // of its first season
	Winter bool      // comes before that; see [FirstSeason]
	Zones  []int     // sown
	Grass  []int     // index in the pool
	Plants []float64 // that come up a square metre, by such grass
	Weight []float64 // of its seed, share of all, by such grass
	Bare   bool      // on bare ground
}

// burnIn are the years that a sward of unknown age is followed for before the first that
// something is known of.
const burnIn = 2

// What is not known of a sward that nobody told the sowing of, as standard deviations of
// ln of the plants of each grass, and the plants of a grass that was found and not sown
// (our judgement).
const (
	originSD    = 2.0
	AlikePlants = 500.0 // a square metre, of each grass of old lawns
	strayPlants = 25.0
	// untoldCover is how many times wider than a sown lawn's such a sward's own part of capacity is,
	// so that all of it is twice as wide: it may have been worn, starved or left for years.
	untoldCover = 3.3
)

// failing is the chance that a zone loses sward in a year by what the model knows nothing of: grubs, a
// spill, a scorched or dug patch, seedlings washed out. It loses any share of it alike, at midsummer (our judgement).
const failing = 0.05

// opening is how a zone's history begins: with a sowing on bare ground, or with a sward of
// unknown age.
type opening struct {
	year   int
	sown   *Before
	plants []float64 // by grass held
	origin []bool    // by grass held: how much of it there was isn't known
}

// event is a later sowing in a zone.
type event struct {
	year, part int       // part 0: before the season, 1: at midsummer, 2: after it
	plants     []float64 // by grass held
	bare       bool
}

// pastColumn is what a grass is in one lawn and zone, but for what sets the lawn apart.
type pastColumn struct {
	figures
	gain, summer, winter []float64 // by year
}

// effects are where the draws of a lawn stand in its vector.
const (
	atCover = iota
	atVolunteers
	atTails
	atYears = atTails + tails // then one a year, one a zone, and those of the grasses
)

const (
	ofEstablish = iota
	ofMerit
	ofOrigin
	ofYears // then one a year, two a zone
)

// NewPast sets the past of an ensemble's lawns up: what was sown, in order of time, which
// grasses were found, by their index in the pool, and when one will want to look.
func (e *Ensemble) NewPast(growing Growing, sown []Before, found []int, moments []Moment) *Past {
	p := &Past{e: e, growing: growing, first: math.MaxInt, Scales: Seen()}
	zones := len(e.stands)
	last := math.MinInt
	for _, m := range moments {
		p.first, last = min(p.first, m.Year), max(last, m.Year)
	}
	for i := range sown {
		p.first, last = min(p.first, sown[i].At.Year), max(last, sown[i].At.Year)
	}
	by := make([][]*Before, zones)
	for i := range sown {
		for _, z := range sown[i].Zones {
			by[z] = append(by[z], &sown[i])
		}
	}
	unknown := func(before []*Before) bool { return len(before) == 0 || !before[0].Bare }
	old := slices.ContainsFunc(by, unknown)
	if old {
		p.first -= burnIn
	}
	p.hold(sown, found, old)
	p.years = last - p.first + 1
	for _, m := range moments {
		p.moments = append(p.moments, Moment{m.Year - p.first, m.Part})
	}
	p.opens, p.events = make([]opening, zones), make([][]event, zones)
	for z := range zones {
		later := by[z]
		if unknown(later) {
			p.opens[z] = p.opening(nil, found)
		} else {
			p.opens[z], later = p.opening(later[0], found), later[1:]
		}
		for _, b := range later {
			v := event{year: b.At.Year - p.first, part: int(math.Round(2 * b.At.Part)), plants: make([]float64, len(p.Grass)), bare: b.Bare}
			p.plant(v.plants, b)
			p.events[z] = append(p.events[z], v)
		}
	}
	p.columns()
	p.gain = make([]float64, p.years*len(p.Grass))
	p.shift = make([]float64, p.years)
	return p
}

// opening is what a zone begins with: a sowing, or where that is nil a sward that nobody
// knows the origin of. Grass that was found and not sown came in by itself.
func (p *Past) opening(sown *Before, found []int) opening {
	o := opening{plants: make([]float64, len(p.Grass)), origin: make([]bool, len(p.Grass)), sown: sown}
	if sown != nil {
		o.year = sown.At.Year - p.first
		p.plant(o.plants, sown)
	}
	for k, g := range p.Grass {
		switch {
		case sown == nil && (p.e.pool[g].Is(species.OfOldLawns) || slices.Contains(found, g)):
			o.plants[k], o.origin[k] = AlikePlants, true
		case o.plants[k] == 0 && slices.Contains(found, g):
			o.plants[k], o.origin[k] = strayPlants, true
		}
	}
	return o
}

// hold settles which grasses are followed: those of old lawns as well where a zone is one.
func (p *Past) hold(sown []Before, found []int, old bool) {
	in := make([]bool, len(p.e.pool))
	for _, b := range sown {
		for _, g := range b.Grass {
			in[g] = true
		}
	}
	for _, g := range found {
		in[g] = true
	}
	for g, sp := range p.e.pool {
		if in[g] || sp.Values[species.Volunteer].High > 0 || old && sp.Is(species.OfOldLawns) {
			p.Grass = append(p.Grass, g)
		}
	}
	p.Grass = p.Grass[:min(len(p.Grass), maxGrass-1)]
}

// plant adds the plants of a sowing, by grass held.
func (p *Past) plant(into []float64, b *Before) {
	for i, g := range b.Grass {
		if k, ok := slices.BinarySearch(p.Grass, g); ok {
			into[k] += b.Plants[i]
		}
	}
}

// columns works out every grass in every zone of every lawn.
func (p *Past) columns() {
	e := p.e
	lawns, zones, n := len(e.Lawns), len(e.stands), len(p.Grass)
	p.base = make([]pastColumn, zones*n*lawns)
	p.weeds = make([]pastColumn, zones*lawns)
	figuresOf := make([]float64, (zones*(n+1)*lawns)*3*p.years)
	take := func() (v []float64) {
		v, figuresOf = figuresOf[:p.years:p.years], figuresOf[p.years:]
		return v
	}
	fill := func(c *pastColumn, lawn, zone int, in func(year *season) (gain, summer, winter float64)) {
		c.gain, c.summer, c.winter = take(), take(), take()
		for k := range p.years {
			c.gain[k], c.summer[k], c.winter[k] = in(p.season(e.stands[zone], lawn, zone, k))
		}
	}
	for z, s := range e.stands {
		for k, g := range p.Grass {
			sp := e.pool[g]
			e.draw(g)
			for i := range e.Lawns {
				traits := sp.At(&e.Lawns[i].Grass[g].Traits)
				c, off := &p.base[(z*n+k)*lawns+i], &e.places[i*zones+z].off
				c.figures = s.of(&traits, sp.Warm, off)
				fill(c, i, z, func(year *season) (gain, summer, winter float64) { return s.in(year, &traits, c.merit, off) })
			}
		}
		for i := range e.Lawns {
			c, off := &p.weeds[z*lawns+i], &e.places[i*zones+z].off
			c.figures = s.weeds(off)
			fill(c, i, z, func(year *season) (gain, summer, winter float64) { return s.weedsIn(year, c.merit, off) })
		}
	}
}

// season is a year of a lawn's run in a zone.
func (p *Past) season(s *stand, lawn, zone, year int) *season {
	at := (p.e.Lawns[lawn].Start + year) % len(s.years)
	if o := &p.opens[zone]; s.first != nil && o.sown != nil && year == o.firstYear() {
		return &s.first[at]
	}
	return &s.years[at]
}

// firstYear is the year of the first season that counts.
func (o *opening) firstYear() int {
	if o.sown != nil && o.sown.Winter {
		return o.year + 1
	}
	return o.year
}

// Dim is how many standard normals set a lawn apart.
func (p *Past) Dim() int {
	return p.ofGrass() + len(p.Grass)*p.stride()
}

// ofGrass is where the draws of the grasses begin, after one of capacity and those of failures, one a year, for each zone.
func (p *Past) ofGrass() int { return atYears + p.years + len(p.opens)*(1+p.years) }

// fails is the share of its sward that a zone keeps in a year, of what the model knows nothing of.
func (p *Past) fails(z []float64, zone, year int) float64 {
	x := z[atYears+p.years+len(p.opens)+zone*p.years+year]
	if x < failsFrom {
		return 1
	}
	return math.Erfc(x/math.Sqrt2) / (2 * failing)
}

// failsFrom is the standard normal that is passed with the chance of failing.
var failsFrom = math.Sqrt2 * math.Erfinv(1-2*failing)

func (p *Past) stride() int { return ofYears + p.years + 2*len(p.opens) }

// of are the draws of a grass held.
func (p *Past) of(z []float64, k int) []float64 {
	from := p.ofGrass() + k*p.stride()
	return z[from : from+p.stride()]
}

// Size is how many figures a run gives.
func (p *Past) Size() int { return len(p.moments) * len(p.opens) * len(p.Grass) }

// Covers are, in a run, those of the grasses held in a zone at a moment.
func (p *Past) Covers(run []float64, moment, zone int) []float64 {
	n := len(p.Grass)
	from := (moment*len(p.opens) + zone) * n
	return run[from : from+n]
}

// Run follows a lawn with what sets it apart, until the last of the first so many moments, and puts
// the cover of every grass held at each moment and in each zone into run.
func (p *Past) Run(lawn int, z []float64, moments int, run []float64) {
	until := 0
	for _, m := range p.moments[:moments] {
		until = max(until, m.Year)
	}
	scale := tailsOf(z)
	for zone := range p.opens {
		p.zone(lawn, zone, z, scale, until, moments, run)
	}
}

// tailsOf is the scale of a lawn's effects.
func tailsOf(z []float64) float64 { return scaleOf(z[atTails : atTails+tails]) }

// ownCover is what a zone has of capacity for itself.
func (p *Past) ownCover(z []float64, zone int) float64 {
	own := z[atYears+p.years+zone]
	if p.Untold(zone) {
		own *= untoldCover
	}
	return own
}

// apart is how a grass establishes and lasts in a zone, as standard normals.
func (p *Past) apart(z []float64, k, zone int) (establish, merit float64) {
	d, own := p.of(z, k), ofYears+p.years+2*zone
	establish = shared(d[ofEstablish], d[own])
	return establish, meritOf(establish, shared(d[ofMerit], d[own+1]), p.Scales.Together)
}

// zone follows one zone.
// It runs for every lawn that may be: one piece, so that nothing is passed about.
//
//gocyclo:ignore
func (p *Past) zone(lawn, zone int, z []float64, scale float64, until, moments int, run []float64) {
	e, h, o := p.e, &p.history, &p.opens[zone]
	st, lawns, n := e.stands[zone], len(e.Lawns), len(p.Grass)
	cover := coverSD * shared(z[atCover], p.ownCover(z, zone))
	for t := range until + 1 {
		p.shift[t] = math.Exp(-scale * (cover + coverYearSD*z[atYears+t]))
	}
	volunteers := math.Exp(scale * volunteerSD * z[atVolunteers])
	h.clear()
	h.ownKind = p.Scales.OwnKind
	for k := range p.Grass {
		c, d := &p.base[(zone*n+k)*lawns+lawn], p.of(z, k)
		grass := scale / math.Sqrt2
		establish, merit := p.apart(z, k, zone)
		h.add(k, 0, 0, 1, &c.figures)
		h.volunteer[k] *= volunteers
		p.claim[k] = c.claim * math.Exp(grass*p.Scales.Establish*establish)
		for t := range until + 1 {
			p.gain[t*n+k] = c.gain[t] * math.Exp(grass*(p.Scales.Merit*merit+p.Scales.Season*d[ofYears+t])/2)
		}
	}
	weeds := &p.weeds[zone*lawns+lawn]
	h.weeds = h.n
	h.add(n, 0, 0, 0, &weeds.figures)
	h.volunteer[h.weeds] *= volunteers
	h.begin()

	capacity := h.capacity
	growth := e.places[lawn*len(e.stands)+zone].growth
	var spring, summer [maxGrass]float64
	events := p.events[zone]
	happens := func(year, part int) {
		for len(events) > 0 && (events[0].year < year || events[0].year == year && events[0].part <= part) {
			if v := &events[0]; v.year >= o.year {
				if v.bare {
					clear(h.x[:n])
				}
				p.sow(v.plants, nil, nil)
			}
			events = events[1:]
		}
	}
	for t := range until + 1 {
		if t < o.year {
			p.look(t, zone, moments, run, nil, nil, nil)
			continue
		}
		h.shift(&capacity, p.shift[t])
		if t == o.year {
			p.sow(o.plants, o.origin, z)
			if o.sown != nil && o.sown.Winter {
				p.look(t, zone, moments, run, &h.x, &h.x, &h.x)
				for k := range n {
					h.x[k] *= math.Pow(p.base[(zone*n+k)*lawns+lawn].winter[t], juvenile)
				}
				continue
			}
		}
		happens(t, 0)
		spring = h.x
		left := 1.0
		if o.sown != nil && t == o.firstYear() {
			left = o.sown.Left
		}
		for k := range n {
			c := &p.base[(zone*n+k)*lawns+lawn]
			h.gain[k], h.summer[k] = p.gain[t*n+k], c.summer[t]
		}
		h.gain[n], h.summer[n] = weeds.gain[t], weeds.summer[t]
		if left < 1 {
			for k := range h.n {
				h.gain[k] = math.Pow(h.gain[k], left)
			}
		}
		grown := fullGrowth * p.season(st, lawn, zone, t).growth * growth * left
		h.untilSummer(grown, left)
		if kept := p.fails(z, zone, t); kept < 1 {
			for k := range n {
				h.x[k] *= kept
			}
		}
		happens(t, 1)
		summer = h.x
		h.untilAutumn(grown, left)
		happens(t, 2)
		p.look(t, zone, moments, run, &spring, &summer, &h.x)
		for k := range n {
			h.x[k] *= p.base[(zone*n+k)*lawns+lawn].winter[t]
		}
		h.x[n] *= weeds.winter[t]
	}
}

// sow lets plants take the gaps of what stands; of those of unknown origin z says how many.
func (p *Past) sow(plants []float64, origin []bool, z []float64) {
	h := &p.history
	var demand float64
	var claims [maxGrass]float64
	for k, plants := range plants {
		claims[k] = p.claim[k] * plants
		if origin != nil && origin[k] {
			claims[k] *= math.Exp(originSD * p.of(z, k)[ofOrigin])
		}
		demand += claims[k]
	}
	amongOwn(claims[:len(plants)], h.ownKind)
	gap := h.gap()
	for k := range plants {
		h.x[k] += gap * h.capacity[k] * claims[k] / (1 + demand)
	}
}

// look notes what stands at the moments of a year: between spring, midsummer and autumn in
// proportion to the growth that is over, and of a young sowing what has come up of it.
func (p *Past) look(year, zone, moments int, run []float64, spring, summer, autumn *[maxGrass]float64) {
	o := &p.opens[zone]
	for i, m := range p.moments[:moments] {
		if m.Year != year {
			continue
		}
		into := p.Covers(run, i, zone)
		if spring == nil {
			clear(into)
			continue
		}
		at, up := m.Part, 1.0
		if o.sown != nil && year == o.year {
			young := o.sown.At.Part
			stands := young + p.growing.established()
			up = arith.Unit((m.Part - young) / (stands - young))
			at = arith.Unit((m.Part - stands) / max(leastFit, 1-stands))
		}
		for k := range into {
			if at < 0.5 {
				into[k] = up * (spring[k] + 2*at*(summer[k]-spring[k]))
			} else {
				into[k] = up * (summer[k] + (2*at-1)*(autumn[k]-summer[k]))
			}
		}
	}
}

// lawn is the lawn that is left of such a past, in place of lawn i of the ensemble: what
// lasts is of the past, what a year brings and whatever the past knows nothing of is of
// that lawn.
func (p *Past) lawn(i, of int, z []float64) Lawn {
	e := p.e
	l, from := e.Lawns[i], &e.Lawns[of]
	own := l.Place
	l.Place = from.Place
	l.Place[drawCover], l.Place[drawVolunteers] = z[atCover], z[atVolunteers]
	copy(l.Place[drawTails:drawTails+tails], z[atTails:])
	copy(l.Place[drawCoverYear:drawZoneCover], own[drawCoverYear:drawZoneCover])
	zones := len(p.opens)
	for zone := range zones {
		l.Place[drawZoneCover+zone] = p.ownCover(z, zone)
	}
	l.Grass = make([]*Draws, len(e.pool))
	for k, g := range p.Grass {
		d, past := *e.Lawns[i].Grass[g], p.of(z, k)
		d.Traits = from.Grass[g].Traits
		d.Effects[drawEstablish], d.Effects[drawMerit] = past[ofEstablish], past[ofMerit]
		for z := range zones {
			d.Effects[drawZoneEstablish+z], d.Effects[drawZoneMerit+z] = past[ofYears+p.years+2*z], past[ofYears+p.years+2*z+1]
		}
		l.Grass[g] = &d
	}
	return l
}

// Zones is how many zones the lawn has.
func (p *Past) Zones() int { return len(p.opens) }

// Light is the factor by which the light of a lawn is off what the site says.
func (p *Past) Light(lawn int) float64 { return math.Exp(p.e.places[lawn*len(p.opens)].off.light) }

// Mould is, in a zone of every lawn, the share of each grass held that snow mould leaves in
// the winter after the season of a moment: by lawn and grass.
func (p *Past) Mould(moment, zone int) []float64 {
	n := len(p.Grass)
	out := make([]float64, len(p.e.Lawns)*n)
	for i := range p.e.Lawns {
		year := p.season(p.e.stands[zone], i, zone, p.moments[moment].Year).Year
		year.CrownMinC += p.e.places[i*len(p.opens)+zone].off.crownC
		for k, g := range p.Grass {
			t := p.e.pool[g].At(&p.e.Lawns[i].Grass[g].Traits)
			out[i*n+k] = species.MouldSurvival(&t, &year)
		}
	}
	return out
}

// FirstCut says when and how high a sowing was first cut, in days after its seedlings came
// up, in some zones: what was made of its quick grasses. It is called before [Ensemble.NewPast].
func (e *Ensemble) FirstCut(zones []int, cutMM, days float64) {
	for _, z := range zones {
		e.stands[z].phi = early(cutMM, days)
	}
}

// CutMM is the height of cut in a zone.
func (e *Ensemble) CutMM(zone int) float64 { return e.stands[zone].cut }

// Merit is how far a grass held lasts better in a zone than its figures say, in standard
// deviations over lawns.
func (p *Past) Merit(z []float64, k, zone int) float64 {
	_, merit := p.apart(z, k, zone)
	return merit
}

// Untold tells whether nobody told how the sward of a zone began.
func (p *Past) Untold(zone int) bool { return p.opens[zone].sown == nil }
