package main

import (
	"io"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"swardwright/internal/plain"
	"swardwright/report"
	"swardwright/report/text"
	"swardwright/site"
	"swardwright/site/light"
	"swardwright/sowing"
)

func newLight() *cobra.Command {
	var days, json string
	cmd := &cobra.Command{
		Use:   "light BRIEF",
		Short: "Show the sun and light of a lawn, by month, zone and probe",
		Long: `Light works out direct sun and growth light of a lawn and draws it as a map of
zones. With --days it gives the direct sun at each probe on just those days of
the year under a clear sky: hours with the sun's centre above the geometric
horizon and the lawn lit.`,
		Example: `  swardwright light lawn.toml
  swardwright light lawn.toml --days 80,172,266,355
  swardwright light lawn.toml --json light.json`,
		Args:              arguments(1, 1, "one brief"),
		ValidArgsFunction: completeBriefs,
		RunE: func(cmd *cobra.Command, args []string) error {
			var numbers []int
			if days != "" {
				var err error
				if numbers, err = daysOfYear(days); err != nil {
					return err
				}
			}
			brief, reads, err := openBrief(cmd, args[0])
			if err != nil {
				return err
			}
			if err := ready(cmd, reads, json); err != nil {
				return err
			}
			tables, err := sowing.BuiltIn()
			if err != nil {
				return err
			}
			c, err := brief.Conditions(cmd.Context(), tables)
			if err != nil {
				return planned(cmd.Context(), args[0], err)
			}
			if numbers != nil {
				return lightOnDays(cmd, brief, c, numbers, json)
			}
			return lightOfYear(cmd, brief, c, json)
		},
	}
	cmd.Flags().StringVar(&days, "days", "", "direct sun on these `DAYS` of the year alone, from 1, commas between")
	jsonFlag(cmd, &json)
	return cmd
}

func daysOfYear(t string) ([]int, error) {
	var days []int
	for _, part := range strings.Split(t, ",") {
		d, err := strconv.Atoi(strings.TrimSpace(part))
		if err != nil || d < 1 || d > 366 {
			return nil, wrongf("--days needs days of the year from 1 to 366, commas between, like 15,46; has %s", plain.Quote(part))
		}
		days = append(days, d)
	}
	return days, nil
}

func lightOnDays(cmd *cobra.Command, b sowing.Brief, c *site.Conditions, days []int, json string) error {
	if len(b.Site.Probes) == 0 {
		return wrongf("--days reports probes, and the brief has none; add a [[probe]] with a name and a place")
	}
	probes, err := light.SunHoursOn(cmd.Context(), b.Site.Scene(c.Normals), c.Sky, days)
	if err != nil {
		return err
	}
	words, err := sayerOf(b)
	if err != nil {
		return err
	}
	return writeOne(cmd, json,
		func(w io.Writer) error { return report.DaysJSON(w, probes) },
		func(w io.Writer) error { return text.Days(w, b.Title, probes, words, lookOf(cmd.OutOrStdout())) })
}

func lightOfYear(cmd *cobra.Command, b sowing.Brief, c *site.Conditions, json string) error {
	words, err := sayerOf(b)
	if err != nil {
		return err
	}
	return writeOne(cmd, json,
		func(w io.Writer) error { return report.LightJSON(w, b.Title, c.Field, words) },
		func(w io.Writer) error {
			return text.Light(w, b.Title, c.Field, b.Site.Lawn.PlanNorthDeg, words, lookOf(cmd.OutOrStdout()))
		})
}
