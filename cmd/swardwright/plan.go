package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"swardwright/report"
	"swardwright/report/calendar"
	"swardwright/report/text"
	"swardwright/sowing"
)

// demoPDF is where the plan of the built-in brief goes.
const demoPDF = "swardwright-demo.pdf"

// planFlags name where the forms of a plan go.
type planFlags struct {
	json, calendar, csv string
}

// forms are the forms a plan can take besides text, with the place each goes to.
func (f planFlags) forms() []planForm {
	return []planForm{
		{f.json, ".json", report.JSON},
		{f.calendar, ".ics", calendarOf},
		{f.csv, ".csv", func(w io.Writer, p sowing.Plan) error { return report.CSV(w, p.Cost) }},
	}
}

// planForm is one form of a plan.
type planForm struct {
	name   string // of the file, or of the folder when there are many plans; empty: not wanted
	ending string // of a file's name in such a folder
	write  func(io.Writer, sowing.Plan) error
}

func newPlan() *cobra.Command {
	var flags planFlags
	cmd := &cobra.Command{
		Use:   "plan [BRIEF...]",
		Short: "Plan a lawn and print the plan",
		Long: `Plan works out the whole plan of one lawn and prints it. Without a brief it
plans a built-in example and writes its PDF to the working folder.

FILE - is standard output, which then carries that alone. Files are written
whole or not at all.

Given several briefs or a folder, it plans them all, lists them, and adds up one
seed order. FILE then names a folder for the files of all plans.`,
		Example: `  swardwright plan lawn.toml
  swardwright plan lawn.toml --pdf plan.pdf --json plan.json
  swardwright plan lawn.toml --json - | less
  swardwright plan briefs/ --json plans/`,
		Args:              arguments(0, -1, "briefs"),
		ValidArgsFunction: completeBriefs,
		RunE: func(cmd *cobra.Command, args []string) error {
			names, several, err := briefsOf(args)
			if err != nil {
				return err
			}
			if several {
				return planMany(cmd, names, flags)
			}
			return planOne(cmd, names, flags)
		},
	}
	cmd.Flags().StringVar(&flags.json, "json", "", "write the plan as JSON to `FILE`")
	cmd.Flags().StringVar(&flags.calendar, "calendar", "", "write the tasks as a calendar (iCalendar) to `FILE`")
	cmd.Flags().StringVar(&flags.csv, "csv", "", "write the bill of quantities as CSV to `FILE`")
	return cmd
}

func planOne(cmd *cobra.Command, args []string, flags planFlags) error {
	var names []string
	for _, f := range flags.forms() {
		names = append(names, f.name)
	}
	if err := checkNames(names...); err != nil {
		return err
	}

	brief, name, err := briefOrDemo(cmd, args)
	if err != nil {
		return err
	}
	plan, err := sowing.NewPlan(cmd.Context(), brief)
	if err != nil {
		return planned(cmd.Context(), name, err)
	}
	outputs, alone, err := renderForms(plan, flags.forms())
	if err != nil {
		return err
	}
	if !alone {
		page, err := rendered(func(w io.Writer) error { return text.Plan(w, plan, lookOf(cmd.OutOrStdout())) })
		if err != nil {
			return err
		}
		outputs = append(outputs, output{"-", page})
	}
	return write(cmd.OutOrStdout(), outputs)
}

func briefOrDemo(cmd *cobra.Command, args []string) (b sowing.Brief, name string, err error) {
	if len(args) > 0 {
		b, err = readBrief(cmd, args[0])
		return b, args[0], err
	}
	fmt.Fprintf(cmd.ErrOrStderr(), "No brief named: this is the built-in example %q, an invented scenario.\n", demoName)
	b, err = readDemo()
	return b, demoName, err
}

// renderForms makes every form that is wanted, and says whether one of them has
// standard output to itself.
func renderForms(plan sowing.Plan, forms []planForm) (outputs []output, alone bool, err error) {
	for _, f := range forms {
		if f.name == "" {
			continue
		}
		data, err := rendered(func(w io.Writer) error { return f.write(w, plan) })
		if err != nil {
			return nil, false, err
		}
		outputs = append(outputs, output{f.name, data})
		alone = alone || f.name == "-"
	}
	return outputs, alone, nil
}

func calendarOf(w io.Writer, p sowing.Plan) error {
	// The reference tells this plan's events from another's, so that a plan made
	// anew replaces its own.
	namespace := p.Brief.Reference
	if namespace == "" {
		namespace = p.Brief.Title
	}
	return calendar.Write(w, calendar.Head{Title: p.Brief.Title, Stamp: p.Date, Namespace: namespace}, p.Year.Tasks)
}
