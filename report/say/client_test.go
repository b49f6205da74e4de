package say_test

import (
	"context"
	"fmt"
	"io/fs"
	"os"
	"reflect"
	"slices"
	"testing"

	"swardwright/data"
	"swardwright/internal/briefs"
	"swardwright/report/content"
	"swardwright/report/draw"
	"swardwright/report/say"
	"swardwright/sowing"
)

// seeds are how many briefs by chance are planned; SEEDS has more.
const seeds = 20

// TestClientInOtherLanguages: the answer and the part that a client is given have nothing
// in them that another language of the catalogue lacks.
func TestClientInOtherLanguages(t *testing.T) {
	tables, err := sowing.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	n := seeds
	fmt.Sscan(os.Getenv("SEEDS"), &n)
	if testing.Short() {
		n = min(n, 3)
	}
	var all []sowing.Brief
	demos, err := fs.Glob(data.FS, "demo/*.toml")
	if err != nil || len(demos) == 0 {
		t.Fatal("no demos", err)
	}
	for _, name := range demos {
		raw, err := fs.ReadFile(data.FS, name)
		if err != nil {
			t.Fatal(err)
		}
		b, err := sowing.ReadBrief(name, raw, nil)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, b)
	}
	for seed := range uint64(n) {
		random := briefs.Random(1 + seed)
		b, err := sowing.ReadBrief("", []byte(random.Text), random.Open)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, b)
	}
	say.MarkEnglish(t)
	lacks := map[string][]string{} // by language and entry: what has it
	for i, b := range all {
		p, err := sowing.NewPlan(context.Background(), tables, b)
		if err != nil {
			t.Fatalf("brief %d: %v", i, err)
		}
		for _, language := range say.Languages() {
			p.Brief.Language = language
			s, err := say.For(p)
			if err != nil {
				t.Fatal(err)
			}
			for _, words := range slices.Concat(texts(content.New(&p, s, content.Client)), texts(content.CountSheet(&p, s))) {
				for _, name := range say.Marked(words) {
					if say.Has(language, name) {
						continue // in English for what stands in it
					}
					name = language + ": " + name
					lacks[name] = append(lacks[name], words)
				}
			}
		}
	}
	var names []string
	for name := range lacks {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		t.Errorf("%s is lacking: %s", name, lacks[name][0])
	}
}

// texts are all texts of a document and of its drawings.
func texts(d content.Document) []string {
	var out []string
	var walk func(v reflect.Value)
	walk = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.String:
			out = append(out, v.String())
		case reflect.Interface, reflect.Pointer:
			if f, ok := v.Interface().(content.Figure); ok {
				for _, width := range []float64{draw.Width, 90} {
					if drawn := f.Draw(width, 88); drawn != nil {
						out = append(out, drawn.Title, drawn.Desc)
						for _, t := range draw.Texts(drawn.Items) {
							out = append(out, t.S)
						}
					}
				}
			}
			if !v.IsNil() {
				walk(v.Elem())
			}
		case reflect.Slice, reflect.Array:
			for i := range v.Len() {
				walk(v.Index(i))
			}
		case reflect.Struct:
			for i := range v.NumField() {
				walk(v.Field(i))
			}
		}
	}
	walk(reflect.ValueOf(d))
	return out
}
