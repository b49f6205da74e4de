package practice

import "slices"

// wants are what a row asks of a mixture, by the places of sets of grasses in the
// table; the place 0 is that of no grass.
type wants struct {
	all    []band
	any    [][]band
	leads  int
	rivals int // of leads
	holds  []int
	never  int
	rest   int // what shares that add up to a whole mixture don't name
}

type band struct {
	set       int
	low, high float64
}

// whole is the sum of published shares, percent, from which they are a whole mixture.
const whole = 85.0

// compile turns the names of a row into sets.
func (r *Row) compile(t *Table) error {
	var fault error
	set := func(names []string) Set {
		s, err := t.of(names)
		if err != nil && fault == nil {
			fault = err
		}
		return s
	}
	bands := func(published []Band) (out []band, named Set, sum float64) {
		for _, b := range published {
			s := set(b.Of)
			out = append(out, band{t.place(s), b.Low, b.High})
			named |= s
			sum += (b.Low + b.High) / 2
		}
		return out, named, sum
	}
	leads, never := set(r.Leads), set(r.Never)
	w := wants{leads: t.place(leads), never: t.place(never)}
	var named Set
	var sum float64
	w.all, named, sum = bands(r.Sows)
	var least []float64
	for _, a := range r.Any {
		bs, in, s := bands(a)
		w.any = append(w.any, bs)
		named |= in
		least = append(least, s)
	}
	if len(least) > 0 {
		sum += slices.Min(least)
	}
	if sum >= whole {
		w.rest = t.place((1<<len(t.grasses) - 1) &^ named &^ never)
	}
	if leads != 0 {
		w.rivals = t.against(leads)
	}
	for _, c := range r.Contains {
		w.holds = append(w.holds, t.place(set(c)))
	}
	r.wants = w
	return fault
}

// What a text means that gives no shares.
const (
	leadPercent = 70.0 // of a grass that it names first, at least
	leadBy      = 10.0 // more than of any other kind
	heldPercent = 5.0  // of a grass that it has in the mixture
)

// unnamed is how much a share counts of a grass that a whole mixture doesn't name: it
// stands in for one that does, whose own lack counts already.
const unnamed = 0.25

// amiss is how far a mixture is from what is wanted, in shares of the mixture: 0 for
// one as published, about 1 for one of quite other grasses.
func (w *wants) amiss(s *shares) float64 {
	v := outside(w.all, s)
	if len(w.any) > 0 {
		least := outside(w.any[0], s)
		for _, a := range w.any[1:] {
			least = min(least, outside(a, s))
		}
		v += least
	}
	if w.leads != 0 {
		lead := s.of[w.leads]
		v += max(0, leadPercent-lead) + max(0, s.rival[w.rivals]+leadBy-lead)
	}
	for _, h := range w.holds {
		v += max(0, heldPercent-s.of[h])
	}
	v += s.of[w.never] + unnamed*s.of[w.rest]
	return v / 200 // what is missing counts, and what stands in its place
}

// outside is by how many percent shares lie outside their bands.
func outside(bands []band, s *shares) (sum float64) {
	for i := range bands {
		b := &bands[i]
		x := s.of[b.set]
		sum += max(0, b.low-x, x-b.high)
	}
	return sum
}
