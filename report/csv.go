package report

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"
	"unicode"

	"swardwright/report/say"
	"swardwright/sowing"
	"swardwright/sowing/money"
)

// csvHead names the columns of the bill of quantities.
var csvHead = []string{"way", "group", "item", "quantity", "unit", "rate", "amount", "currency", "source"}

// Groups of the rows below the lines of a bill.
const (
	csvSums  = "sums"
	csvRange = "range of the total"
)

// CSV writes the bills of quantities as RFC 4180: CRLF, a header, the same number
// of fields in every record. No cell can start a formula in a spreadsheet, and no
// amount is negative: a discount is what is taken off. In each way the net sum is
// the sum of the amounts of its lines, and the total is net + margin − discount +
// tax.
func CSV(w io.Writer, p sowing.Plan) error {
	words, err := say.For(p)
	if err != nil {
		return err
	}
	words = words.Plain()
	c := p.Cost
	out := csv.NewWriter(w)
	out.UseCRLF = true
	records := [][]string{csvHead}
	for _, b := range c.Bills {
		row := func(group, item, quantity, unit, rate, amount, source string) {
			records = append(records, []string{string(b.Way), group, item, quantity, unit, rate, amount, c.Currency, source})
		}
		for _, l := range b.Lines {
			row(string(l.Group), words.Say(l.Item), strconv.FormatFloat(l.Quantity, 'f', -1, 64), l.Unit, l.Rate.String(), l.Amount.String(), words.Say(l.Source))
		}
		for _, s := range []struct {
			group, item string
			amount      money.Amount
		}{
			{csvSums, "net", b.Net}, {csvSums, "margin", b.Margin}, {csvSums, "discount taken off", b.Discount}, {csvSums, "tax", b.Tax}, {csvSums, "total", b.Total},
			{csvSums, "total a square metre", b.PerM2}, {csvSums, "deposit", b.Deposit},
			{csvRange, "1 case in 10 is below", b.P10}, {csvRange, "half are below", b.P50}, {csvRange, "9 cases in 10 are below", b.P90},
		} {
			row(s.group, s.item, "", "", "", s.amount.String(), "")
		}
	}
	for _, r := range records {
		for i := range r {
			r[i] = cell(r[i])
		}
	}
	return out.WriteAll(records) // which flushes
}

// superscripts are written as digits, since spreadsheets that guess the encoding
// of a file would garble them.
var superscripts = strings.NewReplacer("²", "2", "³", "3")

// cell makes a text safe to open in a spreadsheet: on one line, and with an
// apostrophe before anything that would start a formula.
func cell(s string) string {
	s = superscripts.Replace(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD")))
	if strings.ContainsAny(firstRune(s), "=+-@＝＋－＠") {
		return "'" + s
	}
	return s
}

// firstRune is the first character that isn't space.
func firstRune(s string) string {
	s = strings.TrimLeftFunc(s, func(r rune) bool { return unicode.IsSpace(r) || r == '\ufeff' || r == '"' || r == '\'' })
	for _, r := range s {
		return string(r)
	}
	return ""
}
