package main

import (
	"bufio"
	"bytes"
	_ "embed"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"strconv"
	"strings"
	"text/template"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"swardwright/internal/files"
	"swardwright/internal/plain"
	"swardwright/sowing"
	"swardwright/species"
)

//go:embed new.toml.tmpl
var newTemplate string

// answers are what a new brief says; the zero of a position means not asked yet.
type answers struct {
	Title, Units, Currency, Language string
	Near                             string // LAT,LON
	Latitude, Longitude              float64
	Station                          string
	AreaM2, SunHours                 float64
	Grade                            string
	Labour, Turf                     string
}

func newNew() *cobra.Command {
	a := answers{}
	var from string
	cmd := &cobra.Command{
		Use:   "new FILE",
		Short: "Write a commented brief to start from",
		Long: `New writes a commented brief that can be planned at once and filled in further.
On a terminal it asks for what the flags leave open. It never writes over an
existing file. FILE - is standard output. With --from it writes out one of the
built-in examples.`,
		Example: `  swardwright new lawn.toml
  swardwright new lawn.toml --near 57.1,-3.8 --area 84 --sun-hours 3.5 --grade utility
  swardwright new court.toml --from court`,
		Args: arguments(1, 1, "the name of a file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			name := args[0]
			if name == files.Std {
				brief, err := newBrief(cmd, a, from)
				if err != nil {
					return err
				}
				return files.Write(cmd.Context(), cmd.OutOrStdout(), []files.Output{{Name: files.Std, Data: brief}})
			}
			if _, err := os.Lstat(name); err == nil {
				return wrongf("%s is there already; name a new file", name)
			}
			if err := files.Ready(nil, []files.Use{{What: "the brief", Name: name}}); err != nil {
				return err
			}
			brief, err := newBrief(cmd, a, from)
			if err != nil {
				return err
			}
			err = files.WriteNew(name, brief)
			if errors.Is(err, fs.ErrExist) {
				return wrongf("%s is there already; name a new file", name)
			}
			if err != nil {
				return err
			}
			fmt.Fprintf(cmd.OutOrStdout(), "Wrote %s. To plan it: swardwright plan %[1]s\n", plain.Line(name))
			return nil
		},
	}
	f := cmd.Flags()
	f.StringVar(&a.Title, "title", "New lawn", "`words` to know the lawn by")
	f.StringVar(&a.Near, "near", "", "where it is, `LAT,LON` in degrees, north and east positive")
	f.StringVar(&a.Station, "station", "", "weather station, by `name`; else the nearest")
	f.Float64Var(&a.AreaM2, "area", 100, "size in `m2`")
	f.Float64Var(&a.SunHours, "sun-hours", 5, "direct sun on a clear day, `hours`, mean of the growing season")
	f.StringVar(&a.Grade, "grade", string(species.Utility), "`grade`: ornamental, utility, hard-wearing or extensive")
	f.StringVar(&a.Units, "units", "metric", "`units` of the plan: metric or us")
	f.StringVar(&a.Currency, "currency", "GBP", "currency `code`")
	f.StringVar(&a.Language, "language", "en-GB", "language `tag` for numbers and dates")
	f.StringVar(&a.Labour, "labour", "", "`price` of an hour of work")
	f.StringVar(&a.Turf, "turf", "", "`price` of a square metre of turf")
	f.StringVar(&from, "from", "", "write out the built-in `example`: "+strings.Join(demoNames(), ", "))
	for flag, complete := range map[string]func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective){
		"station": completeStations,
		"grade":   cobra.FixedCompletions([]string{"ornamental", "utility", "hard-wearing", "extensive"}, cobra.ShellCompDirectiveNoFileComp),
		"units":   cobra.FixedCompletions([]string{"metric", "us"}, cobra.ShellCompDirectiveNoFileComp),
		"from":    cobra.FixedCompletions(demoNames(), cobra.ShellCompDirectiveNoFileComp),
	} {
		if err := cmd.RegisterFlagCompletionFunc(flag, complete); err != nil {
			panic(err) // a flag of that name stands above
		}
	}
	return cmd
}

// newBrief makes the text of a new brief.
func newBrief(cmd *cobra.Command, a answers, from string) ([]byte, error) {
	if from != "" {
		text, err := demoText(from)
		if err != nil {
			return nil, wrongf("--from: there is no example %s; there are %s", plain.Quote(from), strings.Join(demoNames(), ", "))
		}
		return text, nil
	}
	if in, ok := cmd.InOrStdin().(*os.File); ok && term.IsTerminal(int(in.Fd())) {
		if err := a.ask(cmd); err != nil {
			return nil, err
		}
	}
	if err := a.place(cmd.Flags().Changed("station")); err != nil {
		return nil, err
	}
	text, err := a.brief()
	if err != nil {
		return nil, err
	}
	// What the flags or answers got wrong, the reader of briefs finds.
	if _, err := sowing.ReadBrief("", text, nil); err != nil {
		return nil, wrongf("this would give a faulty brief:\n%w", err)
	}
	return text, nil
}

// ask asks on the terminal for what no flag gave.
func (a *answers) ask(cmd *cobra.Command) error {
	in := bufio.NewScanner(cmd.InOrStdin())
	fmt.Fprintln(cmd.ErrOrStderr(), "A few questions; Enter takes what stands in brackets.")
	for _, q := range []struct {
		flag, words string
		to          any
	}{
		{"title", "What shall the lawn be called", &a.Title},
		{"near", "Where is it: latitude,longitude in degrees", &a.Near},
		{"area", "How large is it, m2", &a.AreaM2},
		{"sun-hours", "Hours of direct sun on a clear day, mean of the growing season", &a.SunHours},
		{"grade", "What grade: ornamental, utility, hard-wearing, extensive", &a.Grade},
		{"currency", "Currency of the prices", &a.Currency},
		{"labour", "Price of an hour of work, empty for the example price", &a.Labour},
		{"turf", "Price of a square metre of turf, empty for the example price", &a.Turf},
	} {
		if cmd.Flags().Changed(q.flag) {
			continue
		}
		for {
			fmt.Fprintf(cmd.ErrOrStderr(), "%s [%v]: ", q.words, deref(q.to))
			more := false
			if err := files.Within(cmd.Context(), func() error { more = in.Scan(); return nil }); err != nil {
				fmt.Fprintln(cmd.ErrOrStderr())
				return err
			}
			if !more {
				return wrongf("the questions were not answered; nothing was written")
			}
			answer := strings.TrimSpace(in.Text())
			if answer == "" {
				break
			}
			if s, ok := q.to.(*string); ok {
				*s = answer
				break
			}
			x, err := strconv.ParseFloat(strings.Replace(answer, ",", ".", 1), 64)
			if err == nil {
				*q.to.(*float64) = x
				break
			}
			fmt.Fprintln(cmd.ErrOrStderr(), "That is no number.")
		}
	}
	return nil
}

func deref(v any) any {
	switch x := v.(type) {
	case *string:
		return *x
	case *float64:
		return *x
	}
	return v
}

// startStation is where a new brief lies that is told no place.
const startStation = "Aberporth"

// place settles position and station from each other.
func (a *answers) place(stationGiven bool) error {
	tables, err := sowing.BuiltIn()
	if err != nil {
		return err
	}
	if a.Near != "" {
		if a.Latitude, a.Longitude, err = position(a.Near); err != nil {
			return err
		}
		if !stationGiven {
			// Height is not asked for; the nearest station says the most.
			st, _ := tables.Stations.Nearest(a.Latitude, a.Longitude, math.NaN())
			a.Station = st.Name
		}
		return nil
	}
	if a.Station == "" {
		a.Station = startStation
	}
	st, ok := tables.Stations.Find(a.Station)
	if !ok {
		hint := "swardwright stations lists them"
		if near := tables.Stations.Suggest(a.Station); len(near) > 0 {
			hint = "did you mean " + strings.Join(near, " or ") + "?"
		}
		return wrongf("--station: %s is no station of the table; %s", plain.Quote(a.Station), hint)
	}
	a.Station, a.Latitude, a.Longitude = st.Name, st.LatitudeDeg, st.LongitudeDeg
	return nil
}

// brief fills in the template.
func (a *answers) brief() ([]byte, error) {
	t, err := template.New("brief").Funcs(template.FuncMap{
		"quote":  quoteTOML,
		"number": func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) },
	}).Parse(newTemplate)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = t.Execute(&b, a)
	return b.Bytes(), err
}

// quoteTOML writes a TOML basic string.
func quoteTOML(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String() + `"`
}
