package report

import (
	"bytes"
	"context"
	"encoding/csv"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"swardwright/internal/told"
	"swardwright/sowing"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
)

// priced is a comparison with a lot of an awkward name.
func priced(t testing.TB, code, lot string) (money.Comparison, money.Prices) {
	t.Helper()
	list, err := tables(t).Prices.In(code, map[string]string{"discount_percent": "2.5", "tax_percent": "24"})
	if err != nil {
		t.Fatal(err)
	}
	day := func(m time.Month, d int) time.Time { return time.Date(2027, m, d, 0, 0, 0, 0, time.UTC) }
	work := []money.Quantity{{Item: told.Say("bed.stale"), Amount: 84.6, Unit: "m2", Key: "rake_m2_per_hour"}, {Item: told.Say("bed.item-topsoil"), Amount: 11.3, Unit: "m3", Key: "topsoil_per_m3"}}
	bags := func(areaM2 float64) []money.Bag {
		return []money.Bag{{Item: told.Say("money.seed-of", told.Verbatim(lot)), KG: 1, Count: 1 + int(areaM2/40), Price: money.Amount{Minor: 777, Currency: code}}}
	}
	sown := &money.Start{Cuts: 6, Success: 0.87, Litres: 2600, DryLitres: 6500}
	laid := &money.Start{Cuts: 2, Success: 0.93, Litres: 3700, DryLitres: 8800}
	july, may := day(7, 20), day(5, 18)
	c, err := money.Compare(context.Background(), []money.Input{
		{Way: job.BySeed, Prices: list, SownM2: 84.6, EdgingM: 37.3, Work: work, Seed: bags, Sowing: sown, UsableFrom: &july},
		{Way: job.ByTurf, Prices: list, LaidM2: 84.6, EdgingM: 37.3, Work: work, Laying: laid, UsableFrom: &may},
		{Way: job.BySeedAndTurf, Prices: list, SownM2: 22.9, LaidM2: 61.7, EdgingM: 37.3, Work: work, Seed: bags, Sowing: sown, Laying: laid, UsableFrom: &july},
	}, money.Offer{Prices: list, RandSeed: 1})
	if err != nil {
		t.Fatal(err)
	}
	return c, list
}

func TestCSVAddsUp(t *testing.T) {
	for _, code := range []string{"EUR", "NOK", "ISK", "KWD"} {
		c, list := priced(t, code, "lot 7")
		var b bytes.Buffer
		if err := CSV(&b, sowing.Plan{Cost: c}); err != nil {
			t.Fatal(err)
		}
		records, err := csv.NewReader(&b).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		if len(records) < 30 || strings.Join(records[0], ",") != "way,group,item,quantity,unit,rate,amount,currency,source" {
			t.Fatalf("%d records, the first %v", len(records), records[0])
		}
		places := int32(money.Digits(code))
		percent := func(key string, of decimal.Decimal) decimal.Decimal {
			x, _ := list.Get(key)
			return of.Mul(x.Best).Div(decimal.NewFromInt(100)).Round(places)
		}
		lines, sums := map[string]decimal.Decimal{}, map[string]map[string]decimal.Decimal{}
		for _, r := range records[1:] {
			way, amount := r[0], decimal.RequireFromString(r[6])
			switch r[1] {
			case csvSums:
				if sums[way] == nil {
					sums[way] = map[string]decimal.Decimal{}
				}
				sums[way][r[2]] = amount
			case csvRange:
			default:
				if product := decimal.RequireFromString(r[3]).Mul(decimal.RequireFromString(r[5])).Round(places); !product.Equal(amount) {
					t.Errorf("%s: %s × %s is %s, not %s", r[2], r[3], r[5], product, amount)
				}
				lines[way] = lines[way].Add(amount)
			}
		}
		if len(sums) != 3 {
			t.Errorf("%d ways, want 3", len(sums))
		}
		for way, s := range sums {
			net := lines[way]
			margin := percent("margin_percent", net)
			discount := percent("discount_percent", net.Add(margin))
			tax := percent("tax_percent", net.Add(margin).Sub(discount))
			for _, x := range []struct {
				item string
				want decimal.Decimal
			}{{"net", net}, {"margin", margin}, {"discount taken off", discount}, {"tax", tax}, {"total", net.Add(margin).Sub(discount).Add(tax)}} {
				if !s[x.item].Equal(x.want) {
					t.Errorf("%s %s: %s is %s, its lines come to %s", code, way, x.item, s[x.item], x.want)
				}
			}
		}
	}
}

func TestCSVForm(t *testing.T) {
	// RFC 4180, section 2: records end in CRLF (1, 2); each has the same number of
	// fields (4); fields with commas or quotes are quoted (6) and quotes doubled (7).
	c, _ := priced(t, "EUR", "red \"fine\" fescue, shade\r\nlot")
	var b bytes.Buffer
	if err := CSV(&b, sowing.Plan{Cost: c}); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	if !strings.HasSuffix(text, "\r\n") || strings.Count(text, "\n") != strings.Count(text, "\r\n") || strings.Count(text, "\r") != strings.Count(text, "\n") {
		t.Error("a line doesn't end in CRLF")
	}
	if !strings.Contains(text, `"red ""fine"" fescue, shade  lot, bag of 1 kg"`) {
		t.Errorf("quotes and commas aren't quoted:\n%s", text)
	}
}

func FuzzCell(f *testing.F) {
	for _, s := range []string{"=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r\n=1", "  =cmd|' /C calc'!A0", "＝1", "plain", "", "\ufeff=1", "\"=1", "'=1", "m²", "\xff="} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got := cell(s)
		if strings.ContainsAny(got, "\r\n\t") {
			t.Errorf("%q has a line end in it", got)
		}
		if first := firstRune(got); strings.ContainsAny(first, "=+-@＝＋－＠") && !strings.HasPrefix(got, "'") {
			t.Errorf("%q starts a formula", got)
		}
		var b bytes.Buffer
		w := csv.NewWriter(&b)
		if err := w.Write([]string{got, "x"}); err != nil {
			t.Fatal(err)
		}
		w.Flush()
		back, err := csv.NewReader(&b).Read()
		if err != nil || back[0] != got {
			t.Errorf("%q reads back as %q (%v)", got, back, err)
		}
	})
}
