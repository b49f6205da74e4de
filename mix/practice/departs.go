package practice

// Departure is a way in which a mixture departs from a recommendation.
type Departure struct {
	Ask       Ask
	Of        []string // kinds of grass, or single ones by name
	Percent   float64  // in the mixture
	Low, High float64  // as published, of a Share
}

// Ask is what a recommendation asks of some grasses.
type Ask int

// The asks.
const (
	Share   Ask = iota // a share within a band
	Lead               // more of them than of any other kind
	Part               // that they are in it
	Absence            // that they aren't
)

// A mixture meets a recommendation when no share is further from it than a seedsman's
// reckoning: sharePoints of a published share, leftOut of a grass that isn't sown.
const (
	sharePoints = 10.0
	leftOut     = 5.0
)

// Departures are the shares in which a mixture departs from a recommendation; none
// where it meets it. Grasses are by their places in the species table.
func (t *Table) Departures(r *Row, grass []int, percent []float64) []Departure {
	s, w := t.weigh(grass, percent), &r.wants
	out := beyond(r.Sows, w.all, &s)
	if len(w.any) > 0 {
		best := beyond(r.Any[0], w.any[0], &s)
		for i := range w.any[1:] {
			if d := beyond(r.Any[i+1], w.any[i+1], &s); len(d) < len(best) {
				best = d
			}
		}
		out = append(out, best...)
	}
	if w.leads != 0 {
		if lead := s.of[w.leads]; lead <= s.rival[w.rivals] {
			out = append(out, Departure{Ask: Lead, Of: r.Leads, Percent: lead})
		}
	}
	for i, h := range w.holds {
		if s.of[h] == 0 {
			out = append(out, Departure{Ask: Part, Of: r.Contains[i]})
		}
	}
	if sown := s.of[w.never]; sown > leftOut {
		out = append(out, Departure{Ask: Absence, Of: r.Never, Percent: sown})
	}
	return out
}

// beyond are the bands that shares lie clearly outside of.
func beyond(published []Band, bands []band, s *shares) (out []Departure) {
	for i, b := range bands {
		if x := s.of[b.set]; x < b.low-sharePoints || x > b.high+sharePoints {
			out = append(out, Departure{Share, published[i].Of, x, b.low, b.high})
		}
	}
	return out
}

// Amiss is how far a mixture is from a recommendation, 0 to about 1.
func (t *Table) Amiss(r *Row, grass []int, percent []float64) float64 {
	s := t.weigh(grass, percent)
	return r.wants.amiss(&s)
}
