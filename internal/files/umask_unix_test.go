//go:build unix

package files

import (
	"context"
	"os"
	"path/filepath"
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

// TestFullDisk: where the disk is full, the old files stay and nothing is left lying.
func TestFullDisk(t *testing.T) {
	dir := t.TempDir()
	old := put(t, filepath.Join(dir, "plan.pdf"), "old")
	var had syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_FSIZE, &had); err != nil {
		t.Fatal(err)
	}
	few := had
	few.Cur = 1000 // bytes a file may have
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &few); err != nil {
		t.Skip("no limit to be set here:", err)
	}
	err := Write(context.Background(), nil, []Output{
		{Name: filepath.Join(dir, "small.json"), Data: []byte("new")},
		{Name: old, Data: make([]byte, 2000)},
	})
	if again := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &had); again != nil {
		t.Fatal(again)
	}
	if err == nil {
		t.Error("no error on a full disk")
	}
	holds(t, old, "old")
	alone(t, dir, "plan.pdf")
}
