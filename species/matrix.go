package species

import (
	"cmp"
	"context"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"

	"swardwright/internal/told"
	"swardwright/site"
)

// Class is a suitability class of the FAO Framework for Land Evaluation (1976).
type Class string

// The classes, best first.
const (
	S1 Class = "S1" // highly suitable
	S2 Class = "S2" // moderately
	S3 Class = "S3" // marginally
	N1 Class = "N1" // not at present
	N2 Class = "N2" // not at all
)

// Rating is one cell of the matrix with its reason.
type Rating struct {
	Criterion string        // id
	Value     float64       // 0 to 1
	Figure    told.Sentence // what the site offers
	Limits    told.Sentence // what the grass needs
	Source    string        // of the limits
	Basis     Basis         // the weakest among them
}

// Row is one species in one zone.
type Row struct {
	Species   *Species
	Zone      int
	Ratings   []Rating // one a criterion, in the order of Criteria
	Overall   float64
	Class     Class
	LimitedBy string // id of the limiting criterion

	ClassChance  map[Class]float64 // over draws within the ranges of traits and site
	LeaderChance float64           // share of draws in which it is among the leading five of its zone
	Sureness     string            // of its class: "sure", "likely", "could go either way"
}

// Matrix rates every species in every zone.
type Matrix struct {
	Criteria []Criterion
	Rows     []Row // by zone, then best first
}

// Leaders is how many grasses of a zone count as leading.
const Leaders = 5

// The least chance of a class with which a plan calls it sure, and likely.
const leastSure, leastLikely = 0.80, 0.50

func sureness(chance float64) string {
	switch {
	case chance >= leastSure:
		return "sure"
	case chance >= leastLikely:
		return "likely"
	}
	return "could go either way"
}

// What the models of a site may be wrong by: the least and greatest of a
// triangular distribution about no error. Own figures, no published source.
const (
	crownOffC   = 1.5
	phOffKnown  = 0.2
	phOffUnsure = 0.7
	wetOff      = 0.3  // share of the wet time
	quantileYrs = 16   // years that stand for all in the draws
	siteStream  = 0x51 // of the generator, apart from those of the species
)

// rate rates every grass of the table in every zone. The chances rest on so many
// draws from the ranges of the traits and of the site; with none they are those
// of the best figures alone. The same seed gives the same matrix, whatever the
// order of the table.
func Rate(ctx context.Context, table *Table, c *site.Conditions, use Use, draws int, seed uint64) (Matrix, error) {
	m := Matrix{Criteria: Criteria}
	all := table.All()
	traits := make([][]Traits, len(all))
	for i, sp := range all {
		r := rand.New(rand.NewPCG(seed, stream(sp.ID)))
		traits[i] = make([]Traits, draws)
		for d := range traits[i] {
			traits[i][d] = sp.draw(r)
		}
	}
	site := rand.New(rand.NewPCG(seed, siteStream))
	off := make([]deviation, draws)
	for d := range off {
		off[d] = deviate(site, c.Soil.PHKnown, c.Field.LogSD)
	}
	for zone := range c.Zones {
		s, err := newSetting(c, zone, use)
		if err != nil {
			return Matrix{}, err
		}
		rows := make([]Row, len(all))
		figures := make([]told.Sentence, len(Criteria))
		for i := range Criteria {
			figures[i] = Criteria[i].Figure(s)
		}
		for i, sp := range all {
			rows[i] = s.row(sp, zone, figures)
		}
		if err := s.chances(ctx, rows, traits, off); err != nil {
			return Matrix{}, err
		}
		slices.SortStableFunc(rows, func(a, b Row) int { return cmp.Compare(b.Overall, a.Overall) })
		m.Rows = append(m.Rows, rows...)
	}
	return m, nil
}

// row rates one grass by its best figures.
func (s *Setting) row(sp *Species, zone int, figures []told.Sentence) Row {
	row := Row{Species: sp, Zone: zone, Ratings: make([]Rating, len(Criteria))}
	scores := make([]float64, len(Criteria))
	for i := range Criteria {
		row.Ratings[i] = Criteria[i].rate(sp, s, figures[i])
		scores[i] = row.Ratings[i].Value
	}
	row.Overall = overall(scores)
	row.Class = ClassOf(row.Overall)
	row.LimitedBy = Criteria[limiting(scores)].ID
	row.ClassChance = map[Class]float64{row.Class: 1}
	row.Sureness = sureness(1)
	return row
}

// chances fills in what the draws say of each row of one zone. traits are by
// row and draw.
func (s *Setting) chances(ctx context.Context, rows []Row, traits [][]Traits, off []deviation) error {
	if len(off) == 0 {
		return nil
	}
	counts := make([]map[Class]int, len(rows))
	for i := range counts {
		counts[i] = map[Class]int{}
	}
	leads := make([]int, len(rows))
	thin := s.thin(quantileYrs)
	index := make([]float64, len(rows))
	order := make([]int, 0, len(rows))
	scores := make([]float64, len(Criteria))
	for d := range off {
		if err := ctx.Err(); err != nil {
			return err
		}
		thin.off = off[d]
		order = order[:0]
		for i := range rows {
			for k := range Criteria {
				scores[k] = Criteria[k].Score(&traits[i][d], thin)
			}
			index[i] = overall(scores)
			counts[i][ClassOf(index[i])]++
			if rows[i].Species.ForLawns() {
				order = append(order, i)
			}
		}
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(index[b], index[a]) })
		for _, i := range order[:min(Leaders, len(order))] {
			leads[i]++
		}
	}
	n := float64(len(off))
	for i := range rows {
		r := &rows[i]
		r.ClassChance = map[Class]float64{}
		for class, count := range counts[i] {
			r.ClassChance[class] = float64(count) / n
		}
		r.LeaderChance = float64(leads[i]) / n
		r.Sureness = sureness(r.ClassChance[r.Class])
	}
	return nil
}

// stream is the random stream of a species, its own whatever else the table holds.
func stream(id string) uint64 {
	h := fnv.New64a()
	h.Write([]byte(id))
	return h.Sum64()
}

// deviate draws how far the truth lies from what is known of a site, its light with the
// standard deviation that the site gives it.
func deviate(r *rand.Rand, phKnown bool, lightLogSD float64) deviation {
	between := func(most float64) float64 { return triangular(-most, 0, most, r.Float64()) }
	ph := phOffUnsure
	if phKnown {
		ph = phOffKnown
	}
	return deviation{light: math.Expm1(lightLogSD * r.NormFloat64()), crownC: between(crownOffC), ph: between(ph), wet: between(wetOff)}
}

// Row is one species in one zone.
func (m *Matrix) Row(id string, zone int) (Row, bool) {
	for _, r := range m.Rows {
		if r.Zone == zone && r.Species.ID == id {
			return r, true
		}
	}
	return Row{}, false
}

// Zone are the rows of one zone, best first.
func (m *Matrix) Zone(zone int) []Row {
	var rows []Row
	for _, r := range m.Rows {
		if r.Zone == zone {
			rows = append(rows, r)
		}
	}
	return rows
}

// Rating is the cell of one criterion.
func (r *Row) Rating(criterion string) (Rating, bool) {
	for _, x := range r.Ratings {
		if x.Criterion == criterion {
			return x, true
		}
	}
	return Rating{}, false
}
