//go:build unix

package files

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// TestUmask: new files get the permissions that the user's mask allows, no more and
// no less.
func TestUmask(t *testing.T) {
	dir := t.TempDir()
	defer syscall.Umask(syscall.Umask(0))
	for _, mask := range []int{0o022, 0o077, 0o002} {
		syscall.Umask(mask)
		plan, brief := filepath.Join(dir, "plan.json"), filepath.Join(dir, "new.toml")
		if err := Write(context.Background(), nil, []Output{{Name: plan}}); err != nil {
			t.Fatal(err)
		}
		if err := WriteNew(brief, nil); err != nil {
			t.Fatal(err)
		}
		for _, name := range []string{plan, brief} {
			info, err := os.Stat(name)
			if err != nil {
				t.Fatal(err)
			}
			if got, want := info.Mode().Perm(), os.FileMode(0o666&^mask); got != want {
				t.Errorf("%s under %03o has %v, want %v", name, mask, got, want)
			}
			os.Remove(name)
		}
	}
}

// TestFullDisk: where the disk is full, the old files stay and nothing is left lying. The
// disk is a process that may write no file of more than a few bytes.
func TestFullDisk(t *testing.T) {
	dir := t.TempDir()
	old := put(t, filepath.Join(dir, "plan.pdf"), "old")
	run := exec.Command(os.Args[0])
	run.Env = append(os.Environ(), fullDir+"="+dir)
	said, err := run.CombinedOutput()
	if err == nil || !strings.Contains(string(said), "cannot write "+old) || !strings.Contains(string(said), "file too large") {
		t.Errorf("on a full disk: %v, %s", err, said)
	}
	holds(t, old, "old")
	alone(t, dir, "plan.pdf")
}

// writeOnFullDisk is the other process.
func writeOnFullDisk(dir string) {
	var limit syscall.Rlimit
	err := syscall.Getrlimit(syscall.RLIMIT_FSIZE, &limit)
	limit.Cur = 1000 // bytes
	if err == nil {
		err = syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit)
	}
	if err == nil {
		err = Write(context.Background(), nil, []Output{
			{Name: filepath.Join(dir, "small.json"), Data: []byte("new")},
			{Name: filepath.Join(dir, "plan.pdf"), Data: make([]byte, 2000)},
		})
	}
	if err != nil {
		fmt.Println(err)
		os.Exit(1)
	}
}
