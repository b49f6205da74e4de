package money

import "testing"

// TestOffered: whatever the margin, the groups of an offer add up to the total less
// tax, none changes its sign, and each is within a minor unit of its share.
func TestOffered(t *testing.T) {
	for _, c := range []struct {
		net                   []int64
		margin, discount, tax int64
	}{
		{[]int64{100, 200, 300}, 0, 0, 0}, {[]int64{100, 200, 300}, 90, 0, 138}, {[]int64{1, 1, 1}, 1, 0, 0},
		{[]int64{33333, 1, 66666}, 14999, 1200, 22000}, {[]int64{5}, 0, 5, 0}, {[]int64{900000000000000, 7}, 90000000000000, 0, 1},
	} {
		b := Bill{Net: Amount{Currency: "GBP"}}
		var net int64
		for i, n := range c.net {
			b.Lines = append(b.Lines, Line{Group: Groups[i], Amount: Amount{Minor: n, Currency: "GBP"}})
			net += n
		}
		b.Tax.Minor = c.tax
		b.Total.Minor = net + c.margin - c.discount + c.tax
		var sum int64
		for i, o := range b.Offered() {
			sum += o.Amount.Minor
			want := float64(c.net[i]) * float64(net+c.margin-c.discount) / float64(net)
			if d := float64(o.Amount.Minor) - want; d > 1 || d < -1 || o.Amount.Minor < 0 {
				t.Errorf("%v: group %d comes to %d, want %.1f", c, i, o.Amount.Minor, want)
			}
			if o.Amount.Currency != "GBP" {
				t.Errorf("%v: no currency", c)
			}
		}
		if sum != b.Total.Minor-c.tax {
			t.Errorf("%v: the groups add up to %d, want %d", c, sum, b.Total.Minor-c.tax)
		}
	}
	if got := (Bill{}).Offered(); len(got) != 0 {
		t.Errorf("an empty bill offers %v", got)
	}
}
