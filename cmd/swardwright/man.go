package main

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
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
	fmt.Fprintf(w, ".TH %s 1\n.SH NAME\n%s \\- %s\n", strings.ToUpper(name), name, roff(root.Short))
	fmt.Fprintf(w, ".SH SYNOPSIS\n.B %s\n.I command\n[options]\n.SH DESCRIPTION\n%s\n.SH COMMANDS\n", name, roff(root.Long))
	for _, c := range root.Commands() {
		if c.Hidden || c.Name() == "help" {
			continue
		}
		fmt.Fprintf(w, ".SS %s\n%s\n", roff(c.UseLine()), roff(c.Long))
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
	fmt.Fprintf(w, ".SH EXIT STATUS\n0 done; 1 something outside the brief failed, such as a file that can't be written; 2 the call or a brief is wrong.\n")
	return w.Flush()
}

// roff escapes what roff would take for commands.
func roff(s string) string {
	s = strings.NewReplacer(`\`, `\e`, "-", `\-`).Replace(s)
	lines := strings.Split(s, "\n")
	for i, l := range lines {
		if strings.HasPrefix(l, ".") || strings.HasPrefix(l, "'") {
			lines[i] = `\&` + l
		}
	}
	return strings.Join(lines, "\n")
}
