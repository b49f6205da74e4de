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
	"regexp"
	"slices"
	"strconv"
	"strings"
	"text/template"

	"github.com/spf13/cobra"

	"swardwright/internal/files"
	"swardwright/internal/plain"
	"swardwright/internal/sheet"
	"swardwright/sowing"
	"swardwright/species"
)

//go:embed new.toml.tmpl
var newTemplate string

// answers are what a new brief says.
type answers struct {
	Title, Units, Currency, Language string
	Near                             string // LAT,LON
	Latitude, Longitude              float64
	Station                          string
	AreaM2, SunHours                 float64
	Grade                            string
	Labour, Turf                     string

	stationGiven bool
}

func newNew() *cobra.Command {
	a := answers{}
	var from, count, size string
	var noInput bool
	cmd := &cobra.Command{
		Use:   "new FILE",
		Short: "Write a commented brief to start from",
		Long: `New writes a commented brief that can be planned at once and filled in further.
It needs to know where the lawn is. On a terminal it asks for what the flags
leave open. It never writes over an existing file. FILE - is standard output.
With --from it writes out one of the built-in examples.

With --count it prints a sheet for the field instead: how to count points on a
lawn, with its plan and zones where FILE is its brief, which is left as it is,
in the language and units of the brief; without one, in those of the flags.`,
		Example: `  swardwright new lawn.toml
  swardwright new lawn.toml --near 57.1,-3.8
  swardwright new lawn.toml --near 57.1,-3.8 --area 84 --sun-hours 3.5
  swardwright new court.toml --from court
  swardwright new --count sheet.pdf lawn.toml`,
		Args: func(cmd *cobra.Command, args []string) error {
			if count != "" {
				return arguments(0, 1, "a brief")(cmd, args)
			}
			return arguments(1, 1, "the name of a file")(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if count != "" {
				if err := a.inLanguage(); err != nil {
					return err
				}
				return writeCount(cmd, count, size, sowing.Brief{Language: a.Language, Units: a.Units}, args)
			}
			a.stationGiven = a.Station != ""
			return writeNew(cmd, args[0], func() ([]byte, error) { return newBrief(cmd, a, from, noInput) })
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
	f.StringVar(&a.Language, "language", "en-GB", "language `tag` of words and forms of numbers")
	f.StringVar(&a.Labour, "labour", "", "`price` of an hour of work")
	f.StringVar(&a.Turf, "turf", "", "`price` of a square metre of turf")
	f.StringVar(&from, "from", "", "write out the built-in `example`: "+strings.Join(demoNames(), ", "))
	f.StringVar(&count, "count", "", "print a sheet to count the sward with, PDF, to `FILE`")
	paperFlag(cmd, &size)
	f.BoolVar(&noInput, "no-input", false, "ask nothing, on a terminal either")
	complete(cmd, "station", completeStations)
	complete(cmd, "grade", cobra.FixedCompletions([]string{"ornamental", "utility", "hard-wearing", "extensive"}, cobra.ShellCompDirectiveNoFileComp))
	complete(cmd, "units", cobra.FixedCompletions([]string{"metric", "us"}, cobra.ShellCompDirectiveNoFileComp))
	complete(cmd, "currency", completeCurrencies)
	complete(cmd, "language", completeLanguages)
	complete(cmd, "from", cobra.FixedCompletions(demoNames(), cobra.ShellCompDirectiveNoFileComp))
	return cmd
}

// writeNew writes the brief that make makes to a file that is not there yet, or to standard
// output. Whether it can be written is looked at before anything is asked.
func writeNew(cmd *cobra.Command, name string, make func() ([]byte, error)) error {
	if name == files.Std {
		brief, err := make()
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
	brief, err := make()
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
}

// newBrief makes the text of a new brief.
func newBrief(cmd *cobra.Command, a answers, from string, noInput bool) ([]byte, error) {
	if from != "" {
		text, err := demoText(from)
		if err != nil {
			return nil, wrongf("--from: there is no example %s; %s", plain.Quote(from), meant(from, demoNames(), "there are "))
		}
		return text, nil
	}
	// What the flags say is looked at before anything is asked.
	for _, q := range questions {
		if !cmd.Flags().Changed(q.flag) {
			continue
		}
		if err := q.take(&a, cmd.Flags().Lookup(q.flag).Value.String()); err != nil {
			return nil, wrongf("--%s: %w", q.flag, err)
		}
	}
	if a.stationGiven {
		if err := a.atStation(); err != nil {
			return nil, wrongf("--station: %w", err)
		}
	}
	if !noInput && terminal(cmd.InOrStdin()) {
		if err := a.ask(cmd); err != nil {
			return nil, err
		}
	}
	if a.Near == "" && !a.stationGiven {
		return nil, wrongf("%s needs to know where the lawn is: --near LAT,LON in degrees, or --station NAME; see: swardwright stations", cmd.CommandPath())
	}
	if err := a.inLanguage(); err != nil {
		return nil, err
	}
	if err := a.fault(""); err != nil {
		return nil, wrongf("%w", err)
	}
	return a.brief()
}

// inLanguage says what is wrong with the units and the language.
func (a *answers) inLanguage() error {
	for _, key := range []string{"units", "language"} {
		if err := a.fault(key); err != nil {
			return wrongf("--%s: %w", key, err)
		}
	}
	return nil
}

// question is one thing that a new brief has to say.
type question struct {
	flag, words string
	key         string // of the brief
	set         func(*answers, string) error
}

var questions = []question{
	{"title", "What shall the lawn be called", "title", func(a *answers, t string) error { a.Title = t; return nil }},
	{"near", "Where is it: latitude,longitude in degrees", "place", (*answers).near},
	{"area", "How large is it, m2", "lawn.area_m2", func(a *answers, t string) error { return numberTo(&a.AreaM2, t) }},
	{"sun-hours", "Hours of direct sun on a clear day, mean of the growing season", "light.sun_hours", func(a *answers, t string) error { return numberTo(&a.SunHours, t) }},
	{"grade", "What grade: ornamental, utility, hard-wearing, extensive", "use.grade", func(a *answers, t string) error { a.Grade = t; return nil }},
	{"currency", "Currency of the prices", "currency", func(a *answers, t string) error { a.Currency = t; return nil }},
	{"labour", "Price of an hour of work, empty for the example price", "prices.labour_per_hour", func(a *answers, t string) error { return amountTo(&a.Labour, t) }},
	{"turf", "Price of a square metre of turf, empty for the example price", "prices.turf_per_m2", func(a *answers, t string) error { return amountTo(&a.Turf, t) }},
}

// take takes an answer, and says what is wrong with it.
func (q question) take(a *answers, answer string) error {
	if err := q.set(a, answer); err != nil {
		return err
	}
	return a.fault(q.key)
}

// shown is what Enter takes.
func (q question) shown(a *answers) string {
	switch q.flag {
	case "title":
		return a.Title
	case "near":
		return a.Near
	case "area":
		return number(a.AreaM2)
	case "sun-hours":
		return number(a.SunHours)
	case "grade":
		return a.Grade
	case "currency":
		return a.Currency
	}
	return ""
}

// ask asks on the terminal for what no flag gave, each until the answer can be used.
func (a *answers) ask(cmd *cobra.Command) error {
	in, to := bufio.NewScanner(cmd.InOrStdin()), cmd.ErrOrStderr()
	fmt.Fprintln(to, "A few questions; Enter takes what stands in brackets.")
	for _, q := range questions {
		if cmd.Flags().Changed(q.flag) || q.flag == "near" && a.stationGiven {
			continue
		}
		for {
			fmt.Fprintf(to, "%s [%s]: ", q.words, q.shown(a))
			more := false
			if err := files.Within(cmd.Context(), func() error { more = in.Scan(); return nil }); err != nil {
				fmt.Fprintln(to)
				return err
			}
			if !more {
				return wrongf("the questions were not answered; nothing was written")
			}
			answer := strings.TrimSpace(in.Text())
			if answer == "" && (q.flag != "near" || a.Near != "") {
				break
			}
			was := *a
			err := q.take(a, answer)
			if err == nil {
				break
			}
			*a = was
			fmt.Fprintf(to, "That can't be used: %s.\n", plain.Line(err.Error()))
		}
	}
	return nil
}

// near settles position and, unless it was named, station.
func (a *answers) near(t string) error {
	lat, lon, err := position(t)
	if err != nil {
		return err
	}
	a.Near, a.Latitude, a.Longitude = t, lat, lon
	if a.stationGiven {
		return nil
	}
	tables, err := sowing.BuiltIn()
	if err != nil {
		return err
	}
	// Height is not asked for; the nearest station says the most.
	st, _ := tables.Stations.Nearest(lat, lon, math.NaN())
	a.Station = st.Name
	return nil
}

// atStation settles the station, and the place by it where no place is named.
func (a *answers) atStation() error {
	tables, err := sowing.BuiltIn()
	if err != nil {
		return err
	}
	st, ok := tables.Stations.Find(a.Station)
	if !ok {
		hint := "swardwright stations lists them"
		if near := tables.Stations.Suggest(a.Station); len(near) > 0 {
			hint = "did you mean " + strings.Join(near, " or ") + "?"
		}
		return fmt.Errorf("%s is no station of the table; %s", plain.Quote(a.Station), hint)
	}
	a.Station = st.Name
	if a.Near == "" {
		a.Latitude, a.Longitude = st.LatitudeDeg, st.LongitudeDeg
	}
	return nil
}

// fault reads the brief as it would be and gives what is wrong with one of its tables or
// keys, or with an empty key anything.
func (a *answers) fault(key string) error {
	text, err := a.brief()
	if err != nil {
		return err
	}
	_, err = sowing.ReadBrief("", text, nil)
	var faults sheet.Faults
	if !errors.As(err, &faults) {
		return err
	}
	i := slices.IndexFunc(faults, func(f sheet.Fault) bool { return strings.HasPrefix(f.Path, key) })
	if i < 0 {
		return nil
	}
	return errors.New(faults[i].Text)
}

var amount = regexp.MustCompile(`^\d{1,12}([.,]\d{1,6})?$`)

// amountTo takes an amount of money with the digits it is written with.
func amountTo(to *string, t string) error {
	if t != "" && !amount.MatchString(t) {
		return fmt.Errorf("needs an amount, like 31.50, is %s", plain.Quote(t))
	}
	*to = strings.Replace(t, ",", ".", 1)
	return nil
}

func numberTo(to *float64, t string) error {
	x, err := strconv.ParseFloat(strings.Replace(t, ",", ".", 1), 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return fmt.Errorf("needs a number, is %s", plain.Quote(t))
	}
	*to = x
	return nil
}

func number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// brief fills in the template.
func (a *answers) brief() ([]byte, error) {
	t, err := template.New("brief").Funcs(template.FuncMap{"quote": quoteTOML, "number": number}).Parse(newTemplate)
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
