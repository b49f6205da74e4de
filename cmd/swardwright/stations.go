package main

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"swardwright/internal/plain"
	"swardwright/report"
	"swardwright/report/text"
	"swardwright/site/weather"
	"swardwright/sowing"
)

// nearestShown is how many stations are listed about a place.
const nearestShown = 12

func newStations() *cobra.Command {
	var near, json string
	cmd := &cobra.Command{
		Use:   "stations",
		Short: "List the weather stations of the built-in table",
		Example: `  swardwright stations
  swardwright stations --near 57.1,-3.8
  swardwright stations --json stations.json`,
		Args: arguments(0, 0, "no arguments"),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := ready(cmd, nil, json); err != nil {
				return err
			}
			tables, err := sowing.BuiltIn()
			if err != nil {
				return err
			}
			all, lat, lon := tables.Stations.All(), math.NaN(), math.NaN()
			if near != "" {
				if lat, lon, err = position(near); err != nil {
					return wrongf("--near %w", err)
				}
				all = weather.ByDistance(all, lat, lon)[:min(nearestShown, len(all))]
			}
			return writeOne(cmd, json,
				func(w io.Writer) error { return report.StationsJSON(w, all, lat, lon) },
				func(w io.Writer) error { return text.Stations(w, all, lat, lon, lookOf(cmd.OutOrStdout())) })
		},
	}
	cmd.Flags().StringVar(&near, "near", "", "list the nearest to `LAT,LON` in degrees, north and east positive")
	jsonFlag(cmd, &json)
	return cmd
}

func position(t string) (lat, lon float64, err error) {
	a, b, two := strings.Cut(t, ",")
	lat, err1 := strconv.ParseFloat(strings.TrimSpace(a), 64)
	lon, err2 := strconv.ParseFloat(strings.TrimSpace(b), 64)
	if !two || err1 != nil || err2 != nil || !(math.Abs(lat) <= 90 && math.Abs(lon) <= 180) {
		return 0, 0, fmt.Errorf("needs latitude and longitude in degrees, like 57.1,-3.8, is %s", plain.Quote(t))
	}
	return lat, lon, nil
}
