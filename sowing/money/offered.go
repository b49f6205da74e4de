package money

import "github.com/shopspring/decimal"

// Offered is what one group of a bill comes to in an offer.
type Offered struct {
	Group  Group
	Amount Amount
}

// Offered are the groups of a bill as a client is shown them: margin and discount
// spread over them by their size, so that they add up to the total less tax to the
// minor unit. Groups that cost nothing are left out.
func (b Bill) Offered() []Offered {
	var out []Offered
	var net int64
	for _, g := range Groups {
		if a := b.Of(g); a.Minor != 0 {
			out = append(out, Offered{g, a})
			net += a.Minor
		}
	}
	if net == 0 {
		return out
	}
	// Each group up to and with the k-th comes to its share of the whole, rounded;
	// the differences of these sums add up to the whole.
	whole := b.Total.Minor - b.Tax.Minor
	var sum, given int64
	for i := range out {
		sum += out[i].Amount.Minor
		upTo := share(whole, sum, net)
		out[i].Amount.Minor = upTo - given
		given = upTo
	}
	return out
}

// share is whole × part ÷ all, to the nearest unit, without overflow for any sum of
// money there is.
func share(whole, part, all int64) int64 {
	return decimal.NewFromInt(whole).Mul(decimal.NewFromInt(part)).DivRound(decimal.NewFromInt(all), 0).IntPart()
}
