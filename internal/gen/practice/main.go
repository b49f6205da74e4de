// Practice works out the site figures of every row of data/practice.toml from the
// row's brief, and writes them into it.
//
//	go run ./internal/gen/practice
package main

import (
	"context"
	"fmt"
	"math"
	"os"
	"reflect"
	"regexp"
	"strings"

	"swardwright/mix/practice"
	"swardwright/sowing"
)

const path = "data/" + practice.TableFile

func main() {
	if err := write(context.Background()); err != nil {
		fmt.Fprintln(os.Stderr, "practice:", err)
		os.Exit(1)
	}
}

func write(ctx context.Context) error {
	text, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	tables, err := sowing.BuiltIn()
	if err != nil {
		return err
	}
	out := string(text)
	for i := range tables.Practice.Rows {
		r := &tables.Practice.Rows[i]
		lawn, err := lawnOf(ctx, tables, r)
		if err != nil {
			return fmt.Errorf("%s: %w", r.ID, err)
		}
		if out, err = withSite(out, r.ID, lawn); err != nil {
			return err
		}
	}
	return os.WriteFile(path, []byte(out), 0o644)
}

// lawnOf is the lawn that a row's brief describes.
func lawnOf(ctx context.Context, t sowing.Tables, r *practice.Row) (practice.Lawn, error) {
	st, ok := t.Stations.Find(r.Station)
	if !ok {
		return practice.Lawn{}, fmt.Errorf("no station %q; like it: %v", r.Station, t.Stations.Suggest(r.Station))
	}
	text, err := r.Brief(st.LatitudeDeg)
	if err != nil {
		return practice.Lawn{}, err
	}
	b, err := sowing.ReadBrief(r.ID, text, nil)
	if err != nil {
		return practice.Lawn{}, err
	}
	c, err := b.Conditions(ctx, t)
	if err != nil {
		return practice.Lawn{}, err
	}
	return practice.LawnOf(c.AsPublished(), b.Use, b.Use.Grade, b.Living()), nil
}

// withSite sets the line of site figures of a row, the last one of its lines.
func withSite(text, id string, l practice.Lawn) (string, error) {
	row := regexp.MustCompile(`(?m)^\[\[row\]\]\nid = "` + regexp.QuoteMeta(id) + `"\n(?:.+\n)*`)
	at := row.FindStringIndex(text)
	if at == nil {
		return "", fmt.Errorf("%s: a row begins with [[row]] and its id, and ends with an empty line", id)
	}
	var lines []string
	for line := range strings.Lines(text[at[0]:at[1]]) {
		if !strings.HasPrefix(line, "site = ") {
			lines = append(lines, line)
		}
	}
	return text[:at[0]] + strings.Join(lines, "") + "site = " + inline(l) + "\n" + text[at[1]:], nil
}

// inline is a lawn as an inline table; what is nothing is left out.
func inline(l practice.Lawn) string {
	v := reflect.ValueOf(l)
	var keys []string
	for i := range v.NumField() {
		f, key := v.Field(i), v.Type().Field(i).Tag.Get("toml")
		switch {
		case f.IsZero():
		case f.Kind() == reflect.Float64:
			keys = append(keys, fmt.Sprintf("%s = %v", key, rounded(f.Float())))
		case f.Kind() == reflect.Bool:
			keys = append(keys, key+" = true")
		default:
			keys = append(keys, fmt.Sprintf("%s = %q", key, f))
		}
	}
	return "{ " + strings.Join(keys, ", ") + " }"
}

// rounded is to three figures, which is more than any of them is known to.
func rounded(x float64) float64 {
	if x == 0 {
		return 0
	}
	scale := math.Pow(10, 2-math.Floor(math.Log10(math.Abs(x))))
	return math.Round(x*scale) / scale
}
