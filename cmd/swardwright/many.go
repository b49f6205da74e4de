package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"sort"
	"strings"
	"sync"

	"github.com/spf13/cobra"
	"golang.org/x/term"

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
		inside, err := filepath.Glob(filepath.Join(escapeGlob(a), "*.toml"))
		if err != nil {
			return nil, false, err
		}
		if len(inside) == 0 {
			return nil, false, wrongf("there is no brief in %s: no file ends in .toml", a)
		}
		sort.Strings(inside)
		names = append(names, inside...)
	}
	return names, several || len(names) > 1, nil
}

// escapeGlob takes their meaning off the characters that Glob gives one.
func escapeGlob(dir string) string {
	if runtime.GOOS == "windows" {
		return dir // where a backslash is no escape
	}
	return strings.NewReplacer(`\`, `\\`, `*`, `\*`, `?`, `\?`, `[`, `\[`).Replace(dir)
}

// outcome is what is kept of one plan among many.
type outcome struct {
	lawn     text.Lawn
	want     order.Want
	currency string
	err      error
}

// planMany plans briefs on all cores, and keeps of each only what the list at
// the end shows. A brief that cannot be planned does not stop the others.
func planMany(cmd *cobra.Command, names []string, flags planFlags) error {
	for _, dir := range flags.places() {
		if dir == "-" {
			return wrongf("standard output cannot hold several plans; name a folder")
		}
		if dir != "" {
			if err := os.MkdirAll(dir, 0o755); err != nil {
				return fmt.Errorf("cannot write: %w", err)
			}
		}
	}
	outcomes := make([]outcome, len(names))
	next := make(chan int)
	var workers sync.WaitGroup
	show := newProgress(cmd.ErrOrStderr(), len(names))
	for range min(runtime.GOMAXPROCS(0), len(names)) {
		workers.Go(func() {
			for i := range next {
				outcomes[i] = planOneOfMany(cmd, names[i], flags)
				show.step(names[i])
			}
		})
	}
	for i := range names {
		if cmd.Context().Err() != nil {
			break
		}
		next <- i
	}
	close(next)
	workers.Wait()
	show.done()
	if err := cmd.Context().Err(); err != nil {
		return err
	}
	return listMany(cmd, outcomes)
}

func planOneOfMany(cmd *cobra.Command, name string, flags planFlags) outcome {
	fail := func(err error) outcome {
		return outcome{lawn: text.Lawn{Name: name, Fault: "not planned, see above"}, err: err}
	}
	brief, err := readBrief(cmd, name)
	if err != nil {
		return fail(err)
	}
	plan, err := sowing.NewPlan(cmd.Context(), brief)
	if err != nil {
		return fail(planned(cmd.Context(), name, err))
	}
	want, err := plan.SeedWanted()
	if err != nil {
		return fail(planned(cmd.Context(), name, err))
	}
	outputs, _, err := flags.in(strings.TrimSuffix(filepath.Base(name), ".toml")).render(plan)
	if err == nil {
		err = write(io.Discard, outputs)
	}
	if err != nil {
		return fail(err)
	}
	return outcome{lawn: text.LawnOf(name, plan), want: want, currency: brief.Currency}
}

// listMany tells every error, then lists the lawns and the seed for all.
func listMany(cmd *cobra.Command, outcomes []outcome) error {
	worst := exitDone
	var lawns []text.Lawn
	wants := map[string][]order.Want{}
	for _, o := range outcomes {
		lawns = append(lawns, o.lawn)
		if o.err != nil {
			tell(cmd.ErrOrStderr(), o.err)
			worst = max(worst, status(o.err))
			continue
		}
		wants[o.currency] = append(wants[o.currency], o.want)
	}
	var currencies []string
	for c := range wants {
		currencies = append(currencies, c)
	}
	slices.Sort(currencies)
	var bulk []text.Bulk
	for _, c := range currencies {
		bulk = append(bulk, text.Bulk{Currency: c, Order: order.Cheapest(sowing.Combine(wants[c]))})
	}
	page, err := rendered(func(w io.Writer) error { return text.Lawns(w, lawns, bulk, lookOf(cmd.OutOrStdout())) })
	if err == nil {
		err = write(cmd.OutOrStdout(), []output{{"-", page}})
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

// progress is a bar on a terminal, and nothing anywhere else.
type progress struct {
	w         io.Writer
	all, made int
	mu        sync.Mutex
}

func newProgress(w io.Writer, all int) *progress {
	f, ok := w.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
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
		fmt.Fprintf(p.w, clearLine+"[%s%s] %d of %d %.20s", strings.Repeat("=", full), strings.Repeat(" ", barWidth-full), p.made, p.all, filepath.Base(name))
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
