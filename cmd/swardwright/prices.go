package main

import (
	"github.com/spf13/cobra"

	"swardwright/data"
	"swardwright/report/text"
	"swardwright/sowing/money"
)

func newPrices() *cobra.Command {
	var currency string
	cmd := &cobra.Command{
		Use:   "prices",
		Short: "List the example prices, output rates and terms",
		Long: `Prices lists every key that a brief can set under [prices], with the figure of
the built-in example list. The example prices are invented.`,
		Example: `  swardwright prices
  swardwright prices --currency SEK`,
		Args: arguments(0, 0, "no arguments"),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := money.CheckCurrency(currency); err != nil {
				return wrongCall{err}
			}
			list, err := money.LoadPrices(data.FS, nil, currency)
			if err != nil {
				return err
			}
			return text.Prices(cmd.OutOrStdout(), list, lookOf(cmd.OutOrStdout()))
		},
	}
	cmd.Flags().StringVar(&currency, "currency", "GBP", "show prices in `CODE`, of ISO 4217")
	return cmd
}
