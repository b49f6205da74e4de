package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"swardwright/internal/plain"
)

// hostile is what a terminal would obey or hide: an escape sequence, a forged line, a turned
// direction, something without width.
const hostile = "\x1b]0;owned\x07\x1b[2J\nforged.toml: sound\r\u202egnp\u200b"

// TestHostileText puts it wherever a word of the user's goes: nothing of it reaches
// the terminal as it is, and a line is a line.
func TestHostileText(t *testing.T) {
	t.Chdir(t.TempDir())
	quoted := quoteTOML(hostile)
	const sound = "title = \"A lawn\"\n[place]\nlatitude = 57.1\nlongitude = -3.8\n[lawn]\narea_m2 = 84\n[use]\ngrade = \"utility\"\n"
	put := func(name, text string) string {
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Skip("no such names here:", err)
		}
		return name
	}
	put("w.epw", "LOCATION,"+hostile[:4]+",-,X,"+hostile[:4]+",1,"+hostile[:4]+",174.0,12.0,23.0\n")
	hidden := put("lawn"+hostile+".toml", sound)
	if err := os.Mkdir("folder", 0o700); err != nil {
		t.Fatal(err)
	}
	put("folder/"+"x\x1b[31m\u202e.toml", sound)
	for _, args := range [][]string{
		{"check", put("title.toml", strings.Replace(sound, `"A lawn"`, quoted, 1))},
		{"check", put("key.toml", sound+quoted+" = 1\n")},
		{"check", put("table.toml", sound+"["+quoted+"]\n")},
		{"check", put("value.toml", strings.Replace(sound, `"utility"`, quoted, 1))},
		{"check", put("raw.toml", sound+"area = "+strings.ReplaceAll(hostile, "\n", "")+"\n")},
		{"check", put("part.toml", sound+"[[premix]]\nparts = { "+quoted+" = 100 }\n")},
		{"check", put("lot.toml", sound+"[[seed_lot]]\nspecies = "+quoted+"\n")},
		{"check", put("price.toml", sound+"[prices]\n"+quoted+" = 1\n")},
		{"check", put("station.toml", strings.Replace(sound, "latitude", "station = "+quoted+"\nlatitude", 1))},
		{"check", put("currency.toml", "currency = "+quoted+"\n"+sound)},
		{"check", put("language.toml", "language = "+quoted+"\n"+sound)},
		{"check", put("genus.toml", strings.Replace(sound, "area_m2 = 84", "outline = [[0, 0], [9, 0], [9, 9]]\n[[obstacle]]\nkind = \"tree\"\ngenus = "+quoted, 1))},
		{"check", put("epw.toml", sound+"[climate]\nepw = "+quoted+"\n")},
		{"check", put("weather.toml", sound+"[climate]\nepw = \"w.epw\"\n")},
		{"check", hostile},
		{"light", hidden, "--json", hidden},
		{"light", hidden, "--days", hostile},
		{"plan", hidden, hidden},
		{"plan", hidden, "--json", "no/" + hostile},
		{"plan", "--" + hostile},
		{"plan", "-" + hostile},
		{"plan", "--paper", hostile},
		{"plan", hidden, "--why", hostile},
		{"plan", "folder", "nowhere.toml"},
		{"species", hostile},
		{"stations", "--near", hostile},
		{"prices", "--currency", hostile},
		{"matrix", hidden, "--why", hostile},
		{"new", hidden},
		{"new", "new" + hostile + ".toml"},
		{"new", "x.toml", "--near", "57,3", "--title", hostile},
		{"new", "x.toml", "--station", hostile},
		{"new", "x.toml", "--near", "57,3", "--grade", hostile},
		{"new", "x.toml", "--area", hostile},
		{"new", "x.toml", "--from", hostile},
		{"help", hostile},
		{hostile},
	} {
		var out, errs bytes.Buffer
		run(context.Background(), args, strings.NewReader(""), &out, &errs)
		said := out.String() + errs.String()
		if said == "" {
			t.Errorf("%q says nothing", args)
		}
		for line := range strings.Lines(said) {
			if r, strange := plain.Strange(strings.TrimSuffix(line, "\n")); strange {
				t.Errorf("%q: %U reaches the terminal: %q", args, r, line)
			}
			if strings.HasPrefix(line, "forged") {
				t.Errorf("%q: a forged line: %q", args, line)
			}
		}
	}
}

// TestLongValues: a value of a megabyte makes no message of a megabyte.
func TestLongValues(t *testing.T) {
	name := filepath.Join(t.TempDir(), "long.toml")
	long := strings.Repeat("x", 900_000)
	for _, line := range []string{
		"title = \"" + long + "\"", "units = \"" + long + "\"", long + " = 1", "area = " + long, "area = " + strings.Repeat("1", 900_000) + ",5",
		"two words " + long + " = 3", "language = \"" + long[:400] + "\"", "currency = \"" + long[:400] + "\"",
		"[place]\nstation = \"" + long[:400] + "\"", "[[seed_lot]]\nspecies = \"" + long[:400] + "\"",
	} {
		if err := os.WriteFile(name, []byte(line+"\n"), 0o600); err != nil {
			t.Fatal(err)
		}
		var out, errs bytes.Buffer
		if got := run(context.Background(), []string{"check", name}, nil, &out, &errs); got != exitWrong {
			t.Errorf("%.20s… ends with %d", line, got)
		}
		for said := range strings.Lines(errs.String()) {
			if len(said) > len(name)+400 {
				t.Errorf("%.20s… is told in %d bytes: %.80s…", line, len(said), said)
			}
		}
	}
}
