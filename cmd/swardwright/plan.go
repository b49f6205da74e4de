package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"swardwright/report"
	"swardwright/report/calendar"
	"swardwright/report/draw"
	"swardwright/report/form"
	"swardwright/report/page"
	"swardwright/report/paper"
	"swardwright/report/text"
	"swardwright/sowing"
)

// demoPDF is where the plan of the built-in brief goes.
const demoPDF = "swardwright-demo.pdf"

// planFlags name where the forms of a plan go.
type planFlags struct {
	json, pdf, html, calendar, csv string
	drawings                       string // folder
	paper                          string // size of the PDF's page
	why                            string // path of a figure to be explained
}

// forms are the forms a plan can take besides text, with the place each goes to.
func (f planFlags) forms() []planForm {
	return []planForm{
		{f.json, report.JSON},
		{f.pdf, func(w io.Writer, p sowing.Plan) error { return paper.Write(w, &p, paper.Options{Paper: f.paper}) }},
		{f.html, func(w io.Writer, p sowing.Plan) error { return page.Write(w, &p) }},
		{f.calendar, calendarOf},
		{f.csv, func(w io.Writer, p sowing.Plan) error { return report.CSV(w, p.Cost) }},
	}
}

// planForm is one form of a plan.
type planForm struct {
	name  string // of the file; empty: not wanted
	write func(io.Writer, sowing.Plan) error
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
  swardwright plan lawn.toml --why 'windows[0].success'
  swardwright plan briefs/ --json plans/`,
		Args:              arguments(0, -1, "briefs"),
		ValidArgsFunction: completeBriefs,
		RunE: func(cmd *cobra.Command, args []string) error {
			if !slices.Contains([]string{"", "a4", "letter"}, flags.paper) {
				return wrongf("--paper is %q; it is a4 or letter", flags.paper)
			}
			names, several, err := briefsOf(args)
			if err != nil {
				return err
			}
			if several && flags.why != "" {
				return wrongf("--why takes one brief")
			}
			if several {
				return planMany(cmd, names, flags)
			}
			return planOne(cmd, names, flags)
		},
	}
	cmd.Flags().StringVar(&flags.json, "json", "", "write the plan as JSON to `FILE`")
	cmd.Flags().StringVar(&flags.pdf, "pdf", "", "write the plan as PDF to `FILE`")
	cmd.Flags().StringVar(&flags.paper, "paper", "", "`SIZE` of the PDF page, a4 or letter (default letter with US units, a4 otherwise)")
	cmd.Flags().StringVar(&flags.why, "why", "", "say how one figure of the JSON came about, by its path, `KEY`, or what is known of the numbers and traits below it (numbers, traits); nothing else is printed")
	cmd.Flags().StringVar(&flags.html, "html", "", "write the plan as one HTML page to `FILE`")
	cmd.Flags().StringVar(&flags.drawings, "drawings", "", "write the drawings as SVG to the folder `DIR`")
	cmd.Flags().StringVar(&flags.calendar, "calendar", "", "write the tasks as a calendar (iCalendar) to `FILE`")
	cmd.Flags().StringVar(&flags.csv, "csv", "", "write the bill of quantities as CSV to `FILE`")
	if err := cmd.RegisterFlagCompletionFunc("why", cobra.FixedCompletions(report.WhyKeys(), cobra.ShellCompDirectiveNoFileComp)); err != nil {
		panic(err) // the flag stands some lines above
	}
	return cmd
}

// planOne plans one brief, or the built-in one where none is named.
func planOne(cmd *cobra.Command, names []string, flags planFlags) error {
	brief, name, err := sowing.Brief{}, demoName, error(nil)
	if len(names) > 0 {
		name = names[0]
	} else if flags.pdf == "" && flags.why == "" {
		flags.pdf = demoPDF
	}
	if err := checkNames(flags.places()...); err != nil {
		return err
	}
	if len(names) > 0 {
		brief, err = readBrief(cmd, name)
	} else {
		fmt.Fprintf(cmd.ErrOrStderr(), "No brief named: this is the built-in example %q, an invented scenario.", demoName)
		if flags.pdf != "" {
			fmt.Fprintf(cmd.ErrOrStderr(), " Its PDF is %s.", flags.pdf)
		}
		fmt.Fprintln(cmd.ErrOrStderr())
		brief, err = readDemo()
	}
	if err != nil {
		return err
	}
	plan, err := sowing.NewPlan(cmd.Context(), brief)
	if err != nil {
		return planned(cmd.Context(), name, err)
	}
	outputs, alone, err := flags.render(plan)
	if err != nil {
		return err
	}
	if flags.why != "" {
		var said bytes.Buffer
		if err := report.Why(&said, plan, flags.why); err != nil {
			return wrongCall{err}
		}
		page, err := rendered(func(w io.Writer) error { return text.Fold(w, said.Bytes(), lookOf(cmd.OutOrStdout())) })
		if err != nil {
			return err
		}
		outputs, alone = append(outputs, output{"-", page}), true
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

// places are where the forms go.
func (f planFlags) places() []string {
	names := []string{f.drawings}
	for _, x := range f.forms() {
		names = append(names, x.name)
	}
	return names
}

// in gives the flags for one of many plans: what named a folder names the file
// of this plan in it.
func (f planFlags) in(base string) planFlags {
	for _, place := range []struct {
		name   *string
		ending string
	}{{&f.json, ".json"}, {&f.pdf, ".pdf"}, {&f.html, ".html"}, {&f.calendar, ".ics"}, {&f.csv, ".csv"}, {&f.drawings, ""}} {
		if *place.name != "" {
			*place.name = filepath.Join(*place.name, base+place.ending)
		}
	}
	return f
}

// render makes every form that is wanted, and says whether one of them has
// standard output to itself.
func (f planFlags) render(plan sowing.Plan) (outputs []output, alone bool, err error) {
	for _, x := range f.forms() {
		if x.name == "" {
			continue
		}
		data, err := rendered(func(w io.Writer) error { return x.write(w, plan) })
		if err != nil {
			return nil, false, err
		}
		outputs = append(outputs, output{x.name, data})
		alone = alone || x.name == "-"
	}
	if f.drawings != "" {
		files, err := draw.Files(&plan)
		if err != nil {
			return nil, false, err
		}
		if err := os.MkdirAll(f.drawings, 0o755); err != nil {
			return nil, false, fmt.Errorf("cannot write: %w", err)
		}
		for _, x := range files {
			outputs = append(outputs, output{filepath.Join(f.drawings, x.Name), x.SVG})
		}
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
	f, err := form.New(p.Brief.Language, p.Brief.Units, p.Brief.Currency)
	if err != nil {
		return err
	}
	return calendar.Write(w, calendar.Head{Title: p.Brief.Title, Stamp: p.Date, Namespace: namespace}, f.Worded(p).Year.Tasks)
}
