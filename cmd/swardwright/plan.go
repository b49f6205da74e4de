package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"swardwright/internal/files"
	"swardwright/internal/plain"
	"swardwright/report"
	"swardwright/report/calendar"
	"swardwright/report/content"
	"swardwright/report/draw"
	"swardwright/report/page"
	"swardwright/report/paper"
	"swardwright/report/text"
	"swardwright/sowing"
)

// papers are the sizes of the PDF's page.
var papers = []string{"a4", "letter"}

// demoPDF is where the plan of the built-in brief goes.
const demoPDF = "swardwright-demo.pdf"

// planFlags name where the forms of a plan go.
type planFlags struct {
	json, pdf, html, calendar, csv string
	drawings                       string // folder
	paper                          string // size of the PDF's page
	parts                          string // of the plan that are shown
	why                            string // path of a figure to be explained
	several                        bool   // there are several plans, each place a folder that is made
}

// forms are the forms a plan can take besides text, with the place each goes to.
func (f planFlags) forms() []planForm {
	return []planForm{
		{"the JSON", f.json, report.JSON},
		{"the PDF", f.pdf, func(w io.Writer, p sowing.Plan) error {
			return paper.Write(w, &p, paper.Options{Paper: f.paper, Parts: f.chosen()})
		}},
		{"the page", f.html, func(w io.Writer, p sowing.Plan) error { return page.Write(w, &p, f.chosen()...) }},
		{"the calendar", f.calendar, calendar.Plan},
		{"the bill", f.csv, report.CSV},
	}
}

// chosen are the parts asked for; none where each form shows its own.
func (f planFlags) chosen() []content.PartName {
	if f.parts == "" {
		return nil
	}
	parts, _ := content.ParseParts(f.parts) // read before anything is planned
	return parts
}

// plan makes the plan of a brief, and looks at what only the evidence shows where that is shown.
func (f planFlags) plan(ctx context.Context, t sowing.Tables, b sowing.Brief) (sowing.Plan, error) {
	plan, err := sowing.NewPlan(ctx, t, b)
	if err == nil && (slices.Contains(f.chosen(), content.Evidence) || f.html != "" && f.parts == "") {
		err = sowing.LookElsewhere(ctx, t, &plan)
	}
	return plan, err
}

// planForm is one form of a plan.
type planForm struct {
	what  string // in a message
	name  string // of the file; empty: not wanted
	write func(io.Writer, sowing.Plan) error
}

// uses are the files that the forms are written to.
func (f planFlags) uses(stdout io.Writer) []files.Use {
	var all []files.Use
	for _, x := range f.forms() {
		if x.name != "" {
			all = append(all, files.Use{What: x.what, Name: x.name, Stream: under(stdout), Folder: f.several})
		}
	}
	if f.drawings != "" {
		all = append(all, files.Use{What: "the drawings", Name: f.drawings, Ending: drawingEnding, Folder: true})
	}
	return all
}

// alone says whether something has standard output to itself.
func (f planFlags) alone() bool {
	return f.why != "" || slices.ContainsFunc(f.forms(), func(x planForm) bool { return x.name == files.Std })
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
			if err := paperOf(flags.paper); err != nil {
				return err
			}
			if flags.parts != "" {
				if _, err := content.ParseParts(flags.parts); err != nil {
					return wrongf("--parts: %v", err)
				}
			}
			if err := noTerminal(cmd, flags.pdf); err != nil {
				return err
			}
			names, several, err := briefsOf(args)
			if err != nil {
				return err
			}
			flags.several = several
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
	paperFlag(cmd, &flags.paper)
	cmd.Flags().StringVar(&flags.why, "why", "", "say how one figure of the JSON came about, by its path, `KEY`, or what is known of the numbers and traits below it (numbers, traits); nothing else is printed")
	cmd.Flags().StringVar(&flags.parts, "parts", "", "show these `PARTS` of the plan: client, crew, evidence, with commas between (default the answer alone as text, client and crew in the PDF, all in the page)")
	cmd.Flags().StringVar(&flags.html, "html", "", "write the plan as one HTML page to `FILE`")
	cmd.Flags().StringVar(&flags.drawings, "drawings", "", "write the drawings as SVG to the folder `DIR`")
	cmd.Flags().StringVar(&flags.calendar, "calendar", "", "write the tasks as a calendar (iCalendar) to `FILE`")
	cmd.Flags().StringVar(&flags.csv, "csv", "", "write the bill of quantities as CSV to `FILE`")
	complete(cmd, "why", cobra.FixedCompletions(report.WhyKeys(), cobra.ShellCompDirectiveNoFileComp))
	complete(cmd, "parts", completeParts)
	return cmd
}

// completeParts completes a list of parts by one that isn't in it yet.
func completeParts(_ *cobra.Command, _ []string, begun string) ([]string, cobra.ShellCompDirective) {
	before := begun[:strings.LastIndex(begun, ",")+1]
	var lists []string
	for _, part := range content.PartNames {
		if !slices.Contains(strings.Split(before, ","), string(part)) && strings.HasPrefix(string(part), begun[len(before):]) {
			lists = append(lists, before+string(part))
		}
	}
	return lists, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace
}

// paperFlag asks for the size of the PDF's page.
func paperFlag(cmd *cobra.Command, size *string) {
	cmd.Flags().StringVar(size, "paper", "", "`SIZE` of the PDF page, a4 or letter (default letter with US units, a4 otherwise)")
	complete(cmd, "paper", cobra.FixedCompletions(papers, cobra.ShellCompDirectiveNoFileComp))
}

// paperOf says what is wrong with a size of paper that was asked for.
func paperOf(size string) error {
	if size != "" && !slices.Contains(papers, size) {
		return wrongf("--paper is %s; %s", plain.Quote(size), meant(size, papers, "it is "))
	}
	return nil
}

// noTerminal refuses to print a PDF on a terminal.
func noTerminal(cmd *cobra.Command, pdf string) error {
	if pdf == files.Std && terminal(cmd.OutOrStdout()) {
		return wrongf("a PDF is no text to read on a terminal; name a file for it, or send it on with | or >")
	}
	return nil
}

// planOne plans one brief, or the built-in one where none is named.
func planOne(cmd *cobra.Command, names []string, flags planFlags) error {
	var brief sowing.Brief
	var reads []files.Use
	name, err := demoName, error(nil)
	if len(names) > 0 {
		name = names[0]
		brief, reads, err = openBrief(cmd, name)
	} else {
		if flags.pdf == "" && flags.why == "" {
			flags.pdf = demoPDF
		}
		tellDemo(cmd, flags.pdf)
		brief, err = readDemo()
	}
	if err != nil {
		return err
	}
	writes := flags.uses(cmd.OutOrStdout())
	if !flags.alone() || flags.why != "" {
		writes = append(writes, files.Use{What: "the text", Name: files.Std, Stream: under(cmd.OutOrStdout())})
	}
	if err := files.Ready(reads, writes); err != nil {
		return err
	}
	tables, err := sowing.BuiltIn()
	if err != nil {
		return err
	}
	plan, err := flags.plan(cmd.Context(), tables, brief)
	if err != nil {
		return planned(cmd.Context(), name, err)
	}
	outputs, err := flags.render(plan)
	if err != nil {
		return err
	}
	printed, err := flags.print(plan, lookOf(cmd.OutOrStdout()))
	if err != nil {
		return err
	}
	outputs = append(outputs, printed...)
	return files.Write(cmd.Context(), cmd.OutOrStdout(), outputs, flags.stale(outputs)...)
}

// tellDemo says that the built-in brief is planned, and where its PDF goes.
func tellDemo(cmd *cobra.Command, pdf string) {
	w := cmd.ErrOrStderr()
	fmt.Fprintf(w, "No brief named: this is the built-in example %q, an invented scenario.", demoName)
	if pdf != "" {
		fmt.Fprintf(w, " Its PDF is %s.", plain.Line(pdf))
	}
	fmt.Fprintln(w)
	if waiting(cmd.InOrStdin()) {
		fmt.Fprintln(w, "To plan the brief on standard input: swardwright plan -")
	}
}

// print makes what goes to standard output as text: how a figure came about, or the plan
// where no form of it goes there alone.
func (f planFlags) print(plan sowing.Plan, look text.Look) ([]files.Output, error) {
	var outputs []files.Output
	put := func(write func(w io.Writer) error) error {
		page, err := rendered(write)
		outputs = append(outputs, files.Output{Name: files.Std, Data: page})
		return err
	}
	if f.why != "" {
		var said bytes.Buffer
		if err := report.Why(&said, plan, f.why); err != nil {
			return nil, wrongCall{err}
		}
		if err := put(func(w io.Writer) error { return text.Fold(w, said.Bytes(), look) }); err != nil {
			return nil, err
		}
	}
	if !f.alone() {
		if err := put(func(w io.Writer) error { return text.Plan(w, plan, look, f.chosen()...) }); err != nil {
			return nil, err
		}
	}
	return outputs, nil
}

// drawingEnding is that of every drawing.
const drawingEnding = ".svg"

// render makes every form that is wanted.
func (f planFlags) render(plan sowing.Plan) ([]files.Output, error) {
	var outputs []files.Output
	for _, x := range f.forms() {
		if x.name == "" {
			continue
		}
		data, err := rendered(func(w io.Writer) error { return x.write(w, plan) })
		if err != nil {
			return nil, err
		}
		outputs = append(outputs, files.Output{Name: x.name, Data: data, Folder: f.several})
	}
	if f.drawings == "" {
		return outputs, nil
	}
	drawings, err := draw.Files(&plan)
	if err != nil {
		return nil, err
	}
	for _, x := range drawings {
		outputs = append(outputs, files.Output{Name: filepath.Join(f.drawings, x.Name), Data: x.SVG, Folder: true})
	}
	return outputs, nil
}

// stale are the drawings of an older plan in the folder of the drawings that this
// plan has none of.
func (f planFlags) stale(outputs []files.Output) []string {
	if f.drawings == "" {
		return nil
	}
	entries, err := os.ReadDir(f.drawings)
	if err != nil {
		return nil // it is made only now
	}
	var names []string
	for _, e := range entries {
		name := filepath.Join(f.drawings, e.Name())
		fresh := slices.ContainsFunc(outputs, func(o files.Output) bool { return o.Name == name })
		if !fresh && e.Type().IsRegular() && filepath.Ext(name) == drawingEnding && drawn(name) {
			names = append(names, name)
		}
	}
	return names
}

// drawn says whether a file is a drawing made by this program.
func drawn(name string) bool {
	file, err := os.Open(name)
	if err != nil {
		return false
	}
	defer file.Close()
	head := make([]byte, len(draw.FileHead))
	_, err = io.ReadFull(file, head)
	return err == nil && string(head) == draw.FileHead
}
