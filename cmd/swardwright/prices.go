package main

import (
	"io"

	"github.com/spf13/cobra"

	"swardwright/internal/files"
	"swardwright/report"
	"swardwright/report/text"
	"swardwright/sowing"
	"swardwright/sowing/money"
)

func newPrices() *cobra.Command {
	var currency, json string
	cmd := &cobra.Command{
		Use:   "prices [BRIEF]",
		Short: "List the example prices, output rates and terms",
		Long: `Prices lists every key that a brief can set under [prices], with the figure of
the built-in example list. The example prices are invented. With a BRIEF it is
the list that its plan is priced from, in its currency, with what it sets
itself.`,
		Example: `  swardwright prices
  swardwright prices --currency SEK
  swardwright prices lawn.toml --json prices.json`,
		Args:              arguments(0, 1, "a brief"),
		ValidArgsFunction: completeBriefs,
		RunE: func(cmd *cobra.Command, args []string) error {
			var own map[string]string
			var reads []files.Use
			if len(args) == 1 {
				if cmd.Flags().Changed("currency") {
					return wrongf("a brief has a currency of its own; leave out --currency")
				}
				b, from, err := openBrief(cmd, args[0])
				if err != nil {
					return err
				}
				own, currency, reads = b.Prices, b.Currency, from
			} else if err := money.CheckCurrency(currency); err != nil {
				return wrongCall{err}
			}
			if err := ready(cmd, reads, json); err != nil {
				return err
			}
			tables, err := sowing.BuiltIn()
			if err != nil {
				return err
			}
			list, err := tables.Prices.In(currency, own)
			if err != nil {
				return err
			}
			return writeOne(cmd, json,
				func(w io.Writer) error { return report.PricesJSON(w, list) },
				func(w io.Writer) error { return text.Prices(w, list, lookOf(cmd.OutOrStdout())) })
		},
	}
	cmd.Flags().StringVar(&currency, "currency", "GBP", "show prices in `CODE`, of ISO 4217")
	complete(cmd, "currency", completeCurrencies)
	jsonFlag(cmd, &json)
	return cmd
}
