package main

import (
	"io"
	"path/filepath"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"

	"swardwright/internal/files"
	"swardwright/internal/plain"
	"swardwright/report"
	"swardwright/report/page"
	"swardwright/report/paper"
	"swardwright/report/text"
	"swardwright/sowing"
)

func newCompare() *cobra.Command {
	var sets []string
	var json, pdf, html, size string
	cmd := &cobra.Command{
		Use:   "compare BRIEF...",
		Short: "Plan a lawn with something changed, beside itself",
		Long: `Compare plans one brief and its [[variant]]s, or several briefs, and shows what
differs, with what each change buys and costs. All are followed through the same
years, so that what differs comes of the change.

--set plans the brief once more with keys of it set, each --set by itself; keys
that go together stand in one, with ; between. A table of which there are
several is named by its own name or its number.`,
		Example: `  swardwright compare lawn.toml
  swardwright compare lawn.toml --pdf choice.pdf
  swardwright compare lawn.toml --set obstacle.birch.clear_stem_m=3
  swardwright compare lawn.toml --set 'use.mowing_mm=60; use.traffic=light'
  swardwright compare north.toml south.toml --json both.json`,
		Args:              arguments(1, -1, "a brief"),
		ValidArgsFunction: completeBriefs,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 && len(sets) > 0 {
				return wrongf("--set changes one brief; name one")
			}
			if err := paperOf(size); err != nil {
				return err
			}
			if err := noTerminal(cmd, pdf); err != nil {
				return err
			}
			var all []sowing.Compared
			return compare(cmd, args, sets, &all, json,
				form{"the PDF", pdf, func(w io.Writer) error { return paper.Compared(w, all, paper.Options{Paper: size}) }},
				form{"the page", html, func(w io.Writer) error { return page.Compared(w, all) }})
		},
	}
	cmd.Flags().StringArrayVar(&sets, "set", nil, "plan it once more with `KEY=VALUE` set; several with ; between")
	jsonFlag(cmd, &json)
	cmd.Flags().StringVar(&pdf, "pdf", "", "write it as a client's page, PDF, to `FILE`")
	cmd.Flags().StringVar(&html, "html", "", "write it as one HTML page to `FILE`")
	paperFlag(cmd, &size)
	return cmd
}

// compare plans what is to be compared into all, and writes it in the forms asked for.
func compare(cmd *cobra.Command, names, sets []string, all *[]sowing.Compared, json string, printed ...form) error {
	lawns, reads, err := lawnsOf(cmd, names, sets)
	if err != nil {
		return err
	}
	if len(lawns) < 2 {
		return wrongf("%s has no [[variant]] to compare with; add one, or name more briefs or a --set", plain.Line(names[0]))
	}
	if err := ready(cmd, reads, json, printed...); err != nil {
		return err
	}
	tables, err := sowing.BuiltIn()
	if err != nil {
		return err
	}
	debug.SetMemoryLimit(besideLimit)
	if *all, err = sowing.Compare(cmd.Context(), tables, lawns); err != nil {
		return planned(cmd.Context(), names[0], err)
	}
	return writeOne(cmd, json,
		func(w io.Writer) error { return report.ComparisonJSON(w, *all) },
		func(w io.Writer) error { return text.Comparison(w, *all, lookOf(cmd.OutOrStdout())) }, printed...)
}

// lawnsOf are the briefs to be compared: those named, or one with its variants and
// those that the command line asks for.
func lawnsOf(cmd *cobra.Command, names, sets []string) ([]sowing.Variant, []files.Use, error) {
	var lawns []sowing.Variant
	var reads []files.Use
	for _, name := range names {
		source, err := openSource(cmd, name)
		reads = append(reads, source.reads...)
		if err != nil {
			return nil, reads, err
		}
		called := source.brief.Title
		if len(names) == 1 {
			called = "as it is"
		} else if called == "" {
			called = filepath.Base(name)
		}
		lawns = append(lawns, sowing.Variant{Name: called, Brief: source.brief})
		if len(names) > 1 {
			continue
		}
		lawns = append(lawns, source.brief.Variants...)
		for _, set := range sets {
			v, err := source.with(set)
			if err != nil {
				return nil, reads, err
			}
			lawns = append(lawns, v)
		}
	}
	return lawns, reads, nil
}

// with is the brief once more with the settings of one --set.
func (s source) with(set string) (sowing.Variant, error) {
	var settings []sowing.Setting
	for _, one := range strings.Split(set, ";") {
		setting, err := sowing.ParseSetting(strings.TrimSpace(one))
		if err != nil {
			return sowing.Variant{}, wrongf("--set: %w", err)
		}
		settings = append(settings, setting)
	}
	b, err := sowing.With(s.name, s.text, s.open, settings)
	return sowing.Variant{Name: set, Brief: b}, err
}
