package main

import (
	"io"

	"github.com/spf13/cobra"

	"swardwright/report"
	"swardwright/report/text"
	"swardwright/sowing"
	"swardwright/species"
)

func newMatrix() *cobra.Command {
	var why, json string
	cmd := &cobra.Command{
		Use:   "matrix BRIEF",
		Short: "Show how well each grass suits each zone, and why",
		Example: `  swardwright matrix lawn.toml
  swardwright matrix lawn.toml --why hard-fescue
  swardwright matrix lawn.toml --json matrix.json`,
		Args:              arguments(1, 1, "one brief"),
		ValidArgsFunction: completeBriefs,
		RunE: func(cmd *cobra.Command, args []string) error {
			tables, err := sowing.BuiltIn()
			if err != nil {
				return err
			}
			var asked *species.Species
			if why != "" {
				if asked, err = findSpecies(tables.Species, why); err != nil {
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
			matrix, conditions, err := brief.Matrix(cmd.Context(), tables)
			if err != nil {
				return planned(cmd.Context(), args[0], err)
			}
			words, err := sayerOf(brief)
			if err != nil {
				return err
			}
			id := ""
			asText := func(w io.Writer) error {
				return text.Matrix(w, brief.Title, matrix, conditions, words, lookOf(cmd.OutOrStdout()))
			}
			if asked != nil {
				id = asked.ID
				asText = func(w io.Writer) error {
					return text.Why(w, asked, matrix, conditions, words, lookOf(cmd.OutOrStdout()))
				}
			}
			return writeOne(cmd, json, func(w io.Writer) error { return report.MatrixJSON(w, brief.Title, matrix, conditions, id, words) }, asText)
		},
	}
	cmd.Flags().StringVar(&why, "why", "", "explain the rows of one `SPECIES` with figures, limits and sources")
	complete(cmd, "why", completeSpecies)
	jsonFlag(cmd, &json)
	return cmd
}
