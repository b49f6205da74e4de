package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestReadmeExample compares the worked example of the README with what the
// program prints, block by block.
func TestReadmeExample(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	binary := filepath.Join(t.TempDir(), "swardwright")
	if out, err := exec.Command("go", "build", "-o", binary, ".").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	plan := exec.Command(binary, "plan")
	plan.Dir = t.TempDir()
	var printed, said bytes.Buffer
	plan.Stdout, plan.Stderr = &printed, &said
	if err := plan.Run(); err != nil {
		t.Fatalf("%v\n%s", err, said.String())
	}
	blocks := 0
	for i, block := range strings.Split(string(readme), "```text\n") {
		if i == 0 {
			continue
		}
		text, _, _ := strings.Cut(block, "\n```")
		blocks++
		if !strings.Contains(printed.String(), text) {
			t.Errorf("the README shows what the program doesn't print:\n%s", text)
		}
	}
	if blocks == 0 {
		t.Error("the README has no example")
	}
}
