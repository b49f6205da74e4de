package record

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/samber/lo"

	"swardwright/internal/told"
	"swardwright/species"
)

// sighting is something seen as the model is asked for it.
type sighting struct {
	*Seen
	moment   int
	zones    []int
	area     []float64 // by such zone
	kinds    []kind
	hits     []int   // by kind
	design   float64 // of all points …
	ofDesign float64 // … and of the hits on grasses
	observer int     // in the vector of a lawn; -1: none
	anything float64 // see guarded: of the finding …
	flat     float64
	anyOf    float64 // … and of the kinds of grass in it

	days     float64     // since the sowing of seedlings, or of what was cut …
	comes    []float64   // … and as expected, by lawn
	since    float64     // day on which seedlings were seen up that were cut
	keptMM   float64     // height that a first cut is for
	mould    [][]float64 // by zone: see sward.Past.Mould
	autumn   int         // moment before the winter of the mould; -1: nothing stood then
	sunHours float64     // by the site
}

// kind are grasses that were not told apart in a count.
type kind struct {
	name    string
	members []int       // index among the grasses held
	group   string      // of all of them, or empty
	shown   told.Figure // its name as the reader's language has it
}

// likelihood is how likely something seen is on a member.
func (l *lawn) likelihood(s *sighting, m *member) float64 {
	log := 0.0
	switch {
	case s.Points > 0:
		covers := l.covers(s, m.run)
		log = guarded(binomial(s.Grass, s.Points, min(lo.Sum(covers), 1), s.design), s.anything, s.flat)
		if len(s.kinds) > 0 {
			var shares [maxKinds]float64
			log += guarded(multinomial(s.hits, s.shares(covers, shares[:0]), s.ofDesign), s.anyOf, s.flat)
		}
		return log
	case s.CoverPercent != nil:
		log = byEye(*s.CoverPercent, lo.Sum(l.covers(s, m.run)), m.z[s.observer])
	case s.comes != nil:
		early, late := s.daysSD(s.comes[m.of])
		log, _ = split(s.days-s.comes[m.of], early, late)
	case s.SnowMouldPercent != nil && s.autumn >= 0:
		log = normal(mouldy(*s.SnowMouldPercent/100), mouldy(l.mouldOf(s, m.of, m.run)), mouldSD)
	case s.SunHours != nil:
		log = normal(math.Log(max(*s.SunHours, leastHours)/s.sunHours), math.Log(l.past.Light(m.of)), sunSD)
	default:
		return 0
	}
	return guarded(log, s.anything, s.flat)
}

// leastHours is what no hours of sun count as less than.
const leastHours = 0.1

// maxKinds bounds the kinds told apart in one count that need no memory of their own.
const maxKinds = 32

// covers are those of the grasses held where it was seen.
func (l *lawn) covers(s *sighting, run []float64) []float64 {
	if len(s.zones) == 1 {
		return l.past.Covers(run, s.moment, s.zones[0])
	}
	out := make([]float64, len(l.past.Grass))
	for i, z := range s.zones {
		for k, x := range l.past.Covers(run, s.moment, z) {
			out[k] += s.area[i] * x
		}
	}
	return out
}

// shares are those of the kinds told apart, with the hits that are taken for another.
// It runs for every lawn that may be and every sighting, in the room it is given.
//
//gocyclo:ignore
func (s *sighting) shares(covers, into []float64) []float64 {
	total := 0.0
	for _, k := range s.kinds {
		x := 0.0
		for _, at := range k.members {
			x += covers[at]
		}
		into = append(into, x)
		total += x
	}
	n := len(into)
	for i := range into {
		if total <= 0 {
			into[i] = 1 / float64(n)
		} else {
			into[i] /= total
		}
	}
	if n == 1 {
		return into
	}
	var mixed [maxKinds]float64
	out := mixed[:0]
	for range into {
		out = append(out, 0)
	}
	for i, x := range into {
		akin, others := 0, 0
		for j := range s.kinds {
			switch {
			case s.akin(i, j):
				akin++
			case i != j && s.kinds[j].name != "": // nobody takes a grass for one he doesn't name
				others++
			}
		}
		stays := 1.0
		if akin > 0 {
			stays -= withinKind
		}
		if others > 0 {
			stays -= betweenKinds
		}
		for j := range out {
			switch {
			case i == j:
				out[j] += stays * x
			case s.akin(i, j):
				out[j] += withinKind * x / float64(akin)
			case s.kinds[j].name != "":
				out[j] += betweenKinds * x / float64(others)
			}
		}
	}
	copy(into, out)
	return into
}

// akin tells whether two kinds are of one group.
func (s *sighting) akin(i, j int) bool {
	return i != j && s.kinds[i].group != "" && s.kinds[i].group == s.kinds[j].group
}

// mouldOf is the share of the sward that snow mould takes on a member.
func (l *lawn) mouldOf(s *sighting, of int, run []float64) float64 {
	n := len(l.past.Grass)
	var lost, all float64
	for i, z := range s.zones {
		for k, x := range l.past.Covers(run, s.autumn, z) {
			lost += s.area[i] * x * (1 - s.mould[i][of*n+k])
			all += s.area[i] * x
		}
	}
	if all == 0 {
		return 0
	}
	return lost / all
}

// said is what was seen, for an order among sightings of one day and place.
func (s *sighting) said() string {
	v := *s.Seen
	v.Key, v.At = "", nil
	hits := ""
	for _, f := range v.Of {
		hits += fmt.Sprint(f.Name, f.Hits)
	}
	v.Of = nil
	number := func(x *float64) string {
		if x == nil {
			return ""
		}
		return fmt.Sprint(*x)
	}
	return fmt.Sprint(v.Points, v.Grass, v.Moss, v.Weeds, v.Bare, v.Layout, v.By, hits, v.Up, v.FirstCut,
		number(v.CoverPercent), number(v.SnowMouldPercent), number(v.SunHours), number(v.MowingMM))
}

// tell sorts the hits of a count by the kinds that can be told apart in it.
func (l *lawn) tell(s *sighting) {
	if len(s.Of) == 0 {
		return
	}
	all, named := 0, map[int]bool{}
	for _, f := range s.Of {
		k := kind{name: f.Name}
		for _, sp := range f.Of {
			if at, ok := slices.BinarySearch(l.past.Grass, slices.Index(l.pool, sp)); ok {
				k.members = append(k.members, at)
				named[at] = true
			}
		}
		k.group = groupOf(f.Of)
		k.shown = l.named(f, k.members)
		all += f.Hits
		// Fine-leaved fescues are not told apart reliably: they count as one.
		if i := slices.IndexFunc(s.kinds, func(o kind) bool { return o.group == k.group && k.group == fineFescue }); i >= 0 {
			s.kinds[i].members = append(s.kinds[i].members, k.members...)
			s.kinds[i].name += " + " + k.name
			s.kinds[i].shown = told.Term{Kind: "group", Word: fineFescue}
			s.hits[i] += f.Hits
			continue
		}
		s.kinds, s.hits = append(s.kinds, k), append(s.hits, f.Hits)
	}
	// Where every hit was told apart the grasses not named were not there; but those that come
	// by themselves are often overlooked.
	if all == s.Grass {
		var rest kind
		for at, g := range l.past.Grass {
			if !named[at] && l.pool[g].Values[species.Volunteer].High == 0 {
				rest.members = append(rest.members, at)
			}
		}
		if len(rest.members) > 0 {
			s.kinds, s.hits = append(s.kinds, rest), append(s.hits, 0)
		}
	}
	if len(s.kinds) == 1 || len(s.kinds) > maxKinds {
		s.kinds, s.hits = nil, nil
	}
}

// named is the name of what was found: of one grass, of the group of all that it may be here, or as written.
func (l *lawn) named(f Found, members []int) told.Figure {
	if len(f.Of) == 1 {
		return told.Grass(f.Of[0].ID)
	}
	groups := lo.Uniq(lo.Map(members, func(at int, _ int) string { return l.pool[l.past.Grass[at]].Group }))
	if len(groups) > 1 { // fine and tall fescue are fescue
		groups = lo.Uniq(lo.Map(groups, func(g string, _ int) string { return g[strings.LastIndexByte(g, ' ')+1:] }))
	}
	if len(groups) != 1 || groups[0] == "other" {
		return told.Verbatim(f.Name)
	}
	return told.Term{Kind: "group", Word: groups[0]}
}

const fineFescue = "fine fescue"

// groupOf is the group of several grasses; empty where they are of several.
func groupOf(of []*species.Species) string {
	for _, sp := range of {
		if sp.Group != of[0].Group {
			return ""
		}
	}
	if len(of) == 0 {
		return ""
	}
	return of[0].Group
}
