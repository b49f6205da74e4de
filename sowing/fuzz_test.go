package sowing

import (
	"reflect"
	"strings"
	"testing"

	"swardwright/data"
	"swardwright/internal/sheet"
)

// FuzzReadBrief reads any text: never a panic, the same answer each time, and
// either a brief or faults that each say something.
func FuzzReadBrief(f *testing.F) {
	for _, c := range readCases(f) {
		f.Add([]byte(c.brief()))
	}
	for _, name := range []string{"court", "family-us", "orchard"} {
		text, err := data.FS.ReadFile("demo/" + name + ".toml")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		b, err := ReadBrief("a.toml", text, noFile)
		again, err2 := ReadBrief("a.toml", text, noFile)
		if !reflect.DeepEqual(b, again) || !reflect.DeepEqual(err, err2) {
			t.Errorf("two readings differ: %v, %v", err, err2)
		}
		if err == nil {
			if b.Title == "" || b.Site.Lawn.AreaM2 <= 0 || b.Use.Grade == "" {
				t.Errorf("a brief without what it needs: %+v", b)
			}
			return
		}
		faults, ok := err.(sheet.Faults)
		if !ok {
			t.Fatalf("the error is no list of faults: %v", err)
		}
		for _, x := range faults {
			if strings.TrimSpace(x.Text) == "" || x.Line < 0 || x.Line > strings.Count(string(text), "\n")+1 {
				t.Errorf("a fault that says nothing: %+v", x)
			}
		}
	})
}
