package desk

import (
	"encoding/json"
	"os"
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

// BenchmarkDrag is one step of a drag with about 400 cells.
func BenchmarkDrag(b *testing.B) {
	d, text := newDesk(b), demo(b, "court")
	for b.Loop() {
		request, _ := json.Marshal(Request{Text: text, Want: Want{Cells: 400}, Edits: []Edit{{
			Path:  []any{"lawn", "outline"},
			Value: []any{[]any{0, 0}, []any{14.2, 0}, []any{14, 7}, []any{11, 7}, []any{11, 10}, []any{0, 10}},
		}}})
		if _, err := d.AnswerJSON(b.Context(), request); err != nil {
			b.Fatal(err)
		}
	}
}
func BenchmarkPlan(b *testing.B) {
	d, text := newDesk(b), demo(b, "court")
	for b.Loop() {
		request, _ := json.Marshal(Request{Text: text, Want: Want{Plan: true}})
		if _, err := d.AnswerJSON(b.Context(), request); err != nil {
			b.Fatal(err)
		}
	}
}
