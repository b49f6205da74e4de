package main

import (
	"io"

	"github.com/spf13/cobra"

	"swardwright/internal/files"
	"swardwright/report/paper"
	"swardwright/sowing"
)

// writeCount prints a sheet to count points with, for the lawn of a brief or for any.
func writeCount(cmd *cobra.Command, to, size string, briefs []string) error {
	if err := paperOf(size); err != nil {
		return err
	}
	if err := noTerminal(cmd, to); err != nil {
		return err
	}
	plan := sowing.Plan{Brief: sowing.Brief{Units: "metric", Currency: sowing.DefaultCurrency, Language: "en-GB"}}
	var reads []files.Use
	if len(briefs) > 0 {
		brief, uses, err := openBrief(cmd, briefs[0])
		if err != nil {
			return err
		}
		reads = uses
		tables, err := sowing.BuiltIn()
		if err != nil {
			return err
		}
		if plan, err = sowing.NewPlan(cmd.Context(), tables, brief); err != nil {
			return planned(cmd.Context(), briefs[0], err)
		}
	}
	sheet := form{"the sheet", to, func(w io.Writer) error { return paper.Count(w, &plan, paper.Options{Paper: size}) }}
	if err := ready(cmd, reads, "", sheet); err != nil {
		return err
	}
	return writeOne(cmd, "", nil, func(io.Writer) error { return nil }, sheet)
}
