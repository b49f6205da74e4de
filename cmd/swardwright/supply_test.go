package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// TestNoNetwork holds the program to what the README says. Nothing it is built of uses
// net but the flag library, which only parses addresses with it, and the one package that
// listens, on this machine alone; and nothing in that connects to anything.
func TestNoNetwork(t *testing.T) {
	const listens = "swardwright/report/desk/loopback"
	out, err := exec.Command("go", "list", "-deps", "-f", `{{if not .Standard}}{{.ImportPath}} {{join .Imports " "}}{{end}}`, ".").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(string(out), "\n") {
		f := strings.Fields(line)
		if len(f) == 0 || f[0] == "github.com/spf13/pflag" || f[0] == listens {
			continue
		}
		if slices.ContainsFunc(f[1:], func(p string) bool {
			return p == "net" || p == "net/http" || p == "syscall/js" || p == "net/rpc" || p == "net/smtp"
		}) {
			t.Errorf("%s can open a connection", f[0])
		}
	}
	sources, err := filepath.Glob("../../report/desk/loopback/*.go")
	if err != nil || len(sources) == 0 {
		t.Fatal("the package that listens is gone")
	}
	connects := regexp.MustCompile(`\bDial|http\.(Get|Post|Head|Client|DefaultClient|Transport|NewRequest)`)
	for _, name := range sources {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if !strings.HasSuffix(name, "_test.go") && connects.Match(text) {
			t.Errorf("%s can open a connection", name)
		}
		if listening := regexp.MustCompile(`net\.Listen\(.*`).FindString(string(text)); listening != "" && !strings.Contains(listening, `"127.0.0.1:0"`) && !strings.HasSuffix(name, "_test.go") {
			t.Errorf("%s listens elsewhere: %s", name, listening)
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
