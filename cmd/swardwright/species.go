package main

import (
	"strings"

	"github.com/spf13/cobra"

	"swardwright/internal/plain"
	"swardwright/report/text"
	"swardwright/sowing"
	"swardwright/species"
)

func newSpecies() *cobra.Command {
	return &cobra.Command{
		Use:   "species [NAME]",
		Short: "List the grasses, or one grass with its traits and their sources",
		Example: `  swardwright species
  swardwright species chewings-fescue
  swardwright species "Poa pratensis"`,
		Args:              arguments(0, 1, "one name"),
		ValidArgsFunction: completeSpecies,
		RunE: func(cmd *cobra.Command, args []string) error {
			tables, err := sowing.BuiltIn()
			if err != nil {
				return err
			}
			out := cmd.OutOrStdout()
			if len(args) == 0 {
				return text.SpeciesList(out, tables.Species.All(), lookOf(out))
			}
			sp, err := findSpecies(tables.Species, args[0])
			if err != nil {
				return err
			}
			return text.Species(out, sp, lookOf(out))
		},
	}
}

func findSpecies(table *species.Table, name string) (*species.Species, error) {
	if sp, ok := table.Find(name); ok {
		return sp, nil
	}
	if near := table.Suggest(name); len(near) > 0 {
		return nil, wrongf("%s is no grass of the table; did you mean %s?", plain.Quote(name), strings.Join(near, " or "))
	}
	return nil, wrongf("%s is no grass of the table; swardwright species lists them", plain.Quote(name))
}
