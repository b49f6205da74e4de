package practice

import (
	"cmp"
	"math"
	"slices"

	"swardwright/species"
)

// Prior is published practice on one lawn. The zero Prior is none at all.
type Prior struct {
	lawn  Lawn
	table *Table
	rules []weighed
	rows  []Alike // the most like first
	total float64 // of their weights
}

// weighed is a rule with the degree to which a lawn is of its kinds.
type weighed struct {
	*Rule
	weight float64
	set    int
}

// Alike is a recommendation with how like its lawn is.
type Alike struct {
	*Row
	Likeness
	weight float64
}

// How rules and recommendations are weighed against each other and against the model:
// fitted so that recommendations are met best with all rows of their institution left
// out (docs/evidence.md).
const (
	rulesWeigh = 0.4 // of the sum of departures from the rules
	rowsWeigh  = 1.0 // of the mean departure from the recommendations
	softWeighs = 0.7 // a recommendation that isn't firm, beside one that is
	// sharpness is how much more the likest lawns are listened to than by their likeness
	// alone: what is published of lawns less alike is often of another kind of lawn.
	sharpness = 1.25
	// silence is the weight beside that of the rows with which they say nothing: where
	// nothing alike is published the model and the rules decide.
	silence = 0.3
	// forgiven is how far a mixture may be from a recommendation before being further
	// away counts less: a lawn is sown by one custom or another, and a compromise
	// between customs is neither.
	forgiven = 0.05
	// leastLike is the likeness below which a recommendation isn't asked.
	leastLike = 1e-4
)

// On is published practice on a lawn.
func (t *Table) On(l Lawn) *Prior {
	p := &Prior{lawn: l, table: t}
	degree := l.degrees()
	for i := range Rules {
		if w := Rules[i].weight(degree); w > 0 {
			p.rules = append(p.rules, weighed{&Rules[i], w, t.rules[i]})
		}
	}
	sum, most := map[string]float64{}, map[string]float64{}
	for i := range t.Rows {
		r := &t.Rows[i]
		a := Alike{Row: r, Likeness: LikenessOf(&l, &r.Lawn)}
		a.weight = math.Pow(a.Whole(), sharpness)
		if !r.Firm {
			a.weight *= softWeighs
		}
		if a.weight >= leastLike {
			p.rows = append(p.rows, a)
			sum[r.Institution] += a.weight
			most[r.Institution] = max(most[r.Institution], a.weight)
		}
	}
	// All that one body says of lawns like this counts as what it says of the likest.
	for i := range p.rows {
		a := &p.rows[i]
		a.weight *= most[a.Institution] / sum[a.Institution]
		p.total += a.weight
	}
	slices.SortStableFunc(p.rows, func(a, b Alike) int { return cmp.Compare(b.Whole(), a.Whole()) })
	return p
}

// Against is how far a mixture departs from practice: 0 for one as published
// everywhere on such lawns, about 1 for one as published nowhere. Grasses are by their
// places in the species table.
func (p *Prior) Against(grass []int, percent []float64) float64 {
	if p.table == nil {
		return 0
	}
	shares := p.table.weigh(grass, percent)
	var rules, rows float64
	for i := range p.rules {
		r := &p.rules[i]
		rules += r.weight * r.breach(shares.of[r.set]) / 100
	}
	for i := range p.rows {
		r := &p.rows[i]
		rows += r.weight * departure(r.wants.amiss(&shares))
	}
	return rulesWeigh*rules + rowsWeigh*rows/(p.total+silence)
}

// departure makes of what is amiss, 0 to 1, what counts, 0 to 1.
func departure(amiss float64) float64 { return (1 + forgiven) * amiss / (amiss + forgiven) }

// Wants are the sets of grasses that practice wants some of on this lawn, so that the
// search must at least consider one of each.
func (p *Prior) Wants() []Set {
	if p.table == nil {
		return nil
	}
	asked := make([]float64, len(p.table.sets))
	for i := range p.rules {
		r := &p.rules[i]
		asked[r.set] += r.weight * r.Low
	}
	for i := range p.rows {
		r := &p.rows[i]
		w := r.weight / (p.total + silence)
		for _, b := range r.wants.all {
			asked[b.set] += w * b.low
		}
		for _, a := range r.wants.any {
			for _, b := range a {
				asked[b.set] += w * b.low / float64(len(r.wants.any))
			}
		}
		asked[r.wants.leads] += w * leadPercent
		for _, h := range r.wants.holds {
			asked[h] += w * heldPercent
		}
	}
	var out []Set
	for i, a := range asked {
		if i > 0 && a >= worthAsking {
			out = append(out, p.table.sets[i])
		}
	}
	return out
}

// worthAsking is the mean share, percent, from which a set of grasses is worth a try.
const worthAsking = 2.0

// RuleFor is the rule that speaks loudest here for some of a grass, or for little
// or none of it; nil without one.
func (p *Prior) RuleFor(s *species.Species, some bool) *Rule {
	var best *weighed
	for i := range p.rules {
		r := &p.rules[i]
		if (r.Low > 0) == some && s.IsOf(r.Of) && (best == nil || r.weight > best.weight) {
			best = r
		}
	}
	if best == nil {
		return nil
	}
	return best.Rule
}
