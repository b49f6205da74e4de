package main

import (
	"io"

	"github.com/spf13/cobra"

	"swardwright/internal/plain"
	"swardwright/report"
	"swardwright/report/text"
	"swardwright/sowing"
	"swardwright/species"
)

func newSpecies() *cobra.Command {
	var json string
	cmd := &cobra.Command{
		Use:   "species [NAME]",
		Short: "List the grasses, or one grass with its traits and their sources",
		Example: `  swardwright species
  swardwright species chewings-fescue
  swardwright species "Poa pratensis" --json poa.json`,
		Args:              arguments(0, 1, "one name"),
		ValidArgsFunction: completeSpecies,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := ready(cmd, nil, json); err != nil {
				return err
			}
			tables, err := sowing.BuiltIn()
			if err != nil {
				return err
			}
			all := tables.Species.All()
			asText := func(w io.Writer) error { return text.SpeciesList(w, all, lookOf(cmd.OutOrStdout())) }
			if len(args) > 0 {
				sp, err := findSpecies(tables.Species, args[0])
				if err != nil {
					return err
				}
				all = []*species.Species{sp}
				asText = func(w io.Writer) error { return text.Species(w, sp, lookOf(cmd.OutOrStdout())) }
			}
			return writeOne(cmd, json, func(w io.Writer) error { return report.SpeciesJSON(w, all) }, asText)
		},
	}
	jsonFlag(cmd, &json)
	return cmd
}

func findSpecies(table *species.Table, name string) (*species.Species, error) {
	if sp, ok := table.Find(name); ok {
		return sp, nil
	}
	return nil, wrongf("%s is no grass of the table%s", plain.Quote(name), table.Hint(name))
}
