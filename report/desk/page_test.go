package desk

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// TestPageUnderNode runs the tests of the page's own modules, those that know no element of
// a page.
func TestPageUnderNode(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("there is no node to run the page's modules in")
	}
	dir := t.TempDir()
	for name, a := range Assets() {
		if filepath.Ext(name) == ".js" {
			write(t, filepath.Join(dir, name), a.Data)
		}
	}
	tests, err := filepath.Glob("testdata/*.test.js")
	if err != nil || len(tests) == 0 {
		t.Fatal("no tests of the modules")
	}
	for _, name := range tests {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		write(t, filepath.Join(dir, filepath.Base(name)), text)
	}
	write(t, filepath.Join(dir, "package.json"), []byte(`{"type": "module"}`))
	cmd := exec.CommandContext(t.Context(), node, "--test", dir)
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}

func write(t *testing.T, name string, data []byte) {
	t.Helper()
	if err := os.WriteFile(name, data, 0o600); err != nil {
		t.Fatal(err)
	}
}
