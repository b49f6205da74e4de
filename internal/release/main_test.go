package main

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// TestTwice builds the archive of one system from two clones in different places: the
// same bytes, with all in them that has to be there.
func TestTwice(t *testing.T) {
	if testing.Short() {
		t.Skip("builds take a while")
	}
	system := runtime.GOOS + "/" + runtime.GOARCH
	if runtime.GOOS == "windows" {
		system = "linux/amd64"
	}
	var builds [2]map[string][]byte
	for i, place := range []string{"a", filepath.Join("another", "place")} {
		clone := filepath.Join(t.TempDir(), place)
		if out, err := exec.Command("git", "clone", "-q", "--no-tags", filepath.Join("..", ".."), clone).CombinedOutput(); err != nil {
			t.Skipf("no clone to be had: %v, %s", err, out)
		}
		to := t.TempDir()
		if err := release(clone, to, []string{system}); err != nil {
			t.Fatal(err)
		}
		builds[i] = map[string][]byte{}
		entries, err := os.ReadDir(to)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			if builds[i][e.Name()], err = os.ReadFile(filepath.Join(to, e.Name())); err != nil {
				t.Fatal(err)
			}
		}
	}
	if len(builds[0]) != 2 || len(builds[1]) != 2 {
		t.Fatalf("%d and %d files, want an archive and the checksums", len(builds[0]), len(builds[1]))
	}
	for name, data := range builds[0] {
		if !bytes.Equal(data, builds[1][name]) {
			t.Errorf("%s is not the same twice", name)
		}
		if strings.HasSuffix(name, ".tar.gz") {
			checkArchive(t, data)
		}
	}
}

func checkArchive(t *testing.T, data []byte) {
	z, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	holds := map[string]int64{}
	for r := tar.NewReader(z); ; {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		_, name, _ := strings.Cut(h.Name, "/")
		holds[name] = h.Size
		text, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		for _, at := range []string{os.TempDir() + "/", "/root/", os.Getenv("HOME") + "/"} {
			if len(at) > 2 && bytes.Contains(text, []byte(at)) && name == program {
				t.Errorf("%s tells of this machine: %s", name, at)
			}
		}
		if name == "NOTICES.txt" {
			for _, module := range []string{"Go\n", "github.com/spf13/cobra", "golang.org/x/image", "The Go fonts"} {
				if !bytes.Contains(text, []byte(module)) {
					t.Errorf("no notice of %s", module)
				}
			}
		}
	}
	for _, name := range []string{program, "LICENSE", "README.md", "CHANGELOG.md", "NOTICES.txt", "man/swardwright.1", "completions/swardwright.bash", "completions/_swardwright", "completions/swardwright.fish", "completions/swardwright.ps1"} {
		if holds[name] == 0 {
			t.Errorf("no %s, or an empty one", name)
		}
	}
}
