// Swardwright plans lawns where grass finds it hard to grow: it reads briefs
// and writes plans. This command reads flags, asks sowing for plans and hands
// them to report.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"os/signal"
	"runtime/debug"
	"slices"
	"strings"
	"syscall"

	"github.com/samber/lo"
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"swardwright/internal/files"
	"swardwright/internal/plain"
	"swardwright/internal/sheet"
)

// Exit statuses.
const (
	exitDone   = 0
	exitFailed = 1 // something outside the brief failed
	exitWrong  = 2 // the call or the brief is wrong
)

// A plan makes much litter in half a second and then ends, so the garbage is
// collected seldom, but for what a thousand lawns would leave lying about.
const (
	litterPercent = 800
	litterLimit   = 100 << 20 // bytes
	manyLimit     = 140 << 20 // where a lawn is planned on every core
	besideLimit   = 200 << 20 // where plans stand beside each other, and what they share is kept
)

func main() {
	debug.SetGCPercent(litterPercent)
	debug.SetMemoryLimit(litterLimit)
	os.Exit(start())
}

// start runs the program until it is done or told to stop.
func start() int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second Ctrl-C ends the program at once
	return run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
}

// run is the whole program; its result is the exit status.
func run(ctx context.Context, args []string, in io.Reader, out, errs io.Writer) int {
	root := newRoot()
	printed := &watched{Writer: out}
	root.SetArgs(args)
	root.SetIn(in)
	root.SetOut(printed)
	root.SetErr(errs)
	err := root.ExecuteContext(ctx)
	if err == nil && printed.err != nil {
		err = fmt.Errorf("cannot write to standard output: %w", printed.err)
	}
	if err == nil {
		return exitDone
	}
	tell(errs, err)
	return status(err)
}

// wrongCall is an error in how the program was called.
type wrongCall struct{ error }

func wrongf(format string, args ...any) error { return wrongCall{fmt.Errorf(format, args...)} }

func (e wrongCall) Unwrap() error { return e.error }

func status(err error) int {
	var call wrongCall
	var faults sheet.Faults
	var clash files.Clash
	if errors.As(err, &call) || errors.As(err, &faults) || errors.As(err, &clash) {
		return exitWrong
	}
	return exitFailed
}

// tell prints an error. Faults of a brief already say where they stand; anything
// else is headed by the program's name.
func tell(w io.Writer, err error) {
	var faults sheet.Faults
	switch {
	case errors.Is(err, errTold):
	case errors.As(err, &faults):
		fmt.Fprintln(w, faults)
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(w, "swardwright: stopped; nothing more was written")
	default:
		for _, line := range errorLines(err) {
			fmt.Fprintln(w, "swardwright: "+plain.Line(line))
		}
	}
}

// errorLines are the messages of an error, one for each of several joined.
func errorLines(err error) []string {
	if several, ok := err.(interface{ Unwrap() []error }); ok {
		return lo.FlatMap(several.Unwrap(), func(e error, _ int) []string { return errorLines(e) })
	}
	return []string{err.Error()}
}

// errTold marks an error of which everything has been printed.
var errTold = errors.New("told already")

func newRoot() *cobra.Command {
	root := &cobra.Command{
		Use:   "swardwright",
		Short: "Plan a lawn where grass finds it hard to grow",
		Long: `Swardwright plans lawns for shade, long winters, wet ground and short seasons.
From a brief, one text file about one lawn, it works out the light, which
grasses can live there, which mixture to sow, how much and when, on what ground,
at what cost against turf, and how to keep it through the year.

  swardwright new lawn.toml     write a brief to start from
  swardwright check lawn.toml   look it over
  swardwright plan lawn.toml    plan the lawn
  swardwright plan              plan a built-in example`,
		Version:       version(),
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          noSuchCommand,
		RunE:          func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.SuggestionsMinimumDistance = 2 // letters
	root.SetFlagErrorFunc(wrongFlag)
	root.SetHelpCommand(newHelp())
	cobra.AddTemplateFunc("flagUsages", flagUsages)
	root.SetUsageTemplate(strings.NewReplacer(".LocalFlags.FlagUsages", "flagUsages .LocalFlags", ".InheritedFlags.FlagUsages", "flagUsages .InheritedFlags").Replace(root.UsageTemplate()))
	root.CompletionOptions.DisableDefaultCmd = true
	root.AddCommand(newPlan(), newCompare(), newCheck(), newLight(), newMatrix(), newSpecies(), newStations(), newPrices(), newNew(), newDesk(), newCompletion(), newMan())
	return root
}

// wrongFlag says in our words what is wrong with a flag.
func wrongFlag(cmd *cobra.Command, err error) error {
	hint := "see: " + cmd.CommandPath() + " --help"
	var missing *pflag.NotExistError
	var bare *pflag.ValueRequiredError
	var value *pflag.InvalidValueError
	var syntax *pflag.InvalidSyntaxError
	switch {
	case errors.As(err, &missing) && missing.GetSpecifiedShortnames() != "":
		return wrongf("there is no flag -%s; flags are words, with two dashes; %s", plain.Cut(missing.GetSpecifiedShortnames()), hint)
	case errors.As(err, &missing):
		name := missing.GetSpecifiedName()
		var flags []string
		cmd.Flags().VisitAll(func(f *pflag.Flag) { flags = append(flags, f.Name) })
		if near := sheet.Nearest(name, flags); near != "" {
			hint = "did you mean --" + near + "?"
		}
		return wrongf("there is no flag --%s; %s", plain.Cut(name), hint)
	case errors.As(err, &bare):
		return wrongf("--%s needs a value after it; %s", bare.GetFlag().Name, hint)
	case errors.As(err, &value):
		what := "a number"
		if value.GetFlag().Value.Type() == "bool" {
			what = "true or false, or nothing"
		}
		return wrongf("--%s needs %s, has %s", value.GetFlag().Name, what, plain.Quote(value.GetValue()))
	case errors.As(err, &syntax):
		return wrongf("%s is no flag; %s", plain.Quote(syntax.GetSpecifiedFlag()), hint)
	}
	return wrongf("%w; %s", err, hint)
}

// flagUsages lists flags within the width of a page. What the library puts behind a flag that
// is on or off is left out: nobody writes it.
func flagUsages(flags *pflag.FlagSet) string {
	const onOff = "[=true|false]"
	return strings.ReplaceAll(flags.FlagUsagesWrapped(defaultWidth), onOff, strings.Repeat(" ", len(onOff)))
}

// shells are those that completion is written for.
var shells = map[string]func(*cobra.Command, io.Writer) error{
	"bash":       func(root *cobra.Command, w io.Writer) error { return root.GenBashCompletionV2(w, true) },
	"zsh":        (*cobra.Command).GenZshCompletion,
	"fish":       func(root *cobra.Command, w io.Writer) error { return root.GenFishCompletion(w, true) },
	"powershell": (*cobra.Command).GenPowerShellCompletionWithDesc,
}

func newCompletion() *cobra.Command {
	names := slices.Sorted(maps.Keys(shells))
	return &cobra.Command{
		Use:   "completion SHELL",
		Short: "Write completion for a shell: " + strings.Join(names, ", "),
		Long: `Completion writes the script by which a shell completes commands, flags, names
of briefs, grasses, stations and the other values.`,
		Example: `  source <(swardwright completion bash)
  swardwright completion zsh > "${fpath[1]}/_swardwright"
  swardwright completion fish > ~/.config/fish/completions/swardwright.fish
  swardwright completion powershell | Out-String | Invoke-Expression`,
		Args:              arguments(1, 1, "one shell"),
		ValidArgsFunction: cobra.FixedCompletions(names, cobra.ShellCompDirectiveNoFileComp),
		RunE: func(cmd *cobra.Command, args []string) error {
			write, ok := shells[args[0]]
			if !ok {
				return wrongf("%s is no shell that is known; %s", plain.Quote(args[0]), meant(args[0], names, "there are "))
			}
			return write(cmd.Root(), cmd.OutOrStdout())
		},
	}
}

// newHelp is help on a command, which has to be one.
func newHelp() *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "Help on a command",
		RunE: func(cmd *cobra.Command, args []string) error {
			about, left, err := cmd.Root().Find(args)
			if err != nil || len(left) > 0 {
				return noSuchCommand(cmd.Root(), args)
			}
			return about.Help()
		},
		ValidArgsFunction: func(cmd *cobra.Command, _ []string, begun string) ([]string, cobra.ShellCompDirective) {
			var names []string
			for _, c := range cmd.Root().Commands() {
				if c.IsAvailableCommand() && strings.HasPrefix(c.Name(), begun) {
					names = append(names, c.Name()+"\t"+c.Short)
				}
			}
			return names, cobra.ShellCompDirectiveNoFileComp
		},
	}
}

// noSuchCommand refuses a word where a command should stand.
func noSuchCommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	hint := "see: swardwright --help"
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		hint = "did you mean " + strings.Join(near, " or ") + "?"
	} else if strings.HasSuffix(args[0], ".toml") {
		hint = "to plan it: swardwright plan " + args[0]
	}
	return wrongf("%s is no command; %s", plain.Quote(args[0]), hint)
}

// arguments checks how many arguments a command gets; most may be -1 for any number.
func arguments(least, most int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		switch {
		case len(args) < least:
			return wrongf("%s needs %s; see: %[1]s --help", cmd.CommandPath(), what)
		case most >= 0 && len(args) > most:
			return wrongf("%s takes %s and no more, has %s as well; see: %[1]s --help", cmd.CommandPath(), what, plain.Quote(args[most]))
		}
		return nil
	}
}

func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	v := info.Main.Version
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && v == "(devel)" {
			v += " " + s.Value
		}
	}
	return v + " " + info.GoVersion
}
