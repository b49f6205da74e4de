package main

import (
	"bufio"
	"cmp"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"swardwright/internal/files"
)

// newMan writes the manual page of the whole program: for packagers, so that it
// stays out of the list of commands.
func newMan() *cobra.Command {
	return &cobra.Command{
		Use:     "man",
		Short:   "Write the manual page",
		Long:    "Man writes the manual page in roff to standard output.",
		Example: "  swardwright man > swardwright.1",
		Hidden:  true,
		Args:    arguments(0, 0, "names"),
		RunE:    func(cmd *cobra.Command, _ []string) error { return writeMan(cmd.OutOrStdout(), cmd.Root()) },
	}
}

// writeMan writes a manual page, section 1, from the tree of commands.
func writeMan(out io.Writer, root *cobra.Command) error {
	w := bufio.NewWriter(out)
	name := root.Name()
	number, _, _ := strings.Cut(root.Version, " ")
	fmt.Fprintf(w, ".TH %s 1 %s %s\n.SH NAME\n%s \\- %s\n", strings.ToUpper(name), manArgument(madeOn()), manArgument(name+" "+number), name, roff(root.Short))
	fmt.Fprintf(w, ".SH SYNOPSIS\n.B %s\n.I command\n[options]\n.SH DESCRIPTION\n%s\n.SH COMMANDS\n", name, roff(root.Long))
	for _, c := range root.Commands() {
		if c.Hidden || c.Name() == "help" {
			continue
		}
		fmt.Fprintf(w, ".SS %s\n%s\n", roff(c.UseLine()), roff(cmp.Or(c.Long, c.Short)))
		c.LocalFlags().VisitAll(func(f *pflag.Flag) {
			value, use := pflag.UnquoteUsage(f)
			fmt.Fprintf(w, ".TP\n.B \\-\\-%s", roff(f.Name))
			if value != "" {
				fmt.Fprintf(w, " \\fI%s\\fR", roff(value))
			}
			fmt.Fprintf(w, "\n%s\n", roff(use))
		})
		if c.Example != "" {
			fmt.Fprintf(w, ".PP\n.nf\n%s\n.fi\n", roff(c.Example))
		}
	}
	fmt.Fprintf(w, ".SH ENVIRONMENT\n")
	for _, x := range [][2]string{
		{"COLUMNS", "width of the text, in place of the terminal's"},
		{"NO_COLOR", "with any value: no bold letters on a terminal (no-color.org)"},
		{"TERM", "dumb: no escape sequences at all"},
		{"SOURCE_DATE_EPOCH", "date of this page, in seconds since 1970, in place of that of the source"},
	} {
		fmt.Fprintf(w, ".TP\n.B %s\n%s\n", roff(x[0]), roff(x[1]))
	}
	fmt.Fprintf(w, ".SH FILES\n")
	for _, x := range [][2]string{
		{"*" + briefEnding, "briefs; a folder given in place of a brief stands for those in it, hidden ones left out"},
		{demoPDF, "the built-in example's plan, written to the working folder where no brief is named"},
		{files.Unfinished, "a file that is being written; what a killed run leaves of them, the next run into that folder removes"},
	} {
		fmt.Fprintf(w, ".TP\n.I %s\n%s\n", roff(x[0]), roff(x[1]))
	}
	fmt.Fprintf(w, ".SH EXIT STATUS\n0 done; 1 something outside the brief failed, such as a file that can't be written; 2 the call or a brief is wrong.\n")
	return w.Flush()
}

// madeOn is the day of the source that the program was built from, or the one that
// packagers set (reproducible-builds.org); empty where neither is known.
func madeOn() string {
	if t, err := strconv.ParseInt(os.Getenv("SOURCE_DATE_EPOCH"), 10, 64); err == nil {
		return time.Unix(t, 0).UTC().Format(time.DateOnly)
	}
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if day, _, ok := strings.Cut(s.Value, "T"); ok && s.Key == "vcs.time" {
				return day
			}
		}
	}
	return ""
}

// manArgument is one argument of a roff request, which may be empty.
func manArgument(s string) string {
	if s == "" {
		return `""`
	}
	return `"` + strings.ReplaceAll(roff(s), `"`, "") + `"`
}

// roff escapes what roff would take for commands.
func roff(s string) string {
	s = strings.NewReplacer(`\`, `\e`, "-", `\-`).Replace(s)
	lines := strings.Split(s, "\n")
	for i, l := range lines {
		if l == "" {
			lines[i] = ".PP"
		}
		if strings.HasPrefix(l, ".") || strings.HasPrefix(l, "'") {
			lines[i] = `\&` + l
		}
	}
	return strings.Join(lines, "\n")
}
