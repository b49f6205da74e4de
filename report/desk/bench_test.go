package desk

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"swardwright/sowing"
)

func demo(t testing.TB, name string) string {
	text, err := os.ReadFile("../../data/demo/" + name + ".toml")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func newDesk(t testing.TB) *Desk {
	tables, err := sowing.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	return New(tables, nil)
}

// garden is an invented lawn of 400 m² among twelve obstacles.
func garden() string {
	var b strings.Builder
	b.WriteString("title = \"Garden\"\n[place]\nlatitude = 57.1\nstation = \"Aviemore\"\n[lawn]\noutline = [[0, 0], [20, 0], [20, 20], [0, 20]]\n[use]\ngrade = \"utility\"\n")
	for i := range 6 {
		x := float64(4*i - 2)
		fmt.Fprintf(&b, "[[obstacle]]\nkind = \"solid\"\nheight_m = %d\nfootprint = [[%g, -6], [%g, -6], [%g, -2], [%g, -2]]\n", 3+i, x, x+3, x+3, x)
		fmt.Fprintf(&b, "[[obstacle]]\nkind = \"tree\"\nheight_m = %d\ncrown_m = 4\nclear_stem_m = 2\nat = [%g, 23]\n", 6+i, x)
	}
	return b.String()
}

// BenchmarkDrag is one step of a drag of a corner, with about 400 cells.
func BenchmarkDrag(b *testing.B) {
	for name, text := range map[string]string{"court": demo(b, "court"), "garden": garden()} {
		b.Run(name, func(b *testing.B) {
			d, n := newDesk(b), 0
			for b.Loop() {
				n++
				request, err := json.Marshal(Request{Text: text, Want: Want{Cells: 400}, Edits: []Edit{{
					Path: []any{"lawn", "outline"}, Value: []any{[]any{0, 0}, []any{14 - float64(n%10)/10, 0}, []any{14, 10}, []any{0, 10}},
				}}})
				if err != nil {
					b.Fatal(err)
				}
				if _, err := d.AnswerJSON(b.Context(), request); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkPlan is the whole plan as the page asks for it at rest.
func BenchmarkPlan(b *testing.B) {
	for name, text := range map[string]string{"court": demo(b, "court"), "orchard": demo(b, "orchard"), "family-us": demo(b, "family-us"), "garden": garden()} {
		b.Run(name, func(b *testing.B) {
			d := newDesk(b)
			request, err := json.Marshal(Request{Text: text, Want: Want{Plan: true, Parts: []string{"client", "crew"}}})
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				if _, err := d.AnswerJSON(b.Context(), request); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
