package main

import (
	"os"
	"strings"
	"testing"

	"swardwright/internal/sheet"
	"swardwright/sowing"
)

// TestReadmeKeys: every key that a brief can have stands in the README.
func TestReadmeKeys(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	tables, err := sowing.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range sowing.Keys(tables) {
		name := a.Path[strings.LastIndex(a.Path, ".")+1:]
		quoted := "`" + name + "`"
		if a.Kind == sheet.OneTable || a.Kind == sheet.SomeTables {
			quoted = name
		}
		if strings.HasPrefix(a.Path, "prices.") {
			continue // swardwright prices lists them
		}
		if !strings.Contains(string(readme), quoted) {
			t.Errorf("the README has no word of %s", a.Path)
		}
	}
}
