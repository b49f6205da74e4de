package sward

import (
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"

	"swardwright/internal/steady"
	"swardwright/site"
	"swardwright/site/weather"
	"swardwright/species"
)

// What sets one lawn apart from others that are alike by all that is known of them, as
// standard deviations over lawns. Those of a pair of grasses, in log-odds, are what the
// ranges of the traits leave of the spread between the leys of the Agrodiversity
// Experiment (Kirwan et al. 2014): see TestLawnsDifferAsLeysDo of package mix. The others
// are common practice, no published source.
const (
	establishSD  = 0.6 // of a pair: ln of the ground that a seedling claims
	meritSD      = 0.2 // of a pair: merit in every season
	establishing = 0.3 // correlation of the two
	seasonSD     = 0.3 // of a pair: merit in one season
	coverSD      = 0.6 // logit of capacity
	coverYearSD  = 0.4 // the same, in one year
	volunteerSD  = 0.7 // ln of what comes in by itself
	zonesShare   = 0.7 // of the variance, what the zones of a lawn have in common
	tails        = 5   // degrees of freedom of Student's t, for all effects of a lawn together

	// ownKind is what a grass loses to others where all is its own kind, as a fraction of its
	// weight, in a season as among seedlings: a lead regresses. Fitted to leys sown in shares of an eighth to seven eighths,
	// whose log-odds after one, two and three years kept 0.78, 0.66 and 0.59 of those sown (mean of 15 sites; Kirwan et al.
	// 2014, Ecology 95:2680, data). It counts where there is a record.
	ownKind = 0.6
	// together takes the place of establishing there: fitted to leys with the above.
	together = 0.0
)

// Scales are how far lawns lie apart in what two grasses make of each other, see above.
type Scales struct {
	Establish, Merit, Together, Season float64
	OwnKind                            float64
}

// Unseen are the scales of a lawn of which nothing was seen.
func Unseen() Scales {
	return Scales{Establish: establishSD, Merit: meritSD, Together: establishing, Season: seasonSD}
}

// Seen are those of a lawn with a record.
func Seen() Scales {
	return Scales{Establish: establishSD, Merit: meritSD, Together: together, Season: seasonSD, OwnKind: ownKind}
}

// What the models of a site may be wrong by, and the published rules of light by
// themselves, as standard deviations: our own figures, no published source. How well
// the light is known the site says.
const (
	needSD     = 0.07 // ln of the least light: rules for one grass run from some 2.5 to 3.5 hours
	crownSDC   = 0.6
	wetSD      = 0.12
	phSDKnown  = 0.08
	phSDUnsure = 0.29
)

// maxZones is how many zones have draws of their own.
const maxZones = 4

// Lawn is one lawn as it may turn out: the year that it begins with, and what sets it
// apart, as standard normals and quantiles. Nothing else of a lawn is random, so that two mixtures,
// two ways of work or two seasons can be compared on the same lawns.
type Lawn struct {
	Start int // first year of its history
	Place [placeDraws]float64
	Grass []*Draws // by grass of the pool; nil until it is asked for
}

// Draws are those of a grass in a lawn.
type Draws struct {
	Effects [grassDraws]float64
	Traits  [species.TraitCount]float64 // the quantile of each in its range
}

// years of a history: a winter may come before its first season.
const historyYears = Seasons + 1

// The draws of a lawn.
const (
	drawLight = iota
	drawNeed
	drawCrown
	drawPH
	drawWet
	drawCover
	drawVolunteers
	drawTails                                    // so many as tails
	drawCoverYear = drawTails + tails            // one a year
	drawZoneCover = drawCoverYear + historyYears // one a zone
	placeDraws    = drawZoneCover + maxZones
)

// The draws of a grass in a lawn.
const (
	drawEstablish     = iota
	drawMerit                                        // apart from what it has in common with the above
	drawYear                                         // one a year
	drawZoneEstablish = drawYear + historyYears      // one a zone
	drawZoneMerit     = drawZoneEstablish + maxZones // one a zone
	grassDraws        = drawZoneMerit + maxZones
)

// Ensemble is a set of lawns that one site and use may turn out as: drawn over the
// synthetic years, the ranges of the traits, what isn't known of light, frost, wetness and
// pH, and what sets one lawn apart from others. Whatever is counted over it is counted on
// the same lawns for every mixture, way and use, so that differences between them are those
// of what was changed. A record of the lawn can weigh the lawns, and move their draws.
//
// It keeps working memory and is not safe for use by several goroutines at once.
type Ensemble struct {
	Lawns  []Lawn
	Weeded bool // broad-leaved weeds are pulled; otherwise they come in as they will

	// Standing is what stands in a zone of a lawn before anything is sown, by grass of the
	// pool; nil: bare ground.
	Standing func(lawn, zone int) []float64

	pool    []*species.Species
	weeds   float64 // what cover by broad-leaved weeds counts for
	stands  []*stand
	shares  []float64 // of the lawn, by zone
	lightSD float64
	phSD    float64
	seed    uint64
	scales  Scales
	columns [2][][]column      // of sowings without and with a winter before their first season: by zone and grass of the pool, weeds last: by lawn; nil until asked for
	traits  [][]species.Traits // by grass of the pool and lawn; nil until asked for
	places  []place            // by lawn and zone
	history history
}

// place is what a lawn is in a zone, whatever the grass.
type place struct {
	off        deviation
	scale      float64               // of the tails
	cover      [historyYears]float64 // by year: e to the power of minus the shift of the logit of capacity
	volunteers float64               // factor
	growth     float64               // factor
}

// column is what a grass is in one lawn and zone: figures of any year, and by season what
// it gains and what outlasts summer and the winter after it.
type column struct {
	figures
	gain, summer, winter [Seasons]float64
	before               float64 // what outlasts a winter before the first season
}

// NewEnsemble draws lawns. The same seed gives the same lawns, whatever the site, the
// use and the other grasses of the pool. pH is known or taken for granted; the light
// is known as the field's [light.Field.LogSD] says.
func NewEnsemble(c *site.Conditions, pool []*species.Species, use species.Use, lawns int, seed uint64) *Ensemble {
	e := &Ensemble{
		scales: Unseen(), pool: pool, weeds: weedWorth(use.Grade), seed: seed, lightSD: c.Field.LogSD, phSD: phSDUnsure,
		Lawns: make([]Lawn, lawns), traits: make([][]species.Traits, len(pool)),
	}
	for i := range e.columns {
		e.columns[i] = make([][]column, (len(pool)+1)*len(c.Zones))
	}
	if c.Soil.PHKnown {
		e.phSD = phSDKnown
	}
	years := 0
	for i := range c.Zones {
		e.stands = append(e.stands, newStand(c, &c.Zones[i], use))
		e.shares = append(e.shares, c.Zones[i].Share)
		years = len(c.Zones[i].Years)
	}
	r := rand.New(rand.NewPCG(seed, ensembleStream))
	for i := range e.Lawns {
		l := &e.Lawns[i]
		l.Start = i * years / lawns
		l.Grass = make([]*Draws, len(pool))
		for k := range l.Place {
			l.Place[k] = r.NormFloat64()
		}
	}
	e.read()
	return e
}

// read reads the draws of every lawn.
func (e *Ensemble) read() {
	e.places = make([]place, len(e.Lawns)*len(e.stands))
	for i := range e.Lawns {
		for z := range e.stands {
			e.places[i*len(e.stands)+z] = e.place(&e.Lawns[i], z)
		}
	}
}

// ensembleStream of the generator, apart from those of the grasses.
const ensembleStream = 0xe5

// place reads a lawn's draws for a zone.
func (e *Ensemble) place(l *Lawn, zone int) place {
	d := &l.Place
	var p place
	p.off = deviation{light: e.lightSD * d[drawLight], need: needSD * d[drawNeed], crownC: crownSDC * d[drawCrown], ph: e.phSD * d[drawPH], wet: max(-1, wetSD*d[drawWet])}
	p.scale = scaleOf(d[drawTails : drawTails+tails])
	lawn := coverSD * shared(d[drawCover], d[drawZoneCover+zone%maxZones])
	for t := range p.cover {
		p.cover[t] = steady.Exp(-p.scale * (lawn + coverYearSD*d[drawCoverYear+t]))
	}
	p.volunteers = steady.Exp(p.scale * volunteerSD * d[drawVolunteers])
	p.growth = steady.Exp(p.off.light / 2) // growth rises about with the square root of light in shade
	return p
}

// shared is what a zone has of an effect, of what all zones have in common and what it
// has for itself.
func shared(common, own float64) float64 {
	return math.Sqrt(zonesShare)*common + math.Sqrt(1-zonesShare)*own
}

// scaleOf is the scale of a lawn's effects, by the draws of their tails.
func scaleOf(draws []float64) float64 {
	chi := 0.0
	for _, x := range draws {
		chi += x * x
	}
	return math.Sqrt(tails / chi)
}

// meritOf is how a grass lasts, by how it establishes and what it has apart from that, as
// far as the two go together.
func meritOf(establish, own, together float64) float64 {
	return together*establish + math.Sqrt(1-together*together)*own
}

// draw draws a grass of the pool in every lawn that has no draws of it yet, and gives its
// traits in each.
func (e *Ensemble) draw(g int) []species.Traits {
	if e.traits[g] != nil {
		return e.traits[g]
	}
	sp := e.pool[g]
	r := rand.New(rand.NewPCG(e.seed, stream(sp.ID)))
	e.traits[g] = make([]species.Traits, len(e.Lawns))
	for i := range e.Lawns {
		l := &e.Lawns[i]
		if l.Grass[g] == nil {
			l.Grass[g] = draw(r)
		}
		e.traits[g][i] = sp.At(&l.Grass[g].Traits)
	}
	return e.traits[g]
}

// column is that of a grass, or of weeds, after the pool's grasses, in a zone of every lawn,
// worked out once.
func (e *Ensemble) column(g, zone, winter int) []column {
	cols := &e.columns[winter][zone*(len(e.pool)+1)+g]
	if *cols == nil {
		*cols = make([]column, len(e.Lawns))
		if g == len(e.pool) {
			e.broadLeaved(*cols, zone, winter)
		} else {
			e.grass(*cols, g, zone, winter)
		}
	}
	return *cols
}

// draw draws a grass.
func draw(r *rand.Rand) *Draws {
	d := new(Draws)
	for k := range d.Effects {
		d.Effects[k] = r.NormFloat64()
	}
	for k := range d.Traits {
		d.Traits[k] = r.Float64()
	}
	return d
}

// broadLeaved works out the weeds in a zone of every lawn. What is not known of them is
// what comes in.
func (e *Ensemble) broadLeaved(cols []column, zone, winter int) {
	s := e.stands[zone]
	for i := range cols {
		p, c := &e.places[i*len(e.stands)+zone], &cols[i]
		c.figures = s.weeds(&p.off)
		c.volunteer *= p.volunteers
		s.seasons(c, e.Lawns[i].Start, winter, &broadLeaved, &p.off, func(_ int, year *season) float64 { return weedMerit(year, c.merit) })
	}
}

// grass works out a grass of the pool in a zone of every lawn.
func (e *Ensemble) grass(cols []column, g, zone, winter int) {
	s, traits := e.stands[zone], e.draw(g)
	for i := range cols {
		p, c, t, d := &e.places[i*len(e.stands)+zone], &cols[i], &traits[i], &e.Lawns[i].Grass[g].Effects
		c.figures = s.of(t, e.pool[g].Warm, &p.off)
		grass := p.scale / math.Sqrt2 // a pair's spread is that of two grasses
		establish := shared(d[drawEstablish], d[drawZoneEstablish+zone%maxZones])
		merit := meritOf(establish, shared(d[drawMerit], d[drawZoneMerit+zone%maxZones]), e.scales.Together)
		c.claim *= steady.Exp(grass * e.scales.Establish * establish)
		c.volunteer *= p.volunteers
		s.seasons(c, e.Lawns[i].Start, winter, t, &p.off, func(k int, _ *season) float64 {
			return c.merit + grass*(e.scales.Merit*merit+e.scales.Season*d[drawYear+k])
		})
	}
}

// seasons fills a column in by season, from a year of the stand on, with a winter before the
// first or none. merit is that in a year of the history.
func (s *stand) seasons(c *column, start, winter int, t *species.Traits, off *deviation, merit func(k int, year *season) float64) {
	mould := species.MouldHalfDays(t)
	if winter > 0 {
		c.before = s.winters[start%len(s.years)].Survival(t, mould, off.crownC)
	}
	for at := range Seasons {
		k := at + winter
		i := (start + k) % len(s.years)
		year := &s.years[i]
		if at == 0 && s.first != nil {
			year = &s.first[i]
		}
		c.gain[at], c.summer[at] = s.grows(year, t, merit(k, year), off)
		c.winter[at] = s.winters[i].Survival(t, mould, off.crownC)
	}
}

// Fates are what a sowing becomes on every lawn of an ensemble: by lawn, over zones by
// area, unless they say otherwise.
type Fates struct {
	Cover  []float64   // of wanted grasses, season lasting on: mean of autumn and the spring after
	Season []float64   // by lawn and such season: mean of summer's low, autumn and the spring after
	Early  []float64   // after eight weeks of growth
	Zone   [][]float64 // by zone and lawn: Cover there

	Grass []int              // those that occur, by their index in the pool
	Parts [Seasons][]float64 // by lawn and such grass: cover at the end of the season

	Weeds, Moss [Seasons]float64 // cover at the end of the season, mean of the lawns
}

// Sow confines the ensemble to some zones, by their index on the site. Covers over zones
// are then of what is sown.
func (e *Ensemble) Sow(zones []int) {
	area := 0.0
	for _, z := range zones {
		area += e.shares[z]
	}
	for z, s := range e.stands {
		s.share = 0
		if slices.Contains(zones, z) {
			s.share = e.shares[z] / area
		}
	}
}

// Lasting is how many seasons of a history count for what the sward becomes.
const Lasting = Seasons - lasting + 1

// Follow runs a sowing on every lawn.
func (e *Ensemble) Follow(s *Sowing) Fates {
	n, lawns, zones := len(e.pool), len(e.Lawns), len(e.stands)
	held, worth := e.held(s)
	f := Fates{
		Cover: make([]float64, lawns), Season: make([]float64, lawns*Lasting), Early: make([]float64, lawns),
		Zone: grid(zones, lawns), Grass: held,
	}
	for t := range f.Parts {
		f.Parts[t] = make([]float64, lawns*len(held))
	}
	winter := 0
	if s.Winter {
		winter = 1
	}
	cols := make([][]column, n+1) // of a zone
	for z, st := range e.stands {
		if st.share == 0 {
			continue
		}
		for _, g := range held {
			cols[g] = e.column(g, z, winter)
		}
		if !e.Weeded {
			cols[n] = e.column(n, z, winter)
		}
		for i := range e.Lawns {
			e.follow(&f, i, z, s, cols, worth)
		}
	}
	return f
}

// standing tells whether a grass stands on any lawn before anything is sown.
func (e *Ensemble) standing(g int) bool {
	if e.Standing == nil {
		return false
	}
	for z, st := range e.stands {
		for i := range e.Lawns {
			if st.share > 0 && e.Standing(i, z)[g] > 0 {
				return true
			}
		}
	}
	return false
}

// held are the grasses that a lawn of a sowing may come to hold, and worth is what each of
// the pool counts for in it.
func (e *Ensemble) held(s *Sowing) (held []int, worth []float64) {
	worth = make([]float64, len(e.pool))
	sown := 0
	for g, sp := range e.pool {
		plants := sown < len(s.Grass) && s.Grass[sown] == g
		if plants {
			sown++
		}
		stands := e.standing(g)
		worth[g] = volunteerWorth
		if plants || stands && !sp.Invader {
			worth[g] = 1
		}
		if plants || stands || sp.Values[species.Volunteer].High > 0 {
			held = append(held, g)
		}
	}
	return held, worth
}

// follow runs a sowing in one zone of one lawn.
// It runs for every mixture tried, lawn and zone: one piece, so that nothing is passed about.
//
//gocyclo:ignore
func (e *Ensemble) follow(f *Fates, lawn, zone int, s *Sowing, cols [][]column, worth []float64) {
	st, p, h := e.stands[zone], &e.places[lawn*len(e.stands)+zone], &e.history
	h.clear()
	h.ownKind = e.scales.OwnKind
	sown := 0
	var stood []float64
	if e.Standing != nil {
		stood = e.Standing(lawn, zone)
	}
	for _, g := range f.Grass {
		c := &cols[g][lawn]
		var plants, standing float64
		if sown < len(s.Grass) && s.Grass[sown] == g {
			plants = s.Plants[sown]
			sown++
		}
		if stood != nil {
			standing = stood[g]
		}
		h.add(g, plants, standing, worth[g], &c.figures)
	}
	if weeds := cols[len(e.pool)]; weeds != nil {
		h.weeds = h.n
		h.add(len(e.pool), 0, 0, e.weeds, &weeds[lawn].figures)
	}
	winter := 0
	if s.Winter {
		winter = 1
	}
	capacity := h.capacity // of an ordinary year
	h.shift(&capacity, p.cover[winter])
	h.settle()
	f.Early[lawn] += st.share * h.early
	h.begin()
	if s.Winter {
		for i := range h.n {
			h.x[i] *= power(cols[h.grass[i]][lawn].before, juvenile)
		}
	}
	for t := range Seasons {
		k := t + winter
		left, growth := 1.0, st.years[(e.Lawns[lawn].Start+k)%len(st.years)].growth
		h.shift(&capacity, p.cover[k])
		for i := range h.n {
			c := &cols[h.grass[i]][lawn]
			h.gain[i], h.summer[i] = c.gain[t], c.summer[t]
		}
		if t == 0 {
			left = s.Season
			if st.first != nil {
				growth = st.first[(e.Lawns[lawn].Start+k)%len(st.first)].growth
			}
			for i := range h.n {
				h.gain[i] = power(h.gain[i], left)
			}
		}
		lowest := h.season(fullGrowth*growth*p.growth*left, left)
		parts := f.Parts[t][lawn*len(f.Grass):]
		for i := range f.Grass {
			parts[i] += st.share * h.x[i]
		}
		area := st.share / float64(len(e.Lawns))
		if h.weeds < h.n {
			f.Weeds[t] += area * h.x[h.weeds]
		}
		f.Moss[t] += area * h.moss
		autumn := h.wanted()
		for i := range h.n {
			h.x[i] *= cols[h.grass[i]][lawn].winter[t]
		}
		h.greenOver(st.moss)
		if t >= lasting-1 {
			spring := h.wanted()
			f.Zone[zone][lawn] += (autumn + spring) / (2 * Lasting)
			f.Season[lawn*Lasting+t-(lasting-1)] += st.share * (lowest + autumn + spring) / 3
		}
	}
	f.Cover[lawn] += st.share * f.Zone[zone][lawn]
}

// Seasons sums the fates up by season: the middle lawn's cover, that of one in ten, and
// the shares over all. ids are of the pool.
func (f *Fates) Seasons(ids []string) (out [Seasons]Season) {
	n, lawns := len(f.Grass), len(f.Cover)
	for t := range out {
		covers, by, all := make([]float64, lawns), make([]float64, n), 0.0
		for i := range lawns {
			for k, x := range f.Parts[t][i*n : (i+1)*n] {
				covers[i] += x
				by[k] += x
				all += x
			}
		}
		slices.Sort(covers)
		out[t] = Season{Year: t + 1, Cover: weather.Percentile(covers, 0.5), BadCover: weather.Percentile(covers, badYear), Weeds: f.Weeds[t], Moss: f.Moss[t], Shares: map[string]float64{}}
		for k, g := range f.Grass {
			if by[k] > 0 {
				out[t].Shares[ids[g]] = 100 * by[k] / all
			}
		}
	}
	return out
}

// Life is each grass's share of the living sward of a lawn, mean of its seasons, in
// the order of Grass.
func (f *Fates) Life(lawn int) []float64 {
	n := len(f.Grass)
	life := make([]float64, n)
	for t := range f.Parts {
		parts := f.Parts[t][lawn*n : (lawn+1)*n]
		total := 0.0
		for _, x := range parts {
			total += x
		}
		for i, x := range parts {
			life[i] += x / max(total, leastFit) / Seasons
		}
	}
	return life
}

// shift moves the capacities on their logit, by e to the power of minus the shift.
func (h *history) shift(capacity *[maxGrass]float64, by float64) {
	for i := range h.n {
		c := capacity[i]
		h.capacity[i] = c / (c + (1-c)*by)
	}
}

// grid is a table of zeros.
func grid(rows, columns int) [][]float64 {
	v := make([]float64, rows*columns)
	out := make([][]float64, rows)
	for i := range out {
		out[i] = v[i*columns : (i+1)*columns : (i+1)*columns]
	}
	return out
}

// stream is the random stream of a grass, its own whatever else the pool holds.
func stream(id string) uint64 {
	h := fnv.New64a()
	h.Write([]byte(id))
	return h.Sum64()
}
