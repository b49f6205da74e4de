package main

import (
	"io"

	"github.com/spf13/cobra"

	"swardwright/internal/files"
	"swardwright/report/paper"
	"swardwright/sowing"
)

// writeCount prints a sheet to count points with, for the lawn of a brief or for any.
func writeCount(cmd *cobra.Command, to, size string, unbriefed sowing.Brief, briefs []string) error {
	if err := paperOf(size); err != nil {
		return err
	}
	if err := noTerminal(cmd, to); err != nil {
		return err
	}
	var brief sowing.Brief
	var reads []files.Use
	if len(briefs) > 0 {
		var err error
		if brief, reads, err = openBrief(cmd, briefs[0]); err != nil {
			return err
		}
	}
	plan := sowing.Plan{Brief: unbriefed}
	sheet := form{"the sheet", to, func(w io.Writer) error { return paper.Count(w, &plan, paper.Options{Paper: size}) }}
	if err := ready(cmd, reads, "", sheet); err != nil {
		return err
	}
	if len(briefs) > 0 {
		tables, err := sowing.BuiltIn()
		if err != nil {
			return err
		}
		if plan, err = sowing.NewPlan(cmd.Context(), tables, brief); err != nil {
			return planned(cmd.Context(), briefs[0], err)
		}
	}
	return writeOne(cmd, "", nil, func(io.Writer) error { return nil }, sheet)
}
