package main

import (
	"github.com/spf13/cobra"

	"swardwright/report/text"
	"swardwright/sowing"
	"swardwright/sowing/money"
)

func newPrices() *cobra.Command {
	var currency string
	cmd := &cobra.Command{
		Use:   "prices [BRIEF]",
		Short: "List the example prices, output rates and terms",
		Long: `Prices lists every key that a brief can set under [prices], with the figure of
the built-in example list. The example prices are invented. With a BRIEF it is
the list that its plan is priced from, in its currency, with what it sets itself.`,
		Example: `  swardwright prices
  swardwright prices --currency SEK
  swardwright prices lawn.toml`,
		Args:              arguments(0, 1, "a brief"),
		ValidArgsFunction: completeBriefs,
		RunE: func(cmd *cobra.Command, args []string) error {
			var own map[string]string
			if len(args) == 1 {
				if cmd.Flags().Changed("currency") {
					return wrongf("a brief has a currency of its own; leave out --currency")
				}
				b, err := readBrief(cmd, args[0])
				if err != nil {
					return err
				}
				own, currency = b.Prices, b.Currency
			} else if err := money.CheckCurrency(currency); err != nil {
				return wrongCall{err}
			}
			tables, err := sowing.BuiltIn()
			if err != nil {
				return err
			}
			list, err := tables.Prices.In(currency, own)
			if err != nil {
				return err
			}
			return text.Prices(cmd.OutOrStdout(), list, lookOf(cmd.OutOrStdout()))
		},
	}
	cmd.Flags().StringVar(&currency, "currency", "GBP", "show prices in `CODE`, of ISO 4217")
	return cmd
}
