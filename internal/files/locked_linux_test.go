package files

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
)

// nobody is a user without rights, whose number is free on every Linux.
const nobody = 65534

// TestLockedFolder: into a folder that may not be written nothing goes, the old file
// is kept, and the files that could have been written aren't either. The rights of
// root don't end at a folder, so as root this thread reads and writes as nobody.
func TestLockedFolder(t *testing.T) {
	dir := t.TempDir()
	locked := filepath.Join(dir, "locked")
	if err := os.Mkdir(locked, 0o755); err != nil {
		t.Fatal(err)
	}
	old := filepath.Join(locked, "plan.pdf")
	if err := os.WriteFile(old, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(locked, 0o555); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chmod(locked, 0o755) })
	free := filepath.Join(dir, "plan.json")
	outputs := []Output{{Name: free, Data: []byte("new")}, {Name: old, Data: []byte("new")}}

	err := func() error {
		if os.Geteuid() == 0 {
			for at := dir; at != os.TempDir() && at != "/"; at = filepath.Dir(at) {
				if err := os.Chmod(at, 0o777); err != nil {
					t.Fatal(err)
				}
			}
			runtime.LockOSThread()
			defer runtime.UnlockOSThread()
			if err := syscall.Setfsuid(nobody); err != nil {
				t.Fatal(err)
			}
			defer syscall.Setfsuid(0)
		}
		return Write(context.Background(), io.Discard, outputs)
	}()
	if err == nil || !strings.Contains(err.Error(), old) || !strings.Contains(err.Error(), "permission denied") {
		t.Errorf("writing into a locked folder: %v", err)
	}
	if text, err := os.ReadFile(old); err != nil || string(text) != "old" {
		t.Errorf("the old file is now %q, %v", text, err)
	}
	if _, err := os.Stat(free); !os.IsNotExist(err) {
		t.Errorf("half of the files were written: %v", err)
	}
	if left, err := filepath.Glob(filepath.Join(dir, ".*")); err != nil || len(left) > 0 {
		t.Errorf("left lying: %v, %v", left, err)
	}
}
