package main

import (
	"bytes"
	"os"
	"testing"
)

// TestPageMatchesTables holds the committed page to the tables.
func TestPageMatchesTables(t *testing.T) {
	committed, err := os.ReadFile("../../../docs/sources.md")
	if err != nil {
		t.Fatal(err)
	}
	var fresh bytes.Buffer
	if err := write(&fresh); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(committed, fresh.Bytes()) {
		t.Error("docs/sources.md is not what the tables say: go run ./internal/gen/sources > docs/sources.md")
	}
}
