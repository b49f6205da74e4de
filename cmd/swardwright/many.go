package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"sync"

	"github.com/samber/lo"
	"github.com/spf13/cobra"

	"swardwright/internal/files"
	"swardwright/internal/plain"
	"swardwright/report/text"
	"swardwright/sowing"
	"swardwright/sowing/order"
)

// briefsOf gives the briefs that the arguments name, a folder standing for the
// briefs in it, and whether there may be several.
func briefsOf(args []string) (names []string, several bool, err error) {
	for _, a := range args {
		info, err := os.Stat(a)
		if err != nil || !info.IsDir() {
			names = append(names, a) // reading it will say what is wrong
			continue
		}
		several = true
		inside, err := briefsIn(a)
		if err != nil {
			return nil, false, fmt.Errorf("cannot read the folder: %w", err)
		}
		if len(inside) == 0 {
			return nil, false, wrongf("there is no brief in %s: no file ends in %s", a, briefEnding)
		}
		names = append(names, inside...)
	}
	return names, several || len(names) > 1, nil
}

// briefEnding is that of briefs in a folder, in small letters or capitals.
const briefEnding = ".toml"

// briefsIn are the briefs in a folder, hidden files left out.
func briefsIn(dir string) ([]string, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	var names []string
	for _, e := range entries {
		if isBrief(e.Name()) && !e.IsDir() && !strings.HasPrefix(e.Name(), ".") {
			names = append(names, filepath.Join(dir, e.Name()))
		}
	}
	return names, nil
}

func isBrief(name string) bool { return strings.EqualFold(filepath.Ext(name), briefEnding) }

// outcome is what is kept of one plan among many.
type outcome struct {
	lawn     text.Lawn
	want     order.Input
	currency string
	err      error
}

// planMany plans briefs on all cores, and keeps of each only what the list at
// the end shows. A brief that cannot be planned does not stop the others.
func planMany(cmd *cobra.Command, names []string, flags planFlags) error {
	if flags.alone() || flags.drawings == files.Std {
		return wrongf("standard output cannot hold several plans; name a folder")
	}
	if name, ok := files.Twice(names); ok {
		return wrongf("%s is named twice", name)
	}
	outcomes := make([]outcome, len(names))
	briefs := make([]sowing.Brief, len(names))
	reads := make([][]files.Use, len(names))
	onAllCores(cmd.Context(), len(names), func(i int) {
		briefs[i], reads[i], outcomes[i].err = openBrief(cmd, names[i])
	})
	writes := []files.Use{{What: "the list", Name: files.Std, Stream: under(cmd.OutOrStdout())}}
	for _, name := range names {
		for _, u := range flags.of(name).uses(nil) {
			u.What += " of " + name
			writes = append(writes, u)
		}
	}
	if err := cmp.Or(cmd.Context().Err(), files.Ready(slices.Concat(reads...), writes)); err != nil {
		return err
	}
	debug.SetMemoryLimit(manyLimit)
	show := newProgress(cmd.ErrOrStderr(), len(names))
	onAllCores(cmd.Context(), len(names), func(i int) {
		if outcomes[i].err == nil {
			outcomes[i] = planOneOfMany(cmd.Context(), names[i], briefs[i], flags)
		}
		if outcomes[i].err != nil {
			outcomes[i].lawn = text.Lawn{Name: plain.Line(names[i]), Fault: "not planned, see above"}
		}
		briefs[i] = sowing.Brief{} // a thousand would lie about
		show.step(names[i])
	})
	show.done()
	if err := cmd.Context().Err(); err != nil {
		return err
	}
	return listMany(cmd, outcomes)
}

// onAllCores does n things, as many at once as there are cores, until ctx ends.
func onAllCores(ctx context.Context, n int, do func(int)) {
	next := make(chan int)
	var workers sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		workers.Go(func() {
			for i := range next {
				do(i)
			}
		})
	}
	for i := 0; i < n && ctx.Err() == nil; i++ {
		next <- i
	}
	close(next)
	workers.Wait()
}

func planOneOfMany(ctx context.Context, name string, brief sowing.Brief, flags planFlags) outcome {
	tables, err := sowing.BuiltIn()
	if err != nil {
		return outcome{err: err}
	}
	plan, err := flags.plan(ctx, tables, brief)
	if err != nil {
		return outcome{err: planned(ctx, name, err)}
	}
	want, err := plan.SeedWanted(tables)
	if err != nil {
		return outcome{err: planned(ctx, name, err)}
	}
	flags = flags.of(name)
	outputs, err := flags.render(plan)
	if err == nil {
		err = files.Write(ctx, io.Discard, outputs, flags.stale(outputs)...)
	}
	if err != nil {
		return outcome{err: err}
	}
	return outcome{lawn: text.LawnOf(plain.Line(name), plan), want: want, currency: brief.Currency}
}

// of gives the flags for one of many plans: what named a folder names the file of
// this plan in it.
func (f planFlags) of(brief string) planFlags {
	base := filepath.Base(brief)
	if isBrief(base) {
		base = strings.TrimSuffix(base, filepath.Ext(base))
	}
	if brief == files.Std {
		base = "standard-input"
	}
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

// listMany tells every error, then lists the lawns and the seed for all.
func listMany(cmd *cobra.Command, outcomes []outcome) error {
	worst := exitDone
	var lawns []text.Lawn
	wants, units, languages := map[string][]order.Input{}, map[string][]string{}, map[string][]string{}
	for _, o := range outcomes {
		lawns = append(lawns, o.lawn)
		if o.err != nil {
			tell(cmd.ErrOrStderr(), o.err)
			worst = max(worst, status(o.err))
			continue
		}
		wants[o.currency] = append(wants[o.currency], o.want)
		units[o.currency], languages[o.currency] = append(units[o.currency], o.lawn.Units), append(languages[o.currency], o.lawn.Language)
	}
	var currencies []string
	for c := range wants {
		currencies = append(currencies, c)
	}
	slices.Sort(currencies)
	var bulk []text.Bulk
	for _, c := range currencies {
		bulk = append(bulk, text.Bulk{Currency: c, Units: most(units[c]), Language: most(languages[c]), Order: order.Cheapest(sowing.Combine(wants[c]))})
	}
	page, err := rendered(func(w io.Writer) error { return text.Lawns(w, lawns, bulk, lookOf(cmd.OutOrStdout())) })
	if err == nil {
		err = files.Write(cmd.Context(), cmd.OutOrStdout(), []files.Output{{Name: files.Std, Data: page}})
	}
	switch {
	case err != nil:
		return err
	case worst == exitWrong:
		return wrongCall{errTold}
	case worst == exitFailed:
		return errTold
	}
	return nil
}

// most is the word that stands most often among others, of equals the first by the
// alphabet.
func most(words []string) string {
	count := lo.CountValues(words)
	return lo.MaxBy(slices.Sorted(maps.Keys(count)), func(a, b string) bool { return count[a] > count[b] })
}

// progress is a bar on a terminal, and nothing anywhere else.
type progress struct {
	w         io.Writer
	all, made int
	mu        sync.Mutex
}

func newProgress(w io.Writer, all int) *progress {
	if !terminal(w) || !obeys() {
		w = nil
	}
	return &progress{w: w, all: all}
}

// barWidth leaves room for the count and the name in the narrowest terminal served.
const barWidth = 20

func (p *progress) step(name string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.made++
	if p.w != nil {
		full := barWidth * p.made / p.all
		fmt.Fprintf(p.w, clearLine+"[%s%s] %d of %d %.20s", strings.Repeat("=", full), strings.Repeat(" ", barWidth-full), p.made, p.all, plain.Line(filepath.Base(name)))
	}
}

// clearLine goes to the beginning of the line and clears it (ECMA-48).
const clearLine = "\r\x1b[2K"

// done clears the bar's line.
func (p *progress) done() {
	if p.w != nil {
		fmt.Fprint(p.w, clearLine)
	}
}
