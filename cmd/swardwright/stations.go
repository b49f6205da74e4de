package main

import (
	"math"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"swardwright/internal/plain"
	"swardwright/report/text"
	"swardwright/sowing"
)

func newStations() *cobra.Command {
	var near string
	cmd := &cobra.Command{
		Use:   "stations",
		Short: "List the weather stations of the built-in table",
		Example: `  swardwright stations
  swardwright stations --near 57.1,-3.8`,
		Args: arguments(0, 0, "no arguments"),
		RunE: func(cmd *cobra.Command, _ []string) error {
			tables, err := sowing.BuiltIn()
			if err != nil {
				return err
			}
			lat, lon := math.NaN(), math.NaN()
			if near != "" {
				if lat, lon, err = position(near); err != nil {
					return err
				}
			}
			return text.Stations(cmd.OutOrStdout(), tables.Stations.All(), lat, lon, lookOf(cmd.OutOrStdout()))
		},
	}
	cmd.Flags().StringVar(&near, "near", "", "list the nearest to `LAT,LON` in degrees, north and east positive")
	return cmd
}

func position(t string) (lat, lon float64, err error) {
	a, b, two := strings.Cut(t, ",")
	lat, err1 := strconv.ParseFloat(strings.TrimSpace(a), 64)
	lon, err2 := strconv.ParseFloat(strings.TrimSpace(b), 64)
	if !two || err1 != nil || err2 != nil || !(math.Abs(lat) <= 90 && math.Abs(lon) <= 180) {
		return 0, 0, wrongf("--near needs latitude and longitude in degrees, like 57.1,-3.8, is %s", plain.Quote(t))
	}
	return lat, lon, nil
}
