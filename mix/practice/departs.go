package practice

// Departure is a share in which a mixture departs from a recommendation.
type Departure struct {
	Of        []string // kinds of grass, or single ones by name
	Percent   float64  // in the mixture
	Low, High float64  // as published
}

// A mixture meets a recommendation when no share is further from it than a seedsman's
// reckoning: sharePoints of a published share, leftOut of a grass that isn't sown.
const (
	sharePoints = 10.0
	leftOut     = 5.0
)

// Departures are the shares in which a mixture departs from a recommendation; none
// where it meets it. Grasses are by their places in the species table.
func (t *Table) Departures(r *Row, grass []int, percent []float64) []Departure {
	shares := make([]float64, len(t.sets))
	t.shares(shares, grass, percent)
	w := &r.wants
	out := beyond(r.Sows, w.all, shares)
	if len(w.any) > 0 {
		best := beyond(r.Any[0], w.any[0], shares)
		for i := range w.any[1:] {
			if d := beyond(r.Any[i+1], w.any[i+1], shares); len(d) < len(best) {
				best = d
			}
		}
		out = append(out, best...)
	}
	if w.leads != 0 {
		most := 0.0
		for _, rival := range w.rivals {
			most = max(most, shares[rival])
		}
		if shares[w.leads] <= most {
			out = append(out, Departure{r.Leads, shares[w.leads], min(100, most+sharePoints), 100})
		}
	}
	for i, h := range w.holds {
		if shares[h] == 0 {
			out = append(out, Departure{r.Contains[i], 0, heldPercent, 100})
		}
	}
	if shares[w.never] > leftOut {
		out = append(out, Departure{r.Never, shares[w.never], 0, 0})
	}
	return out
}

// beyond are the bands that shares lie clearly outside of.
func beyond(published []Band, bands []band, shares []float64) (out []Departure) {
	for i, b := range bands {
		if s := shares[b.set]; s < b.low-sharePoints || s > b.high+sharePoints {
			out = append(out, Departure{published[i].Of, s, b.low, b.high})
		}
	}
	return out
}

// Amiss is how far a mixture is from a recommendation, 0 to about 1.
func (t *Table) Amiss(r *Row, grass []int, percent []float64) float64 {
	shares := make([]float64, len(t.sets))
	t.shares(shares, grass, percent)
	return r.wants.amiss(shares)
}
