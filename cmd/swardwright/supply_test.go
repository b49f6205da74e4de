package main

import (
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// TestNoNetwork holds the program to what the README says. Nothing it is built of
// uses net, but for the flag library, which only parses addresses with it.
func TestNoNetwork(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "-f", `{{.ImportPath}} {{join .Imports " "}}`, ".").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(string(out), "\n") {
		f := strings.Fields(line)
		if len(f) == 0 || f[0] == "github.com/spf13/pflag" {
			continue
		}
		if f[0] == "net/http" || slices.Contains(f[1:], "net") {
			t.Errorf("%s can open a connection", f[0])
		}
	}
}

// TestDependenciesListed holds docs/dependencies.md to go.mod.
func TestDependenciesListed(t *testing.T) {
	mod, err := os.ReadFile("../../go.mod")
	if err != nil {
		t.Fatal(err)
	}
	list, err := os.ReadFile("../../docs/dependencies.md")
	if err != nil {
		t.Fatal(err)
	}
	var listed []string
	for _, line := range strings.Split(string(list), "\n") {
		if cells := strings.Split(line, "|"); len(cells) > 2 && strings.Contains(cells[1], "/") {
			listed = append(listed, strings.TrimSpace(cells[1]))
		}
	}
	var direct []string
	for _, line := range strings.Split(string(mod), "\n") {
		if f := strings.Fields(line); strings.HasPrefix(line, "\t") && len(f) == 2 {
			direct = append(direct, f[0])
		}
	}
	slices.Sort(listed)
	slices.Sort(direct)
	if !slices.Equal(listed, direct) {
		t.Errorf("docs/dependencies.md lists %v, go.mod requires %v", listed, direct)
	}
}
