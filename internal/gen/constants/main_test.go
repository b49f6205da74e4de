package main

import (
	"bytes"
	"strings"
	"testing"

	"swardwright/data"
	"swardwright/internal/constants"
)

// TestTableIsTheSource: the table is what the source says now.
func TestTableIsTheSource(t *testing.T) {
	want, err := write("../../..")
	if err != nil {
		t.Fatal(err)
	}
	have, err := data.FS.ReadFile(constants.File)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(have, want) {
		t.Errorf("data/%s is not what the source says: go run ./internal/gen/constants > data/%[1]s", constants.File)
	}
}

// TestEveryConstantIsExplained: each says what it is or where it is from.
func TestEveryConstantIsExplained(t *testing.T) {
	table, err := constants.Load(data.FS)
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, g := range table.Groups {
		for _, c := range g.Constants {
			n++
			if strings.TrimSpace(g.About+c.Why) == "" {
				t.Errorf("%s.%s = %s says nothing of itself", g.Room, c.Name, c.Value)
			}
		}
	}
	if n < 400 {
		t.Errorf("%d constants found", n)
	}
}
