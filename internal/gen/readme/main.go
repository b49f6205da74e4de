// Readme writes README.md with its worked example as the program prints it now:
//
//	go run ./internal/gen/readme
//
// The example is the text blocks of the README, each the beginning of a section of
// the demo's plan, up to the line that the block ends with.
package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"strings"

	"swardwright/data"
	"swardwright/report/text"
	"swardwright/sowing"
)

const fence = "```text\n"

func main() {
	if err := run("README.md"); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(file string) error {
	readme, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	printed, err := example()
	if err != nil {
		return err
	}
	renewed, err := renew(string(readme), printed)
	if err != nil {
		return err
	}
	return os.WriteFile(file, []byte(renewed), 0o644)
}

// example is the plan of the embedded demo as a terminal shows it.
func example() (string, error) {
	raw, err := data.FS.ReadFile("demo/court.toml")
	if err != nil {
		return "", err
	}
	brief, err := sowing.ReadBrief("court.toml", raw, nil)
	if err != nil {
		return "", err
	}
	tables, err := sowing.BuiltIn()
	if err != nil {
		return "", err
	}
	plan, err := sowing.NewPlan(context.Background(), tables, brief)
	if err != nil {
		return "", err
	}
	var out bytes.Buffer
	err = text.Plan(&out, plan, text.Look{Width: 80})
	return out.String(), err
}

// renew puts what is printed into the blocks of the README: from the block's first
// line to the line before the heading that followed it.
func renew(readme, printed string) (string, error) {
	parts := strings.Split(readme, fence)
	for i, p := range parts[1:] {
		block, rest, ok := strings.Cut(p, "\n```")
		if !ok {
			return "", fmt.Errorf("a block of the README is not closed")
		}
		first, _, _ := strings.Cut(block, "\n")
		at := strings.Index(printed, first+"\n")
		if at < 0 {
			return "", fmt.Errorf("the program no longer prints %q", first)
		}
		section := printed[at:]
		if end := nextHeading(section); end > 0 {
			section = section[:end]
		}
		parts[i+1] = strings.TrimRight(section, "\n") + "\n```" + rest
	}
	return strings.Join(parts, fence), nil
}

// nextHeading is where the next heading in capitals begins, after a blank line.
func nextHeading(s string) int {
	for at := 0; ; {
		i := strings.Index(s[at:], "\n\n")
		if i < 0 {
			return -1
		}
		at += i + 2
		line, _, _ := strings.Cut(s[at:], "\n")
		if line == strings.ToUpper(line) && strings.ContainsAny(line, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") {
			return at
		}
	}
}
