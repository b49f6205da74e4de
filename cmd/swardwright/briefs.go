package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"strings"

	"github.com/bojanz/currency"
	"github.com/samber/lo"
	"github.com/spf13/cobra"

	"swardwright/data"
	"swardwright/internal/files"
	"swardwright/internal/sheet"
	"swardwright/site"
	"swardwright/sowing"
)

// demoName is the built-in brief that is planned when none is named.
const demoName = "court"

// readBrief reads one brief; "-" is standard input.
func readBrief(cmd *cobra.Command, name string) (sowing.Brief, error) {
	brief, _, err := openBrief(cmd, name)
	return brief, err
}

// openBrief reads one brief, and tells which files it was read from.
func openBrief(cmd *cobra.Command, name string) (sowing.Brief, []files.Use, error) {
	s, err := openSource(cmd, name)
	return s.brief, s.reads, err
}

// source is a brief with the text it was read from.
type source struct {
	name  string
	text  []byte
	open  site.Opener
	brief sowing.Brief
	reads []files.Use
}

func openSource(cmd *cobra.Command, name string) (source, error) {
	s := source{name: name, reads: []files.Use{briefUse(cmd, name)}}
	err := files.Within(cmd.Context(), func() (err error) {
		s.text, err = briefText(cmd.InOrStdin(), name)
		return err
	})
	if err != nil {
		return s, err
	}
	open := besides(name)
	s.open = func(weather string) (io.ReadCloser, error) {
		file, place, err := open(weather)
		s.reads = append(s.reads, files.Use{What: "the weather file", Name: place})
		return file, err
	}
	s.brief, err = sowing.ReadBrief(name, s.text, s.open)
	return s, err
}

func briefUse(cmd *cobra.Command, name string) files.Use {
	return files.Use{What: "the brief", Name: name, Stream: cmd.InOrStdin()}
}

func briefText(stdin io.Reader, name string) ([]byte, error) {
	from := stdin
	if name != files.Std {
		if info, err := os.Stat(name); err == nil && info.IsDir() {
			return nil, wrongf("%s is a folder; name a brief in it", name)
		}
		file, err := os.Open(name)
		if errors.Is(err, fs.ErrNotExist) {
			return nil, wrongf("there is no file %s; to write one: swardwright new %[1]s", name)
		}
		if err != nil {
			return nil, fmt.Errorf("cannot read the brief: %w", err)
		}
		defer file.Close()
		from = file
	}
	// One byte more than allowed, so that what is too long is seen to be so.
	text, err := io.ReadAll(io.LimitReader(from, sheet.MaxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("cannot read the brief %s: %w", name, err)
	}
	return text, nil
}

// besides opens files that a brief names, seen from where the brief lies, and tells
// where they are.
func besides(brief string) func(name string) (io.ReadCloser, string, error) {
	return func(name string) (io.ReadCloser, string, error) {
		if !filepath.IsAbs(name) && brief != files.Std {
			name = filepath.Join(filepath.Dir(brief), name)
		}
		info, err := os.Stat(name)
		if errors.Is(err, fs.ErrNotExist) {
			return nil, name, fmt.Errorf("there is no file %s", name)
		}
		if err != nil {
			return nil, name, err
		}
		if !info.Mode().IsRegular() {
			return nil, name, fmt.Errorf("%s is no plain file", name)
		}
		file, err := os.Open(name)
		return file, name, err
	}
}

// planned words an error of planning a brief that reads well. Planning is pure, so
// that unless it was stopped, the brief is the cause.
func planned(ctx context.Context, name string, err error) error {
	if err == nil || ctx.Err() != nil {
		return err
	}
	return wrongf("%s: %w", name, err)
}

func demoText(name string) ([]byte, error) {
	return data.FS.ReadFile("demo/" + name + ".toml")
}

func readDemo() (sowing.Brief, error) {
	text, err := demoText(demoName)
	if err != nil {
		return sowing.Brief{}, err
	}
	return sowing.ReadBrief("demo "+demoName, text, nil)
}

// demoNames are the built-in briefs.
func demoNames() []string {
	paths, _ := fs.Glob(data.FS, "demo/*.toml") // the pattern is sound
	names := make([]string, len(paths))
	for i, p := range paths {
		names[i] = strings.TrimSuffix(filepath.Base(p), ".toml")
	}
	sort.Strings(names)
	return names
}

// completeBriefs completes file names of briefs.
func completeBriefs(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return []string{"toml"}, cobra.ShellCompDirectiveFilterFileExt
}

// completeSpecies completes the ids of grasses.
func completeSpecies(_ *cobra.Command, _ []string, begun string) ([]string, cobra.ShellCompDirective) {
	tables, err := sowing.BuiltIn()
	if err != nil {
		return nil, cobra.ShellCompDirectiveError
	}
	var ids []string
	for _, s := range tables.Species.All() {
		if strings.HasPrefix(s.ID, begun) {
			ids = append(ids, s.ID+"\t"+s.Botanical)
		}
	}
	return ids, cobra.ShellCompDirectiveNoFileComp
}

// completeStations completes the names of stations.
func completeStations(_ *cobra.Command, _ []string, begun string) ([]string, cobra.ShellCompDirective) {
	tables, err := sowing.BuiltIn()
	if err != nil {
		return nil, cobra.ShellCompDirectiveError
	}
	var names []string
	for _, s := range tables.Stations.All() {
		if strings.HasPrefix(strings.ToLower(s.Name), strings.ToLower(begun)) {
			names = append(names, s.Name+"\t"+s.Country)
		}
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}

// rendered collects what a writer writes.
func rendered(write func(io.Writer) error) ([]byte, error) {
	var b bytes.Buffer
	err := write(&b)
	return b.Bytes(), err
}

// complete gives a flag its completion.
func complete(cmd *cobra.Command, flag string, f cobra.CompletionFunc) {
	if err := cmd.RegisterFlagCompletionFunc(flag, f); err != nil {
		panic(err) // the flag was added before
	}
}

// completeCurrencies completes codes of ISO 4217.
func completeCurrencies(_ *cobra.Command, _ []string, begun string) ([]string, cobra.ShellCompDirective) {
	codes := lo.Filter(currency.GetCurrencyCodes(), func(c string, _ int) bool { return strings.HasPrefix(c, strings.ToUpper(begun)) })
	return codes, cobra.ShellCompDirectiveNoFileComp
}

// completeLanguages completes the tags that are asked for most; any of BCP 47 will do.
func completeLanguages(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return []string{"en-GB", "en-US", "en-CA", "de-DE", "de-AT", "fr-FR", "sv-SE", "nb-NO", "da-DK", "fi-FI", "is-IS"}, cobra.ShellCompDirectiveNoFileComp
}

// meant hints at which of some words was meant by another, or else lists them.
func meant(word string, words []string, lead string) string {
	if near := sheet.Nearest(word, words); near != "" {
		return "did you mean " + near + "?"
	}
	return lead + strings.Join(words, ", ")
}
