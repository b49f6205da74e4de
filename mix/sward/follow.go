package sward

import (
	"slices"

	"github.com/samber/lo"

	"swardwright/internal/arith"
	"swardwright/internal/steady"
	"swardwright/site/weather"
)

// maxGrass is the most grasses one history holds: those sown, standing and
// coming in by themselves.
const maxGrass = 32

// Outcome is what a sowing becomes.
type Outcome struct {
	Early     float64   // cover of the sown and standing grasses after eight weeks of growth
	Young     float64   // of wanted grasses before season lasting: mean of summer's low, autumn and the spring after
	Expected  float64   // of wanted grasses, season lasting on: mean of autumn and the spring after
	Summer    float64   // the same at summer's low
	BadYear   float64   // mean of all three, 10th percentile of the years
	Volunteer float64   // cover of volunteers, season lasting on
	Zone      []float64 // Expected by zone
	Shares    []float64 // by grass of the pool: mean share of the living sward, season lasting on
	Life      []float64 // the same over all seasons
	Seasons   [Seasons]Season
}

// Follower runs the model on one field. It keeps its working memory between
// runs and is not safe for use by several goroutines at once.
type Follower struct {
	Field  *Field
	Starts []int // first years of the histories followed
	Detail bool  // fill in Outcome.Seasons with its maps

	history history
	young   young
	worth   []float64   // by grass
	byArea  []float64   // wanted cover over zones, by history and lasting season
	cover   [][]float64 // by season: total cover by history
	share   []float64   // by season and grass: cover summed over histories and zones
	spare   []float64
}

// young is what the first winter and season of a sowing bring, by zone, history and
// grass: powers that every mixture tried has in common.
type young struct {
	season float64
	winter bool
	gain   []float64 // over half of what is left of the first season
	losses []float64 // share that outlasts a winter before it
}

// prepare works them out, unless the last run had the same.
func (y *young) prepare(f *Follower, s *Sowing) {
	if y.gain != nil && y.season == s.Season && y.winter == s.Winter {
		return
	}
	*y = young{season: s.Season, winter: s.Winter}
	n := len(f.Field.IDs)
	for zi := range f.Field.Zones {
		z := &f.Field.Zones[zi]
		for _, year := range f.Starts {
			if s.Winter {
				for g := range n {
					y.losses = append(y.losses, power(float64(z.Winter[year*n+g]), juvenile))
				}
				year = (year + 1) % f.Field.Years
			}
			for g := range n {
				y.gain = append(y.gain, power(float64(z.firstGain()[year*n+g]), s.Season))
			}
		}
	}
}

// firstGain is the gain of a first season.
func (z *Zone) firstGain() []float32 {
	if z.First != nil {
		return z.First.Gain
	}
	return z.Gain
}

// Worth is what cover by each grass counted for in the last run: 1 for one that
// was sown or stood there, less for one that came in by itself.
func (f *Follower) Worth() []float64 { return f.worth }

// Starts is n first years spread evenly over years.
func Starts(years, n int) []int {
	n = min(n, years)
	s := make([]int, n)
	for i := range s {
		s[i] = i * years / n
	}
	return s
}

// Follow runs every history and sums up. It is the loop under every mixture that is tried, in
// one piece so that nothing is passed about.
func (f *Follower) Follow(s *Sowing) Outcome {
	n, histories, zones := len(f.Field.IDs), len(f.Starts), len(f.Field.Zones)
	const counted = Seasons - lasting + 1
	f.prepare(n, histories, zones)
	f.young.prepare(f, s)
	for g := range f.worth {
		f.worth[g] = volunteerWorth
		if f.Field.stands(g) && !f.Field.Invader[g] {
			f.worth[g] = 1
		}
	}
	for _, g := range s.Grass {
		f.worth[g] = 1
	}
	out := Outcome{
		Zone:   make([]float64, zones),
		Shares: make([]float64, n),
		Life:   make([]float64, n),
	}
	for zi := range f.Field.Zones {
		z := &f.Field.Zones[zi]
		h := &f.history
		h.establish(z, s, f.worth, f.Field.ownKind)
		out.Early += z.Share * h.early
		for hi, start := range f.Starts {
			h.begin()
			year := start
			first := (zi*histories + hi) * n
			if s.Winter {
				lose(h, f.young.losses[first:])
				year = (year + 1) % f.Field.Years
			}
			for t := range Seasons {
				left, growth, summer := 1.0, z.Growth, z.Summer
				if t == 0 {
					left = s.Season
					pick(h, &h.gain, f.young.gain[first:])
					if z.First != nil {
						growth, summer = z.First.Growth, z.First.Summer
					}
				} else {
					pick(h, &h.gain, z.Gain[year*n:])
				}
				pick(h, &h.summer, summer[year*n:])
				lowest := h.season(float64(growth[year])*left, left)
				f.cover[t][hi] += z.Share * h.record(f.share[t*n:(t+1)*n], z.Share)
				autumn := h.wanted()
				lose(h, z.Winter[year*n:])
				spring := h.wanted()
				v := (lowest + autumn + spring) / 3
				if t < lasting-1 {
					out.Young += z.Share * v / float64(histories*(lasting-1))
				} else {
					out.Zone[zi] += (autumn + spring) / 2 / float64(histories*counted)
					out.Summer += z.Share * lowest / float64(histories*counted)
					f.byArea[hi*counted+t-(lasting-1)] += z.Share * v
				}
				year = (year + 1) % f.Field.Years
			}
		}
		out.Expected += z.Share * out.Zone[zi]
	}
	out.BadYear = f.percentile(f.byArea, badYear)
	f.shares(&out, n, histories)
	return out
}

// shares turns summed covers into shares of the living sward.
func (f *Follower) shares(out *Outcome, n, histories int) {
	var late float64
	for t := range Seasons {
		row := f.share[t*n : (t+1)*n]
		var total float64
		for _, x := range row {
			total += x
		}
		if total > 0 {
			for g, x := range row {
				out.Life[g] += x / total / Seasons
			}
		}
		if t >= lasting-1 {
			late += total
			for g, x := range row {
				out.Shares[g] += x
				if f.worth[g] < 1 {
					out.Volunteer += x
				}
			}
		}
		if !f.Detail {
			continue
		}
		season := Season{Year: t + 1, Cover: mean(f.cover[t]), BadCover: f.percentile(f.cover[t], badYear), Shares: map[string]float64{}}
		for g, x := range row {
			if total > 0 && x > 0 {
				season.Shares[f.Field.IDs[g]] = 100 * x / total
			}
		}
		out.Seasons[t] = season
	}
	if late > 0 {
		for g := range out.Shares {
			out.Shares[g] /= late
		}
	}
	out.Volunteer /= float64(histories * (Seasons - lasting + 1))
}

func (f *Follower) prepare(n, histories, zones int) {
	const counted = Seasons - lasting + 1
	f.worth = zeroed(f.worth, n)
	f.byArea = zeroed(f.byArea, histories*counted)
	f.share = zeroed(f.share, Seasons*n)
	if f.cover == nil {
		f.cover = make([][]float64, Seasons)
	}
	for t := range f.cover {
		f.cover[t] = zeroed(f.cover[t], histories)
	}
}

// zeroed is s, or a new slice, with n zero values.
func zeroed[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	s = s[:n]
	clear(s)
	return s
}

func mean(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	var sum float64
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}

// percentile is the value below which the share p of v lies.
func (f *Follower) percentile(v []float64, p float64) float64 {
	f.spare = append(f.spare[:0], v...)
	slices.Sort(f.spare)
	return weather.Percentile(f.spare, p)
}

// history is the state of one zone through one run of years. Only the grasses
// that can occur are held, packed at the front of each array, and weeds after them.
type history struct {
	n       int // grasses held
	weeds   int // the place of weeds; none where it is n or more
	early   float64
	moss    float64
	ownKind float64 // see [Scales]

	grass                  [maxGrass]int
	first, x               [maxGrass]float64
	capacity, spread       [maxGrass]float64
	volunteer, claim, pull [maxGrass]float64
	gain, summer           [maxGrass]float64 // of the season at hand
	value                  [maxGrass]float64 // of its cover: what it is worth and how long it is green
	volunteers             bool
}

// establish sets a zone up as it is after establishment.
func (h *history) establish(z *Zone, s *Sowing, worth []float64, ownKind float64) {
	h.clear()
	h.ownKind = ownKind
	sown := 0
	for g := range z.Capacity {
		var plants, cover float64
		if sown < len(s.Grass) && s.Grass[sown] == g {
			plants = s.Plants[sown]
			sown++
		}
		if z.Standing != nil {
			cover = z.Standing[g]
		}
		if plants == 0 && cover == 0 && z.Volunteer[g] == 0 {
			continue
		}
		h.add(g, plants, cover, worth[g], &figures{capacity: z.Capacity[g], claim: z.Claim[g], spread: z.Spread[g], green: z.Green[g], volunteer: z.Volunteer[g]})
	}
	h.settle()
}

func (h *history) clear() {
	h.n, h.weeds, h.early, h.volunteers, h.ownKind = 0, maxGrass, 0, false, 0
}

// add holds one grass more: its plants that come up, what stands of it, what its cover
// is worth and its figures.
func (h *history) add(g int, plants, cover, worth float64, f *figures) {
	if h.n == maxGrass {
		return
	}
	i := h.n
	h.n++
	h.grass[i] = g
	h.first[i] = cover
	h.capacity[i] = f.capacity
	h.spread[i] = f.spread
	h.volunteer[i] = f.volunteer
	h.volunteers = h.volunteers || f.volunteer > 0
	h.claim[i] = f.claim * plants
	h.value[i] = worth * f.green
}

// settle lets what was sown take the gaps of what stands.
func (h *history) settle() {
	var demand, standing float64
	for i := range h.n {
		demand += h.claim[i]
		standing += h.first[i]
	}
	amongOwn(h.claim[:h.n], h.ownKind)
	gap := max(0, 1-standing)
	for i := range h.n {
		h.first[i] += gap * h.capacity[i] * h.claim[i] / (1 + demand)
		h.early += h.first[i]
	}
}

// amongOwn lets seedlings lose ground to other kinds by how much of the whole their own claims.
func amongOwn(claims []float64, ownKind float64) {
	all := lo.Sum(claims)
	if ownKind == 0 || all == 0 {
		return
	}
	left := 0.0
	for i, c := range claims {
		claims[i] *= all / (all + ownKind*c)
		left += claims[i]
	}
	for i := range claims {
		claims[i] *= all / left
	}
}

// begin starts the first season. Volunteers together take no more of a gap than there is.
func (h *history) begin() {
	h.x, h.moss = h.first, 0
	all := 0.0
	for _, v := range h.volunteer[:h.n] {
		all += v
	}
	if all > 1 {
		for i := range h.n {
			h.volunteer[i] /= all
		}
	}
}

// season is one growing season, or the share of it that is left: half its growth
// closes what winter opened, then come summer's losses, the volunteers and the
// other half. It returns the cover at its lowest, weighed by worth.
func (h *history) season(growth, left float64) (lowest float64) {
	lowest = h.untilSummer(growth, left)
	h.untilAutumn(growth, left)
	return lowest
}

// untilSummer is the first half of a season, summer's losses and all. It returns the
// cover then, weighed by worth, before volunteers come in.
func (h *history) untilSummer(growth, left float64) (lowest float64) {
	h.close(growth/2, left/2)
	var total float64
	x := h.x[:h.n]
	for i, survive := range h.summer[:len(x)] {
		if left < 1 {
			survive = 1 - left*(1-survive)
		}
		x[i] *= survive
		total += x[i]
	}
	lowest = h.wanted()
	if h.volunteers {
		gap := arith.Most(0, 1-total) * left
		for i, v := range h.volunteer[:len(x)] {
			x[i] += gap * v
		}
	}
	return lowest
}

// untilAutumn is the other half.
func (h *history) untilAutumn(growth, left float64) {
	h.close(growth/2, left/2)
	h.moss = arith.Least(h.moss, h.gap())
}

// gap is the ground that nothing covers but moss.
func (h *history) gap() float64 {
	gap := 1.0
	for _, x := range h.x[:h.n] {
		gap -= x
	}
	return arith.Most(0, gap)
}

// close lets the sward close, or thin, towards what the place can carry, and the
// grasses shift against each other, over a part of a season.
func (h *history) close(growth, part float64) {
	var total, weight, capacity, spread float64
	crowding := h.crowding(part)
	x := h.x[:h.n] // and as many of the others, so that no place is checked within the loops
	gains, capacities, spreads, pull := h.gain[:len(x)], h.capacity[:len(x)], h.spread[:len(x)], h.pull[:len(x)]
	own, all := h.ownKind*part, 0.0
	if own > 0 {
		all = lo.Sum(x)
	}
	for i, covered := range x {
		w := covered * gains[i]
		if all > 0 && i != h.weeds {
			w *= all / (all + own*covered)
		}
		if i == h.weeds {
			w *= crowding
		}
		pull[i] = w
		total += covered
		weight += w
		capacity += w * capacities[i]
		spread += w * spreads[i]
	}
	if total <= 0 || weight <= 0 {
		return
	}
	capacity /= weight
	next := total
	if total < capacity {
		next += (capacity - total) * (1 - steady.Exp(-closing*spread/weight*growth))
	} else {
		next = capacity + (total-capacity)*steady.Exp(-thinning*part)
	}
	kept := arith.Least(total, next) / weight
	won := 0.0
	if next > total && spread > 0 {
		won = (next - total) / spread
	}
	for i, w := range pull {
		x[i] = w * (kept + won*spreads[i])
	}
}

// pick takes the figures of the grasses held out of those of the pool.
func pick[T float32 | float64](h *history, into *[maxGrass]float64, from []T) {
	for i, g := range h.grass[:h.n] {
		into[i] = float64(from[g])
	}
}

// lose leaves of each grass the share that outlasts a winter.
func lose[T float32 | float64](h *history, survive []T) {
	for i, g := range h.grass[:h.n] {
		h.x[i] *= float64(survive[g])
	}
}

// record sums the cover up and adds it by grass, for a share of the lawn's area, to
// into.
func (h *history) record(into []float64, share float64) (total float64) {
	grass := h.grass[:h.n]
	for i, x := range h.x[:len(grass)] {
		total += x
		into[grass[i]] += share * x
	}
	return total
}

// wanted is the cover, weighed by its value.
func (h *history) wanted() (cover float64) {
	value := h.value[:h.n]
	for i, x := range h.x[:len(value)] {
		cover += x * value[i]
	}
	return cover
}
