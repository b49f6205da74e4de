package main

import (
	"io"

	"github.com/spf13/cobra"

	"swardwright/internal/files"
	"swardwright/report/text"
	"swardwright/sowing"
	"swardwright/species"
)

func newMatrix() *cobra.Command {
	var why string
	cmd := &cobra.Command{
		Use:   "matrix BRIEF",
		Short: "Show how well each grass suits each zone, and why",
		Example: `  swardwright matrix lawn.toml
  swardwright matrix lawn.toml --why hard-fescue`,
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
			brief, err := readBrief(cmd, args[0])
			if err != nil {
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
			page, err := rendered(func(w io.Writer) error {
				if asked != nil {
					return text.Why(w, asked, matrix, conditions, words, lookOf(cmd.OutOrStdout()))
				}
				return text.Matrix(w, brief.Title, matrix, conditions, words, lookOf(cmd.OutOrStdout()))
			})
			if err != nil {
				return err
			}
			return files.Write(cmd.Context(), cmd.OutOrStdout(), []files.Output{{Name: files.Std, Data: page}})
		},
	}
	cmd.Flags().StringVar(&why, "why", "", "explain the rows of one `SPECIES` with figures, limits and sources")
	if err := cmd.RegisterFlagCompletionFunc("why", completeSpecies); err != nil {
		panic(err) // the flag stands in the line above
	}
	return cmd
}
